"""Full-size templates: a drawing in true millimetres, cut into pages that any printer can print.

Neighbouring pages overlap and carry register marks at the same true places; every page brings a check
ruler, since a printer that scales would spoil the work without a word.
"""

import math
from dataclasses import dataclass, replace

from shoplib import drawing
from shoplib.drawing.layout import Plate, Text, lay_out, lay_out_key
from shoplib.drawing.sheet import Area, Circle, Line, rectangle
from shoplib.paper.boxes import box_of, grown, meet
from shoplib.paper.files import paper_size, printout_path
from shoplib.paper.words import fitted, paragraph

MARGIN = 12.0  # mm, on all four sides: no printer needs more
OVERLAP = 10.0  # mm, shared by neighbouring pages
FOOT = 26.0  # mm under the drawing for the check ruler, the key and the map
WHOLE = 150.0  # mm: shapes up to this size are kept on one page where possible
SMALL = 60.0  # mm: register marks keep clear of shapes up to this size
TEXT = 3.4  # mm, of the drawing's dimensions and notes
KEY = 2.7  # mm, text of the key
PEN = TEXT / 17
PRINT = "Print at 100 % (actual size). Measure the check ruler before you cut."
JOIN = "Lay neighbouring pages over one another until the register marks meet."


def save_template(model, paper="A4", unit="mm", folder=None):
    """Write a model's full-size template as a PDF and return its path.

    `paper` is A4 or Letter, `unit` mm or in; by default it goes into the folder `printouts`. Raises
    ValueError for another paper and PrintoutError (an OSError) where the file cannot be written.
    """
    paper_size(paper)
    path = printout_path(model, f"template_{paper}.pdf", unit, folder)
    return write_template(drawing.template(model, unit), path, paper)


def write_template(sheet, path, paper="A4"):
    """Write a Sheet of one view in true mm as a PDF at full size; returns the path."""
    from shoplib.paper import plot

    plate = lay_out(sheet, text=TEXT, key=False, scale=1.0)
    tiling = best_tiling(plate, paper)
    with plot.settings():
        pages = [_page(sheet, plate, tiling, tile) for tile in tiling.tiles]
        return plot.save_pdf(path, pages, sheet.title)


@dataclass(frozen=True)
class Tiling:
    """How a plate is cut into pages of one size: tiles are (row, column), lengths in mm, y down."""

    page: tuple
    plate: tuple
    shift: tuple = (0.0, 0.0)
    tiles: tuple = ()

    @property
    def tile(self):
        """Width and height of the drawing's part of a page."""
        return self.page[0] - 2 * MARGIN, self.page[1] - 2 * MARGIN - FOOT

    @property
    def grid(self):
        """Rows and columns needed to cover the plate."""
        columns, rows = (
            max(1, math.ceil((length - OVERLAP) / (tile - OVERLAP) - 1e-9))
            for length, tile in zip(self.plate, self.tile)
        )
        return rows, columns

    def extent(self):
        """The window that all tiles together show: the plate in its middle, but for the shift."""
        rows, columns = self.grid
        across = columns * (self.tile[0] - OVERLAP) + OVERLAP
        down = rows * (self.tile[1] - OVERLAP) + OVERLAP
        left = (self.plate[0] - across) / 2 + self.shift[0]
        top = (self.plate[1] - down) / 2 + self.shift[1]
        return left, top, left + across, top + down

    def window(self, tile):
        """Left, top, right and bottom of what one page shows of the plate."""
        left, top, _, _ = self.extent()
        x, y = left + tile[1] * (self.tile[0] - OVERLAP), top + tile[0] * (self.tile[1] - OVERLAP)
        return x, y, x + self.tile[0], y + self.tile[1]

    def core(self, tile):
        """The page's window up to the middle of each overlap: every point of the plate lies in one core."""
        left, top, right, bottom = self.window(tile)
        half = OVERLAP / 2
        return (
            left if tile[1] == 0 else left + half,
            top if tile[0] == 0 else top + half,
            right if tile[1] == self.grid[1] - 1 else right - half,
            bottom if tile[0] == self.grid[0] - 1 else bottom - half,
        )

    def all_tiles(self):
        rows, columns = self.grid
        return tuple((row, column) for row in range(rows) for column in range(columns))

    def label(self, tile):
        """Row as a letter from the top, column as a number, and how many pages there are."""
        return f"{name(tile)} of {len(self.tiles)}"


