"""Pull bars as drawn: pieces true to size, the gap and the tips where the numbers say, strips true on paper."""

import math

import numpy
import pytest
from hypothesis import HealthCheck, assume, given, settings
from models import made, sizes
from shapely import Point, Polygon
from shapes import areas, measured, on, view

from shoplib import MitredBar, StubBar
from shoplib.drawing import draw, template
from shoplib.drawing.layout import lay_out
from shoplib.drawing.sheet import EndGrain

HANDLE = MitredBar("19 mm", "360 mm", "52.5 mm", leg_end="2.8 mm", mitre_error="0.5 deg", roll="1 deg")
BAR = StubBar("19 mm", "14 mm", "43 mm", "360 mm", "30 mm", "9 mm", "18 mm", "10 kg", leg_diameter="35 mm")
NEAR = pytest.approx
over_the_range = settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.filter_too_much])


def model_of(cls, given_sizes):
    found = made(cls, given_sizes)
    assume(found)
    return found


@over_the_range
@given(sizes(MitredBar))
def test_handle_from_above(given_sizes):
    bar = model_of(MitredBar, given_sizes)
    plain, plan = bar.plain, draw(bar).views[0]
    rail, *arms = areas(plan, "bar")
    assert numpy.ptp([x for x, _ in rail.exterior.coords]) == NEAR(plain.bar_long)
    assert rail.area == NEAR(plain.bar_diameter * plain.width)
    for arm in arms:
        assert arm.is_valid and arm.area == NEAR(plain.bar_diameter * plain.arm)
        assert arm.intersection(rail).area < 1e-6 * rail.area
        assert arm.intersection(rail).length == NEAR(plain.face_length, rel=1e-6)
    assert measured(plan, "legs apart") == NEAR(plain.legs_apart)
    assert measured(plan, "short side") == NEAR(plain.bar_short)
    for leg in on(plan, "leg"):
        (circle,) = leg.outlines
        assert circle.centre[1] + circle.radius == NEAR(-plain.reach)


@over_the_range
@given(sizes(MitredBar))
def test_corner_gapes_as_told(given_sizes):
    bar = model_of(MitredBar, given_sizes)
    plain, corner = bar.plain, view(draw(bar), "Held true" if bar.values["mitre_error"] else "The corner")
    rail, arm = areas(corner, "bar")
    assert rail.intersection(arm).area < 1e-6 * rail.area
    gaps = on(corner, "gap")
    assert len(gaps) == (plain.mitre_error != 0)
    for gap in gaps:
        shared, one, other = gap.outlines[0]
        assert math.dist(one, other) == NEAR(plain.gap)
        assert math.dist(shared, one) == NEAR(plain.sawn_face) == NEAR(math.dist(shared, other))
        outer = max(one[0], other[0]) > shared[0]
        assert outer == (plain.mitre_error > 0)
        assert Polygon(gap.outlines[0]).intersection(rail.union(arm)).area < 1e-6


@pytest.mark.parametrize("error", ["0.5 deg", "-2 deg"])
@pytest.mark.parametrize("corner", ["90 deg", "120 deg"])
def test_arm_thrown_aside_and_out_of_the_plane(corner, error):
    bar = HANDLE.replace(corner=corner, mitre_error=error, roll="5 deg")
    closed, along = view(draw(bar), "Closed"), view(draw(bar), "Along it")
    assert measured(closed, "aside") == NEAR(abs(bar.plain.splay), rel=1e-3)
    assert measured(along, "off") == NEAR(bar.plain.out_of_plane, rel=5e-2)
    (off,) = along.dimensions
    assert off.end[0] - off.start[0] == NEAR(bar.plain.out_of_plane)  # as it is drawn: level
    assert closed.title.endswith("outward" if bar.plain.splay > 0 else "inward")
    assert "-" not in closed.title and "-" not in along.title
    true = draw(HANDLE.replace(mitre_error="0 deg", roll="0 deg"))
    assert not any(on(each, "thrown") or on(each, "gap") for each in true.views)


