"""A drawing's shapes as shapely geometry, so that the tests measure it without the drawing's own code."""

from shapely import Point, Polygon, box, union_all
from shapely.geometry import LineString

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
