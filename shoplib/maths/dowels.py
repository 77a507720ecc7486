"""Dowels: round rod from square stock, the joint of a rail with a round leg, and the fit of a dowel in its hole."""

import math
from typing import NamedTuple

from shoplib import measure
from shoplib.maths import rods
from shoplib.maths.crossing import clearance_between, last, nearest_angle
from shoplib.maths.functions import choose, cos, least, most, sin, sqrt
from shoplib.maths.movement import coefficient
from shoplib.maths.tolerances import tolerance
from shoplib.model import Caution, Input, Model, ShapeError, choice, count, model, percent, public, result, write_finely
from shoplib.model import length as size  # `length` is an input's name here
from shoplib.tables import table

THIN = 1 / 4  # of the dowel's diameter: wood thinner than this between or behind holes is worth a caution
AS_SOLD = 0.127  # mm, 0.005 in either way: what dowel pins are sold to (common practice)
RULE = "a rule of thumb of this lesson"


def in_mm(value):
    """A length as a float, whether it came as a float in mm or as a Quantity."""
    return value.m_as("mm") if hasattr(value, "m_as") else value


def like(value, mm):
    """So many mm, as a Quantity where `value` is one."""
    return measure.quantity(mm, "mm") if hasattr(value, "m_as") else mm


class SetError(NamedTuple):
    """A rod from a cutter that stood too high or too low: widths between parallel jaws, and the step it left."""

    smallest: object
    largest: object
    out_of_round: object
    step: object

    def __repr__(self):
        return ", ".join(f"{name.replace('_', ' ')} {write_finely(value)}" for name, value in self._asdict().items())


