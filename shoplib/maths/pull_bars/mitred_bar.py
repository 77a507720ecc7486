"""A round bar with an arm mitred to each end: lengths, mitres, and what a slip of either angle does."""

from shoplib.maths.functions import cos, sin, tan
from shoplib.model import Caution, Input, Model, ShapeError, angle, length, model, result

GLUE_FILLS = 0.2  # mm: common practice


@model
class MitredBar(Model):
    """A round pull bar with an arm mitred to each end.

    >>> bar = MitredBar("19 mm", "360 mm", "52.5 mm")
    >>> bar.bar_long.round(2), bar.arm_long.round(2)
    (<Quantity(379.0, 'millimeter')>, <Quantity(62.0, 'millimeter')>)
    """

    bar_diameter: Input = length(
        "bar diameter", "D", low="10 mm", high="50 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.2 mm",
        help="Of bar and arms, rounded before they are mitred.", group="Bar",
    )
    width: Input = length(
        "width", "W", low="100 mm", high="1000 mm", step="1 mm", inch_step="1/16 in", tolerance="0.5 mm",
        help="Between the arms' centre lines, where they cross the bar's centre line.", group="Bar",
    )
    reach: Input = length(
        "reach", "R", low="20 mm", high="300 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.5 mm",
        help="Square to the bar, from its centre line to the leg's surface.", group="Bar",
    )
    corner: Input = angle(
        "corner", "gamma", low="60 deg", high="150 deg", step="1 deg", tolerance="0.2 deg",
        help="Inside angle between bar and arm.", default="90 deg", group="Bar",
    )
    leg_end: Input = length(
        "arm beyond the leg's surface", "k", low="0 mm", high="40 mm", step="0.5 mm", inch_step="1/32 in",
        tolerance="0.3 mm", help="Cope tips, or the depth let into the leg.", default="0 mm", group="Bar",
    )
    mitre_error: Input = angle(
        "mitre out by", "epsilon", low="-3 deg", high="3 deg", step="0.1 deg", tolerance="0.1 deg",
        help="Of every mitre; positive: sawn too shallow.", default="0 deg", group="Slips",
    )
    roll: Input = angle(
        "bar rolled by", "rho", low="0 deg", high="10 deg", step="0.1 deg", tolerance="0.2 deg",
        help="How far the bar's two mitres are turned against each other about its axis.", default="0 deg",
        group="Slips",
    )

    def check(self):
        if self.bar_short <= 0:
            raise ShapeError(
                "The bar's two mitres meet before its short side begins: a width of {} is too little for {} thick "
                "stock. Make the bar wider.", self.width, self.bar_diameter, input="width",
            )
        if self.arm_short <= 0:
            raise ShapeError(
                "A reach of {} leaves no short side of the arm. Make the reach longer or the bar thinner.",
                self.reach, input="reach",
            )

    def on_card(self):
        """First the saw's angle, then the two bars' lengths, then what tells a slip."""
        found = ("mitre_angle", "bar_long", "bar_short", "arm_long", "arm_short", "face_length")
        slips = ("gap", "splay") if self.mitre_error else ()
        return (*found, *slips, *(("out_of_plane",) if self.roll else ()))

    @result("mitre", "mu", kind="angle", checks="corner")
    def mitre_angle(self):
        """The saw's setting, read away from a square cut: half of what the corner lacks to a straight line."""
        return self.pi / 2 - self.corner / 2

    @result("bar, long side", "b_l", checks="width")
    def bar_long(self):
        """Along the bar's outer side, tip to tip."""
        return self.width + self.bar_diameter * tan(self.mitre_angle)

    @result("bar, short side", "b_s", checks="width")
    def bar_short(self):
        """Along the bar's inner side, heel to heel."""
        return self.width - self.bar_diameter * tan(self.mitre_angle)

    @result("arm on its centre line", "a_c", minor=True)
    def arm(self):
        """From where the two centre lines cross to the leg's surface, along the arm."""
        return self.reach / sin(self.corner)

    @result("arm, long side", "a_l", checks="reach")
    def arm_long(self):
        """Along the arm's outer side, from the mitre's tip to the arm's end in the leg."""
        return self.arm + self.bar_diameter / 2 * tan(self.mitre_angle) + self.leg_end

    @result("arm, short side", "a_s", checks="reach")
    def arm_short(self):
        """Along the arm's inner side, from the mitre's heel to the arm's end in the leg."""
        return self.arm - self.bar_diameter / 2 * tan(self.mitre_angle) + self.leg_end

    @result("mitred face", "f")
    def face_length(self):
        """The long axis of the oval that a mitre shows."""
        return self.bar_diameter / cos(self.mitre_angle)

    @result("joint gapes", "g", step="0.01 mm", inch_step="0.001 in")
    def gap(self):
        """Between the two faces of a joint, both out by the mitre's error, at the end of the oval that gapes.

        Outside (at the tips) for a positive error, inside (at the heels) for a negative one.
        """
        return 2 * self.face_length * sin(abs(self.mitre_error))

    @result("arm's tip thrown aside", "s")
    def splay(self):
        """How far one arm's tip is off, square to the arm, when the joint is closed all the same.

        Positive spreads the two tips, negative draws them together.
        """
        return self.arm * sin(2 * self.mitre_error)

    @result("arm out of the plane", "o")
    def out_of_plane(self):
        """How far one arm's tip stands out of the plane of the other arm and the bar, when the bar was rolled."""
        return self.reach * sin(self.roll)

    def worries(self):
        yield Caution(
            "A glued end-grain mitre does not carry a lift: put a dowel or a key through every mitre.",
            input="bar_diameter",
        )
        if self.gap > GLUE_FILLS:
            side = "outside" if self.mitre_error > 0 else "inside"
            yield Caution(
                f"Each mitre gapes {{}} {side}, more than glue fills; closed by force, each arm's tip goes {{}} aside. "
                "Set the saw with a test mitre, two cuts laid together.", self.gap, abs(self.splay),
                input="mitre_error",
            )
        if self.out_of_plane > 0.5:
            yield Caution(
                "One arm stands {} out of the plane: the bar rocks and will not go on. Saw the mitres while the stock "
                "still has a square grip to lie on the saw's table.", self.out_of_plane, input="roll",
            )
