"""Rim, panel and gap are drawn as the sizes make them: measured on the shapes with shapely."""

import math

import pytest
from hypothesis import assume, given, settings
from models import EXAMPLES, made, sizes
from shapely import affinity
from shapes import areas, disc, measured, on, ring, view, whole

from shoplib import PanelSeason, Rebate
from shoplib.drawing import draw, template
from shoplib.drawing.layout import lay_out

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
    section, plan = view(draw(rebate), "Section"), view(draw(rebate), "From below")
    check_section(section, at)
    assert measured(section, "wall") == pytest.approx(at["ring_width"] - at["rebate_width"])
    inside = at["inside_diameter"] / 2
    wanted = ring(inside + at["ring_width"], inside)
    assert whole(plan, "kept").symmetric_difference(wanted).area < 1e-3 * wanted.area
    (wall,) = on(plan, "joint")
    assert wall.radius == pytest.approx(inside + at["rebate_width"])
    (panel,) = areas(plan, "panel")
    assert panel.bounds[0] == pytest.approx(at["clearance"] - wall.radius)
    assert panel.bounds[2] == pytest.approx(0, abs=1e-9)


def test_corner_is_enlarged_only_where_there_is_something_to_see():
    flush = EXAMPLES[Rebate][0]
    assert len(draw(flush).views) == 2
    corner = view(draw(flush.replace(proud="-0.5 mm", clearance="1.5 mm")), "The lower corner")
    assert measured(corner, "clearance") == pytest.approx(1.5)
    assert measured(corner, "sunk") == pytest.approx(0.5)


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
    gaps = (year.plain.gap_as_made, year.plain.gap_dry, year.plain.gap_damp)
    for side, gap in zip(sides, gaps):
        check_side(side, gap, year.values["rebate_width"])
    assert len({tuple(round(edge, 6) for edge in side.bounds()) for side in sides}) == 1, "all at one scale"
    (panel,) = areas(plan, "panel")
    across, along = panel.bounds[3] - panel.bounds[1], panel.bounds[2] - panel.bounds[0]
    assert along == pytest.approx(year.values["rebate_diameter"] - 2 * year.values["clearance"])
    assert across == pytest.approx(year.plain.panel_damp)
    assert all(line.start[1] == line.end[1] for line in on(plan, "grain")), "along the unchanged diameter"


@pytest.mark.parametrize("ring_kind", ["parallel", "mitred"])
def test_plan_marks_the_wood_without_room(ring_kind):
    year = PanelSeason("420 mm", "1 mm", "Ash, white", "flat", "8 %", "6 %", "12 %", ring=ring_kind)
    plan = draw(year).views[0]
    grown = affinity.scale(disc(209), 1.0, 1 + 4 * 0.00274)
    over = grown - (disc(210) if ring_kind == "mitred" else affinity.scale(disc(210), 1.0, 1 + 4 * 0.00274))
    assert whole(plan, "clash").area == pytest.approx(over.area, rel=0.05, abs=1)
    assert bool(on(plan, "joint")) == (ring_kind == "mitred")


@pytest.mark.parametrize("rebate", EXAMPLES[Rebate], ids=repr)
def test_section_template_is_true_to_size(rebate):
    plate = lay_out(template(rebate), text=4.0, key=False, scale=1.0)
    (rim,) = [shape for shape in plate.shapes if shape.layer == "kept"]
    xs, ys = zip(*rim.points())
    assert max(xs) - min(xs) == pytest.approx(rebate.values["ring_width"])
    assert max(ys) - min(ys) == pytest.approx(rebate.values["ring_height"])
    check_section(template(rebate).views[0], rebate.values)


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
