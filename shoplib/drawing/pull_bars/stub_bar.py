"""The bar on two stubs: from above, cut through a stub, and under its load; the strip that marks the bar."""

import math

from shoplib.drawing.parts import found_in_full as found
from shoplib.drawing.parts import told_results
from shoplib.drawing.sheet import Circle, EndGrain, Sheet, rectangle
from shoplib.model import given_in_full as given
from shoplib.model import length_in_full

UPRIGHT = math.pi / 2  # grain of what stands upright on the sheet
BOW = 0.05  # of the width: how far a bar under load is drawn out of line
CLEAR = 4.0  # mm of the strip beside the holes


def draw_stub_bar(bar, unit="mm"):
    """The bar on its legs from above, a cut through one stub, and what either way of lifting asks of it."""
    sheet = Sheet("Pull bar on stubs", _spoken(bar, unit), use=_use(bar, unit))
    _from_above(sheet.view("From above", (0, 0, 0.52, 0.5)), bar, unit)
    _cut(sheet.view("Cut across the bar, through a stub", (0.54, 0, 0.46, 0.6)), bar, unit)
    bend = bar.model.results()["bar_sag"].write(bar.bar_sag, unit)
    title = f"In the middle: bar {found(bar, 'bar_share', unit)}, bend {bend}, drawn larger"
    _lifted(sheet.view(title, (0, 0.5, 0.54, 0.5)), bar, unit)
    title = f"Over one stub: stub at {found(bar, 'stub_share', unit)}"
    _over_stub(sheet.view(title, (0.54, 0.6, 0.46, 0.4)), bar, unit)
    return sheet


def _spoken(bar, unit):
    words = (
        f"A round bar {given(bar, 'bar_diameter', unit)} across on two stubs {given(bar, 'stub_diameter', unit)} "
        f"across, {given(bar, 'width', unit)} apart, with {given(bar, 'hand_room', unit)} of room for the hand."
    )
    names = [name for name in bar.on_card() if name != "leg_wall"]
    return f"{words} {told_results(bar, names, unit)}"


def _use(bar, unit):
    """How the bar is made and put on, in sentences for the card."""
    depth, leg = given(bar, "bar_depth", unit), given(bar, "leg_depth", unit)
    return (
        f"Drill the legs {leg} deep, in the cradle, before the frames are glued; both holes at one height and side. "
        "Glue the frames, push the stubs in dry and measure between their axes: so far apart the bar is drilled, even "
        f"where it is not {given(bar, 'width', unit)}. Draw a line along the bar, lay the bar in a V with the line up, "
        f"and drill {depth} deep, measured at the crest of the round from the drill's edges, not from its point. Saw "
        "the stubs square, dry fit, then glue the stubs into the bar and the whole into the legs."
    )


def leg_radius(bar):
    """The leg's radius; where it was left out, so much as shows the hole."""
    return bar.leg_diameter / 2 if bar.has("leg_diameter") else max(0.92 * bar.bar_diameter, 0.65 * bar.leg_depth)


def _from_above(view, bar, unit):
    half, stub, leg, surface = bar.bar_diameter / 2, bar.stub_diameter / 2, leg_radius(bar), -_bar_axis(bar)
    for x in (0.0, bar.width):
        view.area("leg", Circle("leg", (x, surface - leg), leg), grain=EndGrain((x - 0.3 * leg, surface - 1.2 * leg)))
        view.area("stub", rectangle(x - stub, surface, x + stub, -half), grain=UPRIGHT)
    left, right = -bar.overhang, bar.width + bar.overhang
    view.area("bar", rectangle(left, -half, right, half), grain=0.0)
    for x in (0.0, bar.width):
        for side in (-stub, stub):
            view.line("hidden", (x + side, -half), (x + side, bar.bar_depth - half))
        view.line("hidden", (x - stub, bar.bar_depth - half), (x + stub, bar.bar_depth - half))
        view.line("centre", (x, 1.3 * half), (x, surface - 0.3 * leg))
    view.dimension((0, half), (bar.width, half), f"width {given(bar, 'width', unit)}", "above")
    view.dimension((left, half), (right, half), f"bar {found(bar, 'bar_length', unit)}", "above")
    view.dimension((bar.width, -half), (right, -half), f"overhang {given(bar, 'overhang', unit)}")
    view.dimension((left, surface), (left, -half), f"room {given(bar, 'hand_room', unit)}", "left")


