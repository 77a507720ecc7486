"""Patterns: how one clear stretch of a board is sawn, in strips that hold pieces side by side.

A stretch is either ripped into strips that are crosscut, or crosscut into lengths that are ripped; a piece that is
narrower (or shorter) than its strip is trimmed last. Between all neighbours lies one kerf. Seen from the side of the
strips both ways are one: `along` is the way that a strip runs, `across` the way that strips lie beside each other.
"""

from typing import NamedTuple

HAIR = 1e-6  # mm


class Kind(NamedTuple):
    """One kind of piece: its rough length along the grain, its width, and how many are wanted."""

    length: float
    width: float
    count: int


class Strip(NamedTuple):
    """A strip of a stretch: its size across, and the kinds of piece in it, in order along it."""

    size: float
    pieces: tuple


class Pattern(NamedTuple):
    """How a stretch is sawn: ripped first, or crosscut first; and its strips."""

    ripped: bool
    strips: tuple

    def counts(self):
        """How many pieces of each kind it gives."""
        found = {}
        for strip in self.strips:
            for kind in strip.pieces:
                found[kind] = found.get(kind, 0) + 1
        return found

    def without_surplus(self, left):
        """The pattern with only what is still wanted; `left` is brought up to date."""
        strips = []
        for strip in self.strips:
            pieces = []
            for kind in strip.pieces:
                if left.get(kind, 0) > 0:
                    left[kind] -= 1
                    pieces.append(kind)
            if pieces:
                strips.append(strip._replace(pieces=tuple(pieces)))
        return Pattern(self.ripped, tuple(strips))


def fits(pattern, kinds, length, width, kerf):
    """Whether a pattern can really be sawn from a stretch: every strip and every kerf has its room."""
    along, across = (length, width) if pattern.ripped else (width, length)
    if sum(strip.size + kerf for strip in pattern.strips) > across + kerf + HAIR:
        return False
    for strip in pattern.strips:
        sizes = [(kinds[n].length, kinds[n].width) for n in strip.pieces]
        sizes = sizes if pattern.ripped else [size[::-1] for size in sizes]
        if sum(a + kerf for a, _ in sizes) > along + kerf + HAIR:
            return False
        if any(b > strip.size + HAIR for _, b in sizes):
            return False
    return True
