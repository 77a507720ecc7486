"""The order of work: what breaks a rule is refused with its trap, what breaks none is accepted."""

import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from models import SIDE_TABLE, STAND_IN_INCHES

from shoplib import ShapeError, Stand, seedling_stand
from shoplib.maths.the_stand.operations import OPERATIONS
from shoplib.maths.the_stand.order import (
    MADE_AT,
    STEPS,
    TABLE,
    Step,
    check_order,
    no_later_than,
    order,
    relations,
    too_early,
)

STAND = seedling_stand()
WAYS = {
    f"{route}, {bar}, {trays} trays, {casters} casters":
    seedling_stand(ring_route=route, pull_bar=bar, trays=trays, casters=casters)
    for route, bar, trays, casters in itertools.product(
        ("staves", "boards"), ("stubs", "mitred", "none"), (1, 2), (2, 4)
    )
}  # fmt: skip
EACH_WAY = pytest.mark.parametrize("stand", WAYS.values(), ids=WAYS)

# The demo's order of work as it was agreed: the number of each step, and of those that must come before it.
AGREED = {
    1: (), 2: (), 3: (2,), 4: (1,), 5: (4,), 6: (3, 5), 7: (6,), 8: (7,), 9: (8,), 10: (9,), 11: (1,), 12: (10, 11),
    13: (12,), 14: (13,), 15: (1,), 16: (15,), 17: (16,), 18: (16,), 19: (17, 18), 20: (17, 18), 21: (17,), 22: (21,),
    23: (1,), 24: (23,), 25: (24,), 26: (23,), 27: (19, 25), 28: (1,), 29: (27, 28), 30: (22, 26, 27), 31: (30,),
    32: (20, 29, 31), 33: (22, 31), 34: (32, 33), 35: (14, 34), 36: (14, 34), 37: (35, 36), 38: (37,),
}  # fmt: skip
# A word of each step's title, and one of its trap.
WORDS = {
    1: ("Buy", "fit"), 2: ("template's outside", "wrong side"), 3: ("template's inside", "centre is gone"),
    4: ("staves", "last joint gapes"), 5: ("rim's height", "show face"), 6: ("off the line", "no waste is left"),
    7: ("First trim", "holes that show"), 8: ("Second trim", "no wall"), 9: ("patches", "tear again"),
    10: ("Rebate", "router tips"), 11: ("Glue up the panels", "too narrow"), 12: ("measured rebates", "drops through"),
    13: ("Finish the panels", "bare line"), 14: ("two spots", "bursts"), 15: ("Round the legs", "no reference"),
    16: ("Number the legs", "wrong leg"), 17: ("heights", "out of level"), 18: ("quarter lines", "skew"),
    19: ("cradle", "meet"), 20: ("stubs", "out of line"), 21: ("Shorten", "wrong end"), 22: ("Bore", "sawn off"),
    23: ("square, tip to tip", "hollow to hollow"), 24: ("rails' ends for the dowels", "no square end"),
    25: ("Hollow", "tips collide"), 26: ("counterbores", "wanders"), 27: ("dry", "found in the glue"),
    28: ("Round the pull bar", "nothing to grip"), 29: ("measured width", "will not go on"),
    30: ("side frames", "rack"), 31: ("diagonals", "skew"), 32: ("Glue the bar on", "clamps' way"),
    33: ("casters dry", "rocks"), 34: ("Casters out", "wheels are glued"), 35: ("sideways", "shut out"),
    36: ("upper tray", "scrapes the finish"), 37: ("mid-hole", "no room"), 38: ("Casters in", "topples"),
}  # fmt: skip


def names(steps):
    return [step.name for step in steps]


NUMBERED = dict(enumerate(names(order(STAND.plain)), 1))


class TestTheDemo:
    def test_from_1_to_38(self):
        titles = [step.title for step in STAND.order()]
        assert len(titles) == 38
        for number, (word, _) in WORDS.items():
            assert word in titles[number - 1]

    def test_what_comes_before_what_is_what_was_agreed(self):
        place = {name: number for number, name in NUMBERED.items()}
        found = {
            place[name]: tuple(sorted(place[each] for each in before))
            for name, before in relations(STAND.plain).items()
        }  # fmt: skip
        assert found == AGREED

    def test_each_step_says_its_trap(self):
        for number, (_, word) in WORDS.items():
            step = STEPS[NUMBERED[number]]
            assert word in " ".join([*step.after.values(), step.watch]), number

    @pytest.mark.parametrize("step", TABLE, ids=lambda step: step.name)
    def test_traps_are_plain_sentences(self, step):
        said = list(step.after.values()) or [step.watch]
        assert said and bool(step.watch) != bool(step.after)
        for trap in said:
            assert trap[0].isupper() and trap.endswith(".") and 20 < len(trap) < 130 and trap.count(".") == 1
        assert step.title[0].isupper() and not step.title.endswith(".") and len(step.title) < 75

    def test_every_relation_names_a_step(self):
        assert {name for step in TABLE for name in step.after} <= set(STEPS)
        assert {name for step in TABLE for name in step.operations} == set(OPERATIONS)