@model
class RoundStock(Model):
    """Round rod from square stock, a roundover cutter run along its four corners.

    The ends stay square to ride the fence. The square's side is the rod's diameter.

    >>> rod = RoundStock("19 mm", "400 mm", roundover_radius="9 mm")
    >>> rod.square_side, rod.ideal_radius, rod.flat
    (<Quantity(19.0, 'millimeter')>, <Quantity(9.5, 'millimeter')>, <Quantity(1.0, 'millimeter')>)
    """

    diameter: Input = size(
        "rod diameter", "D", low="5 mm", high="50 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.1 mm",
        help="Across the finished rod: plane the square to this side.",
    )
    length: Input = size(
        "rod length", "l", low="20 mm", high="1200 mm", step="5 mm", inch_step="1/8 in", tolerance="0.5 mm",
        help="Of one finished rod.",
    )
    count: Input = count("rods from one blank", "n", 1, 40, help="Cut from its round part.", default=1)
    roundover_radius: Input = size(
        "roundover radius", "r", low="2 mm", high="25 mm", step="0.1 mm", inch_step="1/64 in", tolerance="0.1 mm",
        help="Of the cutter. Left out: exactly half the rod.", default=None,
    )
    grip: Input = size(
        "square grip", "g", low="0 mm", high="200 mm", step="5 mm", inch_step="1/8 in", tolerance="1 mm",
        help="Left square at each end, to ride on fence and table.", default="75 mm",
    )
    kerf: Input = size(
        "kerf", "k", low="0 mm", high="6 mm", step="0.1 mm", inch_step="1/64 in", tolerance="0.1 mm",
        help="Width of the saw's cut.", default="3 mm",
    )

    def check(self):
        if self.cutter_radius > self.ideal_radius * (1 + 1e-9):
            raise ShapeError(
                "A roundover of {} is too large for a rod of {}: more than {} eats into the faces that ride the fence. "
                "Take a smaller cutter or a thicker rod.",
                self.cutter_radius, self.diameter, self.ideal_radius, input="roundover_radius",
            )

    @result("square's side", "a", checks="diameter")
    def square_side(self):
        """Side of the square blank, face to face: the rod's diameter, for the faces stay where they are."""
        return self.diameter

    @result("ideal roundover radius", "rho")
    def ideal_radius(self):
        """Radius of the cutter that leaves a true circle: half the rod's diameter."""
        return self.diameter / 2

    @result("radius in the cutter", "r_c", plan=True, minor=True)
    def cutter_radius(self):
        """The roundover radius that was given, or the ideal one where it was left out."""
        return self.roundover_radius if self.has("roundover_radius") else self.ideal_radius

    @result("flat left on each face", "f", checks="roundover_radius", step="0.01 mm")
    def flat(self):
        """Width of the strip that the cutter leaves flat in the middle of each face."""
        return self.diameter - 2 * self.cutter_radius

    @result("across the corners", "w_c", checks="roundover_radius", step="0.01 mm")
    def across_corners(self):
        """Between parallel jaws with the rod turned 45 deg: its largest width. Across the flats it is the diameter.

        The outline is a square as wide as the flat with a circle of the cutter's radius run round it:
        the square's diagonal and twice that radius.
        """
        return sqrt(2 * self.flat**2) + 2 * self.cutter_radius

    @result("out of round", "u", checks="roundover_radius", step="0.01 mm")
    def out_of_round(self):
        """Largest less smallest width between parallel jaws, the rod turned through all angles.

        >>> round(RoundStock("19 mm", "400 mm", roundover_radius="8 mm").out_of_round, 3)
        <Quantity(1.243, 'millimeter')>
        """
        return self.across_corners - self.diameter

    @result("blank's length", "L")
    def blank_length(self):
        """End to end of the square blank: the rods, a saw cut at every end of one, and both grips.

        >>> RoundStock("19 mm", "400 mm", count=2).blank_length
        <Quantity(959.0, 'millimeter')>
        """
        return self.count * self.length + (self.count + 1) * self.kerf + 2 * self.grip

    def worries(self):
        if self.out_of_round > 0.02 * self.diameter:
            yield Caution(
                "The rod is {} wider across its corners than across its flats: it will bind in a hole drilled to its "
                "diameter. Take the next larger cutter, or plane the corners down.",
                self.out_of_round, input="roundover_radius",
            )
        if self.grip < 50.0:
            yield Caution(
                "A grip of {} is short: leave {} or more square at each end, so that the blank cannot roll or dip "
                "into the cutter.", self.grip, 50.0, input="grip",
            )
        if self.blank_length > 60 * self.diameter:
            yield Caution(
                "A blank {} long and {} thick whips over the cutter: make fewer or shorter rods at once, and use "
                "hold-downs.", self.blank_length, self.diameter, input="count",
            )

    def outline(self, n):
        """The rod's true outline: n points (x, y) at equal angles round its centre, the first on the x axis.

        >>> RoundStock("20 mm", "400 mm").outline(4)[0]
        (<Quantity(10.0, 'millimeter')>, <Quantity(0.0, 'millimeter')>)
        """
        if isinstance(n, bool) or not isinstance(n, int) or n < 3:
            raise measure.MeasureError(f"The outline needs a whole number of points, 3 or more, not {str(n)[:30]!r}.")
        return tuple(public(point, "length") for point in self.plain.outline_points(n))

    def outline_points(self, n):
        """The same in floats."""
        half, radius = self.plain_sizes()
        return tuple(rods.on_outline(2 * math.pi * k / n, half, radius) for k in range(n))

    def plain_sizes(self):
        """Half the square's side and the cutter's radius, in mm."""
        plain = getattr(self, "plain", self)
        return plain.diameter / 2, plain.cutter_radius

    def set_error(self, e):
        """What a cutter leaves that stands `e` too high over the table on all four passes (negative: too low).

        The fence is taken as right, and the blank is turned the same way after each pass. Too high
        leaves a step along each face and a thinner rod; too low leaves a ridge and a thicker one.

        >>> RoundStock("19 mm", "400 mm").set_error("0.3 mm")
        smallest 18.42 mm, largest 18.99 mm, out of round 0.57 mm, step 0.30 mm
        """
        error, (half, radius) = measure.plain("length", e), self.plain_sizes()
        if abs(error) > radius / 4:
            raise ShapeError(
                "The cutter stands {} off: from {} on that is another profile, not an error. Set it again.",
                error, radius / 4, input="roundover_radius",
            )
        low, high = rods.set_error(half, radius, error)
        return public(SetError(low, high, high - low, max(error, 0.0)), "length")


class Stock(NamedTuple):
    """One stock size of dowel that fits the joint: what it leaves in the rail and between the rails' holes."""

    diameter: float
    cheek: float
    between_holes: float


