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
