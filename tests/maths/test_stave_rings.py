"""Rings of staves and of boards, judged by published tables and by laying the pieces out with shapely."""

import cmath
import itertools
import math

import numpy
import published
import pytest
from scipy.optimize import brentq
from shapely import LineString, Point, Polygon, box, line_merge, unary_union
from shapely.affinity import rotate, scale, translate

from shoplib import HollowBlank, ShapeError, StaveRing

CLOSE = pytest.approx
SMOOTH = 512  # straight pieces in a quarter of a circle


def annulus(outer, inner):
    """A ring a hair smaller than the true one: straight pieces inside the outer circle, outside the inner."""
    hole = Point(0, 0).buffer(inner / math.cos(math.pi / 4 / SMOOTH), quad_segs=SMOOTH)
    return Point(0, 0).buffer(outer, quad_segs=SMOOTH).difference(hole)


def uncovered(wanted, pieces):
    return wanted.difference(unary_union(pieces).buffer(1e-6)).area


# Staves: published values -----------------------------------------------------------------------------------


@pytest.mark.parametrize("row", published.rows("regular_polygons"), ids=lambda row: row["n"])
class TestPolygonTable:
    """Machinery's Handbook, 31st ed., 2020, p. 82: S side, R circumscribed, r inscribed radius."""

    def test_long_edge_is_the_side_round_the_outer_circle(self, row):
        ring = StaveRing("440 mm", "400 mm", int(row["n"]), margin="3 mm").plain
        assert ring.long_edge / 223 == CLOSE(float(row["S_over_r"]), abs=6e-5)

    def test_short_edge_is_the_side_within_the_inner_circle(self, row):
        ring = StaveRing("440 mm", "400 mm", int(row["n"]), margin="3 mm").plain
        assert ring.short_edge / 197 == CLOSE(float(row["S_over_R"]), abs=6e-5)

    def test_board_width_lies_between_the_inscribed_circles(self, row):
        ring = StaveRing("440 mm", "400 mm", int(row["n"]), margin="3 mm").plain
        assert (223 - ring.board_width) / 197 == CLOSE(float(row["r_over_R"]), abs=6e-5)


def test_side_of_a_twelve_sided_polygon():
    """Machinery's Handbook, 31st ed., 2020, p. 78: 4.141 cm within a circle of 8 cm radius."""
    row = published.row("circle_geometry", id="CG7")
    sizes = published.numbers(row["inputs"])
    ring = StaveRing("20 cm", f"{2 * sizes['R']} cm", int(sizes["n"]))
    assert ring.short_edge.m_as("cm") == CLOSE(float(row["printed_result"]), abs=float(row["tolerance"]))


@pytest.mark.parametrize("row", published.rows("circle_geometry", id="CG19"), ids=lambda row: row["inputs"])
def test_mitre_is_half_the_central_angle(row):
    """Rose, Mechanical Drawing Self-Taught: central and interior angles of regular polygons."""
    central, interior = map(float, row["printed_result"].split(";"))
    mitre = StaveRing("440 mm", "400 mm", int(row["inputs"][2:])).mitre_angle.m_as("deg")
    assert 2 * mitre == CLOSE(central)
    assert 2 * (90 - mitre) == CLOSE(interior)


@pytest.mark.parametrize("staves", range(3, 37))
def test_mitre_of_a_frame(staves):
    """US Navy NAVEDTRA 14119, ch. 3: 180 deg over the number of sides."""
    assert published.row("circle_geometry", id="CG20")["inputs"] == "180/N"
    ring = StaveRing("440 mm", "400 mm", staves)
    assert ring.mitre_angle.m_as("deg") == CLOSE(180 / staves)
    assert ring.blade_tilt.m_as("deg") == 0


@pytest.mark.parametrize("row", published.rows("compound_angles"), ids=lambda row: row["case"])
def test_compound_angles_of_solids_and_mouldings(row):
    """Regular solids: exact (from memory, verified numerically). Crown moulding: common practice."""
    inclination = row["face_inclination_from_horizontal_deg"]
    ring = StaveRing("440 mm", "400 mm", int(row["n_sides"]), slope=f"{inclination} deg")
    tilt, end = float(row["blade_tilt_from_square_deg"].split()[0]), float(row["end_angle_off_square_deg"])
    printed = 0.015 if row["source"] == "common practice" else 1e-4
    assert ring.blade_tilt.m_as("deg") == CLOSE(tilt, abs=printed)
    assert ring.mitre_angle.m_as("deg") == CLOSE(end, abs=printed)


# Staves: the saw in space -----------------------------------------------------------------------------------


def turn(vector, axis, angle):
    """A vector turned about an axis (Rodrigues)."""
    axis = numpy.array(axis) / numpy.linalg.norm(axis)
    along = axis * (axis @ vector)
    return along + math.cos(angle) * (vector - along) + math.sin(angle) * numpy.cross(axis, vector)


