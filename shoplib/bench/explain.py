"""Why the number is what it is: the working, the error budget and the other way round, for one result."""

from html import escape

import ipywidgets as widgets

from shoplib.bench import looks
from shoplib.bench.guard import guarded
from shoplib.measure import MeasureError
from shoplib.model import ShapeError, finely
from shoplib.model.budget import plain_budget, told
from shoplib.model.inverse import plain_answers
from shoplib.model.working import Working

PANES = {"working": "Working", "budget": "Error budget", "inverse": "The other way round"}


class Explain:
    """Three panes that are worked out only while they are open."""

    def __init__(self, cls, bench):
        self.cls, self.bench = cls, bench
        results = {name: item for name, item in cls.results().items() if not item.plan and item.kind != "count"}
        self.chosen = widgets.Dropdown(
            options=[(item.words, name) for name, item in results.items() if not item.minor],
            layout=widgets.Layout(width="auto", height="40px"),
        )
        self.chosen.tooltip = "The result to explain"
        self.opened = {name: widgets.ToggleButton(tooltip="Open or close", layout=looks.BUTTON) for name in PANES}
        self.panes = {name: widgets.HTML(layout=looks.COLUMN) for name in PANES}
        self.whole = widgets.HTML(layout=looks.COLUMN)  # by itself, so that it stays unfolded while a slider moves
        self.asked = self._question()
        watched = [self.chosen, *self.opened.values(), self.wanted, self.input]
        for each in watched:
            each.observe(guarded(bench, lambda _: self.update()), "value")
        label = widgets.HTML(looks.paragraph("Explain", 16), layout=looks.LABEL)
        bar = widgets.HBox([label, self.chosen, *self.opened.values()], layout=looks.row())
        self.widget = widgets.VBox(
            [bar, self.panes["working"], self.whole, self.panes["budget"], self.asked, self.panes["inverse"]],
            layout=looks.COLUMN,
        )

    def _question(self):
        inputs = [(item.words, name) for name, item in self.cls.inputs().items() if item.kind not in ("flag", "choice")]
        self.input = widgets.Dropdown(options=inputs, layout=widgets.Layout(width="auto", height="40px"))
        self.input.tooltip = "The input to change"
        self.wanted = widgets.Text(
            continuous_update=False, placeholder="size and unit", layout=looks.BOX, style=looks.TYPED
        )
        self.wanted.tooltip = "The result that you want"
        parts = [
            widgets.HTML(looks.paragraph("To get", 16)),
            self.wanted,
            widgets.HTML(looks.paragraph("change the", 16)),
            self.input,
        ]
        return widgets.HBox(parts, layout=looks.row())

    def update(self):
        """Write the open panes; empty the others."""
        self.asked.layout.display = None if self.opened["inverse"].value else "none"
        self.folded = ""
        for name, pane in self.panes.items():
            self.opened[name].description = ("▾ " if self.opened[name].value else "▸ ") + PANES[name]
            text = self._written(name) if self.opened[name].value else ""
            if pane.value != text:
                pane.value = text
        if self.whole.value != self.folded:
            self.whole.value = self.folded

    def _written(self, name):
        if self.bench.problem is not None:
            return looks.paragraph("These sizes cannot be made: see the drawing.")
        try:
            return getattr(self, "_" + name)()
        except (ShapeError, MeasureError) as error:
            text = error.tell(self.bench.unit) if isinstance(error, ShapeError) else str(error)
            return looks.paragraph(escape(text))

    def _working(self):
        working = Working(self.cls, self.bench.plain, self.chosen.value, self.bench.unit)
        large = f"<div style='font-size:20px;{looks.OWN_SCROLL};text-align:left'>{{}}</div>"
        self.folded = looks.paragraph(large.format(working.whole_html)) if working.whole_html else ""
        return looks.paragraph(large.format(working.steps_html) + f"<small>{working.units}</small>")

    def _budget(self):
        found = told(self.cls, plain_budget(self.cls, self.bench.values, self.chosen.value), self.bench.unit)
        return looks.table(found.head, found.rows)

    def _inverse(self):
        if not self.wanted.value.strip():
            return looks.paragraph("Type the result that you want; the other inputs stay as they are.")
        result, item = self.cls.results()[self.chosen.value], self.cls.inputs()[self.input.value]
        found = plain_answers(self.cls, self.bench.values, item.name, {result.name: self.wanted.value})
        if not found:
            return looks.paragraph(f"No {item.words} within its range gives that.")
        texts = " or ".join(finely(item, value, self.bench.unit) for value in found)
        return looks.paragraph(f"{item.words}: <b>{texts}</b>", 18)
