"""The plan that saws parts from boards, with its bound, and what has to be bought."""

from collections import Counter
from typing import NamedTuple

from shoplib import measure
from shoplib.maths.timber.lot import Lot, Sentence, Unplanned, board_feet, volume
from shoplib.maths.timber.patterns import Kind
from shoplib.maths.timber.problem import Problem, Stretch
from shoplib.maths.timber.sawing import Layout, lay_out_board, steps
from shoplib.maths.timber.solver import solve
from shoplib.maths.timber.stock import Board, Part, Rough, rough, thinnest_sold, told, written
from shoplib.measure import MeasureError
from shoplib.model import Facts, MissingError, ShapeError

MOST_PARTS = 500


class Piece(NamedTuple):
    """One rough piece of the plan: its number, the part it becomes, and the rough piece it is."""

    number: int
    part: Part
    rough: Rough


class BoardPlan(NamedTuple):
    """What one board gives: its pieces and its cuts in the order of sawing."""

    board: Board
    layout: Layout

    def used(self):
        """Share of the board's face that becomes rough pieces."""
        return sum(each.length * each.width for each in self.layout.places) / self.board.area()


class Missing(NamedTuple):
    """A part that found no place: how many pieces of it, one rough piece, and whether any board could hold one."""

    part: Part
    count: int
    rough: Rough
    could: bool

    def why(self, unit="mm"):
        """Why it found no place, and the board that would hold one piece of it."""
        thin = thinnest_sold(self.rough.thickness, unit)
        needs = (
            f"at least {written(self.rough.length, unit)} long and {written(self.rough.width, unit)} wide between its "
            f"faults, {told(thin, unit)} thick or more, {self.part.species}"
        )
        what = f"{self.count} x {self.part.name}"
        if not self.could:
            return f"{what}: no board is large enough; it needs one {needs}."
        return f"{what}: the boards are full; one more board would hold it, {needs}."


class SawPlan(Lot):
    """The plan: `boards` in use, `pieces` by number, `missing` parts, cost, proven bound and the gap between them.

    `cost` is money where every board has a price, else area in m2. `gap` None: not all parts found a place.
    `finished` tells that the plan was solved to the end: no other plan is cheaper.
    """

    def __init__(self, roughs, boards, pieces, missing, solution, allowances, in_money):
        super().__init__(roughs)
        self.boards, self.pieces, self.missing = boards, pieces, missing
        self.cost, self.bound, self.gap = solution.cost, solution.bound, solution.gap
        self.finished, self.allowances, self.in_money = solution.finished, allowances, in_money

    def verdict(self, unit="mm"):
        """In one sentence: how good the plan is."""
        if self.missing:
            return Sentence("Not all parts found a place. " + " ".join(each.why(unit) for each in self.missing))
        what = "The boards used cost" if self.in_money else "The boards used measure"
        size = f"{self.cost:.2f}" if self.in_money else _area(self.cost, unit)
        if self.gap < 5e-5:
            return Sentence(f"{what} {size}: no other choice of boards is cheaper.")
        return Sentence(f"{what} {size}: at most {100 * self.gap:.1f} % more than any plan must.")

    def __repr__(self):
        boards = ", ".join(f"{each.board.name} ({len(each.layout.places)} pieces)" for each in self.boards)
        return f"{self.verdict()} Boards: {boards}."

    def by_part(self):
        """Each part that is sawn, its rough piece, and how many pieces of it."""
        counts = Counter(id(piece.rough) for piece in self.pieces)
        return [(each.part, each, counts[id(each)]) for each in self.roughs if counts[id(each)]]

    def buy(self, moisture="8 %", unit="mm"):
        """What is bought: boards, board feet of the rough thickness, cubic metres, money, share used, weight."""
        bought = sum(volume(each.board) for each in self.boards)
        rows = [
            ("boards", str(len(self.boards))),
            ("board feet, rough", f"{sum(board_feet(each.board) for each in self.boards):.1f}"),
            ("wood as bought", f"{bought * 1e-9:.4f} m³"),
            self.finished_wood(),
            ("share that becomes parts", f"{100 * self.net() / bought:.0f} %" if bought else "none"),
        ]
        if self.in_money:
            rows.append(("money, in the currency of the prices", f"{self.cost:.2f}"))
        return Facts([*rows, self.weighed(moisture, unit)])

    def pieces_of(self, number, unit="mm"):
        """The pieces of one board, by its number in the plan from 1, as a table."""
        return Facts(
            [
                (place.piece, self.pieces[place.piece - 1].part.name, written(place.length, unit),
                 written(place.width, unit)) for place in self.boards[number - 1].layout.places
            ],
            head=("piece", "part", "rough length", "rough width"),
        )  # fmt: skip

    def cuts_of(self, number, unit="mm"):
        """The cuts of one board, by its number in the plan from 1, as a table: what fence or stop is set to."""
        each = self.boards[number - 1]
        done = steps(each.board.plain["length"], each.board.plain["width"], each.layout)
        return Facts(
            [
                (step.cut.number, "rip" if step.cut.rip else "crosscut", written(step.fence, unit),
                 self.comes_off(step))
                for step in done
            ],
            head=("cut", "how", "set to", "what comes off"),
        )  # fmt: skip

    def comes_off(self, step):
        """What one cut leaves, in words."""
        if step.frees:
            return ", ".join(f"piece {number}, {self.pieces[number - 1].part.name}" for number in step.frees)
        if step.waste:
            return "waste: off with it"
        return "a strip" if step.cut.rip else "a length"