@pytest.mark.parametrize("slope", [0, 10, 35, 52, 80, 90])
@pytest.mark.parametrize("staves", [3, 4, 7, 12, 36])
class TestCompoundCut:
    """x along the stave, y outward, z up: the joint stands upright and half a central angle off y."""

    def test_angles_read_off_the_joint_plane(self, staves, slope):
        ring = StaveRing("440 mm", "400 mm", staves, slope=f"{slope} deg")
        half, lean = math.pi / staves, math.radians(slope)
        joint = numpy.array([math.cos(half), -math.sin(half), 0.0])  # normal of the joint's plane
        across = numpy.array([0.0, math.cos(lean), math.sin(lean)])  # a square cut's line on the face
        face = numpy.cross([1.0, 0.0, 0.0], across)  # normal of the board's face
        line = numpy.cross(joint, face)  # the cut's line on the face
        line /= numpy.linalg.norm(line)
        assert ring.mitre_angle.m_as("rad") == CLOSE(math.acos(min(1.0, abs(line @ across))), abs=1e-7)
        assert ring.blade_tilt.m_as("rad") == CLOSE(math.asin(min(1.0, abs(joint @ face))), abs=1e-9)

    def test_flat_board_cut_at_these_angles_fits_its_neighbour(self, staves, slope):
        ring = StaveRing("440 mm", "400 mm", staves, slope=f"{slope} deg").plain
        cut = turn(numpy.array([1.0, 0.0, 0.0]), [0, 0, 1], -ring.mitre_angle)
        line = turn(numpy.array([0.0, 1.0, 0.0]), [0, 0, 1], -ring.mitre_angle)
        cut = turn(cut, line, -ring.blade_tilt)
        cut = turn(cut, [1, 0, 0], math.radians(slope))  # the board leans in its place
        half = math.pi / staves
        assert cut == CLOSE([math.cos(half), -math.sin(half), 0], abs=1e-9)


# Staves: laid out flat --------------------------------------------------------------------------------------

RINGS = [
    StaveRing("440 mm", "400 mm", 12, margin="3 mm", kerf="2.2 mm"),
    StaveRing("440 mm", "400 mm", 3, kerf="1 mm"),
    StaveRing("12 in", "9 1/2 in", 5, margin="1/8 in", kerf="1/8 in"),
    StaveRing("440 mm", "360 mm", 8, margin="5 mm"),
    StaveRing("1500 mm", "1480 mm", 36, margin="10 mm", kerf="3 mm"),
]
EACH_RING = pytest.mark.parametrize("ring", [ring.plain for ring in RINGS], ids=map(repr, RINGS))


def stave(ring, width=None, out=0.0):
    """The stave at the top of the ring: its long edge a tangent of the grown outside, moved out a little."""
    width = ring.board_width if width is None else width
    short = ring.long_edge - 2 * width * math.tan(math.pi / ring.staves)
    top = ring.outside_diameter / 2 + ring.margin + out
    ends = [(-ring.long_edge / 2, top), (ring.long_edge / 2, top)]
    return Polygon([*ends, (short / 2, top - width), (-short / 2, top - width)])


def round_the_ring(piece, staves):
    return [rotate(piece, 360 * k / staves, origin=(0, 0)) for k in range(staves)]


@EACH_RING
class TestAssembledStaves:
    def test_edges_and_width_make_one_trapezoid(self, ring):
        points = stave(ring).exterior.coords
        assert math.dist(points[2], points[3]) == CLOSE(ring.short_edge)

    def test_cover_the_grown_ring_without_overlap(self, ring):
        pieces = round_the_ring(stave(ring), ring.staves)
        grown = annulus(ring.outside_diameter / 2 + ring.margin, ring.inside_diameter / 2 - ring.margin)
        assert uncovered(grown, pieces) == CLOSE(0, abs=1e-6)
        assert unary_union(pieces).area == CLOSE(ring.staves * pieces[0].area, rel=1e-9)

    def test_no_narrower_board_covers(self, ring):
        grown = annulus(ring.outside_diameter / 2 + ring.margin, ring.inside_diameter / 2 - ring.margin)
        for out in (0, -0.05, -0.1):  # wherever the narrower board is put
            narrower = stave(ring, ring.board_width - 0.1, out)
            assert uncovered(grown, round_the_ring(narrower, ring.staves)) > 0.01

    def test_blank_radii_are_where_the_grown_ring_ends(self, ring):
        assert ring.blank_outer == CLOSE(stave(ring).bounds[3])
        assert ring.blank_inner == CLOSE(math.hypot(*stave(ring).exterior.coords[2]))


def nested(ring):
    """The staves along a strip, every second one turned over, each pushed up until the kerf is left."""
    bottom, top = ring.long_edge / 2, ring.short_edge / 2
    upright = Polygon([(-bottom, 0), (bottom, 0), (top, ring.board_width), (-top, ring.board_width)])
    turned = scale(upright, yfact=-1)
    placed = [translate(upright, bottom, 0)]
    for k in range(1, ring.staves):
        piece = turned if k % 2 else upright
        near, far = placed[-1].bounds[0] + bottom, placed[-1].bounds[2] + bottom + 10 * ring.kerf + 1

        def short_of_kerf(shift, piece=piece):
            moved = translate(piece, shift, 0)
            overlap = placed[-1].intersection(moved).area
            return -overlap if overlap else placed[-1].distance(moved) - ring.kerf

        placed.append(translate(piece, brentq(short_of_kerf, near, far, xtol=1e-11), 0))
    return placed


@EACH_RING
class TestNestedStrip:
    def test_strip_just_holds_all_staves(self, ring):
        low, bottom, high, top = unary_union(nested(ring)).bounds
        assert (low, bottom, top) == CLOSE((0, 0, ring.board_width), abs=1e-9)
        assert ring.strip_length == CLOSE(high, abs=1e-4)

    def test_yield_is_the_finished_ring_over_the_strip(self, ring):
        finished = annulus(ring.outside_diameter / 2, ring.inside_diameter / 2).area
        assert ring.material_yield == CLOSE(finished / box(*unary_union(nested(ring)).bounds).area, rel=1e-4)


