"""The stand from above: the trays' rim and panel, the legs' ends, the rails below, the bar."""

import math

from shoplib.drawing.parts import given
from shoplib.drawing.sheet import Circle, EndGrain, rectangle
from shoplib.drawing.the_stand.front import half_bar
from shoplib.drawing.the_stand.shapes import UPRIGHT
from shoplib.model import length_in_full

PIECES = 8  # of a cope's curve, and of half a stave's arc


def draw_plan(view, stand, unit):
    """The line of the casters at x = 0, the middle of the legs at y = 0."""
    over = stand.pull_bar != "none" and stand.bar_height > stand.upper_rail_top
    middle = (stand.leg_spacing / 2, 0.0)
    rails(view, stand)
    if stand.pull_bar != "none" and not over:
        _bar(view, stand)
    _rim(view, stand, middle)
    view.area("panel", Circle("panel", middle, stand.rim_inside / 2), grain=0.0)
    _hidden_rails(view, stand)
    legs(view, stand)
    if over:
        _bar(view, stand)
    view.dimension((0, -stand.leg_spacing / 2), (stand.leg_spacing, -stand.leg_spacing / 2),
                   f"legs {given(stand, 'leg_spacing', unit)}")  # fmt: skip
    if stand.pull_bar != "none":
        long, axis = half_bar(stand), stand.handle_reach
        view.dimension((axis, -long), (axis, long), f"bar {length_in_full(2 * long, unit)}", "right")


def legs(view, stand):
    """The four legs on their ends."""
    half, radius = stand.leg_spacing / 2, stand.leg_diameter / 2
    for x in (0.0, stand.leg_spacing):
        for y in (-half, half):
            rings = EndGrain((x + 0.3 * radius, y - 0.4 * radius))
            view.area("leg", Circle("leg", (x, y), radius), grain=rings)


def coped(stand, centre):
    """Outline of a rail along x from above, between the legs at (0, y) and (spacing, y), y the centre."""
    half, radius = stand.rail_thickness / 2, stand.leg_diameter / 2
    offsets = [half * k / PIECES for k in range(-PIECES, PIECES + 1)]
    left = [(math.sqrt(radius**2 - each**2), centre + each) for each in offsets]
    return (*left, *((stand.leg_spacing - x, y) for x, y in reversed(left)))


def rails(view, stand):
    """The four upper rails, hollowed at their ends."""
    half, middle = stand.leg_spacing / 2, stand.leg_spacing / 2
    for side in (-half, half):
        view.area("rail", coped(stand, side), grain=0.0)
    for side in (-half, half):
        turned = tuple((middle + y, x - middle) for x, y in coped(stand, side))
        view.area("rail", turned, grain=UPRIGHT)


def _hidden_rails(view, stand):
    """The rails' edges under the tray, as far as the tray covers them."""
    middle, radius = stand.leg_spacing / 2, stand.tray_diameter / 2
    for edge in (-stand.rail_thickness / 2, stand.rail_thickness / 2):
        beside = middle + edge
        if beside < radius:
            reach = min(math.sqrt(radius**2 - beside**2), middle - stand.rail_thickness / 2)
            for way in (-1, 1):
                view.line("hidden", (middle - reach, way * beside), (middle + reach, way * beside))
                view.line("hidden", (middle + way * beside, -reach), (middle + way * beside, reach))


def _rim(view, stand, middle):
    """The rim from above: staves with their joints, each with its own grain; of boards all one way."""
    if stand.ring_route == "boards":
        view.area("rim", Circle("rim", middle, stand.tray_diameter / 2), Circle("rim", middle, stand.rim_inside / 2),
                  grain=0.0)  # fmt: skip
        return
    turn = 2 * math.pi / stand.staves
    for number in range(stand.staves):
        view.area("rim", sector(stand, middle, number * turn, turn), grain=(number + 0.5) * turn + UPRIGHT)


def sector(stand, middle, start, turn):
    """Outline of the piece of the rim from this angle on, so far round."""
    (x, y), outer, inner = middle, stand.tray_diameter / 2, stand.rim_inside / 2
    pieces = max(2, math.ceil(2 * PIECES * turn))
    turns = [start + turn * k / pieces for k in range(pieces + 1)]
    ways = [(math.cos(a), math.sin(a)) for a in turns]
    return (
        *((x + outer * c, y + outer * s) for c, s in ways), *((x + inner * c, y + inner * s) for c, s in reversed(ways))
    )


def _bar(view, stand):
    """The bar and what holds it, beyond the legs at the right."""
    axis, half = stand.handle_reach, stand.leg_spacing / 2
    radius, long = stand.bar_diameter / 2, half_bar(stand)
    if stand.pull_bar == "stubs":
        stub = stand.stub_diameter / 2
        for y in (-half, half):
            view.area("stub", (*_skin(stand, stub, y), (axis - radius, y + stub), (axis - radius, y - stub)), grain=0.0)
        view.area("bar", rectangle(axis - radius, -long, axis + radius, long), grain=UPRIGHT)
        return
    inner, outer = half - radius, half + radius
    view.area("bar", ((axis - radius, -inner), (axis + radius, -outer), (axis + radius, outer), (axis - radius, inner)),
              grain=UPRIGHT)  # fmt: skip
    for way in (-1, 1):
        curve = _skin(stand, radius, way * half)
        ends = ((axis + radius, way * outer), (axis - radius, way * inner))
        view.area("bar", (*curve, *(ends if way > 0 else ends[::-1])), grain=0.0)


def _skin(stand, of_rod, y):
    """The curve in which a rod meets the leg at the bar's end, seen from above, from its lower side to its upper."""
    radius = stand.leg_diameter / 2
    offsets = [of_rod * k / PIECES for k in range(-PIECES, PIECES + 1)]
    return [(stand.leg_spacing + math.sqrt(radius**2 - each**2), y + each) for each in offsets]
