"""How far the centre may be off, tried out with every sign of every error, and arcs by sympy's geometry."""

import itertools
import math

import numpy
import pytest
import sympy
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from shoplib import CentreFinder, ChordRise, MeasureError, ShapeError, circle_through

CLOSE = pytest.approx


def line(angle, off):
    """A line in this direction, off the origin to its left: (a, b, c) of ax + by = c."""
    return -math.sin(angle), math.cos(angle), off


def crossing(one, other):
    a = numpy.array([one[:2], other[:2]])
    return numpy.linalg.solve(a, [one[2], other[2]])


def far(points):
    return max(math.hypot(*point) for point in points)


def finder(diameter, error, angle=90.0, square=0.1):
    return CentreFinder(
        f"{diameter} mm", f"{error} mm", crossing_angle=f"{angle} deg", square_error=f"{square} deg"
    ).plain  # fmt: skip


diameters, errors = st.floats(40, 600), st.floats(0.05, 1)
angles, squares = st.floats(10, 170), st.integers(0, 1000).map(lambda thousandths: thousandths / 1000)
signs = (1, -1)


@settings(deadline=None)
@given(diameters, errors, angles)
def test_crossing_of_two_lines_by_brute_force(diameter, error, angle):
    """Each line off either way, and anywhere in between: nothing lies further out than what is told."""
    assume(error / math.sin(math.radians(min(angle, 180 - angle) / 2)) < diameter / 2)
    found, turn = finder(diameter, error, angle), math.radians(angle)
    steps = numpy.linspace(-error, error, 9)
    tried = [crossing(line(0.3, a), line(0.3 + turn, b)) for a, b in itertools.product(steps, steps)]
    assert far(tried) == CLOSE(found.centre_error, rel=1e-9)
    corners = [crossing(line(0.3, a * error), line(0.3 + turn, b * error)) for a, b in itertools.product(signs, signs)]
    assert min(math.hypot(*each) for each in corners) == CLOSE(found.near_corner, rel=1e-9)


@pytest.mark.parametrize(("angle", "times"), [(90, 2**0.5), (60, 2), (120, 2)])
def test_crossings_known_by_heart(angle, times):
    assert finder(100, 0.3, angle).centre_error == CLOSE(0.3 * times)


def test_nothing_beats_a_right_angle():
    tried = {angle: finder(100, 0.3, angle).centre_error for angle in range(10, 171, 5)}
    assert min(tried, key=tried.get) == 90


@given(errors)
def test_a_flatter_and_flatter_crossing_runs_away(error):
    ten, twenty = (finder(600, error, angle).centre_error for angle in (10, 20))
    assert ten == CLOSE(2 * twenty, rel=0.01)


# The four ways ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("angle", [40, 90, 130])
def test_bisectors_of_chords_by_sympys_geometry(angle):
    """Two chords of a true circle, each halved by a line moved sideways by the marking error."""
    error, radius, turn = 0.5, 50, math.radians(angle)
    chords = [
        [sympy.Point(radius * math.cos(way + side), radius * math.sin(way + side)) for side in (0.6, -0.6)]
        for way in (0.0, turn)
    ]
    tried = []
    for moves in itertools.product(signs, signs):
        bisectors = [
            sympy.Segment(*chord).perpendicular_bisector().translate(*(
                move * error * float(each) for each in (chord[1] - chord[0]).unit
            )) for chord, move in zip(chords, moves)
        ]  # fmt: skip
        (point,) = bisectors[0].intersection(bisectors[1])
        tried.append((float(point.x), float(point.y)))
    assert far(tried) == CLOSE(finder(2 * radius, error, angle).bisectors, rel=1e-6)


@settings(deadline=None)
@given(diameters, errors, squares)
def test_centre_square_turned_by_a_quarter(diameter, error, square):
    """The blade turned about the corner of the arms, which stands off both tangents of the rim."""
    radius, lean = diameter / 2, math.radians(square)
    tried = []
    for lines in itertools.product(signs, signs, signs):
        drawn = []
        for quarter, move in enumerate(lines[:2]):
            way = quarter * math.pi / 2
            corner = radius * (math.cos(way) - math.sin(way)), radius * (math.sin(way) + math.cos(way))
            blade = way + math.pi / 4 + math.pi + lines[2] * lean
            a, b, _ = line(blade, 0)
            drawn.append((a, b, a * corner[0] + b * corner[1] + move * error))
        tried.append(crossing(*drawn))
        missed = abs(drawn[0][2] - lines[0] * error)
        assert missed == CLOSE(finder(diameter, error, square=square).square_offset, abs=1e-9)
    assert far(tried) == CLOSE(finder(diameter, error, square=square).centre_square, rel=1e-9)


