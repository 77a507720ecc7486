"""Copes as drawn: kept wood is the rail less its legs, the gap is the drum's, and the paper wraps round the rail."""

import math

import numpy
import pytest
from hypothesis import HealthCheck, assume, given, settings
from models import EXAMPLES, made, sizes
from paper.reading import pages, strokes
from shapely import Polygon, box
from shapely.affinity import scale, translate
from shapes import areas, measured, on, together, view, whole

from shoplib import Cope, RoundCope, save_template
from shoplib.drawing import draw, template
from shoplib.drawing.coping.round_cope import BODY
from shoplib.drawing.coping.trace import BREAK, STUB
from shoplib.drawing.layout import lay_out
from shoplib.drawing.sheet import Arc, EndGrain

EXACT = 2e-3
over_the_range = settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.filter_too_much])


def cope_of(given_sizes, **fixed):
    found = made(Cope, given_sizes | fixed)
    assume(found)
    return found


def leg(cope, x=0.0):
    """A level section of the leg: an ellipse where it leans."""
    radius = cope.values["leg_diameter"] / 2
    turns = numpy.linspace(0, 2 * math.pi, 2001)[:-1]
    round_leg = Polygon([(radius * math.cos(a), radius * math.sin(a)) for a in turns])
    return translate(scale(round_leg, 1 / math.cos(cope.values["rake"]), 1, origin=(0, 0)), x, 0)


def band(cope, left, right):
    """The rail's board from above, the neighbour's side below."""
    half, offset = cope.values["rail_thickness"] / 2, cope.values["offset"]
    return box(left, -offset - half, right, -offset + half)


def same(one, other):
    return one.symmetric_difference(other).area < EXACT * max(one.area, other.area)


def middle_piece(rest, x):
    (piece,) = [each for each in getattr(rest, "geoms", [rest]) if each.bounds[0] < x < each.bounds[2]]
    return piece


@over_the_range
@given(sizes(Cope))
def test_rail_is_kept_between_the_legs(given_sizes):
    cope = cope_of(given_sizes)
    span = cope.values["leg_spacing"]
    plan = draw(cope).views[0]
    assert ("in this plane only" in plan.title) == (cope.values["rake"] != 0 and cope.values["rail_height"] is None)
    rest = band(cope, -999, span + 999) - leg(cope) - leg(cope, span)
    wanted = middle_piece(rest, span / 2)
    assert same(whole(plan, "kept"), wanted)
    blank = box(*wanted.bounds)
    assert same(together([whole(plan, "waste"), wanted]), blank)
    assert whole(plan, "waste").intersection(wanted).area < EXACT * wanted.area
    assert measured(plan, "tip to tip") == pytest.approx(wanted.bounds[2] - wanted.bounds[0], rel=1e-4)
    shown = [each for each in plan.dimensions if each.text.startswith("between the legs")]
    assert bool(shown) == (abs(cope.values["offset"]) <= cope.values["rail_thickness"] / 2)
    clear = leg(cope).distance(leg(cope, span))
    assert [math.dist(each.start, each.end) for each in shown] == pytest.approx([clear] * len(shown), rel=1e-4)


@over_the_range
@given(sizes(Cope))
def test_enlarged_end_and_its_neighbour(given_sizes):
    cope = cope_of(given_sizes)
    corner = view(draw(cope), "One ")
    kept, at = whole(corner, "kept"), leg(cope)
    assert kept.intersection(at).area < EXACT * kept.area
    assert same(kept, middle_piece(band(cope, kept.bounds[0], 0) - at, kept.bounds[0] + 1e-6))
    tips, clashes = on(corner, "gap"), areas(corner, "clash")
    if cope.values["rake"] != 0:
        assert not areas(corner, "neighbour") and not tips and not clashes
        return
    (neighbour,) = areas(corner, "neighbour")
    assert same(neighbour, Polygon([(y, x) for x, y in kept.exterior.coords]))
    both = kept.intersection(neighbour)
    assert bool(clashes) == (cope.plain.neighbour_gap == 0) != bool(tips)
    if clashes:
        assert clashes[0].symmetric_difference(both).area < EXACT * kept.area
    else:
        apart = math.dist(tips[0].end, tips[1].end)
        assert apart == pytest.approx(kept.distance(neighbour), abs=1e-2)
        assert both.area < 1e-6


