"""The letters: the fonts and the table of widths are DejaVu Sans as matplotlib ships it, and have every sign in use."""

import contextlib
from functools import cache
from pathlib import Path

import pytest
from fontTools.pens.recordingPen import DecomposingRecordingPen
from fontTools.ttLib import TTFont
from make_letters import FACES, THEIRS, made, widths
from models import EXAMPLES
from paper.reading import width

import shoplib
from shoplib import ShapeError, draw
from shoplib.drawing import has_template, template
from shoplib.drawing.layout import lay_out
from shoplib.drawing.plate import letter_widths, text_width
from shoplib.paper.contents import contents_of
from shoplib.paper.imprint import imprint_of
from shoplib.paper.typeface import FILES, FONTS, coded
from shoplib.tables import table


@cache
def ours(bold):
    return TTFont(FONTS / FILES[bold])


def outline(font, name):
    """How a letter is drawn, and all its coordinates."""
    pen = DecomposingRecordingPen(font.getGlyphSet())
    font.getGlyphSet()[name].draw(pen)
    points = [point for _, points in pen.value for point in points if point is not None]
    return [way for way, _ in pen.value], [each for point in points for each in point]


@pytest.mark.parametrize("bold", [False, True])
def test_every_letter_has_its_width_and_shape(bold):
    """The table against the shipped font, and that against matplotlib's own file and its own reading of it."""
    theirs, known = TTFont(THEIRS / f"{[*FACES.values()][bold]}.ttf"), letter_widths(bold)[0]
    mine, names = ours(bold).getBestCmap(), theirs.getBestCmap()
    assert set(map(ord, known)) == set(mine) and len(mine) > 650
    for code, name in mine.items():
        assert known[chr(code)] == ours(bold)["hmtx"][name][0] == theirs["hmtx"][names[code]][0]
        (ways, points), (wanted, at) = outline(ours(bold), name), outline(theirs, names[code])
        assert ways == wanted and points == pytest.approx(at, abs=1), chr(code)
    for text in ("outside Ø 440.0 mm", "½ ± 0.5 ≈ deg", "WAVY AVA To."):
        assert text_width(text, 1.0, bold) == pytest.approx(width(text, bold))
    assert letter_widths(bold)[1] == theirs["hmtx"][".notdef"][0]


def test_fonts_and_table_are_what_their_tool_makes():
    fonts = [made(name) for name in FACES.values()]
    rows = [tuple(row.values()) for row in table("letters")]
    assert rows == [(letter, *map(float, across)) for letter, *across in widths(fonts)]
    assert [len(font.getGlyphOrder()) for font in fonts] == [len(ours(bold).getGlyphOrder()) for bold in (False, True)]


def test_the_licence_is_beside_the_fonts():
    words = (FONTS / "LICENSE.txt").read_text(encoding="utf-8")
    assert "Bitstream Vera" in words and "DejaVu changes are in public domain" in words


def printed():
    """Every text of the examples' drawings, templates and cards."""
    for models in EXAMPLES.values():
        for model in models:
            for unit in ("mm", "in"):
                sheets = [draw(model, unit)]
                if has_template(type(model)):
                    with contextlib.suppress(ShapeError):  # there is no template of these sizes
                        sheets.append(template(model, unit))
                for sheet in sheets:
                    yield from (text.text for text in lay_out(sheet).texts)
                    yield f"{sheet.title} {sheet.use}"
                yield str(contents_of(model.plain, sheets[0], imprint_of(model, unit), sheets[0].use))


def test_every_sign_in_use_can_be_printed():
    used = {letter for text in printed() for letter in text} | set("°±×≤≥⌀Ø½¼¾⅛⚠✓✗→−–—µ□…")
    for path in Path(shoplib.__file__).parent.rglob("*.py"):
        if not {"build", "bench"} & set(path.parts):  # what only a page shows needs no letters of ours
            used |= set(path.read_text(encoding="utf-8"))
    for bold in (False, True):
        assert used - set(letter_widths(bold)[0]) - {"\n"} == set()


def test_texts_are_coded_by_their_letters():
    assert coded("A½") == b"<004100bd>" and coded("🪚") == b"<fffd>"
