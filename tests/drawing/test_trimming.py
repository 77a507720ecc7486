"""Trimming as drawn: cutters where they are set, arcs as edge and fibre say, feeds with the wood on their left."""

import math

import numpy
import pytest
from hypothesis import given, settings
from models import EXAMPLES, drawn, sizes
from shapely import LineString, Point, Polygon, box
from shapely.affinity import rotate, scale, translate
from shapes import areas, disc, measured, on, together, view, whole

from shoplib import GrainArcs, Patch, TwoFaces
from shoplib.drawing import draw, template
from shoplib.drawing.layout import lay_out
from shoplib.drawing.sheet import Arc, EndGrain
from shoplib.paper import pages
from shoplib.paper.imprint import imprint_of

CLOSE = pytest.approx
over_the_range = settings(max_examples=20, deadline=None)
BOTH = pytest.mark.parametrize("edge", ["outside", "inside"])
BUILT = pytest.mark.parametrize("built", [("boards", 12), ("staves", 5), ("staves", 12)])


# Two faces ----------------------------------------------------------------------------------------------------


@over_the_range
@given(sizes(TwoFaces))
def test_cutters_stand_where_they_are_set(given_sizes):
    trim = drawn(TwoFaces, given_sizes)
    sheet = draw(trim)
    first = view(sheet, "First cut")
    (ring,), (cutter,), (lies,) = areas(first, "kept"), areas(first, "cutter"), areas(first, "template")
    (base,), (bearing,) = areas(first, "router_base"), areas(first, "bearing")
    assert ring.bounds[3] - ring.bounds[1] == CLOSE(trim.ring_height)
    assert lies.bounds[1] == ring.bounds[3] and lies.bounds[3] - lies.bounds[1] == CLOSE(trim.template_thickness)
    assert base.bounds[1] == CLOSE(lies.bounds[3]) and base.bounds[1] - cutter.bounds[1] == CLOSE(trim.first_set)
    assert cutter.bounds[3] - cutter.bounds[1] == CLOSE(trim.first_cutting_length)
    assert bearing.bounds[1] == CLOSE(cutter.bounds[3]) and bearing.bounds[0] == cutter.bounds[0] == ring.bounds[2]
    assert measured(first, "below the base") == CLOSE(trim.first_set)
    assert len(sheet.views) == (1 if trim.one_face else 2)
    assert bool(areas(first, "waste")) == (not trim.one_face)
    if not trim.one_face:
        check_second(trim, view(sheet, "Second cut"))
        (waste,) = areas(first, "waste")
        assert waste.bounds[3] == CLOSE(cutter.bounds[1]) and waste.bounds[2] - waste.bounds[0] == CLOSE(trim.margin)


def check_second(trim, second):
    (ring,), (cutter,), (bearing,) = (areas(second, layer) for layer in ("kept", "cutter", "bearing"))
    (base,) = areas(second, "router_base")
    assert base.bounds[1] == CLOSE(ring.bounds[3]) and base.bounds[1] - bearing.bounds[1] == CLOSE(trim.second_set)
    assert cutter.bounds[1] == CLOSE(bearing.bounds[3])
    (reached,) = on(second, "hidden")
    assert reached.end[1] - ring.bounds[1] == CLOSE(trim.depth)
    assert reached.end[1] - cutter.bounds[1] == CLOSE(trim.overlap, abs=1e-6)
    assert bearing.bounds[1] > ring.bounds[1] - 1e-6
    assert measured(second, "wall") == CLOSE(trim.band_left)
    assert measured(second, "overlap") == CLOSE(trim.overlap, abs=1e-6)
    for words in ("wall", "overlap"):  # each at its height on the ring
        (size,) = (each for each in second.dimensions if each.text.startswith(words))
        assert size.start[0] == size.end[0] == ring.bounds[0]


@pytest.mark.parametrize("trim", EXAMPLES[TwoFaces], ids=repr)
def test_gauge_is_true_to_size(trim):
    plate = lay_out(template(trim), text=3.4, key=False, scale=1.0)
    strips = [Polygon(shape.outlines[0]) for shape in plate.shapes if shape.layer == "paper"]
    lines = [shape for shape in plate.shapes if shape.layer == "joint"]
    wanted = [(trim.plain.first_set, trim.plain.hold)]
    if not trim.plain.one_face:
        wanted.append((trim.plain.second_set, trim.plain.second_depth))
    assert len(strips) == len(wanted)
    for strip, heights in zip(strips, wanted):
        left, _, right, foot = strip.bounds
        found = [foot - each.start[1] for each in lines if left - 1e-6 <= each.start[0] < right - 1]
        assert sorted(found) == CLOSE(sorted(heights))


