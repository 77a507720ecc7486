"""The keys of a stand's file: which table each stands in, and how its value is written.

A key is the name of a size, or `made.` and the name of what was measured.
"""

import math
import re
from functools import cache

from shoplib import measure
from shoplib.maths.the_stand import Stand, seedling_stand
from shoplib.maths.the_stand.made import measurable
from shoplib.measure import MeasureError
from shoplib.model import Input

MADE = "made"
UNITS = {
    "length": ("mm", "in"), "mass": ("kg", "lb"), "surface": ("m2", "ft2"), "volume": ("l", "floz"),
    "force": ("N", "lbf"), "stress": ("MPa", "psi"), "angle": ("deg", "deg"), "percent": ("%", "%"),
}  # fmt: skip
NEAT = {"mm": 2, "in": 3, "kg": 3, "lb": 2}  # decimals that a person still reads; elsewhere 1
MOST_DECIMALS = 15
LEFT_OUT = {"first_depth": "22 mm", "leg_roundover": "16 mm", "bar_roundover": "9 mm", "drum_diameter": "38 mm"}
HAIR = 1e-12  # of a size: the same size that came by another way is off by less


@cache
def tables():
    """The sizes by the table that they stand in, in the stand's order: {table: {name: Input}}."""
    found = {}
    for name, item in Stand.inputs().items():
        found.setdefault(re.sub(r"[^a-z]+", "_", item.group.lower()), {})[name] = item
    return found


@cache
def table_of(key):
    """The table that a key stands in.

    >>> table_of("leg_diameter"), table_of("made.rail_length")
    ('legs_and_rails', 'made')
    """
    return MADE if is_made(key) else next(table for table, items in tables().items() if key in items)


def key_in(table, name):
    """The key of a name in a table."""
    return f"{MADE}.{name}" if table == MADE else name


def is_made(key):
    return key.startswith(f"{MADE}.")


def name_of(key):
    """The name of the size or result that a key is about."""
    return key.rpartition(".")[2]


@cache
def measured_items():
    """What may stand under `[made]`."""
    return measurable(Stand)


def item_of(key):
    """The input or result that a key is about."""
    return measured_items()[name_of(key)] if is_made(key) else Stand.inputs()[key]


def values_of(stand):
    """Every plain value of a stand by its key."""
    return stand.values | {key_in(MADE, name): value for name, value in stand.made.items()}


def is_alike(one, other):
    """Whether two plain values are the same size, but for the last digit of a float."""
    if isinstance(one, float) and isinstance(other, float):
        return math.isclose(one, other, rel_tol=HAIR)
    return one == other


def differing(one, other):
    """The keys whose values are not alike."""
    return [key for key in dict.fromkeys([*one, *other]) if not is_alike(one.get(key), other.get(key))]


def text_for(item, value, unit="mm"):
    """A plain value as it stands in a file: a number for a count, else text that reads back as the same size.

    It is in the unit asked for where it is neat there or nowhere, else in the one where it is.

    >>> leg = Stand.inputs()["leg_diameter"]
    >>> text_for(leg, 34.925), text_for(leg, 35.0, "in"), text_for(leg, 35.123, "in")
    ('1 3/8 in', '35 mm', '1.38279527559 in')
    """
    if item.kind not in UNITS:
        return value
    ways = UNITS[item.kind] if unit == "mm" else UNITS[item.kind][::-1]
    for way in ways:
        text = _shortest(item.kind, value, way, NEAT.get(way, 1))
        if text:
            return text
    return _shortest(item.kind, value, ways[0], MOST_DECIMALS) or _in_full(item.kind, value, ways[0])


def _shortest(kind, value, unit, most):
    """The value with as few decimals as tell it, at most so many; None where these do not."""
    steps = ["1/64 in"] if unit == "in" else []
    steps += [f"{10.0**-digits:.{digits}f} {unit}" for digits in range(most + 1)]
    for step in steps:
        try:
            text = measure.write(value, kind, unit, step)
            if is_alike(measure.plain(kind, text), value):
                return text
        except MeasureError:  # more steps than a float can count
            return None
    return None


def _in_full(kind, value, unit):
    """The value with all the decimals that a float has."""
    one = measure.plain(kind, f"1 {unit}")
    return f"{value / one:.17g} {unit}" if abs(value / one) > 1e-4 else f"{value / one:.30f} {unit}"


def words_of(key):
    """What a key is about, in words."""
    return item_of(key).words + (" as made" if is_made(key) else "")


def said(key, value):
    """A value in a sentence."""
    if value is None:
        return "left out" if isinstance(item_of(key), Input) else "not measured"
    return str(text_for(item_of(key), value))


def spelt(value):
    """A value as TOML spells it; texts here hold neither quotes nor backslashes."""
    return f'"{value}"' if isinstance(value, str) else str(value).lower()


@cache
def example(key):
    """How a key is written, with the seedling stand's own value; with a likely one where that leaves it out.

    >>> example("leg_diameter"), example("staves"), example("seam_on_centre")
    ('leg_diameter = "35 mm"', 'staves = 12', 'seam_on_centre = true')
    """
    name, demo = name_of(key), seedling_stand().plain
    if name in LEFT_OUT:
        return f"{name} = {spelt(LEFT_OUT[name])}"
    return f"{name} = {spelt(text_for(item_of(key), getattr(demo, name)))}"