def test_ring_in_the_yield():
    """Machinery's Handbook, 31st ed., 2020, p. 79: a ring of 12 and 8 cm has 62.83 cm2."""
    row = published.row("circle_geometry", id="CG10")
    ring = StaveRing("12 cm", "8 cm", 8)
    area = ring.material_yield * ring.strip_length * ring.board_width
    assert area.m_as("cm**2") == CLOSE(float(row["printed_result"]), abs=float(row["tolerance"]))


# Staves: the last joint -------------------------------------------------------------------------------------


def assembled(ring):
    """Both ends of the open chain of staves as really sawn: (tip, inner corner) as complex numbers."""
    mitre = ring.mitre_angle - ring.saw_error
    half, depth = ring.long_edge / 2, ring.board_width
    short = half - depth * math.tan(mitre)
    left, right = (-half + 0j, -short - depth * 1j), (half + 0j, short - depth * 1j)
    first, end = left, right
    for _ in range(ring.staves - 1):  # the next stave's left end goes tight against the last one's right end
        spin = (end[1] - end[0]) / (left[1] - left[0])
        end = tuple(end[0] + (corner - left[0]) * spin for corner in right)
    return end, first


@pytest.mark.parametrize("staves", [3, 6, 12, 24])
@pytest.mark.parametrize("error", [0.02, 0.25, -0.25, -1.0])
class TestClosing:
    def ring(self, staves, error):
        return StaveRing("440 mm", "400 mm", staves, margin="3 mm", saw_error=f"{error} deg").plain

    def test_angle_left_at_the_last_joint(self, staves, error):
        ring = self.ring(staves, error)
        (tip, corner), (first_tip, first_corner) = assembled(ring)
        left = cmath.phase((tip - corner) / (first_tip - first_corner))  # outward edges, turning clockwise
        assert ring.closing_angle == CLOSE(abs(left), abs=1e-9)

    def test_chord_on_the_finished_outside_circle(self, staves, error):
        """From the last stave's end to the first one's, on the outside circle round the joints' common point."""
        ring = self.ring(staves, error)
        (tip, corner), (first_tip, first_corner) = assembled(ring)
        outward, first_outward = (edge / abs(edge) for edge in (tip - corner, first_tip - first_corner))
        told = ring.closing_gap if error > 0 else ring.overlap
        assert told == CLOSE(220 * abs(outward - first_outward), abs=1e-6)

    def test_open_or_overlapping_and_where_most(self, staves, error):
        """Shallow mitres leave the tips further apart than the inner corners; steep ones drive them into each other."""
        (tip, corner), (first_tip, first_corner) = assembled(self.ring(staves, error))
        along = (first_tip - first_corner) * -1j / abs(first_tip - first_corner)  # from the last to the first
        tips, corners = (((b - a) / along).real for a, b in ((tip, first_tip), (corner, first_corner)))
        assert (tips > corners > 0) if error > 0 else (tips < corners < 0)

    def test_only_the_one_that_happens_has_a_number(self, staves, error):
        ring = self.ring(staves, error)
        with pytest.raises(ShapeError) as caught:
            assert ring.overlap if error > 0 else ring.closing_gap
        assert caught.value.input == "saw_error"


class DryFit:
    """Staves as really sawn, pushed together with shapely: two halves, or all of them under a band clamp."""

    def __init__(self, ring):
        self.ring, self.mitre = ring, ring.mitre_angle - ring.saw_error
        half = ring.long_edge / 2
        short = half - ring.board_width * math.tan(self.mitre)
        self.corners = [(-half, 0), (half, 0), (short, -ring.board_width), (-short, -ring.board_width)]

    def half(self):
        """Half of the staves in a chain, its two outer tips level and the one above the other's like at x = -x."""
        apex = -self.ring.long_edge / 2 / math.tan(self.mitre)
        wedges = [translate(Polygon(self.corners), 0, -apex)]
        many = self.ring.staves // 2
        turns = [(2 * k + 1 - many) * math.degrees(self.mitre) for k in range(many)]
        chain = [rotate(wedges[0], turn, origin=(0, 0)) for turn in turns]
        for one, following in itertools.pairwise(chain):  # tight joints: touching, not overlapping
            assert one.intersection(following).area < 1e-6 and one.distance(following) < 1e-6
        return chain

    def ends(self):
        """Outer tip and inner corner of the half's right end."""
        tip, root = list(self.half()[0].exterior.coords)[1:3]
        return tip, root

    def half_gaps(self):
        """Two halves pushed together until they touch: what is left between the tips, and between the corners."""
        heights = [y for _, y in self.ends()]
        return [2 * (y - min(heights)) for y in heights]

    def trued_blank(self):
        """Both halves, their ends planed down to one line, and glued: the blank round the middle of that line."""
        line = max(y for _, y in self.ends())
        half = unary_union(self.half(), grid_size=1e-7).intersection(box(-2000, line, 2000, 2000))
        half = translate(half, 0, -line)
        return unary_union([half, scale(half, yfact=-1, origin=(0, 0))], grid_size=1e-7)

    def clamped_gaps(self):
        """Neighbours in a regular ring drawn together until they touch: gaps between tips and between corners."""
        def pair(apothem):
            first = translate(Polygon(self.corners), 0, apothem)
            return first, rotate(first, 360 / self.ring.staves, origin=(0, 0))

        def apart(apothem):
            one, other = pair(apothem)
            lapped = one.intersection(other).area
            return -lapped if lapped > 0 else one.distance(other)

        nominal = self.ring.blank_outer
        one, other = pair(brentq(apart, 0.8 * nominal, 1.5 * nominal, xtol=1e-12))
        (left, _, _, left_root), (_, right, right_root, _) = (list(each.exterior.coords)[:4] for each in (one, other))
        return [math.dist(left, right), math.dist(left_root, right_root)]


