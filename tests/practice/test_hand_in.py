"""Handing in: what was typed comes back letter for letter, nothing in the file is a formula, what is broken is told."""

import contextlib
import csv
import datetime
import io
import re
from pathlib import Path

import pytest
from asked import TOPICS, asked, typed
from hypothesis import given
from hypothesis import strategies as st
from pages import NASTY
from traitlets import TraitError

from shoplib import Board, Part, Practice
from shoplib.maths.timber.files import read_boards, read_parts, write_boards, write_parts
from shoplib.paper.files import named
from shoplib.practice.hand_in import (
    HEAD,
    NOT_YET,
    OPEN,
    RIGHT,
    UNREAD,
    HandInError,
    as_typed,
    harmless,
    judged,
    read,
    written,
)

NOON = datetime.datetime(2031, 5, 7, 12, 0)
FORMULAS = [
    '=HYPERLINK("http://a.b","x")', "+1", "-1 mm", "@SUM(A1)", "\t=1", "\r=1", "\tx", " =1+1", "＝1", "'=1",
    "=cmd|' /C x'!A0",
]
texts = st.text(st.characters(exclude_categories=["Cs"]), max_size=40)
texts |= st.sampled_from([*FORMULAS, NASTY, '"', "a,b;c\n"])


def handed(answers, student=3, topic="circle_jigs", unit="mm"):
    return written(topic, student, unit, answers, NOON).encode()


@given(st.lists(texts, min_size=6, max_size=6))
def test_what_was_typed_comes_back_and_no_cell_is_a_formula(answers):
    data = handed(answers)
    found = read(data)
    assert list(found.answers.values()) == answers
    assert (found.student, found.topic, found.unit, found.moment) == (3, "circle_jigs", "mm", "2031-05-07 12:00:00")
    assert found.notes == ()
    for row in csv.reader(io.StringIO(data.decode(), newline="")):
        assert not any(cell[:1] in "=+-@\t\r＝＋－＠" for cell in row if cell)
        assert not any(cell.lstrip()[:1] in "=+-@" for cell in row if cell.strip())


@given(texts)
def test_a_harmless_cell_is_read_back_without_its_apostrophe(text):
    assert as_typed(harmless(text)) == text


@pytest.mark.parametrize("text", FORMULAS)
def test_a_formula_begins_with_an_apostrophe(text):
    assert harmless(text) == "'" + text


@pytest.mark.parametrize("topic", TOPICS)
@pytest.mark.parametrize("unit", ["mm", "in"])
def test_file_says_of_each_answer_what_it_comes_to(topic, unit):
    """Every answer right, then every slip that can be told, then what is neither."""
    questions = asked(topic, 4, unit)
    for place in range(6):
        answers, verdicts = [], []
        for question in questions:
            told = question.told_slips()
            if place == 0 or place > len(told):
                answers.append(typed(question, question.answer, unit))
                verdicts.append((RIGHT, ""))
            else:
                answers.append(question.write(told[place - 1][0]))
                verdicts.append((NOT_YET, told[place - 1][1]))
        rows = list(csv.DictReader(io.StringIO(handed(answers, 4, topic, unit).decode(), newline="")))
        assert tuple(rows[0]) == HEAD and [row["question"] for row in rows] == [
            str(number) for number in range(1, len(questions) + 1)
        ]
        assert [(row["verdict"], row["slip"]) for row in rows] == verdicts


def test_an_answer_may_be_left_open_or_be_no_measure():
    question = asked("circle_jigs", 1)[0]
    assert judged(question, "  ").word == OPEN
    assert judged(question, "rubbish") == (UNREAD, "")
    assert judged(question, "9 m") == (NOT_YET, "")
    assert judged(question, question.write(question.answer).replace("mm", "in")).slip.startswith("The number is good")


@pytest.mark.parametrize("text", FORMULAS)
def test_no_name_of_a_part_or_a_board_is_a_formula_in_its_file(tmp_path, text):
    """The other tables that are written for spreadsheets; a name comes back as it was, its spaces made one."""
    name = " ".join(text.split())
    path = write_boards([Board(name, "1900 mm", "150 mm", "27 mm")], tmp_path / "boards.csv")
    assert [board.name for board in read_boards(path)] == [name]
    part = Part(name, 1, "320 mm", "50 mm", "20 mm", "Ash, white")
    assert [each.name for each in read_parts(write_parts([part], tmp_path / "parts.csv"))] == [name]
    for written_file in ("boards.csv", "parts.csv"):
        for row in csv.reader((tmp_path / written_file).read_text("utf-8").splitlines()):
            assert not any(cell[:1] in "=+-@\t\r＝＋－＠" for cell in row if cell)


