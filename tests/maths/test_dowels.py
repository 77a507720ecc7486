"""Dowels, judged by published tolerances, by shapely's cuts and by a solid-modelling kernel's distances."""

import itertools
import math

import manifold3d
import numpy
import published
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from models import made, sizes
from scipy.optimize import minimize
from shapely import LineString, Point, Polygon, box
from shapely.affinity import rotate

from shoplib import Cope, DowelFit, DowelJoint, MeasureError, RoundStock, ShapeError, show
from shoplib.maths.crossing import clearance_between
from shoplib.maths.tolerances import tolerance
from shoplib.measure import quantity

CLOSE = pytest.approx
SMOOTH = 128  # straight pieces in a quarter of a circle
TURNS = [math.pi * k / 720 for k in range(361)]  # a quarter of a circle: the rods have four like sides


def mm(quantity):
    return quantity.m_as("mm")


# Round stock ------------------------------------------------------------------------------------------------


def waste_of_a_pass(half, radius, error):
    """What one pass takes at the corner right and above: all beyond the cutter's hollow, from its centre outward."""
    x, y = half - radius, half - radius - error
    hollow = Point(x, y).buffer(radius, quad_segs=SMOOTH)
    return box(x, y, 3 * half, 3 * half).difference(hollow)


def rod_of(diameter, radius, error=0.0):
    """Four passes over the corners of a square, the blank turned a quarter of a circle each time."""
    half = diameter / 2
    left = box(-half, -half, half, half)
    for turn in range(4):
        left = left.difference(rotate(waste_of_a_pass(half, radius, error), 90 * turn, origin=(0, 0)))
    return left


def widths_of(shape):
    """Between parallel jaws, at all angles."""
    along = numpy.array(shape.convex_hull.exterior.coords) @ numpy.array([numpy.cos(TURNS), numpy.sin(TURNS)])
    return along.max(axis=0) - along.min(axis=0)


ROUNDOVERS = [(19, 9.5), (19, 8), (12.7, 6), (30, 2), (50, 25)]


@pytest.mark.parametrize(("diameter", "radius"), ROUNDOVERS)
class TestRod:
    def rod(self, diameter, radius):
        return RoundStock(f"{diameter} mm", "400 mm", roundover_radius=f"{radius} mm")

    def test_widths_between_jaws(self, diameter, radius):
        rod, shape = self.rod(diameter, radius), rod_of(diameter, radius)
        widths = widths_of(shape)
        assert mm(rod.across_corners) == CLOSE(max(widths), abs=1e-3)
        assert min(widths) == CLOSE(mm(rod.diameter), abs=1e-3)
        assert mm(rod.out_of_round) == CLOSE(max(widths) - min(widths), abs=2e-3)

    def test_flat_is_what_stays_of_a_face(self, diameter, radius):
        rod, shape = self.rod(diameter, radius), rod_of(diameter, radius)
        face = shape.exterior.intersection(box(diameter / 2 - 1e-7, -diameter, diameter, diameter))
        tall = face.bounds[3] - face.bounds[1]
        assert mm(rod.flat) == CLOSE(tall, abs=0.02 * math.sqrt(diameter))

    def test_outline_lies_on_what_four_passes_leave(self, diameter, radius):
        outline = [tuple(map(mm, point)) for point in self.rod(diameter, radius).outline(360)]
        shape = rod_of(diameter, radius)
        assert max(shape.exterior.distance(Point(point)) for point in outline) < 1e-3
        assert Polygon(outline).symmetric_difference(shape).area < 2e-3 * shape.area
        assert [math.degrees(math.atan2(y, x)) % 360 for x, y in outline] == CLOSE(range(360), abs=1e-9)

    @pytest.mark.parametrize("error", [-0.4, -0.05, 0.0, 0.05, 0.3])
    def test_a_cutter_set_wrong(self, diameter, radius, error):
        found = self.rod(diameter, radius).set_error(f"{error} mm")
        widths = widths_of(rod_of(diameter, radius, error))
        assert mm(found.smallest) == CLOSE(min(widths), abs=4e-3)
        assert mm(found.largest) == CLOSE(max(widths), abs=4e-3)
        assert mm(found.out_of_round) == CLOSE(max(widths) - min(widths), abs=5e-3)
        assert mm(found.step) == max(error, 0)


