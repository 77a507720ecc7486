"""Plates for the joint of two rails with a round leg."""

import math

from shoplib.drawing.parts import found, given, leg_section
from shoplib.drawing.sheet import Sheet, rectangle
from shoplib.model import answer


def draw_dowel_joint(joint, unit="mm"):
    """A level cut through leg and rails, the rails' ends, and an upright cut through the leg."""
    sheet = Sheet("Dowel joint", _spoken_joint(joint, unit))
    _level_cut(sheet.view("Cut level through the first rail's hole, from above", (0, 0, 0.56, 1)), joint, unit)
    _rail_ends(sheet.view("Ends of first and second rail", (0.56, 0, 0.44, 0.52)), joint, unit)
    _upright_cut(sheet.view("Cut upright along the first rail", (0.56, 0.52, 0.44, 0.48)), joint, unit)
    return sheet


def _spoken_joint(joint, unit):
    names = ("rail_depth", "spacing", "cheek", "far_wall", "crossing_clearance", "shifted_edge")
    words = f"Rails {given(joint, 'rail_thickness', unit)} thick on a leg {given(joint, 'leg_diameter', unit)} across, "
    words += f"{joint.dowels} dowels of {given(joint, 'dowel_diameter', unit)} in each end."
    return words + "".join(
        f" {joint.model.results()[name].words}: {found(joint, name, unit)}." for name in names
        if not answer(joint, name, unit)[1]
    )


def levels(joint, second=False):
    """Heights of the holes' axes under the rail's upper edge, from the top down; negative."""
    step = joint.spacing if joint.dowels > 1 else 0.0
    return [-joint.edge - k * step - (joint.stagger if second else 0.0) for k in range(joint.dowels)]


def _turned(points):
    """From the first rail's direction to the second's: mirrored in the line between the two."""
    return tuple((y, x) for x, y in points)


def rail_plan(joint, end):
    """The first rail from above, its coped end on the leg, cut off at `end`."""
    radius, half = joint.leg_diameter / 2, joint.rail_thickness / 2
    angle = math.asin(min(half / radius, 1.0))
    cope = [angle - 2 * angle * k / 24 for k in range(25)]
    return (*((radius * math.cos(a), radius * math.sin(a)) for a in cope), (end, -half), (end, half))


def hole_plan(joint):
    """The first rail's hole from above, in leg and rail, the drill's point at its inner end."""
    radius, bottom = joint.dowel_diameter / 2, joint.bottom
    end, point = joint.leg_diameter / 2 + joint.rail_depth, min(0.35 * radius, joint.drill_point)
    tip = ((bottom, point), (bottom - joint.drill_point, 0.0), (bottom, -point)) if point else ()
    return ((end, radius), (bottom, radius), *tip, (bottom, -radius), (end, -radius))


def dowel_plan(joint):
    """The first rail's dowel from above, between its two clearances."""
    start = joint.bottom + joint.end_clearance
    return rectangle(start, -joint.dowel_diameter / 2, start + joint.dowel_length, joint.dowel_diameter / 2)


def _shown(joint):
    """How far from the leg's centre the rails are drawn."""
    return joint.leg_diameter / 2 + joint.rail_depth + 0.12 * joint.leg_diameter


def _level_cut(view, joint, unit):
    leg, half, end = joint.leg_diameter / 2, joint.rail_thickness / 2, _shown(joint)
    view.area("rail", rail_plan(joint, end))
    view.area("rail", _turned(rail_plan(joint, end)))
    leg_section(view, leg)
    _second_hole(view, joint)
    view.area("hole", hole_plan(joint))
    view.area("dowel", dowel_plan(joint))
    _breach(view, joint)
    _level_sizes(view, joint, unit, leg, half, end)


def _second_hole(view, joint):
    """The second rail's hole: cut where it is on the same level, else its hidden edges."""
    if joint.level_gap == 0:
        view.area("hole", _turned(hole_plan(joint)))
        view.area("dowel", _turned(dowel_plan(joint)))
        return
    outline = _turned(hole_plan(joint))
    for start, end in zip(outline, (*outline[1:], outline[0])):
        view.line("hidden", start, end)


def _breach(view, joint):
    """Where the two holes break into each other, seen from above."""
    radius = joint.dowel_diameter / 2
    if joint.crossing_clearance == 0 and joint.bottom < radius:
        low = max(joint.bottom, -radius)
        view.area("breach", rectangle(low, low, radius, radius))


