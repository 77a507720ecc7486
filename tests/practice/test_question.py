"""One question: read, judged within its tolerance, the slip named; sizes that follow student and unit."""

import pytest

from shoplib import MeasureError
from shoplib.practice.question import Question, Sizes


def question(**more):
    return Question("Half of 440 mm?", 220.0, ((440.0, "That is the whole diameter."),), "440 / 2", **more)


@pytest.mark.parametrize("text, right, sentence", [
    ("220 mm", True, "Right: 220.0 mm. 440 / 2"), ("220.3 mm", True, "Right"), ("8 21/32 in", True, "Right"),
    ("220.4 mm", False, "too large"), ("219.6 mm", False, "too small"), ("440.2 mm", False, "whole diameter"),
    ("220 in", False, "changed over mm and in"), ("8.66 mm", False, "changed over mm and in"),
])  # fmt: skip
def test_tolerance_and_slips(text, right, sentence):
    judged = question().judge(text)
    assert judged[0] is right and sentence in judged[1]


def test_inches_have_a_tolerance_of_their_own():
    half = Sizes(1, "in").ask("Half of 17 in and 0.368 in?", 8.684 * 25.4, (), "by two")
    assert half.within() == "within 1/64 in"
    assert half.judge("8 11/16 in") == (True, "Right: 8 11/16 in (8.684). by two")
    assert half.judge("8.669 in")[0] and not half.judge("8 21/32 in")[0]


@pytest.mark.parametrize("inches, written", [
    (1 / 64, "8 11/16 in"), (0.01, "8.69 in"), (0.005, "8.688 in"), (0.0005, "8.6875 in"),
])  # fmt: skip
def test_answer_is_written_as_finely_as_the_tolerance_asks(inches, written):
    assert Sizes(1, "in").ask("?", 220.6625, (), "", mm=0.3, inches=inches).write(220.6625) == written


def test_slips_too_near_the_answer_or_each_other_are_not_told():
    question = Question("?", 100.0, ((100.5, "near"), (110.0, "first"), (110.5, "same"), (90.0, "other")), "")
    assert [said for _, said in question.told_slips()] == ["first", "other"]


@pytest.mark.parametrize("count", range(2, 9))
@pytest.mark.parametrize("turn", range(6))
def test_neighbours_get_different_choices_and_everyone_a_chance_of_each(turn, count):
    chosen = [Sizes(student).choose(turn, range(count)) for student in range(1, 100)]
    assert all(one != other for one, other in zip(chosen, chosen[1:]))
    assert set(chosen) == set(range(count))


def test_sizes_are_written_whole_in_either_unit():
    mm, inches = Sizes(1), Sizes(1, "in")
    assert [mm.write(size) for size in (440.0, 12.5, 0.35)] == ["440 mm", "12.5 mm", "0.35 mm"]
    assert [inches.write(size * 25.4) for size in (17.375, 0.5, 0.02, 0.0875)] == [
        "17 3/8 in", "1/2 in", "0.02 in", "0.0875 in",
    ]  # fmt: skip
    assert inches.write(20.0 * 0.45359237, "mass") == "20 lb" and mm.write(0.075, "percent") == "7.5 %"


def test_a_size_is_picked_by_its_unit_not_by_its_place():
    for student, unit, size in ((1, "mm", 320.0), (1, "in", 317.5)):
        picked = Sizes(student, unit).pick(0, inches=(12, 12.5), mm=(300, 320))
        assert picked.m_as("mm") == size
    with pytest.raises(MeasureError, match="works in in"):
        Sizes(1, "in").pick(0, mm=(300, 320))


def test_a_unit_nobody_asks_in_is_refused():
    with pytest.raises(MeasureError, match="mm or in in"):
        Sizes(1, "cubits")
