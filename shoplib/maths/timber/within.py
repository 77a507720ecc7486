"""The worthiest patterns that take no more of any kind than is wanted.

Pricing limits a kind in each strip only; over all strips of a pattern there may be more. Here the kinds that
were taken too often are counted over the whole stretch, one after the other, until the worthiest pattern keeps to its
limits. A kind is counted as coarsely as will do: n in a strip weigh floor(n (b + 1) / (limit + 1)), and a pattern that
keeps to its limit never weighs more than b. So whatever is counted, no pattern within the limits is worth more than
the value found, and where the pattern found is within the limits it is the worthiest.
"""

import itertools
import math
from typing import NamedTuple

from shoplib.maths.timber.knapsack import Filling
from shoplib.maths.timber.patterns import HAIR, Pattern, Strip

STATES = 48


class Bundle(NamedTuple):
    """So many strips with the same filling in one step of laying strips side by side."""

    across: int
    count: int
    digits: list  # what one strip weighs, by kind that is counted
    filling: int  # which counts of these kinds are in it
    steps: int  # of the filling with all other kinds
    taken: object


class Within:
    """Looks for the worthiest patterns within limits, for the stretches of one Pricing."""

    def __init__(self, pricing, states=STATES):
        self.pricing, self.states, self.counted = pricing, states, {}

    def best(self, stretch, worth, limits, rent=0.0):
        """The most that such a pattern of the stretch can be worth, and the patterns found that are within limits.

        A way of sawing that cannot be worth more than the rent is not looked at any further.
        """
        found = [self._one_way(stretch, ripped, worth, limits, rent) for ripped in (True, False)]
        return max(value for value, _ in found), [pattern for _, pattern in found if pattern is not None]

    def _one_way(self, stretch, ripped, worth, limits, rent):
        way = 0 if ripped else 1
        room = self.pricing.rooms[stretch]
        weights = self._as_before(stretch, ripped, worth, limits)
        while True:
            value, pattern = _Counting(self.pricing, ripped, room[way], worth, limits, weights).best(room[1 - way])
            more = _to_count(pattern, limits, weights)
            self.counted[stretch, ripped] = weights
            if more is None:
                return value, pattern
            if value <= rent or _states(more) > self.states:
                return value, None
            weights = more

    def _as_before(self, stretch, ripped, worth, limits):
        """What was counted for other worths, as far as it leaves room for more."""
        weights = {
            number: min(most, limits[number]) for number, most in self.counted.get((stretch, ripped), {}).items()
            if worth.get(number, 0.0) > 0 and limits.get(number, 0) > 0
        }  # fmt: skip
        while weights and _states(weights) > self.states // 2:
            weights.pop(next(iter(weights)))
        return weights


def _states(weights):
    return math.prod(most + 1 for most in weights.values())


