"""Benches, rims and practice outlive a page: what is open never names what is closed, and a cell that runs again
keeps what a person set."""

import ipywidgets as widgets
import pytest
from pages import every, open_panes, reads, slide, stands, type_in

from shoplib import Bench, CircleJig, Practice, RimBench, StaveRing
from shoplib.bench import places

JIG = CircleJig("440 mm", "12 mm", ring_width="20 mm")
POINTS = [("0 mm", "0 mm"), ("40 mm", "0 mm"), ("0 mm", "30 mm"), ("40 mm", "30 mm")]
MAKERS = {"bench": lambda: Bench(JIG), "rim": lambda: RimBench(POINTS), "practice": lambda: Practice("circle_jigs")}
every_kind = pytest.mark.parametrize("make", MAKERS.values(), ids=MAKERS)


@pytest.fixture
def run(monkeypatch):
    """Pretends that a cell runs: `run("cell")` begins a run of that cell."""
    runs = []

    def begin(cell):
        runs.append(cell)
        monkeypatch.setattr(places, "running", lambda: (cell, len(runs)))
        monkeypatch.setattr("shoplib.bench.bench.running", places.running)

    monkeypatch.setattr(places, "_cells", {})
    return begin


@pytest.fixture
def alive():
    """All widgets that are open now but were not before the test."""
    instances = widgets.widgets.widget._instances
    before = set(instances)
    return lambda: [each for key, each in instances.items() if key not in before]


def named(widget):
    """The widgets that the state of a widget names: a page that is loaded again asks for each of them."""
    for text in widget.get_state().values():
        for each in text if isinstance(text, (list, tuple)) else [text]:
            if isinstance(each, str) and each.startswith("IPY_MODEL_"):
                yield each.removeprefix("IPY_MODEL_")


def check_whole(alive):
    """Hold that nothing open names what is closed, which would keep a page from getting any of it."""
    open_ones = {each.model_id for each in widgets.widgets.widget._instances.values()}
    for each in alive():
        assert set(named(each)) <= open_ones, f"{each} names a closed widget"


@every_kind
def test_a_cell_run_again_leaves_nothing_of_the_former_behind(make, run, alive):
    run("cell 1")
    former = make()
    made, number = list(former.place.made), len(alive())
    assert len(made) > 3
    run("cell 1")
    later = make()
    assert all(each.comm is None for each in made)
    assert len(alive()) == number, "as many as before"
    assert all(each.comm is not None for each in every(later.widget))
    check_whole(alive)


@every_kind
def test_every_window_goes_on_with_the_new_one(make, run):
    """The box that a page shows stays the same; what stands in it is exchanged."""
    run("cell 1")
    former = make()
    box = former.widget
    run("cell 1")
    later = make()
    assert later.widget is box and box.comm is not None
    assert box.children == (later.place.made[-1],) or box.children[0] in later.place.made


