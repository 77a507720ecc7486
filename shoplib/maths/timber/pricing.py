"""The worthiest patterns: what each stretch of one timber can hold at the most when every kind of piece has a worth.

Sizes are counted on a grid together with their kerf: pieces rounded up and stretches down for patterns that are to be
sawn, the other way for a bound that no pattern can beat. Where all sizes lie on the grid the two are one.
"""

import math
from typing import NamedTuple

from shoplib.maths.timber.knapsack import Filling
from shoplib.maths.timber.patterns import HAIR, Pattern, Strip

GRIDS = (1.0, 25.4 / 32)  # mm


def grid_for(sizes):
    """A grid on which all sizes lie, and whether they do: whole millimetres, 32nds of an inch, else millimetres.

    >>> grid_for((340.0, 54.0, 3.0)), grid_for((25.4, 3.175)), grid_for((10.0, 3.175))
    ((1.0, True), (0.79375, True), (1.0, False))
    """
    for grid in GRIDS:
        if all(abs(size / grid - round(size / grid)) < 1e-6 for size in sizes):
            return grid, True
    return GRIDS[0], False


class Filled(NamedTuple):
    """Strips of one way of sawing: sizes and steps of filling, and how many of each go across every stretch."""

    ripped: bool
    strips: list  # of (size, how many pieces had been allowed)
    filling: Filling
    over: Filling


