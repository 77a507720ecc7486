"""Plates for round rails: at the leg from the side and along the leg; the wrap."""

import math

from shoplib.drawing.parts import found_in_full as found
from shoplib.drawing.parts import given, told_results
from shoplib.drawing.sheet import Circle, EndGrain, Sheet
from shoplib.model import length_in_full

OVERLAP = 12.0  # mm that a wrap runs on under its own beginning
BODY = 25.0  # mm of a wrap below the saddle
WRAP = (
    "Draw the 0 line along the rail, in the plane of rail and leg on the side of their wider angle (on top where the "
    "rail rises to the leg). Cut out along the curve and the tab. Wrap it round the rail, ink outside, curve towards "
    "the leg, 0 on the 0 line; 360 must fall on it too. The highest point comes level with the sawn end: draw along "
    "the curve. What is crossed goes. The second end of a brace between upright legs: the same wrap, 0 on the other "
    "side of the rail."
)


def draw_round_cope(cope, unit="mm"):
    """The rail at the leg from the side and along the leg, and its wrap laid flat."""
    sheet = Sheet("Round cope", _spoken_round(cope, unit), use=_use(cope, unit))
    title = f"From the side, rail laid level: {given(cope, 'angle', unit)}"
    _side(sheet.view(title, (0, 0, 0.54, 0.52)), cope, unit)
    title = f"Down the leg, 0 line up: rail Ø {given(cope, 'rail_diameter', unit)}"
    _along(sheet.view(title, (0.54, 0, 0.46, 0.52)), cope, unit)
    tip, root = (found(cope, name, unit) for name in ("tip_turn", "root_turn"))
    view = sheet.view(f"Wrap laid flat, ink up: longest tip at {tip}, deepest at {root}", (0, 0.52, 1, 0.48))
    _flat(view, cope, unit, body=0.12 * cope.circumference)
    _quarters(view, cope, unit, -cope.saddle_depth - 0.12 * cope.circumference)
    return sheet


def _spoken_round(cope, unit):
    words = (
        f"A round rail {given(cope, 'rail_diameter', unit)} across meets a round leg "
        f"{given(cope, 'leg_diameter', unit)} "
        f"across at {given(cope, 'angle', unit)}, offset {given(cope, 'offset', unit)}."
    )
    names = ("saddle_depth", "tip_reach", "tip_turn", "circumference")
    return f"{words} {told_results(cope, names, unit)}"


def _use(cope, unit):
    """How the end is marked and sawn with the card alone, in sentences."""
    reach, quarter = found(cope, "tip_reach", unit), found(cope, "quarter", unit)
    return (
        "Draw the 0 line along the rail in the plane of rail and leg, on the side of their wider angle (on top where "
        f"the rail rises to the leg), the other three lines each {quarter} on round it, clockwise as you look towards "
        f"the leg. Saw it square: the way between the legs' centres, along the rail, less {reach} at each end. From "
        "the sawn end lay off the last column of the table on its lines, join the points, saw and file to them. "
        "The second end of a brace between upright legs: the same, its 0 line on the other side of the rail."
    )


def skin(cope, turn, along):
    """A point on the rail's skin in space: x along the rail to the leg, y towards the 90 line, z towards the 0 line.

    The origin is where the centre lines cross, seen square to both.
    """
    radius = cope.rail_diameter / 2
    return along, cope.offset + radius * math.sin(turn), radius * math.cos(turn)


def saddle(cope, turn):
    """The point where a line on the rail's skin ends at the leg."""
    _, beside, up = skin(cope, turn, 0.0)
    reach = math.sqrt((cope.leg_diameter / 2) ** 2 - beside**2) / math.sin(cope.angle) - up / math.tan(cope.angle)
    return skin(cope, turn, -reach)


def _half_turn(start, pieces=48):
    return [start + math.pi * k / pieces for k in range(pieces + 1)]


def _side(view, cope, unit):
    """Square to both centre lines, the 90 line in front and the rail level; the saddle's far half is dashed."""
    leg, rail = cope.leg_diameter / 2, cope.rail_diameter / 2
    near = [saddle(cope, turn) for turn in _half_turn(0.0)]
    far = [saddle(cope, turn) for turn in _half_turn(math.pi, 24)]
    back = -cope.root_reach - max(1.6 * rail, 0.9 * leg)
    ends = [skin(cope, turn, back) for turn in (math.pi, 0.0)]
    reaches = (cope.root_reach, cope.tip_reach, cope.tip_reach, cope.root_reach)
    blank = [skin(cope, turn, -along) for turn, along in zip((0.0, 0.0, math.pi, math.pi), reaches)]
    _leaning_leg(view, cope, [z for _, _, z in near])
    view.area("waste", _seen(blank))
    view.area("kept", _seen([*near, *ends]), grain=0.0)
    for start, end in zip(far[::2], far[1::2]):
        view.line("joint", *_seen([start, end]))
    view.line("centre", (1.05 * back, 0), (0.5 * leg, 0))
    _angle(view, cope)
    tip = saddle(cope, cope.tip_turn)
    view.dimension((tip[0], tip[2]), (0, 0), f"centre to longest tip {found(cope, 'tip_reach', unit)}", "above")
    root = saddle(cope, cope.root_turn)
    view.dimension((root[0], root[2]), (tip[0], tip[2]), f"saddle {found(cope, 'saddle_depth', unit)}")
    view.note((back + 0.3 * rail, rail), "0 line", "left")
    view.note((back + 0.3 * rail, -rail), "180 line", "left")


