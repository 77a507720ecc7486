"""The pieces drawn make the ring: they cover it, fit their board and leave the gap that is told."""

import itertools
import math

import pytest
from hypothesis import HealthCheck, assume, given, settings
from models import EXAMPLES, made, sizes
from shapely import Point, Polygon, box
from shapely.geometry import LineString
from shapes import areas, disc, measured, on, ring, together, view, whole

from shoplib import HollowBlank, ShapeError, StaveRing
from shoplib.drawing import draw, template

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
    assert whole(plan, "kept").symmetric_difference(finished).area < EXACT * finished.area
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
def test_last_joint_opens_on_the_finished_circle_as_told(sizes):
    found = flat_ring(sizes)
    error, staves = found.values["saw_error"], found.staves
    assume(abs(error) > 1e-6)
    plan = view(draw(found), "The blank")
    across = found.values["outside_diameter" if error > 0 else "inside_diameter"]
    chord = across * math.sin(staves * abs(error))
    assert measured(plan, "last joint") == pytest.approx(chord)
    (told,) = [each for each in plan.dimensions if each.text.startswith("last joint")]
    assert [math.hypot(*end) for end in (told.start, told.end)] == pytest.approx([across / 2] * 2)
    assert ("outside" in told.text) == (error > 0)


@pytest.mark.parametrize("error", [0.2, 0.02, -0.02, -0.2])
def test_drawn_gap_is_as_wide_as_its_dimension(error):
    found = StaveRing("440 mm", "400 mm", 12, margin="3 mm", saw_error=f"{error} deg")
    plan = view(draw(found), "The blank")
    (gap,) = areas(plan, "gap")
    across = 440 if error > 0 else 400
    arc = disc(across / 2).exterior.intersection(gap)
    assert math.dist(arc.bounds[:1], arc.bounds[2:3]) == pytest.approx(measured(plan, "last joint"), rel=0.03)


def test_tight_ring_shows_no_gap():
    assert not on(view(draw(FLAT[0]), "The blank"), "gap")


@pytest.mark.parametrize("found", FLAT, ids=repr)
def test_one_stave_keeps_its_share_of_the_ring(found):
    stave = view(draw(found), "One stave")
    kept, board = whole(stave, "kept"), whole(stave, "waste")
    outside, inside, *_ = radii(found)
    assert kept.area == pytest.approx(math.pi * (outside**2 - inside**2) / found.staves, rel=0.001)
    assert (kept - board).area < EXACT * kept.area
    for words, name in (("long", "long_edge"), ("short", "short_edge"), ("board", "board_width")):
        assert measured(stave, words) == pytest.approx(getattr(found, name).m_as("mm"))


@pytest.mark.parametrize("slope", ["35 deg", "90 deg"])
def test_leaning_ring_shows_its_two_saw_settings_true(slope):
    found = StaveRing("440 mm", "400 mm", 8, slope=slope)
    mitre, tilt = draw(found).views
    for part, wanted in ((mitre, found.mitre_angle), (tilt, found.blade_tilt)):
        (kept,), (waste,) = areas(part, "kept"), areas(part, "waste")
        assert kept.intersection(waste).area < 1e-9
        (x1, y1), (x2, y2) = kept.intersection(waste).coords
        assert math.atan2(abs(x2 - x1), abs(y2 - y1)) == pytest.approx(wanted.m_as("rad"))


@over_the_range
@given(sizes(HollowBlank))
def test_boards_cover_the_grown_ring(sizes):
    found = made(HollowBlank, sizes)
    assume(found)
    boards = check_covered(view(draw(found), "The boards"), found)
    width = found.values["board_width"]
    assert [board.bounds[3] - board.bounds[1] for board in boards] == pytest.approx([width] * len(boards))
    lengths = sum(board.bounds[2] - board.bounds[0] for board in boards)
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


def test_leaning_ring_has_no_template_of_its_size():
    with pytest.raises(ShapeError, match="slope"):
        template(StaveRing("440 mm", "400 mm", 8, slope="35 deg"))
