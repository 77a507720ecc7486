"""What the packet adds to the card of an operation, where the whole stand tells more than its lesson can.

Where the stand does it otherwise than the lesson, its picture is another one, and what is of no matter is left out.
"""

from shoplib import drawing
from shoplib.drawing.circle_jigs import draw_sawn_disc
from shoplib.maths.the_stand.operations import has_bar, has_stubs
from shoplib.maths.the_stand.parts import PANEL_PIECES, panel_sawn, panel_side
from shoplib.paper.saw_plan import SIZES, full


def remark(stand, operation, unit):
    """The paragraph, a heading and its text, or nothing."""
    found = REMARKS.get(operation.name)
    text = found(stand, operation.plain, unit) if found else ""
    return ("On this stand", text) if text else None


def _staves(stand, ring, unit):
    (strip,) = (part for part in stand.parts() if part.name == "rim strip")
    long, wide, thick = (full(strip.plain[name], unit) for name in SIZES)
    each = stand.plain.trays * stand.plain.ring_layers * ring.staves // strip.count
    found = (
        f"{strip.count} strips go to the saw, {long} long, {wide} wide and {thick} thick besides what planing takes: "
        f"{each} {'stave' if each == 1 else 'staves'} from each. The strip length here is that of one strip for a "
        "whole ring."
    )
    layers = stand.plain.ring_layers
    return f"{found} {layers} rings, one on the other, make a rim." if layers > 1 else found


def _panel(stand, jig, unit):
    known = stand.plain_with(stand.made)
    return (
        f"Each panel is glued up of {PANEL_PIECES} pieces to {full(panel_side(known), unit)} along and across the "
        f"grain, then sawn round to Ø {full(panel_sawn(known), unit)}."
    )


def _rails(stand, cope, unit):
    if cope.has("drum_diameter"):
        return ""
    return f"The drum with its sleeve is as thick as the leg: {full(cope.leg_diameter, unit)}."


def _squareness(stand, square, unit):
    over = full(square.target + stand.plain_with(stand.made).leg_diameter, unit)
    return (
        "Measure both diagonals from leg centre to leg centre; or over the outsides of the legs, where each comes to "
        f"{over}. Lay a clamp along the longer one, draw it in until both are equal, and measure again when all "
        "clamps are tight."
    )


def _strip(stand, strip, unit):
    if not has_bar(stand.plain):
        return ""
    goes = "a stub goes" if has_stubs(stand.plain) else "an arm of the bar goes"
    return f"The dashed line lies opposite the second rail's: on a front leg {goes} there."


def _screws(stand, screw, unit):
    return "Each of these rails has one fast screw in its middle and a sliding one on either side of it."


def _dowels(stand, joint, unit):
    """Why this strip and lesson 09's, round one and the same leg, are not of one length."""
    found = {each.name: each.plain for each in stand.operations()}
    return (
        f"The strip of this template is as long as the leg's skin, {full(4 * joint.quarter, unit)}. The one that "
        f"marks the heights is {full(found['strip_right'].girth, unit)} long, for its paper's thickness is counted in. "
        "Either puts a quarter in its place."
    )


REMARKS = {
    "staves": _staves, "panel": _panel, "rails": _rails, "squareness": _squareness, "strip_right": _strip,
    "strip_left": _strip, "dowels": _dowels, "screws": _screws,
}  # fmt: skip
NO_MATTER = {"panel": ("hold", "blank", "hole_pivot", "hole_reach")}


def picture(stand, operation, unit):
    """The picture of an operation's card."""
    if operation.name == "panel":
        known = stand.plain_with(stand.made)
        return draw_sawn_disc(operation.plain, unit, panel_side(known), known.trim_margin)
    return drawing.draw(operation.plain, unit)
