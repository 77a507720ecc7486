"""The class report against a made class with known slips, and against files torn, doubled, renamed and edited."""

import datetime
import os
import random

import pytest
from asked import asked, typed
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from pages import NASTY

from shoplib import class_report
from shoplib.practice.hand_in import written

NOON = datetime.datetime(2031, 5, 7, 12, 0)
STUDENTS = range(1, 21)
TOPIC = "circle_jigs"


def put(folder, name, student, answers, topic=TOPIC, unit="mm", minute=0):
    path = folder / name
    path.write_bytes(written(topic, student, unit, answers, NOON + datetime.timedelta(minutes=minute)).encode())
    return path


def right(student, topic=TOPIC, unit="mm"):
    return [typed(question, question.answer, unit) for question in asked(topic, student, unit)]


def slipped(student, places, topic=TOPIC, unit="mm"):
    """All right but the questions whose number is in `places`, which make the first slip that they can tell."""
    answers = right(student, topic, unit)
    for number in places:
        question = asked(topic, student, unit)[number - 1]
        answers[number - 1] = question.write(question.told_slips()[0][0])
    return answers


def slip(number, student=1, place=0):
    return asked(TOPIC, student)[number - 1].told_slips()[place][1]


@pytest.fixture
def school(tmp_path):
    """Twenty students, half in inches: 7 slip at question 1, 3 others there in another way; 5 leave question 6 open."""
    for student in STUDENTS:
        unit = "mm" if student % 2 else "in"
        answers = slipped(student, [1] if student <= 7 else [], unit=unit)
        if 7 < student <= 10:
            question = asked(TOPIC, student, unit)[0]
            answers[0] = question.write(question.told_slips()[1][0])
        if student > 15:
            answers[5] = ""
        if student == 20:
            answers[3] = "rubbish"
        put(tmp_path, f"hand-in_{student}.csv", student, answers, unit=unit)
    return tmp_path


def test_a_made_class_with_known_slips(school):
    report = class_report(school)
    assert [(each.topic, each.number) for each in report.counted] == [(TOPIC, number) for number in range(1, 7)]
    assert [(each.right, each.asked, each.open) for each in report.counted] == [
        (10, 20, 0), (20, 20, 0), (20, 20, 0), (19, 20, 0), (20, 20, 0), (15, 20, 5),
    ]  # fmt: skip
    first = report.counted[0]
    assert first.slips == {slip(1): 7, slip(1, place=1): 3}
    assert (first.commonest(), first.times()) == (slip(1), 7)
    assert not any(each.slips for each in report.counted[1:])
    assert report.left_out == report.notes == [] and report.others == 0
    assert repr(report).startswith(
        "20 hand-ins of 20 students on 1 topic. Every answer was judged anew.\n"
        "Take up first, where most made the same slip: Circle jigs 1 (7 of 20).\n"
    )
    assert report.table.rows[0] == ("Circle jigs 1", "10 of 20", "0", "7", slip(1))
    assert report.table.rows[5] == ("Circle jigs 6", "15 of 20", "5", "–", "")


def test_counts_of_a_class_by_chance_are_those_it_was_made_with(tmp_path):
    drawn = random.Random(9)
    wrong = {student: [number for number in range(1, 7) if drawn.random() < 0.4] for student in STUDENTS}
    for student, places in wrong.items():
        put(tmp_path, f"{student}.csv", student, slipped(student, places))
    for each in class_report(tmp_path).counted:
        made = [slip(each.number, student) for student in STUDENTS if each.number in wrong[student]]
        assert each.right == 20 - len(made)
        assert {said: times for said, times in each.slips.items()} == {said: made.count(said) for said in made}


def test_what_to_teach_next_is_where_the_greatest_share_made_one_slip(tmp_path):
    """Three of four before four of eight; one slip alone, or three different ones, call for no lesson."""
    for student in range(1, 9):
        places = [*([2] if student < 5 else []), *([4] if student == 1 else []), *([5] if student in (2, 5) else [])]
        put(tmp_path, f"a{student}.csv", student, slipped(student, places))
    for student in range(1, 5):
        answers = slipped(student, [3] if student < 4 else [], "rebates")
        question = asked("rebates", student)[0]
        if student < 4:
            answers[0] = question.write(question.told_slips()[student - 1][0])
        put(tmp_path, f"b{student}.csv", student, answers, "rebates")
    report = class_report(tmp_path)
    first = "Rebates 3 (3 of 4), Circle jigs 2 (4 of 8), Circle jigs 5 (2 of 8)"
    told = f"Take up first, where most made the same slip: {first}."
    assert report.to_teach() == told and f"<b>{told}</b>" in report._repr_html_() and told in repr(report)


def test_no_verdict_is_trusted(tmp_path):
    path = put(tmp_path, "a.csv", 1, slipped(1, [1, 2]))
    path.write_text(path.read_text().replace("not yet", "right"))
    report = class_report(tmp_path)
    assert [each.right for each in report.counted] == [0, 0, 1, 1, 1, 1]
    assert report.notes == [("a.csv", "its verdict on question 1, 2 is not what the answer comes to")]


def test_a_neighbours_file_with_another_number_is_judged_by_that_number(tmp_path):
    put(tmp_path, "a.csv", 1, right(1))
    text = (tmp_path / "a.csv").read_text()
    (tmp_path / "b.csv").write_text(text.replace("\n1,", "\n2,"))
    report = class_report(tmp_path)
    assert report.files == 2 and report.counted[0].right == 1
    assert report.notes and report.notes[0][0] == "b.csv"


