"""Copes, judged by cutting solid rails with solid legs, by moving along the skin, and by trying every point."""

import math

import numpy
import published
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from manifold3d import Manifold
from models import made, sizes
from scipy.optimize import brentq, minimize_scalar
from shapely import LineString, Point, box
from shapely.affinity import translate

from shoplib import Cope, MeasureError, RoundCope, ShapeError, draw
from shoplib.model import answer_in_full

CLOSE = pytest.approx
SMOOTH = 1440  # flats of a solid leg: 120 mm across is then true within 0.0003 mm
LEVEL = 1e-7  # mm within the rail: a solid is cut there instead of at its very face


# Published values -------------------------------------------------------------------------------------------


@pytest.mark.parametrize("row", published.rows("circle_geometry", id="CG21"), ids=lambda row: row["inputs"])
def test_depth_in_whole_numbers(row):
    """R - sqrt(R^2 - r^2) for right-angled triangles in whole numbers: exact."""
    size = published.numbers(row["inputs"])
    leg, rail, depth = 2 * size["R"], 2 * size["r"], float(row["printed_result"])
    assert Cope(f"{leg} cm", f"{rail} cm", "2 m").depth.m_as("cm") == CLOSE(depth)
    round_rail = RoundCope(f"{leg} cm", f"{rail} cm")
    assert round_rail.saddle_depth.m_as("cm") == CLOSE(depth)
    assert round_rail.tip_reach.m_as("cm") == CLOSE(size["R"] - depth)


def test_depth_of_a_chord():
    """Machinery's Handbook, 31st ed., 2020, p. 50 ex. 3 read backwards: 13.27 cm wide in a circle of radius 12 cm."""
    row = published.row("circle_geometry", id="CG22")
    cope = Cope("24 cm", "13.27 cm", "100 cm")
    assert cope.depth.m_as("cm") == CLOSE(float(row["printed_result"]), abs=float(row["tolerance"]))


def test_chord_of_a_depth():
    """Machinery's Handbook, 31st ed., 2020, p. 50 ex. 3: what rail has a hollow 2 deep on a radius of 12?"""
    row = published.row("circle_geometry", id="CG4")
    (found,) = Cope("24 mm", "10 mm", "100 mm").find("rail_thickness", depth="2 mm")
    assert found.m_as("mm") == CLOSE(float(row["printed_result"]), abs=float(row["tolerance"]))


def test_demo_rail_by_hand():
    # sqrt(17.5^2 - 10^2) = 14.361: 17.5 - 14.361 = 3.139; 360 - 2 x 14.361 = 331.277; 360 - 35 = 325
    cope = Cope("35 mm", "20 mm", "360 mm")
    names = ("depth", "rail_length", "between", "neighbour_gap", "rail_length_other")
    found = [round(getattr(cope, name).m_as("mm"), 3) for name in names]
    assert found == [3.139, 331.277, 325, 6.168, 331.277]


# A rail as a solid ------------------------------------------------------------------------------------------


def solid_rail(cope, height):
    """A long board less both legs: the piece between them. The neighbour's side is below, the legs at x = 0 and S."""
    span, middle = cope.leg_spacing, -cope.offset
    board = Manifold.cube((span + 2000, cope.rail_thickness, height))
    board = board.translate((-1000, middle - cope.rail_thickness / 2, -height))
    for leg in solid_legs(cope):
        board = board - leg
    (piece,) = [each for each in board.decompose() if each.bounding_box()[0] < span / 2 < each.bounding_box()[3]]
    return piece


def solid_legs(cope):
    """Both legs: upward they lean towards each other."""
    leg = Manifold.cylinder(4000, cope.leg_diameter / 2, circular_segments=SMOOTH, center=True)
    lean = math.degrees(cope.rake)
    return [leg.rotate((0, turn, 0)).translate((x, 0, 0)) for x, turn in ((0, lean), (cope.leg_spacing, -lean))]


def level(piece, height):
    """Corner points of a level cut through a solid."""
    return numpy.vstack(piece.slice(height).to_polygons())


