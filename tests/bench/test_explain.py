"""Working, error budget and the other way round: worked out only while open, and right."""

import importlib

import pytest
from models import EXAMPLES
from pages import NASTY, check_nothing_typed_runs, said

from shoplib import Bench, CircleJig, Cope, Rolling, StaveRing

home = importlib.import_module("shoplib.bench.explain")


@pytest.fixture
def explain():
    return Bench(CircleJig("440 mm", "12 mm", ring_width="20 mm")).explain


@pytest.mark.parametrize("pane, worker", [
    ("working", "Working"), ("budget", "plain_budget"), ("inverse", "plain_answers"),
])  # fmt: skip
def test_pane_is_worked_out_only_while_it_is_open(explain, pane, worker, monkeypatch):
    calls, really = [], getattr(home, worker)
    monkeypatch.setattr(home, worker, lambda *given: (calls.append(given), really(*given))[1])
    explain.wanted.value = "226 mm"
    explain.bench.set(diameter="450 mm")
    assert not calls and not explain.panes[pane].value
    explain.opened[pane].value = True
    explain.bench.set(diameter="460 mm")
    assert len(calls) == 2 and explain.panes[pane].value
    explain.opened[pane].value = False
    explain.bench.set(diameter="470 mm")
    assert len(calls) == 2 and not explain.panes[pane].value


@pytest.mark.parametrize("model", [model for made in EXAMPLES.values() for model in made], ids=repr)
@pytest.mark.parametrize("unit", ["mm", "in"])
def test_every_result_can_be_explained(model, unit):
    """Each has its working and its budget, or says why it has none."""
    explain = Bench(model, unit=unit).explain
    explain.opened["working"].value = explain.opened["budget"].value = True
    for _, name in explain.chosen.options:
        explain.chosen.value = name
        assert len(said(explain.panes["working"])) > 10
        assert "root-sum-square" in said(explain.panes["budget"]) or "." in said(explain.panes["budget"])


def test_working_shows_the_numbers_put_in_and_follows_the_slider(explain):
    explain.opened["working"].value = True
    assert "440" in said(explain.panes["working"]) and "226" in said(explain.panes["working"])
    explain.bench.controls["diameter"].slider.value = 500
    assert "500" in said(explain.panes["working"]) and "256" in said(explain.panes["working"])


def test_whole_formula_stays_as_it_is_while_a_slider_moves():
    """What is folded open on the page is not written anew; it goes with the pane, or where nothing is left out."""
    bench = Bench(Cope("35 mm", "20 mm", "360 mm"))
    bench.explain.opened["working"].value = True
    first = bench.explain.whole.value
    assert "<details" in first and "<details" not in bench.explain.panes["working"].value
    written = []
    bench.explain.whole.observe(lambda change: written.append(change["new"]), "value")
    bench.set(leg_diameter="40 mm")
    assert not written and "40" in said(bench.explain.panes["working"])
    bench.set(offset="2 mm", rake="1 deg")
    assert written == [""]
    bench.set(offset="0 mm")
    assert "<details" in bench.explain.whole.value
    bench.explain.opened["working"].value = False
    assert not bench.explain.whole.value


def test_budget_reckoned_by_hand(explain):
    """(D + d) / 2, D out by 0.5 mm and d by 0.05 mm: 0.25 and 0.025, in all 0.275, root-sum-square 0.2512."""
    explain.opened["budget"].value = True
    text = said(explain.panes["budget"])
    first, second = text.index("outside diameter ± 0.50 mm 0.25 mm"), text.index("cutter diameter ± 0.05 mm")
    assert first < second, "the largest first"
    assert "0.28 mm worst case" in text and "0.25 mm root-sum-square" in text


@pytest.mark.parametrize("result, wanted, changed, answer", [
    ("outer_pivot", "226.5 mm", "diameter", "outside diameter: 441.00 mm"),
    ("outer_pivot", "226.5 mm", "cutter_diameter", "cutter diameter: 13.00 mm"),
    ("inner_pivot", "190 mm", "ring_width", "ring width: 24.00 mm"),
    ("outer_pivot", "5 mm", "diameter", "No outside diameter within its range gives that."),
])  # fmt: skip
def test_the_other_way_round(explain, result, wanted, changed, answer):
    explain.opened["inverse"].value = True
    explain.chosen.value, explain.input.value, explain.wanted.value = result, changed, wanted
    assert said(explain.panes["inverse"]) == answer
    assert explain.bench.values["diameter"] == 440.0, "nothing on the bench is changed by it"


@pytest.mark.parametrize("unit", ["mm", "in"])
@pytest.mark.parametrize("model", [made[0] for made in EXAMPLES.values()], ids=lambda model: type(model).__name__)
def test_every_kind_of_input_can_be_asked_for(model, unit):
    bench = Bench(model, unit=unit)
    explain, result = bench.explain, type(model).results()[bench.explain.chosen.value]
    explain.opened["inverse"].value = True
    value = getattr(model.plain, result.name)
    explain.wanted.value = f"{100 * value} %" if result.kind == "ratio" else result.write(value, unit)
    for _, name in explain.input.options:
        explain.input.value = name
        told = said(explain.panes["inverse"])
        assert type(model).inputs()[name].words in told or "does not depend" in told or "whole stretch" in told


def test_a_weight_is_found_for_a_lift():
    stand = Rolling("24 kg", "420 mm", "180 mm", "360 mm", "360 mm", "430 mm")
    explain = Bench(stand).explain
    explain.opened["inverse"].value = True
    explain.chosen.value, explain.input.value, explain.wanted.value = "lift", "weight", "12 kg"
    assert said(explain.panes["inverse"]) == "weight: 28.67 kg"  # 12 x 430 / 180


def test_a_count_is_found_too():
    explain = Bench(StaveRing("440 mm", "400 mm", 8)).explain
    explain.opened["inverse"].value = True
    explain.chosen.value, explain.input.value, explain.wanted.value = "mitre_angle", "staves", "15 deg"
    assert said(explain.panes["inverse"]) == "staves: 12"


@pytest.mark.parametrize("text", ["226", "rubbish", "15 deg", NASTY])
def test_bad_wanted_result_gets_a_sentence(explain, text):
    explain.opened["inverse"].value = True
    explain.wanted.value = text
    assert text[:20] in said(explain.panes["inverse"]) and "Traceback" not in explain.panes["inverse"].value
    check_nothing_typed_runs(explain.bench.widget)


def test_result_that_does_not_depend_on_the_input_says_so(explain):
    explain.opened["inverse"].value = True
    explain.wanted.value, explain.input.value = "226 mm", "stock_thickness"
    assert "does not depend" in said(explain.panes["inverse"])


def test_impossible_sizes_are_not_explained(explain):
    for pane in explain.opened.values():
        pane.value = True
    explain.bench.set(ring_width="300 mm")
    assert all("cannot be made" in said(pane) for pane in explain.panes.values())
    explain.bench.set(ring_width="20 mm")
    assert not any("cannot be made" in said(pane) for pane in explain.panes.values())


def test_question_is_seen_only_with_its_pane(explain):
    assert explain.asked.layout.display == "none"
    explain.opened["inverse"].value = True
    assert explain.asked.layout.display is None
