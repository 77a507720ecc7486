"""Weight and centre of gravity of the stand against solids that are put together, cut and measured."""

from typing import NamedTuple

import numpy
import pytest
from manifold3d import Manifold
from models import EXAMPLES

from shoplib import Stand, seedling_stand
from shoplib.maths.the_stand import weights
from shoplib.maths.wood import density

CLOSE = pytest.approx
SMOOTH = 720  # flats of a round solid
STANDS = [
    *EXAMPLES[Stand],
    seedling_stand(casters=4),
    seedling_stand(pull_bar="mitred", panel_timber="Cherry, black", panel_proud="1.5 mm"),
    seedling_stand(pull_bar="none", trays=1),
]
NAMES = ["mm", "in", "side table", "four casters", "mitred", "no bar, one tray"]


class Body(NamedTuple):
    """A solid as weighed: its mass in kg, and its centre of gravity (x along from the casters, z up)."""

    mass: float
    along: float
    height: float


def weighed(solid, per_cubic_metre):
    """Mass and centre of gravity from the solid's surface: the sum of tetrahedra over the origin."""
    mesh = solid.to_mesh()
    corners = numpy.asarray(mesh.vert_properties, dtype=float)[:, :3][numpy.asarray(mesh.tri_verts)]
    volumes = numpy.einsum("ij,ij->i", corners[:, 0], numpy.cross(corners[:, 1], corners[:, 2])) / 6
    middle = (volumes[:, None] * corners.sum(axis=1) / 4).sum(axis=0) / volumes.sum()
    return Body(volumes.sum() * per_cubic_metre / 1e9, middle[0], middle[2])


def upright(diameter, low, high, x, y):
    """A round bar that stands upright."""
    return Manifold.cylinder(high - low, diameter / 2, diameter / 2, SMOOTH).translate([x, y, low])


def level(diameter, start, end, way):
    """A round bar along x (way 0) or y (way 1) between two levels, from one place to another."""
    (x, y, z), long = start, end - start[way]
    turned = Manifold.cylinder(long, diameter / 2, diameter / 2, SMOOTH).rotate([0, 90, 0] if way == 0 else [-90, 0, 0])
    return turned.translate([x, y, z])


def box(x, y, z):
    """A box from three pairs of ends."""
    (x1, x2), (y1, y2), (z1, z2) = x, y, z
    return Manifold.cube([x2 - x1, y2 - y1, z2 - z1]).translate([x1, y1, z1])


def bodies(stand):
    """The stand put together from solids: the wood, each with its timber, and the casters as points."""
    v, half, spacing = stand.values, stand.values["leg_spacing"] / 2, stand.values["leg_spacing"]
    wood = density(v["timber"], v["moisture_made"])
    legs, bored = [], []
    for x, y in ((0, -half), (0, half), (spacing, -half), (spacing, half)):
        on_caster = x == 0 or v["casters"] == 4
        foot = v["caster_height"] if on_caster else 0.0
        leg = upright(v["leg_diameter"], foot, v["stand_height"], x, y)
        legs.append(leg)
        hole = upright(v["caster_hole"], foot - 1, foot + v["caster_stem"] + v["caster_clearance"], x, y)
        bored.append(leg - hole if on_caster else leg)
    found = [weighed(leg, wood) for leg in bored]
    tops = [v["lower_rail_top"], v["upper_rail_top"]][2 - v["trays"] :]
    thick = v["rail_thickness"] / 2
    for top in tops:
        levels = (top - v["rail_height"], top)
        rails = [box((0, spacing), (y - thick, y + thick), levels) for y in (-half, half)]
        rails += [box((x - thick, x + thick), (-half, half), levels) for x in (0, spacing)]
        for rail in rails:
            for leg in legs:
                rail -= leg
            found.append(weighed(rail, wood))
        found += trays(v, top, half, wood)
    found += bar(v, legs, half, wood)
    places = [0, 0] if v["casters"] == 2 else [0, 0, spacing, spacing]
    return found + [Body(v["caster_weight"], x, v["caster_height"] / 2) for x in places]


def trays(v, top, middle, wood):
    """A rim, cut from below for its panel, and the panel that lies on the rails."""
    foot = top + v["panel_proud"]
    inside = v["tray_diameter"] - 2 * v["rim_width"]
    rim = upright(v["tray_diameter"], foot, foot + v["rim_height"], middle, 0)
    rim -= upright(inside, foot - 1, foot + v["rim_height"] + 1, middle, 0)
    rebate = inside + 2 * v["rebate_width"]
    rim -= upright(rebate, foot - 1, foot + v["panel_thickness"] - v["panel_proud"], middle, 0)
    panel = upright(rebate - 2 * v["panel_clearance"], top, top + v["panel_thickness"], middle, 0)
    return [weighed(rim, wood), weighed(panel, density(v["panel_timber"], v["moisture_made"]))]


