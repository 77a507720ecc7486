"""What is drawn for a centre: the zone holds every crossing, the four ways are true, the arc is the measured one."""

import itertools
import math

import pytest
from hypothesis import HealthCheck, assume, given, settings
from models import EXAMPLES, made, sizes
from shapely import Point, Polygon
from shapely.geometry import LineString
from shapes import areas, disc, measured, on, view, whole

from shoplib import CentreFinder, ChordRise, measure, save_template
from shoplib.drawing import draw, template
from shoplib.drawing.sheet import Area, Circle, EndGrain, Line

over_the_range = settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.filter_too_much])


def some(cls, sizes):
    found = made(cls, sizes)
    assume(found)
    return found


def lines(plan, layer="drawn"):
    return [LineString([shape.start, shape.end]) for shape in on(plan, layer, Line)]


@over_the_range
@given(sizes(CentreFinder))
def test_zone_is_where_the_straying_lines_cross(sizes):
    """The rhombus is bounded by the four lines that are off; each runs the marking error from its true line."""
    end = some(CentreFinder, sizes)
    plan = view(draw(end), "The middle")
    (zone,) = areas(plan, "zone")
    true, astray = lines(plan), lines(plan, "astray")
    assert (len(true), len(astray)) == (2, 4)
    error = end.values["marking_error"]
    for number, line in enumerate(true):
        for off in astray[2 * number : 2 * number + 2]:
            assert line.hausdorff_distance(off) == pytest.approx(error, rel=1e-6)
    for side in itertools.pairwise([*zone.exterior.coords]):
        middle = LineString(side).interpolate(0.5, normalized=True)
        assert min(each.distance(middle) for each in astray) < 1e-6 * error
    far = max(math.hypot(*corner) for corner in zone.exterior.coords)
    assert far == pytest.approx(end.plain.centre_error)
    assert measured(plan, "off by up to") == pytest.approx(far)


@over_the_range
@given(sizes(CentreFinder))
def test_end_is_drawn_in_true_proportion(sizes):
    end = some(CentreFinder, sizes)
    plan = view(draw(end), "The end")
    (round_,) = on(plan, "kept", Area)
    radius = round_.outlines[0].radius
    assert 2 * radius == pytest.approx(end.values["diameter"]) == pytest.approx(measured(plan, "Ø"))
    (zone,) = areas(plan, "zone")
    assert disc(radius).contains(zone)
    one, other = lines(plan)
    ways = [math.atan2(*reversed([b - a for a, b in zip(*each.coords)])) for each in (one, other)]
    assert abs(ways[0] - ways[1]) == pytest.approx(end.values["crossing_angle"])


@over_the_range
@given(sizes(CentreFinder))
def test_bisectors_halve_their_chords_square(sizes):
    end = some(CentreFinder, sizes)
    plan, radius = view(draw(end), "1 "), end.values["diameter"] / 2
    chords, bisectors = lines(plan, "joint"), lines(plan)
    shared = chords[0].intersection(chords[1])
    assert shared.is_empty or shared.distance(Point(0, 0)) > 0.99 * radius
    for chord, bisector in zip(chords, bisectors):
        assert [math.hypot(*point) for point in chord.coords] == pytest.approx([radius] * 2)
        assert bisector.distance(chord.interpolate(0.5, normalized=True)) < 1e-6 * radius
        assert bisector.distance(Point(0, 0)) < 1e-6 * radius
        (ax, ay), (bx, by) = ([b - a for a, b in zip(*each.coords)] for each in (chord, bisector))
        assert abs(ax * bx + ay * by) < 1e-9 * radius**2


@pytest.mark.parametrize("end", EXAMPLES[CentreFinder], ids=repr)
def test_tools_touch_the_round_where_they_should(end):
    sheet, radius = draw(end), end.values["diameter"] / 2
    arms, blade = areas(view(sheet, "2 "), "square")
    assert arms.intersection(disc(radius)).area < 1e-3 * radius**2
    assert arms.distance(disc(radius)) < 1e-3 * radius
    assert blade.exterior.distance(Point(0, 0)) < 1e-6 * radius  # the edge that is drawn along
    corner = view(sheet, "3 ")
    (square,) = areas(corner, "square")
    marks = [Point(each.centre) for each in on(corner, "mark", Circle)]
    assert [math.hypot(each.x, each.y) for each in marks] == pytest.approx([radius] * 2)
    assert marks[0].distance(marks[1]) == pytest.approx(2 * radius)
    assert all(square.exterior.distance(each) < 1e-6 * radius for each in marks)
    (cradle,) = areas(view(sheet, "4 "), "square")
    assert cradle.intersection(disc(radius)).area < 1e-3 * radius**2 and cradle.distance(disc(radius)) < 1e-3 * radius


