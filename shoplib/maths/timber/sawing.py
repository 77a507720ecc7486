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

    for start, end, pattern in patterns:
        if start > HAIR:  # away with what lies before, the kerf in the fault
            cuts.append(Cut(len(cuts) + 1, False, max(0.0, start - kerf), start, 0.0, width))
        cut(False, end, 0.0, width, length)
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
