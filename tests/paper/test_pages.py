"""Full-size templates, measured on the pages as a rule would: from the PDF's own lines."""

import math
from itertools import product

import matplotlib
import numpy
import pytest
from paper.reading import circles, fit_circle, page_size, pages, strokes

from shoplib import CircleJig, HollowBlank, StaveRing, save_template
from shoplib.drawing.layout import lay_out
from shoplib.drawing.sheet import Circle, Sheet, rectangle
from shoplib.paper.boxes import box_of
from shoplib.paper.files import PAPERS
from shoplib.paper.pages import MARGIN, OVERLAP, TEXT, Tiling, best_tiling, name, write_template

RULE = 0.1  # mm, what a rule can tell


def disc(diameter, centre_lines=False):
    sheet = Sheet(f"Disc {diameter} mm across", "A disc.")
    view = sheet.view()
    view.area("kept", Circle("kept", (0, 0), diameter / 2))
    if centre_lines:
        view.circle("pivot", (0, 0), 4)
        view.dimension((-diameter / 2, 0), (diameter / 2, 0), f"across {diameter} mm")
        view.note((0, 0), "pivot\nhere", "right")
    return sheet


def ring(diameter, width):
    sheet = Sheet("Ring")
    view = sheet.view()
    view.area("kept", Circle("kept", (0, 0), diameter / 2), Circle("kept", (0, 0), diameter / 2 - width))
    return sheet


USERS = {
    "plain": {},
    "tight": {  # one whose own settings would spoil the page
        "savefig.bbox": "tight", "figure.dpi": 37, "savefig.dpi": 11, "lines.linewidth": 9, "font.size": 40,
        "text.usetex": True, "figure.autolayout": True, "savefig.pad_inches": 3, "path.sketch": (3, 30, 3),
    },
}  # fmt: skip


@pytest.fixture(params=USERS)
def user(request):
    with matplotlib.rc_context(USERS[request.param]):
        yield request.param


@pytest.fixture(scope="module", params=[("A4", "tight"), ("Letter", "plain")], ids="-".join)
def disc_440(request, tmp_path_factory):
    """The path of a printed disc 440 mm across."""
    paper, who = request.param
    with matplotlib.rc_context(USERS[who]):
        path = tmp_path_factory.mktemp("pages") / "disc.pdf"
        return write_template(disc(440, centre_lines=True), path, paper)


@pytest.mark.parametrize("paper", PAPERS)
def test_page_is_the_paper(tmp_path, user, paper):
    for wide, sheet in ((False, rectangles(40, 220)), (True, rectangles(220, 40))):
        (page,) = pages(write_template(sheet, tmp_path / "disc.pdf", paper))
        wanted = PAPERS[paper][::-1] if wide else PAPERS[paper]
        assert page_size(page) == pytest.approx(wanted, abs=0.001)


def rectangles(width, height):
    sheet = Sheet("Board")
    sheet.view().area("kept", rectangle(0, 0, width, height))
    return sheet


def test_check_ruler_on_every_page(disc_440):
    for page in pages(disc_440):
        lines = [each.points for each in strokes(page) if len(each.points) == 2 and each.paint in ("S", "s")]
        level = [line for line in lines if abs(line[0, 1] - line[1, 1]) < 1e-6 and line[0, 1] < MARGIN + 20]
        (base,) = [line for line in level if abs(abs(line[1, 0] - line[0, 0]) - 101.6) < RULE]
        left, y = base[0]
        upright = [line for line in lines if abs(line[0] - line[1])[0] < 1e-6 and abs(line[0, 1] - y) < 1e-6]
        above = sorted(line[0, 0] - left for line in upright if line[1, 1] > y)
        below = sorted(line[0, 0] - left for line in upright if line[1, 1] < y)
        assert above == pytest.approx([10 * k for k in range(11)], abs=RULE / 10)
        assert below == pytest.approx([12.7 * k for k in range(9)], abs=RULE / 10)


