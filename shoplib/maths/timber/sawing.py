"""A pattern as places and cuts on the board: where each piece lies, and the cuts in the order of sawing.

Seen from the board's face: x along it from one end, y across it from one edge, in mm.
"""

from typing import NamedTuple

HAIR = 1e-6


class Place(NamedTuple):
    """One rough piece: its number in the plan, its left and lower edge, its length along the board and its width."""

    piece: int
    left: float
    low: float
    length: float
    width: float


class Cut(NamedTuple):
    """One saw cut: across the board or along it; its kerf lies from `start` to `end`, and it runs from `low` to `high`.

    A crosscut's kerf is counted along the board and it runs across; a rip's the other way.
    """

    number: int
    rip: bool
    start: float
    end: float
    low: float
    high: float


class Layout(NamedTuple):
    """Pieces and cuts of one board."""

    places: tuple
    cuts: tuple


def lay_out_board(length, width, patterns, kinds, numbers, kerf):
    """Places and numbered cuts of a board, stretch by stretch from its left end.

    `patterns` are (from, to, pattern) of its clear stretches in use; `numbers` hands out the number of the next piece
    of a kind.
    """
    places, cuts = [], []

    def cut(rip, start, low, high, most):
        if start < most - HAIR:
            cuts.append(Cut(len(cuts) + 1, rip, start, min(start + kerf, most), low, high))

    done = 0.0  # along the board, up to where it is sawn off
    for start, end, pattern in patterns:
        if start > done + HAIR:  # away with what lies before, the kerf in the fault
            cuts.append(Cut(len(cuts) + 1, False, max(done, start - kerf), start, 0.0, width))
        cut(False, end, 0.0, width, length)
        done = min(end + kerf, length)
        _saw(pattern, start, end - start, width, kinds, numbers, kerf, places, cut)
    return Layout(tuple(places), tuple(cuts))


def _saw(pattern, left, length, width, kinds, numbers, kerf, places, cut):
    """First all strips of a stretch, then the pieces of each strip, then what is trimmed."""
    edges, at = [], left if not pattern.ripped else 0.0
    most = left + length if not pattern.ripped else width
    across = (0.0, width) if not pattern.ripped else (left, left + length)
    for strip in pattern.strips:
        edges.append((at, min(at + strip.size, most)))
        cut(pattern.ripped, at + strip.size, *across, most)
        at += strip.size + kerf
    for strip, (low, high) in zip(pattern.strips, edges):
        _saw_strip(pattern.ripped, strip, low, high, *across, kinds, numbers, kerf, places, cut)


def _saw_strip(ripped, strip, low, high, start, end, kinds, numbers, kerf, places, cut):
    """Part the strip, then trim the pieces that are smaller than it."""
    trims = []
    for kind in strip.pieces:
        along, size = (kinds[kind].length, kinds[kind].width)[:: 1 if ripped else -1]
        cut(not ripped, start + along, low, high, end)
        trims.append((start, along, size))
        if ripped:
            places.append(Place(numbers(kind), start, low, along, size))
        else:
            places.append(Place(numbers(kind), low, start, size, along))
        start += along + kerf
    for begin, along, size in trims:
        cut(ripped, low + size, begin, begin + along, high)


class Step(NamedTuple):
    """What one cut is set to: from the near end (or edge) of the wood that it parts to the cut; and what comes free.

    `frees` are the numbers of the pieces that this cut leaves at their size; `waste` tells that the near part is none.
    """

    cut: Cut
    fence: float
    frees: tuple
    waste: bool


def steps(board_length, board_width, layout):
    """The cuts in their order, each with what its fence or stop is set to.

    >>> places = (Place(1, 0.0, 0.0, 340.0, 54.0),)
    >>> cuts = (Cut(1, True, 54.0, 57.0, 0.0, 500.0), Cut(2, False, 340.0, 343.0, 0.0, 54.0))
    >>> [(step.fence, step.frees) for step in steps(500.0, 90.0, Layout(places, cuts))]
    [(54.0, ()), (340.0, (1,))]
    """
    loose, found = [(0.0, 0.0, board_length, board_width)], []
    for cut in layout.cuts:
        whole = next(each for each in loose if _parted_by(each, cut))
        loose.remove(whole)
        near, far = _halves(whole, cut)
        fence = cut.start - (whole[1] if cut.rip else whole[0])
        free = tuple(place.piece for place in layout.places if _same(place, near) or _same(place, far))
        found.append(Step(cut, fence, free, not any(_inside(place, near) for place in layout.places)))
        loose += [each for each in (near, far) if each[2] - each[0] > HAIR and each[3] - each[1] > HAIR]
    return tuple(found)


def _parted_by(piece, cut):
    """Whether a cut runs right through a rectangle (left, low, right, high)."""
    left, low, right, high = piece
    near, far, start, end = (low, high, left, right) if cut.rip else (left, right, low, high)
    ends_meet = abs(cut.low - start) < HAIR and abs(cut.high - end) < HAIR
    return ends_meet and near - HAIR <= cut.start and cut.end <= far + HAIR


def _halves(piece, cut):
    left, low, right, high = piece
    if cut.rip:
        return (left, low, right, cut.start), (left, cut.end, right, high)
    return (left, low, cut.start, high), (cut.end, low, right, high)


def _box(place):
    return place.left, place.low, place.left + place.length, place.low + place.width


def _same(place, box):
    return all(abs(a - b) < HAIR for a, b in zip(_box(place), box))


def _inside(place, box):
    left, low, right, high = _box(place)
    return left >= box[0] - HAIR and low >= box[1] - HAIR and right <= box[2] + HAIR and high <= box[3] + HAIR
