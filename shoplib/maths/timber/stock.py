"""What is to be cut and what lies on the rack: parts with their rough sizes, boards with their clear stretches."""

from dataclasses import dataclass, field
from fractions import Fraction
from functools import lru_cache

from shoplib import measure
from shoplib.maths.dowels import RoundStock
from shoplib.measure import MeasureError
from shoplib.model import LENGTH_STEPS, ShapeError, public, write_value
from shoplib.tables import table

METRIC_ROUGH = (20.0, 27.0, 34.0, 40.0, 52.0, 65.0, 80.0)  # mm, as sold: common practice
METRIC_LOSS = 5.0  # mm taken off in surfacing: common practice
HAIR = 1e-6  # mm


def _size(words, value, least=0.0):
    """A length given as text with its unit or as a Quantity, in mm."""
    try:
        size = measure.plain("length", value)
    except MeasureError as error:
        raise MeasureError(f"{words}: {error}") from None
    if size <= least:
        raise ShapeError(f"{words} is {{}}: it must be more than {{}}.", size, least)
    return size


def _name(words, value):
    """A name as a person writes it: one line, not empty, not endless."""
    text = " ".join(str(value).split())
    if not text or len(text) > 60:
        raise MeasureError(f"{words}: write a name of 1 to 60 letters, not {text[:30]!r}.")
    return text


def written(size, unit="mm"):
    """A size of the plan for a person.

    >>> written(720.0), written(412.75, "in")
    ('720.0 mm', '16 1/4 in')
    """
    return write_value(size, "length", unit, *LENGTH_STEPS)


def written_exactly(size, unit="mm"):
    """A size as it is written back into a box or a file: nothing of it is lost.

    >>> written_exactly(720.0), written_exactly(412.75, "in"), written_exactly(27.35), written_exactly(10.0, "in")
    ('720 mm', '16 1/4 in', '27.35 mm', '10 mm')
    """
    steps = ("1 mm", "0.1 mm", "0.01 mm") if unit == "mm" else ("1/64 in", "0.001 in")
    for step in steps:
        text = measure.write(size, "length", unit, step)
        if abs(measure.plain("length", text) - size) < HAIR:
            return text
    return f"{size:.9g} mm"


def told(size, unit="mm"):
    """A size for a person to read, as short as it can be said in this unit.

    >>> told(720.0), told(720.0, "in"), told(412.75, "in")
    ('720 mm', '28 11/32 in', '16 1/4 in')
    """
    text = written_exactly(size, unit)
    return text if text.endswith(unit) and len(text) < 14 else written(size, unit)