def test_what_a_button_made_later_goes_with_its_bench(run, alive, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    run("cell 1")
    bench = Bench(JIG)
    number = len(alive())
    for button in bench.printouts.buttons.values():
        button.click()
        break
    assert len(alive()) > number or stands(bench, "picture")
    run("cell 1")
    Bench(JIG)
    assert len(alive()) == number
    check_whole(alive)


def test_two_benches_of_one_cell_leave_each_other_alone(run, alive):
    run("cell 1")
    one, other = Bench(JIG), Bench(StaveRing("440 mm", "400 mm", 12))
    assert one.place.is_open() and other.place.is_open() and one.widget is not other.widget
    run("cell 1")
    later = Bench(JIG)
    assert later.widget is one.widget and other.place.is_open()
    run("cell 1")
    Bench(JIG)
    assert not other.place.is_open(), "its cell does not make it any more"
    check_whole(alive)


def test_cells_leave_each_other_alone(run):
    run("cell 1")
    one = Bench(JIG)
    run("cell 2")
    other = Bench(JIG)
    assert one.widget is not other.widget and one.place.is_open()


def test_without_a_cell_no_bench_is_closed():
    former = Bench(JIG)
    Bench(JIG)
    assert former.place.is_open()


@every_kind
@pytest.mark.parametrize("close", [
    lambda one: one.widget.close(), lambda one: one.place.close(), lambda one: one.place.made[0].close(),
    lambda one: widgets.Widget.close_all(),
], ids=["box", "all", "one", "everything"])  # fmt: skip
def test_what_was_closed_is_shown_again_alive(make, close, run, alive):
    run("cell 1")
    one = make()
    close(one)
    run("cell 2")
    view = one._repr_mimebundle_()["application/vnd.jupyter.widget-view+json"]
    assert view["model_id"] == one.widget.model_id
    assert one.place.is_open()
    run("cell 1")
    assert make().place.is_open()
    check_whole(alive)


@every_kind
def test_a_former_one_is_shown_beside_the_later(make, run, alive):
    run("cell 1")
    former = make()
    run("cell 1")
    later = make()
    run("cell 2")
    former._repr_mimebundle_()
    assert former.widget is not later.widget and former.place.is_open() and later.place.is_open()
    check_whole(alive)


def test_widgets_of_others_are_neither_collected_nor_closed(run):
    with places.collected() as outer:
        run("cell 1")
        one = Bench(JIG)
    stranger = widgets.IntSlider()
    assert stranger not in one.place.made and one.live in outer
    run("cell 1")
    Bench(JIG)
    assert stranger.comm is not None


# What a person set stays when the cell runs again -----------------------------------------------------------


def again(run, **changes):
    """The bench of the same cell run again, in a kernel that goes on."""
    run("cell 1")
    return Bench(changes.pop("model", JIG), **changes)


@pytest.fixture
def first(run):
    run("cell 1")
    return Bench(JIG)


def test_sizes_stay_and_the_page_says_so(first, run):
    slide(first, "diameter", 300)
    type_in(first, "cutter_diameter", "1/2 in")
    later = again(run)
    assert later.values == JIG.values | {"diameter": 300.0, "cutter_diameter": 12.7}
    assert later.model.outer_pivot.m_as("mm") == pytest.approx(156.35), "so the cells below tell of it"
    assert "your sizes stay" in reads(later, "note") and "156.4 mm" in stands(later, "picture")
    assert stands(later, "box.diameter") == "300 mm"
    later.hear({"back": ""})
    assert later.values == JIG.values and "last run" in reads(later, "note")
    assert again(run).values == JIG.values


def test_the_page_says_when_the_cells_below_are_behind(first, run):
    assert reads(first, "note") == ""
    slide(first, "diameter", 300)
    assert "the sizes at the last run" in reads(first, "note") and "Run All Cells" in reads(first, "note")
    slide(first, "diameter", 440)
    assert reads(first, "note") == "" or "your sizes stay" in reads(first, "note")


def test_unit_measurements_and_panes_stay(first, run):
    first.switch("in")
    first.hear({"measured.outer_pivot": "226.5 mm", "chosen": "inner_pivot"})
    open_panes(first, "working")
    later = again(run)
    assert later.unit == "in" and later.explain.chosen == "inner_pivot" and later.explain.opened["working"]
    assert stands(later, "measured.outer_pivot") == "226.5 mm" and "too large" in reads(later, "told.outer_pivot")


def test_what_a_cell_set_is_set_by_that_cell(first, run):
    first.set(diameter="300 mm")
    assert reads(first, "note") == ""
    assert again(run).values == JIG.values


@pytest.mark.parametrize("changes", [
    {"model": JIG.replace(diameter="450 mm")}, {"model": StaveRing("440 mm", "400 mm", 12)},
], ids=["size", "model"])  # fmt: skip
def test_a_cell_that_starts_from_something_else_starts_there(first, run, changes):
    slide(first, "diameter", 300)
    later = again(run, **changes)
    assert later.values == changes["model"].values and not later.by_hand


@pytest.mark.parametrize("name, text", [("ring_width", "300 mm"), ("ring_width", "")])
def test_sizes_that_the_cells_below_could_not_tell_of_are_not_kept(first, run, name, text):
    type_in(first, name, text)
    later = again(run)
    assert later.values == JIG.values and later.problem is None
    assert "the lesson's sizes" in reads(later, "note") and "could not be worked" in reads(later, "note")
    why = {"300 mm": "Make the ring narrower", "": "needs the ring width, which was left out"}
    assert why[text] in reads(later, "note")


def test_points_of_a_rim_stay(run):
    run("cell 1")
    rim = RimBench(POINTS)
    rim.hear({"across.1": "1 mm", "unit": "inches"})
    run("cell 1")
    later = RimBench(POINTS)
    assert later.texts["across.1"] == "1 mm" and later.circle == rim.circle and later.unit == "in"
    later.hear({"across.1": "rubbish"})
    run("cell 1")
    assert RimBench(POINTS).texts["across.1"] == "0 mm" == rim.start[0][0]


def test_answers_of_a_student_stay(run):
    run("cell 1")
    practice = Practice("circle_jigs")
    practice.number.value, practice.boxes[1].value = 7, "12 mm"
    run("cell 1")
    later = Practice("circle_jigs")
    assert later.number.value == 7 and later.texts() == practice.texts() and later.told[1].value
    run("cell 1")
    assert Practice("circle_jigs", 3).number.value == 3