def beside(points, y):
    """How far a level cut reaches along the rail on the line y."""
    on = points[abs(points[:, 1] - y) < 1e-4]
    return on[:, 0].max() - on[:, 0].min()


RAILS = [
    Cope("35 mm", "20 mm", "360 mm"),
    Cope("35 mm", "20 mm", "360 mm", offset="6 mm", rake="7 deg", rail_height="50 mm"),
    Cope("35 mm", "12 mm", "360 mm", offset="-10 mm", rake="-12 deg", rail_height="80 mm"),
    Cope("2 in", "1 1/4 in", "15 in", offset="1/4 in", rake="20 deg", rail_height="3 in"),
    Cope("35 mm", "12 mm", "360 mm", offset="6 mm"),
    Cope("35 mm", "12 mm", "360 mm", offset="-10 mm"),
]


def check_solid(cope):
    height = cope.rail_height if cope.has("rail_height") else 0.1  # mm: lower down the legs may meet
    piece = solid_rail(cope, height)
    near = 0.002 * cope.leg_diameter / 35
    top, foot = level(piece, -LEVEL), level(piece, LEVEL - height)
    assert numpy.ptp(top[:, 0]) == CLOSE(cope.rail_length, abs=near)
    right = top[top[:, 0] > cope.leg_spacing / 2][:, 0]
    assert right.max() - right.min() == CLOSE(cope.depth, abs=near)
    sides = [side * cope.rail_thickness / 2 - cope.offset for side in (-1, 1)]
    longer, shorter = sorted((beside(top, side) for side in sides), reverse=True)
    assert longer == CLOSE(cope.rail_length, abs=near)
    assert shorter == CLOSE(cope.rail_length_other, abs=near)
    if cope.has("rail_height"):
        assert numpy.ptp(foot[:, 0]) == CLOSE(cope.rail_length_bottom, abs=near)


@pytest.mark.parametrize("rail", RAILS, ids=repr)
class TestSolidRail:
    def test_lengths_and_depth(self, rail):
        check_solid(rail.plain)

    def test_between_the_dry_legs(self, rail):
        """A rule held level between the solid legs at the rail's top; then the rail's wood along their centre line."""
        plain = rail.plain
        one, other = (_polygon(leg.slice(-LEVEL).to_polygons()[0]) for leg in solid_legs(plain))
        clear = one.distance(other)
        outline = _polygon(solid_rail(plain, 50.0).slice(-LEVEL).to_polygons()[0])
        on_the_rail = LineString([(-99, 0), (plain.leg_spacing + 99, 0)]).intersection(outline).length
        if abs(plain.offset) <= plain.rail_thickness / 2:
            assert plain.between == CLOSE(clear, abs=0.002) == CLOSE(on_the_rail, abs=0.002)
            return
        assert on_the_rail == 0
        with pytest.raises(ShapeError, match="Measure the legs"):
            _ = plain.between

    def test_profile_lies_on_the_solid(self, rail):
        plain = rail.plain
        outline = _polygon(solid_rail(plain, 50.0).slice(-LEVEL).to_polygons()[0])
        tip = outline.bounds[2]
        far, inward = (-1, 1) if plain.offset >= 0 else (1, -1)
        for point in rail.profile(7):
            across, depth = point.across.m_as("mm"), point.depth.m_as("mm")
            y = far * plain.rail_thickness / 2 - plain.offset + inward * across
            assert outline.exterior.distance(Point(tip - depth, y)) < 0.003
        assert rail.profile(7)[0].across.m_as("mm") == rail.profile(7)[0].depth.m_as("mm") == 0
        assert rail.profile(7)[-1].across.m_as("mm") == CLOSE(plain.rail_thickness)


def _polygon(points):
    from shapely import Polygon

    return Polygon(points)


@settings(max_examples=15, deadline=None)
@given(sizes(Cope))
def test_any_rail_is_the_solid_one(given_sizes):
    cope = made(Cope, given_sizes)
    assume(cope)
    assume(cope.plain.far_edge < 0.98 * cope.plain.leg_diameter / 2)  # a flat of the solid would shift a needle's tip
    check_solid(cope.plain)


# Neighbours and drums ---------------------------------------------------------------------------------------