@over_the_range
@given(sizes(Cope))
def test_rail_from_the_drum_touches_the_leg(given_sizes):
    cope = cope_of(given_sizes)
    assume(cope.values["drum_diameter"])
    shown = view(draw(cope), "From the drum")
    (kept,), (gap,) = areas(shown, "kept"), on(shown, "gap")
    at, gap = leg(cope), Polygon(gap.outlines[0])  # where the two touch, its outline meets itself
    assert kept.distance(at) < 0.02 and kept.intersection(at).area < EXACT * kept.area
    between = middle_piece(band(cope, kept.bounds[0], 0) - at, kept.bounds[0] + 1e-6) - kept
    assert abs(between.area - gap.area) < EXACT * kept.area


@pytest.mark.parametrize("rake", [0, 8, -5])
def test_from_the_side(rake):
    cope = Cope("35 mm", "20 mm", "360 mm", rake=f"{rake} deg", rail_height="50 mm")
    side = view(draw(cope), f"Side: rake {rake}.0 deg, in this plane only" if rake else "From the side: upright legs")
    (rail,) = areas(side, "kept")
    lean = 50 * math.tan(math.radians(rake))
    top = 360 - 2 * math.sqrt(17.5**2 - 10**2) / math.cos(math.radians(rake))
    if rake:
        assert measured(side, "top, tip to tip") == pytest.approx(top)
        assert measured(side, "bottom, tip to tip") == pytest.approx(top + 2 * lean)
    else:
        assert measured(side, "tip to tip") == pytest.approx(top)
    assert rail.area == pytest.approx(50 * (top + lean))
    posts = [Polygon(shape.outlines[0]) for shape in on(side, "leg")]
    assert [post.centroid.x < 180 for post in posts] == [True, False]
    for post in posts:
        low = [x for x, y in post.exterior.coords if y == post.bounds[1]]
        high = [x for x, y in post.exterior.coords if y == post.bounds[3]]
        outward = abs(sum(low[:2]) / 2 - 180) - abs(sum(high[:2]) / 2 - 180)
        assert math.copysign(1, outward) == math.copysign(1, rake) or rake == 0
        assert post.intersection(rail).area > 0  # the tips stand in front of the leg


@pytest.mark.parametrize("rake", ["0 deg", "9 deg"])
def test_fibres_run_along_rails_and_legs_and_end_grain_shows_rings(rake):
    cope = Cope("35 mm", "20 mm", "360 mm", rake=rake, rail_height="50 mm", drum_diameter="38 mm")
    lean = cope.values["rake"]
    for each in draw(cope).views:
        assert {shape.grain for shape in on(each, "kept")} == {0.0}
        fibres = [shape.grain for shape in on(each, "leg")]
        if each.title.startswith(("From the side", "Side")):
            assert fibres == pytest.approx([math.pi / 2 - lean, math.pi / 2 + lean])
        else:
            assert fibres and all(isinstance(grain, EndGrain) for grain in fibres)
    rail, strip = (on(each, "kept")[0] for each in draw(RoundCope("35 mm", "19 mm", "60 deg")).views[::2])
    (post,) = on(draw(RoundCope("35 mm", "19 mm", "60 deg")).views[0], "leg")
    assert (rail.grain, strip.grain, post.grain) == pytest.approx((0.0, math.pi / 2, math.radians(60)))


TRACES = [*EXAMPLES[Cope], Cope("60 mm", "40 mm", "500 mm", offset="8 mm", rake="-7 deg", rail_height="80 mm")]


