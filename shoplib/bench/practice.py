"""Practice on the page: questions in the reader's unit, with sizes of the student's own, each judged beside its box."""

import datetime
import threading
from html import escape

import ipywidgets as widgets

from shoplib.bench import looks
from shoplib.bench.guard import guarded
from shoplib.bench.options import Options
from shoplib.bench.places import next_place
from shoplib.bench.printouts import Printouts
from shoplib.practice import answer_sheet, questions
from shoplib.practice.hand_in import written

WORDS = {"mm": "millimetres", "in": "inches"}


class Practice:
    """A topic's questions on the page: a student number and a unit, an answer box for each, and what was found.

    >>> from shoplib import Practice
    >>> Practice("circle_jigs", unit="in")._repr_mimebundle_()["text/plain"]
    'Practice on circle jigs: 6 questions for student 1, in inches'
    """

    problem = None  # answers can always be handed in

    def __init__(self, topic, student=1, unit="mm"):
        self.topic, self.lock, self.place = topic, threading.RLock(), next_place()
        former, self.given = self.place.holder, (topic, student, unit)
        self.place.fill(self, lambda: self._build(student, unit))
        if isinstance(former, Practice) and former.given == self.given:
            self._keep(former)

    @property
    def widget(self):
        """The box in which the questions stand on every page that shows them."""
        return self.place.box

    def _keep(self, former):
        """Take over the student's number, unit and answers: the cell has only run again."""
        self.number.value, self.units.value = former.number.value, former.unit
        self._answer(former.texts())

    def _answer(self, texts):
        for box, text in zip(self.boxes, texts):
            box.value = text

    def texts(self):
        """What stands in the answer boxes."""
        return [box.value for box in self.boxes]

    def _build(self, student, unit):
        self.number = widgets.BoundedIntText(
            value=student,
            min=1,
            max=99,
            layout=looks.NUMBER,
            style={"description_width": "auto"},
            description="Your student number (your neighbour's sizes differ)",
        )
        self.number.observe(guarded(self, lambda _: self._ask()), "value")
        self.units = Options([(words, name) for name, words in WORDS.items()], unit, "Sizes in ")
        self.units.observe(guarded(self, lambda _: self._ask()), "value")
        self.heading = widgets.HTML(layout=looks.COLUMN)
        self.asked, self.told = [], []
        self.boxes = []
        for index, _ in enumerate(self.questions()):
            self._add(index)
        rows = [
            widgets.VBox([text, widgets.HBox([box, told], layout=looks.row())], layout=_apart())
            for text, box, told in zip(self.asked, self.boxes, self.told)
        ]
        self.handing_in = Printouts(self, {"Hand in": self.hand_in}, "When you are done")
        self._ask()
        return widgets.VBox(
            [self.number, self.units, self.heading, *rows, self.handing_in.widget], layout=looks.COLUMN
        )

    def _add(self, index):
        box = widgets.Text(continuous_update=False, layout=looks.BOX, style=looks.TYPED)
        box.tooltip = f"Answer to question {index + 1}"
        box.observe(guarded(self, lambda _, index=index: self._judge(index)), "value")
        self.boxes.append(box)
        self.asked.append(widgets.HTML(layout=looks.COLUMN))
        self.told.append(widgets.HTML(layout=looks.WIDE))

    @property
    def unit(self):
        """The unit that the questions are asked in: "mm" or "in"."""
        return self.units.value

    def questions(self, student=None):
        """The topic's questions with the sizes of one student, in the unit that is chosen."""
        return questions(self.topic, student or self.number.value, self.unit)

    def _ask(self):
        self.heading.value = looks.paragraph(
            f"All sizes are in <b>{WORDS[self.unit]}</b>. Write each answer with its unit.", 16
        )
        for index, question in enumerate(self.questions()):
            self.asked[index].value = looks.paragraph(
                f"<b>{index + 1}.</b> {escape(question.text)} <small>(Answer: {question.within()}.)</small>", 16
            )
            self.boxes[index].placeholder = "how many" if question.kind == "count" else "size and unit"
            self._judge(index)

    def _judge(self, index):
        self.handing_in.forget()
        text = self.boxes[index].value
        if not text.strip():
            self.told[index].value = ""
            return
        right, said = self.questions()[index].judge(text)
        self.told[index].value = looks.told(right, said)

    def show_failure(self, error):
        self.told[0].value = looks.told(False, f"The question could not be judged ({type(error).__name__}).")

    def hand_in(self):
        """Write the answers as they stand into a small open file for the teacher; returns its path."""
        from shoplib.paper.files import named, save_whole

        student, now = self.number.value, datetime.datetime.now()
        text = written(self.topic, student, self.unit, self.texts(), now)
        path = named(["hand-in", f"student-{student}", self.topic, self.unit, f"{now:%Y-%m-%d_%H-%M-%S}.csv"])
        return save_whole(path, lambda temporary: temporary.write_bytes(text.encode("utf-8", "replace")))

    def answers(self, *students):
        """The answers for the teacher, in both units, folded."""
        return AnswerSheet(self.topic, students or (self.number.value,))

    def _repr_mimebundle_(self, include=None, exclude=None):
        numbered = self.questions()
        listed = "".join(f"<li>{escape(question.text)} (Answer: {question.within()}.)</li>" for question in numbered)
        self._stand()
        about = f"{len(numbered)} questions for student {self.number.value}, in {WORDS[self.unit]}"
        return {
            "text/plain": f"Practice on {self.topic.replace('_', ' ')}: {about}",
            "text/html": f"<ol>{listed}</ol><p><small>Run the notebook to answer.</small></p>",
        } | self.place.view()

    def _stand(self):
        """Stand on the page once more, where another has taken the place or it was closed."""
        if not self.place.keeps(self):
            texts, self.place = self.texts(), next_place()
            self.place.fill(self, lambda: self._build(self.number.value, self.unit))
            self._answer(texts)


