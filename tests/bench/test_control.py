"""One input: its slider reaches both ends, its box takes any shop measure and keeps it exactly."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from models import EXAMPLES
from pages import NASTY, check_nothing_typed_runs, every, said, sliders

from shoplib import Bench, CircleJig, HollowBlank, StaveRing
from shoplib.bench.control import control

WITH_SLIDER = [
    pytest.param(item, id=f"{cls.__name__}-{name}")
    for cls in EXAMPLES for name, item in cls.inputs().items() if item.kind not in ("flag", "choice")
]  # fmt: skip
UNITS = ("mm", "in")


@pytest.fixture
def told():
    """What a control tells: pairs of input and value."""
    return []


@pytest.fixture
def make(told):
    def made(item, value=None, unit="mm"):
        start = item.low if value is None and not item.optional else value
        return control(item, start, unit, lambda name, value: told.append((name, value)))

    return made


@pytest.mark.parametrize("item", WITH_SLIDER)
@pytest.mark.parametrize("unit", UNITS)
def test_slider_reaches_both_ends(item, unit, make, told):
    one = make(item, unit=unit)
    one.slider.value = one.slider.max
    one.slider.value = one.slider.min
    (_, high), (_, low) = told[-2:]
    step = item.step_in(unit)
    assert 0 <= low - item.low < step * (1 - 1e-9) and 0 <= item.high - high < step * (1 - 1e-9)
    if unit == "mm" or item.kind not in ("length", "mass"):
        assert (low, high) == pytest.approx((item.low, item.high), abs=1e-9), "the declared ones"


@pytest.mark.parametrize("item", WITH_SLIDER)
@pytest.mark.parametrize("unit", UNITS)
def test_every_slider_position_is_a_neat_size_inside_the_range(item, unit, make):
    one = make(item, unit=unit)
    low, high = one.ends()
    assert high - low >= 5 or item.kind == "count", "enough steps to feel"
    for position in (low, low + 1, (low + high) // 2, high - 1, high):
        value = one.value_at(position)
        assert item.low - 1e-9 <= value <= item.high + 1e-9
        one.show(value, unit)
        assert one.slider.value == position
        assert item.read(one.box.value) == pytest.approx(value, abs=1e-9), "the box shows the size in full"


@pytest.mark.parametrize("text, kept", [
    ("440.37 mm", 440.37), ("17 3/8 in", 441.325), ('17-3/8"', 441.325), ("17,3 in", 439.42),
    ("2' 3 1/2\"", 698.5), ("44 cm", 440.0), ("1600 mm", 1600.0),
])  # fmt: skip
@pytest.mark.parametrize("unit", UNITS)
def test_typed_size_is_kept_exactly_in_either_unit(text, kept, unit):
    bench = Bench(CircleJig("300 mm", "12 mm"), unit=unit)
    bench.controls["diameter"].box.value = text
    assert bench.values["diameter"] == pytest.approx(kept, rel=1e-15)
    assert bench.controls["diameter"].box.value.endswith(unit)
    assert said(bench.controls["diameter"].head) == "outside diameter D"


@settings(max_examples=100, deadline=None)
@given(st.decimals(80, 1500, places=2), st.sampled_from(UNITS))
def test_size_off_the_step_is_never_rounded_to_it(size, unit):
    told = []
    item = CircleJig.inputs()["diameter"]
    one = control(item, 90.0, unit, lambda name, value: told.append(value))
    one.box.value = f"{size} mm"
    one.show(told[-1], unit)
    assert told == [float(size)], "told once, and the slider, moved after it, tells nothing"


@pytest.mark.parametrize("text", [
    "", "440", "440 bananas", "12 kg", "1/0 mm", "nan mm", "1e999 mm", "1,250 mm", "-5 mm", "0 mm", NASTY,
    "mm" * 500,
])  # fmt: skip
def test_bad_text_says_what_is_wrong_and_changes_nothing(text):
    bench = Bench(CircleJig("440 mm", "12 mm"))
    picture = bench.picture.value
    one = bench.controls["diameter"]
    one.box.value = text
    assert "✗" in said(one.note) and "role='alert'" in one.note.value
    assert bench.values["diameter"] == 440.0 and bench.picture.value == picture
    check_nothing_typed_runs(bench.widget)
    one.box.value = "441 mm"
    assert "✗" not in said(one.note) and bench.values["diameter"] == 441.0


def test_sentence_about_bad_text_quotes_it_and_shows_how_to_write_it():
    bench = Bench(CircleJig("440 mm", "12 mm"))
    one = bench.controls["diameter"]
    one.box.value = "440"
    assert "'440'" in said(one.note) and "440 mm" in said(one.note)


def test_moving_the_slider_takes_the_complaint_away():
    bench = Bench(CircleJig("440 mm", "12 mm"))
    one = bench.controls["diameter"]
    one.box.value = "rubbish"
    one.slider.value = 500
    assert "✗" not in said(one.note) and one.box.value == "500 mm"


def test_optional_input_is_emptied_and_given_back():
    bench = Bench(CircleJig("440 mm", "12 mm", ring_width="20 mm"))
    one = bench.controls["ring_width"]
    one.box.value = ""
    assert bench.values["ring_width"] is None and "A hole" in bench.picture.value
    assert "outside cut, pivot" in said(bench.settings.table)
    one.slider.value = one._position(25.0)
    assert bench.values["ring_width"] == 25.0 and one.box.value == "25.0 mm"
    assert "A hole" not in bench.picture.value


@pytest.mark.parametrize("text, kept", [("12", 12), (" 9 ", 9)])
def test_count_is_typed_as_a_whole_number(text, kept):
    bench = Bench(StaveRing("440 mm", "400 mm", 8))
    bench.controls["staves"].box.value = text
    assert bench.values["staves"] == kept


@pytest.mark.parametrize("text", ["", "8.5", "two", "8 mm", "2", "37", "-8", "99999999999999999999"])
def test_no_count_is_refused(text):
    bench = Bench(StaveRing("440 mm", "400 mm", 8))
    bench.controls["staves"].box.value = text
    assert "✗" in said(bench.controls["staves"].note) and bench.values["staves"] == 8


def test_angle_is_typed_in_degrees_and_minutes():
    bench = Bench(StaveRing("440 mm", "400 mm", 8))
    bench.controls["slope"].box.value = "22° 30'"
    assert bench.values["slope"] == pytest.approx(math.pi / 8)


def test_yes_or_no_is_chosen_by_button():
    bench = Bench(HollowBlank("440 mm", "400 mm", "60 mm"))
    before = bench.picture.value
    bench.controls["seam_on_centre"].buttons.value = False
    assert bench.values["seam_on_centre"] is False and bench.picture.value != before
    bench.set(seam_on_centre=True)
    assert bench.controls["seam_on_centre"].buttons.value is True and bench.picture.value == before


@pytest.mark.parametrize("model", [made[0] for made in EXAMPLES.values()], ids=repr)
def test_every_slider_and_box_has_a_spoken_name(model):
    for one in sliders(Bench(model)).values():
        assert one.item.words in one.slider.tooltip and one.item.help in one.box.tooltip
    assert all(slider.readout is False for slider in every(Bench(model).widget, type(one.slider)))
