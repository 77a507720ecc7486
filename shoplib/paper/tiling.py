"""How a plate is cut into pages: windows that overlap, set so that texts and small shapes stay whole.

A page shows a text, a dot or an arrowhead whole or not at all; here is seen to it that each of them, and each small
shape, is whole on some page.
"""

from dataclasses import dataclass, replace

from shoplib.drawing.sheet import Arc, Area, Line
from shoplib.paper.boxes import box_of, dot_box, grown, holds, mark_box, meet, shared, text_box
from shoplib.paper.files import paper_size
from shoplib.paper.paths import arrowhead, crosses, touches

TEXT = 3.4  # mm, of the drawing's dimensions and notes
PEN = TEXT / 17
MARGIN = 12.0  # mm, on all four sides: no printer needs more
OVERLAP = 10.0  # mm, shared by neighbouring pages at the least
SIDE = 9.0  # mm beside the drawing for the upright check ruler
WHOLE = 150.0  # mm: shapes up to this size are kept on one page where that takes no more pages
SMALL = 60.0  # mm: shapes up to this size are always whole on some page


@dataclass(frozen=True)
class Tiling:
    """How a plate is cut into pages of one size: tiles are (row, column), lengths in mm, y down.

    `lefts` and `tops` tell where the windows begin on the plate, `foot` how much of a page is left for words.
    """

    page: tuple
    foot: float
    lefts: tuple = (0.0,)
    tops: tuple = (0.0,)
    tiles: tuple = ()

    @property
    def tile(self):
        """Width and height of the drawing's part of a page."""
        return self.page[0] - 2 * MARGIN - SIDE, self.page[1] - 2 * MARGIN - self.foot

    def extent(self):
        """The window that all tiles together show."""
        return self.lefts[0], self.tops[0], self.lefts[-1] + self.tile[0], self.tops[-1] + self.tile[1]

    def window(self, tile):
        """Left, top, right and bottom of what one page shows of the plate."""
        x, y = self.lefts[tile[1]], self.tops[tile[0]]
        return x, y, x + self.tile[0], y + self.tile[1]

    def core(self, tile):
        """The page's window up to the middle of each overlap: every point of the plate lies in one core."""
        left, right = _core(self.lefts, self.tile[0], tile[1])
        top, bottom = _core(self.tops, self.tile[1], tile[0])
        return left, top, right, bottom

    def all_tiles(self):
        return tuple((row, column) for row in range(len(self.tops)) for column in range(len(self.lefts)))

    def shows(self, box, tile):
        """Whether a page shows the whole of a box."""
        return holds(self.window(tile), box)

    def label(self, tile):
        """Row as a letter from the top, column as a number, and how many pages there are."""
        return f"{name(tile)} of {len(self.tiles)}"


def _core(starts, length, place):
    """Where one page's share begins and ends along one axis."""
    low, high = starts[place], starts[place] + length
    if place > 0:
        low = (low + starts[place - 1] + length) / 2
    if place < len(starts) - 1:
        high = (high + starts[place + 1]) / 2
    return low, high


def name(tile):
    """What a tile is called.

    >>> name((1, 1)), name((0, 2))
    ('B2', 'A3')
    """
    return f"{chr(65 + tile[0])}{tile[1] + 1}"


def best_tiling(plate, paper, foot=lambda width: 0.0):
    """The tiling with the fewest pages, upright where both ways need as many; empty tiles are left out.

    `foot` tells how much height the words take on a page of some width.
    """
    width, height = paper_size(paper)
    pages = ((width, height), (height, width))
    tilings = [_tiling(plate, page, foot(page[0]), most) for most in (WHOLE, SMALL) for page in pages]
    return min(tilings, key=lambda each: len(each.tiles))


def _tiling(plate, page, foot, most):
    tiling = Tiling(page, foot)
    across, down = tiling.tile
    boxes = [box for box in whole_boxes(plate, most) if box[2] - box[0] <= across and box[3] - box[1] <= down]
    drawn = [*boxes, *(grown(box_of(shape), 0.5) for shape in plate.shapes)]
    lefts = starts([(left, right) for left, _, right, _ in boxes], _ends(drawn, 0), across)
    tops = starts([(top, bottom) for _, top, _, bottom in boxes], _ends(drawn, 1), down)
    tiling = replace(tiling, lefts=lefts, tops=tops)
    return replace(tiling, tiles=_used(plate, tiling, boxes))


