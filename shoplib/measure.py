"""Read and write shop measures: the one place where text becomes a number, and a number text.

A measure is read exactly (as a Fraction) and becomes a float only at the end, so 17 3/8 in is 441.325 mm and
not a hair less. Each kind of measure has a base unit in which the floats of the whole project are kept:
length mm, angle rad, mass kg, temperature degC, percent a plain ratio (12 % is 0.12).

pint takes a third of a second to load, so it is loaded only when a Quantity is made.

>>> plain("length", "17 3/8 in")
441.325
>>> write(441.325, "length", "in", "1/32 in")
'17 3/8 in'
"""

from __future__ import annotations

import re
import sys
import unicodedata
from dataclasses import dataclass
from fractions import Fraction
from functools import cache, lru_cache
from math import floor, gcd, radians
from numbers import Number, Real
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import pint

__all__ = [
    "MeasureError", "angle", "length", "mass", "nearest", "percent", "plain", "quantity", "reading",
    "registry", "show", "temperature", "write",
]  # fmt: skip


class MeasureError(ValueError):
    """A measure that cannot be read or written; the message says what to write instead."""


# What can be measured ---------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Unit:
    """One unit: a value in it is value * size + zero in the kind's base unit."""

    name: str
    size: Fraction
    words: str
    zero: Fraction = Fraction(0)
    label: str = ""


@dataclass(frozen=True, slots=True)
class _Kind:
    """One kind of measure; `lowest` and `highest` are in the base unit and `limit` says them in words."""

    name: str
    base: str
    example: str
    lowest: Fraction
    highest: Fraction
    limit: str
    words: dict[str, _Unit]


def _by_word(*units: _Unit) -> dict[str, _Unit]:
    return {word: unit for unit in units for word in unit.words.split()}


_INCH = Fraction(254, 10)  # mm, exactly: the international inch of 1959
_DEGREE = Fraction(radians(1))  # rad
_POUND = Fraction(45359237, 10**8)  # kg, exactly: the international pound of 1959

_KINDS = {
    "length": _Kind(
        "a length", "mm", "'440 mm' or '17 3/8 in'",
        Fraction(-100_000), Fraction(100_000), "stays within 100 m",
        _by_word(
            _Unit("mm", Fraction(1), "mm millimetre millimetres millimeter millimeters"),
            _Unit("cm", Fraction(10), "cm centimetre centimetres centimeter centimeters"),
            _Unit("m", Fraction(1000), "m metre metres meter meters"),
            _Unit("in", _INCH, 'in inch inches "'),
            _Unit("ft", 12 * _INCH, "ft foot feet '"),
        ),
    ),
    "angle": _Kind(
        "an angle", "rad", "'15 deg' or '22.5°'",
        Fraction(-62832, 10**4), Fraction(62832, 10**4), "stays within a full turn, 360 deg",
        _by_word(
            _Unit("deg", _DEGREE, "deg degree degrees °"),
            _Unit("rad", Fraction(1), "rad radian radians"),
            _Unit("arcmin", _DEGREE / 60, "arcmin arcminute arcminutes min minute minutes '"),
        ),
    ),
    "mass": _Kind(
        "a mass", "kg", "'3.2 kg' or '7 lb'",
        Fraction(-1000), Fraction(1000), "stays within 1000 kg",
        _by_word(
            _Unit("kg", Fraction(1), "kg kilogram kilograms"),
            _Unit("g", Fraction(1, 1000), "g gram grams"),
            _Unit("lb", _POUND, "lb lbs pound pounds"),
            _Unit("oz", _POUND / 16, "oz ounce ounces"),
        ),
    ),
    "temperature": _Kind(
        "a temperature", "degC", "'20 °C' or '68 °F'",
        Fraction(-27315, 100), Fraction(1000), "stays between -273.15 °C and 1000 °C",
        _by_word(
            _Unit("degC", Fraction(1), "degc °c c celsius degree_celsius", label="°C"),
            _Unit("degF", Fraction(5, 9), "degf °f f fahrenheit degree_fahrenheit", Fraction(-160, 9), "°F"),
        ),
    ),
    "percent": _Kind(
        "a percentage", "dimensionless", "'12 %'",
        Fraction(-10), Fraction(10), "stays within 1000 %",
        _by_word(_Unit("percent", Fraction(1, 100), "percent %", label="%")),
    ),
}  # fmt: skip