def rail_at_leg(radius, low, high):
    """A level rail from the left at a leg about the origin."""
    cut = box(-400, low, 0, high).difference(Point(0, 0).buffer(radius, quad_segs=2048))
    return max(getattr(cut, "geoms", [cut]), key=lambda piece: -piece.bounds[0])


def turned(rail):
    """The same rail from below: x and y changed over."""
    return _polygon([(y, x) for x, y in rail.exterior.coords])


@pytest.mark.parametrize(
    ("thickness", "offset"),
    [(20, 0), (20, 3), (20, 6.5), (20, -7), (21.9, 0), (21.9, -4), (8, 6.5), (8, -4), (6, 14), (6, -14), (10, -12.5)],
)
def test_tips_of_neighbours(thickness, offset):
    cope = Cope("36 mm", f"{thickness} mm", "360 mm", offset=f"{offset} mm")
    rail = rail_at_leg(18, -offset - thickness / 2, -offset + thickness / 2)
    wanted = rail.distance(turned(rail))
    assert cope.neighbour_gap.m_as("mm") == CLOSE(wanted, abs=0.002)
    collide = [caution for caution in cope.cautions if "run into each other" in str(caution)]
    assert bool(collide) == (rail.intersection(turned(rail)).area > 0)


def test_tips_touch_where_the_rail_is_a_square_in_the_leg():
    """36 mm across: a square of 25.456 mm just fits."""
    assert Cope("36 mm", "25.44 mm", "360 mm").neighbour_gap.m_as("mm") > 0
    assert Cope("36 mm", "25.46 mm", "360 mm").neighbour_gap.m_as("mm") == 0


def test_neighbours_of_leaning_legs():
    with pytest.raises(ShapeError, match="upright"):
        _ = Cope("35 mm", "20 mm", "360 mm", rake="1 deg").neighbour_gap


@pytest.mark.parametrize("drum", [24.5, 30, 35, 38, 50, 150])
@pytest.mark.parametrize(("thickness", "offset"), [(20, 0), (14, 5), (8, -7), (6, 9)])
def test_gap_when_pushed_up(thickness, offset, drum):
    """The rail is pushed on to the leg until shapely says that they meet; then every line along it is measured."""
    if drum / 2 <= thickness / 2 + abs(offset):
        drum = thickness + 2 * abs(offset) + 0.5
    cope = Cope("35 mm", f"{thickness} mm", "360 mm", offset=f"{offset} mm", drum_diameter=f"{drum} mm")
    low, high = -offset - thickness / 2, -offset + thickness / 2
    made_rail, leg = rail_at_leg(drum / 2, low, high), Point(0, 0).buffer(17.5, quad_segs=2048)
    apart, into = -80.0, 80.0
    for _ in range(50):
        middle = (apart + into) / 2
        hit = translate(made_rail, middle, 0).intersection(leg).area > 1e-9
        apart, into = (apart, middle) if hit else (middle, into)
    pushed, gaps = translate(made_rail, apart, 0), []
    for y in numpy.linspace(low + 1e-9, high - 1e-9, 401):
        line = LineString([(-600, y), (200, y)])
        gaps.append(line.intersection(leg).bounds[0] - line.intersection(pushed).bounds[2])
    assert min(gaps) == CLOSE(0, abs=0.005)
    assert cope.drum_gap.m_as("mm") == CLOSE(max(gaps), abs=0.005)
    longest_tip = gaps[0] if offset >= 0 else gaps[-1]
    assert (longest_tip == CLOSE(max(gaps), abs=0.005)) == (drum > 35) or max(gaps) < 0.01
    assert drum > 35 or longest_tip == CLOSE(0, abs=0.005)


