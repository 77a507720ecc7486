"""Practice questions on stave rings and hollow blanks."""

import math

from shoplib.maths.stave_rings import HollowBlank, StaveRing
from shoplib.measure import quantity
from shoplib.practice.pictured import Pictured
from shoplib.practice.question import Sizes


def questions(student, unit="mm"):
    """Six questions, with sizes that follow the student number."""
    sizes = Sizes(student, unit)
    outside = sizes.pick(0, mm=range(340, 520, 20), inches=(13.5, 14, 15, 15.5, 16, 17, 18, 19, 20))
    inside = outside - 2 * sizes.pick(1, mm=(20, 22, 25, 30), inches=(3 / 4, 7 / 8, 1, 1.25))
    margin = sizes.fixed(mm=3, inches=1 / 8)
    ring = StaveRing(
        outside, inside, sizes.choose(2, (9, 10, 14, 16, 18)), margin=margin,
        saw_error=sizes.pick(3, deg=(0.1, 0.2, 0.25)),
    ).plain
    blank = HollowBlank(
        outside, inside, sizes.pick(4, mm=(50, 60, 70), inches=(2, 2.25, 2.75)), margin=margin
    ).plain
    return (
        _mitre(sizes, ring), _long_edge(sizes, ring), _board(sizes, ring), _strip(sizes, _nested(sizes)),
        _gap(sizes, ring), _reach(sizes, blank),
    )


def pictured():
    """The drawing over the questions on paper."""
    return Pictured(StaveRing("440 mm", "400 mm", 12, margin="3 mm", kerf="3 mm"), ("The blank", "One stave"))


def _nested(sizes):
    """The ring of other staves, made from their edges; it has no margin."""
    staves = sizes.choose(3, (8, 10, 12))
    long_edge = sizes.pick(1, mm=(115, 123, 128, 135), inches=(4.5, 4.75, 5, 5.25)).m_as("mm")
    short_edge = long_edge - sizes.pick(2, mm=(25, 28, 32), inches=(1, 1.25, 1.5)).m_as("mm")
    across = long_edge / math.tan(math.pi / staves), short_edge / math.sin(math.pi / staves)
    kerf = sizes.pick(2, mm=(2.5, 3, 3.2), inches=(3 / 32, 7 / 64, 1 / 8))
    return StaveRing(*(quantity(size, "mm") for size in across), staves, kerf=kerf).plain


def _mitre(sizes, ring):
    n = ring.staves
    return sizes.ask(
        f"A ring lies flat and has {n} staves. How far from a square cut is the saw set?",
        ring.mitre_angle,
        (
            (2 * ring.mitre_angle, "That is the whole angle between two joints: each stave end takes half of it, or "
             "half of the staves already make a ring."),
            (math.pi / 2 - ring.mitre_angle, "That is measured from the fence: the saw reads away from a square cut."),
            (4 * ring.mitre_angle, "That is twice a stave's angle: half a turn is shared among the staves."),
        ),
        "Half a turn, 180 deg, shared among the staves.", deg=0.05,
    )


def _long_edge(sizes, ring):
    outer, part = ring.blank_outer, math.pi / ring.staves
    return sizes.ask(
        f"The finished ring is {sizes.write(ring.outside_diameter)} outside, with a margin of "
        f"{sizes.write(ring.margin)} and {ring.staves} staves. How long is a stave's long edge?",
        ring.long_edge,
        (
            (2 * outer * math.sin(part), "With the sine the corners touch the circle and the flats cut into the "
             "ring: use the tangent."),
            (outer * math.tan(part), "That is half the edge: it goes both ways from the middle."),
            (4 * outer * math.tan(part), "You used the diameter for the radius: that is twice the edge."),
            (ring.outside_diameter * math.tan(part), "The margin is missing."),
            (2 * outer * math.tan(2 * part), "That is with the whole angle between two joints: half of it lies on "
             "each side of the edge's middle."),
        ),
        "Twice the radius with its margin, times the tangent of the mitre angle.",
    )


def _board(sizes, ring):
    outer, inner, part = ring.blank_outer, ring.blank_inner, math.pi / ring.staves
    return sizes.ask(
        f"The same ring is {sizes.write(ring.inside_diameter)} inside. How wide is the narrowest board?",
        ring.board_width,
        (
            (outer - inner, "Inside, the staves' flats stand nearer to the centre than their corners: bring in the "
             "cosine."),
            ((ring.outside_diameter - ring.inside_diameter) / 2, "That is the finished ring: margin and flats are "
             "missing."),
            (outer - ring.margin - (inner + ring.margin) * math.cos(part), "The margin is missing."),
            (2 * ring.board_width, "You used the diameters: the board lies on one side of the centre."),
        ),
        "Outer radius with margin, less the inner one times the cosine of the mitre angle.", mm=0.2, inches=0.01,
    )


def _strip(sizes, ring):
    n, mean, slant = ring.staves, (ring.long_edge + ring.short_edge) / 2, (ring.long_edge - ring.short_edge) / 2
    cut = ring.kerf / math.cos(math.pi / n)
    return sizes.ask(
        f"Another ring has {n} staves with a long edge of {sizes.write(ring.long_edge)} and a short one of "
        f"{sizes.write(ring.short_edge)}. They are nested along a strip with square ends, every second one turned "
        f"end for end, and the saw takes {sizes.write(ring.kerf)}. How short may the strip be?",
        ring.strip_length,
        (
            (n * mean + slant, "The saw cuts are missing: the strip comes out one or two staves short."),
            (n * mean + (n - 1) * ring.kerf + slant, "The saw runs aslant: along the strip each cut takes more than "
             "the kerf. Divide it by the cosine of the mitre angle."),
            (n * mean + n * cut + slant, "One saw cut too many: there is one less than there are staves."),
            (n * mean + (n - 1) * cut, "Half a slant at each end is missing: it makes the strip's ends square."),
            (n * ring.long_edge + (n - 1) * cut, "That is without nesting: turned end for end, two staves share one "
             "long and one short edge."),
        ),
        "Every stave takes the mean of its edges, every cut between two its kerf over the cosine of the mitre "
        "angle, and the two ends half a slant each.",
    )


def _gap(sizes, ring):
    n, error = ring.staves, ring.saw_error
    return sizes.ask(
        f"Every mitre of the ring with {n} staves is {sizes.write(error, 'angle')} too shallow. The other joints are "
        "tight: by what angle does the last one stand open?",
        ring.closing_angle,
        (
            (n * error, "Each stave has two mitres, and both are off."),
            (error, "The errors add up round the ring."),
            (2 * (n - 1) * error, "The last joint's own two mitres are off as well."),
        ),
        "Two mitres for each stave, each off by as much.", deg=0.02,
    )


def _reach(sizes, blank):
    row, outer = blank.rows[1], blank.blank_outer
    return sizes.ask(
        f"Now the same ring from boards {sizes.write(blank.board_width)} wide, a seam on the centre line, margin "
        f"{sizes.write(blank.margin)}. How far from the middle must the second row reach along the grain?",
        row.outer,
        (
            (math.sqrt(outer**2 - row.high**2), "You took the row's far edge: the circle is widest at the near one."),
            (outer, "That is the first row's reach: the circle has drawn in by then."),
            (2 * row.outer, "That is right across: the reach is on one side of the middle."),
            (math.sqrt((blank.outside_diameter / 2) ** 2 - row.low**2), "The margin is missing."),
            (math.sqrt(4 * outer**2 - row.low**2), "You used the diameter: the circle's radius belongs there."),
        ),
        "Where the blank's circle crosses the row's near edge.",
    )