# Units that may follow one another ("2 ft 3 in"), and the unit in which the two together are given.
_PAIRS = {("ft", "in"): "in", ("deg", "arcmin"): "deg", ("lb", "oz"): "oz"}


def _kind(name: str) -> _Kind:
    if name not in _KINDS:
        raise MeasureError(
            f"There is no kind of measure called {_quoted(name)}: choose from {', '.join(_KINDS)}."
        )
    return _KINDS[name]


def _kind_with(word: str) -> str:
    """Name of the first kind that has this unit."""
    for name, kind in _KINDS.items():
        if str(word).lower() in kind.words:
            return name
    raise MeasureError(f"There is no unit called {_quoted(word)}.")


def _unit(kind: _Kind, word: str, text: object) -> _Unit:
    """The unit that `word`, found in `text`, stands for."""
    word = str(word).lower()
    if word in kind.words:
        return kind.words[word]
    for other in _KINDS.values():
        if word in other.words:
            raise MeasureError(
                f"{_quoted(text)} is {other.name}. Write {kind.name} here, like {kind.example}."
            )
    raise MeasureError(f"{_quoted(text)} has an unknown unit. Write {kind.name} like {kind.example}.")


# Reading ----------------------------------------------------------------------------------------------------

_LONGEST = 60  # characters that any measure needs at the most

_ASCII = {code: code - 0xFEE0 for code in range(0xFF01, 0xFF5F)}  # fullwidth forms
_ASCII |= dict.fromkeys(map(ord, "\t\u00a0\u1680\u202f\u205f\u3000"), " ")
_ASCII |= dict.fromkeys(range(0x2000, 0x200B), " ")
_ASCII |= dict.fromkeys(map(ord, "\u2010\u2011\u2012\u2013\u2212"), "-")
_ASCII |= dict.fromkeys(map(ord, "\u2044\u2215"), "/")
_ASCII |= dict.fromkeys(map(ord, "\u2033\u201c\u201d"), '"')
_ASCII |= dict.fromkeys(map(ord, "\u2032\u2018\u2019"), "'")
_ASCII |= {ord("º"): "°", ord("˚"): "°", ord("℃"): "°c", ord("℉"): "°f"}

_VULGAR = "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"
_SPELT_OUT = {ord(sign): unicodedata.normalize("NFKC", sign).replace("\u2044", "/") for sign in _VULGAR}
_BESIDE_VULGAR = re.compile(f"(?<=[0-9])(?=[{_VULGAR}])|(?<=[{_VULGAR}])(?=[0-9{_VULGAR}])")

_PIECE = r"""([0-9.,][0-9.,/ -]*?) ?([a-z°%'"]+)\.?"""
_MEASURE = re.compile(rf"([-+]?) ?{_PIECE}(?:(?:-| - | ?){_PIECE})?")
_ENDS_WITHOUT_UNIT = re.compile(r"""(?:.*[ '"°-])?[0-9.,/]+""")
_DECIMAL = re.compile(r"([0-9]*)(?:[.,]([0-9]+))?")
_FRACTION = re.compile(r"(?:([0-9]+)[ -])?([0-9]+) ?/ ?([0-9]+)")
_COMMA_BEFORE_THREE = re.compile(r"([0-9]*),([0-9]{3})")


def _quoted(text: object) -> str:
    """What was read, short enough for a message."""
    try:
        shown = repr(text[:41] if isinstance(text, str) else text)
    except ValueError:  # a whole number of thousands of digits
        return "That"
    return shown if len(shown) <= 42 else shown[:40] + "..."


