"""What is drawn of rod, joint and fit is what is really made: measured on the shapes with shapely."""

import math

import numpy
import pytest
from hypothesis import HealthCheck, assume, given, settings
from models import EXAMPLES, made, sizes
from shapely import LineString, box
from shapely.affinity import translate
from shapes import areas, disc, measured, on, polygon, view, whole

from shoplib import DowelFit, DowelJoint, RoundStock, ShapeError
from shoplib.drawing import draw, has_template, template
from shoplib.drawing.dowels.dowel_fit import enlargement
from shoplib.drawing.layout import lay_out
from shoplib.drawing.sheet import Area, Circle, EndGrain, Line

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
    assert measured(plan, "corners") == pytest.approx(plain.across_corners)
    assert len(plan.dimensions) == 1, "the flats lie aslant here: nothing level measures them"


@over_the_range
@given(sizes(RoundStock))
def test_blank_lies_at_the_right_stop_and_holds_its_rods_a_cut_apart(sizes):
    model, plain = of(RoundStock, sizes)
    plan = view(draw(model), "At the router table")
    rods, blank = areas(plan, "kept"), whole(plan, "blank")
    assert len(rods) == plain.count
    assert all(rod.bounds[2] - rod.bounds[0] == pytest.approx(plain.length) for rod in rods)
    ends = [blank.bounds[0], *(end for rod in rods for end in (rod.bounds[0], rod.bounds[2])), blank.bounds[2]]
    free = [after - before for before, after in zip(ends[::2], ends[1::2], strict=True)]
    wanted = [plain.grip + plain.kerf, *[plain.kerf] * (plain.count - 1), plain.grip + plain.kerf]
    assert free == pytest.approx(wanted, abs=1e-6)
    assert blank.bounds[2] - blank.bounds[0] == pytest.approx(plain.blank_length)
    stops = [each.bounds for each in areas(plan, "fence") if each.bounds[1] < 0]
    assert sorted(stops)[1][0] == pytest.approx(blank.bounds[2])
    slid = translate(blank, xoff=sorted(stops)[0][2] - blank.bounds[0])  # fed to the left stop
    ((_, _, right, _),) = [polygon(each).bounds for each in on(plan, "hidden")]
    assert slid.bounds[2] == pytest.approx(plain.grip)
    assert right == pytest.approx(-plain.grip)
    (feed,) = on(plan, "feed", Line)
    assert feed.arrow and feed.end[0] < feed.start[0]  # the fence behind the cutter: fed from right to left


def test_the_card_says_how_a_pass_begins_and_ends():
    use = draw(RoundStock("19 mm", "400 mm", pass_depth="4 mm")).use
    assert "first of its 3 heights" in use and "raise it" in use
    assert use.index("right to left") < use.index("right stop") < use.index("left stop") < use.index("a quarter")
    assert "raise" not in draw(RoundStock("19 mm", "400 mm")).use


# Joint ------------------------------------------------------------------------------------------------------


@over_the_range
@given(sizes(DowelJoint))
def test_level_cut_is_true(sizes):
    model, plain = of(DowelJoint, sizes)
    plan = view(draw(model), "From above")
    leg = polygon(on(plan, "leg", Area)[0])
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
    told = {
        "drill": plain.drilled_depth, "in rail": plain.rail_depth, "in leg": plain.leg_depth,
        "far wall": plain.far_wall, "cheek": plain.cheek, "leg Ø": plain.leg_diameter,
        "rail": plain.rail_thickness,
    }  # fmt: skip
    assert len(plan.dimensions) == len(told)
    for words, size in told.items():
        (found,) = [each for each in plan.dimensions if each.text.startswith(words)]
        assert abs(found.end[0] - found.start[0]) == pytest.approx(size)
    (square,) = on(plan, "square_end", Line)
    assert [math.hypot(*end) for end in (square.start, square.end)] == pytest.approx([plain.leg_diameter / 2] * 2)
    assert square.start[0] == pytest.approx(hole.bounds[2] - plain.drilled_depth)


@over_the_range
@given(sizes(DowelJoint))
def test_the_line_of_least_wood_is_as_long_as_the_wood_seen_from_above(sizes):
    model, plain = of(DowelJoint, sizes)
    plan = view(draw(model), "From above")
    lines = on(plan, "least", Line)
    assert bool(lines) == (plain.crossing_clearance > 0 and plain.bottom > 0)
    if lines and plain.level_gap == 0:
        assert LineString([lines[0].start, lines[0].end]).length == pytest.approx(plain.crossing_clearance)