def test_the_right_cutter_leaves_a_circle():
    rod = RoundStock("19 mm", "400 mm")
    assert (mm(rod.flat), mm(rod.out_of_round), mm(rod.ideal_radius)) == (0, 0, 9.5)
    assert {round(math.hypot(*map(mm, point)), 9) for point in rod.outline(100)} == {9.5}
    assert rod == RoundStock("19 mm", "400 mm", roundover_radius=None)


def test_no_error_leaves_the_true_rod():
    found = RoundStock("19 mm", "400 mm", roundover_radius="8 mm").set_error("0 mm")
    true = RoundStock("19 mm", "400 mm", roundover_radius="8 mm")
    assert mm(found.smallest) == CLOSE(19)
    assert mm(found.out_of_round) == CLOSE(mm(true.out_of_round))


def test_by_hand():
    # 8 mm in a 20 mm square leaves 4 mm flat; its diagonal 5.657 and 16 make 21.657.
    rod = RoundStock("20 mm", "300 mm", count=3, roundover_radius="8 mm", grip="60 mm", kerf="2.5 mm")
    assert mm(rod.flat) == CLOSE(4)
    assert mm(rod.across_corners) == CLOSE(21.657, abs=5e-4)
    assert mm(rod.blank_length) == 3 * 300 + 4 * 2.5 + 2 * 60


@pytest.mark.parametrize(
    ("sizes", "said", "input"),
    [
        (dict(roundover_radius="9.6 mm"), "9.6 mm is too large .*19.0 mm.*more than 9.5 mm", "roundover_radius"),
        (dict(count=0), "from 1 to 40", "count"),
    ],
)
def test_rods_that_cannot_be_made(sizes, said, input):
    with pytest.raises(ShapeError, match=said) as caught:
        RoundStock("19 mm", "400 mm", **sizes)
    assert caught.value.input == input


@pytest.mark.parametrize("error", ["2.4 mm", "-2.4 mm"])
def test_too_far_off_is_no_error(error):
    with pytest.raises(ShapeError, match="another profile"):
        RoundStock("19 mm", "400 mm").set_error(error)


@pytest.mark.parametrize("n", [2, 2.5, True, "8"])
def test_outline_needs_a_number_of_points(n):
    with pytest.raises(MeasureError, match="3 or more"):
        RoundStock("19 mm", "400 mm").outline(n)


@pytest.mark.parametrize(
    ("sizes", "input"),
    [
        (dict(roundover_radius="8 mm"), "roundover_radius"), (dict(grip="30 mm"), "grip"), (dict(count=4), "count"),
        (dict(pass_depth=None), "pass_depth"), (dict(pass_depth="7 mm", diameter="40 mm"), "pass_depth"),
    ],
)
def test_rods_to_worry_about(sizes, input):
    rod = RoundStock("19 mm", "400 mm", pass_depth="5 mm")
    assert [each.input for each in rod.replace(**sizes).cautions] == [input]
    assert not rod.cautions


@settings(deadline=None, max_examples=60)
@given(data=st.data())
def test_rounds_of_the_cutter(data):
    """The arc rises by equal steps, none larger than the bite, to the whole radius; one round fewer is too few."""
    rod = made(RoundStock, data.draw(sizes(RoundStock)))
    assume(rod)
    plain = rod.plain
    steps = numpy.diff([0.0, *plain.passes])
    assert plain.passes[-1] == plain.cutter_radius
    if plain.has("pass_depth"):
        assert steps == CLOSE(steps[0]) and steps[0] <= plain.pass_depth * (1 + 1e-9)
        assert len(steps) == 1 or plain.cutter_radius / (len(steps) - 1) > plain.pass_depth * (1 - 1e-9)
    else:
        assert len(steps) == 1