@model
class DowelJoint(Model):
    """A rail with a coped end, dowelled to a round leg on which a second rail meets it at a right angle.

    Both rails are level and drilled alike, but the second one's holes sit lower by the stagger.

    >>> joint = DowelJoint("35 mm", "20 mm", "50 mm", "8 mm", "40 mm", "12 mm", "12 mm")
    >>> joint.rail_depth, joint.spacing, round(joint.crossing_clearance, 2)
    (<Quantity(31.0, 'millimeter')>, <Quantity(26.0, 'millimeter')>, <Quantity(2.12, 'millimeter')>)
    """

    leg_diameter: Input = size(
        "leg diameter", "D", low="20 mm", high="80 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.2 mm",
        help="Across the round leg.",
    )
    rail_thickness: Input = size(
        "rail thickness", "t", low="10 mm", high="60 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.2 mm",
        help="Seen from above.",
    )
    rail_height: Input = size(
        "rail height", "h", low="20 mm", high="150 mm", step="1 mm", inch_step="1/16 in", tolerance="0.3 mm",
        help="From edge to edge, seen from the side.",
    )
    dowel_diameter: Input = size(
        "dowel diameter", "d", low="4 mm", high="26 mm", step="0.1 mm", inch_step="1/64 in", tolerance="0.1 mm",
        help="Of the dowels and of their holes.",
    )
    dowel_length: Input = size(
        "dowel length", "l", low="15 mm", high="120 mm", step="1 mm", inch_step="1/16 in", tolerance="0.5 mm",
        help="End to end.",
    )
    leg_depth: Input = size(
        "hole in the leg", "b", low="4 mm", high="75 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.5 mm",
        help="Its depth from the leg's surface, on the hole's axis, to the flat bottom.",
    )
    edge: Input = size(
        "edge to first hole", "e", low="4 mm", high="75 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.3 mm",
        help="From the rail's edge to the hole's centre; the last hole is as far from the other edge.",
    )
    dowels: Input = count("dowels in each rail end", "n", 1, 4, help="One above the other.", default=2)
    stagger: Input = size(
        "stagger", "s", low="0 mm", high="40 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.3 mm",
        help="How much lower the second rail's holes sit than the first one's.", default="0 mm",
    )
    end_clearance: Input = size(
        "clearance at each end", "c", low="0 mm", high="5 mm", step="0.1 mm", inch_step="1/64 in",
        tolerance="0.3 mm", help="Left beyond the dowel in both holes, for glue.", default="1.5 mm",
    )
    drill_point: Input = size(
        "drill's point", "q", low="0 mm", high="8 mm", step="0.1 mm", inch_step="1/64 in", tolerance="0.2 mm",
        help="How far the drill's centre point runs ahead of the flat bottom.", default="0 mm",
    )

    def check(self):
        self._check_rail()
        self._check_leg()
        self._check_dowel()
        self._check_heights()

    def _check_rail(self):
        if self.rail_thickness > self.leg_diameter:
            raise ShapeError(
                "A rail {} thick cannot be coped round a leg {} across. Take a thinner rail or a thicker leg.",
                self.rail_thickness, self.leg_diameter, input="rail_thickness",
            )
        if self.dowel_diameter >= self.rail_thickness:
            raise ShapeError(
                "A hole of {} leaves nothing of a rail {} thick: it must be smaller. Take a thinner dowel.",
                self.dowel_diameter, self.rail_thickness, input="dowel_diameter",
            )

    def _check_leg(self):
        if self.far_wall <= 0 or self.corner_wall <= 0:
            raise ShapeError(
                "A hole {} deep and {} wide, its point {} ahead, comes out behind a leg {} across. Drill less deep.",
                self.leg_depth, self.dowel_diameter, self.drill_point, self.leg_diameter, input="leg_depth",
            )

    def _check_dowel(self):
        if self.leg_depth <= self.end_clearance:
            raise ShapeError(
                "A hole {} deep with {} left at its end takes no dowel. Drill deeper or leave less.",
                self.leg_depth, self.end_clearance, input="leg_depth",
            )
        if self.rail_depth <= self.end_clearance:
            raise ShapeError(
                "A dowel {} long vanishes in a hole {} deep: nothing of it stands in the rail. Drill the leg less "
                "than {} deep or take a longer dowel.",
                self.dowel_length, self.leg_depth, self.dowel_length + self.end_clearance, input="leg_depth",
            )

    def _check_heights(self):
        radius = self.dowel_diameter / 2
        if self.edge <= radius:
            raise ShapeError(
                "A hole of {} breaks out of the rail's edge when its centre is {} from it: it must be more than {}. "
                "Move it in.", self.dowel_diameter, self.edge, radius, input="edge",
            )
        if self.dowels > 1 and self.spacing <= self.dowel_diameter:
            raise ShapeError(
                f"With {{}} at both edges, {self.dowels} holes of {{}} run into each other in a rail {{}} high. Move "
                "them out, or take fewer or thinner dowels.",
                self.edge, self.dowel_diameter, self.rail_height, input="edge",
            )
        if self.dowels == 1 and self.rail_height - self.edge <= radius:
            raise ShapeError(
                "A hole {} from one edge breaks out of the other one of a rail {} high. Move it in.",
                self.edge, self.rail_height, input="edge",
            )
        if self.shifted_edge <= radius:
            raise ShapeError(
                "Shifted by {}, the second rail's holes break out of its edge: there is room for {}. Take less "
                "stagger or move the holes in from the edges.",
                self.stagger, self.shifted_edge + self.stagger - radius, input="stagger",
            )

    @result("hole in the rail", "a", checks="leg_depth")
    def rail_depth(self):
        """From the bottom of the cope, on the hole's axis, to the hole's flat bottom.

        Both holes together hold the dowel and the clearance at both its ends. The bottom of the cope
        is where the leg's surface comes to lie.
        """
        return self.dowel_length + 2 * self.end_clearance - self.leg_depth

    @result("between the holes", "m", checks="edge")
    def spacing(self):
        """Centre to centre of neighbouring holes in one rail. Raises ShapeError where there is only one."""
        if type(self.dowels) is int and self.dowels == 1:
            raise ShapeError("A single dowel has no spacing: give 2 dowels or more.", input="dowels")
        return (self.rail_height - 2 * self.edge) / (self.dowels - 1)

    @result("cheek", "w", checks="dowel_diameter")
    def cheek(self):
        """Wood left on each side of the hole in the rail: from the hole to the rail's face."""
        return (self.rail_thickness - self.dowel_diameter) / 2

    @result("far wall", "f", checks="leg_depth")
    def far_wall(self):
        """Wood left in the leg behind the drill's point, on the hole's axis."""
        return self.leg_diameter - self.leg_depth - self.drill_point

    @result("bottom to the leg's centre", "p", minor=True)
    def bottom(self):
        """From the hole's flat bottom to the leg's centre line; negative where the hole has passed it."""
        return self.leg_diameter / 2 - self.leg_depth

    @result("wall at the bottom's rim", "f_r", plan=True, minor=True)
    def corner_wall(self):
        """Wood left between the flat bottom's rim and the leg's far surface; the leg's radius up to its centre."""
        beyond, radius = least(self.bottom, 0 * self.bottom), self.dowel_diameter / 2
        if beyond == 0:
            return self.leg_diameter / 2
        return self.leg_diameter / 2 - sqrt(beyond**2 + radius**2)

    @result("between the levels", "H", plan=True, minor=True)
    def level_gap(self):
        """Least difference in height between a hole's axis of this rail and one of the other: all pairs tried."""
        if self.dowels == 1:
            return abs(self.stagger)
        return min(abs(self.stagger - k * self.spacing) for k in range(1 - self.dowels, self.dowels))

    @result("where the rims come nearest", "varphi", kind="angle", plan=True, minor=True)
    def nearest_angle(self):
        """Angle round the hole's axis, from the level, of the point where its bottom's rim is nearest the other hole.

        Found by halving an interval, for it solves tan x = H / (p + r cos x).
        """
        radius = in_mm(self.dowel_diameter) / 2
        return nearest_angle(in_mm(self.bottom) / radius, in_mm(self.level_gap) / radius)

    @result("between the rails' holes", "k", step="0.01 mm", checks="leg_depth")
    def crossing_clearance(self):
        """Least wood between any hole of this rail and any of the second one; 0 where they break into each other.

        Both are finite cylinders with flat bottoms, their axes level, at a right angle, and crossing the
        leg's axis. Nearest to each other are points of the two rims at the same angle from the level;
        their distance is p - r cos x along either axis and H - 2 r sin x upright, and what is less
        than nothing counts as nothing.

        >>> joint = DowelJoint("35 mm", "20 mm", "50 mm", "6 mm", "40 mm", "25 mm", "15 mm", stagger="9 mm")
        >>> joint.crossing_clearance  # past the centre: the levels alone
        <Quantity(3.0, 'millimeter')>
        """
        radius, none = self.dowel_diameter / 2, 0 * self.dowel_diameter
        along = most(self.bottom - radius * cos(self.nearest_angle), none)
        upright = most(self.level_gap - 2 * radius * sin(self.nearest_angle), none)
        return sqrt(2 * along**2 + upright**2)

    @result("edge of the shifted holes", "e_s", checks="stagger")
    def shifted_edge(self):
        """From the second rail's lower edge to the centre of its lowest hole, which the stagger brings nearer."""
        last = choose(self.dowels > 1, self.edge, self.rail_height - self.edge)
        return last - self.stagger

    @result("stock dowels that suit", "d_k", kind="table", step="0.01 mm", inch_step="0.0001 in", plan=True)
    def suggested_dowel(self):
        """Stock sizes from 1/3 to 1/2 of the rail's thickness (common practice) whose clearances hold.

        That is, a quarter of a dowel's diameter or more of wood between the rails' holes and behind
        them, and half of it beside each hole. Sizes: the table `dowels`.
        """
        third, half = in_mm(self.rail_thickness) / 3, in_mm(self.rail_thickness) / 2
        sizes = sorted(row["mm"] for row in table("dowels"))
        fits = [self._with_dowel(mm) for mm in sizes if third - 1e-6 <= mm <= half + 1e-6]
        return tuple(
            Stock(other.dowel_diameter, other.cheek, other.crossing_clearance) for other in fits if other.holds()
        )

    def _with_dowel(self, mm):
        values = {name: getattr(self, name) for name in self.model.inputs()}
        return type(self)(values | {"dowel_diameter": like(self.dowel_diameter, mm)})

    def holds(self):
        """Whether this joint can be made with enough wood left everywhere."""
        try:
            self.check()
        except ShapeError:
            return False
        return not any(True for _ in self._worries_wood())

    def worries(self):
        if self.rail_thickness**2 > self.leg_diameter**2 / 2 * (1 + 1e-9):
            yield Caution(
                "Two rails {} thick collide at their tips beside a leg {} across: take thinner rails or a thicker leg.",
                self.rail_thickness, self.leg_diameter, input="rail_thickness", source="geometry",
            )
        share = self.dowel_diameter / self.rail_thickness
        if share > 0.5 * (1 + 1e-9) or share < (1 - 1e-9) / 3:
            yield Caution(
                "A dowel of {} in a rail {} thick: it should be from {} to {}, a third to half of the rail.",
                self.dowel_diameter, self.rail_thickness, self.rail_thickness / 3, self.rail_thickness / 2,
                input="dowel_diameter",
            )
        yield from self._worries_wood()
        yield from self._worries_hold()

    def _worries_wood(self):
        """Too little wood between or behind the holes, or beside them."""
        thin = THIN * self.dowel_diameter
        if self.crossing_clearance == 0:
            yield Caution(
                "The holes of the two rails break into each other in the leg: drill less deep, stagger them or take "
                "thinner dowels.", input="leg_depth",
            )
        elif self.crossing_clearance < thin:
            yield Caution(
                "Only {} of wood stays between the two rails' holes: leave {} or more.",
                self.crossing_clearance, thin, input="leg_depth", source=RULE,
            )
        wall = least(self.far_wall, self.corner_wall)
        if wall < thin:
            yield Caution(
                "Only {} of the leg stays behind the hole: leave {} or more, or the drill's point will show.",
                wall, thin, input="leg_depth", source=RULE,
            )
        edge, name = min((self.edge, "edge"), (self.shifted_edge, "stagger"))
        if edge < self.dowel_diameter:
            yield Caution(
                "A hole's centre lies only {} from the rail's edge: leave a dowel's diameter, {}, or the edge may "
                "split.",
                edge, self.dowel_diameter, input=name, source=RULE,
            )

    def _worries_hold(self):
        """Too little of the dowel in leg or rail, or no room for glue."""
        for depth, where in ((self.leg_depth, "leg"), (self.rail_depth, "rail")):
            if depth - self.end_clearance < self.dowel_diameter:
                yield Caution(
                    f"Only {{}} of the dowel holds in the {where}, less than it is thick ({{}}).",
                    depth - self.end_clearance, self.dowel_diameter, input="leg_depth", source=RULE,
                )
        if self.end_clearance < 1.0:
            yield Caution(
                "With {} left beyond the dowel the trapped glue may hold the joint open or split the leg: leave {} "
                "at each end.",
                self.end_clearance, 1.5, input="end_clearance",
            )

    def deepest_leg_hole(self, clearance):
        """The deepest hole in the leg that leaves this much wood to the other rail's holes and behind itself.

        All other sizes stay as they are. Raises ShapeError where no depth does.

        >>> joint = DowelJoint("35 mm", "20 mm", "50 mm", "8 mm", "40 mm", "12 mm", "12 mm")
        >>> round(joint.deepest_leg_hole("2 mm"), 2)
        <Quantity(12.09, 'millimeter')>
        """
        wanted, plain = _wanted(clearance), self.plain
        radius, leg = plain.dowel_diameter / 2, plain.leg_diameter / 2
        if leg - wanted <= radius:
            raise ShapeError(
                "No hole of {} leaves {} of wood all round it in a leg {} across: want less or take a thinner dowel.",
                plain.dowel_diameter, wanted, plain.leg_diameter, input="dowel_diameter",
            )
        behind = least(2 * leg - plain.drill_point - wanted, leg + math.sqrt((leg - wanted) ** 2 - radius**2))
        enough = lambda depth: _leaves(wanted, leg - depth, plain.level_gap, radius)  # noqa: E731
        return public(behind if enough(behind) else last(enough, 0.0, behind), "length")

    def stagger_needed(self, clearance):
        """The smallest stagger that leaves this much wood between the rails' holes at the present depth.

        Raises ShapeError where the holes of one rail stand too close together for it, or where the
        second rail's holes would break out of its edge.

        >>> joint = DowelJoint("35 mm", "20 mm", "50 mm", "6 mm", "40 mm", "25 mm", "15 mm")
        >>> joint.stagger_needed("3 mm")
        <Quantity(9.0, 'millimeter')>
        """
        wanted, plain = _wanted(clearance), self.plain
        radius = plain.dowel_diameter / 2
        short = lambda gap: not _leaves(wanted, plain.bottom, gap, radius)  # noqa: E731
        needed = 0.0 if not short(0.0) else last(short, 0.0, 2 * radius + wanted)
        room = plain.shifted_edge + plain.stagger - radius
        if plain.dowels > 1 and needed > plain.spacing / 2 + 1e-9:
            raise ShapeError(
                "The levels would have to lie {} apart, but holes {} apart leave only {} between them: spread the "
                "holes, drill less deep or take thinner dowels.",
                needed, plain.spacing, plain.spacing / 2, input="edge",
            )
        if needed >= room:
            raise ShapeError(
                "A stagger of {} would bring the second rail's holes out of its edge, where there is room for {}: move "
                "the holes in, drill less deep or take thinner dowels.", needed, room, input="edge",
            )
        return public(needed, "length")


