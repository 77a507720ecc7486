"""A stand in a file: read as it was written, told where it cannot be read, kept whole, and nothing of it lost."""

import re
import subprocess
import sys
import threading
import time
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from models import EXAMPLES, SIDE_TABLE, STAND_IN_INCHES

from shoplib import Stand, read_stand, seedling_stand, write_stand
from shoplib.measure import MeasureError
from shoplib.model import ShapeError
from shoplib.paper.files import UNFINISHED, PrintoutError
from shoplib.paper.stand_file import KeptElsewhere
from shoplib.paper.stand_file.keeping import LARGEST
from shoplib.paper.stand_file.keys import differing, measured_items, tables, text_for, values_of

NOTEBOOKS = Path(__file__).parents[2] / "notebooks"
DEMO = (NOTEBOOKS / "stand.toml").read_text("utf-8")


def same(one, other):
    return differing(values_of(one), values_of(other)) == []


@pytest.fixture
def kept(tmp_path):
    """A file of the seedling stand."""
    path = tmp_path / "my_stand.toml"
    path.write_text(DEMO, encoding="utf-8")
    return path


def changed(path, old, new):
    """Write a file anew with one piece of its text exchanged."""
    text = path.read_text("utf-8")
    assert text.count(old) == 1
    path.write_text(text.replace(old, new), encoding="utf-8")


# The files beside the lessons, and the way there and back ------------------------------------------------------


def test_the_files_beside_the_lessons_hold_the_two_invented_pieces():
    assert same(read_stand(NOTEBOOKS / "stand.toml"), seedling_stand())
    assert same(read_stand(NOTEBOOKS / "side_table.toml"), seedling_stand(**SIDE_TABLE))


def test_the_demo_names_every_size_with_a_note():
    for name in Stand.inputs():
        assert re.search(rf"^(# )?{name} = .+  # .+\.", DEMO, re.MULTILINE), name


def test_the_readers_own_file_is_no_part_of_the_project():
    root = NOTEBOOKS.parent
    assert "notebooks/my_stand.toml" in (root / ".gitignore").read_text("utf-8").split()


def random_value(item):
    """Values of an input, on its steps and between them."""
    if item.kind == "flag":
        return st.booleans()
    if item.kind == "choice":
        return st.sampled_from(item.options)
    if item.kind == "count":
        return st.integers(item.low, item.high)
    return st.one_of(
        st.floats(item.low, item.high).filter(lambda value: not 0 < abs(value) < 1e-6),
        *(
            st.integers(1, round((item.high - item.low) / item.step_in(unit))).map(
                lambda steps, unit=unit: item.low + steps * item.step_in(unit)
            )
            for unit in ("mm", "in")
        ),
    )


@given(st.data())
@settings(max_examples=80, deadline=None)
def test_any_value_reads_back_as_it_was_written(data):
    item = data.draw(st.sampled_from([*Stand.inputs().values(), *measured_items().values()]))
    value = data.draw(random_value(item) if hasattr(item, "default") else st.floats(1e-3, 9e2))
    text = text_for(item, value, data.draw(st.sampled_from(["mm", "in"])))
    if item.kind in ("count", "flag", "choice"):
        assert text == value and type(text) is type(value)
    elif hasattr(item, "default"):
        try:
            assert item.read(text) == pytest.approx(value, rel=1e-12, abs=0)
        except ShapeError:
            assert value <= 0


WAYS = st.fixed_dictionaries(
    {},
    optional={
        "leg_diameter": st.floats(34, 38), "tray_diameter": st.floats(420, 445), "panel_thickness": st.floats(9, 13),
        "leg_spacing": st.floats(355, 372), "stagger": st.floats(0, 3), "caster_weight": st.floats(0, 1),
        "moisture_damp": st.floats(0.1, 0.13), "v_angle": st.floats(1.4, 1.6), "staves": st.integers(10, 16),
        "ring_route": st.sampled_from(["staves", "boards"]), "pull_bar": st.sampled_from(["stubs", "mitred", "none"]),
        "seam_on_centre": st.booleans(), "trays": st.integers(1, 2), "drum_diameter": st.floats(34, 42),
        "rail_height": st.sampled_from([25.4 * k / 64 for k in range(120, 136)]),
    },
)  # fmt: skip
MEASURED = st.fixed_dictionaries(
    {}, optional={"panel_thickness": st.floats(11, 12.5), "rail_length": st.floats(329, 333)}
)


