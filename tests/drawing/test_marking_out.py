"""Marks on round legs as drawn and as printed: the strip goes once round, the boards close, the V holds the leg."""

import math

import pytest
from hypothesis import assume, given, settings
from models import EXAMPLES, made, sizes
from paper.reading import circles, pages, strokes
from shapely import LineString, Point, Polygon
from shapely.affinity import rotate, translate
from shapes import areas, edges, measured, on, view, whole

from shoplib import CornerBlock, Cradle, WrapStrip, save_template
from shoplib.drawing import draw, template
from shoplib.drawing.sheet import Area, EndGrain
from shoplib.model import ShapeError

CLOSE = pytest.approx
over_the_range = settings(max_examples=40, deadline=None)
RAILS = dict(upper_rail="60 mm", lower_rail="500 mm", rail_height="50 mm", dowel_edge="12 mm", dowel_spacing="26 mm")
STRIP = WrapStrip("35 mm", "360 mm", line_drift="0.5 mm", **RAILS)


# The strip --------------------------------------------------------------------------------------------------


def flat(sheet):
    """Of a strip laid flat: its outline, its quarter lines from the left, the dowels' centres and the rails' edges."""
    (shown,) = [each for each in sheet.views if on(each, "paper")]
    (outline,) = areas(shown, "paper")
    upright = [line for layer in ("centre", "hidden") for line in on(shown, layer) if not isinstance(line, Area)]
    lines = sorted(line.start[0] for line in upright if line.start[0] == line.end[0] and line.start[1] == 0)
    holes = sorted((hole.centre for hole in on(shown, "hole")), key=lambda at: (at[0], -at[1]))
    return outline, lines, holes, on(shown, "upper_edge")


@pytest.mark.parametrize("strip", EXAMPLES[WrapStrip], ids=repr)
@pytest.mark.parametrize("make", [draw, template])
def test_strip_goes_once_round_in_four_quarters(strip, make):
    outline, lines, _, _ = flat(make(strip))
    around = math.pi * (strip.values["leg_diameter"] + strip.values["paper_thickness"])
    assert outline.bounds[2] - outline.bounds[0] == CLOSE(around)
    ends = [outline.bounds[0], *lines, outline.bounds[2]]
    assert [right - left for left, right in zip(ends, ends[1:])] == CLOSE([around / 4] * 4)
    assert 0 in lines


def test_marks_of_both_rails():
    """From the leg's top, on the middle line and a quarter to the right: 60 + 12, + 26; the same below 500."""
    for make in (draw, template):
        outline, _, holes, rail_edges = flat(make(STRIP))
        assert [-y for x, y in holes if x == 0] == CLOSE([72, 98, 512, 538])
        assert [-y for x, y in holes if x > 0] == CLOSE([72, 98, 512, 538])
        assert {round(x, 6) for x, _ in holes} == {0, round(math.pi * 35.1 / 4, 6)}
        assert sorted({-edge.start[1] for edge in rail_edges}) == CLOSE([60, 500])
        assert outline.bounds[1] < -550 and outline.bounds[3] == 0


@pytest.mark.parametrize(("side", "sign"), [("right", 1), ("left", -1)])
def test_second_rail_to_either_side(side, sign):
    """Rolled round the leg and looked at from the first rail: the second line lies on the side that was asked for.

    From above the first rail runs to the right of the sheet, so facing it from outside, up the sheet is right.
    """
    strip = WrapStrip("35 mm", "360 mm", stagger="4 mm", second_side=side, **RAILS)
    for make in (draw, template):
        _, _, holes, _ = flat(make(strip))
        second = [-y for x, y in holes if x != 0]
        assert all(math.copysign(1, x) == sign for x, _ in holes if x)
        assert second == CLOSE([76, 102, 516, 542])
    plan = draw(strip).views[0]
    (arrow,) = on(plan, "astray")
    assert math.copysign(1, arrow.end[1]) == sign
    legs = ("front left and back right", "front right and back left")
    assert f"For the legs {legs[0 if sign > 0 else 1]}" in template(strip).use


@over_the_range
@given(sizes(WrapStrip))
def test_plan_shows_the_miss(given_sizes):
    strip = made(WrapStrip, given_sizes)
    assume(strip and strip.values["strip_error"] > 0)
    plan = draw(strip).views[0]
    (arrow,) = on(plan, "astray")
    assert measured(plan, "misses by") == CLOSE(strip.plain.rail_miss)
    true = LineString([(0, 0), (0, arrow.end[1])])
    assert Point(arrow.end).distance(true) == CLOSE(strip.plain.rail_miss)
    assert math.atan2(-arrow.end[0], abs(arrow.end[1])) == CLOSE(strip.plain.angle_error)


def test_line_that_drifts():
    (shown,) = [each for each in draw(STRIP).views if on(each, "paper")]
    (line,) = on(shown, "astray")
    assert (line.start, line.end) == ((0, -60), (0.5, -500))
    assert not on(view(draw(WrapStrip("35 mm", "360 mm")), "Strip laid flat"), "astray")


