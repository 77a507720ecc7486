"""Plates for rails of rectangular section: from above, from the side, one end enlarged, the drum's gap."""

import math

from shoplib.drawing.parts import found_in_full as found
from shoplib.drawing.parts import given, told_results
from shoplib.drawing.sheet import Circle, EndGrain, Sheet, rectangle
from shoplib.model import answer

UPRIGHT = math.pi / 2  # grain of what stands upright on the sheet
ONE_PLANE = "in this plane only"


def draw_cope(cope, unit="mm"):
    """The rail between its legs from above and from the side, one end enlarged, and what a drum would make of it."""
    sheet = Sheet("Cope", spoken_cope(cope, unit), use=_use(cope, unit))
    tall, drum = cope.has("rail_height"), cope.has("drum_diameter")
    leaning = f"rake {given(cope, 'rake', unit)}, {ONE_PLANE}"
    split = 0.54 if tall or drum else 1
    title = f"From above: {leaning}" if cope.rake and not tall else "The rail from above"
    _plan(sheet.view(title, (0, 0, split, 0.46 if tall else 1 if drum else 0.4)), cope, unit)
    if tall:
        title = f"Side: {leaning}" if cope.rake else "From the side: upright legs"
        _elevation(sheet.view(title, (0, 0.46, 0.54, 0.54)), cope, unit)
    cell = (0.54, 0, 0.46, 0.56 if drum else 1) if split < 1 else (0, 0.4, 1, 0.6)
    _corner(sheet.view(_corner_title(cope, unit), cell), cope, unit)
    if drum:
        _drum(sheet.view(_drum_title(cope, unit), (0.54, 0.56, 0.46, 0.44)), cope, unit)
    return sheet


def spoken_cope(cope, unit):
    """What a screen reader says of a cope: its sizes, and the results that have a meaning."""
    words = [
        f"A rail {given(cope, 'rail_thickness', unit)} thick between round legs {given(cope, 'leg_diameter', unit)} "
        f"across, {given(cope, 'leg_spacing', unit)} apart centre to centre."
    ]
    names = ["depth", "rail_length", "between"]
    names += ["rail_length_bottom"] if cope.rake and cope.has("rail_height") else []
    names += ["drum_gap"] if cope.has("drum_diameter") else []
    told = [name for name in names if not answer(cope, name, unit)[1]]
    words.append(told_results(cope, told, unit))
    return " ".join(words)


def _use(cope, unit):
    """How the two ends are made, in sentences for the card."""
    saw = "Saw the rail square, tip to tip."
    if cope.rake:
        blank = f"as long as the {'bottom' if cope.rake > 0 else 'top'} edge, tip to tip"
        if cope.rake > 0 and not cope.has("rail_height"):
            blank = "longer than the top edge, tip to tip, by twice the rail's height times the tangent of the rake"
        saw = f"Saw the blank square, {blank}. Mark by the trace, then saw both ends aslant by the rake."
    lean = "towards the rail" if cope.rake > 0 else "away from the rail"
    drum = f"Top edge up, the drum leaning by the rake, its top {lean}." if cope.rake else "Set the drum upright."
    where = "in line with the drum's centre"
    if cope.offset:
        beside = given(cope, "offset", unit).removeprefix("-")
        longest = "inner side, towards the neighbouring rails," if cope.offset > 0 else "outer side"
        where = f"{beside} beside the drum's centre, so that the {longest} keeps the longest tips"
    fence = f"Fence the rail with its centre line {where}."
    other = " The right ends need the fence on the other side: set it anew for them." if cope.offset else ""
    return f"{saw} {drum} {fence} Hollow until the sawn end just vanishes at the longest tips.{other}"


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
    """The leg cut level, an ellipse where it leans, with its growth rings and its centre."""
    radius, pith = cope.leg_diameter / 2, EndGrain((x + 0.08 * cope.leg_diameter, 0.11 * cope.leg_diameter))
    if cope.rake == 0:
        view.area("leg", Circle("leg", (x, 0), radius), grain=pith)
    else:
        turns = [2 * math.pi * k / 96 for k in range(96)]
        stretch = radius / math.cos(cope.rake)
        view.area("leg", tuple((x + stretch * math.cos(a), radius * math.sin(a)) for a in turns), grain=pith)
    view.cross("centre", (x, 0), 1.2 * radius)


