"""Practice questions on circle jigs."""

from shoplib.maths.circle_jigs import CircleJig
from shoplib.measure import quantity
from shoplib.practice.question import Question, pick


def questions(student):
    """Five questions, with sizes that follow the student number."""
    outside = float(pick(student, 0, range(300, 480, 10)))
    cutter = float(pick(student, 1, (6, 8, 10, 12)))
    width = float(pick(student, 2, (15, 18, 20, 22, 25)))
    stock = float(pick(student, 3, (15, 18, 19, 22, 26)))
    jig = CircleJig(
        *(quantity(size, "mm") for size in (outside, cutter)),
        ring_width=quantity(width, "mm"),
        stock_thickness=quantity(stock, "mm"),
        pass_depth="4 mm",
        through="1 mm",
    ).plain
    return (
        _outside(jig),
        _inside(jig),
        _test_cut(jig, pick(student, 4, (0.8, 1.0, 1.2, 1.4))),
        _groove(jig, pick(student, 0, (0.1, 0.2, 0.3))),
        _passes(jig),
    )


def _outside(jig):
    outside, cutter = jig.diameter, jig.cutter_diameter
    return Question(
        f"A disc is to be {outside:g} mm across; the cutter measures {cutter:g} mm. How far is the pivot's centre from "
        "the cutter's centre?",
        jig.outer_pivot,
        (
            (
                outside / 2 - cutter / 2,
                "You took half the cutter off: that cuts a hole, or a disc too small by two cutters' width.",
            ),
            (outside / 2, "That is the reach to the cutter's edge: half the cutter is missing."),
            (outside / 2 + cutter, "You added the whole cutter: only half of it lies between edge and centre."),
            (outside + cutter / 2, "You used the diameter: the pivot is half of it away."),
        ),
        "Half the disc and half the cutter.",
    )


def _inside(jig):
    outside, cutter, width = jig.diameter, jig.cutter_diameter, jig.ring_width
    return Question(
        f"From the same board comes a ring, {outside:g} mm outside and {width:g} mm wide. Where is the pivot "
        "for the inside "
        f"cut with the {cutter:g} mm cutter?",
        jig.inner_pivot,
        (
            (
                outside / 2 - width + cutter / 2,
                "The cutter is on the wrong side of the edge: it would eat into the ring.",
            ),
            (outside / 2 - width, "That is the reach to the ring's inside: half the cutter is missing."),
            (outside / 2 - width - cutter, "You took off the whole cutter: half of it is enough."),
            (
                (outside - width) / 2 - cutter / 2,
                "The ring's width lies on both sides of the hole: take it off the radius whole.",
            ),
        ),
        "Half the outside, less the ring's width, less half the cutter.",
    )


def _test_cut(jig, error):
    return Question(
        f"The pivot was set for the disc of question 1, but the test disc measures {jig.diameter + error:g} mm. What "
        "pivot distance puts it right?",
        jig.outer_pivot - error / 2,
        (
            (
                jig.outer_pivot - error,
                "You took off the whole difference: a pivot's error counts twice in the diameter.",
            ),
            (jig.outer_pivot + error / 2, "The disc is too large, so the pivot has to come nearer."),
            (jig.outer_pivot, "That is the setting that made it too large."),
        ),
        "Half of the difference comes off.",
        tolerance=0.15,
    )


def _groove(jig, wear):
    cutter = jig.cutter_diameter - wear
    disc = jig.diameter
    return Question(
        f"One groove is cut. Its disc measures {disc:g} mm, its hole {disc + 2 * cutter:g} mm across. How wide "
        "does the "
        "cutter really cut?",
        cutter,
        (
            (2 * cutter, "That is the groove on both sides: halve it."),
            (jig.cutter_diameter, "That is what the packet says; the groove says otherwise."),
        ),
        "Half of hole less disc.",
        tolerance=0.04,
    )


def _passes(jig):
    passes = len(jig.passes)
    return Question(
        f"The stock is {jig.stock_thickness:g} mm thick, the cut goes {jig.through:g} mm into the sacrificial "
        "board, and no "
        f"pass may be deeper than {jig.pass_depth:g} mm. How many passes?",
        passes,
        (
            (passes - 1, "The last pass would be too deep, or the board not cut through: round up."),
            (passes + 1, "One pass more than needed: none has to be lighter than the others."),
        ),
        f"{jig.depth:g} / {jig.pass_depth:g}, rounded up.",
        kind="count",
        tolerance=0,
    )
