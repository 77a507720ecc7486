"""The cheapest boards that hold all pieces: a first plan at once, better ones, and a bound that no plan can beat.

The bound. Give every kind of piece a worth. No pattern of a stretch holds more than the worthiest one, so the
boards of any plan are together worth at least all pieces: sum of worths <= sum over the boards used. Each set of
worths is one such inequality; the cheapest whole boards that satisfy them all (solved by HiGHS) cost no more than any
plan. Good worths are the prices of a linear programme over patterns (Gilmore and Gomory, Operations Research 9, 1961,
pp. 849-859).

The plans. Longest first; then boards filled one after the other, where what stayed over counts more the next time; then
sets of cheaper boards are chosen that satisfy every inequality, and filled; a few stretches at a time are emptied and
filled otherwise, longest on the boards on which least finds no place, until all pieces fit or the patience is over.
Everything stops at the given time, or when it is asked to.
"""

import random
import time

from shoplib.maths.timber.longest_first import longest_first
from shoplib.maths.timber.problem import TINY
from shoplib.maths.timber.programme import Bound, Columns
from shoplib.maths.timber.within import STATES
from shoplib.model import needing

FIRST_SETS = 12  # of boards that are looked at in shares before plans are looked for
SHARES = (0.5, 0.7, 0.85, 0.95, 0.3)  # of the way from the bound to the best plan: where boards are looked for,
SIDE_BY_SIDE = (0.4, 0.3, 0.5, 0.6, 0.2, 0.8, 0.0)  # and where several sets of them are
FEW_BOARDS = 16  # up to so many, several sets are looked at side by side
TRIES = 500  # times that stretches are filled otherwise before boards are given up
FEW_TRIES = 100  # the same, at first, where several sets of boards are looked at side by side
PATIENCE = 0.016  # share of all pieces that may find no place more than before, at the beginning
NEAR, NEARLY = 0.002, 0.006  # so near to its bound a programme in shares counts as solved; with few boards
MORE_STATES = 4 * STATES  # where patterns within limits decide whether boards can hold all pieces
AT_ONCE = 24  # stretches for which patterns within limits are looked for in one round
ROUNDS = 60  # of pricing at the most


def solve(problem, seconds=10.0, progress=None, stop=None):
    """The best plan that is found in the time, with its bound; loading the general solver is no part of the time.

    Raises MissingError where there is no scipy.
    """
    with needing("scipy", "A saw plan"):
        import scipy.optimize
        import scipy.sparse  # noqa: F401

    return _Run(problem, seconds, progress, stop).solve()


