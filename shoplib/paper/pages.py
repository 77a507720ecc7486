"""Full-size templates: a drawing in true millimetres, cut into pages that any printer can print.

Neighbouring pages overlap and carry register marks at the same true places; every page brings two check
rulers, since a printer that scales, or scales one way only, would spoil the work without a word. A page is put
together as data first (its Parts, in mm of the page), so that it can be checked without a printer.
"""

import math

from shoplib import drawing
from shoplib.drawing.layout import Plate, Text, lay_out, lay_out_key, text_width
from shoplib.drawing.sheet import Area, Circle, Line, rectangle
from shoplib.paper.boxes import grown
from shoplib.paper.document import Entry, Page, save_pdf
from shoplib.paper.files import paper_size, printout_path
from shoplib.paper.imprint import imprint_of
from shoplib.paper.part import Part
from shoplib.paper.tiling import MARGIN, PEN, SIDE, TEXT, best_tiling, name, register_marks
from shoplib.paper.words import LEADING, fitted, paragraph, wrapped

WORDS = 2.6  # mm, text of the foot
HEAD = 4.0  # mm, title of the foot
KEY = 2.9  # mm, text of the key
RULER = 112.0  # mm across for the level check ruler with its words
FOR = 7.0  # mm high for the line above the key to write on
THIN = 0.7  # of the usual widths, lines of ruler, frame and map
MAP = 30.0  # mm across and 18 mm high for the map of the pages
PRINT = "Print at 100 % (actual size). Measure both check rulers before you cut."
JOIN = "Lay neighbouring pages over one another until the register marks meet."


def save_template(model, paper="A4", unit="mm", folder=None, part="", date=None):
    """Write a model's full-size template as a PDF and return its path.

    `paper` is A4 or Letter, `unit` mm or in; by default it goes into the folder `printouts`. `part` is your own
    name for the piece, `date` another date than today's. Raises ValueError for another paper and PrintoutError (an
    OSError) where the file cannot be written.
    """
    paper_size(paper)
    path = printout_path(model, f"template_{paper}.pdf", unit, folder, part)
    return write_template(drawing.template(model, unit), imprint_of(model, unit, part, date), path, paper)


def write_template(sheet, imprint, path, paper="A4"):
    """Write a Sheet of one view in true mm as a PDF at full size; returns the path."""
    pages = printed(compose(sheet, imprint, paper))
    outline = [Entry(f"Page {page.label}", page) for page in pages if page.label]
    return save_pdf(path, pages, imprint.title(sheet.title), outline)


def printed(composed):
    """The pages of a composed template; where there are several, each has its place as its label."""
    pages = []
    for size, label, parts in composed:
        pages.append(Page(*size, label if len(composed) > 1 else ""))
        for part in parts:
            part.draw(pages[-1])
    return pages


def compose(sheet, imprint, paper="A4"):
    """The pages of a template: the size of each, where it belongs among the others, and its Parts."""
    plate = lay_out(sheet, text=TEXT, key=False, scale=1.0)
    tiling = best_tiling(plate, paper, lambda width: _Foot(sheet, imprint, width - 2 * MARGIN).height)
    marks = Plate(plate.width, plate.height, "", "")
    marks.shapes += [shape for centre in register_marks(tiling, plate) for shape in _mark(centre)]
    return [(tiling.page, name(tile), _page(sheet, imprint, plate, marks, tiling, tile)) for tile in tiling.tiles]


def _page(sheet, imprint, plate, marks, tiling, tile):
    """One page: its window of the drawing at full size with the marks, the frame and rulers, the foot."""
    width, height = tiling.tile
    box = (MARGIN, MARGIN, width, height)
    foot = _Foot(sheet, imprint, tiling.page[0] - 2 * MARGIN, tiling)
    parts = [
        Part(plate, box, tiling.window(tile), PEN, thin=0.6, open=4.0, whole=True),
        Part(marks, box, tiling.window(tile), PEN, thin=0.6),
        Part(_frame(tiling), (0.0, 0.0, *tiling.page), thin=THIN),
        *foot.parts(MARGIN + height, tile),
    ]
    if len(tiling.tiles) > 1:
        parts += _map(plate, tiling, tile)
    return parts


def _mark(centre):
    """A cross in a circle, within the overlap; two quarters are black, so that none is taken for a pivot."""
    x, y = centre
    return (
        *(Area("target", (_quarter(centre, turn),)) for turn in (0.0, math.pi)),
        Circle("mark", centre, 2.5),
        Line("mark", (x - 4, y), (x + 4, y)),
        Line("mark", (x, y - 4), (x, y + 4)),
    )


def _quarter(centre, turn, radius=2.5):
    """Corners of a quarter of a disc."""
    x, y = centre
    angles = [turn + math.pi / 2 * k / 12 for k in range(13)]
    return (centre, *((x + radius * math.cos(a), y + radius * math.sin(a)) for a in angles))