def typed(values):
    """Plain values as the stand takes them."""
    return {name: text_for(Stand.inputs()[name], value) for name, value in values.items()}


@given(ways=WAYS, measured=MEASURED, start=st.sampled_from(EXAMPLES[Stand]), unit=st.sampled_from(["mm", "in", None]))
@settings(max_examples=25, deadline=None)
def test_random_stands_go_round(tmp_path_factory, ways, measured, start, unit):
    try:
        stand = start.replace(**typed(ways))
        stand = stand.as_made(**{name: text_for(measured_items()[name], each) for name, each in measured.items()})
    except ShapeError:
        stand = start
    path = tmp_path_factory.mktemp("round") / "stand.toml"
    write_stand(stand, path, unit=unit)
    assert same(read_stand(path), stand)
    before = path.read_bytes()
    write_stand(read_stand(path), path)
    assert path.read_bytes() == before
    write_stand(start, path)
    assert same(read_stand(path), start)


def test_a_new_file_is_in_the_unit_of_most_sizes_or_in_the_one_asked_for(tmp_path):
    inches = seedling_stand(**STAND_IN_INCHES)
    write_stand(inches, tmp_path / "in.toml")
    assert 'leg_diameter = "1 3/8 in"' in (tmp_path / "in.toml").read_text("utf-8")
    write_stand(seedling_stand(), tmp_path / "mm.toml", unit="in")
    assert 'leg_diameter = "35 mm"' in (tmp_path / "mm.toml").read_text("utf-8")  # no rule in inches has it


# What a person wrote stays -------------------------------------------------------------------------------------


def test_only_what_changed_is_touched(kept):
    changed(kept, 'leg_diameter = "35 mm"     # ', 'leg_diameter =  "1 3/8 in" #  mine: ')
    changed(kept, "[dowels]\n", "# Dowels came from the shed.\n[dowels]\n")
    before = kept.read_text("utf-8")
    stand = read_stand(kept)
    write_stand(stand.replace(rail_height="52 mm", staves=14), kept, since=stand)
    assert kept.read_text("utf-8") == before.replace('"50 mm"      # Rail h', '"52 mm"      # Rail h').replace(
        "staves = 12 ", "staves = 14 "
    )
    write_stand(read_stand(kept).replace(leg_diameter="1 1/2 in"), kept)
    assert 'leg_diameter =  "1 1/2 in" #  mine: ' in kept.read_text("utf-8")


def test_a_size_left_out_keeps_its_line_behind_a_hash_and_comes_back_there(kept):
    stand = read_stand(kept)
    with_drum = DEMO.replace('# drum_diameter = "38 mm"', 'drum_diameter = "40 mm"')
    write_stand(stand.replace(drum_diameter="40 mm"), kept, since=stand)
    assert kept.read_text("utf-8") == with_drum
    write_stand(stand.replace(washer_diameter=None, washer_thickness="0 mm"), kept)
    row = next(row for row in DEMO.splitlines() if row.startswith("washer_diameter"))
    found = kept.read_text("utf-8").splitlines()
    assert f"# {row}" in found and row not in found
    assert any(each.startswith('# drum_diameter = "40 mm"') for each in found)
    write_stand(stand, kept)
    assert kept.read_text("utf-8") == DEMO.replace('# drum_diameter = "38 mm"', '# drum_diameter = "40 mm"')


def test_a_note_that_looks_like_a_size_is_left_alone(kept):
    note = '# drum_diameter = "40 mm" was too large\n#   drum_diameter = "39 mm" # try this\n'
    changed(kept, "# drum_diameter", note + "# drum_diameter")
    stand = read_stand(kept)
    write_stand(stand.replace(drum_diameter="38 mm"), kept, since=stand)
    given = '# drum_diameter = "40 mm" was too large\ndrum_diameter = "38 mm" # try this\n# drum_diameter = "38 mm"'
    assert given in kept.read_text("utf-8")


