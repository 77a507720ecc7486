"""Rim, panel and gap are drawn as the sizes make them: measured on the shapes with shapely."""

import math

import pytest
from hypothesis import assume, given, settings
from models import EXAMPLES, made, sizes, value
from shapely import affinity
from shapes import areas, disc, measured, on, polygon, ring, view, whole

from shoplib import PanelSeason, Rebate
from shoplib.drawing import draw, template
from shoplib.drawing.layout import lay_out
from shoplib.drawing.sheet import EndGrain

over_the_range = settings(max_examples=80, deadline=None)
HAIR = 1e-6


def check_section(section, sizes):
    """Rim and panel from the declared sizes alone: nothing in one place twice, a gap just where it is left."""
    (rim,), (panel,) = areas(section, "kept"), areas(section, "panel")
    width, height = sizes["ring_width"], sizes["ring_height"]
    depth = sizes["panel_thickness"] - sizes["proud"]
    assert rim.bounds == pytest.approx((0, 0, width, height))
    assert rim.area == pytest.approx(width * height - depth * sizes["rebate_width"])
    assert panel.bounds[1] == pytest.approx(-sizes["proud"]) and panel.bounds[3] == pytest.approx(depth)
    assert panel.bounds[2] == pytest.approx(sizes["rebate_width"] - sizes["clearance"])
    assert panel.bounds[0] < 0 < panel.bounds[2], "comes from the middle and rests on the lip"
    assert rim.intersection(panel).area < HAIR
    gap = whole(section, "gap")
    assert gap.area == pytest.approx(depth * sizes["clearance"], abs=HAIR)
    assert gap.intersection(rim.union(panel)).area < HAIR


@over_the_range
@given(sizes(Rebate))
def test_section_and_plan_of_a_rebate(given_sizes):
    rebate = made(Rebate, given_sizes)
    assume(rebate)
    at = rebate.values
    section, plan = view(draw(rebate), "Section"), view(draw(rebate), "Underside up")
    check_section(section, at)
    assert measured(section, "wall") == pytest.approx(at["ring_width"] - at["rebate_width"])
    inside = at["inside_diameter"] / 2
    wanted = ring(inside + at["ring_width"], inside)
    sagitta = (inside + at["ring_width"]) * (1 - math.cos(math.radians(2.5)))
    assert whole(plan, "stave").symmetric_difference(wanted).buffer(-1.01 * sagitta).is_empty
    check_grain_follows_the_rim(plan)
    (wall,) = on(plan, "joint")
    assert wall.radius == pytest.approx(inside + at["rebate_width"])
    (panel,) = areas(plan, "panel")
    assert panel.bounds[0] == pytest.approx(at["clearance"] - wall.radius)
    assert panel.bounds[2] == pytest.approx(0, abs=1e-9)


def check_grain_follows_the_rim(plan):
    """Each stave's fibres run square to the line from the ring's centre to the stave's middle."""
    for stave in on(plan, "stave"):
        x, y = polygon(stave).centroid.coords[0]
        along = math.cos(stave.grain), math.sin(stave.grain)
        assert abs(x * along[0] + y * along[1]) < 1e-6 * math.hypot(x, y)


@over_the_range
@given(sizes(Rebate))
def test_cutter_touches_the_wall_and_the_floor(given_sizes):
    """In the plan and in the cut: its far edge at the wall, its end at the floor, the bearing on the inside wall."""
    rebate = made(Rebate, given_sizes)
    assume(rebate)
    at, sheet = rebate.values, draw(rebate)
    shown = [each for each in sheet.views if each.title.startswith("The cut")]
    across = at["cutter_diameter"]
    if across is None or value(rebate.plain, at["guide"]) is None:
        assert not shown and not on(view(sheet, "Underside up"), "cutter")
        return
    (cut,), plan = shown, view(sheet, "Underside up")
    (tool,), (rim,) = areas(cut, "cutter"), areas(cut, "kept")
    low, _, high = tool.bounds[0], tool.bounds[1], tool.bounds[2]
    assert (low, high) == pytest.approx((at["rebate_width"] - across, at["rebate_width"]), abs=HAIR)
    assert tool.bounds[1] == pytest.approx(at["proud"] - at["panel_thickness"])
    assert tool.intersection(rim).area < HAIR and tool.distance(rim) < HAIR
    (swung,) = on(plan, "cutter")
    assert swung.centre[0] + swung.radius == pytest.approx(at["inside_diameter"] / 2 + at["rebate_width"])
    assert 2 * swung.radius == pytest.approx(across)
    if at["guide"] == "pivot":
        assert measured(plan, "pivot") == pytest.approx(swung.centre[0])
        assert whole(cut, "waste").intersection(tool.union(rim)).area < HAIR
        assert {note.text.split()[1] for note in cut.notes} == {"centre", "far", "to"}
        return
    (bearing,) = on(plan, "bearing")
    assert bearing.centre[0] + bearing.radius == pytest.approx(at["inside_diameter"] / 2)
    (rolls,) = areas(cut, "bearing")
    assert rolls.intersection(rim).area < HAIR and rolls.distance(rim) < HAIR
    assert measured(cut, "bearing") == pytest.approx(2 * bearing.radius)
    assert 2 * bearing.radius == pytest.approx(across - 2 * at["rebate_width"])