def _level_sizes(view, joint, unit, leg, half, end):
    radius, depth = joint.dowel_diameter / 2, joint.leg_diameter / 2 + joint.rail_depth
    view.dimension((leg, -half), (depth, -radius), f"hole in the rail {found(joint, 'rail_depth', unit)}")
    view.dimension((joint.bottom, -radius), (leg, -half), f"hole in the leg {given(joint, 'leg_depth', unit)}")
    tip = joint.bottom - joint.drill_point
    view.dimension((-leg, 0), (tip, 0), f"far wall {found(joint, 'far_wall', unit)}")
    view.dimension((-leg, 0), (leg, 0), f"leg Ø {given(joint, 'leg_diameter', unit)}")
    view.dimension((radius, end), (half, end), f"cheek {found(joint, 'cheek', unit)}", "above")
    near = joint.dowel_diameter / 2 * math.cos(joint.nearest_angle)
    middle = (max(joint.bottom, near) + near) / 2
    said = "the holes\nbreak into\neach other"
    if joint.crossing_clearance > 0:
        said = f"least wood\nbetween holes\n{found(joint, 'crossing_clearance', unit)}"
    view.note((middle, middle), said, "left")


def _rail_ends(view, joint, unit):
    """Both rails seen from their coped ends, side by side, upper edges level."""
    half, low, radius = joint.rail_thickness / 2, -joint.rail_height, joint.dowel_diameter / 2
    apart = 2.2 * joint.rail_thickness
    for x, second in ((0.0, False), (apart, True)):
        _rail_end(view, joint, x, second)
    first, shifted = levels(joint), levels(joint, second=True)
    view.dimension((-half, first[0]), (-half, 0), f"edge {given(joint, 'edge', unit)}", "left", 0)
    if joint.dowels > 1:
        view.dimension((-half, first[1]), (-half, first[0]), f"spacing {found(joint, 'spacing', unit)}", "left", 1)
    right = apart + half
    view.dimension((right, low), (right, shifted[-1]), f"edge {found(joint, 'shifted_edge', unit)}", "right", 0)
    if joint.stagger > 0:
        text = f"stagger {given(joint, 'stagger', unit)}"
        view.dimension((right, shifted[0]), (right, first[0]), text, "right", 1)
    view.dimension((-radius, low), (radius, low), f"dowel Ø {given(joint, 'dowel_diameter', unit)}")
    view.dimension((-half, low), (half, low), f"rail {given(joint, 'rail_thickness', unit)}")


def _rail_end(view, joint, x, second):
    half, radius = joint.rail_thickness / 2, joint.dowel_diameter / 2
    view.area("rail", rectangle(x - half, -joint.rail_height, x + half, 0))
    for level in levels(joint, second):
        view.circle("hole", (x, level), radius)
        view.cross("centre", (x, level), 1.3 * radius)
    view.line("centre", (x, 0.06 * joint.rail_height), (x, -1.06 * joint.rail_height))


def _upright_cut(view, joint, unit):
    """Through the leg's axis and the first rail: its holes lengthwise, the second rail's across or hidden."""
    leg, end, radius = joint.leg_diameter / 2, _shown(joint), joint.dowel_diameter / 2
    over = 0.12 * joint.rail_height
    view.area("kept", rectangle(-leg, -joint.rail_height - over, leg, over))
    view.area("rail", rectangle(leg, -joint.rail_height, end, 0))
    bottom = joint.bottom
    for level in levels(joint):
        view.area("hole", rectangle(bottom, level - radius, leg + joint.rail_depth, level + radius))
        start = bottom + joint.end_clearance
        view.area("dowel", rectangle(start, level - radius, start + joint.dowel_length, level + radius))
    for level in levels(joint, second=True):
        _second_across(view, joint, level)
    view.line("centre", (0, 1.6 * over), (0, -joint.rail_height - 1.6 * over))
    text = f"dowel {given(joint, 'dowel_length', unit)}, {given(joint, 'end_clearance', unit)} free at each end"
    first = levels(joint)[-1]
    start = bottom + joint.end_clearance
    view.dimension((start, first - radius), (start + joint.dowel_length, first - radius), text)
    view.dimension((end, -joint.rail_height), (end, 0), f"rail {given(joint, 'rail_height', unit)}", "right")


def _second_across(view, joint, level):
    """A hole of the second rail seen along itself: broken into, cut across, or hidden behind the cut."""
    centre, radius = (0.0, level), joint.dowel_diameter / 2
    if joint.crossing_clearance == 0 and min(abs(level - other) for other in levels(joint)) <= 2 * radius + 1e-9:
        view.circle("breach", centre, radius)
    elif joint.bottom <= 0:
        view.circle("dowel" if joint.bottom + joint.end_clearance <= 0 else "hole", centre, radius)
    else:
        view.arc("hidden", centre, radius, 0.0, math.pi)
        view.arc("hidden", centre, radius, math.pi, 2 * math.pi)
    view.cross("centre", centre, 1.4 * radius)


def template_dowel_joint(joint, unit="mm"):
    """Both rails' ends at full size with the holes' centres, to be folded over the upper edge."""
    sheet = Sheet("Dowel joint, drilling template", _spoken_joint(joint, unit))
    view = sheet.view("Rail ends: lay the upper edge to the rail's upper edge, prick the centres")
    _rail_ends(view, joint, unit)
    half, apart = joint.rail_thickness / 2, 2.2 * joint.rail_thickness
    view.note((-half, 0), "first rail:\nupper edge", "left")
    view.note((apart + half, 0), "second rail:\nupper edge", "right")
    return sheet
