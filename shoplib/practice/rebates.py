"""Practice questions on rebates and on the panel's seasons."""

from shoplib.maths.rebates import PanelSeason, Rebate
from shoplib.measure import quantity
from shoplib.practice.pictured import Pictured
from shoplib.practice.question import Sizes


def questions(student, unit="mm"):
    """Six questions, with sizes that follow the student number."""
    sizes = Sizes(student, unit)
    sold = sizes.pick(2, mm=(9, 10, 12, 15), inches=(3 / 8, 7 / 16, 1 / 2, 5 / 8))
    rebate = Rebate(
        sizes.pick(0, mm=range(280, 460, 20), inches=(11, 11.5, 12, 13, 13.5, 14, 15, 16, 16.5)), "24 mm", "40 mm",
        sold + sizes.pick(3, mm=(0.3, 0.4, 0.6), inches=(0.02, 0.03, 0.04)),
        sizes.pick(1, mm=(8, 9, 11, 13), inches=(5 / 16, 11 / 32, 7 / 16, 1 / 2)),
        clearance=sizes.pick(3, mm=(0.6, 0.8, 1), inches=(1 / 64, 1 / 32, 3 / 64)),
        proud=sizes.fixed(mm=0.5, inches=1 / 64),
    )
    deep = Rebate(
        "400 mm", "24 mm", "40 mm", sizes.pick(2, mm=(8, 11, 14.5, 20), inches=(5 / 16, 7 / 16, 5 / 8, 13 / 16)),
        "10 mm", pass_depth=sizes.fixed(mm=4.5, inches=3 / 16),
        finish_pass=sizes.fixed(mm=0.5, inches=1 / 64),
    ).plain
    gap = sizes.fixed(mm=2.5, inches=3 / 32)
    panel = PanelSeason(
        sizes.pick(1, mm=(350, 388, 412, 448), inches=(13.25, 14.25, 15.75, 17.25)) + 2 * gap, gap,
        sizes.choose(4, ("Ash, white", "Cherry, black", "Maple, sugar")), "flat", "8 %", "6 %",
        sizes.pick(0, percent=(11, 12, 13)), ring="mitred",
    ).plain
    return (
        _depth(sizes, rebate.plain, sold.m_as("mm")), _panel(sizes, rebate.plain),
        _pivot(sizes, rebate, sizes.fixed(mm=16, inches=1 / 2)),
        _bearing(sizes, rebate, sizes.pick(2, mm=(19, 22, 24, 26), inches=(3 / 4, 7 / 8, 1, 1.125))),
        _passes(sizes, deep), _season(sizes, panel),
    )


def pictured():
    """The drawing over the questions on paper."""
    return Pictured(Rebate("400 mm", "20 mm", "40 mm", "12 mm", "10 mm", clearance="2.5 mm"), ("Section", "Underside"))


def _depth(sizes, rebate, sold):
    thick, proud = rebate.panel_thickness, rebate.proud
    return sizes.ask(
        f"The panel was sold as {sizes.write(sold)}, but measures {sizes.measured(thick)}. It is to stand "
        f"{sizes.write(proud)} proud of the ring's underside. How deep is the rebate?",
        rebate.depth,
        (
            (sold - proud, "You took the thickness off the label: the panel would stand out too far, and the tray "
             "rocks."),
            (thick, "That sets the panel flush: it would not stand proud."),
            (thick + proud, "That sinks the panel in: what stands proud lies outside the rebate."),
            (rebate.ring_height - rebate.depth, "That is the lip that stays above the panel."),
        ),
        "The panel's measured thickness less what stands proud.", mm=0.05, inches=0.002,
    )