def test_a_new_size_goes_below_the_last_of_its_table(kept):
    changed(kept, "\n[made]\n", "\n# What follows is measured.\n[made]\n")
    for row in [row for row in DEMO.splitlines() if "drum_diameter" in row or row.startswith("point_height")]:
        changed(kept, row + "\n", "")
    bare, stand = kept.read_text("utf-8"), read_stand(kept)
    new = stand.replace(drum_diameter="38 mm").as_made(panel_thickness="11.7 mm")
    write_stand(new, kept, since=stand)
    text = kept.read_text("utf-8")
    assert 'drum_diameter = "38 mm"\n\n[finish]' in text
    assert text.endswith('worked out from it.\npanel_thickness = "11.7 mm"\n')
    write_stand(read_stand(kept).not_made("panel_thickness"), kept)
    assert kept.read_text("utf-8") == bare.replace("\n\n[finish]", '\ndrum_diameter = "38 mm"\n\n[finish]')


def test_a_table_of_measured_sizes_is_made_where_there_is_none(kept):
    kept.write_text(DEMO[: DEMO.index("[made]")], encoding="utf-8")
    write_stand(read_stand(kept).as_made(rail_length="331 mm"), kept)
    assert kept.read_text("utf-8").endswith('[made]\nrail_length = "331 mm"\n')
    assert read_stand(kept).made == {"rail_length": 331.0}


@pytest.mark.parametrize("start", ["\ufeff", ""])
@pytest.mark.parametrize("end", ["\r\n", "\n"])
def test_the_marks_of_another_editor_stay(kept, start, end):
    kept.write_bytes((start + DEMO.replace("\n", end)).encode())
    changed_here = read_stand(kept).replace(drum_diameter="38 mm", leg_diameter="36 mm").as_made(rail_length="331 mm")
    write_stand(changed_here, kept)
    text = kept.read_bytes().decode()
    assert text.startswith(f"{start}# The rolling") and text.count("\n") == DEMO.count("\n") + 1
    assert (text.count("\r\n") == text.count("\n")) == (end == "\r\n")
    assert read_stand(kept).plain.leg_diameter == 36.0


def test_other_ways_of_writing_the_same_are_kept_too(tmp_path):
    path, text = tmp_path / "dotted.toml", DEMO[: DEMO.index("[trays]")]
    for table, items in tables().items():
        for name in items:
            found = re.search(rf'^{name} = (".*?"|\S+)', DEMO, re.MULTILINE)
            text += f"{table}.{name} = {found[1]}\n" if found else ""
    path.write_text(text, encoding="utf-8")
    other = seedling_stand(leg_diameter="36 mm", drum_diameter="38 mm").as_made(rail_length="331 mm")
    write_stand(other, path)
    found = path.read_text("utf-8")
    assert 'legs_and_rails.leg_diameter = "36 mm"' in found and "[legs_and_rails]" not in found
    assert same(read_stand(path), other)


def test_sizes_left_out_stay_what_they_were_when_the_first_millimetre_comes_in(tmp_path):
    """In a file all in inches a size that is left out is one in inches; a size in mm would make it another."""
    path = tmp_path / "in.toml"
    write_stand(seedling_stand(**STAND_IN_INCHES), path)
    changed(path, [row for row in path.read_text("utf-8").splitlines() if row.startswith("pivot_pin")][0] + "\n", "")
    stand = read_stand(path)
    assert stand.plain.pivot_pin == 6.35
    write_stand(stand.replace(leg_diameter="35 mm"), path, since=stand)
    now = read_stand(path)
    assert now.plain.pivot_pin == 6.35 and now.plain.leg_diameter == 35.0


# What cannot be read is told, and stays as it is ---------------------------------------------------------------

