"""The cheapest boards that hold all pieces: a first plan at once, better ones, and a bound that no plan can beat.

The bound. Give every kind of piece a worth. No pattern of a stretch holds more than the worthiest one, so the
boards of any plan are together worth at least all pieces: sum of worths <= sum over the boards used. Each set of
worths is one such inequality; the cheapest whole boards that satisfy them all (solved by HiGHS) cost no more than any
plan. Good worths are the prices of a linear programme over patterns (Gilmore and Gomory, Operations Research 9, 1961,
pp. 849-859).

The plans. Longest first; then boards filled one after the other, where what stayed over counts more the next time; then
the programme in shares is made whole step by step: the pattern with the largest share is sawn, and the rest priced
anew. Everything stops at the given time, or when it is asked to.
"""

import random
import time

from shoplib.maths.timber.longest_first import longest_first
from shoplib.maths.timber.problem import TINY
from shoplib.maths.timber.programme import STEP, Bound, Columns

VARIED = 10  # times that other patterns are made from some of the pieces
ROUNDS = 60  # of pricing before a programme in shares counts as solved


def solve(problem, seconds=10.0, progress=None, stop=None):
    """The best plan that is found in the time, with its bound; loading the general solver is no part of the time."""
    import scipy.optimize
    import scipy.sparse  # noqa: F401

    return _Run(problem, seconds, progress, stop).solve()


