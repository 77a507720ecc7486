"""The list of contents in front of a document: a line for each entry of its outline, which leads to its page."""

from shoplib.drawing.plate import Plate, Text, text_width
from shoplib.drawing.sheet import Line
from shoplib.paper.document import Page
from shoplib.paper.files import paper_size
from shoplib.paper.part import Part
from shoplib.paper.words import fitted

MARGIN, HEAD, TEXT = 12.0, 6.0, 3.4  # mm
ROW, INDENT = 6.0, 6.0  # mm


def with_contents(pages, outline, title="Contents", paper="A4"):
    """The pages with their list of contents in front: words, a line, and the number that the page then has.

    `outline` are Entries whose pages are among `pages`; entries under another one are set in. Raises ValueError for
    another paper.
    """
    width, height = paper_size(paper)
    rows = list(_rows(outline))
    fit = int((height - 2 * MARGIN - 2 * HEAD) / ROW)
    lists = [rows[start : start + fit] for start in range(0, len(rows), fit)]
    numbers = {id(page): number for number, page in enumerate(pages, len(lists) + 1)}
    return [*(_listed(each, numbers, title, width, height) for each in lists), *pages]


def _rows(entries, depth=0):
    """All entries in their order, each with how deep it lies."""
    for entry in entries:
        yield entry, depth
        yield from _rows(entry.parts, depth + 1)


def _listed(rows, numbers, title, width, height):
    """One page of the list."""
    plate, page, right = Plate(width, height, title, ""), Page(width, height), width - MARGIN
    plate.texts.append(Text(MARGIN, MARGIN + HEAD / 2, title, HEAD, "start", bold=True))
    for place, (entry, depth) in enumerate(rows):
        left, y, number = MARGIN + INDENT * depth, MARGIN + 2 * HEAD + ROW * (place + 0.5), str(numbers[id(entry.page)])
        end = right - text_width(number, TEXT) - 2
        size = fitted(entry.words, TEXT, end - left - 6, bold=depth == 0)
        plate.texts.append(Text(left, y, entry.words, size, "start", bold=depth == 0))
        plate.texts.append(Text(right, y, number, TEXT, "end"))
        start = left + text_width(entry.words, size, bold=depth == 0) + 2
        plate.lines.append(Line("grid", (start, y + 1.2), (end, y + 1.2)))
        page.link((left, y - ROW / 2, right, y + ROW / 2), entry.page)
    Part(plate, (0.0, 0.0, width, height)).draw(page)
    return page
