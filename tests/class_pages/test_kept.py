"""My stand's file, as a page lays it and takes it back; the page itself is tried in a browser."""

import json
from pathlib import Path

import pytest

from shoplib import Bench, Cope, read_stand, seedling_stand, write_stand
from shoplib.class_pages import kept


@pytest.fixture
def here(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    write_stand(seedling_stand(), "first.toml")
    return tmp_path


def told(capsys):
    return json.loads(capsys.readouterr().out)


def text(**sizes):
    """The text of a file of the seedling stand with other sizes."""
    write_stand(seedling_stand(**sizes), "made.toml")
    with open("made.toml", "rb") as file:
        found = file.read().decode()
    return found


def test_a_text_is_laid_and_told_as_it_is(here, capsys):
    kept.tell()
    assert told(capsys) == {"text": None, "said": ""}
    odd = "\ufeff# ½ in, “so”\r\nnothing = 1\n"
    kept.lay(odd)
    assert told(capsys) == {"text": odd, "said": ""} and (here / "my_stand.toml").read_bytes() == odd.encode()
    kept.lay(None)
    kept.lay(None)
    assert not (here / "my_stand.toml").exists()


def test_a_lesson_works_in_a_folder_of_its_own_with_its_files(here, capsys):
    texts = {"stand.toml": "\ufeff# ½\r\n", "handed_in/one.csv": "a,b\r\n"}
    kept.settle(texts, str(here / "lesson"))
    assert told(capsys) == {"text": None, "said": ""} and Path.cwd() == here / "lesson"
    assert {name: Path(name).read_bytes().decode() for name in texts} == texts


def test_benches_see_the_file_come_and_go(here, capsys):
    bench = Bench(Cope("35 mm", "20 mm", "360 mm"))
    assert bench.live.shown["mine.row"]["style"] == "display:none"
    kept.lay(text(leg_diameter="36 mm"))
    assert "flex" in bench.live.shown["mine.row"]["style"]
    bench.hear({"sizes": "my stand's"})
    assert "36.0 mm" in bench.live.shown["box.leg_diameter"]
    kept.lay(text(leg_diameter="37 mm"))
    assert "37.0 mm" in bench.live.shown["box.leg_diameter"] and "was read again" in bench.live.shown["mine.told"]
    kept.lay(None)
    assert "no longer there" in bench.live.shown["mine.told"]


def test_what_two_pages_kept_goes_together(here, capsys):
    base = text()
    kept.lay(text(leg_diameter="36 mm"))
    capsys.readouterr()
    kept.merge(base, text(rail_thickness="22 mm"))
    found = told(capsys)
    stand = read_stand("my_stand.toml")
    assert (stand.leg_diameter.m_as("mm"), stand.rail_thickness.m_as("mm")) == (36, 22)
    assert found["text"] == (here / "my_stand.toml").read_text("utf-8") and "Kept there meanwhile" in found["said"]


def test_the_same_size_kept_in_two_ways_is_told_with_both(here, capsys):
    base = text()
    kept.lay(text(leg_diameter="36 mm"))
    capsys.readouterr()
    theirs = text(leg_diameter="37 mm")
    kept.merge(base, theirs)
    found = told(capsys)
    assert found["text"] == theirs
    assert all(each in found["said"] for each in ("37 mm", "36 mm", "35 mm", "does not go with it"))


@pytest.mark.parametrize("mine", ["rubbish [", ""])
def test_what_cannot_be_read_is_not_mixed_into_anothers(here, capsys, mine):
    base, theirs = text(), text(leg_diameter="37 mm")
    kept.lay(mine)
    capsys.readouterr()
    kept.merge(base, theirs)
    found = told(capsys)
    assert found["text"] == theirs and "does not go with it. my_stand.toml" in found["said"]


def test_only_a_stands_file_is_opened(here, capsys):
    kept.check(text(leg_diameter="36 mm"))
    assert told(capsys)["said"] == ""
    kept.check("[sizes]\nleg_diameter = 36\n")
    said = told(capsys)["said"]
    assert "my_stand.toml" in said and "line" in said and not (here / "my_stand.toml").exists()
