"""The drawn leg, hole and stand have the sizes told, and the tipping stand stands over its contact."""

import math

import numpy
import pytest
from hypothesis import given, settings
from models import drawn, sizes
from shapes import areas, measured, on, view

from shoplib import CasterLeg, Rolling, draw, template
from shoplib.drawing.sheet import Area, Circle, EndGrain, Line

LEG = CasterLeg("35 mm", "11 mm", "22 mm", "50 mm", "360 mm", "720 mm", centre_error="0.5 mm")
STAND = Rolling("24 kg", "420 mm", "180 mm", "360 mm", "360 mm", "430 mm", trail="20 mm")
over_the_range = settings(max_examples=40, deadline=None)


@given(given=sizes(CasterLeg))
@over_the_range
def test_hole_in_the_leg_leaves_the_wall_told(given):
    leg = drawn(CasterLeg, given)
    section = view(draw(leg), "The foot")
    (wood,), (hole,) = areas(section, "leg"), areas(section, "hole")
    assert measured(section, "stem") == pytest.approx(leg.stem_length)
    assert measured(section, "wall") == pytest.approx(leg.wall)
    assert wood.bounds[2] - hole.bounds[2] == pytest.approx(leg.wall)
    assert hole.bounds[2] - hole.bounds[0] == pytest.approx(leg.hole_diameter)
    assert hole.bounds[3] - wood.bounds[1] == pytest.approx(leg.hole_depth)


@given(given=sizes(CasterLeg))
@over_the_range
def test_caster_is_measured_from_the_floor_and_its_stem_from_the_collar(given):
    leg = drawn(CasterLeg, given)
    alone = view(draw(leg), "The caster")
    stem, collar = areas(alone, "metal")
    (wheel,), (floor,) = on(alone, "metal", Circle), on(alone, "floor", Line)
    assert wheel.centre[1] - wheel.radius == pytest.approx(floor.start[1]) == pytest.approx(-leg.caster_height)
    assert stem.bounds[1] == collar.bounds[3] == 0
    assert stem.bounds[3] == pytest.approx(leg.stem_length)
    (height,) = [each for each in alone.dimensions if each.text.startswith("height")]
    assert abs(height.end[1] - height.start[1]) == pytest.approx(leg.caster_height)


def test_no_dimension_runs_through_the_wheel():
    """Extension lines of the foot's sizes go down where there is no wheel."""
    assert not on(view(draw(LEG), "The foot"), "metal")
    for each in view(draw(LEG), "The caster").dimensions:
        assert each.side in ("left", "right")


def test_wood_runs_along_every_leg_and_rings_lie_on_its_end():
    sheet = draw(LEG)
    for part, lean in (("The foot", 0.0), ("From the side", 0.0), ("No leg", -LEG.plain.tilt_if_uncut)):
        for leg in on(view(sheet, part), "leg", Area):
            assert leg.grain == pytest.approx(math.pi / 2 + lean)
    (end,) = on(template(LEG).views[0], "leg", Area)
    assert end.grain == EndGrain((0.0, 0.0))
    for part, lean in (("Standing", 0.0), ("Over the casters", STAND.plain.tip_over_casters)):
        grains = [wood.grain - lean for kind in ("leg", "piece") for wood in on(view(draw(STAND), part), kind, Area)]
        assert grains == pytest.approx([math.pi / 2, math.pi / 2, 0.0, 0.0])


@given(given=sizes(CasterLeg))
@over_the_range
def test_level_stand_is_level_and_only_the_caster_leg_is_short(given):
    leg = drawn(CasterLeg, given)
    caster_leg, plain_leg = areas(view(draw(leg), "From the side"), "leg")
    assert caster_leg.bounds[3] == pytest.approx(plain_leg.bounds[3])
    assert caster_leg.bounds[1] == pytest.approx(leg.caster_height)
    assert plain_leg.bounds[1] == pytest.approx(0)
    assert caster_leg.bounds[0] < plain_leg.bounds[0]


def test_stand_that_nobody_shortened_slopes_as_told():
    (top,) = areas(view(draw(LEG), "No leg shortened"), "piece")
    (x1, y1), (x2, y2) = list(top.exterior.coords)[:2]
    assert math.atan2(y1 - y2, x2 - x1) == pytest.approx(LEG.plain.tilt_if_uncut)


