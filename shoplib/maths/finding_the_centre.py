"""Finding the centre: of a leg's end that the lathe left no mark on, of a disc, of a piece of a rim."""

from shoplib import measure
from shoplib.maths.functions import atan, cos, least, most, sin, sqrt, tan
from shoplib.maths.rims import radius_of
from shoplib.model import Caution, Facts, Input, Model, ShapeError, angle, length, length_in_full, model, public, result


@model
class CentreFinder(Model):
    """The end of a round leg, and lines drawn on it that cross near its centre.

    Each line may be off by `marking_error` square to itself. What the lines make of that depends on
    the angle at which they cross, and on the way they were drawn.

    >>> end = CentreFinder("35 mm")
    >>> round(end.centre_error, 3), round(end.wall_left("25 mm"), 3)
    (<Quantity(0.424, 'millimeter')>, <Quantity(4.576, 'millimeter')>)
    """

    diameter: Input = length(
        "diameter", "D", low="10 mm", high="600 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.2 mm",
        help="Across the round whose centre is wanted.",
    )
    marking_error: Input = length(
        "marking error", "e", low="0.05 mm", high="2 mm", step="0.05 mm", inch_step="0.005 in", tolerance="0.1 mm",
        help="How far a line that you draw may be off, square to itself: a knife holds less than a pencil.",
        default="0.3 mm",
    )
    crossing_angle: Input = angle(
        "crossing angle", "gamma", low="10 deg", high="170 deg", step="1 deg", tolerance="5 deg",
        help="Between the two lines.", default="90 deg",
    )
    square_error: Input = angle(
        "square's error", "beta", low="0 deg", high="1 deg", step="0.01 deg", tolerance="0.05 deg",
        help="How far the square, or the cradle's guide, is from its true angle.", default="0.1 deg",
    )

    def check(self):
        if self.crossing_angle >= self.pi:
            raise ShapeError(
                "Lines at 180 deg lie along each other and cross nowhere: keep the crossing angle under 180 deg.",
                input="crossing_angle",
            )
        if not 0 <= self.square_error < self.pi / 4:
            raise ShapeError(
                "A square must be nearer to its true angle than 45 deg: measure its error again.", input="square_error"
            )
        if self.centre_error >= self.diameter / 2:
            raise ShapeError(
                "The lines may cross {} from the centre, outside a round {} across: it must stay under {}. "
                "Mark more closely, or cross the lines nearer to a right angle.",
                self.centre_error, self.diameter, self.diameter / 2, input="marking_error",
            )

    @result("centre off by up to", "E", step="0.01 mm", inch_step="0.001 in")
    def centre_error(self):
        """True centre to the crossing, at worst: each of two lines off by the marking error, square to itself.

        Four ways of being off put the crossing on the four corners of a rhombus; its far corners lie on the
        line that halves the smaller angle between the lines.

        >>> round(CentreFinder("35 mm", "0.3 mm", crossing_angle="30 deg").centre_error, 3)
        <Quantity(1.159, 'millimeter')>
        """
        half = self.crossing_angle / 2
        return self.marking_error / least(sin(half), cos(half))

    @result("zone, the short way", "Z", step="0.01 mm", inch_step="0.001 in", minor=True)
    def near_corner(self):
        """True centre to the near corners of the rhombus in which the lines may cross."""
        half = self.crossing_angle / 2
        return self.marking_error / most(sin(half), cos(half))

    @result("1 two bisectors", "E_b", step="0.01 mm", inch_step="0.001 in")
    def bisectors(self):
        """Centre off by, at worst: chords halved by compass, their bisectors crossing at the crossing angle.

        Where a chord lies does not matter, its ends only have to be on the rim, and no square is used. The arcs
        must meet on both sides of the centre; then each line between them is off by the marking error at most.
        """
        return self.centre_error

    @result("square misses the centre by", "s", step="0.01 mm", inch_step="0.001 in")
    def square_offset(self):
        """True centre to the blade of a centre square whose blade does not quite halve its right angle.

        The square's corner stands off the centre by the diagonal of a square on the radius, and the blade turns
        about that corner. A cradle's guide, leaning about the bottom of a right-angled V, misses by as much.
        """
        return sqrt(2 * (self.diameter / 2) ** 2) * sin(self.square_error)

    @result("2 centre square", "E_q", step="0.01 mm", inch_step="0.001 in")
    def centre_square(self):
        """Centre off by, at worst: two lines along a centre square, the second a quarter turn from the first.

        Each line is off by the marking error and by what the square misses, which lies always on the same hand; lines
        at a right angle put the two together by Pythagoras.
        """
        return (self.marking_error + self.square_offset) / sin(self.pi / 4)

    @result("3 right angle in the semicircle", "E_s", step="0.01 mm", inch_step="0.001 in")
    def semicircle(self):
        """Centre off by, at worst: a try square's corner on the rim, its edges meet the rim at a diameter's ends.

        Across the diameter both end marks may be off the same way, and a square that is not square makes a chord
        that misses the centre by the radius times the sine of its error (the angle at the centre is twice the
        angle at the rim, Euclid III.20). Along it, the halving is off by the marking error.
        """
        across = self.marking_error + self.diameter / 2 * sin(self.square_error)
        return sqrt(across**2 + self.marking_error**2)

    @result("4 V-cradle, three lines", "E_v", step="0.01 mm", inch_step="0.001 in")
    def v_cradle(self):
        """Centre off by, at worst: three lines along the guide, a third of a turn apart, the triangle's middle taken.

        A guide that misses the centre makes the triangle larger but leaves its middle (of the circle that touches
        its three sides) alone. What is left is the marking: with two lines off one way and the third the other, the
        middle moves by four thirds of it. The middle itself is taken as pricked without error.
        """
        return 4 * self.marking_error / 3

    @result("cradle's triangle, side", "T", step="0.01 mm", inch_step="0.001 in", checks="square_error")
    def triangle_side(self):
        """Side of the little triangle that three truly drawn cradle lines form when the guide misses the centre.

        Its inscribed circle has what the guide misses as radius. No triangle, no error.
        """
        return 2 * self.square_offset * tan(self.pi / 3)

    def worries(self):
        if self.centre_error > 2 * self.marking_error * (1 + 1e-9):
            yield Caution(
                "Lines that cross so flatly may miss the centre by {}, more than twice the marking error. "
                "Let them cross between 60 and 120 deg.",
                self.centre_error, input="crossing_angle", source="the rhombus of this page",
            )
        if self.square_offset > self.marking_error:
            yield Caution(
                "The square misses the centre by {}, more than your marking. Draw three lines a third of a turn apart "
                "and take the middle of their triangle: that cancels it.",
                self.square_offset, input="square_error", source="the geometry of this page",
            )
        if self.centre_error > self.diameter / 20:
            yield Caution(
                "The centre may be off by {}, more than a twentieth of the diameter: mark with a knife on a "
                "chalked or planed end.", self.centre_error, input="marking_error",
            )

    def on_card(self):
        """The worst of two lines, the four ways side by side, and what shows whether square or guide is true."""
        ways = ("bisectors", "centre_square", "semicircle", "v_cradle")
        return ("centre_error", *ways, "square_offset", "triangle_side")

    def wall_left(self, hole_diameter):
        """The thinnest wall beside a hole drilled on the marked centre, the crossing off by centre_error.

        The hole itself is taken as true to size and straight. Raises ShapeError where no wall may be left.

        >>> CentreFinder("40 mm", "1.5 mm", crossing_angle="60 deg").wall_left("20 mm").round(6)
        <Quantity(7.0, 'millimeter')>
        """
        hole, plain = measure.plain("length", hole_diameter), self.plain
        if hole <= 0:
            raise ShapeError("The hole is {} across: it must be more than nothing.", hole)
        wall = (plain.diameter - hole) / 2 - plain.centre_error
        if wall <= 0:
            raise ShapeError(
                "A hole {} across may break out of a leg {} across whose centre may be off by {}: keep it under {}, "
                "or find the centre more closely.",
                hole, plain.diameter, plain.centre_error, plain.diameter - 2 * plain.centre_error,
            )
        return public(wall, "length")


    def walls(self, hole_diameter, unit="mm"):
        """The wall beside a hole in words: on the true centre, and at its thinnest on the marked one.

        >>> CentreFinder("35 mm").walls("25 mm")
        wall all round, hole on the true centre         5.0 mm
        thinnest wall, hole on the mark at its worst    4.6 mm
        """
        hole, left = measure.plain("length", hole_diameter), self.wall_left(hole_diameter).m_as("mm")
        walls = [("wall all round, hole on the true centre", (self.plain.diameter - hole) / 2)]
        walls.append(("thinnest wall, hole on the mark at its worst", left))
        return Facts((words, length_in_full(wall, unit)) for words, wall in walls)


