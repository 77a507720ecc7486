"""A saw plan on paper, to take to the saw: a buying list, then the pages of each board with its cuts in their order."""

import datetime
import itertools

from shoplib.drawing.plate import Plate, Text, text_width
from shoplib.drawing.sheet import Area, Line, rectangle
from shoplib.drawing.timber import draw_boards
from shoplib.maths.timber.sawing import steps
from shoplib.maths.timber.stock import told
from shoplib.model import LENGTH_STEPS, in_full, write_value
from shoplib.paper.document import Entry, Page, save_pdf
from shoplib.paper.files import named, paper_size
from shoplib.paper.imprint import Imprint, mark
from shoplib.paper.part import Part
from shoplib.paper.words import LEADING, fitted, wrapped

MARGIN, TEXT, SMALL, ROW = 12.0, 3.4, 3.0, 4.6  # mm
LEAST = 0.75  # share of their size that letters may be made smaller to, for two tables side by side
FOOT = 16.0  # mm that the last sentences take
SAFETY = (
    "Not drawn to scale. Check each setting on a rule before you saw; a narrow or short piece needs a push block, a "
    "jig or a hand saw. The machine's manual goes before this sheet."
)


def save_saw_plan(plan, unit="mm", paper="A4", folder=None, part="", date=None):
    """Write a plan as a PDF: a buying list, then for each board its drawing, cuts and a check of sizes; its path.

    Raises ValueError for another paper and PrintoutError (an OSError) where the file cannot be written.
    """
    paper_size(paper)
    imprint = _imprint(plan, unit, part, date)
    path = named([part[:40].lower(), "saw-plan", f"{len(plan.boards)}-boards", f"{len(plan.pieces)}-pieces",
                  imprint.mark, f"plan_{paper}.pdf"], folder)  # fmt: skip
    pages, outline = _printed(compose(plan, imprint, paper))
    return save_pdf(path, pages, imprint.title("Saw plan"), outline)


def _imprint(plan, unit, part, date):
    """The mark of a plan stands for its parts, boards, allowances and where every piece lies."""
    exactly = [f"{piece.number}: {piece.part.name} {piece.part.species} {piece.part.plain}" for piece in plan.pieces]
    exactly += [f"{each.board.name} {each.board.price} {each.board.plain} {each.layout}" for each in plan.boards]
    sizes = tuple((words, told(value, unit)) for words, value in plan.allowances.items())
    return Imprint(sizes, mark("saw plan", *exactly, str(plan.allowances)), unit, date or datetime.date.today(), part)


def compose(plan, imprint, paper="A4"):
    """The pages: each a plate with its texts, the board's picture with the corner where it stands, and the boxes of
    rows that lead to another page, each with that page's title.
    """
    writer = _Pages(imprint, paper)
    _buying_list(writer, plan)
    for number, each in enumerate(plan.boards, 1):
        _board(writer, plan, number, each)
    writer.number()
    return writer.pages


def _printed(composed):
    """The pages, and their outline; the rows of the buying list lead to their boards."""
    pages = [_page(*each[:3]) for each in composed]
    titled = {plate.title: page for (plate, *_), page in reversed([*zip(composed, pages)])}  # the first of each title
    for (_, _, _, rows), page in zip(composed, pages):
        for box, title in rows:
            page.link(box, titled[title])
    return pages, [Entry(title, page) for title, page in reversed(titled.items())]


def _page(plate, picture, corner):
    page = Page(plate.width, plate.height)
    Part(plate, (0.0, 0.0, plate.width, plate.height)).draw(page)
    if picture is not None:
        scale = (plate.width - 2 * MARGIN) / picture.width
        Part(picture, (*corner, scale * picture.width, scale * picture.height), pen=1.0).draw(page)
    return page


