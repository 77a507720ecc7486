"""The drawn screw, seat, panel and strip have the sizes told; wood runs the way its fibres run."""

import math

import pytest
from hypothesis import given, settings
from models import EXAMPLES
from paper.reading import pages, strokes
from possible_screws import possible_screws
from shapely import Point
from shapes import areas, measured, on, view

from shoplib import PanelScrew, draw, save_template, template
from shoplib.drawing.screws import OUT, RIM, UPRIGHT
from shoplib.drawing.sheet import Area, Circle, EndGrain
from shoplib.model import length_in_full

DEMO = EXAMPLES[PanelScrew][0]
over_the_range = settings(max_examples=40, deadline=None)


def section(screw):
    return view(draw(screw), "Section")


@given(given_sizes=possible_screws())
@over_the_range
def test_section_has_the_sizes_told(given_sizes):
    """The screw's own outline is measured against rail and panel: what holds, what covers, what it hangs on."""
    screw = PanelScrew(**given_sizes).plain
    cut = section(screw)
    (panel,), rail = areas(cut, "panel"), areas(cut, "rail")
    head, shaft = areas(cut, "screw")
    seat = -screw.web
    assert shaft.bounds[3] == pytest.approx(screw.grip)
    assert panel.bounds[3] - shaft.bounds[3] == pytest.approx(screw.cover)
    assert shaft.bounds[3] - head.bounds[3] == pytest.approx(screw.screw_length)
    under = areas(cut, "washer")[0] if screw.washer_thickness else head
    across = screw.head if screw.washer_thickness else screw.head_diameter
    assert under.bounds[3] == pytest.approx(seat) and under.bounds[2] - under.bounds[0] == pytest.approx(across)
    left, right = sorted(rail, key=lambda part: part.bounds[0])
    assert right.bounds[1] == pytest.approx(-screw.rail_height)
    above = [part.intersection(Point(0, seat / 2).buffer(abs(seat) / 4).envelope) for part in (left, right)]
    half = screw.hole_diameter / 2
    assert all(part.is_empty or min(abs(part.bounds[0]), abs(part.bounds[2])) == pytest.approx(half) for part in above)
    assert left.intersection(shaft).area == pytest.approx(0, abs=1e-6) == right.intersection(shaft).area
    for name in ("wood left", "thread", "above the tip"):
        wanted = {"wood left": screw.web, "thread": screw.grip, "above the tip": screw.cover}[name]
        assert measured(cut, name) == pytest.approx(wanted)


@given(given_sizes=possible_screws())
@over_the_range
def test_seat_shows_where_the_seasons_carry_the_screw(given_sizes):
    screw = PanelScrew(**given_sizes).plain
    seat = view(draw(screw), "Seat")
    (dry,), (damp,), (shank,) = (on(seat, layer, Circle) for layer in ("dry", "damp", "screw"))
    bore, hole = (each.radius for each in on(seat, "slide_hole", Circle))
    assert (dry.centre[0], damp.centre[0]) == pytest.approx((screw.move_dry, screw.move_damp))
    assert dry.radius == damp.radius == shank.radius == screw.shank_diameter / 2
    assert 2 * hole == pytest.approx(screw.hole_diameter)
    assert bore - screw.head / 2 == pytest.approx(hole - shank.radius), "the head travels as far as the shank"
    least = min(hole - abs(each.centre[0]) - each.radius for each in (dry, damp))
    assert least == pytest.approx(screw.spare)
    (wood,) = areas(seat, "rail")
    assert wood.bounds[3] - wood.bounds[1] == pytest.approx(screw.rail_thickness)
    assert wood.bounds[3] - bore == pytest.approx(screw.counterbore_wall)
    (wall,) = (each for each in seat.notes if each.text.startswith("wall"))
    assert wood.contains(Point(wall.at)) and bore < wall.at[1], "it points at the wood beside the counterbore"
    assert wall.text == f"wall\n{length_in_full(screw.counterbore_wall)}"


