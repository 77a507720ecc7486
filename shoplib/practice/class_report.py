"""The class report: for each question how many were right and which slip was the commonest, from a folder of hand-ins.

No verdict in a file is trusted: each answer is judged anew. Whatever is left out is named, with the reason.
"""

from collections import Counter
from html import escape
from pathlib import Path
from typing import NamedTuple

from shoplib import practice
from shoplib.model.facts import CELL, FACE, Facts
from shoplib.practice.hand_in import HEAD, OPEN, RIGHT, HandInError, judged, read

LARGEST = 200_000  # bytes, far more than any hand-in
SUFFIXES = (".csv", ".txt")
TIED = 2  # slips that are told where several are the commonest
TAKEN_UP = 3  # questions that a lesson has time for


class Counted(NamedTuple):
    """How one question went: how many were asked it, were right, left it open; how often each slip was made."""

    topic: str
    number: int
    asked: int
    right: int
    open: int
    slips: Counter

    def name(self):
        return f"{titled(self.topic)} {self.number}"

    def times(self):
        """How often the commonest slip was made."""
        return max(self.slips.values(), default=0)

    def commonest(self):
        """The commonest slip in words, of several that are as common the first ones; nothing where nobody made one."""
        tied = [slip for slip, times in self.slips.items() if times == self.times()]
        return " Or: ".join(tied[:TIED]) + (f" Or {len(tied) - TIED} more." if len(tied) > TIED else "")


class ClassReport:
    """How a class did: `counted` are the questions in order, `left_out` and `notes` pairs of a file and a sentence."""

    def __init__(self, counted, students, files, left_out, notes, others):
        self.counted, self.students, self.files = counted, students, files
        self.left_out, self.notes, self.others = left_out, notes, others

    @property
    def table(self):
        rows = [
            (each.name(), f"{each.right} of {each.asked}", str(each.open), str(each.times() or "–"), each.commonest())
            for each in self.counted
        ]
        return Facts(rows, head=("question", "right", "left open", "times", "commonest slip"))

    def sentence(self):
        """Who and what was counted."""
        if not self.files:
            return "No hand-in was found."
        topics = len({each.topic for each in self.counted})
        return (
            f"{_many(self.files, 'hand-in')} of {_many(self.students, 'student')} on {_many(topics, 'topic')}. "
            "Every answer was judged anew."
        )

    def to_teach(self):
        """Which questions to take up first: those where most made the same slip; nothing where no two did."""
        often = sorted((each for each in self.counted if each.times() > 1), key=lambda each: -each.times() / each.asked)
        found = [f"{each.name()} ({each.times()} of {each.asked})" for each in often[:TAKEN_UP]]
        return f"Take up first, where most made the same slip: {', '.join(found)}." if found else ""

    def told(self):
        """Sentences on what does not count, and on what was not as it should be."""
        lines = [f"Left out: {name}: {why}." for name, why in self.left_out]
        lines += [f"Counted, but: {name}: {what}." for name, what in self.notes]
        return lines + ([f"Passed over: {_many(self.others, 'other file')}."] if self.others else [])

    def __repr__(self):
        table = [repr(self.table)] if self.counted else []
        return "\n".join([self.sentence(), *filter(None, [self.to_teach()]), *table, *self.told()])

    def _repr_html_(self):
        lines = "".join(f"<div style='overflow-wrap:anywhere'>{escape(line)}</div>" for line in self.told())
        return (
            f'<div style="{FACE};font-size:15px;line-height:1.4"><div>{escape(self.sentence())}</div>'
            f"<div><b>{escape(self.to_teach())}</b></div>"
            f"{_page_table(self.table) if self.counted else ''}{lines}</div>"
        )


def _page_table(table):
    """The table on a page: only the last column, which has sentences, is broken into lines."""
    head = "".join(f'<th style="{CELL};white-space:nowrap">{escape(text)}</th>' for text in table.head)
    rows = "".join(
        f'<tr><td style="{CELL};white-space:nowrap">{escape(name)}</td>'
        f'<td style="{CELL};white-space:nowrap"><b>{escape(right)}</b></td>'
        + "".join(f'<td style="{CELL}">{escape(text)}</td>' for text in others) + "</tr>"
        for name, right, *others in table.rows
    )  # fmt: skip
    return (
        "<div style='overflow-x:auto'>"
        f'<table style="{FACE};font-size:15px;line-height:1.35;border-collapse:collapse">'
        f"<tr>{head}</tr>{rows}</table></div>"
    )


