"""Plates for coped rails: from above, from the side, one end enlarged, the drum's gap; the wrap of a round rail."""

import math

from shoplib.drawing.parts import found, given
from shoplib.drawing.sheet import Sheet, rectangle

STUB = 25.0  # mm of rail behind the hollow on a template
BREAK = 12.0  # mm left open on a template where the rail's middle is left out
OVERLAP = 12.0  # mm that a wrap runs on under its own beginning
BODY = 25.0  # mm of a wrap below the saddle


# A rail of rectangular section ------------------------------------------------------------------------------


def draw_cope(cope, unit="mm"):
    """The rail between its legs from above and from the side, one end enlarged, and what a drum would make of it."""
    sheet = Sheet("Cope", _spoken_cope(cope, unit))
    tall, drum = cope.has("rail_height"), cope.has("drum_diameter")
    split = 0.54 if tall or drum else 1
    _plan(sheet.view("The rail from above", (0, 0, split, 0.46 if tall else 1 if drum else 0.4)), cope, unit)
    if tall:
        title = f"From the side: rake {given(cope, 'rake', unit)}" if cope.rake else "From the side: upright legs"
        _elevation(sheet.view(title, (0, 0.46, 0.54, 0.54)), cope, unit)
    cell = (0.54, 0, 0.46, 0.56 if drum else 1) if split < 1 else (0, 0.4, 1, 0.6)
    _corner(sheet.view(_corner_title(cope, unit), cell), cope, unit)
    if drum:
        _drum(sheet.view(_drum_title(cope, unit), (0.54, 0.56, 0.46, 0.44)), cope, unit)
    return sheet


def _spoken_cope(cope, unit):
    words = [
        f"A rail {given(cope, 'rail_thickness', unit)} thick between round legs {given(cope, 'leg_diameter', unit)} "
        f"across, {given(cope, 'leg_spacing', unit)} apart centre to centre."
    ]
    names = ["depth", "rail_length", "between"]
    names += ["rail_length_bottom"] if cope.has("rail_height") else []
    names += ["drum_gap"] if cope.has("drum_diameter") else []
    words += [f"{cope.model.results()[name].words}: {found(cope, name, unit)}." for name in names]
    return " ".join(words)


def leg_curve(cope, radius, low, high, pieces=48):
    """The leg's skin that faces the rail, from one height off the legs' centre line to another.

    A level section: the leg's centre is the origin, the rail comes from the left. Even turns, so that the steep part
    near the leg's side is as true as the rest.
    """
    first, last = math.asin(low / radius), math.asin(high / radius)
    turns = [first + (last - first) * k / pieces for k in range(pieces + 1)]
    return [(-radius * math.cos(a) / math.cos(cope.rake), radius * math.sin(a)) for a in turns]


def rail_sides(cope):
    """The rail's two sides off the legs' centre line, the neighbour's side (below) first."""
    return -cope.offset - cope.rail_thickness / 2, -cope.offset + cope.rail_thickness / 2


def _hollow(cope, curve):
    """What a square end loses: between the cope curve and the square cut through the longest tip."""
    if cope.offset == 0:
        return tuple(curve)
    return (*curve, (-cope.tip_reach, rail_sides(cope)[1 if cope.offset > 0 else 0]))


def _leg(view, cope, x=0.0):
    """The leg cut level, an ellipse where it leans, with its centre."""
    radius = cope.leg_diameter / 2
    if cope.rake == 0:
        view.circle("joint", (x, 0), radius)
    else:
        turns = [2 * math.pi * k / 96 for k in range(96)]
        stretch = radius / math.cos(cope.rake)
        view.area("joint", tuple((x + stretch * math.cos(a), radius * math.sin(a)) for a in turns))
    view.cross("centre", (x, 0), 1.2 * radius)


def _plan(view, cope, unit):
    """The whole rail and both legs, cut level at the rail's top edge."""
    low, high = rail_sides(cope)
    span, curve = cope.leg_spacing, leg_curve(cope, cope.leg_diameter / 2, low, high)
    tip = cope.tip_reach
    for way, at in ((-1, 0.0), (1, span)):
        view.area("waste", tuple((at + way * x, y) for x, y in _hollow(cope, curve)))
    right = [(span + x, y) for x, y in curve]
    left = [(-x, y) for x, y in reversed(curve)]
    view.area("kept", (*right, *left))
    for x in (0.0, span):
        _leg(view, cope, x)
    view.dimension((0, 0), (span, 0), f"leg spacing {given(cope, 'leg_spacing', unit)}", "above")
    far = low if cope.offset >= 0 else high
    view.dimension((tip, far), (span - tip, far), f"tip to tip {found(cope, 'rail_length', unit)}")
    hollow = (span - cope.between) / 2
    text = f"hollow to hollow {found(cope, 'between', unit)}"
    view.dimension((hollow, -cope.offset), (span - hollow, -cope.offset), text)