def test_operations_that_are_done_in_two_steps():
    """What is measured between the two reaches the second."""
    steps = {each.name: names(each.steps) for each in STAND.operations()}
    assert {name: found for name, found in steps.items() if len(found) > 1} == {
        "template": ["template_outside", "template_inside"], "trim": ["first_trim", "second_trim"],
        "finish": ["panel_finished", "finish"], "strip_right": ["heights", "quarters"],
        "strip_left": ["heights", "quarters"], "cradle": ["quarters", "leg_holes"],
        "dowels": ["leg_holes", "rail_holes"], "stub_bar": ["stub_holes", "bar_holes"],
        "caster_legs": ["legs_shortened", "caster_holes"], "rails": ["rails_square", "copes"],
        "screws": ["counterbores", "screws"], "squareness": ["dry", "glued"],
    }  # fmt: skip


def test_two_steps_gone_hand_their_trap_on(monkeypatch):
    """A small table: the last step comes after the first, with its own trap, where both between are not there."""
    table = (
        Step("first", "First"), Step("gone", "Gone", after={"first": "One."}, when=lambda stand: False),
        Step("also", "Also gone", after={"gone": "Two."}, when=lambda stand: False),
        Step("last", "Last", after={"also": "Three."}),
        Step("later", "Later", after={"last": "Four.", "gone": "Five."}),
    )  # fmt: skip
    monkeypatch.setattr("shoplib.maths.the_stand.order.TABLE", table)
    monkeypatch.setattr("shoplib.maths.the_stand.order.STEPS", {each.name: each for each in table})
    assert relations(STAND.plain) == {"first": {}, "last": {"first": "Three."}, "later": {"last": "Four."}}


@EACH_WAY
class TestEveryWayToBuild:
    def test_only_what_the_stand_has(self, stand):
        found = {name for step in stand.order() for name in step.operations}
        assert {each.name for each in stand.operations()} <= found
        assert {each.name for each in stand.operations()} == {
            name for name, each in OPERATIONS.items() if each.of(stand.plain)}  # fmt: skip
        assert ("stub_holes" in names(stand.order())) == (stand.pull_bar == "stubs")
        assert ("bar_mitred" in names(stand.order())) == (stand.pull_bar == "mitred")
        assert ("lower_tray" in names(stand.order())) == (stand.trays == 2)
        assert ("staves" in names(stand.order())) == (stand.ring_route == "staves")

    def test_in_the_order_of_the_table_and_accepted(self, stand):
        steps = stand.order()
        assert [step for step in TABLE if step in steps] == list(steps)
        check_order(stand.plain, steps)

    def test_a_step_that_is_not_there_hands_on_what_comes_before_it(self, stand):
        """Everything that comes before by the whole table comes before still."""
        whole = {step.name: set(step.after) for step in TABLE}
        there = relations(stand.plain)

        def before(after, name):
            return set().union(*({each} | before(after, each) for each in after.get(name, ()))) if name in after else {}

        for name in there:
            assert before({k: set(v) for k, v in there.items()}, name) == before(whole, name) & set(there)

    def test_every_operation_is_done_at_some_step_and_lies_in_their_order(self, stand):
        place = {name: k for k, name in enumerate(names(stand.order()))}
        first = [place[each.steps[0].name] for each in stand.operations()]
        assert first == sorted(first)
        for each in stand.operations():
            assert {step.name for step, _ in each.before} == set(relations(stand.plain)[each.steps[0].name])


def broken(stand, permutation):
    """The first step of a permutation that comes before one that must precede it: worked out pair by pair."""
    after, place = relations(stand), {name: k for k, name in enumerate(permutation)}
    late = [
        (place[name], name, before)
        for name, needed in after.items() for before in needed if place[before] > place[name]
    ]  # fmt: skip
    return min(late) if late else None


