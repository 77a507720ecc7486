"""Every notebook is in normal form, reads the same way and stays short in code."""

import re
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


# What a reader is never shown: what Python writes for itself.
NOT_FOR_READERS = {
    "a Quantity": r"Quantity\(",
    "a list or tuple of quoted strings": r"""[\[(]\s*(['"]).*?\1\s*[,\])]""",
    "a dictionary": r"""\{\s*(['"]).*?\1\s*:""",
    "a quoted string": r"""\A\s*(['"]).*\1\s*\Z""",
    "a list, tuple or set": r"\A\s*(\[.*\]|\(.*\)|\{.*\})\s*\Z",
    "a path": r"(Posix|Windows)Path\(",
    "an object at its address": r"<[\w. ]+ at 0x[0-9a-f]+>",
    "digits without end": r"\d\.\d{6,}",
}


def _shown(output):
    """What a reader may see of an output: its texts, and its page less tags and pictures."""
    data = output.get("data", {})
    yield output.get("text", "")
    yield data.get("text/plain", "")
    yield data.get("text/latex", "")
    yield re.sub(r"<[a-z/][^>]*>", " ", data.get("text/html", ""))


def what_python_writes(text):
    """The forms in a text that are not for readers."""
    return [what for what, form in NOT_FOR_READERS.items() if re.search(form, text, re.DOTALL)]


@pytest.mark.parametrize("path", LESSONS, ids=lambda path: path.stem)
def test_a_reader_sees_sentences_tables_and_formulas_only(path):
    found = [
        f"cell {place} shows {what}: {text.strip()[:60]}"
        for place, cell in enumerate(nbformat.read(path, as_version=4).cells) if cell.cell_type == "code"
        for output in cell.outputs for text in _shown(output) for what in what_python_writes(text)
    ]  # fmt: skip
    assert found == []


@pytest.mark.parametrize("text, what", [
    ("<Quantity(225.5, 'millimeter')>", "a Quantity"),
    ("['4.75 mm', '9.50 mm']", "a list or tuple of quoted strings"),
    ("('a_card_A4.pdf',\n 'a_template_A4.pdf')", "a list or tuple of quoted strings"),
    ("{'30 %': '6.2 %'}", "a dictionary"),
    ("'0.56'", "a quoted string"),
    ("(4 rails 331.28 mm long,)", "a list, tuple or set"),
    ("[1, 2]", "a list, tuple or set"),
    ("PosixPath('a.pdf')", "a path"),
    ("<shoplib.bench.bench.Bench at 0x7f00>", "an object at its address"),
    ("12.085786437627611 millimeter", "digits without end"),
])  # fmt: skip
def test_what_python_writes_for_itself_is_known(text, what):
    assert what in what_python_writes(text)


@pytest.mark.parametrize("text", [
    "outside cut, pivot  8 57/64 in (8.898)", "the leg's end (the drill's point), 12.5 mm",
    "centre at 231.09 mm, 226.47 mm",
    "It must stay under 220.0 mm (see 'What goes wrong').",
])  # fmt: skip
def test_a_sentence_is_let_through(text):
    assert what_python_writes(text) == []


@pytest.mark.parametrize("path", LESSONS, ids=lambda path: path.stem)
def test_no_text_is_put_together_in_a_cell(path):
    """What is told has words of its own in shoplib: no f-string, no str() in a lesson."""
    found = [cell.source for cell in _cells(path, "code") if re.search(r"""\bf['"]|\bstr\(|\.format\(""", cell.source)]
    assert found == []