def name(tile):
    """What a tile is called.

    >>> name((1, 1)), name((0, 2))
    ('B2', 'A3')
    """
    return f"{chr(65 + tile[0])}{tile[1] + 1}"


def best_tiling(plate, paper):
    """The tiling with the fewest pages, upright where both ways need as many; empty tiles are left out."""
    width, height = paper_size(paper)
    tilings = [_tiling(plate, page) for page in ((width, height), (height, width))]
    return min(tilings, key=lambda each: len(each.tiles))


def _tiling(plate, page):
    tiling = Tiling(page, (plate.width, plate.height))
    boxes = _boxes(plate, WHOLE)
    across = [(left, right) for left, _, right, _ in boxes]
    down = [(top, bottom) for _, top, _, bottom in boxes]
    rows, columns = tiling.grid
    shift = (
        _shift(across, plate.width, tiling.tile[0], columns),
        _shift(down, plate.height, tiling.tile[1], rows),
    )
    tiling = replace(tiling, shift=shift)
    used = tuple(tile for tile in tiling.all_tiles() if _in_use(plate, tiling.core(tile)))
    return replace(tiling, tiles=used)


def _shift(spans, length, tile, count):
    """How far to move the pages along one axis so that their edges cut the fewest spans."""
    step = tile - OVERLAP
    slack = count * step + OVERLAP - length

    def cuts(shift):
        starts = [shift - slack / 2 + k * step for k in range(count)]
        return sum(not any(start <= low and high <= start + tile for start in starts) for low, high in spans)

    return min((slack * share / 80 * way for share in range(41) for way in (1, -1)), key=cuts)


def _boxes(plate, most):
    """Boxes of texts, and of shapes no larger than this."""
    shapes = [shape for shape in plate.shapes if max(_size(box_of(shape))) <= most]
    return [text.box() for text in plate.texts] + [box_of(shape) for shape in shapes]


def _size(box):
    return box[2] - box[0], box[3] - box[1]


def _in_use(plate, box):
    """Whether a shape or a text lies in a box. A dimension line that only crosses it needs no paper."""
    from shoplib.paper.plot import touches

    near = grown(box, 1)
    if any(touches(shape, near) for shape in plate.shapes):
        return True
    return any(meet(text.box(), near) for text in plate.texts)


def register_marks(tiling, plate):
    """Centres of the register marks: two in each overlap of two pages.

    Where there is room they keep clear of texts and small shapes.
    """
    marks, boxes = [], _boxes(plate, SMALL)
    for row, column in tiling.tiles:
        left, top, right, bottom = tiling.window((row, column))
        if (row, column + 1) in tiling.tiles:
            x = right - OVERLAP / 2
            marks += _two_clear([(x, y) for y in _along(top, bottom)], boxes)
        if (row + 1, column) in tiling.tiles:
            y = bottom - OVERLAP / 2
            marks += _two_clear([(x, y) for x in _along(left, right)], boxes)
    return marks


def _along(low, high):
    """Places to try between two corners of a page, the best first and last."""
    return [low + (high - low) * share for share in (0.12, 0.2, 0.3, 0.4, 0.6, 0.7, 0.8, 0.88)]


def _two_clear(places, boxes):
    clear = [(x, y) for x, y in places if not any(meet((x - 5, y - 5, x + 5, y + 5), box) for box in boxes)]
    first, *_, last = clear if len(clear) > 1 else places
    return [first, last]


def _page(sheet, plate, tiling, tile):
    """One page: its window of the drawing at full size, the frame, the marks and the foot."""
    from shoplib.paper import plot

    page = plot.page(*tiling.page)
    width, height = tiling.tile
    axes = plot.axes_on(page, (MARGIN, MARGIN, width, height), tiling.window(tile))
    plotter = plot.Plotter(axes, PEN, plot.MM, thin=0.6, open=4.0)
    plotter.plate(plate)
    seen = tiling.window(tile)
    for x, y in register_marks(tiling, plate):
        if meet((x - 5, y - 5, x + 5, y + 5), seen):
            for shape in _mark((x, y)):
                plotter.shape(shape)
    whole = plot.axes_on(page, (0, 0, *tiling.page), (0, 0, *tiling.page))
    plot.Plotter(whole, PEN, plot.MM, thin=0.7).plate(_surround(sheet, tiling, tile))
    _key(page, sheet, tiling)
    if len(tiling.tiles) > 1:
        _map(page, plate, tiling, tile)
    return page


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