def _normal(text: str) -> str:
    """The text with one spelling for spaces, signs, quotes and fractions, in lower case."""
    text = _BESIDE_VULGAR.sub(" ", text.translate(_ASCII)).translate(_SPELT_OUT).lower()
    return re.sub(" +", " ", text).strip(" ").replace("''", '"').replace("per cent", "percent")


def _decimal(amount: str, text: str) -> Fraction | None:
    """The number in '18', '18.5', '18,5' or '.5'; None if it is written in another way."""
    if found := _COMMA_BEFORE_THREE.fullmatch(amount):
        thousands, rest = found.groups()
        whole, point = int(thousands + rest), f"{thousands or 0}.{rest}"
        raise MeasureError(f"The comma in {_quoted(text)} can be read in two ways: write {whole} or {point}.")
    if found := _DECIMAL.fullmatch(amount):
        whole, decimals = found[1], found[2] or ""
        return Fraction(int(whole + decimals), 10 ** len(decimals))
    return None


def _amount(amount: str, text: str) -> Fraction:
    """The number in '18.5', '3/8', '17 3/8' or '17-3/8'."""
    decimal = _decimal(amount, text)
    if decimal is not None:
        return decimal
    found = _FRACTION.fullmatch(amount)
    if not found:
        raise MeasureError(
            f"{_quoted(text)} does not hold one plain number: write it like 18.5, 3/8 or 17 3/8."
        )
    whole, top, bottom = (int(part or 0) for part in found.groups())
    if bottom == 0:
        raise MeasureError(f"{_quoted(text)} divides by zero: write a fraction like 3/8.")
    if found[1] and top >= bottom:
        raise MeasureError(
            f"The fraction in {_quoted(text)} makes a whole or more: carry it over, as in 2 1/4 for 1 5/4."
        )
    return whole + Fraction(top, bottom)


def _piece(kind: _Kind, amount: str, word: str, text: str) -> tuple[Fraction, _Unit]:
    """One number with its unit; the unit is checked first, as the wrong kind is the worse slip."""
    unit = _unit(kind, word, text)
    return _amount(amount, text), unit


def _together(kind: _Kind, first: tuple[Fraction, _Unit], second: tuple[Fraction, _Unit], text: str):
    """The value and unit of two pieces, such as feet and inches."""
    (large, large_unit), (small, small_unit) = first, second
    pair = large_unit.name, small_unit.name
    if pair not in _PAIRS:
        raise MeasureError(f"{_quoted(text)} holds two measures: write one, like {kind.example}.")
    if large.denominator != 1:
        raise MeasureError(f"In {_quoted(text)} the {pair[0]} must be a whole number when {pair[1]} follow.")
    if small * small_unit.size >= large_unit.size:
        most = large_unit.size / small_unit.size
        raise MeasureError(
            f"In {_quoted(text)} the second number must stay below {most}: {most} {pair[1]} make 1 {pair[0]}."
        )
    unit = kind.words[_PAIRS[pair]]
    return (large * large_unit.size + small * small_unit.size) / unit.size, unit


def _refuse(kind: _Kind, text: str, normal: str):
    """Say why text that has not the form of a measure cannot be read."""
    if not normal:
        raise MeasureError(f"Nothing to read in {_quoted(text)}: write {kind.name} like {kind.example}.")
    if _ENDS_WITHOUT_UNIT.fullmatch(normal):
        raise MeasureError(f"{_quoted(text)} has no unit at its end: which unit? Write {kind.example}.")
    raise MeasureError(f"{_quoted(text)} cannot be read as {kind.name}: write {kind.example}.")


def _within(kind: _Kind, base: Fraction, said: object) -> None:
    """Refuse a size that no workshop has."""
    if not kind.lowest <= base <= kind.highest:
        raise MeasureError(f"{_quoted(said)} is out of range: {kind.name} {kind.limit}.")


