"""The cheapest boards that hold all pieces: a first plan at once, better ones, and a bound that no plan can beat.

The bound. Give every kind of piece a worth. No pattern of a stretch holds more than the worthiest one, so the
boards of any plan are together worth at least all pieces: sum of worths <= sum over the boards used. Each set of
worths is one such inequality; the cheapest whole boards that satisfy them all (solved by HiGHS) cost no more than any
plan. Good worths are the prices of a linear programme over patterns (Gilmore and Gomory, Operations Research 9, 1961,
pp. 849-859).

The plans. Patterns are taken stretch by stretch, what stayed over counts more the next time; and HiGHS puts the
patterns that were found together. Everything stops at the given time, or when it is asked to.
"""

import random
import time
from dataclasses import dataclass, field
from typing import NamedTuple

from shoplib.maths.timber.patterns import EMPTY, Pattern, Search, exact_best, fits

STEP = 0.5  # seconds that one call of the general solver may take: a stop is heard after that
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
    makes: dict = field(default_factory=dict)

    def search(self, timber, for_bound=False):
        key = timber, for_bound
        if key not in self.makes:
            kinds = {number: self.kinds[number] for number in self.timbers[timber]}
            self.makes[key] = Search(kinds, self.kerf, for_bound)
        return self.makes[key]

    def demand(self):
        return {number: kind.count for number, kind in enumerate(self.kinds)}

    def area(self, number):
        return self.kinds[number].length * self.kinds[number].width

    def could_hold(self, number):
        """Whether some stretch is of the right timber and large enough for one piece."""
        kind = self.kinds[number]
        return any(
            kind.length <= each.length + TINY and kind.width <= each.width + TINY
            for each in self.stretches if number in self.timbers[each.timber]
        )  # fmt: skip


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


def solve(problem, seconds=10.0, progress=None, stop=None):
    """The best plan that is found in the time, with its bound."""
    return _Run(problem, seconds, progress, stop).solve()


