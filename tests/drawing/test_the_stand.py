"""The stand as drawn: every part where its sizes say, seen from three sides, and clear to read at all limits."""

import itertools
import math

import numpy
import pytest
from models import SIDE_TABLE, STAND_IN_INCHES
from shapely import Point, Polygon
from shapely.affinity import rotate
from shapes import areas, check_clear, disc, filled, measured, on, ring, view, whole

from shoplib import ShapeError, Stand, draw, seedling_stand
from shoplib.drawing.layout import lay_out_key
from shoplib.drawing.sheet import Area, Circle, EndGrain, Line

NEAR = pytest.approx
DEMO, TABLE = seedling_stand(), seedling_stand(**SIDE_TABLE)
INCH = seedling_stand(**STAND_IN_INCHES)
BARS, ROUTES = ("stubs", "mitred", "none"), ("staves", "boards")
KINDS = [
    seedling_stand(trays=trays, ring_route=route, pull_bar=bar, casters=casters)
    for trays, route, bar, casters in itertools.product((1, 2), ROUTES, BARS, (2, 4))
]
STANDS = [DEMO, TABLE, INCH, *KINDS]
every_stand = pytest.mark.parametrize("stand", STANDS, ids=range(len(STANDS)))


def tops(stand):
    return [stand.values["lower_rail_top"]] * (stand.values["trays"] == 2) + [stand.values["upper_rail_top"]]


@every_stand
@pytest.mark.parametrize("title", ["From the front", "From the side"])
def test_legs_rails_and_trays_from_either_side(stand, title):
    each, sizes = view(draw(stand), title), stand.values
    middle = sizes["leg_spacing"] / 2 if title.endswith("side") else 0.0
    short = sizes["stand_height"] - sizes["caster_height"]
    ends = {2: [short, sizes["stand_height"]], 4: [short] * 2}[sizes["casters"]]
    long = ends if title.endswith("side") else [ends[1]] * 2  # from the front the legs at the bar's end
    legs = areas(each, "leg")
    assert [leg.bounds[3] - leg.bounds[1] for leg in legs] == NEAR(long)
    assert [leg.bounds[3] for leg in legs] == NEAR([sizes["stand_height"]] * 2)
    assert [leg.bounds[2] - leg.bounds[0] for leg in legs] == NEAR([sizes["leg_diameter"]] * 2)
    assert [leg.centroid.x - middle for leg in legs] == NEAR([-sizes["leg_spacing"] / 2, sizes["leg_spacing"] / 2])
    # Tip to tip by Pythagoras: the rail's face meets the leg half its thickness off the leg's middle.
    tip = math.sqrt((sizes["leg_diameter"] / 2) ** 2 - (sizes["rail_thickness"] / 2) ** 2)
    for rail, top in zip(areas(each, "rail"), tops(stand), strict=True):
        low, high = top - sizes["rail_height"], top
        assert rail.bounds == NEAR((middle - sizes["leg_spacing"] / 2 + tip, low,
                                    middle + sizes["leg_spacing"] / 2 - tip, high))  # fmt: skip
    for rim, top in zip(areas(each, "rim"), tops(stand), strict=True):
        low, half = top + sizes["panel_proud"], sizes["tray_diameter"] / 2
        assert rim.bounds == NEAR((middle - half, low, middle + half, low + sizes["rim_height"]))


