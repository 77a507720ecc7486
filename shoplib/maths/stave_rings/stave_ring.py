"""Mitred staves that form a regular polygon, cut round after glue-up."""

from shoplib.maths.functions import asin, atan, cos, sin, tan
from shoplib.maths.stave_rings.half_rings import margin_left
from shoplib.maths.stave_rings.ring_sizes import INSIDE, KERF, MARGIN, OUTSIDE, check_ring, finished_area
from shoplib.model import Caution, Input, Model, ShapeError, angle, count, length, model, result

SHOWS = 0.2  # mm at the last joint: less than this closes under a clamp
GLUE_FILLS = 0.2  # mm at each joint: more than this shows, and weakens the joint


@model
class StaveRing(Model):
    """Mitred staves that form a regular polygon, cut round after glue-up.

    >>> ring = StaveRing("440 mm", "400 mm", 12, margin="3 mm")
    >>> ring.mitre_angle, round(ring.board_width, 2)
    (<Quantity(15.0, 'degree')>, <Quantity(32.71, 'millimeter')>)
    """

    outside_diameter: Input = length(**OUTSIDE)
    inside_diameter: Input = length(**INSIDE)
    staves: Input = count("staves", "n", 3, 36, help="How many pieces make the ring.", group="the ring")
    margin: Input = length(**MARGIN)
    kerf: Input = length(**KERF, default="0 mm", group="the saw")
    slope: Input = angle(
        "slope", "sigma", low="0 deg", high="90 deg", step="0.5 deg", tolerance="0.2 deg", group="the saw",
        help="Counted from lying flat: 0 is a flat ring (segments), 90 stands upright (a cask's staves).",
        default="0 deg",
    )
    saw_error: Input = angle(
        "saw error", "epsilon", low="-1 deg", high="1 deg", step="0.01 deg", tolerance="0.05 deg", group="the saw",
        help="How far each mitre is off, seen in plan. Positive: too shallow; negative: too steep.", default="0 deg",
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
        if self.slope == 0 and 2 * self.joint_face * sin(self.pi / self.staves - self.saw_error) > self.long_edge:
            raise ShapeError(
                "Mitres that steep meet before they reach the inner edge: the stave comes to a point. Make the saw "
                "error smaller.", input="saw_error",
            )

    @result("mitre angle", "mu", kind="angle", to_set=True)
    def mitre_angle(self):
        """Saw's mitre setting on the flat board, measured away from a square cut.

        Lying flat it is half a turn shared among the staves (US Navy NAVEDTRA 14119, ch. 3); the
        general form follows from the joint's plane seen in the stave's own face.

        >>> StaveRing("440 mm", "400 mm", 8).mitre_angle
        <Quantity(22.5, 'degree')>
        """
        return atan(cos(self.slope) * tan(self.pi / self.staves))

    @result("blade tilt", "beta", kind="angle", to_set=True)
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

    @result("long edge", "L", checks="outside_diameter", to_set=True)
    def long_edge(self):
        """Along the stave's outside, tip to tip: the side of the polygon round the blank's outer circle.

        Machinery's Handbook, 31st ed., p. 82: side over inscribed radius.

        >>> round(StaveRing("440 mm", "400 mm", 12).long_edge, 3)
        <Quantity(117.898, 'millimeter')>
        """
        return 2 * self.blank_outer * tan(self.pi / self.staves)

    @result("short edge", "S", checks="inside_diameter", to_set=True)
    def short_edge(self):
        """Along the stave's inside: the side of the polygon whose corners touch the blank's inner circle.

        Machinery's Handbook, 31st ed., p. 82: side over circumscribed radius.

        >>> round(StaveRing("440 mm", "400 mm", 12).short_edge, 3)
        <Quantity(103.528, 'millimeter')>
        """
        return 2 * self.blank_inner * sin(self.pi / self.staves)

    @result("board width", "B", checks="outside_diameter", to_set=True)
    def board_width(self):
        """Across the narrowest board that still covers the ring: outer flats to inner flats."""
        return self.blank_outer - self.blank_inner * cos(self.pi / self.staves)

    @result("strip length", "l", to_set=True)
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
        return finished_area(self) / (self.strip_length * self.board_width)

    @result("pieces to cut in all", "P", kind="count", minor=True)
    def piece_count(self):
        """Pieces of the whole ring: its staves."""
        return self.staves

    @result("glue lines in the ring", "G", kind="count", minor=True)
    def glue_lines(self):
        """Glue lines of the finished ring: one mitre for each stave."""
        return self.staves

    @result("closing angle", "gamma", kind="angle")
    def closing_angle(self):
        """Angle by which the ring fails to close when all joints but the last are tight: every mitre is off.

        A positive saw error (mitres too shallow) leaves it open, a negative one makes the last stave overlap.

        >>> round(StaveRing("440 mm", "400 mm", 12, saw_error="0.25 deg").closing_angle, 9)
        <Quantity(6.0, 'degree')>
        """
        return 2 * self.staves * abs(self.saw_error)

    @result("gap at the last joint", "g")
    def closing_gap(self):
        """Chord left open at the last joint on the finished outside circle, the other joints tight.

        Raises ShapeError for mitres that are too steep: then the last stave overlaps instead.

        >>> round(StaveRing("440 mm", "400 mm", 12, saw_error="0.25 deg").closing_gap, 2)
        <Quantity(23.03, 'millimeter')>
        """
        self._check_flat()
        if type(self.saw_error) is float and self.saw_error < 0:
            raise ShapeError("Steep mitres leave nothing open: the last stave overlaps.", input="saw_error")
        return self.outside_diameter * sin(self.closing_angle / 2)

    @result("overlap of the last stave", "o")
    def overlap(self):
        """Chord by which the last stave, laid on top, covers the first on the finished outside circle.

        So it does not go in. Raises ShapeError for mitres that are right or too shallow.

        >>> round(StaveRing("440 mm", "400 mm", 12, saw_error="-0.25 deg").overlap, 2)
        <Quantity(23.03, 'millimeter')>
        """
        self._check_flat()
        if type(self.saw_error) is float and self.saw_error >= 0:
            raise ShapeError("Only mitres too steep make it overlap.", input="saw_error")
        return self.outside_diameter * sin(self.closing_angle / 2)

    @result("joint's sawn face", "F", minor=True)
    def joint_face(self):
        """Along the sawn end of a stave, tip to inner corner, as the saw really leaves it."""
        self._check_flat()
        return self.board_width / cos(self.pi / self.staves - self.saw_error)

    @result("two halves, gap at each joint", "h", step="0.01 mm", inch_step="0.001 in")
    def half_gap(self):
        """What a rule reads in the dry fit at each of the two joints between two half rings.

        Read at the end of the sawn face that gapes: outside for a positive saw error, inside for a
        negative one; the other end touches. Raises ShapeError for an odd count of staves.

        >>> round(StaveRing("440 mm", "400 mm", 12, saw_error="0.1 deg").half_gap, 3)
        <Quantity(0.581, 'millimeter')>
        """
        self._check_halves()
        return 2 * self.joint_face * sin(self.closing_angle / 4)

    @result("band clamp, gap at each joint", "b", step="0.01 mm", inch_step="0.001 in")
    def gap_per_joint(self):
        """What is left at each joint when a band clamp shares the error over all of them.

        Read as for `half_gap`: every joint touches at one end of its sawn face and gapes at the other.

        >>> round(StaveRing("440 mm", "400 mm", 12, saw_error="0.1 deg").gap_per_joint, 3)
        <Quantity(0.097, 'millimeter')>
        """
        return 2 * self.joint_face * sin(abs(self.saw_error))

    @result("two halves trued, margin left", "m_h", plan=True)
    def margin_left(self):
        """Least wood beyond the finished ring, outside or inside, once two half rings are trued and glued.

        Worked out stave by stave: truing the ends moves the halves' middles apart or together, so the
        blank comes out slightly oval. Below nothing it falls short of the finished ring. Raises ShapeError
        for an odd count of staves.

        >>> round(StaveRing("440 mm", "400 mm", 12, margin="3 mm", saw_error="0.1 deg").margin_left, 2)
        <Quantity(1.58, 'millimeter')>
        """
        self._check_halves()
        return margin_left(self)

    def _check_halves(self):
        self._check_flat()
        if type(self.staves) is int and self.staves % 2:
            raise ShapeError(
                f"{self.staves} staves do not make two equal halves: an odd count has no two half rings.",
                input="staves",
            )

    def on_card(self):
        """Saw, board and stop in the order of use; then what the saw's error does, where there is one."""
        if self.slope != 0:
            return ("mitre_angle", "blade_tilt", *(("closing_angle",) if self.saw_error else ()))
        sizes = ("mitre_angle", "blade_tilt", "board_width", "strip_length", "long_edge", "short_edge")
        if not self.saw_error:
            return sizes
        halves = () if self.staves % 2 else ("half_gap", "margin_left")
        return (*sizes, "closing_gap" if self.saw_error > 0 else "overlap", "gap_per_joint", *halves)

    def worries(self):
        if self.slope != 0:
            yield Caution(
                "A leaning ring gets its two saw angles here and no sizes. Draw its section full size and take the "
                "board's width and the edges from that.", input="slope", source="this lesson",
            )
            return
        if self.margin == 0:
            yield Caution(
                "No margin is left for truing: the joints' smallest slip shows at the finished edge.",
                input="margin", source="common practice",
            )
        yield from self._worries_last_joint()
        if self.short_edge < self.board_width:
            yield Caution(
                "The short edge ({}) is shorter than the board is wide ({}): the stave is awkward to hold at the "
                "saw. Use a holding jig, or fewer staves.", self.short_edge, self.board_width, input="staves",
            )

    def _worries_last_joint(self):
        """What the saw's error does to the last joint, and the ways out that this count of staves has."""
        off, even = self.outside_diameter * sin(self.closing_angle / 2), self.staves % 2 == 0
        if off <= SHOWS:
            return
        side = "outside" if self.saw_error > 0 else "inside"
        if self.saw_error > 0:
            happens = "The last joint stays open by {} on the finished outside circle."
        else:
            happens = "The last stave overlaps by {} on the finished outside circle: it will not go in."
        too_much = ", more than glue fills" if self.gap_per_joint > GLUE_FILLS else ""
        shared = f"A band clamp shares it over all joints: each gapes {{}} {side}{too_much}."
        halves = f"Or true two half rings, whose joints gape {{}} {side}, before you close them."
        odd = "An odd count has no two halves to true: set the saw better, or fit the last stave."
        lengths = [self._as_written("overlap", off), self._as_written("gap_per_joint", self.gap_per_joint)]
        lengths += [self._as_written("half_gap", self.half_gap)] if even else []
        yield Caution(f"{happens} {shared} {halves if even else odd}", *lengths, input="saw_error")
        if even and self.margin_left < 0:
            yield Caution(
                "Truing two half rings eats more than the margin of {}: the blank falls {} short of the finished ring. "
                "Set the saw better, or take a larger margin.", self.margin,
                self._as_written("margin_left", -self.margin_left), input="margin", source="worked out stave by stave",
            )

    def _as_written(self, name, value):
        """A length with the steps in which the table writes this result."""
        item = self.model.results()[name]
        return value, item.step, item.inch_step
