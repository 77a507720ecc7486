"""A list of contents: every entry once, with the number of its page, leading there."""

import io

import pytest
from paper.reading import MM, page_size
from pypdf import PdfReader

from shoplib.drawing.plate import Plate, Text
from shoplib.paper.document import Entry, Page, document
from shoplib.paper.files import PAPERS
from shoplib.paper.listing import MARGIN, with_contents
from shoplib.paper.part import Part


def made(count):
    found = []
    for number in range(count):
        plate = Plate(210.0, 297.0, "", "")
        plate.texts.append(Text(20, 20, f"sheet {number}", 4.0, "start"))
        found.append(Page(210.0, 297.0))
        Part(plate, (0, 0, 210.0, 297.0)).draw(found[-1])
    return found


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("count", [3, 60])
def test_every_entry_leads_to_the_page_of_its_number(paper, count):
    sheets = made(count)
    outline = [Entry("Cards", sheets[0], tuple(Entry(f"Sheet {k}: a card of some length", page) for k, page in
                                               enumerate(sheets))), Entry("Last " * 60, sheets[-1])]  # fmt: skip
    pages = with_contents(sheets, outline, paper=paper)
    reader = PdfReader(io.BytesIO(document(pages, "A book", outline)))
    front = len(pages) - count
    assert front == (1 if count == 3 else 2)
    wanted = [0, *range(count), count - 1]
    numbers = {page.indirect_reference.idnum: place for place, page in enumerate(reader.pages)}
    links = [each.get_object() for page in reader.pages[:front] for each in page["/Annots"]]
    assert [numbers[each["/Dest"][0].idnum] - front for each in links] == wanted
    told = [line for page in reader.pages[:front] for line in page.extract_text().splitlines()]
    listed = [int(line.split()[-1]) for line in told if line.split()[-1].isdigit()]
    assert listed == [front + 1 + place for place in wanted]
    assert reader.pages[front].extract_text().strip() == "sheet 0"
    for page in reader.pages[:front]:
        assert page_size(page) == pytest.approx(PAPERS[paper], abs=0.001)
        for each in page["/Annots"]:
            left, low, right, high = (float(side) * MM for side in each.get_object()["/Rect"])
            assert MARGIN - 0.1 <= left < right <= PAPERS[paper][0] - MARGIN + 0.1 and MARGIN - 0.1 <= low < high


def test_another_paper_is_refused():
    with pytest.raises(ValueError, match="A4 or Letter"):
        with_contents(made(1), [], paper="A5")