class _Run:
    def __init__(self, problem, seconds, progress, stop):
        self.problem, self.progress, self.stop = problem, progress, stop
        self.start, self.end = time.monotonic(), time.monotonic() + seconds
        self.cuts, self.columns, self.best, self.bound = [], {}, None, 0.0
        self.random = random.Random(1)
        self.by_board = {}
        for number, each in enumerate(problem.stretches):
            self.by_board.setdefault(each.board, []).append(number)

    def over(self):
        return time.monotonic() >= self.end or self.stop is not None and self.stop()

    def solve(self):
        self._keep(longest_first(self.problem))
        everything = range(len(self.problem.costs))
        for order in (self._cheapest(), everything):
            self._try(order, 4)
        if not self.best.complete:
            self._try(everything, 60)
        if not self.best.complete:
            self.best.finished = not self.over()
            return self.best
        finished = self._close_the_gap()
        self.best.bound = min(self.bound, self.best.cost)
        self.best.finished = finished
        self._tell()
        return self.best

    def _cheapest(self):
        """Boards in the order of their cost for each area that is clear."""
        area = {board: sum(self.problem.stretches[n].length * self.problem.stretches[n].width for n in own)
                for board, own in self.by_board.items()}  # fmt: skip
        return sorted(area, key=lambda board: (self.problem.costs[board] / area[board], board))

    def _tell(self):
        if self.progress is not None:
            spent = time.monotonic() - self.start
            gap = None if not self.best.complete else max(0.0, self.best.cost / max(self.bound, TINY) - 1)
            self.progress(min(1.0, spent / max(self.end - self.start, TINY)), gap)

    def _keep(self, found):
        """Keep a plan where it is better: more pieces placed, or cheaper."""
        def rank(each):
            return sum(n * self.problem.area(k) for k, n in each.left.items()), each.cost

        if self.best is None or rank(found) < (rank(self.best)[0] + TINY, rank(self.best)[1] - TINY):
            self.best = found
        self._tell()
        return found.complete

    # Plans on given boards ---------------------------------------------------------------------------------

    def _try(self, boards, rounds, stir=0.0):
        """Fill these boards, one after the other; what found no place counts more in the next round."""
        worth = {
            n: self.problem.area(n) * self.random.uniform(1 - stir, 1 + stir) for n in range(len(self.problem.kinds))
        }
        for _ in range(rounds):
            found = self._fill(boards, worth)
            if self._keep(found):
                return True
            if self.over():
                break
            for number in found.left:
                worth[number] *= 1.25
        return False

    def _fill(self, boards, worth):
        left, patterns = self.problem.demand(), {}
        for board in boards:
            for number in sorted(self.by_board.get(board, ()), key=lambda n: -self.problem.stretches[n].length):
                if not any(left.values()):
                    break
                stretch = self.problem.stretches[number]
                wanted = {n: left[n] for n in self.problem.timbers[stretch.timber]}
                search = self.problem.search(stretch.timber)
                _, pattern = exact_best(search, stretch.length, stretch.width, worth, wanted)
                if pattern.strips:
                    patterns[number] = pattern
                    self._remember(number, pattern)
                    for kind, count in pattern.counts().items():
                        left[kind] -= count
        return self._solution(patterns, left)

    def _solution(self, patterns, left):
        used = {self.problem.stretches[number].board for number in patterns}
        left = {number: count for number, count in left.items() if count > 0}
        return Solution(patterns, left, sum(self.problem.costs[board] for board in used))

    def _remember(self, stretch, pattern):
        own = self.columns.setdefault(stretch, {})
        key = tuple(sorted(pattern.counts().items()))
        if key and key not in own:
            own[key] = pattern

    # The bound ---------------------------------------------------------------------------------------------

    def _close_the_gap(self):
        """Raise the bound and look for plans on the boards that it names, until they meet; whether they did."""
        tried = []
        self._add_cut({n: self.problem.area(n) for n in range(len(self.problem.kinds))})
        self._relaxed(())
        self._root()
        self._together(None)
        while not self.over():
            boards = self._relaxed(())
            if boards is None:
                return False
            if self.best.cost <= self.bound + TINY:
                return True
            worth = self._shortage(boards)
            if worth:
                self._add_cut(worth)
                continue
            if self._on(boards) and self.best.cost <= self.bound + TINY:
                return True
            tried.append(boards)
            return self._look_further(tried)
        return False

    def _look_further(self, tried):
        """The bound's own boards did not do: halve the way between bound and best plan, again and again."""
        low = self.bound
        while not self.over() and self.best.cost > self.bound + TINY:
            boards = self._relaxed(tuple(tried), at_least=(low + self.best.cost) / 2)
            if boards is None or self._cost(boards) >= self.best.cost - TINY:
                if low <= self.bound + TINY and not tried:
                    break
                low, tried = self.bound, []  # once more from the bound, with other worths
                continue
            worth = self._shortage(boards)
            if worth:
                self._add_cut(worth)
            elif not self._on(boards):
                tried.append(boards)
                low = (low + self._cost(boards)) / 2 if len(tried) % 2 == 0 else low
        return self.best.cost <= self.bound + TINY

    def _cost(self, boards):
        return sum(self.problem.costs[board] for board in boards)

    def _on(self, boards):
        """Look for a plan on these boards alone, with ever other worths."""
        costly = sorted(boards, key=lambda b: -self.problem.costs[b])
        if self._try(costly, 4):
            return True
        for _ in range(2):
            shuffled = self.random.sample(costly, len(costly))
            if self._together(boards) or self._try(costly, 6, stir=0.3) or self._try(shuffled, 6, stir=0.15):
                return True
        return False

    def _values(self, worth, for_bound):
        """The worthiest pattern of every stretch: its worth and the pattern; equal stretches are looked at once."""
        limits, seen, found = self.problem.demand(), {}, {}
        for number, stretch in enumerate(self.problem.stretches):
            key = stretch.length, stretch.width, stretch.timber
            if key not in seen:
                search = self.problem.search(stretch.timber, for_bound)
                seen[key] = search.best(stretch.length, stretch.width, worth, limits)
            found[number] = seen[key]
        return found

    def _add_cut(self, worth):
        """One inequality of the bound: what each board is worth at the most, and all pieces together."""
        values = self._values(worth, for_bound=True)
        boards = {board: sum(values[n][0] for n in own) for board, own in self.by_board.items()}
        total = sum(worth.get(n, 0.0) * kind.count for n, kind in enumerate(self.problem.kinds))
        if total > 0:
            self.cuts.append(({board: value / total for board, value in boards.items()}, 1.0))

    def _relaxed(self, excluded, at_least=None):
        """The cheapest boards that satisfy every inequality; each excluded set must get at least one other board."""
        import numpy
        from scipy.optimize import Bounds, LinearConstraint, milp

        boards = range(len(self.problem.costs))
        rows = [[cut.get(board, 0.0) for board in boards] for cut, _ in self.cuts]
        rows += [[0.0 if board in each else 1.0 for board in boards] for each in excluded]
        low = [1.0 - 1e-9] * len(self.cuts) + [1.0] * len(excluded)
        if at_least is not None:
            rows, low = [*rows, list(self.problem.costs)], [*low, at_least]
        found = milp(
            numpy.array(self.problem.costs), integrality=1, bounds=Bounds(0, 1),
            constraints=LinearConstraint(numpy.array(rows), low, numpy.inf), options={"time_limit": STEP},
        )  # fmt: skip
        if at_least is None and found.mip_dual_bound is not None:
            self.bound = max(self.bound, float(found.mip_dual_bound))
            self._tell()
        if found.x is None:
            return None
        return frozenset(board for board in boards if found.x[board] > 0.5)

    def _root(self):
        """The linear programme over patterns and shares of boards: its prices are the first good worths."""
        for _ in range(40):
            if self.over():
                return
            prices = self._priced(self.problem.costs, range(len(self.problem.costs)))
            if prices is None or not self._price_in(*prices):
                return

    def _shortage(self, boards):
        """Worths by which these boards cannot hold all pieces, even in shares of patterns; nothing where they can."""
        for _ in range(40):
            if self.over():
                return None
            worth, rent, short = self._priced(None, boards)
            if short < 1e-6:
                return None
            if not self._price_in(worth, rent, short, boards):
                return worth
        return None

    def _price_in(self, worth, rent, short, boards=None):
        """Take in every pattern that is worth more than its stretch's rent; whether there was one."""
        values, better = self._values(worth, for_bound=False), False
        for number, (value, pattern) in values.items():
            if boards is not None and self.problem.stretches[number].board not in boards:
                continue
            if value > rent.get(number, 0.0) + 1e-6 * max(1.0, value):
                before = len(self.columns.get(number, ()))
                self._remember(number, pattern)
                better = better or len(self.columns.get(number, ())) > before
        if boards is None:
            self._add_cut(worth)
        return better

    def _priced(self, costs, boards):
        """Solve the linear programme over the patterns known: worth of each kind, rent of each stretch, shortage."""
        import numpy
        from scipy.optimize import linprog
        from scipy.sparse import csr_matrix

        kinds, allowed = self.problem.kinds, set(boards)
        columns = [
            (number, pattern) for number, own in self.columns.items()
            if self.problem.stretches[number].board in allowed for pattern in own.values()
        ]  # fmt: skip
        scale = numpy.array([self.problem.area(n) for n in range(len(kinds))]) / 1e6
        many, stretches = len(columns), sorted({number for number, _ in columns})
        where = {number: row for row, number in enumerate(stretches)}
        data, rows, across = [], [], []
        for column, (number, pattern) in enumerate(columns):
            for kind, count in pattern.counts().items():
                data, rows, across = [*data, -count], [*rows, kind], [*across, column]
            data, rows, across = [*data, 1.0], [*rows, len(kinds) + where[number]], [*across, column]
        return self._programme(numpy, linprog, csr_matrix, costs, data, rows, across, many, stretches, scale)

    def _programme(self, numpy, linprog, csr_matrix, costs, data, rows, across, many, stretches, scale):
        """Least shortage on the given boards (`costs` None), or least cost with boards in shares."""
        kinds = self.problem.kinds
        width = many + len(kinds) + (len(costs) if costs is not None else 0)
        for kind in range(len(kinds)):
            data, rows, across = [*data, -1.0], [*rows, kind], [*across, many + kind]
        if costs is not None:
            for row, number in enumerate(stretches):
                board = self.problem.stretches[number].board
                data, rows = [*data, -1.0], [*rows, len(kinds) + row]
                across = [*across, many + len(kinds) + board]
        most = [-kind.count for kind in kinds] + [0.0 if costs is not None else 1.0] * len(stretches)
        dear = 10 * max(self.problem.costs) / max(scale.min(), TINY) if costs is not None else 1.0
        cost = numpy.concatenate([numpy.zeros(many), dear * scale, numpy.array(costs if costs is not None else [])])
        bounds = [(0, None)] * (many + len(kinds)) + [(0, 1)] * (width - many - len(kinds))
        matrix = csr_matrix((data, (rows, across)), shape=(len(most), width))
        found = linprog(cost, A_ub=matrix, b_ub=most, bounds=bounds, method="highs")
        duals = -found.ineqlin.marginals
        worth = {kind: float(max(0.0, duals[kind])) for kind in range(len(kinds))}
        rent = {number: float(duals[len(kinds) + row]) for row, number in enumerate(stretches)}
        short = float((found.x[many : many + len(kinds)] * scale).sum())
        return worth, rent, short

    def _together(self, boards):
        """Let the general solver choose among the patterns known; whether a plan came of it.

        On given boards it leaves out as little as it can; on all of them (None) it places everything on the cheapest.
        """
        import numpy
        from scipy.optimize import Bounds, LinearConstraint, milp
        from scipy.sparse import lil_matrix

        if self.over():
            return False
        columns = [
            (number, pattern) for number, own in self.columns.items()
            if boards is None or self.problem.stretches[number].board in boards for pattern in own.values()
            if fits(pattern, self.problem.kinds, *self.problem.stretches[number][2:4], self.problem.kerf)
        ]  # fmt: skip
        kinds, costs = range(len(self.problem.kinds)), self.problem.costs
        rows = {number: row for row, number in enumerate(sorted({number for number, _ in columns}))}
        many = len(columns)
        cover = lil_matrix((len(kinds), many + len(kinds) + len(costs)))
        once = lil_matrix((len(rows), cover.shape[1]))
        for column, (number, pattern) in enumerate(columns):
            once[rows[number], column] = 1
            for kind, count in pattern.counts().items():
                cover[kind, column] = count
        for kind in kinds:
            cover[kind, many + kind] = 1
        for number, row in rows.items():
            once[row, many + len(kinds) + self.problem.stretches[number].board] = -1
        demand = [kind.count for kind in self.problem.kinds]
        short = numpy.array([self.problem.area(kind) for kind in kinds]) / 1e6
        short *= 10 * max(costs) / short.min() if boards is None else 1.0
        dear = numpy.array(costs) if boards is None else numpy.zeros(len(costs))
        found = milp(
            numpy.concatenate([numpy.zeros(many), short, dear]),
            integrality=numpy.concatenate([numpy.ones(many), numpy.zeros(len(kinds)), numpy.ones(len(costs))]),
            bounds=Bounds(0, numpy.concatenate([numpy.ones(many), demand, numpy.ones(len(costs))])),
            constraints=[
                LinearConstraint(cover.tocsr(), demand, numpy.inf), LinearConstraint(once.tocsr(), -numpy.inf, 0),
            ],
            options={"time_limit": 2 * STEP if boards is None else STEP},
        )  # fmt: skip
        if found.x is None:
            return False
        chosen = {number: pattern for (number, pattern), x in zip(columns, found.x) if x > 0.5}
        used = {self.problem.stretches[number].board for number in chosen}
        return self._keep(self._completed(chosen, used if boards is None else boards))

    def _completed(self, chosen, boards):
        """A plan from chosen patterns: pieces too many are left out, free stretches are filled with what is missing."""
        left, patterns = self.problem.demand(), {}
        for number, pattern in chosen.items():
            patterns[number] = _without_surplus(pattern, left)
        worth = {n: self.problem.area(n) for n in left}
        for board in boards:
            for number in self.by_board.get(board, ()):
                stretch = self.problem.stretches[number]
                if number not in patterns and any(left.values()):
                    wanted = {n: left[n] for n in self.problem.timbers[stretch.timber]}
                    search = self.problem.search(stretch.timber)
                    patterns[number] = exact_best(search, stretch.length, stretch.width, worth, wanted)[1]
                    for kind, count in patterns[number].counts().items():
                        left[kind] -= count
        return self._solution({number: each for number, each in patterns.items() if each.strips}, left)


