"""A rim seen from below, drawn as it grew: in mitred staves or in boards."""

import math

from shoplib.drawing.sheet import Circle

STAVES = 12
PIECES = 6  # straight pieces in the arc of a stave


def staves(view, inside, outside, count=STAVES):
    """The rim in mitred staves, the grain running along each of them; a joint stands on neither centre line."""
    turn = 2 * math.pi / count
    for k in range(count):
        middle = turn * k
        low, high = middle - turn / 2, middle + turn / 2
        view.area("stave", (*_arc(outside, low, high), *_arc(inside, high, low)), grain=middle + math.pi / 2)


def boards(view, inside, outside):
    """The rim in boards side by side, their grain running from left to right; `inside` is any outline."""
    view.area("kept", Circle("kept", (0, 0), outside), inside, grain=0.0)


def _arc(radius, start, end):
    angles = [start + (end - start) * k / PIECES for k in range(PIECES + 1)]
    return [(radius * math.cos(a), radius * math.sin(a)) for a in angles]
