"""My stand on the benches: it fills them, what is changed or measured is kept after it was told, or refused."""

import importlib
import os
import time

import pytest
from models import EXAMPLES
from pages import NASTY, check_nothing_typed_runs, reads, slide, stands, table, type_in

from shoplib import (
    Bench,
    ChordRise,
    CircleJig,
    Cope,
    HollowBlank,
    PanelScrew,
    Rebate,
    Rolling,
    RoundStock,
    SawBench,
    Stand,
    StandBench,
    StaveRing,
    StubBar,
    read_stand,
    seedling_stand,
    stand_parts,
    stand_rack,
    write_stand,
)  # fmt: skip
from shoplib.bench import my_file, places
from shoplib.bench.filled import Filled, works
from shoplib.bench.my_stand import WITHOUT
from shoplib.maths.the_stand.operations import OPERATIONS

FILE = my_file.PATH
RAIL = Cope("35 mm", "20 mm", "360 mm", rail_height="50 mm", drum_diameter="38 mm")
TRAY = Rebate("400 mm", "20 mm", "40 mm", "12 mm", "10 mm", clearance="2.5 mm")


@pytest.fixture
def folder(tmp_path, monkeypatch):
    """An empty working folder."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(my_file, "_read", {})
    return tmp_path


@pytest.fixture
def mine(folder):
    """A working folder with a stand whose legs are 36 mm; called, it changes the stand as another page would."""
    write_stand(seedling_stand(leg_diameter="36 mm"), FILE)

    def elsewhere(**changes):
        stand = read_stand(FILE)
        write_stand(stand.replace(**changes), FILE, since=stand)

    return elsewhere


def on_mine(model):
    """A bench that has been told to take my stand's sizes."""
    bench = Bench(model)
    bench.hear({"sizes": "my stand's"})
    return bench


def keep(bench, how="planned"):
    """Keep what was changed, after it was told; what was told."""
    bench.hear({"keep": how})
    told = reads(bench, "mine.told")
    bench.hear({"keep_it": ""})
    return told


def is_shown(bench):
    return bench.live.shown.get("mine.row", {"style": my_file.HIDDEN})["style"] != my_file.HIDDEN


# The row ---------------------------------------------------------------------------------------------------------


def test_without_a_file_there_is_no_row_and_nothing_is_read(folder, monkeypatch):
    asked, stat = [], os.stat
    note = lambda path: asked.append(path) if path == FILE else None  # noqa: E731
    monkeypatch.setattr(my_file.os, "stat", lambda path, **more: (note(path), stat(path, **more))[1])
    monkeypatch.setattr("shoplib.paper.stand_file.keeping.read_text", lambda *_: pytest.fail("read"))
    bench = Bench(RAIL)
    assert not is_shown(bench) and asked == [FILE]
    slide(bench, "leg_diameter", 72)
    assert not is_shown(bench) and asked == [FILE, FILE]
    assert stands(bench, "mine.told") == ""


def test_the_row_comes_with_the_file_and_asks_for_nothing_by_itself(folder):
    bench = Bench(RAIL)
    write_stand(seedling_stand(leg_diameter="36 mm"), FILE)
    slide(bench, "rail_height", 52)
    assert is_shown(bench) and stands(bench, "sizes.0") == "● " and bench.values["leg_diameter"] == 35.0
    later = Bench(RAIL)
    assert is_shown(later) and later.values == RAIL.values and later.line() == Bench(RAIL).line()


def test_opening_a_lesson_beside_a_stand_is_as_quick_as_without(folder):
    """The file is looked at, not read: the same work but for one question to the disk."""

    def opened():
        began = time.process_time()
        for _ in range(5):
            Bench(RAIL)
        return time.process_time() - began

    opened()
    without, beside = [], []
    for _ in range(7):
        FILE.unlink(missing_ok=True)
        without.append(opened())
        write_stand(seedling_stand(), FILE)
        beside.append(opened())
    assert min(beside) < 1.15 * min(without)


