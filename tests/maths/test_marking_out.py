"""Marks on round legs, judged by circles laid into corners and rays shot at them, by walking round, and by print."""

import math

import numpy
import published
import pytest
from hypothesis import given, settings
from models import drawn, sizes
from scipy.integrate import quad
from scipy.optimize import brentq
from shapely import LineString, Point, Polygon, box
from shapely.affinity import rotate

from shoplib import CornerBlock, Cradle, MeasureError, ShapeError, WrapStrip

CLOSE = pytest.approx
quick = settings(max_examples=60, deadline=None)


def disc(radius, centre=(0.0, 0.0)):
    return Point(centre).buffer(radius, quad_segs=512)


# Published values -------------------------------------------------------------------------------------------


def test_lines_of_a_cradle_are_a_chord():
    """Machinery's Handbook, 31st ed., p. 50 ex. 3: in a circle of radius 12 a chord 2 below its top is 13.27 long.

    The point slides 10 above the leg's centre: its two lines stand that chord apart.
    """
    row = published.row("circle_geometry", id="CG4")
    seat = 12 / math.sin(math.radians(45))
    chord = 2 * 12 * math.sin(Cradle("24 cm", "90 deg", f"{seat} cm", "10 cm").plain.lines_apart / 2)
    assert chord == CLOSE(float(row["printed_result"]), abs=float(row["tolerance"]))


def test_leg_touches_the_v_where_a_chord_ends():
    """The same row: a leg of radius 12 whose foot hangs 2 below the lines of touch is 13.27 wide there."""
    row = published.row("circle_geometry", id="CG4")
    wide = 2 * math.acos(5 / 6)  # at the leg's centre, between the two lines of touch
    cradle = Cradle("24 cm", f"{math.pi - wide} rad").plain
    assert cradle.depth - cradle.touch_below == CLOSE(cradle.seat - 120 + 20)
    chord = 2 * cradle.touching * math.tan(cradle.v_angle / 2)
    assert chord / 10 == CLOSE(float(row["printed_result"]), abs=float(row["tolerance"]))


def test_v_of_60_degrees_sits_as_a_circle_in_a_triangle():
    """Equilateral triangle (Rose, Angles of regular polygons): its circle's centre is two radii from a corner."""
    angles = published.row("circle_geometry", id="CG19", inputs="n=3")["printed_result"]
    cradle = Cradle("40 mm", f"{angles.split(';')[1]} deg")
    assert cradle.seat.m_as("mm") == CLOSE(40)
    assert cradle.blade_tilt.m_as("deg") == CLOSE(30)


# The strip --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("paper", [0.0, 0.1, 0.6])
def test_girth_is_the_sum_of_short_steps(paper):
    """Walked round along the paper's middle in a hundred thousand steps, and integrated by scipy."""
    strip = WrapStrip("35 mm", "360 mm", f"{paper} mm").plain
    middle = (35 + paper) / 2
    turns = numpy.linspace(0, 2 * math.pi, 100_001)
    steps = numpy.hypot(numpy.diff(middle * numpy.cos(turns)), numpy.diff(middle * numpy.sin(turns)))
    around, _ = quad(lambda x: 4 * math.sqrt(1 + x * x / (middle**2 - x * x)), 0, middle)
    assert strip.girth == CLOSE(steps.sum(), rel=1e-8) == CLOSE(around, rel=1e-6)
    assert strip.quarter == CLOSE(steps[:25_000].sum(), rel=1e-8)


def test_bent_paper_keeps_its_area():
    """As much paper lies between its two skins round the leg as laid flat: girth times thickness."""
    strip = WrapStrip("35 mm", "360 mm", "0.6 mm").plain
    wrapped = disc(17.5 + 0.6).area - disc(17.5).area
    assert strip.girth * 0.6 == CLOSE(wrapped, rel=1e-3)


