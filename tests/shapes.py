"""A drawing's shapes as shapely geometry, so that the tests measure it without the drawing's own code."""

import pytest
from shapely import Point, Polygon, STRtree, box, covers, union_all
from shapely.geometry import LineString

from shoplib.drawing.layout import lay_out
from shoplib.drawing.sheet import Arc, Area, Circle, Line


def together(polygons):
    """The union, on a grid of a thousandth of a micrometre so that touching edges meet."""
    return union_all(polygons, grid_size=1e-6)


def disc(radius, centre=(0, 0)):
    """A filled circle; its polygon is true to one part in ten thousand."""
    return Point(centre).buffer(radius, quad_segs=128)


def ring(outside, inside):
    """What lies between two circles about the origin, given by their radii."""
    return disc(outside) - disc(inside) if inside > 0 else disc(outside)


def filled(outline):
    """The inside of one outline."""
    return disc(outline.radius, outline.centre) if isinstance(outline, Circle) else Polygon(outline)


def polygon(shape):
    """The inside of a filled shape, its holes left out."""
    outer, *holes = shape.outlines if isinstance(shape, Area) else (shape,)
    return filled(outer) - together([filled(hole) for hole in holes])


def edges(shape):
    """Every line that is drawn for a shape."""
    if isinstance(shape, Line):
        return [LineString([shape.start, shape.end])]
    if isinstance(shape, Arc):
        return [LineString(shape.points())]
    outlines = shape.outlines if isinstance(shape, Area) else [shape]
    return [filled(outline).exterior for outline in outlines]


def view(sheet, title):
    """The view whose title begins so."""
    (found,) = [each for each in sheet.views if each.title.startswith(title)]
    return found


def on(view, layer, kind=object):
    """The shapes of one layer, all or of one kind."""
    return [shape for shape in view.shapes if shape.layer == layer and isinstance(shape, kind)]


def areas(view, layer):
    """The filled shapes of one layer, one polygon each."""
    return [polygon(shape) for shape in on(view, layer, Area)]


def whole(view, layer):
    """All filled shapes of one layer together."""
    return together(areas(view, layer))


def measured(view, words):
    """The length of the one dimension whose text begins so."""
    (found,) = [each for each in view.dimensions if each.text.startswith(words)]
    return Point(found.start).distance(Point(found.end))


def text_box(text):
    """The box of a text on a plate."""
    return box(*text.box())


def drawn_shapes(plate, sheet):
    """The shapes of the views, without the swatches of the key."""
    return plate.shapes[-sum(len(view.shapes) for view in sheet.views) :]


def check_clear(sheet):
    """Hold that nothing on the plate sits on anything else or leaves it."""
    plate = lay_out(sheet)
    page, boxes = box(0, 0, plate.width, plate.height), [(text.text, text_box(text)) for text in plate.texts]
    outlines = [(shape.layer, edge) for shape in drawn_shapes(plate, sheet) for edge in edges(shape)]
    lines = [("dimension", LineString([line.start, line.end])) for line in plate.lines]
    arrows = [each for each, line in zip(lines, plate.lines) if line.arrow]
    for (one, place), (other, taken) in meeting(boxes, boxes):
        assert place is taken or place.intersection(taken).area < 1e-6, f"{one!r} overlaps {other!r}"
    all_drawn = boxes + outlines + lines
    for (words, _), inside in zip(all_drawn, covers(page, [place for _, place in all_drawn])):
        assert inside, f"{words!r} leaves the plate"
    for (words, _), (layer, _) in meeting(boxes, outlines + arrows):
        pytest.fail(f"{words!r} sits on a line of {layer}")


def meeting(some, others):
    """The pairs of named places that meet."""
    found = STRtree([place for _, place in others]).query([place for _, place in some], predicate="intersects")
    return [(some[i], others[j]) for i, j in found.T]
