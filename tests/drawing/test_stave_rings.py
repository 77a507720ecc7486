"""The pieces drawn make the ring: they cover it, fit their board and leave the gap that is told."""

import itertools
import math

import pytest
from hypothesis import HealthCheck, assume, given, settings
from models import EXAMPLES, made, sizes
from shapely import Point, Polygon, box
from shapely.geometry import LineString
from shapes import areas, disc, edges, measured, on, polygon, ring, text_box, together, view, whole

from shoplib import HollowBlank, StaveRing
from shoplib.drawing import draw, template
from shoplib.drawing.layout import lay_out
from shoplib.drawing.sheet import EndGrain
from shoplib.drawing.stave_rings.holding import draw_holding

EXACT = 1e-3
over_the_range = settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.filter_too_much])
FLAT = [ring for ring in EXAMPLES[StaveRing] if ring.values["slope"] == 0]


def flat_ring(sizes, **fixed):
    found = made(StaveRing, sizes | {"slope": "0 deg"} | fixed)
    assume(found)
    return found


def radii(model):
    """Outside and inside radius of the finished ring, and of the ring grown by its margin."""
    outside, inside = model.values["outside_diameter"] / 2, model.values["inside_diameter"] / 2
    margin = model.values["margin"]
    return outside, inside, outside + margin, inside - margin


def check_covered(plan, model):
    """The pieces overlap nowhere and cover the ring with its margin; kept is the finished ring alone."""
    outside, inside, outer, inner = radii(model)
    pieces = areas(plan, "waste")
    lying = together(pieces)
    assert lying.area == pytest.approx(sum(piece.area for piece in pieces), rel=1e-6)
    wanted = ring(outer, inner / math.cos(math.pi / 512))  # round its hole, not inside it
    assert (wanted - lying).area < EXACT * wanted.area
    finished = ring(outside, inside)
    flats = 4 * math.pi * outside**2 * (1 - math.cos(math.radians(1.875)))  # arcs in pieces of 3.75 deg at most
    assert whole(plan, "kept").symmetric_difference(finished).area < EXACT * finished.area + flats
    return pieces


@over_the_range
@given(sizes(StaveRing))
def test_staves_cover_the_grown_ring(sizes):
    found = flat_ring(sizes)
    assert len(check_covered(view(draw(found), "The blank"), found)) == found.staves


@over_the_range
@given(sizes(StaveRing))
def test_narrowest_board_that_covers(sizes):
    """A stave's outer flat touches the grown ring, its inner corners the grown ring's hole."""
    found = flat_ring(sizes)
    _, _, outer, inner = radii(found)
    for stave in on(view(draw(found), "The blank"), "waste"):
        (corners,) = stave.outlines
        far = [math.hypot(*corner) for corner in corners]
        assert sorted(far)[:2] == pytest.approx([inner, inner])
        sides = itertools.pairwise((*corners, corners[0]))
        assert max(LineString(side).distance(Point(0, 0)) for side in sides) == pytest.approx(outer)


@over_the_range
@given(sizes(StaveRing))
def test_nested_staves_fit_their_strip(sizes):
    """No stave overlaps the next, a kerf lies between them, and together they fill the strip's length."""
    found = flat_ring(sizes)
    strip = view(draw(found), "The strip")
    (board,) = areas(strip, "board")
    pieces = areas(strip, "piece")
    assert len(pieces) == found.staves
    assert together(pieces).bounds == pytest.approx(board.bounds, abs=1e-6)
    for one, following in itertools.pairwise(pieces):
        assert one.distance(following) == pytest.approx(found.values["kerf"], abs=1e-6)
    stave = on(view(draw(found), "The blank"), "waste")[0].outlines[0]
    assert [piece.area for piece in pieces] == pytest.approx([Polygon(stave).area] * len(pieces))
    assert measured(strip, "strip") == pytest.approx(board.bounds[2])


@over_the_range
@given(sizes(StaveRing))
def test_last_joint_is_told_on_the_finished_outside_circle(sizes):
    """Open for shallow mitres, overlapping for steep ones; the chord is true either way."""
    found = flat_ring(sizes)
    error, staves = found.values["saw_error"], found.staves
    assume(abs(error) > 1e-6)
    plan = view(draw(found), "The blank")
    across = found.values["outside_diameter"]
    words = "last joint open" if error > 0 else "last stave overlaps"
    assert measured(plan, words) == pytest.approx(across * math.sin(staves * abs(error)))
    (told,) = [each for each in plan.dimensions if each.text.startswith(words)]
    assert [math.hypot(*end) for end in (told.start, told.end)] == pytest.approx([across / 2] * 2)


