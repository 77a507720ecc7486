"""Reading and writing shop measures: published facts, pint as the independent judge, and hostile text."""

import math
import subprocess
import sys
from fractions import Fraction

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shoplib import measure
from shoplib.measure import MeasureError, nearest, plain, quantity, reading, show, write
from shoplib.measure.kinds import KINDS, kind_with

BASES = {
    "length": "mm", "angle": "rad", "mass": "kg", "force": "N", "stress": "MPa", "temperature": "degC",
    "percent": "dimensionless", "surface": "m**2", "volume": "liter",
}  # fmt: skip
READERS = {kind: getattr(measure, kind) for kind in BASES}

THEIRS = pint.UnitRegistry()  # not the project's
THEIRS.define("local_foot = 0.3 meter")

NARROW = "\u202f"
THIN = "\u2009"

GOOD = [
    ("length", "440 mm", 440, "mm"),
    ("length", "440mm", 440, "mm"),
    ("length", "440 MM", 440, "mm"),
    ("length", " 440   Millimetres ", 440, "mm"),
    ("length", "1 millimeter", 1, "mm"),
    ("length", "44 cm", 44, "cm"),
    ("length", "0.44 m", "0.44", "m"),
    ("length", "2 metres", 2, "m"),
    ("length", "1250 mm", 1250, "mm"),
    ("length", "18,5 mm", "18.5", "mm"),
    ("length", "1,25 m", "1.25", "m"),
    ("length", ".5 in", "0.5", "in"),
    ("length", "1.5 in", "1.5", "in"),
    ("length", "5 in.", 5, "in"),
    ("length", "17 3/8 in", "139/8", "in"),
    ("length", '17-3/8"', "139/8", "in"),
    ("length", "17\u20133/8″", "139/8", "in"),
    ("length", "17 3⁄8 inches", "139/8", "in"),
    ("length", "1/2in", "1/2", "in"),
    ("length", "5/4 in", "5/4", "in"),
    ("length", "½ in", "1/2", "in"),
    ("length", "17½ in", "35/2", "in"),
    ("length", "17 ½”", "35/2", "in"),
    ("length", "17-½ inch", "35/2", "in"),
    ("length", f"17{NARROW}½\u00a0in", "35/2", "in"),
    ("length", f"18{THIN}mm", 18, "mm"),
    ("length", "１８．５ｍｍ", "18.5", "mm"),
    ("length", "-3 mm", -3, "mm"),
    ("length", "\u22123 mm", -3, "mm"),
    ("length", "-17 3/8 in", "-139/8", "in"),
    ("length", "-½ in", "-1/2", "in"),
    ("length", "+3 mm", 3, "mm"),
    ("length", "2'", 2, "ft"),
    ("length", "2 feet", 2, "ft"),
    ("length", "2 ft 3 in", 27, "in"),
    ("length", "2' 3 1/2\"", "55/2", "in"),
    ("length", "2'3½\"", "55/2", "in"),
    ("length", "2’-3 1/2”", "55/2", "in"),
    ("length", "2′ 3 1/2''", "55/2", "in"),
    ("length", "-2' 3\"", -27, "in"),
    ("length", "0 mm", 0, "mm"),
    ("length", "100 m", 100, "m"),
    ("angle", "15 deg", 15, "deg"),
    ("angle", "15°", 15, "deg"),
    ("angle", "15 degrees", 15, "deg"),
    ("angle", "7 1/2 deg", "15/2", "deg"),
    ("angle", "22.5°", "22.5", "deg"),
    ("angle", "0.26 rad", "0.26", "rad"),
    ("angle", "22° 30'", "22.5", "deg"),
    ("angle", "-22°30′", "-22.5", "deg"),
    ("angle", "360 deg", 360, "deg"),
    ("mass", "3.2 kg", "3.2", "kg"),
    ("mass", "250 g", 250, "g"),
    ("mass", "7 lb", 7, "lb"),
    ("mass", "7 lb 8 oz", 120, "oz"),
    ("mass", "4 oz", 4, "oz"),
    ("temperature", "20 °C", 20, "degC"),
    ("temperature", "20 degC", 20, "degC"),
    ("temperature", "20 C", 20, "degC"),
    ("temperature", "20 ℃", 20, "degC"),
    ("temperature", "-5 °C", -5, "degC"),
    ("temperature", "68 °F", 68, "degF"),
    ("percent", "12 %", 12, "percent"),
    ("percent", "12 percent", 12, "percent"),
    ("percent", "12 per cent", 12, "percent"),
    ("percent", "12,5 %", "12.5", "percent"),
]


