"""The leg that carries a caster: its hole, its wall and its length."""

from shoplib.maths.functions import atan
from shoplib.model import Caution, Input, Model, ShapeError, length, model, result

THIN_WALL = 5.0  # mm


@model
class CasterLeg(Model):
    """A round leg bored from below for the stem of a caster, or for the stem's sleeve.

    >>> leg = CasterLeg("35 mm", "11 mm", "22 mm", "50 mm", "360 mm", "720 mm")
    >>> leg.hole_depth, leg.wall, leg.shortened_leg
    (<Quantity(24.0, 'millimeter')>, <Quantity(12.0, 'millimeter')>, <Quantity(670.0, 'millimeter')>)
    """

    leg_diameter: Input = length(
        "leg diameter", "D", low="15 mm", high="90 mm", step="0.5 mm", inch_step="1/16 in", tolerance="0.3 mm",
        help="Of the round leg where the hole is bored.", group="Leg",
    )
    hole_diameter: Input = length(
        "hole diameter", "d", low="5 mm", high="40 mm", step="0.1 mm", inch_step="1/64 in", tolerance="0.1 mm",
        help="For the stem, or for its sleeve where it has one.", group="Caster",
    )
    stem_length: Input = length(
        "stem length", "s", low="10 mm", high="120 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.5 mm",
        help="From the caster's plate or collar to the stem's end, or the sleeve's length.", group="Caster",
    )
    caster_height: Input = length(
        "caster height", "h", low="15 mm", high="160 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.5 mm",
        help="From the floor to the underside of the leg, the caster fitted.", group="Caster",
    )
    wheelbase: Input = length(
        "wheelbase", "b", low="100 mm", high="1500 mm", step="1 mm", inch_step="1/16 in", tolerance="1 mm",
        help="From the legs with casters to the plain legs, centre to centre.", group="Leg",
    )
    leg_length: Input = length(
        "leg length", "l", low="50 mm", high="1200 mm", step="1 mm", inch_step="1/16 in", tolerance="0.5 mm",
        help="Of a plain leg, from the top to the floor.", group="Leg",
    )
    bottom_clearance: Input = length(
        "clearance beyond the stem", "c", low="0 mm", high="10 mm", step="0.5 mm", inch_step="1/32 in",
        tolerance="0.5 mm", help="Left in the hole beyond the stem's end.", default="2 mm", group="Boring",
    )
    centre_error: Input = length(
        "centring error", "e", low="0 mm", high="6 mm", step="0.1 mm", inch_step="1/64 in", tolerance="0.2 mm",
        help="How far the hole's centre may be off the leg's centre.", default="0 mm", group="Boring",
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

    def on_card(self):
        """First the saw, then the drill, then what is left beside the hole."""
        return ("shortened_leg", "hole_depth", "wall")

    @result("hole depth", "T", checks="stem_length", to_set=True)
    def hole_depth(self):
        """From the leg's cut end to the bottom of the hole: the stem and the clearance beyond it."""
        return self.stem_length + self.bottom_clearance

    @result("thinnest wall", "w", checks="hole_diameter")
    def wall(self):
        """Wood left beside the hole on its thin side, the centring error taken against it."""
        return (self.leg_diameter - self.hole_diameter) / 2 - self.centre_error

    @result("leg with a caster", "l_c", checks="leg_length", to_set=True)
    def shortened_leg(self):
        """Length of a leg that carries a caster, top to cut end, so that the top stays level."""
        return self.leg_length - self.caster_height

    @result("tilt if it is not shortened", "tau", kind="angle", checks="caster_height")
    def tilt_if_uncut(self):
        """Slope of the top when all legs keep their length and one side stands on casters.

        Taken from stem to the plain leg's centre. A level reads a little less, for the plain leg then stands on the
        far edge of its foot; the wheel's trail moves it a little either way.

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
