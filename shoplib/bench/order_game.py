"""The game of the order of work on the page: pick the next step; one that comes too early names its trap."""

from html import escape

from shoplib.bench import looks
from shoplib.bench.live import Live
from shoplib.bench.places import next_place
from shoplib.bench.standing import Standing
from shoplib.measure import MeasureError
from shoplib.practice.order_of_work import OFFERED, OrderOfWork

SLOT = f"{looks.PRESSED};display:block;width:100%;min-height:48px;margin:0 0 6px;text-align:left;font-size:16px"
NONE_LEFT = "Nothing is left to pick."


class OrderGame(Standing):
    """The steps of a stand's work, a few to pick from at a time, and the order as far as it is found.

    Which stand it is follows the student number, so that neighbours do not build the same one.

    >>> from shoplib import OrderGame
    >>> OrderGame().line()
    'Order of work for student 1: a stand with two trays, rims of staves, a pull bar on stubs and two casters. 0 of 38 \
steps are in order.'
    """

    failed = "Start again."

    def __init__(self, student=1):
        self.given, self.game, self.said, self.wrong = student, OrderOfWork(student), None, ""
        super().__init__()
        former = self.place.holder
        if isinstance(former, OrderGame) and former.given == student:
            self.game, self.said = former.game, former.said
        self.stand()

    def _build(self):
        self.live = Live(self.html(), self.shown(), self.hear)
        return self.live

    # The page -----------------------------------------------------------------------------------------------

    def html(self):
        """The page, empty: what to pick from on the left, the order so far on the right."""
        bar = looks.buttons(
            "<span style='font-size:16px'>Your student number (your neighbour builds another stand)</span>",
            looks.field("student", "Your student number, 1 to 99", "1 to 99", 76),
            looks.button("again", "", "Start again", "Begin this stand's order anew"),
        )
        slots = "".join(
            f'<button type="button" {looks.KEYS} data-press="pick" data-place="pick.{k}" title="A step to pick" '
            f'style="{SLOT}"></button>' for k in range(OFFERED)
        )
        left = (
            looks.part(1, bar + looks.place("wrong") + looks.place("about", style="font-size:16px;margin:4px 0")),
            looks.part(2, slots + looks.place("said", style="min-height:120px")),
        )
        return looks.page(left, [looks.part(3, looks.place("order"))])

    def shown(self):
        """All that stands on the page."""
        game, told = self.game, {}
        for k in range(OFFERED):
            name = game.offered[k] if k < len(game.offered) else ""
            title = self._titles()[name] if name else NONE_LEFT
            told[f"pick.{k}"] = {"data-value": name, "textContent": title, "title": title, "hidden": not name}
        ask = "Which of these steps can come next?" if game.left else "Done."
        return told | {
            "student": str(game.student), "wrong": looks.wrong(self.wrong) if self.wrong else "",
            "about": f"<b>{escape(ask)}</b> It is {escape(game.words())}.",
            "said": self._said_html(), "order": self._order_html(),
        }  # fmt: skip

    def _titles(self):
        return {each.name: each.title for each in self.game.steps}

    def _said_html(self):
        said = looks.told(self.said.right, self.said.sentence) if self.said else ""
        return said + looks.paragraph(escape(self.game.verdict()), 16)

    def _order_html(self):
        """The order so far: each step's number, its lesson, and the numbers of what had to come before it."""
        rows = self.rows()
        return looks.paragraph("<b>The order so far</b>", 16) + (
            looks.table(("step", "lesson", "after"), rows) if rows else looks.paragraph("Still empty.")
        )

    def rows(self):
        """What is done: step, lesson, and the numbers of the steps it had to wait for."""
        numbers = {name: number for number, name in enumerate(self.game.done, 1)}
        steps = {each.name: each for each in self.game.steps}
        return [
            (f"{number}. {steps[name].title}", steps[name].lesson[:2],
             ", ".join(str(numbers[each]) for each in self.game.after[name]) or "—")
            for name, number in numbers.items()
        ]  # fmt: skip

    # What a person does -------------------------------------------------------------------------------------

    def take(self, name, value):
        """Do what a person asked for: a step was picked, another student's stand wanted, or all begun again."""
        self.wrong = ""
        if name == "pick":
            if value in self.game.offered:  # a button that was pressed twice may hold another step by now
                self.said = self.game.pick(value)
        elif name == "again":
            self._begin(self.game.student)
        elif name == "student":
            self._begin(value)
        self.live.put(self.shown())

    def _begin(self, student):
        try:
            if isinstance(student, str):
                text = student.strip()
                student = int(text) if text.isascii() and text.isdigit() and len(text) < 3 else 0
            self.game, self.said = OrderOfWork(student), None
        except MeasureError as error:
            self.wrong = str(error)

    def show_failure(self, error):
        """Say that the game itself failed: never a traceback, never silence."""
        text = f"This could not be worked out ({type(error).__name__}). {self.failed}"
        self.live.put({"wrong": looks.wrong(text)})
        self.live.answer()

    # From a cell --------------------------------------------------------------------------------------------

    def pick(self, *names):
        """Pick steps by name, one after another; what the last one was answered with."""
        for name in names:
            self.said = self.game.pick(name)
        self.act(lambda: self.live.put(self.shown()))
        return self.said.sentence

    def line(self):
        """Which stand it is, and how far the order is found, in one line."""
        return f"Order of work for student {self.game.student}: {self.game.words()}. {self.game.verdict()}"

    def answers(self, student=None):
        """One order that cannot trap, for the teacher, folded."""
        return OrderSheet(OrderOfWork(student or self.given))

    def _repr_mimebundle_(self, include=None, exclude=None):
        with self.lock:
            if not self.place.keeps(self):
                self.place = next_place()
                self.stand()
            listed = "".join(f"<li>{escape(self._titles()[name])}</li>" for name in self.game.offered)
            return {
                "text/plain": self.line(),
                "text/html": (
                    f"<p>{escape(self.line())} Which of these can come next?</p><ul>{listed}</ul>"
                    "<p><small>Run the notebook to pick.</small></p>"
                ),
            } | self.place.view()


class OrderSheet:
    """A student's whole order with its traps: folded on a page, so that a learner is not shown it."""

    def __init__(self, game):
        self.game, self.sheet = game, game.answers()

    def __repr__(self):
        return f"Student {self.game.student}: {self.game.words()}\n{self.sheet!r}"

    def _repr_html_(self):
        *head, traps = self.sheet.head
        rows = [(f"{number}. {title}", lesson, after, said) for number, title, lesson, after, said in self.sheet.rows]
        return (
            f'<details style="{looks.FACE}font-size:15px;line-height:1.5"><summary>The order for the teacher</summary>'
            f"<p>Student {self.game.student}: {escape(self.game.words())}</p>"
            f"{looks.sentences((head[1], head[2], head[3], traps), rows)}</details>"
        )