@pytest.mark.parametrize("cls", EXAMPLES, ids=lambda cls: cls.__name__)
def test_every_model_is_a_work_of_the_stand_or_has_no_row(mine, cls):
    bench = Bench(EXAMPLES[cls][0])
    assert is_shown(bench) == (cls.__name__ not in WITHOUT)
    assert bool(works(cls)) == (cls.__name__ not in WITHOUT) or cls is Stand


def test_what_my_stand_leaves_out_and_the_lesson_has_is_told(mine):
    """The demo's stand has no drum of its own: lesson 05's gap from the drum cannot be told of it."""
    rail = on_mine(RAIL)
    assert rail.values["drum_diameter"] is None
    assert "Left out in my stand, though not in the lesson: drum diameter." in reads(rail, "mine.told")
    assert "Left out" not in reads(on_mine(RAIL.replace(drum_diameter=None)), "mine.told")


def test_a_model_that_no_stand_has_needs_no_row(mine):
    assert not is_shown(Bench(ChordRise("300 mm", "40 mm")))


# It fills --------------------------------------------------------------------------------------------------------


def test_the_lesson_takes_the_stands_sizes_and_gives_them_back(mine):
    bench = on_mine(RAIL)
    stand = read_stand(FILE)
    assert bench.values == stand.operation("rails").model.values and bench.values["leg_diameter"] == 36.0
    assert bench.model.depth == stand.operation("rails").model.depth != RAIL.depth
    assert stands(bench, "box.leg_diameter") == "36.0 mm" and stands(bench, "sizes.1") == "● "
    assert "Saw and cope the rails" in reads(bench, "mine.told") and "8 × rail" in reads(bench, "mine.told")
    slide(bench, "leg_diameter", 80)
    bench.hear({"back": ""})
    assert bench.values["leg_diameter"] == 36.0
    bench.hear({"sizes": "this lesson's"})
    assert bench.values == RAIL.values and stands(bench, "mine.told") == "" and stands(bench, "sizes.0") == "● "


@pytest.mark.parametrize("name", [each.name for each in seedling_stand().operations()])
def test_each_operation_fills_its_lessons_bench(mine, name):
    stand = read_stand(FILE)
    bound = stand.operation(name)
    bench = on_mine(bound.model)
    bench.hear({"work": name})
    assert bench.mine.filled.name == name and bench.values == bound.model.values and bench.problem is None
    assert bench.mine.filled.values == Filled(stand, name).values
    sizes = set(bench.mine.filled.sizes)
    told = reads(bench, "mine.told")
    assert all(item.words in told for each, item in bench.cls.inputs().items() if each not in sizes)
    for each in bench.mine.filled.worked_out:
        note = getattr(bench.controls[each], "note", None)
        assert note is None or reads(bench, note) == "worked out in my stand"


def test_one_model_of_several_works_is_chosen_by_title(mine):
    jig = on_mine(CircleJig("440 mm", "12 mm", ring_width="20 mm"))
    assert "Cut the template" in stands(jig, "mine.told") and "Cut the panels" in stands(jig, "mine.told")
    assert jig.values["diameter"] == 440.0
    jig.hear({"work": "panel"})
    assert jig.values == read_stand(FILE).operation("panel").model.values and jig.values["diameter"] == 415.0
    assert "selected>Cut the panels" in stands(jig, "mine.told") and "2 × panel" in reads(jig, "mine.told")
    assert stands(jig, "note.diameter") and "worked out" in reads(jig, "note.diameter")
    jig.hear({"work": "no such work"})
    assert jig.values["diameter"] == 415.0
    rod = on_mine(RoundStock("19 mm", "400 mm"))
    assert [each.name for each in rod.mine._works()] == ["leg_stock", "bar_stock", "stub_stock"]


