"""The bench of the whole stand: what it folds, what it says to move with what, and what it tells of all lessons."""

import html
import re
import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from models import SIDE_TABLE, STAND_IN_INCHES
from pages import NASTY, check_nothing_typed_runs, reads, slide, stands, table, type_in

from shoplib import MeasureError, ShapeError, Stand, StandBench, seedling_stand
from shoplib.bench.my_stand import MyStand
from shoplib.bench.the_stand import MOVES, STAYS
from shoplib.maths.the_stand.refused import refusals

DEMO = seedling_stand()


@pytest.fixture
def bench():
    return StandBench(DEMO)


def opened(bench):
    """The groups that are not hidden."""
    return [name for name in bench.folds if not stands(bench, f"sizes.{name}")["hidden"]]


# Groups that fold ------------------------------------------------------------------------------------------------


def test_every_size_stands_in_one_group_and_on_the_page(bench):
    names = [name for group in bench.folds.values() for name in group]
    assert names == list(Stand.inputs())
    assert max(map(len, bench.folds.values())) <= 11, "more do not stand in view beside picture and settings"
    for name, each in Stand.inputs().items():
        (group,) = [group for group, names in bench.folds.items() if name in names]
        assert group == each.group or (each.group, group) in {("Router", "Trimming"), ("Router", "Patches")}
    asked = re.findall(r'data-(?:ask|press)="(?:slide|choose)\.(\w+)"', bench.live.html)
    assert set(asked) == set(names)


def test_one_group_is_open_at_a_time_and_told_by_its_mark(bench):
    assert opened(bench) == ["Trays"]
    for name in bench.folds:
        bench.hear({"fold": name})
        assert opened(bench) == [name]
        marks = {each: stands(bench, f"fold.{each}") for each in bench.folds}
        assert {each for each, mark in marks.items() if mark == "▾ "} == {name} and "▸ " in marks.values()


def test_sizes_of_a_group_stand_in_its_own_pane(bench):
    for name, sizes in bench.folds.items():
        pane = bench.live.html.split(f"data-place='sizes.{name}'")[1].split("data-place='sizes.")[0]
        assert all(f'"slide.{each}"' in pane or f'"choose.{each}"' in pane for each in sizes)


def test_opening_a_group_changes_nothing_else(bench):
    before = dict(bench.live.shown)
    bench.hear({"fold": "Dowels"})
    changed = {name for name, content in bench.live.shown.items() if before[name] != content}
    assert changed == {"fold.Trays", "fold.Dowels", "sizes.Trays", "sizes.Dowels"}
    with pytest.raises(MeasureError):
        bench.hear({"fold": NASTY})


# What moves what -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("stand", [DEMO, seedling_stand(**SIDE_TABLE), seedling_stand(pull_bar="none")], ids=range(3))
def test_what_moves_is_what_the_table_of_operations_says(stand):
    bench = StandBench(stand)
    for name, item in Stand.inputs().items():
        if hasattr(bench.controls[name], "ends"):
            value = stand.values[name]
            bench.set(**{name: value if value is None or item.kind == "count" else item.write(value)})
            told = [title for title, _, moves in bench.moves() if moves]
            wanted = stand.moved_by(name)
            assert told == [each.title for each in stand.operations() if each.name in wanted], name


@pytest.mark.parametrize("name", ["leg_diameter", "tray_diameter", "bar_height", "caster_stem", "panel_thickness"])
def test_what_really_moves_is_marked(bench, name):
    """Every operation whose results change with a size hangs on it, found by changing the size."""
    step = Stand.inputs()[name].step_in("mm")
    other = DEMO.of_plain(DEMO.values | {name: DEMO.values[name] + step})
    bench.set(**{name: Stand.inputs()[name].write(DEMO.values[name])})
    marked = {title for title, _, moves in bench.moves() if moves}
    assert {row.title for row in DEMO.changes(other)} <= marked


def test_it_changes_with_the_size_under_the_hand(bench):
    assert "What moves with: tray diameter" in reads(bench, "moves")
    slide(bench, "rail_height", 52)
    assert "What moves with: rail height" in reads(bench, "moves")
    type_in(bench, "caster_stem", "24 mm")
    assert "What moves with: caster stem" in reads(bench, "moves")
    bench.hear({"choose.pull_bar": "mitred"})
    assert "What moves with: pull bar" in reads(bench, "moves")
    assert "Mitre the pull bar" in reads(bench, "moves") and "stubs" not in reads(bench, "moves")


def test_what_moves_is_told_by_sign_and_weight_with_its_lesson(bench):
    bench.set(caster_stem="22 mm")
    rows = re.findall(r"<div style='break-inside.*?</div>", stands(bench, "moves"))
    told = [(re.search(r"'true'>(.)<", row)[1], "font-weight:bold" in row,
             html.unescape(re.findall(r">([^<>]+)</span>", row)[-2]), re.findall(r">([^<>]+)</span>", row)[-1])
            for row in rows]  # fmt: skip
    assert [(title, lesson) for *_, title, lesson in told] == [
        (each.title, each.lesson[:2]) for each in DEMO.operations()
    ]
    assert {(mark, bold) for mark, bold, *_ in told} == {(MOVES, True), (STAYS, False)}
    assert [title for mark, _, title, _ in told if mark == MOVES] == [
        "Drill legs and bar for the stubs", "Shorten and bore the legs with casters",
        "Check how it tips and what the hand lifts",
    ], "the hole's depth, and by the stand's weight what hand and stubs carry"
    assert "3 of 26 operations, in the order of work" in reads(bench, "moves")