@pytest.mark.parametrize("trim", EXAMPLES[TwoFaces], ids=repr)
def test_a_strip_that_is_cut_out_tells_its_cut_and_its_foot(trim):
    """The words stay on the sheet: by its corners alone it is known, and both lines cross the whole of it."""
    (shown,) = template(trim).views
    for number, strip in enumerate(areas(shown, "paper"), 1):
        left, foot, right, top = strip.bounds
        corners = (left, foot), (right, foot), (right, top), (left, top)
        assert [strip.touches(Point(corner)) for corner in corners] == [True, True, number == 1, False]
        lines = [each for each in on(shown, "joint") if left <= each.start[0] < right]
        assert len(lines) == 2 and all(strip.covers(LineString([each.start, each.end])) for each in lines)


# Grain round the ring -----------------------------------------------------------------------------------------


def drawn_fibre(shown, point):
    """The direction of the fibres that the drawing shows in the wood nearest to a point."""
    wood = [(shape, area) for layer in ("kept", "stave")
            for shape, area in zip(on(shown, layer), areas(shown, layer))]  # fmt: skip
    shape, _ = min(wood, key=lambda each: each[1].distance(Point(point)))
    return numpy.array([math.cos(shape.grain), math.sin(shape.grain)])


@BUILT
@BOTH
@pytest.mark.parametrize("title", ["Show face up", "Back face up"])
def test_hatched_is_where_the_drawn_fibres_run_into_the_wood(built, edge, title):
    """Read from the picture alone: seen from the router's side its cutter turns clockwise, whichever face is up."""
    shown = view(draw(GrainArcs(*built, edge)), title)
    seen = 0
    for layer in ("against", "with"):
        for arc in areas(shown, layer):
            point = numpy.array(arc.representative_point().coords[0])
            out = point / numpy.linalg.norm(point)
            kept = -out if edge == "outside" else out
            along = numpy.array([kept[1], -kept[0]])  # a cutter that turns clockwise, where it meets the kept wood
            fibre = drawn_fibre(shown, point)
            fibre = fibre if fibre @ along > 0 else -fibre
            assert (fibre @ kept > 0) == (layer == "against")
            seen += 1
    assert seen == 2 * (2 if built[0] == "boards" else built[1])


@BOTH
def test_feeds_keep_the_wood_on_their_left(edge):
    for shown in draw(GrainArcs("boards", edge=edge)).views:
        feeds = on(shown, "feed", Arc)
        assert len(feeds) == 2 and all(feed.arrow for feed in feeds)
        wood = whole(shown, "kept")
        for feed in feeds:
            *_, before, end = feed.points()
            way = numpy.array(end) - numpy.array(before)
            left = numpy.array([-way[1], way[0]]) / numpy.linalg.norm(way)
            ahead = wood.distance(Point(numpy.array(end) + left))
            assert ahead < wood.distance(Point(end)) - 0.9


@BUILT
def test_turned_over_like_a_page(built):
    """The wood in the right view is the left one's mirror image, and what was hatched is white there."""
    front, back = draw(GrainArcs(*built)).views
    for layer, other in (("against", "with"), ("with", "against")):
        mirrored = scale(together(areas(front, layer)), -1, 1, origin=(0, 0))
        assert mirrored.symmetric_difference(together(areas(back, other))).area < 1e-3 * mirrored.area


@pytest.mark.parametrize("ring", [each for each in EXAMPLES[GrainArcs] if each.diameter], ids=repr)
def test_band_laid_on_again_and_again_goes_once_round(ring):
    (shown,) = template(ring).views
    band = together([*areas(shown, "against"), *areas(shown, "with")])
    radius, times = ring.diameter.m_as("mm") / 2, 2 if ring.construction == "boards" else ring.staves
    turned = [rotate(band, 360 * k / times, origin=(0, 0)) for k in range(times)]
    assert sum(each.area for each in turned) == CLOSE(together(turned).area, rel=1e-3)
    wall = disc(radius).exterior
    mine = together(turned)
    if ring.edge == "outside":
        assert mine.envelope.bounds == CLOSE((-radius, -radius, radius, radius), abs=0.1)
        assert (mine - disc(radius)).area < 1e-3 * mine.area
    else:
        assert (mine & disc(radius - 0.1)).area == 0
    assert max(wall.distance(Point(point)) for point in mine.boundary.geoms[0].coords) < 18.01
    (against,), (along,) = areas(shown, "against"), areas(shown, "with")
    assert against.centroid.x > 0 > along.centroid.x and against.area == CLOSE(along.area)