def class_report(folder="printouts"):
    """Read all hand-ins of a folder and tell how each question went.

    Where a student handed in a topic more than once, the later one counts. Files may be renamed; what is torn or was
    edited counts as far as it can be read. Raises FileNotFoundError where there is no such folder.

    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     class_report(folder)
    No hand-in was found.
    """
    folder = Path(folder)
    if not folder.is_dir():
        raise FileNotFoundError(f"There is no folder {str(folder)!r} with hand-ins.")
    found, left_out, others = [], [], 0
    for path in sorted(folder.iterdir()):
        try:
            handed = _read(path)
        except HandInError as error:
            left_out.append((_name(path), str(error)))
            continue
        if handed is None:
            others += path.is_file() and not path.name.startswith(".")
        else:
            found.append((handed, path))
    latest, doubled = _latest(found)
    counts, notes = _counted([handed for handed, _ in latest]), []
    for handed, path in latest:
        notes += [(_name(path), note) for note in (*handed.notes, *_disagreements(handed))]
    students = len({handed.student for handed, _ in latest})
    return ClassReport(counts, students, len(latest), left_out + doubled, notes, others)


def _read(path):
    """The hand-in of a file, None where it is another kind of file."""
    try:
        if path.name.startswith(".") or not path.is_file():
            return None
        looks_like_one = path.suffix.lower() in SUFFIXES
        with path.open("rb") as file:
            data = file.read(LARGEST + 1)
    except OSError as error:
        raise HandInError(f"it cannot be read ({error.strerror})") from None
    begins = data[:400].replace(b"\0", b"")
    if not looks_like_one and not all(name.encode() in begins for name in HEAD[:5]):
        return None
    if len(data) > LARGEST:
        raise HandInError("it is too large for a hand-in")
    return read(data)


def _latest(found):
    """Of each student and topic the hand-in that counts, and what is said of the others."""

    def later(each):
        handed, path = each
        return handed.moment, path.name

    kept, doubled = {}, []
    for handed, path in sorted(found, key=later):
        key = handed.student, handed.topic
        if key in kept:
            again = "again" if handed.moment == kept[key][0].moment else "again later"
            told = f"student {handed.student} handed in {titled(handed.topic).lower()} {again}"
            doubled.append((_name(kept[key][1]), f"{told}, in {_name(path)}, which counts"))
        kept[key] = handed, path
    return list(kept.values()), doubled


def _counted(handed_in):
    """How each question went, the topics and questions in their order."""
    tallies = {}
    for each in handed_in:
        asked = practice.questions(each.topic, each.student, each.unit)
        for number, answer in each.answers.items():
            tallies.setdefault((each.topic, number), []).append(judged(asked[number - 1], answer))
    return [
        Counted(topic, number, len(verdicts), sum(each.word == RIGHT for each in verdicts),
                sum(each.word == OPEN for each in verdicts), Counter(each.slip for each in verdicts if each.slip))
        for (topic, number), verdicts in sorted(tallies.items())
    ]  # fmt: skip


def _disagreements(handed):
    """What the file says of its answers and they do not come to."""
    asked = practice.questions(handed.topic, handed.student, handed.unit)
    wrong = [
        str(number) for number, answer in handed.answers.items()
        if handed.verdicts[number] not in ("", judged(asked[number - 1], answer).word)
    ]  # fmt: skip
    if wrong:
        yield f"its verdict on question {', '.join(sorted(wrong))} is not what the answer comes to"


def titled(topic):
    words = topic.replace("_", " ")
    return words[:1].upper() + words[1:]


def _many(count, what):
    return f"{count} {what}{'' if count == 1 else 's'}"


def _name(path):
    """A file's name as it can be shown."""
    return "".join(letter if letter.isprintable() else "?" for letter in path.name)[:80]