def test_a_work_that_my_stand_has_not_is_told_and_the_lesson_stays(mine):
    blank = HollowBlank("440 mm", "400 mm", "60 mm")
    bench = on_mine(blank)
    assert bench.values == blank.values and stands(bench, "sizes.0") == "● "
    assert "has no such work: “Saw the boards of the rims”" in reads(bench, "mine.told")
    mine(ring_route="boards")
    bench.hear({"sizes": "my stand's"})
    assert stands(bench, "sizes.1") == "● " and bench.values["board_width"] == 60.0
    mine(ring_route="staves")
    slide(bench, "margin", 4)
    assert "has no such work" in reads(bench, "mine.told") and bench.problem is None


def test_a_file_that_cannot_be_read_is_told_with_its_line_and_the_lesson_stays(mine):
    text = FILE.read_text("utf-8")
    FILE.write_text(text.replace('leg_diameter = "36 mm"', 'leg_diameter = "36"'), "utf-8")
    bench = on_mine(RAIL)
    assert "my_stand.toml, line" in reads(bench, "mine.told") and "which unit?" in reads(bench, "mine.told")
    assert bench.values == RAIL.values and stands(bench, "sizes.0") == "● "
    FILE.write_text(text, "utf-8")
    bench.hear({"sizes": "my stand's"})
    assert bench.values["leg_diameter"] == 36.0


def test_what_stands_in_the_file_never_runs_on_the_page(mine):
    FILE.write_text(FILE.read_text("utf-8").replace('"36 mm"', f"'''{NASTY}'''"), "utf-8")
    bench = on_mine(RAIL)
    assert "line" in reads(bench, "mine.told")
    check_nothing_typed_runs(bench.widget)


# It keeps --------------------------------------------------------------------------------------------------------


def test_a_changed_size_is_kept_after_it_was_told_what_moves(mine):
    bench = on_mine(RAIL)
    before = FILE.read_text("utf-8")
    type_in(bench, "leg_diameter", "38 mm")
    bench.hear({"keep": "planned"})
    told = reads(bench, "mine.told")
    assert "To keep: leg diameter 36.0 mm → 38.0 mm." in told and FILE.read_text("utf-8") == before
    was, now = (seedling_stand(leg_diameter=leg).operation("dowels").model for leg in ("36 mm", "38 mm"))
    far = [each.tell("far_wall").rows[0][1] for each in (was, now)]
    assert f"far wall {far[0]} → {far[1]} 16 × rail end and leg lesson 04" in told
    assert "lesson 09" in told and "rail's top edge" not in told  # that is this bench's own
    bench.hear({"keep_it": ""})
    assert "Kept in my_stand.toml: leg diameter 38.0 mm." in reads(bench, "mine.told")
    assert FILE.read_text("utf-8") == before.replace('leg_diameter = "36 mm"', 'leg_diameter = "38 mm"')
    assert bench.by_hand == {} and bench.values["leg_diameter"] == 38.0 == bench.started_from()["leg_diameter"]


def test_what_is_told_is_what_the_stand_says_moves(mine):
    bench = on_mine(TRAY)
    type_in(bench, "panel_thickness", "11 mm")
    bench.hear({"keep": "planned"})
    told = stands(bench, "mine.told").replace("\u00a0", " ").replace("&#x27;", "'")
    stand = read_stand(FILE)
    rows = [each for each in stand.changes(stand.replace(panel_thickness="11 mm")) if each.operation != "rebate"]
    assert len(rows) > 4
    for each in rows:
        was, becomes = each.written()
        assert (f"{was} → {becomes}" in told and each.words in told) or was == becomes


def test_inches_are_told_in_inches_and_kept_as_a_rule_has_them(mine):
    bench = on_mine(RAIL)
    bench.hear({"unit": "inches"})
    type_in(bench, "leg_diameter", "1 3/8 in")
    assert "1 3/8 in" in keep(bench)
    assert 'leg_diameter = "1 3/8 in"' in FILE.read_text("utf-8")


