"""The sizes that every ring made of pieces has, and what they must keep to."""

from shoplib.model import ShapeError

OUTSIDE = dict(
    words="outside diameter", symbol="D", low="80 mm", high="1500 mm", step="1 mm", inch_step="1/16 in",
    tolerance="0.5 mm", help="Across the finished ring.", group="the ring",
)
INSIDE = dict(
    words="inside diameter", symbol="d", low="20 mm", high="1480 mm", step="1 mm", inch_step="1/16 in",
    tolerance="0.5 mm", help="Across the finished ring's hole.", group="the ring",
)
MARGIN = dict(
    words="margin", symbol="m", low="0 mm", high="20 mm", step="0.5 mm", tolerance="0.3 mm", default="0 mm",
    help="Left on the blank outside and inside, for truing and for the router.", inch_step="1/32 in",
    group="the ring",
)
KERF = dict(
    words="kerf", symbol="k", low="0 mm", high="6 mm", step="0.1 mm", inch_step="1/64 in", tolerance="0.1 mm",
    help="Width of the saw's cut.",
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


def finished_area(ring):
    """What the finished ring covers, seen from above."""
    return ring.pi * (ring.outside_diameter**2 - ring.inside_diameter**2) / 4
