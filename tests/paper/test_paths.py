"""Shapes as paths, their arrowheads, and what they run through, beside the same shapes in shapely."""

import math

import numpy
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import Polygon, box
from shapely.geometry import LineString

from shoplib.drawing.sheet import Arc, Area, Circle, Line, rectangle
from shoplib.paper.paths import arrowhead, crosses, is_closed, path_of, touches

BOXES = st.tuples(st.floats(-20, 20), st.floats(-20, 20), st.floats(1, 20), st.floats(1, 20)).map(
    lambda four: (four[0], four[1], four[0] + four[2], four[1] + four[3])
)
POINTS = st.tuples(st.floats(-20, 20), st.floats(-20, 20))
NEAR = 1e-6  # what a sight along an edge may take for inside or outside


def along(path, pieces=50):
    """Points along a path: corners, and what its curves run through (Bernstein's form)."""
    for part in path:
        at = part[0]
        yield at
        for step in part[1:]:
            for k in range(1, pieces + 1):
                t = k / pieces
                ends = (at, *zip(step[::2], step[1::2]))
                n = len(ends) - 1
                yield tuple(
                    sum(math.comb(n, i) * (1 - t) ** (n - i) * t**i * end[axis] for i, end in enumerate(ends))
                    for axis in (0, 1)
                )
            at = step[-2:]


@pytest.mark.parametrize("radius", [3, 220, 750])
def test_circles_and_arcs_are_round(radius):
    arcs = (Arc("feed", (5, 7), radius, start, end) for start, end in ((0.3, 2.9), (1, -4)))
    for shape in (Circle("kept", (5, 7), radius), *arcs):
        for x, y in along(path_of(shape)):
            assert math.hypot(x - 5, y - 7) == pytest.approx(radius, abs=max(1e-3, 6e-6 * radius))


def test_arcs_start_and_end_where_they_should():
    for start, end in ((0.2, 1.4), (1.4, 0.2), (-1.0, -2.5), (3.0, 4.0)):
        (part,) = path_of(Arc("feed", (5, 7), 10, start, end))
        for angle, point in ((start, part[0]), (end, part[-1][-2:])):
            assert point == pytest.approx((5 + 10 * math.cos(angle), 7 + 10 * math.sin(angle)))
        middle = [*along((part,))][len([*along((part,))]) // 2]
        half = (start + end) / 2
        assert middle == pytest.approx((5 + 10 * math.cos(half), 7 + 10 * math.sin(half)), abs=0.3)


def test_outlines_are_closed_and_lines_are_not():
    area = Area("kept", (rectangle(0, 0, 9, 9), Circle("kept", (4, 4), 2)))
    assert all(map(is_closed, path_of(area))) and len(path_of(area)) == 2
    assert not is_closed(path_of(Line("joint", (0, 0), (1, 0)))[0])
    assert not is_closed(path_of(Arc("feed", (0, 0), 5, 0, 3))[0])


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


@given(POINTS, POINTS, BOXES)
def test_lines_cross_boxes_as_shapely_says(start, end, sides):
    assert crosses(Line("joint", start, end), sides) or not LineString([start, end]).intersects(inner(sides))
    assert not crosses(Line("joint", start, end), sides) or LineString([start, end]).distance(box(*sides)) < NEAR


def inner(sides):
    left, top, right, bottom = sides
    return box(left + NEAR, top + NEAR, right - NEAR, bottom - NEAR)


@given(POINTS, st.floats(0.5, 20), st.floats(-7, 7), st.floats(-6.2, 6.2), BOXES)
def test_circles_and_arcs_cross_boxes_as_shapely_says(centre, radius, start, turn, sides):
    assume(abs(turn) > 0.01)
    whole, arc = Circle("kept", centre, radius), Arc("feed", centre, radius, start, start + turn)
    for shape, first, sweep in ((whole, 0, 2 * math.pi), (arc, start, turn)):
        angles = first + numpy.linspace(0, sweep, 2000)
        line = LineString(numpy.c_[centre[0] + radius * numpy.cos(angles), centre[1] + radius * numpy.sin(angles)])
        near = 1e-5 + radius * (sweep / 2000) ** 2  # a chord's rise
        if crosses(shape, sides):
            assert line.distance(box(*sides)) < near
        else:
            assert not line.intersects(box(*(side + way * near for side, way in zip(sides, (1, 1, -1, -1)))))


@given(st.lists(POINTS, min_size=3, max_size=7, unique=True), BOXES)
def test_areas_touch_boxes_as_shapely_says(corners, sides):
    shape = Polygon(corners)
    assume(shape.is_valid and shape.area > 1e-3)
    apart = shape.distance(box(*sides))
    if touches(Area("kept", (tuple(corners),)), sides):
        assert apart < NEAR
    else:
        assert apart > 0
