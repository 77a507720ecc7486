"""Pages of tables: no empty rows, nothing over one another, nothing lost."""

import datetime

import pytest

from shoplib.drawing.plate import text_width
from shoplib.paper.files import PAPERS
from shoplib.paper.imprint import Imprint
from shoplib.paper.report import FOOT, MARGIN, ROW, Report


def report(paper="A4"):
    found = Report(Imprint((), "BCDFGH", "mm", datetime.date(2031, 5, 7)), paper)
    found.begin("All sizes")
    return found


def place(found, words):
    """Page and middle of a text, in mm from the page's left upper corner."""
    texts = [(page, text) for page, (plate, *_) in enumerate(found.pages) for text in plate.texts]
    (one,) = [(page, text) for page, text in texts if text.text == words]
    return one


def test_a_table_without_a_head_begins_with_its_first_row():
    found, with_head = report(), report()
    found.table("It comes to", ("", ""), [("boards", "3"), ("money", "69.00")])
    with_head.table("It comes to", ("what", "how much"), [("boards", "3"), ("money", "69.00")])
    texts = [text.text for text in found.pages[0][0].texts]
    assert all(texts), "no empty cell is written"
    _, heading = place(found, "It comes to")
    _, first = place(found, "boards")
    assert first.y - heading.y < 2 * ROW
    assert place(with_head, "boards")[1].y - first.y == pytest.approx(ROW)
    assert len(found.pages[0][0].lines) == len(with_head.pages[0][0].lines) == 3  # over, between and under the rows


@pytest.mark.parametrize("paper", PAPERS)
def test_tables_in_columns_keep_clear_of_each_other_and_of_the_foot(paper):
    found = report(paper)
    tables = [(f"Group {group}", ("size", "nominal"), [(f"size {group}.{row} of the stand", "17 21/64 in (17.323)")
              for row in range(3 + 5 * (group % 4))]) for group in range(12)]  # fmt: skip
    found.columns(tables)
    assert len(found.pages) > 1
    width, height = PAPERS[paper]
    boxes = []
    for words, _, rows in tables:
        page, top = place(found, words)
        cells = [place(found, cell) for cell, _ in rows]
        assert {number for number, _ in cells} == {page}, "no table goes over to another page"
        assert all(top.y < cell.y <= height - MARGIN - FOOT for _, cell in cells)
        for row, (_, cell) in zip(rows, cells):
            assert cell.x + text_width(row[0], cell.size) < (width / 2 if cell.x < width / 2 else width - MARGIN)
        boxes.append((page, top.x > width / 2, top.y, cells[-1][1].y))
    for k, (page, right, top, bottom) in enumerate(boxes):
        for other in boxes[:k]:
            assert other[:2] != (page, right) or bottom < other[2] or other[3] < top
