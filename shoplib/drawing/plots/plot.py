"""A plot: it shows itself as a picture, in plain text as its table.

matplotlib is loaded when a plot is first shown, and only its Figure: no pyplot, and no setting of a user's reaches a
plot or is changed by it. It is written without a date and with the same ids each time, so that the same versions give
the same bytes. Letters stay text, which takes a third of the bytes; there is room for DejaVu Sans, a wide face.
"""

import base64
import io
import logging
import threading
from contextlib import contextmanager
from html import escape

from shoplib.model.facts import FACE

WIDE = 820  # px, of every plot
POINT = 0.75  # of a px
SMALL, TEXT, HEADING = 12.0, 12.75, 15.0  # points: 16, 17 and 20 px
BLACK, ORANGE, SKY, GREEN, BLUE, VERMILION, PURPLE = (
    "#000000", "#E69F00", "#56B4E9", "#009E73", "#0072B2", "#D55E00", "#CC79A7",
)  # Okabe and Ito's colours, which all eyes tell apart
PALE = "#faeef5"  # the ground of a hatch
SETTINGS = {
    "svg.hashsalt": "shoplib", "svg.fonttype": "none", "font.family": "sans-serif", "font.size": TEXT,
    "font.sans-serif": ["DejaVu Sans", "Verdana", "Segoe UI", "Arial"],
    "hatch.linewidth": 1.2, "figure.facecolor": "white", "axes.facecolor": "white", "savefig.facecolor": "white",
}  # fmt: skip
_settings = threading.Lock()  # matplotlib keeps its settings in one place for all threads

MISSING = "matplotlib is not installed here, so the plot is shown as its table."


class Plot:
    """A title, what is said of the picture to who does not see it, a table of the same numbers, and how it is drawn.

    `paint` draws on a matplotlib Figure of `high` px and WIDE px across.
    """

    def __init__(self, title, description, table, high, paint):
        self.title, self.description, self.table = title, description, table
        self.high, self._paint = high, paint

    def svg(self):
        """The picture as SVG text; raises ImportError where matplotlib is not installed."""
        with _settings, _our_own_way():
            from matplotlib.figure import Figure

            figure = Figure(figsize=(inches(WIDE), inches(self.high)))
            self._paint(figure)
            written = io.StringIO()
            about = {"Date": None, "Creator": None, "Title": self.title, "Description": self.description}
            figure.savefig(written, format="svg", metadata=about)
        return written.getvalue()

    def __repr__(self):
        return f"{self.title}\n{self.table}"

    def _repr_html_(self):
        try:
            picture = self.svg()
        except ImportError:
            return f'<div style="{FACE};font-size:15px">{MISSING}</div>{self.table._repr_html_()}'
        coded = base64.b64encode(picture.encode()).decode()
        return (
            f'<img alt="{escape(f"{self.title}. {self.description}")}" src="data:image/svg+xml;base64,{coded}" '
            f'style="width:100%;max-width:{WIDE}px;height:auto">'
        )


@contextmanager
def _our_own_way():
    """matplotlib with the settings of this house; what it remarks on its fonts and folders is not for a reader."""
    log = logging.getLogger("matplotlib")
    before = log.level
    log.setLevel(logging.ERROR)
    try:
        import matplotlib

        with matplotlib.rc_context():
            matplotlib.rcdefaults()
            matplotlib.rcParams.update(SETTINGS)
            yield
    finally:
        log.setLevel(before)


def inches(pixels):
    """What matplotlib measures a figure in: px at 96 to the inch."""
    return pixels * POINT / 72


def axes_at(figure, left, top, width, height):
    """Axes at this place of the figure, in px from its upper left corner."""
    wide, high = (size / inches(1) for size in figure.get_size_inches())
    return figure.add_axes([left / wide, 1 - (top + height) / high, width / wide, height / high])


def text_at(figure, left, top, text, **more):
    """A text whose upper left corner is at this place of the figure, in px."""
    wide, high = (size / inches(1) for size in figure.get_size_inches())
    figure.text(left / wide, 1 - top / high, text, va="top", **more)


def write_key(figure, left, top, entries):
    """Under a plot, a row each: a line, or a hatched patch where there is a hatch, and what it stands for."""
    from matplotlib.lines import Line2D
    from matplotlib.patches import Patch

    handles = [
        Patch(facecolor=PALE, edgecolor=pen["color"], linewidth=pen["linewidth"], hatch=hatch, label=words) if hatch
        else Line2D([], [], label=words, **pen)
        for words, pen, hatch in entries
    ]  # fmt: skip
    wide, high = (size / inches(1) for size in figure.get_size_inches())
    figure.legend(
        handles=handles, loc="upper left", bbox_to_anchor=((left - 8) / wide, 1 - top / high), frameon=False,
        fontsize=TEXT, handlelength=3.6, handleheight=0.9, labelspacing=0.42, borderpad=0,
    )
