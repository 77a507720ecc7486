"""The bench card: one page with the picture, the sizes, what to set, and room to write what was measured.

A card is laid out as data first (a Plate in mm of the page), so that it can be checked without a printer.
"""

from dataclasses import dataclass

from shoplib import drawing
from shoplib.drawing.layout import Plate, Text, lay_out, text_width
from shoplib.drawing.sheet import Area, Line, rectangle
from shoplib.model import ShapeError
from shoplib.paper.contents import contents_of
from shoplib.paper.files import paper_size, printout_path
from shoplib.paper.imprint import imprint_of
from shoplib.paper.words import LEADING, fitted, paragraph, width_of

MARGIN = 12.0  # mm
TEXT = 3.0  # mm
SMALL = 2.6  # mm
GAP = 4.0  # mm between the parts of the card
LEAST_PICTURE = 85.0  # mm high
MEASURED, WIDEST = 26.0, 60.0  # mm, the column that is left open
SAFETY = (
    "Follow the machine's manual and local rules; guards, eye, ear and dust protection; isolate the machine "
    "before you set it."
)


def save_card(model, unit="mm", folder=None, paper="A4", part="", date=None):
    """Write a model's bench card as a PDF of one page and return its path.

    `paper` is A4 or Letter, `unit` mm or in; by default it goes into the folder `printouts`. `part` is your own
    name for the piece, `date` another date than today's. Raises ValueError for another paper and PrintoutError (an
    OSError) where the file cannot be written.
    """
    paper_size(paper)
    plain = getattr(model, "plain", model)
    path = printout_path(plain, f"card_{paper}.pdf", unit, folder, part)
    sheet = drawing.draw(plain, unit)
    contents = contents_of(plain, sheet, imprint_of(plain, unit, part, date), _use(plain, sheet, unit))
    return write_card(contents, sheet, path, paper)


def _use(plain, sheet, unit):
    """How the drawing is used at the bench, or its template where there is one and that says so."""
    if sheet.use or not drawing.has_template(plain.model):
        return sheet.use
    try:
        return drawing.template(plain, unit).use
    except ShapeError:  # no template of these sizes
        return ""


def write_card(contents, sheet, path, paper="A4"):
    """Write the card with these words and the picture of a Sheet; returns the path."""
    from shoplib.paper import plot

    card = compose(contents, sheet, paper)
    whole = (0, 0, card.page.width, card.page.height)
    with plot.settings():
        page = plot.page(card.page.width, card.page.height)
        plot.Plotter(plot.axes_on(page, whole, whole), 0.2, plot.MM).plate(card.page)
        window = (0, 0, card.picture.width, card.picture.height)
        axes = plot.axes_on(page, (*card.corner, *window[2:]), window)
        plot.Plotter(axes, card.picture.width / 960, plot.MM).plate(card.picture)
        return plot.save_pdf(path, [page], f"{contents.imprint.title(contents.title)}: bench card")


@dataclass
class Card:
    """A laid-out card: the page with its words and tables, and the picture with its top left corner."""

    page: Plate
    picture: Plate
    corner: tuple


def compose(contents, sheet, paper="A4"):
    """Lay out the card: the words take the room they need, the picture the rest.

    Where words and picture do not fit together, long plans and lists of cautions are cut shorter, and
    say so.
    """
    width, height = paper_size(paper)
    for limit in (12, 9, 7, 5, 4, 3, 2, 1):
        trial = _Writer(Plate(width, height, sheet.title, sheet.description), contents, limit)
        free = height - MARGIN - trial.write(0.0)
        if free >= LEAST_PICTURE:
            break
    writer = _Writer(Plate(width, height, sheet.title, sheet.description), contents, limit)
    across = width - 2 * MARGIN
    down = min(free, across / 1.3)
    writer.write(down)
    writer.fill(free - down)
    picture = lay_out(sheet, across, down, text=17 * across / 960)
    return Card(writer.plate, picture, writer.corner)


