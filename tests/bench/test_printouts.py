"""Buttons that save a card, a template or a DXF beside the notebook and offer it as a link and a download."""

import base64
import re

import pytest
from pages import said
from pypdf import PdfReader

from shoplib import Bench, CircleJig, RimBench, Rolling, paper

JIG = CircleJig("440 mm", "12 mm", ring_width="20 mm", stock_thickness="18 mm", pass_depth="5 mm")
CARDS = ["Bench card A4", "Bench card Letter"]
DXF = "Outline for CAD (DXF)"
STARTS = dict.fromkeys([*CARDS, "Template A4", "Template Letter"], b"%PDF") | {DXF: b"  0\nSECTION"}
POINTS = [
    ("444.5 mm", "279.5 mm"), ("327 mm", "424 mm"), ("171 mm", "438 mm"), ("47.5 mm", "348 mm"),
    ("23.5 mm", "154.5 mm"), ("92.5 mm", "65.5 mm"), ("275 mm", "11 mm"), ("418.5 mm", "110.5 mm"),
]  # fmt: skip


@pytest.fixture
def bench(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    return Bench(JIG)


def no_room(error=None):
    raise error or OSError("no room on the disc")


def opener(bench):
    """What the page is given to write as its own link."""
    given = bench.printouts.opener.outputs
    return given[0]["data"]["text/html"] if given else ""


@pytest.mark.parametrize("button", STARTS)
def test_button_saves_the_file_and_offers_it(bench, tmp_path, button):
    bench.printouts.buttons[button].click()
    (path,) = (tmp_path / "printouts").iterdir()
    assert path.read_bytes().replace(b"\r\n", b"\n").startswith(STARTS[button])
    assert f"Saved as printouts/{path.name}" in said(bench.printouts.link)
    link = re.search(r"download='([^']*)' href='data:[^;]*;base64,([^']*)'", bench.printouts.link.value)
    name, coded = link.groups()
    assert name == path.name and base64.b64decode(coded) == path.read_bytes()
    assert f'<a href="printouts/{path.name}">' in opener(bench)
    assert button.endswith("(DXF)") or button.rpartition(" ")[2] in path.name  # the paper


def test_what_has_no_template_offers_cards_only():
    stand = Bench(Rolling("24 kg", "420 mm", "180 mm", "360 mm", "360 mm", "430 mm"))
    assert list(stand.printouts.buttons) == CARDS


def test_saving_twice_leaves_one_whole_file(bench, tmp_path):
    for _ in range(2):
        bench.printouts.buttons[DXF].click()
    assert len(list((tmp_path / "printouts").iterdir())) == 1
    assert len(bench.printouts.widget.children) == 3  # one line for the link, however often


def test_what_stands_on_the_bench_is_printed_in_its_unit(bench, monkeypatch):
    given = []
    monkeypatch.setattr(paper, "save_template", lambda *args, **more: given.append((args, more)) or no_room())
    bench.set(diameter="300 mm")
    bench.switch("in")
    bench.printouts.buttons["Template Letter"].click()
    ((model,), more), = given
    assert model == JIG.replace(diameter="300 mm") and more == {"paper": "Letter", "unit": "in"}


def test_sizes_that_cannot_be_made_are_not_printed(bench, tmp_path):
    bench.set(ring_width="300 mm")
    bench.printouts.buttons["Bench card A4"].click()
    assert "cannot be made" in said(bench.printouts.link)
    assert not (tmp_path / "printouts").exists()


def test_folder_that_cannot_be_written_is_told(bench, tmp_path):
    (tmp_path / "printouts").write_text("a file where the folder should be")
    bench.printouts.buttons[DXF].click()
    assert "Not saved" in said(bench.printouts.link) and "printouts" in said(bench.printouts.link)


@pytest.mark.parametrize("error", [OSError("the disc is <full>"), ValueError("<b>no</b>")])
def test_any_reason_is_told_without_its_markup(bench, monkeypatch, error):
    monkeypatch.setattr(paper, "save_card", lambda *args, **more: no_room(error))
    bench.printouts.buttons["Bench card A4"].click()
    assert said(bench.printouts.link) == f"✗ Not saved: {error}"


def test_links_go_when_the_sizes_move_on(bench):
    bench.printouts.buttons[DXF].click()
    assert "Saved as" in said(bench.printouts.link) and opener(bench)
    bench.set(diameter="300 mm")
    assert said(bench.printouts.link) == "" == opener(bench)


def test_no_link_to_a_file_that_was_not_saved_after_one_that_was(bench, monkeypatch):
    bench.printouts.buttons[DXF].click()
    monkeypatch.setattr(paper, "save_card", lambda *args, **more: no_room())
    bench.printouts.buttons["Bench card A4"].click()
    assert "Not saved" in said(bench.printouts.link) and opener(bench) == ""


def test_a_rim_has_cards(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    rim = RimBench(POINTS, "in")
    assert list(rim.printouts.buttons) == CARDS
    rim.printouts.buttons["Bench card Letter"].click()
    (path,) = (tmp_path / "printouts").iterdir()
    assert path.name.startswith("measured-rim_8-points_17-5-16in") and path.name.endswith("_card_Letter.pdf")
    text = " ".join(PdfReader(path).pages[0].extract_text().split())
    assert rim.verdict() in text and "Lengths in inches" in text
    rim.set(POINTS[:-1])
    assert said(rim.printouts.link) == ""
    rim.hear({"across.1": "moo"})
    rim.printouts.buttons["Bench card A4"].click()
    assert "nothing to print" in said(rim.printouts.link) and len(list((tmp_path / "printouts").iterdir())) == 1