def test_a_student_number_that_is_no_number_leads_nowhere(tmp_path, monkeypatch):
    """Whatever a page sends for it: the file stays in its folder, under a name of its own."""
    (tmp_path / "in" / "here").mkdir(parents=True)
    monkeypatch.chdir(tmp_path / "in" / "here")
    page = Practice("circle_jigs", 7)
    for nasty in ("../../x", "/x", "..\\x", "=1+1", NASTY, -5, 10**9, None, ["../x"], 1.5, {}):
        with contextlib.suppress(TraitError, TypeError):
            page.number.set_state({"value": nasty})
        page.handing_in.buttons["Hand in"].click()
        assert page.number.value in range(1, 100)
    files = [path.relative_to(tmp_path) for path in tmp_path.rglob("*") if path.is_file()]
    assert files and all(path.parent == Path("in/here/printouts") for path in files)
    assert all(re.fullmatch(r"hand-in_student-\d\d?_circle_jigs_mm_[\d_-]+\.csv", path.name) for path in files)
    assert all(read((tmp_path / path).read_bytes()).topic == "circle_jigs" for path in files)
    assert named(["hand-in", "student-../../x", "a.csv"]).parent == Path("printouts")


# Files that went through other hands --------------------------------------------------------------------------

SIX = ["226.0 mm", "-3 mm", "½ in", "", "45 mm", "4"]


@pytest.mark.parametrize("recoded", [
    lambda text: text.encode("utf-8-sig"),
    lambda text: text.encode("utf-16"),
    lambda text: text.encode("cp1252"),
    lambda text: text.replace("\r\n", "\n").encode(),
    lambda text: text.replace(",", ";").encode(),
    lambda text: text.replace(",", "\t").encode(),
    lambda text: text.replace("student,topic", "Student , TOPIC").encode(),
    lambda text: text.replace("\r\n", ",,\r\n").encode(),
    lambda text: ("\n\n" + text + "\n\n").encode(),
    lambda text: text.rstrip().encode(),
])  # fmt: skip
def test_a_file_that_another_program_wrote_again_is_read_alike(recoded):
    text = written("circle_jigs", 3, "mm", SIX, NOON)
    assert read(recoded(text)).answers == read(text.encode()).answers == dict(enumerate(SIX, 1))


def test_columns_may_stand_in_another_order():
    rows = list(csv.reader(io.StringIO(handed(SIX).decode())))
    kept = io.StringIO()
    csv.writer(kept).writerows([row[::-1] for row in rows])
    assert read(kept.getvalue().encode()).answers == dict(enumerate(SIX, 1))


def test_of_a_torn_file_each_whole_answer_counts_and_no_other():
    data = handed(["226.0 mm", "194.0 mm", '1"', "4", "5, 6", "7"])
    whole = read(data).answers
    found = {}
    for end in range(len(data)):
        try:
            found = read(data[:end]).answers
        except HandInError:
            continue
        assert found.items() <= whole.items(), data[:end]
        if found != whole:
            assert read(data[:end]).notes
    assert len(found) == 6


@given(st.data())
def test_whatever_happens_to_a_file_it_is_read_or_refused_in_a_sentence(data):
    """Bytes changed, put in, taken out, in any place."""
    kept = bytearray(handed(SIX))
    for _ in range(data.draw(st.integers(1, 8))):
        start = data.draw(st.integers(0, len(kept)))
        kept[start : start + data.draw(st.integers(0, 30))] = data.draw(st.binary(max_size=4))
    try:
        found = read(bytes(kept))
    except HandInError as error:
        assert str(error) and str(error).isprintable()
        return
    assert 1 <= found.student <= 99 and found.topic in TOPICS and found.unit in ("mm", "in")
    for number, answer in found.answers.items():
        judged(asked(found.topic, found.student, found.unit)[number - 1], answer)


@pytest.mark.parametrize("change, why", [
    (("3,circle_jigs,mm,2", "4,circle_jigs,mm,2"), "more than one student"),
    (("3,circle_jigs,mm,2", "3,circle_jigs,in,2"), "more than one student"),
    (("\n3,", "\n0,"), "student number"), (("\n3,", "\n100,"), "student number"),
    (("\n3,", "\nthree,"), "student number"),
    (("\n3,", "\n٣,"), "student number"),
    (("circle_jigs", "question"), "none of the lessons"), (("circle_jigs", "../bench"), "none of the lessons"),
    ((",mm,", ",cm,"), "neither mm nor in"), (("answer", "reply"), "does not name the columns"),
    (("3,circle_jigs,mm,", ""), "no line of it is whole"),
])  # fmt: skip
def test_a_file_that_was_edited_beyond_use_is_refused(change, why):
    with pytest.raises(HandInError, match=why):
        read(handed(SIX).decode().replace(*change).encode())


@pytest.mark.parametrize("change, note, lost", [
    (("mm,2,", "mm,1,"), "question 1 stands in it more than once", {1, 2}),
    (("mm,2,", "mm,7,"), "a line has a number that no question has", {2}),
    (("45 mm", "1,250 mm"), "1 of its lines is torn", {5}),
    (("226.0 mm", "226.0 mm,,,,,extra"), "1 of its lines is torn", {1}),
])  # fmt: skip
def test_lines_that_were_edited_are_left_out_and_told(change, note, lost):
    found = read(handed(SIX).decode().replace(*change).encode())
    assert found.answers == {number: text for number, text in enumerate(SIX, 1) if number not in lost}
    assert any(note in each for each in found.notes)


@pytest.mark.parametrize("data", [b"", b"\n\n", b"\x00" * 50, b"\xff\xfe\x00", b"\x81\x8d" * 9, b"student", b'"' * 9])
def test_what_is_no_hand_in_is_refused(data):
    with pytest.raises(HandInError):
        read(data)