@pytest.mark.parametrize("count", [1, 3])
def test_stops_leave_both_grips_square(count):
    """The blank slid from stop to stop past the cutter at nothing, fed to the left: what of it passes the axis."""
    rod = RoundStock("19 mm", "400 mm", count=count, grip="70 mm", kerf="3 mm").plain
    at_start, at_end = rod.stop_distance - rod.blank_length, -rod.stop_distance  # where its leading end is
    first, last = 0 - at_start, 0 - at_end  # what lies at the cutter, from the leading end
    assert (first, rod.blank_length - last) == CLOSE((70, 70))
    assert last - first == CLOSE(count * 400 + (count + 1) * 3)  # the rods with a saw cut at every end


# Crossing holes ---------------------------------------------------------------------------------------------

SIDES = 96  # of the prisms that stand for round holes: true to one part in two thousand


def drilled(joint, level, second):
    """A hole of the joint as a solid: on the x axis for the first rail, on the y axis for the second."""
    plain = joint.plain
    radius, length = plain.dowel_diameter / 2, plain.leg_depth + 1.0
    bit = manifold3d.Manifold.cylinder(length, radius, radius, SIDES).rotate([0, 90, 0])
    bit = bit.translate([plain.leg_diameter / 2 - plain.leg_depth, 0, level])
    return bit.rotate([0, 0, 90]) if second else bit


def kernel_clearance(joint):
    """Least distance between the solids of all holes of one rail and all of the other, looked for 1 mm too far."""
    plain = joint.plain
    far = plain.crossing_clearance + 1.0
    step = (plain.rail_height - 2 * plain.edge) / max(plain.dowels - 1, 1)
    heights = [-plain.edge - k * step for k in range(plain.dowels)]
    return min(
        drilled(joint, one, False).min_gap(drilled(joint, other - plain.stagger, True), far)
        for one, other in itertools.product(heights, heights)
    )


def joint_of(dowel="8 mm", depth="12 mm", edge="12 mm", stagger="0 mm", **more):
    return DowelJoint("35 mm", "20 mm", "50 mm", dowel, "40 mm", depth, edge, stagger=stagger, **more)


JOINTS = [
    joint_of(), joint_of(depth="8 mm"), joint_of(depth="13 mm", stagger="4 mm"), joint_of(depth="13.5 mm"),
    joint_of(depth="15 mm", stagger="5 mm"), joint_of("6 mm", "16 mm", "15 mm", "5 mm"),
    joint_of("6 mm", "17 mm", "15 mm", "9 mm"), joint_of("6 mm", "17.5 mm", "15 mm", "9 mm"),
    joint_of("6 mm", "25 mm", "15 mm", "9 mm"), joint_of("6 mm", "25 mm", "15 mm", "5 mm"),
    joint_of("4 mm", "14 mm", "12 mm", "7 mm", dowels=3), joint_of("8 mm", "16 mm", "20 mm", "9 mm", dowels=1),
    joint_of("5 mm", "5 mm", "20 mm", "15 mm", dowels=1), joint_of("6 mm", "17.49 mm", "15 mm", "8 mm"),
]  # fmt: skip


@pytest.mark.parametrize("joint", JOINTS, ids=repr)
def test_least_wood_between_the_solids(joint):
    """manifold3d, prisms of 96 sides; past the cope's bottom the bits run on by 1 mm, as the holes do."""
    assert mm(joint.crossing_clearance) == CLOSE(kernel_clearance(joint), abs=5e-3)


@settings(deadline=None, max_examples=60)
@given(data=st.data())
def test_least_wood_whatever_the_sizes(data):
    joint = made(DowelJoint, data.draw(sizes(DowelJoint)))
    assume(joint)
    assert mm(joint.crossing_clearance) == CLOSE(kernel_clearance(joint), abs=1.5e-3 * joint.plain.dowel_diameter)


