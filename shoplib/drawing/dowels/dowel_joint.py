"""Plates for the joint of two rails with a round leg."""

import math

from shoplib.drawing.dowels.rail_ends import broken, levels, rail_ends, tell_rail
from shoplib.drawing.parts import centre_lines, told_results
from shoplib.drawing.parts import found_in_full as found
from shoplib.drawing.sheet import Circle, EndGrain, Sheet, rectangle
from shoplib.model import answer
from shoplib.model import given_in_full as given

UPRIGHT = math.pi / 2  # grain of what stands upright on the sheet


def draw_dowel_joint(joint, unit="mm"):
    """A level cut through leg and rails, the rails' ends, and an upright cut through the leg."""
    sheet = Sheet("Dowel joint", _spoken(joint, unit), use=_use(joint))
    wood = f"{found(joint, 'crossing_clearance', unit)} of wood between holes"
    title = f"From above: {wood if joint.crossing_clearance > 0 else 'the holes break into each other'}"
    _level_cut(sheet.view(title, (0, 0, 0.56, 1)), joint, unit)
    title = "Rails' square ends, upper edge up"
    rail_ends(sheet.view(title, (0.56, 0, 0.44, 0.53)), joint, unit)
    _upright_cut(sheet.view("Cut upright along the first rail", (0.56, 0.53, 0.44, 0.47)), joint, unit)
    return sheet


def _spoken(joint, unit):
    names = ("drilled_depth", "rail_depth", "quarter", "spacing", "cheek", "far_wall", "crossing_clearance")
    words = f"Rails {given(joint, 'rail_thickness', unit)} thick on a leg {given(joint, 'leg_diameter', unit)} across, "
    words += f"{joint.dowels} dowels of {given(joint, 'dowel_diameter', unit)} in each end."
    return f"{words} {told_results(joint, [name for name in names if not answer(joint, name, unit)[1]], unit)}"


def _use(joint):
    """How the joint is drilled, in sentences for the card."""
    point = " (the flat of the drill, not its point)" if joint.drill_point else ""
    second = ", the second rail's lower" if joint.stagger else ""
    return (
        "Saw the rails square, tip to tip of the cope to come; mark each as first (left to right) or second (front "
        f"to back), and its upper edge. Prick the holes into both square ends from the upper edge{second}. Drill them, "
        f"the stop set from the square end{point}; then cope. On each leg draw the first rail's line; face it and draw "
        "the second's a quarter round the leg, to the right on the legs front left and back right, to the left on the "
        "other two; heights again from the upper edge. Clamp the leg in a V, aim the drill at its centre, the stop set "
        "to the hole in the leg. Push the dowels in dry before you glue."
    )


def leg_rings(joint):
    """Growth rings of a leg that was sawn beside the pith."""
    return EndGrain((-0.9 * joint.leg_diameter, -0.7 * joint.leg_diameter))


def _turned(points):
    """From the first rail's direction to the second's: mirrored in the line between the two."""
    return tuple((y, x) for x, y in points)


def tips(joint):
    """How far from the leg's centre the cope's tips lie, along the rail: where its square end was."""
    return joint.leg_diameter / 2 - joint.cope_depth


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
    view.area("rail", rail_plan(joint, end), grain=0.0)
    view.area("rail", _turned(rail_plan(joint, end)), grain=UPRIGHT)
    view.area("leg", Circle("leg", (0, 0), leg), grain=leg_rings(joint))
    centre_lines(view, 1.15 * leg)
    _second_hole(view, joint)
    view.area("hole", hole_plan(joint))
    view.area("dowel", dowel_plan(joint), grain=0.0)
    _breach(view, joint)
    _least_wood(view, joint)
    view.line("square_end", (tips(joint), -half), (tips(joint), half))
    _level_sizes(view, joint, unit, leg, half, end)


