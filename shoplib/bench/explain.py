"""Why the number is what it is: the working, the error budget and the other way round, for one result."""

from html import escape

from shoplib.bench import looks
from shoplib.bench.control import WRONG, tell
from shoplib.model import finely
from shoplib.model.budget import plain_budget, told
from shoplib.model.inverse import plain_answers
from shoplib.model.working import Working

PANES = {"working": "Working", "budget": "Error budget", "inverse": "The other way round"}


class Explain:
    """Three panes that are worked out only while they are open."""

    def __init__(self, cls, bench):
        self.cls, self.bench = cls, bench
        results = [item for item in cls.results().values() if not (item.plan or item.minor or item.kind == "count")]
        inputs = [item for item in cls.inputs().values() if item.kind not in ("flag", "choice")]
        self.options = [(item.words, item.name) for item in results]
        self.inputs = [(item.words, item.name) for item in inputs]
        self.chosen, self.input, self.wanted = results[0].name, inputs[0].name, ""
        self.opened, self.found = dict.fromkeys(PANES, False), []

    def html(self):
        bar = looks.buttons(
            "<span style='font-size:16px'>Explain</span>",
            looks.listed("chosen", "The result to explain", self.options),
            *(looks.button("open", name, words, "Open or close", f"mark.{name}") for name, words in PANES.items()),
        )
        asked = looks.buttons(
            "<span style='font-size:16px'>To get</span>",
            looks.field("wanted", "The result that you want", "size and unit"),
            "<span style='font-size:16px'>change the</span>",
            looks.listed("input", "The input to change", self.inputs),
        )
        panes = (
            looks.pane(looks.place("working") + looks.place("whole"), "pane.working"),
            looks.pane(looks.place("budget"), "pane.budget"),
            looks.pane(asked + looks.place("inverse"), "pane.inverse"),
        )
        return bar + looks.panes(panes)

    def shown(self):
        """What stands in the places; a pane that is closed is not worked out."""
        found = {"chosen": self.chosen, "input": self.input, "wanted": self.wanted, "whole": ""}
        for name, is_open in self.opened.items():
            found[f"mark.{name}"] = "▾ " if is_open else "▸ "
            found[f"pane.{name}"] = {"hidden": not is_open}
            found |= self._written(name) if is_open else {name: ""}
        return found

    def take(self, name, value):
        """What a person did: a result chosen, a pane opened or closed, a question asked."""
        if name == "open" and value in self.opened:
            self.opened[value] = not self.opened[value]
        elif name == "chosen" and value in dict(map(reversed, self.options)):
            self.chosen = value
        elif name == "input" and value in dict(map(reversed, self.inputs)):
            self.input = value
        elif name == "wanted":
            self.wanted = value

    def keep(self, former):
        """Take over what was chosen, opened and asked on another bench of the same model."""
        self.chosen, self.input, self.wanted = former.chosen, former.input, former.wanted
        self.opened = dict(former.opened)

    def _written(self, name):
        if self.bench.problem is not None:
            return {name: looks.paragraph("These sizes cannot be made: see the drawing.")}
        try:
            return getattr(self, "_" + name)()
        except WRONG as error:
            return {name: looks.paragraph(escape(tell(error, self.bench.unit)))}

    def _working(self):
        working = Working(self.cls, self.bench.plain, self.chosen, self.bench.unit)
        steps = f"<div style='font-size:20px;{looks.OWN_SCROLL};text-align:left'>{working.steps_html}</div>"
        whole = f"<div style='font-size:20px;{looks.OWN_SCROLL}'>{working.whole_html}</div>"
        return {"working": looks.paragraph(f"{steps}<small>{working.units}</small>"), "whole": whole}

    def _budget(self):
        found = told(self.cls, plain_budget(self.cls, self.bench.values, self.chosen), self.bench.unit)
        return {"budget": looks.table(found.head, found.rows)}

    def _inverse(self):
        self.found = []
        if not self.wanted.strip():
            said = "Type the result that you want; the other inputs stay as they are."
            return {"inverse": looks.paragraph(said)}
        result, item = self.cls.results()[self.chosen], self.cls.inputs()[self.input]
        self.found = plain_answers(self.cls, self.bench.values, item.name, {result.name: self.wanted})
        if not self.found:
            return {"inverse": looks.paragraph(f"No {item.words} within its range gives that.")}
        uses = (
            f"<b>{escape(finely(item, value, self.bench.unit))}</b> "
            + looks.button("use", str(number), "Use this", f"Set the {item.words} to this")
            for number, value in enumerate(self.found)
        )
        return {"inverse": looks.paragraph(f"{escape(item.words)}: " + " or ".join(uses), 18)}

    def use(self, number):
        """The input and the value that were found for the wanted result, by their number; None where it is gone."""
        return (self.input, self.found[int(number)]) if int(number) < len(self.found) else None

