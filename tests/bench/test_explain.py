"""Working, error budget and the other way round: worked out only while open, and right."""

import importlib

import pytest
from models import EXAMPLES
from pages import NASTY, check_nothing_typed_runs, open_panes, reads, said, slide, stands

from shoplib import Bench, CircleJig, Cope, Rolling, StaveRing
from shoplib.bench.live import Live

home = importlib.import_module("shoplib.bench.explain")
UNITS = ("mm", "in")


@pytest.fixture
def bench():
    return Bench(CircleJig("440 mm", "12 mm", ring_width="20 mm"))


@pytest.mark.parametrize("pane, worker", [
    ("working", "Working"), ("budget", "plain_budget"), ("inverse", "plain_answers"),
])  # fmt: skip
def test_pane_is_worked_out_only_while_it_is_open(bench, pane, worker, monkeypatch):
    calls, really = [], getattr(home, worker)
    monkeypatch.setattr(home, worker, lambda *given: (calls.append(given), really(*given))[1])
    bench.hear({"wanted": "226 mm"})
    bench.set(diameter="450 mm")
    assert not calls and not stands(bench, pane) and stands(bench, f"pane.{pane}") == {"hidden": True}
    open_panes(bench, pane)
    bench.set(diameter="460 mm")
    assert len(calls) == 2 and stands(bench, pane) and stands(bench, f"pane.{pane}") == {"hidden": False}
    open_panes(bench, pane)
    bench.set(diameter="470 mm")
    assert len(calls) == 2 and not stands(bench, pane)


def _shown_in():
    """Every example in both units; one with very many inputs in one of them, the examples taking turns."""
    for made in EXAMPLES.values():
        for number, model in enumerate(made):
            for unit in UNITS if len(type(model).inputs()) < 60 else UNITS[number % 2 :][:1]:
                yield pytest.param(model, unit, id=f"{unit}-{model!r}")


@pytest.mark.parametrize(("model", "unit"), _shown_in())
def test_every_result_can_be_explained(model, unit):
    """Each has its working and its budget, or says why it has none."""
    bench = Bench(model, unit=unit)
    open_panes(bench, "working", "budget")
    for _, name in bench.explain.options:
        bench.hear({"chosen": name})
        assert len(reads(bench, "working")) > 10
        assert "root-sum-square" in reads(bench, "budget") or "." in reads(bench, "budget")


def test_working_shows_the_numbers_put_in_and_follows_the_slider(bench):
    open_panes(bench, "working")
    assert "440" in reads(bench, "working") and "226" in reads(bench, "working")
    slide(bench, "diameter", 500)
    assert "500" in reads(bench, "working") and "256" in reads(bench, "working")


def test_whole_formula_stays_as_it_is_while_a_slider_moves(monkeypatch):
    """What is folded open on the page is not written anew; it goes with the pane, or where nothing is left out."""
    bench = Bench(Cope("35 mm", "20 mm", "360 mm"))
    open_panes(bench, "working")
    assert "<details" in stands(bench, "whole") and "<details" not in stands(bench, "working")
    sent = []
    monkeypatch.setattr(bench.live, "answer", lambda: (sent.append(bench.live.changed), Live.answer(bench.live))[1])
    bench.set(leg_diameter="40 mm")
    assert "whole" not in sent[-1] and "40" in reads(bench, "working")
    bench.set(offset="2 mm", rake="1 deg")
    assert said(sent[-1]["whole"]) == ""
    bench.set(offset="0 mm")
    assert "<details" in stands(bench, "whole")
    open_panes(bench, "working")
    assert not stands(bench, "whole")


def test_budget_reckoned_by_hand(bench):
    """(D + d) / 2, D out by 0.5 mm and d by 0.05 mm: 0.25 and 0.025, in all 0.275, root-sum-square 0.2512."""
    open_panes(bench, "budget")
    text = reads(bench, "budget")
    first, second = text.index("outside diameter ± 0.50 mm 0.25 mm"), text.index("cutter diameter ± 0.05 mm")
    assert first < second, "the largest first"
    assert "0.28 mm worst case" in text and "0.25 mm root-sum-square" in text


def ask(bench, result, changed, wanted):
    """Open the other way round, and ask which input gives a wanted result; returns the answer."""
    open_panes(bench, "inverse")
    bench.hear({"chosen": result, "input": changed, "wanted": wanted})
    return reads(bench, "inverse")


