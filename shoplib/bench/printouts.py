"""Buttons that save a card, a template or a DXF, and offer it as a link and as a download."""

from html import escape

import ipywidgets as widgets

from shoplib.bench import looks
from shoplib.bench.guard import guarded
from shoplib.drawing import has_template
from shoplib.model import MissingError

PAPERS = ("A4", "Letter")


class Printouts:
    """Take it to the bench: each button writes a file beside the notebook and shows links to it.

    A bench that prints something else than a model's sheets brings `writers`: what to call when a button with
    these words is pressed. `words` stand before the buttons.
    """

    def __init__(self, bench, writers=None, words="Take it to the bench"):
        self.bench = bench
        self.link = widgets.HTML(layout=looks.COLUMN)
        self.opener = None
        self.buttons = {}
        for name, write in (writers or _of_a_model(bench)).items():
            button = widgets.Button(description=name, icon="download", layout=looks.BUTTON)
            button.on_click(guarded(bench, lambda _, write=write: self.save(write)))
            self.buttons[name] = button
        label = widgets.HTML(looks.paragraph(words, 16), layout=looks.LABEL)
        bar = widgets.HBox([label, *self.buttons.values()], layout=looks.row())
        self.widget = widgets.VBox([bar, self.link], layout=looks.COLUMN)

    def save(self, write):
        """Write one file and offer it; sizes that cannot be made are not printed."""
        self.forget()
        if self.bench.problem is not None:
            self._say("✗ These sizes cannot be made, so there is nothing to print.")
            return
        try:
            path = write()
        except (OSError, ValueError, MissingError) as error:
            self._say(f"✗ Not saved: {escape(str(error))}")
            return
        from shoplib.paper.files import Unsaved, within

        if isinstance(path, Unsaved):
            self._say(f"✗ {escape(repr(path))}")
            return
        self._say(
            f"✓ Saved as {escape(path.as_posix())}. <a style='{looks.LINK}' download='{escape(path.name)}' "
            f"href='{within(path)}'>Download it</a>"
        )
        self._open(path)

    def forget(self):
        """Take the links away: the sizes have moved on, the file has not."""
        if self.link.value:
            self.link.value = ""
            self._show_in_opener("")

    def _say(self, text):
        self.link.value = looks.paragraph(f"<div style='overflow-wrap:anywhere'>{text}</div>")

    def _open(self, path):
        """A link that opens the file beside the page: the page itself writes it, for it knows where its folder is."""
        from shoplib.paper import link_to

        link = link_to(path)
        self._show_in_opener(f'<a href="{escape(link)}">Open it beside this page</a>' if link else "")

    def _show_in_opener(self, html):
        if self.opener is None and html:
            self.opener = widgets.Output(layout=looks.COLUMN)
            self.widget.children = (*self.widget.children, self.opener)
        if self.opener is not None:
            data = {"text/html": f"<div style='font-size:15px'>{html}</div>", "text/plain": ""}
            output = {"output_type": "display_data", "data": data, "metadata": {}}
            self.opener.outputs = (output,) if html else ()


def _of_a_model(bench):
    """What a bench with a model prints: its card, and its template where it has one."""
    kinds = {"Bench card": "save_card"} | ({"Template": "save_template"} if has_template(bench.cls) else {})
    found = {
        f"{words} {paper}": lambda what=what, paper=paper: _save(what, bench, paper=paper)
        for words, what in kinds.items() for paper in PAPERS
    }
    return found | ({"Outline for CAD (DXF)": lambda: _save("save_dxf", bench)} if has_template(bench.cls) else {})


def _save(what, bench, **how):
    """Save what stands on the bench, in its unit."""
    from shoplib import paper

    return getattr(paper, what)(bench.model, unit=bench.unit, **how)