class Pricing:
    """Looks for the worthiest patterns of a timber's stretches.

    `kinds` are the kinds that fit this timber, by their number; `rooms` the length and width of each of its
    stretches, by its number.
    """

    def __init__(self, kinds, rooms, kerf, grid=1.0, for_bound=False):
        self.kinds, self.kerf, self.grid, self.for_bound = kinds, kerf, grid, for_bound
        self.rooms = {number: (self.room(length), self.room(width)) for number, (length, width) in rooms.items()}
        self.units = {n: (self.unit(kind.length), self.unit(kind.width)) for n, kind in kinds.items()}
        self.orders = {
            True: sorted(kinds, key=lambda n: (kinds[n].width, n)),
            False: sorted(kinds, key=lambda n: (kinds[n].length, n)),
        }

    def unit(self, size):
        """A piece with its kerf, on the grid."""
        exactly = (size + self.kerf) / self.grid
        return max(1, math.floor(exactly + 1e-6) if self.for_bound else math.ceil(exactly - 1e-6))

    def room(self, size):
        """A stretch and the kerf that its last piece does not need, on the grid."""
        exactly = (size + self.kerf) / self.grid
        return math.ceil(exactly - 1e-6) if self.for_bound else math.floor(exactly + 1e-6)

    def best(self, worth, limits, among=None):
        """For each stretch the most that a pattern of it is worth, and a function that tells the pattern.

        In one strip each kind stands at most as often as `limits` says; over all strips it may be more.
        """
        rooms = self.rooms if among is None else {n: room for n, room in self.rooms.items() if n in among}
        if not rooms:
            return {}
        found = {}
        for ripped in (True, False):
            self._one_way(ripped, rooms, worth, limits, found)
        return found

    def _one_way(self, ripped, rooms, worth, limits, found):
        way = 0 if ripped else 1
        alongs = sorted({room[way] for room in rooms.values()})
        filled = self._filled(ripped, alongs, max(room[1 - way] for room in rooms.values()), worth, limits)
        rows = {along: row for row, along in enumerate(alongs)}
        for number, room in rooms.items():
            along, across = room[way], room[1 - way]
            value = float(filled.over.best[rows[along], across])
            if number not in found or value > found[number][0] + 1e-9:
                found[number] = value, self._teller(filled, rows[along], along, across)

    def _teller(self, filled, row, along, across):
        def pattern():
            return Pattern(filled.ripped, tuple(self._strips(filled, row, along, across)))

        return pattern

    def _strips(self, filled, row, along, across):
        """The strips that make the most of a stretch, each made no wider than its pieces."""
        way = 1 if filled.ripped else 0
        for index in filled.over.chosen(across, row):
            pieces = filled.filling.chosen(along, 0, filled.strips[index][1])
            pieces.sort(key=lambda n: (-self.kinds[n][way], n))
            yield Strip(self.kinds[pieces[0]][way], tuple(pieces))

    def _filled(self, ripped, alongs, across, worth, limits):
        """Strips of every size filled for every length in `alongs`, then put side by side for every one of them.

        A strip is only as wide as its widest piece, so there are at most as many strips of a size as pieces of it.
        """
        import numpy

        way = 1 if ripped else 0
        filling, over = Filling(alongs[-1]), Filling(across, len(alongs))
        strips, order = [], [n for n in self.orders[ripped] if worth.get(n, 0.0) > 0 and limits.get(n, 0) > 0]
        before, of_size = numpy.zeros(len(alongs)), 0
        for place, number in enumerate(order):
            size = self.kinds[number][way]
            filling.add(number, self.units[number][1 - way], worth[number], limits[number])
            of_size += limits[number]
            if place + 1 < len(order) and self.kinds[order[place + 1]][way] <= size + HAIR:
                continue
            values = filling.best[0, alongs]
            if (values > before + 1e-9).any():
                over.add(len(strips), self.units[number][way], values[:, None], of_size)
                strips.append((size, len(filling.steps)))
                before = values
            of_size = 0
        return Filled(ripped, strips, filling, over)

    def fill(self, stretch, worth, limits):
        """A pattern that can be sawn: each kind no more often than `limits` says over all strips together.

        A way of sawing that cannot be worth more than what the other one gave is not followed any further.
        """
        limits = {n: count for n, count in limits.items() if count > 0}
        firsts, best = [], (0.0, Pattern(True, ()))
        for ripped in (True, False):
            way = 0 if ripped else 1
            along, across = self.rooms[stretch][way], self.rooms[stretch][1 - way]
            firsts.append(self._laid(ripped, along, across, worth, limits))
        for filled in sorted(firsts, key=lambda each: -each.over.best[0, -1]):
            if filled.over.best[0, -1] > best[0] + HAIR:
                best = max(best, self._filled_up(filled, stretch, worth, dict(limits)), key=lambda each: each[0])
        return best

    def _filled_up(self, filled, stretch, worth, left):
        """Take the best strips as long as there are pieces for them, then look again at what room is left."""
        ripped, way = filled.ripped, 0 if filled.ripped else 1
        along, across = self.rooms[stretch][way], self.rooms[stretch][1 - way]
        strips, total = [], 0.0
        while True:
            chosen = sorted(self._strips(filled, 0, along, across), key=lambda strip: -self._density(strip, worth))
            if not chosen:
                break
            for place, strip in enumerate(chosen):
                if place and any(left[n] < strip.pieces.count(n) for n in strip.pieces):
                    continue
                for number in strip.pieces:
                    left[number] -= 1
                    total += worth[number]
                across -= self.unit(strip.size)
                strips.append(strip)
            if across <= 0:
                break
            filled = self._laid(ripped, along, across, worth, left)
        return total, Pattern(ripped, tuple(strips))

    def _laid(self, ripped, along, across, worth, limits):
        """As `_filled`, for one length: strips that are too wide are left out."""
        way = 1 if ripped else 0
        filling, over = Filling(along), Filling(across)
        strips, order = [], [n for n in self.orders[ripped] if limits.get(n, 0) > 0 and self.units[n][way] <= across]
        ends = filling.best[0]
        before, of_size, last = 0.0, 0, len(order) - 1
        for place, number in enumerate(order):
            unit, long = self.units[number][way], self.units[number][1 - way]
            filling.add(number, long, worth[number], limits[number])
            of_size += limits[number]
            if place < last and self.units[order[place + 1]][way] == unit:
                continue
            value = ends[along]
            if value > before + 1e-9:
                over.add(len(strips), unit, value, of_size)
                strips.append((self.kinds[number][way], len(filling.steps)))
                before = value
            of_size = 0
        return Filled(ripped, strips, filling, over)

    @staticmethod
    def _density(strip, worth):
        return sum(worth[number] for number in strip.pieces) / strip.size
