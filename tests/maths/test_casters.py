"""Casters: walls measured by shapely, loads from solved moments, slopes found by turning the stand."""

import math

import numpy
import pytest
from hypothesis import given, settings
from models import drawn, sizes
from published import row
from scipy.optimize import brentq
from shapely import Point

from shoplib import CasterLeg, MeasureError, Rolling, ShapeError

LEG = CasterLeg("35 mm", "11 mm", "22 mm", "50 mm", "360 mm", "720 mm", centre_error="0.5 mm")
STAND = Rolling("24 kg", "420 mm", "180 mm", "360 mm", "340 mm", "430 mm", trail="20 mm")
whole_range = settings(max_examples=60, deadline=None)


@given(given=sizes(CasterLeg))
@whole_range
def test_wall_is_the_least_wood_between_hole_and_leg(given):
    leg = drawn(CasterLeg, given)
    outside = Point(0, 0).buffer(leg.leg_diameter / 2, quad_segs=720).exterior
    hole = Point(leg.centre_error, 0).buffer(leg.hole_diameter / 2, quad_segs=720).exterior
    assert outside.distance(hole) == pytest.approx(leg.wall, abs=1e-3 * leg.leg_diameter)


def test_hole_takes_the_stem_and_its_clearance():
    assert LEG.hole_depth.to("mm").magnitude == 22 + 2
    assert LEG.replace(bottom_clearance="0 mm").hole_depth == LEG.stem_length


@given(given=sizes(CasterLeg))
@whole_range
def test_shortened_legs_bring_the_top_level_and_uncut_ones_to_the_slope_told(given):
    leg = drawn(CasterLeg, given)
    heights = leg.shortened_leg + leg.caster_height, leg.leg_length
    assert heights[0] == pytest.approx(heights[1])
    # The feet of the uncut stand in its own frame: the floor is the line through them.
    plain_foot, wheel = numpy.array([leg.wheelbase, 0.0]), numpy.array([0.0, -leg.caster_height])
    floor = plain_foot - wheel
    assert math.atan2(floor[1], floor[0]) == pytest.approx(leg.tilt_if_uncut)


def test_three_of_four_casters_carry_all():
    """Common practice: CA1 and the arithmetic on it, CA15, of the published rows."""
    assert row("casters_stability", id="CA1")["value"] == "total/3"
    stand = STAND.replace(weight="100 kg", casters=4)
    wanted = float(row("casters_stability", id="CA15")["value"])
    assert stand.standing_load.to("kg").magnitude == pytest.approx(wanted, abs=0.05)
    assert stand.rolling_load == stand.standing_load


def balanced(weight, at, support):
    """The loads at 0 and at `support` that balance a weight at `at`: forces and moments, solved."""
    return numpy.linalg.solve([[1, 1], [0, support]], [weight, weight * at])


@given(given=sizes(Rolling))
@whole_range
def test_two_casters_carry_what_statics_says(given):
    stand = drawn(Rolling, given | {"casters": 2})
    casters, _ = balanced(stand.weight, stand.cg_from_casters, stand.wheelbase)
    assert stand.standing_load == pytest.approx(casters / 2)
    casters, hand = balanced(stand.weight, stand.cg_from_casters, stand.handle_reach)
    assert stand.rolling_load == pytest.approx(casters / 2)
    assert stand.lift == pytest.approx(hand)


def slope_where_it_tips(arm, height):
    """Turn the stand about its contact until the centre of gravity stands over it."""

    def overhang(turn):
        return (complex(-arm, height) * complex(math.cos(turn), -math.sin(turn))).real

    return brentq(overhang, 0, math.pi / 2)


@pytest.mark.parametrize("casters", [2, 4])
@given(given=sizes(Rolling))
@whole_range
def test_it_tips_where_the_centre_of_gravity_stands_over_the_worst_contact(casters, given):
    stand = drawn(Rolling, given | {"casters": casters})
    far = stand.wheelbase - stand.cg_from_casters
    arms = {
        "tip_over_casters": stand.cg_from_casters - stand.trail,
        "tip_over_other_end": far - stand.trail if casters == 4 else far,
        "tip_sideways": stand.track / 2 - stand.trail,
    }
    for name, arm in arms.items():
        assert getattr(stand, name) == pytest.approx(slope_where_it_tips(arm, stand.cg_height)), name


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        ({"hole_diameter": "35 mm"}, "breaks out"),
        ({"centre_error": "12 mm"}, "breaks out"),
        ({"caster_height": "720 mm"}, "leaves nothing"),
        ({"stem_length": "700 mm"}, "right through"),
        ({"wheelbase": "0 mm"}, "wheelbase"),
    ],
)
def test_legs_that_cannot_be_made(changes, told):
    with pytest.raises(ShapeError, match=told):
        LEG.replace(**changes)


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        ({"cg_from_casters": "360 mm"}, "outside the wheelbase"),
        ({"trail": "170 mm"}, "reaches past"),
        ({"handle_reach": "180 mm"}, "cannot lift"),
        ({"casters": 3}, "2 or 4"),
        ({"casters": 5}, "from 2 to 4"),
    ],
)
def test_stands_that_cannot_be(changes, told):
    with pytest.raises(ShapeError, match=told):
        STAND.replace(**changes)


def test_a_weight_wants_a_unit_of_mass():
    with pytest.raises(MeasureError, match="mass"):
        STAND.replace(weight="24 mm")


@pytest.mark.parametrize(
    ("model", "told"),
    [
        (LEG.replace(hole_diameter="30 mm", stem_length="60 mm"), "wall"),
        (LEG.replace(stem_length="12 mm"), "works loose"),
        (LEG.replace(bottom_clearance="0 mm"), "hole's bottom"),
        (STAND.replace(cg_height="1400 mm"), "over the casters"),
        (STAND.replace(weight="120 kg"), "lifts"),
    ],
)
def test_cautions(model, told):
    assert any(told in str(caution) for caution in model.cautions)
    assert not LEG.cautions and not STAND.cautions
