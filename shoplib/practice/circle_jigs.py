"""Practice questions on circle jigs."""

from shoplib.maths.circle_jigs import CircleJig
from shoplib.practice.pictured import Pictured
from shoplib.practice.question import Sizes


def questions(student, unit="mm"):
    """Six questions, with sizes that follow the student number."""
    sizes = Sizes(student, unit)
    jig = CircleJig(
        sizes.pick(0, mm=range(300, 480, 10), inches=(11, 11.5, 12, 12.5, 13, 13.5, 14, 14.5, 15, 15.5, 16)),
        sizes.pick(1, mm=(6, 8, 10, 12), inches=(1 / 4, 5 / 16, 3 / 8, 1 / 2)),
        ring_width=sizes.pick(2, mm=(15, 18, 20, 22, 25), inches=(5 / 8, 11 / 16, 3 / 4, 7 / 8, 1)),
        stock_thickness=sizes.pick(3, mm=(15, 18, 19, 22, 26), inches=(5 / 8, 3 / 4, 7 / 8, 1)),
        pass_depth=sizes.fixed(mm=3.5, inches=3 / 16),
        through=sizes.fixed(mm=1, inches=1 / 32),
        base_thickness=sizes.pick(1, mm=(6, 8, 10), inches=(1 / 4, 5 / 16, 3 / 8)),
    ).plain
    error = sizes.pick(4, mm=(0.8, 1.0, 1.2, 1.4), inches=(1 / 32, 3 / 64, 1 / 16)).m_as("mm")
    wear = sizes.pick(0, mm=(0.1, 0.2, 0.3), inches=(0.004, 0.008, 0.012)).m_as("mm")
    return (
        _outside(sizes, jig), _inside(sizes, jig), _test_cut(sizes, jig, error), _groove(sizes, jig, wear),
        _below_base(sizes, jig), _passes(sizes, jig),
    )


def pictured():
    """The drawing over the questions on paper."""
    return Pictured(CircleJig("440 mm", "12 mm", ring_width="20 mm"), ("From above",))


def _outside(sizes, jig):
    outside, cutter = jig.diameter, jig.cutter_diameter
    return sizes.ask(
        f"A disc is to be {sizes.write(outside)} across; the cutter measures {sizes.write(cutter)}. How far is the "
        "pivot's centre from the cutter's centre?",
        jig.outer_pivot,
        (
            (outside / 2 - cutter / 2, "You took half the cutter off: that cuts a hole, or a disc too small by two "
             "cutters' width."),
            (outside / 2, "That is the reach to the cutter's edge: half the cutter is missing."),
            (outside / 2 + cutter, "You added the whole cutter: only half of it lies between edge and centre."),
            (outside + cutter / 2, "You used the diameter: the pivot is half of it away."),
        ),
        "Half the disc and half the cutter.",
    )


def _inside(sizes, jig):
    outside, cutter, width = jig.diameter, jig.cutter_diameter, jig.ring_width
    return sizes.ask(
        f"From the same board comes a ring, {sizes.write(outside)} outside and {sizes.write(width)} wide. Where is the "
        f"pivot for the inside cut with the {sizes.write(cutter)} cutter?",
        jig.inner_pivot,
        (
            (outside / 2 - width + cutter / 2, "The cutter is on the wrong side of the edge: it would eat into the "
             "ring."),
            (outside / 2 - width, "That is the reach to the ring's inside: half the cutter is missing, and the ring "
             "comes out too thin by as much."),
            (outside / 2 - width - cutter, "You took off the whole cutter: half of it is enough."),
            ((outside - width) / 2 - cutter / 2, "The ring's width lies on both sides of the hole: take it off the "
             "radius whole."),
            (outside - width - cutter / 2, "You used the diameter: start from half of it."),
        ),
        "Half the outside, less the ring's width, less half the cutter.",
    )


def _test_cut(sizes, jig, error):
    return sizes.ask(
        "The pivot was set for the disc of question 1, but the test disc measures "
        f"{sizes.write(jig.diameter + error)}. What pivot distance puts it right?",
        jig.outer_pivot - error / 2,
        (
            (jig.outer_pivot - error, "You took off the whole difference: a pivot's error counts twice in the "
             "diameter."),
            (jig.outer_pivot + error / 2, "The disc is too large, so the pivot has to come nearer."),
            (jig.outer_pivot, "That is the setting that made it too large."),
        ),
        "Half of the difference comes off.", mm=0.15, inches=0.005,
    )


def _groove(sizes, jig, wear):
    cutter, disc = jig.cutter_diameter - wear, jig.diameter
    return sizes.ask(
        f"One groove is cut. Its disc measures {sizes.measured(disc)}, its hole {sizes.measured(disc + 2 * cutter)} "
        "across. How wide does the cutter really cut?",
        cutter,
        (
            (2 * cutter, "That is the groove on both sides: halve it."),
            (jig.cutter_diameter, "That is what the packet says; the groove says otherwise."),
            (disc / 2 + cutter / 2, "That is where the pivot stood: the cutter is half of the difference, not a "
             "quarter of the sum."),
        ),
        "Half of hole less disc.", mm=0.04, inches=0.001,
    )


def _below_base(sizes, jig):
    base, depth = jig.base_thickness, jig.depth
    return sizes.ask(
        f"The stock is {sizes.write(jig.stock_thickness)} thick, the cut goes {sizes.write(jig.through)} into the "
        f"sacrificial board, and the jig's base between router and stock is {sizes.write(base)} thick. How far must "
        "the cutter stand out below the router's own base?",
        base + depth,
        (
            (depth, "The jig's base is not counted: at full depth a skin would still be left under the board."),
            (base + depth - jig.through, "The cut goes on into the sacrificial board: that way is missing."),
            (base + depth + jig.through, "The cut goes into the sacrificial board once only."),
            (depth - base, "The jig's base stands between router and stock: it makes the way longer."),
        ),
        "The jig's base, the stock, and the cut into the sacrificial board.", mm=0.2, inches=0.01,
    )


def _passes(sizes, jig):
    passes = len(jig.passes)
    return sizes.ask(
        f"In that cut no pass may be deeper than {sizes.write(jig.pass_depth)}. How many passes?",
        passes,
        (
            (passes - 1, "The passes would be too deep, or the board not cut through: round up."),
            (passes + 1, "One pass more than needed: none has to be lighter than the others."),
        ),
        "Stock and sacrificial board together, over the deepest pass, rounded up.", kind="count",
    )