@given(given_sizes=possible_screws())
@over_the_range
def test_panel_moves_over_the_rails_across_its_grain_only_there_is_it_screwed(given_sizes):
    screw = PanelScrew(**given_sizes).plain
    plan = view(draw(screw), "The panel")
    carry, *_ = rails = on(plan, "rail", Area)
    assert [each.grain for each in rails] == [UPRIGHT, UPRIGHT, 0.0, 0.0] and carry.grain == UPRIGHT
    (panel,) = on(plan, "panel", Area)
    assert panel.grain == UPRIGHT and panel.outlines[0].radius == pytest.approx(RIM * _far(screw))
    fast = on(plan, "fast", Circle)
    assert sorted(each.centre for each in fast) == [(0, -OUT * _far(screw)), (0, OUT * _far(screw))]
    sliding = on(plan, "screw", Circle)
    assert len(sliding) == (4 if screw.from_fixed else 0)
    assert all(abs(each.centre[0]) == pytest.approx(screw.from_fixed) for each in sliding)
    across = [shape for shape, rail in zip(areas(plan, "rail"), rails) if rail.grain == 0.0]
    assert all(any(rail.contains(Point(each.centre)) for rail in across) for each in (*fast, *sliding))
    spots = on(plan, "glue", Circle)
    assert {each.centre for each in spots} == {(0, -RIM * _far(screw)), (0, RIM * _far(screw))}, "on the centre line"


def _far(screw):
    return max(screw.from_fixed, 2 * screw.rail_thickness)


@pytest.mark.parametrize("cut", ["flat", "quarter"])
def test_rings_lie_or_stand_in_the_panel_as_it_is_cut(cut):
    """In the middle of the panel a ring runs level in flat-sawn wood and upright in quarter-sawn."""
    (panel,) = on(section(DEMO.replace(cut=cut)), "panel", Area)
    assert isinstance(panel.grain, EndGrain)
    x, y = panel.grain.pith
    steep = abs(math.degrees(math.atan2(6.0 - y, 0.0 - x)))  # pith to the panel's middle; a ring runs square to it
    assert steep > 80 if cut == "flat" else steep < 10
    assert all(each.grain == 0.0 for each in on(section(DEMO), "rail", Area))


@pytest.mark.parametrize("screw", EXAMPLES[PanelScrew], ids=["mm", "in", "alone", "thick"])
def test_strip_is_true_on_paper(screw, tmp_path):
    """The screw places and counterbores, measured on the PDF's own lines."""
    plain = screw.plain
    strip = template(screw).views[0]
    places = sorted(each.centre[0] for each in on(strip, "prick", Circle))
    assert places == pytest.approx([-plain.from_fixed, 0, plain.from_fixed] if plain.from_fixed else [0])
    assert all(2 * each.radius == pytest.approx(plain.counterbore_diameter) for each in on(strip, "seat", Circle))
    assert [2 * each.radius for each in on(strip, "fast_hole", Circle)] == pytest.approx([plain.shank_diameter])
    (wood,) = areas(strip, "rail")
    assert wood.bounds[3] - wood.bounds[1] == pytest.approx(plain.rail_thickness)
    assert all(wood.contains(Point(each.centre).buffer(each.radius)) for each in on(strip, "seat", Circle))
    for page in pages(save_template(screw, folder=tmp_path)):
        seats = [each.middle for each in strokes(page)
                 if each.bends and each.size == pytest.approx((plain.counterbore_diameter,) * 2, abs=0.05)]  # fmt: skip
        apart = [math.dist(one, other) for one, other in zip(sorted(map(tuple, seats)), sorted(map(tuple, seats))[1:])]
        assert apart == pytest.approx([plain.from_fixed] * (len(places) - 1), abs=0.05)


@pytest.mark.parametrize(("changed", "lead"), [
    ({}, "drill the lead hole, 2.0 mm wide and 6.0 mm deep"), ({"lead_short": "0 mm"}, "2.0 mm wide and 8.0 mm deep"),
    ({"species": "Cherry, black"}, "prick a starter hole with an awl"),
    ({"screw_length": "34 mm"}, "prick a starter hole with an awl"),
])  # fmt: skip
def test_use_names_the_drills(changed, lead):
    """The hole that slides and the fast one; the lead hole only where one is drilled."""
    for unit, hole, shank in (("mm", "6.0 mm", "4.0 mm"), ("in", "15/64 in (0.236)", "5/32 in (0.157)")):
        use = draw(DEMO.replace(**changed), unit).use
        assert f"right through: {hole} where the screw slides, only as wide as the shank, {shank}, where" in use
    assert lead in draw(DEMO.replace(**changed)).use


def test_words_of_the_seasons_follow_the_sign():
    notes = {text.partition(" season")[0]: text for text in (each.text for each in view(draw(DEMO), "Seat").notes)}
    assert notes["damp"].endswith("0.82 mm outward") and notes["dry"].endswith("0.41 mm inward")
    still = DEMO.replace(from_fixed="0 mm")
    assert [each.text.endswith("0.00 mm, stays") for each in view(draw(still), "Seat").notes].count(True) == 2
