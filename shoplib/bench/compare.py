"""Two ways to the same thing, side by side: what each looks like, and what each comes to."""

import dataclasses
from html import escape

from shoplib.bench.standing import still_picture
from shoplib.drawing import draw
from shoplib.drawing.sheet import Sheet
from shoplib.drawing.svg import svg
from shoplib.model import Facts, answer_in_full, known
from shoplib.model.facts import FACE

PLATE = (560.0, 600.0)  # px: half of a page, so that its texts stay as large as on the bench


class SideBySide:
    """The first view of each model's drawing beside the other's, over a table of results that both have.

    What was given alike for all stands above, what was given for one alone stands under its picture.
    """

    def __init__(self, *models, show=(), unit="mm"):
        self.models, self.unit = models, unit
        first, *others = (type(model).results() for model in models)
        shared = [name for name, item in first.items() if all(name in other for other in others)]
        usual = [name for name in shared if not (first[name].minor or first[name].table)]
        self.names = list(show) or usual
        for name in self.names:
            known(name, {**first, **type(models[0]).inputs()}, "size")

    def facts(self):
        """The table: one row for each result, its words and what each model says."""
        rows = [(self._words(name), *(self._says(model, name) for model in self.models)) for name in self.names]
        return Facts(rows, head=("", *(draw(model, self.unit).title for model in self.models)))

    def _words(self, name):
        return _declared(self.models[0], name).words

    def _says(self, model, name):
        if name in model.inputs():
            return model.inputs()[name].write(model.values[name], self.unit)
        return answer_in_full(model.plain, name, self.unit)[0]

    def _alike(self):
        """The inputs that all models have, with one value."""
        first, *others = self.models
        return [
            name for name, value in first.values.items()
            if all(name in other.values and other.values[name] == value for other in others)
        ]  # fmt: skip

    def _given(self, model, names):
        """Inputs in words."""
        return ", ".join(f"{model.inputs()[name].words} {self._says(model, name)}" for name in names)

    def together(self):
        """What was given alike for all, in one sentence."""
        return f"Given for all: {self._given(self.models[0], self._alike())}."

    def apart(self, model):
        """What was given for this one alone, in one sentence; sizes that were left out or are nothing do not count."""
        names = [name for name, value in model.values.items() if value and name not in self._alike()]
        return f"{draw(model).title}: {self._given(model, names)}."

    def _repr_html_(self):
        pictures = "".join(
            f"<div style='flex:1 1 360px;min-width:300px'>{self._picture(each)}</div>" for each in self.models
        )
        return (
            f"<div style=\"{FACE};font-size:15px;line-height:1.4\">{escape(self.together())}</div>"
            f"<div style='display:flex;flex-wrap:wrap;gap:16px'>{pictures}</div>{self.facts()._repr_html_()}"
        )

    def _picture(self, model):
        whole = draw(model, self.unit)
        view = dataclasses.replace(whole.views[0], cell=(0, 0, 1, 1))
        sheet = Sheet(whole.title, whole.description, [view])
        return still_picture(svg(sheet, "still", *PLATE), sheet, note=escape(self.apart(model)))

    def __repr__(self):
        return "\n".join([self.together(), *map(self.apart, self.models), repr(self.facts())])


def _declared(model, name):
    return {**model.inputs(), **model.results()}[name]


def side_by_side(*models, show=(), unit="mm"):
    """Put models beside each other, for instance a StaveRing and a HollowBlank of the same ring.

    `show` names the results (or inputs) of the table, otherwise it has all results that the models share.
    """
    return SideBySide(*models, show=show, unit=unit)
