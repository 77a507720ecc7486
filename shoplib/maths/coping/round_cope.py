"""A round rail that meets a round leg."""

from typing import NamedTuple

from shoplib.maths.coping.meeting import LEG, check_count, check_meets, worries_tip
from shoplib.maths.functions import asin, cos, sin, sqrt, tan
from shoplib.model import Input, Model, ShapeError, angle, length, model, public, result


class Mark(NamedTuple):
    """One point of a wrap: the turn from the 0 line in degrees, round the skin, along from the sawn end.

    The end is sawn square through the longest tip.
    """

    degrees: int
    around: float
    from_sawn_end: float


class Wrap(NamedTuple):
    """One point of a wrap: round the rail's skin from the 0 line, along it from the longest tip."""

    around: object
    along: object


@model
class RoundCope(Model):
    """A round rail that meets a round leg, square or leaning, in the leg's middle or beside it.

    `angle` is the sharper angle between the two centre lines. Look along the rail towards the leg: the 0 line
    runs along the rail's skin in the plane of rail and leg, on the side of the wider angle (the top of a rail that
    rises to an upright leg); from it turns are counted clockwise. `offset` is the rail's centre line from the leg's,
    positive towards the 90 line.

    >>> rail = RoundCope("35 mm", "19 mm", "60 deg")
    >>> round(rail.saddle_depth, 2), round(rail.tip_reach, 2)
    (<Quantity(11.0, 'millimeter')>, <Quantity(14.7, 'millimeter')>)
    """

    leg_diameter: Input = length(**LEG)
    rail_diameter: Input = length(
        "rail diameter", "d", low="6 mm", high="100 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.2 mm",
        help="Across the round rail.",
    )
    angle: Input = angle(
        "angle", "theta", low="45 deg", high="90 deg", step="0.5 deg", tolerance="0.3 deg",
        help="Between the centre lines of rail and leg, on the sharper side.", default="90 deg",
    )
    offset: Input = length(
        "offset", "e", low="-30 mm", high="30 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.3 mm",
        help="Rail's centre line from the leg's; positive towards the 90 line.", default="0 mm",
    )

    def check(self):
        if not self.pi / 4 - 1e-9 <= self.angle <= self.pi / 2 + 1e-9:
            raise ShapeError(
                "The angle between rail and leg must be from 45 to 90 deg: measure it on the sharper side.",
                input="angle",
            )
        reach = abs(self.offset) + self.rail_diameter / 2
        check_meets(self, reach, "offset" if self.rail_diameter < self.leg_diameter else "rail_diameter")

    @result("turn from the 0 line to the longest tip", "psi_1", kind="angle", plan=True, to_set=True)
    def tip_turn(self):
        """Turn from the 0 line to the longest tip, clockwise seen along the rail towards the leg: from 0 to 360 deg.

        Found by halving: no formula gives it at every angle and offset. Where two tips are equally long, the one
        towards the 90 line.

        >>> RoundCope("35 mm", "19 mm").tip_turn
        <Quantity(90.0, 'degree')>
        """
        turn = asin(_balance(self, 1))
        return turn if self.offset >= 0 else 2 * self.pi - turn

    @result("turn from the 0 line to the deepest point", "psi_0", kind="angle", plan=True)
    def root_turn(self):
        """Turn from the 0 line to the deepest point of the saddle, clockwise seen along the rail. Found by halving.

        >>> RoundCope("35 mm", "19 mm").root_turn
        <Quantity(180.0, 'degree')>
        """
        turn = asin(_balance(self, -1))
        return self.pi + turn if self.offset >= 0 else self.pi - turn

    @result("leg's centre to the longest tip", "x_1", checks="leg_diameter", to_set=True)
    def tip_reach(self):
        """Where the centre lines cross (seen square to both) to the longest tip, along the rail.

        A rail between two legs is as much shorter than the distance of their centre lines at each end.

        >>> RoundCope("26 mm", "10 mm").tip_reach
        <Quantity(12.0, 'millimeter')>
        """
        return _reach(self, self.tip_turn)

    @result("leg's centre to the saddle's bottom", "x_0", minor=True)
    def root_reach(self):
        """Where the centre lines cross to the deepest point of the saddle, along the rail."""
        return _reach(self, self.root_turn)

    @result("saddle depth", "c", checks="leg_diameter")
    def saddle_depth(self):
        """Longest tip to the deepest point of the saddle, along the rail.

        >>> RoundCope("26 mm", "10 mm").saddle_depth  # 5, 12, 13
        <Quantity(1.0, 'millimeter')>
        """
        return self.root_reach - self.tip_reach

    @result("once round the rail", "u", checks="rail_diameter", to_set=True)
    def circumference(self):
        """Once round the rail's skin: the length of the wrap, without its overlap."""
        return self.pi * self.rail_diameter

    @result("from each line to the next", "q", checks="rail_diameter", to_set=True)
    def quarter(self):
        """Round the rail's skin from one of the four lines to the next: a quarter of the way round.

        >>> round(RoundCope("35 mm", "19 mm").quarter, 2)
        <Quantity(14.92, 'millimeter')>
        """
        return self.circumference / 4

    @result("wrap, from the 0 line and the longest tip", "wrap", kind="table", plan=True)
    def marks(self):
        """Twelve points of the wrap, thirty degrees apart: round the skin, and along it from the longest tip."""
        points = wrap_curve(self, 13)[:12]
        return tuple(Mark(30 * k, point.around, point.along) for k, point in enumerate(points))

    def worries(self):
        yield from worries_tip(self, abs(self.offset) + self.rail_diameter / 2, "rail_diameter")

    def on_card(self):
        """What to mark round the rail, where to saw it, and the saddle."""
        return ("circumference", "quarter", "tip_reach", "tip_turn", "root_turn", "saddle_depth", "marks")

    def wrap(self, n=25):
        """Points once round the rail, the last on the first's line again.

        Each is measured round the rail's skin from the 0 line, clockwise seen along the rail towards the leg, and
        along the rail from the longest tip.

        >>> RoundCope("26 mm", "10 mm").wrap(5)[0].along
        <Quantity(1.0, 'millimeter')>
        """
        check_count(n)
        return public(wrap_curve(self.plain, n), "length")


