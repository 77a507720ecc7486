"""Practice questions of every topic, in both units: fair, different for neighbours, telling nobody an answer."""

import math
from functools import cache

import pytest
from asked import STUDENTS, TOPICS, UNITS, asked, bare_numbers, everyone, measures, typed, units_in
from pages import NASTY

from shoplib.practice import answer_sheet, questions
from shoplib.practice.question import Question

every_topic = pytest.mark.parametrize("topic", TOPICS)
in_both_units = pytest.mark.parametrize("unit", UNITS)
RUBBISH = [  # not "1 ft 13 in": it is answered with what a foot is
    "rubbish", "5 nails", "440", NASTY, "1/0 mm", "-", "1e9 mm", "½", "3 m/s", "1,250 mm", "1 5/4 in", "9 mm 9 in",
    "5.", "2.5 ft 3 in", "999 km", "x" * 99, "4 passes", "777 kg", "20 %", "400 deg", "", "3 4 5 in",
]  # fmt: skip


def test_topics_are_found():
    assert {"circle_jigs", "stave_rings"} <= set(TOPICS)


@every_topic
def test_three_to_six_questions_with_finite_answers(topic):
    for _, unit, numbered in everyone(topic):
        assert 3 <= len(numbered) <= 6
        for question in numbered:
            assert math.isfinite(question.answer) and question.unit == unit
            assert question.why and question.text.rstrip().endswith(("?", "."))


@every_topic
@in_both_units
def test_right_answer_is_right_in_either_unit(topic, unit):
    for student, _, numbered in everyone(topic):
        for question in numbered:
            right, sentence = question.judge(typed(question, question.answer, unit))
            assert right and sentence.startswith("Right"), (student, question.text)


@every_topic
def test_answer_as_its_own_sheet_writes_it_is_right(topic):
    for student, _, numbered in everyone(topic):
        for question in numbered:
            assert question.judge(question.write(question.answer))[0], (student, question.text)


@every_topic
def test_sizes_are_sensible_ones_of_their_own_unit(topic):
    """Millimetres to a tenth; inches as a fraction to 1/64 or a decimal to 0.001: none is the other turned over."""
    for student, unit, numbered in everyone(topic):
        for question in numbered:
            assert units_in(question.text) <= OWN_UNITS[unit], (student, question.text)
            lengths = [value for kind, value in measures(question.text) if kind == "length"]
            marks = (10.0,) if unit == "mm" else (64 / 25.4, 1000 / 25.4)
            assert all(any(math.isclose(size * mark, round(size * mark), rel_tol=1e-9) for mark in marks)
                       for size in lengths), (student, question.text)  # fmt: skip


OWN_UNITS = {
    "mm": {"mm", "deg", "kg", "%", "N", "MPa", "m²", "l"}, "in": {"in", "deg", "lb", "%", "lbf", "psi", "ft²", "fl oz"},
}


@every_topic
def test_tolerance_is_stated_in_the_questions_own_unit(topic):
    for _, unit, numbered in everyone(topic):
        for question in numbered:
            if question.kind == "count":
                assert question.within() == "a whole number"
            if question.kind == "length":
                assert question.within().endswith(f" {unit}")
                assert [value for _, value in measures(question.within())] == [pytest.approx(question.tolerance)]


@every_topic
def test_every_slip_that_is_told_gets_its_sentence(topic):
    for _, _, numbered in everyone(topic):
        for question in numbered:
            for value, sentence in question.told_slips():
                assert question.judge(typed(question, value)) == (False, f"Not yet. {sentence}")


@every_topic
@in_both_units
def test_slips_are_told_for_nearly_every_student(topic, unit):
    """Sizes where a slip happens to come near the answer are the exception."""
    for numbered in zip(*(asked(topic, student, unit) for student in STUDENTS)):
        told = [bool(question.told_slips()) for question in numbered]
        assert sum(told) >= 0.9 * len(told), numbered[0].text


@every_topic
@in_both_units
def test_every_listed_slip_is_told_to_somebody(topic, unit):
    for numbered in zip(*(asked(topic, student, unit) for student in STUDENTS)):
        for place in range(len(numbered[0].slips)):
            value_and_words = [question.slips[place] for question in numbered]
            assert any(slip in question.told_slips() for slip, question in zip(value_and_words, numbered)), (
                value_and_words[0]
            )


@every_topic
@in_both_units
def test_neighbours_cannot_copy(topic, unit):
    """A neighbour's answer is wrong, but for one question at most (two where whole numbers are counted)."""
    for student in STUDENTS[:-1]:
        pairs = list(zip(asked(topic, student, unit), asked(topic, student + 1, unit)))
        copied = [one for one, other in pairs if one.judge(other.write(other.answer))[0]]
        assert len([question for question in copied if question.kind != "count"]) <= 1, student
        assert len(copied) <= 2, student


@every_topic
@in_both_units
def test_same_student_gets_the_same_questions(topic, unit):
    assert questions(topic, 7, unit) == questions(topic, 7, unit)


# Nothing tells an answer ------------------------------------------------------------------------------------


def holds(text, question):
    """Whether a text has a number that would be judged right."""
    if question.kind == "count":
        return question.answer in bare_numbers(text)
    found = [value for kind, value in measures(text) if kind == question.kind]
    return any(abs(value - question.answer) <= question.tolerance for value in found)


@every_topic
def test_no_text_holds_an_answer(topic):
    """Neither a question's own nor another's: no number that is within the answer's tolerance."""
    for student, _, numbered in everyone(topic):
        for number, question in enumerate(numbered, 1):
            for place, other in enumerate(numbered, 1):
                assert not holds(other.text, question), (student, f"question {place} tells {number}: {other.text}")


@every_topic
def test_no_slip_and_no_reason_holds_another_answer(topic):
    for student, _, numbered in everyone(topic):
        for number, question in enumerate(numbered, 1):
            for place, other in enumerate(numbered, 1):
                told = [said for _, said in other.slips] + [other.why] * (place != number)
                assert not any(holds(said, question) for said in told), (student, place, number)


@every_topic
def test_no_refusal_holds_an_answer(topic):
    """Whatever is typed, what a person did not type himself is no answer to anything."""
    for student, _, numbered in everyone(topic):
        for question in numbered:
            for said in refusals(question.kind):
                assert not holds(said, question), (student, question.text, said)


@cache
def refusals(kind):
    """What is said to rubbish, less the rubbish itself, which is quoted in it."""
    said = {text: Question("?", 1e6, (), "", kind=kind).judge(text)[1] for text in RUBBISH}
    return [sentence.replace(repr(text), "") for text, sentence in said.items() if not sentence.startswith("Not yet.")]


@every_topic
@pytest.mark.parametrize("text", RUBBISH)
def test_no_answer_gets_a_sentence_and_nothing_else(topic, text):
    for unit in UNITS:
        for question in asked(topic, 1, unit):
            right, sentence = question.judge(text)
            assert not right and sentence.endswith((".", "?")) and len(sentence) < 300
            if sentence.startswith("Not yet."):
                assert question.kind == "count" and text.isdigit() or measures(text), "it is no answer, not a wrong one"


@every_topic
@in_both_units
def test_answer_sheet_has_a_row_for_each_student(topic, unit):
    sheet = answer_sheet(topic, (1, 2, 30), unit)
    head, *rows = repr(sheet).splitlines()
    assert [row.split()[0] for row in rows] == ["1", "2", "30"] and head.startswith("student")
    for row, student in zip(rows, (1, 2, 30)):
        assert all(question.tell(question.answer) in row for question in asked(topic, student, unit))