SAWN = [
    StaveRing("440 mm", "400 mm", staves, margin="3 mm", saw_error=f"{error} deg").plain
    for staves in (3, 4, 5, 6, 12, 36) for error in (0.02, 0.5, 1, -0.02, -0.5, -1)
] + [
    StaveRing("300 mm", "150 mm", 8, margin="20 mm", saw_error="1 deg").plain,
    StaveRing("300 mm", "150 mm", 8, margin="20 mm", saw_error="-1 deg").plain,
    StaveRing("1500 mm", "1480 mm", 24, saw_error="-0.2 deg").plain,
    StaveRing("1500 mm", "100 mm", 4, saw_error="0.7 deg").plain,
]  # fmt: skip
EVEN = [ring for ring in SAWN if ring.staves % 2 == 0]


def sawn(ring):
    return f"{ring.staves} staves, {math.degrees(ring.saw_error):.2f} deg, {ring.margin:g} mm"


class TestSharedJoints:
    """Gaps and touching ends read off the staves laid in the plane, for either sign of the error."""

    @pytest.mark.parametrize("ring", SAWN, ids=sawn)
    def test_band_clamp(self, ring):
        tips, corners = DryFit(ring).clamped_gaps()
        gape, touch = (tips, corners) if ring.saw_error > 0 else (corners, tips)
        assert ring.gap_per_joint == CLOSE(gape, abs=1e-5)
        assert touch == CLOSE(0, abs=1e-5)

    @pytest.mark.parametrize("ring", EVEN, ids=sawn)
    def test_two_halves(self, ring):
        tips, corners = DryFit(ring).half_gaps()
        gape, touch = (tips, corners) if ring.saw_error > 0 else (corners, tips)
        assert ring.half_gap == CLOSE(gape, abs=1e-9)
        assert touch == 0

    @pytest.mark.parametrize("ring", EVEN, ids=sawn)
    def test_margin_left_by_trued_halves(self, ring):
        blank, middle = DryFit(ring).trued_blank(), Point(0, 0)
        (hole,) = blank.interiors
        outside = blank.exterior.distance(middle) - ring.outside_diameter / 2
        inside = ring.inside_diameter / 2 - max(middle.distance(Point(corner)) for corner in hole.coords)
        assert ring.margin_left == CLOSE(min(outside, inside), abs=1e-5)

    @pytest.mark.parametrize("name", ["half_gap", "margin_left"])
    @pytest.mark.parametrize("staves", [3, 7, 35])
    def test_an_odd_count_has_no_halves(self, staves, name):
        with pytest.raises(ShapeError, match=f"{staves} staves") as caught:
            getattr(StaveRing("440 mm", "400 mm", staves, saw_error="0.1 deg"), name)
        assert caught.value.input == "staves"

    @pytest.mark.parametrize("staves", [4, 12, 36])
    def test_a_true_saw_leaves_nothing_open_and_all_of_the_margin(self, staves):
        ring = StaveRing("440 mm", "400 mm", staves, margin="3 mm").plain
        assert (ring.closing_gap, ring.half_gap, ring.gap_per_joint) == (0, 0, 0)
        assert ring.margin_left == CLOSE(3)

    def test_by_hand(self):
        """Board 223 - 197 cos 15; face 33.87 mm along it; 1.2 deg at each joint of halves, 0.2 deg at each of all."""
        ring = StaveRing("440 mm", "400 mm", 12, margin="3 mm", saw_error="0.1 deg").plain
        face = (223 - 197 * 0.9659258) / 0.9664
        assert ring.half_gap == CLOSE(face * math.radians(1.2), rel=1e-3)
        assert ring.gap_per_joint == CLOSE(face * math.radians(0.2), rel=1e-3)

    def test_staves_sawn_to_a_point_are_refused(self):
        with pytest.raises(ShapeError, match="point") as caught:
            StaveRing("1500 mm", "20 mm", 3, saw_error="-1 deg")
        assert caught.value.input == "saw_error"
        assert StaveRing("1500 mm", "20 mm", 3, saw_error="1 deg").plain.joint_face > 0


def test_closing_gap_by_hand():
    # 12 staves, 24 mitres out by a quarter of a degree: 6 deg; chord of 6 deg on 440 mm: 440 sin 3 deg.
    ring = StaveRing("440 mm", "400 mm", 12, saw_error="0.25 deg")
    assert ring.closing_angle.m_as("deg") == CLOSE(6)
    assert ring.closing_gap.m_as("mm") == CLOSE(440 * 0.0523359562)
    assert StaveRing("440 mm", "400 mm", 12).closing_gap.m_as("mm") == 0
    steep = StaveRing("440 mm", "400 mm", 12, saw_error="-0.25 deg")
    assert steep.overlap.m_as("mm") == CLOSE(440 * 0.0523359562)