def finished_edge(page, radius):
    """Points of the stroked disc's edge: the largest bent stroke of the page."""
    bent = [each for each in strokes(page) if each.bends and each.paint in ("S", "s")]
    edge = max(bent, key=lambda each: each.size.max())
    assert abs(edge.size - 2 * radius).max() < 5
    return edge.points


def test_440_mm_disc_goes_together_over_its_pages(disc_440):
    """Each page alone holds its part of the disc; the marks of neighbours stand alike about its centre."""
    sheets, seen = pages(disc_440), []
    for page in sheets:
        centre, radius = fit_circle(finished_edge(page, 220))
        assert radius == pytest.approx(220, abs=RULE / 2)
        width, height = page_size(page)
        inside = [mark - centre for mark in circles(page, 2.5) if 12 <= mark[0] <= width - 12]
        seen += [tuple(mark) for mark in inside]
    for x, y in seen:  # every mark has one twin on another page, and no other mark is near
        assert sorted(math.hypot(x - a, y - b) < RULE for a, b in seen)[-3:] == [False, True, True]
    assert len(seen) >= 4 * (len(sheets) - 1)


def test_bare_440_mm_disc_takes_six_pages():
    plate = lay_out(disc(440), text=TEXT, key=False, scale=1.0)
    assert len(best_tiling(plate, "A4").tiles) == 6


@pytest.mark.parametrize("paper", PAPERS)
def test_every_point_of_the_edge_is_printed(tmp_path, paper):
    """Some page shows it inside its frame."""
    plate = lay_out(disc(440), text=TEXT, key=False, scale=1.0)
    tiling = best_tiling(plate, paper)
    (shape,) = plate.shapes
    (x, y), r = shape.outlines[0].centre, shape.outlines[0].radius
    for k in range(720):
        px, py = x + r * math.cos(math.pi * k / 360), y + r * math.sin(math.pi * k / 360)
        windows = map(tiling.window, tiling.tiles)
        assert any(left <= px <= right and top <= py <= bottom for left, top, right, bottom in windows)


@pytest.mark.parametrize("size", [(100, 100), (440, 440), (1500, 900), (186, 247), (186.1, 247.1)])
def test_windows_overlap_and_cores_meet(size):
    tiling = Tiling((210.0, 297.0), size, shift=(1.5, -2.0))
    rows, columns = tiling.grid
    left, top, right, bottom = tiling.extent()
    assert right - left >= size[0] and bottom - top >= size[1]
    assert tiling.core((0, 0))[:2] == pytest.approx((left, top))
    assert tiling.core((rows - 1, columns - 1))[2:] == pytest.approx((right, bottom))
    for row, column in tiling.all_tiles():
        for end, start, other in ((2, 0, (row, column + 1)), (3, 1, (row + 1, column))):
            if other in tiling.all_tiles():
                shared = tiling.window((row, column))[end] - tiling.window(other)[start]
                assert shared == pytest.approx(OVERLAP)
                assert tiling.core((row, column))[end] == pytest.approx(tiling.core(other)[start])


def test_empty_pages_are_left_out_and_the_labels_keep_their_places(tmp_path):
    plate = lay_out(ring(700, 40), text=TEXT, key=False, scale=1.0)
    tiling = best_tiling(plate, "A4")
    missing = set(tiling.all_tiles()) - set(tiling.tiles)
    rows, columns = tiling.grid
    middle = plate.width / 2, plate.height / 2
    assert missing
    for left, top, right, bottom in map(tiling.window, missing):
        corners = product((left, right), (top, bottom))
        reach = [math.hypot(x - middle[0], y - middle[1]) for x, y in corners]
        assert max(reach) < 320 or min(reach) > 340
    printed = pages(write_template(ring(700, 40), tmp_path / "ring.pdf"))
    assert len(printed) == len(tiling.tiles) == rows * columns - len(missing)
    for page, tile in zip(printed, tiling.tiles):
        assert f"{name(tile)} of {len(printed)}" in page.extract_text()