def _leaves(wanted, bottom, gap, radius):
    """Whether two holes leave this much wood between them, or do not break into each other where none is wanted."""
    found = clearance_between(bottom, gap, radius)
    return found > 0 and found >= wanted - 1e-12


def _wanted(clearance):
    wanted = measure.plain("length", clearance)
    if wanted < 0:
        raise ShapeError("A clearance of {} cannot be wanted: it must be nothing or more.", wanted)
    return wanted


@model
class DowelFit(Model):
    """A dowel in its hole: how tight and how loose the two may meet, as made and at another moisture.

    Across the leg's grain the hole moves with the season as the dowel does; along the leg's grain it
    keeps its size while the dowel does not. The fit is taken there, the dowel turned so that its growth
    rings run the same way: the worst case.

    >>> fit = DowelFit("8 mm", "h11", "H11", "Beech, American", "8 %", "12 %")
    >>> fit.loosest, round(fit.swelling, 3)
    (<Quantity(0.18, 'millimeter')>, <Quantity(0.138, 'millimeter')>)
    """

    TABLE_HEAD = "It comes to"

    diameter: Input = size(
        "nominal diameter", "d", low="4 mm", high="30 mm", step="0.5 mm", inch_step="1/64 in", tolerance="0.05 mm",
        help="Of both dowel and hole.",
    )
    dowel_grade: Input = choice(
        "dowel made to", "T_d", ("as sold", "h8", "h11"), default="as sold",
        help="As sold: 0.13 mm (0.005 in) over or under. ISO 286 h: never over.",
    )
    hole_grade: Input = choice(
        "hole made to", "T_h", ("H8", "H11", "H13"), default="H11", help="ISO 286 H: never under. Measure a test hole.",
    )
    timber: Input = choice(
        "dowel's timber", "B",
        ("Beech, American", "Birch, yellow", "Maple, sugar", "White oak, commercial", "Ash, white"),
        default="Beech, American", help="As in the Wood Handbook's table.",
    )
    made: Input = percent(
        "moisture when glued", "M_1", low="4 %", high="20 %", step="0.5 %", tolerance="1 %", default="8 %",
        help="Moisture content of the dowel on the day.",
    )
    now: Input = percent(
        "moisture later", "M_2", low="4 %", high="20 %", step="0.5 %", tolerance="1 %", default="12 %",
        help="Moisture content that the season brings it to.",
    )

    @result("dowel's upper limit", "es", step="0.001 mm", inch_step="0.0001 in", plan=True, minor=True)
    def dowel_upper(self):
        """Largest dowel less the nominal diameter."""
        return like(self.diameter, AS_SOLD if self.dowel_grade == "as sold" else 0.0)

    @result("dowel's lower limit", "ei", step="0.001 mm", inch_step="0.0001 in", plan=True, minor=True)
    def dowel_lower(self):
        """Smallest dowel less the nominal diameter: ISO 286-1 for h, common practice as sold."""
        if self.dowel_grade == "as sold":
            return like(self.diameter, -AS_SOLD)
        return like(self.diameter, -tolerance(in_mm(self.diameter), "IT" + self.dowel_grade[1:]))

    @result("hole's upper limit", "ES", step="0.001 mm", inch_step="0.0001 in", plan=True, minor=True)
    def hole_upper(self):
        """Largest hole less the nominal diameter: ISO 286-1. The smallest hole has just the nominal one."""
        return like(self.diameter, tolerance(in_mm(self.diameter), "IT" + self.hole_grade[1:]))

    @result("movement for each per cent", "C_t", kind="ratio", step=0.00001, plan=True, minor=True)
    def movement(self):
        """Change across the dowel along its growth rings for each per cent of moisture: Wood Handbook, Table 13-5."""
        return coefficient(self.timber, "flat")

    @result("play, tightest pair", "p_1", step="0.01 mm", inch_step="0.001 in")
    def tightest(self):
        """Smallest hole less largest dowel, as made; negative: the dowel has to be forced."""
        return -1 * self.dowel_upper

    @result("play, loosest pair", "p_2", step="0.01 mm", inch_step="0.001 in")
    def loosest(self):
        """Largest hole less smallest dowel, as made."""
        return self.hole_upper - self.dowel_lower

    @result("dowel swells by", "z", step="0.01 mm", inch_step="0.001 in")
    def swelling(self):
        """Change across the dowel along its growth rings; negative: it shrinks. Wood Handbook p. 13-17."""
        return 100 * self.diameter * self.movement * (self.now - self.made)

    @result("later, tightest pair", "q_1", step="0.01 mm", inch_step="0.001 in")
    def tightest_later(self):
        """Play of the tightest pair at the later moisture, along the leg's grain."""
        return self.tightest - self.swelling

    @result("later, loosest pair", "q_2", step="0.01 mm", inch_step="0.001 in")
    def loosest_later(self):
        """Play of the loosest pair at the later moisture, along the leg's grain."""
        return self.loosest - self.swelling

    def worries(self):
        if self.tightest < 0:
            yield Caution(
                "The largest dowel is larger than the smallest hole: it scrapes off the glue or splits the leg. "
                "Measure each dowel, and pare or compress the large ones.", input="dowel_grade",
            )
        if self.loosest > 0.2:
            yield Caution(
                "The loosest pair has more play than glue bridges well: keep it under {}.",
                0.2, input="hole_grade", source=RULE,
            )
        if self.swelling < 0:
            yield Caution(
                "The dowel shrinks and pulls at its glue: dry dowels before you glue them, drier than they will "
                "ever be.",
                input="made",
            )
        for name in ("made", "now"):
            if not 0.06 - 1e-9 <= getattr(self, name) <= 0.14 + 1e-9:
                yield Caution(
                    "The table of movement holds from 6 to 14 % of moisture: beyond that this is a rough figure.",
                    input=name, source="Wood Handbook, Table 13-5",
                )