def _panel(sizes, rebate):
    inside, width, gap = rebate.inside_diameter, rebate.rebate_width, rebate.clearance
    return sizes.ask(
        f"The ring is {sizes.write(inside)} inside, the rebate {sizes.write(width)} wide, and a gap of "
        f"{sizes.write(gap)} is to stay all round. What diameter has the panel?",
        rebate.panel_diameter,
        (
            (rebate.panel_diameter - width, "The rebate lies on both sides of the hole: you counted its width once, "
             "and the panel comes out too small by as much."),
            (inside + width - gap, "The rebate lies on both sides of the hole: its width and the gap count twice."),
            (rebate.rebate_diameter - gap, "The gap is there on both sides: take it off twice."),
            (rebate.rebate_diameter, "That fills the rebate: without a gap it springs the ring in the wet season."),
            (rebate.rebate_diameter + 2 * gap, "The gap makes the panel smaller, not larger."),
            (inside - 2 * gap, "That panel falls through: the rebate's width is missing."),
            (rebate.panel_diameter / 2, "That is the panel's radius."),
        ),
        "Inside, and twice the rebate's width, less twice the gap.", mm=0.2, inches=0.01,
    )


def _pivot(sizes, rebate, cutter):
    found, across = rebate.pivot_for(cutter).m_as("mm"), cutter.m_as("mm")
    radius, width = rebate.plain.rebate_diameter / 2, rebate.plain.rebate_width
    return sizes.ask(
        f"The same rebate is cut with a {sizes.write(across)} cutter on a circle jig, from the middle of the ring. "
        "Where is the pivot for the rebate's wall?",
        found,
        (
            (radius + across / 2, "You added half the cutter: its far edge makes the wall, as in a hole. The wall "
             "would be gone on one turn of the jig."),
            (radius, "That is the reach to the wall: half the cutter is missing."),
            (radius - across, "You took off the whole cutter: half of it is enough."),
            (radius - width - across / 2, "That is for the ring's inside: the rebate's width is missing."),
            (2 * radius - across / 2, "You used the rebate's diameter: the pivot is half of it away."),
        ),
        "Half the rebate's diameter less half the cutter.",
    )


def _bearing(sizes, rebate, bearing):
    width = rebate.plain.rebate_width
    cutter = 2 * width + bearing.m_as("mm")
    return sizes.ask(
        f"A rebate cutter measures {sizes.write(cutter)}. Which bearing makes the rebate {sizes.write(width)} wide?",
        rebate.bearing_for(quantity(cutter, "mm")).m_as("mm"),
        (
            (cutter - width, "The cutter stands out on both sides of the bearing: take the width off twice."),
            (2 * width, "That is what the cutter takes: the bearing is what is left of it."),
            (cutter + 2 * width, "The bearing is the smaller of the two."),
        ),
        "The cutter less twice the rebate's width.", mm=0.2, inches=0.01,
    )


def _passes(sizes, rebate):
    passes = len(rebate.passes)
    return sizes.ask(
        f"Another rebate is {sizes.write(rebate.depth)} deep. The last pass takes {sizes.write(rebate.finish_pass)}, "
        f"no other more than {sizes.write(rebate.pass_depth)}. How many passes in all?",
        passes,
        (
            (passes - 1, "The light last pass counts too, and the others are rounded up."),
            (passes + 1, "One pass more than needed: the light one is already taken off what the others share."),
        ),
        "The depth less the last pass, over the deepest pass, rounded up, and one.", kind="count",
    )


def _season(sizes, panel):
    growth = panel.panel_damp - panel.panel_diameter
    timber = " ".join(reversed(panel.species.lower().split(", ")))
    per_cent = 100 * (panel.damp - panel.made)
    return sizes.ask(
        f"A flat-cut panel of {timber}, {sizes.write(panel.panel_diameter)} across, lies in a mitred ring. It "
        f"moves {panel.movement:g} of its width for each per cent of moisture. Made at "
        f"{sizes.write(panel.made, 'percent')}, it comes up to {sizes.write(panel.damp, 'percent')}. "
        "By how much does the gap on each side get smaller?",
        growth / 2,
        (
            (growth, "That is what the panel grows across: it grows to both sides, and each gap loses half."),
            (growth / 2 / per_cent, "That is the change for one per cent: there are more."),
            (growth / per_cent, "That is the whole growth for one per cent: take all, and half for each side."),
            (growth / 2 * panel.damp / (panel.damp - panel.made), "You took all the moisture: only the change from "
             "the day that it was made counts."),
            (growth / 200, f"You put in {per_cent / 100:g} for {per_cent:g} %: the movement is for each single per "
             "cent."),
        ),
        "Width times movement times the change in per cent, and half of that on each side.", mm=0.05, inches=0.002,
    )