def _foot_columns(tiling):
    """Left edges of the foot's three parts: words and ruler, key, map; and the right edge."""
    right = MARGIN + tiling.tile[0]
    return MARGIN, MARGIN + 110, right - 30, right


def _surround(sheet, tiling, tile):
    """Frame of the drawing, title, words, page label and check ruler, in mm of the page."""
    left, key, map_left, right = _foot_columns(tiling)
    top = MARGIN + tiling.tile[1]
    surround = Plate(*tiling.page, sheet.title, sheet.description)
    surround.lines += _frame("frame", (left, MARGIN, right, top))
    room = key - left - 4
    size = fitted(sheet.title, 4.0, room, bold=True)
    surround.texts.append(Text(left, top + 4.5, sheet.title, size, "start", bold=True))
    words = PRINT if len(tiling.tiles) == 1 else f"{PRINT} {JOIN}"
    surround.texts += paragraph(words, left, top + 9, room, 2.5)
    surround.texts.append(Text(right, top + 4.5, tiling.label(tile), 4.0, "end", bold=True))
    _ruler(surround, left, top + FOOT - 4.5)
    return surround


def _frame(layer, box):
    corners = rectangle(*box)
    return [Line(layer, corners[k - 1], corners[k]) for k in range(4)]


def _ruler(plate, left, y):
    """The check ruler: 100 mm with a tick every 10 mm above its line, 4 in with one every 1/2 in below."""
    ticks = [(10.0 * k, -3.5 if k % 5 == 0 else -2.0) for k in range(11)]
    ticks += [(12.7 * k, 3.5 if k % 2 == 0 else 2.0) for k in range(9)]
    plate.lines.append(Line("rule", (left, y), (left + 4 * 25.4, y)))
    plate.lines += [Line("rule", (left + x, y), (left + x, y + out)) for x, out in ticks]
    words = [(0, -3.2, "0"), (50, -3.2, "50"), (100, -3.2, "100 mm")]
    words += [(25.4 * k, 3.2, str(k) if k < 4 else "4 in") for k in range(5)]
    plate.texts += [Text(left + x + 0.8, y + out, word, 2.3, "start") for x, out, word in words]


def _key(page, sheet, tiling):
    """The key of line kinds, between the ruler and the map."""
    from shoplib.paper import plot

    _, left, right, edge = _foot_columns(tiling)
    right = edge if len(tiling.tiles) == 1 else right - 2
    key = lay_out_key(sheet, right - left, KEY)
    if not key.height:
        return
    top = MARGIN + tiling.tile[1] + 7.5
    axes = plot.axes_on(page, (left, top, key.width, key.height), (0, 0, key.width, key.height))
    plot.Plotter(axes, KEY / 17, plot.MM, thin=0.8).plate(key)


def _map(page, plate, tiling, tile):
    """A small plan of all pages with this one hatched."""
    from shoplib.paper import plot

    _, _, left, right = _foot_columns(tiling)
    top, height = MARGIN + tiling.tile[1] + 8, FOOT - 8
    window = tiling.extent()
    across, down = window[2] - window[0], window[3] - window[1]
    scale = min((right - left) / across, height / down)
    rim = 0.3  # mm, so that the outer frame is not cut in half
    box = (right - scale * across - rim, top - rim, scale * across + 2 * rim, scale * down + 2 * rim)
    pen = 0.1 / scale  # a px of 0.1 mm on the page
    axes = plot.axes_on(page, box, grown(window, rim / scale))
    plotter = plot.Plotter(axes, pen, plot.MM * scale, thin=0.7)
    for each in sorted(tiling.tiles, key=tile.__eq__):
        plotter.shape(Area("here" if each == tile else "frame", (rectangle(*tiling.core(each)),)))
    for shape in plate.shapes:
        plotter.outline(shape)