def test_short_strip_is_a_band():
    outline, lines, holes, rail_edges = flat(template(WrapStrip("35 mm", "360 mm")))
    assert outline.bounds[3] - outline.bounds[1] == CLOSE(40) and len(lines) == 3 and not holes and not rail_edges


def test_tab_goes_under_the_beginning():
    sheet = template(STRIP)
    outline, *_ = flat(sheet)
    (tab,) = areas(sheet.views[0], "hidden")
    around = math.pi * 35.1
    assert tab.bounds[0] == CLOSE(outline.bounds[2]) and 8 < tab.bounds[2] - tab.bounds[0] < around / 4
    assert outline.buffer(1e-6).covers(translate(tab, -around, 0))


@pytest.mark.parametrize(("paper", "count"), [("A4", 3), ("Letter", 4)])
def test_printed_strip_once_round_and_full_length(tmp_path, paper, count):
    """Measured on the PDF: once round 110.27 mm to 0.1 mm; the dowels' centres on the first and the last sheet."""
    sheets = pages(save_template(STRIP, folder=tmp_path, paper=paper))
    assert len(sheets) == count
    long = [each.size for page in sheets for each in strokes(page) if 500 < each.size[1] < 600]
    (wide,) = {round(across, 2) for across, _ in long if across > 20}  # narrower: the tab and the lines
    assert wide == CLOSE(math.pi * 35.1, abs=0.1)
    quarter = math.pi * 35.1 / 4
    for page, apart in ((sheets[0], 26), (sheets[-1], 26)):
        centres = sorted({(round(x, 1), round(y, 1)) for x, y in circles(page, 0.6 * 0.12 * quarter, near=0.1)})
        assert len(centres) == 4
        (left, low), (same, high), (right, _), _ = centres
        assert same == CLOSE(left, abs=0.11) and high - low == CLOSE(apart, abs=0.2)
        assert right - left == CLOSE(quarter, abs=0.2)


# The block --------------------------------------------------------------------------------------------------


@over_the_range
@given(sizes(CornerBlock))
def test_leg_lies_in_the_corner(given_sizes):
    block = made(CornerBlock, given_sizes)
    assume(block)
    shown = view(draw(block), "Along the leg")
    boards, (leg,) = areas(shown, "board"), areas(shown, "leg")
    assert boards[0].touches(boards[1])
    assert [leg.distance(board) for board in boards] == CLOSE([0, 0], abs=1e-3 * block.values["leg_diameter"])
    assert whole(shown, "board").intersection(leg).area < 1e-3 * leg.area
    centre = leg.centroid
    ends = [line.end for line in on(shown, "drill")]
    for end in ends:
        assert Point(end).distance(centre) == CLOSE(block.values["leg_diameter"] / 2, rel=1e-3)
    low, left = (math.atan2(y - centre.y, x - centre.x) % (2 * math.pi) for x, y in ends)
    assert low - left == CLOSE(block.plain.angle_between, abs=1e-3)


def test_arrows_run_through_the_middle_of_the_holes():
    shown = view(draw(CornerBlock("35 mm", "41 mm")), "Along the leg")
    for line, hole in zip(on(shown, "drill"), areas(shown, "hole")):
        assert LineString([line.start, line.end]).distance(hole.centroid) == CLOSE(0, abs=1e-9)


def test_template_boards_fold_into_the_block():
    """Both boards of the sheet as solids of paper: turned up at the corner, their holes aim at one point."""
    (sheet,) = template(CornerBlock("35 mm", board_thickness="12 mm")).views
    short, long = sorted(areas(sheet, "board"), key=lambda each: each.bounds[0])
    assert short.bounds[2] - short.bounds[0] == CLOSE(35) and long.bounds[2] - long.bounds[0] == CLOSE(47)
    left, right = sorted(on(sheet, "hole"), key=lambda each: each.centre[0])
    assert short.bounds[2] - left.centre[0] == CLOSE(17.5) and right.centre[0] - long.bounds[0] == CLOSE(29.5)
    assert left.centre[1] == right.centre[1] == CLOSE((long.bounds[1] + long.bounds[3]) / 2)
    turned = rotate(Point(left.centre[0] - short.bounds[2], 0), -90, (0, 0))  # the short board stood up at the corner
    assert turned.y == CLOSE(17.5)
    corner = on(sheet, "hidden")[0].start[0]
    assert corner - long.bounds[0] == CLOSE(12) and right.centre[0] - corner == CLOSE(17.5)


def test_printed_boards(tmp_path):
    (page,) = pages(save_template(CornerBlock("35 mm"), folder=tmp_path))
    found = [tuple(each.size) for each in strokes(page)]
    for wide in (35, 47):
        assert any(size == CLOSE((wide, 70), abs=0.1) for size in found)


# The cradle -------------------------------------------------------------------------------------------------