def test_what_was_told_can_be_left(mine):
    bench = on_mine(RAIL)
    type_in(bench, "leg_diameter", "38 mm")
    for leaving in ({"leave_it": ""}, {"slide.leg_diameter": 74}):
        bench.hear({"keep": "planned"})
        assert "Keep it" in stands(bench, "mine.told")
        bench.hear(leaving)
        assert "Keep it" not in stands(bench, "mine.told")
        bench.hear({"keep_it": ""})
        assert read_stand(FILE).plain.leg_diameter == 36.0


def test_what_is_worked_out_stays_behind_and_is_said(mine):
    bench = on_mine(TRAY)
    told = reads(bench, "mine.told")
    assert "not kept from here: inside diameter; cutter guided by" in told
    type_in(bench, "inside_diameter", "402 mm")
    bench.hear({"keep": "planned"})
    assert "nothing here differs from my stand. It has no place for: inside diameter" in reads(bench, "mine.told")
    type_in(bench, "rebate_width", "9 mm")
    assert "Stays behind: inside diameter" in keep(bench)
    assert bench.by_hand == {"inside_diameter": 402.0} and read_stand(FILE).plain.rebate_width == 9.0
    assert same_but(read_stand(FILE), seedling_stand(leg_diameter="36 mm"), "rebate_width")


def same_but(one, other, *names):
    return {name for name, value in one.values.items() if value != other.values[name]} == set(names)


def test_a_size_may_be_left_out_and_a_choice_and_a_count_are_kept(mine):
    screw = on_mine(read_stand(FILE).operation("screws").model)
    screw.hear({"box.washer_diameter": "", "box.washer_thickness": "0 mm", "choose.species": "Cherry, black"})
    assert "washer diameter 10.0 mm → left out" in keep(screw)
    found = read_stand(FILE)
    assert found.values["washer_diameter"] is None and found.panel_timber == "Cherry, black"
    ring = on_mine(found.operation("staves").model)
    type_in(ring, "staves", "16")
    assert "staves of a rim 12 → 16" in keep(ring)
    assert read_stand(FILE).plain.staves == 16


def test_from_the_lessons_sizes_only_what_was_changed_is_kept(mine):
    bench = Bench(RAIL)
    bench.hear({"keep": "planned"})
    assert "Change a size first" in reads(bench, "mine.told")
    type_in(bench, "rail_height", "52 mm")
    assert "rail height 50 mm → 52 mm" in keep(bench)
    assert same_but(read_stand(FILE), seedling_stand(leg_diameter="36 mm"), "rail_height")
    assert bench.values["leg_diameter"] == 35.0 and stands(bench, "sizes.0") == "● "


def test_one_size_in_two_places_is_set_alike(mine):
    stubs = on_mine(read_stand(FILE).operation("stub_bar").model)
    assert isinstance(stubs.model, StubBar)
    stubs.hear({"choose.bar_species": "Oak, white", "choose.stub_species": "Maple, sugar"})
    stubs.hear({"keep": "planned"})
    assert "this is one size of the stand. Set it alike" in reads(stubs, "mine.told")
    stubs.hear({"choose.stub_species": "Oak, white"})
    keep(stubs)
    assert read_stand(FILE).timber == "Oak, white"


# It refuses ------------------------------------------------------------------------------------------------------


def test_what_cannot_be_made_is_refused_in_the_stands_own_words(mine):
    bench = on_mine(CircleJig("440 mm", "12 mm", ring_width="20 mm"))
    before = FILE.read_bytes()
    type_in(bench, "diameter", "490 mm")
    bench.hear({"keep": "planned"})
    told = reads(bench, "mine.told")
    assert "Not kept. A tray of 490.0 mm runs into the legs" in told and "Keep it" not in told
    bench.hear({"keep_it": ""})
    assert FILE.read_bytes() == before
    rail = on_mine(RAIL)
    type_in(rail, "leg_diameter", "17 mm")
    rail.hear({"keep": "planned"})
    assert "Not kept." in reads(rail, "mine.told") and FILE.read_bytes() == before