# Staves: what cannot or should not be made ------------------------------------------------------------------

SIZES = ["blank_outer", "blank_inner", "long_edge", "short_edge", "board_width", "strip_length",
         "material_yield", "closing_gap", "overlap", "joint_face", "half_gap", "gap_per_joint",
         "margin_left"]  # fmt: skip


@pytest.mark.parametrize("name", SIZES)
@pytest.mark.parametrize("slope", ["0.1 deg", "90 deg"])
def test_a_leaning_ring_has_no_sizes(name, slope):
    ring = StaveRing("440 mm", "400 mm", 12, slope=slope)
    with pytest.raises(ShapeError, match="slope") as caught:
        getattr(ring, name)
    assert caught.value.input == "slope"


def test_a_leaning_ring_has_its_angles():
    ring = StaveRing("440 mm", "400 mm", 12, slope="90 deg", saw_error="0.1 deg")
    assert ring.mitre_angle.m_as("deg") == CLOSE(0, abs=1e-9)
    assert ring.blade_tilt.m_as("deg") == CLOSE(15)
    assert ring.closing_angle.m_as("deg") == CLOSE(2.4)
    (caution,) = ring.cautions
    assert "angles" in str(caution) and caution.input == "slope"
    assert ring.plain.on_card() == ("mitre_angle", "blade_tilt", "closing_angle")


@pytest.mark.parametrize(
    ("sizes", "more", "input", "said"),
    [
        (("440 mm", "440 mm", 12), {}, "inside_diameter", "440.0 mm"),
        (("400 mm", "440 mm", 12), {}, "inside_diameter", "400.0 mm"),
        (("440 mm", "40 mm", 12), {"margin": "20 mm"}, "margin", "20.0 mm"),
        (("440 mm", "400 mm", 12), {"slope": "91 deg"}, "slope", "90 deg"),
        (("440 mm", "400 mm", 12), {"slope": "-1 deg"}, "slope", "-1.0 deg"),
        (("440 mm", "400 mm", 12), {"saw_error": "8 deg"}, "saw_error", "7.50 deg"),
        (("440 mm", "400 mm", 2), {}, "staves", "from 3 to 36"),
        (("440 mm", "400 mm", 37), {}, "staves", "from 3 to 36"),
        (("0 mm", "400 mm", 12), {}, "outside_diameter", "0.0 mm"),
        (("440 mm", "400 mm", 12), {"kerf": "-2 mm"}, "kerf", "-2.0 mm"),
    ],
)
def test_staves_that_cannot_be_made(sizes, more, input, said):
    with pytest.raises(ShapeError) as caught:
        StaveRing(*sizes, **more)
    assert caught.value.input == input
    assert said in str(caught.value)


def cautions(model):
    return [caution.input for caution in model.cautions]


def test_cautions_of_staves():
    assert cautions(StaveRing("440 mm", "400 mm", 12, margin="3 mm")) == []
    assert cautions(StaveRing("440 mm", "400 mm", 12)) == ["margin"]
    assert cautions(StaveRing("440 mm", "400 mm", 12, margin="3 mm", saw_error="0.002 deg")) == []
    assert cautions(StaveRing("440 mm", "200 mm", 8, margin="3 mm")) == ["staves"]


@pytest.mark.parametrize(
    ("staves", "error", "said", "unsaid"),
    [
        (12, "0.1 deg", ["stays open by 9.2 mm", "0.12 mm outside", "half rings", "0.71 mm outside"], ["overlap"]),
        (12, "-0.1 deg", ["overlaps by 9.2 mm", "0.12 mm inside", "half rings", "0.71 mm inside"], ["open"]),
        (9, "0.1 deg", ["stays open by 6.9 mm", "0.14 mm outside", "odd count"], ["half rings"]),
        (9, "-0.1 deg", ["overlaps by 6.9 mm", "0.14 mm inside", "odd count"], ["half rings"]),
        (12, "0.3 deg", ["0.35 mm outside, more than glue fills"], []),
    ],
)
def test_what_the_wood_does_is_said_for_either_sign(staves, error, said, unsaid):
    ring = StaveRing("440 mm", "400 mm", staves, margin="3 mm", saw_error=error)
    caution = ring.cautions[0]
    assert caution.input == "saw_error"
    assert [words for words in said if words not in str(caution)] == []
    assert [words for words in unsaid if words in str(caution)] == []
    assert "no clamp" not in str(caution).lower()


@pytest.mark.parametrize("error", [f"{sign}{size} deg" for sign in ("", "-") for size in (0.1, 0.2, 0.3, 0.5)])
@pytest.mark.parametrize("staves", [4, 12, 36])
def test_caution_where_truing_eats_the_margin(staves, error):
    ring = StaveRing("440 mm", "400 mm", staves, margin="3 mm", saw_error=error)
    outside, inside = Point(0, 0).buffer(220, quad_segs=SMOOTH), Point(0, 0).buffer(200, quad_segs=SMOOTH)
    falls_short = not DryFit(ring.plain).trued_blank().buffer(1e-3).covers(outside - inside)
    assert ("margin" in cautions(ring)) == falls_short


