"""The plate of a rebate: rim and panel in section, the ring from below, the cutter in its cut; and the template."""

import math

from shoplib.drawing.parts import centre_lines, told_results
from shoplib.drawing.parts import found_in_full as found
from shoplib.drawing.rebates.ring import staves
from shoplib.drawing.sheet import EndGrain, Sheet, rectangle
from shoplib.model import ShapeError, length_in_full
from shoplib.model import given_in_full as given


def draw_rebate(rebate, unit="mm"):
    """Section through rim and panel, the ring from below, the corner enlarged where there is one to see, the cut."""
    sheet = Sheet("Rebate", _spoken(rebate, unit), use=_use(rebate))
    cornered, cut = rebate.clearance > 0 or rebate.proud != 0, _is_set(rebate)
    section = sheet.view("Section, show face up", (0, 0, 0.53, 0.63 if cornered else 1))
    _section(section, rebate, unit)
    _from_below(sheet.view("Underside up", (0.53, 0, 0.47, 0.55 if cut else 1)), rebate, unit)
    if cornered:
        _corner(sheet.view("Lower corner, enlarged", (0, 0.63, 0.53, 0.37)), rebate, unit)
    if cut:
        title = {"pivot": "The cut about the pivot, underside up", "bearing": "The cut on the bearing, underside up"}
        _cut(sheet.view(title[rebate.guide], (0.53, 0.55, 0.47, 0.45)), rebate, unit)
    return sheet


def _is_set(rebate):
    """Whether there is a cutter, and its pivot or bearing can be told."""
    try:
        return rebate.has("cutter_diameter") and getattr(rebate, rebate.guide) > 0
    except ShapeError:
        return False


def _spoken(rebate, unit):
    names = ("depth", "wall", "lip", "rebate_diameter", "panel_diameter")
    words = (
        f"A ring {given(rebate, 'inside_diameter', unit)} inside, {given(rebate, 'ring_width', unit)} wide and "
        f"{given(rebate, 'ring_height', unit)} high, with a panel let into its underside."
    )
    if _is_set(rebate):
        words += f" A cutter of {given(rebate, 'cutter_diameter', unit)} cuts it, guided by a {rebate.guide}."
        names = (rebate.guide, *names)
    return f"{words} {told_results(rebate, names, unit)}"


def _use(rebate):
    """How the rebate is cut with what stands on the card, and what is measured before the panel is cut."""
    if rebate.guide == "bearing":
        first = (
            "The ring is free, its inside smooth, held down with its underside up, a support of its own height in the "
            "middle. The bearing, below the cutter, must roll on the ring's inside in every pass."
        )
    else:
        first = (
            "The outside is cut, the middle still in, the underside up. Set the pivot; check with a rule that the "
            "cutter's far edge is the reach away from the pivot's centre."
        )
    rounds = " At each depth go round at the wall first, then at each shorter pivot." if _is_narrow(rebate) else ""
    last = " Cut the inside after that." if rebate.guide == "pivot" else ""
    return (
        f"{first} Go round clockwise, pass by pass.{rounds}{last} Measure the rebate across in three directions: the "
        "panel is the smallest of them less the clearance twice."
    )


def _is_narrow(rebate):
    """Whether a pivot guides a cutter that needs more than one round."""
    return _is_set(rebate) and rebate.guide == "pivot" and rebate.cutter_diameter < rebate.rebate_width


def rim_section(rebate):
    """Corners of the rim's section: inside face at x = 0, underside at y = 0, the rebate cut out."""
    depth, width = rebate.depth, rebate.rebate_width
    return (
        (width, 0), (rebate.ring_width, 0), (rebate.ring_width, rebate.ring_height),
        (0, rebate.ring_height), (0, depth), (width, depth),
    )


def _rim_grain(rebate, up=1):
    """The rim's fibres run along it: in a section they are seen on end, the pith below the wood."""
    return EndGrain((0.3 * rebate.ring_width, -0.6 * up * rebate.ring_height))