def _plan(view, cope, unit):
    """The whole rail and both legs, cut level at the rail's top edge."""
    low, high = rail_sides(cope)
    span, curve = cope.leg_spacing, leg_curve(cope, cope.leg_diameter / 2, low, high)
    tip = cope.tip_reach
    for x in (0.0, span):
        _leg(view, cope, x)
    for way, at in ((-1, 0.0), (1, span)):
        view.area("waste", tuple((at + way * x, y) for x, y in _hollow(cope, curve)))
    right = [(span + x, y) for x, y in curve]
    left = [(-x, y) for x, y in reversed(curve)]
    view.area("kept", (*right, *left), grain=0.0)
    view.dimension((0, 0), (span, 0), f"leg spacing {given(cope, 'leg_spacing', unit)}", "above")
    far = low if cope.offset >= 0 else high
    view.dimension((tip, far), (span - tip, far), f"tip to tip {found(cope, 'rail_length', unit)}")
    if not answer(cope, "between")[1]:
        skin = (span - cope.between) / 2
        text = f"between the legs {found(cope, 'between', unit)}"
        view.dimension((skin, 0), (span - skin, 0), text)


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
        view.area("leg", tuple(placed(x, z, way) for x, z in corners), grain=UPRIGHT + way * cope.rake)
        view.line("centre", placed(0, 1.3 * above, way), placed(0, 1.05 * below, way))
    tips = [placed(-tip, z, way) for way, z in ((-1, 0), (1, 0), (1, -height), (-1, -height))]
    view.area("kept", tips, grain=0.0)
    for way in (-1, 1):
        view.line("hidden", placed(-hollow, 0, way), placed(-hollow, -height, way))
    if cope.rake:
        view.dimension(tips[0], tips[1], f"top, tip to tip {found(cope, 'rail_length', unit)}", "above")
        view.dimension(tips[3], tips[2], f"bottom, tip to tip {found(cope, 'rail_length_bottom', unit)}")
    else:
        view.dimension(tips[3], tips[2], f"tip to tip {found(cope, 'rail_length', unit)}")
    view.dimension(tips[2], tips[1], given(cope, "rail_height", unit), "right")


def _corner_title(cope, unit):
    if cope.rake != 0:
        offset = f", offset {given(cope, 'offset', unit)}" if cope.offset else ", cut level"
        return f"One end, leg Ø {given(cope, 'leg_diameter', unit)}{offset}"
    if cope.neighbour_gap == 0:
        return "One corner: the tips collide"
    return f"One corner: tips {found(cope, 'neighbour_gap', unit)} apart"


def _drum_title(cope, unit):
    if found(cope, "drum_gap", unit) == cope.model.results()["drum_gap"].write(0.0, unit):
        return "From the drum: no gap"
    where = "at the tips" if cope.drum_diameter > cope.leg_diameter else "in the hollow"
    return f"From the drum: {found(cope, 'drum_gap', unit)} open {where}"


def _corner(view, cope, unit):
    """One end enlarged; on upright legs with the neighbouring rail at a right angle."""
    low, high = rail_sides(cope)
    radius, tip = cope.leg_diameter / 2, cope.tip_reach
    back = -cope.hollow_reach - 0.9 * radius
    curve = leg_curve(cope, radius, low, high)
    _leg(view, cope)
    if cope.rake == 0:
        view.area("neighbour", tuple((y, x) for x, y in [*curve, (back, high), (back, low)]), grain=UPRIGHT)
    view.area("waste", _hollow(cope, curve))
    view.area("kept", (*curve, (back, high), (back, low)), grain=0.0)
    if cope.rake == 0:
        _tips(view, cope, low, high)
    view.line("centre", (back, -cope.offset), (0, -cope.offset))
    near = min(max(0.0, low), high)
    text = f"cope depth {found(cope, 'depth', unit)}"
    view.dimension((-cope.hollow_reach, near), (-tip, low if cope.offset >= 0 else high), text, "above")
    view.dimension((back, low), (back, high), f"rail {given(cope, 'rail_thickness', unit)}", "left")
    if cope.rake == 0:
        view.dimension((-radius, 0), (radius, 0), f"leg Ø {given(cope, 'leg_diameter', unit)}")
    if cope.offset:
        named = "offset " if cope.rake == 0 else ""
        view.dimension((0, 0), (0, -cope.offset), named + given(cope, "offset", unit), "right")


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
    _leg(view, cope)
    view.area("gap", (*leg, *reversed(made)))
    view.area("kept", (*made, (back, high), (back, low)), grain=0.0)
    if cope.rake == 0:
        reach = min(0.98, (cope.far_edge + 0.5 * radius) / (cope.drum_diameter / 2))
        view.arc("drum", (push, 0), cope.drum_diameter / 2, math.pi - math.asin(reach), math.pi + math.asin(reach))
    view.dimension((0, -radius), (0, radius), f"leg Ø {given(cope, 'leg_diameter', unit)}", "right")