@given(given=sizes(Rolling))
@over_the_range
def test_tipping_stand_has_its_weight_over_the_contact(given):
    stand = drawn(Rolling, given)
    trails = stand.trail, stand.trail if stand.casters == 4 else 0.0, stand.trail
    for title, trail in zip(("Over the casters", "Over the other end", "Sideways"), trails):
        (weight,) = on(view(draw(stand), title), "force", Line)
        assert weight.start[0] == pytest.approx(trail, abs=1e-6)
        assert weight.end[0] == pytest.approx(trail, abs=1e-6) and weight.end[1] < weight.start[1]


@pytest.mark.parametrize("casters", [2, 4])
@pytest.mark.parametrize("from_casters", ["180 mm", "150 mm"])
def test_tipping_stand_has_its_casters_where_they_are(casters, from_casters):
    stand = Rolling("24 kg", "420 mm", from_casters, "360 mm", "360 mm", "430 mm", trail="20 mm", casters=casters)
    for title, many in (("Over the casters", 1), ("Over the other end", 1), ("Sideways", 2)):
        wheels = on(view(draw(stand), title), "metal", Circle)
        assert len(wheels) == (many if casters == 2 else 2)
        lower = min(wheels, key=lambda wheel: wheel.centre[1])
        over_contact = lower.centre[0] + lower.radius * math.sin(_slope(stand, title))
        told = 20 if title != "Over the other end" or casters == 4 else None
        if told:
            assert over_contact == pytest.approx(told, abs=1e-6)
        else:
            assert lower.centre[0] > 180


def _slope(stand, title):
    ends = {"Over the casters": "over_casters", "Over the other end": "over_other_end", "Sideways": "sideways"}
    return getattr(stand.plain, f"tip_{ends[title]}")


def test_template_is_true_to_size():
    (only,) = template(LEG).views
    (leg,), (hole,) = ([shape.outlines[0] for shape in on(only, layer, Area)] for layer in ("leg", "hole"))
    assert (leg.radius, hole.radius) == (17.5, 5.5)
    assert leg.centre == hole.centre == (0, 0)
    assert "670.0 mm" in template(LEG).use and "24.0 mm deep" in only.title


def test_four_casters_are_not_lifted():
    titles = [each.title for each in draw(STAND).views]
    assert any(title.startswith("In the hand: 10.0 kg") for title in titles)
    four = [each.title for each in draw(STAND.replace(casters=4)).views]
    assert not any("hand" in title for title in four) and len(four) == len(titles) - 1
    assert not any("handle" in each.text for each in view(draw(STAND.replace(casters=4)), "Standing").dimensions)
    assert "Lift only" in draw(STAND).use and "With four" not in draw(STAND).use
    use = draw(STAND.replace(casters=4)).use
    assert "pair at the end from which the centre of gravity is measured" in use and "Lift" not in use


@given(given=sizes(Rolling))
@over_the_range
def test_foot_that_hangs_clear_leaves_the_heaviest_load_to_the_one_drawn(given):
    """With the dashed foot carrying nothing, the other three balance and the ringed one carries what is told."""
    stand = drawn(Rolling, given)
    plan = view(draw(stand), "One foot clear")
    (ringed,), (dashed,) = on(plan, "force", Circle), on(plan, "hidden", Circle)
    side, base = stand.track / 2, stand.wheelbase
    feet = [(x, y) for x in (0.0, base) for y in (-side, side) if (x, y) != dashed.centre]
    assert len(feet) == 3 and ringed.centre in feet
    pulls = [stand.weight, stand.weight * stand.cg_from_casters, stand.weight * stand.cg_aside]
    loads = numpy.linalg.solve([[1.0] * 3, *zip(*feet)], pulls)
    assert min(loads) >= -1e-9 * stand.weight
    assert loads[feet.index(ringed.centre)] == pytest.approx(stand.worst_load)
    (centre,) = on(plan, "balance", Circle)
    assert centre.centre == (stand.cg_from_casters, stand.cg_aside)
    casters = {circle.centre for circle in on(plan, "metal", Circle)}
    assert ringed.centre in casters
    assert {x for x, _ in casters} <= ({0.0} if stand.casters == 2 else {0.0, base})