def _area(area, unit):
    """A face in m2, or in square feet.

    >>> _area(1.0, "mm"), _area(0.09290304, "in")
    ('1.00 m²', '1.0 sq ft')
    """
    return f"{area:.2f} m²" if unit == "mm" else f"{area / 0.09290304:.1f} sq ft"


def saw_plan(parts, boards, kerf="3 mm", end="20 mm", edge="4 mm", seconds=10, progress=None, stop=None, unit="mm"):
    """Saw all parts from the cheapest boards: rip and crosscut, one kerf between all, grain along the board.

    `end` and `edge` are added once to each part's length and width. `progress(share of the time, gap)` is called
    while it works; `stop()` ends it early when it answers true. Where not all parts find a place the plan says which,
    and what board would hold them. Raises ShapeError for a part thicker than any timber sold, MeasureError for no
    parts, no boards or more than 500 parts. Without scipy what comes back says that there is no plan, and has the
    rough sizes.

    >>> from shoplib.maths.timber.stock import Board, Part
    >>> rails = Part("rail", 4, "320 mm", "50 mm", "20 mm", "Ash, white")
    >>> saw_plan([rails], [Board("one", "1500 mm", "60 mm", "27 mm")])
    The boards used measure 0.09 m²: no other choice of boards is cheaper. Boards: one (4 pieces).
    """
    sizes = {name: measure.plain("length", value) for name, value in (("kerf", kerf), ("end", end), ("edge", edge))}
    for name, value in sizes.items():
        if value < 0:
            raise ShapeError(f"The {name} is {{}}: it must be nothing or more.", value)
    parts, boards = tuple(parts), tuple(boards)
    _refuse_nothing(parts, boards)
    roughs = [rough(part, sizes["end"], sizes["edge"], unit) for part in parts]
    problem = _problem(roughs, boards, sizes["kerf"])
    try:
        found = solve(problem, seconds, progress, stop)
    except MissingError as missing:
        return Unplanned(roughs, boards, _hopeless(problem, roughs), str(missing))
    return _plan(problem, found, roughs, boards, sizes)


def _refuse_nothing(parts, boards):
    if not parts:
        raise MeasureError("There are no parts to saw: add one.")
    if not boards:
        raise MeasureError("There are no boards on the rack: add one.")
    count = sum(part.count for part in parts)
    if count > MOST_PARTS:
        raise MeasureError(f"There are {count} parts: at most {MOST_PARTS} in one plan. Plan the work in two lots.")


def _problem(roughs, boards, kerf):
    """The boards' stretches, and which parts may come from which timber, in numbers."""
    timbers = {}
    stretches = []
    for number, board in enumerate(boards):
        fitting = frozenset(index for index, piece in enumerate(roughs) if piece.comes_from(board))
        timber = timbers.setdefault(fitting, len(timbers))
        for start, end in board.clear(kerf):
            stretches.append(Stretch(number, start, end - start, board.plain["width"], timber))
    in_money = all(board.price is not None for board in boards)
    costs = tuple(board.price if in_money else board.area() * 1e-6 for board in boards)
    kinds = tuple(Kind(piece.length, piece.width, piece.count) for piece in roughs)
    return Problem(kinds, tuple(stretches), costs, tuple(timbers), kerf)


def _hopeless(problem, roughs):
    """The parts that no board could hold."""
    return [
        Missing(piece.part, piece.count, piece, False)
        for kind, piece in enumerate(roughs) if not problem.could_hold(kind)
    ]  # fmt: skip


def _plan(problem, found, roughs, boards, allowances):
    """The solution with every piece numbered and every cut in its place."""
    pieces, plans = [], []

    def number(kind):
        pieces.append(Piece(len(pieces) + 1, roughs[kind].part, roughs[kind]))
        return len(pieces)

    for index, board in enumerate(boards):
        own = sorted(
            (problem.stretches[n].start, problem.stretches[n].start + problem.stretches[n].length, pattern)
            for n, pattern in found.patterns.items() if problem.stretches[n].board == index
        )  # fmt: skip
        if own:
            face = board.plain["length"], board.plain["width"]
            layout = lay_out_board(*face, own, problem.kinds, number, problem.kerf)
            plans.append(BoardPlan(board, layout))
    missing = tuple(
        Missing(roughs[kind].part, count, roughs[kind], problem.could_hold(kind)) for kind, count in found.left.items()
    )
    in_money = all(board.price is not None for board in boards)
    return SawPlan(roughs, tuple(plans), tuple(pieces), missing, found, allowances, in_money)
