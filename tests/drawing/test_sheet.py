"""A Sheet keeps what is put on it, in order and in true size."""

import math

import pytest

from shoplib.drawing.sheet import LAYERS, Arc, Area, Circle, Line, Sheet, polygon, rectangle


@pytest.mark.parametrize("shape, bounds", [
    (Line("kept", (1, 2), (3, -4)), (1, -4, 3, 2)),
    (Circle("kept", (1, 2), 3), (-2, -1, 4, 5)),
    (Arc("kept", (0, 0), 2, 0, math.pi), (-2, 0, 2, 2)),
    (Arc("kept", (0, 0), 2, 0, -math.pi), (-2, -2, 2, 0)),
    (Area("kept", (Circle("kept", (0, 0), 5), Circle("kept", (0, 0), 4))), (-5, -5, 5, 5)),
    (Area("kept", (rectangle(0, 1, 2, 3),)), (0, 1, 2, 3)),
], ids=repr)  # fmt: skip
def test_bounds(shape, bounds):
    view = Sheet("One").view()
    view.shapes.append(shape)
    assert view.bounds() == pytest.approx(bounds, abs=1e-9)


def test_dimensions_on_one_side_get_rows_of_their_own():
    view = Sheet("One").view()
    for side in ("below", "above", "below"):
        view.dimension((0, 0), (1, 0), "1 mm", side)
    view.dimension((0, 0), (1, 0), "1 mm", row=4)
    view.dimension((0, 0), (1, 0), "1 mm")
    assert [each.row for each in view.dimensions] == [0, 0, 1, 4, 5]


def test_layers_in_use_stand_in_the_order_of_drawing():
    sheet = Sheet("One")
    sheet.view().circle("cutter", (0, 0), 1)
    sheet.view().circle("waste", (0, 0), 1)
    assert sheet.layers() == ["waste", "cutter"]


def test_cross_has_its_middle_at_the_centre():
    view = Sheet("One").view()
    view.cross("pivot", (3, 4), 2)
    assert view.bounds() == (1, 2, 5, 6)
    assert len(view.shapes) == 2


@pytest.mark.parametrize("corners", [3, 4, 12])
def test_polygon_has_its_corners_on_the_circle(corners):
    points = polygon((1, 1), 5.0, corners, turned=0.3)
    assert [math.dist(point, (1, 1)) for point in points] == pytest.approx([5.0] * corners)
    sides = [math.dist(a, b) for a, b in zip(points, (*points[1:], points[0]))]
    assert sides == pytest.approx([10 * math.sin(math.pi / corners)] * corners)


def test_every_layer_says_what_it_stands_for():
    meanings = [layer.meaning for layer in LAYERS.values()]
    assert all(meanings) and len(set(meanings)) == len(meanings)
