"""Documents: pages in mm, title, outline, labels and links; the same bytes again; nothing heavy needed."""

import datetime
import io
import json
import subprocess
import sys

import numpy
import pytest
from paper.reading import MM, page_size, pages, pixels
from pypdf import PdfReader

from shoplib import CircleJig, RoundCope, save_card
from shoplib.drawing.plate import Plate, Text
from shoplib.drawing.sheet import Area, rectangle
from shoplib.paper.document import Entry, Form, Page, document, save_pdf
from shoplib.paper.files import PAPERS
from shoplib.paper.part import Part

SIZES = [PAPERS["A4"], PAPERS["Letter"], PAPERS["A4"][::-1]]


def made(words="page {}", labels=("", "", "")):
    """Three pages of different sizes, each with a text."""
    found = []
    for number, (size, label) in enumerate(zip(SIZES, labels), 1):
        plate = Plate(*size, "", "")
        plate.texts.append(Text(20, 20, words.format(number), 4.0, "start", bold=number == 2))
        found.append(Page(*size, label))
        Part(plate, (0, 0, *size)).draw(found[-1])
    return found


def test_pages_have_their_sizes_words_and_title(tmp_path):
    path = save_pdf(tmp_path / "three.pdf", made(), "Three (½) pages\\")
    for number, (page, size) in enumerate(zip(pages(path), SIZES), 1):
        assert page_size(page) == pytest.approx(size, abs=1e-4)
        assert page.extract_text().strip() == f"page {number}"
    reader = PdfReader(path)
    assert reader.metadata.title == "Three (½) pages\\" and "/CreationDate" not in reader.metadata
    assert repr(path).startswith("Saved as ")


def test_it_is_printed_at_its_own_size_and_named_by_its_title():
    """What a viewer is told to offer: no scaling; the title on its window; the language for a voice that reads it."""
    root = PdfReader(written(made())).trailer["/Root"]
    assert root["/ViewerPreferences"] == {"/DisplayDocTitle": True, "/PrintScaling": "/None"} and root["/Lang"] == "en"


def written(*of, **more):
    return io.BytesIO(document(*of, "A title", **more))


def test_same_pages_same_bytes():
    assert document(made(), "A title") == document(made(), "A title")
    assert document(made(), "A title") != document(made(), "Another")
    assert document(made("page {}½"), "A title") != document(made("page {}"), "A title")


def test_outline_leads_to_its_pages():
    one, two, three = found = made()
    inside = Entry("inside: ½", two, (Entry("deeper", three),))
    outline = [Entry("First", one, (inside, Entry("again", one))), Entry("Last", three)]
    reader = PdfReader(written(found, outline=outline))

    def told(entries):
        return [told(each) if isinstance(each, list) else
                (each.title, reader.get_destination_page_number(each)) for each in entries]  # fmt: skip

    assert told(reader.outline) == [("First", 0), [("inside: ½", 1), [("deeper", 2)], ("again", 0)], ("Last", 2)]
    root = reader.trailer["/Root"]
    assert root["/PageMode"] == "/UseOutlines" and root["/Outlines"]["/Count"] == 5
    assert root["/Outlines"]["/Last"]["/Prev"]["/Title"] == "First"
    assert "/Outlines" not in PdfReader(written(made())).trailer["/Root"]


def test_labels():
    assert PdfReader(written(made(labels=("A1", "", "(C)")))).page_labels == ["A1", "2", "(C)"]
    assert "/PageLabels" not in PdfReader(written(made())).trailer["/Root"]


def test_links_lead_from_their_boxes_to_their_pages():
    one, two, three = found = made()
    one.link((10, 20, 60, 25), three)
    one.link((10, 30, 60, 35), two)
    three.link((0, 0, 5, 5), one)
    reader = PdfReader(written(found))
    links = [[each.get_object() for each in page.get("/Annots", [])] for page in reader.pages]
    assert [len(each) for each in links] == [2, 0, 1]
    numbers = {page.indirect_reference.idnum: place for place, page in enumerate(reader.pages)}
    assert [[numbers[each["/Dest"][0].idnum] for each in found] for found in links] == [[2, 1], [], [0]]
    high = SIZES[0][1]
    assert [float(side) * MM for side in links[0][0]["/Rect"]] == pytest.approx([10, high - 25, 60, high - 20])
    assert all(link["/Border"] == [0, 0, 0] for each in links for link in each)


