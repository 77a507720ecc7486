"""Places for the texts of dimensions: each along its own row, where no line runs through it."""

from typing import NamedTuple


class Row(NamedTuple):
    """One dimension along its row: its ends, and where extension lines pass it, its own and those of rows farther out.

    All in the drawing's mm, `free` from its middle to the nearest such line; but half the length of its text and the
    rim round it as on the plate.
    """

    low: float
    high: float
    passing: tuple
    free: float
    half: float
    rim: float

    def is_clear(self, scale):
        """Whether the text may stand in the middle at this scale.

        >>> Row(0.0, 20.0, (0.0, 12.0, 20.0), free=2.0, half=8.0, rim=1.0).is_clear(4.0)
        False
        """
        return scale * self.free >= self.half + self.rim

    def moved_apart(self, scale, low, high, before=False):
        """Two ends of the room (low, high), one moved out where the text finds no clear place between them.

        It is the low one where `before` says so.
        """
        middle = scale * (self.low + self.high) / 2
        if low <= middle - self.half and middle + self.half <= high and self.is_clear(scale):
            return low, high
        taken = [(scale * place - self.rim, scale * place + self.rim) for place in self.passing]
        if clear_place(middle, self.half, taken, (low, high)) is not None:
            return low, high
        if before:
            return min(low, min(taken)[0] - 2 * self.half), high
        return low, max(high, max(taken)[1] + 2 * self.half)


def rows(view, text, width):
    """The row of each dimension of a view, for a text of this size; `width` tells how wide a text runs.

    Level ones (below and above) are counted along x, upright ones (left and right) along y.
    """
    ends = {side: [] for side in ("below", "above", "left", "right")}
    for each in view.dimensions:
        axis = int(each.side in ("left", "right"))
        ends[each.side].append((each.row, each.start[axis], each.end[axis]))
    found = []
    for each in view.dimensions:
        axis = int(each.side in ("left", "right"))
        low, high = sorted((each.start[axis], each.end[axis]))
        passing = tuple(end for row, *both in ends[each.side] if row >= each.row for end in both)
        free = min(abs(place - (low + high) / 2) for place in passing)
        found.append(Row(low, high, passing, free, width(each.text, text) / 2, 0.25 * text))
    return found


def clear_place(middle, half, taken, limits):
    """The place nearest to the middle where a text of this half length meets nothing taken; None where there is none.

    `taken` are spans (low, high) along the row, `limits` the row's two ends.

    >>> clear_place(10.0, 4.0, [(4.0, 5.0), (11.0, 12.0)], (0.0, 30.0))
    16.0
    >>> clear_place(10.0, 4.0, [(4.0, 5.0), (11.0, 12.0)], (0.0, 16.0)) is None
    True
    """
    best, (begin, end) = None, limits
    for low, high in (*sorted(taken), (end, end)):
        if min(low, end) - begin >= 2 * half - 1e-9:
            place = min(max(middle, begin + half), min(low, end) - half)
            if best is None or abs(place - middle) < abs(best - middle):
                best = place
        begin = max(begin, high)
    return best