@pytest.mark.parametrize("error", [0.5, 0.2, 0.02, -0.02, -0.2, -0.5])
@pytest.mark.parametrize("staves", [4, 9, 36])
def test_drawn_wedge_is_as_wide_as_its_dimension(staves, error):
    found = StaveRing("440 mm", "400 mm", staves, margin="3 mm", saw_error=f"{error} deg")
    plan = view(draw(found), "The blank")
    shown, other = ("gap", "clash") if error > 0 else ("clash", "gap")
    (wedge,) = areas(plan, shown)
    assert not on(plan, other)
    arc = disc(220).exterior.intersection(wedge)
    across = arc.bounds[2] - arc.bounds[0]
    assert across == pytest.approx(measured(plan, "last "), rel=0.03)
    blank = together(areas(plan, "waste"))
    assert wedge.difference(blank).area < EXACT * wedge.area  # nothing beyond the staves


def joints(found):
    """The view of the joints that share the error: (open, wood above and below) from the top down."""
    dry = view(draw(found), "A joint, dry")
    wood = areas(dry, "kept")
    return dry, [(gap, wood[2 * k : 2 * k + 2]) for k, gap in enumerate(areas(dry, "gap"))]


@pytest.mark.parametrize("error", [0.4, 0.1, -0.1, -0.4])
@pytest.mark.parametrize("staves", [4, 5, 12])
def test_shared_joints_gape_as_told_on_the_side_that_is_told(staves, error):
    found = StaveRing("440 mm", "400 mm", staves, margin="3 mm", saw_error=f"{error} deg")
    dry, drawn = joints(found)
    names = ["half_gap", "gap_per_joint"] if staves % 2 == 0 else ["gap_per_joint"]
    assert ("gapes outside, touches inside" if error > 0 else "gapes inside, touches outside") in dry.title
    assert {note.side for note in dry.notes} == {"right" if error > 0 else "left"}  # outside is to the right
    for (gap, wood), name, note in zip(drawn, names, dry.notes, strict=True):
        assert getattr(found.plain, name) == pytest.approx(gap.bounds[3] - gap.bounds[1])
        open_end = gap.bounds[2] if error > 0 else gap.bounds[0]
        assert note.at[0] == pytest.approx(open_end)
        above, below = wood
        assert above.intersection(below).area < 1e-9
        assert above.distance(below) == pytest.approx(0, abs=1e-9)


def test_tight_ring_shows_no_gap():
    sheet = draw(FLAT[0])
    assert not on(view(sheet, "The blank"), "gap")
    assert [part.title.split(":")[0] for part in sheet.views] == ["The blank from above", "One stave", "The strip"]


@pytest.mark.parametrize("found", FLAT, ids=repr)
def test_grain_runs_along_each_stave(found):
    """The fibres of each stave's share of the ring are those of its long edge, the one furthest out."""
    plan = view(draw(found), "The blank")
    staves, shares = areas(plan, "waste"), on(plan, "kept")
    assert len(staves) == len(shares) == found.staves
    for share in shares:
        (stave,) = [each for each in staves if each.buffer(1e-6).covers(polygon(share))]
        edges = itertools.pairwise(stave.exterior.coords)
        (x1, y1), (x2, y2) = max(edges, key=lambda edge: LineString(edge).distance(Point(0, 0)))
        assert math.sin(math.atan2(y2 - y1, x2 - x1) - share.grain) == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize("found", FLAT, ids=repr)
def test_one_stave_keeps_its_share_of_the_ring(found):
    stave = view(draw(found), "One stave")
    kept, board = whole(stave, "kept"), whole(stave, "waste")
    outside, inside, *_ = radii(found)
    assert kept.area == pytest.approx(math.pi * (outside**2 - inside**2) / found.staves, rel=0.001)
    assert (kept - board).area < EXACT * kept.area
    for words, name in (("long", "long_edge"), ("short", "short_edge"), ("board", "board_width")):
        assert measured(stave, words) == pytest.approx(getattr(found, name).m_as("mm"))


