"""Two ways to the same thing, side by side: their drawings and the results that they share."""

from html import escape

from shoplib.bench import looks
from shoplib.bench.bench import still_picture
from shoplib.drawing import draw
from shoplib.drawing.svg import svg
from shoplib.model import answer


class SideBySide:
    """Still drawings of several models beside each other over a table of the results they share."""

    def __init__(self, *models, unit="mm"):
        self.models, self.unit = models, unit
        first, *others = (type(model).results() for model in models)
        self.shared = [
            item for name, item in first.items() if not item.minor and all(name in other for other in others)
        ]

    def rows(self):
        """One row for each shared result: its words, then what each model says."""
        return [
            [item.words, *(answer(model.plain, item.name, self.unit)[0] for model in self.models)]
            for item in self.shared
        ]

    def _repr_html_(self):
        pictures = "".join(
            f"<div style='flex:1 1 420px;min-width:320px'>{self._picture(model)}</div>" for model in self.models
        )
        head = ["", *(escape(draw(model).title) for model in self.models)]
        return f"<div style='display:flex;flex-wrap:wrap;gap:12px'>{pictures}</div>{looks.table(head, self.rows())}"

    def _picture(self, model):
        sheet = draw(model, self.unit)
        return still_picture(svg(sheet, "still"), sheet, note=escape(repr(model)))

    def __repr__(self):
        return "\n".join(": ".join((words, " or ".join(texts))) for words, *texts in self.rows())


def side_by_side(*models, unit="mm"):
    """Put models beside each other, for instance a StaveRing and a HollowBlank of the same ring."""
    return SideBySide(*models, unit=unit)
