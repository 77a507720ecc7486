"""Marks for centres of gravity, told apart by their form: crossed while nothing is loaded, quartered when it is."""

import math

from shoplib.drawing.sheet import Area, Circle, Line

MARKS = ("empty", "loaded")
PIECES = 8  # of a quarter's arc


def balance(name, centre, radius):
    """The shapes of a mark, the same on a view and in the key."""
    x, y = centre
    ring, arm = Circle("empty", centre, radius), 1.6 * radius
    cross = [Line(name, (x - arm, y), (x + arm, y)), Line(name, (x, y - arm), (x, y + arm))]
    return [ring, *([] if name == "empty" else _quarters(name, centre, radius)), *cross]


def _quarters(name, centre, radius):
    """Two opposite quarters, filled."""
    x, y = centre
    for first in (0.0, math.pi):
        turns = [first + math.pi / 2 * k / PIECES for k in range(PIECES + 1)]
        yield Area(name, ((centre, *((x + radius * math.cos(a), y + radius * math.sin(a)) for a in turns)),))
