"""The drawn leg, hole and stand have the sizes told, and the tipping stand stands over its contact."""

import math

import pytest
from hypothesis import given, settings
from models import drawn, sizes
from shapes import areas, on, view

from shoplib import CasterLeg, Rolling, draw, template
from shoplib.drawing.sheet import Circle, Line

LEG = CasterLeg("35 mm", "11 mm", "22 mm", "50 mm", "360 mm", "720 mm", centre_error="0.5 mm")
over_the_range = settings(max_examples=40, deadline=None)


@given(given=sizes(CasterLeg))
@over_the_range
def test_hole_in_the_leg_leaves_the_wall_told(given):
    leg = drawn(CasterLeg, given)
    section = view(draw(leg), "Section")
    (wood,), (hole,) = areas(section, "kept"), areas(section, "hole")
    assert wood.bounds[2] - hole.bounds[2] == pytest.approx(leg.wall)
    assert hole.bounds[2] - hole.bounds[0] == pytest.approx(leg.hole_diameter)
    assert hole.bounds[3] - wood.bounds[1] == pytest.approx(leg.hole_depth)


@given(given=sizes(CasterLeg))
@over_the_range
def test_level_stand_is_level_and_only_the_caster_leg_is_short(given):
    leg = drawn(CasterLeg, given)
    caster_leg, plain_leg = areas(view(draw(leg), "From the side"), "kept")
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
    (leg,), (hole,) = on(only, "kept", Circle), on(only, "cutter", Circle)
    assert (leg.radius, hole.radius) == (17.5, 5.5)
    assert leg.centre == hole.centre == (0, 0)
