"""The game of the order of work: every order that the table allows is accepted, every other refused with its trap."""

import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoplib import MeasureError
from shoplib.maths.the_stand.order import TABLE
from shoplib.practice.order_of_work import KINDS, OFFERED, OrderOfWork, kind_of_stand

STUDENTS = st.integers(1, 99)
BY_NAME = {each.name: each for each in TABLE}


def all_before(name):
    """Every step that the table wants before this one, near or far, by walking the table itself."""
    found, to_do = set(), list(BY_NAME[name].after)
    while to_do:
        each = to_do.pop()
        if each not in found:
            found.add(each)
            to_do += BY_NAME[each].after
    return found


def traps_of_the_table():
    return {trap for each in TABLE for trap in each.after.values()}


@given(STUDENTS, st.integers(0, 10**6))
def test_every_legal_order_is_accepted(student, seed):
    chance = random.Random(seed)
    game = OrderOfWork(student)
    left = {each.name for each in game.steps}
    while left:
        ready = sorted(name for name in left if not all_before(name) & left)
        name = chance.choice(ready)
        said = game.pick(name)
        assert said.right and said.met == (), name
        left.discard(name)
    assert game.left == 0 and game.traps == [] and game.offered == []
    assert game.verdict() == f"All {len(game.steps)} steps are in an order that cannot trap, and you met no trap."


@given(STUDENTS, st.integers(0, 10**6))
def test_every_step_too_early_is_refused_with_its_trap(student, seed):
    """Steps in any order at all: each is taken just where nothing is left that the table wants before it."""
    chance = random.Random(seed)
    game = OrderOfWork(student)
    names = [each.name for each in game.steps]
    chance.shuffle(names)
    done = set()
    for name in names * 2:
        missing = (all_before(name) & set(names)) - done
        before = list(game.done)
        said = game.pick(name)
        if name in done:
            assert not said.right and "done already" in said.sentence
        elif missing:
            assert not said.right and said.met and game.done == before
            assert {trap.missing.name for trap in said.met} <= missing
            assert {trap.sentence for trap in said.met} <= traps_of_the_table()
            assert said.sentence.startswith("Too early. ")
            for trap in said.met:
                assert f"{trap.sentence} First: {trap.missing.title}." in said.sentence
        else:
            assert said.right
            done.add(name)
    assert set(game.done) == done


@given(STUDENTS, st.integers(0, 10**6))
def test_there_is_always_one_to_pick_among_those_offered(student, seed):
    chance = random.Random(seed)
    game = OrderOfWork(student)
    while game.left:
        assert len(set(game.offered)) == len(game.offered) == min(OFFERED, game.left)
        assert not set(game.offered) & set(game.done)
        if chance.random() < 0.3:
            game.pick(chance.choice(game.offered))  # whatever it is
            continue
        game.pick(chance.choice([name for name in game.offered if not game.missing(name)]))


def test_trap_of_a_known_slip():
    game = OrderOfWork(1)
    for name in ("buy", "rails_square"):
        assert game.pick(name).right
    said = game.pick("copes")
    assert said.sentence == (
        "Too early. A coped end cannot be drilled any more; coped without its dowel, its tips collide. First: Drill "
        "the rails' ends for the dowels."
    )
    assert game.verdict() == "2 of 38 steps are in order."


def test_traps_met_are_told_at_the_end():
    game = OrderOfWork(1)
    game.pick("casters_in")
    for each in game.steps:
        assert game.pick(each.name).right
    assert game.verdict().endswith("Too early at first: Casters in; check how it tips and lifts.")


def test_stand_of_the_lessons_comes_in_the_tables_own_order():
    game = OrderOfWork(1)
    assert len(game.steps) == 38 and kind_of_stand(1) == KINDS[0] == (2, "staves", "stubs", 2)
    assert [each.name for each in game.steps] == [each.name for each in TABLE if each.name in game.after]


def test_students_build_all_kinds_and_no_neighbours_the_same():
    kinds = [kind_of_stand(student) for student in range(1, 100)]
    assert set(kinds) == set(KINDS) and len(KINDS) == 24
    for one, other in zip(kinds, kinds[1:]):
        assert sum(a != b for a, b in zip(one, other)) >= 2


def test_a_student_always_gets_the_same_game():
    assert OrderOfWork(7).offered == OrderOfWork(7).offered != OrderOfWork(8).offered


@pytest.mark.parametrize("student", [0, 100, -1, 1.5, "1", None])
def test_no_student_number_is_refused(student):
    with pytest.raises(MeasureError, match="whole number from 1 to 99"):
        OrderOfWork(student)


def test_a_step_that_the_stand_does_not_have_is_refused():
    bare = next(OrderOfWork(student) for student in range(1, 25) if kind_of_stand(student)[2] == "none")
    with pytest.raises(MeasureError, match="no step 'bar_on'"):
        bare.pick("bar_on")
    assert "no pull bar" in bare.words() and len(bare.steps) < 38


def test_which_stand_is_told_in_words():
    for student in range(1, 25):
        trays, route, bar, casters = kind_of_stand(student)
        words = OrderOfWork(student).words()
        assert ("two trays" in words) == (trays == 2) and ("one tray," in words) == (trays == 1)
        assert f"rims of {route}" in words and ("four casters" in words) == (casters == 4)
        assert ("on stubs" in words, "mitred" in words) == (bar == "stubs", bar == "mitred")


@given(STUDENTS)
def test_answers_tell_every_step_what_it_waits_for_and_why(student):
    game = OrderOfWork(student)
    rows = game.answers().rows
    assert [row[1] for row in rows] == [each.title for each in game.steps]
    titles = {row[0]: row[1] for row in rows}
    for (number, _, lesson, after, traps), step in zip(rows, game.steps):
        waits = {titles[each] for each in after.split(", ")} if after != "—" else set()
        assert waits == {BY_NAME[name].title for name in game.after[step.name]}
        assert all(int(each) < int(number) for each in after.split(", ") if after != "—")
        assert all(trap in traps for trap in game.after[step.name].values()) and lesson == step.lesson[:2]
