"""Where things stand on the page, and how they outlive whatever is done to it.

A cell that runs again makes its benches anew. Each of them stands in a box that stays open as long as its
cell is there, so that every window on the page goes on with the new one. All that was made for the former
one is closed: what was *made*, for what is found by walking down may have been moved elsewhere by then, and
one open box that names a closed widget keeps a page that is loaded again from getting any of them.
"""

from contextlib import contextmanager

import ipywidgets

_cells = {}


class Place:
    """The box of one thing on the page; `holder` is what stands in it now."""

    def __init__(self):
        self.holder, self.box, self.made = None, None, []

    def fill(self, holder, build):
        """Put what `build` makes into the box, and close what was made for the one before."""
        with collected() as made:
            content = build()
        if not _open(self._own()):
            self.close()
            self.box = ipywidgets.VBox(layout={"width": "100%", "overflow": "visible", "margin": "0"})
        self.box.children = [content]
        for each in self.made:
            each.close()
        self.holder, self.made = holder, made

    def _own(self):
        return [] if self.box is None else [self.box, self.box.layout]

    def is_open(self):
        """Whether pages can still show the box and all that stands in it."""
        return _open(self._own()) and _open(self.made)

    def keeps(self, holder):
        """Whether this thing can be shown here; what is left of it where something was closed is closed too."""
        if self.holder is not holder:
            return False
        if not self.is_open():
            self.close()
        return self.is_open()

    def close(self):
        """Close the box and all that was made for it."""
        for each in self._own() + self.made:
            each.close()
        self.box, self.made = None, []

    def view(self):
        """What a cell shows of it: the live view alone."""
        kind = "application/vnd.jupyter.widget-view+json"
        return {kind: self.box._repr_mimebundle_()[kind]}


def _open(widgets):
    return bool(widgets) and all(each.comm is not None for each in widgets)


@contextmanager
def collected():
    """A list of every widget that is made meanwhile, with layouts and styles."""
    made, former = [], ipywidgets.Widget._widget_construction_callback

    def note(widget):
        made.append(widget)
        if former is not None:
            former(widget)

    ipywidgets.Widget.on_widget_constructed(note)
    try:
        yield made
    finally:
        ipywidgets.Widget.on_widget_constructed(former)


class _Cell:
    """The places of one cell, in the order in which it fills them."""

    def __init__(self):
        self.run, self.places, self.taken = None, [], 0

    def begin(self, run):
        """A new run of the cell: places that the last one did not fill any more are given up."""
        for place in self.places[self.taken :]:
            place.close()
        del self.places[self.taken :]
        self.run, self.taken = run, 0

    def next(self):
        if self.taken == len(self.places):
            self.places.append(Place())
        self.taken += 1
        return self.places[self.taken - 1]


def next_place():
    """The next place of the cell that is running; without a cell, a place of no cell."""
    name, run = running()
    if name is None:
        return Place()
    cell = _cells.setdefault(name, _Cell())
    if cell.run != run:
        cell.begin(run)
    return cell.next()


def running():
    """The notebook cell that is running and the run's own mark, where the front end tells."""
    try:
        from IPython import get_ipython

        parent = get_ipython().get_parent()
        return parent["metadata"]["cellId"], parent["header"]["msg_id"]
    except (ImportError, AttributeError, KeyError, TypeError):
        return None, None