def _read(kind: _Kind, text: object) -> tuple[Fraction, _Unit]:
    """Exact value and unit of a text."""
    if isinstance(text, Number) and not isinstance(text, bool):
        raise MeasureError(f"{_quoted(text)} is a bare number: which unit? Write {kind.example}.")
    if not isinstance(text, str):
        raise MeasureError(
            f"{kind.name.capitalize()} is written as text, like {kind.example}, not as {type(text).__name__}."
        )
    if len(text) > _LONGEST:
        raise MeasureError(
            f"{_quoted(text)} is too long for one measure: write {kind.name} like {kind.example}."
        )
    normal = _normal(text)
    found = _MEASURE.fullmatch(normal) or _refuse(kind, text, normal)
    sign, amount, word, *rest = found.groups()
    first = _piece(kind, amount, word, text)
    value, unit = _together(kind, first, _piece(kind, *rest, text), text) if rest[0] else first
    value = -value if sign == "-" else value
    _within(kind, value * unit.size + unit.zero, text)
    return value, unit


def reading(kind: str, text: str) -> tuple[Fraction, str]:
    """Read a measure of a kind exactly: its value and its unit.

    The unit is the one typed; feet and inches together are given in inches, degrees and minutes in degrees,
    pounds and ounces in ounces. Raises MeasureError for anything that is not one such measure.

    >>> reading("length", "2' 3 1/2\\"")
    (Fraction(55, 2), 'in')
    >>> reading("angle", "22° 30'")
    (Fraction(45, 2), 'deg')
    >>> try:
    ...     reading("length", "440")
    ... except MeasureError as problem:
    ...     print(problem)
    '440' has no unit at its end: which unit? Write '440 mm' or '17 3/8 in'.
    """
    value, unit = _read(_kind(kind), text)
    return value, unit.name


def plain(kind: str, value: str | pint.Quantity) -> float:
    """Read text or a Quantity as a float in the kind's base unit: mm, rad, kg, degC or a plain ratio.

    Text is read without loading pint. Raises MeasureError as `length` and the others do.

    >>> plain("length", "17½ in"), plain("percent", "12,5 %"), plain("temperature", "68 °F")
    (444.5, 0.125, 20.0)
    """
    if _is_quantity(value):
        return _base(kind, _checked(kind, value))
    exact, unit = _read(_kind(kind), value)
    return float(exact * unit.size + unit.zero)


# Quantities -------------------------------------------------------------------------------------------------

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
    if not isinstance(unit, str) or not _UNIT_EXPRESSION.fullmatch(unit) or len(unit) > _LONGEST:
        raise MeasureError(f"There is no unit called {_quoted(unit)}.")
    try:
        return registry().Quantity(value, unit)
    except pint.UndefinedUnitError:
        raise MeasureError(f"There is no unit called {_quoted(unit)}.") from None


def _is_quantity(value: object) -> bool:
    if isinstance(value, str) or "pint" not in sys.modules:
        return False
    import pint

    return isinstance(value, pint.Quantity)


def _finite(value: pint.Quantity) -> pint.Quantity:
    """The same quantity, once it is sure to be one finite number in the project's registry."""
    import pint

    if not _is_quantity(value):
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


def _base(kind: str, value: pint.Quantity) -> float:
    """A quantity as a float in the kind's base unit; exact for units that can also be typed."""
    import pint

    unit = _KINDS[kind].words.get(str(value.units).lower())
    if unit:
        return float(_exact(value.magnitude) * unit.size + unit.zero)
    try:
        return float(value.m_as(_KINDS[kind].base))
    except pint.PintError:
        raise MeasureError(f"{_quoted(str(value))} is not {_KINDS[kind].name}.") from None


def _exact(value: Real) -> Fraction:
    """The decimal number that a person reads in a float: 0.1 is 1/10."""
    return Fraction(repr(float(value)))


