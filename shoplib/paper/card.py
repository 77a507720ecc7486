"""The bench card: one page with the picture, the sizes, what to set, and room to write what was measured.

Lists too long for it stand in full on the pages after it. A card is laid out as data first (a Plate in mm of the
page), so that it can be checked without a printer.
"""

import itertools
import math
from dataclasses import dataclass

from shoplib import drawing
from shoplib.drawing.layout import Plate, lay_out
from shoplib.model import ShapeError
from shoplib.paper.boxes import meet
from shoplib.paper.card_writer import LONGEST, MARGIN, MOST_GIVEN, ON_A_PAGE, CardWriter
from shoplib.paper.contents import contents_of
from shoplib.paper.document import Entry, Page, save_pdf
from shoplib.paper.files import paper_size, printout_path
from shoplib.paper.imprint import imprint_of
from shoplib.paper.part import Part
from shoplib.paper.paths import crosses

LEAST_PICTURE = 95.0  # mm high
SMALLER = (1.0, 0.9, 0.8, 0.7)  # shares of the usual text in the picture, until no text meets another or a line
LEAST_VIEW = 16.0  # mm on paper, the longer side of a view


def save_card(model, unit="mm", folder=None, paper="A4", part="", date=None):
    """Write a model's bench card as a PDF, of one page where its lists are not very long, and return its path.

    `paper` is A4 or Letter, `unit` mm or in; by default it goes into the folder `printouts`. `part` is your own
    name for the piece, `date` another date than today's. Raises ValueError for another paper and PrintoutError (an
    OSError) where the file cannot be written.
    """
    paper_size(paper)
    plain = getattr(model, "plain", model)
    path = printout_path(model, f"card_{paper}.pdf", unit, folder, part)
    sheet = drawing.draw(plain, unit)
    contents = contents_of(plain, sheet, imprint_of(model, unit, part, date), _use(plain, sheet, unit))
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
    pages = printed(compose(contents, sheet, paper))
    title = f"{contents.imprint.title(contents.title)}: bench card"
    outline = [Entry(f"Page {place}", page) for place, page in enumerate(pages, 1)]
    return save_pdf(path, pages, title, outline if len(pages) > 1 else ())


def printed(card):
    """The pages of a laid-out Card."""
    pages = []
    for plate in (card.page, *card.rest):
        pages.append(Page(plate.width, plate.height))
        Part(plate, (0.0, 0.0, plate.width, plate.height)).draw(pages[-1])
    picture = card.picture
    Part(picture, (*card.corner, picture.width, picture.height), pen=picture.width / 960).draw(pages[0])
    return pages


@dataclass
class Card:
    """A laid-out card: the page with its words and tables, the picture with its top left corner, further pages."""

    page: Plate
    picture: Plate
    corner: tuple
    rest: tuple = ()


def compose(contents, sheet, paper="A4"):
    """Lay out the card: the words take the room they need, the picture the rest.

    Where words and picture do not fit together, long plans and lists of cautions are cut shorter, say so,
    and stand in full on the pages after it.
    """
    width, height = paper_size(paper)

    def writer(limit, elsewhere):
        return CardWriter(Plate(width, height, sheet.title, sheet.description), contents, limit, elsewhere)

    for limit in (20, 16, 12, 9, 7, 5, 4, 3, 2, 1):
        free = height - MARGIN - writer(limit, "overleaf").write(0.0)
        if free >= LEAST_PICTURE:
            break
    across = width - 2 * MARGIN
    down = min(free, across / 1.3)
    card = writer(limit, "overleaf")
    card.write(down)
    card.fill(free - down)
    return Card(card.plate, _picture(sheet, across, down), card.corner, _rest(writer, contents) if card.cut else ())


def _picture(sheet, across, down):
    """The picture in this room, flatter than on the screen: its texts as large as they leave each view its room.

    Where no size of letters keeps all texts off the lines, that with the fewest on one.
    """
    best, least = None, (math.inf,)
    for share in SMALLER:
        picture = lay_out(sheet, across, down, text=share * 17 * across / 960)
        boxes = [text.box() for text in picture.texts]
        crossed = any(meet(one, other) for one, other in itertools.combinations(boxes, 2))
        spoilt = crossed or not all(map(_is_large, sheet.views, picture.scales))
        on_lines = sum(any(crosses(line, box) for line in picture.lines) for box in boxes)
        rank = (spoilt, share if spoilt else on_lines)
        if rank < least:
            best, least = picture, rank
        if rank == (False, 0):
            break
    return best


def _is_large(view, scale):
    """Whether a view can be read at this scale: texts that take all the room crush it to nothing, or less."""
    left, low, right, high = view.bounds()
    return scale * max(right - left, high - low) >= LEAST_VIEW


def _rest(writer, contents):
    """Further pages with every list in full; one that has no room under another begins a new page."""
    given = contents.given if len(contents.given) > MOST_GIVEN else ()
    columns = [given[k : k + ON_A_PAGE] for k in range(0, len(given), ON_A_PAGE)]
    parts = [lambda page, y, pair=columns[k : k + 2]: page.sizes(y, *pair) for k in range(0, len(columns), 2)]
    parts += [lambda page, y, steps=steps: page.steps(y, *steps) for steps in contents.steps]
    parts += [lambda page, y, plan=plan: page.plans(y, [plan]) for plan in contents.plans]
    parts += [lambda page, y: page.cautions(y)]
    pages, y = [], 0.0
    for part in parts:
        if not pages or part(writer(LONGEST, "the lesson"), y) > pages[-1].end:
            pages.append(writer(LONGEST, "the lesson"))
            y = pages[-1].head(MARGIN, f", page {len(pages) + 1}")
        y = part(pages[-1], y)
    return tuple(page.plate for page in pages)
