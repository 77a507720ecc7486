"""Pages of words and tables, written from the top down; what does not fit goes on on the next page."""

import itertools

from shoplib.drawing.plate import Plate, Text, text_width
from shoplib.drawing.sheet import Area, Line, rectangle
from shoplib.paper.document import Page
from shoplib.paper.files import paper_size
from shoplib.paper.part import Part
from shoplib.paper.words import LEADING, fitted, wrapped

MARGIN, TEXT, SMALL, ROW = 12.0, 3.4, 3.0, 4.6  # mm
LEAST = 0.75  # share of their size that letters may be made smaller to, for two tables side by side
EXPLAINED = 0.68  # share of the page's width that a table may take beside its sentences
FOOT = 16.0  # mm that the last sentences take


def printed(plate, picture, corner):
    """A page of paper from its plate, with the picture across it where it has one."""
    page = Page(plate.width, plate.height)
    Part(plate, (0.0, 0.0, plate.width, plate.height)).draw(page)
    if picture is not None:
        scale = (plate.width - 2 * MARGIN) / picture.width
        Part(picture, (*corner, scale * picture.width, scale * picture.height), pen=picture.width / 960).draw(page)
    return page


class Report:
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

    def heading(self, words):
        """A line of its own over what follows."""
        self.room(3 * TEXT * LEADING)
        self.text(MARGIN, self.y + 2, words, bold=True)
        self.y += 1.5 * TEXT * LEADING

    def room(self, height):
        """Go to a new page where this one has no room for so much."""
        if self.y + height > self.height - MARGIN:
            self.begin(self.title if self.title.endswith("continued") else f"{self.title}, continued")
            return True
        return False

    def table(self, words, head, rows, boxes=False, leads=(), across=None):
        """A table under its heading, its columns as wide as their texts; with boxes to tick before each row.

        `leads` are the titles of the pages to which its rows lead, `across` is how wide it may be.
        """
        table = Table(words, head, rows, boxes)
        table.shrink(across or self.across)
        self.room(8 + 2 * ROW)
        self._head(table, MARGIN)
        for row, title in itertools.zip_longest(rows, leads):
            if self.room(ROW):
                self._head(table, MARGIN)
            self._row(row, table, MARGIN, boxes)
            if title:
                self.pages[-1][3].append(((MARGIN, self.y - ROW, MARGIN + table.width, self.y), title))
        self.y += 3

    def explained(self, words, head, rows, sentences):
        """A table with sentences to its right, on one page where a page holds them."""
        across = min(EXPLAINED * self.across, Table(words, head, rows).width)
        left = MARGIN + across + 8
        pieces = [wrapped(each, TEXT, self.width - MARGIN - left) for each in sentences]
        told = sum(TEXT * LEADING * len(lines) + 1.5 for lines in pieces)
        self.room(min(self.height - 3 * MARGIN - FOOT, 8 + max(ROW * (1 + len(rows)), told)))
        plate, y = self.plate, self.y + 5
        self.table(words, head, rows, across=across)
        for lines in pieces:
            plate.texts += [
                Text(left, y + ROW / 2 + k * TEXT * LEADING, line, TEXT, "start") for k, line in enumerate(lines)
            ]
            y += TEXT * LEADING * len(lines) + 1.5
        if self.plate is plate:
            self.y = max(self.y, y + 3)

    def beside(self, left, right):
        """Two tables side by side where both fit on what is left of the page, else one under the other."""
        tables = Table(*left), Table(*right)
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

    def columns(self, tables):
        """Tables one under the other in two columns, each whole in the one with more room, else on a new page."""
        middle = (self.across - 6) / 2
        lefts = (MARGIN, self.width - MARGIN - middle)
        tables, ends = [Table(*each) for each in tables], [self.y, self.y]
        for table in tables:
            table.shrink(middle)
            height = 8 + ROW * (1 + len(table.rows))
            if min(ends) + height > self.height - MARGIN - FOOT:
                self.begin(self.title if self.title.endswith("continued") else f"{self.title}, continued")
                ends = [self.y, self.y]
            side = ends.index(min(ends))
            self.y = ends[side]
            self._head(table, lefts[side])
            for row in table.rows:
                self._row(row, table, lefts[side], table.boxes)
            ends[side] = self.y + 3
        self.y = max(ends)

    def _head(self, table, x):
        self.text(x, self.y + 2, table.words, bold=True)
        self.y += 5
        if any(table.head):
            self._row(table.head, table, x, False, True)
        else:
            self.plate.lines.append(Line("grid", (x, self.y), (x + table.width, self.y)))

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


class Table:
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
