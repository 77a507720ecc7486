"""Trimming, judged by solids that are cut, by vectors of fibre and edge, and by shapely rings with a pocket in them."""

import math

import numpy
import published
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from manifold3d import Manifold
from models import drawn, made, sizes
from shapely import Point, Polygon, box

from shoplib import GrainArcs, MeasureError, Patch, ShapeError, TwoFaces

CLOSE = pytest.approx
DEMO = ("40 mm", "18 mm", "18 mm", "25 mm", "25 mm", "7 mm")
over_the_range = settings(max_examples=30, deadline=None)


def told(model, *names):
    return [round(getattr(model, name).m_as("mm"), 2) for name in names]


# Two faces, as solids -----------------------------------------------------------------------------------------

def bar(low, high, left, right):
    """A bar 10 mm long along the wall, the wall's line at x = 0, the kept wood at x < 0; z runs up."""
    return Manifold.cube((right - left, 10, high - low)).translate((left, 0, low))


def after_both_cuts(trim):
    """What is left of the ring's waste, its show face down as it lies at last: (least z, most z) of each piece.

    The first cutter hangs from the base on the template: its edges end `first_set` below the base and are
    `first_cutting_length` long. The ring is turned over; the second hangs from the base on the ring, its tip
    `second_set` below, its edges above the bearing.
    """
    height, thick = trim.ring_height, trim.template_thickness
    waste = bar(0, height, 0, trim.margin)
    base = height + thick
    waste -= bar(base - trim.first_set, base - trim.first_set + trim.first_cutting_length, -1, 50)
    waste = waste.rotate((180, 0, 0)).translate((0, 10, height))
    if not trim.one_face:
        tip = height - trim.second_set
        edges = tip + trim.second_bearing
        waste -= bar(edges, edges + trim.second_cutting_length, -1, 50)
    return waste


@over_the_range
@given(sizes(TwoFaces))
def test_nothing_of_the_waste_stays(given_sizes):
    trim = drawn(TwoFaces, given_sizes)
    assert after_both_cuts(trim).volume() < 1e-4 * trim.margin * trim.ring_height


@over_the_range
@given(sizes(TwoFaces))
def test_second_bearing_runs_on_the_first_wall_from_end_to_end(given_sizes):
    trim = drawn(TwoFaces, given_sizes)
    if trim.one_face:
        with pytest.raises(ShapeError, match="One face is enough"):
            _ = trim.second_set
        return
    low = trim.ring_height - trim.second_set  # of the bearing, above the show face, which lies below
    assert low > -1e-6 and low + trim.second_bearing < trim.depth + 1e-6
    # Between the bearing's upper rim and the waste lies the overlap, already cut by the first.
    assert trim.depth - (low + trim.second_bearing) == CLOSE(trim.overlap, abs=1e-6)


@over_the_range
@given(sizes(TwoFaces))
def test_first_bearing_runs_on_the_template(given_sizes):
    trim = drawn(TwoFaces, given_sizes)
    rim = trim.first_set - trim.first_cutting_length  # the bearing sits where the edges begin
    assert trim.hold == CLOSE(rim, abs=1e-9)
    assert 0 < rim <= trim.template_thickness + 1e-9
    # Left out, the cut is as deep as the cutter stands, over the ring or past it; given, the edges end just there.
    if not trim.has("first_depth"):
        assert rim == CLOSE(trim.bearing_hold)
    else:
        assert trim.first_set - trim.template_thickness == CLOSE(trim.first_depth)


def test_demo_by_hand():
    # 25 - (18 - 18) = 25; 40 - 25 + 2 = 17; 25 - 2 = 23; 25 + 25 - 2 = 48; 18 + 25 = 43; 17 + 7 = 24; 40 - 25 = 15
    trim = TwoFaces(*DEMO)
    names = ("first_reach", "second_depth", "band_left", "tallest", "first_set", "second_set", "stays", "hold")
    assert told(trim, *names) == [25, 17, 23, 48, 43, 24, 15, 18]
    assert trim.rounds == 2 and told(trim, "each_bite") == [1.5]
    assert [each.m_as("mm") for each in trim.bearings] == [3.0, 0.0]


