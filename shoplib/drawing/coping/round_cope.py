"""Plates for round rails: at the leg from the side and along the leg; the wrap."""

import math

from shoplib.drawing.parts import found, given
from shoplib.drawing.sheet import Sheet, rectangle

OVERLAP = 12.0  # mm that a wrap runs on under its own beginning
BODY = 25.0  # mm of a wrap below the saddle


def draw_round_cope(cope, unit="mm"):
    """The rail at the leg from the side and along the leg, and its wrap laid flat."""
    sheet = Sheet("Round cope", _spoken_round(cope, unit))
    _side(sheet.view(f"From the side: {given(cope, 'angle', unit)}", (0, 0, 0.5, 0.52)), cope)
    _along(sheet.view("Down the leg: 0 line on top", (0.5, 0, 0.5, 0.52)), cope, unit)
    view = sheet.view("The wrap laid flat: lines at 0, 90, 180, 270 and 360 degrees", (0, 0.52, 1, 0.48))
    _flat(view, cope, unit, body=0.12 * cope.circumference)
    view.dimension((0, -cope.saddle_depth), (cope.circumference / 4, -cope.saddle_depth), _quarter_text(cope, 1, unit))
    text = f"once round {found(cope, 'circumference', unit)}"
    view.dimension((0, -cope.saddle_depth), (cope.circumference, -cope.saddle_depth), text)
    return sheet


def _spoken_round(cope, unit):
    words = (
        f"A round rail {given(cope, 'rail_diameter', unit)} across meets a round leg "
        f"{given(cope, 'leg_diameter', unit)} "
        f"across at {given(cope, 'angle', unit)}, offset {given(cope, 'offset', unit)}."
    )
    names = ("saddle_depth", "tip_reach", "circumference")
    return words + "".join(f" {cope.model.results()[name].words}: {found(cope, name, unit)}." for name in names)


def skin(cope, turn, along):
    """A point on the rail's skin in space: x across the leg, y towards the 90 line, z up the leg."""
    radius, c, s = cope.rail_diameter / 2, math.cos(cope.angle), math.sin(cope.angle)
    up = radius * math.cos(turn)
    return along * s - up * c, cope.offset + radius * math.sin(turn), along * c + up * s


def saddle(cope, turn):
    """The point where a line on the rail's skin ends at the leg."""
    beside = cope.offset + cope.rail_diameter / 2 * math.sin(turn)
    x = -math.sqrt((cope.leg_diameter / 2) ** 2 - beside**2)
    along = (x + cope.rail_diameter / 2 * math.cos(turn) * math.cos(cope.angle)) / math.sin(cope.angle)
    return skin(cope, turn, along)


def _half_turn(start, pieces=48):
    return [start + math.pi * k / pieces for k in range(pieces + 1)]


def _side(view, cope):
    """Square to both centre lines, the 90 line in front; the saddle's far half is dashed."""
    leg, rail = cope.leg_diameter / 2, cope.rail_diameter / 2
    near = [saddle(cope, turn) for turn in _half_turn(0.0)]
    back = -cope.root_reach - max(1.6 * rail, 0.7 * leg)
    ends = [skin(cope, turn, along) for turn, along in ((math.pi, back), (0.0, back))]
    far = [saddle(cope, turn) for turn in _half_turn(math.pi, 24)]
    reaches = (cope.root_reach, cope.tip_reach, cope.tip_reach, cope.root_reach)
    blank = [skin(cope, turn, -along) for turn, along in zip((0.0, 0.0, math.pi, math.pi), reaches)]
    heights = [z for _, _, z in near] + [0.0]
    top, foot = max(heights) + 0.6 * leg, min(heights) - 0.6 * leg
    view.area("joint", rectangle(-leg, foot, leg, top))
    view.line("centre", (0, foot - 0.1 * leg), (0, top + 0.1 * leg))
    view.area("waste", _seen(blank))
    view.area("kept", _seen([*near, *ends]))
    for start, end in zip(far[::2], far[1::2]):
        view.line("joint", *_seen([start, end]))
    c, s = math.cos(cope.angle), math.sin(cope.angle)
    view.line("centre", (1.1 * back * s, 1.1 * back * c), (0, 0))
    middle = (back - cope.root_reach) / 2
    view.note(_seen([skin(cope, 0.0, middle)])[0], "0 line", "left")
    view.note(_seen([skin(cope, math.pi, middle)])[0], "180 line", "left")


