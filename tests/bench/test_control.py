"""One input: its slider reaches both ends, its box takes any shop measure and keeps it exactly."""

import html
import math
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from models import EXAMPLES
from pages import NASTY, check_nothing_typed_runs, reads, slide, sliders, stands, table, type_in

from shoplib import Bench, CircleJig, HollowBlank, PanelSeason, StaveRing
from shoplib.bench.control import control

WITH_SLIDER = [
    pytest.param(item, id=f"{cls.__name__}-{name}")
    for cls in EXAMPLES for name, item in cls.inputs().items() if item.kind not in ("flag", "choice")
]  # fmt: skip
UNITS = ("mm", "in")


@pytest.mark.parametrize("item", WITH_SLIDER)
@pytest.mark.parametrize("unit", UNITS)
def test_slider_reaches_both_ends(item, unit):
    one = control(item)
    shown = one.shown(item.low, unit)[one.slide]
    low, high = (one.slid(shown[end], unit) for end in ("min", "max"))
    step = item.step_in(unit)
    assert 0 <= low - item.low < step * (1 - 1e-9) and 0 <= item.high - high < step * (1 - 1e-9)
    if unit == "mm" or item.kind not in ("length", "mass", "surface"):
        assert (low, high) == pytest.approx((item.low, item.high), abs=1e-9), "the declared ones"


