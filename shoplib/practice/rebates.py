"""Practice questions on rebates and on the panel's seasons."""

from shoplib.maths.rebates import PanelSeason, Rebate
from shoplib.measure import quantity
from shoplib.practice.question import Question, pick


def _mm(size):
    return quantity(float(size), "mm")


def questions(student):
    """Six questions, with sizes that follow the student number."""
    width = pick(student, 1, (18, 20, 22, 24))
    rebate = Rebate(
        _mm(pick(student, 0, range(280, 460, 20))), _mm(width), "40 mm", _mm(pick(student, 2, (9, 10, 12, 15))),
        _mm(width / 2), clearance=_mm(pick(student, 3, (1.5, 2, 2.5))), proud="0.5 mm", pass_depth="3 mm",
        finish_pass="0.5 mm",
    )
    panel = PanelSeason(
        rebate.rebate_diameter, rebate.clearance, pick(student, 4, ("Ash, white", "Cherry, black", "Maple, sugar")),
        "flat", "8 %", "6 %", quantity(float(pick(student, 0, (11, 12, 13))), "percent"), ring="mitred",
    )
    return (
        _depth(rebate.plain),
        _panel(rebate.plain),
        _pivot(rebate),
        _bearing(rebate, pick(student, 2, (10, 12, 16, 19))),
        _passes(rebate.plain),
        _season(panel.plain),
    )


def _depth(rebate):
    thick, proud = rebate.panel_thickness, rebate.proud
    return Question(
        f"The panel measures {thick:g} mm and is to stand {proud:g} mm proud of the ring's underside. "
        "How deep is the rebate?",
        rebate.depth,
        (
            (thick, "That sets the panel flush: it would not stand proud."),
            (thick + proud, "That sinks the panel in: what stands proud lies outside the rebate."),
            (rebate.ring_height - rebate.depth, "That is the lip that stays above the panel."),
        ),
        "The panel's thickness less what stands proud.", tolerance=0.1,
    )


def _panel(rebate):
    inside, width, gap = rebate.inside_diameter, rebate.rebate_width, rebate.clearance
    return Question(
        f"The ring is {inside:g} mm inside, the rebate {width:g} mm wide, and a gap of {gap:g} mm is to "
        "stay all round. What diameter has the panel?",
        rebate.panel_diameter,
        (
            (inside + width - gap, "The rebate lies on both sides of the hole: its width and the gap count twice."),
            (rebate.rebate_diameter - gap, "The gap is there on both sides: take it off twice."),
            (rebate.rebate_diameter, "That fills the rebate: the gap is missing."),
            (rebate.rebate_diameter + 2 * gap, "The gap makes the panel smaller, not larger."),
            (inside - 2 * gap, "That panel falls through: the rebate's width is missing."),
        ),
        "Inside, and twice the rebate's width, less twice the gap.", tolerance=0.2,
    )


def _pivot(rebate):
    cutter = 12.0
    found = rebate.pivot_for(_mm(cutter)).m_as("mm")
    radius, width = rebate.plain.rebate_diameter / 2, rebate.plain.rebate_width
    return Question(
        f"The same rebate is cut with a {cutter:g} mm cutter on a circle jig, from the middle of the ring. "
        "Where is the pivot for the rebate's wall?",
        found,
        (
            (radius + cutter / 2, "That lets the cutter into the wall: its far edge makes it, as in a hole."),
            (radius, "That is the reach to the wall: half the cutter is missing."),
            (radius - cutter, "You took off the whole cutter: half of it is enough."),
            (radius - width - cutter / 2, "That is the ring's inside: the rebate's width is missing."),
        ),
        "Half the rebate's diameter less half the cutter.",
    )


def _bearing(rebate, bearing):
    cutter = 2 * rebate.plain.rebate_width + bearing
    found, width = rebate.bearing_for(_mm(cutter)).m_as("mm"), rebate.plain.rebate_width
    return Question(
        f"A rebate cutter measures {cutter:g} mm. Which bearing makes the rebate {width:g} mm wide?",
        found,
        (
            (cutter - width, "The cutter stands out on both sides of the bearing: take the width off twice."),
            (2 * width, "That is what the cutter takes: the bearing is what is left of it."),
            (cutter + 2 * width, "The bearing is the smaller of the two."),
        ),
        "The cutter less twice the rebate's width.", tolerance=0.2,
    )


def _passes(rebate):
    passes = len(rebate.passes)
    return Question(
        f"The rebate of question 1 is {rebate.depth:g} mm deep. The last pass takes {rebate.finish_pass:g} mm, "
        f"no other more than {rebate.pass_depth:g} mm. How many passes in all?",
        passes,
        (
            (passes - 1, "The light last pass counts too, and the others are rounded up."),
            (passes + 1, "One pass more than needed: the light one is already taken off what the others share."),
        ),
        f"({rebate.depth:g} - {rebate.finish_pass:g}) / {rebate.pass_depth:g}, rounded up, and one.",
        kind="count", tolerance=0,
    )


def _season(panel):
    growth = panel.panel_damp - panel.panel_diameter
    per_cent = 100 * (panel.damp - panel.made)
    return Question(
        f"A flat-cut panel of {panel.species}, {panel.panel_diameter:g} mm across, lies in a mitred ring. It moves "
        f"{panel.movement:g} of its width for each per cent. Made at 8 %, it comes up to {8 + per_cent:g} %. "
        "By how much does the gap on each side get smaller?",
        growth / 2,
        (
            (growth, "That is what the panel grows across: it grows to both sides, and each gap loses half."),
            (growth / 2 / per_cent, "That is the change for one per cent: there are more."),
            (growth / per_cent, "That is the whole growth for one per cent: take all, and half for each side."),
            (panel.gap_damp, "That is the gap that is left, not the change."),
        ),
        "Width times movement times the change in per cent, and half of that on each side.", tolerance=0.05,
    )