@settings(max_examples=60, deadline=None)
@given(sizes(Cope))
def test_gap_of_any_drum(given_sizes):
    """scipy looks for the nearest and the furthest place; a lean stretches the gap along the rail."""
    cope = made(Cope, given_sizes)
    assume(cope and cope.values["drum_diameter"])
    plain = cope.plain
    leg, drum = plain.leg_diameter / 2, plain.drum_diameter / 2

    def apart(y):
        return (math.sqrt(drum**2 - y**2) - math.sqrt(leg**2 - y**2)) / math.cos(plain.rake)

    low, high = plain.offset - plain.rail_thickness / 2, plain.offset + plain.rail_thickness / 2
    tries = [apart(y) for y in numpy.linspace(low, high, 41)]
    for sign in (1, -1):
        found = minimize_scalar(lambda y, sign=sign: sign * apart(y), bounds=(low, high), method="bounded")
        tries.append(sign * found.fun)
    assert plain.drum_gap == CLOSE(max(tries) - min(tries), abs=1e-3 + 1e-3 * plain.drum_gap)


# A stand's rails --------------------------------------------------------------------------------------------


@pytest.mark.parametrize("offset", [0, 3, 6, -6, -2.5])
@pytest.mark.parametrize("rake", [0, 5, -5])
def test_way_between_the_legs_does_not_change_with_the_offset(offset, rake):
    """The legs stand where they stand, wherever the rail lies: 360 less the width of a level cut through one leg."""
    cope = Cope("35 mm", "12 mm", "360 mm", offset=f"{offset} mm", rake=f"{rake} deg")
    assert cope.between.m_as("mm") == CLOSE(360 - 35 / math.cos(math.radians(rake)))


@pytest.mark.parametrize("offset", ["6.01 mm", "-6.01 mm"])
def test_a_rail_beside_the_legs_centre_line_shows_no_way_between_them(offset):
    cope = Cope("35 mm", "12 mm", "360 mm", offset=offset)
    with pytest.raises(ShapeError, match="Measure the legs") as caught:
        _ = cope.between
    assert caught.value.input == "offset"
    assert cope.depth.m_as("mm") > 0  # everything else stays
    assert cope.cutting_list()[0].between is None and "measure the legs" in repr(cope.cutting_list())


class TestCuttingList:
    def test_square_stand(self):
        (cut,) = Cope("35 mm", "20 mm", "360 mm").cutting_list()
        assert (cut.pieces, cut.between.m_as("mm"), cut.bottom) == (4, CLOSE(325), None)
        assert cut.length.m_as("mm") == CLOSE(331.277, abs=1e-3)

    def test_longer_than_wide(self):
        short, long = Cope("35 mm", "20 mm", "360 mm").cutting_list("360 mm", "500 mm")
        assert (short.pieces, long.pieces) == (2, 2)
        assert (long.length - short.length).m_as("mm") == CLOSE(140)

    def test_two_equal_spacings_are_square(self):
        (cut,) = Cope("35 mm", "20 mm", "360 mm").cutting_list("400 mm", "40 cm")
        assert cut.pieces == 4 and cut.length.m_as("mm") == CLOSE(371.277, abs=1e-3)

    @pytest.mark.parametrize("rake", [6, -6])
    def test_leaning_rails_are_sawn_to_the_longest_edge(self, rake):
        """Top goes with top, bottom with bottom; the way between the legs is that at the top."""
        cope = Cope("35 mm", "20 mm", "360 mm", rake=f"{rake} deg", rail_height="50 mm")
        (cut,) = cope.cutting_list()
        piece = solid_rail(cope.plain, 50.0)
        ends = piece.bounding_box()
        assert cut.pieces == 2
        assert cut.length.m_as("mm") == CLOSE(ends[3] - ends[0], abs=0.002)
        for edge, height in ((cut.top, -LEVEL), (cut.bottom, LEVEL - 50)):
            assert edge.m_as("mm") == CLOSE(numpy.ptp(level(piece, height)[:, 0]), abs=0.002)
        one, other = (_polygon(leg.slice(-LEVEL).to_polygons()[0]) for leg in solid_legs(cope.plain))
        assert cut.between.m_as("mm") == CLOSE(one.distance(other), abs=0.002)

    def test_rails_across_leaning_legs_are_not_listed(self):
        leaning = Cope("35 mm", "20 mm", "360 mm", rake="5 deg", rail_height="50 mm")
        assert len(leaning.cutting_list()) == 1
        for shown in (repr(leaning.cutting_list()), leaning.cutting_list()._repr_html_()):
            assert "Only the two rails in whose plane the legs lean" in shown
        with pytest.raises(ShapeError, match="lean in one plane only") as caught:
            leaning.cutting_list("360 mm", "500 mm")
        assert caught.value.input == "rake"

    def test_spread_legs_need_the_height(self):
        with pytest.raises(ShapeError, match="rail height"):
            Cope("35 mm", "20 mm", "360 mm", rake="6 deg").cutting_list()

    def test_one_spacing_is_not_enough(self):
        with pytest.raises(ShapeError, match="two leg spacings"):
            Cope("35 mm", "20 mm", "360 mm").cutting_list("360 mm")
        with pytest.raises(MeasureError, match="unit"):
            Cope("35 mm", "20 mm", "360 mm").cutting_list(360, 400)

    def test_shown_as_a_table_in_either_unit(self):
        cope = Cope("1 3/8 in", "3/4 in", "14 1/8 in")
        lines = repr(cope.cutting_list("14 1/8 in", "18 in", unit="in")).splitlines()
        # 14.125 - 2 sqrt(0.6875^2 - 0.375^2) = 12.973 = 12 62/64; 14.125 - 1.375 = 12.75
        assert lines[1].split("  ")[0] == "2" and "12 31/32 in (12.973)" in lines[1] and "12 3/4 in" in lines[1]
        assert len({line.index(part) for line, part in zip(lines, ("saw", "12 31/32", "16 27/32"), strict=True)}) == 1
        assert "<td" in cope.cutting_list()._repr_html_() and "<p>" not in cope.cutting_list()._repr_html_()


