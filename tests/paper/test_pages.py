"""Full-size templates, measured on the pages as a rule would: from the PDF's own lines."""

import datetime
import itertools
import math
import re
from itertools import product

import numpy
import pytest
from models import EXAMPLES
from paper.reading import circles, fit_circle, ink, page_size, pages, pixels, strokes
from pypdf import PdfReader

from shoplib import CircleJig, ShapeError, StaveRing, save_template
from shoplib.drawing import has_template, template
from shoplib.drawing.sheet import Circle, Sheet, rectangle
from shoplib.paper import pages as module
from shoplib.paper.boxes import holds, meet, text_box
from shoplib.paper.files import PAPERS
from shoplib.paper.imprint import Imprint, imprint_of
from shoplib.paper.pages import MARGIN, compose
from shoplib.paper.tiling import SIDE

RULE = 0.1  # mm, what a rule can tell
DAY = datetime.date(2031, 5, 7)
USE = "Fold the flap under along the dashed line, then press the corner to the edge."
IMPRINT = Imprint((("outside diameter", "440 mm"), ("ring width", "20 mm")), "BCDFGH", "mm", DAY)


def write_template(sheet, path, paper="A4"):
    return module.write_template(sheet, IMPRINT, path, paper)


def disc(diameter, centre_lines=False):
    sheet = Sheet(f"Disc {diameter} mm across", "A disc.", use=USE)
    view = sheet.view()
    view.area("kept", Circle("kept", (0, 0), diameter / 2))
    if centre_lines:
        view.circle("pivot", (0, 0), 4)
        view.dimension((-diameter / 2, 0), (diameter / 2, 0), f"across {diameter} mm")
        view.note((0, 0), "pivot\nhere", "right")
    return sheet


def ring(diameter, width):
    sheet = Sheet("Ring")
    view = sheet.view()
    view.area("kept", Circle("kept", (0, 0), diameter / 2), Circle("kept", (0, 0), diameter / 2 - width))
    return sheet


@pytest.fixture(scope="module", params=PAPERS)
def disc_440(request, tmp_path_factory):
    """The pages of a printed disc 440 mm across."""
    path = tmp_path_factory.mktemp("pages") / "disc.pdf"
    return pages(write_template(disc(440, centre_lines=True), path, request.param))


@pytest.mark.parametrize("paper", PAPERS)
def test_page_is_the_paper(tmp_path, paper):
    for wide, sheet in ((False, rectangles(40, 200)), (True, rectangles(200, 40))):
        (page,) = pages(write_template(sheet, tmp_path / "disc.pdf", paper))
        wanted = PAPERS[paper][::-1] if wide else PAPERS[paper]
        assert page_size(page) == pytest.approx(wanted, abs=0.001)


def rectangles(width, height):
    sheet = Sheet("Board")
    sheet.view().area("kept", rectangle(0, 0, width, height))
    return sheet


@pytest.mark.parametrize("upright", [False, True], ids=["level", "upright"])
def test_check_rulers_on_every_page(disc_440, upright):
    """Read from the PDF's own lines: 101.6 mm long, ticks at each 10 mm and each 1/2 in."""
    along, across = (1, 0) if upright else (0, 1)
    for page in disc_440:
        lines = [each.points for each in strokes(page) if len(each.points) == 2 and each.paint in ("S", "s")]
        long = [line for line in lines if abs(line[0, across] - line[1, across]) < 1e-6]
        (base,) = [line for line in long if abs(abs(line[1, along] - line[0, along]) - 101.6) < RULE]
        start, at = base[0, along], base[0, across]
        ticks = [line for line in lines if abs(line[0] - line[1])[along] < 1e-6 and abs(line[0, across] - at) < 1e-6]
        sides = [line for line in ticks if line[1, across] > at], [line for line in ticks if line[1, across] < at]
        found = sorted(sorted(abs(line[0, along] - start) for line in side) for side in sides)
        assert found[0] == pytest.approx([10 * k for k in range(11)], abs=RULE / 10)
        assert found[1] == pytest.approx([12.7 * k for k in range(9)], abs=RULE / 10)


def finished_edge(page, radius):
    """Points of the stroked disc's edge: the largest bent stroke of the page."""
    bent = [each for each in strokes(page) if each.bends and each.paint in ("S", "s")]
    edge = max(bent, key=lambda each: each.size.max())
    assert abs(edge.size - 2 * radius).max() < 5
    return edge.points