def _bar_axis(bar):
    """From the leg's surface to the bar's centre line."""
    return bar.hand_room + bar.bar_diameter / 2


def _side(view, bar, tall):
    """Leg, stub and bar from the side, the leg's surface at x = 0; returns where the leg ends at the back."""
    back = -2 * leg_radius(bar)
    radius, axis = bar.bar_diameter / 2, _bar_axis(bar)
    view.area("leg", rectangle(back, -tall, 0, tall), grain=UPRIGHT)
    rings = EndGrain((axis + 0.2 * radius, -0.9 * radius))
    view.area("bar", Circle("bar", (axis, 0), radius), grain=rings)
    return back


def _cut(view, bar, unit):
    """Both holes with the stub in them and the room for glue at its ends."""
    stub, room, clear = bar.stub_diameter / 2, bar.hand_room, bar.end_clearance
    tall = max(1.1 * bar.bar_diameter / 2, 1.6 * stub)
    back, end = _side(view, bar, tall), room + bar.bar_depth
    view.area("hole", rectangle(-bar.leg_depth, -stub, 0, stub))
    view.area("hole", rectangle(room + bar.shoulder, -stub, end, stub))
    view.area("stub", rectangle(clear - bar.leg_depth, -stub, end - clear, stub), grain=0.0)
    if bar.drill_point:
        for tip, way in ((-bar.leg_depth, -1), (end, 1)):
            _path(view, "hidden", [(tip, 0.3 * stub), (tip + way * bar.drill_point, 0), (tip, -0.3 * stub)])
    view.line("centre", (1.03 * back, 0), (room + 1.06 * bar.bar_diameter, 0))
    view.dimension((-bar.leg_depth, -stub), (0, -stub), f"leg {given(bar, 'leg_depth', unit)}")
    view.dimension((0, -stub), (room, -stub), f"room {given(bar, 'hand_room', unit)}", row=1)
    view.dimension((room, -stub), (end, -stub), f"bar {given(bar, 'bar_depth', unit)}", row=2)
    text = f"stub {found(bar, 'stub_length', unit)}"
    view.dimension((clear - bar.leg_depth, stub), (end - clear, stub), text, "above")
    far = room + bar.bar_diameter
    view.dimension((far - bar.bar_wall, 0), (far, 0), f"wall {found(bar, 'bar_wall', unit)}", "above")
    view.dimension((room, 0), (room + bar.shoulder, stub), f"sides {found(bar, 'shoulder', unit)} less", "above")
    view.dimension((back, -stub), (back, stub), f"Ø {given(bar, 'stub_diameter', unit)}", "left")
    view.dimension(
        (far - bar.bar_diameter / 2, -bar.bar_diameter / 2), (far - bar.bar_diameter / 2, bar.bar_diameter / 2),
        f"Ø {given(bar, 'bar_diameter', unit)}", "right",
    )


def _path(view, layer, points):
    for start, end in zip(points, points[1:]):
        view.line(layer, start, end)


def bowed(bar, pieces=32):
    """The bar's centre line under a load in its middle, bent up and drawn larger: straight beyond the stubs."""
    rise = BOW * bar.width
    points = [(bar.width * k / pieces, 0.0) for k in range(pieces + 1)]
    inner = [(x, rise * _bow(min(x, bar.width - x) / bar.width)) for x, _ in points]
    slope = 3 * rise / bar.width
    return [(-bar.overhang, -slope * bar.overhang), *inner, (bar.width + bar.overhang, -slope * bar.overhang)]


def _bow(share):
    """The bend of a loose beam at this share of its length, over the bend in its middle (up to a half)."""
    return 3 * share - 4 * share**3