class _Run:
    def __init__(self, problem, seconds, progress, stop):
        self.problem, self.progress, self.stop = problem, progress, stop
        self.start, self.end = time.monotonic(), time.monotonic() + seconds
        self.columns, self.bound, self.best = Columns(problem), Bound(problem), None
        self.random = random.Random(1)
        self.everything = range(len(problem.stretches))
        self.clear = {
            board: sum(problem.stretches[n].length * problem.stretches[n].width for n in own)
            for board, own in problem.by_board.items()
        }
        self.areas = {n: problem.area(n) for n in range(len(problem.kinds))}

    def over(self):
        return time.monotonic() >= self.end or self.stop is not None and self.stop()

    def solve(self):
        self._keep(longest_first(self.problem))
        for order in (self._cheapest(), range(len(self.problem.costs))):
            self._fill(order, 4)
        if not self.best.complete:
            self._fill(range(len(self.problem.costs)), 60)
        if not self.best.complete:
            self._dive(self.everything, True)
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
        self._tell()
        return found.complete

    def _short(self, found):
        """The face of all pieces that found no place, in mm2."""
        return sum(count * self.areas[number] for number, count in found.left.items())

    def _closed(self):
        return self.best.cost <= self.bound.low + TINY * max(1.0, self.best.cost)

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

    def _stirred(self, stir):
        """Faces as worths, stirred a little; large pieces may count more for their face, so that they come first."""
        power = 1 + stir * self.random.uniform(0, 1.5)
        return {n: area**power * self.random.uniform(1 - stir, 1 + stir) for n, area in self.areas.items()}

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
                self._saw(number, pattern, patterns, left)
        return self.problem.solution(patterns, left)

    def _saw(self, number, pattern, patterns, left):
        """Decide on the pattern of a stretch."""
        if pattern.strips:
            patterns[number] = pattern
            self.columns.add(number, pattern)
            for kind, count in pattern.counts().items():
                left[kind] -= count

    def _dive(self, stretches, paying, stir=0.0, patterns=(), turns=3):
        """Saw the pattern with the largest share of the programme, price what is left anew, and so on to the end.

        Not `paying`: the boards of these stretches are given and cost nothing more. Where it comes to nothing it turns
        back to the last choice, `turns` times. Whether it came to a better plan.
        """
        patterns, left, before, ways = dict(patterns), self.problem.demand(), self.best, []
        for pattern in patterns.values():
            for kind, count in pattern.counts().items():
                left[kind] -= count
        while any(left.values()) and not self.over():
            free = [n for n in stretches if n not in patterns]
            priced = self._hopeful(left, free, patterns, paying) if free else None
            if priced is not None:
                ways.append((patterns, left, priced, self._by_share(priced, stir)))
            while ways and not ways[-1][3]:
                ways.pop()
            if not ways or priced is None and turns == 0:
                break
            turns -= priced is None
            patterns, left, choices = dict(ways[-1][0]), dict(ways[-1][1]), ways[-1][3]
            self._saw_one(choices.pop(0), ways[-1][2], patterns, left)
        used = {self.problem.stretches[n].board for n in patterns}
        rest = [n for n in stretches if n not in patterns and (not paying or self.problem.stretches[n].board in used)]
        self._keep(self._filled(patterns, left, rest, self.areas))
        return self.best is not before

    def _hopeful(self, left, free, patterns, paying):
        """The programme in shares for what is left, where it may still come to a better plan."""
        used = {self.problem.stretches[n].board for n in patterns}
        priced = self._price_out(left, free, used, self.problem.costs if paying else None, rounds=6)
        if priced is None or priced.short > 1e-6:
            return None
        if paying and self.best.complete and self.problem.cost(used) + priced.cost > self.best.cost - TINY:
            return None
        return priced

    def _by_share(self, priced, stir):
        """The patterns with the largest shares, stirred a little."""
        shares = sorted(((x * self.random.uniform(1 - stir, 1), place) for x, place in priced.shares), reverse=True)
        return [place for _, place in shares[:3]]

    def _saw_one(self, place, priced, patterns, left):
        """Saw one pattern as it is, or its stretch with better use of the pieces that are left."""
        number, pattern, _ = self.columns.all[place]
        trimmed = pattern.without_surplus(dict(left))
        worth = {n: priced.worth.get(n, 0.0) + 1e-9 * self.areas[n] for n in left}
        value = sum(worth[n] * count for n, count in trimmed.counts().items())
        best, other = self.problem.fill(number, worth, left)
        self._saw(number, other if best > value + 1e-9 else trimmed, patterns, left)

    def _price_out(self, demand, stretches, paid, costs, rounds, cuts=False):
        """The programme in shares, with every pattern taken in that improves it; None where time is over."""
        among = frozenset(stretches)
        for _ in range(rounds):
            if self.over():
                return None
            priced = self.columns.priced(demand, among, paid, costs)
            values = self.problem.best(priced.worth, demand, among=None if cuts else among)
            if cuts:
                self._cut(priced.worth, values)
            if not self._take_in(priced, values, among):
                break
        return priced

    def _take_in(self, priced, values, among):
        """Take in every pattern that is worth more than its stretch's rent; whether there was one."""
        better = False
        for number, (value, pattern) in values.items():
            if number in among and value > priced.rent.get(number, 0.0) + 1e-6 * max(1e-3, value):
                better = self.columns.add(number, pattern()) or better
        return better

    # The bound -----------------------------------------------------------------------------------------------

    def _cut(self, worth, values=None):
        if values is None or not self.problem.exact:
            values = self.problem.best(worth, self.problem.demand(), for_bound=True)
        self.bound.add(worth, values)

    def _close_the_gap(self):
        """Raise the bound and look for plans on the boards that it names, until they meet; whether they did."""
        self._cut(self.areas)
        self._cheapest_boards()
        self._swap(40)
        demand = self.problem.demand()
        self._price_out(demand, self.everything, (), self.problem.costs, ROUNDS, cuts=True)
        self._cheapest_boards()
        if not self.over() and not self._closed():
            self._dive(self.everything, True)
            self._swap(40)
        boards = self._whole_boards()
        tried, turn = [], 0
        while not self.over() and not self._closed():
            if boards is None:
                return False
            self._on(boards)
            tried.append(boards)
            self._swap(15)
            self._repair()
            self._repair()
            if not self.over():
                self._dive(self.everything, True, 0.6, turns=6)
            boards = self._next_boards(tried, turn)
            if boards is None and not self.over():  # all were tried: once more, stirred otherwise
                tried, boards = [], self._next_boards([], turn)
            turn += 1
        return self._closed()

    def _repair(self):
        """Take two or three boards of the best plan away and saw their pieces again, perhaps from others."""
        if self.over() or self._closed():
            return False
        kept, _, _ = self._freed()
        return self._dive(self.everything, True, 0.5, kept, turns=2)

    def _freed(self):
        """The best plan without two or three of its boards: the patterns kept, the boards freed, the pieces left."""
        used = sorted({self.problem.stretches[n].board for n in self.best.patterns})
        freed = set(self.random.sample(used, min(len(used), self.random.choice((2, 3, 3, 4)))))
        kept = {n: each for n, each in self.best.patterns.items() if self.problem.stretches[n].board not in freed}
        left = self.problem.demand()
        for pattern in kept.values():
            for kind, count in pattern.counts().items():
                left[kind] -= count
        return kept, freed, left

    def _together(self, boards):
        """Let the general solver put the patterns known together on these boards, and fill what is free."""
        for _ in range(VARIED):
            worth = self._stirred(0.3)
            some = {n: self.random.randint(0, count) for n, count in self.problem.demand().items()}
            for number in (n for board in boards for n in self._own(board)):
                self.columns.add(number, self.problem.fill(number, worth, some)[1])
        patterns, left = {}, self.problem.demand()
        for number, pattern in self.columns.together(STEP, boards).items():
            kept = pattern.without_surplus(left)
            if kept.strips:
                patterns[number] = kept
        rest = [n for board in boards for n in self._own(board)]
        return self._refilled(patterns, left, rest)

    def _refilled(self, patterns, left, stretches):
        """Fill the free stretches with what is left; then each stretch in turn once more, where it can hold more."""
        found = self._filled(patterns, left, stretches, self.areas)
        for number in () if found.complete else sorted(patterns, key=lambda n: self._used(found.patterns[n], n)):
            left = {n: found.left.get(n, 0) for n in self.areas}
            for kind, count in found.patterns[number].counts().items():
                left[kind] += count
            others = {n: each for n, each in found.patterns.items() if n != number}
            again = self._filled(others, left, [number], self.areas)
            found = again if self._short(again) < self._short(found) - TINY else found
        return self._keep(found)

    def _used(self, pattern, number):
        """The share of a stretch that becomes pieces."""
        stretch = self.problem.stretches[number]
        return sum(self.areas[n] * c for n, c in pattern.counts().items()) / (stretch.length * stretch.width)

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

    def _whole_boards(self):
        """The cheapest whole boards that hold all pieces in shares of patterns: no plan can cost less than they."""
        while not self.over():
            boards = self._cheapest_boards()
            if boards is None or self._closed() or not self._shortage(boards):
                return boards
        return None

    def _shortage(self, boards):
        """Whether these boards cannot hold all pieces, even in shares; then an inequality of the bound says so."""
        stretches = [n for board in boards for n in self.problem.by_board.get(board, ())]
        priced = self._price_out(self.problem.demand(), stretches, boards, None, ROUNDS)
        if priced is None or priced.short < 1e-6:
            return False
        self._cut(priced.worth)
        return True

    def _next_boards(self, tried, turn):
        """Other boards that cost more than the bound and less than the best plan: half way, a quarter ..."""
        shares = (0.6, 0.8, 0.4, 0.7, 0.2, 0.9, 0.5, 0.0)
        for share in (*shares[turn % len(shares) :], *shares[: turn % len(shares)]):
            while not self.over():
                at_least = self.bound.low + share * (self.best.cost - self.bound.low)
                boards = self._cheapest_boards(tuple(tried), at_least)
                if boards is None or self.problem.cost(boards) >= self.best.cost - TINY:
                    break
                if not self._shortage(boards):
                    return boards
        return None

    def _on(self, boards):
        """Look for a plan on these boards alone, in several ways; whether there was one."""
        for stir in (0.1, 0.2, 0.3):
            if self._fill(self.random.sample(sorted(boards), len(boards)), 3, stir):
                return True
        stretches = [n for board in sorted(boards) for n in self._own(board)]
        if self.over() or self._dive(stretches, False):
            return True
        return not self.over() and (self._together(sorted(boards)) or self._dive(stretches, False, 0.6))
