"""A straight round bar on two stubs let into the legs: lengths, depths, walls, and what it carries."""

from shoplib import measure
from shoplib.maths.functions import sqrt
from shoplib.maths.pull_bars.hand import tight_for_a_hand
from shoplib.maths.pull_bars.stub_in_leg import beside_dowels
from shoplib.maths.wood import SOURCE, strength, timbers_with
from shoplib.model import Caution, Input, Model, ShapeError, choice, length, mass, model, result

MOST_OF_STRENGTH = 1 / 5
THIN_WALL = 3.0  # mm
STRONG = timbers_with("strength")
BAR, STUBS, LOAD = "Bar", "Stubs and their holes", "Load and timber"


@model
class StubBar(Model):
    """A round pull bar on two round stubs, each let into the bar and into a leg.

    >>> bar = StubBar("19 mm", "14 mm", "43 mm", "360 mm", "30 mm", "9 mm", "18 mm", "10 kg")
    >>> bar.tell("bar_length", "stub_length", "bar_share", "stub_share")
    bar length                    420.0 mm
    stub length                   68.0 mm
    share of the bar's strength   12.73 %
    share of the stub's strength  18.55 %
    """

    bar_diameter: Input = length(
        "bar diameter", "D", low="15 mm", high="50 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.2 mm",
        help="Of the round bar.", group=BAR,
    )
    stub_diameter: Input = length(
        "stub diameter", "d", low="6 mm", high="30 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.1 mm",
        help="Of both stubs and of their holes.", group=STUBS,
    )
    hand_room: Input = length(
        "hand room", "h", low="15 mm", high="150 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.5 mm",
        help="Clear between leg and bar, on the stub's axis.", group=BAR,
    )
    width: Input = length(
        "width", "W", low="100 mm", high="1000 mm", step="1 mm", inch_step="1/16 in", tolerance="0.5 mm",
        help="Between the stubs' axes: measured on the glued legs.", group=BAR,
    )
    overhang: Input = length(
        "overhang", "v", low="10 mm", high="150 mm", step="1 mm", inch_step="1/16 in", tolerance="1 mm",
        help="Bar beyond each stub's axis.", group=BAR,
    )
    bar_depth: Input = length(
        "hole in the bar", "t_b", low="4 mm", high="40 mm", step="0.5 mm", inch_step="1/64 in", tolerance="0.3 mm",
        help="Drilled depth on the stub's axis, from the bar's surface.", group=STUBS,
    )
    leg_depth: Input = length(
        "hole in the leg", "t_l", low="5 mm", high="80 mm", step="0.5 mm", inch_step="1/64 in", tolerance="0.3 mm",
        help="Drilled depth on the stub's axis, from the leg's surface.", group=STUBS,
    )
    load: Input = mass(
        "load", "m", low="1 kg", high="60 kg", step="0.5 kg", inch_step="1 lb", tolerance="1 kg",
        help="What the hand lifts: lesson 07 tells it.", group=LOAD,
    )
    bar_species: Input = choice(
        "bar's timber", "species_of_bar", STRONG, help="Of the bar.", default="Ash, white", group=LOAD,
    )
    stub_species: Input = choice(
        "stubs' timber", "species_of_stubs", STRONG, help="Of the stubs.", default="Ash, white", group=LOAD,
    )
    end_clearance: Input = length(
        "clearance at each end", "c", low="0 mm", high="5 mm", step="0.5 mm", inch_step="1/64 in", tolerance="0.3 mm",
        help="Between the stub's end and the hole's bottom, for glue.", default="1 mm", group=STUBS,
    )
    drill_point: Input = length(
        "drill's point", "p", low="0 mm", high="8 mm", step="0.5 mm", inch_step="1/64 in", tolerance="0.2 mm",
        help="How far the drill's centre point runs ahead of the flat bottom.", default="0 mm", group=STUBS,
    )
    leg_diameter: Input = length(
        "leg diameter", "D_l", low="15 mm", high="90 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.2 mm",
        help="Of the round leg: tells what is left behind the stub's hole. Leave out for another leg.", default=None,
        group=STUBS,
    )

    def check(self):
        if self.stub_diameter >= self.bar_diameter:
            raise ShapeError(
                "A stub of {} does not go into a bar of {}. Take thinner stubs.",
                self.stub_diameter, self.bar_diameter, input="stub_diameter",
            )
        if self.bar_wall <= 0:
            raise ShapeError(
                "A hole {} deep with a point of {} comes out of a bar of {}. Drill less deep.",
                self.bar_depth, self.drill_point, self.bar_diameter, input="bar_depth",
            )
        if self.bar_depth - self.shoulder <= self.end_clearance:
            raise ShapeError(
                "A hole {} deep is {} shallower at its sides, for the bar is round: with a clearance of {} it does not "
                "hold the stub there. Drill deeper or take thinner stubs.",
                self.bar_depth, self.shoulder, self.end_clearance, input="bar_depth",
            )
        if self.leg_depth <= self.end_clearance:
            raise ShapeError(
                "A hole {} deep leaves no stub in it with a clearance of {}. Drill deeper.",
                self.leg_depth, self.end_clearance, input="leg_depth",
            )
        if self.has("leg_diameter"):
            self._check_leg()

    def _check_leg(self):
        if self.stub_diameter >= self.leg_diameter:
            raise ShapeError(
                "A stub of {} does not go into a leg of {}. Take thinner stubs.",
                self.stub_diameter, self.leg_diameter, input="stub_diameter",
            )
        if self.leg_wall <= 0:
            raise ShapeError(
                "A hole {} deep with a point of {} comes out of a leg of {}. Drill less deep.",
                self.leg_depth, self.drill_point, self.leg_diameter, input="leg_depth",
            )

    def on_card(self):
        """First the saw, then the drill's depths and what is left, then what it carries."""
        left = ("bar_wall", "bar_cheek", "shoulder", "leg_wall")
        return ("bar_length", "stub_length", *left, "bar_share", "bar_sag", "stub_share")

    @result("stub length", "l", checks="hand_room", to_set=True)
    def stub_length(self):
        """From end to end: both depths and the hand room, less the clearance at each end."""
        return self.hand_room + self.bar_depth + self.leg_depth - 2 * self.end_clearance

    @result("bar length", "L", checks="width", to_set=True)
    def bar_length(self):
        """From end to end: the width and both overhangs."""
        return self.width + 2 * self.overhang

    @result("wood behind the hole in the bar", "w")
    def bar_wall(self):
        """From the deepest point of the drill to the bar's far side, on the stub's axis."""
        return self.bar_diameter - self.bar_depth - self.drill_point

    @result("wood beside the hole in the bar", "b")
    def bar_cheek(self):
        """From the hole's rim to the bar's side, seen along the stub's axis."""
        return (self.bar_diameter - self.stub_diameter) / 2

    @result("hole shallower at its sides by", "s", step="0.05 mm")
    def shoulder(self):
        """The round bar falls away: how much shallower the hole is at its two sides across the bar than on its axis.

        >>> StubBar("20 mm", "12 mm", "43 mm", "360 mm", "30 mm", "9 mm", "18 mm", "10 kg").shoulder  # 6, 8, 10
        <Quantity(2.0, 'millimeter')>
        """
        return self.bar_diameter / 2 - sqrt(self.bar_diameter**2 / 4 - self.stub_diameter**2 / 4)

    @result("wood behind the hole in the leg", "w_l")
    def leg_wall(self):
        """From the deepest point of the drill to the leg's far side, on the stub's axis."""
        return self.leg_diameter - self.leg_depth - self.drill_point

    @result("strength of the bar's timber", "R_b", kind="stress", plan=True, minor=True)
    def bar_strength(self):
        """Modulus of rupture of clear straight wood at 12 % moisture, looked up: Wood Handbook Table 5-3a."""
        return strength(self.bar_species).rupture * self.megapascal

    @result("stiffness of the bar's timber", "E", kind="stress", plan=True, minor=True)
    def bar_stiffness(self):
        """Modulus of elasticity of clear straight wood at 12 % moisture, looked up: Wood Handbook Table 5-3a."""
        return strength(self.bar_species).elasticity * self.megapascal

    @result("strength of the stubs' timber", "R_s", kind="stress", plan=True, minor=True)
    def stub_strength(self):
        """Modulus of rupture of clear straight wood at 12 % moisture, looked up: Wood Handbook Table 5-3a."""
        return strength(self.stub_species).rupture * self.megapascal

    @result("stress in the bar", "sigma_b", kind="stress")
    def bar_stress(self):
        """Greatest bending stress in the bar, the load in its middle, the bar lying loose on both stubs.

        The moment m g W/4 over the section modulus of a round, pi D^3/32.

        >>> bar = StubBar("19 mm", "14 mm", "43 mm", "360 mm", "30 mm", "9 mm", "18 mm", "10 kg")
        >>> bar.tell("bar_stress", "stub_stress")
        stress in the bar  13.1 MPa
        stress in a stub   19.1 MPa
        """
        return 8 * self.load * self.gravity * self.width / (self.pi * self.bar_diameter**3)

    @result("bend of the bar", "y", step="0.05 mm")
    def bar_sag(self):
        """How far the middle of the bar gives, the load there: m g W^3/(48 E I), with I = pi D^4/64.

        Upwards where the hand lifts, downwards where something hangs on it.
        The bar lies loose on both stubs; the shear's share and the stubs' own bend are left out.
        """
        inertia = self.pi * self.bar_diameter**4 / 64
        return self.load * self.gravity * self.width**3 / (48 * self.bar_stiffness * inertia)

    @result("stress in a stub", "sigma_s", kind="stress")
    def stub_stress(self):
        """Greatest bending stress in a stub, at the leg's surface, the whole load over it on the bar's centre line."""
        arm = self.hand_room + self.bar_diameter / 2
        return 32 * self.load * self.gravity * arm / (self.pi * self.stub_diameter**3)

    @result("share of the bar's strength", "u_b", kind="percent")
    def bar_share(self):
        """Stress in the bar over the modulus of rupture of clear straight wood."""
        return self.bar_stress / self.bar_strength

    @result("share of the stub's strength", "u_s", kind="percent")
    def stub_share(self):
        """Stress in a stub over the modulus of rupture of clear straight wood."""
        return self.stub_stress / self.stub_strength

    def worries(self):
        yield from tight_for_a_hand(self.hand_room, "hand_room")
        shares = (("stub", self.stub_share, "stub_diameter"), ("bar", self.bar_share, "bar_diameter"))
        for what, share, name in shares:
            if share > MOST_OF_STRENGTH + 1e-9:
                yield Caution(
                    f"The {what} is loaded to {100 * share:.0f} % of what clear straight wood breaks at: this lesson "
                    f"stops at 20 %, for knots, slope of grain and jolts. Take a thicker {what}.", input=name,
                    source=f"{SOURCE}; the 20 % is a rule of this lesson",
                )
        yield from self._thin_walls()
        yield from self._second_hand()

    def _thin_walls(self):
        if self.bar_wall < THIN_WALL:
            yield Caution(
                "Only {} of wood are left behind the hole in the bar: the drill's point and the glue show through. "
                "Drill less deep.", self.bar_wall, input="bar_depth",
            )
        if self.has("leg_diameter") and self.leg_wall < THIN_WALL:
            yield Caution(
                "Only {} of wood are left behind the hole in the leg: the drill's point and the glue show through. "
                "Drill less deep.", self.leg_wall, input="leg_depth",
            )

    def _second_hand(self):
        """Timbers whose strength was not read in the source itself."""
        for timber in dict.fromkeys((self.bar_species, self.stub_species)):
            if told := strength(timber).doubt:
                yield Caution(
                    f"{timber}: the strength or stiffness that is reckoned with here is {told}. Look it up before "
                    "anybody's safety hangs on it.", input="bar_species", source=f"{SOURCE}, {told}",
                )

    def beside_dowels(self, joint, bar_height, *rail_tops, unit="mm"):
        """How much wood a stub's hole leaves to the rails' dowel holes in the same leg: a small table.

        `joint` is lesson 04's, `bar_height` the stub's axis and `rail_tops` the rails' upper edges above the floor.
        Each dowel hole is taken across from the stub and square to it, whichever is nearer: on neighbouring legs the
        two rails change places. Raises ShapeError where the stub does not fit the joint's leg.
        """
        heights = [measure.plain("length", height) for height in (bar_height, *rail_tops)]
        return beside_dowels(self.plain, joint.plain, *heights, unit=unit)
