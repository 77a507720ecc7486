"""What is drawn of rod, joint and fit is what is really made: measured on the shapes with shapely."""

import math

import pytest
from hypothesis import HealthCheck, assume, given, settings
from models import EXAMPLES, made, sizes
from shapely import LineString, box
from shapes import areas, disc, measured, on, polygon, view, whole

from shoplib import DowelFit, DowelJoint, RoundStock, ShapeError
from shoplib.drawing import draw, template
from shoplib.drawing.layout import lay_out
from shoplib.drawing.sheet import Circle

EXACT = 2e-3
over_the_range = settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.filter_too_much])


def of(cls, sizes):
    model = made(cls, sizes)
    assume(model)
    return model, model.plain


def square(side):
    return box(-side / 2, -side / 2, side / 2, side / 2)


# Rod --------------------------------------------------------------------------------------------------------


@over_the_range
@given(sizes(RoundStock))
def test_cutter_takes_the_corner_and_nothing_of_the_rod(sizes):
    model, plain = of(RoundStock, sizes)
    plan = view(draw(model), "The square's end")
    rod, cutter, blank = whole(plan, "kept"), whole(plan, "cutter"), square(plain.diameter)
    radius = plain.cutter_radius
    rounded = square(plain.flat).buffer(radius, quad_segs=128) if plain.flat else disc(radius)
    assert rod.symmetric_difference(rounded).area < EXACT * rod.area
    assert cutter.intersection(rod).area < EXACT * rod.area
    corner = box(0, 0, plain.diameter, plain.diameter).intersection(blank) - rod
    assert (corner - cutter).area < EXACT * rod.area
    assert whole(plan, "waste").equals(blank)


@over_the_range
@given(sizes(RoundStock))
def test_jaws_touch_the_turned_rod(sizes):
    model, plain = of(RoundStock, sizes)
    plan = view(draw(model), "Turned")
    left, right = sorted(areas(plan, "jaw"), key=lambda jaw: jaw.bounds[0])
    rod = whole(plan, "kept")
    assert right.bounds[0] - left.bounds[2] == pytest.approx(plain.across_corners)
    assert rod.bounds[2] - rod.bounds[0] == pytest.approx(plain.across_corners)
    assert measured(plan, "across the corners") == pytest.approx(plain.across_corners)


@over_the_range
@given(sizes(RoundStock))
def test_blank_holds_its_rods_a_cut_apart(sizes):
    model, plain = of(RoundStock, sizes)
    plan = view(draw(model), "The blank")
    rods, blank = areas(plan, "kept"), whole(plan, "waste")
    assert len(rods) == plain.count
    assert all(rod.bounds[2] - rod.bounds[0] == pytest.approx(plain.length) for rod in rods)
    ends = [0.0, *(end for rod in rods for end in (rod.bounds[0], rod.bounds[2])), blank.bounds[2]]
    free = [after - before for before, after in zip(ends[::2], ends[1::2], strict=True)]
    wanted = [plain.grip + plain.kerf, *[plain.kerf] * (plain.count - 1), plain.grip + plain.kerf]
    assert free == pytest.approx(wanted, abs=1e-6)


# Joint ------------------------------------------------------------------------------------------------------


@over_the_range
@given(sizes(DowelJoint))
def test_level_cut_is_true(sizes):
    model, plain = of(DowelJoint, sizes)
    plan = view(draw(model), "Cut level")
    leg = polygon(on(plan, "kept", Circle)[0])
    hole, dowel = areas(plan, "hole")[-1], areas(plan, "dowel")[-1]  # the first rail's
    along = LineString([(-200, 0), (300, 0)])
    assert leg.bounds[2] == plain.leg_diameter / 2
    assert dowel.difference(hole.buffer(1e-9)).area < 1e-6
    assert dowel.bounds[0] - (plain.leg_diameter / 2 - plain.leg_depth) == pytest.approx(plain.end_clearance, abs=1e-6)
    assert hole.bounds[2] - dowel.bounds[2] == pytest.approx(plain.end_clearance, abs=1e-6)
    assert hole.bounds[2] - leg.bounds[2] == pytest.approx(plain.rail_depth)
    assert along.intersection(hole).bounds[0] == pytest.approx(-leg.bounds[2] + plain.far_wall, abs=1e-6)
    rails = areas(plan, "rail")
    assert len(rails) == 2
    for rail in rails:
        assert rail.intersection(leg).area < EXACT * leg.area, "a rail's cope is not on the leg"
    assert min(rail.bounds[3] for rail in rails) - hole.bounds[3] == pytest.approx(plain.cheek)
    for words, size in (("hole in the leg", plain.leg_depth), ("far wall", plain.far_wall), ("cheek", plain.cheek)):
        (found,) = [each for each in plan.dimensions if each.text.startswith(words)]
        assert abs(found.end[0] - found.start[0]) == pytest.approx(size)


