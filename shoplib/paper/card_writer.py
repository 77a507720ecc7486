"""Writes the words, tables and lists of a bench card onto its pages, from the top down."""

from typing import NamedTuple

from shoplib.drawing.layout import Text, text_width
from shoplib.drawing.sheet import Area, Line, rectangle
from shoplib.paper.words import LEADING, fitted, paragraph

MARGIN = 12.0  # mm
TEXT = 3.0  # mm
SMALL = 2.6  # mm
GAP = 4.0  # mm between the parts of the card
MOST_GIVEN, FIRST, ON_A_PAGE = 24, 8, 36  # sizes given beside the settings; of more these; on a later page these
FEW, LONGEST = 5, 50  # rows of a plan that stand in one block where there is room, and at the most
MEASURED, WIDEST = 26.0, 60.0  # mm, the column that is left open
SAFETY = (
    "Follow the machine's manual and local rules; guards, eye, ear and dust protection; isolate the machine "
    "before you set it."
)


class CardWriter:
    """Writes a card from the top down; each part returns where the next one may begin.

    Lists are cut to what `limit` lets them have; then `cut` is set and a sentence says where the rest is.
    """

    def __init__(self, plate, contents, limit, elsewhere):
        self.plate, self.contents, self.limit, self.elsewhere = plate, contents, limit, elsewhere
        self.left, self.right, self.cut = MARGIN, plate.width - MARGIN, False
        self.across, self.end = self.right - self.left, plate.height - MARGIN

    def write(self, picture):
        """Everything but the picture, for which so much height is left; returns where the card ends."""
        y = self.head(MARGIN)
        self.corner = (self.left, y)
        y = self._told(y + picture + GAP)
        y, later = self._tables(y)
        for steps in self.contents.steps:
            y = self.steps(y, *steps)
        return self._safety(self.cautions(self.plans(y, later)))

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

    def _more(self, words):
        """A sentence on what found no room."""
        return f"… and {words}: see {self.elsewhere}"

    def _left_out(self, count, what):
        """The same, of things that are counted."""
        return self._more(f"{count} more {what}{'s' if count > 1 else ''}")

    def head(self, y, page=""):
        """Title and mark; unit and date; on the first page lines for what the piece is for and for a name."""
        imprint = self.contents.imprint
        title, mark = imprint.title(self.contents.title), f"Mark {imprint.mark}"
        room = self.across - text_width(mark, 4.2, bold=True) - 6
        self._text(self.left, y + 3, title, fitted(title, 6.0, room, bold=True), bold=True)
        self._text(self.right, y + 3, mark, 4.2, "end", bold=True)
        told = f"Bench card{page}. {imprint.unit_and_date()}"
        self._text(self.left, y + 10.5, told, SMALL)
        start = max(self.right - 96, self.left + text_width(told, SMALL) + GAP)
        middle = (start + self.right) / 2
        for words, x, end in () if page else (("For", start, middle - 2), ("Name", middle + 2, self.right)):
            self._text(x, y + 10.5, words)
            self._rule(x + text_width(words, TEXT) + 1, y + 12, end, y + 12)
        return y + 16

    def _told(self, y):
        """Paragraphs, each with its heading."""
        for heading, text in self.contents.told:
            self._text(self.left + 1, y + 2, heading, bold=True)
            lines = paragraph(text, self.left + 1, y + 6.5, self.across - 2, TEXT)
            self.plate.texts += lines
            y += 6.5 + TEXT * LEADING * len(lines)
        return y + (GAP if self.contents.told else 0)

    def _tables(self, y):
        """The sizes given on the left; what to set and what comes of it, with room for what was measured, on the right.

        Plans that find room under that stand there; the others are returned too.
        """
        given, settings = self._given(), self.contents.settings
        start, end, below = self.left, y, y
        if given:
            widths = _columns(given, (self.across - GAP) / 2, bold=False)
            end = self._table(self.left, y, widths, ("Sizes given", ""), given)
            start += sum(widths) + GAP
        if settings:
            texts = [row for heading, rows in settings for row in ((heading, ""), *rows)]
            widths = _columns(texts, self.right - start - MEASURED, bold=True)
            widths = (*widths, min(self.right - start - sum(widths), WIDEST))
            for heading, rows in settings:
                rows = [(words, size, "") for words, size in rows]
                below = self._table(start, below, widths, (heading, "", "measured"), rows) + GAP / 2
            below -= GAP / 2
        later = list(self.contents.plans)
        while later and self._fits(blocks := self._blocks(later[0], self.right - start), end - below - GAP):
            below = self._plan(start, below + GAP, later.pop(0), blocks)
        return max(end, below) + GAP, later

    def _given(self):
        """The sizes given; of very many the first ones."""
        given = self.contents.given
        if len(given) <= MOST_GIVEN:
            return given
        self.cut = True
        return (*given[:FIRST], (self._left_out(len(given) - FIRST, "size"), ""))

    def sizes(self, y, *columns):
        """Sizes given in columns side by side, all of them."""
        room = (self.across - GAP * (len(columns) - 1)) / len(columns)
        ends = []
        for k, rows in enumerate(columns):
            widths = _columns(rows, room, bold=False)
            ends.append(self._table(self.left + k * (room + GAP), y, widths, ("Sizes given", ""), rows))
        return max(ends) + GAP

    @staticmethod
    def _fits(blocks, down):
        """Whether all rows of a plan have room."""
        return not blocks.more and 4 + SMALL * (LEADING + 0.4) * (1 + len(blocks.rows[0])) <= down

    def _table(self, x, y, widths, head, rows, size=TEXT):
        """A table with a line under each row; a column headed "measured" is left open, and what to set is bold."""
        end = x + sum(widths)
        y = self._row(x, y, widths, head, size, bold=True)
        self._rule(x, y, end, y)
        top = y
        for row in rows:
            y = self._row(x, y, widths, row, size, bold=head[-1] == "measured")
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

    def steps(self, y, words, texts):
        """Steps that follow one another (passes), each with a box to tick."""
        self._text(self.left + 1, y + 2, words, bold=True)
        column = max(text_width(text, TEXT) for text in texts) + 9
        columns = int(self.across / column)
        most = columns * max(1, 2 * self.limit // 3)
        for k, text in enumerate(texts[:most]):
            x, row = self.left + 1 + k % columns * column, y + 7.5 + k // columns * 5.5
            self.plate.shapes.append(Area("box", (rectangle(x, row - 1.6, x + 3.2, row + 1.6),)))
            self._text(x + 4.6, row, text)
        y += 5 + 5.5 * -(-min(len(texts), most) // columns)
        if len(texts) > most:
            self.cut = True
            self._text(self.left + 1, y + 2, self._more(f"{len(texts) - most} more, the last {texts[-1]}"))
            y += 4
        return y + GAP

    def plans(self, y, plans):
        """Tables of rows, side by side where they fit."""
        x, end = self.left, y
        for plan in plans:
            blocks = self._blocks(plan, self.right - x)
            if x > self.left and (blocks.more or x + blocks.across > self.right):
                x, y = self.left, end
                blocks = self._blocks(plan, self.across)
            end = max(end, self._plan(x, y, plan, blocks) + GAP)
            x += blocks.across + 5
        return end

    def _blocks(self, plan, across):
        """A plan's rows in blocks side by side, as many rows as this card shows in each; where the room is too
        narrow for it, without the decimals.
        """
        widths = _widths(plan.head, plan.rows)
        rows = plan.rows if sum(widths) <= across else plan.short
        widths = _widths(plan.head, rows)
        fit = max(1, int((across + 5) / (sum(widths) + 5)))
        high = min(self.limit, max(FEW, -(-len(rows) // fit)))
        blocks = [rows[start : start + high] for start in range(0, len(rows), high)][:fit]
        left_out = len(rows) - sum(map(len, blocks))
        more = self._left_out(left_out, "row") if left_out else ""
        across = len(blocks) * (sum(widths) + 5) - 5
        across = max(across, text_width(plan.words, TEXT, bold=True), text_width(more, SMALL))
        return _Blocks(widths, blocks, more, across)

    def _plan(self, x, y, plan, blocks):
        self._text(x + 1, y + 2, plan.words, bold=True)
        places = [x + k * (sum(blocks.widths) + 5) for k in range(len(blocks.rows))]
        y = max(
            self._table(place, y + 4, blocks.widths, plan.head, rows, size=SMALL)
            for place, rows in zip(places, blocks.rows)
        )
        if blocks.more:
            self.cut = True
            self._text(x + 1, y + 2, blocks.more, SMALL)
            y += 4
        return y

    def cautions(self, y):
        """What should worry you, each with its source."""
        cautions = self.contents.cautions
        if not cautions:
            return y
        self._text(self.left + 1, y + 2, "Cautions", bold=True)
        y += 6
        shown = max(2, self.limit // 2)
        for caution in cautions[:shown]:
            y = self._caution(y, caution)
        if len(cautions) > shown:
            self.cut = True
            y = self._caution(y, self._left_out(len(cautions) - shown, "caution"))
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


class _Blocks(NamedTuple):
    """A plan's rows in blocks side by side: widths of the columns, a sentence on rows left out, width of all."""

    widths: list
    rows: list
    more: str
    across: float


def _columns(rows, room, bold):
    """Widths of a column of words and one of sizes, no wider together than the room."""
    words, sizes = (max(text_width(text, TEXT, bold) for text in column) + 3 for column in zip(*rows))
    words = max(words, text_width("Sizes given", TEXT, bold=True) + 3)  # the longest head
    sizes = min(sizes, 0.6 * room)
    return min(words, room - sizes), sizes


def _widths(head, rows):
    """Widths of the columns of a plan."""
    return [max(text_width(cell, SMALL, bold=True) for cell in column) + 2.2 for column in zip(head, *rows)]
