"""Every notebook is in normal form, reads the same way and stays short in code."""

import statistics

import nbformat
import pytest
from normal_form import faults, lessons

LESSONS = lessons()


def _cells(path, kind):
    return [cell for cell in nbformat.read(path, as_version=4).cells if cell.cell_type == kind]


def test_there_are_lessons():
    assert [path.stem for path in LESSONS][:3] == ["00_start_here", "01_circle_jigs", "02_stave_rings"]


@pytest.mark.parametrize("path", LESSONS, ids=lambda path: path.stem)
def test_normal_form(path):
    assert faults(path) == []


@pytest.mark.parametrize("path", LESSONS, ids=lambda path: path.stem)
def test_more_words_than_code_and_short_cells(path):
    code = [len(cell.source.splitlines()) for cell in _cells(path, "code")]
    assert statistics.median(code) <= 3
    assert max(code) <= 15
    assert sum(length <= 8 for length in code) >= 0.9 * len(code)
    words = sum(len(cell.source) for cell in _cells(path, "markdown"))
    assert words > sum(len(cell.source) for cell in _cells(path, "code"))


SECTIONS = (
    "What you will be able to set up", "At the bench", "Why it works", "What goes wrong", "Practice",
    "Take it to the bench", "Cautions",
)


@pytest.mark.parametrize("path", LESSONS[1:], ids=lambda path: path.stem)
def test_the_same_anatomy(path):
    text = "\n".join(cell.source for cell in _cells(path, "markdown"))
    places = [text.index(f"## {section}") for section in SECTIONS]
    assert places == sorted(places)


@pytest.mark.parametrize("path", LESSONS, ids=lambda path: path.stem)
def test_links_lead_somewhere(path):
    import re

    text = "\n".join(cell.source for cell in _cells(path, "markdown"))
    targets = re.findall(r"\]\(([^)#:]+\.ipynb|[^)#:]+\.png|[^)#:]+\.md)\)", text)
    targets += re.findall(r'<img src="([^"]+)" alt="[^"]+"', text)
    assert text.count("<img") == text.count("<img src=")
    assert targets
    for target in targets:
        assert (path.parent / target).exists(), target


@pytest.mark.parametrize("path", LESSONS, ids=lambda path: path.stem)
def test_every_stored_picture_has_alternative_text(path):
    for cell in _cells(path, "code"):
        for output in cell.outputs:
            page = output.get("data", {}).get("text/html", "")
            assert page.count("<img") == page.count("<img alt=\"")
            assert "image/png" not in output.get("data", {}) or output.metadata.get("image/png", {}).get("alt")