def _elevation(view, cope, unit):
    """The rail's side with the longest tips, in front of the legs; what is hollow behind it is dashed."""
    height, lean, span = cope.rail_height, math.tan(cope.rake), cope.leg_spacing
    half, tip, hollow = cope.leg_diameter / 2 / math.cos(cope.rake), cope.tip_reach, cope.hollow_reach
    above, below = 0.35 * height, -1.5 * height

    def placed(x, z, way):
        """A point x to the right of the right leg's centre line, at a height; or its twin at the left leg."""
        return span / 2 + way * (span / 2 + x - z * lean), z

    for way in (-1, 1):
        corners = ((-half, above), (half, above), (half, below), (-half, below))
        view.area("joint", tuple(placed(x, z, way) for x, z in corners))
        view.line("centre", placed(0, 1.3 * above, way), placed(0, 1.05 * below, way))
    tips = [placed(-tip, z, way) for way, z in ((-1, 0), (1, 0), (1, -height), (-1, -height))]
    view.area("kept", tips)
    for way in (-1, 1):
        view.line("hidden", placed(-hollow, 0, way), placed(-hollow, -height, way))
    view.dimension(tips[0], tips[1], f"top, tip to tip {found(cope, 'rail_length', unit)}", "above")
    view.dimension(tips[3], tips[2], f"bottom, tip to tip {found(cope, 'rail_length_bottom', unit)}")
    view.dimension(tips[2], tips[1], given(cope, "rail_height", unit), "right")


def _corner_title(cope, unit):
    if cope.rake != 0:
        return "One end, cut level"
    if cope.neighbour_gap == 0:
        return "One corner: the tips collide"
    return f"One corner: tips {found(cope, 'neighbour_gap', unit)} apart"


def _drum_title(cope, unit):
    if cope.drum_gap < 0.005:
        return "From the drum: no gap"
    where = "at the tips" if cope.drum_diameter > cope.leg_diameter else "in the hollow"
    return f"From the drum: {found(cope, 'drum_gap', unit)} open {where}"


def _corner(view, cope, unit):
    """One end enlarged; on upright legs with the neighbouring rail at a right angle."""
    low, high = rail_sides(cope)
    radius, tip = cope.leg_diameter / 2, cope.tip_reach
    back = -cope.hollow_reach - 0.9 * radius
    curve = leg_curve(cope, radius, low, high)
    if cope.rake == 0:
        view.area("neighbour", tuple((y, x) for x, y in [*curve, (back, high), (back, low)]))
    view.area("waste", _hollow(cope, curve))
    view.area("kept", (*curve, (back, high), (back, low)))
    if cope.rake == 0:
        _tips(view, cope, low, high)
    _leg(view, cope)
    view.line("centre", (back, -cope.offset), (0, -cope.offset))
    near = min(max(0.0, low), high)
    text = f"cope depth {found(cope, 'depth', unit)}"
    view.dimension((-cope.hollow_reach, near), (-tip, low if cope.offset >= 0 else high), text, "above")
    view.dimension((back, low), (back, high), f"rail {given(cope, 'rail_thickness', unit)}", "left")
    if cope.offset:
        view.dimension((0, 0), (0, -cope.offset), f"offset {given(cope, 'offset', unit)}", "right")
    view.dimension((0, -radius), (0, radius), f"leg Ø {given(cope, 'leg_diameter', unit)}", "right")


def _tips(view, cope, low, high):
    """The way between the nearest tips of the two rails, or the wood that both would need."""
    if cope.neighbour_gap == 0:
        view.area("clash", clash(cope, low, high))
        return
    tips = [(-math.sqrt((cope.leg_diameter / 2) ** 2 - side**2), side) for side in (low, high)]
    tip, side = min(tips, key=lambda each: abs(each[0] - each[1]))
    middle = ((tip + side) / 2, (tip + side) / 2)
    for end in ((tip, side), (side, tip)):
        view.line("gap", middle, end)


def clash(cope, low, high):
    """Outline of the wood that the rail and its neighbour would both need: outside the leg, within both rails."""
    radius = cope.leg_diameter / 2
    end = min(high, -math.sqrt(radius**2 - low**2))  # how far along the rail's lower side the neighbour reaches
    if 2 * end**2 >= radius**2:
        return rectangle(low, low, end, end)
    inside = end == high  # the neighbour's far side cuts the leg's skin above the rail's lower side
    start = -math.acos(-high / radius) if inside else math.asin(low / radius)
    turns = [start + (-math.pi / 2 - 2 * start) * k / 24 for k in range(25)]
    arc = [(-radius * math.cos(a), radius * math.sin(a)) for a in turns]
    return ((low, low), (end, low), *arc, (low, end)) if inside else ((low, low), *arc)


