"""A piece of page of our own: one answer in one message, whatever was asked, and nothing that stands there already."""

import re

import pytest
from pages import fields, open_panes, slide

from shoplib import Bench, CircleJig, RimBench
from shoplib.bench.live import Live


@pytest.fixture
def live():
    return Live("<div data-place='a'></div>", {"a": "1", "b": "2"}, lambda asked: None)


@pytest.fixture
def sent(monkeypatch):
    """Makes a list of every state that a live piece sends to its pages from now on."""

    def to(live):
        states = []
        monkeypatch.setattr(live.comm, "send", lambda data, **more: states.append(data["state"]))
        return states

    return to


def test_only_what_changed_is_sent(live, sent):
    states = sent(live)
    live.put({"a": "1", "b": "3"})
    live.put({"b": "4"})
    live.answer()
    assert states == [{"b": "4", "answered": 1}]


def test_an_answer_is_sent_where_nothing_changed(live, sent):
    states = sent(live)
    live.answer()
    live.answer()
    assert states == [{"answered": 1}, {"answered": 2}], "or the page would wait for ever"


def test_a_page_opened_later_gets_all(live):
    live.put({"b": "3"})
    state = live.get_state()
    assert (state["a"], state["b"], state["html"]) == ("1", "3", live.html) and "export default" in state["_esm"]
    assert set(live.get_state(["html"])) == {"html"}


def test_a_closed_one_takes_answers_in_silence(live):
    live.close()
    live.put({"a": "5"})
    live.answer()


def test_one_move_is_one_message(sent):
    bench = Bench(CircleJig("440 mm", "12 mm", ring_width="20 mm"))
    open_panes(bench, "working", "budget")
    states = sent(bench.live)
    slide(bench, "diameter", 300)
    (state,) = states
    assert {"picture", "box.diameter", "slide.diameter", "set.outer_pivot", "working"} <= set(state)
    assert not {"box.ring_width", "set.pivot_step", "cautions", "chosen", "mark.working"} & set(state)


def test_several_wishes_are_one_message(sent):
    bench = Bench(CircleJig("440 mm", "12 mm", ring_width="20 mm"))
    states = sent(bench.live)
    bench.hear({"slide.diameter": 300, "slide.cutter_diameter": 80, "open": "working"})
    assert len(states) == 1 and bench.values["cutter_diameter"] == 8.0


@pytest.mark.parametrize("bench", [
    Bench(CircleJig("440 mm", "12 mm")), RimBench([("0 mm", "0 mm"), ("4 mm", "0 mm"), ("0 mm", "3 mm")]),
], ids=["bench", "rim"])  # fmt: skip
def test_every_place_is_filled_and_every_text_has_a_place(bench):
    there = set(re.findall(r"data-place=[\"']([^\"']*)", bench.live.html))
    assert there == set(bench.live.shown)
    assert fields(bench.live) <= there
    assert not there & set(Live("", {}, None).keys), "no place is named like a trait of the widget"


def test_on_the_page_it_is_anywidgets():
    """Its own Python side is not loaded, so the names and the version that the page is asked for are held here."""
    import anywidget

    class Theirs(anywidget.AnyWidget):
        _esm = "export default {}"

    theirs, ours = Theirs().get_state(), Live("", {}, None).get_state()
    names = [name for name in theirs if name.startswith(("_model", "_view"))]
    assert len(names) > 6 and {name: ours[name] for name in names} == {name: theirs[name] for name in names}
    assert set(theirs) <= set(ours)
