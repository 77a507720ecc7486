"""Two boards glued to a right angle that guide the drill into a round leg, a quarter turn apart."""

from shoplib.maths.functions import asin
from shoplib.model import Caution, Input, Model, ShapeError, length, model, result


@model
class CornerBlock(Model):
    """Two boards at a right angle, pressed to the leg, one hole through each, square to its face, at one height.

    The long board covers the short one's end. A block made for another leg marks at a wrong angle.

    >>> block = CornerBlock("35 mm", made_for="38 mm")
    >>> block.angle_between.round(2)
    <Quantity(99.83, 'degree')>
    """

    leg_diameter: Input = length(
        "leg diameter", "D", low="15 mm", high="90 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.2 mm",
        help="Of the leg that lies in the corner.", group="Leg",
    )
    made_for: Input = length(
        "block made for", "m", low="15 mm", high="90 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.2 mm",
        help="Diameter of the leg that the block was made for. Left out: this leg.", default=None, group="Block",
    )
    board_thickness: Input = length(
        "board thickness", "t", low="5 mm", high="40 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.2 mm",
        help="Of both boards.", default="12 mm", group="Block",
    )

    def check(self):
        if not self.leg_diameter / 2 <= self.size < 2 * self.leg_diameter:
            raise ShapeError(
                "A block made for {} does not guide a drill into a leg of {}. Made for less than {} its boards are "
                "too narrow for the leg to touch; made for {} or more the drill passes the leg by. Make a block for "
                "this leg.",
                self.size, self.leg_diameter, self.leg_diameter / 2, 2 * self.leg_diameter, input="made_for",
            )

    def on_card(self):
        """The boards, their holes, then what comes of it."""
        return ("short_board", "long_board", "hole_from_corner", "hole_from_end", "angle_between", "off_centre")

    @result("the block's leg", "M", plan=True, minor=True)
    def size(self):
        """Diameter of the leg that the block fits: the one that it was made for, or this one."""
        return self.made_for if self.has("made_for") else self.leg_diameter

    @result("short board, width", "l_s", to_set=True)
    def short_board(self):
        """Width of the short board, from the corner to its free edge: the leg it is made for lies flush in it."""
        return 1 * self.size

    @result("long board, width", "l_l", to_set=True)
    def long_board(self):
        """Width of the long board, which covers the short one's end."""
        return self.size + self.board_thickness

    @result("hole from the corner", "c", step="0.05 mm", checks="made_for", to_set=True)
    def hole_from_corner(self):
        """From the other board's inner face to the hole's centre, in either board."""
        return self.size / 2

    @result("hole from the long board's end", "c_l", step="0.05 mm", to_set=True)
    def hole_from_end(self):
        """From the long board's end at the corner to its hole's centre: the short board's thickness is added."""
        return self.hole_from_corner + self.board_thickness

    @result("angle between the two marks", "beta", kind="angle", checks="made_for")
    def angle_between(self):
        """Between the two places where the drill's middle meets the leg, seen along the leg; 90 deg is right.

        The leg touches both boards, so its centre stands half its own diameter from each; a hole that stands
        half another diameter from the corner meets the leg beside its middle.
        """
        return self.pi / 2 + 2 * asin((self.size - self.leg_diameter) / self.leg_diameter)

    @result("hole passes the leg's centre by", "z", step="0.05 mm", checks="made_for")
    def off_centre(self):
        """How far beside the leg's centre the hole runs when it is bored through the block; nothing is right.

        Positive: on the side away from the corner. Such holes stay square to each other, but both rails come to lie
        beside the leg's centre line.

        >>> CornerBlock("35 mm", made_for="38 mm").off_centre
        <Quantity(1.5, 'millimeter')>
        """
        return (self.size - self.leg_diameter) / 2

    def worries(self):
        if abs(self.size - self.leg_diameter) > 1e-9:
            yield Caution(
                "This block was made for a leg of {}, not of {}: its marks are not a quarter turn apart, and what is "
                "bored through it runs {} beside the leg's centre. Make a block for this leg.",
                self.size, self.leg_diameter, (abs(self.off_centre), "0.05 mm", "1/64 in"), input="made_for",
                source="geometry",
            )
        if self.board_thickness < 8:
            yield Caution(
                "A hole in a board {} thick guides a drill badly: take a thicker one.", self.board_thickness,
                input="board_thickness",
            )
