"""Where round a ring the router's cutter works with the grain, and where against it."""

import math
from typing import NamedTuple

from shoplib.maths.functions import sin
from shoplib.model import Facts, Input, Model, ShapeError, choice, count, length, model, result, write_value

WITH, AGAINST = "with", "against"
FACES = ("show", "back")


def degrees(angle):
    """An angle in rad as a mark is set out: whole degrees where it is whole, else to a hundredth.

    >>> degrees(math.pi / 2), degrees(math.pi / 7)
    ('90 deg', '25.71 deg')
    """
    step = "1 deg" if abs(math.degrees(angle) - round(math.degrees(angle))) < 1e-6 else "0.01 deg"
    return write_value(angle, "angle", "deg", step, None)


class GrainArc(NamedTuple):
    """One arc of the wall, anticlockwise on the show face, in rad, and how its grain lies to the cutter."""

    start: float
    end: float
    grain: str


@model
class GrainArcs(Model):
    """A ring's wall as the cutter of a hand-held router meets it, the kept wood on the left of the feed.

    The cutter turns clockwise seen from above, so its edge runs along the wall in the feed's direction. With the
    grain: the fibres rise out of the kept wood that way. Against it they run down into it, and the edge lifts them.
    Angles are anticlockwise on the show face, from the grain's direction (boards) or from a joint (staves).

    >>> [arc.grain for arc in GrainArcs().arcs("show")]
    ['against', 'with', 'against', 'with']
    """

    construction: Input = choice(
        "construction", "construction_of_ring", ("boards", "staves"), default="boards",
        help="Boards: grain one way through the whole ring. Staves: grain along each stave.",
    )
    staves: Input = count(
        "staves", "n", low=3, high=36, default=12, help="How many staves; of no matter for boards.",
    )
    edge: Input = choice(
        "edge", "edge_of_ring", ("outside", "inside"), default="outside", help="Which wall of the ring is trimmed.",
    )
    diameter: Input = length(
        "diameter of the wall", "D", low="60 mm", high="1500 mm", step="1 mm", inch_step="1/16 in", tolerance="0.5 mm",
        help="Of the wall that is trimmed, for marks to step off. Left out: angles alone.", default=None,
    )

    def on_card(self):
        """In the order of use: how many arcs there are, how wide each is, and how it is stepped off."""
        return ("arc", "chord", "arc_length", "steepest")

    @result("arcs against the grain", "n_a", kind="count", plan=True, minor=True)
    def arcs_against(self):
        """How many arcs of the wall are cut against the grain from either face; as many again are cut with it."""
        return self.staves if self.construction == "staves" else 2

    @result("each arc", "alpha", kind="angle", to_set=True)
    def arc(self):
        """From one mark to the next, seen from the ring's middle: with and against take turns, all alike."""
        return self.pi / self.arcs_against

    @result("each arc, straight from mark to mark", "c", checks="diameter", to_set=True)
    def chord(self):
        """Between two neighbouring marks on the wall, as dividers step it off. Raises ShapeError without a diameter."""
        self._sized()
        return self.diameter * sin(self.arc / 2)

    @result("each arc, along the wall", "l", checks="diameter", to_set=True)
    def arc_length(self):
        """From mark to mark along the wall, as a tape bent round it reads. Raises ShapeError without a diameter."""
        self._sized()
        return self.diameter / 2 * self.arc

    @result("steepest fibres", "phi", kind="angle")
    def steepest(self):
        """Greatest angle between fibre and wall anywhere round the ring: at a joint, or square to it for boards."""
        return self.pi / self.arcs_against

    @result("marks round the ring", "a_k", kind="angle", plan=True, minor=True)
    def marks(self):
        """Where with and against take turns, anticlockwise on the show face, once round from nothing to a full turn."""
        return tuple(k * self.pi / self.arcs_against for k in range(2 * self.arcs_against + 1))

    def _sized(self):
        if not self.has("diameter"):
            raise ShapeError("Give the wall's diameter, then the marks can be stepped off.", input="diameter")

    def arcs(self, face="show"):
        """(from, to, with or against) round the wall, the router on the show or on the back face.

        From the show face: boards 0 to 90 and 180 to 270 deg against, the others with; of each stave the first half
        against, the second with. From the back face the other way round, for the cutter runs along the wall the other
        way. Both walls of a ring are alike in this. Raises ShapeError for another face.
        """
        if face not in FACES:
            raise ShapeError(f"Which face does the router stand on? Say show or back, not {str(face)[:20]!r}.")
        first, second = (AGAINST, WITH) if face == "show" else (WITH, AGAINST)
        turns = zip(self.marks, self.marks[1:])
        return tuple(GrainArc(start, end, second if k % 2 else first) for k, (start, end) in enumerate(turns))

    def tell_arcs(self, most=4):
        """The first arcs in a table, each as either face meets it.

        >>> GrainArcs().tell_arcs(2)
        from    to       router on the show face  router on the back face
        0 deg   90 deg   against the grain        with the grain
        90 deg  180 deg  with the grain           against the grain
        """
        rows = [
            (degrees(show.start), degrees(show.end), *(f"{arc.grain} the grain" for arc in (show, back)))
            for show, back in zip(self.plain.arcs("show"), self.plain.arcs("back"))
        ]
        return Facts(rows[:most], head=("from", "to", "router on the show face", "router on the back face"))