def test_a_failure_of_the_disk_is_told(mine, monkeypatch):
    bench = on_mine(RAIL)
    type_in(bench, "leg_diameter", "38 mm")

    def full(*_):
        raise OSError(28, "No space left on device")

    bench.hear({"keep": "planned"})
    with monkeypatch.context() as patched:
        patched.setattr("shoplib.paper.files.os.replace", full)
        bench.hear({"keep_it": ""})
    assert "Not kept." in reads(bench, "mine.told") and "No space left" in reads(bench, "mine.told")
    assert read_stand(FILE).plain.leg_diameter == 36.0


# As made ---------------------------------------------------------------------------------------------------------


def test_a_thin_panel_is_kept_as_made_and_the_rebate_follows(mine):
    bench = on_mine(TRAY)
    type_in(bench, "panel_thickness", "11.7 mm")
    told = keep(bench, "made")
    assert "To keep as made: panel thickness 12.0 mm → 11.7 mm" in told and "depth of cut" in told
    stand = read_stand(FILE)
    assert stand.made == {"panel_thickness": 11.7} and stand.plain.panel_thickness == 12.0
    assert bench.values["panel_thickness"] == 11.7 and "rebate depth 11.7 mm" in table(bench)
    assert reads(bench, "note.panel_thickness") == "as made"
    assert "As made: panel thickness 11.7 mm (planned 12.0 mm)" in reads(bench, "mine.told")
    jig = on_mine(CircleJig("440 mm", "12 mm", ring_width="20 mm"))
    jig.hear({"work": "panel"})
    assert jig.values["stock_thickness"] == 11.7 and reads(jig, "note.stock_thickness") == "as made"
    bench.hear({"nominal": "panel_thickness"})
    assert "To keep as planned again: panel thickness 11.7 mm → 12.0 mm" in reads(bench, "mine.told")
    bench.hear({"keep_it": ""})
    assert read_stand(FILE).made == {} and bench.values["panel_thickness"] == 12.0
    assert "As made" not in reads(bench, "mine.told")


def test_what_was_measured_in_the_settings_is_kept_as_made(mine):
    bench = on_mine(TRAY)
    bench.hear({"measured.rebate_diameter": "420.6 mm", "measured.wall": "9.8 mm"})
    told = keep(bench, "made")
    assert "rebate diameter 420.0 mm → 420.6 mm" in told and "Stays behind: wall left" in told
    assert read_stand(FILE).made == {"rebate_diameter": 420.6}
    jig = on_mine(CircleJig("440 mm", "12 mm", ring_width="20 mm"))
    jig.hear({"work": "panel"})
    assert jig.values["diameter"] == pytest.approx(415.6)
    bench.hear({"measured.rebate_diameter": "", "measured.wall": "", "keep": "made"})
    assert "Measure something" in reads(bench, "mine.told")
    bench.hear({"measured.rebate_diameter": "about 420"})
    bench.hear({"keep": "made"})
    assert "Not kept." in reads(bench, "mine.told")


def test_a_measured_width_goes_to_the_bar(mine):
    """The bar's holes are drilled at the width measured on the dry stand: worked out in the stand, kept as made."""
    bench = on_mine(read_stand(FILE).operation("stub_bar").model)
    type_in(bench, "width", "361 mm")
    assert "legs apart at the bar 360.0 mm → 361.0 mm" in keep(bench, "made")
    assert read_stand(FILE).made == {"bar_width": 361.0} and bench.values["width"] == 361.0


def test_a_new_plan_takes_the_measured_size_back(mine):
    bench = on_mine(TRAY)
    type_in(bench, "panel_thickness", "11.7 mm")
    keep(bench, "made")
    type_in(bench, "panel_thickness", "10 mm")
    assert "panel thickness" in keep(bench)
    stand = read_stand(FILE)
    assert stand.made == {} and stand.plain.panel_thickness == 10.0 and bench.values["panel_thickness"] == 10.0


# Two at once -----------------------------------------------------------------------------------------------------


