"""The packet of a stand: complete, numbered, its templates the ones that are printed alone, whole or not at all."""

import datetime
import io
import os
import random
import re
import signal
import time
import zipfile
from typing import NamedTuple

import ezdxf
import pytest
from paper.reading import page_size
from pypdf import PdfReader
from shapely import LineString
from shapes import text_box

from shoplib import drawing, saw_plan, stand_rack
from shoplib.maths.the_stand import seedling_stand, told
from shoplib.maths.the_stand.order import STEPS, relations
from shoplib.maths.the_stand.told import sizes_of, words_of
from shoplib.model import answer_in_full, given_in_full
from shoplib.paper import packet, pages
from shoplib.paper.files import PAPERS
from shoplib.paper.imprint import imprint_of
from shoplib.paper.packet import Stopped, save_packet
from shoplib.paper.remarks import NO_MATTER

DAY = datetime.date(2031, 5, 7)


@pytest.fixture(scope="module")
def stand():
    return seedling_stand()


@pytest.fixture(scope="module", params=[("mm", "A4"), ("in", "Letter")], ids=" ".join)
def printed(request, stand, tmp_path_factory):
    """A packet as it was printed, its reader, and the words of each page."""
    unit, paper = request.param
    packet = save_packet(stand, unit, paper, tmp_path_factory.mktemp("packet"), "Seedlings", DAY)
    reader = PdfReader(packet.document)
    return Printed(packet, reader, [words(page) for page in reader.pages], unit, paper)


class Printed(NamedTuple):
    packet: object
    reader: object
    texts: list
    unit: str
    paper: str


def words(page):
    return " ".join(page.extract_text().split()).lower()


def test_every_page_has_its_number_and_the_contents_tell_it(printed):
    _, reader, texts, _, paper = printed
    for number, text in enumerate(texts, 1):
        assert f"{number} of {len(texts)}" in text
    for page in reader.pages:
        assert sorted(page_size(page)) == pytest.approx(sorted(PAPERS[paper]), abs=0.001)
    told = [line for page in reader.pages[:2] for line in page.extract_text().splitlines()]
    listed = [(entry.title, reader.get_destination_page_number(entry) + 1) for entry in _flat(reader.outline[1:])]
    for title, number in listed:
        assert f"{title} {number}" in told
        assert title == "Template, full size" or title.lower() in texts[number - 1]


def _flat(outline):
    for entry in outline:
        yield from _flat(entry) if isinstance(entry, list) else [entry]


def test_order_of_work_leads_to_the_card_of_each_operation(printed, stand):
    _, reader, texts, _, _ = printed
    numbers = {page.indirect_reference.idnum: place for place, page in enumerate(reader.pages)}
    led = set()
    for page, text in zip(reader.pages, texts):
        if "tick each step" not in text and "order of work, continued" not in text:
            continue
        for link in (each.get_object() for each in page.get("/Annots", ())):
            number = numbers[link["/Dest"][0].idnum] + 1
            led.add(number)
            assert re.search(rf"pages? (\d+, )*{number}\b", text)
    cards = {
        reader.get_destination_page_number(entry) + 1 for entry in _flat(reader.outline) if "Step" in entry.title
    }  # fmt: skip
    assert cards <= led
    assert len(cards) == len(stand.operations())


def test_all_steps_parts_sizes_and_results_are_told(printed, stand):
    whole, unit = " ".join(printed.texts), printed.unit
    place = {step.name: number for number, step in enumerate(stand.order(), 1)}
    for number, step in enumerate(stand.order(), 1):
        assert f"{number} {step.title.lower()}" in whole
        for before, trap in relations(stand.plain)[step.name].items():
            assert f"after {place[before]}: {trap.lower()}" in whole
    for part in stand.parts():
        assert part.name in whole
    for operation in stand.operations():
        for name in operation.plain.on_card():
            item, (answer, reason) = operation.plain.model.results()[name], answer_in_full(operation.plain, name, unit)
            if not (reason or item.table or item.plan or name in NO_MATTER.get(operation.name, ())):
                assert f"{item.words} {answer}".lower() in whole, (operation.name, name)
    for item in stand.inputs().values():
        if stand.plain.has(item.name):
            assert f"{item.words} {given_in_full(stand.plain, item.name, unit)}".lower() in whole
    assert ("lengths in inches." if unit == "in" else "lengths in millimetres.") in whole


def test_templates_are_the_very_pages_that_are_printed_alone(stand, tmp_path):
    imprint = packet.imprint_of_stand(stand, date=DAY)
    for operation in stand.operations():
        chapter = packet._chapter(stand, operation, "mm", "A4", imprint)
        assert bool(chapter.template) == drawing.has_template(operation.plain.model)
        if not chapter.template:
            continue
        own = imprint_of(operation.model, "mm", packet.heading(stand, operation), DAY)
        alone = pages.printed(pages.compose(drawing.template(operation.model), own))
        assert [page.stream.stream for page in chapter.template] == [page.stream.stream for page in alone]