def _seen(points):
    return tuple((x, z) for x, _, z in points)


def _leaning_leg(view, cope, heights):
    """The leg as it leans to a level rail, its fibres along it, cut off square well above and below the joint."""
    leg, c, s = cope.leg_diameter / 2, math.cos(cope.angle), math.sin(cope.angle)
    up = (max(heights) + 0.2 * leg + leg * c) / s
    down = min(-1.1 * leg, (min(heights) - 0.2 * leg - leg * c) / s)

    def placed(along, across):
        return along * c - across * s, along * s + across * c

    corners = ((down, -leg), (up, -leg), (up, leg), (down, leg))
    view.area("leg", tuple(placed(*corner) for corner in corners), grain=cope.angle)
    view.line("centre", placed(down - 0.15 * leg, 0), placed(up + 0.15 * leg, 0))


def _angle(view, cope):
    """The sharper angle, between the rail's centre line and the leg's below it."""
    radius, start, end = 0.48 * cope.leg_diameter, math.pi, math.pi + cope.angle
    for side in (start, end):
        view.arc("dimension", (0, 0), radius, (start + end) / 2, side, arrow=True)


def _along(view, cope, unit):
    """Down the leg: the rail comes from the left, its 90 line towards the foot of the drawing."""
    leg, rail = cope.leg_diameter / 2, cope.rail_diameter / 2
    flat = [(x * math.sin(cope.angle) - z * math.cos(cope.angle), y) for x, y, z in _ends(cope)]
    edge = [(x, -y) for x, y in flat]
    back = min(x for x, _ in edge) - 1.2 * leg
    view.area("leg", Circle("leg", (0, 0), leg), grain=EndGrain((0.16 * leg, 0.22 * leg)))
    view.area("kept", (*edge, (back, -cope.offset - rail), (back, -cope.offset + rail)), grain=0.0)
    view.cross("centre", (0, 0), 1.2 * leg)
    view.line("centre", (back - 0.1 * leg, -cope.offset), (0, -cope.offset))
    view.note((back + 0.2 * leg, -cope.offset + rail), "270 line", "left")
    view.note((back + 0.2 * leg, -cope.offset - rail), "90 line", "left")
    if cope.offset:
        view.dimension((0, 0), (0, -cope.offset), f"offset {given(cope, 'offset', unit)}", "right")
    view.dimension((-leg, 0), (leg, 0), f"leg Ø {given(cope, 'leg_diameter', unit)}")


def _ends(cope):
    """Where the half of the skin that is seen down the leg, round the 0 line, ends at the leg."""
    return [saddle(cope, turn) for turn in _half_turn(-math.pi / 2)]


def wrap_points(cope, first, last, pieces):
    """The wrap's curve between two turns: round the skin, and down from the longest tip."""
    turns = [first + (last - first) * k / pieces for k in range(pieces + 1)]
    return [(cope.rail_diameter / 2 * turn, min(0.0, saddle(cope, turn)[0] + cope.tip_reach)) for turn in turns]


def _flat(view, cope, unit, body):
    """The rail's skin laid flat, ink up, the leg above: kept below the curve, grain down the rail."""
    around, foot = cope.circumference, -cope.saddle_depth - body
    curve = wrap_points(cope, 0.0, 2 * math.pi, 240)
    view.area("waste", (*curve, (around, 0), (0, 0)))
    view.area("kept", (*curve, (around, foot), (0, foot)), grain=math.pi / 2)
    for quarter in range(5):
        x = around * quarter / 4
        view.line("centre", (x, 0), (x, foot))
    root, tip = (cope.rail_diameter / 2 * (turn % (2 * math.pi)) for turn in (cope.root_turn, cope.tip_turn))
    view.dimension((root, -cope.saddle_depth), (tip, 0), f"saddle {found(cope, 'saddle_depth', unit)}", "left")


def _quarters(view, cope, unit, foot):
    """The lines by name below the wrap, each with its way round from the 0 line."""
    around = cope.circumference
    for quarter in (1, 2, 3):
        text = f"0 to {90 * quarter} line {length_in_full(around * quarter / 4, unit)}"
        view.dimension((0, foot), (around * quarter / 4, foot), text)
    view.dimension((0, foot), (around, foot), f"0 to 360 line, once round, {found(cope, 'circumference', unit)}")


def template_round_cope(cope, unit="mm"):
    """The wrap at full size: a strip once round the rail, its lines, and a tab that goes under its beginning."""
    sheet = Sheet("Round cope, wrap", _spoken_round(cope, unit), use=WRAP)
    view = sheet.view("Wrap: ink outside, curve towards the leg, left edge on the 0 line")
    foot = -cope.saddle_depth - BODY
    around, radius = cope.circumference, cope.rail_diameter / 2
    tab = wrap_points(cope, 2 * math.pi, 2 * math.pi + min(OVERLAP, 0.2 * around) / radius, 24)
    view.area("hidden", (*tab, (tab[-1][0], foot), (around, foot)))
    _flat(view, cope, unit, BODY)
    _quarters(view, cope, unit, foot)
    view.note((tab[-1][0], (tab[-1][1] + foot) / 2), "goes under:\n360 on 0", "right")
    return sheet