@pytest.mark.parametrize("gap", [0.0, 3.0, 7.9, 9.0, 20.0])
@pytest.mark.parametrize("bottom", [-10.0, 0.3, 3.9, 5.0, 9.0])
def test_least_wood_by_search(bottom, gap):
    """scipy seeks the nearest points of the two cylinders, each given by its length, radius and angle."""

    def apart(place):
        along, out, turn, along2, out2, turn2 = place
        one = (bottom + along, out * math.cos(turn), out * math.sin(turn))
        two = (out2 * math.cos(turn2), bottom + along2, gap + out2 * math.sin(turn2))
        return math.dist(one, two) ** 2

    limits = [(0, 40), (0, 4), (-7, 7)] * 2
    starts = itertools.product((0.0,), (1.0, 3.9), (0.2, 1.4))
    found = min(
        minimize(apart, [a, r, t, a, r, -t], bounds=limits, options={"ftol": 1e-15, "gtol": 1e-10}).fun
        for a, r, t in starts
    )
    assert clearance_between(bottom, gap, 4.0) == CLOSE(math.sqrt(found), abs=3e-3)


def test_crossing_limits_by_hand():
    assert mm(joint_of().crossing_clearance) == CLOSE(math.sqrt(2) * 1.5)  # level: 5.5 - 4 along both axes
    assert mm(joint_of("6 mm", "25 mm", "15 mm", "9 mm").crossing_clearance) == CLOSE(3)  # past the centre: 9 - 6
    assert mm(joint_of(depth="14 mm").crossing_clearance) == 0


def test_the_nearest_levels_of_all_pairs_count():
    """Holes 20 mm apart, shifted by 15: the second rail's upper hole is 5 mm over the first rail's lower one."""
    joint = DowelJoint("35 mm", "20 mm", "70 mm", "6 mm", "40 mm", "25 mm", "25 mm", stagger="15 mm")
    assert joint.plain.level_gap == 5
    assert mm(joint.crossing_clearance) == 0


@settings(deadline=None, max_examples=60)
@given(data=st.data())
def test_depth_and_stagger_only_help(data):
    """Less deep never leaves less wood, and the clearance is felt smoothly: one step moves it little."""
    bottom, gap = data.draw(st.floats(-20, 20)), data.draw(st.floats(0, 30))
    radius, more = data.draw(st.floats(2, 8)), data.draw(st.floats(0, 1))
    here = clearance_between(bottom, gap, radius)
    assert -1e-6 <= clearance_between(bottom + more, gap, radius) - here <= math.sqrt(2) * more + 1e-6
    assert -1e-6 <= clearance_between(bottom, gap + more, radius) - here <= more + 1e-6