@pytest.mark.parametrize(("square", "closed"), [("0 deg", True), ("0.1 deg", False)])
def test_cradle_lines_meet_only_when_the_guide_is_true(square, closed):
    plan = view(draw(CentreFinder("35 mm", square_error=square)), "4 ")
    off = [each.distance(Point(0, 0)) for each in lines(plan)]
    assert off == pytest.approx([0.0] * 3 if closed else [off[0]] * 3, abs=1e-9)
    assert closed or off[0] > 1


def test_every_end_shows_its_rings_and_none_has_its_pith_in_the_middle():
    """Growth rings hardly ever run about the middle of a leg: who drills on the pith drills aside."""
    for plan in draw(CentreFinder("35 mm")).views:
        for end in on(plan, "kept"):
            assert isinstance(end.grain, EndGrain) and math.hypot(*end.grain.pith) > 0.3 * end.outlines[0].radius


RINGS = [("35 mm", "mm", 2, "2.0 mm"), ("440 mm", "mm", 10, "10.0 mm"), ("1 3/8 in", "in", 25.4 / 16, "1/16 in"),
         ("17 3/8 in", "in", 25.4 * 3 / 8, "3/8 in")]  # fmt: skip


@pytest.mark.parametrize(("diameter", "unit", "step", "told"), RINGS)
def test_template_has_rings_about_one_point(diameter, unit, step, told):
    sheet = template(CentreFinder(diameter), unit)
    (plan,) = sheet.views
    rings = on(plan, "hidden", Circle) + on(plan, "joint", Circle)
    assert {ring.centre for ring in rings} == {(0, 0)}
    across = sorted(2 * ring.radius for ring in rings)
    true = CentreFinder(diameter).values["diameter"]
    assert across == pytest.approx([true + step * k for k in range(-3, 4)])
    (own,) = on(plan, "joint", Circle)
    assert 2 * own.radius == pytest.approx(true)
    assert [math.dist(each.start, each.end) for each in plan.dimensions] == pytest.approx([across[0], true, across[-1]])
    for each in plan.dimensions:
        size = measure.length(each.text.removeprefix("Ø ").partition(" (")[0]).m_as("mm")
        assert size == pytest.approx(math.dist(each.start, each.end), abs=0.2)
    assert f"smaller by {told} each" in sheet.use


@pytest.mark.filterwarnings("error")
def test_template_without_a_key_is_printed_without_complaint(tmp_path):
    assert save_template(CentreFinder("35 mm"), folder=tmp_path).stat().st_size > 1000


def test_template_of_the_smallest_has_no_ring_of_nothing():
    (sheet,) = template(CentreFinder("5 mm")).views
    assert min(each.radius for each in on(sheet, "hidden", Circle)) > 0


@over_the_range
@given(sizes(ChordRise))
def test_piece_is_cut_from_its_circle(sizes):
    """Every corner of the outline lies on the whole circle; its width and height are what was measured."""
    piece = some(ChordRise, sizes)
    sheet = draw(piece)
    chord, rise = piece.values["chord"], piece.values["rise"]
    alone = view(sheet, "The piece")
    (outline,) = on(alone, "piece")
    far = [math.hypot(*corner) for corner in outline.outlines[0]]
    assert far == pytest.approx([piece.plain.radius] * len(far), rel=1e-9)
    shape = Polygon(outline.outlines[0])
    left, bottom, right, top = shape.bounds
    ends = outline.outlines[0][0], outline.outlines[0][-1]
    assert math.dist(*ends) == pytest.approx(chord, rel=1e-6) == pytest.approx(measured(alone, "chord"), rel=1e-6)
    assert top - ends[0][1] == pytest.approx(rise, rel=1e-3)
    assert measured(alone, "rise") == pytest.approx(rise, rel=1e-6)
    (circle,) = on(view(sheet, "The whole"), "hidden", Circle)
    assert (whole(view(sheet, "The whole"), "piece") - disc(circle.radius).buffer(1e-3 * circle.radius)).is_empty


def test_template_of_the_piece_is_full_size():
    (sheet,) = template(ChordRise("300 mm", "40 mm")).views
    left, bottom, right, top = whole(sheet, "piece").bounds
    assert (right - left, top - bottom) == pytest.approx((300, 40), abs=1e-6)


@pytest.mark.parametrize("model", [CentreFinder("35 mm"), ChordRise("300 mm", "40 mm")], ids=repr)
def test_spoken_words_hold_the_results(model):
    sheet = draw(model)
    names = ("centre_error", "v_cradle") if isinstance(model, CentreFinder) else ("radius", "diameter")
    for name in names:
        assert model.results()[name].write(getattr(model.plain, name)) in sheet.description
