"""The programmes that a general solver (HiGHS, through scipy) solves: over patterns in shares, over whole boards."""

import contextlib
import os
import sys
import threading

from shoplib.maths.timber.problem import TINY

STEP = 0.5  # seconds that one call may take: a stop is heard after that
_ONE_AT_A_TIME = threading.Lock()


@contextlib.contextmanager
def quiet():
    """Keep what the solver itself prints to the C library's output off the reader's screen."""
    with _ONE_AT_A_TIME:
        try:
            sys.stdout.flush()
            kept, nowhere = os.dup(1), os.open(os.devnull, os.O_WRONLY)
        except (OSError, ValueError):  # no such output: nothing to keep quiet
            yield
            return
        try:
            os.dup2(nowhere, 1)
            yield
        finally:
            os.dup2(kept, 1)
            os.close(kept)
            os.close(nowhere)


class Priced:
    """What a programme in shares tells: a worth for each kind, a rent for each stretch, its cost and what is short."""

    def __init__(self, worth, rent, cost, short):
        self.worth, self.rent, self.cost, self.short = worth, rent, cost, short


class Columns:
    """The patterns known so far, each for one stretch."""

    def __init__(self, problem):
        self.problem, self.all, self.known = problem, [], set()

    def add(self, stretch, pattern):
        """Remember a pattern; whether it is new."""
        counts = tuple(sorted(pattern.counts().items()))
        if not counts or (stretch, counts) in self.known:
            return False
        self.known.add((stretch, counts))
        self.all.append((stretch, counts))
        return True

    def priced(self, demand, stretches, costs):
        """Solve the programme in shares: demand met from these stretches, as cheaply as can be.

        With `costs` None the boards are there already and only what finds no place counts.
        """
        import numpy
        from scipy.optimize import linprog

        matrix, places, rows, kinds, boards = self._matrix(demand, stretches, costs is not None)
        area = numpy.array([self.problem.area(n) for n in kinds]) / 1e6
        dear = 1.0 if costs is None else 10 * max(max(costs), TINY) / max(area.min(), TINY)
        cost = numpy.concatenate([numpy.zeros(len(places)), dear * area, [costs[board] for board in boards]])
        free = [(0, None)] * (len(places) + len(kinds)) + [(0, 1)] * len(boards)
        most = numpy.concatenate([[-demand[n] for n in kinds], [float(costs is None)] * len(rows)])
        found = linprog(cost, A_ub=matrix, b_ub=most, bounds=free, method="highs")
        duals = -found.ineqlin.marginals
        worth = {kind: float(max(0.0, duals[row])) for row, kind in enumerate(kinds)}
        rent = {number: float(max(0.0, duals[len(kinds) + row])) for row, number in enumerate(rows)}
        short = float((found.x[len(places) : len(places) + len(kinds)] * area).sum())
        return Priced(worth, rent, float(found.fun), short)

    def _matrix(self, demand, stretches, with_boards):
        """Rows: kinds wanted, stretches in use; columns: patterns, shortages, boards to be paid."""
        import numpy
        from scipy.sparse import csr_matrix

        kinds = list(demand)
        places = [place for place, (stretch, _) in enumerate(self.all) if stretch in stretches]
        rows = sorted({self.all[place][0] for place in places})
        boards = sorted({self.problem.stretches[n].board for n in rows}) if with_boards else []
        stretch_row = {n: len(kinds) + row for row, n in enumerate(rows)}
        board_column = {board: len(places) + len(kinds) + place for place, board in enumerate(boards)}
        cells = [
            (row, column, -count) for column, place in enumerate(places) for row, count in self.all[place][1]
        ] + [(stretch_row[self.all[place][0]], column, 1.0) for column, place in enumerate(places)]
        cells += [(row, len(places) + row, -1.0) for row in range(len(kinds))]
        if with_boards:
            cells += [(row, board_column[self.problem.stretches[n].board], -1.0) for n, row in stretch_row.items()]
        down, across, data = numpy.array(cells).T
        shape = (len(kinds) + len(rows), len(places) + len(kinds) + len(boards))
        return csr_matrix((data, (down.astype(int), across.astype(int))), shape=shape), places, rows, kinds, boards


class Bound:
    """What every plan must satisfy: for each set of worths, the boards used are worth all pieces.

    A cut says: sum over the boards used of what each can hold at the most is at least the worth of all pieces.
    """

    def __init__(self, problem):
        self.problem, self.cuts, self.low = problem, [], 0.0

    def add(self, worth, values):
        """One inequality, from the most that each stretch is worth; what it says that shares of boards cost."""
        total = sum(worth.get(n, 0.0) * kind.count for n, kind in enumerate(self.problem.kinds))
        if total <= 0:
            return 0.0
        own = self.problem.by_board
        boards = range(len(self.problem.costs))
        cut = [sum(values[n] for n in own.get(board, ()) if n in values) / total for board in boards]
        self.cuts.append(cut)
        return self._in_shares(cut)

    def _in_shares(self, cut):
        """The least that shares of boards cost which satisfy one inequality."""
        costs, left, spent = self.problem.costs, 1.0, 0.0
        for cost, holds in sorted((cost / holds, holds) for cost, holds in zip(costs, cut) if holds > TINY):
            spent += cost * min(holds, left)
            left = max(0.0, left - holds)
        return spent

    def allows(self, boards):
        """Whether these boards satisfy every inequality found so far."""
        return all(sum(cut[board] for board in boards) >= 1 - 1e-9 for cut in self.cuts)

    def cheapest(self, excluded=(), at_least=None):
        """The cheapest boards that satisfy every inequality, or None; without any exclusion it raises the bound.

        Each excluded set of boards must get at least one other board.
        """
        import numpy
        from scipy.optimize import Bounds, LinearConstraint, milp

        costs = numpy.array(self.problem.costs)
        boards = range(len(costs))
        rows = [*self.cuts, *([float(board not in each) for board in boards] for each in excluded)]
        low = [1.0 - 1e-9] * len(self.cuts) + [1.0] * len(excluded)
        if at_least is not None:
            rows, low = [*rows, list(costs)], [*low, at_least]
        with quiet():
            found = milp(
                costs, integrality=1, bounds=Bounds(0, 1), options={"time_limit": STEP},
                constraints=LinearConstraint(numpy.array(rows), low, numpy.inf),
            )  # fmt: skip
        if at_least is None and not excluded and found.mip_dual_bound is not None:
            self.low = max(self.low, float(found.mip_dual_bound))
        if found.x is None:
            return None
        return frozenset(board for board in boards if found.x[board] > 0.5)