@model
class ChordRise(Model):
    """A piece of a circle measured with a straightedge: its chord, and the rise in the chord's middle.

    >>> piece = ChordRise("16 in", "6 in")
    >>> round(piece.radius.to("in"), 4)
    <Quantity(8.3333, 'inch')>
    """

    chord: Input = length(
        "chord", "c", low="20 mm", high="1000 mm", step="1 mm", inch_step="1/16 in", tolerance="0.5 mm",
        help="Straight across, from rim to rim.",
    )
    rise: Input = length(
        "rise", "h", low="1 mm", high="300 mm", step="0.1 mm", inch_step="1/64 in", tolerance="0.2 mm",
        help="From the middle of the chord, square to it, to the rim.",
    )

    def check(self):
        if self.radius > 1000 * self.chord:
            raise ShapeError(
                "A rise of {} over a chord of {} is too flat to tell a circle by: take a longer chord.",
                self.rise, self.chord, input="rise",
            )

    @result("radius", "r", checks="rise")
    def radius(self):
        """Centre to rim, from chord and rise.

        Half the chord, the radius and what the rise leaves of it make a right-angled triangle
        (Machinery's Handbook, 31st ed., p. 79; ICS Building Trades Pocketbook, Mensuration).
        """
        return radius_of(self.chord, self.rise)

    @result("diameter", "D", checks="rise")
    def diameter(self):
        """Right across the whole circle."""
        return 2 * self.radius

    @result("centre beyond the chord", "k")
    def centre_beyond(self):
        """Chord's middle to the centre, away from the rim; negative where the centre lies on the rim's side."""
        return self.radius - self.rise

    @result("radius by the short rule", "r_a")
    def short_rule(self):
        """Radius of a flat arc by c^2 / 8h, which leaves out half the rise (ICS Building Trades Pocketbook)."""
        return self.chord**2 / (8 * self.rise)

    @result("angle of the arc", "gamma", kind="angle")
    def arc_angle(self):
        """Between the radii to the chord's ends, seen from the centre: four times the slope of the half arc's chord."""
        return 4 * atan(2 * self.rise / self.chord)

    def on_card(self):
        """What the circle is swung with; the short rule and the arc's angle are for the lesson."""
        return ("radius", "diameter", "centre_beyond")

    def worries(self):
        if self.rise < self.chord / 20:
            yield Caution(
                "The arc is flat: a rise misread by {} moves the radius by about {}. "
                "Take the longest chord that you can.",
                0.2, 0.2 * self.radius / self.rise, input="rise", source="the error budget of this page",
            )
        if self.rise > self.chord / 2:
            yield Caution(
                "The rise is more than half the chord: that is more than half a circle. "
                "Measure straight across it instead.",
                input="rise", source="the geometry of this page",
            )