@pytest.mark.parametrize(("kind", "text", "value", "unit"), GOOD)
def test_reads_what_a_person_writes(kind, text, value, unit):
    assert reading(kind, text) == (Fraction(value), unit)
    made = READERS[kind](text)
    assert made == quantity(float(Fraction(value)), unit)
    assert plain(kind, text) == pytest.approx(made.m_as(BASES[kind]), rel=1e-12, abs=1e-12)
    assert plain(kind, made) == pytest.approx(plain(kind, text), rel=1e-15, abs=1e-15)
    assert READERS[kind](made) is made


BAD = [
    ("length", "", "Nothing"),
    ("length", " \u00a0 ", "Nothing"),
    ("length", "440", "which unit"),
    ("length", "2' 3", "which unit"),
    ("length", "17 3/8", "which unit"),
    ("length", "12 13 mm", "one plain number"),
    ("length", "3 mm 4 mm", "two measures"),
    ("length", "3 in 2 ft", "two measures"),
    ("length", "1/0 in", "zero"),
    ("length", "1 0/0 in", "zero"),
    ("length", "nan", "cannot be read"),
    ("length", "nan mm", "cannot be read"),
    ("length", "inf mm", "cannot be read"),
    ("length", "1e3 mm", "unknown unit"),
    ("length", "15 deg", "is an angle"),
    ("length", "3 kg", "is a mass"),
    ("length", "15°C", "is a temperature"),
    ("length", "3 furlongs", "unknown unit"),
    ("length", "3 m2", "is a surface"),
    ("length", "3 m²", "is a surface"),
    ("length", "3 mm^2", "cannot be read"),
    ("length", "3² mm", "cannot be read"),
    ("length", "1,250 mm", "write 1250 or 1.250"),
    ("length", "0,125 in", "write 125 or 0.125"),
    ("length", "1,250.5 mm", "one plain number"),
    ("length", "1.2.3 mm", "one plain number"),
    ("length", "5. mm", "one plain number"),
    ("length", "3/4/5 in", "one plain number"),
    ("length", "1 3/4.5 in", "one plain number"),
    ("length", "1.5 3/4 in", "one plain number"),
    ("length", "½½ in", "one plain number"),
    ("length", "17 - 3/8 in", "one plain number"),
    ("length", "1 5/4 in", "carry it over"),
    ("length", "1 4/4 in", "carry it over"),
    ("length", "2' 13\"", "below 12"),
    ("length", "2' 12\"", "below 12"),
    ("length", "2.5' 3\"", "whole number"),
    ("length", "2' -3\"", "cannot be read"),
    ("length", "5 ' mm", "cannot be read"),
    ("length", "5 mm mm", "cannot be read"),
    ("length", "mm", "cannot be read"),
    ("length", "-", "cannot be read"),
    ("length", "--3 mm", "cannot be read"),
    ("length", "100.1 m", "within 100 m"),
    ("length", "-101 m", "within 100 m"),
    ("length", "9" * 57 + " mm", "within 100 m"),
    ("length", "9" * 100 + " mm", "too long"),
    ("length", "3\x00 mm", "cannot be read"),
    ("length", "3 mm\n", "cannot be read"),
    ("length", "٣ mm", "cannot be read"),
    ("length", "\ud800 mm", "cannot be read"),
    ("length", "__import__('os')", "cannot be read"),
    ("length", b"3 mm", "not as bytes"),
    ("length", None, "not as NoneType"),
    ("length", True, "not as bool"),
    ("length", ["3 mm"], "not as list"),
    ("length", 440, "which unit"),
    ("length", 440.0, "which unit"),
    ("length", math.nan, "which unit"),
    pytest.param("length", 10**5000, "which unit", id="huge"),
    ("length", Fraction(1, 2), "which unit"),
    ("angle", "3 mm", "is a length"),
    ("angle", '5"', "is a length"),
    ("angle", "361 deg", "full turn"),
    ("angle", "22° 60'", "below 60"),
    ("mass", "3 mm", "is a length"),
    ("mass", "1001 kg", "within 1000 kg"),
    ("temperature", "-273.16 °C", "-273.15"),
    ("temperature", "-460 °F", "-273.15"),
    ("percent", "0.12", "which unit"),
    ("percent", "1001 %", "within 1000 %"),
    ("weight", "3 kg", "no kind of measure"),
]