# What cannot be made, and what should worry you -------------------------------------------------------------


class TestCannotBeMade:
    @pytest.mark.parametrize(
        ("sizes", "more", "blamed"),
        [
            (("35 mm", "35 mm", "360 mm"), {}, "rail_thickness"),
            (("35 mm", "20 mm", "360 mm"), {"offset": "7.5 mm"}, "offset"),
            (("35 mm", "20 mm", "360 mm"), {"offset": "-7.5 mm"}, "offset"),
        ],
    )
    def test_rail_that_misses_the_leg(self, sizes, more, blamed):
        with pytest.raises(ShapeError, match=r"misses the leg.*17\.5 mm.*17\.5 mm") as caught:
            Cope(*sizes, **more)
        assert caught.value.input == blamed

    def test_rail_that_just_meets_the_leg(self):
        assert Cope("35 mm", "20 mm", "360 mm", offset="7.49 mm").depth.m_as("mm") > 16

    def test_legs_that_meet(self):
        with pytest.raises(ShapeError, match=r"35\.0 mm apart"):
            Cope("35 mm", "20 mm", "35 mm")
        with pytest.raises(ShapeError, match="run into each other"):
            Cope("35 mm", "20 mm", "100 mm", rake="-20 deg", rail_height="100 mm")

    def test_drum_that_misses_the_edge(self):
        with pytest.raises(ShapeError, match=r"26\.0 mm misses.*13\.0 mm.*26\.0 mm") as caught:
            Cope("35 mm", "20 mm", "360 mm", offset="3 mm", drum_diameter="26 mm")
        assert caught.value.input == "drum_diameter"

    def test_too_much_rake(self):
        with pytest.raises(ShapeError, match="45 deg"):
            Cope("35 mm", "20 mm", "360 mm", rake="46 deg")

    @pytest.mark.parametrize("turn", ["44 deg", "91 deg", "120 deg"])
    def test_angle_out_of_range(self, turn):
        with pytest.raises(ShapeError, match="sharper side"):
            RoundCope("35 mm", "19 mm", turn)

    @pytest.mark.parametrize(("rail", "offset"), [("35 mm", "0 mm"), ("19 mm", "8 mm"), ("19 mm", "-8 mm")])
    def test_round_rail_that_does_not_meet_all_round(self, rail, offset):
        with pytest.raises(ShapeError, match="misses the leg"):
            RoundCope("35 mm", rail, offset=offset)

    @pytest.mark.parametrize("n", [1, 0, -3, 2.5, True, "nine", 10**6])
    def test_a_silly_number_of_points(self, n):
        for ask in (Cope("35 mm", "20 mm", "360 mm").profile, RoundCope("35 mm", "19 mm").wrap):
            with pytest.raises(ShapeError, match="whole number"):
                ask(n)


