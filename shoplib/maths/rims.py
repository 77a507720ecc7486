"""Circles found from measurements of their rim: through three points, from a chord, or the best through many."""

import math
from typing import NamedTuple

from shoplib import measure
from shoplib.maths.circle_fit import best_circle, off_a_line, off_circle
from shoplib.maths.functions import sqrt
from shoplib.model import Facts, ShapeError, length_in_full, public, write_finely

FLATTEST = 1000  # times their spread: points on a larger circle lie in a line for all that a rule can tell
FEWEST_TO_JUDGE = 5  # any one left out of four leaves three, and three always lie on a circle
STANDS_OUT = 5  # times as far off the others' circle as any of them
RUNNER_UP = 3  # times worse, at least, must the rest agree when any other point is left out instead
READING = 0.1  # mm: nobody reads a rule more closely
SEEN = 1.0  # mm off the circle: that is no reading error any more
SURE = 8  # points from which one slip is told for sure


class RimCircle(NamedTuple):
    """A circle found from its rim; a residual is how far its point lies outside the circle (inside: negative).

    `suspect` counts from 1: the point that stands out from a circle which the others agree on.
    """

    centre: tuple
    radius: object
    residuals: tuple = ()
    suspect: object = None

    def __repr__(self):
        x, y = map(write_finely, self.centre)
        words = f"centre at {x}, {y}; radius {write_finely(self.radius)}"
        if self.residuals:
            words += "; residuals " + ", ".join(map(write_finely, self.residuals))
        return words + (f"; point {self.suspect} looks wrong" if self.suspect else "")

    def _repr_html_(self):
        rows = zip(("centre across", "centre up", "radius"), map(write_finely, (*self.centre, self.radius)))
        return Facts([*rows, *map(self._off, range(1, len(self.residuals) + 1))])._repr_html_()

    def _off(self, number):
        off = write_finely(self.residuals[number - 1])
        return f"point {number} lies off it by", off + (" looks wrong" if number == self.suspect else "")


class Verdict(str):
    """What the points of a rim say of one another, in a sentence; `warns` where there is something to look at."""

    def __new__(cls, words, warns=False):
        verdict = super().__new__(cls, words)
        verdict.warns = warns
        return verdict

    def __repr__(self):
        return str(self)


def radius_of(chord, rise):
    """Radius from chord and rise, on floats, arrays, Quantities or symbols.

    >>> radius_of(16.0, 6.0)
    8.333333333333334
    """
    return (chord**2 + 4 * rise**2) / (8 * rise)


def chord_of(radius, rise):
    """Chord from radius and rise, on floats, arrays, Quantities or symbols.

    >>> chord_of(5.0, 2.0)
    8.0
    """
    return 2 * sqrt(rise * (2 * radius - rise))


def centre_and_radius(first, second, third):
    """Centre x, centre y and radius of the circle through three points: where two perpendicular bisectors cross.

    Runs on floats, arrays, Quantities or symbols.

    >>> centre_and_radius((0.0, 0.0), (4.0, 0.0), (0.0, 3.0))
    (2.0, 1.5, 2.5)
    """
    bx, by = second[0] - first[0], second[1] - first[1]
    cx, cy = third[0] - first[0], third[1] - first[1]
    turn = 2 * (bx * cy - by * cx)
    x = (cy * (bx**2 + by**2) - by * (cx**2 + cy**2)) / turn
    y = (bx * (cx**2 + cy**2) - cx * (bx**2 + by**2)) / turn
    return first[0] + x, first[1] + y, sqrt(x**2 + y**2)


def radius_from_chord(chord, rise):
    """Radius of an arc from its chord and the rise in the chord's middle.

    Machinery's Handbook, 31st ed., p. 79. Raises ShapeError where either is not more than nothing.

    >>> round(radius_from_chord("16 in", "6 in").to("in"), 4)
    <Quantity(8.3333, 'inch')>
    """
    chord, rise = measure.plain("length", chord), measure.plain("length", rise)
    for words, size in (("chord", chord), ("rise", rise)):
        if size <= 0:
            raise ShapeError(f"The {words} is {{}}: it must be more than nothing. Measure it again.", size)
    return public(radius_of(chord, rise), "length")


