"""The saw plan on paper: a buying list, a page a board, every cut and piece, nothing beyond the page."""

import datetime

import pytest
from paper.reading import page_size, pages
from pypdf import PdfReader

from shoplib import Board, Part, saw_plan, stand_parts, stand_rack
from shoplib.paper import save_saw_plan
from shoplib.paper.files import PAPERS
from shoplib.paper.saw_plan import compose, imprint_of_plan

DAY = datetime.date(2031, 5, 7)


@pytest.fixture(scope="module")
def plan():
    return saw_plan(stand_parts(), stand_rack())


@pytest.mark.parametrize(("unit", "paper"), [("mm", "A4"), ("in", "Letter")])
def test_tells_boards_cuts_and_pieces(tmp_path, plan, unit, paper):
    found = pages(save_saw_plan(plan, unit, paper, tmp_path, "Seedling stand", DAY))
    texts = [" ".join(page.extract_text().split()) for page in found]
    assert all(page_size(page) == pytest.approx(PAPERS[paper], abs=0.001) for page in found)
    assert "Buying list" in texts[0] or "buying list" in texts[0]
    for said in ("69.00", "ash 27 spare", "rim strip", "Printed on 7 May 2031"):
        assert said in texts[0]
    whole = " ".join(texts)
    for each in plan.boards:
        assert each.board.name in whole
    for piece in plan.pieces:
        assert f"piece {piece.number}, {piece.part.name}" in whole
    for text in texts[1:]:
        assert "continued" in text or "Chalk L on the board's left end" in text and "Measure each setting" in text
    assert "Fault from" in whole and "Mark " in texts[-1] and f"page 1 of {len(found)}" in texts[0]


def test_the_buying_list_and_the_outline_lead_to_the_boards(tmp_path, plan):
    reader = PdfReader(save_saw_plan(plan, folder=tmp_path, date=DAY))
    numbers = {page.indirect_reference.idnum: place for place, page in enumerate(reader.pages)}
    titles = [f"Board {number}: {each.board.name}" for number, each in enumerate(plan.boards, 1)]
    links = [each.get_object() for each in reader.pages[0]["/Annots"]]
    for link, title in zip(links, titles, strict=True):
        assert title in reader.pages[numbers[link["/Dest"][0].idnum]].extract_text()
    heights = [float(link["/Rect"][1]) for link in links]
    assert heights == sorted(heights, reverse=True), "one under the other"
    assert [entry.title for entry in reader.outline] == ["Buying list", *titles]
    assert [reader.get_destination_page_number(entry) for entry in reader.outline] == list(range(len(reader.pages)))


def test_round_parts_that_share_a_blank_say_so():
    knobs = Part("knob", 8, "30 mm", "30 mm", "30 mm", "Ash, white", round=True, per_blank=4)
    plan = saw_plan([knobs], [Board("b", "1 m", "60 mm", "40 mm")])
    (first, *_), *_ = compose(plan, imprint_of_plan(plan, "mm", "", DAY))
    assert "knob, 4 from each" in [text.text for text in first.texts]


def test_one_page_a_board(plan):
    assert len(compose(plan, imprint_of_plan(plan, "mm", "", DAY))) == 1 + len(plan.boards)


@pytest.mark.parametrize("unit", ["mm", "in"])
@pytest.mark.parametrize("paper", PAPERS)
def test_nothing_runs_over_the_page_or_into_another_text(unit, paper):
    parts = [Part(f"a part with a long name {n}", 40, f"{60 + n} mm", "14 mm", "20 mm", "Ash, white") for n in range(3)]
    plan = saw_plan(parts, [Board("b", "2900 mm", "200 mm", "27 mm", price=1)] * 2, seconds=1)
    for plate, *_ in compose(plan, imprint_of_plan(plan, unit, "", datetime.date(2031, 9, 30)), paper):
        rows = {}
        for text in plate.texts:
            left, top, right, bottom = text.box()
            assert left >= 0 and right <= plate.width and top >= 0 and bottom <= plate.height, text.text
            rows.setdefault(round(text.y, 2), []).append((left, right, text.text))
        for row in rows.values():
            row.sort()
            assert all(one[1] <= two[0] for one, two in zip(row, row[1:])), row


def test_tells_what_becomes_of_a_piece_from_a_board_that_is_much_thicker():
    """From 52 mm nobody planes down to 20: that piece is resawn. From 27 it is planed (surfaced: 22)."""

    def told(thick):
        plan = saw_plan([Part("rail", 2, "300 mm", "50 mm", "20 mm", "Ash, white")],
                        [Board("plank", "800 mm", "60 mm", thick)], seconds=1)  # fmt: skip
        (plate, *_), *_ = compose(plan, imprint_of_plan(plan, "mm", "", DAY))
        return " ".join(text.text for text in plate.texts)

    assert "Board plank is much thicker than rail will be: resaw" in told("52 mm")
    for thick in ("52 mm", "27 mm"):
        assert "A rough piece is as thick as its board." in told(thick)
    assert "resaw" not in told("27 mm")


def test_other_plans_other_names(tmp_path, plan):
    plans = plan, saw_plan(stand_parts(), stand_rack(), kerf="3.2 mm", seconds=2)
    names = [save_saw_plan(each, folder=tmp_path, date=DAY).name for each in plans]
    assert len(set(names)) == 2
    for name, each in zip(names, plans):
        assert name.startswith(f"saw-plan_{len(each.boards)}-boards_{len(each.pieces)}-pieces_")


def test_another_paper_is_refused_before_anything_is_written(tmp_path, plan):
    with pytest.raises(ValueError, match="A4 or Letter"):
        save_saw_plan(plan, paper="A5", folder=tmp_path)
    assert not list(tmp_path.iterdir())
