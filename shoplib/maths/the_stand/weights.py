"""What the parts weigh and where: volumes of the finished parts, their timbers' densities, the casters.

Left out: glue and finish, the clearances at the dowels' and stubs' ends, the slivers where a round stub or arm meets a
round leg or bar, counterbores (the screws and washers in them weigh about as much), roundings of edges.
"""

from typing import NamedTuple

from shoplib.maths.functions import asin, sqrt
from shoplib.maths.wood import density
from shoplib.model import ShapeError

CUBIC_METRE = 1e9  # mm3


class Piece(NamedTuple):
    """All parts of one kind: how many, wood in one of them (mm3), and its centre of gravity.

    `height` above the floor and `along` from the line of the casters, taken together where parts lie apart.
    """

    name: str
    count: int
    volume: object
    timber: str
    height: object
    along: object


def between_arcs(width, radius):
    """Area of a strip as wide as the rail from the leg's centre line to its skin: under the circle, over `width`.

    Elementary: the integral of sqrt(R^2 - y^2) from -w/2 to w/2.
    """
    half = width / 2
    return half * sqrt(radius**2 - half**2) + radius**2 * asin(half / radius)


def pieces(stand):
    """The wooden parts of the stand."""
    found = [*_legs(stand), *_rails(stand)]
    for top in stand.rail_tops:
        found += _tray(stand, top)
    return tuple(found + list(_bar(stand)))


def _legs(stand):
    section = stand.pi * stand.leg_diameter**2 / 4
    hole = stand.pi * stand.caster_hole**2 / 4 * stand.caster_hole_depth
    length, wood = stand.shortened_leg, section * stand.shortened_leg
    middle, bored = stand.caster_height + length / 2, stand.caster_height + stand.caster_hole_depth / 2
    height = (wood * middle - hole * bored) / (wood - hole)
    far = stand.leg_spacing
    along = 0 * far if stand.casters == 2 else far / 2
    yield Piece("leg with a caster", stand.casters, wood - hole, stand.timber, height, along)
    if stand.casters == 2:
        yield Piece("plain leg", 2, section * stand.stand_height, stand.timber, stand.stand_height / 2, far)


def _rails(stand):
    """Both ends hollowed: the legs' circles take their share of the rail's plan."""
    hollow = between_arcs(stand.rail_thickness, stand.leg_diameter / 2)
    volume = stand.rail_height * (stand.rail_thickness * stand.leg_spacing - 2 * hollow)
    for top in stand.rail_tops:
        yield Piece("rail", 4, volume, stand.timber, top - stand.rail_height / 2, stand.leg_spacing / 2)


def _tray(stand, top):
    """A rim less its rebate, and the panel that lies on the rails."""
    ring = stand.pi / 4 * (stand.tray_diameter**2 - stand.rim_inside**2)
    step = stand.pi / 4 * (stand.rebate_diameter**2 - stand.rim_inside**2)
    whole, cut = ring * stand.rim_height, step * stand.rebate_depth
    foot, middle = top + stand.panel_proud, stand.leg_spacing / 2
    height = foot + (whole * stand.rim_height / 2 - cut * stand.rebate_depth / 2) / (whole - cut)
    yield Piece("tray rim", 1, whole - cut, stand.timber, height, middle)
    disc = stand.pi / 4 * stand.panel_diameter**2 * stand.panel_thickness
    yield Piece("panel", 1, disc, stand.panel_timber, top + stand.panel_thickness / 2, middle)


def _bar(stand):
    """The bar and what holds it: stubs from skin to skin, or arms to the bar's centre line."""
    if stand.pull_bar == "none":
        return
    skin = stand.leg_spacing + stand.leg_diameter / 2
    section, level = stand.pi / 4 * stand.bar_diameter**2, stand.bar_height
    axis = skin + stand.bar_reach
    if stand.pull_bar == "stubs":
        yield Piece("pull bar", 1, section * stand.bar_length, stand.timber, level, axis)
        stub = stand.pi / 4 * stand.stub_diameter**2 * stand.hand_room
        yield Piece("stub", 2, stub, stand.timber, level, skin + stand.hand_room / 2)
    else:
        yield Piece("pull bar", 1, section * stand.bar_width, stand.timber, level, axis)
        yield Piece("arm of the bar", 2, section * stand.bar_reach, stand.timber, level, skin + stand.bar_reach / 2)


def surface(stand):
    """All faces that get finish, in mm2: both faces and the edge of each panel, the rims, legs, rails and bar.

    Ends are left out, and what lies on one another is counted once or not at all: the panel's edge in its rebate.
    """
    legs = stand.casters * stand.shortened_leg + (4 - stand.casters) * stand.stand_height
    found = stand.pi * stand.leg_diameter * legs
    around = 2 * (stand.rail_thickness + stand.rail_height)
    found += 4 * stand.trays * around * stand.rail_length
    panel = stand.pi * stand.panel_diameter * (stand.panel_diameter / 2 + stand.panel_thickness)
    ring = stand.pi / 2 * (stand.tray_diameter**2 - stand.rim_inside**2)
    walls = stand.pi * (stand.tray_diameter + stand.rim_inside) * stand.rim_height
    found += stand.trays * (panel + ring + walls)
    if stand.pull_bar == "none":
        return found
    long = stand.bar_length if stand.pull_bar == "stubs" else stand.bar_width + 2 * stand.bar_reach
    return found + stand.pi * stand.bar_diameter * long


class Load(NamedTuple):
    """A weight at its place."""

    mass: object
    height: object
    along: object


def loads(stand):
    """The parts and the casters as weights; wood at the moisture that it is worked at."""
    kilogram = stand.kilogram / (CUBIC_METRE * stand.millimetre**3)
    found = []
    for piece in pieces(stand):
        mass = piece.count * piece.volume * density(piece.timber, stand.moisture_made) * kilogram
        found.append(Load(mass, piece.height, piece.along))
    along = 0 * stand.leg_spacing if stand.casters == 2 else stand.leg_spacing / 2
    found.append(Load(stand.casters * stand.caster_weight, stand.caster_height / 2, along))
    return tuple(found)


def on_the_trays(stand):
    """What lies on the trays, its centre of gravity `load_height` above each panel."""
    weights = (stand.upper_load, stand.lower_load)
    middle = stand.leg_spacing / 2
    for top, mass in zip(reversed(stand.rail_tops), weights):
        yield Load(mass, top + stand.panel_thickness + stand.load_height, middle)


def total(found):
    """The weight of them all."""
    return sum((each.mass for each in found[1:]), found[0].mass)


def centre(found, name):
    """The height or place of their common centre of gravity."""
    first, *others = (each.mass * getattr(each, name) for each in found)
    whole = total(found)
    if type(whole) is float and whole <= 0:
        raise ShapeError("Nothing is there to weigh.", input="leg_diameter")
    return sum(others, first) / whole
