"""Circle jigs: a router swung round a pivot cuts discs, holes and rings."""

from shoplib import measure
from shoplib.maths.functions import whole
from shoplib.maths.measured_cuts import Groove
from shoplib.maths.passes import equal_passes
from shoplib.model import Caution, Input, Model, ShapeError, length, model, public, result

JUST = 1 - 1e-9  # a hair, for the rounding of a sum
MOST_PASSES = 200
LEAST_HOLD = 15.0  # mm


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
        tolerance="0.5 mm", help="Across the finished disc, hole or ring.", group="Ring",
    )
    cutter_diameter: Input = length(
        "cutter diameter", "d", low="3 mm", high="25 mm", step="0.1 mm", inch_step="1/64 in",
        tolerance="0.05 mm", help="Measured on a test groove, not read off the packet.", group="Cutter",
    )
    ring_width: Input = length(
        "ring width", "w", low="3 mm", high="200 mm", step="0.5 mm", inch_step="1/32 in",
        tolerance="0.3 mm", help="From the ring's outside to its inside. Leave out for a plain disc or hole.",
        default=None, group="Ring",
    )
    stock_thickness: Input = length(
        "stock thickness", "t", low="3 mm", high="80 mm", step="0.5 mm", inch_step="1/32 in",
        tolerance="0.2 mm", help="Of the board that is cut.", default=None, group="Stock and passes",
    )
    pass_depth: Input = length(
        "deepest pass", "a", low="1 mm", high="20 mm", step="0.5 mm", inch_step="1/32 in",
        tolerance="0.2 mm", help="The most that you let the cutter take at once.", default=None,
        group="Stock and passes",
    )
    through: Input = length(
        "cut below the stock", "b", low="0 mm", high="6 mm", step="0.5 mm", inch_step="1/32 in",
        tolerance="0.2 mm", help="How far the last pass runs into the sacrificial board.", default="0 mm",
        group="Stock and passes",
    )
    cutting_length: Input = length(
        "cutting length", "l", low="5 mm", high="100 mm", step="0.5 mm", inch_step="1/32 in",
        tolerance="0.5 mm", help="From the cutter's tip to where its edges end and the shank begins.", default=None,
        group="Cutter",
    )
    base_thickness: Input = length(
        "jig base thickness", "h", low="0 mm", high="20 mm", step="0.5 mm", inch_step="1/32 in",
        tolerance="0.1 mm", help="Of the plate between router and stock, which the cutter has to pass.",
        default="0 mm", group="Jig",
    )
    reach_below_base: Input = length(
        "reach below the router's base", "u", low="5 mm", high="120 mm", step="0.5 mm", inch_step="1/32 in",
        tolerance="0.5 mm", help="How far the cutter's tip stands out below the router's own base, plunged right down.",
        default=None, group="Cutter",
    )
    hold: Input = length(
        "hold round the groove", "c", low="5 mm", high="100 mm", step="1 mm", inch_step="1/16 in", tolerance="2 mm",
        help="Board left outside the groove on all four sides, for screws or cramps.", default="25 mm",
        group="Stock and passes",
    )
    pivot_pin: Input = length(
        "pivot pin", "q", low="2 mm", high="12 mm", step="0.5 mm", inch_step="1/64 in", tolerance="0.05 mm",
        help="Across the pin that the jig turns on: the pivot holes are drilled for it.", default="6 mm", group="Jig",
    )

    def check(self):
        if self.has("ring_width") and self.ring_width >= self.diameter / 2:
            raise ShapeError(
                "A ring {} wide has no inside left when it is {} across: the width must stay under {}. "
                "Make the ring narrower or larger.",
                self.ring_width, self.diameter, self.diameter / 2, input="ring_width",
            )

    def on_card(self):
        """A ring's two cuts, or a disc's and a hole's: first the board, then what is drilled, checked and cut."""
        pivots = ("outer_pivot", "hole_pivot", "outer_reach", "hole_reach")
        if self.has("ring_width"):
            pivots = ("outer_pivot", "inner_pivot", "pivot_step", "outer_reach", "inner_reach")
        return ("blank", *pivots, "depth", "passes")

    @result("outside cut, pivot", "p_o", checks="diameter", to_set=True)
    def outer_pivot(self):
        """Pivot's centre to cutter's centre, cutting round the outside of what is kept.

        The cutter runs outside the finished edge, so half of it is added. Geometry of two
        circles that touch from outside.

        >>> CircleJig("440 mm", "12 mm").outer_pivot
        <Quantity(226.0, 'millimeter')>
        """
        return (self.diameter + self.cutter_diameter) / 2

    @result("outside cut, reach", "r_o", checks="diameter", to_set=True)
    def outer_reach(self):
        """Pivot's centre to the cutter's near edge, which makes the ring's outside: check with a rule."""
        return self.outer_pivot - self.cutter_diameter / 2

    @result("inside cut, pivot", "p_i", checks="ring_width", to_set=True)
    def inner_pivot(self):
        """Pivot's centre to cutter's centre, cutting the inside of the ring.

        Raises ShapeError where the inside is no larger than the cutter, or no ring width is given.

        >>> CircleJig("440 mm", "12 mm", ring_width="20 mm").inner_pivot
        <Quantity(194.0, 'millimeter')>
        """
        pivot = self.diameter / 2 - self.ring_width - self.cutter_diameter / 2
        self._check_hole(pivot, self.diameter - 2 * self.ring_width)
        return pivot

    @result("inside cut, reach", "r_i", checks="ring_width", to_set=True)
    def inner_reach(self):
        """Pivot's centre to the cutter's far edge, which makes the ring's inside: check with a rule."""
        return self.inner_pivot + self.cutter_diameter / 2

    @result("between the pivot holes", "s", to_set=True)
    def pivot_step(self):
        """Between the jig's two pivot holes for one ring, centre to centre: ring width and one cutter."""
        return self.outer_pivot - self.inner_pivot

    @result("plain hole, pivot", "p_h", checks="diameter", to_set=True)
    def hole_pivot(self):
        """Pivot's centre to cutter's centre, cutting a hole of this diameter; the surround is kept.

        Raises ShapeError where the hole is no larger than the cutter.

        >>> CircleJig("440 mm", "12 mm").hole_pivot
        <Quantity(214.0, 'millimeter')>
        """
        pivot = (self.diameter - self.cutter_diameter) / 2
        self._check_hole(pivot, self.diameter)
        return pivot

    @result("plain hole, reach", "r_h", checks="diameter", to_set=True)
    def hole_reach(self):
        """Pivot's centre to the cutter's far edge, which makes the hole's wall: check with a rule."""
        return self.hole_pivot + self.cutter_diameter / 2

    def _check_hole(self, pivot, hole):
        if type(pivot) is float and pivot <= 0:
            raise ShapeError(
                "A hole {} across cannot be swung with a cutter of {}: take a smaller cutter or drill it.",
                hole, self.cutter_diameter, input="cutter_diameter",
            )

    @result("depth of cut", "T", to_set=True)
    def depth(self):
        """Stock's face to the bottom of the last pass."""
        return self.stock_thickness + self.through

    @result("passes, depth from the face", "a_k", step="0.05 mm", plan=True, to_set=True)
    def passes(self):
        """Depths of the passes from the stock's face: the fewest, all equal, none deeper than allowed.

        Raises ShapeError where the cutter cannot reach that deep or its edges are shorter than one pass.

        >>> CircleJig("440 mm", "12 mm", stock_thickness="18 mm", pass_depth="6 mm").tell("passes")
        passes, depth from the face  6.00 mm, 12.00 mm, 18.00 mm
        """
        for sentence, sizes, hangs_on in self._faults():
            raise ShapeError(sentence, *sizes, input=hangs_on)
        return equal_passes(self.depth, self.pass_depth)

    def _faults(self):
        """Why the cut cannot be made to its depth: each a sentence, its lengths and the input it hangs on."""
        needed = self.base_thickness + self.depth
        if self.has("reach_below_base") and self.reach_below_base < JUST * needed:
            yield (
                "The cutter reaches {} below the router's base, but jig base and cut together are {} deep. Take a "
                "cutter that reaches {} further, a thinner jig base or thinner stock.",
                (self.reach_below_base, needed, needed - self.reach_below_base), "reach_below_base",
            )
        if self.has("pass_depth"):
            yield from self._faulty_steps()

    def _faulty_steps(self):
        """Why the steps cannot be made: too many of them, or edges that are shorter than one."""
        if self.depth > MOST_PASSES * self.pass_depth:
            yield (
                "Passes of {} are too light for a cut {} deep: they must be more than {}. Take deeper passes.",
                (self.pass_depth, self.depth, self.depth / MOST_PASSES), "pass_depth",
            )
            return
        step = self.depth / whole(self.depth / self.pass_depth)
        if self.has("cutting_length") and self.cutting_length < JUST * step:
            yield (
                "Each pass is {} deep, but the cutter's edges are only {} long: the shank would run into uncut wood. "
                "Take passes no deeper than the edges are long.", (step, self.cutting_length), "cutting_length",
            )

    @result("side of the blank", "B", checks="hold", to_set=True)
    def blank(self):
        """Side of the smallest square board for a disc or a ring: outside, groove and a hold on both sides.

        >>> CircleJig("440 mm", "12 mm").blank
        <Quantity(514.0, 'millimeter')>
        """
        return self.diameter + 2 * self.cutter_diameter + 2 * self.hold

    def worries(self):
        if self.hold < LEAST_HOLD:
            yield Caution(
                "Only {} of the board is left outside the groove: no room for a screw, and it may break away. "
                "Leave at least {}.", self.hold, LEAST_HOLD, input="hold",
            )
        if self.has("pass_depth") and self.pass_depth > self.cutter_diameter:
            yield Caution(
                "A pass of {} is deeper than the cutter is wide ({}): take lighter passes.",
                self.pass_depth, self.cutter_diameter, input="pass_depth",
            )
        yield from self._worries_inside()
        if self.has("stock_thickness"):
            yield from self._worries_deep()

    def _worries_deep(self):
        """How the last pass ends, and whether the cutter gets there."""
        if self.through == 0:
            yield Caution(
                "The last pass ends level with the underside and may leave a skin or splinters: "
                "let it run {} to {} into a sacrificial board.", 0.5, 1.0, input="through",
            )
        faults = list(self._faults())
        for sentence, sizes, hangs_on in faults:
            yield Caution(sentence, *sizes, input=hangs_on)
        short = self.has("cutting_length") and self.cutting_length < JUST * self.depth
        if short and all(hangs_on != "cutting_length" for _, _, hangs_on in faults):
            yield Caution(
                "The edges are {} long, the cut is {} deep: the shank follows them into it. That goes only with a "
                "shank no thicker than the cutter, and only where it runs true; a thicker one burns and jams.",
                self.cutting_length, self.depth, input="cutting_length",
            )

    def _worries_inside(self):
        """How near the inside cut comes to its own pivot, and how thin a ring it leaves."""
        if not self.has("ring_width"):
            return
        inside = self.diameter / 2 - self.ring_width
        if inside <= self.cutter_diameter:
            yield Caution(
                "The inside of the ring is only {} across: a cutter of {} sweeps over its own pivot. "
                "Bore or saw this hole instead, or take a smaller cutter.",
                2 * inside, self.cutter_diameter, input="ring_width",
            )
        elif inside - self.cutter_diameter <= self.pivot_pin / 2:
            yield Caution(
                "The inside cut comes within {} of the pivot's centre: it runs into a pin of {}. Take a thinner pin or "
                "a smaller cutter, or bore this hole.",
                inside - self.cutter_diameter, self.pivot_pin, input="pivot_pin",
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
        if cut not in ("outer", "hole", "inner"):
            raise ShapeError(f"Which cut was it? Say outer, hole or inner, not {str(cut)[:30]!r}.")
        pivot, reach = (getattr(self.plain, f"{cut}_{end}") for end in ("pivot", "reach"))
        corrected = pivot + reach - found / 2
        if corrected <= 0:
            raise ShapeError(
                "A test cut of {} is too far from the wanted {} to be put right: measure it again.", found, 2 * reach
            )
        return public(corrected, "length")

    @staticmethod
    def from_groove(disc, hole):
        """True cutter diameter and pivot from one groove.

        `disc` is measured across the groove's inside edges, `hole` across its outside edges.
        The groove is as wide as the cutter cuts, its middle as far out as the pivot was set.

        >>> CircleJig.from_groove("440 mm", "464.2 mm")
        the cutter really cuts  12.10 mm (0.476 in)
        the pivot is at         226.05 mm (8.900 in)
        """
        small, large = measure.plain("length", disc), measure.plain("length", hole)
        if not 0 < small < large:
            raise ShapeError(
                "The groove's disc ({}) must be more than nothing and smaller than its hole ({}): "
                "were the two changed over?", small, large,
            )
        return public(Groove((large - small) / 2, (large + small) / 4), "length")