@pytest.mark.parametrize("staves", [3, 8])
@pytest.mark.parametrize("slope", ["0.5 deg", "35 deg", "90 deg"])
class TestLeaningRing:
    def test_two_saw_settings_are_true(self, slope, staves):
        found = StaveRing("440 mm", "400 mm", staves, slope=slope)
        _, mitre, tilt = draw(found).views
        for part, wanted in ((mitre, found.mitre_angle), (tilt, found.blade_tilt)):
            (kept,), (waste,) = areas(part, "kept"), areas(part, "waste")
            assert kept.intersection(waste).area < 1e-9
            (x1, y1), (x2, y2) = kept.intersection(waste).coords
            assert math.atan2(abs(x2 - x1), abs(y2 - y1)) == pytest.approx(wanted.m_as("rad"))

    def test_inside_face_is_shorter_and_the_outer_edge_longer(self, slope, staves):
        """As the joint's plane in space has it: it draws in towards the ring's axis, and so from the outside face."""
        half, lean = math.pi / staves, math.radians(float(slope.split()[0]))
        grows = math.tan(half)  # along the stave for each millimetre outward, at either end
        outward_on_face, outward_through_board = math.cos(lean), -math.sin(lean)  # inside face up
        _, mitre, tilt = draw(StaveRing("440 mm", "400 mm", staves, slope=slope)).views
        for part, outward in ((mitre, outward_on_face), (tilt, outward_through_board)):
            _, (below, low), (above, high), _ = on(part, "kept")[0].outlines[0]
            if part is mitre:
                assert (below - above) / (high - low) == pytest.approx(grows * outward)  # long edge below
            else:
                assert above - below == pytest.approx((high - low) * outward * math.sin(half) / math.hypot(
                    math.cos(half), math.sin(half) * math.cos(lean)))  # seen square to the cut

    def test_lean_is_drawn_and_counted_from_lying_flat(self, slope, staves):
        lean = view(draw(StaveRing("440 mm", "400 mm", staves, slope=slope)), "The lean")
        (arc,) = on(lean, "drawn")
        assert (arc.start, math.degrees(arc.end)) == pytest.approx((0, float(slope.split()[0])))
        right = max(areas(lean, "kept"), key=lambda each: each.centroid.x)
        foot, end = list(right.exterior.coords)[:2]
        assert math.degrees(math.atan2(end[1] - foot[1], end[0] - foot[0])) == pytest.approx(math.degrees(arc.end))
        assert any("counted from lying flat" in note.text for note in lean.notes)
        assert "angles only" in lean.title
        assert all(isinstance(shape.grain, EndGrain) for shape in on(lean, "kept"))

    def test_template_has_both_angles_to_set_a_bevel_by(self, slope, staves):
        found = StaveRing("440 mm", "400 mm", staves, slope=slope)
        (gauge,) = template(found).views
        one, other = areas(gauge, "kept")
        assert one.intersection(other).area == 0
        for shape, wanted in zip(on(gauge, "kept"), (found.mitre_angle, found.blade_tilt), strict=True):
            _, (x1, y1), (x2, y2), *_ = shape.outlines[0]
            assert math.atan2(x1 - x2, y2 - y1) == pytest.approx(wanted.m_as("rad"), abs=1e-12)


@over_the_range
@given(sizes(HollowBlank))
def test_boards_cover_the_grown_ring(sizes):
    found = made(HollowBlank, sizes)
    assume(found)
    boards = check_covered(view(draw(found), "The boards"), found)
    width = found.values["board_width"]
    assert [board.bounds[3] - board.bounds[1] for board in boards] == pytest.approx([width] * len(boards))
    lengths = sum(board.bounds[2] - board.bounds[0] + found.values["kerf"] for board in boards)
    assert lengths == pytest.approx(found.total_length.m_as("mm"))
    assert together(boards).bounds[3] >= radii(found)[2] - 1e-6


@pytest.mark.parametrize("found", EXAMPLES[HollowBlank], ids=repr)
def test_boards_are_the_rows_of_the_table(found):
    boards = [board.bounds for board in areas(view(draw(found), "The boards"), "waste")]
    for row in found.plain.rows:
        right = (row.inner if row.pieces == 2 else -row.outer, row.low, row.outer, row.high)
        assert any(board == pytest.approx(right, abs=1e-9) for board in boards)
    astride = 0 if found.values["seam_on_centre"] else found.plain.rows[0].pieces
    assert len(boards) == 2 * sum(row.pieces for row in found.plain.rows) - astride


@pytest.mark.parametrize("found", EXAMPLES[HollowBlank], ids=repr)
def test_glue_lines_lie_between_boards_and_inside_the_ring(found):
    plan = view(draw(found), "The boards")
    outside, inside, *_ = radii(found)
    heights = {bound for board in areas(plan, "waste") for bound in (board.bounds[1], board.bounds[3])}
    finished = ring(outside, inside).buffer(0.05)
    for line in on(plan, "joint"):
        assert any(line.start[1] == pytest.approx(height) for height in heights)
        assert finished.covers(LineString([line.start, line.end]))