@quick
@given(sizes(WrapStrip))
def test_rail_points_where_its_mark_sends_it(given_sizes):
    """A point walked round the strip by the slip; a ray from the centre through it, cut where the far leg stands."""
    strip = drawn(WrapStrip, given_sizes)
    middle, span = (strip.leg_diameter + strip.paper_thickness) / 2, strip.leg_spacing
    turn = 2 * math.pi * strip.strip_error / strip.girth
    mark = Point(middle, 0) if turn == 0 else rotate(Point(middle, 0), turn, (0, 0), use_radians=True)
    ray = LineString([(0, 0), (10 * span / middle * mark.x, 10 * span / middle * mark.y)])
    there = ray.intersection(LineString([(span, -10 * span), (span, 10 * span)]))
    assert strip.rail_miss == CLOSE(there.y, abs=1e-6 * span)
    assert strip.angle_error == CLOSE(turn, abs=1e-12)


def test_two_degrees_by_eye():
    """By hand: tan 2 deg = 0.034921 (a table of tangents, from memory); 360 x 0.034921 = 12.57."""
    strip = WrapStrip("35 mm", "360 mm")
    (slip,) = strip.find("strip_error", angle_error="2 deg")
    assert slip.m_as("mm") == CLOSE(0.6126, abs=5e-5)
    assert strip.replace(strip_error=slip).rail_miss.m_as("mm") == CLOSE(360 * 0.034921, abs=2e-3)


def test_twist_is_the_drift_on_the_skin():
    """Half a millimetre on a leg of 35: an arc of 1/220 of the girth of the bare leg."""
    strip = WrapStrip("35 mm", "360 mm", line_drift="0.5 mm").plain
    assert strip.twist / (2 * math.pi) == CLOSE(0.5 / disc(17.5).exterior.length, rel=1e-4)
    assert strip.lower_miss == CLOSE(360 * math.tan(strip.twist))


@pytest.mark.parametrize("leg", [20, 35, 87.3])
def test_leg_from_its_own_girth(leg):
    strip = WrapStrip("50 mm", "360 mm", "0.3 mm")
    around = WrapStrip(f"{leg} mm", "360 mm", "0.3 mm").girth
    assert strip.leg_from_girth(around).m_as("mm") == CLOSE(leg)
    assert strip.leg_from_girth(f"{math.pi * (leg + 0.3):.6f} mm").m_as("mm") == CLOSE(leg, abs=1e-5)


def test_leg_from_no_girth():
    strip = WrapStrip("50 mm", "360 mm", "0.3 mm")
    with pytest.raises(ShapeError, match="leaves no leg"):
        strip.leg_from_girth("0.9 mm")
    with pytest.raises(MeasureError):
        strip.leg_from_girth("110")


STAND = dict(upper_rail="60 mm", lower_rail="500 mm", rail_height="50 mm", dowel_edge="12 mm", dowel_spacing="26 mm")


def test_heights_by_hand():
    # 60 + 12 = 72; 72 + 26 = 98; 500 + 12 = 512; 512 + 26 = 538; the second rail's dowels 4 lower
    strip = WrapStrip("35 mm", "360 mm", stagger="4 mm", **STAND).plain
    assert [row.first_rail for row in strip.heights] == [60, 72, 98, 500, 512, 538]
    assert [row.second_rail for row in strip.heights] == [60, 76, 102, 500, 516, 542]
    assert [row.mark for row in strip.heights][1:4] == [
        "upper rail, upper dowel", "upper rail, lower dowel", "lower rail's upper edge",
    ]  # fmt: skip


def test_heights_of_what_is_known():
    one = WrapStrip("35 mm", "360 mm", upper_rail="60 mm", dowel_edge="25 mm", rail_height="50 mm").plain
    assert [row.first_rail for row in one.heights] == [60, 85]
    bare = WrapStrip("35 mm", "360 mm", upper_rail="60 mm", lower_rail="300 mm").plain
    assert [row.first_rail for row in bare.heights] == [60, 300]
    with pytest.raises(ShapeError, match="leg's top to upper rail"):
        _ = WrapStrip("35 mm", "360 mm").heights