@every_stand
def test_casters_stand_under_the_shortened_legs(stand):
    for title, count in (("From the side", stand.casters // 2), ("From the front", 2 if stand.casters == 4 else 0)):
        each = view(draw(stand), title)
        wheels = on(each, "metal", Circle)
        assert len(wheels) == count
        short = [leg for leg in areas(each, "leg") if leg.bounds[1] > 0]
        for wheel, leg in zip(wheels, short, strict=True):
            assert wheel.centre[1] - wheel.radius == NEAR(0) and wheel.centre[0] == NEAR(leg.centroid.x)
            assert leg.bounds[1] == NEAR(stand.values["caster_height"])
    side = view(draw(stand), "From the side")
    assert areas(side, "leg")[0].bounds[1] > 0, "the casters are at the end without the bar"


@every_stand
def test_bar_has_its_height_and_its_hand_room(stand):
    front, side, plan, _ = draw(stand).views
    bar, sizes = stand.values["pull_bar"], stand.values
    if bar == "none":
        assert not any(on(each, name) for each in (front, side, plan) for name in ("bar", "stub"))
        assert not any("hand" in each.text or "bar" in each.text for each in (*side.dimensions, *plan.dimensions))
        return
    skin, thick = sizes["leg_spacing"] + sizes["leg_diameter"] / 2, sizes["bar_diameter"]
    assert whole(front, "bar").bounds[1::2] == NEAR((sizes["bar_height"] - thick / 2, sizes["bar_height"] + thick / 2))
    assert whole(side, "bar").bounds[1::2] == NEAR((sizes["bar_height"] - thick / 2, sizes["bar_height"] + thick / 2))
    assert whole(side, "bar").bounds[2] == NEAR(skin + sizes["hand_room"] + thick)
    long = sizes["leg_spacing"] + (2 * sizes["bar_overhang"] if bar == "stubs" else thick)
    assert numpy.ptp(whole(front, "bar").bounds[::2]) == NEAR(long) == NEAR(measured(plan, "bar"))
    assert measured(side, "hand") == NEAR(sizes["hand_room"])
    assert measured(side, "bar") == NEAR(sizes["bar_height"])
    # From above: what holds it fills the way from the leg's skin to the bar, and runs into neither leg nor bar.
    legs = [filled(shape.outlines[0]) for shape in on(plan, "leg")]
    rods = areas(plan, "stub" if bar == "stubs" else "bar")[-2:]
    for rod in rods:
        assert rod.is_valid and all(rod.intersection(leg).area < 1e-3 * rod.area for leg in legs)
        assert min(rod.distance(leg) for leg in legs) < 0.02
    rail = areas(plan, "bar")[0]
    assert all(rod.intersection(rail).area < 1e-6 * rail.area and rod.distance(rail) < 1e-9 for rod in rods)
    if bar == "stubs":
        assert rail.bounds[0] - skin == NEAR(sizes["hand_room"])
    else:
        inner = min(x for x, y in rail.exterior.coords)
        assert inner - skin == NEAR(sizes["hand_room"])


@every_stand
def test_rods_end_on_the_round_of_the_leg_from_the_side(stand):
    """Each point of the curve on the leg's circle: at this height, half the rod's chord off its middle."""
    if stand.values["pull_bar"] == "none":
        return
    side, sizes = view(draw(stand), "From the side"), stand.values
    name, thick = ("stub", sizes["stub_diameter"]) if sizes["pull_bar"] == "stubs" else ("bar", sizes["bar_diameter"])
    outline = on(side, name, Area)[0].outlines[0]
    for x, y in outline[1:-1]:
        aside = math.sqrt(max((thick / 2) ** 2 - (y - sizes["bar_height"]) ** 2, 0.0))
        assert math.hypot(x - sizes["leg_spacing"], aside) == NEAR(sizes["leg_diameter"] / 2)


@every_stand
def test_rails_are_coped_to_the_legs_from_above(stand):
    plan, sizes = view(draw(stand), "From above"), stand.values
    legs = [disc(sizes["leg_diameter"] / 2, (x, y)) for x in (0, sizes["leg_spacing"])
            for y in (-sizes["leg_spacing"] / 2, sizes["leg_spacing"] / 2)]  # fmt: skip
    rails = areas(plan, "rail")
    assert len(rails) == 4
    for rail in rails:
        touched = [leg for leg in legs if rail.distance(leg) < 0.02]
        assert len(touched) == 2
        assert all(rail.intersection(leg).area < 0.004 * rail.area for leg in legs)
        wide, high = sorted((rail.bounds[2] - rail.bounds[0], rail.bounds[3] - rail.bounds[1]))
        assert wide == NEAR(sizes["rail_thickness"]) and high == NEAR(stand.plain.rail_length)


@every_stand
def test_tray_from_above_clears_the_legs_as_told(stand):
    sheet, sizes = draw(stand), stand.values
    plan, corner = view(sheet, "From above"), view(sheet, "One leg")
    rims = areas(plan, "rim")
    tray = whole(plan, "rim")
    assert len(rims) == (sizes["staves"] if sizes["ring_route"] == "staves" else 1)
    for one, other in itertools.combinations(rims, 2):
        assert one.intersection(other).area < 1e-6
    centre = (sizes["leg_spacing"] / 2, 0)
    outside, inside = sizes["tray_diameter"] / 2, sizes["tray_diameter"] / 2 - sizes["rim_width"]
    wanted = ring(outside, inside)
    assert tray.area == NEAR(wanted.area, rel=0.03)
    assert all(outside >= Point(centre).distance(Point(point)) - 1e-9 >= inside - 1e-6
               for rim in rims for point in rim.exterior.coords)  # fmt: skip
    tray_clear = math.hypot(*(2 * (sizes["leg_spacing"] / 2,))) - sizes["leg_diameter"] / 2 - outside
    legs = [filled(shape.outlines[0]) for shape in on(plan, "leg")]
    assert min(leg.distance(disc(outside, centre)) for leg in legs) == NEAR(tray_clear, abs=0.02)
    assert measured(corner, "clear") == NEAR(tray_clear)
    (leg,) = areas(corner, "leg")
    assert leg.distance(whole(corner, "rim")) == NEAR(tray_clear, abs=0.1)
    assert measured(corner, "leg") == NEAR(sizes["leg_diameter"])
    for rail in areas(corner, "rail"):  # the corner is a piece of the plan, turned by half a right angle
        assert rail.intersection(leg).area < 0.01 * leg.area and rail.distance(leg) < 0.02


def test_main_sizes_are_told():
    texts = {each.text for part in draw(DEMO).views for each in part.dimensions}
    assert texts >= {
        "legs 360 mm", "tray Ø 440 mm", "lower rails 220 mm", "upper rails 660 mm", "caster 50.0 mm", "bar 570 mm",
        "hand 43.0 mm", "over all 720.0 mm", "over all 479.5 mm", "clear 17.1 mm",
    }  # fmt: skip
    front, side, *_ = draw(DEMO).views
    for each, name, size in ((front, "upper rails", 660), (front, "lower rails", 220), (side, "caster", 50)):
        (found,) = [line for line in each.dimensions if line.text.startswith(name)]
        assert found.end[1] - found.start[1] == NEAR(size)
    assert any("14 1/8 in" in each.text for each in view(draw(INCH, "in"), "From the front").dimensions)


@every_stand
def test_centres_of_gravity_are_told_apart_by_their_form(stand):
    plain = stand.plain
    front, side, *_ = draw(stand).views
    for each, empty, loaded in (
        (front, (0, plain.cg_height), (0, plain.loaded_height)),
        (side, (plain.cg_from_casters, plain.cg_height), (plain.loaded_from_casters, plain.loaded_height)),
    ):
        for name, place in (("empty", empty), ("loaded", loaded)):
            cross = on(each, name, Line)
            assert [tuple(numpy.mean([line.start, line.end], axis=0)) for line in cross] == [NEAR(place)] * 2
        assert [ring.centre for ring in on(each, "empty", Circle)] == [NEAR(empty), NEAR(loaded)]
        quarters = areas(each, "loaded")
        assert len(quarters) == 2 and not areas(each, "empty"), "filled in part only where it is loaded"
        one, other = quarters
        assert one.intersection(other).length == NEAR(0, abs=1e-9), "they lie across from each other"
        assert sum(part.area for part in quarters) == NEAR(math.pi * on(each, "empty")[0].radius ** 2 / 2, rel=0.02)
    key = lay_out_key(draw(stand), 960, 17)
    assert {"centre of gravity, empty", "centre of gravity, loaded"} <= {text.text for text in key.texts}
    assert sum(shape.layer == "loaded" and isinstance(shape, Area) for shape in key.shapes) == 2


def test_fibres_run_along_the_pieces_and_ends_show_rings():
    front, side, plan, corner = draw(DEMO).views
    for each in (front, side):
        assert {shape.grain for shape in on(each, "leg")} == {math.pi / 2}
        assert {shape.grain for shape in on(each, "rail")} == {0.0}
    assert all(isinstance(shape.grain, EndGrain) for each in (plan, corner) for shape in on(each, "leg"))
    for shape in on(plan, "rim"):  # each stave's fibres square to the way from the tray's middle to its own
        middle = Polygon(shape.outlines[0]).centroid
        along = math.atan2(middle.y, middle.x - 180)
        assert math.cos(shape.grain - along) == NEAR(0, abs=1e-6)
    boards = view(draw(seedling_stand(ring_route="boards")), "From above")
    assert [shape.grain for shape in on(boards, "rim")] == [0.0] == [shape.grain for shape in on(boards, "panel")]


def test_corner_is_a_piece_of_the_plan():
    """The plan's leg at the bar's end, turned so that its diagonal lies level, has the same neighbours."""
    plan, corner = draw(DEMO).views[2:]
    leg = Point(360, 180)
    near = rotate(whole(plan, "rail"), -45, origin=leg).intersection(leg.buffer(40))
    drawn = whole(corner, "rail").intersection(Point(0, 0).buffer(40))
    assert near.area == NEAR(drawn.area, rel=1e-3)


# At every limit --------------------------------------------------------------------------------------------------

DRAWN = (
    "tray_diameter", "rim_width", "rim_height", "panel_proud", "staves", "leg_diameter", "stand_height", "leg_spacing",
    "rail_thickness", "rail_height", "upper_rail_top", "lower_rail_top", "bar_diameter", "bar_height", "hand_room",
    "bar_overhang", "stub_diameter", "caster_height", "upper_load", "load_height",
)  # fmt: skip


def at_the_limit(stand, name, limit):
    """The stand with one size as near to its limit as it can still be made."""
    start, item = stand.values[name], Stand.inputs()[name]

    def made(share):
        value = start + share * (limit - start)
        try:
            return Stand.solved(stand.values | {name: round(value) if item.kind == "count" else value})
        except ShapeError:
            return None

    low, high, found = 0.0, 1.0, made(1.0)
    for _ in range(12 * (found is None)):
        middle = (low + high) / 2
        tried = made(middle)
        low, high, found = (middle, high, tried) if tried else (low, middle, found)
    return found or stand.plain


@pytest.mark.parametrize("name", DRAWN)
def test_each_size_at_both_its_limits_is_drawn_clear(name):
    for stand, unit in ((DEMO, "mm"), (TABLE, "in")):
        item = Stand.inputs()[name]
        for limit in (item.low, item.high):
            check_clear(draw(at_the_limit(stand, name, limit), unit))


@every_stand
def test_every_kind_of_stand_is_drawn_clear_in_both_units(stand):
    for unit in ("mm", "in"):
        check_clear(draw(stand, unit))


@pytest.mark.parametrize("tray, spacing, top", [(1400, 1100, 1300), (1400, 1100, 300), (200, 170, 1500)])
@pytest.mark.parametrize("bar", BARS)
def test_wide_low_and_slender_stands_are_drawn_clear(tray, spacing, top, bar):
    stand = seedling_stand(
        trays=1, pull_bar=bar, tray_diameter=f"{tray} mm", leg_spacing=f"{spacing} mm", stand_height=f"{top} mm",
        upper_rail_top=f"{top - 45} mm", bar_height=f"{top - 100} mm", hand_room="90 mm",
        screw_from_fixed="5 mm",
    )
    for unit in ("mm", "in"):
        check_clear(draw(stand, unit))
