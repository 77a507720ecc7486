"""Handing in: a student's answers as a small open file (CSV), a line for each question, and reading it back.

Any spreadsheet opens it. A cell that such a program could take for a formula begins with an apostrophe there, which is
taken off again when it is read. Verdict and slip stand in it for whoever looks at it; nothing relies on them.
"""

import csv
import datetime
import io
from typing import NamedTuple

from shoplib import practice
from shoplib.tables.cells import as_typed, harmless

RIGHT, NOT_YET, UNREAD, OPEN = "right", "not yet", "not read", "not answered"
HEAD = ("student", "topic", "unit", "question", "answer", "verdict", "slip", "handed in")
NEEDED = HEAD[:5]
NO_SLIP = "Draw it and try again"  # what is said of a wrong answer that no slip comes to
MOST_STUDENTS = 99


class HandInError(ValueError):
    """A file that is no hand-in: says why."""


class Verdict(NamedTuple):
    """What an answer comes to, in a word or two, and the likely slip where there is one."""

    word: str
    slip: str = ""


class HandIn(NamedTuple):
    """What a student handed in: the answers as typed, by the number of the question; when, as text or nothing.

    `verdicts` are those of the file. `notes` are sentences on what of the file does not count.
    """

    student: int
    topic: str
    unit: str
    answers: dict
    verdicts: dict
    moment: str = ""
    notes: tuple = ()


def judged(question, answer):
    """What a question makes of an answer as typed.

    >>> judged(practice.questions("circle_jigs", 1)[0], "155 mm").slip
    "That is the reach to the cutter's edge: half the cutter is missing."
    """
    if not answer.strip():
        return Verdict(OPEN)
    right, said = question.judge(answer)
    if right:
        return Verdict(RIGHT)
    wrong, told = said.startswith("Not yet. "), said.removeprefix("Not yet. ")
    if not wrong:
        return Verdict(UNREAD)
    return Verdict(NOT_YET, "" if told.startswith(NO_SLIP) else told)


def written(topic, student, unit, answers, moment):
    """The file's text: the answers of all questions in their order, with what each comes to.

    >>> noon = datetime.datetime(2031, 5, 7, 12, 0)
    >>> for line in written("circle_jigs", 1, "mm", ["158 mm"], noon).splitlines():
    ...     print(line)
    student,topic,unit,question,answer,verdict,slip,handed in
    1,circle_jigs,mm,1,158 mm,right,,2031-05-07 12:00:00
    """
    kept = io.StringIO()
    lines = csv.writer(kept, lineterminator="\r\n")  # so that either of the two is quoted where it was typed
    lines.writerow(HEAD)
    for number, (question, answer) in enumerate(zip(practice.questions(topic, student, unit), answers), 1):
        verdict = judged(question, answer)
        cells = (student, topic, unit, number, answer, *verdict, moment.isoformat(" ", "seconds"))
        lines.writerow([harmless(str(cell)) for cell in cells])
    return kept.getvalue()


# Reading -----------------------------------------------------------------------------------------------------


def read(data):
    """A hand-in from the bytes of its file; what of it is torn or cannot be is left out, and its notes say so.

    Raises HandInError where nothing is left that counts.
    """
    rows, short = _rows(_text(data))
    student, topic, unit = _whose(rows)
    asked = practice.questions(topic, student, unit)
    answers, verdicts, notes = {}, {}, []
    numbers = [_whole(row["question"], len(asked)) for row in rows]
    for number, row in zip(numbers, rows):
        if number and numbers.count(number) == 1:
            answers[number], verdicts[number] = row["answer"], row.get("verdict", "").strip()
    if not answers:
        raise HandInError("no line of it is whole")
    if short:
        notes.append(f"{short} of its lines {'is' if short == 1 else 'are'} torn and left out")
    doubled = sorted({number for number in numbers if number and numbers.count(number) > 1})
    notes += [f"question {number} stands in it more than once and is left out" for number in doubled]
    if None in numbers:
        notes.append("a line has a number that no question has and is left out")
    missing = [str(number) for number in range(1, len(asked) + 1) if number not in answers and number not in doubled]
    if missing:
        notes.append(f"question {', '.join(missing)} is not in it")
    return HandIn(student, topic, unit, answers, verdicts, _moment(rows), tuple(notes))


def _text(data):
    """Text from bytes, as the programs write them that such a file may have gone through."""
    codings = ["utf-16"] if data[:2] in (b"\xff\xfe", b"\xfe\xff") else ["utf-8-sig", "cp1252"]
    for coding in codings:
        try:
            return data.decode(coding)
        except UnicodeDecodeError:
            continue
    raise HandInError("it is no text")


def _rows(text):
    """The whole rows by the names of their columns, and how many are not whole."""
    first = text.lstrip().partition("\n")[0]
    try:
        found = list(csv.reader(io.StringIO(text, newline=""), delimiter=max(",;\t", key=first.count)))
    except csv.Error:
        raise HandInError("its lines cannot be told apart") from None
    found = [[as_typed(cell) for cell in row] for row in found if any(cell.strip() for cell in row)]
    head = [name.strip().lower() for name in found[0]] if found else []
    if not all(head.count(name) == 1 for name in NEEDED):
        raise HandInError(f"its first line does not name the columns {', '.join(NEEDED)}")
    whole = [row for row in found[1:] if len(row) >= len(head) and not any(map(str.strip, row[len(head) :]))]
    if not whole:
        raise HandInError("no line of it is whole")
    return [dict(zip(head, row)) for row in whole], len(found) - 1 - len(whole)


def _whose(rows):
    """Student, topic and unit, alike in all rows."""
    found = {tuple(row[name].strip() for name in NEEDED[:3]) for row in rows}
    if len(found) > 1:
        raise HandInError("its lines are of more than one student, topic or unit")
    student, topic, unit = found.pop()
    number = _whole(student, MOST_STUDENTS)
    if number is None:
        raise HandInError(f"its student number is not a whole number from 1 to {MOST_STUDENTS}")
    if topic not in practice.topics():
        raise HandInError("its topic is none of the lessons")
    if unit not in ("mm", "in"):
        raise HandInError("its unit is neither mm nor in")
    return number, topic, unit


def _whole(text, most):
    """A whole number from 1 to the most, or None."""
    text = text.strip()
    return int(text) if text.isascii() and text.isdigit() and len(text) < 4 and 1 <= int(text) <= most else None


def _moment(rows):
    """When it was handed in, the first that can be read; nothing where none can."""
    for row in rows:
        try:
            return datetime.datetime.fromisoformat(row.get("handed in", "")).isoformat(" ", "seconds")[:19]
        except ValueError:
            continue
    return ""