@settings(deadline=None)
@given(diameters, st.floats(0.05, 0.5), squares, st.floats(0.4, 1.1))
def test_corner_in_the_semicircle(diameter, error, square, way):
    """Edges drawn from a corner on the true rim, marks moved along the rim, the halving moved along the line."""
    radius, lean = diameter / 2, math.radians(square)
    tried = []
    for out, one, other, half in itertools.product(signs, signs, signs, signs):
        turn = math.pi / 2 + out * lean
        ends = [2 * way + math.pi, 2 * way + math.pi + 2 * turn]  # the angle at the centre is twice that at the rim
        ends = [end + move * error / radius for end, move in zip(ends, (one, other))]
        (x1, y1), (x2, y2) = ((radius * math.cos(end), radius * math.sin(end)) for end in ends)
        along = math.atan2(y2 - y1, x2 - x1)
        tried.append(((x1 + x2) / 2 + half * error * math.cos(along), (y1 + y2) / 2 + half * error * math.sin(along)))
    found = finder(diameter, error, square=square).semicircle
    assert far(tried) == CLOSE(found, rel=2e-2 * error)


def test_angle_at_the_rim_is_right_on_a_diameter():
    """Thales by sympy: from any corner on the circle the ends of a diameter are seen at a right angle."""
    corner = sympy.Point(3, 4)
    ends = sympy.Point(-5, 0), sympy.Point(5, 0)
    assert sympy.Line(corner, ends[0]).is_perpendicular(sympy.Line(corner, ends[1]))


@settings(deadline=None)
@given(diameters, errors, squares)
def test_middle_of_the_cradles_triangle(diameter, error, square):
    """Three lines a third of a turn apart, each off by the marking and all by the guide: the incentre's worst."""
    missed = finder(diameter, error, square=square).square_offset
    tried = []
    for moves in itertools.product(signs, signs, signs):
        lines = [line(2 * math.pi * k / 3, missed + move * error) for k, move in enumerate(moves)]
        tried.append(touching_all(lines))
    assert far(tried) == CLOSE(finder(diameter, error, square=square).v_cradle, rel=1e-9)


def touching_all(lines):
    """The point at one signed distance from all three lines: the middle of the circle that touches them."""
    a = numpy.array([[*each[:2], 1.0] for each in lines])
    return numpy.linalg.solve(a, [each[2] for each in lines])[:2]


@pytest.mark.parametrize("square", [0.05, 0.5, 1.0])
def test_side_of_the_cradles_triangle(square):
    found = finder(440, 0.3, square=square)
    lines = [line(2 * math.pi * k / 3, found.square_offset) for k in range(3)]
    corners = [crossing(*pair) for pair in itertools.combinations(lines, 2)]
    assert math.dist(corners[0], corners[1]) == CLOSE(found.triangle_side)
    triangle = sympy.Triangle(*(sympy.Point(*map(float, corner)) for corner in corners))
    assert abs(float(triangle.inradius)) == CLOSE(found.square_offset)


def test_a_true_square_leaves_the_marking_alone():
    found = finder(440, 0.3, square=0.0)
    assert found.square_offset == found.triangle_side == 0
    assert found.centre_square == found.semicircle == CLOSE(0.3 * math.sqrt(2)) == CLOSE(found.bisectors)
    assert found.v_cradle == CLOSE(0.4)


def test_only_the_cradle_is_as_good_on_a_tray_as_on_a_leg():
    """The square's error grows with the work; bisectors and the triangle's middle do not know it."""
    leg, tray = finder(35, 0.3), finder(440, 0.3)
    assert tray.v_cradle == leg.v_cradle and tray.bisectors == leg.bisectors
    assert tray.centre_square > leg.centre_square and tray.semicircle > leg.semicircle


def test_the_triangles_side_tells_the_squares_error():
    end = CentreFinder("440 mm", square_error="0.25 deg")
    (found,) = end.find("square_error", triangle_side=end.triangle_side)
    assert found.m_as("deg") == CLOSE(0.25)


# Wall, refusals, cautions -----------------------------------------------------------------------------------


def test_wall_by_hand():
    # 60 deg: the crossing is off by twice the marking error, 3 mm; (40 - 20)/2 - 3.
    assert CentreFinder("40 mm", "1.5 mm", crossing_angle="60 deg").wall_left("20 mm").m_as("mm") == CLOSE(7)


@settings(deadline=None)
@given(diameters, errors, angles, st.floats(0.1, 0.8))
def test_hole_on_the_worst_crossing_keeps_its_wall(diameter, error, angle, share):
    assume(error / math.sin(math.radians(min(angle, 180 - angle) / 2)) < diameter * (1 - share) / 2 - 0.01)
    end = CentreFinder(f"{diameter} mm", f"{error} mm", crossing_angle=f"{angle} deg")
    hole = share * diameter
    turn = math.radians(angle)
    middles = [crossing(line(0, error), line(turn, off)) for off in (error, -error)]
    wall = diameter / 2 - far(middles) - hole / 2
    assert end.wall_left(f"{hole} mm").m_as("mm") == CLOSE(wall, abs=1e-6)


@pytest.mark.parametrize("hole", ["34.2 mm", "35 mm", "80 mm"])
def test_hole_that_may_break_out(hole):
    with pytest.raises(ShapeError, match=r"may break out of a leg 35\.0 mm.*under 34\.2 mm"):
        CentreFinder("35 mm").wall_left(hole)
    assert CentreFinder("35 mm").wall_left("34 mm").m_as("mm") == CLOSE(0.5 - 0.3 * math.sqrt(2))


