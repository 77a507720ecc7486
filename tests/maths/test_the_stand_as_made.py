"""As made: what was measured is carried on to whatever comes later, and leaves what had to come before."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from models import EXAMPLES

from shoplib import CircleJig, DowelJoint, MeasureError, Rebate, ShapeError, Stand, StubBar, measure, seedling_stand
from shoplib.maths.the_stand.made import measurable
from shoplib.maths.the_stand.operations import OPERATIONS
from shoplib.maths.the_stand.order import MADE_AT, no_later_than

CLOSE = pytest.approx
STAND = seedling_stand()
THIN = STAND.as_made(panel_thickness="11.7 mm")


def moved(stand):
    """The operations that do not come to what they came to."""
    return {each.name for each in stand.operations() if each.moved}


class TestAThinPanel:
    """0.3 mm thin, measured before the rebate is cut."""

    def test_the_rebate_follows(self):
        rebate = THIN.operation("rebate")
        assert rebate.model == STAND.operation("rebate").model.replace(panel_thickness="11.7 mm")
        assert rebate.model.depth.m_as("mm") == CLOSE(11.7)
        (depth,) = [each for each in rebate.moved if each.result == "depth"]
        assert (depth.was, depth.becomes) == (12.0, CLOSE(11.7))
        assert depth.written() == ("12.0 mm", "11.7 mm") and depth.count == 2
        assert rebate.as_made == {"panel_thickness": (12.0, CLOSE(11.7))}

    def test_what_comes_before_it_does_not(self):
        """The step that makes it is the panels' glue-up; before it only the timber is bought."""
        for each in THIN.operations():
            if "panel_thickness" not in each.sizes:
                assert not each.moved and each.model == STAND.operation(each.name).model

    def test_nominal_and_measured_stand_side_by_side(self):
        assert THIN.panel_thickness.m_as("mm") == 12 and THIN.made == {"panel_thickness": CLOSE(11.7)}
        assert THIN.plain.panel_thickness == 12.0
        assert THIN.plain_with(THIN.made).panel_thickness == CLOSE(11.7)

    def test_the_screws_of_lesson_08_have_less_cover(self):
        assert THIN.operation("screws").model.cover.m_as("mm") == CLOSE(3.7)

    def test_undone_again(self):
        assert THIN.not_made("panel_thickness") == STAND
        assert moved(THIN.not_made("panel_thickness")) == set()
        with pytest.raises(MeasureError, match="no measured size 'rim_width'"):
            THIN.not_made("rim_width")


class TestDerivedSizes:
    def test_panel_from_the_measured_rebate(self):
        """Lesson 03's own method for it is the other way."""
        stand = STAND.as_made(rebate_diameter="420.6 mm")
        wanted = Rebate("400 mm", "20 mm", "40 mm", "12 mm", "10 mm", clearance="2.5 mm")
        panel = wanted.panel_from_measured("420.6 mm")
        assert stand.operation("panel").model.diameter == panel == measure.length("415.6 mm")
        assert stand.operation("panel").model == STAND.operation("panel").model.replace(diameter=panel)
        assert not stand.operation("rebate").moved, "it is cut already"
        assert stand.operation("panel_season").model.rebate_diameter.m_as("mm") == CLOSE(420.6)

    def test_bar_at_the_measured_width(self):
        stand = STAND.as_made(bar_width="361.2 mm")
        bar = stand.operation("stub_bar").model
        assert isinstance(bar, StubBar) and bar.bar_length.m_as("mm") == CLOSE(421.2)
        assert stand.operation("bar_stock").model.length.m_as("mm") == CLOSE(421.2)
        assert not stand.operation("rails").moved

    def test_a_leg_hole_drilled_too_deep_asks_for_less_in_the_rail(self):
        stand = STAND.as_made(dowel_in_leg="13 mm")
        joint = stand.operation("dowels").model
        assert isinstance(joint, DowelJoint) and joint.rail_depth.m_as("mm") == CLOSE(30.0)
        assert moved(stand) == {"dowels"}

    def test_diagonals_of_the_dry_stand(self):
        stand = STAND.as_made(first_diagonal="510.5 mm", second_diagonal="507.7 mm")
        frame = stand.operation("squareness").model
        assert frame.skew.m_as("deg") == CLOSE(0.3151, abs=1e-4)
        assert any("first diagonal is too long" in each.tell() for each in stand.cautions)

    def test_each_measured_size_reaches_only_what_is_to_come(self):
        """The leg as it came off the router: its own rounding keeps the nominal one, all that follows does not."""
        stand = STAND.as_made(leg_diameter="34.6 mm")
        assert not stand.operation("leg_stock").moved
        for name in ("strip_right", "cradle", "corner_block", "dowels", "caster_legs", "rails", "stub_bar"):
            assert stand.operation(name).filled_from.leg_diameter == CLOSE(34.6), name


    def test_moisture_on_the_day_of_screwing(self):
        """Read again then: the sliding screws go by it, the gap round the panel by what it was when cut."""
        stand = STAND.as_made(moisture_screwed="10 %")
        assert stand.operation("screws").model == STAND.operation("screws").model.replace(made="10 %")
        assert moved(stand) == {"screws"}