def test_heights_agree_with_the_joint_of_lesson_four():
    """The same rail end by the joint's own plan: from the rail's upper edge down, on either rail."""
    from shoplib import DowelJoint

    joint = DowelJoint("35 mm", "20 mm", "50 mm", "6 mm", "40 mm", "12 mm", "12 mm", stagger="6 mm").plain
    strip = WrapStrip("35 mm", "360 mm", stagger="6 mm", **STAND).plain
    upper = [row for row in strip.heights if row.mark.startswith("upper rail,")]
    assert [(row.first_rail - 60, row.second_rail - 60) for row in upper] == [tuple(row) for row in joint.heights]


@pytest.mark.parametrize(("sizes_given", "said"), [
    ({"strip_error": "14 mm"}, "half way to the next quarter"), ({"line_drift": "14 mm"}, "half way"),
    ({**STAND, "lower_rail": "110 mm"}, "Set the lower rail lower"),
    ({**STAND, "dowel_spacing": "38 mm"}, "lowest hole"), ({**STAND, "stagger": "12 mm"}, "lowest hole"),
])  # fmt: skip
def test_strips_that_cannot_be(sizes_given, said):
    with pytest.raises(ShapeError, match=said):
        WrapStrip("35 mm", "360 mm", **sizes_given)


def test_strip_at_its_limits():
    WrapStrip("35 mm", "360 mm", strip_error="13.7 mm", line_drift="13.7 mm")  # girth/8 = 13.78
    WrapStrip("35 mm", "360 mm", **{**STAND, "lower_rail": "110.1 mm", "dowel_spacing": "37.9 mm"})


# The corner block -------------------------------------------------------------------------------------------


def marks_by_rays(block):
    """The leg laid into the corner by growing it until it touches, both holes' middles shot at it; the two marks."""
    leg, size = block.leg_diameter, block.size
    boards = [LineString([(0, 0), (size, 0)]), LineString([(0, 0), (0, size)])]
    place = brentq(lambda x: Point(x, x).distance(boards[0]) - leg / 2, 0, 2 * size)
    rim = Point(place, place).buffer(leg / 2, quad_segs=4096).exterior
    hole = size / 2
    along_x = LineString([(-leg, hole), (3 * leg, hole)]).intersection(rim)
    along_y = LineString([(hole, -leg), (hole, 3 * leg)]).intersection(rim)
    left = min(along_x.geoms, key=lambda point: point.x)
    low = min(along_y.geoms, key=lambda point: point.y)
    angles = [math.atan2(point.y - place, point.x - place) % (2 * math.pi) for point in (left, low)]
    return angles[1] - angles[0], place


@pytest.mark.parametrize("made_for", [18, 25, 32, 35, 38, 50, 69])
def test_marks_of_a_block(made_for):
    block = CornerBlock("35 mm", f"{made_for} mm").plain
    between, place = marks_by_rays(block)
    assert block.angle_between == CLOSE(between, abs=2e-3 if made_for > 60 else 2e-4)
    assert block.off_centre == CLOSE(block.hole_from_corner - place)
    assert LineString([(block.size / 2, -9), (block.size / 2, 9)]).distance(Point(place, place)) >= 0


def test_holes_bored_through_a_wrong_block_stay_square():
    """Both axes are square to their boards whatever the leg is; each passes its centre by off_centre."""
    block = CornerBlock("35 mm", "41 mm").plain
    axes = [LineString([(20.5, -99), (20.5, 99)]), LineString([(-99, 20.5), (99, 20.5)])]
    assert [axis.distance(Point(17.5, 17.5)) for axis in axes] == CLOSE([block.off_centre] * 2)


