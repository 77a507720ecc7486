"""Patterns: how one clear stretch of a board is sawn, in strips that hold pieces side by side.

A stretch is either ripped into strips that are crosscut, or crosscut into lengths that are ripped; a piece that is
narrower (or shorter) than its strip is trimmed last. Between all neighbours lies one kerf. Seen from the side of the
strips both ways are one: `along` is the way that a strip runs, `across` the way that strips lie beside each other.
"""

import math
from typing import NamedTuple

from shoplib.maths.timber.knapsack import Filling

GRID = 1.0  # mm: what the search counts in; a plan never uses less room than its pieces need


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


EMPTY = Pattern(True, ())


class Search:
    """Looks for the worthiest patterns of the stretches that one set of kinds may come from.

    `kinds` are the kinds that fit this timber, by their number. Sizes are counted on the grid together with
    their kerf: up for patterns that are to be sawn, down for a bound that no pattern can beat.
    """

    def __init__(self, kinds, kerf, for_bound=False):
        self.kinds, self.kerf, self.for_bound = kinds, kerf, for_bound
        self.round_size = math.floor if for_bound else math.ceil
        self.round_room = math.ceil if for_bound else math.floor
        self.sizes = {
            ripped: {
                number: (self.units(kind.length if ripped else kind.width), kind.width if ripped else kind.length)
                for number, kind in kinds.items()
            }
            for ripped in (True, False)
        }
        self.orders = {ripped: sorted(kinds, key=lambda n, r=ripped: self.sizes[r][n][1]) for ripped in (True, False)}

    def units(self, size):
        return max(1, self.round_size((size + self.kerf) / GRID - 1e-6 * (1 if not self.for_bound else -1)))

    def room(self, size):
        return self.round_room((size + self.kerf) / GRID + 1e-6 * (1 if not self.for_bound else -1))

    def best(self, length, width, worth, limits):
        """The worthiest pattern of a stretch and its worth; each kind at most as often as `limits` says in a strip."""
        found = [self._one_way(ripped, length, width, worth, limits) for ripped in (True, False)]
        return max(found, key=lambda each: each[0])

    def _one_way(self, ripped, length, width, worth, limits):
        along, across = (length, width) if ripped else (width, length)
        strips = self.strips(ripped, along, across, worth, limits)
        over = Filling(self.room(across))
        for index, (size, value, _) in enumerate(strips):
            over.add(index, self.units(size), value, len(over.best))
        chosen = over.chosen(len(over.best) - 1)
        return float(over.best[-1]), Pattern(ripped, tuple(Strip(strips[i][0], tuple(strips[i][2]())) for i in chosen))

    def strips(self, ripped, along, across, worth, limits):
        """For each size that a strip may have: the most it can hold, and how to find what that is."""
        filling, found, best = Filling(self.room(along)), [], 0.0
        room = len(filling.best) - 1
        sizes = self.sizes[ripped]
        for number in self.orders[ripped]:
            units, size = sizes[number]
            if size > across + 1e-6:
                break
            filling.add(number, units, worth.get(number, 0.0), limits.get(number, 0))
            if filling.best[-1] > best + 1e-9:
                best = float(filling.best[-1])
                steps = len(filling.steps)
                entry = (size, best, lambda steps=steps: filling.chosen(room, steps))
                if found and found[-1][0] == size:
                    found.pop()
                found.append(entry)
        return found


def exact_best(search, length, width, worth, limits):
    """A pattern that can be sawn: strip by strip, each kind no more often than is left over all strips together."""
    found = [_strip_by_strip(search, ripped, length, width, worth, dict(limits)) for ripped in (True, False)]
    return max(found, key=lambda each: each[0])


def _strip_by_strip(search, ripped, length, width, worth, left):
    along, across = (length, width) if ripped else (width, length)
    strips, total, room = [], 0.0, across
    while True:
        strip, value = _next_strip(search, ripped, along, room, worth, left)
        if strip is None:
            break
        strips.append(strip)
        total += value
        room -= strip.size + search.kerf
        for number in strip.pieces:
            left[number] -= 1
    return total, Pattern(ripped, tuple(strips))


def _next_strip(search, ripped, along, room, worth, left):
    """The strip that makes the most of the room that is left across, as the best filling of that room holds it."""
    strips = search.strips(ripped, along, room, worth, left)
    if not strips or room <= 0:
        return None, 0.0
    over = Filling(search.room(room))
    for index, (size, value, _) in enumerate(strips):
        over.add(index, search.units(size), value, len(over.best))
    chosen = over.chosen(len(over.best) - 1)
    if not chosen:
        return None, 0.0
    first = max(chosen, key=lambda i: strips[i][1] / strips[i][0])
    pieces = strips[first][2]()
    size = max(search.sizes[ripped][number][1] for number in pieces)
    return Strip(size, tuple(sorted(pieces, key=lambda n: -search.sizes[ripped][n][1]))), strips[first][1]


def fits(pattern, kinds, length, width, kerf):
    """Whether a pattern can really be sawn from a stretch: every strip and every kerf has its room."""
    along, across = (length, width) if pattern.ripped else (width, length)
    if sum(strip.size + kerf for strip in pattern.strips) > across + kerf + 1e-6:
        return False
    for strip in pattern.strips:
        sizes = [(kinds[n].length, kinds[n].width) for n in strip.pieces]
        sizes = sizes if pattern.ripped else [size[::-1] for size in sizes]
        if sum(a + kerf for a, _ in sizes) > along + kerf + 1e-6:
            return False
        if any(b > strip.size + 1e-6 for _, b in sizes):
            return False
    return True