def _to_count(pattern, limits, weights):
    """What must be counted so that this pattern is not found again, by as few states as will do; None: nothing."""
    ways = []
    for number, count in pattern.counts().items():
        if count > limits[number]:
            strips = [strip.pieces.count(number) for strip in pattern.strips]
            most = next(
                most for most in range(weights.get(number, 0) + 1, limits[number] + 1)
                if sum(n * (most + 1) // (limits[number] + 1) for n in strips) > most
            )  # fmt: skip
            others = {other: each for other, each in weights.items() if other != number}
            ways.append({**others, number: most})
    return min(ways, key=_states, default=None)


class _Counting:
    """One way of sawing stretches of one length, with some kinds counted over all strips.

    `weights` tells for each kind that is counted what its pieces may weigh together.
    """

    def __init__(self, pricing, ripped, along, worth, limits, weights):
        import numpy

        self.kinds, self.units, self.way = pricing.kinds, pricing.units, 1 if ripped else 0
        self.ripped, self.along, self.worth, self.limits = ripped, along, worth, limits
        self.order = [n for n in pricing.orders[ripped] if worth.get(n, 0.0) > 0 and limits.get(n, 0) > 0]
        self.counted, self.most = list(weights), numpy.array(list(weights.values()), int)
        shape = [most + 1 for most in weights.values()]
        digits = numpy.array(list(itertools.product(*map(range, shape))), int)
        self.digits = digits.reshape(math.prod(shape), len(shape))
        self.stride = numpy.array([math.prod(shape[place + 1 :]) for place in range(len(shape))], int)
        self._fillings()

    def _fillings(self):
        """All ways to have the counted kinds in one strip: how long they are, their worth, state and width."""
        import numpy

        lengths = numpy.array([self.units[n][1 - self.way] for n in self.counted], int)
        ranges = [range(min(self.limits[n], self.along // size) + 1) for n, size in zip(self.counted, lengths)]
        counts = numpy.array(list(itertools.product(*ranges)), int).reshape(-1, len(ranges)) if ranges else (
            numpy.zeros((1, 0), int))  # fmt: skip
        self.counts = counts[counts @ lengths <= self.along]
        self.long = self.counts @ lengths
        self.worths = self.counts @ numpy.array([self.worth[n] for n in self.counted], float)
        limits = numpy.array([self.limits[n] for n in self.counted], int)
        self.state = (self.counts * (self.most + 1) // (limits + 1)) @ self.stride
        sizes = numpy.array([self.kinds[n][self.way] for n in self.counted], float)
        self.wide = ((self.counts > 0) * sizes).max(axis=1, initial=0.0)

    def best(self, across):
        """The worthiest pattern, as far as it is counted: its worth, and itself."""
        import numpy

        filling, over = Filling(self.along), numpy.zeros((*(self.most + 1), max(across, 0) + 1))
        self.scratch = numpy.empty(over.size)
        bundles, of_size, best = [], 0, numpy.zeros(len(self.digits))
        for place, number in enumerate(self.order):
            size = self.kinds[number][self.way]
            if number not in self.counted:
                filling.add(number, self.units[number][1 - self.way], self.worth[number], self.limits[number])
            of_size += self.limits[number]
            if place + 1 < len(self.order) and self.kinds[self.order[place + 1]][self.way] <= size + HAIR:
                continue
            unit = self.units[number][self.way]
            values, which = self._strips(filling, size)
            for state in numpy.nonzero(values > best + 1e-9)[0].tolist():
                if self._is_new(state, values[state], best):
                    self._lay(over, state, values[state], unit, min(of_size, across // unit), bundles,
                              int(which[state]), len(filling.steps))  # fmt: skip
            of_size = 0
        return float(over.flat[-1]), Pattern(self.ripped, tuple(self._told(bundles, filling, over)))

    def _strips(self, filling, size):
        """For each state the most that a strip of this size is worth, and which counts make it."""
        import numpy

        worths = numpy.where(self.wide <= size + HAIR, filling.best[0, self.along - self.long] + self.worths, -1.0)
        order = numpy.argsort(worths, kind="stable")
        values, which = numpy.full(len(self.digits), -1.0), numpy.zeros(len(self.digits), int)
        values[self.state[order]], which[self.state[order]] = worths[order], order
        return values, which

    def _is_new(self, state, value, best):
        """Whether no narrower strip, and none that weighs less, is worth as much."""
        lower = [state - stride for digit, stride in zip(self.digits[state], self.stride) if digit > 0]
        best[state] = value
        return all(best[other] < value - 1e-9 for other in lower)

    def _lay(self, over, state, value, unit, most, bundles, which, steps):
        """Allow strips of one filling side by side, by bundles of one, two, four ... strips."""
        import numpy

        digits = self.digits[state].tolist()
        left = min([most, *(room // digit for room, digit in zip(self.most.tolist(), digits) if digit)])
        count = 1
        while left > 0:
            count = min(count, left)
            size = count * unit
            weighing = tuple(slice(count * digit, None) for digit in digits)
            lighter = tuple(slice(0, length - count * digit) for length, digit in zip(over.shape, digits))
            without, with_it = over[*weighing, size:], self._sum(over[*lighter, : over.shape[-1] - size], count * value)
            taken = with_it > without + 1e-9
            numpy.copyto(without, with_it, where=taken)
            bundles.append(Bundle(size, count, digits, which, steps, taken))
            left, count = left - count, 2 * count

    def _sum(self, values, more):
        """Values with something added, in memory that is used again and again."""
        import numpy

        found = self.scratch[: values.size].reshape(values.shape)
        return numpy.add(values, more, out=found)

    def _told(self, bundles, filling, over):
        """The strips of the worthiest pattern, each made no wider than its pieces."""
        at, across = [length - 1 for length in over.shape[:-1]], over.shape[-1] - 1
        for each in reversed(bundles):
            before = [digit - each.count * other for digit, other in zip(at, each.digits)]
            if across >= each.across and min(before, default=0) >= 0 and each.taken[*before, across - each.across]:
                pieces = filling.chosen(self.along - int(self.long[each.filling]), 0, each.steps)
                pieces += [n for n, many in zip(self.counted, self.counts[each.filling]) for _ in range(many)]
                pieces.sort(key=lambda n: (-self.kinds[n][self.way], n))
                yield from [Strip(self.kinds[pieces[0]][self.way], tuple(pieces))] * each.count
                at, across = before, across - each.across