def _is_of_kind(kind: str, value: pint.Quantity) -> bool:
    """Whether a quantity is of this kind. To pint an angle and a percentage are both dimensionless."""
    if kind == "temperature" and "delta" in str(value.units):
        return False
    if not value.is_compatible_with(_KINDS[kind].base):
        return False
    return not value.dimensionless or ("radian" in str(value.to_root_units().units)) == (kind == "angle")


def _checked(kind: str, value: pint.Quantity) -> pint.Quantity:
    """The same quantity, once it is known to be of this kind and of a size that a workshop has."""
    shape, value = _kind(kind), _finite(value)
    if not _is_of_kind(kind, value):
        raise MeasureError(f"{_quoted(str(value))} is not {shape.name}: write {shape.example}.")
    _within(shape, _base(kind, value), str(value))
    return value


def _measure(kind: str, text: str | pint.Quantity) -> pint.Quantity:
    """Text or a Quantity as a checked Quantity."""
    if _is_quantity(text):
        return _checked(kind, text)
    value, unit = _read(_KINDS[kind], text)
    return quantity(float(value), unit.name)


def length(text: str | pint.Quantity) -> pint.Quantity:
    """Read a length, in the unit typed (feet with inches: in inches), at most 100 m either way.

    Accepts decimals with point or comma, fractions, feet and inches, or a Quantity, which is checked and
    returned. Raises MeasureError for a bare number, another kind of measure or anything unreadable.

    >>> print(length("17-3/8\\""))
    17.375 inch
    >>> print(length("18,5 mm"))
    18.5 millimeter
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


# Writing ----------------------------------------------------------------------------------------------------

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


def _read_step(kind: _Kind, step: str) -> tuple[Fraction, _Unit]:
    size, unit = _read(kind, step)
    if size <= 0:
        raise MeasureError(f"A step must be more than zero, not {_quoted(step)}.")
    return size, unit


@lru_cache(maxsize=256)
def _step(kind: str, unit: str, step: str) -> _Step:
    """The step read once and kept."""
    shape = _kind(kind)
    size, step_unit = _read_step(shape, step)
    shown = _unit(shape, unit, unit)
    if step_unit != shown:
        raise MeasureError(f"The step {_quoted(step)} must be written in {shown.name}, like the size.")
    normal = _normal(step)
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

    >>> show(length("19.05 mm"), "mm", "0.1 mm"), show(length("19.05 mm"), "in", "1/32 in")
    ('19.1 mm', '3/4 in')
    >>> show(angle("15 deg"), "deg", "0.1 deg")
    '15.0 deg'
    """
    kind = _kind_with(unit)
    return write(_base(kind, _finite(quantity)), kind, unit, step)


def nearest(quantity: pint.Quantity, step: str) -> tuple[pint.Quantity, pint.Quantity]:
    """The nearest multiple of a step, and the error made by using it: rounded minus true.

    Both are in the step's unit; halves go away from zero. Raises MeasureError for a step of zero or of
    another kind than the quantity, and for a quantity that `length` and the others refuse.

    >>> rounded, error = nearest(length("19.2 mm"), "1 mm")
    >>> print(rounded, round(error.magnitude, 3))
    19.0 millimeter -0.2
    """
    value = _finite(quantity)
    kind = next((name for name in _KINDS if _is_of_kind(name, value)), None)
    if kind is None:
        raise MeasureError(f"{_quoted(str(value))} is not a shop measure.")
    size, unit = _read_step(_KINDS[kind], step)
    true = (_exact(_base(kind, _checked(kind, value))) - unit.zero) / unit.size
    rounded = size * _whole_steps(float(true / size))
    difference = f"delta_{unit.name}" if kind == "temperature" else unit.name
    return _made(rounded, unit.name), _made(rounded - true, difference)


def _made(value: Fraction, unit: str) -> pint.Quantity:
    return quantity(float(value), unit)