def test_measured_sizes_stand_beside_the_nominal_ones_and_what_they_move(stand, tmp_path):
    thin = stand.as_made(panel_thickness="11.7 mm")
    imprint = packet.imprint_of_stand(thin, date=DAY)
    assert imprint.mark != packet.imprint_of_stand(stand, date=DAY).mark
    chapter = packet._chapter(thin, thin.operation("rebate"), "mm", "A4", imprint)
    found = packet.save_pdf(tmp_path / "packet.pdf", *packet.document_of(thin, [chapter], imprint, "A4"))
    whole = [words(page) for page in PdfReader(found).pages]
    (rebate,) = [text for text in whole if "how many" in text]
    sizes = "as made panel thickness 11.7 mm (nominal 12.0 mm)."
    assert f"{sizes} moved by it: rebate depth 11.7 mm (nominal 12.0 mm)" in rebate
    assert any("panel thickness 12.0 mm 11.7 mm" in text for text in whole), "in the list of all sizes"


def test_same_stand_same_bytes(stand, printed, tmp_path):
    again = save_packet(stand, printed.unit, printed.paper, tmp_path, "Seedlings", DAY)
    for one, other in zip(again, printed.packet):
        assert one.name == other.name and one.read_bytes() == other.read_bytes()


def test_drawings_for_machines_are_true_millimetres(printed, stand):
    drawings = printed.packet.drawings
    with zipfile.ZipFile(drawings) as packed:
        names = packed.namelist()
        assert len(names) == sum(drawing.has_template(each.plain.model) for each in stand.operations())
        for name in names:
            document = ezdxf.read(io.StringIO(packed.read(name).decode("utf-8")))
            assert document.units == ezdxf.units.MM and len(document.modelspace())
            assert not document.audit().has_errors
        (stave,) = [name for name in names if "_staves_" in name]
        document = ezdxf.read(io.StringIO(packed.read(stave).decode("utf-8")))
    across = [point[0] for line in document.modelspace().query("LWPOLYLINE") for point in line.get_points()]
    long_edge = stand.operation("staves").plain.long_edge
    assert max(across) - min(across) == pytest.approx(long_edge, abs=0.01)


def test_tells_how_far_it_is_and_stops(stand, tmp_path):
    shares = []
    before, _ = save_packet(stand, folder=tmp_path, date=DAY, progress=shares.append)
    assert shares == sorted(shares) and shares[-1] == 1 and len(shares) == 2 * len(stand.operations())
    kept = before.read_bytes()
    later = DAY + datetime.timedelta(1)
    with pytest.raises(Stopped, match="the one before is as it was"):
        save_packet(stand, folder=tmp_path, date=later, progress=shares.append, stop=lambda: shares[-1] > 0.2)
    assert before.read_bytes() == kept
    assert len(list(tmp_path.iterdir())) == 2


def test_killed_while_printing_leaves_the_one_before_or_the_one_after(stand, tmp_path):
    """A hundred times, each at another moment of the writing."""
    imprint, moment = packet.imprint_of_stand(stand, date=DAY), random.Random(7)
    one, other = (
        packet.document_of(stand, [packet._chapter(stand, stand.operations()[0], "mm", "A4", imprint)], imprint, paper)
        for paper in PAPERS
    )
    path = tmp_path / "packet.pdf"
    whole = {packet.save_pdf(path, *each).read_bytes() for each in (other, one)}
    for _ in range(100):
        child = os.fork()
        if not child:
            packet.save_pdf(path, *other)
            packet.save_pdf(path, *one)
            os._exit(0)
        time.sleep(moment.uniform(0, 0.04))
        os.kill(child, signal.SIGKILL)
        os.waitpid(child, 0)
        assert path.read_bytes() in whole


def test_the_front_of_a_stand_with_a_saw_plan_leads_to_its_pages(stand, tmp_path):
    """The plan is the first step's: the order, the list of parts and the contents all tell its page."""
    plan = saw_plan(stand.parts(), stand_rack(), seconds=3)
    found, _ = save_packet(stand, "mm", "A4", tmp_path, "Seedlings", DAY, plan=plan)
    texts = [words(page) for page in PdfReader(found).pages]
    (place,) = [number for number, text in enumerate(texts, 1) if "buying list" in text]
    whole = " ".join(texts)
    assert f"1 buy the timber, let it rest, read its moisture lesson 12, page {place}" in whole
    assert f"is told by the saw plan on page {place}." in whole
    assert f"step 1: boards and cuts {place}" in whole
    assert not re.search(r"page \d+ of \d+", whole), "only the packet's own numbers"