def test_another_pages_change_is_read_and_told_and_what_is_under_the_hand_stays(mine):
    bench = on_mine(RAIL)
    type_in(bench, "rail_height", "52 mm")
    mine(leg_diameter="38 mm")
    type_in(bench, "rail_thickness", "21 mm")
    told = reads(bench, "mine.told")
    assert "my_stand.toml has changed meanwhile and was read again: leg diameter 38 mm." in told
    assert bench.values["leg_diameter"] == 38.0 and stands(bench, "box.leg_diameter") == "38.0 mm"
    assert (bench.values["rail_height"], bench.values["rail_thickness"]) == (52.0, 21.0)
    type_in(bench, "rail_thickness", "22 mm")
    assert "changed meanwhile" not in reads(bench, "mine.told")
    assert "rail height 50 mm → 52 mm" in keep(bench)
    stand = read_stand(FILE)
    assert (stand.plain.leg_diameter, stand.plain.rail_height, stand.plain.rail_thickness) == (38.0, 52.0, 22.0)


def test_a_change_between_telling_and_keeping_is_told_first(mine):
    bench = on_mine(RAIL)
    type_in(bench, "rail_height", "52 mm")
    bench.hear({"keep": "planned"})
    mine(leg_diameter="38 mm")
    bench.hear({"keep_it": ""})
    assert "has changed meanwhile" in reads(bench, "mine.told") and read_stand(FILE).plain.rail_height == 50.0
    keep(bench)
    stand = read_stand(FILE)
    assert (stand.plain.leg_diameter, stand.plain.rail_height) == (38.0, 52.0)


@pytest.mark.parametrize(
    ("theirs", "kept", "said"),
    [
        ({"leg_diameter": "38 mm"}, (38.0, 52.0), "Another page had kept meanwhile: leg diameter 38 mm"),
        ({"rail_height": "54 mm"}, (36.0, 54.0), "another page has kept 54 mm"),
    ],
    ids=["another size", "the same size"],
)
def test_a_change_in_the_very_moment_of_keeping_loses_nothing(mine, monkeypatch, theirs, kept, said):
    """The other page writes after this one has looked at the file and before it writes."""
    bench = on_mine(RAIL)
    type_in(bench, "rail_height", "52 mm")
    bench.hear({"keep": "planned"})
    home = importlib.import_module("shoplib.paper.stand_file")
    write = home.write_stand
    with monkeypatch.context() as patched:
        patched.setattr(home, "write_stand", lambda *given, **more: (mine(**theirs), write(*given, **more))[1])
        bench.hear({"keep_it": ""})
    assert said in reads(bench, "mine.told")
    stand = read_stand(FILE)
    assert (stand.plain.leg_diameter, stand.plain.rail_height) == kept
    slide(bench, "offset", 0)
    assert bench.values["leg_diameter"] == kept[0]


def test_a_file_that_was_taken_away_is_told_and_not_made_anew(mine):
    bench = on_mine(RAIL)
    type_in(bench, "rail_height", "52 mm")
    FILE.unlink()
    slide(bench, "rail_thickness", 21)
    assert "no longer there" in reads(bench, "mine.told") and bench.values["leg_diameter"] == 36.0
    bench.hear({"keep": "planned"})
    assert "There is no file my_stand.toml" in reads(bench, "mine.told")
    bench.hear({"keep_it": ""})
    assert not FILE.exists()


def test_two_benches_on_one_page_follow_each_other(mine):
    rail, tray = on_mine(RAIL), on_mine(TRAY)
    type_in(rail, "leg_diameter", "37 mm")
    type_in(tray, "rebate_width", "9 mm")
    keep(rail)
    tray.hear({"keep": "planned"})
    assert "leg diameter 37 mm" in reads(tray, "mine.told") or "To keep: rebate width" in reads(tray, "mine.told")
    keep(tray)
    stand = read_stand(FILE)
    assert (stand.plain.leg_diameter, stand.plain.rebate_width) == (37.0, 9.0)