def test_card_lists_what_applies_in_the_order_of_use():
    sizes = ("mitre_angle", "blade_tilt", "board_width", "strip_length", "long_edge", "short_edge")

    def listed(staves, error):
        card = StaveRing("440 mm", "400 mm", staves, saw_error=error).plain.on_card()
        assert card[:6] == sizes
        return card[6:]

    assert listed(12, "0 deg") == ()
    assert listed(12, "0.1 deg") == ("closing_gap", "gap_per_joint", "half_gap", "margin_left")
    assert listed(9, "0.1 deg") == ("closing_gap", "gap_per_joint")
    assert listed(12, "-0.1 deg") == ("overlap", "gap_per_joint", "half_gap", "margin_left")


# Boards side by side ----------------------------------------------------------------------------------------

BLANKS = [
    HollowBlank("440 mm", "400 mm", "60 mm", margin="3 mm"),
    HollowBlank("440 mm", "400 mm", "60 mm", margin="3 mm", seam_on_centre=False),
    HollowBlank("12 in", "9 in", "2 1/2 in", margin="1/8 in"),
    HollowBlank("12 in", "9 in", "2 1/2 in", margin="1/8 in", seam_on_centre=False),
    HollowBlank("440 mm", "330 mm", "25 mm", margin="5 mm", seam_on_centre=False),
    HollowBlank("440 mm", "330 mm", "41 mm"),
    HollowBlank("120 mm", "60 mm", "200 mm", margin="4 mm"),
    HollowBlank("120 mm", "60 mm", "200 mm", margin="4 mm", seam_on_centre=False),
    HollowBlank("1500 mm", "1000 mm", "140 mm", margin="10 mm"),
]
EACH_BLANK = pytest.mark.parametrize("blank", [blank.plain for blank in BLANKS], ids=map(repr, BLANKS))


def grown(blank):
    return annulus(blank.outside_diameter / 2 + blank.margin, blank.inside_diameter / 2 - blank.margin)


def finished(blank):
    return annulus(blank.outside_diameter / 2, blank.inside_diameter / 2)


def pieces_of(row):
    """The boards of one row where the row says that they lie."""
    if row.pieces == 1:
        return [box(-row.outer, row.low, row.outer, row.high)]
    return [box(row.inner, row.low, row.outer, row.high), box(-row.outer, row.low, -row.inner, row.high)]


def below(pieces):
    return [scale(piece, yfact=-1, origin=(0, 0)) for piece in pieces]


def all_pieces(blank):
    """All boards on both sides of the centre line; the board astride it only once."""
    found = []
    for row in blank.rows:
        found += pieces_of(row) + ([] if row.low < 0 else below(pieces_of(row)))
    return found


@EACH_BLANK
class TestBoards:
    def test_rows_follow_one_another_from_the_centre_outward(self, blank):
        first = 0 if blank.seam_on_centre else -blank.board_width / 2
        assert blank.rows[0].low == first
        for row, following in itertools.pairwise(blank.rows):
            assert following.low == CLOSE(row.high)
        for row in blank.rows:
            assert row.high - row.low == CLOSE(blank.board_width)  # the last keeps its full width
        outside = blank.outside_diameter / 2 + blank.margin
        assert blank.rows[-1].high >= outside > blank.rows[-1].low
        assert len(blank.rows) == blank.row_count

    def test_pieces_cover_the_grown_ring_without_overlap(self, blank):
        pieces = all_pieces(blank)
        assert uncovered(grown(blank), pieces) == CLOSE(0, abs=1e-6)
        assert unary_union(pieces).area == CLOSE(sum(piece.area for piece in pieces))

    def test_reaches_are_those_of_the_ring_within_each_row(self, blank):
        for row in blank.rows:
            band = box(0, row.low, 2000, row.high)  # on one side of centre
            reach = grown(blank).intersection(band).bounds
            assert row.outer == CLOSE(reach[2], abs=0.01)
            assert row.inner == CLOSE(reach[0], abs=0.01)

    def test_one_piece_only_where_the_ring_runs_through(self, blank):
        for row in blank.rows:
            middle = LineString([(0, row.low), (0, row.high)])
            runs_through = grown(blank).intersection(middle).length > 0
            assert row.pieces == (1 if runs_through else 2)
            assert row.length == CLOSE(pieces_of(row)[0].bounds[2] - pieces_of(row)[0].bounds[0])

    def test_total_length_counts_a_kerf_for_each_piece(self, blank):
        pieces = all_pieces(blank)
        lengths = [piece.bounds[2] - piece.bounds[0] for piece in pieces]
        assert blank.total_length == CLOSE(sum(lengths) + len(lengths) * blank.kerf)
        timber = blank.total_length * blank.board_width
        assert blank.material_yield == CLOSE(finished(blank).area / timber, rel=1e-4)

    def test_cut_list_has_every_piece_once_and_each_length_once(self, blank):
        lengths = sorted(piece.bounds[2] - piece.bounds[0] for piece in all_pieces(blank))
        listed = sorted(length for many, length in blank.cut_list for _ in range(many))
        hair = blank.outside_diameter / 10000  # what a rule cannot tell apart is cut as the longer one
        assert all(length <= cut + 1e-9 < length + hair for length, cut in zip(lengths, listed, strict=True))
        assert blank.piece_count == len(lengths)
        once = [length for _, length in blank.cut_list]
        assert all(abs(one - other) >= hair for one, other in itertools.combinations(once, 2))

    def test_cut_list_follows_the_rows_from_the_centre_outward(self, blank):
        places = [next(k for k, row in enumerate(blank.rows) if row.length == cut.each_long) for cut in blank.cut_list]
        assert places == sorted(places)

    def test_places_are_where_the_boards_lie(self, blank):
        for row, place in zip(blank.rows, blank.places, strict=True):
            right = pieces_of(row)[0].bounds
            assert (place.lower_edge, place.upper_edge, place.ends) == CLOSE((right[1], right[3], right[2]))
            assert place.begins == CLOSE(max(right[0], 0))

    def test_glue_lines(self, blank):
        """Each seam cut through the blank's boards and through the finished ring, and the lines counted."""
        rows = [pieces_of(row) for row in blank.rows]
        neighbours = [(below(rows[0]), rows[0])] if blank.seam_on_centre else []
        neighbours += itertools.pairwise(rows)
        for seam, (lower, upper) in zip(blank.overlaps, neighbours, strict=True):
            line = LineString([(-2000, seam.off_centre), (2000, seam.off_centre)])
            glued = unary_union(lower).boundary.intersection(unary_union(upper).boundary).intersection(line)
            crossings = parts(finished(blank).intersection(line))
            sides = 2 if seam.off_centre > 0 else 1
            assert seam.how_many == sides * len(crossings)
            assert parts(glued) == CLOSE([seam.in_the_blank] * len(parts(glued)), abs=1e-6)
            assert crossings == CLOSE([seam.in_the_ring] * len(crossings), abs=0.05)
        assert blank.glue_lines == sum(seam.how_many for seam in blank.overlaps)


