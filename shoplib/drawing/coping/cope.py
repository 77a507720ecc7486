"""Plates for rails of rectangular section: from above, from the side, one end enlarged, the drum's gap; the trace."""

import math

from shoplib.drawing.parts import found, given
from shoplib.drawing.sheet import Sheet, rectangle

STUB = 25.0  # mm of rail behind the hollow on a template
BREAK = 12.0  # mm left open on a template where the rail's middle is left out


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
