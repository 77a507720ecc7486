"""Practice: questions with sizes of the student's own, judged within a stated tolerance.

A wrong answer is compared with the likely slips; the nearest one that fits is named.
"""

import importlib
import threading
from dataclasses import dataclass

import ipywidgets as widgets

from shoplib import measure
from shoplib.bench import looks
from shoplib.bench.folded import show_folded
from shoplib.bench.guard import guarded
from shoplib.model import write_value

STEPS = {"length": "0.1 mm", "angle": "0.01 deg", "mass": "0.1 kg"}
FINE = {"length": "0.01 mm", "angle": "0.01 deg", "mass": "0.01 kg"}
HAIR = 1e-9  # an answer that is out by just the tolerance is within it


@dataclass(frozen=True)
class Question:
    """One question: what is asked, the answer in plain units, and the slips as (value, what was done)."""

    text: str
    answer: float
    slips: tuple
    why: str
    kind: str = "length"
    tolerance: float = 0.3

    def judge(self, text):
        """Judge what a student typed: (right or not, what to say).

        >>> question = Question("Half of 440 mm?", 220.0, ((440.0, "That is the whole diameter."),), "440 / 2")
        >>> question.judge("440 mm")
        (False, 'Not yet. That is the whole diameter.')
        """
        try:
            given = self._read(text)
        except measure.MeasureError as error:
            return False, str(error)
        if abs(given - self.answer) <= self.tolerance + HAIR:
            return True, f"Right: {self.write(self.answer)}. {self.why}"
        for value, said in self.told_slips():
            if abs(given - value) <= self.tolerance + HAIR:
                return False, f"Not yet. {said}"
        return False, "Not yet. Draw it and try again: it is too " + ("large." if given > self.answer else "small.")

    def told_slips(self):
        """The slips that the tolerance can tell from the answer and from each other."""
        kept = []
        for value, said in self.slips:
            if all(abs(value - other) > 2 * self.tolerance for other in (self.answer, *(v for v, _ in kept))):
                kept.append((value, said))
        return kept

    def _read(self, text):
        if self.kind != "count":
            return measure.plain(self.kind, text)
        clean = text.strip()
        if not (clean.isascii() and clean.isdigit() and len(clean) < 5):
            raise measure.MeasureError(f"Write a whole number such as 4, not {clean[:30]!r}.")
        return int(clean)

    def write(self, value):
        """A value as the answer sheet shows it: more finely where a hundredth is asked for."""
        steps = FINE if self.kind == "length" and self.tolerance < 0.1 else STEPS
        return write_value(value, self.kind, "mm", steps.get(self.kind), None)

    def within(self):
        """The tolerance in words."""
        return (
            "exactly"
            if self.kind == "count"
            else f"within {write_value(self.tolerance, self.kind, 'mm', FINE[self.kind], None)}"
        )


class Practice:
    """A topic's questions on the page: a student number, an answer box for each, and what was found."""

    def __init__(self, topic, student=1):
        self.topic, self.lock = topic, threading.RLock()
        self.number = widgets.BoundedIntText(
            value=student,
            min=1,
            max=99,
            layout=looks.NUMBER,
            style={"description_width": "auto"},
            description="Your student number (your neighbour's sizes differ)",
        )
        self.number.observe(guarded(self, lambda _: self._ask()), "value")
        self.asked, self.told = [], []
        self.boxes = []
        for index, _ in enumerate(self.questions()):
            self._add(index)
        rows = [
            widgets.VBox([text, widgets.HBox([box, told], layout=looks.row())], layout=looks.COLUMN)
            for text, box, told in zip(self.asked, self.boxes, self.told)
        ]
        self.widget = widgets.VBox([self.number, *rows], layout=looks.COLUMN)
        self._ask()

    def _add(self, index):
        box = widgets.Text(continuous_update=False, placeholder="answer", layout=looks.BOX, style=looks.TYPED)
        box.tooltip = f"Answer to question {index + 1}"
        box.observe(guarded(self, lambda _, index=index: self._judge(index)), "value")
        self.boxes.append(box)
        self.asked.append(widgets.HTML(layout=looks.COLUMN))
        self.told.append(widgets.HTML(layout=looks.WIDE))

    def questions(self, student=None):
        """The topic's questions with the sizes of one student."""
        module = importlib.import_module(f"shoplib.bench.{self.topic}")
        return module.questions(student or self.number.value)

    def _ask(self):
        for index, question in enumerate(self.questions()):
            self.asked[index].value = looks.paragraph(
                f"<b>{index + 1}.</b> {question.text} <small>(Answer {question.within()}.)</small>", 16
            )
            self._judge(index)

    def _judge(self, index):
        text = self.boxes[index].value
        if not text.strip():
            self.told[index].value = ""
            return
        right, said = self.questions()[index].judge(text)
        self.told[index].value = looks.told(right, said)

    def show_failure(self, error):
        self.told[0].value = looks.told(False, f"The question could not be judged ({type(error).__name__}).")

    def answers(self, *students):
        """Show the answer sheet for the teacher, folded."""
        show_folded("Answers for the teacher", map(self._sheet, students or (self.number.value,)))

    def _sheet(self, student):
        found = "; ".join(f"{i}: {q.write(q.answer)}" for i, q in enumerate(self.questions(student), 1))
        return f"Student {student}: {found}"

    def _repr_mimebundle_(self, include=None, exclude=None):
        questions = self.questions()
        listed = "".join(f"<li>{question.text}</li>" for question in questions)
        live = self.widget._repr_mimebundle_()
        return {
            "text/plain": f"Practice {self.topic}: {len(questions)} questions for student {self.number.value}",
            "text/html": f"<ol>{listed}</ol><p><small>Run the notebook to answer.</small></p>",
            "application/vnd.jupyter.widget-view+json": live["application/vnd.jupyter.widget-view+json"],
        }


def practice(topic, student=1):
    """A topic's practice questions, for instance practice("circle_jigs")."""
    return Practice(topic, student)


def pick(student, turn, choices):
    """One of the choices for a student: neighbours get different ones, everyone the same each time.

    >>> pick(1, 0, [300, 320, 340]), pick(2, 0, [300, 320, 340])
    (320, 340)
    """
    return choices[(student * (turn + 1) + turn) % len(choices)]