def _second_hole(view, joint):
    """The second rail's hole: cut where it is on the same level, else its hidden edges."""
    if joint.level_gap == 0:
        view.area("hole", _turned(hole_plan(joint)))
        view.area("dowel", _turned(dowel_plan(joint)), grain=UPRIGHT)
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


def _least_wood(view, joint):
    """The way from one hole to the other where they are nearest, seen from above."""
    if joint.crossing_clearance > 0 and joint.bottom > 0:
        near = joint.dowel_diameter / 2 * math.cos(joint.nearest_angle)
        view.line("least", (joint.bottom, near), (near, joint.bottom))


def _level_sizes(view, joint, unit, leg, half, end):
    radius, depth = joint.dowel_diameter / 2, joint.leg_diameter / 2 + joint.rail_depth
    square, tip = tips(joint), joint.bottom - joint.drill_point
    view.dimension((square, -half), (depth, -radius), f"drill {found(joint, 'drilled_depth', unit)}")
    view.dimension((leg, 0), (depth, -radius), f"in rail {found(joint, 'rail_depth', unit)}")
    view.dimension((joint.bottom, -radius), (leg, 0), f"in leg {given(joint, 'leg_depth', unit)}")
    view.dimension((-leg, 0), (leg, 0), f"leg Ø {given(joint, 'leg_diameter', unit)}")
    view.dimension((-leg, 0), (tip, 0), f"far wall {found(joint, 'far_wall', unit)}")
    view.dimension((radius, end), (half, end), f"cheek {found(joint, 'cheek', unit)}", "above")
    tell_rail(view, joint, unit, end, "above")
    diagonal = leg / math.sqrt(2)
    view.note((diagonal, diagonal), f"round the leg\n{broken(found(joint, 'quarter', unit))}", "right")


def _upright_cut(view, joint, unit):
    """Through the leg's axis and the first rail: its holes lengthwise, the second rail's across or hidden."""
    leg, end, radius = joint.leg_diameter / 2, _shown(joint), joint.dowel_diameter / 2
    over, bottom = 0.12 * joint.rail_height, joint.bottom
    view.area("leg", rectangle(-leg, -joint.rail_height - over, leg, over), grain=UPRIGHT)
    view.area("rail", rectangle(leg, -joint.rail_height, end, 0), grain=0.0)
    start = bottom + joint.end_clearance
    for level in levels(joint):
        view.area("hole", rectangle(bottom, level - radius, leg + joint.rail_depth, level + radius))
        view.area("dowel", rectangle(start, level - radius, start + joint.dowel_length, level + radius), grain=0.0)
    for level in levels(joint, second=True):
        _second_across(view, joint, level)
    view.line("centre", (0, 1.6 * over), (0, -joint.rail_height - 1.6 * over))
    low = -joint.rail_height - over
    view.dimension((start, low), (start + joint.dowel_length, low), f"dowel {given(joint, 'dowel_length', unit)}")
    if joint.end_clearance > 0:
        view.dimension((bottom, low), (start, low), f"free {given(joint, 'end_clearance', unit)}")
    view.dimension((end, -joint.rail_height), (end, 0), f"rail {given(joint, 'rail_height', unit)}", "right")


def _second_across(view, joint, level):
    """A hole of the second rail seen along itself: broken into, cut across, or hidden behind the cut."""
    centre, radius = (0.0, level), joint.dowel_diameter / 2
    if joint.crossing_clearance == 0 and min(abs(level - other) for other in levels(joint)) <= 2 * radius + 1e-9:
        view.circle("breach", centre, radius)
    elif joint.bottom + joint.end_clearance <= 0:
        pith = EndGrain((-1.5 * radius, level - 2.5 * radius))
        view.area("dowel", Circle("dowel", centre, radius), grain=pith)
    elif joint.bottom <= 0:
        view.circle("hole", centre, radius)
    else:
        view.arc("hidden", centre, radius, 0.0, math.pi)
        view.arc("hidden", centre, radius, math.pi, 2 * math.pi)
    view.cross("centre", centre, 1.4 * radius)
