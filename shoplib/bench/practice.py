"""Practice: questions with sizes of the student's own, judged within a stated tolerance.

A wrong answer is compared with the likely slips; the nearest one that fits is named.
"""

import threading

import ipywidgets as widgets

from shoplib.bench import looks
from shoplib.bench.folded import show_folded
from shoplib.bench.guard import guarded
from shoplib.practice import questions


class Practice:
    """A topic's questions on the page: a student number, an answer box for each, and what was found.

    >>> from shoplib import Practice
    >>> Practice("circle_jigs")._repr_mimebundle_()["text/plain"]
    'Practice circle_jigs: 5 questions for student 1'
    """

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
        return questions(self.topic, student or self.number.value)

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