def _lifted(view, bar, unit):
    """The bar from the front, legs behind it, the hand lifting in its middle."""
    half, leg, rise = bar.bar_diameter / 2, leg_radius(bar), BOW * bar.width
    line, tall = bowed(bar), max(2.6 * bar.bar_diameter, 0.16 * bar.width)
    for x in (0.0, bar.width):
        view.area("leg", rectangle(x - leg, -tall, x + leg, tall), grain=UPRIGHT)
    outline = (*((x, y + half) for x, y in line), *((x, y - half) for x, y in reversed(line)))
    view.area("bar", outline, grain=0.0)
    for x in (0.0, bar.width):
        view.area("stub", Circle("stub", (x, 0), bar.stub_diameter / 2), grain=EndGrain((x - half, -half)))
    middle = (bar.width / 2, rise + half)
    view.line("force", middle, (middle[0], middle[1] + 0.8 * tall), arrow=True)
    view.note((bar.width / 2, rise + half + 0.4 * tall), f"{given(bar, 'load', unit)}", "right")
    view.dimension((0, -tall), (bar.width, -tall), f"between the stubs {given(bar, 'width', unit)}")


def _over_stub(view, bar, unit):
    """The hand over one stub: the way from the leg's surface to the pull bends it."""
    stub, axis, radius = bar.stub_diameter / 2, _bar_axis(bar), bar.bar_diameter / 2
    back = -2 * leg_radius(bar)
    tall = max(1.5 * radius, 1.6 * stub)
    view.area("leg", rectangle(back, -tall, 0, tall), grain=UPRIGHT)
    view.area("stub", rectangle(0, -stub, bar.hand_room, stub), grain=0.0)
    view.area("bar", Circle("bar", (axis, 0), radius), grain=EndGrain((axis + 0.2 * radius, -0.9 * radius)))
    view.line("force", (axis, 0), (axis, 2.2 * tall), arrow=True)
    view.note((axis, 1.5 * tall), f"{given(bar, 'load', unit)}", "right")
    view.dimension((0, -stub), (axis, 0), f"to the pull {length_in_full(axis, unit)}")


# On paper ---------------------------------------------------------------------------------------------------------


def template_stub_bar(bar, unit="mm"):
    """A strip along the bar with both holes: to lay on a line along the round bar."""
    spoken = (
        f"A strip {found(bar, 'bar_length', unit)} long with two holes of {given(bar, 'stub_diameter', unit)}, "
        f"{given(bar, 'width', unit)} apart, {given(bar, 'overhang', unit)} from the ends."
    )
    sheet = Sheet("Pull bar on stubs, strip", spoken)
    depth = given(bar, "bar_depth", unit)
    sheet.use = (
        "Print it for the width measured between the legs. Draw a line along the bar, lay the strip's long line on it, "
        f"ends flush, and prick both centres. Lay the bar in a V with the line up and drill {depth} deep, measured at "
        "the crest of the round. On the legs: both centres at one height, on the line that faces the bar, "
        f"{given(bar, 'leg_depth', unit)} deep."
    )
    view = sheet.view(f"Along the bar: drill {depth} deep")
    high, length, radius = bar.stub_diameter / 2 + CLEAR, bar.bar_length, bar.stub_diameter / 2
    view.area("paper", rectangle(0, -high, length, high))
    view.line("centre", (0, 0), (length, 0))
    for x in (bar.overhang, length - bar.overhang):
        view.area("hole", Circle("hole", (x, 0), radius))
        view.cross("centre", (x, 0), 1.3 * radius)
    view.dimension((0, -high), (bar.overhang, -high), given(bar, "overhang", unit))
    view.dimension((bar.overhang, -high), (length - bar.overhang, -high), f"width {given(bar, 'width', unit)}")
    view.dimension((0, -high), (length, -high), f"bar {found(bar, 'bar_length', unit)}")
    view.dimension((0, -radius), (0, radius), f"hole Ø {given(bar, 'stub_diameter', unit)}", "left")
    return sheet