LEG = 'leg_diameter = "35 mm"'
BAD = {
    "unknown size": (LEG, 'leg_diametre = "35 mm"', ["leg_diametre", "Is it leg_diameter?", 'leg_diameter = "35 mm"']),
    "unlike any": (LEG, 'xyzzy = "35 mm"', ["xyzzy", "no size of this name", "stand.toml"]),
    "no unit": (LEG, 'leg_diameter = "35"', ["leg_diameter", "which unit?", 'leg_diameter = "35 mm"']),
    "bare number": (LEG, "leg_diameter = 35", ["35 is a bare number: which unit?", 'leg_diameter = "35 mm"']),
    "another kind": (LEG, 'leg_diameter = "35 kg"', ["is a mass", 'leg_diameter = "35 mm"']),
    "unknown unit": (LEG, 'leg_diameter = "35 mn"', ["unknown unit"]),
    "a list": (LEG, "leg_diameter = [35]", ["a size is wanted", 'leg_diameter = "35 mm"']),
    "a date": (LEG, "leg_diameter = 2026-01-01", ["a size is wanted"]),
    "two meanings": (LEG, 'leg_diameter = "1,250 mm"', ["two ways", "1.250"]),
    "no quotes": (LEG, "leg_diameter = 35 mm", ["“leg_diameter = 35 mm", "cannot be read", 'leg_diameter = "35 mm"']),
    "no equals": (LEG, 'leg_diameter "35 mm"', ["cannot be read"]),
    "open quote": (LEG, 'leg_diameter = "35 mm', ["cannot be read"]),
    "count in quotes": ("staves = 12", 'staves = "12"', ["staves", "whole number without quotes", "staves = 12"]),
    "half a count": ("staves = 12", "staves = 12.5", ["whole number"]),
    "no count": ("staves = 12", "staves = true", ["whole number"]),
    "count out of range": ("staves = 12", "staves = 2", ["staves", "from"]),
    "flag as a word": ("seam_on_centre = true", 'seam_on_centre = "yes"', ["true or false", "seam_on_centre = true"]),
    "another word": ('pull_bar = "stubs"', 'pull_bar = "stub"', ["no “stub”", "“stubs”, “mitred”, “none”"]),
    "another timber": ('\ntimber = "Ash, white"', '\ntimber = "ash"', ["no “ash”", "“Ash, white”"]),
    "choice as a number": ('pull_bar = "stubs"', "pull_bar = 1", ["one of a few words"]),
    "less than nothing": (LEG, 'leg_diameter = "-35 mm"', ["more than nothing"]),
    "twice": (LEG, f"{LEG}\n{LEG}", ["leg_diameter is there already, in line {line}"]),
    "table twice": ("[dowels]", "[trays]", ["table [trays]", "there already"]),
    "in two tables": ("[dowels]\n", f"[dowels]\n{LEG}\n", ["it stands in line {line} too", "[legs_and_rails]"]),
    "in another table": ("[legs_and_rails]\n", "[legs_and_rails]\nstaves = 12\n", ["staves", "[rings]"]),
    "unknown table": ("[dowels]", "[dowells]", ["[dowells]", "no table", "Is it [dowels]?"]),
    "above all tables": ("# The rolling", f"{LEG}\n# The rolling", ["above all tables", "[legs_and_rails]"]),
    "unknown measured": ("[made]", '[made]\nsky_height = "3 mm"', ["sky_height", "nothing of this name"]),
    "measured nothing": ("[made]", '[made]\nrail_length = "0 mm"', ["rail_length", "more than nothing"]),
    "control sign": (LEG, f"{LEG} # \x07", ["cannot be read"]),
    "deep brackets": (LEG, "leg_diameter = " + "[" * 5000, ["brackets within brackets"]),
    "long number": (LEG, "leg_diameter = " + "9" * 5000, ["line"]),
}  # fmt: skip
MISSING = {
    "a size is missing": (LEG, f"# {LEG}", ["leg_diameter is missing", "[legs_and_rails]", LEG]),
    "cannot be made": ('tray_diameter = "440 mm"', 'tray_diameter = "490 mm"', ["tray_diameter", "runs into the legs"]),
    "measured so it cannot be made": ("[made]", '[made]\npanel_thickness = "41 mm"', ["panel_thickness"]),
}  # fmt: skip