@quick
@given(sizes(CornerBlock))
def test_boards_close_round_the_leg(given_sizes):
    """Both boards as rectangles: they meet without overlap, the inner faces are alike, the holes mirror each other."""
    block = drawn(CornerBlock, given_sizes)
    thick, high = block.board_thickness, block.short_board
    long = box(-thick, -thick, block.long_board - thick, 0)
    short = box(-thick, 0, 0, high)
    assert long.intersection(short).area == CLOSE(0, abs=1e-9) and long.touches(short)
    whole = long.union(short)
    assert whole.bounds == CLOSE((-thick, -thick, block.size, block.size))
    assert -thick + block.hole_from_end == CLOSE(block.hole_from_corner)
    leg = disc(block.leg_diameter / 2, (block.leg_diameter / 2,) * 2)
    assert whole.intersection(leg).area < 1e-3 * leg.area


def test_right_block_by_hand():
    block = CornerBlock("35 mm")
    names = ("short_board", "long_board", "hole_from_corner", "hole_from_end")
    found = [getattr(block, name).m_as("mm") for name in names]
    assert found == CLOSE([35, 47, 17.5, 29.5])
    assert block.angle_between.m_as("deg") == CLOSE(90) and block.off_centre.m_as("mm") == 0
    assert not block.cautions


@pytest.mark.parametrize("made_for", ["17.4 mm", "70 mm"])
def test_blocks_for_other_legs_are_refused(made_for):
    with pytest.raises(ShapeError, match="Make a block for this leg"):
        CornerBlock("35 mm", made_for)


def test_block_at_its_limits():
    """Made for half the leg, the boards' free edges are just where it touches; short of twice, the drill just meets."""
    assert CornerBlock("35 mm", "17.5 mm").angle_between.m_as("deg") == CLOSE(30)
    assert CornerBlock("35 mm", "69.9 mm").angle_between.m_as("deg") == CLOSE(90 + 2 * 85.67, abs=0.02)


# The cradle -------------------------------------------------------------------------------------------------


def settled(cradle):
    """The height above the face at which a leg comes to rest in the V, found by lowering it until wood meets wood."""
    half = cradle.depth * math.tan(cradle.v_angle / 2)
    faces = LineString([(-half, 0), (0, -cradle.depth), (half, 0)])
    leg = cradle.leg_diameter
    return brentq(lambda y: Point(0, y).distance(faces) - leg / 2, -cradle.depth, 10 * leg)


@quick
@given(sizes(Cradle))
def test_leg_comes_to_rest(given_sizes):
    cradle = drawn(Cradle, given_sizes)
    high = settled(cradle)
    assert cradle.centre_above == CLOSE(high, abs=1e-6)
    half = cradle.mouth / 2
    right = LineString([(0, -cradle.depth), (half, 0)])
    touch = right.interpolate(right.project(Point(0, high)))
    assert cradle.touch_below == CLOSE(-touch.y, abs=1e-6)
    assert cradle.sawn_face == CLOSE(right.length)
    assert math.atan2(half, cradle.depth) == CLOSE(cradle.blade_tilt)


def lines_by_rays(cradle):
    """A point slid in from either side until it meets the leg; the angle over the top between the two lines."""
    centre = Point(0, settled(cradle))
    rim = centre.buffer(cradle.leg_diameter / 2, quad_segs=4096)
    level = LineString([(-999, cradle.point_height), (999, cradle.point_height)]).intersection(rim)
    ends = sorted(level.coords)
    left, right = (math.atan2(y - centre.y, x - centre.x) for x, y in ends)
    return (left - right) % (2 * math.pi)


@pytest.mark.parametrize("cradle", [
    Cradle("35 mm"), Cradle("35 mm", "90 deg", "22 mm"), Cradle("35 mm", "90 deg", "29 mm"),
    Cradle("35 mm", "70 deg", "22 mm", "3.5 mm"), Cradle("1 1/2 in", "110 deg", "3/4 in", "1/8 in"),
    Cradle("35 mm", "90 deg", "14 mm"), Cradle("35 mm", "60 deg", point_height="5 mm"),
], ids=repr)  # fmt: skip
def test_lines_on_the_leg(cradle):
    assert cradle.plain.lines_apart == CLOSE(lines_by_rays(cradle.plain), abs=2e-3)


