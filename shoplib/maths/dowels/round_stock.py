"""Round rod from square stock."""

import math
from typing import NamedTuple

from shoplib import measure
from shoplib.maths import rods
from shoplib.maths.functions import sin
from shoplib.maths.passes import equal_passes
from shoplib.model import Caution, Facts, Input, Model, ShapeError, count, model, public, result, write_finely
from shoplib.model import length as size  # `length` is an input's name here

MUCH = 6.5  # mm, a quarter of an inch and a little: a larger bite of a roundover cutter is worth a caution


class SetError(NamedTuple):
    """A rod from a cutter that stood too high or too low: widths between parallel jaws, and the step it left."""

    smallest: object
    largest: object
    out_of_round: object
    step: object

    def facts(self):
        """In words, as a small table."""
        words = ("smallest width between jaws", "largest width", "out of round", "step along each face")
        return Facts((said, write_finely(value)) for said, value in zip(words, self))

    def __repr__(self):
        return repr(self.facts())

    def _repr_html_(self):
        return self.facts()._repr_html_()


@model
class RoundStock(Model):
    """Round rod from square stock, a roundover cutter run along its four corners.

    The ends stay square to ride the fence. The square's side is the rod's diameter.

    >>> rod = RoundStock("19 mm", "400 mm", roundover_radius="9 mm")
    >>> rod.square_side, rod.ideal_radius, rod.flat
    (<Quantity(19.0, 'millimeter')>, <Quantity(9.5, 'millimeter')>, <Quantity(1.0, 'millimeter')>)
    >>> rod.replace(pass_depth="4 mm").tell("passes", "stop_distance")
    cutter over the table, round by round  3.0 mm, 6.0 mm, 9.0 mm
    cutter's centre to each stop           481.0 mm
    """

    diameter: Input = size(
        "rod diameter", "D", low="5 mm", high="50 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.1 mm",
        help="Across the finished rod: plane the square to this side.",
    )
    length: Input = size(
        "rod length", "l", low="20 mm", high="1200 mm", step="5 mm", inch_step="1/8 in", tolerance="0.5 mm",
        help="Of one finished rod.",
    )
    count: Input = count("rods from one blank", "n", 1, 40, help="Cut from its round part.", default=1)
    roundover_radius: Input = size(
        "roundover radius", "r", low="2 mm", high="25 mm", step="0.1 mm", inch_step="1/64 in", tolerance="0.1 mm",
        help="Of the cutter. Left out: exactly half the rod.", default=None,
    )
    grip: Input = size(
        "square grip", "g", low="0 mm", high="200 mm", step="5 mm", inch_step="1/8 in", tolerance="1 mm",
        help="Left square at each end, to ride on fence and table.", default="75 mm",
    )
    kerf: Input = size(
        "kerf", "k", low="0 mm", high="6 mm", step="0.1 mm", inch_step="1/64 in", tolerance="0.1 mm",
        help="Width of the saw's cut.", default="3 mm",
    )
    pass_depth: Input = size(
        "deepest bite", "p", low="0.5 mm", high="25 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.2 mm",
        help="How much the cutter is raised at most from one round of four corners to the next. Left out: one round.",
        default=None,
    )

    def check(self):
        if self.cutter_radius > self.ideal_radius * (1 + 1e-9):
            raise ShapeError(
                "A roundover of {} is too large for a rod of {}: more than {} eats into the faces that ride the fence. "
                "Take a smaller cutter or a thicker rod.",
                self.cutter_radius, self.diameter, self.ideal_radius, input="roundover_radius",
            )

    def on_card(self):
        """What is set at the planer and the router, in the order of use, then what the jaws tell."""
        return ("square_side", "blank_length", "stop_distance", "passes", "across_corners", "flat", "out_of_round")

    @result("square's side", "a", checks="diameter", to_set=True)
    def square_side(self):
        """Side of the square blank, face to face: the rod's diameter, for the faces stay where they are."""
        return self.diameter

    @result("ideal roundover radius", "rho")
    def ideal_radius(self):
        """Radius of the cutter that leaves a true circle: half the rod's diameter."""
        return self.diameter / 2

    @result("radius in the cutter", "r_c", plan=True, minor=True)
    def cutter_radius(self):
        """The roundover radius that was given, or the ideal one where it was left out."""
        return self.roundover_radius if self.has("roundover_radius") else self.ideal_radius

    @result("flat left on each face", "f", checks="roundover_radius", step="0.01 mm")
    def flat(self):
        """Width of the strip that the cutter leaves flat in the middle of each face."""
        return self.diameter - 2 * self.cutter_radius

    @result("across the corners", "w_c", checks="roundover_radius", step="0.01 mm")
    def across_corners(self):
        """Between parallel jaws with the rod turned 45 deg: its largest width. Across the flats it is the diameter.

        The outline is a square as wide as the flat with a circle of the cutter's radius run round it:
        the square's diagonal and twice that radius.
        """
        return self.flat / sin(self.pi / 4) + 2 * self.cutter_radius

    @result("out of round", "u", checks="roundover_radius", step="0.01 mm")
    def out_of_round(self):
        """Largest less smallest width between parallel jaws, the rod turned through all angles.

        >>> round(RoundStock("19 mm", "400 mm", roundover_radius="8 mm").out_of_round, 3)
        <Quantity(1.243, 'millimeter')>
        """
        return self.across_corners - self.diameter

    @result("blank's length", "L", to_set=True)
    def blank_length(self):
        """End to end of the square blank: the rods, a saw cut at every end of one, and both grips.

        >>> RoundStock("19 mm", "400 mm", count=2).blank_length
        <Quantity(959.0, 'millimeter')>
        """
        return self.count * self.length + (self.count + 1) * self.kerf + 2 * self.grip

    @result("cutter's centre to each stop", "s", checks="grip", to_set=True)
    def stop_distance(self):
        """Along the fence from the cutter's axis to the stop on either side.

        The blank's trailing end starts at the one, its leading end ends at the other: a grip stays square at each end.
        """
        return self.blank_length - self.grip

    @result("cutter over the table, round by round", "z", plan=True, to_set=True)
    def passes(self):
        """How far the cutter's arc stands over the table in each round of four corners, at last with its whole radius.

        The fewest equal steps of which none is larger than the deepest bite.
        """
        if not self.has("pass_depth"):
            return (self.cutter_radius,)
        return equal_passes(self.cutter_radius, self.pass_depth)

    def worries(self):
        if self.out_of_round > 0.02 * self.diameter:
            yield Caution(
                "The rod is {} wider across its corners than across its flats: it will bind in a hole drilled to its "
                "diameter. Take the next larger cutter, or plane the corners down.",
                self.out_of_round, input="roundover_radius",
            )
        if self.passes[0] > MUCH:
            yield Caution(
                "A bite of {} at once burns and tears: give a deepest bite of {} or less, and raise the cutter round "
                "by round.", self.passes[0], MUCH, input="pass_depth", source="a rule of thumb of this lesson",
            )
        if self.grip < 50.0:
            yield Caution(
                "A grip of {} is short: leave {} or more square at each end, so that the blank cannot roll or dip "
                "into the cutter.", self.grip, 50.0, input="grip",
            )
        if self.blank_length > 60 * self.diameter:
            yield Caution(
                "A blank {} long and {} thick whips over the cutter: make fewer or shorter rods at once, and use "
                "hold-downs.", self.blank_length, self.diameter, input="count",
            )

    def outline(self, n):
        """The rod's true outline: n points (x, y) at equal angles round its centre, the first on the x axis.

        >>> RoundStock("20 mm", "400 mm").outline(4)[0]
        (<Quantity(10.0, 'millimeter')>, <Quantity(0.0, 'millimeter')>)
        """
        if isinstance(n, bool) or not isinstance(n, int) or n < 3:
            raise measure.MeasureError(f"The outline needs a whole number of points, 3 or more, not {str(n)[:30]!r}.")
        return tuple(public(point, "length") for point in self.plain.outline_points(n))

    def outline_points(self, n):
        """The same in floats."""
        half, radius = self.plain_sizes()
        return tuple(rods.on_outline(2 * math.pi * k / n, half, radius) for k in range(n))

    def plain_sizes(self):
        """Half the square's side and the cutter's radius, in mm."""
        plain = getattr(self, "plain", self)
        return plain.diameter / 2, plain.cutter_radius

    def set_error(self, e):
        """What a cutter leaves that stands `e` too high over the table on all four passes (negative: too low).

        The fence is taken as right, and the blank is turned the same way after each pass. Too high
        leaves a step along each face and a thinner rod; too low leaves a ridge and a thicker one.

        >>> RoundStock("19 mm", "400 mm").set_error("0.3 mm")
        smallest width between jaws  18.42 mm
        largest width                18.99 mm
        out of round                 0.57 mm
        step along each face         0.30 mm
        """
        error, (half, radius) = measure.plain("length", e), self.plain_sizes()
        if abs(error) > radius / 4:
            raise ShapeError(
                "The cutter stands {} off: from {} on that is another profile, not an error. Set it again.",
                error, radius / 4, input="roundover_radius",
            )
        low, high = rods.set_error(half, radius, error)
        return public(SetError(low, high, high - low, max(error, 0.0)), "length")
