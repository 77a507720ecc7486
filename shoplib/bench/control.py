"""One input on the bench: a slider, and a box beside it that takes any shop measure at any time."""

import math

import ipywidgets as widgets
import traitlets

from shoplib.bench import looks
from shoplib.measure import MeasureError
from shoplib.model import ShapeError


class Control:
    """Slider and box of one input. Tells `changed(name, value)` what a person asked for.

    The slider counts whole steps of the smallest division, so it reaches both its ends. The size
    itself is kept by the bench: a size that is typed between two steps is never rounded to one.
    """

    def __init__(self, item, value, unit, changed):
        self.item, self.changed, self.quiet = item, changed, False
        self.head = widgets.HTML(looks.head(item))
        self.note = widgets.HTML(layout=looks.note_layout())
        self.slider = widgets.IntSlider(readout=False, layout=looks.SLIDER)
        self.box = widgets.Text(
            continuous_update=False, layout=looks.BOX, style=looks.TYPED,
            placeholder="left out" if item.optional else "size and unit",
        )
        self.box.tooltip = self.slider.tooltip = f"{item.words}. {item.help}"
        row = widgets.HBox([self.slider, self.box])
        self.widget = widgets.VBox([self.head, row, self.note], layout=looks.CONTROL)
        self.show(value, unit, ranged=True)
        self.slider.observe(self._slid, "value")
        self.box.observe(self._typed, "value")

    def show(self, value, unit, ranged=False):
        """Put a value into slider and box without telling anyone; `ranged` sets the slider's ends anew."""
        self.quiet = True
        try:
            self.unit = unit
            self._say("")
            if ranged:
                self._set_range()
            if value is not None:
                self.slider.value = min(max(self._position(value), self.slider.min), self.slider.max)
            self.box.value = "" if value is None else self.item.write(value, unit)
        finally:
            self.quiet = False

    def _set_range(self):
        low, high = self.ends()
        self.slider.max = max(high, self.slider.min)
        self.slider.min, self.slider.max = low, high

    def ends(self):
        """The slider's ends in whole steps, inside the declared range."""
        step = self.item.step_in(self.unit)
        return math.ceil(self.item.low / step - 1e-9), math.floor(self.item.high / step + 1e-9)

    def _position(self, value):
        return round(value / self.item.step_in(self.unit))

    def value_at(self, position):
        """The input's value, in mm, rad or one, at a whole step of the slider."""
        if self.item.kind == "count":
            return position
        return position * self.item.step_in(self.unit)

    def _slid(self, change):
        if not self.quiet:
            self.changed(self.item.name, self.value_at(change["new"]))

    def _typed(self, change):
        if self.quiet:
            return
        text = change["new"]
        try:
            value = self.item.read(None if self.item.optional and not text.strip() else text)
        except (MeasureError, ShapeError) as error:
            self._say(error.tell(self.unit) if isinstance(error, ShapeError) else str(error))
        else:
            self.changed(self.item.name, value)

    def _say(self, wrong):
        """What was wrong with what was typed, below the box so that the box stays under the hand."""
        text = looks.wrong(wrong) if wrong else ""
        if text != self.note.value:
            self.note.value = text
            self.note.layout.display = None if wrong else "none"


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


MOST_BUTTONS = 6


class Choice:
    """A yes-or-no input, or one of a few words: plain buttons, the chosen one marked."""

    def __init__(self, item, value, unit, changed):
        self.item, self.changed, self.quiet = item, changed, False
        options = [("yes", True), ("no", False)] if item.kind == "flag" else [(word, word) for word in item.options]
        self.buttons = self._one_of(options, value)
        head = widgets.HTML(looks.head(item))
        self.widget = widgets.VBox([head, self.buttons], layout=looks.CONTROL)
        self.buttons.observe(self._chosen, "value")

    def _one_of(self, options, value):
        """Buttons side by side, or a list that folds out where there are many."""
        if len(options) <= MOST_BUTTONS:
            return Options(options, value, f"{self.item.words}: ")
        listed = widgets.Dropdown(options=options, value=value, layout=widgets.Layout(width="auto", height="40px"))
        listed.tooltip = f"{self.item.words}. {self.item.help}"
        return listed

    def show(self, value, unit, ranged=False):
        self.quiet = True
        try:
            self.buttons.value = value
        finally:
            self.quiet = False

    def _chosen(self, change):
        if not self.quiet:
            self.changed(self.item.name, change["new"])


def control(item, value, unit, changed):
    """The right control for an input's kind."""
    kind = Choice if item.kind in ("flag", "choice") else Control
    return kind(item, value, unit, changed)
