"""Boards side by side with the middle left open: face grain runs straight across the ring."""

from typing import NamedTuple

from shoplib.maths.functions import most, sqrt, whole
from shoplib.maths.stave_rings.ring_sizes import INSIDE, KERF, MARGIN, OUTSIDE, check_ring, finished_area
from shoplib.model import Caution, Input, Model, ShapeError, flag, length, model, result

SLIVER = 1 / 3  # of the board's width


class Row(NamedTuple):
    """One row of boards: from low to high off the centre line, from inner to outer along the grain."""

    low: float
    high: float
    inner: float
    outer: float
    length: float
    pieces: int


class Cut(NamedTuple):
    """Pieces of one length: how many, and how long each."""

    how_many: int
    each_long: float


class Place(NamedTuple):
    """Where a row's boards lie: edges from the centre line, ends from the cross line."""

    lower_edge: float
    upper_edge: float
    begins: float
    ends: float


class Overlap(NamedTuple):
    """Glue lines at one distance off the centre line: how many in the ring, how long each in blank and ring."""

    how_many: int
    off_centre: float
    in_the_blank: float
    in_the_ring: float


def half_chord(radius, height):
    """Half the chord of a circle at a height off its centre; nothing beyond the circle or a hair inside it."""
    return sqrt(radius**2 - height**2) if height < radius * (1 - 1e-12) else 0 * radius


