"""Names of printouts, files that are written whole or not at all, and paths that show themselves."""

import re
import subprocess
import sys
from pathlib import Path

import pytest
from models import EXAMPLES

from shoplib import CircleJig, HollowBlank, RoundCope, StaveRing, save_card, save_dxf
from shoplib.paper import files
from shoplib.paper.files import UNFINISHED, Printout, PrintoutError, link_to, paper_size, printout_path, save_whole
from shoplib.paper.imprint import mark_of

JIG = CircleJig("440 mm", "12 mm")
ALL = [model for models in EXAMPLES.values() for model in models]


def names(folder):
    return sorted(each.name for each in folder.iterdir())


@pytest.mark.parametrize(
    ("model", "unit", "name"),
    [
        (JIG, "mm", "circle-jig_440mm_12mm_{}_card.pdf"),
        (JIG.replace(ring_width="20.25 mm", through="1 mm"), "mm", "circle-jig_440mm_12mm_20.25mm_{}_card.pdf"),
        (CircleJig("100 mm", "10 mm"), "mm", "circle-jig_100mm_10mm_{}_card.pdf"),
        (CircleJig("17 3/8 in", "1/2 in"), "in", "circle-jig_17-3-8in_1-2in_{}_card.pdf"),
        (StaveRing("440 mm", "400 mm", 12), "mm", "stave-ring_440mm_400mm_12_{}_card.pdf"),
        (HollowBlank("440 mm", "400 mm", "60 mm"), "mm", "hollow-blank_440mm_400mm_60mm_{}_card.pdf"),
    ],
)
def test_name_tells_model_main_sizes_and_mark(model, unit, name):
    path = printout_path(model, "card.pdf", unit)
    assert path == Path("printouts") / name.format(mark_of(model))
    assert re.fullmatch(r"[A-Za-z0-9._-]+", path.name)


def test_name_is_the_same_for_the_stand_in_and_another_for_a_hair_more():
    assert printout_path(JIG.plain, "card.pdf") == printout_path(JIG, "card.pdf")
    assert printout_path(JIG.replace(diameter="440.1 mm"), "card.pdf") != printout_path(JIG, "card.pdf")


def test_a_part_is_named_first():
    name = printout_path(JIG, "card.pdf", part="Upper tray: its ring (ash)").name
    assert name.startswith("upper-tray-its-ring-ash-_circle-jig_440mm")


def test_round_copes_above_and_below_the_middle_lie_side_by_side(tmp_path):
    for offset in ("3 mm", "-3 mm"):
        save_dxf(RoundCope("35 mm", "19 mm", offset=offset), tmp_path)
    assert len(names(tmp_path)) == 2


def test_no_two_sizes_share_a_name():
    for unit in ("mm", "in"):
        paths = {printout_path(model, "card.pdf", unit) for model in ALL}
        assert len(paths) == len(set(ALL)) > 30
    assert not {printout_path(model, "card.pdf", "mm") for model in ALL} & paths


def test_another_folder(tmp_path):
    assert printout_path(JIG, "card.pdf", folder=tmp_path).parent == tmp_path
    assert printout_path(JIG, "card.pdf", folder=str(tmp_path)).parent == tmp_path


def test_default_folder_is_beside_the_notebook(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert save_dxf(JIG).resolve().parent == tmp_path / "printouts"
    assert names(tmp_path / "printouts") == [f"circle-jig_440mm_12mm_{mark_of(JIG)}_template.dxf"]


def test_unknown_paper_is_refused():
    with pytest.raises(ValueError, match="A4 or Letter"):
        paper_size("A5")


def test_writes_and_replaces(tmp_path):
    path = tmp_path / "new" / "card.pdf"
    for text in ("first", "second"):
        assert save_whole(path, lambda part, text=text: part.write_text(text)) == path
        assert path.read_text() == text
    assert names(path.parent) == ["card.pdf"]


KILLED = """
import pathlib, sys, time
from shoplib.paper.files import save_whole

def write(part):
    part.write_text("half")
    print("writing", flush=True)
    time.sleep(60)

save_whole(pathlib.Path(sys.argv[1]) / "card.pdf", write)
"""


def test_what_a_killed_save_left_goes_at_the_next_one_and_nothing_else(tmp_path):
    for name in (".other-unfinished.pdf", "mine.pdf", UNFINISHED.lstrip(".") + "x.pdf"):
        (tmp_path / name).write_text("somebody else's")
    before = names(tmp_path)
    saving = subprocess.Popen([sys.executable, "-c", KILLED, tmp_path], stdout=subprocess.PIPE, text=True)
    try:
        assert saving.stdout.readline() == "writing\n"
        save_whole(tmp_path / "first.pdf", lambda part: part.write_text("whole"))
        (left,) = set(names(tmp_path)) - {*before, "first.pdf"}
        assert left.startswith(UNFINISHED) and (tmp_path / left).read_text() == "half"  # it is still being written
    finally:
        saving.kill()
        saving.wait()
        saving.stdout.close()
    assert left in names(tmp_path)
    save_whole(tmp_path / "second.pdf", lambda part: part.write_text("whole"))
    assert names(tmp_path) == sorted([*before, "first.pdf", "second.pdf"])


def test_two_saves_at_once_do_not_disturb_each_other(tmp_path):
    def write(part):
        save_whole(tmp_path / "inner.pdf", lambda other: other.write_text("inner"))
        part.write_text("outer")

    assert save_whole(tmp_path / "outer.pdf", write).read_text() == "outer"
    assert names(tmp_path) == ["inner.pdf", "outer.pdf"]


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


def test_a_saved_file_shows_itself_as_a_sentence_with_a_link(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    path = save_dxf(JIG)
    name = f"circle-jig_440mm_12mm_{mark_of(JIG)}_template.dxf"
    assert repr(path) == f"Saved as printouts/{name}" and isinstance(path, Path)
    shown = path._repr_html_()
    assert f'<a href="printouts/{name}">printouts/{name}</a>' in shown
    assert f'<a download href="printouts/{name}">' in shown
    assert path.name == name and path.read_bytes() and "Saved" not in repr(path.parent)


def test_links_are_relative_where_a_page_can_reach_the_file(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert link_to(tmp_path / "out" / "a <b> ü.pdf") == "out/a%20%3Cb%3E%20%C3%BC.pdf"
    elsewhere = Printout(tmp_path.parent / "elsewhere.pdf")
    assert link_to(elsewhere) == "" and "<a" not in elsewhere._repr_html_()
    assert "&lt;b&gt;" in Printout("out/a <b>.pdf")._repr_html_()


def test_a_card_is_a_printout_too(tmp_path):
    assert repr(save_card(JIG, folder=tmp_path)).startswith("Saved as ")


def test_where_a_page_cannot_reach_the_file_it_is_a_download(tmp_path, monkeypatch):
    """In a page that runs Python itself: a link would lead nowhere, so that the link holds the file."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(files, "SEEN", False)
    saved = files.save_whole("printouts/tray.pdf", lambda path: path.write_bytes(b"%PDF-1.7"))
    assert saved._repr_html_() == (
        '<div>✓ Saved as printouts/tray.pdf (<a download="tray.pdf" '
        'href="data:application/pdf;base64,JVBERi0xLjc=">download</a>)</div>'
    )
    assert files.link_to(saved) == ""