@over_the_range
@given(sizes(DowelJoint))
def test_rail_ends_carry_their_holes(sizes):
    model, plain = of(DowelJoint, sizes)
    for plan in (view(draw(model), "Ends of"), template(model).views[0]):
        first, second = sorted(areas(plan, "rail"), key=lambda rail: rail.bounds[0])
        holes = on(plan, "hole", Circle)
        assert len(holes) == 2 * plain.dowels
        for rail, lower in ((first, 0.0), (second, plain.stagger)):
            mine = sorted((hole for hole in holes if polygon(hole).intersects(rail)), key=lambda hole: -hole.centre[1])
            assert all(rail.covers(polygon(hole)) for hole in mine)
            assert mine[0].centre[1] == pytest.approx(rail.bounds[3] - plain.edge - lower)
            assert {hole.radius for hole in mine} == {plain.dowel_diameter / 2}
            assert all(rail.bounds[2] - hole.centre[0] == pytest.approx(plain.rail_thickness / 2) for hole in mine)
        assert mine[-1].centre[1] - second.bounds[1] == pytest.approx(plain.shifted_edge)


@over_the_range
@given(sizes(DowelJoint))
def test_holes_that_break_into_each_other_are_marked(sizes):
    model, plain = of(DowelJoint, sizes)
    sheet = draw(model)
    broken = plain.crossing_clearance == 0
    assert bool(on(view(sheet, "Cut upright"), "breach")) == broken
    (note,) = view(sheet, "Cut level").notes
    assert ("break" in note.text) == broken
    if not broken and plain.level_gap == 0:
        one, other = areas(view(sheet, "Cut level"), "hole")
        assert one.distance(other) == pytest.approx(plain.crossing_clearance, abs=1e-6) or plain.drill_point


@over_the_range
@given(sizes(DowelJoint))
def test_upright_cut_shows_the_second_rails_holes_lower(sizes):
    model, plain = of(DowelJoint, sizes)
    plan = view(draw(model), "Cut upright")
    lengthwise = areas(plan, "hole")
    assert len(lengthwise) == plain.dowels
    top = max(hole.bounds[3] for hole in lengthwise) - plain.dowel_diameter / 2
    across = [each.centre[1] for layer in ("hole", "dowel", "breach", "hidden") for each in on(plan, layer)
              if hasattr(each, "centre")]  # fmt: skip
    assert top == pytest.approx(-plain.edge)
    assert max(across) == pytest.approx(-plain.edge - plain.stagger)


@pytest.mark.parametrize("model", EXAMPLES[DowelJoint], ids=repr)
def test_drilling_template_is_true_to_size(model):
    plain = model.plain
    plate = lay_out(template(model), text=4.0, key=False, scale=1.0)
    holes = sorted((each for each in plate.shapes if isinstance(each, Circle)), key=lambda hole: hole.centre)
    assert {round(2 * hole.radius, 9) for hole in holes} == {round(plain.dowel_diameter, 9)}
    rails = [each for each in plate.shapes if each.layer == "rail"]
    xs, ys = zip(*rails[0].outlines[0], strict=True)
    assert max(xs) - min(xs) == pytest.approx(plain.rail_thickness)
    assert max(ys) - min(ys) == pytest.approx(plain.rail_height)
    first = [hole for hole in holes if min(xs) < hole.centre[0] < max(xs)]
    assert min(hole.centre[1] for hole in first) - min(ys) == pytest.approx(plain.edge)  # y runs down


@pytest.mark.parametrize("model", EXAMPLES[RoundStock], ids=repr)
def test_end_template_is_true_to_size(model):
    plate = lay_out(template(model), text=4.0, key=False, scale=1.0)
    (rod,) = [each for each in plate.shapes if each.layer == "kept"]
    xs, ys = zip(*rod.outlines[0], strict=True)
    assert [max(xs) - min(xs), max(ys) - min(ys)] == pytest.approx([model.plain.diameter] * 2)


# Fit --------------------------------------------------------------------------------------------------------


@over_the_range
@given(sizes(DowelFit))
def test_zones_are_true_to_one_another(sizes):
    model, plain = of(DowelFit, sizes)
    (plan,) = draw(model).views
    ((_, low, _, high),) = [each.bounds for each in areas(plan, "hole")]
    ((_, small, _, large),) = [each.bounds for each in areas(plan, "dowel")]
    ((_, small_later, _, large_later),) = [each.bounds for each in areas(plan, "later")]
    assert low - large == pytest.approx(plain.tightest)
    assert high - small == pytest.approx(plain.loosest)
    assert low - large_later == pytest.approx(plain.tightest_later)
    assert high - small_later == pytest.approx(plain.loosest_later)
    assert math.isclose(large_later - large, plain.swelling, abs_tol=1e-12)


def test_a_fit_has_no_template():
    with pytest.raises(ShapeError, match="calliper"):
        template(DowelFit("8 mm"))
