"""The bench: one model live on a page, with its sliders, drawing, settings, cautions and printouts."""

import base64
import itertools
import threading
from html import escape

import ipywidgets as widgets

from shoplib.bench import looks
from shoplib.bench.control import Options, control
from shoplib.bench.explain import Explain
from shoplib.bench.folded import show_folded
from shoplib.bench.guard import guarded
from shoplib.bench.printouts import Printouts
from shoplib.bench.settings import Settings
from shoplib.drawing import draw
from shoplib.drawing.svg import svg
from shoplib.model import ShapeError, known, public, summary

_numbers = itertools.count(1)
_open_benches = {}


class Bench:
    """A model on the bench, starting from the sizes it is given.

    Give `show` to choose which results stand in the table. Inside, all sizes are floats in mm
    and rad; `bench.model` is the model as it stands now, `bench.set(...)` changes several inputs
    and redraws once.

    >>> from shoplib import Bench, CircleJig
    >>> bench = Bench(CircleJig("440 mm", "12 mm", ring_width="20 mm"))
    >>> bench.set(diameter="17 3/8 in")
    >>> bench.model.outer_pivot
    <Quantity(226.6625, 'millimeter')>
    """

    def __init__(self, model, show=None, unit="mm"):
        self.cls, self.unit = type(model), unit
        self.start, self.values = dict(model.values), dict(model.values)
        self.plain, self.problem, self.lock = model.plain, None, threading.RLock()
        self.prefix = f"bench{next(_numbers)}"
        self.controls = {
            name: control(item, self.values[name], unit, self._changed) for name, item in self.cls.inputs().items()
        }
        self.picture = widgets.HTML(layout=looks.PICTURE)
        self.cautions = widgets.HTML(layout=looks.COLUMN)
        self.settings = Settings(self.cls, show, self)
        self.explain = Explain(self.cls, self)
        self.printouts = Printouts(self)
        self.widget = self._build()
        close_the_one_before(self)
        self.refresh()

    def _build(self):
        self.units = Options([("millimetres", "mm"), ("inches", "in")], self.unit)
        self.units.observe(guarded(self, self._switch_units), "value")
        back = widgets.Button(description="Back to the start", layout=looks.BUTTON)
        back.on_click(guarded(self, lambda _: self._reset()))
        bar = widgets.HBox([*self.units.children, back], layout=looks.row())
        controls = widgets.Box([bar, *(each.widget for each in self.controls.values())], layout=looks.CONTROLS)
        top = widgets.Box([self.picture, controls], layout=looks.TOP)
        parts = [top, self.settings.widget, self.cautions, self.explain.widget, self.printouts.widget]
        return widgets.VBox(parts, layout=looks.COLUMN)

    @property
    def model(self):
        """The model as it stands on the bench; raises ShapeError where it cannot be made."""
        with self.lock:
            return self.cls(**{name: _quantity(self.cls.inputs()[name], value) for name, value in self.values.items()})

    def set(self, **sizes):
        """Change several inputs at once, given as the model takes them, and redraw once."""
        inputs = self.cls.inputs()
        for name in sizes:
            known(name, inputs, "input")
        read = {name: inputs[name].read(value) for name, value in sizes.items()}
        with self.lock:
            self.values.update(read)
            for name, value in read.items():
                self.controls[name].show(value, self.unit)
            self.refresh()

    def _changed(self, name, value):
        guarded(self, self._take)(name, value)

    def _take(self, name, value):
        self.values[name] = value
        self.controls[name].show(value, self.unit)
        self.refresh()

    def _reset(self):
        self.values = dict(self.start)
        for name, each in self.controls.items():
            each.show(self.values[name], self.unit)
        self.refresh()

    def _switch_units(self, change):
        self.unit = change["new"]
        for name, each in self.controls.items():
            each.show(self.values[name], self.unit, ranged=True)
        self.refresh()

    def refresh(self):
        """Solve, draw and write everything that is in view."""
        self.printouts.forget()
        try:
            plain = self.cls.solved(self.values)
            drawing = svg(draw(plain, self.unit), self.prefix)
            found = tuple(plain.worries())
        except ShapeError as error:
            self._cannot(error)
            return
        self.plain, self.problem, self.drawing = plain, None, drawing
        self.picture.value = looks.picture(drawing)
        self.settings.update(plain, self.unit)
        self.cautions.value = looks.cautions(found, self.unit)
        self.explain.update()

    def _cannot(self, error):
        """Say why these sizes cannot be made; the last good drawing stays, marked as such."""
        self.problem = error
        self.picture.value = looks.picture(self.drawing, error.tell(self.unit))
        self.settings.empty()
        self.cautions.value = looks.paragraph("")
        self.explain.update()

    def show_failure(self, error):
        """Say that the bench itself failed: never a traceback, never silence."""
        text = f"The bench could not work this out ({type(error).__name__}). Go back to the start and try other sizes."
        self.picture.value = looks.picture(getattr(self, "drawing", ""), text)

    def line(self):
        """Inputs and results in one line with units, or why there are none."""
        if self.problem is not None:
            return f"{self.cls.__name__}: cannot be made. {self.problem.tell(self.unit)}"
        return summary(self.cls, self.plain, self.unit)

    def walk(self, **impossible):
        """Move each slider to both ends and back, then try what cannot be made; show, folded, what the bench says."""
        said = []
        for name, each in self.controls.items():
            if hasattr(each, "ends"):
                former = self.values[name]
                for position in each.ends():
                    each.slider.value = position
                    said.append(self._answers(name))
                self._take(name, former)
        for name, size in impossible.items():
            former = self.values[name]
            self.set(**{name: size})
            said.append(self._answers(name))
            self._take(name, former)
        show_folded(f"{self.cls.__name__}: every slider at both ends", said)

    def _answers(self, name):
        item = self.cls.inputs()[name]
        found = "cannot be made. " + self.problem.tell(self.unit) if self.problem else self.settings.in_one_line()
        return f"{item.words} {item.write(self.values[name], self.unit)}: {found}"

    def _repr_mimebundle_(self, include=None, exclude=None):
        plate = svg(draw(self.plain, self.unit), "still")
        live = self.widget._repr_mimebundle_()
        return {
            "text/plain": self.line(),
            "text/html": still_picture(plate, draw(self.plain, self.unit)),
            "application/vnd.jupyter.widget-view+json": live["application/vnd.jupyter.widget-view+json"],
        }