def test_steps_tell_the_sizes_that_no_card_tells(printed, stand):
    """Each reckoned here again, from the stand's sizes alone."""
    if printed.unit != "mm":
        return
    whole = " ".join(printed.texts)
    assert "rim height 40.0 mm." in whole
    assert "outside, sawn to ø 446.0 mm; inside, sawn to ø 394.0 mm." in whole  # 440 + 2 x 3; 400 - 2 x 3
    assert "rebate width 10.0 mm; rebate depth 12.0 mm." in whole
    assert whole.count("bar's middle, below the legs' tops 150.0 mm.") == 2  # 720 - 570
    assert whole.count("between the legs 325.0 mm.") == 2  # 360 - 35
    assert "the two casters go under the back legs." in whole
    assert "over the outsides of the legs, where each comes to 544.1 mm" in whole  # 360 x 2^0.5 + 35
    assert "16 strips go to the saw, 348.0 mm long, 33.0 mm wide and 20.0 mm thick" in whole
    assert "3 staves from each" in whole
    assert whole.count("425.0 mm") == 4  # 415 + 2 x 3 + 2 x 2: the list, step 11, the panel's picture and its card
    assert whole.count("ø 421.0 mm") == 2  # 415 + 2 x 3: step 12 and the panel's card
    assert "489" not in whole, "the blank of a disc with a groove round it"
    assert "as long as the leg's skin, 110.0 mm." in whole  # 35 pi
    assert "is 110.3 mm long, for its paper's thickness" in whole  # 35.1 pi
    assert "the paper's own thickness takes up 0.3 mm" in whole  # 0.1 pi
    assert "dowel 32 ø 8.0 mm, 40 mm long, beech, american" in whole  # 8 rails, 2 ends, 2 in each
    assert "screw 12 ø 4.0 mm, 40 mm long" in whole  # 3 in each of 2 rails under 2 trays


@pytest.mark.parametrize(("unit", "paper"), [("mm", "A4"), ("in", "Letter")])
@pytest.mark.parametrize("bar", ["stubs", "mitred"])
def test_no_line_runs_through_a_text_of_a_card(unit, paper, bar):
    """In inches, where texts are half as long again, four pictures are too crowded for that."""
    stand = seedling_stand(pull_bar=bar)
    crowded = {"trim", "dowels", "stub_bar", "screws", "mitred_bar"} if unit == "in" else set()
    for operation in stand.operations():
        own = imprint_of(operation.plain, unit, packet.heading(stand, operation), DAY)
        picture = packet.composed(stand, operation, own, paper).picture
        lines = [LineString([line.start, line.end]) for line in picture.lines]
        met = [text.text for text in picture.texts if any(line.intersects(text_box(text)) for line in lines)]
        assert len(met) <= (3 if operation.name in crowded else 0), (operation.name, met)


def test_a_panel_comes_from_its_glue_up():
    """What is glued holds the circle that is sawn, and that the line, whatever the margin off the line."""
    for margin in ("1 mm", "3 mm", "6 mm"):
        stand = seedling_stand(trim_margin=margin)
        (piece,) = (part for part in stand.parts() if part.name == "panel piece")
        pieces = piece.count / stand.trays
        side = min(piece.plain["length"], pieces * piece.plain["width"])
        sawn = stand.plain.panel_diameter + 2 * stand.plain.trim_margin
        assert sawn + 2 <= side <= sawn + 8, "something to spare outside the saw's line, and not much"
        jig = stand.operation("panel")
        told_ = packet.composed(stand, jig, imprint_of(jig.plain, "mm", "panel", DAY), "A4").page.texts
        assert not {"side of the blank", "hold round the groove", "plain hole, pivot"} & {each.text for each in told_}


def test_arms_of_a_mitred_bar_are_fastened():
    mitred, stubs = seedling_stand(pull_bar="mitred"), seedling_stand()
    for step in ("leg_holes", "arms_coped", "bar_on"):
        assert "dowel" in words_of(step, mitred.plain)
        assert not words_of(step, stubs.plain)
    assert [each.formula(mitred.plain) for each in sizes_of("leg_holes", mitred.plain)] == [150]  # 720 - 570
    for stand, dowels in ((stubs, "32"), (mitred, "36")):  # two across the mitres, two into the legs
        front = packet._front(stand, packet.imprint_of_stand(stand, date=DAY), "A4", {})
        assert dowels in [text.text for plate, *_ in front.pages for text in plate.texts]


def test_steps_tell_of_no_bar_where_there_is_none():
    """What is told keeps to what the stand has."""
    bare = seedling_stand(pull_bar="none", casters=4)
    told_of = {step.name: (sizes_of(step.name, bare.plain), words_of(step.name, bare.plain)) for step in bare.order()}
    assert told_of["heights"] == ([], "")
    assert told_of["legs_numbered"] == ([], "Choose the front.")
    assert told_of["legs_shortened"] == ([], "")
    for name in (*told.SIZES, *told.WORDS):
        assert name in STEPS, name
    for unit, paper in (("mm", "A4"), ("in", "Letter")):
        front = packet._front(bare, packet.imprint_of_stand(bare, unit, date=DAY), paper, {})
        assert any("Choose the front." in text.text for plate, *_ in front.pages for text in plate.texts)


def test_what_moved_by_less_than_is_written_is_not_told(stand):
    thin = stand.as_made(panel_thickness="11.7 mm")
    heading_, text = packet._as_made(thin.operation("rolling"), "mm")
    pairs = re.findall(r"([\d.]+) \S+ \(nominal ([\d.]+)", text)
    assert heading_ == "As made" and pairs and all(now != nominal for now, nominal in pairs)
