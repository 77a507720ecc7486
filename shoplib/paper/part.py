"""Parts of a page: a laid-out plate, or a window of it, drawn with the same lines, hatches and texts as on the screen.

Widths, dashes, hatches and arrowheads are kept in px of the screen's plate; `pen` says how large such a px is on this
plate. x runs right and y down, as on every plate and every page.
"""

from dataclasses import dataclass
from functools import cache
from itertools import groupby

from shoplib.drawing.layout import Plate
from shoplib.drawing.plate import text_width
from shoplib.drawing.sheet import Arc, Area, Circle, Line
from shoplib.paper.boxes import box_of, dot_box, grown, holds, meet, shared, text_box
from shoplib.paper.hatches import hatch
from shoplib.paper.layers import LAYERS_ON_PAPER
from shoplib.paper.paths import arrowhead, is_closed, path_of
from shoplib.paper.typeface import NAMES, coded

INK = "#111111"
FINE = 3  # places after the point: a thousandth of a mm, or of a px


@dataclass
class Part:
    """A plate, or a window (left, top, right, bottom) of it, in a box (left, top, width, height) of the page in mm.

    `thin` makes the lines finer but leaves arrowheads as they are; `open` spreads the hatches. With `whole` a text, a
    dot or an arrowhead that the window would cut is left out; with `outlines` only the lines of shapes are drawn.
    """

    plate: Plate
    box: tuple
    window: tuple = ()
    pen: float = 0.2
    thin: float = 1.0
    open: float = 1.0
    whole: bool = False
    outlines: bool = False

    def __post_init__(self):
        self.window = self.window or (0.0, 0.0, self.plate.width, self.plate.height)

    @property
    def scale(self):
        """mm of the page in one of the plate."""
        return self.box[2] / (self.window[2] - self.window[0])

    def draw(self, page):
        """Draw whatever of the plate can be seen."""
        with page.window(self.box, self.window) as stream:
            ink = _Ink(stream)
            if self.outlines:
                for shape in filter(self._seen, self.plate.shapes):
                    self._stroke(ink, path_of(shape), LAYERS_ON_PAPER[shape.layer])
                return
            for shape in filter(self._seen, self.plate.shapes):
                self._shape(ink, shape)
            for layer, lines in groupby(filter(self._seen, self.plate.lines), lambda line: line.layer):
                self._lines(ink, LAYERS_ON_PAPER[layer], list(lines))
            self._dots(ink)
            self._texts(ink, page)

    def _seen(self, shape):
        return self._near(box_of(shape))

    def _near(self, box):
        """Whether a box comes near the window."""
        return meet(grown(box, 20 * self.pen), self.window)

    def _shown(self, box):
        """Whether what has this box is drawn, where it must not be cut."""
        return holds(self.window, box) if self.whole else self._near(box)

    def _shape(self, ink, shape):
        style, path = LAYERS_ON_PAPER[shape.layer], path_of(shape)
        if isinstance(shape, (Circle, Area)):
            ink.fill(path, style.fill, holes=True)
            self._hatch(ink, shape, path, style)
        self._stroke(ink, path, style)
        if isinstance(shape, (Line, Arc)):
            self._heads(ink, style, [shape])

    def _lines(self, ink, style, lines):
        """Lines of one layer that follow one another, at one stroke."""
        self._stroke(ink, [part for line in lines for part in path_of(line)], style)
        self._heads(ink, style, lines)

    def _heads(self, ink, style, lines):
        heads = [tuple(arrowhead(line, self.pen)) for line in lines if line.arrow]
        shown = [corners for corners in heads if self._shown(box_of(Area("", (corners,))))]
        ink.fill([(*corners, corners[0]) for corners in shown], style.colour)

    def _stroke(self, ink, path, style):
        width = style.width * self.pen * self.thin
        if width:
            ink.stroke(path, style.colour, width, [dash * self.pen for dash in style.dashes])

    def _hatch(self, ink, shape, path, style):
        """Hatch lines over what can be seen of the area's box, clipped to the area."""
        grain = getattr(shape, "grain", None)
        if not style.hatch and grain is None:
            return
        seen = shared(box_of(shape), self.window)
        if seen[0] < seen[2] and seen[1] < seen[3]:
            found = hatch(style.hatch, seen, self.pen * self.open, grain)
            dashes = [dash * self.pen * self.open for dash in found.dashes]
            ink.inside(path, found.path, found.colour, found.width * self.pen * self.thin, dashes)

    def _dots(self, ink):
        shown = [centre for centre in self.plate.dots if self._shown(dot_box(centre, self.pen))]
        ink.fill([part for centre in shown for part in path_of(Circle("", centre, 3 * self.pen))], "#222222")

    def _texts(self, ink, page):
        """All texts on their white grounds, the baseline as far under the middle as on the screen."""
        shown = [text for text in self.plate.texts if self._shown(text_box(text))]
        boxes = [text.box() for text in shown]
        ink.fill([((l, t), (r, t), (r, b), (l, b), (l, t)) for l, t, r, b in boxes], "#ffffff")
        for text in shown:
            page.use(text.text, text.bold)
        ink.write(shown)


