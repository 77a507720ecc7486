"""The full-size template of a dowel joint: both rails' ends with a flap each, and the strip for the leg."""

import math

from shoplib.drawing.dowels.rail_ends import levels, mark_out, tell_hole, tell_rail
from shoplib.drawing.parts import found_in_full as found
from shoplib.drawing.sheet import Sheet, rectangle
from shoplib.model import given_in_full as given
from shoplib.model import length_in_full

FLAP = 18.0  # mm, folded over the rail's upper edge
TAB = 10.0  # mm, of the strip, that lies under its own beginning
GAP = 14.0  # mm between the pieces of the template
PAPER = 0.1  # mm, office paper: round the leg it takes up pi times as much
USE = (
    "Cut out along the outer lines. Rails: fold the flap back along its line of dashes and dots, lay the fold on "
    "the upper edge, the sides flush with both faces of the square end, tape the flap down and prick the centres, "
    "at both ends of a rail. First rails run left and right, second rails front and back. Leg: wrap the strip round "
    "it, print outside, its upper edge where the rails' upper edges come, its middle line facing the first rail. "
    "Its ends must all but meet: the paper's own thickness takes up {}. Where they do not, take a quarter of the girth "
    "you measure. Prick the first rail's holes, and the second's on one side only: right of the first rail's on the "
    "legs front left and back right, left of them on the other two."
)


def template_dowel_joint(joint, unit="mm"):
    """Both rails' square ends with the flaps that fold over their upper edges, and the strip for the leg."""
    rail, leg = found(joint, "drilled_depth", unit), given(joint, "leg_depth", unit)
    drill = f"Drill the rails {rail} deep from their square ends, the legs {leg} from their surface."
    use = f"{drill} {USE.format(length_in_full(math.pi * PAPER, unit))}"
    sheet = Sheet("Dowel joint, drilling template", _spoken(joint, unit), use=use)
    view = sheet.view(f"Drill rails {rail} deep, legs {leg}")
    half, apart = joint.rail_thickness / 2, joint.rail_thickness + 2.5 * GAP
    for x, side, way in ((0.0, "left", -1), (apart, "right", 1)):
        view.area("paper", rectangle(x - half, -joint.rail_height, x + half, FLAP))
        view.line("fold", (x - half, 0), (x + half, 0))
        view.note((x + way * half, 0.7 * FLAP), "flap", side)
    mark_out(view, joint, unit, apart)
    tell_rail(view, joint, unit, FLAP, "above")
    tell_hole(view, joint, unit, apart, FLAP, "above")
    _strip(view, joint, unit, apart / 2, -joint.rail_height - GAP)
    return sheet


def _spoken(joint, unit):
    return (
        f"Two rails' ends, {given(joint, 'rail_thickness', unit)} by {given(joint, 'rail_height', unit)}, with their "
        f"holes and a flap each; a strip to wrap round the leg, {length_in_full(4 * joint.quarter, unit)} once round."
    )


def _strip(view, joint, unit, middle, top):
    """The leg's skin laid flat, from the rails' upper edge to the lower one, the first rail's line in the middle."""
    quarter, low = joint.quarter, top - joint.rail_height
    seam = middle + 2 * quarter
    view.area("paper", rectangle(middle - 2 * quarter, low, seam, top))
    view.area("paper", ((seam, top), (seam + TAB, top - 2), (seam + TAB, low + 2), (seam, low)))
    for turns, second in ((-1, True), (0, False), (1, True)):
        x = middle + turns * quarter
        view.line("centre", (x, top), (x, low))
        for level in levels(joint, second):
            view.area("hole", _on_skin(joint, x, top + level))
            view.cross("centre", (x, top + level), 0.65 * joint.dowel_diameter)
    view.note((middle - 2 * quarter, top), "upper edge", "left")
    view.note((middle - quarter, low), "second rail\nfront right\nback left", "left")
    view.note((middle, top), "first rail", "right")
    view.note((middle + quarter, low), "second rail\nfront left\nback right", "right")
    view.note((seam + TAB, (top + low) / 2), "tab", "right")
    view.dimension((middle, low), (middle + quarter, low), f"a quarter {found(joint, 'quarter', unit)}")
    words = f"once round {length_in_full(4 * quarter, unit)}"
    view.dimension((middle - 2 * quarter, low), (seam, low), words)


def _on_skin(joint, x, y):
    """Where a round hole that aims at the leg's centre meets its skin, laid flat: a little wider than high."""
    radius, leg = joint.dowel_diameter / 2, joint.leg_diameter / 2
    turns = [2 * math.pi * k / 48 for k in range(48)]
    return tuple((x + leg * math.asin(radius * math.cos(a) / leg), y + radius * math.sin(a)) for a in turns)