def bar(v, legs, half, wood):
    """The bar and its stubs or arms, as one solid without the legs."""
    if v["pull_bar"] == "none":
        return []
    skin, spacing = 2 * half + v["leg_diameter"] / 2, 2 * half
    axis, up = skin + v["hand_room"] + v["bar_diameter"] / 2, v["bar_height"]
    over = v["bar_overhang"] if v["pull_bar"] == "stubs" else 0.0
    whole = level(v["bar_diameter"], (axis, -half - over, up), half + over, 1)
    thick = v["stub_diameter"] if v["pull_bar"] == "stubs" else v["bar_diameter"]
    for y in (-half, half):
        whole += level(thick, (spacing, y, up), axis, 0)
    if v["pull_bar"] == "mitred":  # what the mitres saw off: bar and arm meet in the plane at 45 deg
        reach = v["bar_diameter"]
        for y, sign in ((-half, -1), (half, 1)):
            corner = Manifold.cube([3 * reach, 3 * reach, 3 * reach], True).rotate([0, 0, 45])
            away = 3 * reach / 2
            whole += level(thick, (axis, y - thick / 2, up), y + thick / 2, 1)
            whole -= corner.translate([axis + away / 2**0.5, y + sign * away / 2**0.5, up])
    for leg in legs:
        whole -= leg
    return [weighed(whole, wood)]


def total(found):
    mass = sum(each.mass for each in found)
    return mass, sum(each.mass * each.height for each in found) / mass, sum(
        each.mass * each.along for each in found) / mass  # fmt: skip


@pytest.mark.parametrize("stand", STANDS, ids=NAMES)
def test_weight_and_centre_of_gravity_of_the_empty_stand(stand):
    """manifold3d. What the stubs' and arms' saddles hold on to is left out: a few grams."""
    mass, height, along = total(bodies(stand))
    plain = stand.plain
    assert plain.weight == CLOSE(mass, abs=0.004)
    assert plain.cg_height == CLOSE(height, abs=0.4)
    assert plain.cg_from_casters == CLOSE(along, abs=0.4)


@pytest.mark.parametrize("stand", STANDS, ids=NAMES)
def test_leg_rim_and_panel_each_against_its_own_solid(stand):
    """Piece by piece, for in the whole stand a rebate's or a caster hole's place moves hardly anything."""
    v, half = stand.values, stand.values["leg_spacing"] / 2
    wood = density(v["timber"], v["moisture_made"])
    foot, deep = v["caster_height"], v["caster_stem"] + v["caster_clearance"]
    leg = upright(v["leg_diameter"], foot, v["stand_height"], 0, 0)
    leg -= upright(v["caster_hole"], foot - 1, foot + deep, 0, 0)
    wanted = {"leg with a caster": [weighed(leg, wood)], "tray rim": [], "panel": []}
    for top in [v["lower_rail_top"], v["upper_rail_top"]][2 - v["trays"] :]:
        for name, body in zip(("tray rim", "panel"), trays(v, top, half, wood)):
            wanted[name].append(body)
    for name, solids in wanted.items():
        found = [each for each in weights.pieces(stand.plain) if each.name == name]
        assert len(found) == len(solids)
        for piece, solid in zip(found, solids):
            mass = piece.volume * density(piece.timber, v["moisture_made"]) / 1e9
            assert (mass, piece.height) == (CLOSE(solid.mass, rel=1e-4), CLOSE(solid.height, abs=0.01)), name


@pytest.mark.parametrize(("bar", "name", "along"), [("stubs", "stub", 399), ("mitred", "arm of the bar", 403.75)])
def test_what_holds_the_bar_weighs_in_its_own_middle(bar, name, along):
    """From the legs' skin, 360 + 17.5, half of 43 to the bar's skin, or half of 52.5 to its centre line."""
    (piece,) = [each for each in weights.pieces(seedling_stand(pull_bar=bar).plain) if each.name == name]
    assert (piece.count, piece.along, piece.height) == (2, along, 570)