class TestCard:
    """What stands on the card, in the order of use: no row that these sizes have no use for."""

    @pytest.mark.parametrize(("more", "wanted"), [
        ({}, "rail_length depth between neighbour_gap"),
        ({"offset": "4 mm"}, "rail_length rail_length_other depth between neighbour_gap"),
        ({"drum_diameter": "38 mm"}, "rail_length depth drum_gap between neighbour_gap"),
        ({"rake": "5 deg"}, "rail_length_bottom rail_length depth between"),
        ({"rake": "-5 deg"}, "rail_length rail_length_bottom depth between"),
    ])  # fmt: skip
    def test_rectangular(self, more, wanted):
        cope = Cope("35 mm", "20 mm", "360 mm", rail_height="50 mm", **more)
        assert cope.plain.on_card() == (*wanted.split(), "ordinates")

    def test_round(self):
        names = RoundCope("35 mm", "19 mm").plain.on_card()
        assert names[:3] == ("circumference", "quarter", "tip_reach")
        assert set(names) == {name for name, item in RoundCope.results().items() if not item.minor}

    def test_a_quarter_is_a_quarter_of_pi(self):
        assert RoundCope("40 mm", "28 mm").quarter.m_as("mm") == CLOSE(22, abs=0.01)  # pi nearly 22/7


def cautions(model):
    return [caution.input for caution in model.cautions]


class TestCautions:
    def test_none_for_the_stand(self):
        assert not Cope("35 mm", "20 mm", "360 mm", drum_diameter="35 mm").cautions
        assert not RoundCope("35 mm", "19 mm", "60 deg").cautions

    def test_drum_that_shows(self):
        assert cautions(Cope("35 mm", "20 mm", "360 mm", drum_diameter="38 mm")) == ["drum_diameter"]
        (caution,) = Cope("35 mm", "20 mm", "360 mm", drum_diameter="38 mm").cautions
        assert "at the tips" in str(caution)
        assert "in the hollow" in str(Cope("35 mm", "20 mm", "360 mm", drum_diameter="32 mm").cautions[0])

    @pytest.mark.parametrize(("drum", "mm", "inches"), [
        ("38 mm", "0.29 mm", "0.012 in"), ("33 mm", "0.24 mm", "0.009 in"), ("38.1 mm", "0.30 mm", "0.012 in"),
    ])  # fmt: skip
    def test_gap_from_the_drum_is_written_alike_everywhere(self, drum, mm, inches):
        """Table, caution, drawing and what a screen reader says: one writer, the same digits."""
        cope = Cope("35 mm", "20 mm", "360 mm", drum_diameter=drum)
        (caution,) = cope.cautions
        for unit, text in (("mm", mm), ("in", inches)):
            assert answer_in_full(cope.plain, "drum_gap", unit) == (text, "")
            assert f"a gap of {text} " in caution.tell(unit)
            sheet = draw(cope, unit)
            assert any(view.title.startswith(f"From the drum: {text} open") for view in sheet.views)
            assert f"gap from the drum: {text}." in sheet.description

    @pytest.mark.parametrize("rake", ["5 deg", "-5 deg"])
    def test_legs_that_lean_both_ways_are_another_matter(self, rake):
        cope = Cope("35 mm", "20 mm", "360 mm", rake=rake, rail_height="50 mm")
        (caution,) = cope.cautions
        assert caution.input == "rake" and "lean in this rail's plane only" in str(caution)
        assert any("in this plane only" in view.title for view in draw(cope).views)

    def test_sharp_tips(self):
        """The tip's angle has the cosine y/R: 30 deg at 0.866 of the radius."""
        assert cautions(Cope("40 mm", "34.6 mm", "360 mm", rake="1 deg")) == ["rake"]
        assert cautions(Cope("40 mm", "34.7 mm", "360 mm", rake="1 deg")) == ["rake", "rail_thickness"]
        assert cautions(RoundCope("40 mm", "34.7 mm")) == ["rail_diameter"]


