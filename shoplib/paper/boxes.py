"""Boxes (left, top, right, bottom) round shapes on a plate, y down."""

import math

from shoplib.drawing.sheet import Arc


def box_of(shape):
    """The box round a shape.

    >>> from shoplib.drawing.sheet import Circle
    >>> box_of(Circle("kept", (10, 10), 4))
    (6, 6, 14, 14)
    >>> [round(side, 6) for side in box_of(Arc("feed", (0, 0), 4, -math.pi / 6, math.pi / 6))]
    [3.464102, -2.0, 4.0, 2.0]
    """
    points = _points_of(shape) if isinstance(shape, Arc) else shape.points()
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


def _points_of(arc):
    """The ends of an arc and where between them it reaches furthest to a side."""
    (x, y), r = arc.centre, arc.radius
    low, high = sorted((arc.start, arc.end))
    quarter = math.pi / 2
    sides = [k * quarter for k in range(math.ceil(low / quarter), math.floor(high / quarter) + 1)]
    return [(x + r * math.cos(angle), y + r * math.sin(angle)) for angle in (low, *sides, high)]


def grown(box, margin):
    """A box made larger on all sides.

    >>> grown((0, 0, 2, 1), 1)
    (-1, -1, 3, 2)
    """
    return box[0] - margin, box[1] - margin, box[2] + margin, box[3] + margin


def meet(one, other):
    """Whether two boxes share some ground.

    >>> meet((0, 0, 2, 2), (1, 1, 3, 3)), meet((0, 0, 1, 1), (1, 0, 2, 1))
    (True, False)
    """
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def shared(one, other):
    """The ground that two boxes share.

    >>> shared((0, 0, 2, 2), (1, -1, 3, 3))
    (1, 0, 2, 2)
    """
    return max(one[0], other[0]), max(one[1], other[1]), min(one[2], other[2]), min(one[3], other[3])


def holds(outer, inner):
    """Whether a box lies whole within another.

    >>> holds((0, 0, 3, 3), (0, 1, 2, 2)), holds((0, 0, 3, 3), (1, 1, 2, 4))
    (True, False)
    """
    near = 1e-9
    return (
        outer[0] <= inner[0] + near and outer[1] <= inner[1] + near
        and inner[2] <= outer[2] + near and inner[3] <= outer[3] + near
    )


def dot_box(centre, pen):
    """The box of a dot at the end of a leader."""
    return grown((*centre, *centre), 3 * pen)


def text_box(text):
    """The box of a text with what hangs below its line.

    >>> from shoplib.drawing.layout import Text
    >>> [round(side, 2) for side in text_box(Text(10.0, 5.0, "oooooooooo", 1.0, "start", bold=True))]
    [9.85, 4.35, 17.02, 5.65]
    """
    return grown(text.box(), 0.15 * text.size)


def mark_box(centre):
    """The room of a register mark."""
    return grown((*centre, *centre), 5.0)