@pytest.mark.parametrize("found", EXAMPLES[HollowBlank], ids=repr)
def test_quarter_template_holds_its_quarter_of_the_ring(found):
    (quarter,) = template(found).views
    outside, inside, outer, inner = radii(found)
    far = 2 * outer
    lying = together([*areas(quarter, "piece")])
    wanted = ring(outer, inner).intersection(box(0, 0, far, far))
    assert (wanted - lying).area < EXACT * wanted.area
    assert [arc.radius for arc in on(quarter, "joint")] == [outside, inside]


@pytest.mark.parametrize("found", FLAT, ids=repr)
def test_stave_template_is_true_to_size(found):
    (piece,) = template(found).views
    low, bottom, high, top = whole(piece, "waste").bounds
    half = math.pi / found.staves
    _, _, outer, inner = radii(found)
    assert high - low == pytest.approx(2 * outer * math.tan(half))
    assert top - bottom == pytest.approx(outer - inner * math.cos(half))
    outside, inside, *_ = radii(found)
    middle = Point(0, -outer)  # of the ring; the edges of what is kept are round to a hundredth of a millimetre
    edges = [middle.distance(Point(corner)) for corner in whole(piece, "kept").exterior.coords]
    assert max(edges) == pytest.approx(outside, abs=0.01)
    flats = [middle.distance(LineString(pair)) for pair in itertools.pairwise(whole(piece, "kept").exterior.coords)]
    assert sum(outside - 0.01 < flat < outside for flat in flats) > 10


@pytest.mark.parametrize("found", EXAMPLES[HollowBlank], ids=repr)
def test_quarter_names_every_piece_as_the_cut_list_has_it(found):
    quarter = view(draw(found), "One quarter")
    wood = on(quarter, "piece")
    assert [shape.grain for shape in wood] == [0.0] * len(found.plain.rows)
    listed = {f"{cut.how_many} of {cut.each_long:.1f} mm" for cut in found.plain.cut_list}
    assert {note.text for note in quarter.notes} == listed


@pytest.mark.parametrize("found", FLAT, ids=repr)
class TestHolding:
    """The lesson's picture of the two cuts: nothing held by two parts of one place, nothing in the cutter's way."""

    def cuts(self, found):
        first, second = draw_holding(found.plain).views
        return (first, "outside"), (second, "inside")

    def test_cutter_makes_the_finished_edge_and_meets_nothing_but_the_board(self, found):
        outside, inside, *_ = radii(found)
        for cut, which in self.cuts(found):
            (cutter,), (rim,) = areas(cut, "cutter"), areas(cut, "kept")
            left, _, right, _ = cutter.bounds
            assert (left if which == "outside" else right) == pytest.approx(outside if which == "outside" else inside)
            assert cutter.intersection(rim).area < 1e-9
            for block in areas(cut, "board"):
                assert cutter.intersection(block).area < 1e-9

    def test_ring_is_held_from_the_side_that_is_not_cut(self, found):
        for cut, which in self.cuts(found):
            (rim,) = areas(cut, "kept")
            (held,) = [block for block in areas(cut, "board") if block.touches(rim)]
            assert (held.centroid.x < rim.centroid.x) == (which == "outside")
            for block in areas(cut, "board"):
                assert block.intersection(rim).area < 1e-9
                assert block.bounds[3] == rim.bounds[3]  # carries the router as high as the ring does

    def test_router_rests_on_both_sides_of_the_cut(self, found):
        for cut, _ in self.cuts(found):
            (cutter,) = areas(cut, "cutter")
            supports = [block.bounds for block in areas(cut, "board")]
            assert any(right <= cutter.bounds[0] for _, _, right, _ in supports)
            assert any(left >= cutter.bounds[2] for left, *_ in supports)


def test_holding_is_drawn_clear():
    """No two texts in one place, no text on an outline, all of it on the plate."""
    plate = lay_out(draw_holding(StaveRing("440 mm", "400 mm", 12, margin="3 mm").plain))
    boxes = [text_box(text) for text in plate.texts]
    assert not any(one.intersects(other) for one, other in itertools.combinations(boxes, 2))
    assert all(box(0, 0, plate.width, plate.height).covers(each) for each in boxes)
    outlines = [edge for shape in plate.shapes for edge in edges(shape)]
    assert not any(each.intersects(edge) for each in boxes for edge in outlines)
