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

    def __init__(self, worth, rent, cost, short, shares):
        self.worth, self.rent, self.cost, self.short, self.shares = worth, rent, cost, short, shares


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
        self.all.append((stretch, pattern, counts))
        return True

    def of(self, stretches):
        """The numbers of the columns of these stretches."""
        return [place for place, (stretch, _, _) in enumerate(self.all) if stretch in stretches]

    def priced(self, demand, stretches, paid, costs):
        """Solve the programme in shares: demand met from these stretches, as cheaply as can be.

        Boards in `paid` cost nothing more; with `costs` None no other board is there and only shortage counts.
        """
        import numpy
        from scipy.optimize import linprog

        matrix, places, rows, kinds, boards = self._matrix(demand, stretches, paid, costs is not None)
        area = numpy.array([self.problem.area(n) for n in kinds]) / 1e6
        dear = 1.0 if costs is None else 10 * max(max(costs), TINY) / max(area.min(), TINY)
        cost = numpy.concatenate([
            numpy.zeros(len(places)), dear * area, [costs[board] for board in boards] if costs is not None else []
        ])  # fmt: skip
        free = [(0, None)] * (len(places) + len(kinds)) + [(0, 1)] * len(boards)
        paid_rows = [float(self.problem.stretches[n].board in paid or costs is None) for n in rows]
        most = numpy.concatenate([[-demand[n] for n in kinds], paid_rows])
        found = linprog(cost, A_ub=matrix, b_ub=most, bounds=free, method="highs")
        duals = -found.ineqlin.marginals
        worth = {kind: float(max(0.0, duals[row])) for row, kind in enumerate(kinds)}
        rent = {number: float(max(0.0, duals[len(kinds) + row])) for row, number in enumerate(rows)}
        short = float((found.x[len(places) : len(places) + len(kinds)] * area).sum())
        shares = [(float(x), place) for x, place in zip(found.x, places) if x > TINY]
        return Priced(worth, rent, float(found.fun), short, shares)

    def _matrix(self, demand, stretches, paid, with_boards):
        """Rows: kinds still wanted, stretches in use; columns: patterns, shortages, boards still to be paid."""
        from scipy.sparse import csr_matrix

        kinds = [n for n, count in demand.items() if count > 0]
        row_of = {n: row for row, n in enumerate(kinds)}
        places = self.of(stretches)
        rows = sorted({self.all[place][0] for place in places})
        stretch_row = {n: len(kinds) + row for row, n in enumerate(rows)}
        data, down, across = [], [], []
        for column, place in enumerate(places):
            stretch, _, counts = self.all[place]
            mine = [(row_of[n], -count) for n, count in counts if n in row_of] + [(stretch_row[stretch], 1.0)]
            down += [row for row, _ in mine]
            data += [value for _, value in mine]
            across += [column] * len(mine)
        for row in range(len(kinds)):
            data, down, across = data + [-1.0], down + [row], across + [len(places) + row]
        boards = sorted({self.problem.stretches[n].board for n in rows} - set(paid)) if with_boards else []
        board_column = {board: len(places) + len(kinds) + place for place, board in enumerate(boards)}
        for number, row in stretch_row.items():
            board = self.problem.stretches[number].board
            if board in board_column:
                data, down, across = data + [-1.0], down + [row], across + [board_column[board]]
        shape = (len(kinds) + len(rows), len(places) + len(kinds) + len(boards))
        return csr_matrix((data, (down, across)), shape=shape), places, rows, kinds, boards

    def together(self, seconds, boards):
        """Let the general solver choose whole patterns among those known, with as little shortage as can be."""
        import numpy
        from scipy.optimize import Bounds, LinearConstraint, milp

        stretches = {n for board in boards for n in self.problem.by_board.get(board, ())}
        matrix, places, rows, kinds, _ = self._matrix(self.problem.demand(), stretches, boards, False)
        many = len(places)
        cost = numpy.concatenate([numpy.zeros(many), [self.problem.area(n) / 1e6 for n in kinds]])
        most = numpy.concatenate([[-self.problem.kinds[n].count for n in kinds], numpy.ones(len(rows))])
        upper = numpy.concatenate([numpy.ones(many), [self.problem.kinds[n].count for n in kinds]])
        with quiet():
            found = milp(
                cost, integrality=numpy.concatenate([numpy.ones(many), numpy.zeros(len(kinds))]),
                bounds=Bounds(0, upper), constraints=LinearConstraint(matrix, -numpy.inf, most),
                options={"time_limit": seconds},
            )  # fmt: skip
        if found.x is None:
            return {}
        return {self.all[place][0]: self.all[place][1] for place, x in zip(places, found.x) if x > 0.5}


class Bound:
    """What every plan must satisfy: for each set of worths, the boards used are worth all pieces.

    A cut says: sum over the boards used of what each can hold at the most is at least the worth of all pieces.
    """

    def __init__(self, problem):
        self.problem, self.cuts, self.low = problem, [], 0.0

    def add(self, worth, values):
        """One inequality, from the most that each stretch is worth."""
        total = sum(worth.get(n, 0.0) * kind.count for n, kind in enumerate(self.problem.kinds))
        if total > 0:
            boards = range(len(self.problem.costs))
            self.cuts.append([
                sum(values[n][0] for n in self.problem.by_board.get(board, ()) if n in values) / total
                for board in boards
            ])  # fmt: skip

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