@pytest.mark.parametrize("guide, cutter", [("pivot", "12 mm"), ("bearing", "32 mm")])
def test_feed_runs_clockwise_inside_the_ring(guide, cutter):
    """Seen on the side that lies up, with the kept wall on the left hand of the feed (common practice)."""
    tray = Rebate("400 mm", "20 mm", "40 mm", "12 mm", "10 mm", cutter_diameter=cutter, guide=guide)
    plan = view(draw(tray), "Underside up")
    (feed,) = on(plan, "feed")
    assert feed.arrow and feed.end < feed.start
    assert bool(on(plan, "pivot")) == (guide == "pivot")


@pytest.mark.parametrize("rebate", EXAMPLES[Rebate], ids=repr)
def test_wood_cut_across_its_fibres_shows_its_rings(rebate):
    for each in draw(rebate).views:
        if not each.title.startswith("Underside"):
            for shape in on(each, "kept") + on(each, "panel"):
                assert isinstance(shape.grain, EndGrain)


def test_corner_is_enlarged_only_where_there_is_something_to_see():
    flush = EXAMPLES[Rebate][0]
    assert len(draw(flush).views) == 2
    corner = view(draw(flush.replace(proud="-0.5 mm", clearance="1.5 mm")), "Lower corner")
    assert measured(corner, "clearance") == pytest.approx(1.5)
    (sunk,) = corner.notes
    assert sunk.text == "sunk\n0.5 mm" and 0 < sunk.at[1] < 0.5
    (panel,), (level,) = areas(corner, "panel"), on(corner, "hidden")
    assert panel.bounds[1] - level.start[1] == pytest.approx(0.5)


def check_side(side, gap, lip):
    """The wall stands at nought in every season, the panel's edge where the gap leaves it."""
    (rim,), (panel,) = areas(side, "kept"), areas(side, "panel")
    assert panel.bounds[2] == pytest.approx(min(-gap, 0), abs=HAIR)
    assert rim.bounds[0] == pytest.approx(-(lip or 0))
    assert rim.intersection(panel).area < HAIR
    clash = whole(side, "clash")
    if gap < 0:
        assert clash.bounds[2] == pytest.approx(-gap) and clash.bounds[0] == pytest.approx(0)
        assert rim.intersection(clash).area == pytest.approx(clash.area), "the panel would stand in the ring's wood"
        assert measured(side, "too large") == pytest.approx(-gap)
    else:
        assert clash.is_empty
        assert measured(side, "gap") == pytest.approx(gap, abs=HAIR)


@over_the_range
@given(sizes(PanelSeason))
def test_three_seasons_of_a_panel(given_sizes):
    year = made(PanelSeason, given_sizes)
    assume(year)
    plan, *sides = draw(year).views
    every = list(sides)
    if year.values["rebate_width"] is not None:
        check_lap(sides.pop(), year.values, year.plain)
    gaps = (year.plain.gap_as_made, year.plain.gap_dry, year.plain.gap_damp)
    for side, gap in zip(sides, gaps):
        check_side(side, gap, year.values["rebate_width"])
    assert len({tuple(round(edge, 6) for edge in side.bounds()) for side in every}) == 1, "all at one scale"
    (panel,) = areas(plan, "panel")
    across, along = panel.bounds[3] - panel.bounds[1], panel.bounds[2] - panel.bounds[0]
    assert along == pytest.approx(year.values["rebate_diameter"] - 2 * year.values["clearance"])
    assert across == pytest.approx(year.plain.panel_damp)
    assert [shape.grain for shape in on(plan, "panel")] == [0.0], "along the unchanged diameter"


