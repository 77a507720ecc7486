"""A piece of page of our own: HTML written once, of which only what changes is sent, all in one message.

A widget for each slider, box and text would be a hundred of them, with a message for each one that
changes. Here one answer goes back for whatever a person did. The HTML marks its places; see live.js.
"""

from pathlib import Path

import anywidget
import traitlets


class Live(anywidget.AnyWidget):
    """HTML with places in it. `hear` is given all that a person asked for since the last answer, by name."""

    _esm = traitlets.Unicode((Path(__file__).parent / "live.js").read_text("utf-8")).tag(sync=True)
    html = traitlets.Unicode().tag(sync=True)

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
