"""The joint of a coped rail with a round leg, in which a second rail's dowels lie as well."""

import math
from typing import NamedTuple

from shoplib import measure
from shoplib.maths.crossing import deepest, least_gap, nearest_angle
from shoplib.maths.dowels import joint_limits
from shoplib.maths.dowels.kinds import in_mm, like
from shoplib.maths.dowels.stock_dowels import Stock, stock_sizes
from shoplib.maths.functions import choose, cos, least, most, sin, sqrt
from shoplib.model import Facts, Input, Model, ShapeError, count, length, length_in_full, model, public, result

LEG, RAIL, DOWEL = "The leg", "The rail", "The dowel"


class Height(NamedTuple):
    """How far below the upper edge a hole's centre lies, on either rail."""

    first_rail: object
    second_rail: object


@model
class DowelJoint(Model):
    """A rail with a coped end, dowelled to a round leg on which a second rail meets it at a right angle.

    Both rails are level and drilled alike, but the second one's holes sit lower by the stagger. Every rail is drilled
    while its ends are still square, sawn where the tips of the cope will be.

    >>> joint = DowelJoint("35 mm", "20 mm", "50 mm", "8 mm", "40 mm", "12 mm", "12 mm")
    >>> joint.rail_depth, joint.spacing, round(joint.crossing_clearance, 2)
    (<Quantity(31.0, 'millimeter')>, <Quantity(26.0, 'millimeter')>, <Quantity(2.12, 'millimeter')>)
    >>> joint.tell("drilled_depth")
    hole in rail, from its square end  34.1 mm
    """

    leg_diameter: Input = length(
        "leg diameter", "D", low="20 mm", high="80 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.2 mm",
        help="Across the round leg.", group=LEG,
    )
    rail_thickness: Input = length(
        "rail thickness", "t", low="10 mm", high="60 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.2 mm",
        help="Seen from above.", group=RAIL,
    )
    rail_height: Input = length(
        "rail height", "h", low="20 mm", high="150 mm", step="1 mm", inch_step="1/16 in", tolerance="0.3 mm",
        help="From edge to edge, seen from the side.", group=RAIL,
    )
    dowel_diameter: Input = length(
        "dowel diameter", "d", low="4 mm", high="26 mm", step="0.1 mm", inch_step="1/64 in", tolerance="0.1 mm",
        help="Of the dowels and of their holes.", group=DOWEL,
    )
    dowel_length: Input = length(
        "dowel length", "l", low="15 mm", high="120 mm", step="1 mm", inch_step="1/16 in", tolerance="0.5 mm",
        help="End to end.", group=DOWEL,
    )
    leg_depth: Input = length(
        "hole in the leg", "b", low="4 mm", high="75 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.5 mm",
        help="Its depth from the leg's surface, on the hole's axis, to the flat bottom.", group=LEG,
    )
    edge: Input = length(
        "upper edge to first hole", "e", low="4 mm", high="75 mm", step="0.5 mm", inch_step="1/32 in",
        tolerance="0.3 mm", group=RAIL,
        help="From the rail's upper edge to the hole's centre; the last hole is as far from the lower edge.",
    )
    dowels: Input = count("dowels in each rail end", "n", 1, 4, help="One above the other.", default=2, group=DOWEL)
    stagger: Input = length(
        "stagger", "s", low="0 mm", high="40 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.3 mm",
        help="How much lower the second rail's holes sit than the first one's.", default="0 mm", group=RAIL,
    )
    end_clearance: Input = length(
        "clearance at each end", "c", low="0 mm", high="5 mm", step="0.1 mm", inch_step="1/64 in",
        tolerance="0.3 mm", help="Left beyond the dowel in both holes, for glue.", default="1.5 mm", group=DOWEL,
    )
    drill_point: Input = length(
        "drill's point", "q", low="0 mm", high="8 mm", step="0.1 mm", inch_step="1/64 in", tolerance="0.2 mm",
        help="How far the drill's centre point runs ahead of the flat bottom.", default="0 mm", group=LEG,
    )

    def check(self):
        joint_limits.check(self)

    def worries(self):
        return joint_limits.worries(self)

    def on_card(self):
        """What is set at the drill, in the order of use, then what tells whether it came right."""
        return ("drilled_depth", "leg_hole", "heights", "quarter", "rail_depth", "crossing_clearance", "far_wall")

    @result("hole in rail, from its square end", "a_s", checks="leg_depth", to_set=True)
    def drilled_depth(self):
        """From the rail's square end, sawn where the cope's tips will be, to the hole's flat bottom.

        The depth stop is set to it: rails are drilled before they are coped, and the cope takes its depth off again.
        """
        return self.cope_depth + self.rail_depth

    @result("cope depth", "k_c", minor=True)
    def cope_depth(self):
        """From the tips of the cope to its bottom, where the rail's middle aims at the leg's centre."""
        return self.leg_diameter / 2 - sqrt((self.leg_diameter / 2) ** 2 - (self.rail_thickness / 2) ** 2)

    @result("hole in rail, from the cope", "a", checks="leg_depth", to_set=True)
    def rail_depth(self):
        """From the bottom of the cope, on the hole's axis, to the hole's flat bottom.

        Both holes together hold the dowel and the clearance at both its ends. The bottom of the cope
        is where the leg's surface comes to lie.
        """
        return self.dowel_length + 2 * self.end_clearance - self.leg_depth

    @result("hole in leg, from its surface", "b_l", checks="leg_depth", to_set=True)
    def leg_hole(self):
        """From the leg's surface, on the hole's axis, to the flat bottom; the drill's point runs ahead of it."""
        return self.leg_depth

    @result("holes, from the rail's upper edge", "y", kind="table", plan=True)
    def heights(self):
        """From the rails' upper edges, which are level, down to each hole's centre, on rail and leg."""
        step = self.spacing if self.dowels > 1 else 0 * self.edge
        first = [self.edge + k * step for k in range(self.dowels)]
        return tuple(Height(height, height + self.stagger) for height in first)

    @result("round the leg to the second rail", "u", checks="leg_diameter", to_set=True)
    def quarter(self):
        """A quarter of the leg's girth, along its skin: from the one rail's line of holes to the other's."""
        return self.pi * self.leg_diameter / 4

    @result("between the holes", "m", checks="edge", to_set=True)
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
        fits = [(name, self._with_dowel(mm)) for name, mm in stock_sizes() if third - 1e-6 <= mm <= half + 1e-6]
        return tuple(
            Stock(name, other.dowel_diameter, other.cheek, other.crossing_clearance)
            for name, other in fits if other.holds()
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
        return not any(True for _ in joint_limits.wood_worries(self))

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
        return public(deepest(wanted, leg, plain.level_gap, radius, behind), "length")

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
        needed = least_gap(wanted, plain.bottom, radius)
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

    def ways_to_leave(self, clearance, unit="mm"):
        """Both ways to leave this much wood between the rails' holes, or why a way is barred: a small table.

        >>> joint = DowelJoint("35 mm", "20 mm", "50 mm", "6 mm", "40 mm", "25 mm", "15 mm")
        >>> joint.ways_to_leave("3 mm")
        drill the leg no deeper than       12.4 mm
        or keep the depth, with a stagger  9.0 mm
        """
        ways = (
            ("drill the leg no deeper than", self.deepest_leg_hole),
            ("or keep the depth, with a stagger", self.stagger_needed),
        )
        return Facts((words, _found(way, clearance, unit)) for words, way in ways)


def _found(way, clearance, unit):
    """What a way gives, written, or the sentence that says why it gives nothing."""
    try:
        return length_in_full(way(clearance).m_as("mm"), unit)
    except ShapeError as error:
        return f"— {error.tell(unit)}"


def _wanted(clearance):
    wanted = measure.plain("length", clearance)
    if wanted < 0:
        raise ShapeError("A clearance of {} cannot be wanted: it must be nothing or more.", wanted)
    return wanted