@dataclass(frozen=True)
class Part:
    """A finished part: how many, its length along the grain, width, thickness and timber.

    A `round` part is turned from a square blank: its width is its diameter; `per_blank` of them share one blank.

    >>> Part("short rail", 4, "320 mm", "50 mm", "20 mm", "Ash, white")
    Part: 4 short rail, 320.0 x 50.0 x 20.0 mm, Ash, white
    """

    name: str
    count: int
    length: object
    width: object
    thickness: object
    species: str
    round: bool = False
    per_blank: int = 1
    plain: dict = field(init=False, repr=False, compare=False)

    def __post_init__(self):
        words = f"Part {_name('The part', self.name)!r}"
        for name in ("count", "per_blank"):
            value = getattr(self, name)
            if isinstance(value, bool) or not isinstance(value, int) or not 0 < value < 1000:
                raise MeasureError(
                    f"{words}: the number of pieces is a whole number from 1 to 999, not {str(value)[:30]!r}."
                )
        sizes = {name: _size(f"{words}, {name}", getattr(self, name)) for name in ("length", "width", "thickness")}
        if self.round and abs(sizes["width"] - sizes["thickness"]) > HAIR:
            raise ShapeError(f"{words} is round: give its diameter {{}} as width and as thickness.", sizes["width"])
        object.__setattr__(self, "name", _name("The part", self.name))
        object.__setattr__(self, "species", _name(f"{words}, timber", self.species))
        object.__setattr__(self, "plain", sizes)
        for name, value in sizes.items():
            object.__setattr__(self, name, public(value, "length"))

    def __repr__(self):
        sizes = " x ".join(f"{self.plain[name]:.1f}" for name in ("length", "width", "thickness"))
        return f"Part: {self.count} {self.name}, {sizes} mm, {self.species}"

    @property
    def blanks(self):
        """How many pieces are sawn: as many as parts, but for round ones that share a blank."""
        return -(-self.count // self.per_blank)

    def volume(self):
        """Wood in all the finished parts, in mm3."""
        length, width, thickness = (self.plain[name] for name in ("length", "width", "thickness"))
        section = 3.141592653589793 / 4 * width**2 if self.round else width * thickness
        return self.count * length * section

    def net_length(self):
        """Length of one piece before the allowance: the part's, or that of the square blank of a round one."""
        if not self.round:
            return self.plain["length"]
        return RoundStock(self.width, self.length, self.per_blank).plain.blank_length


@dataclass(frozen=True)
class Board:
    """A board as it lies on the rack; `faults` are stretches along it, from one end, that no part may touch.

    `price` is for the whole board, in any money. `species` left out: any part may come from it.

    >>> board = Board("spare", "1900 mm", "150 mm", "27 mm", faults=[("600 mm", "680 mm")])
    >>> board.clear(3.0)
    ((0.0, 600.0), (680.0, 1900.0))
    """

    name: str
    length: object
    width: object
    thickness: object
    price: float | None = None
    faults: tuple = ()
    species: str | None = None
    plain: dict = field(init=False, repr=False, compare=False)

    def __post_init__(self):
        words = f"Board {_name('The board', self.name)!r}"
        sizes = {name: _size(f"{words}, {name}", getattr(self, name)) for name in ("length", "width", "thickness")}
        faults = tuple(sorted(_fault(words, each, sizes["length"]) for each in self.faults))
        price = self.price
        if price is not None and (isinstance(price, (bool, str)) or not 0 <= price < 1e7):
            raise MeasureError(f"{words}: the price is a plain number, nothing or more, not {str(price)[:30]!r}.")
        object.__setattr__(self, "name", _name("The board", self.name))
        if self.species is not None:
            object.__setattr__(self, "species", _name(f"{words}, timber", self.species))
        object.__setattr__(self, "plain", sizes | {"faults": faults})
        object.__setattr__(self, "faults", tuple(public(fault, "length") for fault in faults))
        for name, value in sizes.items():
            object.__setattr__(self, name, public(value, "length"))

    def __repr__(self):
        sizes = " x ".join(f"{self.plain[name]:.1f}" for name in ("length", "width", "thickness"))
        faults = "".join(f", fault {start:.1f} to {end:.1f} mm" for start, end in self.plain["faults"])
        return f"Board: {self.name}, {sizes} mm{faults}"

    def clear(self, kerf):
        """The stretches without a fault, from and to along the board; a cut beside a fault lies in the fault."""
        found, start = [], 0.0
        for low, high in self.plain["faults"]:
            if low - start > HAIR:
                found.append((start, low))
            start = max(start, high, low + kerf if low > HAIR else high)
        if self.plain["length"] - start > HAIR:
            found.append((start, self.plain["length"]))
        return tuple(found)

    def area(self):
        """Face of the board, in mm2."""
        return self.plain["length"] * self.plain["width"]


def _fault(words, pair, length):
    """One fault as (from, to) in mm; it must lie on the board."""
    try:
        low, high = pair
    except (TypeError, ValueError):
        raise MeasureError(f"{words}: a fault is a pair, from and to along the board.") from None
    low, high = (measure.plain("length", each) for each in (low, high))
    if not -HAIR <= low < high <= length + HAIR:
        raise ShapeError(
            f"{words}: a fault from {{}} to {{}} does not lie on a board {{}} long. "
            "Measure both from the same end, the smaller first.", low, high, length,
        )
    return max(low, 0.0), min(high, length)


def surfaces_to(rough):
    """Thickness left after both faces are planed, in mm: by the table for inch quarters, else 5 mm less.

    NHLA standard thicknesses (surfaced two sides); the metric allowance is common practice.

    >>> surfaces_to(27.0), round(surfaces_to(25.4), 3)
    (22.0, 20.637)
    """
    for nominal, surfaced in quarters():
        if abs(nominal - rough) < 0.05:
            return surfaced
    return rough - METRIC_LOSS


@lru_cache(maxsize=1)
def quarters():
    """Rough thicknesses sold in inch quarters and what they surface to, in mm, thinnest first."""
    return tuple((_inches(row["rough"]), _inches(row["surfaced"])) for row in table("lumber"))


def _inches(text):
    whole, _, part = str(text).partition(" ")
    return float(25.4 * (Fraction(whole) + Fraction(part or 0)))


@dataclass(frozen=True)
class Rough:
    """The rough piece for a part: what is sawn from the board, in mm."""

    part: Part
    length: float
    width: float
    count: int
    thickness: float

    def comes_from(self, board):
        """Whether a board is of the part's timber and thick enough to be planed to the part."""
        same = board.species is None or board.species == self.part.species
        return same and surfaces_to(board.plain["thickness"]) >= self.thickness - HAIR

    def fits(self, length, width):
        return self.length <= length + HAIR and self.width <= width + HAIR


def rough(part, end=20.0, edge=4.0, unit="mm"):
    """The rough piece of a part: `end` added to its length and `edge` to its width, once each.

    Raises ShapeError for a part thicker than the thickest timber sold, and says how many layers to glue.

    >>> piece = rough(Part("rail", 4, "320 mm", "50 mm", "20 mm", "Ash, white"))
    >>> piece.length, piece.width, thinnest_sold(piece.thickness)
    (340.0, 54.0, 27.0)
    """
    thickness = part.plain["thickness"]
    if thinnest_sold(thickness, unit) is None:
        most = max(surfaces_to(each) for each in sold(unit))
        layers = -(-thickness // most)
        raise ShapeError(
            f"Part {part.name!r} is {{}} thick: the thickest timber sold planes to {{}}. "
            f"Glue it from {layers:.0f} layers of {{}} and give each layer as a part.",
            thickness, most, thickness / layers,
        )
    return Rough(part, part.net_length() + end, part.plain["width"] + edge, part.blanks, thickness)


def sold(unit="mm"):
    """Rough thicknesses that a yard sells, in mm: metric sizes, or inch quarters."""
    return METRIC_ROUGH if unit == "mm" else tuple(nominal for nominal, _ in quarters())


def thinnest_sold(thickness, unit="mm"):
    """The thinnest rough timber that planes to this thickness; None where there is none so thick."""
    return next((each for each in sold(unit) if surfaces_to(each) >= thickness - HAIR), None)