def test_a_shallower_first_cut_lifts_the_bearing():
    assert told(TwoFaces(*DEMO, "20 mm"), "hold", "first_set", "second_depth") == [13, 38, 22]


@over_the_range
@given(sizes(TwoFaces))
def test_tallest_is_trimmed_and_a_hair_more_is_not(given_sizes):
    """Each cutter as deep as it gets; the taller ring is refused unless one face were enough for it."""
    trim = drawn(TwoFaces, given_sizes)
    if trim.first_reach - trim.overlap < trim.second_bearing or trim.tallest <= trim.first_reach:
        return
    lowest = {"first_depth": None}
    assert made(TwoFaces, given_sizes | lowest | {"ring_height": f"{trim.tallest - 1e-6:.9f} mm"})
    assert not made(TwoFaces, given_sizes | lowest | {"ring_height": f"{trim.tallest + 0.001:.9f} mm"})


@over_the_range
@given(sizes(TwoFaces))
def test_what_stays_with_the_template_on_both_faces(given_sizes):
    """The first cutter at an arc comes from the one face only: what is left of a solid wall there."""
    trim = drawn(TwoFaces, given_sizes)
    waste = bar(0, trim.ring_height, 0, 1) - bar(trim.ring_height - trim.first_reach, 300, -1, 50)
    assert trim.stays == CLOSE(waste.volume() / 10, rel=1e-4, abs=1e-4)


@over_the_range
@given(sizes(TwoFaces))
def test_rounds_walk_to_the_line(given_sizes):
    """Round by round a cutter beside its bearing: the last one flush, none takes more than a bite."""
    trim = drawn(TwoFaces, given_sizes)
    walls = [trim.margin, *(over / 2 for over in trim.bearings)]  # the bearing stands out by half its difference
    taken = [before - after for before, after in zip(walls, walls[1:])]
    assert len(taken) == trim.rounds and walls[-1] == 0
    assert all(0 < each <= trim.bite * (1 + 1e-8) for each in taken)
    assert taken == CLOSE([trim.each_bite] * trim.rounds)
    assert trim.margin > (trim.rounds - 1) * trim.bite * (1 - 1e-9)


@pytest.mark.parametrize("over", [-0.4, 0.0, 0.3])
def test_step_between_the_walls(over):
    """Two discs on one axis: where the bearing touches the first wall, how far from it the edges stay."""
    trim = TwoFaces(*DEMO, bearing_over=f"{over} mm")
    edges, bearing = Point(0, 0).buffer(9.5, 256), Point(0, 0).buffer(9.5 + over / 2, 256)
    wall = bearing.bounds[2]
    assert told(trim, "ridge") == [CLOSE(wall - edges.bounds[2])]
    said = " ".join(each.tell() for each in trim.cautions)
    assert ("ridge of" in said) == (over > 0) and ("into the finished wall" in said) == (over < 0)


# Grain round the ring, by vectors -----------------------------------------------------------------------------


def lies_against(ring, angle, face):
    """Whether the fibres run down into the kept wood along the edge's way, from vectors in the show face's plane.

    A router on the show face turns clockwise as seen on that face, one on the back face anticlockwise. The edge's way
    at the wall is the speed of a point on the cutter's rim: turn times arm.
    """
    point = numpy.array([math.cos(angle), math.sin(angle)])
    kept = -point if ring.edge == "outside" else point  # from the wall into the wood that is kept
    arm = kept  # the cutter stands on the waste's side: its rim meets the wall in the way of the kept wood
    turn = -1.0 if face == "show" else 1.0
    edge_way = turn * numpy.array([-arm[1], arm[0]])
    along = fibre(ring, angle)
    along = along if along @ edge_way > 0 else -along
    return along @ kept > 0, abs(along @ edge_way)


