"""Circle jigs: a router swung round a pivot cuts discs, holes and rings."""

from typing import NamedTuple

from shoplib import measure
from shoplib.maths.passes import equal_passes
from shoplib.model import Caution, Input, Model, ShapeError, length, model, public, result, write_finely


class Groove(NamedTuple):
    """What one groove tells of the jig that cut it."""

    cutter_diameter: object
    pivot: object

    def __repr__(self):
        return f"cutter diameter {write_finely(self.cutter_diameter)}, pivot {write_finely(self.pivot)}"


@model
class CircleJig(Model):
    """A router on an arm that turns about a pivot, for one disc, hole or ring.

    Distances run from the pivot's centre to the cutter's centre unless they say reach.

    >>> jig = CircleJig("440 mm", "12 mm", ring_width="20 mm")
    >>> jig.outer_pivot, jig.inner_pivot
    (<Quantity(226.0, 'millimeter')>, <Quantity(194.0, 'millimeter')>)
    """

    diameter: Input = length(
        "outside diameter", "D", low="80 mm", high="1500 mm", step="1 mm", inch_step="1/16 in",
        tolerance="0.5 mm", help="Across the finished disc, hole or ring.",
    )
    cutter_diameter: Input = length(
        "cutter diameter", "d", low="3 mm", high="25 mm", step="0.1 mm", inch_step="1/64 in",
        tolerance="0.05 mm", help="Measured on a test groove, not read off the packet.",
    )
    ring_width: Input = length(
        "ring width", "w", low="3 mm", high="200 mm", step="0.5 mm", inch_step="1/32 in",
        tolerance="0.3 mm", help="From the ring's outside to its inside. Leave out for a plain disc or hole.",
        default=None,
    )
    stock_thickness: Input = length(
        "stock thickness", "t", low="3 mm", high="80 mm", step="0.5 mm", inch_step="1/32 in",
        tolerance="0.2 mm", help="Of the board that is cut.", default=None,
    )
    pass_depth: Input = length(
        "deepest pass", "a", low="1 mm", high="20 mm", step="0.5 mm", inch_step="1/32 in",
        tolerance="0.2 mm", help="The most that you let the cutter take at once.", default=None,
    )
    through: Input = length(
        "cut below the stock", "b", low="0 mm", high="6 mm", step="0.5 mm", inch_step="1/32 in",
        tolerance="0.2 mm", help="How far the last pass runs into the sacrificial board.", default="0 mm",
    )
    cutting_length: Input = length(
        "cutting length", "l", low="5 mm", high="100 mm", step="0.5 mm", inch_step="1/32 in",
        tolerance="0.5 mm", help="From the cutter's tip to where its edges end.", default=None,
    )
    base_thickness: Input = length(
        "jig base thickness", "h", low="0 mm", high="20 mm", step="0.5 mm", inch_step="1/32 in",
        tolerance="0.1 mm", help="Of the plate between router and stock, which the cutter has to pass.",
        default="0 mm",
    )

    def check(self):
        if self.has("ring_width") and self.ring_width >= self.diameter / 2:
            raise ShapeError(
                "A ring {} wide has no inside left when it is {} across: the width must stay under {}. "
                "Make the ring narrower or larger.",
                self.ring_width, self.diameter, self.diameter / 2, input="ring_width",
            )
        self._check_cutter_length()
        self._check_passes()

    def _check_passes(self):
        if self.has("pass_depth") and self.has("stock_thickness") and self.depth > 200 * self.pass_depth:
            raise ShapeError(
                "Passes of {} are too light for a cut {} deep: they must be more than {}. Take deeper passes.",
                self.pass_depth, self.depth, self.depth / 200, input="pass_depth",
            )

    def _check_cutter_length(self):
        if not (self.has("cutting_length") and self.has("stock_thickness")):
            return
        needed = self.base_thickness + self.depth
        if self.cutting_length < needed - 1e-9:  # a hair, for the rounding of the sum
            raise ShapeError(
                "The cutter is too short: it cuts {}, but base and cut together are {} deep. "
                "Take a cutter {} longer, a thinner base or thinner stock.",
                self.cutting_length, needed, needed - self.cutting_length, input="cutting_length",
            )

    @result("outside cut, pivot", "p_o", checks="diameter")
    def outer_pivot(self):
        """Pivot's centre to cutter's centre, cutting round the outside of what is kept.

        The cutter runs outside the finished edge, so half of it is added. Geometry of two
        circles that touch from outside.

        >>> CircleJig("440 mm", "12 mm").outer_pivot
        <Quantity(226.0, 'millimeter')>
        """
        return (self.diameter + self.cutter_diameter) / 2

    @result("outside cut, reach", "r_o", checks="diameter")
    def outer_reach(self):
        """Pivot's centre to the cutter's near edge, which makes the ring's outside: check with a rule."""
        return self.outer_pivot - self.cutter_diameter / 2

    @result("inside cut, pivot", "p_i", checks="ring_width")
    def inner_pivot(self):
        """Pivot's centre to cutter's centre, cutting the inside of the ring.

        Raises ShapeError where the inside is no larger than the cutter, or no ring width is given.

        >>> CircleJig("440 mm", "12 mm", ring_width="20 mm").inner_pivot
        <Quantity(194.0, 'millimeter')>
        """
        pivot = self.diameter / 2 - self.ring_width - self.cutter_diameter / 2
        self._check_hole(pivot, self.diameter - 2 * self.ring_width)
        return pivot

    @result("inside cut, reach", "r_i", checks="ring_width")
    def inner_reach(self):
        """Pivot's centre to the cutter's far edge, which makes the ring's inside: check with a rule."""
        return self.inner_pivot + self.cutter_diameter / 2

    @result("between the pivot holes", "s")
    def pivot_step(self):
        """Between the jig's two pivot holes for one ring, centre to centre: ring width and one cutter."""
        return self.outer_pivot - self.inner_pivot

    @result("plain hole, pivot", "p_h", checks="diameter")
    def hole_pivot(self):
        """Pivot's centre to cutter's centre, cutting a hole of this diameter; the surround is kept.

        Raises ShapeError where the hole is no larger than the cutter.

        >>> CircleJig("440 mm", "12 mm").hole_pivot
        <Quantity(214.0, 'millimeter')>
        """
        pivot = (self.diameter - self.cutter_diameter) / 2
        self._check_hole(pivot, self.diameter)
        return pivot

    def _check_hole(self, pivot, hole):
        if type(pivot) is float and pivot <= 0:
            raise ShapeError(
                "A hole {} across cannot be swung with a cutter of {}: take a smaller cutter or drill it.",
                hole, self.cutter_diameter, input="cutter_diameter",
            )

    @result("depth of cut", "T")
    def depth(self):
        """Stock's face to the bottom of the last pass."""
        return self.stock_thickness + self.through

    @result("passes, depth from the face", "a_k", step="0.05 mm", plan=True)
    def passes(self):
        """Depths of the passes from the stock's face: the fewest, all equal, none deeper than allowed."""
        return equal_passes(self.depth, self.pass_depth)

    def worries(self):
        if self.has("pass_depth") and self.pass_depth > self.cutter_diameter:
            yield Caution(
                "A pass of {} is deeper than the cutter is wide ({}): take lighter passes.",
                self.pass_depth, self.cutter_diameter, input="pass_depth",
            )
        yield from self._worries_inside()
        if self.has("stock_thickness") and self.through == 0:
            yield Caution(
                "The last pass ends level with the underside and may leave a skin or splinters: "
                "let it run {} to {} into a sacrificial board.", 0.5, 1.0, input="through",
            )

    def _worries_inside(self):
        if not self.has("ring_width"):
            return
        inside = self.diameter / 2 - self.ring_width
        if inside <= self.cutter_diameter:
            yield Caution(
                "The inside of the ring is only {} across: a cutter of {} sweeps over its own pivot. "
                "Bore or saw this hole instead, or take a smaller cutter.",
                2 * inside, self.cutter_diameter, input="ring_width",
            )
        if self.ring_width < self.cutter_diameter / 2:
            yield Caution(
                "A ring {} wide is thinner than half the cutter ({}): it may break in the inside cut.",
                self.ring_width, self.cutter_diameter / 2, input="ring_width",
            )

    def after_test_cut(self, cut, measured):
        """The pivot of one cut corrected by what a test cut really measured.

        `cut` is "outer", "hole" or "inner"; `measured` the diameter across the edge that was kept.
        A diameter is out by twice the pivot's error, so half of the difference comes off.

        >>> CircleJig("440 mm", "12 mm").after_test_cut("outer", "441 mm")
        <Quantity(225.5, 'millimeter')>
        """
        found = measure.plain("length", measured)
        if found <= 0:
            raise ShapeError("The test cut measures {}: it must be more than nothing.", found)
        plain = self.plain
        cuts = {
            "outer": (lambda: plain.outer_pivot, lambda: plain.diameter),
            "hole": (lambda: plain.hole_pivot, lambda: plain.diameter),
            "inner": (lambda: plain.inner_pivot, lambda: plain.diameter - 2 * plain.ring_width),
        }
        if cut not in cuts:
            raise ShapeError(f"Which cut was it? Say outer, hole or inner, not {str(cut)[:30]!r}.")
        pivot, wanted = cuts[cut]
        corrected = pivot() + (wanted() - found) / 2
        if corrected <= 0:
            raise ShapeError(
                "A test cut of {} is too far from the wanted {} to be put right: measure it again.",
                found, wanted(),
            )
        return public(corrected, "length")

    @staticmethod
    def from_groove(disc, hole):
        """True cutter diameter and pivot from one groove.

        `disc` is measured across the groove's inside edges, `hole` across its outside edges.
        The groove is as wide as the cutter cuts, its middle as far out as the pivot was set.

        >>> CircleJig.from_groove("440 mm", "464.2 mm").pivot
        <Quantity(226.05, 'millimeter')>
        """
        small, large = measure.plain("length", disc), measure.plain("length", hole)
        if not 0 < small < large:
            raise ShapeError(
                "The groove's disc ({}) must be more than nothing and smaller than its hole ({}): "
                "were the two changed over?", small, large,
            )
        return public(Groove((large - small) / 2, (large + small) / 4), "length")