def _seen(points):
    return tuple((x, z) for x, _, z in points)


def _along(view, cope, unit):
    """Down the leg: the rail comes from the left, its 90 line towards the foot of the drawing."""
    leg, rail = cope.leg_diameter / 2, cope.rail_diameter / 2
    half = [saddle(cope, turn) for turn in _half_turn(-math.pi / 2)]
    edge = [(x, -y) for x, y, _ in half]
    back = min(x for x, _ in edge) - 1.2 * leg
    view.area("kept", (*edge, (back, -cope.offset - rail), (back, -cope.offset + rail)))
    view.circle("joint", (0, 0), leg)
    view.cross("centre", (0, 0), 1.2 * leg)
    view.line("centre", (back - 0.1 * leg, -cope.offset), (0, -cope.offset))
    text = f"rail Ø {given(cope, 'rail_diameter', unit)}"
    view.dimension((back, -cope.offset - rail), (back, -cope.offset + rail), text, "left")
    if cope.offset:
        view.dimension((0, 0), (0, -cope.offset), f"offset {given(cope, 'offset', unit)}", "right")
    view.dimension((0, -leg), (0, leg), f"leg Ø {given(cope, 'leg_diameter', unit)}", "right")


def wrap_points(cope, first, last, pieces):
    """The wrap's curve between two turns: round the skin, and down from the longest tip."""
    turns = [first + (last - first) * k / pieces for k in range(pieces + 1)]
    c, s = math.cos(cope.angle), math.sin(cope.angle)
    ends = [(turn, saddle(cope, turn)) for turn in turns]
    return [(cope.rail_diameter / 2 * turn, min(0.0, x * s + z * c + cope.tip_reach)) for turn, (x, _, z) in ends]


def _flat(view, cope, unit, body):
    """The rail's skin laid flat, ink outside, the leg above: kept below the curve."""
    around, foot = cope.circumference, -cope.saddle_depth - body
    curve = wrap_points(cope, 0.0, 2 * math.pi, 240)
    view.area("waste", (*curve, (around, 0), (0, 0)))
    view.area("kept", (*curve, (around, foot), (0, foot)))
    for quarter in range(5):
        x = around * quarter / 4
        view.line("centre", (x, 0), (x, foot))
    root = cope.rail_diameter / 2 * cope.root_turn
    tip = cope.rail_diameter / 2 * (cope.tip_turn % (2 * math.pi))
    view.dimension((root, -cope.saddle_depth), (tip, 0), f"saddle {found(cope, 'saddle_depth', unit)}", "left")


def _quarter_text(cope, quarter, unit):
    distance = cope.model.results()["circumference"].write(cope.circumference * quarter / 4, unit)
    return f"{90 * quarter} line at {distance}"


def template_round_cope(cope, unit="mm"):
    """The wrap at full size: a strip once round the rail, its lines, and a tab that goes under its beginning."""
    sheet = Sheet("Round cope, wrap", _spoken_round(cope, unit))
    view = sheet.view("Wrap: ink outside, curve towards the leg")
    foot = -cope.saddle_depth - BODY
    around, radius = cope.circumference, cope.rail_diameter / 2
    tab = wrap_points(cope, 2 * math.pi, 2 * math.pi + min(OVERLAP, 0.2 * around) / radius, 24)
    view.area("hidden", (*tab, (tab[-1][0], foot), (around, foot)))
    _flat(view, cope, unit, BODY)
    for quarter in (1, 2, 3):
        view.dimension((0, foot), (around * quarter / 4, foot), _quarter_text(cope, quarter, unit))
    view.dimension((0, foot), (around, foot), f"360 line, once round {found(cope, 'circumference', unit)}")
    view.note((0, foot), "0 line", "left")
    view.note((tab[-1][0], (tab[-1][1] + foot) / 2), "goes under:\n360 on 0", "right")
    return sheet
