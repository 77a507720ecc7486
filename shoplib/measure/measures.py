"""Measures as the project takes them: text or a Quantity in, a checked Quantity or a plain float out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from shoplib.measure.kinds import KINDS, kind_named
from shoplib.measure.quantities import checked, in_base_unit, is_quantity, quantity
from shoplib.measure.text import read_text

if TYPE_CHECKING:
    import pint


def plain(kind: str, value: str | pint.Quantity) -> float:
    """Read text or a Quantity as a float in the kind's base unit: mm, rad, kg, degC or a plain ratio.

    Text is read without loading pint. Raises MeasureError as `length` and the others do.

    >>> plain("length", "17½ in"), plain("percent", "12,5 %"), plain("temperature", "68 °F")
    (444.5, 0.125, 20.0)
    """
    if is_quantity(value):
        return in_base_unit(kind, checked(kind, value))
    exact, unit = read_text(kind_named(kind), value)
    return float(exact * unit.size + unit.zero)


def _measure(kind: str, text: str | pint.Quantity) -> pint.Quantity:
    """Text or a Quantity as a checked Quantity."""
    if is_quantity(text):
        return checked(kind, text)
    value, unit = read_text(KINDS[kind], text)
    return quantity(float(value), unit.name)


def length(text: str | pint.Quantity) -> pint.Quantity:
    """Read a length, in the unit typed (feet with inches: in inches), at most 100 m either way.

    Accepts decimals with point or comma, fractions, feet and inches, or a Quantity, which is checked and
    returned. Raises MeasureError for a bare number, another kind of measure or anything unreadable.

    >>> print(length("17-3/8\\""))
    17.375 inch
    >>> print(length("18,5 mm"))
    18.5 millimeter
    >>> from shoplib.measure import MeasureError
    >>> try:
    ...     length("1,250 mm")
    ... except MeasureError as problem:
    ...     print(problem)
    The comma in '1,250 mm' can be read in two ways: write 1250 or 1.250.
    """
    return _measure("length", text)


def angle(text: str | pint.Quantity) -> pint.Quantity:
    """Read an angle, at most a full turn either way. Raises MeasureError as `length` does.

    >>> print(angle("22° 30'"))
    22.5 degree
    """
    return _measure("angle", text)


def mass(text: str | pint.Quantity) -> pint.Quantity:
    """Read a mass, at most 1000 kg. Raises MeasureError as `length` does.

    >>> print(mass("3.2 kg"))
    3.2 kilogram
    """
    return _measure("mass", text)


def force(text: str | pint.Quantity) -> pint.Quantity:
    """Read a force, at most 100 kN. Raises MeasureError as `length` does.

    >>> print(force("40 lbf").to("N").round(1))
    177.9 newton
    """
    return _measure("force", text)


def stress(text: str | pint.Quantity) -> pint.Quantity:
    """Read a stress or a modulus of elasticity, at most 1000 GPa. Raises MeasureError as `length` does.

    >>> print(stress("12 GPa").to("MPa"))
    12000.0 megapascal
    """
    return _measure("stress", text)


def surface(text: str | pint.Quantity) -> pint.Quantity:
    """Read a surface, at most 1000 square metres. Raises MeasureError as `length` does.

    >>> print(surface("3.1 m2"))
    3.1 meter ** 2
    """
    return _measure("surface", text)


def volume(text: str | pint.Quantity) -> pint.Quantity:
    """Read a volume, at most 1000 litres. Raises MeasureError as `length` does.

    >>> print(volume("17 fl oz").to("liter").round(2))
    0.5 liter
    """
    return _measure("volume", text)


def temperature(text: str | pint.Quantity) -> pint.Quantity:
    """Read a temperature, from -273.15 to 1000 degC. Raises MeasureError as `length` does.

    >>> print(temperature("20 °C"))
    20.0 degree_Celsius
    """
    return _measure("temperature", text)


def percent(text: str | pint.Quantity) -> pint.Quantity:
    """Read a percentage, at most 1000 % either way. Raises MeasureError as `length` does.

    >>> print(percent("12 %").to("dimensionless"))
    0.12 dimensionless
    """
    return _measure("percent", text)
