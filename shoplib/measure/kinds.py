"""What can be measured: the kinds of measure, their units, and what is said when one is wrong."""

from dataclasses import dataclass
from fractions import Fraction
from math import radians

LONGEST = 60  # characters that any measure needs at the most


class MeasureError(ValueError):
    """A measure that cannot be read or written; the message says what to write instead."""


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit: a value in it is value * size + zero in the kind's base unit."""

    name: str
    size: Fraction
    words: str
    zero: Fraction = Fraction(0)
    label: str = ""


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of measure; `lowest` and `highest` are in the base unit and `limit` says them in words."""

    name: str
    base: str
    example: str
    lowest: Fraction
    highest: Fraction
    limit: str
    words: dict[str, Unit]


def _by_word(*units: Unit) -> dict[str, Unit]:
    return {word: unit for unit in units for word in unit.words.split()}


_INCH = Fraction(254, 10)  # mm, exactly: the international inch of 1959
_DEGREE = Fraction(radians(1))  # rad
_POUND = Fraction(45359237, 10**8)  # kg, exactly: the international pound of 1959
_GALLON = 231 * _INCH**3 / 10**6  # l, exactly: 231 cubic inches
_GRAVITY = Fraction(980665, 10**5)  # N for each kg, exactly: standard gravity, 3rd CGPM 1901

KINDS = {
    "length": Kind(
        "a length", "mm", "'440 mm' or '17 3/8 in'",
        Fraction(-100_000), Fraction(100_000), "stays within 100 m",
        _by_word(
            Unit("mm", Fraction(1), "mm millimetre millimetres millimeter millimeters"),
            Unit("cm", Fraction(10), "cm centimetre centimetres centimeter centimeters"),
            Unit("m", Fraction(1000), "m metre metres meter meters"),
            Unit("in", _INCH, 'in inch inches "'),
            Unit("ft", 12 * _INCH, "ft foot feet '"),
        ),
    ),
    "angle": Kind(
        "an angle", "rad", "'15 deg' or '22.5°'",
        Fraction(-62832, 10**4), Fraction(62832, 10**4), "stays within a full turn, 360 deg",
        _by_word(
            Unit("deg", _DEGREE, "deg degree degrees °"),
            Unit("rad", Fraction(1), "rad radian radians"),
            Unit("arcmin", _DEGREE / 60, "arcmin arcminute arcminutes min minute minutes '"),
        ),
    ),
    "mass": Kind(
        "a mass", "kg", "'3.2 kg' or '7 lb'",
        Fraction(-1000), Fraction(1000), "stays within 1000 kg",
        _by_word(
            Unit("kg", Fraction(1), "kg kilogram kilograms"),
            Unit("g", Fraction(1, 1000), "g gram grams"),
            Unit("lb", _POUND, "lb lbs pound pounds"),
            Unit("oz", _POUND / 16, "oz ounce ounces"),
        ),
    ),
    "force": Kind(
        "a force", "N", "'180 N' or '40 lbf'",
        Fraction(-100_000), Fraction(100_000), "stays within 100 kN",
        _by_word(
            Unit("N", Fraction(1), "n newton newtons"),
            Unit("kN", Fraction(1000), "kn kilonewton kilonewtons"),
            Unit("lbf", _POUND * _GRAVITY, "lbf pound-force"),
        ),
    ),
    "stress": Kind(
        "a stress", "MPa", "'25 MPa' or '3600 psi'",
        Fraction(-1_000_000), Fraction(1_000_000), "stays within 1000 GPa",
        _by_word(
            Unit("MPa", Fraction(1), "mpa megapascal megapascals"),
            Unit("GPa", Fraction(1000), "gpa gigapascal gigapascals"),
            Unit("psi", _POUND * _GRAVITY / _INCH**2, "psi"),
        ),
    ),
    "surface": Kind(
        "a surface", "m**2", "'3.1 m2' or '33 ft2'",
        Fraction(-1000), Fraction(1000), "stays within 1000 m2",
        _by_word(
            Unit("m**2", Fraction(1), "m2 m² sqm", label="m²"),
            Unit("cm**2", Fraction(1, 10_000), "cm2 cm²", label="cm²"),
            Unit("ft**2", (12 * _INCH / 1000) ** 2, "ft2 ft² sqft", label="ft²"),
        ),
    ),
    "volume": Kind(
        "a volume", "liter", "'0.5 l' or '17 fl oz'",
        Fraction(-1000), Fraction(1000), "stays within 1000 l",
        _by_word(
            Unit("liter", Fraction(1), "l litre litres liter liters", label="l"),
            Unit("milliliter", Fraction(1, 1000), "ml millilitre millilitres milliliter milliliters", label="ml"),
            Unit("gallon", _GALLON, "gal gallon gallons", label="gal"),
            Unit("fluid_ounce", _GALLON / 128, "floz", label="fl oz"),
        ),
    ),
    "temperature": Kind(
        "a temperature", "degC", "'20 °C' or '68 °F'",
        Fraction(-27315, 100), Fraction(1000), "stays between -273.15 °C and 1000 °C",
        _by_word(
            Unit("degC", Fraction(1), "degc °c c celsius degree_celsius", label="°C"),
            Unit("degF", Fraction(5, 9), "degf °f f fahrenheit degree_fahrenheit", Fraction(-160, 9), "°F"),
        ),
    ),
    "percent": Kind(
        "a percentage", "dimensionless", "'12 %'",
        Fraction(-10), Fraction(10), "stays within 1000 %",
        _by_word(Unit("percent", Fraction(1, 100), "percent %", label="%")),
    ),
}  # fmt: skip

# Units that may follow one another ("2 ft 3 in"), and the unit in which the two together are given.
PAIRS = {("ft", "in"): "in", ("deg", "arcmin"): "deg", ("lb", "oz"): "oz"}


def kind_named(name: str) -> Kind:
    if name not in KINDS:
        raise MeasureError(
            f"There is no kind of measure called {quoted(name)}: choose from {', '.join(KINDS)}."
        )
    return KINDS[name]


def kind_with(word: str) -> str:
    """Name of the first kind that has this unit."""
    for name, kind in KINDS.items():
        if str(word).lower() in kind.words:
            return name
    raise MeasureError(f"There is no unit called {quoted(word)}.")


def unit_named(kind: Kind, word: str, text: object) -> Unit:
    """The unit that `word`, found in `text`, stands for."""
    word = str(word).lower()
    if word in kind.words:
        return kind.words[word]
    for other in KINDS.values():
        if word in other.words:
            raise MeasureError(
                f"{quoted(text)} is {other.name}. Write {kind.name} here, like {kind.example}."
            )
    raise MeasureError(f"{quoted(text)} has an unknown unit. Write {kind.name} like {kind.example}.")


def quoted(text: object) -> str:
    """What was read, short enough for a message."""
    try:
        shown = repr(text[:41] if isinstance(text, str) else text)
    except ValueError:  # a whole number of thousands of digits
        return "That"
    return shown if len(shown) <= 42 else shown[:40] + "..."


def within(kind: Kind, base: Fraction, said: object) -> None:
    """Refuse a size that no workshop has."""
    if not kind.lowest <= base <= kind.highest:
        raise MeasureError(f"{quoted(said)} is out of range: {kind.name} {kind.limit}.")
