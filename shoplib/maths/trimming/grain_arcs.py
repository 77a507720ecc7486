"""Where round a ring the router's cutter works with the grain, and where against it."""

from typing import NamedTuple

from shoplib.model import Input, Model, ShapeError, choice, count, model, result

WITH, AGAINST = "with", "against"


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

    @result("steepest fibres", "phi", kind="angle", plan=True)
    def steepest(self):
        """Greatest angle between fibre and wall anywhere round the ring: a right angle for boards."""
        return self.pi / self.staves if self.construction == "staves" else self.pi / 2

    @result("arcs from the show face", "a_s", kind="table", plan=True, minor=True)
    def show_arcs(self):
        """From the show face: boards 0 to 90 and 180 to 270 deg against, else with; of each stave the first half."""
        pieces = self.staves if self.construction == "staves" else 2
        step = self.pi / pieces
        return tuple(
            GrainArc(k * step, (k + 1) * step, AGAINST if k % 2 == 0 else WITH) for k in range(2 * pieces)
        )

    def arcs(self, face="show"):
        """(from, to, with or against) round the wall, the router on the show or on the back face."""
        if face not in ("show", "back"):
            raise ShapeError(f"Which face does the router stand on? Say show or back, not {str(face)[:20]!r}.")
        if face == "show":
            return self.show_arcs
        other = {WITH: AGAINST, AGAINST: WITH}
        return tuple(arc._replace(grain=other[arc.grain]) for arc in self.show_arcs)