def test_weight_of_the_seedling_stand_from_tables_by_hand():
    """White ash: G 0.60 at 12 % (Wood Handbook, Table 5-3a), worked at 8 %: 648 kg for each cubic metre.

    Legs 2.66, rails 2.55, rims 1.80, panels 3.25 and bar with stubs 0.13 cubic decimetres, worked out by hand to
    three figures, and two casters of 0.2 kg.
    """
    legs = 0.7854 * 3.5**2 * (2 * 72 + 2 * 67) - 2 * 0.7854 * 1.1**2 * 2.4  # cm3
    rails = 8 * 5 * (2 * 36 - 2 * (1 * 1.4361 + 3.0625 * 0.60825))  # half-width 1, R 1.75: sqrt(2.0625), asin(1/1.75)
    rims = 2 * 0.7854 * ((44**2 - 40**2) * 4 - (42**2 - 40**2) * 1.2)
    panels = 2 * 0.7854 * 41.5**2 * 1.2
    bar = 0.7854 * (1.9**2 * 42 + 2 * 1.4**2 * 4.3)
    assert seedling_stand().plain.weight == CLOSE((legs + rails + rims + panels + bar) * 648e-6 + 0.4, abs=0.002)


def test_rails_plan_less_the_legs_is_that_of_a_polygon():
    """A circle's strip, summed in ten thousand slices."""
    width, radius = 20.0, 17.5
    ys = (numpy.arange(10_000) + 0.5) / 10_000 * width - width / 2
    slices = numpy.sqrt(radius**2 - ys**2).sum() * width / 10_000
    assert weights.between_arcs(width, radius) == CLOSE(slices, rel=1e-7)


def test_load_on_either_tray():
    """Moments about the floor and the casters' line, by hand."""
    empty = seedling_stand(upper_load="0 kg", lower_load="0 kg").plain
    assert (empty.loaded_weight, empty.loaded_height) == (empty.weight, empty.cg_height)
    for name, top in (("upper_load", 660), ("lower_load", 220)):
        other = {"upper_load": "0 kg", "lower_load": "0 kg"} | {name: "10 kg"}
        plain = seedling_stand(**other).plain
        height = (empty.weight * empty.cg_height + 10 * (top + 12 + 80)) / (empty.weight + 10)
        along = (empty.weight * empty.cg_from_casters + 10 * 180) / (empty.weight + 10)
        assert (plain.loaded_weight, plain.loaded_height, plain.loaded_from_casters) == CLOSE(
            (empty.weight + 10, height, along))  # fmt: skip


def test_only_one_tray_takes_a_load():
    one = seedling_stand(trays=1).plain
    assert one.loaded_weight == CLOSE(one.weight + 8)


def test_rolling_is_filled_from_it():
    stand = seedling_stand()
    found, plain = stand.rolling.values, stand.plain
    assert found["weight"] == plain.loaded_weight and found["cg_height"] == plain.loaded_height
    assert found["cg_from_casters"] == plain.loaded_from_casters and found["handle_reach"] == 430
    lift = plain.loaded_weight * plain.loaded_from_casters / 430
    assert stand.rolling.plain.lift == CLOSE(lift) == stand.operation("stub_bar").plain.load


@pytest.mark.parametrize("part", ["leg_diameter", "rail_height", "rim_height", "panel_thickness", "bar_diameter"])
def test_a_thicker_part_weighs_more(part):
    stand = seedling_stand()
    assert stand.replace(**{part: getattr(stand, part) * 1.02}).plain.weight > stand.plain.weight


def test_surface_of_a_mitred_bar_is_that_of_its_three_pieces():
    """A round of 19 on 360 between the arms' centre lines and twice 52.5 to the legs."""
    mitred, none = (seedling_stand(pull_bar=bar).plain.finish_area for bar in ("mitred", "none"))
    assert (mitred - none) * 1e6 == CLOSE(numpy.pi * 19 * (360 + 2 * 52.5))


def test_surface_to_finish_against_solids():
    """manifold3d: legs, rails, rims, panels and bar, less the ends that the stand leaves out."""
    v, plain = seedling_stand().values, seedling_stand().plain

    def skin(solid, *ends):
        return solid.surface_area() - sum(ends)

    def disc(diameter):
        return numpy.pi * diameter**2 / 4

    legs = sum(skin(upright(35, 0, long, 0, 0), 2 * disc(35)) for long in (720, 720, 670, 670))
    rails = 8 * skin(box((0, plain.rail_length), (0, 20), (0, 50)), 2 * 20 * 50)
    rims = 2 * (upright(440, 0, 40, 0, 0) - upright(400, -1, 41, 0, 0)).surface_area()
    panels = 2 * upright(plain.panel_diameter, 0, v["panel_thickness"], 0, 0).surface_area()
    whole = legs + rails + rims + panels + skin(upright(19, 0, 420, 0, 0), 2 * disc(19))
    assert plain.finish_area * 1e6 == CLOSE(whole, rel=1e-4)