def _without_surplus(pattern, left):
    """The pattern with only what is still wanted; `left` is brought up to date."""
    strips = []
    for strip in pattern.strips:
        pieces = []
        for kind in strip.pieces:
            if left[kind] > 0:
                left[kind] -= 1
                pieces.append(kind)
        if pieces:
            strips.append(strip._replace(pieces=tuple(pieces)))
    return Pattern(pattern.ripped, tuple(strips)) if strips else EMPTY


def longest_first(problem):
    """What a careful hand does without reckoning: the longest piece first, into the first strip or board with room.

    Boards are ripped; a strip takes whatever is no wider than it.
    """
    order = sorted(range(len(problem.kinds)), key=lambda n: (-problem.kinds[n].length, -problem.kinds[n].width))
    strips, free, left = {}, {n: each.width for n, each in enumerate(problem.stretches)}, {}
    for number in order:
        for _ in range(problem.kinds[number].count):
            if not _place(problem, number, strips, free):
                left[number] = left.get(number, 0) + 1
    patterns = {
        stretch: Pattern(True, tuple(strip.made() for strip in own)) for stretch, own in sorted(strips.items())
    }
    used = {problem.stretches[number].board for number in patterns}
    return Solution(patterns, left, sum(problem.costs[board] for board in used))


@dataclass
class _Open:
    """A strip that is being filled: its size, the length that is left, and what is in it."""

    size: float
    room: float
    pieces: list

    def made(self):
        from shoplib.maths.timber.patterns import Strip

        return Strip(self.size, tuple(self.pieces))


def _place(problem, number, strips, free):
    kind, kerf = problem.kinds[number], problem.kerf
    fitting = [n for n, each in enumerate(problem.stretches) if number in problem.timbers[each.timber]]
    for stretch in fitting:
        for strip in strips.get(stretch, ()):
            if kind.width <= strip.size + TINY and kind.length <= strip.room + TINY:
                strip.pieces.append(number)
                strip.room -= kind.length + kerf
                return True
    for stretch in fitting:
        each = problem.stretches[stretch]
        if kind.width <= free[stretch] + TINY and kind.length <= each.length + TINY:
            strips.setdefault(stretch, []).append(_Open(kind.width, each.length - kind.length - kerf, [number]))
            free[stretch] -= kind.width + kerf
            return True
    return False
