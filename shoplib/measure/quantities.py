"""Quantities of pint: made, checked and turned into plain floats. pint is loaded when one is made."""

from __future__ import annotations

import re
import sys
from fractions import Fraction
from functools import cache
from numbers import Real
from typing import TYPE_CHECKING

from shoplib.measure.kinds import KINDS, LONGEST, MeasureError, kind_named, quoted, within

if TYPE_CHECKING:
    import pint

_HUGE = 1e100  # no unit turns a number below this into infinity
_UNIT_EXPRESSION = re.compile(r"[A-Za-z_]+(\*\*[0-9])?( ?[*/] ?[A-Za-z_]+(\*\*[0-9])?)*")


@cache
def registry() -> pint.UnitRegistry:
    """The one unit registry of the project, made on first use: pint's own application registry.

    A quantity made with plain `pint.Quantity` therefore belongs to it too. Temperatures keep pint's strict
    rule: degC can be converted and subtracted, but not multiplied by mistake.
    """
    import pint

    units = pint.get_application_registry().get()
    units.Quantity  # noqa: B018  pint fills a lazy registry at the first look into it
    return units


def quantity(value: float, unit: str) -> pint.Quantity:
    """Make a Quantity from a value and a unit that the program (not a person) names.

    Raises MeasureError for a unit that pint does not know.

    >>> print(quantity(440, "mm").to("cm"))
    44.0 centimeter
    """
    import pint

    unit = "percent" if unit == "%" else unit
    if not isinstance(unit, str) or not _UNIT_EXPRESSION.fullmatch(unit) or len(unit) > LONGEST:
        raise MeasureError(f"There is no unit called {quoted(unit)}.")
    try:
        return registry().Quantity(value, unit)
    except pint.UndefinedUnitError:
        raise MeasureError(f"There is no unit called {quoted(unit)}.") from None


def is_quantity(value: object) -> bool:
    if isinstance(value, str) or "pint" not in sys.modules:
        return False
    import pint

    return isinstance(value, pint.Quantity)


def finite(value: pint.Quantity) -> pint.Quantity:
    """The same quantity, once it is sure to be one finite number in the project's registry."""
    import pint

    if not is_quantity(value):
        raise MeasureError(f"A measure with a unit is needed here, not {type(value).__name__}.")
    try:
        if not isinstance(value.magnitude, Real) or not abs(value.magnitude) < _HUGE:
            raise MeasureError("A measure must be one finite number with its unit.")
        if isinstance(value, registry().Quantity):
            return value
        moved = registry().Quantity.from_tuple(value.to_tuple())  # was made in somebody else's registry
        moved.dimensionality  # noqa: B018  fails for a unit that only the other registry knows
        return moved
    except pint.PintError:
        raise MeasureError("A measure must be one finite number with a common unit.") from None


def in_base_unit(kind: str, value: pint.Quantity) -> float:
    """A quantity as a float in the kind's base unit; exact for units that can also be typed."""
    import pint

    unit = KINDS[kind].words.get(str(value.units).lower())
    if unit:
        return float(as_read(value.magnitude) * unit.size + unit.zero)
    try:
        return float(value.m_as(KINDS[kind].base))
    except pint.PintError:
        raise MeasureError(f"{quoted(str(value))} is not {KINDS[kind].name}.") from None


def as_read(value: Real) -> Fraction:
    """The decimal number that a person reads in a float: 0.1 is 1/10."""
    return Fraction(repr(float(value)))


def is_of_kind(kind: str, value: pint.Quantity) -> bool:
    """Whether a quantity is of this kind. To pint an angle and a percentage are both dimensionless."""
    if kind == "temperature" and "delta" in str(value.units):
        return False
    if not value.is_compatible_with(KINDS[kind].base):
        return False
    return not value.dimensionless or ("radian" in str(value.to_root_units().units)) == (kind == "angle")


def checked(kind: str, value: pint.Quantity) -> pint.Quantity:
    """The same quantity, once it is known to be of this kind and of a size that a workshop has."""
    shape, value = kind_named(kind), finite(value)
    if not is_of_kind(kind, value):
        raise MeasureError(f"{quoted(str(value))} is not {shape.name}: write {shape.example}.")
    within(shape, in_base_unit(kind, value), str(value))
    return value