@pytest.mark.parametrize("item", WITH_SLIDER)
@pytest.mark.parametrize("unit", UNITS)
def test_every_slider_position_is_a_neat_size_inside_the_range(item, unit):
    one = control(item)
    low, high = one.ends(unit)
    assert high - low >= 5 or item.kind == "count", "enough steps to feel"
    for position in (low, low + 1, (low + high) // 2, high - 1, high):
        value = one.slid(position, unit)
        assert item.low - 1e-9 <= value <= item.high + 1e-9
        shown = one.shown(value, unit)
        assert shown[one.slide]["value"] == position
        assert item.read(shown[one.box]) == pytest.approx(value, abs=1e-9), "the box shows the size in full"
        assert shown[one.slide]["aria-valuetext"] == shown[one.box], "and a screen reader says it"


def test_a_position_beyond_the_ends_stays_inside_them():
    one = control(CircleJig.inputs()["diameter"])
    assert one.slid(10**9, "mm") == 1500.0 and one.slid(-5, "mm") == 80.0


@pytest.mark.parametrize("text, kept", [
    ("440.37 mm", 440.37), ("17 3/8 in", 441.325), ('17-3/8"', 441.325), ("17,3 in", 439.42),
    ("2' 3 1/2\"", 698.5), ("44 cm", 440.0), ("1600 mm", 1600.0),
])  # fmt: skip
@pytest.mark.parametrize("unit", UNITS)
def test_typed_size_is_kept_exactly_in_either_unit(text, kept, unit):
    bench = Bench(CircleJig("300 mm", "12 mm"), unit=unit)
    type_in(bench, "diameter", text)
    assert bench.values["diameter"] == pytest.approx(kept, rel=1e-15)
    assert stands(bench, "box.diameter").endswith(unit)


@settings(max_examples=100, deadline=None)
@given(st.decimals(80, 1500, places=2), st.sampled_from(UNITS))
def test_size_off_the_step_is_never_rounded_to_it(size, unit):
    item = CircleJig.inputs()["diameter"]
    one = control(item)
    value = one.typed(f"{size} mm")
    assert value == float(size)
    assert item.read(one.shown(value, "mm")[one.box]) == value, "shown in full"


@pytest.mark.parametrize("text", [
    "", "440", "440 bananas", "12 kg", "1/0 mm", "nan mm", "1e999 mm", "1,250 mm", "-5 mm", "0 mm", NASTY,
    "mm" * 500,
])  # fmt: skip
def test_bad_text_says_what_is_wrong_and_changes_nothing(text):
    bench = Bench(CircleJig("440 mm", "12 mm"))
    picture = stands(bench, "picture")
    type_in(bench, "diameter", text)
    assert "✗" in reads(bench, "note.diameter") and "role='alert'" in stands(bench, "note.diameter")
    assert stands(bench, "box.diameter") == text, "it can be put right"
    assert bench.values["diameter"] == 440.0 and stands(bench, "picture") == picture
    check_nothing_typed_runs(bench.widget)
    type_in(bench, "diameter", "441 mm")
    assert "✗" not in reads(bench, "note.diameter") and bench.values["diameter"] == 441.0


def test_sentence_about_bad_text_quotes_it_and_shows_how_to_write_it():
    bench = Bench(CircleJig("440 mm", "12 mm"))
    type_in(bench, "diameter", "440")
    assert "'440'" in reads(bench, "note.diameter") and "440 mm" in reads(bench, "note.diameter")


@pytest.mark.parametrize("act", [
    lambda bench: slide(bench, "diameter", 440), lambda bench: bench.hear({"back": ""}),
    lambda bench: bench.set(diameter="440 mm"), lambda bench: type_in(bench, "diameter", " 44 cm"),
], ids=["slider", "back", "set", "typed"])  # fmt: skip
def test_a_complaint_goes_and_the_size_comes_back(act):
    bench = Bench(CircleJig("440 mm", "12 mm"))
    type_in(bench, "diameter", "rubbish")
    act(bench)
    assert "✗" not in reads(bench, "note.diameter") and stands(bench, "box.diameter") == "440 mm"


def test_a_complaint_stays_while_another_slider_moves():
    bench = Bench(CircleJig("440 mm", "12 mm"))
    type_in(bench, "diameter", "rubbish")
    slide(bench, "cutter_diameter", 80)
    assert "✗" in reads(bench, "note.diameter") and stands(bench, "box.diameter") == "rubbish"


def test_optional_input_is_emptied_and_given_back():
    bench = Bench(CircleJig("440 mm", "12 mm", ring_width="20 mm"))
    type_in(bench, "ring_width", "")
    assert bench.values["ring_width"] is None and "A hole" in stands(bench, "picture")
    assert stands(bench, "slide.ring_width")["aria-valuetext"] == "left out"
    assert "outside cut, pivot" in table(bench)
    slide(bench, "ring_width", 50)
    assert bench.values["ring_width"] == 25.0 and stands(bench, "box.ring_width") == "25.0 mm"
    assert "A hole" not in stands(bench, "picture")


@pytest.mark.parametrize("text, kept", [("12", 12), (" 9 ", 9)])
def test_count_is_typed_as_a_whole_number(text, kept):
    bench = Bench(StaveRing("440 mm", "400 mm", 8))
    type_in(bench, "staves", text)
    assert bench.values["staves"] == kept


@pytest.mark.parametrize("text", ["", "8.5", "two", "8 mm", "2", "37", "-8", "99999999999999999999"])
def test_no_count_is_refused(text):
    bench = Bench(StaveRing("440 mm", "400 mm", 8))
    type_in(bench, "staves", text)
    assert "✗" in reads(bench, "note.staves") and bench.values["staves"] == 8


def test_angle_is_typed_in_degrees_and_minutes():
    bench = Bench(StaveRing("440 mm", "400 mm", 8))
    type_in(bench, "slope", "22° 30'")
    assert bench.values["slope"] == pytest.approx(math.pi / 8)


def chosen(bench, name):
    """The word whose button carries the mark."""
    words = re.findall(rf'data-press="choose.{name}" data-value="([^"]*)"', bench.live.html)
    (word,) = [word for k, word in enumerate(words) if stands(bench, f"choose.{name}.{k}") == "● "]
    return word


def test_yes_or_no_is_chosen_by_button():
    bench = Bench(HollowBlank("440 mm", "400 mm", "60 mm"))
    before = stands(bench, "picture")
    assert chosen(bench, "seam_on_centre") == "yes"
    bench.hear({"choose.seam_on_centre": "no"})
    assert bench.values["seam_on_centre"] is False and stands(bench, "picture") != before
    assert chosen(bench, "seam_on_centre") == "no"
    bench.set(seam_on_centre=True)
    assert chosen(bench, "seam_on_centre") == "yes" and stands(bench, "picture") == before


def test_many_words_stand_in_a_list():
    bench = Bench(PanelSeason("420 mm", "1 mm", "Ash, white", "flat", "8 %", "6 %", "12 %"))
    assert stands(bench, "choose.species") == "Ash, white" and 'data-ask="choose.species"' in bench.live.html
    bench.hear({"choose.species": "Maple, sugar"})
    assert bench.values["species"] == "Maple, sugar" == stands(bench, "choose.species")


@pytest.mark.parametrize("model", [made[0] for made in EXAMPLES.values()], ids=repr)
def test_every_slider_and_box_has_a_spoken_name(model):
    bench = Bench(model)
    fields = re.findall(r"<input [^>]*>", html.unescape(bench.live.html))
    for one in sliders(bench).values():
        (slider,) = [each for each in fields if f'data-ask="{one.slide}"' in each]
        (box,) = [each for each in fields if f'data-ask="{one.box}"' in each]
        assert f'aria-label="{one.item.words}"' in slider and f"{one.item.words}. " in box
    assert all(re.search('aria-label="[^"]+"', each) and re.search('title="[^"]+"', each) for each in fields)