@over_the_range
@given(sizes(StubBar))
def test_cut_through_a_stub(given_sizes):
    bar = model_of(StubBar, given_sizes)
    plain, cut = bar.plain, view(draw(bar), "Cut across")
    (stub,), (in_leg, in_bar), (leg,), (rod,) = (areas(cut, name) for name in ("stub", "hole", "leg", "bar"))
    assert numpy.ptp([x for x, _ in stub.exterior.coords]) == NEAR(plain.stub_length)
    assert rod.bounds[0] - leg.bounds[2] == NEAR(plain.hand_room)
    assert leg.bounds[2] - in_leg.bounds[0] == NEAR(plain.leg_depth)
    assert in_bar.bounds[2] - rod.bounds[0] == NEAR(plain.bar_depth)
    assert in_leg.covers(Point(in_leg.bounds[0], 0)) and stub.bounds[0] - in_leg.bounds[0] == NEAR(plain.end_clearance)
    # Where the hole's side meets the round of the bar, by the drawing's own circle.
    rim = in_bar.bounds[0]
    assert math.hypot(rim - (plain.hand_room + plain.bar_diameter / 2), plain.stub_diameter / 2) == NEAR(
        plain.bar_diameter / 2
    )
    if plain.has("leg_diameter"):
        assert leg.bounds[2] - leg.bounds[0] == NEAR(plain.leg_diameter)


def test_bent_bar_is_a_loose_beams_curve():
    lifted = view(draw(BAR), "In the middle")
    (bar,) = on(lifted, "bar")
    upper = bar.outlines[0][: len(bar.outlines[0]) // 2]
    x, y = numpy.array([point for point in upper if 0 <= point[0] <= 180]).T
    rise = y - 9.5
    assert rise[0] == NEAR(0, abs=1e-9) and rise[-1] == NEAR(0.05 * 360)
    third = numpy.polyfit(x, rise, 3)
    assert third[0] * 180**3 * 2 == NEAR(-rise[-1]) and third[1] * 180**2 == NEAR(0, abs=1e-6)
    assert "drawn larger" in lifted.title


def test_fibres_run_along_the_pieces_and_ends_show_rings():
    for each in draw(HANDLE).views:
        assert all(isinstance(shape.grain, EndGrain) for shape in on(each, "leg"))
    plan, cut = draw(BAR).views[:2]
    assert {shape.grain for shape in on(plan, "bar")} == {0.0} == {shape.grain for shape in on(cut, "stub")}
    assert {shape.grain for shape in on(plan, "stub")} == {math.pi / 2} == {shape.grain for shape in on(cut, "leg")}
    assert all(isinstance(shape.grain, EndGrain) for shape in on(cut, "bar"))


@pytest.mark.parametrize("corner", ["60 deg", "90 deg", "135 deg"])
def test_strip_folds_to_a_flat_mitre(corner):
    """The plate's own line rolled round the square stock: all its points lie in the mitre's plane, the dots midway."""
    bar = HANDLE.replace(corner=corner).plain
    plate = lay_out(template(bar), text=3.4, key=False, scale=1.0)
    (kept,) = [shape for shape in plate.shapes if shape.layer == "kept"]
    dots = [shape.centre for shape in plate.shapes if shape.layer == "prick"]
    line = kept.outlines[0][:5]
    left, side = line[0][0], 19.0
    middle = (line[0][1] + line[2][1]) / 2
    for x, y in [*line, *dots]:
        number, within = divmod(min(x - left, 4 * side - 1e-9), side)
        across = {0: side / 2, 1: side / 2 - within, 2: -side / 2, 3: within - side / 2}[int(number)]
        assert middle - y == NEAR(across * math.tan(bar.mitre_angle), abs=1e-6)
    assert [(x - left) / side for x, _ in dots] == NEAR([0.5, 1.5, 2.5, 3.5])


def test_strip_marks_the_stubs_true_to_size():
    plate = lay_out(template(BAR), text=3.4, key=False, scale=1.0)
    (paper,) = [shape for shape in plate.shapes if shape.layer == "paper"]
    holes = [shape.outlines[0] for shape in plate.shapes if shape.layer == "hole"]
    left, right = min(x for x, _ in paper.outlines[0]), max(x for x, _ in paper.outlines[0])
    assert right - left == NEAR(420) and [hole.radius for hole in holes] == [7, 7]
    assert [holes[0].centre[0] - left, right - holes[1].centre[0]] == NEAR([30, 30])
    assert "9.0 mm deep" in template(BAR).use and "3/8 in" in template(BAR.replace(bar_depth="3/8 in"), "in").use
