"""What the packet adds to the card of an operation, where the whole stand tells more than its lesson can."""

from shoplib.maths.the_stand.operations import has_stubs
from shoplib.maths.the_stand.parts import HOLD, PANEL_PIECES
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
    """Only the disc; and what is left round it, where the glued-up panel is smaller than the jig's blank."""
    found = "Cut the disc; the hole is not needed."
    side = stand.plain_with(stand.made).panel_diameter + HOLD
    if side >= jig.blank:
        return found
    return (
        f"{found} A panel glued up of {PANEL_PIECES} pieces is only {full(side, unit)} across, less than the blank "
        "told here: the groove runs out over its edges and leaves loose corners. Saw them off outside the groove "
        "before you rout, and hold the disc alone."
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
    if not has_stubs(stand.plain):
        return ""
    return "The dashed line lies opposite the second rail's: on a front leg a stub goes there."


def _screws(stand, screw, unit):
    return "Each of these rails has one fast screw in its middle and a sliding one on either side of it."


REMARKS = {
    "staves": _staves, "panel": _panel, "rails": _rails, "squareness": _squareness, "strip_right": _strip,
    "strip_left": _strip, "screws": _screws,
}  # fmt: skip