@pytest.mark.parametrize(("old", "new", "said"), [*BAD.values(), *MISSING.values()], ids=[*BAD, *MISSING])
def test_a_file_that_cannot_be_read_says_where_and_is_never_overwritten(kept, old, new, said):
    line = DEMO[: DEMO.index(LEG)].count("\n") + 1
    changed(kept, old, new)
    before = kept.read_bytes()
    with pytest.raises((MeasureError, ShapeError)) as caught:
        read_stand(kept)
    told = str(caught.value)
    for each in said:
        assert each.format(line=line) in told
    if "is missing" not in told:
        number = re.search(r"^my_stand\.toml, line (\d+)[:,]", told)
        rows = before.decode().splitlines()
        near = "\n".join(rows[max(int(number[1]) - 2, 0) : int(number[1]) + 1]) if number else told
        assert any(row[:20] in near for row in new.splitlines()) or "brackets within brackets" in told
    assert "\n" not in told and len(told) < 420 and "\x07" not in told
    for since in (None, seedling_stand()):
        with pytest.raises((MeasureError, ShapeError)):
            write_stand(seedling_stand(leg_diameter="36 mm"), kept, since=since)
    assert kept.read_bytes() == before and [each.name for each in kept.parent.iterdir()] == [kept.name]


def test_what_is_no_file_of_sizes(tmp_path):
    rubbish = bytes(range(32, 127)) * 11_000
    cases = {
        "empty.toml": (b"", "is empty"), "notes.toml": (b"# only a note\n", "is empty"),
        "latin.toml": ("[trays]\n# für mich\n".encode("latin-1"), "line 2: it holds a sign that is not in UTF-8"),
        "rubbish.toml": (rubbish, f"more than {LARGEST // 1000} kilobytes"),
        "zeros.toml": (bytes(1000), "line 1"), "picture.toml": (b"\x89PNG\r\n\x1a\n", "line 1: it holds a sign"),
    }  # fmt: skip
    assert len(rubbish) > 1_000_000
    for name, (content, said) in cases.items():
        (tmp_path / name).write_bytes(content)
        began = time.process_time()
        with pytest.raises(MeasureError, match=f"{name}.*{said}"):
            read_stand(tmp_path / name)
        assert time.process_time() - began < 0.2
        with pytest.raises(MeasureError, match=said):
            write_stand(seedling_stand(), tmp_path / name)
        assert (tmp_path / name).read_bytes() == content


def test_a_folder_and_a_file_that_is_not_there(tmp_path):
    (tmp_path / "folder.toml").mkdir()
    with pytest.raises(MeasureError, match="folder.toml is a folder"):
        read_stand(tmp_path / "folder.toml")
    with pytest.raises(MeasureError, match="There is no file none.toml in .*Copy stand.toml"):
        read_stand(tmp_path / "none.toml")
    with pytest.raises(MeasureError, match="There is no file none.toml"):  # somebody took it away: no other is made
        write_stand(seedling_stand(leg_diameter="36 mm"), tmp_path / "none.toml", since=seedling_stand())
    with pytest.raises(PrintoutError, match="no folder"):
        write_stand(seedling_stand(), tmp_path / "nowhere" / "stand.toml")
    assert [each.name for each in tmp_path.iterdir()] == ["folder.toml"]


def test_what_cannot_be_made_together_is_told_in_either_unit(kept):
    changed(kept, 'tray_diameter = "440 mm"', 'tray_diameter = "490 mm"')
    with pytest.raises(ShapeError) as caught:
        read_stand(kept)
    assert caught.value.input == "tray_diameter"
    assert "490.0 mm" in caught.value.tell() and "19 19/64 in" in caught.value.tell("in")


def test_a_name_with_braces_does_no_harm(tmp_path):
    path = tmp_path / "my {0} stand.toml"
    path.write_text(DEMO.replace('tray_diameter = "440 mm"', 'tray_diameter = "490 mm"'), encoding="utf-8")
    with pytest.raises(ShapeError, match=r"my \{0\} stand.toml, line"):
        read_stand(path)


# Two at once ---------------------------------------------------------------------------------------------------


def test_two_pages_lose_no_size_and_the_second_is_told(kept):
    first = second = read_stand(kept)
    assert write_stand(first.replace(leg_diameter="36 mm"), kept, since=first).meanwhile == ()
    done = write_stand(second.replace(rail_height="52 mm").as_made(rail_length="331 mm"), kept, since=second)
    assert done.meanwhile == ("leg diameter 36 mm",) and "leg diameter 36 mm" in repr(done)
    now = read_stand(kept)
    assert (now.plain.leg_diameter, now.plain.rail_height, now.made) == (36.0, 52.0, {"rail_length": 331.0})
    assert same(now, done.stand)


