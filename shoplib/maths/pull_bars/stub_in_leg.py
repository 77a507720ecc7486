"""The stub's hole and the dowel holes of both rails in one leg: how much wood is left between them."""

import math
from typing import NamedTuple

from shoplib.model import Facts, ShapeError, length_in_full


class Hole(NamedTuple):
    """A hole with a flat bottom, level and aimed at the leg's centre line: plain floats in mm.

    bottom: from the leg's centre line to the hole's bottom, negative where it has passed it. level: its axis, above
    the floor or any other level.
    """

    bottom: float
    radius: float
    level: float


def wood_across(one, other):
    """Least wood between two holes that are drilled towards each other from opposite sides; 0 where they meet.

    >>> wood_across(Hole(3.0, 7.0, 0.0), Hole(5.0, 4.0, 0.0)), wood_across(Hole(-1.0, 7.0, 0.0), Hole(1.0, 4.0, 11.0))
    (8.0, 0.0)
    """
    along, upright = one.bottom + other.bottom, abs(one.level - other.level) - one.radius - other.radius
    return math.hypot(max(along, 0.0), max(upright, 0.0))


def wood_square(one, other):
    """Least wood between two holes at a right angle to each other; 0 where they break into each other.

    Of one hole a point at the height u over its axis lies within sqrt(r^2 - u^2) of the axis, seen from above: so far
    it comes towards the other one's bottom. What is left of the three ways (along either axis, upright) is the
    distance. It falls and then rises in each of the two heights, which are found by halving their ranges.

    >>> round(wood_square(Hole(5.5, 4.0, 0.0), Hole(5.5, 4.0, 0.0)), 3)  # lesson 04's: 1.5 sqrt(2)
    2.121
    """
    rise = abs(one.level - other.level)

    def apart(up, down):
        first = max(one.bottom - _half_width(other.radius, down), 0.0)
        second = max(other.bottom - _half_width(one.radius, up), 0.0)
        return math.sqrt(first**2 + second**2 + (rise - up - down) ** 2)

    def nearest(up):
        return _lowest(lambda down: apart(up, down), min(other.radius, rise - up) if rise > up else 0.0)

    return _lowest(nearest, min(one.radius, rise))


def _half_width(radius, height):
    return math.sqrt(max(radius**2 - height**2, 0.0))


def _lowest(function, high):
    """The least value from 0 to `high` of a function that falls and then rises."""
    low, golden = 0.0, (math.sqrt(5) - 1) / 2
    for _ in range(48):
        first, second = high - golden * (high - low), low + golden * (high - low)
        low, high = (low, second) if function(first) <= function(second) else (first, high)
    return function((low + high) / 2)


def beside_dowels(bar, joint, bar_height, *rail_tops, unit="mm"):
    """The table of StubBar.beside_dowels, in plain sizes."""
    leg = joint.leg_diameter / 2
    behind = joint.leg_diameter - bar.leg_depth - bar.drill_point
    if behind <= 0:
        raise ShapeError(
            "The stub's hole, {} deep, comes out of a leg {} across. Drill less deep.",
            bar.leg_depth, joint.leg_diameter, input="leg_depth",
        )
    stub = Hole(leg - bar.leg_depth, bar.stub_diameter / 2, bar_height)
    rows = [_nearest(stub, joint, top, unit) for top in rail_tops]
    return Facts(
        [*rows, ("behind the stub's hole", "", length_in_full(behind, unit))],
        head=("stub's hole and", "nearest dowel hole at", "wood left"),
    )


def _nearest(stub, joint, top, unit):
    """The row of the rails whose upper edges are at this height."""
    levels = [top - height for pair in joint.heights for height in pair]
    holes = [Hole(joint.bottom, joint.dowel_diameter / 2, level) for level in levels]
    wood, level = min((min(wood_across(stub, hole), wood_square(stub, hole)), hole.level) for hole in holes)
    told = "0: they break into each other" if wood < 1e-6 else length_in_full(wood, unit)
    return f"rails with their top at {length_in_full(top, unit)}", length_in_full(level, unit), told