@pytest.mark.parametrize("names", [("a.csv", "b.csv"), ("b.csv", "a.csv"), ("x.txt", "hand-in (1).csv")])
def test_of_two_hand_ins_the_later_one_counts_whatever_they_are_called(tmp_path, names):
    put(tmp_path, names[0], 5, slipped(5, [1, 2, 3]), minute=0)
    put(tmp_path, names[1], 5, right(5), minute=9)
    put(tmp_path, "other.csv", 5, right(5, "rebates"), "rebates", minute=3)
    report = class_report(tmp_path)
    assert [each.right for each in report.counted if each.topic == TOPIC] == [1] * 6
    assert report.left_out == [
        (names[0], f"student 5 handed in circle jigs again later, in {names[1]}, which counts"),
    ]
    assert (report.files, report.students) == (2, 1)


def test_a_copy_of_a_file_counts_once(tmp_path):
    data = put(tmp_path, "a.csv", 5, slipped(5, [1])).read_bytes()
    (tmp_path / "a (1).csv").write_bytes(data)
    report = class_report(tmp_path)
    assert [each.asked for each in report.counted] == [1] * 6
    assert report.left_out == [("a (1).csv", "student 5 handed in circle jigs again, in a.csv, which counts")]


def test_a_renamed_file_counts_and_other_files_are_passed_over(tmp_path):
    put(tmp_path, "maria", 5, right(5))
    put(tmp_path, "circle.doc", 6, right(6))
    (tmp_path / "card.pdf").write_bytes(b"%PDF-1.7 ...")
    (tmp_path / ".hidden.csv").write_text("a,b\n")
    (tmp_path / "parts.csv").write_text("part,count\nleg,4\n")
    (tmp_path / "folder.csv").mkdir()
    report = class_report(tmp_path)
    assert report.files == 2 and report.others == 1
    assert [name for name, _ in report.left_out] == ["parts.csv"]
    assert "Left out: parts.csv: its first line does not name the columns student, topic" in repr(report)
    assert "Passed over: 1 other file." in repr(report)


def test_what_is_torn_counts_as_far_as_it_goes_and_is_told(tmp_path):
    data = put(tmp_path, "torn.csv", 5, right(5)).read_bytes()
    (tmp_path / "torn.csv").write_bytes(data[: data.index(b"5,circle_jigs,mm,4") + 24])
    (tmp_path / "large.csv").write_bytes(data + b"x" * 300_000)
    (tmp_path / "empty.csv").write_bytes(b"")
    report = class_report(tmp_path)
    assert [(each.number, each.right) for each in report.counted] == [(1, 1), (2, 1), (3, 1)]
    assert dict(report.left_out).keys() == {"large.csv", "empty.csv"}
    told = [note for _, note in report.notes]
    assert told == ["1 of its lines is torn and left out", "question 4, 5, 6 is not in it"]


def test_a_pipe_or_a_link_to_nowhere_holds_nothing_up(tmp_path):
    os.mkfifo(tmp_path / "pipe.csv")
    (tmp_path / "link.csv").symlink_to(tmp_path / "nowhere.csv")
    (tmp_path / "loop.csv").symlink_to(tmp_path / "loop.csv")
    assert class_report(tmp_path).files == 0


def test_slips_that_are_equally_common_are_told_together(tmp_path):
    first, second = (asked(TOPIC, student)[0] for student in (1, 2))
    for student, question, place in ((1, first, 0), (2, second, 1)):
        put(tmp_path, f"{student}.csv", student, [question.write(question.told_slips()[place][0])])
    first = class_report(tmp_path).counted[0]
    assert (first.commonest(), first.times()) == (f"{slip(1)} Or: {slip(1, place=1)}", 1)


def test_no_folder_and_no_hand_in():
    with pytest.raises(FileNotFoundError, match="There is no folder"):
        class_report("no such folder")


def test_nothing_typed_becomes_markup_or_a_control_letter(tmp_path):
    put(tmp_path, "<img src=x onerror=alert(2)>.csv", 1, [NASTY] * 6)
    for name in ("a\x1b[31m\n.csv", "b<script>alert(1).csv", "c<img src=x>.csv"):
        (tmp_path / name).write_text(NASTY)
    (tmp_path / "b.csv").write_text(written(TOPIC, 2, "mm", ["1 mm"], NOON).replace("not yet", NASTY))
    report = class_report(tmp_path)
    for shown in (report._repr_html_(), report.table._repr_html_()):
        assert "<script" not in shown and "<img" not in shown
    assert "&lt;script&gt;alert(1)" in report._repr_html_() and len(report.left_out) == 3
    assert "\x1b" not in repr(report) and report.left_out[0][0] == "a?[31m?.csv"


@given(st.data())
@settings(max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_a_folder_of_broken_files_is_reported_on(tmp_path, data):
    """Good ones count in full whatever lies beside them."""
    for path in tmp_path.iterdir():
        path.unlink()
    for student in (1, 2):
        put(tmp_path, f"good_{student}.csv", student, right(student))
    for number in range(data.draw(st.integers(1, 4))):
        kept = bytearray(written("rebates", 3, "in", right(3, "rebates", "in"), NOON).encode())
        for _ in range(data.draw(st.integers(1, 5))):
            start = data.draw(st.integers(0, len(kept)))
            kept[start : start + data.draw(st.integers(0, 99))] = data.draw(st.binary(max_size=5))
        (tmp_path / f"broken_{number}.csv").write_bytes(kept)
    report = class_report(tmp_path)
    good = [each for each in report.counted if each.topic == TOPIC]
    assert all(each.right >= 2 or each.asked > 2 for each in good)
    assert report.files + len(report.left_out) == len(list(tmp_path.iterdir()))
    assert repr(report) and report._repr_html_()
