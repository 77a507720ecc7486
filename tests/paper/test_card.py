"""The bench card: all on one page, nothing clipped, nothing over anything else, at any sizes."""

import datetime
import itertools
import random

import pytest
from models import EXAMPLES
from paper.reading import ink, page_size, pages

from shoplib import (
    CircleJig,
    DowelJoint,
    HollowBlank,
    MitredBar,
    PanelSeason,
    Rebate,
    ShapeError,
    StaveRing,
    draw,
    save_card,
    seedling_stand,
)
from shoplib.drawing.sheet import Sheet, rectangle
from shoplib.model import Plain, answer_in_full, given_in_full
from shoplib.paper.boxes import meet
from shoplib.paper.card import compose, write_card
from shoplib.paper.card_writer import MARGIN, SAFETY
from shoplib.paper.contents import contents_of
from shoplib.paper.files import PAPERS
from shoplib.paper.imprint import imprint_of, mark_of

RING = CircleJig(
    "440 mm", "12 mm", ring_width="20 mm", stock_thickness="40 mm", pass_depth="6 mm", cutting_length="50 mm"
)
MODELS = [RING, StaveRing("440 mm", "400 mm", 12), HollowBlank("440 mm", "400 mm", "60 mm", margin="3 mm")]
UNITS = ("mm", "in")
DAY = datetime.date(2031, 9, 30)  # as wide as a date can be


def words(page):
    return " ".join(page.extract_text().split())


def contents(plain, unit="mm", title="A title", use=""):
    return contents_of(plain, Sheet(title), imprint_of(plain, unit, date=DAY), use)


def rows(told):
    """All that stands under the headings of a card's tables, as pairs of words and size."""
    return [row for _, under in told.settings for row in under]


def check(card):
    """Words in the margins' frame, clear of one another, of the picture and of the tables' upright lines."""
    x, y = card.corner
    check_page(card.page, [(x, y, x + card.picture.width, y + card.picture.height)])
    assert card.picture.height >= 80
    for page in card.rest:
        check_page(page, [])


def check_page(page, pictures):
    frame = (MARGIN - 0.01, MARGIN, page.width - MARGIN + 0.01, page.height - MARGIN + 0.01)
    boxes = [ink(text) for text in page.texts]
    for box, text in zip([*boxes, *pictures], [*page.texts, "picture"]):
        assert frame[0] <= box[0] and frame[1] <= box[1] and box[2] <= frame[2] and box[3] <= frame[3], text
    for one, other in itertools.combinations([*boxes, *pictures], 2):
        assert not meet(one, other), (one, other)
    for line in page.lines:
        (x1, y1), (x2, y2) = line.start, line.end
        assert not any(meet((x1, y1, x2 + 1e-6, y2 + 1e-6), box) for box in boxes)


def sizes(cls, number):
    """Solved stand-ins over the declared ranges, their ends above all."""
    chance, found = random.Random(cls.__name__), []
    while len(found) < number:
        values = {name: _size(item, chance) for name, item in cls.inputs().items()}
        try:
            found.append(cls.solved({name: value for name, value in values.items() if value is not None}))
        except ShapeError:
            continue
    return found


def _size(item, chance):
    if item.kind == "flag":
        return chance.random() < 0.5
    if item.optional and chance.random() < 0.15:
        return None
    value = item.low + (item.high - item.low) * chance.choice([0, 1, chance.random()])
    return round(value) if item.kind == "count" else float(value)


def square():
    sheet = Sheet("A title")
    sheet.view().area("kept", rectangle(0, 0, 100, 100))
    return sheet


@pytest.mark.parametrize("cls", [type(model) for model in MODELS])
def test_holds_on_one_page_at_any_sizes(cls):
    for plain, unit, paper in itertools.product(sizes(cls, 25), UNITS, PAPERS):
        check(compose(contents(plain, unit), square(), paper))


@pytest.mark.parametrize("cls", EXAMPLES)
def test_every_example_holds_on_one_page(cls):
    """In both units, on both papers: no word off the page, none over another, none off the picture."""
    for model, unit in itertools.product(EXAMPLES[cls], UNITS):
        sheet = draw(model, unit)
        for paper in PAPERS:
            card = compose(contents(model.plain, unit, sheet.title, use="Fold it. " * 20), sheet, paper)
            check(card)
            for text in card.picture.texts:
                left, top, right, bottom = text.box()
                assert left >= -0.1 and top >= -0.1, text
                assert right <= card.picture.width + 0.1 and bottom <= card.picture.height + 0.1, text
            for one, other in itertools.combinations(card.picture.texts, 2):
                assert not meet(one.box(), other.box()), (one.text, other.text)
            for view, scale in zip(sheet.views, card.picture.scales):
                left, low, right, high = view.bounds()
                assert scale * max(right - left, high - low) >= 16, f"{view.title!r} is crushed"