# A round rail -----------------------------------------------------------------------------------------------


def end_of_line(leg, rail, angle, offset, turn):
    """Walk along a line of the rail's skin from far away until the leg's axis is a leg's radius off.

    The leg stands up along z. The rail is laid along +x towards it, its 90 line to the right (-y), and then tipped up
    about the y axis until it makes the angle with the leg.
    """
    tip = math.pi / 2 - angle
    towards = numpy.array([math.cos(tip), 0.0, math.sin(tip)])
    up = numpy.array([-math.sin(tip), 0.0, math.cos(tip)])
    right = numpy.cross(towards, up)
    start = offset * right + rail * (math.cos(turn) * up + math.sin(turn) * right)

    def off(along):
        x, y, _ = start + along * towards
        return math.hypot(x, y) - leg

    # nearest to the axis where the line passes it: x = 0
    passing = -start[0] / towards[0]
    return brentq(off, passing - 10 * leg - 10 * rail, passing, xtol=1e-12)


def plain_sizes(cope):
    return cope.leg_diameter / 2, cope.rail_diameter / 2, cope.angle, cope.offset


ROUND = [
    RoundCope("35 mm", "19 mm"),
    RoundCope("35 mm", "19 mm", "60 deg"),
    RoundCope("35 mm", "10 mm", "45 deg", offset="9 mm"),
    RoundCope("35 mm", "10 mm", "90 deg", offset="-11 mm"),
    RoundCope("2 in", "1 1/4 in", "50 deg", offset="-1/4 in"),
    RoundCope("40 mm", "20 mm", "60 deg"),
]


@pytest.mark.parametrize("rail", ROUND, ids=repr)
class TestRoundRail:
    def test_wrap_by_walking_along_the_skin(self, rail):
        leg, radius, angle, offset = plain_sizes(rail.plain)
        points = rail.wrap(25)
        ends = [end_of_line(leg, radius, angle, offset, math.radians(15 * k)) for k in range(25)]
        longest = max(end_of_line(leg, radius, angle, offset, turn) for turn in numpy.linspace(0, 2 * math.pi, 4001))
        skin = [radius * math.radians(15 * k) for k in range(25)]
        assert [point.around.m_as("mm") for point in points] == CLOSE(skin)
        assert [point.along.m_as("mm") for point in points] == CLOSE([longest - end for end in ends], abs=1e-4)
        assert rail.tip_reach.m_as("mm") == CLOSE(-longest, abs=1e-4)

    def test_wrap_on_a_solid(self, rail):
        """A solid rail less a solid leg: every corner of the cut lies on the wrap."""
        leg, radius, angle, offset = plain_sizes(rail.plain)
        bar = _rail_frame(leg, radius, offset)
        post = Manifold.cylinder(400 * leg, leg, circular_segments=SMOOTH, center=True)
        post = post.rotate((0, math.degrees(angle), 0))
        cut = bar - post
        corners = max(cut.decompose(), key=lambda piece: -piece.bounding_box()[2]).to_mesh().vert_properties[:, :3]
        ends = corners[corners[:, 2] > -30 * leg]
        up, right, along = ends[:, 0], -ends[:, 1] - offset, ends[:, 2]
        skin = abs(numpy.hypot(up, right) - radius) < 1e-3
        assert skin.sum() > 300
        turns = numpy.arctan2(right[skin], up[skin])
        wanted = [end_of_line(leg, radius, angle, offset, turn) for turn in turns]
        assert along[skin] == CLOSE(wanted, abs=0.02)
        assert numpy.ptp(along[skin]) == CLOSE(rail.saddle_depth.m_as("mm"), abs=0.02)
        assert -along[skin].max() == CLOSE(rail.tip_reach.m_as("mm"), abs=0.02)

    def test_marks_are_the_wrap_every_thirty_degrees(self, rail):
        marks = [(mark.around, mark.from_sawn_end) for mark in rail.marks]
        assert marks == [tuple(point) for point in rail.wrap(13)[:12]]
        assert [mark.degrees for mark in rail.marks] == list(range(0, 360, 30))