def chord(radius, rise):
    """Chord across an arc of this radius that rises this much in its middle.

    Machinery's Handbook, 31st ed., p. 79. Raises ShapeError where the rise is not on the circle.

    >>> chord("60 mm", "8 mm").round(2)
    <Quantity(59.87, 'millimeter')>
    """
    radius, rise = measure.plain("length", radius), measure.plain("length", rise)
    if radius <= 0:
        raise ShapeError("The radius is {}: it must be more than nothing. Measure it again.", radius)
    if not 0 < rise < 2 * radius:
        raise ShapeError(
            "A rise of {} is not on a circle of radius {}: it must be more than nothing and less than {}.",
            rise, radius, 2 * radius,
        )
    return public(chord_of(radius, rise), "length")


def circle_through(p1, p2, p3):
    """The circle through three points, each a pair of lengths (x, y): its centre and radius.

    The points need not lie round the whole rim, but the wider apart the better. Raises ShapeError where
    they lie in a line or two of them are the same.

    >>> circle_through(("0 mm", "0 mm"), ("4 mm", "0 mm"), ("0 mm", "3 mm"))
    centre at 2.00 mm, 1.50 mm; radius 2.50 mm
    """
    points = read_points((p1, p2, p3))
    _refuse_few(points)
    (bx, by), (cx, cy) = ((x - points[0][0], y - points[0][1]) for x, y in points[1:])
    if abs(bx * cy - by * cx) < 1e-12 * spread(points) ** 2:
        raise _in_a_line()
    x, y, radius = centre_and_radius(*points)
    _refuse_flat(points, radius)
    return public(RimCircle((x, y), radius), "length")


def fit_circle(points):
    """The circle that fits many rim points best: the sum of the squared distances off it is least.

    Points are pairs of lengths (x, y), at least three. Residuals are taken square to the circle, positive
    outside. With five points or more the fit says which one looks wrong, if one does. Raises ShapeError
    where there are too few points or they lie in a line. W. Gander, G. Golub and R. Strebel, Least-squares
    fitting of circles and ellipses, BIT 34 (1994), section 3.

    >>> fit_circle([("0 mm", "0 mm"), ("4 mm", "0 mm"), ("4 mm", "3 mm"), ("0 mm", "3 mm")]).radius.round(9)
    <Quantity(2.5, 'millimeter')>
    """
    return public(plain_fit(read_points(points)), "length")


def read_points(points, first=1):
    """Pairs of lengths as pairs of floats in mm; a point that cannot be read is named by its number."""
    return [_read_point(number, point) for number, point in enumerate(points, first)]


def _read_point(number, point):
    try:
        if isinstance(point, str):
            raise measure.MeasureError("give x and y apart, as a pair of lengths.")
        try:
            x, y = point
        except (TypeError, ValueError):
            raise measure.MeasureError("give a pair of lengths, x and y.") from None
        return measure.plain("length", x), measure.plain("length", y)
    except measure.MeasureError as error:
        raise measure.MeasureError(f"Point {number}: {error}") from None


def plain_fit(points):
    """The best circle through points in mm, with its residuals and the point that stands out."""
    circle = _best(points)
    return circle._replace(suspect=_stands_out(points))


def trusted(points, circle):
    """The circle to go by: where a point looks wrong the best one without it, with all points' distances off that.

    >>> points = [(50.0, 0.0), (40.0, 30.0), (0.0, 50.0), (-30.0, 40.0), (-50.0, 0.0), (0.0, -57.0)]
    >>> round(trusted(points, plain_fit(points)).radius, 6), round(plain_fit(points).radius, 1)
    (50.0, 52.0)
    """
    if not circle.suspect:
        return circle
    others = _best(points[: circle.suspect - 1] + points[circle.suspect :])
    off = tuple(_outside(point, others) for point in points)
    return others._replace(residuals=off, suspect=circle.suspect)