class TestTheOtherWayRound:
    @pytest.mark.parametrize("wanted", ["0.5 mm", "1 mm", "2 mm", "5 mm"])
    @pytest.mark.parametrize("stagger", ["0 mm", "3 mm", "7 mm"])
    def test_deepest_hole_leaves_just_that(self, wanted, stagger):
        joint = joint_of("6 mm", "10 mm", "13 mm", stagger)
        deepest = joint.deepest_leg_hole(wanted)
        at = joint.replace(leg_depth=deepest)
        size = mm(at.crossing_clearance)
        assert size == CLOSE(float(wanted[:-3]), abs=1e-6) or stagger == "7 mm"
        assert size >= float(wanted[:-3]) - 1e-6
        deeper = clearance_between(17.5 - mm(deepest) - 0.05, joint.plain.level_gap, 3.0)
        behind = 17.5 - math.hypot(mm(deepest) - 17.5, 3)
        assert deeper < float(wanted[:-3]) or behind == CLOSE(float(wanted[:-3]), abs=1e-6) or deeper == 0

    def test_deepest_hole_by_hand(self):
        assert mm(joint_of().deepest_leg_hole("0 mm")) == CLOSE(13.5)  # the bottoms' corners just touch
        # level holes: 17.5 - 4 - 2/sqrt(2)
        assert mm(joint_of().deepest_leg_hole("2 mm")) == CLOSE(17.5 - 4 - math.sqrt(2))
        # far enough apart in height: the drill's point 2 mm ahead has to stay 2 mm inside the leg
        free = joint_of("6 mm", "10 mm", "15 mm", "9 mm", drill_point="2 mm")
        assert mm(free.deepest_leg_hole("2 mm")) == CLOSE(31)

    @pytest.mark.parametrize(("wanted", "needed"), [("3 mm", 9), ("0 mm", 6), ("2 mm", 8)])
    def test_stagger_past_the_centre_is_dowel_and_wood(self, wanted, needed):
        assert mm(joint_of("6 mm", "25 mm", "15 mm").stagger_needed(wanted)) == CLOSE(needed)

    @pytest.mark.parametrize("depth", ["13.5 mm", "15 mm", "16.5 mm", "20 mm"])
    @pytest.mark.parametrize("wanted", [0.5, 2.0])
    def test_stagger_leaves_just_that(self, depth, wanted):
        joint = joint_of("6 mm", depth, "15 mm")
        found = joint.replace(stagger=joint.stagger_needed(f"{wanted} mm"))
        assert kernel_clearance(found) == CLOSE(wanted, abs=8e-3) or found.plain.stagger == 0
        if found.plain.stagger == 0:
            assert kernel_clearance(found) > wanted - 8e-3

    def test_none_where_it_is_not_needed(self):
        assert mm(joint_of().stagger_needed("2 mm")) == 0

    def test_both_ways_told(self):
        depth, stagger = (row[1] for row in joint_of(depth="20 mm").ways_to_leave("2 mm").rows)
        assert depth == "12.1 mm" and "out of its edge, where there is room for 8.0 mm" in stagger
        free = joint_of("6 mm", "25 mm", "15 mm").ways_to_leave("1/8 in", unit="in")
        # 17.5 - 3 - 3.175/sqrt(2) = 12.255 mm; 6 + 3.175 = 9.175 mm
        assert [row[1] for row in free.rows] == ["31/64 in (0.482)", "23/64 in (0.361)"]

    @pytest.mark.parametrize(
        ("ask", "said"),
        [
            (lambda: joint_of("6 mm", "20 mm", "17 mm").stagger_needed("3 mm"), "apart leave only"),
            (lambda: joint_of("8 mm", "20 mm", "8 mm").stagger_needed("3 mm"), "out of its edge"),
            (lambda: joint_of().stagger_needed("-1 mm"), "cannot be wanted"),
            (lambda: joint_of().deepest_leg_hole("14 mm"), "leaves 14"),
        ],
    )
    def test_what_cannot_be_had(self, ask, said):
        with pytest.raises(ShapeError, match=said):
            ask()


# The rest of the joint --------------------------------------------------------------------------------------


def test_joint_of_the_demo_stand_by_hand():
    joint = joint_of(drill_point="2 mm")
    names = ["rail_depth", "spacing", "cheek", "far_wall", "shifted_edge"]
    # 40 + 2 x 1.5 - 12; 50 - 2 x 12; (20 - 8)/2; 35 - 12 - 2; 12 - 0
    assert [mm(getattr(joint, name)) for name in names] == [31, 26, 6, 21, 12]
    assert mm(joint_of(stagger="3 mm").shifted_edge) == 9
    assert mm(joint_of(edge="20 mm", dowels=1, stagger="3 mm").shifted_edge) == 27  # from the other edge
    assert mm(joint_of("6 mm", edge="11 mm", dowels=3).spacing) == 14


def test_heights_from_the_upper_edge_by_hand():
    def heights(joint):
        return [tuple(map(mm, row)) for row in joint.heights]

    assert heights(joint_of(stagger="3 mm")) == [(12, 15), (38, 41)]
    assert heights(joint_of("4 mm", edge="11 mm", dowels=3)) == [(11, 11), (25, 25), (39, 39)]
    assert heights(joint_of(edge="20 mm", dowels=1, stagger="3 mm")) == [(20, 23)]


@settings(deadline=None, max_examples=60)
@given(data=st.data())
def test_coping_leaves_the_hole_as_deep_as_it_should_be(data):
    """shapely: a hole drilled into the square end to that depth, then the leg cut away: what is left on the axis."""
    joint = made(DowelJoint, data.draw(sizes(DowelJoint)))
    assume(joint)
    plain = joint.plain
    leg = Point(0, 0).buffer(plain.leg_diameter / 2, quad_segs=2 * SMOOTH)
    side = LineString([(0, plain.rail_thickness / 2 * (1 - 1e-6)), (200, plain.rail_thickness / 2 * (1 - 1e-6))])
    tips = side.intersection(leg).bounds[2]  # where the rail's square end is sawn
    hole = box(tips, -plain.dowel_diameter / 2, tips + plain.drilled_depth, plain.dowel_diameter / 2)
    left = LineString([(0, 0), (400, 0)]).intersection(hole - leg)
    assert left.length == CLOSE(plain.rail_depth, abs=0.02 * math.sqrt(plain.leg_diameter))


