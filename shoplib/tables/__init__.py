"""Published values as CSV, each file with its source in the first line, and the loader.

A table is a tuple of rows, a row a dict by column; numbers are floats where the whole cell is one.
"""

import csv
from functools import cache
from pathlib import Path

HERE = Path(__file__).resolve().parent


@cache
def table(name):
    """Load a table by its name, once.

    >>> next(row for row in table("wood_movement") if row["species"] == "Ash, white")["tangential"]
    0.00274
    """
    with open(HERE / f"{name}.csv", encoding="utf-8", newline="") as lines:
        next(lines)
        return tuple({key: _number(cell) for key, cell in row.items()} for row in csv.DictReader(lines))


@cache
def source(name):
    """Where a table's values come from.

    >>> source("wood_movement").startswith("Wood Handbook")
    True
    """
    with open(HERE / f"{name}.csv", encoding="utf-8") as lines:
        return next(lines).removeprefix("# Source: ").strip()


def _number(cell):
    try:
        return float(cell)
    except ValueError:
        return cell