class _Run:
    def __init__(self, problem, seconds, progress, stop):
        self.problem, self.progress, self.stop = problem, progress, stop
        self.start, self.end = time.monotonic(), time.monotonic() + seconds
        self.columns, self.bound, self.best = Columns(problem), Bound(problem), None
        self.random, self.tried = random.Random(1), []
        self.few = len(problem.costs) <= FEW_BOARDS
        self.everything = range(len(problem.stretches))
        self.clear = {
            board: sum(problem.stretches[n].length * problem.stretches[n].width for n in own)
            for board, own in problem.by_board.items()
        }
        self.areas = {n: problem.area(n) for n in range(len(problem.kinds))}
        self.hopeless = sum(self.areas[n] * problem.kinds[n].count for n in self.areas if not problem.could_hold(n))

    def over(self):
        return time.monotonic() >= self.end or self.stop is not None and self.stop()

    def solve(self):
        self._keep(longest_first(self.problem))
        for order in (self._cheapest(), range(len(self.problem.costs))):
            self._fill(order, 4)
        if self._short(self.best) > self.hopeless + TINY:
            self._fill(range(len(self.problem.costs)), 20)
        if self._short(self.best) > self.hopeless + TINY:
            self._rework(range(len(self.problem.costs)), TRIES)
        if not self.best.complete:
            self.best.finished = not self.over()
            return self.best
        finished = self._close_the_gap()
        self.best.bound = min(self.bound.low, self.best.cost)
        self.best.finished = finished
        self._tell()
        return self.best

    def _cheapest(self):
        """Boards in the order of their cost for each area that is clear."""
        return sorted(self.clear, key=lambda board: (self.problem.costs[board] / self.clear[board], board))

    def _tell(self):
        if self.progress is not None:
            spent = time.monotonic() - self.start
            gap = None if not self.best.complete else max(0.0, self.best.cost / max(self.bound.low, TINY) - 1)
            self.progress(min(1.0, spent / max(self.end - self.start, TINY)), gap)

    def _keep(self, found):
        """Keep a plan where it is better: more pieces placed, or cheaper. Whether it holds all pieces."""
        short, cost = self._short(found), found.cost
        if self.best is None or short < self._short(self.best) - TINY or (
            short <= self._short(self.best) + TINY and cost < self.best.cost - TINY
        ):
            self.best = found
            for number, pattern in found.patterns.items():
                self.columns.add(number, pattern)
        self._tell()
        return found.complete

    def _short(self, found):
        """The face of all pieces that found no place, in mm2."""
        return sum(count * self.areas[number] for number, count in found.left.items())

    def _closed(self):
        return self.best.cost <= self.bound.low + TINY * max(1.0, self.best.cost)

    def _close_the_gap(self):
        """Raise the bound and look for plans on cheaper boards, until they meet; whether they did."""
        self._cut(self.areas)
        self._cheapest_boards()
        self._swap(len(self.problem.costs))
        if self.few:
            self._side_by_side()
        else:
            self._one_by_one()
        return self._closed()

    def _side_by_side(self):
        """With few boards: first the bound, then plans on several sets of boards at a time."""
        self._raise_bound()
        self._whole_boards(FIRST_SETS)
        while not self.over() and not self._closed():
            self._contest()
            self._swap(len(self.problem.costs) // 4)
            self._whole_boards(1)

    def _one_by_one(self):
        """With many boards: plans on one set of boards after the other, in turn with the bound."""
        self._descend(3)
        self._raise_bound()
        self._cheapest_boards()
        while not self.over() and not self._closed():
            self._swap(len(self.problem.costs) // 4)
            self._descend(5)
            boards = self._whole_boards(3)
            if boards is not None and not self._closed() and self.problem.cost(boards) < self.best.cost - TINY:
                self._rework(boards, TRIES)

    # Plans ---------------------------------------------------------------------------------------------------

    def _fill(self, boards, rounds, stir=0.0):
        """Fill boards one after the other; what found no place counts more in the next round."""
        worth = self._stirred(stir)
        for _ in range(rounds):
            if self.over():
                break
            stretches = [n for board in boards for n in self._own(board)]
            found = self._filled({}, self.problem.demand(), stretches, worth)
            if self._keep(found):
                return True
            for number in found.left:
                worth[number] *= 1.25
        return False

    def _stirred(self, stir, left=None):
        """Faces as worths, stirred a little; large pieces may count more for their face, so that they come first."""
        power = 1 + stir * self.random.uniform(0, 1.5)
        return {
            n: area**power * self.random.uniform(1 - stir, 1 + stir) for n, area in self.areas.items()
            if left is None or left[n] > 0
        }  # fmt: skip

    def _own(self, board):
        """The stretches of a board, longest first."""
        return sorted(self.problem.by_board.get(board, ()), key=lambda n: -self.problem.stretches[n].length)

    def _filled(self, patterns, left, stretches, worth):
        """A plan: these patterns, and more of them in the stretches given, in turn."""
        patterns = dict(patterns)
        for number in stretches:
            if not any(left.values()):
                break
            if number not in patterns:
                _, pattern = self.problem.fill(number, worth, left)
                if pattern.strips:
                    patterns[number] = pattern
                    for kind, count in pattern.counts().items():
                        left[kind] -= count
        return self.problem.solution(patterns, left)

    # The bound -----------------------------------------------------------------------------------------------

    def _cut(self, worth, values=None, states=STATES):
        if values is None or not self.problem.exact:
            values = self._most(worth, states)
        return self.bound.add(worth, values)

    def _most(self, worth, states):
        """The most that a pattern of each stretch can be worth, with no more of a kind than is wanted."""
        demand, found = self.problem.demand(), {}
        for number, (value, pattern) in self.problem.best(worth, demand, for_bound=True).items():
            if not self.over() and any(count > demand[n] for n, count in pattern().counts().items()):
                value, _ = self.problem.within(number, worth, demand, for_bound=True, states=states)
            found[number] = value
        return found

    def _raise_bound(self):
        """Solve the programme in shares over all boards as near as it goes; every set of worths is an inequality."""
        centre, most, new = self.areas, self._cut(self.areas), True
        for _ in range(ROUNDS):
            if self.over():
                return
            priced = self.columns.priced(self.problem.demand(), frozenset(self.everything), self.problem.costs)
            half_way, worth = new, self._between(priced.worth, centre) if new else priced.worth
            values = self._values(priced, worth, None)
            low = self._cut(worth, {number: value for number, (value, _) in values.items()})
            if low > most:
                centre, most = worth, low
            new = self._take_in(priced, values)
            if not new and not half_way or most > (1 - (NEARLY if self.few else NEAR)) * priced.cost:
                return

    def _between(self, worth, centre):
        """Worths half way to those that gave the best bound: the programme's own ones swing about."""
        whole, other = (sum(each.get(n, 0.0) * kind.count for n, kind in enumerate(self.problem.kinds))
                        for each in (worth, centre))  # fmt: skip
        share = 0.5 * whole / other
        return {n: 0.5 * worth.get(n, 0.0) + share * centre.get(n, 0.0) for n in self.areas}

    def _shortage(self, boards):
        """Whether these boards cannot hold all pieces, even in shares; then an inequality of the bound says so.

        Where no better pattern is found within limits they are counted finer before this is given up.
        """
        stretches, states = frozenset(n for board in boards for n in self.problem.by_board.get(board, ())), STATES
        for _ in range(ROUNDS):
            if self.over():
                return False
            priced = self.columns.priced(self.problem.demand(), stretches, None)
            if priced.short < 1e-6:
                return False
            values = self._values(priced, priced.worth, stretches, states)
            more = sum(max(0.0, value - priced.rent.get(n, 0.0)) for n, (value, _) in values.items())
            if more < 0.5 * priced.cost:
                self._cut(priced.worth, states=states)
                return True
            if not self._take_in(priced, values):
                if not self.few:
                    return False
                if states == MORE_STATES:
                    self._cut(priced.worth, states=states)
                    return not self.bound.allows(boards)
                states = MORE_STATES
        return False

    def _values(self, priced, worth, among, states=STATES):
        """For each stretch the most that it can be worth, and patterns to take in."""
        demand, found, closer = self.problem.demand(), {}, []
        for number, (value, pattern) in self.problem.best(worth, demand, among=among).items():
            found[number], rent = (value, []), priced.rent.get(number, 0.0)
            if value > rent + self._hair(value):
                trimmed = pattern().without_surplus(dict(demand))
                found[number] = value, [trimmed]
                if self._worth(trimmed, priced.worth) <= rent + self._hair(value):
                    closer.append((rent - value, number))
        for _, number in sorted(closer)[:AT_ONCE]:
            if self.over():
                break
            found[number] = self.problem.within(number, worth, demand, priced.rent.get(number, 0.0), states=states)
        return found

    @staticmethod
    def _hair(value):
        return 1e-6 * max(1e-3, value)

    @staticmethod
    def _worth(pattern, worth):
        return sum(worth.get(n, 0.0) * count for n, count in pattern.counts().items())

    def _take_in(self, priced, values):
        """Take in every pattern that is worth more than its stretch's rent; whether there was one."""
        better = False
        for number, (value, patterns) in values.items():
            for pattern in patterns:
                if self._worth(pattern, priced.worth) > priced.rent.get(number, 0.0) + self._hair(value):
                    better = self.columns.add(number, pattern) or better
        return better

    # Cheaper boards -------------------------------------------------------------------------------------------

    def _descend(self, turns):
        """Look for plans on boards that cost less: half way to the bound, and nearer where there was none."""
        near = 0
        for _ in range(turns):
            if self.over() or self._closed():
                return
            boards = self._between_costs(SHARES[near % len(SHARES)])
            if boards is None:
                self.tried.clear()
            elif self._rework(boards, TRIES):
                near = -1
            else:
                self.tried.append(boards)
            near += 1

    def _contest(self):
        """Fill several sets of cheaper boards, and go on with those on which least finds no place.

        Whether a plan was found on one of them.
        """
        sets = []
        for share in SIDE_BY_SIDE:
            if self.over() or self._closed():
                return False
            boards = self._between_costs(share)
            if boards is not None:
                self.tried.append(boards)
                sets.append((self._begun(boards), boards))
        if not sets:
            self.tried.clear()
            return False
        tries, patience = FEW_TRIES, 1.0
        while not self.over():
            last = patience < 0.3
            sets = [
                (self._refilled(found, boards, tries, patience, patience / 2), boards)
                for found, boards in sets
            ]
            kept = [self._keep(found) for found, _ in sets]
            if any(kept):
                return True
            sets.sort(key=lambda each: self._short(each[0]))
            if last:
                self._shortage(sets[0][1])
                return False
            sets, tries, patience = sets[: max(1, len(sets) // 2)], tries * 2, patience / 2
        return False

    def _between_costs(self, share):
        """Boards not yet tried, this share of the way from the bound to the best plan or dearer; None: no others."""
        at_least = self.bound.low + share * (self.best.cost - self.bound.low)
        boards = self._cheapest_boards(tuple(self.tried), at_least)
        if boards is None or self.problem.cost(boards) >= self.best.cost - TINY:
            return None
        return boards

    def _rework(self, boards, tries):
        """Fill these boards, and then a few stretches at a time otherwise; whether all pieces fit."""
        return self._keep(self._refilled(self._begun(boards), boards, tries, 1.0, 0.0))

    def _stretches(self, boards):
        return [n for board in sorted(boards) for n in self._own(board)]

    def _begun(self, boards):
        """These boards filled, about half of them as in the best plan."""
        stretches = self._stretches(boards)
        kept = {n: each for n, each in self.best.patterns.items() if n in stretches and self.random.random() < 0.5}
        return self._filled(kept, self._left(kept), stretches, self.areas)

    def _refilled(self, found, boards, tries, before, after):
        """A plan on these boards, of which one to three stretches at a time are emptied and filled otherwise.

        A little that finds no place more than before is put up with, less and less of it: from `before` to `after`
        times the patience.
        """
        stretches = self._stretches(boards)
        most = PATIENCE * sum(self.areas[n] * count for n, count in self.problem.demand().items())
        for turn in range(tries):
            if self._short(found) < self.hopeless + TINY or self.over():
                break
            some = self.random.sample(stretches, min(len(stretches), self.random.choice((1, 2, 2, 2, 3))))
            kept = {n: each for n, each in found.patterns.items() if n not in some}
            left = self._left(kept)
            other = self._filled(kept, left, some, self._stirred(0.12, left))
            patience = most * (before + (after - before) * turn / tries) * self.random.random()
            if self._short(other) <= self._short(found) + patience:
                found = other
        return found

    def _left(self, patterns):
        """What is still wanted beside these patterns."""
        left = self.problem.demand()
        for pattern in patterns.values():
            for kind, count in pattern.counts().items():
                left[kind] -= count
        return left

    def _freed(self):
        """The best plan without two or three of its boards: the patterns kept, the boards freed, the pieces left."""
        used = sorted({self.problem.stretches[n].board for n in self.best.patterns})
        freed = set(self.random.sample(used, min(len(used), self.random.choice((2, 3, 3, 4)))))
        kept = {n: each for n, each in self.best.patterns.items() if self.problem.stretches[n].board not in freed}
        return kept, freed, self._left(kept)

    def _swap(self, times):
        """Take boards of the best plan away and fill cheaper ones with their pieces, now in this order, now in that."""
        for _ in range(times):
            if self.over() or self._closed():
                return
            kept, freed, left = self._freed()
            boards = self._instead(kept, freed, sum(self.areas[n] * count for n, count in left.items()))
            worth = self._stirred(0.2)
            for _ in range(3 if boards else 0):
                self.random.shuffle(boards)
                stretches = [n for board in boards for n in self._own(board)]
                found = self._filled(kept, dict(left), stretches, worth)
                if self._keep(found):
                    break
                for number in found.left:
                    worth[number] *= 1.3

    def _instead(self, kept, freed, area):
        """Boards that are not in the plan, or freed, cheaper together than the freed ones and large enough."""
        used = {self.problem.stretches[n].board for n in kept}
        others = [board for board in self.problem.by_board if board not in used]
        for _ in range(30):
            boards, cost = [], self.problem.cost(freed)
            for board in self.random.sample(others, len(others)):
                if self.problem.costs[board] < cost - TINY:
                    boards.append(board)
                    cost -= self.problem.costs[board]
            if sum(self.clear[board] for board in boards) >= area:
                return boards
        return None

    def _cheapest_boards(self, *how):
        found = self.bound.cheapest(*how)
        self._tell()
        return found

    def _whole_boards(self, turns):
        """The cheapest whole boards that hold all pieces in shares of patterns: no plan can cost less than they."""
        boards = None
        for _ in range(turns):
            if self.over():
                break
            boards = self._cheapest_boards()
            if boards is None or self._closed() or not self._shortage(boards):
                return boards
        return boards
