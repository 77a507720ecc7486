"""Two equal holes with flat bottoms whose axes are level, at a right angle, and aim at one upright line.

Plain floats: how near they come to each other. The bottom's distance from the upright line and the
gap between the two levels may be in any unit, or over the holes' radius.
"""

import math


def last(holds, low, high):
    """Where, from low to high, a condition that holds at first ceases to."""
    for _ in range(80):
        middle = (low + high) / 2
        low, high = (middle, high) if holds(middle) else (low, middle)
    return (low + high) / 2


def nearest_angle(p, h):
    """Angle (rad) at which two equal bottoms' rims are nearest: p and h are lengths over the holes' radius."""
    if p <= 0:
        return math.pi / 2
    if p**2 + h**2 / 4 <= 1:  # they break into each other
        return math.atan2(h / 2, p)
    return last(lambda x: math.sin(x) * (p + math.cos(x)) <= h * math.cos(x), 0.0, math.pi / 2) if h else 0.0


def clearance_between(bottom, gap, radius):
    """The formula of crossing_clearance in floats, for any depth and level."""
    angle = nearest_angle(bottom / radius, gap / radius)
    along, upright = bottom - radius * math.cos(angle), gap - 2 * radius * math.sin(angle)
    return math.sqrt(2 * max(along, 0.0) ** 2 + max(upright, 0.0) ** 2)


def leaves(wanted, bottom, gap, radius):
    """Whether two holes leave this much wood between them, or do not break into each other where none is wanted."""
    found = clearance_between(bottom, gap, radius)
    return found > 0 and found >= wanted - 1e-12


def deepest(wanted, leg, gap, radius, furthest):
    """The greatest depth, up to the furthest one, that leaves this much wood; `leg` is the leg's radius.

    >>> round(deepest(2.0, 17.5, 0.0, 4.0, 30.0), 3)  # on one level: 17.5 - 4 - 2 / sqrt(2)
    12.086
    """
    enough = lambda depth: leaves(wanted, leg - depth, gap, radius)  # noqa: E731
    return furthest if enough(furthest) else last(enough, 0.0, furthest)


def least_gap(wanted, bottom, radius):
    """The smallest difference in level that leaves this much wood.

    >>> round(least_gap(3.0, -7.5, 3.0), 9)  # past the centre: two radii and the wood
    9.0
    """
    short = lambda gap: not leaves(wanted, bottom, gap, radius)  # noqa: E731
    return last(short, 0.0, 2 * radius + wanted) if short(0.0) else 0.0