def fibre(ring, angle):
    if ring.construction == "boards":
        return numpy.array([1.0, 0.0])
    part = 2 * math.pi / ring.staves
    middle = (math.floor(angle / part) + 0.5) * part
    return numpy.array([-math.sin(middle), math.cos(middle)])


RINGS = [
    GrainArcs(*built, edge)
    for built in (("boards", 12), ("staves", 3), ("staves", 8), ("staves", 12), ("staves", 36))
    for edge in ("outside", "inside")
]


@pytest.mark.parametrize("ring", RINGS, ids=repr)
@pytest.mark.parametrize("face", ["show", "back"])
def test_arcs_are_what_edge_and_fibre_say(ring, face):
    arcs = [(start.m_as("rad"), end.m_as("rad"), grain) for start, end, grain in ring.arcs(face)]
    assert arcs[0][0] == 0 and arcs[-1][1] == CLOSE(2 * math.pi)
    assert [end for _, end, _ in arcs[:-1]] == CLOSE([start for start, _, _ in arcs[1:]])
    steepest = 0.0
    for start, end, grain in arcs:
        for share in (0.001, 0.1, 0.5, 0.9, 0.999):
            against, along = lies_against(ring, start + share * (end - start), face)
            assert against == (grain == "against"), math.degrees(start + share * (end - start))
            steepest = max(steepest, math.acos(along))
    assert ring.steepest.m_as("rad") == CLOSE(steepest, abs=0.003)


def test_arcs_as_they_are_told():
    first, second, third, fourth = GrainArcs().arcs()
    assert [arc.grain for arc in (first, second, third, fourth)] == ["against", "with", "against", "with"]
    assert [round(arc.end.m_as("deg")) for arc in (first, second, third, fourth)] == [90, 180, 270, 360]
    table = GrainArcs("staves", 7).tell_arcs(3)
    assert len(table.rows) == 3 and table.rows[1] == ("25.71 deg", "51.43 deg", "with the grain", "against the grain")
    with pytest.raises(ShapeError, match="Say show or back"):
        GrainArcs().arcs("left")


@pytest.mark.parametrize("staves", [*range(3, 16), 18])
def test_dividers_step_the_arcs_off(staves):
    """The chord against published sines of half the arc; the tape against a polygon with very many corners."""
    ring = GrainArcs("staves", staves, diameter="500 mm")
    row = published.row("circle_chords", n_spaces=str(2 * staves))
    assert ring.chord.m_as("mm") == CLOSE(500 * float(row["exact_6dp"]), abs=5e-4)
    girth = Point(0, 0).buffer(250, 4096).length
    assert ring.arc_length.m_as("mm") == CLOSE(girth / (2 * staves), rel=1e-6)


def test_arcs_without_a_diameter_have_angles_only():
    ring = GrainArcs("staves", 12)
    assert ring.arc.m_as("deg") == CLOSE(15)
    with pytest.raises(ShapeError, match="Give the wall's diameter"):
        _ = ring.chord


def depth_of_a_split(ring_radius, inside, dip, run):
    """How deep below the wall a split is after running along a fibre that dips into the kept wood, from points."""
    wall = numpy.array([0.0, ring_radius])
    way = numpy.array([math.cos(dip), math.sin(dip) if inside else -math.sin(dip)])
    apart = numpy.linalg.norm(wall + run * way) - ring_radius
    return apart if inside else -apart


def test_why_the_inside_tears_first():
    """The lesson's numbers: a split 20 mm long on a fibre that dips 10 deg, on a wall 200 mm round."""
    straight = 20 * math.sin(math.radians(10))
    inside, outside = (depth_of_a_split(200, each, math.radians(10), 20) for each in (True, False))
    assert (round(straight, 1), round(inside, 1), round(outside, 1)) == (3.5, 4.4, 2.5)


# A patch, against shapely -------------------------------------------------------------------------------------


