"""Plates cut into pages: all of it is printed, and what is small is whole on some page."""

import itertools
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from models import EXAMPLES

from shoplib import ShapeError
from shoplib.drawing import has_template, template
from shoplib.drawing.layout import Plate, Text, lay_out
from shoplib.drawing.sheet import Circle, Line, Sheet, rectangle
from shoplib.paper.boxes import box_of, mark_box, meet, text_box
from shoplib.paper.files import PAPERS
from shoplib.paper.tiling import OVERLAP, SMALL, TEXT, Tiling, best_tiling, register_marks, starts, whole_boxes

FOOT = 40.0


def tiled(sheet, paper="A4"):
    plate = lay_out(sheet, text=TEXT, key=False, scale=1.0)
    return plate, best_tiling(plate, paper, lambda width: FOOT)


def disc(diameter, words=False):
    sheet = Sheet("Disc")
    view = sheet.view()
    view.area("kept", Circle("kept", (0, 0), diameter / 2))
    if words:
        view.circle("pivot", (0, 0), 4)
        view.dimension((-diameter / 2, 0), (diameter / 2, 0), f"across {diameter} mm")
        view.note((0, 0), "pivot\nhere", "right")
    return sheet


spans = st.tuples(st.floats(0, 1000), st.floats(0, 100)).map(lambda pair: (pair[0], sum(pair)))


@settings(max_examples=200)
@given(st.lists(spans, max_size=12), st.floats(1, 1100), st.floats(100, 300))
def test_windows_cover_overlap_and_keep_spans_whole(spans, length, window):
    low, high = 7.0, 7.0 + length
    spans = [(start + low, stop + low) for start, stop in spans if stop <= length]
    found = starts(spans, (low, high), window)
    assert found[0] <= low + 1e-6 and found[-1] + window >= high - 1e-6
    assert all(one < other <= one + window - OVERLAP + 1e-6 for one, other in itertools.pairwise(found))
    for start, stop in spans:
        assert any(each - 1e-6 <= start and stop <= each + window + 1e-6 for each in found)
    if not spans:
        fewest = max(1, math.ceil((length - OVERLAP) / (window - OVERLAP) - 1e-9))
        assert len(found) == fewest
        assert found[-1] + window - high == pytest.approx(low - found[0], abs=window / 40)


def test_bare_440_mm_disc_takes_six_pages():
    _, tiling = tiled(disc(440))
    assert len(tiling.tiles) == 6


@pytest.mark.parametrize("paper", PAPERS)
def test_every_point_of_the_edge_is_printed(paper):
    """Some page shows it inside its frame."""
    plate, tiling = tiled(disc(440), paper)
    (shape,) = plate.shapes
    (x, y), r = shape.outlines[0].centre, shape.outlines[0].radius
    for k in range(720):
        px, py = x + r * math.cos(math.pi * k / 360), y + r * math.sin(math.pi * k / 360)
        assert any(tiling.shows((px, py, px, py), tile) for tile in tiling.tiles)


def test_cores_meet_in_the_middle_of_each_overlap():
    tiling = Tiling((210.0, 297.0), FOOT, (-5.0, 120.0, 280.0), (0.0, 200.0))
    assert tiling.core((0, 0))[:2] == (-5.0, 0.0)
    assert tiling.core((1, 2))[2:] == (280.0 + tiling.tile[0], 200.0 + tiling.tile[1])
    for row, column in tiling.all_tiles():
        for end, start, other in ((2, 0, (row, column + 1)), (3, 1, (row + 1, column))):
            if other in tiling.all_tiles():
                assert tiling.core((row, column))[end] == tiling.core(other)[start]
                middle = (tiling.window((row, column))[end] + tiling.window(other)[start]) / 2
                assert tiling.core(other)[start] == pytest.approx(middle)


def test_pages_that_a_ring_does_not_touch_are_left_out():
    sheet = Sheet("Ring")
    sheet.view().area("kept", Circle("kept", (0, 0), 350), Circle("kept", (0, 0), 310))
    plate, tiling = tiled(sheet)
    missing = set(tiling.all_tiles()) - set(tiling.tiles)
    middle = plate.width / 2, plate.height / 2
    assert missing
    for left, top, right, bottom in map(tiling.core, missing):
        reach = [math.hypot(x - middle[0], y - middle[1]) for x, y in itertools.product((left, right), (top, bottom))]
        assert max(reach) < 310 or min(reach) > 350


def test_a_filled_disc_keeps_its_middle():
    _, tiling = tiled(disc(900))
    middle = (len(tiling.tops) // 2, len(tiling.lefts) // 2)
    assert middle in tiling.tiles


def check_whole(plate, tiling):
    """Hold that some page shows each text, dot, arrowhead and small shape whole, and that marks meet none of them."""
    boxes = whole_boxes(plate)
    for box in boxes:
        assert any(tiling.shows(box, tile) for tile in tiling.tiles), box
    for text in plate.texts:
        assert any(tiling.shows(text_box(text), tile) for tile in tiling.tiles), text
    heads = [line.end for line in plate.lines if line.arrow]
    for x, y in [*heads, *plate.dots]:
        assert any(tiling.shows((x - 0.5, y - 0.5, x + 0.5, y + 0.5), tile) for tile in tiling.tiles)
    for shape in plate.shapes:
        left, top, right, bottom = box_of(shape)
        if max(right - left, bottom - top) <= SMALL:
            assert any(tiling.shows((left, top, right, bottom), tile) for tile in tiling.tiles), shape
    marks = [mark_box(centre) for centre in register_marks(tiling, plate)]
    assert not any(meet(mark, box) for mark in marks for box in boxes)
    assert not any(meet(one, other) for one, other in itertools.combinations(marks, 2))
    for row, column in tiling.tiles:
        for other in ((row, column + 1), (row + 1, column)):
            if other in tiling.tiles:
                seen = [mark for mark in marks if tiling.shows(mark, (row, column)) and tiling.shows(mark, other)]
                assert len(seen) >= 2, "two marks join each two neighbours"


@pytest.mark.parametrize("paper", PAPERS)
def test_texts_and_pivot_stay_whole(paper):
    plate, tiling = tiled(disc(440, words=True), paper)
    assert len(plate.texts) == 3 and len(tiling.tiles) > 1
    check_whole(plate, tiling)


@pytest.mark.parametrize("cls", [cls for cls in EXAMPLES if has_template(cls)])
def test_nothing_small_is_cut_on_any_template(cls):
    for model, unit in itertools.product(EXAMPLES[cls], ("mm", "in")):
        try:
            sheet = template(model, unit)
        except ShapeError:  # says that there is no template of it
            continue
        for paper in PAPERS:
            check_whole(*tiled(sheet, paper))


def test_a_text_on_every_seam_stays_whole():
    """Fifty texts in a row, close together, as no uniform pages could keep them."""
    plate = Plate(2000.0, 100.0, "", "")
    plate.texts += [Text(20.0 + 39.0 * k, 50.0, "a text of some length", TEXT) for k in range(50)]
    plate.shapes.append(Line("joint", (0.0, 50.0), (2000.0, 50.0)))
    tiling = best_tiling(plate, "A4", lambda width: FOOT)
    check_whole(plate, tiling)
    assert len(tiling.tiles) <= 9


def test_what_is_larger_than_a_page_is_cut_without_complaint():
    sheet = Sheet("Board")
    sheet.view().area("kept", rectangle(0, 0, 1200, 300))
    _, tiling = tiled(sheet)
    assert len(tiling.tiles) == 15
