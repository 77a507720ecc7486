"""Practice on the page: each answer judged beside its box, in the unit that is chosen."""

import base64
import re

import pytest
from asked import TOPICS, UNITS, asked, typed
from pages import NASTY, check_nothing_typed_runs, said

from shoplib import Practice
from shoplib.practice.hand_in import read

every_topic = pytest.mark.parametrize("topic", TOPICS)


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
def test_choosing_inches_asks_in_inches_and_says_so(topic):
    page = Practice(topic, 3)
    assert "millimetres" in said(page.heading)
    page.units.buttons["inches"].click()
    assert "inches" in said(page.heading) and page.unit == "in"
    for text, box, told, question in zip(page.asked, page.boxes, page.told, asked(topic, 3, "in")):
        assert question.text in said(text) and question.within() in said(text)
        box.value = typed(question, question.answer)
        assert said(told).startswith("✓ Right")
    page.units.buttons["millimetres"].click()
    assert asked(topic, 3)[0].text in said(page.asked[0])


@every_topic
@pytest.mark.parametrize("unit", UNITS)
def test_static_page_has_the_questions_but_not_the_answers(topic, unit):
    page = Practice(topic, 5, unit)
    bundle = page._repr_mimebundle_()
    assert "\n" not in bundle["text/plain"]
    assert bundle["text/html"].count("<li>") == len(page.questions())
    assert not any(question.why in bundle["text/html"] for question in page.questions())


def test_a_question_that_looks_like_markup_is_shown_as_text(monkeypatch):
    from shoplib.bench import practice
    from shoplib.practice.question import Question

    monkeypatch.setattr(practice, "questions", lambda *_: (Question(NASTY, 1.0, ((2.0, NASTY),), NASTY),))
    page = Practice("circle_jigs")
    for answer in ("1 mm", "2 mm", "3 mm", NASTY):
        page.boxes[0].value = answer
        check_nothing_typed_runs(page.widget)
    assert "<script" not in page._repr_mimebundle_()["text/html"]


def test_teachers_answer_sheet_is_folded_and_has_both_units():
    sheet = Practice("circle_jigs").answers(1, 2)
    page, text = sheet._repr_html_(), repr(sheet)
    assert page.startswith("<details") and page.count("<table") == 2
    for unit, words in (("mm", "In millimetres"), ("in", "In inches")):
        assert words in page and words in text
        for question in asked("circle_jigs", 2, unit):
            assert question.tell(question.answer) in text
            assert question.tell(question.answer).partition(" (")[0] in page


# Handing in -------------------------------------------------------------------------------------------------


@pytest.fixture
def beside(tmp_path, monkeypatch):
    """A folder of its own for what the page writes."""
    monkeypatch.chdir(tmp_path)
    return tmp_path


def press(page):
    page.handing_in.buttons["Hand in"].click()
    return said(page.handing_in.link)


@every_topic
def test_what_is_handed_in_is_what_was_typed_and_found(topic, beside):
    page = Practice(topic, 7)
    page.units.buttons["inches"].click()
    answers = [typed(question, question.answer, "in") for question in page.questions()]
    answers[0], answers[1] = NASTY, "=1+1"
    for box, text in zip(page.boxes, answers):
        box.value = text
    told = press(page)
    (path,) = (beside / "printouts").iterdir()
    assert told.startswith(f"✓ Saved as printouts/{path.name}.") and "Download it" in told
    assert path.name.startswith(f"hand-in_student-7_{topic}_in_20") and path.suffix == ".csv"
    found = read(path.read_bytes())
    assert (found.student, found.topic, found.unit) == (7, topic, "in")
    assert list(found.answers.values()) == answers
    assert list(found.verdicts.values()) == ["not read", "not read", *["right"] * (len(answers) - 2)]
    check_nothing_typed_runs(page.widget)


def test_download_holds_the_file(beside):
    page = Practice("circle_jigs")
    press(page)
    (path,) = (beside / "printouts").iterdir()
    coded = re.search(r"href='data:text/csv;base64,([^']*)'", page.handing_in.link.value)[1]
    assert base64.b64decode(coded) == path.read_bytes()


def test_link_goes_when_an_answer_moves_on(beside):
    page = Practice("circle_jigs")
    assert press(page)
    page.boxes[2].value = "1 mm"
    assert said(page.handing_in.link) == ""
    assert press(page)
    page.number.value = 5
    assert said(page.handing_in.link) == ""


def test_a_folder_that_cannot_be_written_is_told(beside):
    (beside / "printouts").write_text("in the way")
    assert press(Practice("circle_jigs")).startswith("✗ Not saved: Nothing can be written into the folder printouts")


def test_a_letter_that_is_half_a_pair_is_handed_in_all_the_same(beside):
    page = Practice("circle_jigs")
    page.boxes[0].value = "1 \ud800 mm"
    assert press(page).startswith("✓ Saved as")