@over_the_range
@given(sizes(Cradle))
def test_leg_rests_in_the_drawn_v(given_sizes):
    cradle = made(Cradle, given_sizes)
    assume(cradle)
    shown = view(draw(cradle), "Along the leg")
    (block,), (leg,) = areas(shown, "block"), areas(shown, "leg")
    assert block.distance(leg) < 2e-3 * cradle.values["leg_diameter"]
    assert block.intersection(leg).area < 1e-3 * leg.area
    assert block.bounds[3] == CLOSE(0)
    bottom = [y for x, y in block.exterior.coords if x == 0]
    assert bottom == CLOSE([-cradle.plain.depth])
    ways = on(shown, "knife")
    assert len(ways) == (1 if "misses" in shown.title else 2)
    for line in ways:
        assert line.start[1] == line.end[1] == cradle.values["point_height"]
        if len(ways) == 2:
            assert leg.exterior.distance(Point(line.end)) < 2e-3 * cradle.values["leg_diameter"]


def test_lines_where_the_leg_misses():
    shown = draw(Cradle("35 mm", "90 deg", "45 mm")).views[0]
    assert shown.title == "Along the leg: the point misses it"
    (way,) = on(shown, "knife")
    assert not LineString([way.start, way.end]).intersects(areas(shown, "leg")[0])


@pytest.mark.parametrize(("angle", "deep"), [(90, None), (70, "24 mm")])
def test_printed_v(tmp_path, angle, deep):
    """The V's two sides on the PDF: the angle between them to 0.1 deg, the depth to 0.1 mm."""
    cradle = Cradle("35 mm", f"{angle} deg", deep, block_height="60 mm")
    (page,) = pages(save_template(cradle, folder=tmp_path))
    wanted = (cradle.plain.mouth, cradle.plain.depth)
    printed = [each.points.round(4) for each in strokes(page) if each.size == CLOSE(wanted, abs=0.1)]
    corners = sorted({tuple(point) for point in printed[0]})
    assert len(corners) == 3
    (x1, y1), (x0, y0), (x2, y2) = corners
    opened = math.atan2(y1 - y0, x1 - x0) - math.atan2(y2 - y0, x2 - x0)
    assert math.degrees(opened) == CLOSE(angle, abs=0.1)
    assert y1 - y0 == CLOSE(float(deep.split()[0]) if deep else 17.5 * math.sqrt(2), abs=0.1)
    triangle = Polygon(corners)
    assert triangle.area == CLOSE(wanted[0] * wanted[1] / 2, rel=0.01)


@pytest.mark.parametrize(
    ("model", "layer", "side", "told"),
    [
        (Cradle("35 mm", block_height="60 mm"), "block", 0, "wide 74.0 mm or wider"),  # 49.5 + 2 x 0.35 x 35
        (CornerBlock("35 mm"), "board", 1, "70.0 mm along the leg"),  # twice the leg
    ],
    ids=["cradle", "corner block"],
)
def test_a_jig_is_drawn_as_large_as_it_tells(model, layer, side, told):
    """No size of what is sawn for it is left to guess, on the template and in the sentence how to make it."""
    (shown,) = template(model).views
    size = told.removeprefix("wide ").partition(" mm")[0]
    for piece in areas(shown, layer):
        ends = piece.bounds[side], piece.bounds[side + 2]
        assert ends[1] - ends[0] == CLOSE(float(size), abs=0.05)
    assert told in [each.text for each in shown.dimensions]
    for make in (draw, template):
        assert f"{size} mm" in make(model).use


# What is drawn everywhere -----------------------------------------------------------------------------------


@pytest.mark.parametrize("model", [STRIP, CornerBlock("35 mm", "38 mm"), Cradle("35 mm")], ids=repr)
def test_wood_shows_its_grain(model):
    """End grain shows rings where a piece is looked at along its length; boards' faces run along the leg."""
    for shown in draw(model).views:
        for shape in on(shown, "leg", Area) + on(shown, "block", Area):
            assert isinstance(shape.grain, EndGrain)
        for shape in on(shown, "board", Area):
            is_end = shown.title.startswith("Along")
            assert isinstance(shape.grain, EndGrain) if is_end else shape.grain == CLOSE(math.pi / 2)


@pytest.mark.parametrize("cls", [WrapStrip, CornerBlock, Cradle])
@pytest.mark.parametrize("unit", ["mm", "in"])
def test_use_tells_what_to_do(cls, unit):
    for model in EXAMPLES[cls]:
        for make in (draw, template):
            use = make(model, unit).use
            assert use.endswith(".") and len(use) > 200
            assert (" mm" not in use) if unit == "in" else (" in (" not in use)


def test_impossible_sizes_draw_nothing():
    with pytest.raises(ShapeError):
        draw(Cradle("35 mm", v_depth="5 mm"))
    assert edges(on(draw(Cradle("35 mm")).views[0], "leg")[0])
