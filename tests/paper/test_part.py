"""Plates on a page, looked at as pixels by another program, and read back from the PDF."""

import itertools
import math

import numpy
import pytest
from paper.reading import MM, page_size, pages, pixels, strokes

from shoplib.drawing.plate import Plate, Text, text_width
from shoplib.drawing.sheet import Arc, Area, Circle, EndGrain, Line, rectangle
from shoplib.paper.document import Page, save_pdf
from shoplib.paper.layers import LAYERS_ON_PAPER
from shoplib.paper.part import Part, rgb

SIDE = 100.0  # mm of the page


def plate(*shapes, lines=(), texts=(), dots=()):
    made = Plate(SIDE, SIDE, "A plate", "")
    made.shapes += shapes
    made.lines += lines
    made.texts += texts
    made.dots += dots
    return made


def printed(folder, *parts):
    page = Page(SIDE, SIDE)
    for part in parts:
        part.draw(page)
    return save_pdf(folder / "page.pdf", [page], "A page")


def alone(made, **how):
    return Part(made, (0, 0, SIDE, SIDE), **how)


def seen(picture, x, y, reach=2.0):
    """The pixels of a little square round a point in mm."""
    px = picture.shape[0] / SIDE
    column, row, half = round(x * px), round(y * px), round(reach * px)
    return picture[row - half : row + half, column - half : column + half]


def test_paper_is_white_and_holes_stay_open_and_hatches_stay_inside(tmp_path):
    square = Area("kept", (rectangle(10, 10, 90, 90), Circle("kept", (50, 50), 24)))
    picture = pixels(printed(tmp_path, alone(plate(square))))
    assert seen(picture, 4, 50).min() == seen(picture, 50, 4).min() == 1
    assert seen(picture, 50, 50, 12).min() == 1, "a hole"
    wood = seen(picture, 20, 20, 6)
    assert wood.std() > 0.05 and wood.reshape(-1, 3).max(axis=0) == pytest.approx(rgb("#f7dfae"), abs=0.01)


@pytest.mark.parametrize("hole", [rectangle(40, 40, 60, 60), rectangle(40, 40, 60, 60)[::-1]])
def test_holes_are_open_whichever_way_they_run(tmp_path, hole):
    picture = pixels(printed(tmp_path, alone(plate(Area("kept", (rectangle(10, 10, 90, 90), hole))))))
    assert seen(picture, 50, 50).min() == 1 and seen(picture, 25, 50).max() < 1


@pytest.mark.parametrize("layer", [name for name, layer in LAYERS_ON_PAPER.items() if layer.hatch])
def test_hatches_differ_from_their_plain_ground(tmp_path, layer):
    picture = pixels(printed(tmp_path, alone(plate(Area(layer, (rectangle(0, 0, 100, 100),))))))
    assert seen(picture, 50, 50, 20).std() > 0.02


def bright(picture, angle):
    """How much rows of pixels differ from one another when the picture is looked at along an angle (rad, y up)."""
    middle, reach = picture.shape[0] / 2, picture.shape[0] / 4
    c, s = math.cos(angle), math.sin(angle)
    out, run = numpy.meshgrid(numpy.linspace(-reach, reach, 300), numpy.linspace(-reach, reach, 300), indexing="ij")
    columns, rows = middle + run * c + out * s, middle - run * s + out * c
    return picture.mean(axis=2)[rows.astype(int), columns.astype(int)].mean(axis=1).std()


@pytest.mark.parametrize("degrees", [0, 30, 90, 150])
def test_grain_runs_the_way_the_fibres_run(tmp_path, degrees):
    wood = Area("stave", (rectangle(0, 0, 100, 100),), math.radians(degrees))
    picture = pixels(printed(tmp_path, alone(plate(wood))))
    found = {each: bright(picture, math.radians(each)) for each in (0, 30, 60, 90, 120, 150)}
    assert max(found, key=found.get) == degrees, found


