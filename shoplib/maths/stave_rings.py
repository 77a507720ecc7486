"""Rings made of pieces: mitred staves, or boards side by side with the middle left open."""

from typing import NamedTuple

from shoplib.maths.functions import asin, atan, choose, cos, sin, sqrt, tan, whole
from shoplib.model import Caution, Input, Model, ShapeError, angle, count, flag, length, model, result

OUTSIDE = dict(
    words="outside diameter", symbol="D", low="80 mm", high="1500 mm", step="1 mm", inch_step="1/16 in",
    tolerance="0.5 mm", help="Across the finished ring.",
)
INSIDE = dict(
    words="inside diameter", symbol="d", low="20 mm", high="1480 mm", step="1 mm", inch_step="1/16 in",
    tolerance="0.5 mm", help="Across the finished ring's hole.",
)
MARGIN = dict(
    words="margin", symbol="m", low="0 mm", high="20 mm", step="0.5 mm", tolerance="0.3 mm", default="0 mm",
    help="Left on the blank outside and inside, for truing and for the router.", inch_step="1/32 in",
)


def check_ring(ring):
    """A ring needs an inside smaller than its outside, and a margin that leaves a hole."""
    if ring.inside_diameter >= ring.outside_diameter:
        raise ShapeError(
            "The inside ({}) must be smaller than the outside ({}). Make the one smaller or the other larger.",
            ring.inside_diameter, ring.outside_diameter, input="inside_diameter",
        )
    if ring.margin >= ring.inside_diameter / 2:
        raise ShapeError(
            "A margin of {} fills the whole hole: it must stay under {}. Make the margin smaller.",
            ring.margin, ring.inside_diameter / 2, input="margin",
        )


