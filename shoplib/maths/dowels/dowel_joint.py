"""The joint of a coped rail with a round leg, in which a second rail's dowels lie as well."""

import math
from typing import NamedTuple

from shoplib import measure
from shoplib.maths.crossing import clearance_between, last, nearest_angle
from shoplib.maths.dowels.kinds import in_mm, like
from shoplib.maths.functions import choose, cos, least, most, sin, sqrt
from shoplib.model import Caution, Input, Model, ShapeError, count, length, model, public, result
from shoplib.tables import table

THIN = 1 / 4  # of the dowel's diameter: wood thinner than this between or behind holes is worth a caution
RULE = "a rule of thumb of this lesson"


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

    leg_diameter: Input = length(
        "leg diameter", "D", low="20 mm", high="80 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.2 mm",
        help="Across the round leg.",
    )
    rail_thickness: Input = length(
        "rail thickness", "t", low="10 mm", high="60 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.2 mm",
        help="Seen from above.",
    )
    rail_height: Input = length(
        "rail height", "h", low="20 mm", high="150 mm", step="1 mm", inch_step="1/16 in", tolerance="0.3 mm",
        help="From edge to edge, seen from the side.",
    )
    dowel_diameter: Input = length(
        "dowel diameter", "d", low="4 mm", high="26 mm", step="0.1 mm", inch_step="1/64 in", tolerance="0.1 mm",
        help="Of the dowels and of their holes.",
    )
    dowel_length: Input = length(
        "dowel length", "l", low="15 mm", high="120 mm", step="1 mm", inch_step="1/16 in", tolerance="0.5 mm",
        help="End to end.",
    )
    leg_depth: Input = length(
        "hole in the leg", "b", low="4 mm", high="75 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.5 mm",
        help="Its depth from the leg's surface, on the hole's axis, to the flat bottom.",
    )
    edge: Input = length(
        "edge to first hole", "e", low="4 mm", high="75 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.3 mm",
        help="From the rail's edge to the hole's centre; the last hole is as far from the other edge.",
    )
    dowels: Input = count("dowels in each rail end", "n", 1, 4, help="One above the other.", default=2)
    stagger: Input = length(
        "stagger", "s", low="0 mm", high="40 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.3 mm",
        help="How much lower the second rail's holes sit than the first one's.", default="0 mm",
    )
    end_clearance: Input = length(
        "clearance at each end", "c", low="0 mm", high="5 mm", step="0.1 mm", inch_step="1/64 in",
        tolerance="0.3 mm", help="Left beyond the dowel in both holes, for glue.", default="1.5 mm",
    )
    drill_point: Input = length(
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