@pytest.mark.parametrize("row", published.rows("circle_segments"), ids=lambda row: row["theta_deg"])
def test_rise_of_a_published_segment(row):
    """Height of a segment of chord c in a circle of radius 1, as tables of segments print it."""
    chord = float(row["chord"])
    if not 0.1 < chord < 1.9:
        return
    patch = Patch("200 mm", "150 mm", "inside", f"{100 * chord:.6f} mm", "3 mm", "3 mm", "90 mm")
    assert patch.rise.m_as("mm") == CLOSE(100 * float(row["height"]), abs=2e-3)


def pocket(patch):
    """The ring's upper half and the straight pocket in it, the wall's middle on top of the circle; y runs outward."""
    radius, half = patch.diameter / 2, patch.length / 2
    inside = patch.edge == "inside"
    low, high = (radius, radius + patch.ring_width) if inside else (radius - patch.ring_width, radius)
    ring = Polygon([*high * HALF_TURN, *low * HALF_TURN[::-1]])
    floor = radius + (patch.depth if inside else -patch.depth)
    cut = box(-half, floor - 500, half, floor) if inside else box(-half, floor, half, floor + 500)
    return ring, cut & box(-2000, 0, 2000, 2000), floor, half


HALF_TURN = numpy.array([(math.cos(a), math.sin(a)) for a in numpy.linspace(0, math.pi, 2001)])


@over_the_range
@given(sizes(Patch))
def test_pocket_in_a_ring(given_sizes):
    patch = drawn(Patch, given_sizes)
    ring, cut, floor, half = pocket(patch)
    inside = patch.edge == "inside"
    removed = ring & cut
    slack = 1e-4 * patch.diameter
    # How deep it is at the ends and in the middle, on thin slices of what is removed.
    for place, depth in ((0.0, patch.depth), (half - 1e-3, patch.end_depth), (-half + 1e-3, patch.end_depth)):
        slice_ = removed & box(place - 5e-4, 0, place + 5e-4, 2000)
        assert slice_.bounds[3] - slice_.bounds[1] == CLOSE(depth, abs=slack + 2e-3 * patch.length)
    # The least wood behind it: between the flat bottom and the other wall.
    line = box(-half, floor, half, floor + 1e-6)
    other = patch.diameter / 2 + (patch.ring_width if inside else -patch.ring_width)
    ys = numpy.sqrt(numpy.maximum(other**2 - numpy.linspace(-half, half, 2001) ** 2, 0))
    found = (ys - floor).min() if inside else (floor - ys).min()
    assert line.is_valid and patch.wood_left == CLOSE(found, abs=slack)
    # The patch as a rectangle on the bottom covers all that was removed, proud of it by just that much.
    tall = removed.bounds[3] - removed.bounds[1]
    assert patch.patch_thickness == CLOSE(tall + patch.proud, abs=slack + 2e-3 * patch.length)


def test_patch_by_hand():
    # 200 - sqrt(200^2 - 30^2) = 2.263; 3 + 2.263 + 0.5 = 5.763; sqrt(220^2 - 30^2) - 200 - 3 = 14.945; 20 + 3 = 23
    patch = Patch("400 mm", "20 mm", "inside", "60 mm", "3 mm", "12 mm", "20 mm")
    names = ("rise", "end_depth", "patch_thickness", "wood_left", "plunge", "corner_radius")
    assert told(patch, *names) == [2.26, 5.26, 5.76, 14.94, 23, 6]
    outside = patch.replace(edge="outside")
    assert told(outside, *names) == [2.26, 0.74, 3.5, 17, 23, 6]


def test_corner_left_by_the_cutter():
    """A rectangle swept by a disc: what it does not reach in each corner is squared with the chisel."""
    patch = Patch("400 mm", "20 mm", "inside", "60 mm", "3 mm", "12 mm", "20 mm")
    wanted, radius = box(0, 0, 60, 30), patch.corner_radius.m_as("mm")
    swept = wanted.buffer(-6, join_style="mitre").buffer(6, quad_segs=256)
    assert (wanted - swept).area == CLOSE((4 - math.pi) * radius**2, rel=1e-3)
    (corner, *_) = (wanted - swept).geoms
    assert corner.bounds[2] - corner.bounds[0] == CLOSE(radius, rel=1e-2)


