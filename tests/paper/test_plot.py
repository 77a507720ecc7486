"""Plates drawn with matplotlib, looked at as pixels."""

import math

import pytest
from matplotlib.image import imread

from shoplib import CircleJig, draw
from shoplib.drawing.sheet import Arc, Area, Circle, Line, Sheet, rectangle
from shoplib.paper.plot import arrowhead, path_of, save_png, touches


def shade(picture, x, y, reach=6):
    """Mean darkness of a little square round a point given in shares of the picture: 0 is white."""
    height, width = picture.shape[:2]
    column, row = round(x * width), round(y * height)
    return 1 - picture[row - reach : row + reach, column - reach : column + reach, :3].mean()


@pytest.fixture(scope="module")
def square_ring(tmp_path_factory):
    """A square 100 mm wide with a round hole of 60 mm, on a square plate."""
    sheet = Sheet("Square ring")
    view = sheet.view()
    view.area("kept", rectangle(-50, -50, 50, 50), Circle("kept", (0, 0), 30))
    path = save_png(sheet, tmp_path_factory.mktemp("png") / "ring.png", 800, 600.0, 600.0)
    return imread(path)


def test_width_in_pixels(square_ring, tmp_path):
    assert square_ring.shape[:2] == (800, 800)
    jig = draw(CircleJig("440 mm", "12 mm", ring_width="20 mm", stock_thickness="18 mm"))
    assert imread(save_png(jig, tmp_path / "jig.png")).shape[1] == 1600


def test_holes_stay_open_and_hatches_stay_inside(square_ring):
    assert shade(square_ring, 0.5, 0.45, 60) < 0.01
    assert shade(square_ring, 0.2, 0.2, 30) > 0.05
    assert shade(square_ring, 0.01, 0.5, 4) < 0.01


@pytest.mark.parametrize("layer", ["kept", "waste", "cutter"])
def test_hatches_differ_from_their_plain_ground(tmp_path, layer):
    sheet = Sheet("Hatch")
    sheet.view().area(layer, rectangle(0, 0, 100, 100))
    picture = imread(save_png(sheet, tmp_path / "hatch.png", 600, 600.0, 600.0))
    assert picture[200:300, 200:300, :3].std() > 0.02


@pytest.mark.parametrize(
    "hole", [Circle("kept", (0, 0), 3), rectangle(-1, -1, 1, 1), rectangle(-1, -1, 1, 1)[::-1]]
)
def test_holes_wind_the_other_way(hole):
    for outer in (Circle("kept", (0, 0), 9), rectangle(-9, -9, 9, 9), rectangle(-9, -9, 9, 9)[::-1]):
        path = path_of(Area("kept", (outer, hole)))
        starts = [k for k, code in enumerate(path.codes) if code == path.MOVETO] + [len(path.codes)]
        turns = [turning(path.vertices[a : b - 1]) for a, b in zip(starts, starts[1:])]
        assert len(turns) == 2 and turns[0] > 0 > turns[1]


def turning(points):
    return sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in zip(points, points[1:]))


def test_arcs_start_and_end_where_they_should():
    for start, end in ((0.2, 1.4), (1.4, 0.2), (-1.0, -2.5), (3.0, 4.0)):
        points = path_of(Arc("feed", (5, 7), 10, start, end)).vertices
        ends = {tuple(point.round(6)) for point in (points[0], points[-1])}
        assert ends == {
            (round(5 + 10 * math.cos(a), 6), round(7 + 10 * math.sin(a), 6)) for a in (start, end)
        }


def test_arrowheads_point_the_way_of_travel():
    tip, *back = arrowhead(Line("dimension", (0, 0), (10, 0), True), 0.1)
    assert tip == (10, 0) and all(x == pytest.approx(9) for x, _ in back)
    for end, way in ((math.pi / 2, -1), (-math.pi / 2, -1)):
        (x, _), *back = arrowhead(Arc("feed", (0, 0), 10, 0, end, True), 0.1)
        assert x == pytest.approx(0, abs=1e-9)
        assert all((x - bx) * way > 0 for bx, _ in back)


@pytest.mark.parametrize(
    ("box", "wanted"),
    [
        ((-1, -1, 1, 1), False), ((3, 3, 4, 4), True), ((8, -1, 12, 1), True), ((8, 8, 9, 9), False),
        ((-20, -20, 20, 20), True),
    ],
)
def test_a_ring_touches_a_box_by_its_line_or_its_ground(box, wanted):
    ring = Area("kept", (Circle("kept", (0, 0), 10), Circle("kept", (0, 0), 2)))
    assert touches(ring, box) is wanted
