"""Dowels as they are sold."""

from itertools import groupby
from typing import NamedTuple

from shoplib.tables import table

TWINS = 0.15  # mm: sizes of the two systems that lie nearer than this are one row, each with a drill of its own


class Stock(NamedTuple):
    """A dowel as it is sold: under which sizes, how thick, and what it leaves in the rail and between the rails' holes.

    Where an inch size and a metric one are all but alike, the thicker one is reckoned with.
    """

    sold_as: str
    diameter: object
    cheek: object
    between_holes: object


def stock_sizes():
    """Pairs of what dowels are sold as, and their diameters in mm, thinnest first. Table `dowels`.

    >>> [size for size in stock_sizes() if 7 < size[1] < 9]
    [('5/16 in or 8 mm', 8.0)]
    """
    rows = sorted((row["mm"], row["size"]) for row in table("dowels"))
    steps = [later[0] - earlier[0] > TWINS for earlier, later in zip(rows, rows[1:])]
    number = [sum(steps[:k]) for k in range(len(rows))]
    groups = groupby(zip(number, rows), key=lambda each: each[0])
    found = [[row for _, row in group] for _, group in groups]
    return [(" or ".join(name for _, name in group), group[-1][0]) for group in found]