def parts(lines):
    """The lengths of all unbroken straight parts in a cut through wood, crumbs of rounding left out."""
    merged = line_merge(lines) if lines.geom_type == "MultiLineString" else lines
    return [part.length for part in getattr(merged, "geoms", [merged]) if part.length > 1e-3]


class TestPublishedChords:
    """Machinery's Handbook, 31st ed., 2020, p. 79 and p. 50: chord from radius and height of the segment."""

    def test_chord_of_the_outside(self):
        row = published.row("circle_geometry", id="CG1")
        sizes = published.numbers(row["inputs"])
        seam = sizes["r"] - sizes["h"]  # the second row begins at the chord
        blank = HollowBlank(f"{2 * sizes['r']} in", "20 in", f"{seam} in")
        chord = blank.rows[1].length.m_as("in")
        assert chord == CLOSE(float(row["printed_result"]), abs=float(row["tolerance"]))

    def test_chord_of_the_hole(self):
        row = published.row("circle_geometry", id="CG4")
        sizes = published.numbers(row["inputs"])
        seam = sizes["R"] - sizes["F"]  # the first row ends at the chord
        blank = HollowBlank("30 cm", f"{2 * sizes['R']} cm", f"{seam} cm")
        chord = 2 * blank.rows[0].inner.m_as("cm")
        assert chord == CLOSE(float(row["printed_result"]), abs=float(row["tolerance"]))


def test_boards_by_hand():
    """3-4-5: radii 250 and 200 (finished 240 and 210, margin 10), boards 150 wide.

    Row 1: 0 to 150, out to 250, in to sqrt(200^2 - 150^2) = 50 sqrt 7. Row 2: 150 to 300, out to
    sqrt(250^2 - 150^2) = 200, through: one piece of 400.
    """
    blank = HollowBlank("480 mm", "420 mm", "150 mm", margin="10 mm").plain
    root = 50 * math.sqrt(7)
    assert blank.rows[0] == CLOSE((0, 150, root, 250, 250 - root, 2))
    assert blank.rows[1] == CLOSE((150, 300, 0, 200, 400, 1))
    assert blank.cut_list == (CLOSE((4, 250 - root)), CLOSE((2, 400)))
    assert blank.total_length == CLOSE(2 * (2 * (250 - root) + 400) + 6 * 3)
    glue = math.sqrt(240**2 - 150**2) - math.sqrt(210**2 - 150**2)
    assert blank.overlaps[1] == CLOSE((4, 150, 200 - root, glue))


def test_a_seam_that_runs_through_is_given_whole():
    """Boards 50 wide, radii 220 and 120: the seam at 150 meets no hole and is one line, 2 sqrt(220^2 - 150^2) long."""
    seam = HollowBlank("440 mm", "240 mm", "50 mm").plain.overlaps[3]
    whole = 2 * math.sqrt(220**2 - 150**2)
    assert seam == CLOSE((2, 150, whole, whole))


def test_a_board_astride_the_centre_is_cut_once():
    """Boards 60 wide, the first from -30 to 30: two pieces, not four; all the rest above and below."""
    blank = HollowBlank("440 mm", "400 mm", "60 mm", margin="3 mm", seam_on_centre=False).plain
    astride = 223 - math.sqrt(197**2 - 30**2)
    assert blank.cut_list[0] == CLOSE((2, astride))
    assert blank.piece_count == 2 + 4 + 4 + 2 + 2


def test_a_row_that_ends_at_the_hole_runs_through_whatever_the_rounding():
    assert 3 * 20.2 < 60.6
    row = HollowBlank("161.2 mm", "121.2 mm", "20.2 mm").rows[2]
    assert (row.inner.m_as("mm"), row.pieces) == (0, 1)


@pytest.mark.parametrize("seam_on_centre", [True, False])
def test_yield_against_staves(seam_on_centre):
    blank = HollowBlank("440 mm", "400 mm", "60 mm", margin="3 mm", seam_on_centre=seam_on_centre)
    ring = StaveRing("440 mm", "400 mm", 12, margin="3 mm", kerf="2.2 mm")
    strip = ring.strip_length.m_as("mm") * ring.board_width.m_as("mm")
    boards = blank.total_length.m_as("mm") * 60
    assert blank.yield_against(ring) == CLOSE(strip / boards)
    assert blank.yield_against(ring) < 1  # a thin ring wastes less as staves