@pytest.mark.parametrize("result, wanted, changed, answer", [
    ("outer_pivot", "226.5 mm", "diameter", "outside diameter: 441.00 mm Use this"),
    ("outer_pivot", "226.5 mm", "cutter_diameter", "cutter diameter: 13.00 mm Use this"),
    ("inner_pivot", "190 mm", "ring_width", "ring width: 24.00 mm Use this"),
    ("outer_pivot", "5 mm", "diameter", "No outside diameter within its range gives that."),
])  # fmt: skip
def test_the_other_way_round(bench, result, wanted, changed, answer):
    assert ask(bench, result, changed, wanted) == answer
    assert bench.values["diameter"] == 440.0, "nothing on the bench is changed by it"


def test_what_was_found_is_set_by_its_button():
    bench = Bench(Cope("35 mm", "20 mm", "360 mm"))
    depth = bench.model.replace(offset="4 mm").depth.m_as("mm")
    assert ask(bench, "depth", "offset", f"{depth:.6f} mm").count("Use this") == 2, "to either side"
    low, high = bench.explain.found
    for number, found in (("1", high), ("0", low)):
        bench.hear({"use": number})
        assert bench.values["offset"] == found == bench.by_hand["offset"] == pytest.approx(4 if found > 0 else -4)
        assert bench.model.depth.m_as("mm") == pytest.approx(depth, abs=1e-5)
        assert stands(bench, "box.offset") == bench.controls["offset"].item.write(found)


def test_a_button_whose_answer_is_gone_does_nothing(bench):
    ask(bench, "outer_pivot", "diameter", "226.5 mm")
    bench.hear({"wanted": "", "use": "0"})
    assert bench.values["diameter"] == 440.0


@pytest.mark.parametrize("unit", ["mm", "in"])
@pytest.mark.parametrize("model", [made[0] for made in EXAMPLES.values()], ids=lambda model: type(model).__name__)
def test_every_kind_of_input_can_be_asked_for(model, unit):
    bench = Bench(model, unit=unit)
    result = type(model).results()[bench.explain.chosen]
    value = getattr(model.plain, result.name)
    wanted = f"{100 * value} %" if result.kind == "ratio" else result.write(value, unit)
    open_panes(bench, "inverse")
    inputs = bench.explain.inputs
    for _, name in inputs[:: 1 + len(inputs) // 10]:  # of very many only some
        bench.hear({"input": name, "wanted": wanted})
        told = reads(bench, "inverse")
        assert type(model).inputs()[name].words in told or "does not depend" in told or "whole stretch" in told


def test_a_weight_is_found_for_a_lift():
    bench = Bench(Rolling("24 kg", "420 mm", "180 mm", "360 mm", "360 mm", "430 mm"))
    assert ask(bench, "lift", "weight", "12 kg") == "weight: 28.67 kg Use this"  # 12 x 430 / 180


def test_a_count_is_found_too():
    bench = Bench(StaveRing("440 mm", "400 mm", 8))
    assert ask(bench, "mitre_angle", "staves", "15 deg") == "staves: 12 Use this"
    bench.hear({"use": "0"})
    assert bench.values["staves"] == 12


@pytest.mark.parametrize("text", ["226", "rubbish", "15 deg", NASTY])
def test_bad_wanted_result_gets_a_sentence(bench, text):
    assert text[:20] in ask(bench, "outer_pivot", "diameter", text)
    assert "Traceback" not in stands(bench, "inverse") and stands(bench, "wanted") == text
    check_nothing_typed_runs(bench.widget)


def test_result_that_does_not_depend_on_the_input_says_so(bench):
    assert "does not depend" in ask(bench, "outer_pivot", "stock_thickness", "226 mm")


def test_impossible_sizes_are_not_explained(bench):
    open_panes(bench, *home.PANES)
    bench.set(ring_width="300 mm")
    assert all("cannot be made" in reads(bench, pane) for pane in home.PANES)
    bench.set(ring_width="20 mm")
    assert not any("cannot be made" in reads(bench, pane) for pane in home.PANES)


def test_an_unknown_result_or_pane_changes_nothing(bench):
    before = dict(bench.live.shown)
    bench.hear({"chosen": "nonsense", "input": "nonsense", "open": "nonsense"})
    assert bench.live.shown == before
