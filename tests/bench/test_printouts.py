"""Buttons that save a card, a template or a DXF beside the notebook and offer it as a download."""

import base64
import re

import pytest
from pages import said

from shoplib import Bench, CircleJig, Rolling, paper

JIG = CircleJig("440 mm", "12 mm", ring_width="20 mm", stock_thickness="18 mm", pass_depth="5 mm")
STARTS = {"card": b"%PDF", "A4": b"%PDF", "Letter": b"%PDF", "dxf": b"  0\nSECTION"}


@pytest.fixture
def bench(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    return Bench(JIG)


@pytest.mark.parametrize("kind", STARTS)
def test_button_saves_the_file_and_offers_it(bench, tmp_path, kind):
    bench.printouts.buttons[kind].click()
    (path,) = (tmp_path / "printouts").iterdir()
    assert path.read_bytes().replace(b"\r\n", b"\n").startswith(STARTS[kind])
    assert f"Saved as printouts/{path.name}" in said(bench.printouts.link)
    link = re.search(r"download='([^']*)' href='data:[^;]*;base64,([^']*)'", bench.printouts.link.value)
    name, coded = link.groups()
    assert name == path.name and base64.b64decode(coded) == path.read_bytes()


def test_what_has_no_template_offers_a_card_only():
    stand = Bench(Rolling("24 kg", "420 mm", "180 mm", "360 mm", "360 mm", "430 mm"))
    assert list(stand.printouts.buttons) == ["card"]


def test_saving_twice_leaves_one_whole_file(bench, tmp_path):
    for _ in range(2):
        bench.printouts.save("card")
    assert len(list((tmp_path / "printouts").iterdir())) == 1


def test_what_stands_on_the_bench_is_printed_in_its_unit(bench, monkeypatch):
    given = []
    monkeypatch.setattr(paper, "save_template", lambda *args, **more: given.append((args, more)) or 1 / 0)
    bench.set(diameter="300 mm")
    bench.units.value = "in"
    with pytest.raises(ZeroDivisionError):
        bench.printouts.save("Letter")
    ((model,), more), = given
    assert model == JIG.replace(diameter="300 mm") and more == {"paper": "Letter", "unit": "in"}


def test_sizes_that_cannot_be_made_are_not_printed(bench, tmp_path):
    bench.set(ring_width="300 mm")
    bench.printouts.buttons["card"].click()
    assert "cannot be made" in said(bench.printouts.link)
    assert not (tmp_path / "printouts").exists()


def test_folder_that_cannot_be_written_is_told(bench, tmp_path):
    (tmp_path / "printouts").write_text("a file where the folder should be")
    bench.printouts.buttons["dxf"].click()
    assert "Not saved" in said(bench.printouts.link) and "printouts" in said(bench.printouts.link)


@pytest.mark.parametrize("error", [OSError("the disc is <full>"), ValueError("<b>no</b>")])
def test_any_reason_is_told_without_its_markup(bench, monkeypatch, error):
    def fail(*args, **more):
        raise error

    monkeypatch.setattr(paper, "save_card", fail)
    bench.printouts.save("card")
    assert said(bench.printouts.link) == f"✗ Not saved: {error}"


def test_link_goes_when_the_sizes_move_on(bench):
    bench.printouts.save("card")
    assert "Saved as" in said(bench.printouts.link)
    bench.set(diameter="300 mm")
    assert said(bench.printouts.link) == ""