@pytest.mark.parametrize(
    ("sizes", "more", "input", "said"),
    [
        (("440 mm", "440 mm", "60 mm"), {}, "inside_diameter", "440.0 mm"),
        (("440 mm", "40 mm", "60 mm"), {"margin": "20 mm"}, "margin", "20.0 mm"),
        (("440 mm", "400 mm", "2 mm"), {}, "board_width", "2.0 mm"),
        (("440 mm", "400 mm", "0 mm"), {}, "board_width", "0.0 mm"),
    ],
)
def test_boards_that_cannot_be_made(sizes, more, input, said):
    with pytest.raises(ShapeError) as caught:
        HollowBlank(*sizes, **more)
    assert caught.value.input == input
    assert said in str(caught.value)


def test_cut_list_is_told_in_words_and_in_the_unit_that_is_asked_for():
    blank = HollowBlank("440 mm", "400 mm", "60 mm", margin="3 mm")
    assert repr(blank.tell("cut_list")).splitlines()[:2] == ["how many  each long", "4         35.4 mm"]
    assert "1 25/64 in (1.392)" in repr(blank.tell("cut_list", unit="in"))
    heads = [word for name in ("cut_list", "places", "overlaps") for word in blank.tell(name).head]
    assert not {"low", "high", "inner", "outer"} & set(heads)


class TestCautionsOfBoards:
    def test_none(self):
        assert cautions(HollowBlank("440 mm", "400 mm", "60 mm", margin="3 mm")) == []

    @pytest.mark.parametrize(
        ("width", "expected"), [("54.9 mm", False), ("55 mm", True), ("55.7 mm", True), ("55.8 mm", False)]
    )
    def test_last_row_in_the_margin_only(self, width, expected):
        """Four boards of 55 mm reach 220, the finished edge; the blank goes on to 223 = 4 x 55.75."""
        blank = HollowBlank("440 mm", "400 mm", width, margin="3 mm")
        assert any("margin only" in str(caution) for caution in blank.cautions) == expected

    def test_last_row_in_the_margin_only_whatever_the_rounding(self):
        assert 3 * 20.2 < 60.6
        blank = HollowBlank("121.2 mm", "80 mm", "20.2 mm", margin="3 mm")
        assert len(blank.rows) == 4
        assert any("margin only" in str(caution) for caution in blank.cautions)

    @pytest.mark.parametrize(
        ("width", "left"), [("70 mm", "10.0 mm"), ("72.6 mm", "2.2 mm"), ("73 mm", "1.0 mm"), ("66 mm", None)]
    )
    def test_sliver(self, width, left):
        """A seam at 3 boards leaves 220 - 3 B of the ring to the last row; boards of 223 / 3 save it."""
        (*_, caution) = HollowBlank("440 mm", "400 mm", width, margin="3 mm").cautions or (None,)
        if left is None:  # 22 mm: a third of 66 mm
            assert caution is None
            return
        assert f"Only {left}" in str(caution) and "74.3 mm" in str(caution)
        assert caution.input == "board_width"

    @pytest.mark.parametrize("seam_on_centre", [True, False])
    @pytest.mark.parametrize("width", range(20, 215, 3))
    def test_sliver_wherever_little_of_a_row_is_in_the_ring(self, width, seam_on_centre):
        blank = HollowBlank("440 mm", "400 mm", f"{width} mm", margin="3 mm", seam_on_centre=seam_on_centre)
        in_ring = [finished(blank.plain) & box(-500, row.low, 500, row.high) for row in blank.plain.rows]
        tall = [0 if part.is_empty else part.bounds[3] - part.bounds[1] for part in in_ring]
        thin = [height for height in tall if height < width / 3] if len(tall) > 1 else []
        assert len([each for each in blank.cautions if "last row" in str(each)]) == len(thin)

    @pytest.mark.parametrize(
        ("width", "seam_on_centre"), [(70, True), (73, True), (55.5, True), (60, False), (88, False), (49, False)]
    )
    def test_boards_that_save_the_row(self, width, seam_on_centre):
        """A hair over the width that is told there is one row fewer, a hair under it the row is still there."""
        blank = HollowBlank("440 mm", "400 mm", f"{width} mm", margin="3 mm", seam_on_centre=seam_on_centre)
        (caution,) = blank.cautions
        _, enough = caution.lengths
        rows = [blank.replace(board_width=f"{enough + hair} mm").plain.row_count for hair in (1e-4, -1e-4)]
        assert rows == [blank.plain.row_count - 1, blank.plain.row_count]

    def test_short_glue_line(self):
        """A seam at 196.2 in a ring 200 wide: a chord of 2 sqrt(220^2 - 196.2^2) = 199.05."""
        (caution,) = HollowBlank("440 mm", "40 mm", "65.4 mm", margin="3 mm").cautions
        assert "199.1 mm long" in str(caution)
        assert caution.input == "board_width"

    def test_a_sliver_is_told_once(self):
        """The seam at 219.9 has a short glue line too, 13.3 mm: it goes with the row."""
        (caution,) = HollowBlank("440 mm", "400 mm", "73.3 mm", margin="3 mm").cautions
        assert "sliver" in str(caution)