def _reach(cope, turn):
    """Where the centre lines cross to the end of the line on the rail's skin at this turn, along the rail."""
    beside = cope.offset + cope.rail_diameter / 2 * sin(turn)
    square = sqrt((cope.leg_diameter / 2) ** 2 - beside**2)
    return square / sin(cope.angle) - cope.rail_diameter / 2 * cos(turn) / tan(cope.angle)


def wrap_curve(cope, n):
    """Points of a wrap in plain sizes, from the 0 line once round."""
    turns = [2 * cope.pi * k / (n - 1) for k in range(n)]
    return tuple(Wrap(cope.rail_diameter / 2 * turn, _reach(cope, turn) - cope.tip_reach) for turn in turns)


def _balance(cope, way):
    """The sine of the turn at which the saddle's edge stands still: at its tip (way 1) or at its bottom (-1).

    Seen along the leg the edge is the leg's circle, seen along the rail it is the rail's. With w the sine, the slope of
    the reach is nothing where R cos(angle) w = (|e| + way r w) sqrt(1 - (sin(angle) w)^2). The left side starts no
    higher than the right and ends above it, and crosses it once.
    """
    leg, rail, offset = cope.leg_diameter / 2, cope.rail_diameter / 2, abs(cope.offset)
    c, s = cos(cope.angle), sin(cope.angle)
    if abs(c) < 1e-12:
        return 1.0 if way > 0 or offset >= rail else _number(offset / rail)
    low, high = 0.0, 1.0
    for _ in range(52):
        w = (low + high) / 2
        if leg * c * w < (offset + way * rail * w) * sqrt(1 - (s * w) ** 2):
            low = w
        else:
            high = w
    return high


def _number(ratio):
    """A ratio of two lengths as a float."""
    return float(ratio.to("dimensionless").magnitude) if hasattr(ratio, "to") else ratio