def _apart():
    """A question and its answer, apart from the next."""
    return widgets.Layout(width="100%", overflow="visible", margin="6px 0 6px 0")


class AnswerSheet:
    """The teacher's answers in both units, a table each: folded on a page, so that a learner is not shown them."""

    def __init__(self, topic, students):
        self.sheets = {unit: answer_sheet(topic, students, unit) for unit in WORDS}

    def __repr__(self):
        return "\n".join(f"In {WORDS[unit]}\n{sheet!r}" for unit, sheet in self.sheets.items())

    def _repr_html_(self):
        tables = "".join(
            f"<p><b>In {WORDS[unit]}</b></p><div style='{looks.OWN_SCROLL}'>{_narrow_table(sheet)}</div>"
            for unit, sheet in self.sheets.items()
        )
        return (
            f'<details style="{looks.FACE}font-size:15px;line-height:1.5"><summary>Answers for the teacher</summary>'
            f"{tables}</details>"
        )


CELL = "padding:3px 12px 3px 0;border-top:1px solid var(--jp-border-color2,#ccc);text-align:left;white-space:nowrap"


def _narrow_table(sheet):
    """Facts with what stands in brackets under what stands before it, so that six answers fit on a tablet."""
    head = "".join(f"<th style='{CELL}'>{escape(text)}</th>" for text in sheet.head)
    rows = "".join(f"<tr>{''.join(map(_cell, row))}</tr>" for row in sheet.rows)
    return (
        f'<table style="{looks.FACE}font-size:15px;line-height:1.25;border-collapse:collapse">'
        f"<tr>{head}</tr>{rows}</table>"
    )


def _cell(text):
    answer, bracket, beside = text.partition(" (")
    below = f"<br><small>({escape(beside)}</small>" if bracket else ""
    return f"<td style='{CELL}'>{escape(answer)}{below}</td>"
