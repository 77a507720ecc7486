"""What a stand on casters does: loads, lift, and where it tips."""

from shoplib.maths.functions import atan, choose, least, most
from shoplib.model import Caution, Input, Model, ShapeError, count, length, mass, model, result, write_value

STEEP = 10.0  # degrees
HEAVY = 25.0  # kg
LEANS = (
    "Lifted in the middle it tips to its heavier side: the weight lies {} off the centre line. Load it nearer the "
    "middle, or lift with the hands apart."
)


@model
class Rolling(Model):
    """A stand on two casters and two plain legs, or on four casters.

    Horizontal distances run from the line of the casters (those at one end) towards the other legs.
    Loads and lift take the wheels straight below their stems; each tip angle takes the trail at its worst.

    >>> stand = Rolling("24 kg", "420 mm", "180 mm", "360 mm", "360 mm", "430 mm", trail="20 mm")
    >>> stand.tell("lift", "worst_load", "tip_over_casters")
    lift at the handle              10.0 kg
    load on a caster, uneven floor  12.0 kg
    tips over the casters at        20.85 deg
    """

    weight: Input = mass(
        "weight", "W", low="2 kg", high="200 kg", step="0.5 kg", inch_step="1 lb", tolerance="1 kg",
        help="Of the stand with all that stands on it.", group="Weight",
    )
    cg_height: Input = length(
        "centre of gravity, height", "z", low="50 mm", high="1500 mm", step="5 mm", inch_step="1/4 in",
        tolerance="20 mm", help="Above the floor.", group="Weight",
    )
    cg_from_casters: Input = length(
        "centre of gravity, from the casters", "x", low="20 mm", high="1400 mm", step="5 mm", inch_step="1/4 in",
        tolerance="10 mm", group="Weight",
        help="Level, from the line of the casters. Of four casters: from the pair at one end.",
    )
    wheelbase: Input = length(
        "wheelbase", "b", low="100 mm", high="1500 mm", step="1 mm", inch_step="1/16 in", tolerance="1 mm",
        help="From the casters to the legs at the other end, centre to centre.", group="Stand",
    )
    track: Input = length(
        "track", "t", low="100 mm", high="1500 mm", step="1 mm", inch_step="1/16 in", tolerance="1 mm",
        help="Between the two casters at one end, centre to centre.", group="Stand",
    )
    handle_reach: Input = length(
        "handle reach", "r", low="100 mm", high="2000 mm", step="5 mm", inch_step="1/4 in", tolerance="5 mm",
        help="Level, from the line of the casters to the hand, which lifts in the middle. Not used with four casters.",
        group="Stand",
    )
    trail: Input = length(
        "trail", "a", low="0 mm", high="60 mm", step="0.5 mm", inch_step="1/32 in", tolerance="1 mm",
        help="Level, from the stem's centre to where the wheel touches the floor.", default="0 mm", group="Casters",
    )
    casters: Input = count("casters", "n", 2, 4, help="Two at one end, or four.", default=2, group="Casters")
    cg_aside: Input = length(
        "centre of gravity, aside", "y", low="0 mm", high="700 mm", step="5 mm", inch_step="1/4 in", tolerance="10 mm",
        help="Level, from the stand's centre line to its heavier side.", default="0 mm", group="Weight",
    )

    def check(self):
        if self.casters == 3:
            raise ShapeError("Three casters are not covered here: choose 2 or 4.", input="casters")
        if self.cg_from_casters >= self.wheelbase:
            raise ShapeError(
                "The centre of gravity, {} from the casters, lies outside the wheelbase of {}: the stand falls over. "
                "Bring it inside.", self.cg_from_casters, self.wheelbase, input="cg_from_casters",
            )
        if self.cg_aside >= self.track / 2:
            raise ShapeError(
                "The centre of gravity, {} aside, lies outside the track, which reaches {} to each side: the stand "
                "falls over. Bring it inside.", self.cg_aside, self.track / 2, input="cg_aside",
            )
        if self.trail >= self._least_arm():
            raise ShapeError(
                "A trail of {} reaches past the centre of gravity: it must stay under {}. Take casters with less "
                "trail or set them further out.", self.trail, self._least_arm(), input="trail",
            )
        if self.casters == 2 and self.handle_reach <= self.cg_from_casters:
            raise ShapeError(
                "A handle {} from the casters lies inside the centre of gravity ({}): it cannot lift. Move it out.",
                self.handle_reach, self.cg_from_casters, input="handle_reach",
            )

    def _least_arm(self):
        """The shortest level way from the centre of gravity to a line that wheels stand on."""
        sideways, other = self.track / 2 - self.cg_aside, self.wheelbase - self.cg_from_casters
        return min(self.cg_from_casters, sideways, other if self.casters == 4 else self.cg_from_casters)

    @result("lift at the handle", "F", kind="mass", checks="cg_from_casters")
    def lift(self):
        """What the hand carries when it takes the other end just off the floor: moments about the casters' line.

        Raises ShapeError with four casters: such a stand is pushed, not lifted.
        """
        self._check_two()
        return self.weight * self.cg_from_casters / self.handle_reach

    def _check_two(self):
        if type(self.casters) is int and self.casters > 3:
            raise ShapeError("On four casters nothing is lifted: the stand is pushed.", input="casters")

    @result("load on a caster, rolling", "P_r", kind="mass")
    def rolling_load(self):
        """The heavier caster's share while the other end is lifted in its middle: moments about the centre line.

        Raises ShapeError with four casters, and where the lighter caster leaves the floor.
        """
        self._check_two()
        aside = self.weight * self.cg_aside / self.track
        if type(aside) is float and aside > (self.weight - self.lift) / 2:
            raise ShapeError(LEANS, self.cg_aside, input="cg_aside")
        return (self.weight - self.lift) / 2 + aside

    @result("arm of the heavier end", "e", minor=True)
    def end_arm(self):
        """Level, from the centre of gravity to the end opposite the casters; with four casters to the farther end."""
        other = self.wheelbase - self.cg_from_casters
        return choose(self.casters > 3, most(self.cg_from_casters, other), other)

    @result("load on the heavier end", "W_e", kind="mass", minor=True)
    def end_load(self):
        """What both casters of one end carry together: moments about the other end."""
        return self.weight * self.end_arm / self.wheelbase

    @result("load on the heavier side", "W_s", kind="mass", minor=True)
    def side_load(self):
        """What both feet of one side carry together: moments about the other side."""
        return self.weight * (self.track / 2 + self.cg_aside) / self.track

    @result("load on a caster, standing", "P_s", kind="mass")
    def standing_load(self):
        """The heaviest caster's share on a flat floor: its end's load, shared as the sides share the whole."""
        return self.end_load * self.side_load / self.weight

    @result("load on a caster, uneven floor", "P_w", kind="mass")
    def worst_load(self):
        """The most that a caster can have to carry where one of the four feet hangs clear.

        No caster carries more than its end does, nor more than its side does; and it carries the smaller of the two
        when its neighbour there hangs clear. Statics, with no foot pulled down.

        >>> Rolling("24 kg", "420 mm", "100 mm", "360 mm", "360 mm", "430 mm", casters=4).worst_load
        <Quantity(12.0, 'kilogram')>
        """
        return least(self.end_load, self.side_load)

    @result("load by the three-of-four rule", "P_3", kind="mass")
    def rule_load(self):
        """A third of the weight: three of four casters carry it (common practice).

        Raises ShapeError with two casters.
        """
        if type(self.casters) is int and self.casters < 3:
            raise ShapeError("The rule of three casters out of four is for four: here there are two.", input="casters")
        return self.weight / 3

    @result("tips over the casters at", "phi_c", kind="angle")
    def tip_over_casters(self):
        """Slope of the floor at which the stand tips over the casters' end, both wheels trailing inward."""
        return atan((self.cg_from_casters - self.trail) / self.cg_height)

    @result("tips over the other end at", "phi_o", kind="angle")
    def tip_over_other_end(self):
        """Slope of the floor at which it tips over the other end: plain legs have no trail, casters do."""
        trail = choose(self.casters > 3, self.trail, 0 * self.trail)
        return atan((self.wheelbase - self.cg_from_casters - trail) / self.cg_height)

    @result("tips sideways at", "phi_s", kind="angle")
    def tip_sideways(self):
        """Slope of the floor at which it tips to its heavier side, the wheels on that side trailing inward.

        A plain leg counts as if it trailed too, which is on the safe side.
        """
        return atan((self.track / 2 - self.cg_aside - self.trail) / self.cg_height)

    def worries(self):
        steep = STEEP * self.pi / 180
        ways = {
            "over the casters": self.tip_over_casters, "over the other end": self.tip_over_other_end,
            "sideways": self.tip_sideways,
        }
        for way, found in ways.items():
            if found < steep:
                yield Caution(
                    f"It tips {way} on a slope of {found * 180 / self.pi:.1f} deg: a push at the top does the same. "
                    "Set the casters further out or load the lower tray first.", input="cg_height",
                )
        if self.casters == 2:
            yield from self._worries_lifted()

    def _worries_lifted(self):
        """What the hand lifts, and whether the stand stays level while it does."""
        if self.lift > HEAVY:
            metric, pounds = (write_value(self.lift, "mass", unit, "1 kg", None) for unit in ("mm", "in"))
            yield Caution(
                f"The hand lifts {metric} ({pounds}): use two people, a longer reach, or four casters.", input="weight"
            )
        if 2 * self.cg_aside / self.track > 1 - self.cg_from_casters / self.handle_reach:
            yield Caution(LEANS, self.cg_aside, input="cg_aside")
