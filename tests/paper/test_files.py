"""Names of printouts, and files that are written whole or not at all."""

import re
import subprocess
import sys
from pathlib import Path

import pytest

from shoplib import CircleJig, HollowBlank, StaveRing, save_dxf
from shoplib.paper.files import PrintoutError, paper_size, printout_path, save_whole

JIG = CircleJig("440 mm", "12 mm")


def names(folder):
    return sorted(each.name for each in folder.iterdir())


@pytest.mark.parametrize(
    ("model", "unit", "name"),
    [
        (JIG, "mm", "circle-jig_440mm_12mm_card.pdf"),
        (JIG.replace(ring_width="20.25 mm", through="1 mm"), "mm", "circle-jig_440mm_12mm_20.25mm_card.pdf"),
        (CircleJig("100 mm", "10 mm"), "mm", "circle-jig_100mm_10mm_card.pdf"),
        (CircleJig("17 3/8 in", "1/2 in"), "in", "circle-jig_17-3-8in_1-2in_card.pdf"),
        (StaveRing("440 mm", "400 mm", 12), "mm", "stave-ring_440mm_400mm_12_card.pdf"),
        (HollowBlank("440 mm", "400 mm", "60 mm"), "mm", "hollow-blank_440mm_400mm_60mm_card.pdf"),
    ],
)
def test_name_tells_model_and_main_sizes(model, unit, name):
    path = printout_path(model, "card.pdf", unit)
    assert path == Path("printouts") / name
    assert re.fullmatch(r"[A-Za-z0-9._-]+", path.name)


def test_name_is_the_same_for_the_stand_in_and_another_for_a_hair_more():
    assert printout_path(JIG.plain, "card.pdf") == printout_path(JIG, "card.pdf")
    assert printout_path(JIG.replace(diameter="440.1 mm"), "card.pdf") != printout_path(JIG, "card.pdf")


def test_another_folder(tmp_path):
    assert printout_path(JIG, "card.pdf", folder=tmp_path).parent == tmp_path
    assert printout_path(JIG, "card.pdf", folder=str(tmp_path)).parent == tmp_path


def test_default_folder_is_beside_the_notebook(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert save_dxf(JIG).resolve().parent == tmp_path / "printouts"
    assert names(tmp_path / "printouts") == ["circle-jig_440mm_12mm_template.dxf"]


def test_unknown_paper_is_refused():
    with pytest.raises(ValueError, match="A4 or Letter"):
        paper_size("A5")


def test_writes_and_replaces(tmp_path):
    path = tmp_path / "new" / "card.pdf"
    for text in ("first", "second"):
        assert save_whole(path, lambda part, text=text: part.write_text(text)) == path
        assert path.read_text() == text
    assert names(path.parent) == ["card.pdf"]


@pytest.mark.parametrize("slip", [KeyboardInterrupt, RuntimeError, OSError])
def test_interrupted_writing_leaves_the_old_file(tmp_path, slip):
    path = tmp_path / "card.pdf"
    path.write_text("old")

    def write(part):
        part.write_text("half of the new")
        raise slip("stopped")

    with pytest.raises(slip):
        save_whole(path, write)
    assert path.read_text() == "old"
    assert names(tmp_path) == ["card.pdf"]


def test_new_file_takes_the_place_at_one_stroke(tmp_path, monkeypatch):
    path = tmp_path / "card.pdf"
    path.write_text("old")

    def refuse(*_):
        raise PermissionError(13, "open elsewhere")

    monkeypatch.setattr("os.replace", refuse)
    with pytest.raises(PrintoutError, match="open elsewhere"):
        save_whole(path, lambda part: part.write_text("new"))
    assert path.read_text() == "old" and names(tmp_path) == ["card.pdf"]


def test_folder_that_cannot_be_written_is_named(tmp_path):
    (tmp_path / "taken").write_text("a file")
    with pytest.raises(PrintoutError, match="taken.*another folder"):
        save_whole(tmp_path / "taken" / "card.pdf", lambda part: part.write_text("new"))
    assert names(tmp_path) == ["taken"]


def test_target_that_cannot_be_replaced_is_named(tmp_path):
    (tmp_path / "card.pdf").mkdir()
    with pytest.raises(PrintoutError, match="card.pdf could not be written"):
        save_whole(tmp_path / "card.pdf", lambda part: part.write_text("new"))
    assert names(tmp_path) == ["card.pdf"]


def test_import_is_light():
    code = (
        "import sys, shoplib.paper; from shoplib.paper import save_card;"
        "sys.exit(any(name in sys.modules for name in ('matplotlib', 'ezdxf', 'numpy')))"
    )
    assert subprocess.run([sys.executable, "-c", code]).returncode == 0