def drum_push(cope):
    """How far the drum's centre ends up from the leg's when the rail touches, along the rail away from its tips."""
    touches = cope.near_edge if cope.drum_diameter > cope.leg_diameter else cope.far_edge
    reaches = [math.sqrt((across / 2) ** 2 - touches**2) for across in (cope.drum_diameter, cope.leg_diameter)]
    return (reaches[0] - reaches[1]) / math.cos(cope.rake)


def _drum(view, cope, unit):
    """The rail from the drum, pushed up until it touches the leg, and the gap that is left."""
    low, high = rail_sides(cope)
    radius, push = cope.leg_diameter / 2, drum_push(cope)
    leg = leg_curve(cope, radius, low, high)
    made = [(x + push, y) for x, y in leg_curve(cope, cope.drum_diameter / 2, low, high)]
    back = min(x for x, _ in [*leg, *made]) - 0.6 * radius
    view.area("gap", (*leg, *reversed(made)))
    view.area("kept", (*made, (back, high), (back, low)))
    _leg(view, cope)
    if cope.rake == 0:
        reach = min(0.98, (cope.far_edge + 0.5 * radius) / (cope.drum_diameter / 2))
        view.arc("drum", (push, 0), cope.drum_diameter / 2, math.pi - math.asin(reach), math.pi + math.asin(reach))
    view.dimension((0, -radius), (0, radius), f"leg Ø {given(cope, 'leg_diameter', unit)}", "right")


def template_cope(cope, unit="mm"):
    """Both ends at full size, the rail's middle left out: the top edge, and the side to fold over where it is known."""
    sheet = Sheet("Cope, trace for both ends", _spoken_cope(cope, unit))
    fold = "lay it on the top edge, fold it over the side" if cope.has("rail_height") else "lay it on the top edge"
    view = sheet.view(f"Left and right end: {fold}")
    low, high = rail_sides(cope)
    height = cope.rail_height if cope.has("rail_height") else 0.0
    out = height * math.tan(cope.rake)
    end, back = max(0.0, out), -cope.depth - STUB
    curve = [(x + cope.tip_reach, y) for x, y in leg_curve(cope, cope.leg_diameter / 2, low, high, 120)]
    far, way = (low, -1) if cope.offset >= 0 else (high, 1)
    for turn in (1, -1):
        _trace_end(view, turn, [curve, (low, high), (far, far + way * height), (0.0, out), end, back])
    text = f"cope depth {found(cope, 'depth', unit)}"
    view.dimension((-cope.depth, min(max(0.0, low), high)), (0, far), text, "above")
    view.dimension((end, low), (end, high), f"rail {given(cope, 'rail_thickness', unit)}", "right")
    if height:
        text = f"high {given(cope, 'rail_height', unit)}"
        view.dimension((end, far), (end, far + way * height), text, "right")
        left = 2 * (back - BREAK / 2) - end
        view.note((left, (low + high) / 2), "top edge", "left")
        view.note((left, far + way * height / 2), "side", "left")
    view.note((back, -cope.offset), "rail's centre line", "right")
    if cope.offset and low < 0 < high:
        view.note((back, 0), "legs' centre line", "right")
    return sheet


def _trace_end(view, turn, parts):
    """One end: its longest tip at nothing, the rail towards the middle; the left end is the right one's twin."""
    curve, (low, high), (fold, foot), (tip, out), end, back = parts
    middle = back - BREAK / 2

    def placed(points):
        return tuple((x, y) if turn > 0 else (2 * middle - x, y) for x, y in points)

    view.area("waste", placed([*curve, (end, high), (end, low)]))
    view.area("kept", placed([*curve, (back, high), (back, low)]))
    if foot != fold:
        view.area("waste", placed([(tip, fold), (end, fold), (end, foot), (out, foot)]))
        view.area("kept", placed([(back, fold), (tip, fold), (out, foot), (back, foot)]))
        view.line("hidden", *placed([(back, fold), (end, fold)]))
    for y in {(low + high) / 2, 0.0}:
        if low < y < high:
            view.line("centre", *placed([(back, y), (end, y)]))


# A round rail -----------------------------------------------------------------------------------------------


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


DRAWINGS = {"Cope": draw_cope, "RoundCope": draw_round_cope}
TEMPLATES = {"Cope": template_cope, "RoundCope": template_round_cope}
