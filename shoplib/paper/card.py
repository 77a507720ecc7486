"""The bench card: one page with the picture, the sizes, what to set, and room to write what was measured.

A card is laid out as data first (a Plate in mm of the page), so that it can be checked without a printer.
"""

from dataclasses import dataclass

from shoplib import drawing
from shoplib.drawing.layout import Plate, Text, lay_out, text_width
from shoplib.drawing.sheet import Area, Line, rectangle
from shoplib.model import LENGTH_STEPS, answer, write_value
from shoplib.paper.files import paper_size, printout_path
from shoplib.paper.words import LEADING, fitted, paragraph, width_of

MARGIN = 12.0  # mm
TEXT = 3.0  # mm
GAP = 4.0  # mm between the parts of the card
LEAST_PICTURE = 85.0  # mm high
SAFETY = (
    "Follow the machine's manual and local rules; guards, eye, ear and dust protection; isolate the machine "
    "before you set it."
)


def save_card(model, unit="mm", folder=None, paper="A4"):
    """Write a model's bench card as a PDF of one page and return its path.

    `paper` is A4 or Letter, `unit` mm or in; by default it goes into the folder `printouts`. Raises
    ValueError for another paper and PrintoutError (an OSError) where the file cannot be written.
    """
    paper_size(paper)
    plain = getattr(model, "plain", model)
    path = printout_path(plain, f"card_{paper}.pdf", unit, folder)
    return write_card(plain, drawing.draw(plain, unit), path, unit, paper)


def write_card(plain, sheet, path, unit="mm", paper="A4"):
    """Write the card of a solved stand-in and its Sheet; returns the path."""
    from shoplib.paper import plot

    card = compose(plain, sheet, unit, paper)
    whole = (0, 0, card.page.width, card.page.height)
    with plot.settings():
        page = plot.page(card.page.width, card.page.height)
        plot.Plotter(plot.axes_on(page, whole, whole), 0.2, plot.MM).plate(card.page)
        window = (0, 0, card.picture.width, card.picture.height)
        axes = plot.axes_on(page, (*card.corner, *window[2:]), window)
        plot.Plotter(axes, card.picture.width / 960, plot.MM).plate(card.picture)
        return plot.save_pdf(path, [page], f"{sheet.title}: bench card")


@dataclass
class Card:
    """A laid-out card: the page with its words and tables, and the picture with its top left corner."""

    page: Plate
    picture: Plate
    corner: tuple


def compose(plain, sheet, unit="mm", paper="A4"):
    """Lay out the card: the words take the room they need, the picture the rest.

    Where words and picture do not fit together, long plans and lists of cautions are cut shorter, and
    say so.
    """
    width, height = paper_size(paper)
    for limit in (12, 9, 7, 5, 4, 3, 2, 1):
        trial = _Writer(Plate(width, height, sheet.title, sheet.description), plain, unit, limit)
        free = height - MARGIN - trial.write(0.0)
        if free >= LEAST_PICTURE:
            break
    writer = _Writer(Plate(width, height, sheet.title, sheet.description), plain, unit, limit)
    across = width - 2 * MARGIN
    down = min(free, across / 1.3)
    writer.write(down)
    writer.fill(free - down)
    picture = lay_out(sheet, across, down, text=17 * across / 960)
    return Card(writer.plate, picture, writer.corner)


