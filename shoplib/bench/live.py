"""A piece of page of our own: HTML written once, of which only what changes is sent, all in one message.

A widget for each slider, box and text would be a hundred of them, with a message for each one that
changes. Here one answer goes back for whatever a person did. The HTML marks its places; see live.js.
On the page it is anywidget's; its Python side is left alone, which would be loaded for nothing.
"""

from pathlib import Path

import traitlets
from ipywidgets import DOMWidget


def _synced(text):
    return traitlets.Unicode(text).tag(sync=True)


class Live(DOMWidget):
    """HTML with places in it. `hear` is given all that a person asked for since the last answer, by name."""

    _model_name, _view_name = _synced("AnyModel"), _synced("AnyView")
    _model_module, _view_module = _synced("anywidget"), _synced("anywidget")
    _model_module_version, _view_module_version = _synced("~0.11.*"), _synced("~0.11.*")
    _anywidget_id = _synced("shoplib.bench.live.Live")
    _esm = _synced((Path(__file__).parent / "live.js").read_text("utf-8"))
    html = _synced("")

    def __init__(self, html, shown, hear):
        self.shown, self.changed, self.answers = dict(shown), {}, 0
        super().__init__(html=html)
        self.on_msg(lambda _, content, __: hear(content["asked"]))

    def put(self, places):
        """Fill places; what stands there already is not sent again."""
        for place, content in places.items():
            if self.shown.get(place) != content:
                self.shown[place] = self.changed[place] = content

    def answer(self):
        """Send all that has changed in one message. It says that the page may ask on, also where nothing changed."""
        self.answers += 1
        state, self.changed = self.changed | {"answered": self.answers}, {}
        if self.comm is not None:
            self.comm.send({"method": "update", "state": state, "buffer_paths": []})

    def get_state(self, key=None, drop_defaults=False):
        """The state that a page which is opened later asks for, with all that stands in the places."""
        state = super().get_state(key, drop_defaults)
        return state | self.shown | {"answered": self.answers} if key is None else state
