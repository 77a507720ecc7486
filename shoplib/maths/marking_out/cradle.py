"""The cradle: a V in a block's face, and the lines that a point slid along the face draws on the leg in it."""

import math

from shoplib.maths.functions import asin, cos, sin, tan
from shoplib.model import Caution, Input, Model, ShapeError, angle, length, model, result

STEEPEST_TILT = math.pi / 4  # most saws tilt to 45 deg
WIDEST = math.radians(150)
SHOWS = 0.25  # mm of depth off the level one
THIN = 8.0  # mm of wood below the V
HAIR = 1e-9


@model
class Cradle(Model):
    """A round leg in a V sawn into a block's face; a point slid along the face draws a line on either side.

    `v_depth` left out: the depth at which the two lines are half a turn apart.

    >>> cradle = Cradle("35 mm", block_height="60 mm")
    >>> cradle.level_depth.round(2), cradle.lines_apart.round(6)
    (<Quantity(24.75, 'millimeter')>, <Quantity(180.0, 'degree')>)
    """

    leg_diameter: Input = length(
        "leg diameter", "D", low="15 mm", high="90 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.2 mm",
        help="Of the leg that lies in the V.", group="Leg",
    )
    v_angle: Input = angle(
        "angle of the V", "nu", low="60 deg", high="120 deg", step="1 deg", tolerance="0.5 deg",
        help="Between the V's two faces.", default="90 deg", group="Cradle",
    )
    v_depth: Input = length(
        "depth of the V", "v", low="5 mm", high="120 mm", step="0.25 mm", inch_step="1/64 in", tolerance="0.25 mm",
        help="From the block's face down to the V's bottom. Left out: the depth that draws lines half a turn apart.",
        default=None, group="Cradle",
    )
    point_height: Input = length(
        "point above the face", "p", low="0 mm", high="20 mm", step="0.5 mm", inch_step="1/64 in", tolerance="0.2 mm",
        help="0 for a knife on the face; a pencil lying on it draws at half its thickness, 3.5 mm.", default="0 mm",
        group="Marking",
    )
    block_height: Input = length(
        "block height", "h", low="15 mm", high="200 mm", step="1 mm", inch_step="1/16 in", tolerance="0.5 mm",
        help="From the block's underside to its face. Left out where it does not matter.", default=None,
        group="Cradle",
    )

    def check(self):
        if self.v_angle > WIDEST:
            raise ShapeError(
                f"A V of {math.degrees(self.v_angle):.0f} deg holds no leg: it must be 150 deg or less. Make it "
                "steeper.", input="v_angle",
            )
        if self.touch_below < -HAIR:
            self._refuse_shallow()
        if self.has("block_height") and self.left_below <= 0:
            raise ShapeError(
                "A V {} deep saws a block {} high in two. Take a higher block.",
                self.depth, self.block_height, input="block_height",
            )

    def _refuse_shallow(self):
        """The leg would ride on the V's edges: by the depth that was given, or by what the point's height asks for."""
        if self.has("v_depth"):
            raise ShapeError(
                "In a V {} deep the leg rides on the V's edges, not on its faces. Make it at least {} deep.",
                self.depth, self.touching, input="v_depth",
            )
        raise ShapeError(
            "For a point {} above the face the V would have to be so shallow that the leg rides on its edges. Bring "
            "the point down to {} or less.", self.point_height, self.seat - self.touching, input="point_height",
        )

    def on_card(self):
        """First the saw: tilt, depth and width; then what they make."""
        return ("blade_tilt", "depth", "mouth", "sawn_face", "left_below", "lines_apart", "centre_above", "touch_below")

    @result("V's bottom to leg's centre", "r", step="0.05 mm")
    def seat(self):
        """From the V's bottom up to the centre of the leg that lies in it: a circle that touches two lines."""
        return self.leg_diameter / 2 / sin(self.v_angle / 2)

    @result("depth for lines half a turn apart", "v_0", step="0.05 mm")
    def level_depth(self):
        """The V's depth at which the point stands at the height of the leg's centre."""
        return self.seat - self.point_height

    @result("depth to saw the V", "V", step="0.05 mm", checks="v_depth", plan=True, to_set=True)
    def depth(self):
        """From the block's face to the V's bottom: as given, or where left out the level depth."""
        return self.v_depth if self.has("v_depth") else self.level_depth

    @result("mouth of the V", "w", to_set=True)
    def mouth(self):
        """Width of the V at the block's face."""
        return 2 * self.depth * tan(self.v_angle / 2)

    @result("sawn face", "f")
    def sawn_face(self):
        """Width of either face of the V, from the block's face to the bottom."""
        return self.depth / cos(self.v_angle / 2)

    @result("blade tilt", "theta", kind="angle", checks="v_angle", to_set=True)
    def blade_tilt(self):
        """Of the saw's blade, from upright, the block lying on the saw's table with the face to be cut."""
        return self.v_angle / 2

    @result("leg's centre above the face", "z", step="0.05 mm")
    def centre_above(self):
        """From the block's face up to the leg's centre; below the face: less than nothing."""
        return self.seat - self.depth

    @result("leg touches below the face", "u")
    def touch_below(self):
        """From the block's face down to the lines on which the leg touches the V's faces."""
        return self.depth - self.touching

    @result("least depth of the V", "u_0", minor=True)
    def touching(self):
        """From the V's bottom up to the lines on which the leg touches its faces."""
        return self.leg_diameter / 2 * cos(self.v_angle / 2) ** 2 / sin(self.v_angle / 2)

    @result("the two lines apart", "lambda", kind="angle")
    def lines_apart(self):
        """Angle at the leg's centre between the two lines that the point draws, over the top; 180 deg is right.

        Raises ShapeError where the point passes over or under the leg.
        """
        off = (self.centre_above - self.point_height) / (self.leg_diameter / 2)
        if type(off) is float and abs(off) > 1:
            raise ShapeError(
                "The point slides {} above or below the leg's centre and misses the leg, whose radius is {}. Bring "
                "the leg's centre to the point's height, by the V's depth.",
                abs(self.centre_above - self.point_height), self.leg_diameter / 2,
                input="v_depth" if self.has("v_depth") else "point_height",
            )
        return self.pi + 2 * asin(off)

    @result("left below the V", "b")
    def left_below(self):
        """Wood between the V's bottom and the block's underside."""
        return self.block_height - self.depth

    def worries(self):
        if self.blade_tilt > STEEPEST_TILT + HAIR:
            yield Caution(
                "Most saws stop at a tilt of 45 deg: stand the block on edge, or take a V of 90 deg.", input="v_angle",
            )
        if self.level_depth < self.touching - HAIR:
            yield Caution(
                "The point slides too high: no V of this angle holds the leg with its centre at that height. Bring the "
                "point down to {} above the face or less.", self.seat - self.touching, input="point_height",
                source="geometry",
            )
        elif abs(self.depth - self.level_depth) > SHOWS + HAIR:
            yield Caution(
                "The V is {} off the depth that draws lines half a turn apart ({}).",
                abs(self.depth - self.level_depth), (self.level_depth, "0.05 mm", "1/64 in"), input="v_depth",
                source="geometry",
            )
        if self.has("block_height") and self.left_below < THIN:
            yield Caution(
                "Only {} of wood are left below the V: the block can split. Take a higher block.",
                self.left_below, input="block_height",
            )