def test_disc_shows_what_the_show_face_does():
    ring = GrainArcs("staves", 7)
    disc_of_angles, plate = template(ring).views[0], draw(ring).views[0]
    for layer in ("against", "with"):
        for one in areas(plate, layer):
            turn = math.atan2(one.centroid.y, one.centroid.x)
            at = Point(53 * math.cos(turn), 53 * math.sin(turn))
            assert any(each.covers(at) for each in areas(disc_of_angles, layer))


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_disc_of_angles_goes_on_one_sheet(paper):
    for ring in (GrainArcs(), GrainArcs("staves", 14)):
        assert len(pages.compose(template(ring), imprint_of(ring, "mm"), paper)) == 1


# The patch ----------------------------------------------------------------------------------------------------


@over_the_range
@given(sizes(Patch))
def test_patch_fills_its_pocket(given_sizes):
    """The patch as drawn, laid on the pocket's bottom, covers what was cut out of the ring, and stands proud of it."""
    patch = drawn(Patch, given_sizes)
    pocket, alone = draw(patch).views
    radius, half, way = patch.diameter / 2, patch.length / 2, 1 if patch.edge == "inside" else -1
    turns = numpy.linspace(0, 2 * math.pi, 4001)[:-1]
    hole = Polygon([(radius * math.cos(a), radius * math.sin(a) - radius) for a in turns])
    slot = box(-half, -radius, half, way * patch.depth) if way > 0 else box(-half, way * patch.depth, half, radius)
    cut = slot - hole if way > 0 else slot & hole
    (least,) = (note.at for note in pocket.notes if note.text.startswith("wood left"))
    (ring,), (piece,), (cutter,), (base,) = (
        areas(pocket, "kept"), areas(alone, "piece"), areas(pocket, "cutter"), areas(pocket, "router_base"),
    )  # fmt: skip
    slack = 1e-3 * cut.area + 1e-3 * patch.length * patch.diameter / 100
    assert (ring & cut).area < slack
    upright = ring & LineString([(least[0], -5000), (least[0], 5000)])
    assert least[1] == CLOSE(way * (patch.depth + patch.back) / 2)
    assert patch.wood_left - slack < upright.length < patch.wood_left + 0.3 * patch.rise + slack
    laid = translate(scale(piece, 1, -way, origin=(0, 0)), 0, way * patch.depth)
    assert (cut - laid).area < slack
    assert piece.bounds[3] - piece.bounds[1] == CLOSE(patch.patch_thickness)
    near = base.bounds[3] if way > 0 else base.bounds[1]
    tip = cutter.bounds[3] if way > 0 else cutter.bounds[1]
    assert way * (tip - near) == CLOSE(patch.plunge) and tip == CLOSE(way * patch.depth)
    assert -way * near == CLOSE(patch.feet_height)


@pytest.mark.parametrize("patch", EXAMPLES[Patch], ids=repr)
def test_dashed_wall_on_the_patch_is_the_wall(patch):
    (shown,) = template(patch).views
    (wall,) = on(shown, "hidden", Arc)
    plain = patch.plain
    ends, middle = [wall.points()[0][1], wall.points()[-1][1]], wall.points()[12][1]
    assert middle == CLOSE(plain.depth) and ends == CLOSE([plain.end_depth] * 2)
    assert wall.radius == CLOSE(plain.diameter / 2)


def test_grain_runs_along_the_patch_and_rings_show_on_the_ends_of_the_rim():
    pocket, alone = draw(EXAMPLES[Patch][0]).views
    assert {shape.grain for shape in (*on(pocket, "kept"), *on(alone, "piece"))} == {0.0}
    for shown in draw(EXAMPLES[TwoFaces][0]).views:
        assert all(isinstance(shape.grain, EndGrain) for shape in on(shown, "kept"))


def test_cards_say_how():
    use = draw(EXAMPLES[TwoFaces][0]).use
    assert "43.0 mm below the base" in use and "larger than the edges by 3.0 mm" in use and "24.0 mm below" in use
    assert "Second cut" not in draw(EXAMPLES[TwoFaces][1]).use
    outside, inside = (draw(GrainArcs("boards", edge=edge)).use for edge in ("outside", "inside"))
    assert "router anticlockwise" in outside and "router clockwise" in inside
    assert "23.0 mm below the base" in draw(EXAMPLES[Patch][0]).use
