"""Text becomes an exact number with its unit. Nothing else in the project reads what a person typed."""

import re
import unicodedata
from fractions import Fraction
from numbers import Number

from shoplib.measure.kinds import LONGEST, PAIRS, Kind, MeasureError, Unit, kind_named, quoted, unit_named, within

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

_PIECE = r"""([0-9.,][0-9.,/ -]*?) ?([a-z°%'"]+|[a-z]+[2²])\.?"""
_MEASURE = re.compile(rf"([-+]?) ?{_PIECE}(?:(?:-| - | ?){_PIECE})?")
_ENDS_WITHOUT_UNIT = re.compile(r"""(?:.*[ '"°-])?[0-9.,/]+""")
_DECIMAL = re.compile(r"([0-9]*)(?:[.,]([0-9]+))?")
_FRACTION = re.compile(r"(?:([0-9]+)[ -])?([0-9]+) ?/ ?([0-9]+)")
_COMMA_BEFORE_THREE = re.compile(r"([0-9]*),([0-9]{3})")


def normal_spelling(text: str) -> str:
    """The text with one spelling for spaces, signs, quotes and fractions, in lower case."""
    text = _BESIDE_VULGAR.sub(" ", text.translate(_ASCII)).translate(_SPELT_OUT).lower()
    return re.sub(" +", " ", text).strip(" ").replace("''", '"').replace("per cent", "percent").replace("fl oz", "floz")


def _decimal(amount: str, text: str) -> Fraction | None:
    """The number in '18', '18.5', '18,5' or '.5'; None if it is written in another way."""
    if found := _COMMA_BEFORE_THREE.fullmatch(amount):
        thousands, rest = found.groups()
        whole, point = int(thousands + rest), f"{thousands or 0}.{rest}"
        raise MeasureError(f"The comma in {quoted(text)} can be read in two ways: write {whole} or {point}.")
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
            f"{quoted(text)} does not hold one plain number: write it like 18.5, 3/8 or 17 3/8."
        )
    whole, top, bottom = (int(part or 0) for part in found.groups())
    if bottom == 0:
        raise MeasureError(f"{quoted(text)} divides by zero: write a fraction like 3/8.")
    if found[1] and top >= bottom:
        raise MeasureError(
            f"The fraction in {quoted(text)} makes a whole or more: carry it over, as in 2 1/4 for 1 5/4."
        )
    return whole + Fraction(top, bottom)


def _piece(kind: Kind, amount: str, word: str, text: str) -> tuple[Fraction, Unit]:
    """One number with its unit; the unit is checked first, as the wrong kind is the worse slip."""
    unit = unit_named(kind, word, text)
    return _amount(amount, text), unit


def _together(kind: Kind, first: tuple[Fraction, Unit], second: tuple[Fraction, Unit], text: str):
    """The value and unit of two pieces, such as feet and inches."""
    (large, large_unit), (small, small_unit) = first, second
    pair = large_unit.name, small_unit.name
    if pair not in PAIRS:
        raise MeasureError(f"{quoted(text)} holds two measures: write one, like {kind.example}.")
    if large.denominator != 1:
        raise MeasureError(f"In {quoted(text)} the {pair[0]} must be a whole number when {pair[1]} follow.")
    if small * small_unit.size >= large_unit.size:
        most = large_unit.size / small_unit.size
        raise MeasureError(
            f"In {quoted(text)} the second number must stay below {most}: {most} {pair[1]} make 1 {pair[0]}."
        )
    unit = kind.words[PAIRS[pair]]
    return (large * large_unit.size + small * small_unit.size) / unit.size, unit


def _refuse(kind: Kind, text: str, normal: str):
    """Say why text that has not the form of a measure cannot be read."""
    if not normal:
        raise MeasureError(f"Nothing to read in {quoted(text)}: write {kind.name} like {kind.example}.")
    if _ENDS_WITHOUT_UNIT.fullmatch(normal):
        raise MeasureError(f"{quoted(text)} has no unit at its end: which unit? Write {kind.example}.")
    raise MeasureError(f"{quoted(text)} cannot be read as {kind.name}: write {kind.example}.")


def read_text(kind: Kind, text: object) -> tuple[Fraction, Unit]:
    """Exact value and unit of a text."""
    if isinstance(text, Number) and not isinstance(text, bool):
        raise MeasureError(f"{quoted(text)} is a bare number: which unit? Write {kind.example}.")
    if not isinstance(text, str):
        raise MeasureError(
            f"{kind.name.capitalize()} is written as text, like {kind.example}, not as {type(text).__name__}."
        )
    if len(text) > LONGEST:
        raise MeasureError(
            f"{quoted(text)} is too long for one measure: write {kind.name} like {kind.example}."
        )
    normal = normal_spelling(text)
    found = _MEASURE.fullmatch(normal) or _refuse(kind, text, normal)
    sign, amount, word, *rest = found.groups()
    first = _piece(kind, amount, word, text)
    value, unit = _together(kind, first, _piece(kind, *rest, text), text) if rest[0] else first
    value = -value if sign == "-" else value
    within(kind, value * unit.size + unit.zero, text)
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
    value, unit = read_text(kind_named(kind), text)
    return value, unit.name