@pytest.mark.parametrize(("unit", "paper"), [("mm", "A4"), ("in", "Letter")])
def test_tells_sizes_settings_cautions_and_safety_on_one_page(tmp_path, unit, paper):
    path = save_card(RING, unit, tmp_path, paper)
    (page,) = pages(path)
    assert page_size(page) == pytest.approx(PAPERS[paper], abs=0.001)
    text = words(page)
    for name, item in RING.inputs().items():
        if RING.values[name] is not None:
            assert f"{item.words} {given_in_full(RING.plain, name, unit)}" in text
    for name in ("outer_pivot", "inner_pivot", "outer_reach", "inner_reach"):
        item = RING.results()[name]
        assert f"{item.words} {answer_in_full(RING.plain, name, unit)[0]}" in text
    for caution in RING.cautions:
        assert caution.tell(unit) in text and f"({caution.source})" in text
    assert RING.cautions and SAFETY in text
    for word in ("Sizes given", "Set it to", "measured", "For", "Name", "Circle jig", f"Mark {mark_of(RING)}"):
        assert word in text
    assert path.name.endswith(f"_card_{paper}.pdf")


def test_a_model_says_what_goes_on_its_card_and_in_which_order():
    """As long as it says nothing, all that is declared but the minor results; never what has no meaning."""
    plain = CircleJig("440 mm", "12 mm").plain  # a disc: nothing is cut inside
    shown = [item.words for item in plain.model.results().values() if not item.minor]
    usual = type("Usual", (type(plain),), {"on_card": Plain.on_card})(vars(plain))
    texts = [words for words, _ in rows(contents(usual))]
    assert texts == [words for words in shown if words in texts] and len(texts) > 3

    chosen = type("Chosen", (type(plain),), {"on_card": lambda self: ("inner_pivot", "outer_reach", "outer_pivot")})
    found = [words for words, _ in rows(contents(chosen(vars(plain))))]
    assert found == [plain.model.results()[name].words for name in ("outer_reach", "outer_pivot")]


@pytest.mark.parametrize("cls", EXAMPLES)
def test_what_stands_on_a_card_are_results_of_the_model(cls):
    for model in EXAMPLES[cls]:
        names = model.plain.on_card()
        assert names and len(set(names)) == len(names)
        assert set(names) <= set(cls.results())


def test_inches_bring_their_decimals():
    found = dict(rows(contents(RING.plain, "in")))
    assert found["outside cut, pivot"] == "8 57/64 in (8.898)"
    (_, steps), = contents(RING.plain, "in").steps
    assert steps[0] == "7/32 in (0.225)"
    assert any("(" in cell for plan in contents(MODELS[2].plain, "in").plans for row in plan.rows for cell in row)


def test_what_nobody_sets_stands_under_a_heading_of_its_own():
    """A gap or the wood left is no setting: it comes of the sizes, and the rule checks it."""
    ring = StaveRing("440 mm", "400 mm", 12, saw_error="0.1 deg")
    under = {heading: [words for words, _ in found] for heading, found in contents(ring.plain).settings}
    assert under["Set it to"] == ["mitre angle", "blade tilt", "board width", "strip length", "long edge", "short edge"]
    assert list(under) == ["Set it to", "It comes to"] and "band clamp, gap at each joint" in under["It comes to"]
    page = compose(contents(ring.plain), square()).page
    heads = {text.text: text.y for text in page.texts if text.text in under}
    (mitre,) = (text for text in page.texts if text.text == "mitre angle")
    (gap,) = (text for text in page.texts if text.text == "band clamp, gap at each joint")
    assert heads["Set it to"] < mitre.y < heads["It comes to"] < gap.y
    assert [heading for heading, _ in contents(RING.plain).settings] == ["Set it to"]
    season = EXAMPLES[PanelSeason][0]
    assert [heading for heading, _ in contents(season.plain).settings] == ["It comes to"]


def test_all_that_is_set_at_the_drill_stands_on_the_joints_card():
    joint = DowelJoint("35 mm", "20 mm", "50 mm", "8 mm", "40 mm", "12 mm", "12 mm")
    (heading, found), *_ = contents(joint.plain).settings
    assert heading == "Set it to" and ("hole in leg, from its surface", "12.0 mm") in found


def test_the_panels_pivot_stands_on_the_rebates_card_with_its_own_cutter():
    sizes = ("400 mm", "20 mm", "40 mm", "12 mm", "10 mm", "2.5 mm")
    (_, found), *_ = contents(Rebate(*sizes, cutter_diameter="16 mm", panel_cutter="12 mm").plain).settings
    assert ("panel cut, pivot", "213.5 mm") in found and ("rebate cut, pivot", "202.0 mm") in found
    assert "panel cut, pivot" not in dict(rows(contents(Rebate(*sizes).plain)))


