"""Screws that hold a panel and let it move: what sits where, how far the seasons carry it, and what the screw holds."""

from shoplib.maths.functions import most
from shoplib.maths.movement import SOURCE, coefficient, moisture, species, swelling, worries_of_moisture
from shoplib.maths.screws.sizes import OFFER
from shoplib.maths.wood import specific_gravity, timbers_with
from shoplib.measure import write
from shoplib.model import Caution, Input, Model, ShapeError, choice, length, model, result

WITHDRAWAL = 19.65  # MPa: 2850 pounds for each inch of thread and inch of shank (19.6502)
NDS = "National Design Specification for Wood Construction (secondary reading)"
TIMBERS = tuple(each for each in species() if each in timbers_with("specific_gravity"))
LEAST_COVER, LEAST_BEARING, LEAST_WALL = 2.0, 0.5, 3.0  # mm
THREADED = 2 / 3  # of a screw's length: NDS, and W. Noyes, Handwork in Wood (1910)
WET = 0.30


def lead_share(gravity):
    """Lead hole over the screw's root diameter, by the timber's specific gravity at 12 %; 0 where none is required.

    NDS: over 0.6 about 90 %, over 0.5 about 70 %, else no lead hole required.

    >>> lead_share(0.64), lead_share(0.6), lead_share(0.5)
    (0.9, 0.7, 0.0)
    """
    return 0.9 if gravity > 0.6 else 0.7 if gravity > 0.5 else 0.0