@pytest.mark.parametrize(("leg", "thick"), [("35 mm", "20 mm"), ("1 3/8 in", "3/4 in"), ("40 mm", "39 mm")])
def test_cope_depth_is_that_of_the_coping_lesson(leg, thick):
    joint = DowelJoint(leg, thick, "50 mm", "6 mm", "40 mm", "10 mm", "15 mm")
    assert mm(joint.drilled_depth - joint.rail_depth) == CLOSE(mm(Cope(leg, thick, "360 mm").depth))


def test_a_quarter_of_the_girth():
    """shapely's girth of a leg; and by hand, pi 35 / 4."""
    girth = Point(0, 0).buffer(17.5, quad_segs=SMOOTH).length
    assert mm(joint_of().quarter) == CLOSE(girth / 4, rel=1e-4)
    assert mm(joint_of().quarter) == CLOSE(27.489, abs=5e-4)


@settings(deadline=None, max_examples=60)
@given(data=st.data())
def test_dowel_fills_both_holes_but_for_its_clearances(data):
    joint = made(DowelJoint, data.draw(sizes(DowelJoint)))
    assume(joint)
    plain = joint.plain
    assert plain.leg_depth + plain.rail_depth == CLOSE(plain.dowel_length + 2 * plain.end_clearance)
    assert 2 * plain.cheek + plain.dowel_diameter == CLOSE(plain.rail_thickness)


def test_wall_behind_the_hole_is_measured_on_the_leg():
    """The flat bottom's rim comes nearer to the far surface than its middle does: shapely's leg less the hole."""
    joint = joint_of(depth="30 mm")
    leg, hole = Point(0, 0).buffer(17.5, quad_segs=SMOOTH), box(-12.5, -4, 20, 4)
    assert joint.plain.corner_wall == CLOSE(leg.exterior.intersection(box(-20, -20, 0, 20)).distance(hole), abs=2e-3)
    assert joint.plain.corner_wall < joint.plain.far_wall == 5


@pytest.mark.parametrize(
    ("change", "said", "input"),
    [
        (dict(rail_thickness="36 mm"), "36.0 mm thick cannot be coped", "rail_thickness"),
        (dict(dowel_diameter="20 mm"), "20.0 mm leaves nothing of a rail 20.0 mm", "dowel_diameter"),
        (dict(leg_depth="34.8 mm"), "comes out behind a leg 35.0 mm", "leg_depth"),
        (dict(leg_depth="32 mm", drill_point="3 mm"), "comes out behind", "leg_depth"),
        (dict(leg_depth="1.5 mm"), "takes no dowel", "leg_depth"),
        (dict(dowel_length="10 mm"), "nothing of it stands in the rail", "leg_depth"),
        (dict(edge="4 mm"), "breaks out of the rail's edge", "edge"),
        (dict(edge="21 mm"), "run into each other", "edge"),
        (dict(edge="46 mm", dowels=1), "breaks out of the other one", "edge"),
        (dict(stagger="8 mm"), "there is room for 8.0 mm", "stagger"),
    ],
)
def test_joints_that_cannot_be_made(change, said, input):
    with pytest.raises(ShapeError, match=said) as caught:
        joint_of().replace(**change)
    assert caught.value.input == input