def _rail_frame(leg, radius, offset):
    """The rail stands along z towards the leg at the origin; its 0 line on +x, its 90 line on -y."""
    bar = Manifold.cylinder(40 * leg + 2, radius, circular_segments=720)
    return bar.translate((0, -offset, -40 * leg))


@settings(max_examples=60, deadline=None)
@given(sizes(RoundCope))
def test_tip_and_bottom_by_trying_every_line(given_sizes):
    rail = made(RoundCope, given_sizes)
    assume(rail)
    leg, radius, angle, offset = plain_sizes(rail.plain)
    turns = numpy.linspace(0, 2 * math.pi, 20001)
    beside = offset + radius * numpy.sin(turns)
    ends = (radius * numpy.cos(turns) * math.cos(angle) - numpy.sqrt(leg**2 - beside**2)) / math.sin(angle)
    fine = 2e-3 + 2e-3 * radius
    assert rail.saddle_depth.m_as("mm") == CLOSE(ends.max() - ends.min(), abs=fine)
    assert rail.saddle_depth.m_as("mm") >= ends.max() - ends.min() - 1e-9
    assert rail.tip_reach.m_as("mm") <= -ends.max() + 1e-9
    along = [point.along.m_as("mm") for point in rail.wrap(37)]
    assert min(along) >= -1e-9 and max(along) <= rail.saddle_depth.m_as("mm") + 1e-9
    assert along[0] == CLOSE(along[-1], abs=1e-9)


class TestLimits:
    @pytest.mark.parametrize("offset", [0, 3, -5, 12])
    def test_at_a_right_angle_it_is_the_square_rail_of_that_width(self, offset):
        size = {"offset": f"{offset} mm"}
        square, rail = Cope("40 mm", "15 mm", "360 mm", **size), RoundCope("40 mm", "15 mm", **size)
        assert rail.saddle_depth.m_as("mm") == CLOSE(square.depth.m_as("mm"))
        assert rail.tip_reach.m_as("mm") == CLOSE((360 - square.rail_length.m_as("mm")) / 2)

    @pytest.mark.parametrize("angle", [90, 80, 70, 61])
    def test_a_leaning_rail_in_the_middle_keeps_its_tips(self, angle):
        """While the rail is more than the angle's cosine of the leg, its tips lie beside it, at sqrt(R^2 - r^2)."""
        assert RoundCope("40 mm", "20.1 mm", f"{angle} deg").tip_reach.m_as("mm") == CLOSE(
            math.sqrt(20**2 - 10.05**2)
        )

    def test_a_thin_leaning_rail_is_cut_aslant(self):
        """As thin as a needle, the end is a plane: deep as the diameter times the angle's cotangent."""
        rail = RoundCope("120 mm", "0.01 mm", "50 deg")
        assert rail.saddle_depth.m_as("mm") == CLOSE(0.01 / math.tan(math.radians(50)), rel=1e-3)
        assert rail.tip_turn.m_as("deg") == CLOSE(0, abs=0.1)
        assert rail.root_turn.m_as("deg") == CLOSE(180, abs=0.1)

    def test_offset_the_other_way_is_the_mirror_image(self):
        left, right = (RoundCope("35 mm", "19 mm", "60 deg", offset=f"{e} mm") for e in (-4, 4))
        mirrored = [point.along.m_as("mm") for point in reversed(left.wrap(37))]
        assert [point.along.m_as("mm") for point in right.wrap(37)] == CLOSE(mirrored, abs=1e-9)
        turns = [cope.tip_turn.m_as("deg") for cope in (left, right)]
        assert 0 < turns[1] < 90 and turns[0] == CLOSE(360 - turns[1])

    @settings(max_examples=50, deadline=None)
    @given(offset=st.integers(-70, 70))
    def test_sign_of_a_square_rails_offset_moves_only_the_neighbour(self, offset):
        one, other = (Cope("35 mm", "20 mm", "360 mm", offset=f"{e / 10} mm").plain for e in (offset, -offset))
        assert (one.depth, one.rail_length, one.between) == (other.depth, other.rail_length, other.between)
        assert (one.neighbour_gap < other.neighbour_gap) == (offset > 0)
