"""The full-size trace of a coped rail of rectangular section: both ends, to lay on the wood and fold over its side."""

import math

from shoplib.drawing.coping.cope import leg_curve, rail_sides, spoken_cope
from shoplib.drawing.parts import found_in_full as found
from shoplib.drawing.parts import given
from shoplib.drawing.sheet import Sheet

STUB = 25.0  # mm of rail behind the hollow
BREAK = 12.0  # mm left open where the rail's middle is left out


def template_cope(cope, unit="mm"):
    """Both ends at full size, the rail's middle left out: the top edge, and the side to fold over where it is known."""
    sheet = Sheet("Cope, trace for both ends", spoken_cope(cope, unit), use=_use(cope))
    view = sheet.view("The rail's ends from above, its inner side towards you")
    low, high = rail_sides(cope)
    height = cope.rail_height if cope.has("rail_height") else 0.0
    out = height * math.tan(cope.rake)
    end, back = max(0.0, out), -cope.depth - STUB
    curve = [(x + cope.tip_reach, y) for x, y in leg_curve(cope, cope.leg_diameter / 2, low, high, 120)]
    far, way = (low, -1) if cope.offset >= 0 else (high, 1)
    for turn in (1, -1):
        _trace_end(view, turn, [curve, (low, high), (far, far + way * height), (0.0, out), end, back])
    text = f"cope depth {found(cope, 'depth', unit)}"
    view.dimension((-cope.depth, min(max(0.0, low), high)), (0, far), text, "above" if way < 0 else "below")
    _names(view, cope, unit, (far, far + way * height), (2 * back - BREAK - end, end))
    return sheet


def _use(cope):
    """How the sheet is used, in sentences for the foot of the page."""
    side = "inner" if cope.offset >= 0 else "outer"
    fold = f" and fold it down along the line named fold here, over the {side} side, which has the longest tips"
    if not cope.has("rail_height"):
        fold = f", the {side} side at its own edge: there are the longest tips" if cope.offset else ""
    square = " while it is still square" if cope.rake else ""
    return (
        "Inner side: the one towards the neighbouring rails; left and right as you look at it. Cut round both ends, "
        f"lay each on the rail's top edge with its outermost square line on the sawn end{square}{fold}. Draw or "
        "prick the line through. What is crossed goes."
    )


def _names(view, cope, unit, flap, ends):
    """Which end, which edge and which side is which, beside the sheet."""
    (low, high), (fold, foot), (left, right) = rail_sides(cope), flap, ends
    for x, side in ((left, "left"), (right, "right")):
        text = f"{side} end, leg no. ___:\ntop edge, {given(cope, 'rail_thickness', unit)} thick"
        view.note((x, low + 0.8 * (high - low)), text, side)
        if foot != fold:
            name = "inner" if fold == low else "outer"
            text = f"{side} end:\n{name} side, {given(cope, 'rail_height', unit)} high"
            view.note((x, (fold + foot) / 2), text, side)
    if foot != fold:
        view.note((left, fold), "fold here", "left")
    for y, name in ((low, "inner side"), (high, "outer side, show face")):
        if foot == fold or y != fold:
            view.note((left, y), name, "left")
    view.note((right, -cope.offset), "rail's centre line", "right")
    if cope.offset and low < 0 < high:
        view.note((right, 0), "legs' centre line", "right")


def _trace_end(view, turn, parts):
    """One end: its longest tip at nothing, the rail towards the middle; the left end is the right one's twin."""
    curve, (low, high), (fold, foot), (tip, out), end, back = parts
    middle = back - BREAK / 2

    def placed(points):
        return tuple((x, y) if turn > 0 else (2 * middle - x, y) for x, y in points)

    view.area("waste", placed([*curve, (end, high), (end, low)]))
    view.area("kept", placed([*curve, (back, high), (back, low)]), grain=0.0)
    if foot != fold:
        view.area("waste", placed([(tip, fold), (end, fold), (end, foot), (out, foot)]))
        view.area("kept", placed([(back, fold), (tip, fold), (out, foot), (back, foot)]), grain=0.0)
        view.line("hidden", *placed([(back, fold), (end, fold)]))
    for y in dict.fromkeys(((low + high) / 2, 0.0)):
        if low < y < high:
            view.line("centre", *placed([(back, y), (end, y)]))
