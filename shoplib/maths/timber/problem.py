"""What is to be solved, in numbers: kinds of pieces, clear stretches of boards, costs; and what a solution holds."""

from dataclasses import dataclass, field
from typing import NamedTuple

from shoplib.maths.timber.pricing import Pricing, grid_for
from shoplib.maths.timber.within import STATES, Within

TINY = 1e-7


class Stretch(NamedTuple):
    """A clear stretch of a board: the board's number, its start, length and width, and its timber's number."""

    board: int
    start: float
    length: float
    width: float
    timber: int


@dataclass
class Problem:
    """Kinds of pieces, stretches, the cost of each board, and which kinds may come from which timber."""

    kinds: tuple
    stretches: tuple
    costs: tuple
    timbers: tuple  # for each timber the set of kinds that may come from it
    kerf: float
    grid: float = field(init=False)
    exact: bool = field(init=False)  # all sizes lie on the grid

    def __post_init__(self):
        sizes = [self.kerf, *(size for kind in self.kinds for size in kind[:2])]
        self.grid, self.exact = grid_for([*sizes, *(size for each in self.stretches for size in each[2:4])])
        self._pricings, self._withins = {}, {}
        self.by_board = {}
        for number, each in enumerate(self.stretches):
            self.by_board.setdefault(each.board, []).append(number)

    def pricings(self, for_bound=False):
        """One Pricing for each timber, by its number."""
        for_bound = for_bound and not self.exact
        if for_bound not in self._pricings:
            self._pricings[for_bound] = [self._pricing(timber, for_bound) for timber in range(len(self.timbers))]
        return self._pricings[for_bound]

    def _pricing(self, timber, for_bound):
        kinds = {number: self.kinds[number] for number in sorted(self.timbers[timber])}
        rooms = {n: (each.length, each.width) for n, each in enumerate(self.stretches) if each.timber == timber}
        return Pricing(kinds, rooms, self.kerf, self.grid, for_bound)

    def best(self, worth, limits, for_bound=False, among=None):
        """The most that each stretch is worth, and a function that tells its pattern."""
        found = {}
        for pricing in self.pricings(for_bound):
            found |= pricing.best(worth, limits, among)
        return found

    def within(self, number, worth, limits, rent=0.0, for_bound=False, states=STATES):
        """The most that a stretch is worth with each kind no more often than `limits` says, and such patterns."""
        timber, for_bound = self.stretches[number].timber, for_bound and not self.exact
        if (timber, for_bound, states) not in self._withins:
            self._withins[timber, for_bound, states] = Within(self.pricings(for_bound)[timber], states)
        return self._withins[timber, for_bound, states].best(number, worth, limits, rent)

    def fill(self, number, worth, left):
        """The worthiest pattern that is found for a stretch with the pieces that are left: its worth, and itself."""
        timber = self.stretches[number].timber
        return self.pricings()[timber].fill(number, worth, {n: left.get(n, 0) for n in self.timbers[timber]})

    def demand(self):
        return {number: kind.count for number, kind in enumerate(self.kinds)}

    def area(self, number):
        return self.kinds[number].length * self.kinds[number].width

    def cost(self, boards):
        return sum(self.costs[board] for board in boards)

    def could_hold(self, number):
        """Whether some stretch is of the right timber and large enough for one piece."""
        kind = self.kinds[number]
        return any(
            kind.length <= each.length + TINY and kind.width <= each.width + TINY
            for each in self.stretches if number in self.timbers[each.timber]
        )  # fmt: skip

    def solution(self, patterns, left):
        """A solution from patterns by stretch and the pieces that found no place."""
        used = {self.stretches[number].board for number in patterns}
        return Solution(patterns, {n: count for n, count in left.items() if count > 0}, self.cost(used))


@dataclass
class Solution:
    """Patterns by stretch, what found no place, what the boards used cost, and the proven bound (None: no bound)."""

    patterns: dict
    left: dict
    cost: float
    bound: float | None = None
    finished: bool = False

    @property
    def complete(self):
        return not self.left

    @property
    def gap(self):
        """How much dearer the plan may be than the best one, as a share of the bound."""
        if self.bound is None or not self.complete:
            return None
        return max(0.0, self.cost / self.bound - 1) if self.bound > TINY else 0.0
