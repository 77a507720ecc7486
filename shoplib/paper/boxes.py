"""Boxes (left, top, right, bottom) round shapes on a plate, y down."""

from shoplib.drawing.sheet import Arc, Circle


def box_of(shape):
    """The box round a shape, an arc taken for its whole circle.

    >>> box_of(Circle("kept", (10, 10), 4))
    (6, 6, 14, 14)
    """
    if isinstance(shape, Arc):
        shape = Circle(shape.layer, shape.centre, shape.radius)
    points = shape.points()
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


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
