"""The plate of a measured rim: points where they were measured, residuals enlarged outward, no text on another."""

import math

import pytest
from shapely import Point, box
from shapely.geometry import LineString
from shapes import on, text_box

from shoplib.drawing.layout import lay_out
from shoplib.drawing.rims import draw_rim, enlarged
from shoplib.drawing.sheet import Circle, Line
from shoplib.maths.rims import plain_fit, trusted


def rim(count, arc=2 * math.pi, radius=220.0, centre=(230.0, 226.0), slip=None, noise=0.3):
    points = []
    for k in range(count):
        out = radius + noise * math.sin(7.3 * k) + (6 if k == slip else 0)
        points.append((centre[0] + out * math.cos(arc * k / count), centre[1] + out * math.sin(arc * k / count)))
    return points


RIMS = {
    "whole": rim(8), "slip": rim(8, slip=3), "arc": rim(12, arc=1.0), "three": rim(3), "true": rim(12, noise=0.0),
    "small": rim(7, radius=6.0, centre=(8.0, 7.0), noise=0.05), "far from its edges": rim(9, centre=(4000.0, -2000.0)),
}  # fmt: skip
each_rim = pytest.mark.parametrize("points", RIMS.values(), ids=RIMS)


@each_rim
def test_points_and_circle_are_where_they_were_measured(points):
    fit = plain_fit(points)
    found = trusted(points, fit)
    (view,) = draw_rim(points, fit).views
    assert [each.centre for each in on(view, "mark", Circle)] == points
    (circle,) = on(view, "joint", Circle)
    assert (*circle.centre, circle.radius) == (*found.centre, found.radius)


@each_rim
def test_residuals_point_the_true_way_enlarged(points):
    fit = plain_fit(points)
    found = trusted(points, fit)
    times = enlarged(found)
    (view,) = draw_rim(points, fit).views
    for line, point, off in zip(on(view, "out", Line), points, found.residuals):
        assert math.dist(line.start, found.centre) == pytest.approx(found.radius)
        assert math.dist(line.end, found.centre) - found.radius == pytest.approx(times * off, abs=1e-9)
        ray = LineString([found.centre, point])
        assert ray.distance(Point(line.start)) < 1e-6 * found.radius or off < 0
    if times > 1:
        assert f"{times} times" in view.title
        assert times * max(map(abs, found.residuals)) <= found.radius / 4


@each_rim
@pytest.mark.parametrize("unit", ["mm", "in"])
def test_every_point_is_told_once_and_no_text_meets_another(points, unit):
    sheet = draw_rim(points, plain_fit(points), unit)
    plate = lay_out(sheet)
    for number in range(1, len(points) + 1):
        assert sum(text.text.startswith(f"{number}:") for text in plate.texts) == 1
    boxes = [text_box(text) for text in plate.texts]
    for number, one in enumerate(boxes):
        assert box(0, 0, plate.width, plate.height).contains(one)
        assert not any(one.intersection(other).area > 0.5 for other in boxes[:number])


def test_the_slip_is_marked_and_spoken():
    points = RIMS["slip"]
    sheet = draw_rim(points, plain_fit(points), numbers=[1, 2, 3, 7, 8, 9, 10, 11])
    (wrong,) = [note.text for note in sheet.views[0].notes if "wrong" in note.text]
    assert wrong.startswith("7:") and "Point 7 looks wrong" in sheet.description
    assert sheet.views[0].title.startswith("Without point 7: ")
    (circle,) = on(sheet.views[0], "joint", Circle)
    assert circle.radius == pytest.approx(plain_fit(points[:3] + points[4:]).radius)
    assert "Do not mark it yet: measure point 7 again" in sheet.use and "Mark it, and" not in sheet.use
    careful = draw_rim(RIMS["whole"], plain_fit(RIMS["whole"]))
    assert "wrong" not in careful.description and "again" not in careful.use
    assert careful.use.endswith("before you drill.")


def test_a_rim_far_from_its_edges_leaves_them_out():
    (near,), (far,) = (draw_rim(RIMS[name], plain_fit(RIMS[name])).views for name in ("whole", "far from its edges"))
    assert len(on(near, "edge")) == 2 and on(far, "edge") == []
    left, bottom, right, top = far.bounds()
    assert right - left < 700