def test_a_filled_disc_keeps_its_middle():
    plate = lay_out(disc(900), text=TEXT, key=False, scale=1.0)
    tiling = best_tiling(plate, "A4")
    rows, columns = tiling.grid
    assert (rows // 2, columns // 2) in tiling.tiles


@pytest.mark.parametrize("paper", PAPERS)
def test_texts_and_pivot_stay_whole(paper):
    plate = lay_out(disc(440, centre_lines=True), text=TEXT, key=False, scale=1.0)
    tiling = best_tiling(plate, paper)
    windows = [tiling.window(tile) for tile in tiling.tiles]
    pivot = [box_of(shape) for shape in plate.shapes if shape.layer == "pivot"]
    assert len(plate.texts) == 3
    for box in [text.box() for text in plate.texts] + pivot:
        assert any(w[0] <= box[0] and w[1] <= box[1] and w[2] >= box[2] and w[3] >= box[3] for w in windows)


def test_words_on_every_page(tmp_path, disc_440):
    texts = [" ".join(page.extract_text().split()) for page in pages(disc_440)]
    for text in texts:
        assert "Disc 440 mm across" in text
        assert "Print at 100 % (actual size). Measure the check ruler before you cut." in text
        assert "register marks meet" in text
    assert any("across 440 mm" in text for text in texts)
    (alone,) = pages(write_template(disc(100), tmp_path / "disc.pdf"))
    assert "register marks" not in alone.extract_text() and not circles(alone, 2.5)


def test_same_drawing_gives_the_same_bytes_without_a_date(tmp_path):
    first = write_template(disc(60), tmp_path / "first.pdf").read_bytes()
    assert first == write_template(disc(60), tmp_path / "second.pdf").read_bytes()
    assert b"CreationDate" not in first


def test_a_user_keeps_their_settings(tmp_path, user):
    before = dict(matplotlib.rcParams)
    write_template(disc(100), tmp_path / "disc.pdf")
    assert dict(matplotlib.rcParams) == before


MODELS = [
    CircleJig("440 mm", "12 mm", ring_width="20 mm"),
    StaveRing("440 mm", "400 mm", 12, margin="3 mm"),
    HollowBlank("440 mm", "400 mm", "60 mm", margin="3 mm"),
]


@pytest.mark.parametrize("model", MODELS, ids=lambda model: type(model).__name__)
def test_templates_of_the_models(tmp_path, model):
    path = save_template(model, "Letter", "in", tmp_path)
    assert path.parent == tmp_path and path.name.endswith("_template_Letter.pdf")
    assert all(page_size(page)[0] in (pytest.approx(215.9), pytest.approx(279.4)) for page in pages(path))


def test_drilled_pivots_are_as_far_apart_as_they_should_be(tmp_path):
    """The two pivot holes of a ring lie ring width and one cutter apart: 32 mm."""
    holes = []
    for page in pages(save_template(MODELS[0], folder=tmp_path)):
        bent = [each for each in strokes(page) if each.bends and each.paint in ("S", "s")]
        round_ones = [each for each in bent if abs(each.size[0] - each.size[1]) < 1e-3 and each.size[0] > 3]
        middles = {tuple(numpy.round(each.middle, 3)) for each in round_ones if each.middle[1] > 50}
        holes += [abs(a[0] - b[0]) for a, b in product(middles, middles) if abs(a[1] - b[1]) < 1e-3]
    assert any(distance == pytest.approx(32, abs=RULE) for distance in holes)


def test_unknown_paper_is_refused_before_anything_is_written(tmp_path):
    with pytest.raises(ValueError, match="A4 or Letter"):
        save_template(MODELS[0], "A3", folder=tmp_path)
    assert not list(tmp_path.iterdir())