def test_walls_in_words():
    told = repr(CentreFinder("35 mm").walls("25 mm"))
    assert [line.split("  ")[-1].strip() for line in told.splitlines()] == ["5.0 mm", "4.6 mm"]
    assert "3/16 in (0.180)" in repr(CentreFinder("35 mm").walls("25 mm", "in"))  # 4.576 mm
    with pytest.raises(ShapeError, match="may break out"):
        CentreFinder("35 mm").walls("35 mm")


def test_cards_carry_what_is_used_at_the_bench():
    end, piece = CentreFinder("35 mm").plain, ChordRise("300 mm", "40 mm").plain
    assert end.on_card()[0] == "centre_error" and "near_corner" not in end.on_card()
    assert piece.on_card() == ("radius", "diameter", "centre_beyond")


def test_hole_of_nothing_or_without_unit():
    with pytest.raises(ShapeError, match="more than nothing"):
        CentreFinder("35 mm").wall_left("0 mm")
    with pytest.raises(MeasureError, match="unit"):
        CentreFinder("35 mm").wall_left(25)


def test_signature_of_the_design():
    end = CentreFinder("35 mm", "0.5 mm", "60 deg")
    assert (end.diameter.m, end.marking_error.m, round(end.crossing_angle.m, 9)) == (35, 0.5, 60)
    assert CentreFinder("35 mm").marking_error.m == 0.3


@pytest.mark.parametrize(("sizes", "input", "words"), [
    ({"crossing_angle": "180 deg"}, "crossing_angle", "cross nowhere"),
    ({"square_error": "45 deg"}, "square_error", "nearer to its true angle"),
    ({"diameter": "10 mm", "marking_error": "4 mm"}, "marking_error", r"outside a round 10\.0 mm"),
])  # fmt: skip
def test_cannot_be_made(sizes, input, words):
    with pytest.raises(ShapeError, match=words) as caught:
        CentreFinder(**({"diameter": "35 mm"} | sizes))
    assert caught.value.input == input


def cautions(*given, **more):
    return [caution.input for caution in CentreFinder(*given, **more).cautions]


def test_cautions():
    assert cautions("35 mm") == []
    assert cautions("35 mm", crossing_angle="60 deg") == cautions("35 mm", crossing_angle="120 deg") == []
    for flat in ("59 deg", "121 deg"):
        assert cautions("35 mm", crossing_angle=flat) == ["crossing_angle"]
    assert cautions("440 mm") == ["square_error"]
    assert cautions("12 mm", "0.5 mm") == ["marking_error"]


# Chord and rise ---------------------------------------------------------------------------------------------


@settings(deadline=None)
@given(st.floats(20, 1000), st.floats(1, 300))
def test_arc_through_its_three_points(chord, rise):
    """The chord's ends and the top of the rise lie on the circle that is told."""
    piece = ChordRise(f"{chord:.4f} mm", f"{rise:.4f} mm").plain
    half = piece.chord / 2
    points = [(-half, 0.0), (half, 0.0), (0.0, piece.rise)]
    circle = circle_through(*(tuple(f"{each:.9f} mm" for each in point) for point in points))
    assert circle.radius.m_as("mm") == CLOSE(piece.radius, rel=1e-5)
    assert circle.centre[1].m_as("mm") == CLOSE(-piece.centre_beyond, rel=1e-5, abs=1e-4)
    ends = [math.atan2(y + piece.centre_beyond, x) for x, y in points[:2]]
    assert (ends[0] - ends[1]) % (2 * math.pi) == CLOSE(piece.arc_angle, rel=1e-6)
    assert piece.diameter == 2 * piece.radius


def test_short_rule_leaves_out_half_the_rise():
    for rise in (1, 40, 150):
        piece = ChordRise("300 mm", f"{rise} mm").plain
        assert piece.radius - piece.short_rule == CLOSE(rise / 2)


def test_half_circle():
    piece = ChordRise("100 mm", "50 mm").plain
    assert (piece.radius, piece.centre_beyond, piece.arc_angle) == CLOSE((50, 0, math.pi))


def test_rise_deserves_the_care():
    budget = ChordRise("300 mm", "10 mm").budget("radius")
    assert budget.shares[0].input == "rise"
    assert budget.shares[0].effect > 4 * budget.shares[1].effect


def test_too_flat_to_tell():
    with pytest.raises(ShapeError, match="too flat") as caught:
        ChordRise("1000 mm", "0.1 mm")
    assert caught.value.input == "rise"


def test_cautions_of_the_arc():
    assert [each.input for each in ChordRise("300 mm", "15 mm").cautions] == []
    assert [each.input for each in ChordRise("300 mm", "14.9 mm").cautions] == ["rise"]
    assert [each.input for each in ChordRise("100 mm", "50.1 mm").cautions] == ["rise"]
