"""A ring trimmed from two faces: what the first cutter reaches, what the second one needs, and in how many rounds."""

from shoplib.maths.functions import least, whole
from shoplib.model import Caution, Input, Model, ShapeError, length, model, result


@model
class TwoFaces(Model):
    """A ring sawn outside its line, trimmed on a template, turned over, and trimmed along the first wall.

    The first cutter's bearing is above its edges and runs on the template; the second's is at its tip and runs on the
    wall that the first one made, the template taken off.

    >>> trim = TwoFaces("40 mm", "18 mm", "18 mm", "25 mm", "25 mm", "7 mm")
    >>> trim.first_reach, trim.second_depth, trim.band_left, trim.tallest
    ... # doctest: +NORMALIZE_WHITESPACE
    (<Quantity(25.0, 'millimeter')>, <Quantity(17.0, 'millimeter')>, <Quantity(23.0, 'millimeter')>,
     <Quantity(48.0, 'millimeter')>)
    """

    ring_height: Input = length(
        "ring height", "H", low="6 mm", high="120 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.3 mm",
        help="From face to face of the ring.", group="Ring",
    )
    template_thickness: Input = length(
        "template thickness", "t", low="3 mm", high="40 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.2 mm",
        help="Of the template that lies on the ring.", group="Template",
    )
    bearing_hold: Input = length(
        "bearing down the template", "b", low="2 mm", high="40 mm", step="0.5 mm", inch_step="1/32 in",
        tolerance="0.3 mm", help="From the template's top down to the bearing's lower rim.", group="Template",
    )
    first_cutting_length: Input = length(
        "first cutter's edges", "c_1", low="6 mm", high="80 mm", step="0.5 mm", inch_step="1/32 in",
        tolerance="0.2 mm", help="Length of its cutting edges, below its bearing.", group="Cutters",
    )
    second_cutting_length: Input = length(
        "second cutter's edges", "c_2", low="6 mm", high="80 mm", step="0.5 mm", inch_step="1/32 in",
        tolerance="0.2 mm", help="Length of its cutting edges, above its bearing.", group="Cutters",
    )
    second_bearing: Input = length(
        "second cutter's bearing", "k", low="2 mm", high="25 mm", step="0.5 mm", inch_step="1/32 in",
        tolerance="0.2 mm", help="Height of the bearing at its tip, its screw included.", group="Cutters",
    )
    first_depth: Input = length(
        "first cut's depth", "a", low="2 mm", high="80 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.3 mm",
        help="From the ring's upper face. Left out: as deep as the first cutter gets.", default=None, group="Cutters",
    )
    overlap: Input = length(
        "overlap", "o", low="0 mm", high="10 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.2 mm",
        help="How far the second cut runs into the first one's wall.", default="2 mm", group="Cutters",
    )
    margin: Input = length(
        "margin left by the saw", "m", low="0.5 mm", high="15 mm", step="0.5 mm", inch_step="1/32 in",
        tolerance="0.5 mm", help="From the line to the sawn edge, where it is widest.", default="3 mm", group="Bites",
    )
    bite: Input = length(
        "bite", "e", low="0.5 mm", high="6 mm", step="0.5 mm", inch_step="1/64 in", tolerance="0.2 mm",
        help="The most that one round may take off sideways.", default="2 mm", group="Bites",
    )

    def check(self):
        if self.bearing_hold > self.template_thickness:
            raise ShapeError(
                "The bearing's lower rim is {} down a template only {} thick: it would ride on the waste. Raise the "
                "cutter.", self.bearing_hold, self.template_thickness, input="bearing_hold",
            )
        if self.first_reach <= 0:
            raise ShapeError(
                "The first cutter's edges end {} above the ring: lower the cutter, or take longer edges.",
                -self.first_reach, input="first_cutting_length",
            )
        if self.depth > self.first_reach + 1e-9:
            raise ShapeError(
                "A first cut {} deep is more than the cutter gets down ({}). Cut less deep, or take longer edges.",
                self.depth, self.first_reach, input="first_depth",
            )
        if self.depth > self.ring_height + 1e-9:
            raise ShapeError(
                "A first cut {} deep is more than the ring is high ({}).", self.depth, self.ring_height,
                input="first_depth",
            )
        if not self.one_face:
            self._check_second()

    def _check_second(self):
        if self.second_depth > self.second_cutting_length + 1e-9:
            raise ShapeError(
                "The second cut is {} deep, the second cutter's edges are only {} long: this pair trims a ring up to "
                "{} tall. Take longer edges, or a lower ring.",
                self.second_depth, self.second_cutting_length, self.tallest, input="second_cutting_length",
            )
        if self.band_left < self.second_bearing - 1e-9:
            raise ShapeError(
                "The second cutter's bearing is {} high and finds only {} of wall to run on. Cut deeper first, or "
                "overlap less.", self.second_bearing, self.band_left, input="second_bearing",
            )

    def on_card(self):
        """In the order of work: the first cut, then what the second one needs, then the rounds."""
        second = () if self.one_face else ("second_depth", "band_left", "tallest")
        return ("first_reach", "depth", *second, "rounds", "each_bite")

    @property
    def one_face(self):
        """Whether the first cutter does the whole ring."""
        return self.depth >= self.ring_height - 1e-9

    @result("first cutter reaches", "r")
    def first_reach(self):
        """From the ring's upper face down to the lower end of the first cutter's edges."""
        return self.first_cutting_length - (self.template_thickness - self.bearing_hold)

    @result("first cut's depth", "A", checks="first_depth")
    def depth(self):
        """From the ring's upper face: as given, or as deep as the cutter gets, the ring's height at the most."""
        return self.first_depth if self.has("first_depth") else least(self.first_reach, self.ring_height)

    @result("second cut's depth", "B")
    def second_depth(self):
        """From the ring's other face, the overlap included. Raises ShapeError where one face is enough."""
        self._second()
        return self.ring_height - self.depth + self.overlap

    @result("wall for the second bearing", "u")
    def band_left(self):
        """Height of the first cut's wall that the second cutter leaves for its own bearing to run on."""
        self._second()
        return self.depth - self.overlap

    @result("tallest ring for this pair", "T")
    def tallest(self):
        """Height of the tallest ring that these two cutters can trim, each as deep as it gets."""
        return self.first_reach + self.second_cutting_length - self.overlap

    @result("rounds", "n", kind="count")
    def rounds(self):
        """How often each cutter goes round: the margin in bites, rounded up; the first rounds with larger bearings."""
        return whole(self.margin / self.bite)

    @result("each bite", "E", step="0.05 mm")
    def each_bite(self):
        """What each round takes off sideways when all are alike."""
        return self.margin / self.rounds

    def _second(self):
        if type(self.depth) is float and self.one_face:
            raise ShapeError("One face is enough: the first cutter trims the whole ring.", input="ring_height")

    def worries(self):
        if self.rounds > 1:
            yield Caution(
                f"The saw left {{}}: go round {self.rounds} times, the first with larger bearings. Without them saw no "
                "farther than {} from the line.", self.margin, self.bite, input="margin",
            )
        if not self.one_face and self.overlap == 0:
            yield Caution(
                "Without an overlap a hair is left between the two cuts.", input="overlap",
            )
        if self.bearing_hold < 4:
            yield Caution(
                "The bearing has only {} of template to run on: it can slip off. Lower the cutter.",
                self.bearing_hold, input="bearing_hold",
            )