def _frame(tiling):
    """The frame of the drawing and the upright check ruler beside it, in mm of the page."""
    plate = Plate(*tiling.page, "", "")
    right = MARGIN + tiling.tile[0]
    corners = rectangle(MARGIN, MARGIN, right, MARGIN + tiling.tile[1])
    plate.lines += [Line("frame", corners[k - 1], corners[k]) for k in range(4)]
    _ruler(plate, lambda along, out: (right + SIDE / 2 - out, MARGIN + 3 + along), turn=90)
    return plate


def _ruler(plate, at, turn=0):
    """A check ruler: 100 mm with a tick every 10 mm on one side, 4 in with one every 1/2 in on the other.

    `at` places what lies so far along its line and so far out from it, `turn` turns its words.
    """
    ticks = [(10.0 * k, 3.5 if k % 5 == 0 else 2.0) for k in range(11)]
    ticks += [(12.7 * k, -3.5 if k % 2 == 0 else -2.0) for k in range(9)]
    plate.lines.append(Line("rule", at(0, 0), at(4 * 25.4, 0)))
    plate.lines += [Line("rule", at(along, 0), at(along, out)) for along, out in ticks]
    words = [(0, 3.0, "0"), (50, 3.0, "50"), (100, 3.0, "100 mm")]
    words += [(25.4 * k, -3.0, str(k) if k < 4 else "4 in") for k in range(5)]
    for along, out, word in words:
        x, y = at(along + 0.8 + text_width(word, 2.1) / 2, out)
        plate.texts.append(Text(x, y, word, 2.1, turn=turn))


class _Foot:
    """Under the drawing: title and label, what the sheet is for, how to use it, check ruler, key and map."""

    def __init__(self, sheet, imprint, across, tiling=None):
        self.sheet, self.imprint, self.across, self.tiling = sheet, imprint, across, tiling
        several = tiling is None or len(tiling.tiles) > 1
        self.words = [
            (f"{imprint.made_from()} {imprint.unit_and_date()}", False),
            (sheet.use, True),
            (f"{PRINT} {JOIN}" if several else PRINT, False),
        ]
        self.key = lay_out_key(sheet, across - RULER - MAP - 4, KEY)

    @property
    def height(self):
        """How much of the page it takes."""
        lines = sum(len(wrapped(text, WORDS, self.across, bold)) for text, bold in self.words if text)
        return 7.5 + WORDS * LEADING * lines + max(self.key.height + FOR, 19.0)

    def parts(self, top, tile):
        """Its Parts under a drawing that ends at `top`."""
        plate = Plate(*self.tiling.page, self.sheet.title, self.sheet.description)
        right = MARGIN + self.across
        label = f"Mark {self.imprint.mark}   {self.tiling.label(tile)}"
        title = self.imprint.title(self.sheet.title)
        size = fitted(title, HEAD, self.across - text_width(label, HEAD, bold=True) - 6, bold=True)
        plate.texts.append(Text(MARGIN, top + 4.5, title, size, "start", bold=True))
        plate.texts.append(Text(right, top + 4.5, label, HEAD, "end", bold=True))
        y = top + 9.5
        for text, bold in self.words:
            lines = paragraph(text, MARGIN, y, self.across, WORDS, bold) if text else []
            plate.texts += lines
            y += WORDS * LEADING * len(lines)
        end = top + self.tiling.foot
        _ruler(plate, lambda along, out: (MARGIN + along, end - 4.5 - out))
        self._for(plate, MARGIN + RULER, right - MAP - 4, end - self.key.height - 3.0)
        parts = [Part(plate, (0.0, 0.0, *self.tiling.page), thin=THIN)]
        if self.key.height:
            key = (MARGIN + RULER, end - self.key.height, self.key.width, self.key.height)
            parts.append(Part(self.key, key, pen=KEY / 17, thin=0.8))
        return parts

    @staticmethod
    def _for(plate, left, right, y):
        """A line to write on what the piece is for."""
        plate.texts.append(Text(left, y, "For", 3.0, "start"))
        plate.lines.append(Line("grid", (left + 7, y + 1.5), (right, y + 1.5)))


def _map(plate, tiling, tile):
    """A small plan of all pages with this one hatched."""
    window = tiling.extent()
    across, down = window[2] - window[0], window[3] - window[1]
    scale = min(MAP / across, 18.0 / down)
    rim = 0.3  # mm, so that the outer frame is not cut in half
    left, top = tiling.page[0] - MARGIN - scale * across, tiling.page[1] - MARGIN - scale * down
    box = (left - rim, top - rim, scale * across + 2 * rim, scale * down + 2 * rim)
    pen = 0.1 / scale  # a px of 0.1 mm on the page
    pages = Plate(plate.width, plate.height, "", "")
    for each in sorted(tiling.tiles, key=tile.__eq__):
        pages.shapes.append(Area("here" if each == tile else "frame", (rectangle(*tiling.core(each)),)))
    window = grown(window, rim / scale)
    return [Part(pages, box, window, pen, THIN), Part(plate, box, window, pen, THIN, outlines=True)]