def _ends(boxes, axis):
    """How far boxes reach along one axis."""
    return min(box[axis] for box in boxes), max(box[axis + 2] for box in boxes)


def starts(spans, ends, window):
    """Where windows begin that cover a length from end to end, as few as can be, each span whole in one of them.

    Neighbours overlap, and what they reach beyond the length is alike at both ends as far as may be.

    >>> starts([], (0.0, 50.0), 100.0), starts([(80.0, 120.0)], (0.0, 180.0), 100.0)
    ((-25.0,), (0.0, 80.0))
    """
    low, high = ends
    fewest = _from(low, spans, high, window)
    slack = fewest[-1] + window - high
    tried = [_from(low - slack * share / 40, spans, high, window) for share in range(41)]

    def lopsided(found):
        return round(abs(found[-1] + window - high - (low - found[0])), 6)

    return min((each for each in tried if len(each) == len(fewest)), key=lopsided)


def _from(first, spans, high, window):
    """The same from a given beginning: each window begins as late as what was not whole before it allows."""
    found = [first]
    while found[-1] + window < high - 1e-9:
        end = found[-1] + window
        found.append(min([end - OVERLAP, *(start for start, stop in spans if stop > end + 1e-9)]))
    return tuple(found)


def whole_boxes(plate, most=SMALL):
    """Boxes of all that should be whole on some page: texts, dots, arrowheads, and shapes up to a size."""
    shapes = [box for box in map(box_of, plate.shapes) if max(box[2] - box[0], box[3] - box[1]) <= most]
    boxes = [grown(text_box(text), 1.5) for text in plate.texts]
    boxes += [grown(box, 0.3) for box in [*shapes, *_points(plate)]]
    return [(max(l, 0.0), max(t, 0.0), min(r, plate.width), min(b, plate.height)) for l, t, r, b in boxes]


def _points(plate):
    """Boxes of the dots and arrowheads."""
    yield from (dot_box(centre, PEN) for centre in plate.dots)
    for shape in plate.shapes + plate.lines:
        if isinstance(shape, (Line, Arc)) and shape.arrow:
            yield box_of(Area(shape.layer, (arrowhead(shape, PEN),)))


def _used(plate, tiling, boxes):
    """The tiles that a shape touches or that alone show some box whole; a dimension line needs no paper."""
    used = [tile for tile in tiling.all_tiles() if _touched(plate, grown(tiling.core(tile), 1))]
    for box in boxes:
        if not any(tiling.shows(box, tile) for tile in used):
            used += [tile for tile in tiling.all_tiles() if tiling.shows(box, tile)][:1]
    return tuple(sorted(used))


def _touched(plate, box):
    return any(touches(shape, box) for shape in plate.shapes)


def register_marks(tiling, plate):
    """Centres of the register marks: two in each overlap of two pages, as far apart as may be.

    Where there is room they keep clear of texts, small shapes and lines.
    """
    marks, boxes = [], whole_boxes(plate)
    for row, column in tiling.tiles:
        for other in ((row, column + 1), (row + 1, column)):
            if other in tiling.tiles:
                places = list(_places(shared(tiling.window((row, column)), tiling.window(other))))
                marks += _two_clear(places, [*boxes, *map(mark_box, marks)], plate.shapes + plate.lines)
    return marks


def _two_clear(places, boxes, lines):
    """The first and the last place that meet no box and no line, or no box, or at least not one another."""
    def clear(place):
        return not any(meet(mark_box(place), box) for box in boxes)

    def free(place):
        return clear(place) and not any(crosses(line, mark_box(place)) for line in lines)

    for suits in (free, clear, lambda place: True):
        first, last = next(filter(suits, places), None), next(filter(suits, reversed(places)), None)
        if first and last and not meet(mark_box(first), mark_box(last)):
            break
    return [first, last]


def _places(overlap):
    """Places to try in an overlap, from end to end of its longer side, the middle of the shorter side first."""
    left, top, right, bottom = overlap
    middle = (left + right) / 2, (top + bottom) / 2
    long = 0 if right - left > bottom - top else 1
    low, high = (left, right) if long == 0 else (top, bottom)
    room = (bottom - top if long == 0 else right - left) / 2 - 5.0
    aside = dict.fromkeys((0.0, room / 2, -room / 2, room, -room))  # in this order on every computer
    for k in range(6, 45):
        along = low + (high - low) * k / 50
        yield from ((along, middle[1] + out) if long == 0 else (middle[0] + out, along) for out in aside)
