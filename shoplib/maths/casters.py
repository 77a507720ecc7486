"""Drilling for casters, the leg that carries one, and what the stand does when it is rolled."""

from shoplib.maths.functions import atan, choose
from shoplib.model import Caution, Input, Model, ShapeError, count, length, mass, model, result

THIN_WALL = 5.0
STEEP = 10.0


@model
class CasterLeg(Model):
    """A round leg bored from below for the stem of a caster, or for the stem's sleeve.

    >>> leg = CasterLeg("35 mm", "11 mm", "22 mm", "50 mm", "360 mm", "720 mm")
    >>> leg.hole_depth, leg.wall, leg.shortened_leg
    (<Quantity(24.0, 'millimeter')>, <Quantity(12.0, 'millimeter')>, <Quantity(670.0, 'millimeter')>)
    """

    leg_diameter: Input = length(
        "leg diameter", "D", low="15 mm", high="90 mm", step="0.5 mm", inch_step="1/16 in", tolerance="0.3 mm",
        help="Of the round leg where the hole is bored.",
    )
    hole_diameter: Input = length(
        "hole diameter", "d", low="5 mm", high="40 mm", step="0.1 mm", inch_step="1/64 in", tolerance="0.1 mm",
        help="For the stem, or for its sleeve where it has one.",
    )
    stem_length: Input = length(
        "stem length", "s", low="10 mm", high="120 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.5 mm",
        help="From the caster's plate or collar to the stem's end, or the sleeve's length.",
    )
    caster_height: Input = length(
        "caster height", "h", low="15 mm", high="160 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.5 mm",
        help="From the floor to the underside of the leg, the caster fitted.",
    )
    wheelbase: Input = length(
        "wheelbase", "b", low="100 mm", high="1500 mm", step="1 mm", inch_step="1/16 in", tolerance="1 mm",
        help="From the legs with casters to the plain legs, centre to centre.",
    )
    leg_length: Input = length(
        "leg length", "l", low="50 mm", high="1200 mm", step="1 mm", inch_step="1/16 in", tolerance="0.5 mm",
        help="Of a plain leg, from the top to the floor.",
    )
    bottom_clearance: Input = length(
        "clearance below the stem", "c", low="0 mm", high="10 mm", step="0.5 mm", inch_step="1/32 in",
        tolerance="0.5 mm", help="Left in the hole beyond the stem's end.", default="2 mm",
    )
    centre_error: Input = length(
        "centring error", "e", low="0 mm", high="6 mm", step="0.1 mm", inch_step="1/64 in", tolerance="0.2 mm",
        help="How far the hole's centre may be off the leg's centre.", default="0 mm",
    )

    def check(self):
        if self.wall <= 0:
            raise ShapeError(
                "A hole of {}, {} off centre, breaks out of a leg of {}. Take a smaller stem, a thicker leg, or "
                "mark the centre better.",
                self.hole_diameter, self.centre_error, self.leg_diameter, input="hole_diameter",
            )
        if self.caster_height >= self.leg_length:
            raise ShapeError(
                "A caster {} high leaves nothing of a leg {} long. Take a lower caster or a longer leg.",
                self.caster_height, self.leg_length, input="caster_height",
            )
        if self.hole_depth >= self.leg_length - self.caster_height:
            raise ShapeError(
                "A hole {} deep runs right through the shortened leg of {}. Take a shorter stem.",
                self.hole_depth, self.leg_length - self.caster_height, input="stem_length",
            )

    @result("hole depth", "T", checks="stem_length")
    def hole_depth(self):
        """From the leg's cut end to the bottom of the hole: the stem and the clearance beyond it."""
        return self.stem_length + self.bottom_clearance

    @result("thinnest wall", "w", checks="hole_diameter")
    def wall(self):
        """Wood left beside the hole on its thin side, the centring error taken against it."""
        return (self.leg_diameter - self.hole_diameter) / 2 - self.centre_error

    @result("leg with a caster", "l_c", checks="leg_length")
    def shortened_leg(self):
        """Length of a leg that carries a caster, top to cut end, so that the top stays level."""
        return self.leg_length - self.caster_height

    @result("tilt if it is not shortened", "tau", kind="angle", checks="caster_height")
    def tilt_if_uncut(self):
        """Slope of the top when all legs keep their length and one side stands on casters.

        >>> round(CasterLeg("35 mm", "11 mm", "22 mm", "50 mm", "360 mm", "720 mm").tilt_if_uncut, 2)
        <Quantity(7.91, 'degree')>
        """
        return atan(self.caster_height / self.wheelbase)

    def worries(self):
        if self.wall < THIN_WALL:
            yield Caution(
                "The wall beside the hole may be only {} thin: the leg can split when the stand bumps a sill. Take a "
                "thicker leg or a ferrule.", self.wall, input="hole_diameter",
            )
        if self.stem_length < 1.5 * self.hole_diameter:
            yield Caution(
                "A stem of {} in a hole of {} is short: it works loose. Use a sleeve, or a plate.",
                self.stem_length, self.hole_diameter, input="stem_length",
            )
        if self.bottom_clearance == 0:
            yield Caution(
                "Without clearance the stem stands on the hole's bottom, not on the leg: bore a little deeper.",
                input="bottom_clearance",
            )


