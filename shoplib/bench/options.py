"""A row of buttons of which one is chosen, for a page of plain widgets."""

import ipywidgets as widgets
import traitlets

from shoplib.bench import looks


class Options(widgets.HBox):
    """A row of buttons of which one is chosen: it is told by its mark, never by colour alone."""

    value = traitlets.Any()

    def __init__(self, options, value, about=""):
        self.options, self.about = dict(options), about
        self.buttons = {label: widgets.Button(layout=looks.BUTTON) for label in self.options}
        super().__init__(list(self.buttons.values()), layout=looks.row())
        for label, button in self.buttons.items():
            button.on_click(lambda _, label=label: self.set_trait("value", self.options[label]))
        self.observe(lambda _: self._mark(), "value")
        self.value = value
        self._mark()

    def _mark(self):
        for label, button in self.buttons.items():
            chosen = self.options[label] == self.value
            button.description = ("● " if chosen else "○ ") + label
            button.tooltip = f"{self.about}{label}" + (", chosen" if chosen else "")
