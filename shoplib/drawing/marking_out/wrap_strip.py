"""Plates for the wrapped strip: where the rails point, the leg's end with its marks, the strip laid flat."""

import math

from shoplib.drawing.marking_out.strip_flat import flat_strip, second_line, strip_height, tell_flat
from shoplib.drawing.marking_out.strip_template import spoken_strip, strip_use
from shoplib.drawing.parts import found_in_full as found
from shoplib.drawing.parts import given
from shoplib.drawing.sheet import Circle, EndGrain, Sheet, rectangle

UPRIGHT = math.pi / 2


def draw_wrap_strip(strip, unit="mm"):
    """From above the two rails of a leg, one of them off by the slip; the leg's end; the strip laid flat."""
    sheet = Sheet("Wrap strip", spoken_strip(strip, unit), use=strip_use(strip))
    miss = found(strip, "rail_miss", unit)
    title = f"From above: misses by {miss}" if strip.strip_error > 0 else "From above: both rails right"
    _plan(sheet.view(title, (0, 0, 0.48, 0.62)), strip, unit)
    _end(sheet.view("The leg's end, marked", (0, 0.62, 0.48, 0.38)), strip, unit)
    view = sheet.view("Strip laid flat, ink up", (0.48, 0, 0.52, 1))
    flat_strip(view, strip)
    _drift(view, strip)
    tell_flat(view, strip, unit, "above")  # below it the leaders of the lowest heights come down
    return sheet


def _leg(view, centre, radius):
    x, y = centre
    view.area("leg", Circle("leg", centre, radius), grain=EndGrain((x - 0.3 * radius, y - 0.25 * radius)))


def _plan(view, strip, unit):
    """Three legs of a stand from above: the first rail lies true, the second points beside its leg's centre."""
    span, radius, way = strip.leg_spacing, strip.leg_diameter / 2, _way(strip)
    miss = span * math.tan(strip.angle_error)
    view.area("rail", rectangle(0, -0.55 * radius, span, 0.55 * radius), grain=0.0)
    for centre in ((0.0, 0.0), (span, 0.0), (0.0, way * span)):
        _leg(view, centre, radius)
    view.line("centre", (0, 0), (0, way * span))
    if strip.strip_error > 0:
        view.line("astray", (0, 0), (-miss, way * span), arrow=True)
        text = f"misses by {found(strip, 'rail_miss', unit)}"
        view.dimension((-miss, way * span), (0, way * span), text, "above" if way > 0 else "below")
    view.note((0, 0.5 * way * span), "second rail", "right")
    text = f"leg spacing {given(strip, 'leg_spacing', unit)}"
    view.dimension((0, 0), (span, 0), text, "below" if way > 0 else "above")


def _way(strip):
    """Up the sheet where the second rail is to the right, seen facing the first, else down."""
    return 1 if second_line(strip) > 0 else -1


def _end(view, strip, unit):
    """The leg's end at a larger scale: the first rail's mark on the right, the second's a quarter on, and its slip."""
    radius, way = strip.leg_diameter / 2, _way(strip)
    turned = way * (UPRIGHT + strip.angle_error)
    _leg(view, (0.0, 0.0), radius)
    for angle in (0.0, way * UPRIGHT):
        view.line("drawn", _round(0.8 * radius, angle), _round(1.15 * radius, angle))
    if strip.strip_error > 0:
        view.line("astray", (0.0, 0.0), _round(1.3 * radius, turned))
        view.note(_round(1.2 * radius, turned), f"second rail\n{found(strip, 'angle_error', unit)} off", "left")
    else:
        view.note(_round(radius, turned), "second rail", "left")
    view.note(_round(radius, 0.0), "first rail", "right")
    side = "below" if way > 0 else "above"
    view.dimension((-radius, 0), (radius, 0), f"leg Ø {given(strip, 'leg_diameter', unit)}", side)


def _round(radius, angle):
    return radius * math.cos(angle), radius * math.sin(angle)


def _drift(view, strip):
    """The line along the leg as it drifts from the upper rail to the lower one."""
    if strip.line_drift == 0:
        return
    top = -strip.upper_rail if strip.has("upper_rail") else 0.0
    low = -strip.lower_rail if strip.has("lower_rail") else -strip_height(strip)
    view.line("astray", (0, top), (strip.line_drift, low))