@quick
@given(sizes(Cradle))
def test_level_depth_draws_half_a_turn(given_sizes):
    cradle = drawn(Cradle, given_sizes | {"v_depth": None})
    assert cradle.depth == cradle.level_depth
    assert cradle.lines_apart == CLOSE(math.pi)
    assert lines_by_rays(cradle) == CLOSE(math.pi, abs=2e-3)


def test_demo_cradle_by_hand():
    # 17.5 x sqrt 2 = 24.749; the mouth is twice that, a face the leg's diameter, touching at half the depth
    cradle = Cradle("35 mm", block_height="60 mm").plain
    names = ("depth", "mouth", "sawn_face", "touch_below", "left_below")
    assert [getattr(cradle, name) for name in names] == CLOSE([24.749, 49.497, 35, 12.374, 35.251], abs=1e-3)


def test_wood_left_is_block_less_v():
    """The block as a polygon, the V taken from it: what stands upright below its bottom."""
    cradle = Cradle("35 mm", "80 deg", "25 mm", block_height="60 mm").plain
    half = cradle.mouth / 2
    rest = box(-50, -60, 50, 0) - Polygon([(-half, 0), (half, 0), (0, -25)])
    assert cradle.left_below == CLOSE(LineString([(0, -99), (0, 99)]).intersection(rest).length)
    assert rest.area == CLOSE(6000 - half * 25)


@pytest.mark.parametrize(("sizes_given", "said"), [
    ({"v_depth": "12.3 mm"}, "rides on the V's edges"), ({"block_height": "24 mm"}, "in two"),
    ({"v_angle": "151 deg"}, "holds no leg"), ({"point_height": "12.5 mm"}, "Bring the point down to 12.4 mm"),
    ({"v_depth": "12.3 mm", "point_height": "15 mm"}, "at least 12.4 mm"),
])  # fmt: skip
def test_cradles_that_cannot_be(sizes_given, said):
    with pytest.raises(ShapeError, match=said):
        Cradle("35 mm", **sizes_given)


def test_point_that_misses_spoils_one_result_only():
    cradle = Cradle("35 mm", "90 deg", "45 mm")  # the centre 20.25 below the face, the radius 17.5
    assert cradle.mouth.m_as("mm") == CLOSE(90)
    with pytest.raises(ShapeError, match="misses the leg"):
        _ = cradle.lines_apart


# What should worry ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("model", "said"), [
    (WrapStrip("35 mm", "360 mm"), ["beside the far leg's centre: fold the strip"]),
    (WrapStrip("35 mm", "360 mm", strip_error="0.05 mm"), []),
    (WrapStrip("35 mm", "360 mm", strip_error="0 mm", line_drift="0.5 mm"), ["while the upper one points right"]),
    (WrapStrip("35 mm", "360 mm", "0.8 mm", "0 mm"), ["stiff card"]),
    (WrapStrip("35 mm", "360 mm", strip_error="0 mm", upper_rail="60 mm", dowel_edge="12 mm"), ["Without the rail's"]),
    (CornerBlock("35 mm", "38 mm"), ["runs 1.50 mm beside"]),
    (CornerBlock("35 mm", "38 mm", "7 mm"), ["runs 1.50 mm beside", "guides a drill badly"]),
    (Cradle("35 mm", block_height="60 mm"), []), (Cradle("35 mm", "100 deg"), ["Most saws"]),
    (Cradle("35 mm", v_depth="24.5 mm"), []), (Cradle("35 mm", v_depth="24 mm"), ["24.75 mm"]),
    (Cradle("35 mm", block_height="30 mm"), ["can split"]),
    (Cradle("35 mm", "90 deg", "20 mm", "13 mm"), ["Bring the point down to 12.4 mm"]),
], ids=repr)  # fmt: skip
def test_cautions(model, said):
    found = [caution.tell() for caution in model.cautions]
    assert len(found) == len(said) and all(words in told for words, told in zip(said, found))
