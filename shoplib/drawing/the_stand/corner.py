"""One leg from above and the tray's rim beside it, along the diagonal of the legs: there the two come closest."""

import math

from shoplib.drawing.parts import found, given
from shoplib.drawing.sheet import Circle, EndGrain
from shoplib.drawing.the_stand.plan import PIECES, sector

HIGH = 1.5  # of the leg's diameter: how far the rim is drawn to each side
BACK = 1.6  # the same of the rails' length


def draw_corner(view, stand, unit):
    """The leg's centre at the origin, the tray's middle level to the left of it."""
    radius, half = stand.leg_diameter / 2, stand.tray_diameter / 2
    for way in (-1, 1):
        _rail(view, stand, math.pi + way * math.pi / 4)
    middle = (-half - stand.tray_clear - radius, 0.0)
    reach = math.asin(min(HIGH * stand.leg_diameter / half, 0.6))
    _rim(view, stand, middle, reach)
    view.area("leg", Circle("leg", (0.0, 0.0), radius), grain=EndGrain((0.3 * radius, -0.4 * radius)))
    view.line("centre", (-radius - stand.tray_clear - 1.2 * stand.rim_width, 0.0), (1.2 * radius, 0.0))
    view.dimension((-radius - stand.tray_clear, 0), (-radius, 0), f"clear {found(stand, 'tray_clear', unit)}")
    view.dimension((-radius, 0), (radius, 0), f"leg Ø {given(stand, 'leg_diameter', unit)}", "above")


def _rail(view, stand, way):
    """The end of a rail, hollowed to the leg, that runs off in this direction."""
    half, radius = stand.rail_thickness / 2, stand.leg_diameter / 2
    c, s = math.cos(way), math.sin(way)
    offsets = [half * k / PIECES for k in range(-PIECES, PIECES + 1)]
    points = [(math.sqrt(radius**2 - each**2), each) for each in offsets]
    far = BACK * stand.leg_diameter
    points += [(far, half), (far, -half)]
    view.area("rail", tuple((x * c - y * s, x * s + y * c) for x, y in points), grain=way)


def _rim(view, stand, middle, reach):
    """The rim beside the leg, a joint on the diagonal where its staves happen to meet there."""
    if stand.ring_route == "boards":
        view.area("rim", sector(stand, middle, -reach, 2 * reach), grain=-math.pi / 4)
        return
    view.area("rim", sector(stand, middle, -reach, 2 * reach), grain=math.pi / 2)