@pytest.mark.parametrize(("kind", "text", "said"), BAD)
def test_refuses_with_a_short_message_that_quotes_it(kind, text, said):
    readers = [lambda: plain(kind, text), lambda: reading(kind, text)]
    readers += [lambda: READERS[kind](text)] if kind in READERS else []
    for reader in readers:
        with pytest.raises(MeasureError) as caught:
            reader()
        message = str(caught.value)
        assert said in message and len(message) < 150
        if isinstance(text, str) and kind in READERS:
            assert repr(text[:30])[1:-1] in message


@pytest.mark.parametrize(
    ("kind", "value"),
    [
        ("length", lambda: quantity(3, "kg")),
        ("length", lambda: quantity(3, "mm**2")),
        ("length", lambda: quantity(math.nan, "mm")),
        ("length", lambda: quantity(math.inf, "mm")),
        ("length", lambda: quantity(10**400, "mm")),
        ("length", lambda: quantity(1e300, "km")),
        ("length", lambda: quantity(101, "m")),
        ("length", lambda: quantity([1.0, 2.0], "mm")),
        ("length", lambda: quantity(1j, "mm")),
        ("angle", lambda: quantity(0.1, "dimensionless")),
        ("angle", lambda: quantity(10, "percent")),
        ("angle", lambda: quantity(7, "rad")),
        ("percent", lambda: quantity(10, "deg")),
        ("temperature", lambda: quantity(5, "delta_degC")),
        ("temperature", lambda: quantity(-1, "kelvin")),
        ("length", lambda: THEIRS.Quantity(1, "local_foot")),
    ],
)
def test_refuses_a_quantity_that_is_no_such_measure(kind, value):
    with pytest.raises(MeasureError):
        READERS[kind](value())
    with pytest.raises(MeasureError):
        plain(kind, value())


def test_a_quantity_of_another_registry_is_moved_into_the_project_s():
    moved = measure.length(THEIRS.Quantity(1.0, "inch")) + quantity(1, "mm")
    assert moved.m_as("mm") == pytest.approx(26.4, rel=1e-12)
    assert pint.Quantity(1, "mm") + quantity(1, "mm") == measure.length(pint.Quantity(2, "mm"))
    assert measure.registry() is measure.registry()


@pytest.mark.parametrize("unit", ["furlongsome", "mm)(", "", None, "__import__('os')", "m" * 99])
def test_quantity_refuses_an_unknown_unit(unit):
    with pytest.raises(MeasureError):
        quantity(1, unit)


def test_published_facts():
    """International yard and pound agreement, 1959: 1 in = 25.4 mm and 1 lb = 0.453 592 37 kg, exactly."""
    assert plain("length", "1 in") == 25.4
    assert plain("length", "1 ft") == 304.8
    assert plain("length", "17 3/8 in") == 441.325
    assert plain("mass", "1 lb") == 0.45359237
    assert plain("mass", "1 oz") == 0.028349523125
    assert plain("angle", "15 deg") == math.radians(15)
    assert plain("temperature", "68 °F") == 20.0
    assert plain("temperature", "-40 °F") == -40.0
    assert plain("percent", "12 %") == 0.12


@pytest.mark.parametrize(
    ("kind", "unit"),
    [
        (kind, unit)
        for kind, shape in KINDS.items()
        for unit in dict.fromkeys(shape.words.values())
    ],
)
def test_every_unit_agrees_with_pint(kind, unit):
    independent = THEIRS.Quantity(3.7, unit.name).m_as(BASES[kind])
    assert plain(kind, f"3.7 {unit.words.split()[0]}") == pytest.approx(independent, rel=1e-12)
    assert plain(kind, quantity(3.7, unit.name)) == pytest.approx(independent, rel=1e-12)


