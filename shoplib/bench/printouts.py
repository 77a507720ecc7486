"""Buttons that save a card, a template or a DXF, and offer it as a download."""

import base64
from html import escape

import ipywidgets as widgets

from shoplib.bench import looks
from shoplib.bench.guard import guarded
from shoplib.drawing import has_template

KINDS = {
    "Bench card": "card", "Template A4": "A4", "Template Letter": "Letter", "Outline for CAD (DXF)": "dxf",
}


class Printouts:
    """Take it to the bench: each button writes a file beside the notebook and shows a link to it."""

    def __init__(self, bench):
        self.bench = bench
        self.link = widgets.HTML(layout=looks.COLUMN)
        self.buttons = {}
        for text, kind in KINDS.items():
            if kind != "card" and not has_template(bench.cls):
                continue
            button = widgets.Button(description=text, icon="download", layout=looks.BUTTON)
            button.on_click(guarded(bench, lambda _, kind=kind: self.save(kind)))
            self.buttons[kind] = button
        label = widgets.HTML(looks.paragraph("Take it to the bench", 16), layout=looks.LABEL)
        self.widget = widgets.VBox(
            [widgets.HBox([label, *self.buttons.values()], layout=looks.row()), self.link], layout=looks.COLUMN
        )

    def save(self, kind):
        """Write one file and offer it; sizes that cannot be made are not printed."""
        if self.bench.problem is not None:
            self.link.value = looks.paragraph("✗ These sizes cannot be made, so there is nothing to print.")
            return
        try:
            path = self._write(kind)
        except (OSError, ValueError) as error:
            self.link.value = looks.paragraph(f"✗ Not saved: {escape(str(error))}")
            return
        coded = base64.b64encode(path.read_bytes()).decode()
        kind_of_file = "application/dxf" if path.suffix == ".dxf" else "application/pdf"
        self.link.value = looks.paragraph(
            f"✓ Saved as {escape(str(path))}. <a style='{looks.LINK}' "
            f"download='{escape(path.name)}' href='data:{kind_of_file};base64,{coded}'>Download {escape(path.name)}</a>"
        )

    def forget(self):
        """Take the link away: the sizes have moved on, the file has not."""
        if self.link.value:
            self.link.value = ""

    def _write(self, kind):
        from shoplib import paper

        model, unit = self.bench.model, self.bench.unit
        if kind == "card":
            return paper.save_card(model, unit=unit)
        if kind == "dxf":
            return paper.save_dxf(model)
        return paper.save_template(model, paper=kind, unit=unit)