def _panel_grain(left, right, low, high):
    """A flat-cut panel cut across its grain: growth rings that lie nearly level, the pith well below."""
    return EndGrain(((left + right) / 2, low - 1.2 * max(right - left, high - low)))


def _section(view, rebate, unit):
    """Cut across the panel's grain."""
    depth, width, edge = rebate.depth, rebate.rebate_width, rebate.rebate_width - rebate.clearance
    outside, top, under = rebate.ring_width, rebate.ring_height, -rebate.proud
    reach = -max(rebate.ring_width, 0.5 * rebate.ring_height)
    view.area("kept", rim_section(rebate), grain=_rim_grain(rebate))
    view.area("panel", rectangle(reach, under, edge, depth), grain=_panel_grain(reach, edge, under, depth))
    if rebate.clearance:
        view.area("gap", rectangle(edge, 0, width, depth))
    view.line("hidden", (0, under), (0, depth))
    view.line("hidden", (width, depth), (outside, depth))
    view.dimension((width, top), (outside, top), f"wall {found(rebate, 'wall', unit)}", "above")
    view.dimension((0, top), (outside, top), f"ring {given(rebate, 'ring_width', unit)}", "above")
    view.dimension((0, under), (width, 0), f"rebate {given(rebate, 'rebate_width', unit)}")
    view.dimension((reach, 0), (reach, depth), f"depth {found(rebate, 'depth', unit)}", "left")
    view.dimension((reach, under), (reach, depth), f"panel {given(rebate, 'panel_thickness', unit)}", "left")
    view.dimension((outside, depth), (outside, top), f"lip {found(rebate, 'lip', unit)}", "right")
    view.dimension((outside, 0), (outside, top), f"ring {given(rebate, 'ring_height', unit)}", "right")


def _from_below(view, rebate, unit):
    """The ring as it lies on the bench: the panel in its left half, the cutter on its way in the right one."""
    inside, wall, panel = rebate.inside_diameter / 2, rebate.rebate_diameter / 2, rebate.panel_diameter / 2
    staves(view, inside, inside + rebate.ring_width)
    view.circle("joint", (0, 0), wall)
    if rebate.clearance:
        view.area("gap", (*_half_circle(wall), *reversed(_half_circle(panel))))
    view.area("panel", _half_circle(panel), grain=0.0)
    centre_lines(view, 1.06 * (inside + rebate.ring_width))
    if _is_set(rebate):
        _cutter_from_below(view, rebate, unit)
    view.dimension((-wall, 0), (wall, 0), f"rebate Ø {found(rebate, 'rebate_diameter', unit)}")
    view.dimension((0, -panel), (0, panel), f"panel Ø {found(rebate, 'panel_diameter', unit)}", "left")
    view.dimension((0, -inside), (0, inside), f"inside Ø {given(rebate, 'inside_diameter', unit)}", "right")


def _cutter_from_below(view, rebate, unit):
    """Cutter and pivot, or cutter and bearing, to the right of the centre; the feed runs clockwise."""
    centre = rebate.rebate_diameter / 2 - rebate.cutter_diameter / 2
    view.circle("cutter", (centre, 0), rebate.cutter_diameter / 2)
    if rebate.guide == "bearing":
        view.circle("bearing", (centre, 0), rebate.bearing / 2)
    else:
        view.circle("pivot", (0, 0), 0.025 * rebate.rebate_diameter)
        view.dimension((0, 0), (rebate.pivot, 0), f"pivot {found(rebate, 'pivot', unit)}", "above")
    view.arc("feed", (0, 0), 0.36 * rebate.inside_diameter, math.radians(62), math.radians(18), arrow=True)


def _half_circle(radius, pieces=48):
    """Points from the top round the left to the bottom."""
    angles = [math.pi / 2 + math.pi * k / pieces for k in range(pieces + 1)]
    return tuple((radius * math.cos(a), radius * math.sin(a)) for a in angles)