def spread(points):
    """The longer side of the upright box round the points."""
    return max(max(each) - min(each) for each in zip(*points))


def _refuse_few(points):
    if len(set(points)) < 3:
        raise ShapeError(
            f"A circle needs three points that are not the same, and here are {len(set(points))}: "
            "measure more of the rim."
        )


def _refuse_flat(points, radius):
    if not radius <= FLATTEST * spread(points):
        raise _in_a_line()


def _in_a_line():
    return ShapeError("The points lie in one line, so no circle goes through them: measure them further round the rim.")


def _best(points):
    """Least squares of the distances off the circle, started from the algebraic fit."""
    _refuse_few(points)
    size = spread(points)
    middle = tuple(sum(each) / len(points) for each in zip(*points))
    scaled = [((x - middle[0]) / size, (y - middle[1]) / size) for x, y in points]
    if off_a_line(scaled) < 1e-9:
        raise _in_a_line()
    try:
        circle = best_circle(scaled)
    except ZeroDivisionError:  # so nearly in a line that the steps cannot be solved
        raise _in_a_line() from None
    radius = circle[2] * size
    _refuse_flat(points, radius)
    centre = tuple(place * size + mean for place, mean in zip(circle, middle))
    return RimCircle(centre, radius, tuple(each * size for each in off_circle(scaled, circle)))


def _stands_out(points):
    """The number of the point without which all the others agree far better; None where there is none.

    It must lie STANDS_OUT times as far off the others' circle as any of them, and the rest must agree RUNNER_UP times
    worse when any other point is left out in its place.
    """
    if len(points) < FEWEST_TO_JUDGE:
        return None
    found = sorted(_without(points, number) for number in range(1, len(points) + 1))
    (agreed, off, number), (runner_up, *_) = found[:2]
    return number if off > STANDS_OUT * agreed and runner_up > RUNNER_UP * agreed else None


def _without(points, number):
    """How well the others agree when this point is left out, how far it lies off their circle, and its number.

    Others that lie in a line agree on no circle at all.
    """
    try:
        others = _best(points[: number - 1] + points[number:])
    except ShapeError:
        return math.inf, 0.0, number
    return max(READING, *map(abs, others.residuals)), abs(_outside(points[number - 1], others)), number


def _outside(point, circle):
    """How far a point lies outside a circle; inside: less than nothing."""
    return math.dist(point, circle.centre) - circle.radius


def verdict(points, circle, numbers=None, unit="mm"):
    """Which point looks wrong, whether anyone could tell, or that all is well: points and fitted circle in mm.

    >>> points = [(0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0)]
    >>> verdict(points, plain_fit(points))
    The points agree, but four are too few to show a slip: measure more.
    """
    worst = max(map(abs, circle.residuals))
    if circle.suspect:
        return _accuse(points, circle, numbers or range(1, len(points) + 1), unit)
    if len(points) == 3:
        return Verdict("Three points always lie on a circle: they cannot tell a slip. Measure more.")
    if worst > SEEN:
        words = f"The points do not lie on one circle: the furthest is {length_in_full(worst, unit)} off it. "
        return Verdict(words + _why(points), warns=True)
    if len(points) < FEWEST_TO_JUDGE:
        return Verdict("The points agree, but four are too few to show a slip: measure more.")
    return Verdict("No point stands out from the others.")


def _accuse(points, circle, numbers, unit):
    others = trusted(points, circle)
    off = others.residuals[circle.suspect - 1]
    side = "outside" if off > 0 else "inside"
    words = (
        f"Point {numbers[circle.suspect - 1]} looks wrong: the others agree on a circle "
        f"{length_in_full(2 * others.radius, unit)} across, and it lies {length_in_full(abs(off), unit)} {side} that. "
        "Measure it again before you trust this circle."
    )
    return Verdict(words + ("" if len(points) >= SURE else " Measure one or two more points to be sure."), True)


def _why(points):
    if len(points) < FEWEST_TO_JUDGE:
        return "Nobody can tell which is wrong: any three of them agree. Measure more."
    return "No single point is to blame: the rim is out of round, or several readings are off."