WRITTEN = [
    ("19.1 mm", "mm", "0.1 mm", "19.1 mm"),
    ("440 mm", "in", "1/32 in", "17 5/16 in"),
    ("19.05 mm", "in", "1/32 in", "3/4 in"),
    ("-3/4 in", "in", "1/32 in", "-3/4 in"),
    ("-17.375 in", "in", "1/16 in", "-17 3/8 in"),
    ("0.1 mm", "in", "1/32 in", "0 in"),
    ("-0.1 mm", "in", "1/32 in", "0 in"),
    ("-0.04 mm", "mm", "0.1 mm", "0.0 mm"),
    ("25.4 mm", "in", "1/32 in", "1 in"),
    ("440 mm", "in", "0.01 in", "17.32 in"),
    ("440 mm", "in", "1 in", "17 in"),
    ("0.05 mm", "mm", "0.1 mm", "0.1 mm"),
    ("0.15 mm", "mm", "0.1 mm", "0.2 mm"),
    ("-0.15 mm", "mm", "0.1 mm", "-0.2 mm"),
    ("0.1499999 mm", "mm", "0.1 mm", "0.1 mm"),
    ("1/64 in", "in", "1/32 in", "1/32 in"),
    ("19.3 mm", "mm", "0.5 mm", "19.5 mm"),
    ("19.5 mm", "mm", "1 mm", "20 mm"),
    ("19.12 mm", "mm", "0,25 mm", "19.00 mm"),
    ("7 mm", "mm", "5 mm", "5 mm"),
    ("44 cm", "mm", "1 mm", "440 mm"),
    ("440 mm", "cm", "0.1 cm", "44.0 cm"),
    ("2' 3\"", "ft", "0.01 ft", "2.25 ft"),
    ("15 deg", "deg", "0.1 deg", "15.0 deg"),
    ("0.15 deg", "deg", "0.1 deg", "0.2 deg"),
    ("7.5 deg", "deg", "½ deg", "7 1/2 deg"),
    ("180 deg", "rad", "0.001 rad", "3.142 rad"),
    ("12 %", "percent", "1 %", "12 %"),
    ("12.25 %", "%", "0.5 %", "12.5 %"),
    ("3.2 kg", "kg", "0.1 kg", "3.2 kg"),
    ("3.2 kg", "lb", "0.1 lb", "7.1 lb"),
    ("20 °C", "degC", "1 degC", "20 °C"),
    ("20 °C", "degF", "1 °F", "68 °F"),
]


@pytest.mark.parametrize(("text", "unit", "step", "expected"), WRITTEN)
def test_shows_a_size_rounded_to_the_step(text, unit, step, expected):
    kind = kind_with(unit)
    value = READERS[kind](text)
    assert show(value, unit, step) == expected
    assert write(plain(kind, text), kind, unit, step) == expected
    rounded, error = nearest(value, step)
    assert rounded.m_as(BASES[kind]) == pytest.approx(plain(kind, expected), rel=1e-12, abs=1e-12)
    true = value.m_as(rounded.units)
    assert error.magnitude == pytest.approx(rounded.magnitude - true, abs=1e-9)


def test_nearest_speaks_the_unit_of_the_step():
    rounded, error = nearest(measure.length("440 mm"), "1/32 in")
    assert (str(rounded), str(error.units)) == ("17.3125 inch", "inch")
    assert error.magnitude == pytest.approx(17.3125 - 440 / 25.4, rel=1e-9)
    assert nearest(measure.length("19.05 mm"), "1/32 in")[1].magnitude == 0.0


def test_results_may_be_larger_than_what_may_be_typed():
    assert show(quantity(250, "m"), "m", "1 m") == "250 m"
    assert show(quantity(0.3, "mm*rad"), "mm", "0.1 mm") == "0.3 mm"
    assert show(quantity(0.25, "dimensionless"), "percent", "1 %") == "25 %"


@pytest.mark.parametrize(
    "call",
    [
        lambda: show("3 mm", "mm", "1 mm"),
        lambda: show(3.0, "mm", "1 mm"),
        lambda: show(quantity(3, "mm"), "deg", "1 deg"),
        lambda: show(quantity(3, "mm"), "mm", "1/32 in"),
        lambda: show(quantity(3, "mm"), "mm", "0 mm"),
        lambda: show(quantity(3, "mm"), "mm", "-1 mm"),
        lambda: show(quantity(3, "mm"), "mm", "1"),
        lambda: show(quantity(3, "mm"), "furlong", "1 mm"),
        lambda: show(quantity(math.nan, "mm"), "mm", "1 mm"),
        lambda: write(math.inf, "length", "mm", "1 mm"),
        lambda: write(math.nan, "length", "mm", "1 mm"),
        lambda: write(1e300, "length", "mm", "1 mm"),
        lambda: write(1.0, "angle", "mm", "1 mm"),
        lambda: write(1.0, "weight", "kg", "1 kg"),
        lambda: nearest("3 mm", "1 mm"),
        lambda: nearest(quantity(3, "mm"), "1 kg"),
        lambda: nearest(quantity(3, "mm"), "0 mm"),
        lambda: nearest(quantity(3, "newton"), "1 mm"),
        lambda: nearest(quantity(1e90, "km"), "1 mm"),
    ],
)
def test_refuses_to_write_what_makes_no_sense(call):
    with pytest.raises(MeasureError):
        call()