@model
class PanelScrew(Model):
    """A screw that comes up through a rail on edge into a tray's panel, and slides with it through the year.

    >>> screw = PanelScrew(
    ...     "50 mm", "20 mm", "19 mm", "40 mm", "4 mm", "2.8 mm", "8 mm", "6 mm", "12 mm", "75 mm",
    ...     "Ash, white", "flat", "8 %", "6 %", "12 %", washer_thickness="1 mm", washer_diameter="10 mm")
    >>> screw.web, screw.grip, screw.cover
    (<Quantity(31.0, 'millimeter')>, <Quantity(8.0, 'millimeter')>, <Quantity(4.0, 'millimeter')>)
    """

    OFFER = OFFER

    rail_height: Input = length(
        "rail height", "H", low="30 mm", high="100 mm", step="1 mm", inch_step="1/16 in", tolerance="0.3 mm",
        help="From the rail's underside to the panel.", group="Rail",
    )
    rail_thickness: Input = length(
        "rail thickness", "b", low="15 mm", high="60 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.2 mm",
        help="Across the rail, where the counterbore is drilled.", group="Rail",
    )
    counterbore_depth: Input = length(
        "counterbore depth", "c", low="0 mm", high="80 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.5 mm",
        help="From the rail's underside to the seat of the head or washer.", group="Rail",
    )
    screw_length: Input = length(
        "screw length", "l", low="15 mm", high="100 mm", step="1 mm", inch_step="1/16 in", tolerance="0.5 mm",
        help="From the underside of a flat-seated head to the tip.", group="Screw",
    )
    shank_diameter: Input = length(
        "shank diameter", "d", low="3 mm", high="6.5 mm", step="0.1 mm", inch_step="1/64 in", tolerance="0.1 mm",
        help="Of the smooth part, or over the thread.", group="Screw",
    )
    root_diameter: Input = length(
        "root diameter", "d_r", low="2 mm", high="5 mm", step="0.1 mm", inch_step="1/64 in", tolerance="0.1 mm",
        help="At the bottom of the thread.", group="Screw",
    )
    head_diameter: Input = length(
        "head diameter", "d_h", low="6 mm", high="16 mm", step="0.1 mm", inch_step="1/64 in", tolerance="0.1 mm",
        help="Of a flat-seated head.", group="Screw",
    )
    hole_diameter: Input = length(
        "hole diameter", "d_o", low="3.5 mm", high="10 mm", step="0.5 mm", inch_step="1/64 in", tolerance="0.1 mm",
        help="Of the small hole through the rail in which the shank slides.", group="Rail",
    )
    panel_thickness: Input = length(
        "panel thickness", "t", low="8 mm", high="50 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.2 mm",
        help="Of the panel above the rail.", group="Panel",
    )
    from_fixed: Input = length(
        "from the fast screws", "a", low="0 mm", high="800 mm", step="1 mm", inch_step="1/16 in", tolerance="1 mm",
        help="Across the panel's grain, from the line of screws that hold it fast to this one.", group="Panel",
    )
    species: Input = choice("panel's timber", "species_of_panel", TIMBERS, help="Of the panel.", default="Ash, white",
        group="Panel")  # fmt: skip
    cut: Input = choice(
        "panel's cut", "cut_of_panel", ("flat", "quarter"), default="flat", group="Panel",
        help="Flat: rings lie along the panel's width. Quarter: they stand upright in it.",
    )
    made: Input = moisture("moisture when screwed", "M_0", help="Of the panel on the day of screwing.", default="8 %",
        group="Seasons")  # fmt: skip
    dry: Input = moisture("moisture, dry season", "M_1", help="What the panel comes down to.", default="6 %",
        group="Seasons")  # fmt: skip
    damp: Input = moisture("moisture, damp season", "M_2", help="What the panel comes up to.", default="12 %",
        group="Seasons")  # fmt: skip
    washer_thickness: Input = length(
        "washer thickness", "t_w", low="0 mm", high="4 mm", step="0.1 mm", inch_step="1/64 in", tolerance="0.1 mm",
        help="0 without a washer.", default="0 mm", group="Screw",
    )
    washer_diameter: Input = length(
        "washer diameter", "d_w", low="8 mm", high="25 mm", step="0.5 mm", inch_step="1/64 in", tolerance="0.2 mm",
        help="Left out without a washer.", default=None, group="Screw",
    )
    lead_short: Input = length(
        "lead hole stops short", "f", low="0 mm", high="5 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.3 mm",
        help="Of the screw's tip, so that the tip bites.", default="2 mm", group="Screw",
    )

    def check(self):
        self._check_screw()
        self._check_washer()
        self._check_rail()
        self._check_panel()
        self._check_seasons()

    def _check_seasons(self):
        if self.dry > self.damp:
            raise ShapeError(
                f"The dry season's moisture ({_content(self.dry)}) must not be more than the damp one's "
                f"({_content(self.damp)}). Change the two over.", input="dry",
            )
        for name in ("made", "damp"):
            if getattr(self, name) > WET:
                raise ShapeError(
                    f"A moisture content of {_content(getattr(self, name))} is that of wet wood, which no longer "
                    "swells: it must stay under 30.0 %. Let it dry first.", input=name,
                )

    def _check_screw(self):
        if self.root_diameter > self.shank_diameter:
            raise ShapeError(
                "A root of {} cannot be thicker than the shank of {}. Change the two over.",
                self.root_diameter, self.shank_diameter, input="root_diameter",
            )
        if self.head_diameter <= self.shank_diameter:
            raise ShapeError(
                "A head of {} is no wider than the shank of {}: it holds nothing. Measure the head again.",
                self.head_diameter, self.shank_diameter, input="head_diameter",
            )

    def _check_washer(self):
        if self.has("washer_diameter") and self.washer_diameter < self.head_diameter:
            raise ShapeError(
                "A washer {} across is smaller than the head of {}. Take a larger one.",
                self.washer_diameter, self.head_diameter, input="washer_diameter",
            )

    def _check_rail(self):
        if self.web <= 0:
            raise ShapeError(
                "A counterbore {} deep goes right through a rail {} high. Drill less deep.",
                self.counterbore_depth, self.rail_height, input="counterbore_depth",
            )
        if self.hole_diameter < self.shank_diameter:
            raise ShapeError(
                "A shank of {} does not go through a hole of {}. Drill a larger hole.",
                self.shank_diameter, self.hole_diameter, input="hole_diameter",
            )
        bears = "washer" if self.has("washer_diameter") else "head"
        if self.head <= self.hole_diameter:
            raise ShapeError(
                f"A {bears} of {{}} slips through a hole of {{}}. Take a larger washer, or a smaller hole; a slot "
                "along the rail lets the screw slide and stays as narrow as the shank.",
                self.head, self.hole_diameter, input="hole_diameter",
            )
        if self.counterbore_wall <= 0:
            raise ShapeError(
                "A counterbore of {} leaves no wall in a rail {} thick. Take a smaller head or washer, a smaller hole, "
                "or a thicker rail.", self.counterbore_diameter, self.rail_thickness, input="rail_thickness",
            )

    def _check_panel(self):
        if self.cover <= 0:
            raise ShapeError(
                "The screw comes {} through a panel of {}. Take a shorter screw, a thicker washer, or a shallower "
                "counterbore.", -self.cover, self.panel_thickness, input="screw_length",
            )
        if self.grip <= 0:
            raise ShapeError(
                "The screw ends {} below the panel. Take a longer screw or a deeper counterbore.",
                -self.grip, input="screw_length",
            )

    def on_card(self):
        """In the order of drilling: counterbore, small hole, lead hole; then what tells whether it will do."""
        return (
            "counterbore_diameter", "web", "hole_needed", "lead_hole", "lead_depth", "grip", "cover", "move_dry",
            "move_damp", "spare", "bearing", "counterbore_wall", "pull",
        )

    @result("wood between head and panel", "w", checks="counterbore_depth")
    def web(self):
        """From the counterbore's seat up to the panel."""
        return self.rail_height - self.counterbore_depth

    @result("thread in the panel", "g", checks="screw_length")
    def grip(self):
        """From the panel's underside up to the screw's tip."""
        return self.screw_length - self.washer_thickness - self.web

    @result("wood above the tip", "u")
    def cover(self):
        """From the screw's tip up to the panel's face."""
        return self.panel_thickness - self.grip

    @result("movement for 1 %", "C", kind="ratio", step=0.00001, plan=True, minor=True)
    def movement(self):
        """Change across the grain for each per cent of moisture: Wood Handbook (FPL-GTR-190) Table 13-5."""
        return coefficient(self.species, self.cut)

    @result("moves, dry season", "m_1", step="0.01 mm", inch_step="0.001 in")
    def move_dry(self):
        """How far the panel carries the screw from where it was driven; away from the fast screws is positive."""
        return self.from_fixed * swelling(self.movement, self.made, self.dry)

    @result("moves, damp season", "m_2", step="0.01 mm", inch_step="0.001 in")
    def move_damp(self):
        """The same in the damp season."""
        return self.from_fixed * swelling(self.movement, self.made, self.damp)

    @result("larger move", "m", minor=True)
    def larger_move(self):
        """The larger size of the two moves."""
        return most(abs(self.move_dry), abs(self.move_damp))

    @result("hole needed", "n", step="0.01 mm")
    def hole_needed(self):
        """Least hole in which the screw, driven in its middle, can follow the panel both ways."""
        return self.shank_diameter + 2 * self.larger_move

    @result("room to spare", "s", step="0.01 mm", inch_step="0.001 in", checks="hole_diameter")
    def spare(self):
        """Play of the shank on one side, less the larger move; below nothing the screw is jammed in that season."""
        return (self.hole_diameter - self.shank_diameter) / 2 - self.larger_move

    @result("head or washer", "h", minor=True, plan=True)
    def head(self):
        """Diameter of what bears on the seat: the washer where there is one."""
        return self.washer_diameter if self.has("washer_diameter") else self.head_diameter

    @result("bearing on the narrow side", "r", step="0.05 mm")
    def bearing(self):
        """What the head still covers on its narrow side, with the shank against the hole's other side."""
        return (self.head - self.hole_diameter) / 2 - (self.hole_diameter - self.shank_diameter) / 2

    @result("counterbore diameter", "D", checks="hole_diameter", to_set=True)
    def counterbore_diameter(self):
        """The least that lets the head travel as far as the shank can."""
        return self.head + self.hole_diameter - self.shank_diameter

    @result("wall beside the counterbore", "k")
    def counterbore_wall(self):
        """Wood left on each side of the counterbore in the rail."""
        return (self.rail_thickness - self.counterbore_diameter) / 2

    @result("specific gravity", "G", kind="ratio", step=0.01, plan=True, minor=True)
    def gravity_of_wood(self):
        """Of the panel at 12 % moisture: Wood Handbook (FPL-GTR-190) Table 5-3a."""
        return specific_gravity(self.species)

    @result("lead hole's share of the root", "q", kind="ratio", step=0.01, plan=True, minor=True)
    def share_of_root(self):
        """By the specific gravity; raises ShapeError where no lead hole is required (NDS)."""
        found = lead_share(self.gravity_of_wood)
        if not found:
            raise ShapeError(
                f"No lead hole is required in a timber as light as this (specific gravity {self.gravity_of_wood:.2f}): "
                "prick a starter hole with an awl.", input="species",
            )
        return found

    @result("lead hole", "d_l", to_set=True)
    def lead_hole(self):
        """Drill for the thread: a share of the root diameter (NDS)."""
        return self.share_of_root * self.root_diameter

    @result("lead hole's depth", "T_l", to_set=True)
    def lead_depth(self):
        """From the panel's underside: the thread in it, less what the hole stops short.

        Raises ShapeError where no lead hole is required, and where nothing is left of it.
        """
        if type(self.grip) is float and self.share_of_root and self.grip <= self.lead_short:
            raise ShapeError(
                "With {} of thread in the panel no lead hole can stop {} short: prick a starter hole.",
                self.grip, self.lead_short, input="lead_short",
            )
        return self.grip - self.lead_short

    @result("pull that it holds", "P", kind="force")
    def pull(self):
        """Design value of the withdrawal from side grain: 2850 G^2 D pounds for each inch of full thread (NDS).

        D is the shank in inches; the point's taper is not counted.
        """
        return WITHDRAWAL * self.megapascal * self.gravity_of_wood**2 * self.shank_diameter * self.grip

    def worries(self):
        yield from self._worries_thread()
        yield from self._worries_seat()
        if self.spare < -1e-9:
            season = "damp" if abs(self.move_damp) > abs(self.move_dry) else "dry"
            yield Caution(
                f"In the {season} season the panel wants {{}} more room than the hole gives: the screw jams and the "
                "panel cracks or bows. Drill a hole of {} or more, or a slot along the rail.",
                (-self.spare, "0.01 mm", "0.001 in"), (self.hole_needed, "0.01 mm", "0.001 in"),
                input="hole_diameter", source=SOURCE,
            )
        yield from worries_of_moisture(self.species, made=self.made, dry=self.dry, damp=self.damp)

    def _worries_thread(self):
        if self.cover < LEAST_COVER:
            yield Caution(
                "Only {} of wood above the tip: a rail a little low, and the screw comes through. Take a shorter screw "
                "or one more washer.", self.cover, input="screw_length",
            )
        if self.grip < 2 * self.shank_diameter:
            yield Caution(
                "Only {} of thread in the panel, less than twice the shank: it pulls out easily. Take a longer "
                "screw or a deeper counterbore.", self.grip, input="screw_length",
            )
        if self.grip > THREADED * self.screw_length + 1e-9:
            yield Caution(
                "{} of the screw is in the panel, and only about {} of it is thread: the smooth part holds nothing and "
                "needs a wider hole there. Take a screw that is threaded all along, or a deeper counterbore and a "
                "shorter screw.", self.grip, THREADED * self.screw_length, input="screw_length", source=NDS,
            )

    def _worries_seat(self):
        if not self.has("washer_diameter") and self.washer_thickness > 0:
            yield Caution(
                "A washer {} thick holds the head back, but its width is not known: what bears is reckoned from the "
                "head. Give the washer's diameter.", self.washer_thickness, input="washer_diameter",
            )
        if self.has("washer_diameter") and not self.washer_thickness:
            yield Caution(
                "A washer {} across is given without its thickness: with it the screw reaches less far. Measure it.",
                self.washer_diameter, input="washer_thickness",
            )
        bears, wanted = ("washer", "a larger washer") if self.has("washer_diameter") else ("head", "a washer")
        if self.bearing <= 0:
            yield Caution(
                f"With the screw at the hole's side the {bears} no longer covers the hole on the other: it tips and "
                f"pulls in. Take {wanted}, {{}} across or more.", self._least_head(), input="washer_diameter",
            )
        elif self.bearing < LEAST_BEARING:
            yield Caution(
                f"With the screw at the hole's side the {bears} covers only {{}} on the other: take {wanted}.",
                self.bearing, input="washer_diameter",
            )
        if self.counterbore_wall < LEAST_WALL:
            yield Caution(
                "Only {} of wood beside the counterbore: the rail can split. Take a smaller washer or a thicker rail.",
                self.counterbore_wall, input="rail_thickness",
            )

    def _least_head(self):
        """The head or washer that just bears enough: bearing = LEAST_BEARING, solved for it."""
        return 2 * (self.hole_diameter + LEAST_BEARING) - self.shank_diameter


def _content(value):
    return write(value, "percent", "percent", "0.1 %")
