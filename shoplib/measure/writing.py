"""A number becomes text, rounded to a step; and the nearest step to a size."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import floor, gcd
from typing import TYPE_CHECKING

from shoplib.measure.kinds import KINDS, Kind, MeasureError, Unit, kind_named, kind_with, quoted, unit_named
from shoplib.measure.quantities import as_read, checked, finite, in_base_unit, is_of_kind, quantity
from shoplib.measure.text import normal_spelling, read_text

if TYPE_CHECKING:
    import pint

_HAIR = 1e-9  # of a step: a float this close below half a step is taken for the half
_MOST_STEPS = 1e15  # beyond this a float no longer tells one step from the next


@dataclass(frozen=True, slots=True)
class _Step:
    """A step as numbers: base * slope + shift counts steps. `digits` is None where fractions are written."""

    slope: float
    shift: float
    size: Fraction
    digits: int | None
    label: str


def _read_step(kind: Kind, step: str) -> tuple[Fraction, Unit]:
    size, unit = read_text(kind, step)
    if size <= 0:
        raise MeasureError(f"A step must be more than zero, not {quoted(step)}.")
    return size, unit


@lru_cache(maxsize=256)
def _step(kind: str, unit: str, step: str) -> _Step:
    """The step read once and kept."""
    shape = kind_named(kind)
    size, step_unit = _read_step(shape, step)
    shown = unit_named(shape, unit, unit)
    if step_unit != shown:
        raise MeasureError(f"The step {quoted(step)} must be written in {shown.name}, like the size.")
    normal = normal_spelling(step)
    decimals = re.search(r"[.,]([0-9]+)", normal)
    digits = None if "/" in normal else len(decimals[1]) if decimals else 0
    slope = 1 / (shown.size * size)
    return _Step(float(slope), float(-shown.zero * slope), size, digits, shown.label or shown.name)


def _whole_steps(steps: float) -> int:
    """The nearest whole number, halves away from zero."""
    if not abs(steps) < _MOST_STEPS:
        raise MeasureError("There is no finite size to write here.")
    count = floor(abs(steps) + 0.5 + _HAIR)
    return -count if steps < 0 else count


def _mixed(top: int, bottom: int) -> str:
    """A fraction reduced, as on a rule: 277/16 is '17 5/16'."""
    whole, rest = divmod(top, bottom)
    if not rest:
        return str(whole)
    shared = gcd(rest, bottom)
    fraction = f"{rest // shared}/{bottom // shared}"
    return f"{whole} {fraction}" if whole else fraction


@lru_cache(maxsize=4096)  # most sizes stay as they are while one slider moves
def write(value: float, kind: str, unit: str, step: str) -> str:
    """Write a float, given in the kind's base unit, in a unit, rounded to the nearest step.

    Halves go away from zero. A step written as a fraction gives fractions; a step written as a decimal gives
    as many decimals as it has itself. Reading the text gives the rounded value again. Raises MeasureError for
    a value that is not finite, a step of zero or one written in another unit.

    >>> write(439.7375, "length", "in", "1/32 in"), write(439.7375, "length", "in", "0.01 in")
    ('17 5/16 in', '17.31 in')
    >>> write(-0.04, "length", "mm", "0.1 mm"), write(0.12, "percent", "percent", "1 %")
    ('0.0 mm', '12 %')
    """
    rule = _step(kind, unit, step)
    count = _whole_steps(value * rule.slope + rule.shift)
    top, bottom = abs(count) * rule.size.numerator, rule.size.denominator
    number = _mixed(top, bottom) if rule.digits is None else f"{top / bottom:.{rule.digits}f}"
    return f"{'-' if count < 0 else ''}{number} {rule.label}"


def show(quantity: pint.Quantity, unit: str, step: str) -> str:
    """Write a quantity in a unit, rounded to the nearest step, as `write` does.

    Raises MeasureError for anything but a finite quantity that this unit can measure.

    >>> from shoplib.measure import angle, length
    >>> show(length("19.05 mm"), "mm", "0.1 mm"), show(length("19.05 mm"), "in", "1/32 in")
    ('19.1 mm', '3/4 in')
    >>> show(angle("15 deg"), "deg", "0.1 deg")
    '15.0 deg'
    """
    kind = kind_with(unit)
    return write(in_base_unit(kind, finite(quantity)), kind, unit, step)


def nearest(quantity: pint.Quantity, step: str) -> tuple[pint.Quantity, pint.Quantity]:
    """The nearest multiple of a step, and the error made by using it: rounded minus true.

    Both are in the step's unit; halves go away from zero. Raises MeasureError for a step of zero or of
    another kind than the quantity, and for a quantity that `length` and the others refuse.

    >>> from shoplib.measure import length
    >>> rounded, error = nearest(length("19.2 mm"), "1 mm")
    >>> print(rounded, round(error.magnitude, 3))
    19.0 millimeter -0.2
    """
    value = finite(quantity)
    kind = next((name for name in KINDS if is_of_kind(name, value)), None)
    if kind is None:
        raise MeasureError(f"{quoted(str(value))} is not a shop measure.")
    size, unit = _read_step(KINDS[kind], step)
    true = (as_read(in_base_unit(kind, checked(kind, value))) - unit.zero) / unit.size
    rounded = size * _whole_steps(float(true / size))
    difference = f"delta_{unit.name}" if kind == "temperature" else unit.name
    return _made(rounded, unit.name), _made(rounded - true, difference)


def _made(value: Fraction, unit: str) -> pint.Quantity:
    return quantity(float(value), unit)