def test_every_letter_is_found_again(tmp_path):
    """Also one that the font has not, and one beyond the first 65536, which is told apart from none."""
    text = "0 ° ± × ≤ ≥ ⌀ Ø ½ ¾ 17 3⁄8 ⅜ ⚠ ✓ ✗ → − – — µ Ω äßé Ł (\\) <&> žluť пила 木"
    for bold in (False, True):
        page = Page(200, 50)
        plate = Plate(200, 50, "", "")
        plate.texts.append(Text(5, 25, text + " 🪚", 4.0, "start", bold=bold))
        Part(plate, (0, 0, 200, 50)).draw(page)
        (read,) = pages(save_pdf(tmp_path / "page.pdf", [page], "Signs"))
        assert read.extract_text().strip() == text + " \ufffd"


def test_fonts_are_within_and_carry_only_what_is_used():
    reader = PdfReader(written(made()))
    fonts = reader.pages[0]["/Resources"]["/Font"]
    assert set(fonts) == {"/regular", "/bold"}
    for font in fonts.values():
        (inner,) = font["/DescendantFonts"]
        data = inner["/FontDescriptor"]["/FontFile2"].get_data()
        assert 500 < len(data) < 6000 and font["/BaseFont"][7] == "+" and len(font["/BaseFont"].partition("+")[0]) == 7
    assert len(document(made(), "A title")) < 9000


BARE = """
import datetime, json, sys, tempfile, time
for name in ("numpy", "scipy", "matplotlib", "PIL", "pandas", "ezdxf", "lxml"):
    sys.modules[name] = None  # not to be had, as in a browser
from shoplib import {name}
from shoplib.paper import save_card, save_template
model, day, times = {name}.solved({sizes}), datetime.date(2031, 5, 7), []
with tempfile.TemporaryDirectory() as folder:
    for save in (save_template, save_card, save_template, save_card):
        begun = time.process_time()
        path = save(model, folder=folder, date=day)
        times.append(time.process_time() - begun)
        last = path.read_bytes()
print(json.dumps([times, last.hex()]))
"""


@pytest.mark.parametrize(
    "model", [CircleJig("440 mm", "12 mm", ring_width="20 mm"), RoundCope("35 mm", "19 mm", "50 deg")]
)
def test_the_same_bytes_without_any_heavy_library_and_soon(tmp_path, model):
    """In a fresh Python: a template takes about 0.2 s with all that is loaded for the first one."""
    code = BARE.format(name=type(model).__name__, sizes=model.values)
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    (first, *later), data = json.loads(done.stdout)
    assert first < 2.0 and max(later) < 1.0  # s, ten times what it takes
    assert save_card(model, folder=tmp_path, date=datetime.date(2031, 5, 7)).read_bytes().hex() == data


def test_nothing_heavy_is_loaded_with_paper():
    heavy = ("matplotlib", "numpy", "scipy", "PIL", "ezdxf", "fontTools")
    code = f"import sys, shoplib.paper, shoplib.paper.card; print([name for name in {heavy} if name in sys.modules])"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_a_form_stands_where_it_is_shown_and_is_kept_once(tmp_path):
    """A black square of 10 mm, on two pages in two places: measured on what another program shows."""
    form = Form(20.0, 30.0)
    plate = Plate(20.0, 30.0, "", "")
    plate.shapes.append(Area("target", (rectangle(5, 15, 15, 25),)))
    plate.texts.append(Text(10, 5, "shared", 3.0))
    Part(plate, (0, 0, 20, 30)).draw(form)
    places = ((50.0, 40.0), (120.0, 200.0))
    shown = [Page(*PAPERS["A4"]) for _ in places]
    for page, place in zip(shown, places):
        page.show(form, *place)
    path = save_pdf(tmp_path / "form.pdf", shown, "Forms")
    assert [page.extract_text().strip() for page in pages(path)] == ["shared", "shared"]
    assert len({page["/Resources"]["/XObject"]["/form0"].indirect_reference.idnum for page in pages(path)}) == 1
    for number, (left, top) in enumerate(places):
        dark = pixels(path, number, 254)[:, :, 0] < 0.5
        down = numpy.flatnonzero(dark.any(axis=1))
        square = dark[round(10 * (top + 15)) + 3 : round(10 * (top + 25)) - 3,
                      round(10 * (left + 5)) + 3 : round(10 * (left + 15)) - 3]  # fmt: skip
        assert square.all() and down[-1] == pytest.approx(10 * (top + 25), abs=2)
        assert not dark[round(10 * (top + 25)) + 3 :].any()
