"""The published values that the tests compare with: each row of reference/ names its source and status."""

import csv
from pathlib import Path

FOLDER = Path(__file__).parent / "reference"


def rows(name, **wanted):
    """The rows of one file as dictionaries, only those whose columns hold the wanted text."""
    with (FOLDER / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        found = [row for row in csv.DictReader(file) if wanted.items() <= row.items()]
    assert found, f"No row of {name}.csv has {wanted}."
    return found


def row(name, **wanted):
    """The one row whose columns hold the wanted text."""
    (only,) = rows(name, **wanted)
    return only


def numbers(text):
    """The numbers named in a cell: 'r=60; h=8' is {'r': 60.0, 'h': 8.0}."""
    pairs = (part.split("=") for part in text.split(";"))
    return {name.strip(): float(value) for name, value in pairs}