@settings(max_examples=150, deadline=None)
@given(st.data(), st.sampled_from(sorted(WAYS)))
def test_any_permutation_is_refused_with_its_trap_or_accepted(data, way):
    """Half of them are the order with two steps changed over, half any at all."""
    stand = WAYS[way].plain
    steps = names(order(stand))
    if data.draw(st.booleans()):
        one, other = (data.draw(st.integers(0, len(steps) - 1)) for _ in range(2))
        steps[one], steps[other] = steps[other], steps[one]
    else:
        steps = data.draw(st.permutations(steps))
    check_as_it_should_be(stand, steps)


@settings(max_examples=60, deadline=None)
@given(st.randoms(use_true_random=False), st.sampled_from(sorted(WAYS)))
def test_any_order_that_breaks_no_rule_is_accepted(random, way):
    """Steps drawn by chance from those that may come next."""
    stand, done = WAYS[way].plain, []
    after = relations(stand)
    while len(done) < len(after):
        may = [name for name in after if name not in done and not set(after[name]) - set(done)]
        done.append(random.choice(may))
    assert broken(stand, done) is None
    check_order(stand, done)


def check_as_it_should_be(stand, steps):
    wrong = broken(stand, steps)
    if wrong is None:
        check_order(stand, steps)
        return
    place, name, _ = wrong
    with pytest.raises(ShapeError) as caught:
        check_order(stand, steps)
    missing = [each for each in relations(stand)[name] if each not in steps[:place]]
    said = str(caught.value)
    assert said.startswith(f"{STEPS[name].title}: too early. ")
    assert any(relations(stand)[name][each] in said and STEPS[each].title in said for each in missing)
    assert [step.name for step, _ in too_early(stand, steps[:place], name)] == missing


def test_every_pair_changed_over_that_breaks_a_rule_is_refused():
    """Each of the demo's relations: the later step right before the earlier one."""
    steps = names(STAND.order())
    for name, needed in relations(STAND.plain).items():
        for before, trap in needed.items():
            changed = [each for each in steps if each != name]
            changed.insert(changed.index(before), name)
            assert (STEPS[before], trap) in too_early(STAND.plain, changed[: changed.index(name)], name)
            with pytest.raises(ShapeError, match="too early"):
                check_order(STAND.plain, changed)


def test_nothing_is_left_out_and_nothing_done_twice():
    steps = names(STAND.order())
    with pytest.raises(ShapeError, match="Casters in.*left out"):
        check_order(STAND.plain, steps[:-1])
    with pytest.raises(ShapeError, match="there twice"):
        check_order(STAND.plain, [*steps, steps[3]])
    with pytest.raises(ShapeError, match="no step 'bar_mitred'"):
        check_order(STAND.plain, [*steps, "bar_mitred"])


def test_what_would_be_missing_next():
    assert too_early(STAND.plain, (), "buy") == ()
    (missing,) = too_early(STAND.plain, (), "template_inside")
    assert missing[0].name == "template_outside" and "centre is gone" in missing[1]
    assert [step.name for step, _ in too_early(STAND.plain, ("side_frames", "glued"), "bar_on")] == [
        "stub_holes", "bar_holes"]  # fmt: skip


class TestMakingSteps:
    def test_each_is_a_step_and_each_size_can_be_measured(self):
        assert set(MADE_AT.values()) <= set(STEPS)
        assert set(MADE_AT) <= set(Stand.inputs()) | set(Stand.results())

    def test_everything_of_wood_is_made_at_some_step(self):
        """What is bought or set (tools, screws, dowels, casters, moistures, margins) is measured at the start."""
        at_the_start = {name for name in Stand.inputs() if name not in MADE_AT}
        wooden = ("tray_", "rim_", "rail_", "panel_t", "leg_d", "leg_s", "stand_", "bar_d", "rebate_w")
        assert not [name for name in at_the_start if name.startswith(wooden) and Stand.inputs()[name].kind == "length"]

    def test_no_later_than(self):
        assert no_later_than(STAND.plain, "rebate") == {
            "rebate", "patches", "second_trim", "first_trim", "sawn", "template_inside", "template_outside", "height",
            "staves", "buy"}  # fmt: skip
        assert no_later_than(STAND.plain, "buy") == {"buy"}
        assert no_later_than(STAND.plain, "bar_mitred") == no_later_than(STAND.plain, None) == frozenset()


def test_the_examples_have_an_order_too():
    for sizes in (STAND_IN_INCHES, SIDE_TABLE):
        stand = seedling_stand(**sizes)
        check_order(stand.plain, stand.order())
