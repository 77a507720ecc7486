"""Widths of the standard tolerance grades."""

from shoplib.model import ShapeError
from shoplib.tables import table


def tolerance(mm, grade):
    """The width of an ISO 286-1 tolerance grade, 'IT11' for instance, for a nominal size, both in mm.

    >>> tolerance(8.0, "IT11"), tolerance(10.0, "IT8")
    (0.09, 0.022)
    """
    for row in table("tolerances"):
        if row["over"] < mm <= row["to"] and grade in row:
            return row[grade] / 1000
    raise ShapeError("There is no tolerance for a size of {} in the table: it must be over {} and up to {}.",
                     mm, 1.0, 120.0, input="diameter")