def test_440_mm_disc_goes_together_over_its_pages(disc_440):
    """Each page alone holds its part of the disc; the marks of neighbours stand alike about its centre."""
    sheets, seen = disc_440, []
    for page in sheets:
        centre, radius = fit_circle(finished_edge(page, 220))
        assert radius == pytest.approx(220, abs=RULE / 2)
        width, height = page_size(page)
        inside = [mark - centre for mark in circles(page, 2.5) if 12 <= mark[0] <= width - 12]
        seen += [tuple(mark) for mark in inside]
    for x, y in seen:  # every mark has one twin on another page, and no other mark is near
        assert sorted(math.hypot(x - a, y - b) < RULE for a, b in seen)[-3:] == [False, True, True]
    assert len(seen) >= 4 * (len(sheets) - 1)


def test_empty_pages_are_left_out_and_the_labels_keep_their_places():
    """A ring of five rows and three columns: the three in the middle of it stay empty."""
    parts = [part for _, _, found in compose(ring(700, 40), IMPRINT) for part in found]
    texts = [text.text for part in parts for text in part.plate.texts]
    labels = [label[1] for label in map(re.compile(r"([A-E][1-3]) of 12$").search, texts) if label]
    assert sorted(labels) == sorted({row + column for row in "ABCDE" for column in "123"} - {"B2", "C2", "D2"})


def test_words_on_every_page(tmp_path, disc_440):
    texts = [" ".join(page.extract_text().split()) for page in disc_440]
    for text in texts:
        assert "Disc 440 mm across" in text
        assert "Print at 100 % (actual size). Measure both check rulers before you cut." in text
        assert "register marks meet" in text
        assert "Made from: outside diameter 440 mm, ring width 20 mm." in text and "Mark BCDFGH" in text
        assert "Lengths in millimetres. Printed on 7 May 2031." in text and USE in text
    assert any("across 440 mm" in text for text in texts)
    (alone,) = pages(write_template(disc(100), tmp_path / "disc.pdf"))
    assert "register marks" not in alone.extract_text() and not circles(alone, 2.5)


def test_same_drawing_gives_the_same_bytes_without_a_date(tmp_path):
    first, second = (write_template(disc(440), tmp_path / name) for name in ("first.pdf", "second.pdf"))
    assert first.read_bytes() == second.read_bytes()
    about = PdfReader(first).metadata
    assert about.title == "Disc 440 mm across" and "/CreationDate" not in about


def test_pages_are_called_by_their_places(tmp_path):
    """In a viewer's list of pages and in the outline; a page alone needs neither."""
    found = PdfReader(write_template(disc(440), tmp_path / "disc.pdf"))
    places = ["A1", "A2", "A3", "B1", "B2", "B3"]
    assert found.page_labels == places
    assert [entry.title for entry in found.outline] == [f"Page {place}" for place in places]
    assert [found.get_destination_page_number(entry) for entry in found.outline] == list(range(6))
    alone = PdfReader(write_template(disc(100), tmp_path / "disc.pdf"))
    assert alone.page_labels == ["1"] and not alone.outline


def test_seen_by_another_program_a_length_is_true(tmp_path):
    """A square of 100 mm in PDFium's pixels: the middles of its lines stand 100 mm apart both ways."""
    sheet = Sheet("Square")
    sheet.view().area("edge", rectangle(0, 0, 100, 100))
    dark = 1 - pixels(write_template(sheet, tmp_path / "square.pdf"), dpi=300).mean(axis=2)
    for shares, whole in zip((dark[1150:1200].mean(axis=0), dark[:, 1150:1200].mean(axis=1)), PAPERS["A4"]):
        lines = numpy.array(middles(shares)) * whole / len(shares)
        assert abs(abs(lines[:, None] - lines) - 100).min() < 0.02


def middles(shares, least=0.2):
    """The middles of dark runs along a row of pixels, weighted by how dark each is."""
    found, run = [], []
    for place, share in enumerate([*shares, 0.0]):
        if share > least:
            run.append((place, share))
        elif run:
            found.append(sum(at * dark for at, dark in run) / sum(dark for _, dark in run))
            run = []
    return found


JIG = CircleJig("440 mm", "12 mm", ring_width="20 mm")


def test_a_template_on_letter_paper(tmp_path):
    path = save_template(StaveRing("440 mm", "400 mm", 12, margin="3 mm"), "Letter", "in", tmp_path)
    assert path.parent == tmp_path and path.name.endswith("_template_Letter.pdf")
    assert [page_size(page) for page in pages(path)] == [pytest.approx(PAPERS["Letter"], abs=0.001)]