class TestTools:
    def test_a_cutter_is_measured_at_the_start(self):
        stand = STAND.as_made(router_cutter="11.5 mm")
        jig = stand.operation("template").model
        assert isinstance(jig, CircleJig) and jig.outer_pivot.m_as("mm") == CLOSE(225.75)
        assert moved(stand) == {"template", "rebate", "panel"}

    @pytest.mark.parametrize("name", [name for name in measurable(Stand) if name not in MADE_AT])
    def test_what_nobody_makes_is_the_same_for_all(self, name):
        value = STAND.values.get(name)
        if value and STAND.inputs()[name].kind == "length":
            share = 1.001 if name == "template_thickness" else 0.999
            stand = STAND.as_made(**{name: f"{value * share:.6f} mm"})
            for each in stand.operations():
                assert name in each.measured


@pytest.mark.parametrize("name", sorted(MADE_AT))
def test_the_making_step_and_what_comes_before_it_keep_the_nominal_size(name):
    value = getattr(STAND.plain, name) if name != "arm_tips" else 2.8
    stand = STAND.as_made(**{name: f"{value * 1.0005 + 0.001:.6f} mm"})
    earlier = no_later_than(STAND.plain, MADE_AT[name])
    for each in stand.operations():
        all_done = {step.name for step in each.steps} <= earlier
        assert (name in each.measured) != all_done
        if all_done:
            assert each.model == STAND.operation(each.name).model


@settings(max_examples=25, deadline=None)
@given(st.data())
def test_several_at_once_do_what_each_does(data):
    """What an operation is filled from: every measured size that is made by then, and no other."""
    names = [name for name in MADE_AT if name in Stand.inputs()]
    chosen = data.draw(st.lists(st.sampled_from(names), max_size=4, unique=True))
    made = {name: f"{STAND.values[name] + 0.05:.4f} mm" for name in chosen}
    stand = STAND.as_made(**made)
    for each in stand.operations():
        values = STAND.values | each.measured
        assert each.model.values == OPERATIONS[each.name].values(Stand.solved(values))
    one_by_one = STAND
    for name, text in made.items():
        one_by_one = one_by_one.as_made(**{name: text})
    assert one_by_one == stand and hash(one_by_one) == hash(stand)


class TestRefused:
    @pytest.mark.parametrize(
        ("measured", "error", "said"),
        [
            ({"rail": "3 mm"}, MeasureError, "no size to measure 'rail'"),
            ({"pull_bar": "none"}, MeasureError, "no size to measure"),
            ({"weight": "3 kg"}, MeasureError, "no size to measure 'weight'"),
            ({"rim_width": "19"}, MeasureError, "which unit"),
            ({"rim_width": "0 mm"}, ShapeError, "more than nothing"),
            ({"rebate_diameter": "-420 mm"}, ShapeError, "more than nothing"),
            ({"rebate_diameter": "4 mm"}, ShapeError, "leaves no panel"),
            ({"panel_thickness": "41 mm"}, ShapeError, r"^Rebate the rims from below \(lesson 03\)"),
            ({"tray_diameter": "480 mm"}, ShapeError, "runs into the legs"),
        ],
    )
    def test_what_cannot_be(self, measured, error, said):
        with pytest.raises(error, match=said):
            STAND.as_made(**measured)

    def test_a_change_that_what_is_made_forbids(self):
        """The panel is 30 mm thick: a rim of 29 mm can no longer take it."""
        stand = STAND.as_made(panel_thickness="30 mm", rebate_depth="30 mm")
        with pytest.raises(ShapeError, match="lesson 03"):
            stand.replace(rim_height="29 mm")


class TestKept:
    def test_what_was_made_outlasts_a_change(self):
        wider = THIN.replace(leg_spacing="365 mm")
        assert wider.made == THIN.made and wider.operation("rebate").model.depth.m_as("mm") == CLOSE(11.7)

    def test_measured_is_not_the_same_as_given(self):
        assert THIN != STAND != STAND.replace(panel_thickness="11.7 mm") != THIN
        assert len({THIN, STAND, STAND.as_made(panel_thickness="11.7 mm")}) == 2

    def test_measured_as_it_should_be_moves_nothing(self):
        same = STAND.as_made(panel_thickness="12 mm", leg_diameter="35 mm", rebate_diameter="420 mm")
        assert moved(same) == set() and len(same.made) == 3

    def test_changes_between_stands_as_made(self):
        found = STAND.changes(THIN)
        assert {each.operation for each in found} == moved(THIN)

    def test_in_inches(self):
        stand = EXAMPLES[Stand][1].as_made(panel_thickness="15/32 in")
        (depth,) = [each for each in stand.operation("rebate").moved if each.result == "depth"]
        assert depth.written("in") == ("1/2 in", "15/32 in")
        assert [row for row in stand.operation("rebate").moved.tell("in").rows if "rebate depth" in row]
