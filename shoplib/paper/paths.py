"""Shapes as paths of straight lines and curves, their arrowheads, and what they run through; x right, y down.

A path is a tuple of parts, each a tuple of steps: a point to begin at or to draw a line to (two numbers), or a curve
with two points that bend it and the point where it ends (six numbers). A part that is closed ends where it began.
"""

import math

from shoplib.drawing.sheet import Arc, Area, Circle, Line
from shoplib.paper.layers import LAYERS_ON_PAPER

PIECE = math.pi / 4  # an arc in pieces of this at the most is true to 5 millionths of its radius


def path_of(shape):
    """A shape as a path.

    >>> path_of(Line("joint", (0, 0), (2, 1)))
    (((0, 0), (2, 1)),)
    >>> len(path_of(Circle("kept", (0, 0), 5))[0])
    9
    """
    if isinstance(shape, Line):
        return ((shape.start, shape.end),)
    if isinstance(shape, Circle):
        return (_outline(shape),)
    if isinstance(shape, Arc):
        return (_arc(shape.centre, shape.radius, shape.start, shape.end),)
    return tuple(map(_outline, shape.outlines))


def is_closed(part):
    """Whether a part of a path ends where it began."""
    return len(part) > 2 and math.dist(part[0], part[-1][-2:]) < 1e-9


def _outline(outline):
    if isinstance(outline, Circle):
        return _arc(outline.centre, outline.radius, 0.0, 2 * math.pi)
    return (*outline, outline[0])


def _arc(centre, radius, start, end):
    """An arc in curves that each turn by PIECE at the most."""
    pieces = max(1, math.ceil(abs(end - start) / PIECE - 1e-9))
    turn = (end - start) / pieces
    reach = 4 / 3 * math.tan(turn / 4) * radius
    (x, y), (c, s) = centre, (math.cos(start), math.sin(start))
    steps = [(x + radius * c, y + radius * s)]
    for k in range(1, pieces + 1):
        x1, y1 = x + radius * c - reach * s, y + radius * s + reach * c
        c, s = math.cos(start + k * turn), math.sin(start + k * turn)
        x3, y3 = x + radius * c, y + radius * s
        steps.append((x1, y1, x3 + reach * s, y3 - reach * c, x3, y3))
    return tuple(steps)


def arrowhead(shape, pen):
    """Tip and back corners of the arrowhead at the end of a line or arc, longer on thick lines."""
    if isinstance(shape, Line):
        (x1, y1), tip = shape.start, shape.end
        direction = math.atan2(tip[1] - y1, tip[0] - x1)
    else:
        x, y = shape.centre
        tip = (x + shape.radius * math.cos(shape.end), y + shape.radius * math.sin(shape.end))
        direction = shape.end + math.copysign(math.pi / 2, shape.end - shape.start)
    length, half = (16 * pen, 6 * pen) if LAYERS_ON_PAPER[shape.layer].width > 2 else (10 * pen, 2.6 * pen)
    c, s = math.cos(direction), math.sin(direction)
    x, y = tip[0] - length * c, tip[1] - length * s
    return [tip, (x - half * s, y + half * c), (x + half * s, y - half * c)]


def crosses(shape, box):
    """Whether a shape's line runs through a box (left, top, right, bottom) or lies in it.

    >>> crosses(Circle("kept", (0, 0), 5), (4, -1, 6, 1)), crosses(Circle("kept", (0, 0), 5), (-1, -1, 1, 1))
    (True, False)
    """
    if isinstance(shape, Line):
        return _runs_through(shape.start, shape.end, box)
    if isinstance(shape, Arc):
        return _arc_crosses(shape, box)
    return any(_outline_crosses(each, box) for each in (shape.outlines if isinstance(shape, Area) else [shape]))


def touches(shape, box):
    """Whether a shape's line, or the ground it fills, touches a box (left, top, right, bottom)."""
    if crosses(shape, box):
        return True
    if not isinstance(shape, Area) or LAYERS_ON_PAPER[shape.layer].fill == "none":
        return False
    middle = ((box[0] + box[2]) / 2, (box[1] + box[3]) / 2)
    return sum(_holds(outline, middle) for outline in shape.outlines) % 2 == 1


def _outline_crosses(outline, box):
    if isinstance(outline, Circle):
        (x, y), (left, top, right, bottom) = outline.centre, box
        near = math.hypot(max(left - x, 0.0, x - right), max(top - y, 0.0, y - bottom))
        far = math.hypot(max(abs(left - x), abs(right - x)), max(abs(top - y), abs(bottom - y)))
        return near <= outline.radius <= far
    return any(_runs_through(outline[k - 1], outline[k], box) for k in range(len(outline)))


def _runs_through(start, end, box):
    """Whether a straight line has a point in a box: what is left of it between the box's sides (Liang and Barsky)."""
    low, high = 0.0, 1.0
    for axis in (0, 1):
        begin, way = start[axis], end[axis] - start[axis]
        if way == 0:
            if not box[axis] <= begin <= box[axis + 2]:
                return False
            continue
        first, last = sorted(((box[axis] - begin) / way, (box[axis + 2] - begin) / way))
        low, high = max(low, first), min(high, last)
    return low <= high


def _arc_crosses(arc, box):
    """Whether an arc ends in a box or meets one of its sides."""
    (x, y), r = arc.centre, arc.radius
    ends = [(x + r * math.cos(angle), y + r * math.sin(angle)) for angle in (arc.start, arc.end)]
    met = [*ends, *(point for point in _circle_meets(arc.centre, r, box) if _on(arc, point))]
    near = 1e-9 * (1 + r)
    left, top, right, bottom = box
    return any(left - near <= a <= right + near and top - near <= b <= bottom + near for a, b in met)


def _circle_meets(centre, radius, box):
    """Where a circle meets the four lines on which a box has its sides."""
    x, y = centre
    for side in (box[0], box[2]):
        if abs(side - x) <= radius:
            half = math.sqrt(radius**2 - (side - x) ** 2)
            yield from ((side, y - half), (side, y + half))
    for side in (box[1], box[3]):
        if abs(side - y) <= radius:
            half = math.sqrt(radius**2 - (side - y) ** 2)
            yield from ((x - half, side), (x + half, side))


def _on(arc, point):
    """Whether a point of the whole circle lies on the arc."""
    low, high = sorted((arc.start, arc.end))
    angle = math.atan2(point[1] - arc.centre[1], point[0] - arc.centre[0])
    return (angle - low) % (2 * math.pi) <= high - low


def _holds(outline, point):
    """Whether an outline goes round a point."""
    if isinstance(outline, Circle):
        return math.dist(outline.centre, point) < outline.radius
    (x, y), inside = point, False
    for k, (x2, y2) in enumerate(outline):
        x1, y1 = outline[k - 1]
        if (y1 > y) != (y2 > y) and x < x1 + (x2 - x1) * (y - y1) / (y2 - y1):
            inside = not inside
    return inside