class _Pages:
    """Pages written from the top down; a table that is too long goes on with its head on the next one."""

    def __init__(self, imprint, paper):
        self.imprint, (self.width, self.height) = imprint, paper_size(paper)
        self.across = self.width - 2 * MARGIN
        self.pages, self.title = [], ""

    def begin(self, title, picture=None):
        """A new page under this title, with the picture on top where there is one."""
        self.title, self.y = title, MARGIN
        self.plate = Plate(self.width, self.height, title, "")
        stamp = f"Mark {self.imprint.mark}"
        head = self.imprint.title(title)
        room = self.across - text_width(stamp, 4.2, bold=True) - 6
        self.text(MARGIN, self.y + 3, head, fitted(head, 6.0, room, bold=True), bold=True)
        self.text(self.width - MARGIN, self.y + 3, stamp, 4.2, "end", bold=True)
        told = f"{self.imprint.unit_and_date()} {self.imprint.made_from()}"
        self.text(MARGIN, self.y + 10, told, fitted(told, SMALL, self.across))
        self.y += 16
        self.pages.append((self.plate, picture, (MARGIN, self.y), []))
        if picture is not None:
            self.y += picture.height * self.across / picture.width + 2

    def number(self):
        """Number all pages."""
        for place, (plate, *_) in enumerate(self.pages, 1):
            words = f"page {place} of {len(self.pages)}"
            plate.texts.append(Text(self.width - MARGIN, self.height - 8, words, SMALL, "end"))

    def text(self, x, y, text, size=TEXT, anchor="start", bold=False):
        self.plate.texts.append(Text(x, y, text, size, anchor, bold=bold))

    def told(self, text, bold=False):
        """A paragraph."""
        for line in wrapped(text, TEXT, self.across, bold):
            self.room(TEXT * LEADING)
            self.text(MARGIN, self.y + 2, line, bold=bold)
            self.y += TEXT * LEADING
        self.y += 1.5

    def room(self, height):
        """Go to a new page where this one has no room for so much."""
        if self.y + height > self.height - MARGIN:
            self.begin(self.title if self.title.endswith("continued") else f"{self.title}, continued")
            return True
        return False

    def table(self, words, head, rows, boxes=False, leads=()):
        """A table under its heading, its columns as wide as their texts; with boxes to tick before each row.

        `leads` are the titles of the pages to which its rows lead.
        """
        table = _Table(words, head, rows, boxes)
        table.shrink(self.across)
        self.room(8 + 2 * ROW)
        self._head(table, MARGIN)
        for row, title in itertools.zip_longest(rows, leads):
            if self.room(ROW):
                self._head(table, MARGIN)
            self._row(row, table, MARGIN, boxes)
            if title:
                self.pages[-1][3].append(((MARGIN, self.y - ROW, MARGIN + table.width, self.y), title))
        self.y += 3

    def beside(self, left, right):
        """Two tables side by side where both fit on what is left of the page, else one under the other."""
        tables = _Table(*left), _Table(*right)
        share = (self.across - 6) / sum(table.width for table in tables)
        for table in tables:
            table.shrink(max(share, LEAST) * table.width)
        height = 10 + ROW * (1 + max(len(table.rows) for table in tables))
        if tables[0].width + 6 + tables[1].width > self.across or self.y + height > self.height - MARGIN - FOOT:
            for each in (left, right):
                self.table(*each)
            return
        top, ends = self.y, []
        for table, x in zip(tables, (MARGIN, self.width - MARGIN - tables[1].width)):
            self.y = top
            self._head(table, x)
            for row in table.rows:
                self._row(row, table, x, table.boxes)
            ends.append(self.y)
        self.y = max(ends) + 3

    def _head(self, table, x):
        self.text(x, self.y + 2, table.words, bold=True)
        self.y += 5
        self._row(table.head, table, x, False, True)

    def _row(self, cells, table, left, box=False, bold=False):
        if box:
            corners = rectangle(left + 1, self.y + 0.8, left + 4, self.y + 3.8)
            self.plate.shapes.append(Area("box", (corners,)))
        x = left + table.first
        for cell, width in zip(cells, table.widths):
            self.text(x, self.y + ROW / 2, cell, table.size, bold=bold)
            x += width
        self.y += ROW
        self.plate.lines.append(Line("grid", (left, self.y), (left + table.width, self.y)))


class _Table:
    """Heading, head and rows of a table, and how wide its columns are."""

    def __init__(self, words, head, rows, boxes=False):
        self.words, self.head, self.rows, self.boxes = words, head, rows, boxes
        self.first, self.size = (6.0 if boxes else 1.0), SMALL
        self.widths = [max(text_width(cell, SMALL, bold=True) for cell in column) + 3 for column in zip(head, *rows)]

    @property
    def width(self):
        return self.first + sum(self.widths)

    def shrink(self, room):
        """Make the letters smaller where the table would be wider than the page."""
        if self.width > room:
            share = (room - self.first) / sum(self.widths)
            self.size, self.widths = self.size * share, [width * share for width in self.widths]


def _buying_list(writer, plan):
    """What is bought, what it comes to, what each part needs, and what found no place."""
    unit = writer.imprint.unit
    writer.begin("Buying list")
    writer.told(plan.verdict(unit), bold=True)
    writer.table("Boards", ("", "board", *SIZES, "price"), [
        (str(number), each.board.name, *_sizes(each.board.plain, unit), _price(each.board))
        for number, each in enumerate(plan.boards, 1)
    ], boxes=True, leads=[_title(number, each) for number, each in enumerate(plan.boards, 1)])  # fmt: skip
    writer.table("It comes to", ("", ""), [row for row in plan.buy(unit=unit).rows])
    writer.table("Parts", ("part", "pieces", *SIZES, "rough length", "rough width"), [
        (part.name, str(count), *_sizes(part.plain, unit), _full(rough.length, unit), _full(rough.width, unit))
        for part, rough, count in plan.by_part()
    ])  # fmt: skip


SIZES = ("length", "width", "thickness")


def _board(writer, plan, number, each):
    """A board's page: its picture, cuts in their order, and a check of every piece."""
    unit = writer.imprint.unit
    writer.begin(_title(number, each), draw_boards(plan, unit, {number}))
    for low, high in each.board.plain["faults"]:
        writer.told(f"Fault from {told(low, unit)} to {told(high, unit)}, measured from the left "
                    "end.")  # fmt: skip
    cuts = ("Cuts, in this order", ("cut", "how", "set fence or stop to", "what comes off"), [
        (str(step.cut.number), "rip" if step.cut.rip else "crosscut", _full(step.fence, unit), plan.comes_off(step))
        for step in steps(each.board.plain["length"], each.board.plain["width"], each.layout)
    ], True)  # fmt: skip
    pieces = ("Check of sizes", ("piece", "part", "length", "width", "measured"), [
        (str(place.piece), plan.pieces[place.piece - 1].part.name, _full(place.length, unit), _full(place.width, unit),
         "") for place in each.layout.places
    ])  # fmt: skip
    writer.beside(cuts, pieces)
    writer.told("Measure each setting from the left end or the lower edge of the wood that the cut parts; the saw cut "
                "lies beyond it, in what is left. " + SAFETY)  # fmt: skip


def _title(number, each):
    return f"Board {number}: {each.board.name}"


def _sizes(plain, unit):
    return [_full(plain[name], unit) for name in SIZES]


def _full(value, unit):
    return in_full(write_value(value, "length", unit, *LENGTH_STEPS), value, "length", unit)


def _price(board):
    return "" if board.price is None else f"{board.price:.2f}"