def test_grain_runs_as_the_fibres_do():
    """Rings on what is cut across; lines along the rail, the dowel and the upright leg."""
    sheet = draw(EXAMPLES[DowelJoint][0])
    above, ends, upright = sheet.views
    assert isinstance(on(above, "leg", Area)[0].grain, EndGrain)
    assert [each.grain for each in on(above, "rail", Area)] == [0.0, math.pi / 2]
    assert [each.grain for each in on(above, "dowel", Area)] == [math.pi / 2, 0.0]
    assert all(isinstance(each.grain, EndGrain) for each in on(ends, "rail", Area))
    assert [each.grain for each in on(upright, "leg", Area)] == [math.pi / 2]
    assert [each.grain for each in on(upright, "rail", Area)] == [0.0]
    rod, jaws, table = draw(RoundStock("19 mm", "400 mm")).views
    assert isinstance(on(rod, "kept")[0].grain, EndGrain) and isinstance(on(jaws, "kept")[0].grain, EndGrain)
    assert on(table, "kept")[0].grain == on(table, "blank")[0].grain == 0.0


@over_the_range
@given(sizes(DowelJoint))
def test_rail_ends_carry_their_holes(sizes):
    model, plain = of(DowelJoint, sizes)
    for plan, layer in ((view(draw(model), "Rails' square ends"), "rail"), (template(model).views[0], "paper")):
        first, second = sorted(areas(plan, layer)[:2], key=lambda rail: rail.bounds[0])
        first, second = (box(*each.bounds[:3], 0.0) for each in (first, second))  # without the flaps
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
    above = view(sheet, "From above")
    assert ("break" in above.title) == broken
    if not broken and plain.level_gap == 0:
        one, other = areas(above, "hole")
        assert one.distance(other) == pytest.approx(plain.crossing_clearance, abs=1e-6) or plain.drill_point


@over_the_range
@given(sizes(DowelJoint))
def test_upright_cut_shows_the_second_rails_holes_lower(sizes):
    model, plain = of(DowelJoint, sizes)
    plan = view(draw(model), "Cut upright")
    lengthwise = areas(plan, "hole")
    assert len(lengthwise) == plain.dowels
    top = max(hole.bounds[3] for hole in lengthwise) - plain.dowel_diameter / 2
    across = [each.centre[1] for layer in ("hole", "breach", "hidden") for each in on(plan, layer)
              if hasattr(each, "centre")]  # fmt: skip
    across += [each.outlines[0].centre[1] for each in on(plan, "dowel", Area) if isinstance(each.outlines[0], Circle)]
    assert top == pytest.approx(-plain.edge)
    assert max(across) == pytest.approx(-plain.edge - plain.stagger)


@pytest.mark.parametrize("model", EXAMPLES[DowelJoint], ids=repr)
def test_drilling_template_is_true_to_size(model):
    plain = model.plain
    plate = lay_out(template(model), text=4.0, key=False, scale=1.0)
    holes = sorted((each for each in plate.shapes if isinstance(each, Circle)), key=lambda hole: hole.centre)
    assert {round(2 * hole.radius, 9) for hole in holes} == {round(plain.dowel_diameter, 9)}
    piece, *_ = [each for each in plate.shapes if each.layer == "paper"]
    fold, *_ = [each for each in plate.shapes if each.layer == "fold"]
    xs, ys = zip(*piece.outlines[0], strict=True)
    assert max(xs) - min(xs) == pytest.approx(plain.rail_thickness)
    assert max(ys) - fold.start[1] == pytest.approx(plain.rail_height)  # y runs down
    assert fold.start[1] - min(ys) > 12, "a flap that holds tape"
    assert sorted((fold.start[0], fold.end[0])) == pytest.approx([min(xs), max(xs)])
    first = [hole for hole in holes if min(xs) < hole.centre[0] < max(xs)]
    assert min(hole.centre[1] for hole in first) - fold.start[1] == pytest.approx(plain.edge)


@over_the_range
@given(sizes(DowelJoint))
def test_strip_wraps_the_leg_with_the_holes_a_quarter_apart(sizes):
    """Rolled up on the leg, each line of holes stands where its rail comes from: three quarter turns, right hand up."""
    model, plain = of(DowelJoint, sizes)
    (plan,) = template(model).views
    _, _, strip, tab = areas(plan, "paper")
    left, low, right, top = strip.bounds
    assert right - left == pytest.approx(math.pi * plain.leg_diameter)
    assert top - low == pytest.approx(plain.rail_height)
    assert tab.bounds[0] == pytest.approx(right)
    turns = {}
    for hole in on(plan, "hole", Area):
        middle = polygon(hole).centroid
        turn = (middle.x - (left + right) / 2) / (plain.leg_diameter / 2)
        turns.setdefault(round(math.degrees(turn)), []).append(middle.y - top)
    assert sorted(turns) == [-90, 0, 90]
    first, second = ([-height for height in each] for each in zip(*plain.heights, strict=True))
    assert turns[0] == pytest.approx(first)
    assert turns[90] == pytest.approx(second)
    assert turns[-90] == pytest.approx(second)


