"""Plates for rebates: section and plan of ring and panel, and the gap between them through the year."""

import math

from shoplib.drawing.parts import centre_lines, found, given
from shoplib.drawing.sheet import Circle, Sheet, rectangle


def draw_rebate(rebate, unit="mm"):
    """Section through rim and panel, the ring from below, and the corner enlarged where there is one to see."""
    sheet = Sheet("Rebate", _spoken_rebate(rebate, unit))
    _section(sheet.view("Section through rim and panel", (0, 0, 0.57, 1)), rebate, unit)
    detailed = rebate.clearance > 0 or rebate.proud != 0
    _from_below(sheet.view("From below, half the panel in", (0.57, 0, 0.43, 0.6 if detailed else 1)), rebate, unit)
    if detailed:
        _corner(sheet.view("The lower corner, enlarged", (0.57, 0.6, 0.43, 0.4)), rebate, unit)
    return sheet


def _spoken_rebate(rebate, unit):
    names = ("depth", "wall", "lip", "rebate_diameter", "panel_diameter")
    words = (
        f"A ring {given(rebate, 'inside_diameter', unit)} inside, {given(rebate, 'ring_width', unit)} wide and "
        f"{given(rebate, 'ring_height', unit)} high, with a panel let into its underside."
    )
    return words + "".join(f" {rebate.model.results()[name].words}: {found(rebate, name, unit)}." for name in names)


def rim_section(rebate):
    """Corners of the rim's section: inside face at x = 0, underside at y = 0, the rebate cut out."""
    depth, width = rebate.depth, rebate.rebate_width
    return (
        (width, 0), (rebate.ring_width, 0), (rebate.ring_width, rebate.ring_height),
        (0, rebate.ring_height), (0, depth), (width, depth),
    )


def _section(view, rebate, unit):
    depth, width, edge = rebate.depth, rebate.rebate_width, rebate.rebate_width - rebate.clearance
    outside, top, under = rebate.ring_width, rebate.ring_height, -rebate.proud
    reach = -max(rebate.ring_width, 0.5 * rebate.ring_height)
    view.area("kept", rim_section(rebate))
    view.area("panel", rectangle(reach, under, edge, depth))
    if rebate.clearance:
        view.area("gap", rectangle(edge, 0, width, depth))
    view.line("hidden", (0, under), (0, depth))
    view.line("hidden", (width, depth), (outside, depth))
    view.dimension((width, top), (outside, top), f"wall {found(rebate, 'wall', unit)}", "above")
    view.dimension((0, top), (outside, top), f"ring {given(rebate, 'ring_width', unit)} wide", "above")
    view.dimension((0, under), (width, 0), f"rebate {given(rebate, 'rebate_width', unit)} wide")
    view.dimension((reach, 0), (reach, depth), f"depth {found(rebate, 'depth', unit)}", "left")
    view.dimension((reach, under), (reach, depth), f"panel {given(rebate, 'panel_thickness', unit)}", "left")
    view.dimension((outside, depth), (outside, top), f"lip {found(rebate, 'lip', unit)}", "right")
    view.dimension((outside, 0), (outside, top), f"ring {given(rebate, 'ring_height', unit)} high", "right")


def _from_below(view, rebate, unit):
    """The ring with its rebate, the panel lying in its left half."""
    inside, wall, panel = rebate.inside_diameter / 2, rebate.rebate_diameter / 2, rebate.panel_diameter / 2
    view.area("kept", Circle("kept", (0, 0), inside + rebate.ring_width), Circle("kept", (0, 0), inside))
    view.circle("joint", (0, 0), wall)
    if rebate.clearance:
        view.area("gap", (*_half_circle(wall), *reversed(_half_circle(panel))))
    view.area("panel", _half_circle(panel))
    centre_lines(view, 1.06 * (inside + rebate.ring_width))
    view.dimension((-panel, 0), (panel, 0), f"panel Ø {found(rebate, 'panel_diameter', unit)}", "above")
    view.dimension((-inside, 0), (inside, 0), f"inside Ø {given(rebate, 'inside_diameter', unit)}")
    view.dimension((-wall, 0), (wall, 0), f"rebate Ø {found(rebate, 'rebate_diameter', unit)}")


def _half_circle(radius, pieces=48):
    """Points from the top round the left to the bottom."""
    angles = [math.pi / 2 + math.pi * k / pieces for k in range(pieces + 1)]
    return tuple((radius * math.cos(a), radius * math.sin(a)) for a in angles)


def _corner(view, rebate, unit):
    """Where panel, wall and underside meet: the clearance, and how far the panel stands proud."""
    wall, edge, under = rebate.rebate_width, rebate.rebate_width - rebate.clearance, -rebate.proud
    near = max(1.5 * rebate.clearance, 1.5 * abs(rebate.proud), 1.0)
    top = min(rebate.depth, max(0.0, under) + near)
    left = edge - 1.5 * near
    view.area("kept", rectangle(wall, 0, min(wall + 1.5 * near, rebate.ring_width), top))
    view.area("panel", rectangle(left, under, edge, top))
    if rebate.clearance:
        view.area("gap", rectangle(edge, 0, wall, top))
        view.dimension((edge, 0), (wall, 0), f"clearance {given(rebate, 'clearance', unit)}")
    if rebate.proud:
        word = "proud" if rebate.proud > 0 else "sunk"
        text = f"{word} {rebate.model.inputs()['proud'].write(abs(rebate.proud), unit)}"
        view.dimension((left, under), (left, 0), text, "left")


def template_rebate(rebate, unit="mm"):
    """The section at full size: hold the cut rim against it, and set the cutter's height to it."""
    sheet = Sheet("Rebate, section", _spoken_rebate(rebate, unit))
    _section(sheet.view("Section: inside left, show face up"), rebate, unit)
    return sheet