def close_the_one_before(bench):
    """When a cell is run again its former bench goes, so that no sleeping sliders stay behind."""
    cell = _cell_id()
    if cell is None:
        return
    former = _open_benches.pop(cell, None)
    if former is not None:
        _close(former.widget)
    _open_benches[cell] = bench


def still_picture(plate, sheet, note="A still picture: run the notebook to move the sliders."):
    """The drawing for pages without a kernel: code hosts, print, a notebook that has not been run."""
    coded = base64.b64encode(plate.encode()).decode()
    spoken = escape(f"{sheet.title}. {sheet.description}")
    return (
        f'<img alt="{spoken}" src="data:image/svg+xml;base64,{coded}" style="width:100%;max-width:960px">'
        f"<p><small>{note}</small></p>"
    )


def _quantity(item, value):
    return value if value is None else public(value, item.kind)


def _close(widget):
    """Close a widget with the style and layout of its own, and all that stand in it."""
    for child in getattr(widget, "children", ()):
        _close(child)
    for own in (widget.layout, getattr(widget, "style", None)):
        if own is not None and own not in vars(looks).values():
            own.close()
    widget.close()


def _cell_id():
    """The notebook cell that is running, where the front end tells."""
    try:
        from IPython import get_ipython

        return get_ipython().get_parent()["metadata"]["cellId"]
    except (ImportError, AttributeError, KeyError, TypeError):
        return None