# What cannot be made ------------------------------------------------------------------------------------------


@pytest.mark.parametrize("cls, given_sizes, said", [
    (TwoFaces, (*DEMO[:2], "19 mm", *DEMO[3:]), "it would ride on the waste"),
    (TwoFaces, ("40 mm", "18 mm", "2 mm", "14 mm", "25 mm", "7 mm"), "Lower the cutter|lower the cutter"),
    (TwoFaces, (*DEMO, "26 mm"), "more than the cutter gets down"),
    (TwoFaces, ("20 mm", *DEMO[1:], "21 mm"), "more than the ring is high"),
    (TwoFaces, (*DEMO, "6 mm"), "nothing to run on"),
    (TwoFaces, ("49 mm", *DEMO[1:]), "up to 48.0 mm tall"),
    (TwoFaces, ("40 mm", "18 mm", "18 mm", "25 mm", "40 mm", "24 mm"), "finds only 23.0 mm of wall"),
    (Patch, ("400 mm", "20 mm", "outside", "60 mm", "2 mm", "12 mm", "20 mm"), "Go deeper than 2.26 mm"),
    (Patch, ("400 mm", "20 mm", "inside", "60 mm", "18 mm", "12 mm", "20 mm"), "comes out of a ring"),
    (Patch, ("60 mm", "20 mm", "inside", "60 mm", "3 mm", "12 mm", "20 mm"), "does not lie in a wall"),
    (Patch, ("60 mm", "30 mm", "outside", "20 mm", "3 mm", "12 mm", "20 mm"), "is a full disc"),
    (Patch, ("400 mm", "20 mm", "inside", "60 mm", "3 mm", "61 mm", "20 mm"), "larger than the patch"),
    (Patch, ("100 mm", "30 mm", "inside", "60 mm", "3 mm", "12 mm", "9 mm"), "Take higher feet"),
])  # fmt: skip
def test_refused_in_a_sentence(cls, given_sizes, said):
    with pytest.raises(ShapeError, match=said):
        cls(*given_sizes)


def test_a_bare_number_is_refused():
    with pytest.raises(MeasureError, match="unit"):
        TwoFaces(40, *DEMO[1:])


@pytest.mark.parametrize("model, said", [
    (TwoFaces(*DEMO), "go round 2 times"),
    (TwoFaces(*DEMO, overlap="0 mm"), "a hair may stay"),
    (TwoFaces("40 mm", "18 mm", "3 mm", "36 mm", "25 mm", "7 mm"), "it can slip off"),
    (TwoFaces("12 mm", *DEMO[1:]), "13.0 mm below the ring"),
    (Patch("400 mm", "20 mm", "inside", "60 mm", "14 mm", "12 mm", "20 mm"), "are left behind the patch"),
    (Patch("400 mm", "20 mm", "inside", "60 mm", "3 mm", "12 mm", "20 mm", "0 mm"), "ends below the wall"),
])  # fmt: skip
def test_cautions(model, said):
    assert said in " ".join(each.tell() for each in model.cautions)
    calm = TwoFaces(*DEMO, margin="2 mm"), Patch("400 mm", "20 mm", "inside", "60 mm", "3 mm", "12 mm", "20 mm")
    assert not any(each.cautions for each in calm)


@over_the_range
@given(sizes(GrainArcs), st.sampled_from(["show", "back"]))
def test_the_other_face_has_what_this_one_lacks(given_sizes, face):
    ring = drawn(GrainArcs, given_sizes)
    mine, other = ring.arcs(face), ring.arcs("back" if face == "show" else "show")
    assert all(one[:2] == two[:2] and {one.grain, two.grain} == {"with", "against"} for one, two in zip(mine, other))