@model
class StaveRing(Model):
    """Mitred staves that form a regular polygon, cut round after glue-up.

    >>> ring = StaveRing("440 mm", "400 mm", 12, margin="3 mm")
    >>> ring.mitre_angle, round(ring.board_width, 2)
    (<Quantity(15.0, 'degree')>, <Quantity(32.71, 'millimeter')>)
    """

    outside_diameter: Input = length(**OUTSIDE)
    inside_diameter: Input = length(**INSIDE)
    staves: Input = count("staves", "n", 3, 36, help="How many pieces make the ring.")
    margin: Input = length(**MARGIN)
    kerf: Input = length(
        "kerf", "k", low="0 mm", high="6 mm", step="0.1 mm", inch_step="1/64 in", tolerance="0.1 mm",
        help="Width of the saw's cut.", default="0 mm",
    )
    slope: Input = angle(
        "slope", "sigma", low="0 deg", high="90 deg", step="0.5 deg", tolerance="0.2 deg",
        help="0 lies flat (segments), 90 stands upright (a cask's staves).", default="0 deg",
    )
    saw_error: Input = angle(
        "saw error", "epsilon", low="-1 deg", high="1 deg", step="0.01 deg", tolerance="0.05 deg",
        help="How far each mitre is off, seen in plan. Positive: too shallow.", default="0 deg",
    )

    def check(self):
        check_ring(self)
        if not 0 <= self.slope <= self.pi / 2 + 1e-12:
            raise ShapeError("The slope must be from 0 (flat) to 90 deg (upright).", input="slope")
        if abs(self.saw_error) * self.staves > self.pi / 2:
            raise ShapeError(
                f"A saw error of this size leaves {self.staves} staves far from a ring: keep it under "
                f"{90 / self.staves:.2f} deg.", input="saw_error",
            )

    @result("mitre angle", "mu", kind="angle")
    def mitre_angle(self):
        """Saw's mitre setting on the flat board, measured away from a square cut.

        Lying flat it is half a turn shared among the staves (US Navy NAVEDTRA 14119, ch. 3); the
        general form follows from the joint's plane seen in the stave's own face.

        >>> StaveRing("440 mm", "400 mm", 8).mitre_angle
        <Quantity(22.5, 'degree')>
        """
        return atan(cos(self.slope) * tan(self.pi / self.staves))

    @result("blade tilt", "beta", kind="angle")
    def blade_tilt(self):
        """Saw's blade tilt away from upright, for the same cut on the flat board; none for a flat ring.

        >>> round(StaveRing("440 mm", "400 mm", 8, slope="90 deg").blade_tilt, 9)
        <Quantity(22.5, 'degree')>
        """
        return asin(sin(self.slope) * sin(self.pi / self.staves))

    @result("blank's outside radius", "R_b", minor=True)
    def blank_outer(self):
        """Ring's centre to the flats of the blank's outside: the finished radius and the margin."""
        self._check_flat()
        return self.outside_diameter / 2 + self.margin

    @result("blank's inside radius", "r_b", minor=True)
    def blank_inner(self):
        """Ring's centre to the corners of the blank's inside: the finished radius less the margin."""
        self._check_flat()
        return self.inside_diameter / 2 - self.margin

    def _check_flat(self):
        if type(self.slope) is float and self.slope != 0:
            raise ShapeError(
                "A leaning or upright ring gets its angles only: for sizes set the slope to 0 deg.", input="slope"
            )

    @result("long edge", "L", checks="outside_diameter")
    def long_edge(self):
        """Along the stave's outside, tip to tip: the side of the polygon round the blank's outer circle.

        Machinery's Handbook, 31st ed., p. 82: side over inscribed radius.

        >>> round(StaveRing("440 mm", "400 mm", 12).long_edge, 3)
        <Quantity(117.898, 'millimeter')>
        """
        return 2 * self.blank_outer * tan(self.pi / self.staves)

    @result("short edge", "S", checks="inside_diameter")
    def short_edge(self):
        """Along the stave's inside: the side of the polygon whose corners touch the blank's inner circle.

        Machinery's Handbook, 31st ed., p. 82: side over circumscribed radius.

        >>> round(StaveRing("440 mm", "400 mm", 12).short_edge, 3)
        <Quantity(103.528, 'millimeter')>
        """
        return 2 * self.blank_inner * sin(self.pi / self.staves)

    @result("board width", "B", checks="outside_diameter")
    def board_width(self):
        """Across the narrowest board that still covers the ring: outer flats to inner flats."""
        return self.blank_outer - self.blank_inner * cos(self.pi / self.staves)

    @result("strip length", "l")
    def strip_length(self):
        """Shortest square-ended strip that holds all staves nested, every second one turned end for end.

        Along the middle line each stave takes the mean of its edges and each saw cut its kerf over
        the mitre's cosine; half a slant at either end squares the strip.
        """
        mean = (self.long_edge + self.short_edge) / 2
        slant = (self.long_edge - self.short_edge) / 2
        cut = self.kerf / cos(self.pi / self.staves)
        return self.staves * mean + (self.staves - 1) * cut + slant

    @result("share of timber used", "y", kind="ratio")
    def material_yield(self):
        """Finished ring's area over the strip's: a plain ratio."""
        ring = self.pi * (self.outside_diameter**2 - self.inside_diameter**2) / 4
        return ring / (self.strip_length * self.board_width)

    @result("closing angle", "gamma", kind="angle")
    def closing_angle(self):
        """Angle left open at the last joint when the others are tight: two mitres for each stave are off.

        A positive saw error opens the outside, a negative one the inside.

        >>> round(StaveRing("440 mm", "400 mm", 12, saw_error="0.25 deg").closing_angle, 9)
        <Quantity(6.0, 'degree')>
        """
        return 2 * self.staves * abs(self.saw_error)

    @result("circle that opens", "O", minor=True)
    def opening_circle(self):
        """Diameter of the finished circle on which the last joint opens: outside or inside."""
        self._check_flat()
        return choose(self.saw_error >= 0, self.outside_diameter, self.inside_diameter)

    @result("closing gap", "g")
    def closing_gap(self):
        """Chord of the closing angle on the finished circle that opens: outside or inside."""
        return self.opening_circle * sin(self.closing_angle / 2)

    def worries(self):
        if self.slope != 0:
            return
        if self.margin == 0:
            yield Caution(
                "No margin is left for truing: the joints' smallest slip shows at the finished edge.",
                input="margin", source="common practice",
            )
        if self.closing_gap > 0.2:
            side = "outside" if self.saw_error > 0 else "inside"
            yield Caution(
                f"The last joint stays open by {{}} on the {side}. Glue two half rings, true their ends "
                "together, then close them.", self.closing_gap, input="saw_error",
            )
        if self.short_edge < self.board_width:
            yield Caution(
                "The short edge ({}) is shorter than the board is wide ({}): the stave is awkward to hold at the "
                "saw. Use a holding jig, or fewer staves.", self.short_edge, self.board_width, input="staves",
            )


class Row(NamedTuple):
    """One row of boards: from low to high off the centre line, from inner to outer along the grain."""

    low: float
    high: float
    inner: float
    outer: float
    length: float
    pieces: int


class Overlap(NamedTuple):
    """The glue line between a row and its neighbour: at which height, how long in blank and ring."""

    height: float
    blank: float
    ring: float


def half_chord(radius, height):
    """Half the chord of a circle at a height off its centre; nothing beyond the circle or a hair inside it."""
    return sqrt(radius**2 - height**2) if height < radius * (1 - 1e-12) else 0 * radius


