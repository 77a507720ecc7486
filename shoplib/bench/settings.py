"""The table of settings, and beside each one a place to write what was measured."""

import ipywidgets as widgets

from shoplib.bench import looks
from shoplib.bench.guard import guarded
from shoplib.measure import MeasureError
from shoplib.measure import plain as read_plain
from shoplib.model import ShapeError, answer, write_value
from shoplib.model.inverse import plain_find


class Settings:
    """What to set, in the unit of the bench; measurements are told back as what they would make."""

    def __init__(self, cls, show, bench):
        self.cls, self.bench = cls, bench
        names = show or [name for name, item in cls.results().items() if not (item.minor or item.plan)]
        self.items = [cls.results()[name] for name in names]
        self.plans = [
            item for item in cls.results().values() if item.plan and not item.minor and item.name not in names
        ]
        self.boxes = [self._box(item) for item in self.items]
        self.table = widgets.HTML(layout=widgets.Layout(flex="5 1 360px", min_width="300px"))
        self.told = widgets.HTML(layout=widgets.Layout(flex="3 1 200px", min_width="180px"))
        head = widgets.HTML(
            f'<div style="{looks.FACE}height:{looks.HEAD_HEIGHT}px;line-height:{looks.HEAD_HEIGHT}px;font-size:16px">'
            "<b>You measured</b></div>",
            layout=widgets.Layout(height=f"{looks.HEAD_HEIGHT}px", margin="0 4px"),
        )
        column = widgets.VBox([head, *self.boxes], layout=widgets.Layout(flex="0 0 140px", width="140px"))
        grid = widgets.HBox([self.table, column, self.told], layout=widgets.Layout(width="100%"))
        self.plan = widgets.HTML(layout=looks.COLUMN)
        self.widget = widgets.VBox([grid, self.plan], layout=looks.COLUMN)

    def _box(self, item):
        measurable = item.kind in ("length", "angle")
        box = widgets.Text(
            continuous_update=False,
            placeholder="size and unit",
            style=looks.TYPED,
            disabled=not measurable,
            layout=looks.MEASURED if measurable else looks.NOT_MEASURED,
        )
        box.tooltip = f"What you measured: {item.words}"
        box.observe(guarded(self.bench, lambda _: self._tell()), "value")
        return box

    def update(self, plain, unit):
        """Write all settings anew."""
        self.plain, self.unit = plain, unit
        self.table.value = looks.settings(self.cls.TABLE_HEAD, [self._row(item) for item in self.items])
        self.plan.value = "".join(self._plan(item) for item in self.plans)
        self._tell()

    def empty(self):
        """No settings: the sizes cannot be made."""
        rows = [(item.words, item.symbol, "—", "", _help(item), "") for item in self.items]
        self.table.value = looks.settings(self.cls.TABLE_HEAD, rows)
        self.plan.value = ""

    def in_one_line(self):
        """All settings of the table in one line."""
        return ", ".join(f"{item.words} {answer(self.plain, item.name, self.unit)[0]}" for item in self.items)

    def _row(self, item):
        text, problem = answer(self.plain, item.name, self.unit)
        decimal = ""
        if self.unit == "in" and item.kind == "length" and not problem:
            decimal = f"{getattr(self.plain, item.name) / 25.4:.3f}"
        return (item.words, item.symbol, text, decimal, _help(item), problem)

    def _tell(self):
        """Say of each measurement how far it is out, and what it would make."""
        lines = [self._verdict(item, box.value.strip()) for item, box in zip(self.items, self.boxes)]
        told = looks.verdicts(lines)
        if told != self.told.value:
            self.told.value = told

    def _verdict(self, item, text):
        if not text:
            return ""
        try:
            measured = read_plain(item.kind, text)
            out = measured - getattr(self.plain, item.name)
            return self._out_by(item, out) + self._makes(item, measured)
        except MeasureError as error:
            return f"✗ {error}"
        except ShapeError as error:
            return f"✗ {error.tell(self.unit)}"

    def _out_by(self, item, out):
        size = item.write(abs(out), self.unit)
        if size == item.write(0.0, self.unit):
            return "✓ right. "
        return f"{size} too {'large' if out > 0 else 'small'}. "

    def _makes(self, item, measured):
        """What this setting would make: the input it hangs on, found for the measured value."""
        if not item.checks or self.bench.values.get(item.checks) is None:
            return ""
        hangs_on = self.cls.inputs()[item.checks]
        found = plain_find(self.cls, self.bench.values, hangs_on, item, measured)
        made = " or ".join(looks_like(hangs_on, value, self.unit) for value in found)
        return f"It makes: {hangs_on.words} {made}" if made else "No size in range comes out of it."

    def _plan(self, item):
        try:
            found = getattr(self.plain, item.name)
        except ShapeError:
            return ""
        if not item.table:
            return looks.paragraph(f"<b>{item.words}:</b> {item.write(found, self.unit)}", 16)
        if not found:
            return ""
        head = [name.replace("_", " ") for name in found[0]._fields]
        rows = [[item.write_cell(cell, self.unit) for cell in row] for row in found]
        return looks.paragraph(f"<b>{item.words}</b>", 16) + looks.table(head, rows)


def looks_like(item, value, unit):
    """A found size, read to a tenth of a millimetre or a 64th."""
    return write_value(value, item.kind, unit, "0.1 mm" if item.kind == "length" else item.step, "1/64 in")


def _help(item):
    return (item.__doc__ or "").strip().partition("\n")[0]