@pytest.mark.parametrize("model", EXAMPLES[DowelJoint], ids=repr)
def test_holes_on_the_strip_are_the_drills_own_rim(model):
    """Rolled up, every point of the outline lies on the leg and a drill's radius from the hole's axis."""
    plain = model.plain
    (plan,) = template(model).views
    strip = areas(plan, "paper")[2]
    middle, top = (strip.bounds[0] + strip.bounds[2]) / 2, strip.bounds[3]
    holes = [each for each in on(plan, "hole", Area) if abs(polygon(each).centroid.x - middle) < 1]
    for hole, height in zip(holes, plain.heights, strict=True):
        for x, y in hole.outlines[0]:
            aside = plain.leg_diameter / 2 * math.sin((x - middle) / (plain.leg_diameter / 2))
            assert math.hypot(aside, y - top + height.first_rail) == pytest.approx(plain.dowel_diameter / 2)


def test_template_says_which_side_on_which_leg():
    """Who faces the first rail's line looks against that rail; on the leg front left the second rail runs back."""
    sheet = template(EXAMPLES[DowelJoint][0])
    (plan,) = sheet.views
    (one,) = [note for note in plan.notes if "front left" in note.text]
    (other,) = [note for note in plan.notes if "front right" in note.text]
    (middle,) = [note for note in plan.notes if note.text == "first rail"]
    for note, legs in ((one, {"front left": (1, 1), "back right": (-1, -1)}),
                       (other, {"front right": (-1, 1), "back left": (1, -1)})):  # fmt: skip
        for name, (along, back) in legs.items():
            assert name in note.text
            right_hand = numpy.cross((-along, 0, 0), (0, 0, 1))  # of what one looks at, upright
            assert numpy.sign(note.at[0] - middle.at[0]) == numpy.sign(right_hand @ (0, back, 0))
    assert "fold the flap" in sheet.use and "34.1 mm" in sheet.use and "12.0 mm" in sheet.use


@pytest.mark.parametrize("model", EXAMPLES[RoundStock], ids=repr)
def test_end_template_is_true_to_size(model):
    plate = lay_out(template(model), text=4.0, key=False, scale=1.0)
    (rod,) = [each for each in plate.shapes if each.layer == "kept"]
    xs, ys = zip(*rod.outlines[0], strict=True)
    assert [max(xs) - min(xs), max(ys) - min(ys)] == pytest.approx([model.plain.diameter] * 2)


# Fit --------------------------------------------------------------------------------------------------------


@over_the_range
@given(sizes(DowelFit))
def test_bars_are_so_many_times_larger_than_the_dowel(sizes):
    model, plain = of(DowelFit, sizes)
    (plan,) = draw(model).views
    dowels = {isinstance(each.outlines[0], Circle): each for each in on(plan, "dowel", Area)}
    assert 2 * dowels[True].outlines[0].radius == pytest.approx(plain.diameter)
    ((low, _, high, _),) = [each.bounds for each in areas(plan, "hole")]
    small, _, large, _ = polygon(dowels[False]).bounds
    ((small_later, _, large_later, _),) = [each.bounds for each in areas(plan, "later")]
    times = enlargement(plain)
    assert f"{times} times larger" in plan.title
    assert (low - large) / times == pytest.approx(plain.tightest)
    assert (high - small) / times == pytest.approx(plain.loosest)
    assert (low - large_later) / times == pytest.approx(plain.tightest_later)
    assert (high - small_later) / times == pytest.approx(plain.loosest_later)
    assert (large_later - large) / times == pytest.approx(plain.swelling, abs=1e-9)
    for words, play in (("tightest", plain.tightest), ("loosest", plain.loosest)):
        assert measured(plan, words) / times == pytest.approx(abs(play), abs=1e-9)
        later = abs(getattr(plain, words + "_later"))
        assert measured(plan, f"later, {words}") / times == pytest.approx(later, abs=1e-9)


def test_bars_stay_readable():
    for diameter in ("4 mm", "8 mm", "30 mm"):
        for grades in (("as sold", "H13"), ("h8", "H8"), ("h11", "H11")):
            fit = DowelFit(diameter, *grades).plain
            reach = max(fit.hole_upper, fit.dowel_upper + fit.swelling) - min(0.0, fit.dowel_lower)
            assert 1.5 <= enlargement(fit) * reach / fit.diameter <= 2.5


def test_letters_are_explained_where_they_are_drawn():
    (plan,) = draw(DowelFit("8 mm", "h11", "H11")).views
    words = " ".join(note.text for note in plan.notes)
    assert "hole H11: never under" in words and "dowel h11: never over" in words


def test_a_fit_has_no_template():
    assert not has_template(DowelFit)
    with pytest.raises(ShapeError, match="bench card"):
        template(DowelFit("8 mm"))
