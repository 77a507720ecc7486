"""Casters: walls measured by shapely, loads from solved moments, slopes found by turning the stand."""

import math

import numpy
import pytest
from hypothesis import given, settings
from models import drawn, sizes
from published import row
from scipy.optimize import brentq, linprog
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
    assert stand.rule_load.to("kg").magnitude == pytest.approx(wanted, abs=0.05)
    with pytest.raises(ShapeError, match="there are two"):
        _ = STAND.rule_load


def balance(points):
    """The equations of forces and of moments about both axes for loads at these points."""
    return [[1.0] * len(points), [x for x, _ in points], [y for _, y in points]]


def pulls(stand):
    """What those equations have to come to."""
    return [stand.weight, stand.weight * stand.cg_from_casters, stand.weight * stand.cg_aside]


def feet(stand):
    """Where the four feet stand, seen from above; those with casters come first, the lighter side second."""
    side, base = stand.track / 2, stand.wheelbase
    return [(0.0, side), (0.0, -side), (base, side), (base, -side)]


def rolling(stand):
    """Which of the feet are casters."""
    return range(stand.casters)


def heaviest_with_a_foot_clear(stand):
    """Each foot in turn hangs clear, the other three balance; none of them may be pulled down."""
    found = []
    for clear in range(4):
        standing = [foot for foot in range(4) if foot != clear]
        places = [feet(stand)[foot] for foot in standing]
        loads = numpy.linalg.solve(balance(places), pulls(stand))
        if min(loads) >= -1e-9 * stand.weight:
            found += [load for foot, load in zip(standing, loads) if foot in rolling(stand)]
    return max(found)


def heaviest_that_balances(stand):
    """The most that any caster can carry in balance: a linear programme, no foot pulled down."""
    each = [
        linprog([-(foot == heavy) for foot in range(4)], A_eq=balance(feet(stand)), b_eq=pulls(stand))
        for heavy in rolling(stand)
    ]
    return max(-one.fun for one in each)


@pytest.mark.parametrize("casters", [2, 4])
@given(given=sizes(Rolling))
@settings(max_examples=40, deadline=None)
def test_worst_load_is_what_statics_allows_with_a_foot_clear(casters, given):
    stand = drawn(Rolling, given | {"casters": casters})
    close = pytest.approx(stand.worst_load, rel=1e-6)
    assert heaviest_with_a_foot_clear(stand) == close
    assert heaviest_that_balances(stand) == close
    assert stand.standing_load <= stand.worst_load * (1 + 1e-9)


@given(given=sizes(Rolling))
@whole_range
def test_on_the_centre_line_the_worst_is_half_the_weight_and_more_than_the_rule(given):
    stand = drawn(Rolling, given | {"casters": 4, "cg_aside": "0 mm"})
    assert stand.worst_load == pytest.approx(stand.weight / 2)
    assert stand.rule_load < stand.worst_load


@pytest.mark.parametrize("casters", [2, 4])
@given(given=sizes(Rolling))
@whole_range
def test_heaviest_caster_on_a_flat_floor(casters, given):
    """Both side frames balance by themselves on what the sides share: levers, solved one after the other."""
    stand = drawn(Rolling, given | {"casters": casters})
    _, heavy_side = numpy.linalg.solve(
        [[1, 1], [-stand.track / 2, stand.track / 2]], [stand.weight, stand.weight * stand.cg_aside]
    )
    ends = balanced(heavy_side, stand.cg_from_casters, stand.wheelbase)
    assert stand.standing_load == pytest.approx(max(ends) if casters == 4 else ends[0])


def balanced(weight, at, support):
    """The loads at 0 and at `support` that balance a weight at `at`: forces and moments, solved."""
    return numpy.linalg.solve([[1, 1], [0, support]], [weight, weight * at])


@given(given=sizes(Rolling))
@whole_range
def test_lifted_stand_balances_on_two_casters_and_the_hand(given):
    """The hand pulls in the middle: three unknown forces, three equations."""
    stand = drawn(Rolling, given | {"casters": 2})
    side = stand.track / 2
    places = [(0.0, side), (0.0, -side), (stand.handle_reach, 0.0)]
    heavy, light, hand = numpy.linalg.solve(balance(places), pulls(stand))
    assert stand.lift == pytest.approx(hand)
    leans = [caution for caution in stand.worries() if "Lifted in the middle" in str(caution)]
    assert bool(leans) == (light < 0) or light == pytest.approx(0, abs=1e-9 * stand.weight)
    if light > 1e-9 * stand.weight:
        assert stand.rolling_load == pytest.approx(heavy)
    elif light < -1e-9 * stand.weight:
        with pytest.raises(ShapeError, match="hands apart"):
            _ = stand.rolling_load


def test_four_casters_are_pushed_not_lifted():
    stand = STAND.replace(casters=4, handle_reach="150 mm")  # a handle inside the centre of gravity may push
    for name in ("lift", "rolling_load"):
        with pytest.raises(ShapeError, match="pushed"):
            getattr(stand, name)
    assert not stand.replace(weight="150 kg").cautions


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
        "tip_sideways": stand.track / 2 - stand.cg_aside - stand.trail,
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
        ({"wheelbase": "0 mm"}, "Wheelbase: it must be more than nothing"),
    ],
)
def test_legs_that_cannot_be_made(changes, told):
    with pytest.raises(ShapeError, match=told):
        LEG.replace(**changes)


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        ({"cg_from_casters": "360 mm"}, "outside the wheelbase"),
        ({"cg_aside": "170 mm"}, "outside the track"),
        ({"cg_aside": "150 mm"}, "reaches past"),
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
        (STAND.replace(weight="120 kg"), "lifts 50 kg (110.7 lb)"),
        (STAND.replace(cg_aside="140 mm"), "tips to its heavier side"),
    ],
)
def test_cautions(model, told):
    assert any(told in str(caution) for caution in model.cautions)
    assert not LEG.cautions and not STAND.cautions


def test_the_card_of_a_leg_begins_at_the_saw():
    assert LEG.plain.on_card() == ("shortened_leg", "hole_depth", "wall")