@pytest.mark.parametrize(
    ("change", "input", "said"),
    [
        (dict(rail_thickness="25 mm", dowel_diameter="8.4 mm"), "rail_thickness", "tips"),
        (dict(dowel_diameter="6 mm"), "dowel_diameter", "third to half"),
        (dict(leg_depth="14 mm"), "leg_depth", "break into each other"),
        (dict(leg_depth="13 mm"), "leg_depth", "stays between"),
        (dict(edge="7 mm"), "edge", "from the rail's edge"),
        (dict(stagger="5 mm"), "stagger", "from the rail's edge"),
        (dict(leg_depth="9 mm"), "leg_depth", "holds in the leg"),
        (dict(dowel_length="18 mm"), "leg_depth", "holds in the rail"),
        (dict(end_clearance="0.5 mm"), "end_clearance", "trapped glue"),
    ],
)
def test_joints_to_worry_about(change, input, said):
    cautions = joint_of().replace(**change).cautions
    assert [each.input for each in cautions if said in each.tell()] == [input]
    assert all(each.source for each in cautions)


def test_the_demo_joint_is_nothing_to_worry_about():
    assert joint_of().cautions == ()


def test_a_thin_far_wall_is_a_worry():
    joint = joint_of("6 mm", "33.5 mm", "15 mm", "9 mm")
    assert [each.input for each in joint.cautions if "behind the hole" in each.tell()] == ["leg_depth"]


def test_single_dowel_has_no_spacing():
    with pytest.raises(ShapeError, match="single dowel"):
        _ = joint_of(dowels=1).spacing


class TestSuggestedDowel:
    def found(self, joint):
        return [mm(stock.diameter) for stock in joint.suggested_dowel]

    def test_between_a_third_and_a_half(self):
        # 20 mm rail: 6.7 to 10 mm; at 10 mm deep the largest still leaves wood between the holes
        assert self.found(joint_of(depth="10 mm")) == CLOSE([8, 9.525, 10])

    def test_only_where_the_clearances_hold(self):
        assert self.found(joint_of()) == CLOSE([8])  # 9.5 mm holes would leave 1 mm
        assert self.found(joint_of(depth="16 mm")) == []
        assert joint_of(depth="16 mm").tell("suggested_dowel").rows == [("stock dowels that suit", "none")]

    @pytest.mark.parametrize("unit", ["mm", "in"])
    def test_no_size_is_listed_twice(self, unit):
        """An 8 mm dowel and one of 5/16 in read alike to a 64th of an inch, so they share a row; all rails tried."""
        seen = set()
        for thick in range(10, 61):
            joint = DowelJoint("80 mm", f"{thick} mm", "150 mm", "5 mm", "40 mm", "12 mm", "40 mm", dowels=1)
            rows = joint.plain.suggested_dowel
            read = [show(quantity(row.diameter, "mm"), unit, "0.1 mm" if unit == "mm" else "1/64 in") for row in rows]
            assert len(set(read)) == len(read) == len({row.sold_as for row in rows})
            seen.update(row.sold_as for row in rows)
        assert {"8 mm", "5/16 in"} <= {name for names in seen for name in names.split(" or ")}
        assert {"5/16 in or 8 mm", "5/8 in or 16 mm"} <= seen

    @pytest.mark.parametrize(("stock", "dowel"), [("1 in", 3 / 8), ("1 1/4 in", 7 / 16)])
    def test_published_examples_lie_within(self, stock, dowel):
        """Common practice, reference row DW8: 3/8 in for 1 in stock, 7/16 in for 1-1/4 in."""
        assert published.row("dowels", id="DW8")["value"] == "3/8; 7/16"
        joint = DowelJoint("3 in", stock, "3 in", "1/2 in", "2 in", "3/4 in", "3/4 in")
        assert any(mm(each.diameter) / 25.4 == CLOSE(dowel) for each in joint.suggested_dowel)


# Fit --------------------------------------------------------------------------------------------------------

GRADES = [f"IT{n}_um" for n in range(6, 15)]


@pytest.mark.parametrize("row", published.rows("tolerances_it"), ids=lambda row: row["over_to_mm"])
def test_tolerance_grades(row):
    """ISO 286-1, the whole table, at its upper ends and just over its lower ones."""
    over, to = map(float, row["over_to_mm"].split("-"))
    for grade in GRADES:
        for size in (to, over + 0.01):
            assert 1000 * tolerance(size, grade.removesuffix("_um")) == CLOSE(float(row[grade]))