@model
class HollowBlank(Model):
    """Boards side by side with the middle left open: face grain runs straight across the ring.

    Nothing is set on a machine: its results are lengths to cut and places to lay the pieces.

    >>> blank = HollowBlank("440 mm", "400 mm", "60 mm", margin="3 mm")
    >>> len(blank.rows), [row.pieces for row in blank.rows]
    (4, [2, 2, 2, 1])
    """

    outside_diameter: Input = length(**OUTSIDE)
    inside_diameter: Input = length(**INSIDE)
    board_width: Input = length(
        "board width", "B", low="20 mm", high="300 mm", step="1 mm", inch_step="1/16 in", tolerance="0.3 mm",
        help="Of every board, planed and jointed.", group="the boards",
    )
    margin: Input = length(**MARGIN)
    seam_on_centre: Input = flag(
        "seam on the centre line", "c", help="No: one board lies astride the centre line.", default=True,
        group="the boards",
    )
    kerf: Input = length(**KERF, default="3 mm", group="the boards")

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

    @result("rows from the centre outward", "row", kind="table", plan=True, minor=True)
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

    def _sides(self, row):
        """How often a row lies in the blank: above and below the centre line, or once astride it."""
        return 2 if row.low >= 0 else 1

    @result("pieces to cut", "p", kind="table", plan=True)
    def cut_list(self):
        """How many pieces of each length for the whole ring, in the order of the rows from the centre line outward.

        Lengths that a rule cannot tell apart (a ten-thousandth of the ring's diameter) are cut as the longer one.

        >>> HollowBlank("440 mm", "400 mm", "60 mm", margin="3 mm", seam_on_centre=False).plain.cut_list[0].how_many
        2
        """
        found = []
        for row in self.rows:
            many, hair = row.pieces * self._sides(row), 1e-4 * self.outside_diameter
            alike = next((k for k, cut in enumerate(found) if abs(cut.each_long - row.length) < hair), None)
            if alike is None:
                found.append(Cut(many, row.length))
            else:
                found[alike] = Cut(found[alike].how_many + many, most(found[alike].each_long, row.length))
        return tuple(found)

    @result("pieces to cut in all", "P", kind="count", plan=True, minor=True)
    def piece_count(self):
        """Pieces of the whole ring."""
        return sum(cut.how_many for cut in self.cut_list)

    @result("rows: edges from the centre line, ends from the cross line", "q", kind="table", plan=True)
    def places(self):
        """Row by row outward from the centre line, on one of the sides where the row lies.

        A board that runs through begins at nothing: it lies across the cross line, as far to either side.
        """
        return tuple(Place(row.low, row.high, row.inner, row.outer) for row in self.rows)

    @result("glue lines, from the centre line outward", "s", kind="table", plan=True)
    def overlaps(self):
        """Every seam's distance off the centre line, and the length of its glue lines in the blank and in the ring.

        Where the ring crosses a seam twice the lengths are those of one crossing; a seam that runs through
        in one piece is given whole. The number counts all glue lines of the finished ring at that distance,
        on both sides of the centre line.
        """
        rows = self.rows
        neighbours = [(rows[0], rows[0])] if self.seam_on_centre else []
        neighbours += zip(rows, rows[1:])
        return tuple(self._overlap(lower, upper) for lower, upper in neighbours)

    def _overlap(self, lower, upper):
        height = upper.low
        outside, inside = half_chord(self.outside_diameter / 2, height), half_chord(self.inside_diameter / 2, height)
        joint = upper.outer - lower.inner if lower.inner > 0 else 2 * upper.outer
        line = outside - inside if inside > 0 else 2 * outside
        seams = 2 if height > 0 else 1
        lines = 0 if line <= 0 else 2 if inside > 0 else 1
        return Overlap(seams * lines, height, joint, line)

    @result("glue lines in the ring", "G", kind="count", plan=True)
    def glue_lines(self):
        """All glue lines of the finished ring."""
        return sum(seam.how_many for seam in self.overlaps)

    @result("total length of board", "l", plan=True)
    def total_length(self):
        """Length of all pieces of the ring end to end, with one saw cut for each.

        >>> round(HollowBlank("440 mm", "400 mm", "60 mm", margin="3 mm").total_length, 1)
        <Quantity(1375.8, 'millimeter')>
        """
        return sum(row.pieces * self._sides(row) * (row.length + self.kerf) for row in self.rows)

    @result("share of timber used", "y", kind="ratio")
    def material_yield(self):
        """Finished ring's area over the boards' with their saw cuts: a plain ratio."""
        return finished_area(self) / (self.total_length * self.board_width)

    def on_card(self):
        """How many of which length, from how much board, and where each lies."""
        return "total_length", "cut_list", "places"

    def worries(self):
        if self._last_row_is_poor:
            yield self._worry_last_row()
        yield from self._worries_glue()

    @property
    def _last_row_is_poor(self):
        """Whether little or nothing of the last row stays in the ring, while other rows carry it."""
        return self.row_count > 1 and self.outside_diameter / 2 - self.rows[-1].low < SLIVER * self.board_width

    def _worry_last_row(self):
        """What is left of a poor last row, and the boards that save it."""
        low, before = self.rows[-1].low, self.row_count - 1
        in_ring = self.outside_diameter / 2 - low
        enough = self.blank_outer / (before if self.seam_on_centre else before - 0.5)
        if in_ring > 1e-12 * self.outside_diameter:
            said, left = "Only {} of the last row's width stays in the finished ring: a sliver.", in_ring
        else:
            said, left = "The last row lies in the margin only, {} off the centre line.", low
        return Caution(f"{said} Boards {{}} wide, or a hair over, save that row.", left, enough, input="board_width")

    def _worries_glue(self):
        wanted = (self.outside_diameter - self.inside_diameter) / 2
        for seam in self.overlaps[:-1] if self._last_row_is_poor else self.overlaps:
            if 0 < seam.in_the_ring < wanted * (1 - 1e-9):
                yield Caution(
                    "The glue line {} off the centre line is only {} long in the finished ring, shorter than the ring "
                    "is wide. Choose a board width that puts no seam there.", seam.off_centre, seam.in_the_ring,
                    input="board_width",
                )

    def yield_against(self, ring):
        """This blank's share of timber used over a stave ring's: above 1 the boards waste less."""
        return self.material_yield / ring.material_yield