STEPS = [
    ("length", "mm", "0.1 mm"),
    ("length", "mm", "0.5 mm"),
    ("length", "mm", "0.01 mm"),
    ("length", "in", "1/32 in"),
    ("length", "in", "1/64 in"),
    ("length", "in", "0.001 in"),
    ("angle", "deg", "0.1 deg"),
    ("angle", "rad", "0.001 rad"),
    ("mass", "lb", "0.1 lb"),
    ("temperature", "degF", "1 degF"),
    ("percent", "percent", "0.1 %"),
    ("surface", "m2", "0.01 m2"),
    ("volume", "floz", "0.1 floz"),
]


@given(st.sampled_from(STEPS), st.floats(-1, 1))
def test_reading_what_was_written_gives_the_rounded_size(step, part):
    kind, unit, step = step
    shape = KINDS[kind]
    value = float(shape.highest) * 0.99 * (part if kind != "temperature" else abs(part))
    text = write(value, kind, unit, step)
    size, read_unit = reading(kind, text)
    assert read_unit == shape.words[unit.lower()].name and (size / reading(kind, step)[0]).denominator == 1
    assert not text.startswith("-0 ") and not (text[0] == "-" and size == 0)
    one_step = float(reading(kind, step)[0] * shape.words[unit.lower()].size)
    assert abs(plain(kind, text) - value) <= one_step * (0.5 + 1e-6)
    assert write(plain(kind, text), kind, unit, step) == text
    assert show(quantity(value, BASES[kind]), unit, step) == text


@given(
    st.integers(0, 3000), st.integers(0, 63), st.sampled_from([2, 4, 8, 16, 32, 64]), st.sampled_from("-+ ")
)
def test_mixed_inches_are_exact(whole, top, bottom, sign):
    top %= bottom
    exact = (whole + Fraction(top, bottom)) * (-1 if sign == "-" else 1)
    feet, inches = divmod(whole, 12)
    assert reading("length", f"{sign}{whole} {top}/{bottom} in") == (exact, "in")
    assert reading("length", f"{sign}{feet}' {inches}-{top}/{bottom}\"") == (exact, "in")
    assert plain("length", f'{sign}{whole}-{top}/{bottom}"') == float(exact * Fraction(254, 10))


SHOP_LIKE = st.text(st.sampled_from("0123456789 .,/-+−'\"°%½⅜⁄²٣e\u00a0minftdegrakgC"), max_size=62)


@settings(max_examples=600, deadline=None)
@given(st.text(max_size=62) | SHOP_LIKE, st.sampled_from(list(READERS)))
def test_any_text_is_read_or_refused(text, kind):
    try:
        value = plain(kind, text)
    except MeasureError as problem:
        assert 20 < len(str(problem)) < 200
        with pytest.raises(MeasureError):
            READERS[kind](text)
    else:
        shape = KINDS[kind]
        assert float(shape.lowest) <= value <= float(shape.highest)
        assert READERS[kind](text).m_as(BASES[kind]) == pytest.approx(value, rel=1e-9, abs=1e-9)


@settings(max_examples=60)
@given(
    st.none()
    | st.booleans()
    | st.floats()
    | st.integers()
    | st.binary()
    | st.lists(st.text())
    | st.complex_numbers()
)
def test_anything_else_is_refused(value):
    with pytest.raises(MeasureError):
        measure.length(value)


@pytest.mark.parametrize(
    "text",
    [
        "9" * 10**6,
        " " * 10**6,
        "1 " * 30,
        "1/" * 30,
        "1-" * 30,
        "1' " * 20,
        "." * 60,
        ", -/" * 15,
        "1 -" * 20 + "mm",
    ],
)
def test_long_and_knotted_text_is_refused_at_once(text):
    """No work grows with the text: a million characters and the worst sixty are refused alike."""
    with pytest.raises(MeasureError):
        plain("length", text)


def test_text_is_read_and_written_without_the_heavy_libraries():
    program = (
        "import sys; from shoplib import measure as m; m.plain('length', '17 3/8 in');"
        "m.write(3.0, 'length', 'in', '1/32 in'); m.reading('angle', '15 deg');"
        "assert not {'pint', 'numpy', 'sympy'} & set(sys.modules), sorted(sys.modules)"
    )
    subprocess.run([sys.executable, "-c", program], check=True)