class _Writer:
    """Writes a card from the top down; each part returns where the next one may begin."""

    def __init__(self, plate, contents, limit):
        self.plate, self.contents, self.limit = plate, contents, limit
        self.left, self.right = MARGIN, plate.width - MARGIN
        self.across = self.right - self.left

    def write(self, picture):
        """Everything but the picture, for which so much height is left; returns where the card ends."""
        y = self._head(MARGIN)
        self.corner = (self.left, y)
        y = self._told(y + picture + GAP)
        y, later = self._tables(y)
        for words, texts in self.contents.steps:
            y = self._steps(y, words, texts) + GAP
        y = self._plans(y, later)
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

    def _head(self, y):
        """Title and mark; unit and date; lines for what the piece is for and for a name."""
        imprint = self.contents.imprint
        title, mark = imprint.title(self.contents.title), f"Mark {imprint.mark}"
        room = self.across - width_of(mark, 4.2, bold=True) - 6
        self._text(self.left, y + 3, title, fitted(title, 6.0, room, bold=True), bold=True)
        self._text(self.right, y + 3, mark, 4.2, "end", bold=True)
        self._text(self.left, y + 10.5, f"Bench card. {imprint.unit_and_date()}", SMALL)
        for words, start, end in (("For", 96, 50), ("Name", 46, 0)):
            x = self.right - start
            self._text(x, y + 10.5, words)
            self._rule(x + text_width(words, TEXT) + 1, y + 12, self.right - end, y + 12)
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
        """The sizes given on the left; what to set, with room for what was measured, on the right.

        Plans that find room under what to set stand there; the others are returned too.
        """
        given, settings = self.contents.given, self.contents.settings
        start, end, below = self.left, y, y
        if given:
            widths = _columns(given, (self.across - GAP) / 2, bold=False)
            end = self._table(self.left, y, widths, ("Sizes given", ""), given)
            start += sum(widths) + GAP
        if settings:
            widths = _columns(settings, self.right - start - MEASURED, bold=True)
            widths = (*widths, min(self.right - start - sum(widths), WIDEST))
            rows = [(words, size, "") for words, size in settings]
            below = self._table(start, y, widths, (self.contents.head, "", "measured"), rows)
        later = list(self.contents.plans)
        while later and self._fits(later[0], self.right - start, end - below - GAP):
            below = self._plan(start, below + GAP, later.pop(0))
        return max(end, below) + GAP, later

    def _fits(self, plan, across, down):
        """Whether a plan has room for all its columns and for the rows that this card shows."""
        height = 4 + SMALL * (LEADING + 0.4) * (1 + min(len(plan.rows), self.limit))
        return sum(self._widths(plan)) <= across and height <= down and len(plan.rows) <= self.limit

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

    def _steps(self, y, words, texts):
        """Steps that follow one another (passes), each with a box to tick."""
        self._text(self.left + 1, y + 2, words, bold=True)
        column = max(text_width(text, TEXT) for text in texts) + 9
        columns = int(self.across / column)
        most = columns * max(1, self.limit // 3)
        for k, text in enumerate(texts[:most]):
            x, row = self.left + 1 + k % columns * column, y + 7.5 + k // columns * 5.5
            self.plate.shapes.append(Area("box", (rectangle(x, row - 1.6, x + 3.2, row + 1.6),)))
            self._text(x + 4.6, row, text)
        y += 5 + 5.5 * -(-min(len(texts), most) // columns)
        if len(texts) > most:
            more = f"… and {len(texts) - most} more, the last {texts[-1]}: see the lesson"
            self._text(self.left + 1, y + 2, more)
            y += 4
        return y

    def _plans(self, y, plans):
        """Tables of rows, side by side where they fit."""
        x, end = self.left, y
        for plan in plans:
            words = width_of(plan.words, TEXT, bold=True), width_of(self._left_out(plan), SMALL)
            across = max(sum(self._widths(plan)), *words)
            if x > self.left and x + across > self.right:
                x, y = self.left, end
            end = max(end, self._plan(x, y, plan) + GAP)
            x += across + 5
        return end

    def _rows(self, plan):
        """The rows shown, without the decimals where the page is too narrow for them."""
        shown = plan.rows[: self.limit]
        return shown if sum(_widths(plan.head, shown)) <= self.across else plan.short[: self.limit]

    def _widths(self, plan):
        return _widths(plan.head, self._rows(plan))

    def _plan(self, x, y, plan):
        self._text(x + 1, y + 2, plan.words, bold=True)
        y = self._table(x, y + 4, self._widths(plan), plan.head, self._rows(plan), size=SMALL)
        if self._left_out(plan):
            self._text(x + 1, y + 2, self._left_out(plan), SMALL)
            y += 4
        return y

    def _left_out(self, plan):
        """A sentence on the rows that found no room."""
        more = len(plan.rows) - self.limit
        return f"… and {more} more rows: see the lesson" if more > 0 else ""

    def _cautions(self, y):
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


def _columns(rows, room, bold):
    """Widths of a column of words and one of sizes, no wider together than the room."""
    words, sizes = (max(width_of(text, TEXT, bold) for text in column) + 3 for column in zip(*rows))
    words = max(words, width_of("Sizes given", TEXT, bold=True) + 3)  # the longest head
    sizes = min(sizes, 0.6 * room)
    return min(words, room - sizes), sizes


def _widths(head, rows):
    """Widths of the columns of a plan."""
    return [max(width_of(cell, SMALL, bold=True) for cell in column) + 2.2 for column in zip(head, *rows)]
