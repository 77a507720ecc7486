"""What a bench with a model and the bench of a rim have in common: how they stand on a page and answer it."""

import base64
import itertools
import os
import threading
import weakref
from functools import cached_property
from html import escape

import ipywidgets

from shoplib.bench import looks
from shoplib.bench.live import Live
from shoplib.bench.places import next_place
from shoplib.drawing.svg import svg

UNITS = {"millimetres": "mm", "inches": "in"}
_numbers = itertools.count(1)
all_standing = weakref.WeakSet()


class Standing:
    """A bench on a page.

    The kinds of bench say: `html` and `shown`, what the page is made of and what stands in its places;
    `take(name, value)`, what to do when a person sets or presses something; `refresh`, which works out
    everything anew; `sheet`, the drawing; and they have `printouts`.
    """

    drawing, live, unit = "", None, "mm"
    failed = "Go back to the start and try other sizes."
    asleep = "A still picture: run the notebook to move the sliders."

    def __init__(self):
        self.lock, self.place = threading.RLock(), next_place()
        all_standing.add(self)

    @cached_property
    def prefix(self):
        """What the ids in the drawing begin with, so that no two benches on a page share one."""
        return f"bench{next(_numbers)}"

    @property
    def widget(self):
        """The box in which the bench stands on every page that shows it."""
        return self.place.box

    def units_shown(self):
        """The marks on the buttons for the unit."""
        return looks.marks("unit", [(words, unit == self.unit) for words, unit in UNITS.items()])

    def stand(self):
        """Fill the bench's place on the page."""
        self.place.fill(self, self._build)

    def _build(self):
        self.live = Live(self.html(), self.shown(), self.hear)
        self.printouts = self.printed()
        return ipywidgets.VBox([self.live, self.printouts.widget], layout=looks.COLUMN)

    def hear(self, asked):
        """Do what a person asked for on the page, by name; all of it is answered at once."""

        def take_all():
            for name, value in asked.items():
                self.take(name, value)

        self.act(take_all)

    def act(self, action):
        """Do something and answer the page; a failure is shown on the bench, and raised under test."""
        with self.lock:
            try:
                return action()
            except Exception as error:
                self.show_failure(error)
                if os.environ.get("SHOPLIB_STRICT"):
                    raise
            finally:
                self.live.answer()

    def show_failure(self, error):
        """Say that the bench itself failed: never a traceback, never silence."""
        text = f"The bench could not work this out ({type(error).__name__}). {self.failed}"
        self.live.put({"picture": looks.picture(self.drawing, text, "Something failed.")})
        self.live.answer()

    def _repr_mimebundle_(self, include=None, exclude=None):
        with self.lock:
            if not self.place.keeps(self):
                self.place = next_place()
                self.stand()
            sheet = self.sheet()
            return {
                "text/plain": self.line(),
                "text/html": still_picture(svg(sheet, "still"), sheet, self.asleep),
            } | self.place.view()


def still_picture(plate, sheet, note):
    """The drawing for pages without a kernel: code hosts, print, a notebook that has not been run."""
    coded = base64.b64encode(plate.encode()).decode()
    spoken = escape(f"{sheet.title}. {sheet.description}")
    return (
        f'<img alt="{spoken}" src="data:image/svg+xml;base64,{coded}" style="width:100%;max-width:960px">'
        f"<p><small>{note}</small></p>"
    )