def test_the_same_size_changed_in_two_ways_is_refused_with_both(kept):
    first = read_stand(kept)
    write_stand(first.replace(leg_diameter="36 mm"), kept, since=first)
    before = kept.read_bytes()
    with pytest.raises(KeptElsewhere, match="Leg diameter: .*36 mm.*35 mm.*38 mm.*Nothing was kept") as caught:
        write_stand(first.replace(leg_diameter="38 mm", rail_height="52 mm"), kept, since=first)
    assert kept.read_bytes() == before and same(caught.value.now, read_stand(kept))
    write_stand(first.replace(leg_diameter="36 mm", rail_height="52 mm"), kept, since=first)  # the same: no quarrel
    measured = read_stand(kept)
    write_stand(measured.as_made(rail_length="331 mm"), kept, since=measured)
    with pytest.raises(KeptElsewhere, match="as made.*331 mm.*not measured.*330 mm"):
        write_stand(measured.as_made(rail_length="330 mm"), kept, since=measured)


def test_what_goes_alone_but_not_together_is_refused(kept):
    first = read_stand(kept)
    write_stand(first.replace(tray_diameter="470 mm"), kept, since=first)
    before = kept.read_bytes()
    with pytest.raises(ShapeError, match="runs into the legs"):
        write_stand(first.replace(leg_diameter="52 mm", dowel_in_leg="14 mm"), kept, since=first)
    assert kept.read_bytes() == before


def test_many_at_once_lose_nothing(kept):
    """Threads stand for pages: each reads, changes a size of its own, and keeps it, all at the same time."""
    sizes = {
        "leg_diameter": "36 mm", "rail_height": "51 mm", "stagger": "1 mm", "panel_thickness": "11 mm",
        "staves": 14, "upper_load": "9 kg", "bar_overhang": "33 mm", "saw_kerf": "2.5 mm",
    }  # fmt: skip
    gate, wrong = threading.Barrier(len(sizes)), []

    def page(name, value):
        stand = read_stand(kept)
        gate.wait()
        try:
            write_stand(stand.replace(**{name: value}), kept, since=stand)
        except Exception as error:
            wrong.append(error)

    pages = [threading.Thread(target=page, args=each) for each in sizes.items()]
    for each in pages:
        each.start()
    for each in pages:
        each.join(30)
    assert wrong == [] and same(read_stand(kept), seedling_stand(**sizes))


KILL = """
import os, pathlib, random, signal, sys, time
from shoplib import read_stand, write_stand
path = pathlib.Path(sys.argv[1])
write_stand(read_stand(path).replace(leg_diameter="36 mm"), path)
whole = {path.read_bytes()}
began = time.monotonic()
write_stand(read_stand(path).replace(leg_diameter="35 mm"), path)
long = time.monotonic() - began
whole.add(path.read_bytes())
dice, both = random.Random(8), set()
for _ in range(100):
    ready, tell = os.pipe()
    child = os.fork()
    if child == 0:
        try:
            os.write(tell, b"!")
            while True:
                for leg in ("36 mm", "35 mm"):
                    write_stand(read_stand(path).replace(leg_diameter=leg), path)
        finally:
            os._exit(1)
    os.read(ready, 1)
    time.sleep(dice.uniform(0, 2 * long))
    os.kill(child, signal.SIGKILL)
    assert os.WIFSIGNALED(os.waitpid(child, 0)[1]), "it ended by itself"
    os.close(ready), os.close(tell)
    assert path.read_bytes() in whole
    both.add(path.read_bytes())
assert both == whole
read_stand(path)
print("whole")
"""


def test_killed_a_hundred_times_while_keeping_it_is_the_file_before_or_after(kept):
    done = subprocess.run([sys.executable, "-c", KILL, kept], capture_output=True, text=True, timeout=60)
    assert done.stdout == "whole\n", done.stderr
    write_stand(read_stand(kept), kept)
    assert [each.name for each in kept.parent.iterdir() if each.name.startswith(UNFINISHED)] == []


def test_reading_needs_no_tomlkit(kept):
    code = (
        "import sys, shoplib; shoplib.read_stand(sys.argv[1]); "
        "sys.exit(any(name in sys.modules for name in ('tomlkit', 'pint', 'numpy')))"
    )
    assert subprocess.run([sys.executable, "-c", code, kept]).returncode == 0