def check_lap(side, at, year):
    """Slid away from this wall the dry panel has both gaps on one side; the dimension runs to the ring's inside."""
    (rim,), (panel,) = areas(side, "kept"), areas(side, "panel")
    gap = at["rebate_diameter"] * (1 + year.ring_growth_dry) - (
        at["rebate_diameter"] - 2 * at["clearance"]
    ) * (1 + year.growth_dry)
    assert panel.bounds[2] == pytest.approx(min(-gap, 0.0), abs=HAIR)
    (lap,) = side.dimensions
    assert lap.text.startswith("lap" if at["rebate_width"] > gap else "out by")
    assert math.dist(lap.start, lap.end) == pytest.approx(abs(at["rebate_width"] - gap), abs=HAIR)
    assert lap.start[0] == pytest.approx(rim.bounds[0])


@pytest.mark.parametrize("cut, upright", [("flat", False), ("quarter", True)])
def test_growth_rings_lie_as_the_board_was_cut(cut, upright):
    """Rings run square to the line from the pith: along a flat-cut panel's width, upright in a quarter-cut one."""
    year = PanelSeason("420 mm", "1 mm", "Ash, white", cut, "8 %", "6 %", "12 %")
    for side in draw(year).views[1:]:
        (panel,) = on(side, "panel")
        middle = polygon(panel).centroid
        x, y = middle.x - panel.grain.pith[0], middle.y - panel.grain.pith[1]
        assert (abs(x) > 3 * abs(y)) == upright and (abs(y) > 3 * abs(x)) != upright


@pytest.mark.parametrize("ring_kind", ["parallel", "mitred"])
def test_plan_marks_the_wood_without_room(ring_kind):
    year = PanelSeason("420 mm", "1 mm", "Ash, white", "flat", "8 %", "6 %", "12 %", ring=ring_kind)
    plan = draw(year).views[0]
    grown = affinity.scale(disc(209), 1.0, 1 + 4 * 0.00274)
    over = grown - (disc(210) if ring_kind == "mitred" else affinity.scale(disc(210), 1.0, 1 + 4 * 0.00274))
    assert whole(plan, "clash").area == pytest.approx(over.area, rel=0.05, abs=1)
    assert bool(on(plan, "stave")) == (ring_kind == "mitred")
    if ring_kind == "mitred":
        check_grain_follows_the_rim(plan)
    else:
        assert [shape.grain for shape in on(plan, "kept")] == [0.0]


@pytest.mark.parametrize("rebate", EXAMPLES[Rebate], ids=repr)
def test_section_template_is_true_to_size(rebate):
    plate = lay_out(template(rebate), text=4.0, key=False, scale=1.0)
    (rim,) = [shape for shape in plate.shapes if shape.layer == "kept"]
    xs, ys = zip(*rim.points())
    assert max(xs) - min(xs) == pytest.approx(rebate.values["ring_width"])
    assert max(ys) - min(ys) == pytest.approx(rebate.values["ring_height"])
    check_section(template(rebate).views[0], rebate.values)


@pytest.mark.parametrize("model", [EXAMPLES[Rebate][0], EXAMPLES[PanelSeason][0]], ids=repr)
@pytest.mark.parametrize("unit", ["mm", "in"])
def test_templates_say_how_they_are_used_and_what_is_what(model, unit):
    sheet = template(model, unit)
    words = sheet.use + " ".join(note.text for note in sheet.views[0].notes)
    wanted = ("show face", "underside", "kept") if isinstance(model, Rebate) else ("wall", "across its grain", "gap")
    assert all(each in words for each in wanted)


@pytest.mark.parametrize("year", EXAMPLES[PanelSeason], ids=repr)
def test_gap_gauge_is_true_to_size(year):
    plate = lay_out(template(year), text=4.0, key=False, scale=1.0)
    (wall,) = [shape for shape in plate.shapes if shape.layer == "joint"]
    strips = [shape for shape in plate.shapes if shape.layer == "panel"]
    edges = [wall.start[0] - max(x for x, _ in strip.points()) for strip in strips]
    gaps = (year.plain.gap_as_made, year.plain.gap_dry, year.plain.gap_damp)
    assert edges == pytest.approx([max(gap, 0.0) for gap in gaps], abs=HAIR)
    clashes = [shape for shape in plate.shapes if shape.layer == "clash"]
    wide = [math.dist(shape.points()[0], shape.points()[1]) for shape in clashes]
    assert wide == pytest.approx([-gap for gap in gaps if gap < 0])
