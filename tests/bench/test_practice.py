"""Practice questions of every topic: fair, different for neighbours, and judged by what a slip looks like."""

import importlib
import math
import pkgutil
import re

import pytest
from pages import NASTY, check_nothing_typed_runs, said

import shoplib.practice
from shoplib import Practice, measure
from shoplib.practice.question import Question, pick

TOPICS = [
    each.name for each in pkgutil.iter_modules(shoplib.practice.__path__)
    if hasattr(importlib.import_module(f"shoplib.practice.{each.name}"), "questions")
]  # fmt: skip
STUDENTS = range(1, 100)
every_topic = pytest.mark.parametrize("topic", TOPICS)


def asked(topic, student):
    return shoplib.practice.questions(topic, student)


def typed(question, value, unit="mm"):
    """A value as a careful student types it: to 0.01 mm, 0.01 deg or 1/64 in."""
    if question.kind == "count":
        return str(value)
    if question.kind == "angle":
        return measure.write(value, "angle", "deg", "0.01 deg")
    if question.kind != "length":
        unit = {"mass": "kg", "percent": "percent"}[question.kind]
        return measure.write(value, question.kind, unit, f"0.01 {unit}")
    return measure.write(value, "length", unit, "0.01 mm" if unit == "mm" else "0.001 in")


def test_topics_are_found():
    assert {"circle_jigs", "stave_rings"} <= set(TOPICS)


@every_topic
def test_three_to_six_questions_with_finite_answers(topic):
    for student in STUDENTS:
        questions = asked(topic, student)
        assert 3 <= len(questions) <= 6
        for question in questions:
            assert math.isfinite(question.answer)
            assert question.why and question.text.rstrip().endswith(("?", "."))


@every_topic
@pytest.mark.parametrize("unit", ["mm", "in"])
def test_right_answer_is_right(topic, unit):
    for student in STUDENTS:
        for question in asked(topic, student):
            right, sentence = question.judge(typed(question, question.answer, unit))
            assert right and sentence.startswith("Right"), (student, question.text)


@every_topic
def test_answer_as_its_own_sheet_shows_it_is_right(topic):
    for student in STUDENTS:
        for question in asked(topic, student):
            assert question.judge(question.write(question.answer))[0], (student, question.text)


@every_topic
def test_every_slip_that_is_told_gets_its_sentence(topic):
    for student in STUDENTS:
        for question in asked(topic, student):
            for value, sentence in question.told_slips():
                assert question.judge(typed(question, value)) == (False, f"Not yet. {sentence}")


@every_topic
def test_slips_are_told_for_nearly_every_student(topic):
    """Sizes where a slip happens to come near the answer are the exception."""
    for numbered in zip(*(asked(topic, student) for student in STUDENTS)):
        told = [bool(question.told_slips()) for question in numbered]
        assert sum(told) >= 0.9 * len(told), numbered[0].text


@every_topic
def test_every_listed_slip_is_told_to_somebody(topic):
    for numbered in zip(*(asked(topic, student) for student in STUDENTS)):
        listed = {sentence for question in numbered for _, sentence in question.slips}
        told = {sentence for question in numbered for _, sentence in question.told_slips()}
        assert listed == told


@every_topic
def test_neighbours_get_different_answers(topic):
    """On most questions another number, and never the same set."""
    for student in STUDENTS[:-1]:
        pairs = list(zip(asked(topic, student), asked(topic, student + 1)))
        differing = [not math.isclose(one.answer, other.answer, rel_tol=1e-6) for one, other in pairs]
        assert sum(differing) >= len(pairs) / 2, student


@every_topic
def test_same_student_gets_the_same_questions(topic):
    assert asked(topic, 7) == asked(topic, 7)


@every_topic
@pytest.mark.parametrize("text", ["rubbish", "5 nails", "440", NASTY, "1/0 mm", "-", "1e9 mm", "½", "3 m/s"])
def test_no_answer_gets_a_sentence_and_nothing_else(topic, text):
    for question in asked(topic, 1):
        right, sentence = question.judge(text)
        assert not right and sentence.endswith((".", "?")) and len(sentence) < 300
        if question.kind != "count" or not text.isdigit():
            assert not sentence.startswith("Not yet."), "it is no answer, not a wrong one"


def sizes(question):
    """The numbers in a question's text."""
    return [float(number) for number in re.findall(r"\d+(?:\.\d+)?", question.text)]