class _Writer:
    """Writes a card from the top down; each part returns where the next one may begin."""

    def __init__(self, plate, plain, unit, limit):
        self.plate, self.plain, self.unit, self.limit = plate, plain, unit, limit
        self.left, self.right = MARGIN, plate.width - MARGIN
        self.across = self.right - self.left

    def write(self, picture):
        """Everything but the picture, for which so much height is left; returns where the card ends."""
        y = self._head(self.plate.title, MARGIN)
        self.corner = (self.left, y)
        y = self._tables(y + picture + GAP)
        y = self._ticks(y)
        y = self._plans(y)
        y = self._cautions(y)
        return self._safety(y)

    def fill(self, spare):
        """Lines for notes in the height that is left over at the foot."""
        lines = int((spare - 6) / 8)
        if lines > 0:
            y = self.plate.height - MARGIN - spare + 6
            self._text(self.left + 1, y, "Notes", bold=True)
            for k in range(lines):
                start = self.left + (14 if k == 0 else 0)
                self._rule(start, y + 1.5 + 8 * k, self.right, y + 1.5 + 8 * k)

    def _text(self, x, y, text, size=TEXT, anchor="start", bold=False):
        self.plate.texts.append(Text(x, y, text, size, anchor, bold=bold))

    def _rule(self, x1, y1, x2, y2):
        self.plate.lines.append(Line("grid", (x1, y1), (x2, y2)))

    def _head(self, title, y):
        """Title, and lines for the date and the name."""
        self._text(self.left, y + 3, title, fitted(title, 6.0, self.across - 112, bold=True), bold=True)
        for words, start, end in (("Date", 106, 70), ("Name", 66, 0)):
            x = self.right - start
            self._text(x, y + 4, words)
            self._rule(x + text_width(words, TEXT) + 1, y + 5.5, self.right - end, y + 5.5)
        return y + 10

    def _tables(self, y):
        """The sizes given on the left; what to set, with room for what was measured, on the right."""
        middle = self.left + 0.41 * self.across
        sizes, settings = (44, middle - self.left - 48), (48, 30, self.right - middle - 78)
        ends = (
            self._table(self.left, y, sizes, ("Sizes given", ""), self._given()),
            self._table(middle, y, settings, (self.plain.model.TABLE_HEAD, "", "measured"), self._settings()),
        )
        return max(ends) + GAP

    def _given(self):
        inputs = self.plain.model.inputs().items()
        given = [(name, item) for name, item in inputs if self.plain.has(name)]
        return [(item.words, item.write(getattr(self.plain, name), self.unit)) for name, item in given]

    def _found(self):
        """Results that have a meaning for these sizes, with their plain values."""
        for name, item in self.plain.model.results().items():
            if not answer(self.plain, name, self.unit)[1]:
                yield item, getattr(self.plain, name)

    def _settings(self):
        return [
            (item.words, item.write(value, self.unit), "")
            for item, value in self._found() if not (item.minor or isinstance(value, tuple))
        ]

    def _table(self, x, y, widths, head, rows, size=TEXT):
        """A table with a line under each row; a column headed "measured" is left open, in boxes."""
        end = x + sum(widths)
        y = self._row(x, y, widths, head, size, bold=True)
        self._rule(x, y, end, y)
        top = y
        for row in rows:
            y = self._row(x, y, widths, row, size)
            self._rule(x, y, end, y)
        if head[-1] == "measured":
            self._rule(end - widths[-1], top, end - widths[-1], y)
            self._rule(end, top, end, y)
        return y

    def _row(self, x, y, widths, cells, size, bold=False):
        most = 1
        for width, cell in zip(widths, cells):
            lines = paragraph(cell, x + 1, y + 0.85 * size, width - 2, size, bold) if cell else []
            self.plate.texts += lines
            most = max(most, len(lines))
            x += width
        return y + size * (LEADING * most + 0.4)

    def _ticks(self, y):
        """Steps that follow one another (passes), each with a box to tick."""
        for item, values in self._found():
            if isinstance(values, tuple) and not item.table:
                y = self._steps(y, item, [item.write(value, self.unit) for value in values]) + GAP
        return y

    def _steps(self, y, item, steps):
        self._text(self.left + 1, y + 2, item.words[:1].upper() + item.words[1:], bold=True)
        column = max(text_width(step, TEXT) for step in steps) + 9
        columns = int(self.across / column)
        most = columns * max(1, self.limit // 3)
        for k, step in enumerate(steps[:most]):
            x, row = self.left + 1 + k % columns * column, y + 7.5 + k // columns * 5.5
            self.plate.shapes.append(Area("box", (rectangle(x, row - 1.6, x + 3.2, row + 1.6),)))
            self._text(x + 4.6, row, step)
        y += 5 + 5.5 * -(-min(len(steps), most) // columns)
        if len(steps) > most:
            more = f"… and {len(steps) - most} more, the last {steps[-1]}: see the lesson"
            self._text(self.left + 1, y + 2, more)
            y += 4
        return y

    def _plans(self, y):
        """Tables of rows, side by side where they fit."""
        plans = [self._plan(item, values) for item, values in self._found() if item.table and values]
        x, end = self.left, y
        for words, head, rows, widths, more in plans:
            if x > self.left and x + sum(widths) > self.right:
                x, y = self.left, end
            self._text(x + 1, y + 2, words, bold=True)
            below = self._table(x, y + 4, widths, head, rows, size=2.6)
            if more:
                self._text(x + 1, below + 2, more, 2.6)
                below += 4
            x, end = x + max(sum(widths), width_of(words, TEXT, bold=True)) + 5, max(end, below + GAP)
        return end

    def _plan(self, item, values):
        """Words, head, rows, column widths and what was left out, of one table."""
        head = ["", *(name.replace("_", " ") for name in values[0]._fields)]
        rows = [[str(k + 1), *map(self._cell, row)] for k, row in enumerate(values[: self.limit])]
        widths = [max(width_of(cell, 2.6, bold=True) for cell in column) + 2.2 for column in zip(head, *rows)]
        left_out = len(values) - len(rows)
        more = f"… and {left_out} more rows: see the lesson" if left_out else ""
        return item.words[:1].upper() + item.words[1:], head, rows, widths, more

    def _cell(self, value):
        kind = "length" if isinstance(value, float) else "count"
        return write_value(value, kind, self.unit, *LENGTH_STEPS)

    def _cautions(self, y):
        """What should worry you, each with its source."""
        cautions = list(self.plain.worries())
        if not cautions:
            return y
        self._text(self.left + 1, y + 2, "Cautions", bold=True)
        y += 6
        shown = max(2, self.limit // 2)
        for caution in cautions[:shown]:
            y = self._caution(y, f"{caution.tell(self.unit)} ({caution.source})")
        if len(cautions) > shown:
            y = self._caution(y, f"… and {len(cautions) - shown} more cautions: see the lesson")
        return y + GAP - 2

    def _caution(self, y, words):
        self._text(self.left + 1, y, "!", bold=True)
        lines = paragraph(words, self.left + 5, y, self.across - 6, TEXT)
        self.plate.texts += lines
        return y + TEXT * (LEADING * len(lines) + 0.3)

    def _safety(self, y):
        """The safety line in its frame."""
        lines = paragraph(SAFETY, self.left + 2, y + 3, self.across - 4, TEXT, bold=True)
        bottom = y + 2.2 + LEADING * TEXT * len(lines)
        self.plate.shapes.append(Area("box", (rectangle(self.left, y, self.right, bottom),)))
        self.plate.texts += lines
        return bottom
