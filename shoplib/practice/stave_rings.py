"""Practice questions on stave rings and hollow blanks."""

import math

from shoplib.maths.stave_rings import HollowBlank, StaveRing
from shoplib.measure import quantity
from shoplib.practice.question import Question, pick


def questions(student):
    """Five questions, with sizes that follow the student number."""
    outside = float(pick(student, 0, range(340, 520, 20)))
    width = float(pick(student, 1, (20, 22, 25, 30)))
    staves = pick(student, 2, (8, 9, 10, 12))
    ring = StaveRing(
        quantity(outside, "mm"),
        quantity(outside - 2 * width, "mm"),
        staves,
        margin="3 mm",
        saw_error=quantity(pick(student, 3, (0.1, 0.2, 0.25)), "deg"),
    ).plain
    blank = HollowBlank(
        quantity(outside, "mm"),
        quantity(outside - 2 * width, "mm"),
        quantity(float(pick(student, 4, (50, 60, 70))), "mm"),
        margin="3 mm",
    ).plain
    return _mitre(ring), _long_edge(ring), _board(ring), _gap(ring), _reach(blank)


def _mitre(ring):
    n = ring.staves
    return Question(
        f"A ring lies flat and has {n} staves. How far from a square cut is the saw set?",
        ring.mitre_angle,
        (
            (2 * ring.mitre_angle, "That is the whole angle between two joints: each stave end takes half of it."),
            (math.pi / 2 - ring.mitre_angle, "That is measured from the fence: the saw reads away from a square cut."),
            (4 * ring.mitre_angle, "That is twice a stave's angle: half a turn is shared among the staves."),
        ),
        f"180 deg / {n}.",
        kind="angle",
        tolerance=math.radians(0.05),
    )


def _long_edge(ring):
    outer, part = ring.blank_outer, math.pi / ring.staves
    return Question(
        f"The finished ring is {ring.outside_diameter:g} mm outside, with a margin of {ring.margin:g} mm and "
        f"{ring.staves} staves. How long is a stave's long edge?",
        ring.long_edge,
        (
            (
                2 * outer * math.sin(part),
                "With the sine the corners touch the circle and the flats cut into the ring: use the tangent.",
            ),
            (outer * math.tan(part), "That is half the edge: it goes both ways from the middle."),
            (ring.outside_diameter * math.tan(part), "The margin is missing."),
        ),
        "Twice the radius with its margin, times the tangent of the mitre angle.",
    )


def _board(ring):
    return Question(
        f"The same ring is {ring.inside_diameter:g} mm inside. How wide is the narrowest board?",
        ring.board_width,
        (
            (
                ring.blank_outer - ring.blank_inner,
                "Inside, the staves' flats stand nearer to the centre than their corners: bring in the cosine.",
            ),
            (
                (ring.outside_diameter - ring.inside_diameter) / 2,
                "That is the finished ring: margin and flats are missing.",
            ),
            (
                ring.blank_outer - ring.margin - (ring.blank_inner + ring.margin) * math.cos(math.pi / ring.staves),
                "The margin is missing.",
            ),
        ),
        "Outer radius with margin, less the inner one times the cosine of the mitre angle.",
        tolerance=0.2,
    )


def _gap(ring):
    n, error = ring.staves, ring.saw_error
    return Question(
        f"Every mitre is {math.degrees(error):g} deg too shallow. The other joints are tight: by what angle "
        "does the last one "
        "stand open?",
        ring.closing_angle,
        (
            (n * error, "Each stave has two mitres, and both are off."),
            (error, "The errors add up round the ring."),
            (2 * (n - 1) * error, "The last joint's own two mitres are off as well."),
        ),
        f"2 times {n} times {math.degrees(error):g} deg.",
        kind="angle",
        tolerance=math.radians(0.02),
    )


def _reach(blank):
    row = blank.rows[1]
    return Question(
        f"Now the same ring from boards {blank.board_width:g} mm wide, a seam on the centre line, margin "
        f"{blank.margin:g} mm. How "
        "far from the middle must the second row reach along the grain?",
        row.outer,
        (
            (
                math.sqrt(blank.blank_outer**2 - row.high**2),
                "You took the row's far edge: the circle is widest at the near one.",
            ),
            (blank.blank_outer, "That is the first row's reach: the circle has drawn in by then."),
            (2 * row.outer, "That is right across: the reach is on one side of the middle."),
            (math.sqrt((blank.outside_diameter / 2) ** 2 - row.low**2), "The margin is missing."),
        ),
        "Where the blank's circle crosses the row's near edge.",
    )