def test_rings_lie_round_the_pith_outside_the_shape(tmp_path):
    end = Area("stave", (rectangle(20, 20, 80, 80),), EndGrain((50, 90)))
    (page,) = pages(printed(tmp_path, alone(plate(end))))
    rings = [each for each in strokes(page) if each.bends and each.paint == "S"]
    assert len(rings) > 20
    for ring in rings:
        assert ring.middle == pytest.approx((50, SIDE - 90), abs=0.01)
    picture = pixels(tmp_path / "page.pdf")
    assert seen(picture, 50, 90).min() == 1, "clipped to the shape"


def test_hatches_meet_from_one_page_to_the_next(tmp_path):
    """The same ground seen by two windows has the same pixels."""
    shapes = [
        Area("kept", (rectangle(0, 0, 100, 100),)), Area("stave", (rectangle(20, 0, 60, 40),), 0.6),
        Area("waste", (rectangle(30, 60, 90, 90),)), Area("cutter", (Circle("cutter", (70, 30), 9),)),
    ]  # fmt: skip
    whole = pixels(printed(tmp_path, alone(plate(*shapes))), dpi=254)
    left, top = 25.0, 12.0
    window = Part(plate(*shapes), (left, top, 50, 60), (left, top, left + 50, top + 60))
    part = pixels(printed(tmp_path, window), dpi=254)
    inside = (slice(140, 700), slice(270, 730))
    assert abs(whole[inside] - part[inside]).max() < 0.02
    assert part[:115].min() == 1 and part[:, :245].min() == 1 and part[:, 755:].min() == 1 and part[725:].min() == 1


def test_a_window_is_placed_and_scaled(tmp_path):
    line = Line("rule", (10, 20), (40, 20))
    parts = Part(plate(lines=[line]), (50, 30, 40, 20), (0, 10, 80, 50)), alone(plate(lines=[line]))
    (page,) = pages(printed(tmp_path, *parts))
    small, true = (each.points for each in strokes(page) if len(each.points) == 2)
    assert parts[0].scale == 0.5
    assert small.tolist() == [pytest.approx((55, SIDE - 35), abs=1e-4), pytest.approx((70, SIDE - 35), abs=1e-4)]
    assert true.tolist() == [pytest.approx((10, SIDE - 20), abs=1e-4), pytest.approx((40, SIDE - 20), abs=1e-4)]


def test_what_may_not_be_cut_is_whole_or_left_out(tmp_path):
    made = plate(
        lines=[Line("dimension", (30, 30), (61.5, 30), True), Line("dimension", (30, 40), (50, 40), True)],
        dots=[(60.7, 20), (50, 20)], texts=[Text(60, 50, "cut", 4.0), Text(50, 60, "whole", 4.0)],
    )  # fmt: skip
    parts = {whole: Part(made, (0, 0, 61, 100), (0, 0, 61, 100), whole=whole) for whole in (False, True)}
    for whole, part in parts.items():
        (page,) = pages(printed(tmp_path, part))
        fills = [each for each in strokes(page) if each.paint == "f"]
        assert ("cut" in page.extract_text(), "whole" in page.extract_text()) == (not whole, True)
        assert len([each for each in fills if each.bends]) == (1 if whole else 2), "dots"
        assert len([each for each in fills if len(each.points) == 3]) == (1 if whole else 2), "arrowheads"


@pytest.mark.parametrize("bold", [False, True])
@pytest.mark.parametrize("anchor", ["start", "middle", "end"])
@pytest.mark.parametrize("turn", [0, 90])
def test_texts_stand_in_their_boxes(tmp_path, bold, anchor, turn):
    """Their ink, as another program draws it, fills the box from end to end, in the middle of its height."""
    text = Text(50, 55, "HOLE 17 3/8 IN", 5.0, "middle" if turn else anchor, turn, bold)
    picture = pixels(printed(tmp_path, alone(plate(texts=[text]))), dpi=254)
    rows, columns = numpy.nonzero(picture.mean(axis=2) < 0.5)
    left, right, top, bottom = columns.min() / 10, columns.max() / 10, rows.min() / 10, rows.max() / 10
    box = text.box()
    assert box[0] - 0.1 <= left and right <= box[2] + 0.1
    assert box[1] - 0.1 <= top and bottom <= box[3] + 0.1
    ends = (top - box[1], box[3] - bottom) if turn else (left - box[0], box[2] - right)
    assert max(ends) < 0.8, "as wide as the box"
    sides = (left + right, box[0] + box[2]) if turn else (top + bottom, box[1] + box[3])
    assert abs(sides[0] - sides[1]) / 2 < 0.25, "in the middle of its height"