def _corner(view, rebate, unit):
    """Where panel, wall and underside meet: the clearance, and how far the panel stands proud."""
    wall, edge, under = rebate.rebate_width, rebate.rebate_width - rebate.clearance, -rebate.proud
    near = max(1.5 * rebate.clearance, 1.5 * abs(rebate.proud), 1.0)
    top = min(rebate.depth, max(0.0, under) + near)
    left, right = edge - 1.5 * near, min(wall + 1.5 * near, rebate.ring_width)
    view.area("kept", rectangle(wall, 0, right, top), grain=EndGrain((wall - near, -2 * near)))
    view.area("panel", rectangle(left, under, edge, top), grain=_panel_grain(left, edge, under, top))
    if rebate.clearance:
        view.area("gap", rectangle(edge, 0, wall, top))
        view.dimension((edge, 0), (wall, 0), f"clearance {given(rebate, 'clearance', unit)}")
    if rebate.proud:
        word = "proud" if rebate.proud > 0 else "sunk"
        view.line("hidden", (left, 0), (wall, 0))
        view.note((left, under / 2), f"{word}\n{length_in_full(abs(rebate.proud), unit)}", "left")


def _cut(view, rebate, unit):
    """The rim upside down in section, inside left, and the cutter at the wall; depths run down."""
    width, depth, across = rebate.rebate_width, rebate.depth, rebate.cutter_diameter
    near, top = width - across, 0.35 * depth
    left = min(near, 0.0) - 0.3 * rebate.ring_width
    view.area("kept", tuple((x, -y) for x, y in rim_section(rebate)), grain=_rim_grain(rebate, -1))
    if rebate.guide == "pivot":
        view.area("waste", _uncut(rebate, left))
    view.area("cutter", rectangle(near, -depth, width, top))
    if rebate.guide == "bearing":
        height = min(0.5 * rebate.lip, 0.5 * rebate.bearing)
        view.area("bearing", rectangle(-rebate.bearing, -depth - height, 0, -depth))
        text = f"bearing Ø {found(rebate, 'bearing', unit)}"
        view.dimension((-rebate.bearing, -depth - height), (0, -depth - height), text)
    middle = (near + width) / 2
    view.line("centre", (middle, 1.5 * top), (middle, -depth - 0.5 * rebate.lip))
    if rebate.guide == "pivot":
        view.note((middle, 1.2 * top), f"its centre {found(rebate, 'pivot', unit)}\nfrom the pivot", "left")
        view.note((width, -0.5 * depth), f"its far edge {found(rebate, 'reach', unit)}\nfrom the pivot", "left")
    view.dimension((near, top), (width, top), f"cutter Ø {given(rebate, 'cutter_diameter', unit)}", "above")
    view.note((near, -depth), f"down to {found(rebate, 'depth', unit)}", "left")


def _uncut(rebate, left):
    """What the pivot still stands in, inside of the ring, and what a narrow cutter leaves of the step for later."""
    near, depth, low = rebate.rebate_width - rebate.cutter_diameter, rebate.depth, -rebate.ring_height
    return (left, low), (0, low), (0, -depth), (near, -depth), (near, 0), (left, 0)


USE_OF_SECTION = (
    "Cut the kept shape out along its thick line: it is the rim with its rebate. Hold it against the end of a test "
    "cut, show face up, inside to the left: wall and floor must meet the paper's edge. Measure depth and wall from "
    "the underside and the outside. The panel and its gap are drawn to show where they lie."
)


def template_rebate(rebate, unit="mm"):
    """The section at full size: hold the cut rim against it, and set the cutter's height to it."""
    sheet = Sheet("Rebate, section of the rim", _spoken(rebate, unit), use=USE_OF_SECTION)
    view = sheet.view("Section of the rim, full size: inside left, outside right")
    _section(view, rebate, unit)
    middle = (rebate.rebate_width + rebate.ring_width) / 2
    view.note((middle, rebate.ring_height), "show face, up")
    view.note((middle, 0), "underside: the router runs here")
    return sheet
