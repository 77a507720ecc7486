"""Draws how a board is sawn: its pieces and cuts by their numbers, faults hatched, waste crossed.

A board is many times longer than wide, so its width is drawn larger than its length; the plate says so. Numbers stand
on the pieces; each cut carries its own on a white ground, in the order of sawing.
"""

from shoplib.drawing.layout import lay_out_key
from shoplib.drawing.plate import Plate, Text, text_width
from shoplib.drawing.sheet import Area, Line, Sheet, rectangle
from shoplib.maths.timber.sawing import steps
from shoplib.maths.timber.stock import told

TITLE, GAP = 17.0, 10.0
SMALLEST = 8.0  # px: a smaller number would not be read
HOW_TO_READ = "Widths are drawn larger than lengths. Large numbers: pieces. Small ones: cuts in their order{}."
LISTED = "; those without room are in the list"
LONGER = 3.0  # at most so many times is the width drawn larger than the length


def draw_boards(plan, unit="mm", boards=None, width=960.0, listed=True):
    """A plate: the key on top, below it the plan's boards, or those of them whose numbers are in `boards`.

    `listed`: the list of cuts stands beside it.
    """
    chosen = [(n, each) for n, each in enumerate(plan.boards, 1) if boards is None or n in boards]
    plate = Plate(width, 0.0, "Boards and their cuts", _spoken(chosen))
    y = _key(plate, any(each.board.plain["faults"] for _, each in chosen), listed) + GAP
    for number, each in chosen:
        y = _board(plate, number, each, y, unit) + 2 * GAP
    plate.height = y
    return plate


def _spoken(chosen):
    return " ".join(
        f"Board {number}, {each.board.name}: {len(each.layout.places)} pieces, {len(each.layout.cuts)} cuts."
        for number, each in chosen
    )  # fmt: skip


def _key(plate, faults, listed):
    """The kinds of ground and line, and that the drawing is wider than the board."""
    sheet = Sheet("")
    view = sheet.view()
    for layer in ("piece", "waste", *(["fault"] if faults else [])):
        view.area(layer, rectangle(0, 0, 1, 1))
    view.line("saw_cut", (0, 0), (1, 0))
    key = lay_out_key(sheet, plate.width, TITLE)
    plate.shapes += key.shapes
    plate.texts += key.texts
    small, y = 0.8 * TITLE, key.height + 6
    for line in _lines(HOW_TO_READ.format(LISTED if listed else ""), small, plate.width - 2 * TITLE):
        plate.texts.append(Text(TITLE, y, line, small, "start"))
        y += 1.3 * small
    return y


def _lines(text, size, room):
    """A text broken at its words into lines that fit the room."""
    lines = [""]
    for word in text.split():
        longer = f"{lines[-1]} {word}".strip()
        if text_width(longer, size) <= room:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines


def _board(plate, number, each, y, unit):
    """One board with its title; returns where the next one may begin."""
    board, sizes = each.board, each.board.plain
    size = " × ".join(told(sizes[name], unit) for name in ("length", "width", "thickness"))
    title = f"Board {number}: {board.name}, {size}"
    shrunk = min(TITLE, TITLE * (plate.width - 2 * TITLE) / text_width(title, TITLE, bold=True))
    plate.texts.append(Text(TITLE, y + 10, title, shrunk, "start", bold=True))
    along = (plate.width - 2 * TITLE) / sizes["length"]
    across = min(LONGER * along, 300.0 / sizes["width"])
    top = y + 42
    at = _At(TITLE, top + across * sizes["width"], along, across)
    plate.shapes.append(Area("waste", (at.box(0, 0, sizes["length"], sizes["width"]),)))
    for place in each.layout.places:
        corners = at.box(place.left, place.low, place.left + place.length, place.low + place.width)
        plate.shapes.append(Area("piece", (corners,), 0.0))
    for low, high in sizes["faults"]:
        plate.shapes.append(Area("fault", (at.box(low, 0, high, sizes["width"]),)))
    _numbers(plate, each, at)
    return at.foot + 4


class _At:
    """Places on the plate: x along the board from its left end, y across it from its lower edge, in mm."""

    def __init__(self, left, foot, along, across):
        self.left, self.foot, self.along, self.across = left, foot, along, across

    def __call__(self, x, y):
        return self.left + self.along * x, self.foot - self.across * y

    def box(self, x1, y1, x2, y2):
        return rectangle(*self(x1, y1), *self(x2, y2))


def _numbers(plate, each, at):
    """Every cut as a line with its number on it, and every piece's number in its middle, where they have room."""
    taken = []
    for place in each.layout.places:
        (left, foot), (right, head) = at(place.left, place.low), at(place.left + place.length, place.low + place.width)
        text, room = str(place.piece), (right - left - 4, foot - head - 3)
        size = min(24.0, room[1], 24.0 * room[0] / text_width(text, 24.0))
        _write(plate, taken, text, max(size, SMALLEST), _spots((left, head, right, foot)), True)
    for step in steps(each.board.plain["length"], each.board.plain["width"], each.layout):
        _cut(plate, step.cut, each.board.plain, at, taken)


def _spots(box):
    """Where a piece's number may stand, its middle first."""
    left, top, right, bottom = box
    x, y = (left + right) / 2, (top + bottom) / 2
    for share in (0.0, -0.25, 0.25, -0.4, 0.4):
        yield x + share * (right - left), y
    for share in (-0.25, 0.25):
        yield x, y + share * (bottom - top)


def _cut(plate, cut, sizes, at, taken):
    """A cut's line and its number: over the board where it runs right across, else on the line itself."""
    middle, text = (cut.start + cut.end) / 2, str(cut.number)
    if cut.rip:
        start, end = at(cut.low, middle), at(cut.high, middle)
        spots = [(start[0] + share * (end[0] - start[0]), start[1]) for share in (0.06, 0.12, 0.2, 0.3, 0.5, 0.7, 0.9)]
    else:
        start, end = at(middle, cut.low), at(middle, cut.high)
        whole = cut.high - cut.low > sizes["width"] - 1e-6
        spots = [(start[0], end[1] - 9)] if whole else [
            (start[0], start[1] + share * (end[1] - start[1])) for share in (0.25, 0.75, 0.5, 0.12, 0.88)
        ]  # fmt: skip
    plate.shapes.append(Line("saw_cut", start, end))
    _write(plate, taken, text, 13.0, spots, False)


def _write(plate, taken, text, size, spots, bold):
    """A number on the first spot where it touches no other, made smaller where it must be."""
    spots = list(spots)
    while size >= SMALLEST:
        for x, y in spots:
            label = Text(x, y, text, size, bold=bold)
            left, top, right, bottom = label.box()
            box = (left - 1, top - 1, right + 1, bottom + 1)
            if all(box[2] <= b[0] or b[2] <= box[0] or box[3] <= b[1] or b[3] <= box[1] for b in taken):
                taken.append(box)
                plate.texts.append(label)
                return
        size *= 0.85