def test_circle_jig_answers_reckoned_from_their_own_text():
    for student in STUDENTS:
        disc, ring, test_cut, groove, passes = asked("circle_jigs", student)
        across, cutter = sizes(disc)
        assert disc.answer == pytest.approx((across + cutter) / 2)
        outside, width, bit = sizes(ring)
        assert ring.answer == pytest.approx(outside / 2 - width - bit / 2)
        assert test_cut.answer == pytest.approx(disc.answer - (sizes(test_cut)[-1] - across) / 2)
        small, large = sizes(groove)
        assert groove.answer == pytest.approx((large - small) / 2)
        stock, through, deepest = sizes(passes)
        assert passes.answer == math.ceil((stock + through) / deepest)


def test_stave_ring_answers_reckoned_from_their_own_text():
    for student in STUDENTS:
        mitre, edge, board, gap, reach = asked("stave_rings", student)
        (staves,) = sizes(mitre)
        assert math.degrees(mitre.answer) == pytest.approx(180 / staves)
        outside, margin, _ = sizes(edge)
        half, outer = math.pi / staves, outside / 2 + margin
        assert edge.answer == pytest.approx(2 * outer * math.tan(half))
        (inside,) = sizes(board)
        assert board.answer == pytest.approx(outer - (inside / 2 - margin) * math.cos(half))
        (error,) = sizes(gap)
        assert math.degrees(gap.answer) == pytest.approx(2 * staves * error)
        width = sizes(reach)[0]
        assert reach.answer == pytest.approx(math.sqrt(outer**2 - width**2))


@pytest.mark.parametrize("text, right, sentence", [
    ("220 mm", True, "Right: 220.0 mm. 440 / 2"), ("220.3 mm", True, "Right"), ("8 21/32 in", True, "Right"),
    ("220.4 mm", False, "too large"), ("219.6 mm", False, "too small"), ("440.2 mm", False, "whole diameter"),
])  # fmt: skip
def test_tolerance_and_slips(text, right, sentence):
    question = Question("Half of 440 mm?", 220.0, ((440.0, "That is the whole diameter."),), "440 / 2")
    judged = question.judge(text)
    assert judged[0] is right and sentence in judged[1]


def test_slips_too_near_the_answer_or_each_other_are_not_told():
    question = Question("?", 100.0, ((100.5, "near"), (110.0, "first"), (110.5, "same"), (90.0, "other")), "")
    assert [said for _, said in question.told_slips()] == ["first", "other"]


def test_pick_gives_neighbours_different_choices():
    for turn in range(5):
        choices = range(7)
        assert all(pick(student, turn, choices) != pick(student + 1, turn, choices) for student in STUDENTS)


# On the page ------------------------------------------------------------------------------------------------

@every_topic
def test_page_judges_each_answer_beside_its_box(topic):
    page = Practice(topic, 3)
    for box, told, question in zip(page.boxes, page.told, page.questions()):
        assert said(told) == ""
        box.value = typed(question, question.answer)
        assert said(told).startswith("✓ Right")
        box.value = NASTY
        assert said(told).startswith("✗")
        box.value = ""
        assert said(told) == ""
    check_nothing_typed_runs(page.widget)


@every_topic
def test_another_student_gets_other_sizes_and_is_judged_by_them(topic):
    page = Practice(topic, 3)
    first = page.questions()[0]
    page.boxes[0].value = typed(first, first.answer)
    before = [said(text) for text in page.asked]
    page.number.value = 4
    assert [said(text) for text in page.asked] != before
    assert said(page.told[0]).startswith("✗")


@every_topic
def test_static_page_has_the_questions_but_not_the_answers(topic):
    page = Practice(topic, 5)
    bundle = page._repr_mimebundle_()
    assert "\n" not in bundle["text/plain"]
    assert bundle["text/html"].count("<li>") == len(page.questions())
    assert not any(question.why in bundle["text/html"] for question in page.questions())


def test_teachers_answer_sheet(capsys):
    Practice("circle_jigs").answers(1, 2)
    lines = capsys.readouterr().out.splitlines()
    assert [line.partition(":")[0] for line in lines] == ["Student 1", "Student 2"]
    assert asked("circle_jigs", 2)[0].write(asked("circle_jigs", 2)[0].answer) in lines[1]