def test_what_cannot_be_read_touches_nothing(bench):
    with pytest.raises(MeasureError):
        bench.set(caster_stem="twenty")
    assert bench.touched == "tray_diameter"


def test_where_it_cannot_be_made_the_last_stand_tells_what_moves(bench):
    slide(bench, "tray_diameter", 1000)
    assert "runs into the legs" in reads(bench, "picture") and "11 of 26 operations" in reads(bench, "moves")


# Cautions and refusals of all lessons ------------------------------------------------------------------------------


def test_cautions_of_all_lessons_each_with_its_own(bench):
    told = reads(bench, "cautions")
    assert told.count("⚠ Caution.") == len(DEMO.cautions)
    for lesson in ("lesson 03", "lesson 04", "lesson 09", "lesson 10", "lesson 11", "lesson 13"):
        assert lesson in told


def test_all_that_refuses_is_told_each_with_its_lesson(bench):
    bench.set(caster_hole="40 mm", rail_thickness="12 mm")
    over, below = reads(bench, "picture"), reads(bench, "cautions")
    assert "Shorten and bore the legs with casters (lesson 07): A hole of 40.0 mm" in over
    assert "Drill and drive the sliding screws (lesson 08): A counterbore" in below and "lesson 07" not in below
    bench.set(caster_hole="11 mm")
    assert "(lesson 08): A counterbore" in reads(bench, "picture") and reads(bench, "cautions") == ""


def test_an_operation_that_the_stand_does_not_have_refuses_nothing():
    deep = {"stub_in_bar": 19.0}
    assert [error.tell() for error in refusals(Stand, DEMO.values | deep)] != []
    assert refusals(Stand, seedling_stand(pull_bar="none").values | deep) == ()


@settings(max_examples=40, deadline=None)
@given(st.lists(st.sampled_from([name for name, item in Stand.inputs().items() if item.kind in ("length", "angle")]),
                min_size=1, max_size=4), st.data())  # fmt: skip
def test_refusals_are_there_just_where_a_stand_cannot_be_made(names, data):
    inputs = Stand.inputs()
    values = DEMO.values | {name: data.draw(st.floats(inputs[name].low, inputs[name].high)) for name in names}
    found = refusals(Stand, values)
    try:
        Stand.solved(values)
    except ShapeError as error:
        assert found[0].tell() == error.tell()
    else:
        assert found == ()


# The bench as any other ---------------------------------------------------------------------------------------------


def test_bench_keeps_what_was_made():
    made = DEMO.as_made(panel_thickness="11.7 mm")
    bench = StandBench(made)
    assert bench.model == made
    bench.set(leg_diameter="36 mm")
    assert bench.model.made == made.made and bench.model.leg_diameter.m_as("mm") == 36


def test_settings_and_line(bench):
    assert "331.3 mm" in table(bench) and "rail, tip to tip 331.3 mm" in bench.line()
    assert bench.line().endswith("With the tray diameter move 11 of 26 operations")
    bench.set(tray_diameter="900 mm")
    assert bench.line().startswith("StandBench: cannot be made. A tray of 900.0 mm runs into the legs")


def test_walk_tells_only_what_moves(bench, capsys):
    bench.walk(tray_diameter="600 mm")
    said = capsys.readouterr().out.splitlines()
    assert bench.values == DEMO.values and bench.touched == "tray_diameter"
    assert len(said) == 1 + 2 * sum(hasattr(each, "ends") for each in bench.controls.values())
    assert "pivot pin 2.0 mm: nothing that is shown here moves" in said
    assert any(line.startswith("caster height") and "leg with a caster" in line for line in said)
    assert said[-1].startswith("tray diameter 600 mm: cannot be made. A tray of 600.0 mm runs into the legs")


def test_inch_bench_tells_in_inches():
    bench = StandBench(seedling_stand(**STAND_IN_INCHES), unit="in")
    assert " mm" not in bench.line() and "14 1/8 in" in stands(bench, "picture")
    assert not any(" mm" in reads(bench, place) for place in ("cautions", "moves"))


def test_nothing_typed_runs(bench):
    for place in ("box.leg_diameter", "measured.rail_length", "wanted"):
        bench.hear({place: NASTY})
    check_nothing_typed_runs(bench.widget)


def test_a_bench_run_again_keeps_group_and_size_under_the_hand(bench):
    bench.hear({"fold": "Casters"})
    slide(bench, "caster_stem", 48)
    again = object.__new__(StandBench)
    again.given, again.folds, again.opened, again.touched = DEMO, bench.folds, "Trays", "tray_diameter"
    again.cls, again.start, again.unit, again.given_unit = Stand, dict(DEMO.values), "mm", "mm"
    again.plain, again.values, again.by_hand, again.refused, again.suited = DEMO.plain, {}, {}, False, False
    again.settings, again.explain, again.mine = bench.settings, bench.explain, MyStand(again)
    again._keep(bench)
    assert (again.opened, again.touched) == ("Casters", "caster_stem")
    assert again.values["caster_stem"] == bench.values["caster_stem"]


def test_a_move_is_quick(bench):
    """All operations solved, the three views drawn, what moves told: a fraction of what a page takes to be painted."""
    for name, first in (("leg_diameter", 33.0), ("leg_spacing", 352.0), ("tray_diameter", 428.0)):
        bench.hear({"back": ""})
        step, taken = Stand.inputs()[name].step_in("mm"), []
        for k in range(24):
            start = time.process_time()
            slide(bench, name, round(first / step) + k % 8)
            taken.append(time.process_time() - start)
        assert bench.problem is None and sorted(taken)[12] < 0.012, name
