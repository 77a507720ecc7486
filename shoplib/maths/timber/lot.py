"""What is known of a lot of parts before it is planned: rough sizes, wood, weight; and how much a board holds."""

from shoplib import measure
from shoplib.maths.timber.stock import thinnest_sold, told
from shoplib.maths.wood import density, timbers_with
from shoplib.model import Facts, MissingError

BOARD_FOOT = 25.4 * 304.8 * 304.8  # mm3: one inch thick, one foot wide and long
ONLY_A_PLAN = ("boards", "pieces", "missing", "cost", "bound", "gap", "finished", "in_money", "allowances")


class Sentence(str):
    """A sentence that shows itself without quotes."""

    def __repr__(self):
        return str(self)


class Lot:
    """Parts that are to be sawn, each with its rough piece; `roughs` keep the order in which they were given."""

    def __init__(self, roughs):
        self.roughs = tuple(roughs)

    def by_part(self):
        """Each part that is sawn, its rough piece, and how many pieces of it."""
        return [(each.part, each, each.count) for each in self.roughs]

    def net(self):
        """The wood in the finished parts, in mm3."""
        return sum(part.volume() for part, _, _ in self.by_part())

    def weight(self, moisture="8 %"):
        """Weight of all finished parts at a moisture content: 1000 G (1 + M) kg a cubic metre (Wood Handbook)."""
        content = measure.plain("percent", moisture)
        grams = sum(part.volume() * 1e-9 * density(part.species, content) for part, _, _ in self.by_part())
        return measure.quantity(grams, "kg")

    def sizes(self, unit="mm"):
        """Finished and rough sizes of every part that is sawn, as a table: length, width and thickness."""

        def sizes(*values):
            return " × ".join(told(value, unit).removesuffix(f" {unit}") for value in values) + f" {unit}"

        return Facts(
            [
                (part.name, str(count), sizes(*part.plain.values()),
                 sizes(piece.length, piece.width, thinnest_sold(piece.thickness, unit)))
                for part, piece, count in self.by_part()
            ],
            head=("part", "pieces", "finished", "rough"),
        )  # fmt: skip

    def finished_wood(self):
        """A row of a table: the wood in the finished parts."""
        return "wood in the finished parts", f"{self.net() * 1e-9:.4f} m³, {self.net() / BOARD_FOOT:.1f} board feet"

    def weighed(self, moisture, unit):
        """A row of a table: the weight in words; a timber that the tables do not hold has none."""
        heavy = "kg" if unit == "mm" else "lb"
        unknown = sorted({part.species for part, _, _ in self.by_part()} - set(timbers_with("specific_gravity")))
        said = f"not known: no density of {' and '.join(unknown)} in the tables" if unknown else measure.show(
            self.weight(moisture), heavy, f"0.1 {heavy}"
        )  # fmt: skip
        return f"weight of the parts at {moisture}", said


class Unplanned(Lot):
    """What stands for a plan where none can be made: `why` says so, and rough sizes, wood and weight are told.

    `hopeless` are the parts that no board could hold. What only a plan has raises MissingError with the same sentence.
    """

    def __init__(self, roughs, rack, hopeless, why):
        super().__init__(roughs)
        self.rack, self.hopeless, self.why = tuple(rack), tuple(hopeless), why

    def __getattr__(self, name):
        raise MissingError(self.why) if name in ONLY_A_PLAN else AttributeError(name)

    def verdict(self, unit="mm"):
        """In one sentence: why there is no plan; and which parts no board could hold."""
        return Sentence(" ".join([self.why, *(each.why(unit) for each in self.hopeless)]))

    __repr__ = verdict

    def cuts_of(self, number, unit="mm"):
        """In place of a board's cuts: why there are none."""
        return Sentence(self.why)

    pieces_of = cuts_of

    def buy(self, moisture="8 %", unit="mm"):
        """What is on the rack and in the parts; what has to be bought, only a plan could tell."""
        wood = sum(volume(board) for board in self.rack)
        return Facts([
            ("boards to buy", self.why),
            ("boards on the rack", str(len(self.rack))),
            ("board feet on the rack, rough", f"{sum(map(board_feet, self.rack)):.1f}"),
            ("wood on the rack", f"{wood * 1e-9:.4f} m³"),
            self.finished_wood(),
            self.weighed(moisture, unit),
        ])  # fmt: skip


def volume(board):
    """A board as it lies on the rack, in mm3."""
    return board.area() * board.plain["thickness"]


def board_feet(board):
    """Board feet of one board: its rough thickness in inches (less than one counts as one) by its face in square feet.

    Common practice; Noyes, Handwork in Wood (1910).

    >>> from shoplib.maths.timber.stock import Board
    >>> round(board_feet(Board("plank", "12 ft", "6 in", "1 in")), 2)
    6.0
    """
    return board.area() * max(board.plain["thickness"], 25.4) / BOARD_FOOT