def test_texts_begin_where_they_should(tmp_path):
    """Read back from the PDF: where each begins, to a hundredth of a mm."""
    texts = [Text(30, 20, "start ½", 4.0, "start"), Text(50, 40, "middle", 3.0), Text(70, 50, "up", 4.0, turn=90),
             Text(90, 60, "end", 5.0, "end", bold=True)]  # fmt: skip
    (page,) = pages(printed(tmp_path, alone(plate(texts=texts))))
    found = {}

    def visit(words, now, at, font, size):
        if words.strip():
            matrix = numpy.array([[at[0], at[1], 0], [at[2], at[3], 0], [at[4], at[5], 1]]) @ numpy.array(
                [[now[0], now[1], 0], [now[2], now[3], 0], [now[4], now[5], 1]]
            )
            found[words.strip()] = (matrix[2, 0] * MM, SIDE - matrix[2, 1] * MM, matrix[0, 0], matrix[0, 1])

    page.extract_text(visitor_text=visit)
    assert set(found) == {text.text for text in texts}
    for text in texts:
        across = text_width(text.text, text.size, text.bold)
        back = {"start": 0, "middle": across / 2, "end": across}[text.anchor]
        drop = 0.36 * text.size
        wanted = (text.x + drop, text.y + back) if text.turn else (text.x - back, text.y + drop)
        assert found[text.text][:2] == pytest.approx(wanted, abs=0.01), text
        level, upright = found[text.text][2:]
        assert (upright > 1 and level == 0) if text.turn else (level > 1 and upright == 0), "reads upwards or level"


def test_texts_stand_on_white(tmp_path):
    made = plate(Area("kept", (rectangle(0, 0, 100, 100),)), texts=[Text(50, 50, "il", 6.0)])
    picture = seen(pixels(printed(tmp_path, alone(made)), dpi=254), 50, 50, 1.2)
    white = (picture.min(axis=2) == 1).mean()
    assert white > 0.4 and picture.min() < 0.2


def test_lines_have_their_widths_dashes_and_colours(tmp_path):
    for name, layer in LAYERS_ON_PAPER.items():
        if not layer.width:
            continue
        page = Page(SIDE, SIDE)
        alone(plate(Line(name, (10, 50), (90, 50))), pen=0.5).draw(page)
        drawn = b"\n".join(each if isinstance(each, bytes) else each.encode() for each in page.stream.stream).decode()
        assert f"{layer.width * 0.5:g} w\n" in drawn
        assert f"[{' '.join(f'{dash * 0.5:g}' for dash in layer.dashes)}] 0 d" in drawn
        assert " ".join(f"{part:g}" for part in rgb(layer.colour)) + " RG" in drawn


def test_dashes_are_seen(tmp_path):
    line = plate(Line("hidden", (0, 50), (100, 50)))
    picture = pixels(printed(tmp_path, alone(line, pen=0.5)), dpi=254)
    dark = picture[500].mean(axis=1) < 0.5
    runs = [len(list(run)) for is_dark, run in itertools.groupby(dark) if is_dark][1:-1]
    assert len(runs) > 15 and all(run == pytest.approx(30, abs=2) for run in runs)  # dashes of 6 px, 0.5 mm each


def test_arcs_and_their_arrows(tmp_path):
    made = plate(Arc("feed", (50, 50), 30, 0.0, math.pi / 2, True))
    (page,) = pages(printed(tmp_path, alone(made)))
    assert page_size(page) == pytest.approx((SIDE, SIDE))
    (arc,) = [each for each in strokes(page) if each.bends]
    assert arc.points[0] == pytest.approx((80, 50), abs=0.01) and arc.points[-1] == pytest.approx((50, 20), abs=0.01)
    (head,) = [each for each in strokes(page) if each.paint == "f" and len(each.points) == 3]
    assert head.points[0] == pytest.approx((50, 20), abs=0.01) and (head.points[1:, 0] > 51).all()
