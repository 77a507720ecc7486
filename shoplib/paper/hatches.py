"""Hatches on paper, as lines over a box: along the grain, rings on end grain, crossed or slanting.

They hang on the plate's own corner or on the pith, so that they meet from one page to the next.
"""

import math
from typing import NamedTuple

from shoplib.drawing.sheet import Circle, EndGrain
from shoplib.paper.paths import path_of


class Hatch(NamedTuple):
    """Its colour, width and dashes in px, and its lines as a path in the plate's own units."""

    colour: str
    width: float
    path: tuple
    dashes: tuple = ()


KINDS = {  # colour, width, dashes: in px
    "grain": ("#a8741a", 0.8, (17, 9)),
    "rings": ("#a8741a", 0.8, ()),
    "cross": ("#8a8a8a", 0.9, ()),
    "cutter": ("#003b5c", 1.4, ()),
    "slant": ("#003b5c", 0.7, ()),
}


def hatch(kind, box, px, grain=None):
    """The hatch of this kind over a box; `grain` is the way the fibres run (rad, y up), or EndGrain."""
    kind = "rings" if isinstance(grain, EndGrain) else "grain" if grain is not None else kind
    colour, width, dashes = KINDS[kind]
    if kind == "rings":
        lines = _rings(grain.pith, box, 7 * px)
    elif kind == "grain":
        lines = _grain(box, px, -(grain or 0.0))  # y runs down on a plate
    elif kind == "cross":
        lines = [*_slanting(box, 9 * px, 1), *_slanting(box, 9 * px, -1)]
    else:
        lines = _slanting(box, (5 if kind == "cutter" else 7) * px, -1)
    return Hatch(colour, width, tuple(lines), dashes)


def _grain(box, px, angle):
    """Rows of dashes at an angle, every second one moved along by half a dash and gap.

    Laid over the box as it looks from there, then turned back; each row begins with a dash.
    """
    left, top, right, bottom = box
    corners = [_turn(corner, -angle) for corner in ((left, top), (right, top), (right, bottom), (left, bottom))]
    (left, right), (top, bottom) = ((min(each), max(each)) for each in zip(*corners))
    step, pitch = 4.5 * px, 26 * px
    for row in range(math.ceil(top / step), math.floor(bottom / step) + 1):
        start = 13 * px * (row % 2)
        first = start + math.floor((left - start) / pitch) * pitch
        yield _turn((first, row * step), angle), _turn((right, row * step), angle)


def _turn(point, angle):
    (x, y), c, s = point, math.cos(angle), math.sin(angle)
    return x * c - y * s, x * s + y * c


def _rings(pith, box, step):
    """Growth rings round the pith as far as the box reaches, those that miss it left out."""
    (x, y), (left, top, right, bottom) = pith, box
    far = max(math.hypot(px - x, py - y) for px in (left, right) for py in (top, bottom))
    near = math.hypot(max(left - x, 0, x - right), max(top - y, 0, y - bottom))
    for k in range(int(near / step), int(far / step) + 1):
        yield from path_of(Circle("", pith, step * (k + 0.5)))


def _slanting(box, step, way):
    """Lines at 45 degrees across a box, `step` apart, where y = way * x + rise."""
    left, top, right, bottom = box
    step *= math.sqrt(2)
    rises = (top - way * left, top - way * right, bottom - way * left, bottom - way * right)
    for k in range(math.ceil(min(rises) / step), math.floor(max(rises) / step) + 1):
        yield (left, way * left + k * step), (right, way * right + k * step)