# The cell runs again ---------------------------------------------------------------------------------------------


@pytest.fixture
def run(monkeypatch):
    """Pretends that the cell runs again."""
    runs = []

    def begin():
        runs.append(1)
        monkeypatch.setattr(places, "running", lambda: ("cell", len(runs)))
        monkeypatch.setattr("shoplib.bench.bench.running", places.running)

    monkeypatch.setattr(places, "_cells", {})
    return begin


def test_my_stand_stays_chosen_and_is_read_anew(mine, run):
    run()
    screw = on_mine(seedling_stand().operation("screws").model)
    slide(screw, "screw_length", 41)
    mine(rail_height="51 mm")
    run()
    later = Bench(seedling_stand().operation("screws").model)
    assert later.values["rail_height"] == 51.0 and later.values["screw_length"] == 41.0
    assert stands(later, "sizes.1") == "● " and later.model.rail_height.m == 51.0
    later.hear({"back": ""})
    assert later.values == read_stand(FILE).operation("screws").model.values


def test_where_the_cells_below_could_not_be_worked_the_lessons_sizes_return(mine, run):
    run()
    on_mine(RAIL)  # my stand has no drum, and the lesson tells of its gap
    run()
    later = Bench(RAIL)
    assert later.values == RAIL.values and stands(later, "sizes.0") == "● "
    assert "could not be worked" in reads(later, "note")


# The whole stand, and its parts ----------------------------------------------------------------------------------


def test_the_whole_stands_bench_keeps_too(mine):
    bench = StandBench(seedling_stand())
    bench.hear({"sizes": "my stand's"})
    assert bench.values == read_stand(FILE).values
    bench.hear({"box.leg_diameter": "38 mm"})
    bench.hear({"keep": "planned"})
    assert "rail, tip to tip" in reads(bench, "mine.told") or "tip to tip" in reads(bench, "mine.told")
    bench.hear({"keep_it": ""})
    assert read_stand(FILE).plain.leg_diameter == 38.0
    bench.hear({"box.panel_thickness": "11.7 mm"})
    keep(bench, "made")
    assert bench.model.made == {"panel_thickness": 11.7} and bench.values["panel_thickness"] == 12.0


def test_the_saw_bench_takes_the_parts_of_my_stand(mine):
    bench = SawBench(stand_parts(), stand_rack())
    first = dict(bench.texts)
    assert is_shown(bench) and "Keep" not in bench.live.html
    bench.hear({"sizes": "my stand's"})
    assert (bench.texts["part.1.part"], bench.texts["part.1.width"]) == ("leg", "36 mm")
    assert len(read_stand(FILE).parts()) == sum(bool(bench.texts[f"part.{n}.part"]) for n in range(1, 61))
    assert "what you change here is not kept there" in reads(bench, "mine.told")
    mine(leg_diameter="38 mm")
    bench.hear({"unit": "millimetres"})
    assert bench.texts["part.1.width"] == "38 mm" and "has changed meanwhile" in reads(bench, "mine.told")
    bench.hear({"part.1.length": "700 mm"})
    mine(leg_diameter="37 mm")
    bench.hear({"unit": "millimetres"})
    assert bench.texts["part.1.length"] == "700 mm" and "press “my stand's”" in reads(bench, "mine.told")
    bench.hear({"sizes": "this lesson's"})
    assert {name: text for name, text in bench.texts.items() if name != "part.path"} == first
    FILE.write_text("rubbish", "utf-8")
    bench.hear({"sizes": "my stand's"})
    assert "line 1" in reads(bench, "mine.told") and stands(bench, "sizes.0") == "● "


def test_no_operation_is_forgotten():
    """Every operation's model has a bench that a reader can open, and my stand fills it."""
    assert {each.model for each in OPERATIONS.values()} <= set(EXAMPLES)
    assert {Rolling, PanelScrew, StaveRing} <= {each.model for each in OPERATIONS.values()}