@model
class Rolling(Model):
    """A stand on two casters and two plain legs, or on four casters: loads, lift and where it tips.

    Horizontal distances run from the line of the casters (those at one end) towards the other legs.
    Loads and lift take the wheels straight below their stems; each tip angle takes the trail at its worst.

    >>> stand = Rolling("24 kg", "420 mm", "180 mm", "360 mm", "360 mm", "430 mm", trail="20 mm")
    >>> round(stand.lift, 2), round(stand.tip_over_casters, 2)
    (<Quantity(10.05, 'kilogram')>, <Quantity(20.85, 'degree')>)
    """

    TABLE_HEAD = "It comes to"

    weight: Input = mass(
        "weight", "W", low="2 kg", high="200 kg", step="0.5 kg", inch_step="1 lb", tolerance="1 kg",
        help="Of the stand with all that stands on it.",
    )
    cg_height: Input = length(
        "centre of gravity, height", "z", low="50 mm", high="1500 mm", step="5 mm", inch_step="1/4 in",
        tolerance="20 mm", help="Above the floor.",
    )
    cg_from_casters: Input = length(
        "centre of gravity, from the casters", "x", low="20 mm", high="1400 mm", step="5 mm", inch_step="1/4 in",
        tolerance="10 mm", help="Level, from the line of the casters.",
    )
    wheelbase: Input = length(
        "wheelbase", "b", low="100 mm", high="1500 mm", step="1 mm", inch_step="1/16 in", tolerance="1 mm",
        help="From the casters to the legs at the other end, centre to centre.",
    )
    track: Input = length(
        "track", "t", low="100 mm", high="1500 mm", step="1 mm", inch_step="1/16 in", tolerance="1 mm",
        help="Between the two casters, centre to centre.",
    )
    handle_reach: Input = length(
        "handle reach", "r", low="100 mm", high="2000 mm", step="5 mm", inch_step="1/4 in", tolerance="5 mm",
        help="Level, from the line of the casters to the hand.",
    )
    trail: Input = length(
        "trail", "a", low="0 mm", high="60 mm", step="0.5 mm", inch_step="1/32 in", tolerance="1 mm",
        help="Level, from the stem's centre to where the wheel touches the floor.", default="0 mm",
    )
    casters: Input = count("casters", "n", 2, 4, help="Two at one end, or four.", default=2)

    def check(self):
        if self.casters == 3:
            raise ShapeError("Three casters are not covered here: choose 2 or 4.", input="casters")
        if self.cg_from_casters >= self.wheelbase:
            raise ShapeError(
                "The centre of gravity, {} from the casters, lies outside the wheelbase of {}: the stand falls over. "
                "Bring it inside.", self.cg_from_casters, self.wheelbase, input="cg_from_casters",
            )
        if self.trail >= self._least_arm():
            raise ShapeError(
                "A trail of {} reaches past the centre of gravity: it must stay under {}. Take casters with "
                "less trail or "
                "set them further out.", self.trail, self._least_arm(), input="trail",
            )
        if self.handle_reach <= self.cg_from_casters:
            raise ShapeError(
                "A handle {} from the casters lies inside the centre of gravity ({}): it cannot lift. Move it out.",
                self.handle_reach, self.cg_from_casters, input="handle_reach",
            )

    def _least_arm(self):
        other = self.wheelbase - self.cg_from_casters
        return min(self.cg_from_casters, self.track / 2, other if self.casters == 4 else self.cg_from_casters)

    @result("lift at the handle", "F", kind="mass", checks="cg_from_casters")
    def lift(self):
        """What the hand carries when it takes the other end just off the floor: moments about the casters' line."""
        return self.weight * self.cg_from_casters / self.handle_reach

    @result("load on a caster, standing", "P_s", kind="mass")
    def standing_load(self):
        """One caster's share on a level floor: half of what the casters' end carries.

        With four casters one may stand clear of an uneven floor: three carry all (common practice).
        """
        shared = self.weight * (self.wheelbase - self.cg_from_casters) / self.wheelbase / 2
        return choose(self.casters > 3, self.weight / 3, shared)

    @result("load on a caster, rolling", "P_r", kind="mass")
    def rolling_load(self):
        """One caster's share while the stand rolls: half of what the hand does not carry; of four, a third of all."""
        return choose(self.casters > 3, self.weight / 3, (self.weight - self.lift) / 2)

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
        """Slope of the floor at which it tips to one side, the wheels on that side trailing inward."""
        return atan((self.track / 2 - self.trail) / self.cg_height)

    def worries(self):
        steep = STEEP * self.pi / 180
        ways = {
            "over the casters": self.tip_over_casters, "over the other end": self.tip_over_other_end,
            "sideways": self.tip_sideways,
        }
        for way, found in ways.items():
            if found < steep:
                yield Caution(
                    f"It tips {way} on a slope of {found * 180 / self.pi:.1f} deg: a push at the top does the "
                    "same. Set the "
                    "casters further out or load the lower tray first.", input="cg_height",
                )
        if self.lift > 25:
            yield Caution(
                f"The hand lifts {self.lift:.0f} kg: use two people, a longer reach, or four casters.", input="weight"
            )