class _Ink:
    """Writes paths and texts into a stream, each setting only where it changes."""

    def __init__(self, stream):
        self.stream, self.now = stream, {}

    def _set(self, **settings):
        """Colours, width and dashes, where they are others than they were."""
        for name, value in settings.items():
            if self.now.get(name) == value:
                continue
            self.now[name] = value
            if name == "width":
                self.stream.set_line_width(round(value, FINE + 2))
            elif name == "dashes":
                self.stream.set_dash([round(float(dash), FINE) for dash in value], 0)
            else:
                self.stream.set_color_rgb(*rgb(value), stroke=name == "line")

    def fill(self, path, colour, holes=False):
        """Fill a path; with `holes` a part inside another one is left open."""
        if path and colour != "none":
            self._set(ground=colour)
            self._path(path)
            self.stream.fill(even_odd=holes)

    def stroke(self, path, colour, width, dashes=()):
        if path:
            self._set(line=colour, width=width, dashes=list(dashes))
            self._path(path)
            self.stream.stroke()

    def inside(self, area, path, colour, width, dashes):
        """Stroke a path only where it lies inside an area."""
        before = dict(self.now)
        self.stream.push_state()
        self._path(area)
        self.stream.clip(even_odd=True)
        self.stream.end()
        self.stroke(path, colour, width, dashes)
        self.stream.pop_state()
        self.now = before

    def _path(self, path):
        stream = self.stream
        for part in path:
            closed = is_closed(part)
            for k, step in enumerate(part):
                numbers = [round(float(each), FINE) for each in step]
                if len(step) == 6:
                    stream.curve_to(*numbers)
                elif k == 0:
                    stream.move_to(*numbers)
                elif not closed or k < len(part) - 1:
                    stream.line_to(*numbers)
            if closed:
                stream.close()

    def write(self, texts):
        """Texts in ink, upright or reading upwards."""
        if not texts:
            return
        self._set(ground=INK)
        self.stream.begin_text()
        face = None
        for text in texts:
            if face != (text.bold, text.size):
                face = text.bold, text.size
                self.stream.set_font_size(NAMES[text.bold], round(float(text.size), FINE))
            drop, back = 0.36 * text.size, _back(text)
            if text.turn:
                self.stream.set_text_matrix(0, -1, -1, 0, *_rounded(text.x + drop, text.y + back))
            else:
                self.stream.set_text_matrix(1, 0, 0, -1, *_rounded(text.x - back, text.y + drop))
            self.stream.stream.append(coded(text.text) + b" Tj")
        self.stream.end_text()


def _back(text):
    """How far before its anchor a text begins."""
    share = {"start": 0.0, "middle": 0.5, "end": 1.0}[text.anchor]
    return share * text_width(text.text, text.size, text.bold)


def _rounded(*values):
    return [round(float(value), FINE) for value in values]


@cache
def rgb(colour):
    """Red, green and blue from 0 to 1.

    >>> rgb("#003366")
    (0.0, 0.2, 0.4)
    """
    return tuple(round(int(colour[k : k + 2], 16) / 255, 4) for k in (1, 3, 5))
