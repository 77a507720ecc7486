"""A straight round bar on two stubs let into the legs: lengths, depths, walls, and what it carries."""

from shoplib.maths.functions import sqrt
from shoplib.maths.wood import SOURCE, strength, timbers_with
from shoplib.model import Caution, Input, Model, ShapeError, choice, length, mass, model, result

HAND = 38.1  # mm: 1 1/2 in
MOST_OF_STRENGTH = 1 / 5
STRONG = timbers_with("strength")


@model
class StubBar(Model):
    """A round pull bar on two round stubs, each let into the bar and into a leg.

    >>> bar = StubBar("19 mm", "14 mm", "43 mm", "360 mm", "30 mm", "9 mm", "18 mm", "10 kg")
    >>> bar.stub_length, bar.bar_length
    (<Quantity(68.0, 'millimeter')>, <Quantity(420.0, 'millimeter')>)
    """

    bar_diameter: Input = length(
        "bar diameter", "D", low="15 mm", high="50 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.2 mm",
        help="Of the round bar.", group="Bar",
    )
    stub_diameter: Input = length(
        "stub diameter", "d", low="6 mm", high="30 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.1 mm",
        help="Of both stubs and of their holes.", group="Stubs",
    )
    hand_room: Input = length(
        "hand room", "h", low="15 mm", high="150 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.5 mm",
        help="Clear between leg and bar, on the stub's axis.", group="Bar",
    )
    width: Input = length(
        "width", "W", low="100 mm", high="1000 mm", step="1 mm", inch_step="1/16 in", tolerance="0.5 mm",
        help="Between the stubs' axes.", group="Bar",
    )
    overhang: Input = length(
        "overhang", "v", low="10 mm", high="150 mm", step="1 mm", inch_step="1/16 in", tolerance="1 mm",
        help="Bar beyond each stub's axis.", group="Bar",
    )
    bar_depth: Input = length(
        "hole in the bar", "t_b", low="4 mm", high="40 mm", step="0.5 mm", inch_step="1/64 in", tolerance="0.3 mm",
        help="Drilled depth on the stub's axis, from the bar's surface.", group="Stubs",
    )
    leg_depth: Input = length(
        "hole in the leg", "t_l", low="5 mm", high="80 mm", step="0.5 mm", inch_step="1/64 in", tolerance="0.3 mm",
        help="Drilled depth on the stub's axis, from the leg's surface.", group="Stubs",
    )
    load: Input = mass(
        "load", "m", low="1 kg", high="60 kg", step="0.5 kg", tolerance="1 kg",
        help="What the hand lifts: from lesson 07.", group="Load",
    )
    bar_species: Input = choice(
        "bar's timber", "species_of_bar", STRONG, help="Of the bar.", default="Ash, white", group="Load",
    )
    stub_species: Input = choice(
        "stubs' timber", "species_of_stubs", STRONG, help="Of the stubs.", default="Ash, white", group="Load",
    )
    end_clearance: Input = length(
        "clearance at each end", "c", low="0 mm", high="5 mm", step="0.5 mm", inch_step="1/64 in", tolerance="0.3 mm",
        help="Between the stub's end and the hole's bottom, for glue.", default="1 mm", group="Stubs",
    )
    drill_point: Input = length(
        "drill's point", "p", low="0 mm", high="8 mm", step="0.5 mm", inch_step="1/64 in", tolerance="0.2 mm",
        help="Beyond the full depth of the hole.", default="0 mm", group="Stubs",
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
        for depth, name in ((self.bar_depth, "bar_depth"), (self.leg_depth, "leg_depth")):
            if depth <= self.end_clearance:
                raise ShapeError(
                    "A hole {} deep leaves no stub in it with a clearance of {}. Drill deeper.",
                    depth, self.end_clearance, input=name,
                )

    def on_card(self):
        """First the saw, then the drill's depths and what is left, then what it carries."""
        return (
            "bar_length", "stub_length", "bar_wall", "bar_cheek", "shoulder", "bar_share", "stub_share", "bar_sag",
        )

    @result("stub length", "l", checks="hand_room")
    def stub_length(self):
        """Both depths and the hand room, less the clearance at each end."""
        return self.hand_room + self.bar_depth + self.leg_depth - 2 * self.end_clearance

    @result("bar length", "L", checks="width")
    def bar_length(self):
        """From end to end: the width and both overhangs."""
        return self.width + 2 * self.overhang

    @result("wood behind the hole in the bar", "w")
    def bar_wall(self):
        """From the deepest point of the drill to the bar's far side, on the stub's axis."""
        return self.bar_diameter - self.bar_depth - self.drill_point

    @result("wood beside the hole in the bar", "b")
    def bar_cheek(self):
        """Between the hole's side and the bar's side, at the bar's middle."""
        return (self.bar_diameter - self.stub_diameter) / 2

    @result("hole shallower at its sides by", "s", step="0.05 mm")
    def shoulder(self):
        """The round bar falls away: how much shallower the hole is at its two sides across the bar than on its axis."""
        return self.bar_diameter / 2 - sqrt(self.bar_diameter**2 / 4 - self.stub_diameter**2 / 4)

    @result("strength of the bar's timber", "R_b", kind="stress", plan=True, minor=True)
    def bar_strength(self):
        """Modulus of rupture, looked up: Wood Handbook Table 5-3a."""
        return strength(self.bar_species).rupture * self.megapascal

    @result("stiffness of the bar's timber", "E", kind="stress", plan=True, minor=True)
    def bar_stiffness(self):
        """Modulus of elasticity, looked up: Wood Handbook Table 5-3a."""
        return strength(self.bar_species).elasticity * self.megapascal

    @result("strength of the stubs' timber", "R_s", kind="stress", plan=True, minor=True)
    def stub_strength(self):
        """Modulus of rupture, looked up: Wood Handbook Table 5-3a."""
        return strength(self.stub_species).rupture * self.megapascal

    @result("stress in the bar", "sigma_b", kind="stress")
    def bar_stress(self):
        """Bending stress in the middle of the bar, the load there, the bar lying loose on both stubs.

        The moment m g W/4 over the section modulus pi D^3/32 of a round.
        """
        return 8 * self.load * self.gravity * self.width / (self.pi * self.bar_diameter**3)

    @result("sag of the bar", "y", step="0.05 mm")
    def bar_sag(self):
        """How far the middle of the bar comes down under the load: m g W^3/(48 E I), I = pi D^4/64."""
        inertia = self.pi * self.bar_diameter**4 / 64
        return self.load * self.gravity * self.width**3 / (48 * self.bar_stiffness * inertia)

    @result("stress in a stub", "sigma_s", kind="stress")
    def stub_stress(self):
        """Bending stress in a stub at the leg's surface, the whole load over it on the bar's centre line."""
        arm = self.hand_room + self.bar_diameter / 2
        return 32 * self.load * self.gravity * arm / (self.pi * self.stub_diameter**3)

    @result("share of the bar's strength", "u_b", kind="ratio")
    def bar_share(self):
        """Stress in the bar over the modulus of rupture of clear straight wood."""
        return self.bar_stress / self.bar_strength

    @result("share of the stub's strength", "u_s", kind="ratio")
    def stub_share(self):
        """Stress in a stub over the modulus of rupture of clear straight wood."""
        return self.stub_stress / self.stub_strength

    def worries(self):
        if self.hand_room < 38:
            yield Caution(
                "A hand room of {} is tight for a hand: leave at least {}.", self.hand_room, HAND, input="hand_room",
                source="2010 ADA Standards, 609.3",
            )
        shares = (("stub", self.stub_share, "stub_diameter"), ("bar", self.bar_share, "bar_diameter"))
        for what, share, name in shares:
            if share > MOST_OF_STRENGTH:
                yield Caution(
                    f"The {what} is loaded to {100 * share:.0f} % of what clear straight wood breaks at: this lesson "
                    f"stops at 20 %, for knots, slope of grain and jolts. Take a thicker {what}.", input=name,
                    source=f"{SOURCE}; the 20 % is a rule of this lesson",
                )
        if self.bar_wall < 3:
            yield Caution(
                "Only {} of wood are left behind the hole in the bar: the drill's heat and the glue show through. "
                "Drill less deep.", self.bar_wall, input="bar_depth",
            )