@model
class HollowBlank(Model):
    """Boards side by side with the middle left open: face grain runs straight across the ring.

    >>> blank = HollowBlank("440 mm", "400 mm", "60 mm", margin="3 mm")
    >>> len(blank.rows), [row.pieces for row in blank.rows]
    (4, [2, 2, 2, 1])
    """

    outside_diameter: Input = length(**OUTSIDE)
    inside_diameter: Input = length(**INSIDE)
    board_width: Input = length(
        "board width", "B", low="20 mm", high="300 mm", step="1 mm", inch_step="1/16 in", tolerance="0.3 mm",
        help="Of every board, planed and jointed.",
    )
    margin: Input = length(**MARGIN)
    seam_on_centre: Input = flag(
        "seam on the centre line", "c", help="No: one board lies astride the centre line.", default=True
    )

    def check(self):
        check_ring(self)
        if self.outside_diameter / self.board_width > 200:
            raise ShapeError("Boards {} wide are too narrow for this ring: take wider ones.",
                             self.board_width, input="board_width")

    @result("blank's outside radius", "R_b", minor=True)
    def blank_outer(self):
        """Ring's centre to where the blank's outside must reach: the finished radius and the margin."""
        return self.outside_diameter / 2 + self.margin

    @result("blank's inside radius", "r_b", minor=True)
    def blank_inner(self):
        """Ring's centre to where the blank's hole may begin: the finished radius less the margin."""
        return self.inside_diameter / 2 - self.margin

    @result("rows on one side", "N", kind="count", plan=True)
    def row_count(self):
        """Rows from the centre line outward, the board astride it counted too."""
        if self.seam_on_centre:
            return whole(self.blank_outer / self.board_width)
        return 1 + whole(self.blank_outer / self.board_width - 0.5)

    @result("rows from the centre outward", "row", kind="table", plan=True)
    def rows(self):
        """Each row's low and high edge, reach along the grain, piece length and pieces.

        Worked out row by row: the outer reach is where the blank's outside crosses the row's low
        edge, the inner one where its hole crosses the high edge. The last row keeps its full width.
        """
        first = 0 if self.seam_on_centre else -0.5
        return tuple(self._row((k + first) * self.board_width) for k in range(self.row_count))

    def _row(self, low):
        high = low + self.board_width
        inner = half_chord(self.blank_inner, high)
        outer = half_chord(self.blank_outer, low if low > 0 else 0.0)
        pieces = 2 if inner > 0 else 1
        return Row(low, high, inner, outer, outer - inner if pieces == 2 else 2 * outer, pieces)

    @result("glue lines on one side", "q", kind="table", plan=True)
    def overlaps(self):
        """Glue lines from the centre outward: height of the seam, overlap of its boards, and what is left in the ring.

        Both lengths are taken along the seam on one side of centre; the same again lies on the
        other side. The first is the seam on the centre line, if there is one.
        """
        rows = self.rows
        neighbours = [(rows[0], rows[0])] if self.seam_on_centre else []
        neighbours += zip(rows, rows[1:])
        return tuple(self._overlap(lower, upper) for lower, upper in neighbours)

    def _overlap(self, lower, upper):
        height = upper.low
        outside, inside = self.outside_diameter / 2, self.inside_diameter / 2
        in_ring = half_chord(outside, height) - half_chord(inside, height)
        return Overlap(height, upper.outer - lower.inner, in_ring)

    @result("total length of board", "l", plan=True)
    def total_length(self):
        """Length of all pieces on both sides of the centre line, end to end, saw cuts not counted."""
        lengths = [row.pieces * row.length for row in self.rows]
        return 2 * sum(lengths) if self.seam_on_centre else 2 * sum(lengths) - lengths[0]

    @result("share of timber used", "y", kind="ratio")
    def material_yield(self):
        """Finished ring's area over the boards': a plain ratio."""
        ring = self.pi * (self.outside_diameter**2 - self.inside_diameter**2) / 4
        return ring / (self.total_length * self.board_width)

    def worries(self):
        last = self.rows[-1]
        if last.low >= self.outside_diameter / 2 * (1 - 1e-12):
            yield Caution(
                "The last row lies in the margin only, {} off centre: take a smaller margin or other boards and "
                "save it.",
                last.low, input="board_width",
            )
        yield from self._worries_glue()

    def _worries_glue(self):
        wanted = (self.outside_diameter - self.inside_diameter) / 2
        for seam in self.overlaps:
            line = seam.ring if seam.height < self.inside_diameter / 2 else 2 * seam.ring
            if 0 < line < wanted * (1 - 1e-9):
                yield Caution(
                    "The glue line {} off centre is only {} long in the finished ring, shorter than the ring is "
                    "wide. Choose a board width that puts no seam there.", seam.height, line, input="board_width",
                )

    def yield_against(self, ring):
        """This blank's share of timber used over a stave ring's: above 1 the boards waste less."""
        return self.material_yield / ring.material_yield