@pytest.mark.parametrize("size", [0.5, 130.0])
def test_sizes_outside_the_table(size):
    with pytest.raises(ShapeError, match="no tolerance"):
        tolerance(size, "IT8")


COARSE = published.rows("tolerances_fits", fit="H11/h11 clearance min;max")


@pytest.mark.parametrize("row", [row for row in COARSE if float(row["size_mm"]) <= 30], ids=lambda row: row["size_mm"])
def test_clearance_of_a_coarse_fit(row):
    """H11/h11, from ISO 286-1 grade IT11: clearance from 0 to twice the grade."""
    fit = DowelFit(f"{row['size_mm']} mm", "h11", "H11")
    assert 1000 * mm(fit.tightest) == CLOSE(float(row["lower"]))
    assert 1000 * mm(fit.loosest) == CLOSE(float(row["upper"]))


@pytest.mark.parametrize("size", ["6", "8", "10", "12", "20"])
def test_limits_of_a_fine_dowel(size):
    """h8, ISO 286-1: the limits of the reference rows."""
    row = published.row("tolerances_fits", fit="h8 shaft / twist drill DIN 338", size_mm=size)
    plain = DowelFit(f"{size} mm", "h8").plain
    assert 1000 * plain.dowel_upper == CLOSE(float(row["lower"]))
    assert 1000 * plain.dowel_lower == CLOSE(float(row["upper"]))


def test_dowels_as_sold():
    """Common practice, reference row DW10: +/-0.005 in."""
    each_way = float(published.row("dowels", id="DW10")["value"].split(";")[0].removeprefix("+/-")) * 25.4
    fit = DowelFit("8 mm", "as sold", "H11")
    assert mm(fit.tightest) == CLOSE(-each_way)
    assert mm(fit.loosest) == CLOSE(0.09 + each_way)


@pytest.mark.parametrize(("timber", "per_cent"), [("Beech, American", 0.00431), ("Ash, white", 0.00274)])
def test_swelling_by_hand(timber, per_cent):
    """Wood Handbook p. 13-17, Table 13-5: width x coefficient x change in per cent."""
    fit = DowelFit("10 mm", "h11", "H11", timber, "8 %", "12 %")
    assert mm(fit.swelling) == CLOSE(10 * per_cent * 4)
    assert mm(fit.tightest_later) == CLOSE(-10 * per_cent * 4)
    assert mm(fit.loosest_later) == CLOSE(0.18 - 10 * per_cent * 4)
    assert mm(fit.replace(made="12 %", now="8 %").swelling) == CLOSE(-10 * per_cent * 4)


@settings(deadline=None, max_examples=60)
@given(data=st.data())
def test_no_pair_is_tighter_or_looser(data):
    """Any dowel and any hole within their limits, before and after, lie between the two extremes."""
    fit = made(DowelFit, data.draw(sizes(DowelFit)))
    assume(fit)
    plain = fit.plain
    share = st.floats(0, 1)
    dowel = plain.dowel_lower + data.draw(share) * (plain.dowel_upper - plain.dowel_lower)
    hole = data.draw(share) * plain.hole_upper
    assert plain.tightest - 1e-9 <= hole - dowel <= plain.loosest + 1e-9
    grown = dowel + plain.diameter * plain.movement * 100 * (plain.now - plain.made)
    assert plain.tightest_later - 1e-9 <= hole - grown <= plain.loosest_later + 1e-9


@pytest.mark.parametrize(
    ("sizes", "inputs"),
    [
        (dict(dowel_grade="h11", hole_grade="H11"), []),
        (dict(dowel_grade="as sold", hole_grade="H8"), ["dowel_grade"]),
        (dict(dowel_grade="h11", hole_grade="H13"), ["hole_grade"]),
        (dict(dowel_grade="h11", made="12 %", now="8 %"), ["made"]),
        (dict(dowel_grade="h11", made="5 %", now="15 %"), ["made", "now"]),
    ],
)
def test_fits_to_worry_about(sizes, inputs):
    assert [each.input for each in DowelFit("8 mm", **sizes).cautions] == inputs
