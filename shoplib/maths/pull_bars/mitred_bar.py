"""A round bar with an arm mitred to each end: lengths, mitres, and what a slip of either angle does."""

from shoplib.maths.functions import cos, sin, tan
from shoplib.maths.pull_bars.hand import tight_for_a_hand
from shoplib.model import Caution, Input, Model, ShapeError, angle, length, model, result

GLUE_FILLS = 0.2  # mm: common practice
WILL_NOT_GO_ON = 0.5  # mm, of an arm's tip: common practice
BAR, SLIPS = "Bar and arms", "Slips"


@model
class MitredBar(Model):
    """A round pull bar with an arm mitred to each end.

    >>> bar = MitredBar("19 mm", "360 mm", "52.5 mm")
    >>> bar.tell("mitre_angle", "bar_long", "arm_long")
    mitre, from a square cut  45.00 deg
    bar, long side            379.0 mm
    arm, long side            62.0 mm
    """

    bar_diameter: Input = length(
        "bar diameter", "D", low="10 mm", high="50 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.2 mm",
        help="Of bar and arms, rounded before they are mitred.", group=BAR,
    )
    width: Input = length(
        "width", "W", low="100 mm", high="1000 mm", step="1 mm", inch_step="1/16 in", tolerance="0.5 mm",
        help="Between the arms' centre lines, where they cross the bar's.", group=BAR,
    )
    reach: Input = length(
        "reach", "R", low="20 mm", high="300 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.5 mm",
        help="Square to the bar, from its centre line to the leg's surface, on the arm's centre line.", group=BAR,
    )
    corner: Input = angle(
        "corner", "gamma", low="60 deg", high="150 deg", step="1 deg", tolerance="0.2 deg",
        help="Inside angle between bar and arm.", default="90 deg", group=BAR,
    )
    leg_end: Input = length(
        "arm beyond the leg's surface", "k", low="0 mm", high="40 mm", step="0.5 mm", inch_step="1/32 in",
        tolerance="0.3 mm", help="Depth of a cope's tips, or the depth let into the leg.", default="0 mm", group=BAR,
    )
    mitre_error: Input = angle(
        "mitres out by", "epsilon", low="-3 deg", high="3 deg", step="0.1 deg", tolerance="0.1 deg",
        help="Every mitre alike. Positive: the saw stood too near to a square cut.", default="0 deg", group=SLIPS,
    )
    roll: Input = angle(
        "bar rolled by", "rho", low="0 deg", high="10 deg", step="0.1 deg", tolerance="0.2 deg",
        help="How far the bar's two mitres are turned against each other about its axis.", default="0 deg",
        group=SLIPS,
    )

    def check(self):
        if self.hand_room <= 0 or self.arm_short - self.leg_end <= 0:
            raise ShapeError(
                "A reach of {} leaves no room for a hand between the leg and a bar of {}. Make the reach longer or the "
                "bar thinner.", self.reach, self.bar_diameter, input="reach",
            )
        if self.bar_short <= 0:
            raise ShapeError(
                "The bar's two mitres meet before its short side begins: a width of {} is too little for {} thick "
                "stock. Make the bar wider.", self.width, self.bar_diameter, input="width",
            )
        if self.legs_apart <= self.bar_diameter:
            raise ShapeError(
                "The two arms run into each other before they have come a reach of {}. Make the bar wider or its "
                "corners larger.", self.reach, input="corner",
            )

    def on_card(self):
        """First the saw's angle, then the lengths to mark, then what tells a slip."""
        found = ("mitre_angle", "bar_long", "bar_short", "arm_long", "arm_short", "face_length", "legs_apart")
        slips = ("gap", "splay") if self.mitre_error else ()
        return (*found, *slips, *(("out_of_plane",) if self.roll else ()))

    @result("mitre, from a square cut", "mu", kind="angle", checks="corner", to_set=True)
    def mitre_angle(self):
        """The saw's setting, read away from a square cut: half of what the corner lacks to a straight line."""
        return self.pi / 2 - self.corner / 2

    @result("bar, long side", "b_l", checks="width", to_set=True)
    def bar_long(self):
        """Along the bar's outer side, tip to tip: the mitre reaches half a bar's tangent beyond the centre lines."""
        return self.width + self.bar_diameter * tan(self.mitre_angle)

    @result("bar, short side", "b_s", checks="width")
    def bar_short(self):
        """Along the bar's inner side, heel to heel."""
        return self.width - self.bar_diameter * tan(self.mitre_angle)

    @result("arm on its centre line", "a_c", minor=True)
    def arm(self):
        """From where the two centre lines cross to the leg's surface, along the arm."""
        return self.reach / sin(self.corner)

    @result("arm, long side", "a_l", checks="reach", to_set=True)
    def arm_long(self):
        """Along the arm's outer side, from the mitre's tip to the arm's square end, the part in the leg included."""
        return self.arm + self.bar_diameter / 2 * tan(self.mitre_angle) + self.leg_end

    @result("arm, short side", "a_s", checks="reach")
    def arm_short(self):
        """Along the arm's inner side, from the mitre's heel to the arm's square end, the part in the leg included."""
        return self.arm - self.bar_diameter / 2 * tan(self.mitre_angle) + self.leg_end

    @result("mitred face, long axis", "f")
    def face_length(self):
        """The long axis of the oval that a true mitre shows, from heel to tip.

        >>> round(MitredBar("19 mm", "360 mm", "52.5 mm").face_length, 2)  # 19 sqrt(2)
        <Quantity(26.87, 'millimeter')>
        """
        return self.bar_diameter / cos(self.mitre_angle)

    @result("legs apart at their surface", "w_l", checks="width")
    def legs_apart(self):
        """Between the arms' centre lines where they meet the legs' surface, the corners true.

        At 90 deg it is the width; wider corners spread the arms, sharper ones draw them together.

        >>> MitredBar("19 mm", "360 mm", "50 mm", corner="135 deg").legs_apart  # 50 more at each end
        <Quantity(460.0, 'millimeter')>
        """
        return self.width - 2 * self.arm * cos(self.corner)

    @result("hand room", "h", checks="reach")
    def hand_room(self):
        """Clear between the leg's surface and the bar, square to the bar."""
        return self.reach - self.bar_diameter / 2

    @result("oval as it is sawn", "f_e", minor=True)
    def sawn_face(self):
        """The long axis of the oval that a mitre shows which is out by the mitre's error."""
        return self.bar_diameter / cos(self.mitre_angle - self.mitre_error)

    @result("joint gapes", "g", step="0.01 mm", inch_step="1/128 in")
    def gap(self):
        """Between the two faces of a joint that are both out, at the end of the oval that gapes, the corner held true.

        Outside (between the tips) for a positive error, inside (between the heels) for a negative one: the faces
        meet at the oval's other end and stand open by twice the error.

        >>> MitredBar("19 mm", "360 mm", "52.5 mm", mitre_error="0.5 deg").tell("gap")
        joint gapes  0.46 mm
        """
        return 2 * self.sawn_face * sin(abs(self.mitre_error))

    @result("arm's tip thrown aside", "s", step="0.01 mm", inch_step="1/64 in")
    def splay(self):
        """How far an arm's tip at the leg is off, square to the arm, when the joint is closed all the same.

        From the true line through the point where the two centre lines cross. Positive spreads the two tips,
        negative draws them together.

        >>> MitredBar("19 mm", "360 mm", "52.5 mm", mitre_error="0.5 deg").tell("splay")
        arm's tip thrown aside  0.92 mm
        """
        return self.arm * sin(2 * self.mitre_error)

    @result("arm out of the plane", "o", step="0.01 mm", inch_step="1/64 in")
    def out_of_plane(self):
        """How far one arm's tip at the leg stands out of the plane of the bar and the other arm, all joints closed.

        >>> MitredBar("19 mm", "360 mm", "52.5 mm", roll="1 deg").tell("out_of_plane")
        arm out of the plane  0.92 mm
        """
        return self.reach * sin(self.roll)

    @result("joint gapes at its side", "g_r", step="0.01 mm", inch_step="1/128 in")
    def side_gap(self):
        """What one joint gapes at its upper or lower side when both arms are held in one plane all the same.

        Between the bar's side line and the arm's face, square to the face, the other side touching.
        """
        return self.bar_diameter * sin(self.mitre_angle) * sin(self.roll)

    def worries(self):
        yield Caution(
            "A glued end-grain mitre does not carry a lift: put a dowel or a key through every mitre.",
            input="bar_diameter",
        )
        yield from tight_for_a_hand(self.hand_room, "reach")
        if self.gap > GLUE_FILLS:
            side = "outside" if self.mitre_error > 0 else "inside"
            yield Caution(
                f"Each joint gapes {{}} {side}, more than glue fills; closed by force, each arm's tip goes {{}} aside. "
                "Set the saw anew: two test cuts laid together show twice the error.", self.gap, abs(self.splay),
                input="mitre_error",
            )
        if self.out_of_plane > WILL_NOT_GO_ON:
            yield Caution(
                "One arm stands {} out of the plane: the bar will not go on. Saw the mitres while the stock still has "
                "a square grip to lie on the saw's table.", self.out_of_plane, input="roll",
            )
        if abs(self.corner - self.pi / 2) > 1e-9:
            yield Caution(
                "At another corner than 90 deg the arm meets the leg aslant, and holes square to the leg will not take "
                "it: aim cope or hole along the arm.", input="corner", source="geometry",
            )


