"""A ring trimmed from two faces: what the first cutter reaches, what the second one needs, and in how many rounds."""

from shoplib.maths.functions import least, most, whole
from shoplib.model import Caution, Input, Model, ShapeError, length, model, result

LEAST_HOLD = 4.0  # mm of template under the bearing, common practice


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
        tolerance="0.3 mm", group="Template",
        help="From the template's top down to the bearing's lower rim, the cutter as low as you will set it.",
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
        "depth of the first cut", "a", low="2 mm", high="80 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.3 mm",
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
    bearing_over: Input = length(
        "second bearing larger by", "z", low="-1 mm", high="1 mm", step="0.05 mm", inch_step="1/256 in",
        tolerance="0.02 mm", help="Diameter of the second bearing less that of its edges, by callipers.",
        default="0 mm", group="Cutters",
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
        if self.lowest > self.first_reach + 1e-9:
            raise ShapeError(
                "A first cut {} deep is more than the cutter gets down ({}). Cut less deep, or take longer edges.",
                self.lowest, self.first_reach, input="first_depth",
            )
        if self.has("first_depth") and self.first_depth > self.ring_height + 1e-9:
            raise ShapeError(
                "A first cut {} deep is more than the ring is high ({}). Cut less deep.", self.first_depth,
                self.ring_height, input="first_depth",
            )
        if self.hold <= 0:
            raise ShapeError(
                "For a first cut {} deep the bearing's lower rim would stand {} above the template: it has nothing to "
                "run on. Cut deeper, or take shorter edges.", self.depth, -self.hold, input="first_depth",
            )
        if not self.one_face:
            self._check_second()

    def _check_second(self):
        if self.second_depth > self.second_cutting_length + 1e-9:
            raise ShapeError(
                "The second cut is {} deep, the second cutter's edges are only {} long: this pair trims a ring up to "
                "{} tall. Take longer edges, or cut deeper first.",
                self.second_depth, self.second_cutting_length, self.tallest, input="second_cutting_length",
            )
        if self.band_left < self.second_bearing - 1e-9:
            raise ShapeError(
                "The second cutter's bearing is {} high and finds only {} of wall to run on. Cut deeper first, or "
                "overlap less.", self.second_bearing, self.band_left, input="second_bearing",
            )

    def on_card(self):
        """In the order of work: set and make the first cut, then the second one; how far out each round stays."""
        second = () if self.one_face else ("second_set", "second_depth", "band_left")
        return ("first_set", "hold", "depth", *second, "rounds", "each_bite", "tallest")

    @property
    def one_face(self):
        """Whether the first cutter does the whole ring."""
        return self.depth >= self.ring_height - 1e-9

    @result("first cutter reaches", "r")
    def first_reach(self):
        """From the ring's upper face down to the lower end of the first cutter's edges, set as low as it goes."""
        return self.first_cutting_length - (self.template_thickness - self.bearing_hold)

    @result("edges' end below the ring's face, first cut", "a_0", plan=True, minor=True)
    def lowest(self):
        """From the ring's upper face down to the end of the edges, as they are set: as given, or as low as they go."""
        return self.first_depth if self.has("first_depth") else self.first_reach

    @result("first cut's depth", "A", checks="first_depth", to_set=True)
    def depth(self):
        """From the ring's upper face: as given, or as deep as the cutter gets, the ring's height at the most."""
        return least(self.lowest, self.ring_height)

    @result("edges' end below the base, first cut", "S_1", to_set=True)
    def first_set(self):
        """From the router base's underside, which slides on the template, down to the lower end of the edges."""
        return self.template_thickness + self.lowest

    @result("bearing's rim below the base, first cut", "g", to_set=True)
    def hold(self):
        """From the router base's underside, the template's top, down to the bearing's lower rim, as it is set."""
        return self.first_set - self.first_cutting_length

    @result("second cut's depth", "B", to_set=True)
    def second_depth(self):
        """From the ring's other face, the overlap included. Raises ShapeError where one face is enough."""
        self._second()
        return self.ring_height - self.depth + self.overlap

    @result("cutter's tip below the base, second cut", "S_2", to_set=True)
    def second_set(self):
        """From the router base's underside, which slides on the ring, to the tip, bearing included. Raises likewise."""
        return self.second_depth + self.second_bearing

    @result("wall for the second bearing", "u")
    def band_left(self):
        """Height of the first wall that the second cutter leaves for its own bearing to run on. Raises likewise."""
        self._second()
        return self.depth - self.overlap

    @result("step between the walls", "s", step="0.01 mm", inch_step="1/128 in")
    def ridge(self):
        """How far the second wall stands proud of the first one; negative: cut in deeper. Raises likewise."""
        self._second()
        return self.bearing_over / 2

    @result("tallest ring for this pair", "T")
    def tallest(self):
        """Height of the tallest ring that these two cutters can trim, each as deep as it gets."""
        return self.first_reach + self.second_cutting_length - self.overlap

    @result("stays, template on both faces", "v")
    def stays(self):
        """Height of the band that the first cutter reaches from neither good face; nothing where it reaches through."""
        return most(self.ring_height - self.first_reach, 0 * self.ring_height)

    @result("rounds", "n", kind="count", to_set=True)
    def rounds(self):
        """How often each cutter goes round: the margin in bites, rounded up."""
        return whole(self.margin / self.bite)

    @result("each bite", "E", step="0.05 mm", to_set=True)
    def each_bite(self):
        """What each round takes off sideways when all are alike."""
        return self.margin / self.rounds

    @result("bearings larger than the edges by", "Z", step="0.1 mm", plan=True, to_set=True)
    def bearings(self):
        """For each round the bearing's diameter less the edges': twice what it leaves; nothing in the last round."""
        return tuple(2 * self.each_bite * left for left in range(self.rounds - 1, -1, -1))

    def _second(self):
        if type(self.depth) is float and self.one_face:
            raise ShapeError("One face is enough: the first cutter trims the whole ring.", input="ring_height")

    def worries(self):
        if self.rounds > 1:
            yield Caution(
                f"The saw left {{}}: go round {self.rounds} times, the first with larger bearings. Without them saw no "
                "farther than {} from the line.", self.margin, self.bite, input="margin",
            )
        if self.lowest > self.ring_height + 1e-9:
            yield Caution(
                "The first cutter's edges end {} below the ring: lift it off the bench on blocks that lie inside its "
                "line.", self.lowest - self.ring_height, input="first_cutting_length",
            )
        if self.hold < LEAST_HOLD:
            yield Caution(
                "The bearing has only {} of template to run on: it can slip off. Lower the cutter, or take shorter "
                "edges.", self.hold, input="bearing_hold",
            )
        if not self.one_face:
            yield from self._worry_about_second()

    def _worry_about_second(self):
        if self.overlap == 0:
            yield Caution("Without an overlap a hair may stay between the two cuts.", input="overlap")
        if self.bearing_over > 0:
            yield Caution(
                "The second bearing is too large: a ridge of {} stays between the walls. Sand it off, or change the "
                "bearing.", self.ridge, input="bearing_over",
            )
        if self.bearing_over < 0:
            yield Caution(
                "The second bearing is too small: its edges cut {} into the finished wall. Change the bearing.",
                -self.ridge, input="bearing_over",
            )