@pytest.mark.parametrize("cope", TRACES, ids=repr)
def test_trace_is_true_to_size(cope):
    """Both ends on the full-size plate, against a rail cut with shapely: true to 0.1 mm, and twins of each other."""
    thickness, offset = cope.values["rail_thickness"], cope.values["offset"]
    plate = lay_out(template(cope), text=3.4, key=False, scale=1.0)
    kept = [Polygon([(x, -y) for x, y in shape.outlines[0]]) for shape in plate.shapes if shape.layer == "kept"]
    tall = cope.values["rail_height"]
    assert len(kept) == (4 if tall else 2)
    right, left = kept[0], kept[len(kept) // 2]
    rest = middle_piece(band(cope, -999, 0) - leg(cope), -900)
    wanted = rest.intersection(box(rest.bounds[2] - cope.plain.depth - STUB, -999, 0, 999))
    wanted = translate(wanted, right.bounds[2] - wanted.bounds[2], right.bounds[1] - wanted.bounds[1])
    assert right.hausdorff_distance(wanted) < 0.1
    mirrored = scale(right, -1, 1, origin=(0, 0))
    mirrored = translate(mirrored, left.bounds[0] - mirrored.bounds[0], 0)
    assert left.hausdorff_distance(mirrored) < 1e-6
    assert right.bounds[0] - left.bounds[2] == pytest.approx(BREAK, abs=1e-6)
    assert right.bounds[3] - right.bounds[1] == pytest.approx(thickness)
    if tall:
        _check_side(kept[1], right, tall, cope.values["rake"], below=offset >= 0)


def _check_side(side, top, tall, rake, below):
    """The side hangs on the edge with the longest tip; its end leans by the rake."""
    fold, foot = (top.bounds[1], top.bounds[1] - tall) if below else (top.bounds[3], top.bounds[3] + tall)
    assert (side.bounds[1], side.bounds[3]) == pytest.approx(tuple(sorted((fold, foot))))
    ends = [max(x for x, y in side.exterior.coords if abs(y - height) < 1e-6) for height in (fold, foot)]
    assert ends[0] == pytest.approx(top.bounds[2])
    assert max(x for x, y in top.exterior.coords if abs(y - fold) < 1e-6) == pytest.approx(top.bounds[2])
    assert ends[1] - ends[0] == pytest.approx(tall * math.tan(rake))


# Round rails ------------------------------------------------------------------------------------------------

WRAPS = [
    *EXAMPLES[RoundCope], RoundCope("120 mm", "100 mm", "45 deg"), RoundCope("20 mm", "6 mm", "75 deg", offset="-6 mm"),
    RoundCope("35 mm", "20 mm", "90 deg", offset="7.4 mm"),
]  # fmt: skip


def on_the_leg(cope, around, along):
    """How far from the leg's axis a point of the wrap comes to lie when the paper is rolled round the rail.

    The rail is laid along z with its 0 line on +x and its 90 line to the right, seen along +z: on -y.
    """
    radius, offset, angle = (cope.values[name] for name in ("rail_diameter", "offset", "angle"))
    turn = around / (radius / 2)
    point = numpy.array([radius / 2 * math.cos(turn), -offset - radius / 2 * math.sin(turn), along])
    axis = numpy.array([math.sin(angle), 0, math.cos(angle)])  # the leg runs up towards the 0 line's side
    return numpy.linalg.norm(point - (point @ axis) * axis)


@pytest.mark.parametrize("cope", WRAPS, ids=repr)
def test_wrap_rolls_on_to_the_leg(cope):
    """Every corner of the full-size curve, and every middle between two, lies on the leg's skin to 0.1 mm."""
    plate = lay_out(template(cope), text=3.4, key=False, scale=1.0)
    (strip,) = [shape.outlines[0] for shape in plate.shapes if shape.layer == "kept"]
    *curve, corner, start = strip
    around = math.pi * cope.values["rail_diameter"]
    assert corner[0] - start[0] == pytest.approx(around, abs=1e-6)
    highest = min(y for _, y in curve)
    assert start[1] - max(y for _, y in curve) == pytest.approx(BODY, abs=0.1)
    points = [(x - start[0], highest - y - cope.plain.tip_reach) for x, y in curve]
    middles = [((x1 + x2) / 2, (y1 + y2) / 2) for (x1, y1), (x2, y2) in zip(points, points[1:])]
    for x, y in points + middles:
        assert on_the_leg(cope, x, y) == pytest.approx(cope.values["leg_diameter"] / 2, abs=0.1)
    lines = sorted({round(line.start[0] - start[0], 6) for line in plate.shapes if line.layer == "centre"})
    assert lines == pytest.approx([around * k / 4 for k in range(5)], abs=1e-5)


def test_printed_wrap_goes_once_round(tmp_path):
    """The strip on the PDF, between its first and its last line: pi times 19 mm, and the saddle's depth, to 0.1 mm."""
    cope = RoundCope("35 mm", "19 mm", "60 deg", offset="3 mm")
    (page,) = pages(save_template(cope, folder=tmp_path))
    around, tall = math.pi * 19, cope.plain.saddle_depth + BODY
    assert any(each.size == pytest.approx((around, tall), abs=0.1) for each in strokes(page))


def test_printed_trace_is_as_deep_as_the_cope(tmp_path):
    cope = Cope("35 mm", "20 mm", "360 mm")
    (page,) = pages(save_template(cope, folder=tmp_path))
    hollows = [each for each in strokes(page) if each.size == pytest.approx((cope.plain.depth, 20), abs=0.1)]
    assert len({round(each.middle[0]) for each in hollows}) == 2


@pytest.mark.parametrize("cope", WRAPS, ids=repr)
def test_tab_goes_under_the_beginning(cope):
    """The tab's edge is the strip's own beginning again, one turn further on."""
    sheet = template(cope)
    (tab,), (strip,) = on(sheet.views[0], "hidden"), areas(sheet.views[0], "kept")
    around = math.pi * cope.values["rail_diameter"]
    under = translate(Polygon(tab.outlines[0]), -around, 0)
    assert strip.buffer(0.1).covers(under)
    assert under.bounds[0] == pytest.approx(0, abs=1e-6) and under.bounds[2] > min(10, 0.15 * around)


@pytest.mark.parametrize("cope", WRAPS, ids=repr)
def test_round_rail_from_the_side_and_down_the_leg(cope):
    sheet = draw(cope)
    down = view(sheet, "Down the leg")
    (rail,) = areas(down, "kept")
    (post,) = on(down, "leg")
    (at,) = areas(down, "leg")
    assert at.bounds[2] - at.bounds[0] == pytest.approx(cope.values["leg_diameter"])
    assert rail.intersection(at).area < EXACT * rail.area and rail.distance(at) < 0.02
    half, middle = cope.values["rail_diameter"] / 2, -cope.values["offset"]
    assert (rail.bounds[1], rail.bounds[3]) == pytest.approx((middle - half, middle + half))
    flat = view(sheet, "Wrap laid flat")
    kept, waste = whole(flat, "kept"), whole(flat, "waste")
    assert kept.intersection(waste).area < EXACT * kept.area
    assert together([kept, waste]).area == pytest.approx(box(*kept.bounds).area, rel=1e-4)
    dimension = next(each for each in flat.dimensions if each.text.startswith("saddle"))
    assert abs(dimension.start[1] - dimension.end[1]) == pytest.approx(cope.plain.saddle_depth)
    for quarter in (1, 2, 3, 4):
        share = measured(flat, f"0 to {90 * quarter} line")
        assert share == pytest.approx(math.pi * cope.values["rail_diameter"] * quarter / 4)


@pytest.mark.parametrize("cope", WRAPS, ids=repr)
def test_round_rail_laid_level_beside_its_leaning_leg(cope):
    """The leg's outline leans by the angle; every point of the rail's end lies on that leg's skin in space."""
    side = view(draw(cope), f"From the side, rail laid level: {math.degrees(cope.values['angle']):.1f} deg")
    (post,), (rail,) = on(side, "leg"), areas(side, "kept")
    (x1, z1), (x2, z2) = post.outlines[0][:2]
    assert math.atan2(z2 - z1, x2 - x1) == pytest.approx(cope.values["angle"])
    radius, turned_up = cope.values["leg_diameter"] / 2, cope.values["angle"]
    axis = numpy.array([math.cos(turned_up), 0.0, math.sin(turned_up)])
    for k, (x, z) in enumerate(on(side, "kept")[0].outlines[0][:49]):
        turn = math.pi * k / 48
        assert z == pytest.approx(cope.values["rail_diameter"] / 2 * math.cos(turn))
        point = numpy.array([x, cope.values["offset"] + cope.values["rail_diameter"] / 2 * math.sin(turn), z])
        assert numpy.linalg.norm(point - (point @ axis) * axis) == pytest.approx(radius)
    assert rail.bounds[3] - rail.bounds[1] == pytest.approx(cope.values["rail_diameter"])
    reach = next(each for each in side.dimensions if each.text.startswith("centre to longest tip"))
    assert reach.end == (0, 0) and reach.start[0] == pytest.approx(-cope.plain.tip_reach)
    arcs = [shape for shape in side.shapes if isinstance(shape, Arc)]
    turns = sorted(shape.end for shape in arcs)
    assert turns == pytest.approx([math.pi, math.pi + cope.values["angle"]])


# What the paper says by itself ------------------------------------------------------------------------------


def notes(sheet):
    return [note.text for note in sheet.views[0].notes]


@pytest.mark.parametrize(("offset", "longest", "other"), [
    ("4 mm", "inner", "outer side, show face"), ("-4 mm", "outer", "inner side"),
    ("0 mm", "inner", "outer side, show face"),
])  # fmt: skip
@pytest.mark.parametrize("rake", ["0 deg", "5 deg"])
def test_trace_says_which_end_which_edge_and_which_side(offset, longest, other, rake):
    cope = Cope("42 mm", "20 mm", "360 mm", offset=offset, rake=rake, rail_height="50 mm")
    sheet = template(cope)
    for end in ("left", "right"):
        assert f"{end} end, leg no. ___:\ntop edge, 20.0 mm thick" in notes(sheet)
        assert f"{end} end:\n{longest} side, 50 mm high" in notes(sheet)
    assert {"fold here", other} <= set(notes(sheet))
    assert f"named fold here, over the {longest} side, which has the longest tips" in sheet.use
    assert ("still square" in sheet.use) == (rake != "0 deg")
    fold = next(note.at[1] for note in sheet.views[0].notes if note.text == "fold here")
    assert fold == pytest.approx((-1 if longest == "inner" else 1) * 10 - cope.values["offset"])


def test_trace_without_the_height_has_no_fold():
    sheet = template(Cope("42 mm", "20 mm", "360 mm", offset="-4 mm"))
    assert not any("fold" in text for text in notes(sheet)) and "fold" not in sheet.use
    assert {"inner side", "outer side, show face"} <= set(notes(sheet))
    assert "the outer side at its own edge" in sheet.use


@pytest.mark.parametrize(("more", "said", "unsaid"), [
    ({}, ["Saw the rail square", "drum upright", "in line with the drum's centre"], ["set it anew", "rake"]),
    ({"offset": "4 mm"}, ["4.0 mm beside", "inner side, towards the neighbouring rails, keeps", "set it anew"], ["-"]),
    ({"offset": "-4 mm"}, ["4.0 mm beside", "outer side keeps the longest tips", "set it anew"], ["-4", "inner"]),
    ({"rake": "5 deg"}, ["square, as long as the bottom edge", "trace, then saw"], ["upright"]),
    ({"rake": "5 deg", "offset": "4 mm"}, ["its top towards the rail", "4.0 mm beside"], ["upright"]),
    ({"rake": "-5 deg"}, ["as long as the top edge", "its top away from the rail"], ["upright"]),
])  # fmt: skip
def test_card_says_how_the_ends_are_made(more, said, unsaid):
    """Positive: the rail lies towards its neighbour, so its inner side lies further off the legs' centre line."""
    use = draw(Cope("42 mm", "20 mm", "360 mm", rail_height="50 mm", **more)).use
    assert all(words in use for words in said) and not any(words in use for words in unsaid)


def test_card_of_a_spread_rail_without_its_height_tells_how_to_find_the_blank():
    """The bottom edge is longer by 2 h tan(rake), which the top edge alone does not tell."""
    use = draw(Cope("42 mm", "20 mm", "360 mm", rake="5 deg")).use
    assert "longer than the top edge, tip to tip, by twice the rail's height times the tangent" in use
    assert "as long as the top edge" in draw(Cope("42 mm", "20 mm", "360 mm", rake="-5 deg")).use


def test_round_card_and_wrap_say_how():
    cope = RoundCope("1 1/2 in", "3/4 in", "60 deg")  # pi 0.75/4 = 0.589; sqrt(0.75^2 - 0.375^2) = 0.650
    use = draw(cope, "in").use
    assert "each 19/32 in (0.589) on round it" in use and "less 21/32 in (0.650) at each end" in use
    assert "ink outside, curve towards the leg" in template(cope).use
