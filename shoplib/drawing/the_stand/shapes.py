"""What several views of the stand draw: a tray from the side, a leg with its foot, a rod that meets a round leg."""

import math

from shoplib.drawing.balance import balance
from shoplib.drawing.casters.shapes import caster
from shoplib.drawing.sheet import rectangle

UPRIGHT = math.pi / 2  # grain of what stands upright on the sheet
PIECES = 6  # of half the curve in which a rod meets a leg
MARK = 0.032  # of the stand's height: the radius of a mark for a centre of gravity


def tray(view, stand, middle, top):
    """A tray that lies on rails with this top edge: its rim, and the panel in it as hidden edges."""
    low, wide, panel = top + stand.panel_proud, stand.tray_diameter / 2, stand.panel_diameter / 2
    inside, face = stand.rim_inside / 2, top + stand.panel_thickness
    if stand.panel_proud:
        view.area("panel", rectangle(middle - panel, top, middle + panel, low))
    view.area("rim", rectangle(middle - wide, low, middle + wide, low + stand.rim_height), grain=0.0)
    view.line("hidden", (middle - panel, face), (middle + panel, face))
    for side in (-1, 1):
        view.line("hidden", (middle + side * panel, low), (middle + side * panel, face))
        view.line("hidden", (middle + side * inside, face), (middle + side * inside, low + stand.rim_height))


def rail(view, stand, middle, top):
    """A rail with this top edge: its face from tip to tip, over the legs' round."""
    half = stand.rail_length / 2
    view.area("rail", rectangle(middle - half, top - stand.rail_height, middle + half, top), grain=0.0)


def leg(view, stand, x, on_caster):
    """A leg about this centre line, shortened where a caster stands under it."""
    half, foot = stand.leg_diameter / 2, stand.caster_height if on_caster else 0.0
    if on_caster:
        caster(view, (x, foot), foot)
    view.area("leg", rectangle(x - half, foot, x + half, stand.stand_height), grain=UPRIGHT)


def on_the_leg(radius, of_rod, offset):
    """How far beyond a leg's centre line the side of a rod meets its skin, this far above or below the rod's middle."""
    beside = of_rod**2 - offset**2
    return math.sqrt(max(radius**2 - beside, 0.0))


def rod(view, layer, stand, end, of_rod):
    """A level rod from the skin of the leg at the bar's end out to `end`, seen from the side."""
    leg_radius, level = stand.leg_diameter / 2, stand.bar_height
    offsets = [of_rod * k / PIECES for k in range(-PIECES, PIECES + 1)]
    curve = [(stand.leg_spacing + on_the_leg(leg_radius, of_rod, each), level + each) for each in offsets]
    view.area(layer, ((end, level - of_rod), *curve, (end, level + of_rod)), grain=0.0)


def marks(view, stand, places):
    """The centres of gravity, empty and loaded, at these places."""
    for name, place in zip(("empty", "loaded"), places):
        view.shapes += balance(name, place, MARK * stand.overall_height)


def floor(view, left, right):
    view.line("floor", (left, 0.0), (right, 0.0))
