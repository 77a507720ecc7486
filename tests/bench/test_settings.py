"""The table of settings, and what is said of each measurement."""

import html
import re

import pytest
from models import EXAMPLES
from pages import NASTY, check_nothing_typed_runs, reads, slide, stands, table, verdicts

from shoplib import Bench, ChordRise, CircleJig, HollowBlank, PanelScrew, StaveRing, measure

RIGHT = "✓ right."


@pytest.fixture
def bench():
    return Bench(CircleJig("440 mm", "12 mm", ring_width="20 mm"))


def verdict(bench, name, text):
    """What is said after this text is written beside one result."""
    bench.hear({f"measured.{name}": text})
    return reads(bench, f"told.{name}")


@pytest.mark.parametrize("name, text, wanted", [
    ("outer_pivot", "226 mm", "✓ right. It makes: outside diameter 440.0 mm"),
    ("outer_pivot", "226.5 mm", "0.5 mm too large. It makes: outside diameter 441.0 mm"),
    ("outer_pivot", "22.5 cm", "1.0 mm too small. It makes: outside diameter 438.0 mm"),
    ("outer_reach", "221 mm", "1.0 mm too large. It makes: outside diameter 442.0 mm"),
    ("inner_pivot", "195 mm", "1.0 mm too large. It makes: ring width 19.0 mm"),
    ("pivot_step", "32.04 mm", RIGHT),
    ("outer_pivot", "5 mm", "221.0 mm too small. No size in range comes out of it."),
])  # fmt: skip
def test_measurement_is_told_back_as_what_it_makes(bench, name, text, wanted):
    assert verdict(bench, name, text) == wanted


def test_inch_bench_tells_in_inches(bench):
    bench.switch("in")
    told = verdict(bench, "outer_pivot", "226.5 mm")
    assert told == "1/64 in too large. It makes: outside diameter 17 23/64 in"


def test_what_nobody_sets_stands_under_a_heading_of_its_own():
    page = Bench(StaveRing("440 mm", "400 mm", 12)).settings.html()
    order = [page.index(each) for each in (">Set it to<", '"board_width"', ">It comes to<", '"closing_gap"')]
    assert order == sorted(order) and page.count("what you measured</span>") == 1
    assert ">It comes to<" not in Bench(CircleJig("440 mm", "12 mm")).settings.html()
    assert ">Set it to<" not in Bench(ChordRise("200 mm", "30 mm")).settings.html()


def test_angle_is_measured_too():
    bench = Bench(StaveRing("440 mm", "400 mm", 12))
    assert verdict(bench, "mitre_angle", "15 deg").startswith(RIGHT)
    assert "0.50 deg too large" in verdict(bench, "mitre_angle", "15.5 deg")


@pytest.mark.parametrize("text", ["226", "rubbish", "3 kg", "15 deg", NASTY])
def test_no_measure_is_told_so(bench, text):
    assert verdict(bench, "outer_pivot", text).startswith("✗")
    check_nothing_typed_runs(bench.widget)


def test_emptied_box_says_nothing(bench):
    verdict(bench, "outer_pivot", "226 mm")
    assert verdict(bench, "outer_pivot", " ") == ""


def test_verdict_follows_the_slider(bench):
    verdict(bench, "outer_pivot", "226 mm")
    slide(bench, "diameter", 442)
    assert verdicts(bench).startswith("1.0 mm too small. It makes: outside diameter 440.0 mm")


def test_measurement_of_a_result_without_meaning_is_told_why(bench):
    bench.set(ring_width=None)
    assert "ring width" in verdict(bench, "inner_pivot", "194 mm")


def test_measurement_outlasts_sizes_that_cannot_be_made(bench):
    verdict(bench, "outer_pivot", "226 mm")
    bench.set(ring_width="300 mm")
    bench.set(ring_width="20 mm")
    assert verdicts(bench).startswith(RIGHT)


def test_ratios_are_shown_but_not_measured():
    bench = Bench(StaveRing("440 mm", "400 mm", 12))
    assert "measured.material_yield" not in bench.live.html and "measured.long_edge" in bench.live.html
    assert re.fullmatch(r"0\.\d+", reads(bench, "set.material_yield"))


@pytest.mark.parametrize("model", [model for made in EXAMPLES.values() for model in made], ids=repr)
@pytest.mark.parametrize("unit", ["mm", "in"])
def test_every_result_stands_in_its_row_with_its_size(model, unit):
    bench = Bench(model, unit=unit)
    page = html.unescape(bench.live.html)
    for item in bench.settings.items:
        row = re.search(rf"<div data-result=.{item.name}.(?:(?!data-result).)*data-place='set.{item.name}'", page)[0]
        assert item.words in row
        shown = re.match(r"<b [^>]*>(.*?)</b>", stands(bench, f"set.{item.name}"))[1]
        if item.kind == "length" and shown != "—":
            step = measure.plain("length", item.step if unit == "mm" else item.inch_step)
            number = getattr(model.plain, item.name)
            assert measure.plain("length", shown) == pytest.approx(number, abs=step / 2 + 1e-6)
            assert shown.endswith(unit)


def test_decimal_inches_stand_beside_a_fraction_only_where_it_is_not_exact():
    bench = Bench(CircleJig("17 in", "1/2 in", ring_width="20 mm"), unit="in")
    assert reads(bench, "set.outer_pivot") == "8 3/4 in"
    assert reads(bench, "set.inner_pivot") == "7 15/32 in (7.463)"
    fine = Bench(EXAMPLES[PanelScrew][1], unit="in")
    assert reads(fine, "set.move_damp") == "0.033 in", "no decimal beside a decimal"
    assert reads(fine, "set.bearing") == "1/32 in (0.035)"


def test_a_result_without_meaning_says_why_in_its_own_row():
    bench = Bench(CircleJig("440 mm", "12 mm"))
    assert reads(bench, "set.inner_pivot") == "—" and "ring width" in reads(bench, "told.inner_pivot")
    assert reads(bench, "set.outer_pivot") == "226.0 mm" and reads(bench, "told.outer_pivot") == ""


def test_only_the_chosen_results_are_shown():
    bench = Bench(CircleJig("440 mm", "12 mm"), show=["hole_pivot"])
    assert "hole, pivot" in table(bench) and "set.outer_pivot" not in bench.live.shown
    assert bench.settings.in_one_line() == "plain hole, pivot 214.0 mm"


def test_passes_and_rows_stand_in_a_place_of_their_own():
    jig = Bench(CircleJig("440 mm", "12 mm", stock_thickness="18 mm", pass_depth="6 mm"))
    assert "6.00 mm, 12.00 mm, 18.00 mm" in reads(jig, "plan")
    rows = reads(Bench(HollowBlank("440 mm", "400 mm", "60 mm", margin="3 mm")), "plan")
    assert "pieces" in rows and "223.0 mm" in rows
    jig.set(ring_width="300 mm")
    assert reads(jig, "plan") == ""