def test_how_the_template_is_used_stands_on_the_card():
    card = compose(contents(RING.plain, use="Fold along the dashed line."), square())
    texts = [text.text for text in card.page.texts]
    assert "How to use the template" in texts and "Fold along the dashed line." in texts
    assert "How to use the template" not in [text.text for text in compose(contents(RING.plain), square()).page.texts]


def test_a_result_without_meaning_is_left_out():
    disc = CircleJig("440 mm", "12 mm")
    texts = [text.text for text in compose(contents(disc.plain), square()).page.texts]
    assert "outside cut, pivot" in texts and "inside cut, pivot" not in texts and "ring width" not in texts


def test_each_pass_has_a_box_to_tick():
    page = compose(contents(RING.plain), square()).page
    assert len(ticks(page)) == len(RING.plain.passes) == 7
    assert [text.text for text in page.texts].count("40.00 mm") == 1


def ticks(page):
    """The boxes to tick, without the frame of the safety line."""
    return [shape for shape in page.shapes if shape.layer == "box" and shape.points()[1][0] - shape.points()[0][0] < 5]


def test_long_lists_are_cut_and_stand_in_full_overleaf(tmp_path):
    many = CircleJig("440 mm", "12 mm", stock_thickness="80 mm", pass_depth="0.5 mm")
    card = compose(contents(many.plain), square())
    shown = len(ticks(card.page))
    assert f"… and {160 - shown} more, the last 80.00 mm: see overleaf" in [text.text for text in card.page.texts]
    assert 10 < shown < 160 == sum(map(len, map(ticks, card.rest)))
    check(card)

    told = contents(HollowBlank("1500 mm", "1000 mm", "20 mm").plain, "in")
    assert max(len(plan.rows) for plan in told.plans) == 38
    card = compose(told, square())
    assert any(text.text.endswith("more rows: see overleaf") for text in card.page.texts)
    later = [text.text for page in card.rest for text in page.texts]
    for plan in told.plans:
        assert {plan.words, *plan.head, *(cell for row in plan.rows for cell in row)} <= {"", *later}
    assert "overleaf" not in " ".join(later) and "see the lesson" not in " ".join(later)
    printed = [words(page) for page in pages(write_card(told, square(), tmp_path / "card.pdf"))]
    assert len(printed) == 1 + len(card.rest) and f"Mark {told.imprint.mark}" in printed[1] and ", page 2" in printed[1]


def test_a_line_to_write_on_has_room_beside_the_longest_date_and_is_on_the_first_page_alone():
    many = CircleJig("440 mm", "12 mm", stock_thickness="80 mm", pass_depth="0.5 mm")
    for unit, paper in itertools.product(UNITS, PAPERS):
        card = compose(contents(many.plain, unit), square(), paper)
        texts = [[text.text for text in page.texts] for page in (card.page, *card.rest)]
        assert [("For" in each, "Name" in each) for each in texts] == [(True, True)] + [(False, False)] * len(card.rest)
        head = [line for line in card.page.lines if line.start[1] < MARGIN + 14]
        assert len(head) == 2 and all(line.end[0] - line.start[0] > 25 for line in head)
        (told,) = [text for text in card.page.texts if text.text.startswith("Bench card")]
        (begins,) = [text for text in card.page.texts if text.text == "For"]
        assert begins.x - ink(told)[2] > 3.9, "mm between the date and the line"


def test_short_lists_need_no_other_page():
    assert not any(compose(contents(model.plain, unit), square()).rest for model in MODELS for unit in UNITS)


def test_one_caution_that_finds_no_room_is_one():
    """A handle with every slip on Letter: of four cautions three have room, and the last is told of as one."""
    bar = MitredBar("7/8 in", "15 1/2 in", "2 3/8 in", "110 deg", "3/8 in", "-0.5 deg", "2 deg")
    sheet = draw(bar, "in")
    page = compose(contents(bar.plain, "in", use=sheet.use), sheet, "Letter")
    (told,) = (text.text for text in page.page.texts if text.text.startswith("… and"))
    assert told == "… and 1 more caution: see overleaf" and len(page.rest) == 1


def test_a_long_title_and_long_words_stay_in_their_room(tmp_path):
    long = "A title so long that it would run over the mark that stands at the other end of its line"
    told = contents(RING.plain, title=long)
    check(compose(told, square()))
    assert "A title so long" in words(pages(write_card(told, square(), tmp_path / "card.pdf"))[0])


def test_same_model_gives_the_same_bytes(tmp_path):
    first, second = (write_card(contents(RING.plain), square(), tmp_path / name).read_bytes() for name in "ab")
    assert first == second


def test_very_many_sizes_stand_in_full_overleaf():
    given = contents(seedling_stand().plain).given
    card = compose(contents(seedling_stand().plain), square())
    check(card)
    here = {text.text for text in card.page.texts}
    later = {text.text for page in card.rest for text in page.texts}
    assert any("more sizes" in text for text in here) and {words for words, _ in given[:8]} <= here
    assert {size for _, size in given} <= later