def templates(cls):
    """The templates of a model's examples in both units, with their imprints and papers; few have none."""
    for model, unit, paper in itertools.product(EXAMPLES[cls], ("mm", "in"), PAPERS):
        try:
            yield template(model, unit), imprint_of(model, unit, date=DAY), paper
        except ShapeError:  # says that there is no template of it
            continue


def on_page(part, text):
    """A text of a part where it stands on the page, in mm."""
    x, y = ((value - start) * part.scale + at for value, start, at in zip(text[:2], part.window, part.box))
    return text._replace(x=x, y=y, size=text.size * part.scale)


def shown(part):
    """The texts that a part shows on its page."""
    texts = [] if part.outlines else part.plate.texts
    if part.whole:
        texts = [text for text in texts if holds(part.window, text_box(text))]
    return [on_page(part, text) for text in texts]


WITH_TEMPLATE = [cls for cls in EXAMPLES if has_template(cls)]


@pytest.mark.parametrize("cls", WITH_TEMPLATE)
def test_no_word_of_a_template_is_cut_or_stands_on_another(cls):
    """In mm and in inches, on A4 and Letter: whole on its page, on the drawing's part or outside it, at full size."""
    for sheet, imprint, paper in templates(cls):
        for (width, height), _, (drawn, *others) in compose(sheet, imprint, paper):
            assert drawn.scale == pytest.approx(1, abs=1e-9) and drawn.whole
            assert drawn.box[3] == pytest.approx(drawn.window[3] - drawn.window[1])  # neither way is scaled
            assert drawn.box[2] + SIDE == pytest.approx(width - 2 * MARGIN)
            frame = (MARGIN - 0.1, MARGIN - 0.1, width - MARGIN + 0.1, height - MARGIN + 0.1)
            inside = [ink(text) for text in shown(drawn)]
            outside = [ink(text) for part in others for text in shown(part)]
            drawing = (*drawn.box[:2], drawn.box[0] + drawn.box[2], drawn.box[1] + drawn.box[3])
            assert all(holds(drawing, box) for box in inside)
            assert all(holds(frame, box) and not meet(drawing, box) for box in outside)
            for part in others:
                left, top, across, down = part.box
                room = (left - 0.01, top - 0.01, left + across + 0.01, top + down + 0.01)
                assert all(holds(room, ink(text)) for text in shown(part)), "clipped"
            for one, other in itertools.combinations([*inside, *outside], 2):
                assert not meet(one, other), (sheet.title, paper, one, other)


@pytest.mark.parametrize("cls", WITH_TEMPLATE)
def test_the_foot_keeps_its_parts_apart(cls):
    """Ruler, key and map stand beside each other."""
    for sheet, imprint, paper in templates(cls):
        for _, _, (_, _, _, *foot) in compose(sheet, imprint, paper):
            rows = [part.box for part in foot if part.box[0] > 0]
            ruler = [line for line in foot[0].plate.lines if line.layer == "rule"]
            rows.append(
                (MARGIN, min(line.end[1] for line in ruler), max(line.end[0] for line in ruler) - MARGIN + 8, 8)
            )
            edges = {(left, top, left + across, top + down) for left, top, across, down in rows}
            assert not any(meet(one, other) for one, other in itertools.combinations(edges, 2))


def test_drilled_pivots_are_as_far_apart_as_they_should_be(tmp_path):
    """The two pivot holes of a ring lie ring width and one cutter apart: 32 mm."""
    holes = []
    for page in pages(save_template(JIG, folder=tmp_path)):
        bent = [each for each in strokes(page) if each.bends and each.paint in ("S", "s")]
        round_ones = [each for each in bent if abs(each.size[0] - each.size[1]) < 1e-3 and each.size[0] > 3]
        middles = {tuple(numpy.round(each.middle, 3)) for each in round_ones if each.middle[1] > 50}
        holes += [abs(a[0] - b[0]) for a, b in product(middles, middles) if abs(a[1] - b[1]) < 1e-3]
    assert any(distance == pytest.approx(32, abs=RULE) for distance in holes)


def test_unknown_paper_is_refused_before_anything_is_written(tmp_path):
    with pytest.raises(ValueError, match="A4 or Letter"):
        save_template(JIG, "A3", folder=tmp_path)
    assert not list(tmp_path.iterdir())
