"""Reads back what was printed: strokes and fills of a PDF page, in mm from its lower left corner; widths of texts."""

import math
from dataclasses import dataclass
from functools import cache

import numpy
import pypdfium2
from matplotlib import font_manager
from matplotlib.ft2font import LoadFlags
from pypdf import PdfReader
from pypdf.generic import ContentStream

MM = 25.4 / 72


@dataclass
class Stroke:
    """One painted path: its points (corners and ends of curves), how it was painted, whether it bends."""

    points: numpy.ndarray
    paint: str
    bends: bool

    @property
    def size(self):
        return self.points.max(axis=0) - self.points.min(axis=0)

    @property
    def middle(self):
        return (self.points.max(axis=0) + self.points.min(axis=0)) / 2


def pages(path):
    return list(PdfReader(path).pages)


def pixels(path, page=0, dpi=100):
    """A page as another program (PDFium) shows it: an array of rows of red, green and blue from 0 to 1."""
    with pypdfium2.PdfDocument(path) as document:
        return document[page].render(scale=dpi / 72, rev_byteorder=True).to_numpy()[:, :, :3] / 255


def page_size(page):
    return float(page.mediabox.width) * MM, float(page.mediabox.height) * MM


def strokes(page):
    """Every painted path of a page; each of its parts counts on its own."""
    if not hasattr(page, "strokes_read"):
        page.strokes_read = list(_strokes(page))
    return page.strokes_read


def _strokes(page):
    matrix, kept, parts, found = numpy.eye(3), [], [], []
    for operands, operator in ContentStream(page.get_contents(), page.pdf).operations:
        name = operator.decode()
        if name == "q":
            kept.append(matrix)
        elif name == "Q":
            matrix = kept.pop()
        elif name == "cm":
            a, b, c, d, e, f = map(float, operands)
            matrix = numpy.array([[a, b, 0], [c, d, 0], [e, f, 1]]) @ matrix
        elif name in ("m", "l", "c", "v", "y", "re"):
            _draw(parts, name, [float(each) for each in operands], matrix)
        elif name in ("S", "s", "f", "F", "f*", "B", "B*", "b", "b*", "n"):
            if name != "n":
                found += [Stroke(numpy.array(points), name, bends) for points, bends in parts]
            parts = []
    return found


def _draw(parts, name, numbers, matrix):
    def place(x, y):
        return (numpy.array([x, y, 1.0]) @ matrix)[:2] * MM

    if name == "re":
        x, y, w, h = numbers
        corners = [(x, y), (x + w, y), (x + w, y + h), (x, y + h)]
        parts.append(([place(*corner) for corner in corners], False))
        return
    end = place(*numbers[-2:])
    if name == "m":
        parts.append(([end], False))
    else:
        points, bends = parts[-1]
        parts[-1] = ([*points, end], bends or name != "l")


def circles(page, radius, near=0.5):
    """Centres of the whole circles of about this radius that were stroked."""
    return [
        each.middle for each in strokes(page)
        if each.bends and each.paint in ("S", "s") and abs(each.size - 2 * radius).max() < near
    ]  # fmt: skip


def fit_circle(points):
    """Centre and radius of the circle through points, by least squares (Kåsa)."""
    x, y = points.T
    a, b, c = numpy.linalg.lstsq(numpy.c_[x, y, numpy.ones(len(x))], -(x**2 + y**2), rcond=None)[0]
    return numpy.array([-a / 2, -b / 2]), math.sqrt(a * a / 4 + b * b / 4 - c)


@cache
def font(bold):
    return font_manager.get_font(font_manager.findfont("DejaVu Sans:bold" if bold else "DejaVu Sans"))


@cache
def width(text, bold):
    """True width of a text in text heights: the sum of its letters' own widths, none pushed closer to another."""
    face = font(bold)
    face.set_size(100, 72)
    return sum(face.load_char(ord(letter), LoadFlags.NO_HINTING).linearHoriAdvance for letter in text) / 65536 / 100


def ink(text):
    """The box (left, top, right, bottom) that the printed letters fill, measured in the font itself."""
    across, size = width(text.text, text.bold) * text.size, text.size
    if text.turn:  # reads upwards, its middle where it stands
        return text.x - 0.45 * size, text.y - across / 2, text.x + 0.6 * size, text.y + across / 2
    left = text.x - {"start": 0, "middle": across / 2, "end": across}[text.anchor]
    return left, text.y - 0.45 * size, left + across, text.y + 0.6 * size
