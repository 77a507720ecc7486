"""The bench card: all on one page, nothing clipped, nothing over anything else, at any sizes."""

import itertools
import random
from functools import cache

import pytest
from matplotlib import font_manager
from matplotlib.ft2font import LoadFlags
from paper.reading import page_size, pages

from shoplib import CircleJig, HollowBlank, ShapeError, StaveRing, draw, save_card
from shoplib.drawing.sheet import Sheet, rectangle
from shoplib.paper.boxes import meet
from shoplib.paper.card import MARGIN, SAFETY, compose, write_card
from shoplib.paper.files import PAPERS

RING = CircleJig(
    "440 mm", "12 mm", ring_width="20 mm", stock_thickness="40 mm", pass_depth="6 mm", cutting_length="50 mm"
)
MODELS = [RING, StaveRing("440 mm", "400 mm", 12), HollowBlank("440 mm", "400 mm", "60 mm", margin="3 mm")]
UNITS = ("mm", "in")


def words(page):
    return " ".join(page.extract_text().split())


@cache
def font(bold):
    return font_manager.get_font(font_manager.findfont("DejaVu Sans:bold" if bold else "DejaVu Sans"))


@cache
def width(text, bold):
    """True width of a text in text heights."""
    face = font(bold)
    face.set_size(100, 72)
    face.set_text(text, 0, LoadFlags.NO_HINTING)
    return face.get_width_height()[0] / 64 / 100


def ink(text):
    """The box that the printed letters fill, measured in the font itself."""
    across, left = width(text.text, text.bold) * text.size, text.x
    left -= {"start": 0, "middle": across / 2, "end": across}[text.anchor]
    return left, text.y - 0.45 * text.size, left + across, text.y + 0.6 * text.size


def check(card):
    """Words in the margins' frame, clear of one another, of the picture and of the tables' upright lines."""
    frame = (MARGIN - 0.01, MARGIN, card.page.width - MARGIN + 0.01, card.page.height - MARGIN + 0.01)
    boxes = [ink(text) for text in card.page.texts]
    x, y = card.corner
    picture = (x, y, x + card.picture.width, y + card.picture.height)
    for box, text in zip([*boxes, picture], [*card.page.texts, "picture"]):
        assert frame[0] <= box[0] and frame[1] <= box[1] and box[2] <= frame[2] and box[3] <= frame[3], text
    for one, other in itertools.combinations([*boxes, picture], 2):
        assert not meet(one, other), (one, other)
    for line in card.page.lines:
        (x1, y1), (x2, y2) = line.start, line.end
        assert not any(meet((x1, y1, x2 + 1e-6, y2 + 1e-6), box) for box in boxes)
    assert card.picture.height >= 80


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
        check(compose(plain, square(), unit, paper))


@pytest.mark.parametrize(
    ("model", "paper"), [*zip(MODELS, ["Letter"] * 3), (RING, "A4")], ids=lambda each: str(each)[:10]
)
def test_one_page_of_the_right_size(tmp_path, model, paper):
    (page,) = pages(save_card(model, "in", tmp_path, paper))
    assert page_size(page) == pytest.approx(PAPERS[paper], abs=0.001)
    check(compose(model.plain, draw(model, "in"), "in", paper))


@pytest.mark.parametrize("unit", UNITS)
def test_tells_sizes_settings_cautions_and_safety(tmp_path, unit):
    path = save_card(RING, unit, tmp_path)
    (page,) = pages(path)
    text = words(page)
    for name, item in RING.inputs().items():
        if RING.values[name] is not None:
            assert f"{item.words} {item.write(RING.values[name], unit)}" in text
    for name in ("outer_pivot", "inner_pivot", "outer_reach", "inner_reach", "pivot_step", "depth"):
        item = RING.results()[name]
        assert f"{item.words} {item.write(getattr(RING.plain, name), unit)}" in text
    for caution in RING.cautions:
        assert caution.tell(unit) in text and f"({caution.source})" in text
    assert RING.cautions and SAFETY in text
    for word in ("Sizes given", "Set it to", "measured", "Date", "Name", "Circle jig"):
        assert word in text
    assert path.name.endswith("_card_A4.pdf")


def test_a_result_without_meaning_is_left_out():
    disc = CircleJig("440 mm", "12 mm")
    texts = [text.text for text in compose(disc.plain, square()).page.texts]
    assert "outside cut, pivot" in texts and "inside cut, pivot" not in texts and "ring width" not in texts


def test_each_pass_has_a_box_to_tick():
    page = compose(RING.plain, square()).page
    boxes = [shape for shape in page.shapes if shape.layer == "box"]
    assert len(boxes) == len(RING.plain.passes) + 1 == 8  # and the frame of the safety line
    assert [text.text for text in page.texts].count("40.00 mm") == 1


def test_long_plans_are_cut_and_say_so():
    many = CircleJig("440 mm", "12 mm", stock_thickness="80 mm", pass_depth="1 mm")
    page = compose(many.plain, square()).page
    shown = len([shape for shape in page.shapes if shape.layer == "box"]) - 1
    (cut,) = [text.text for text in page.texts if "more" in text.text]
    assert cut == f"… and {80 - shown} more, the last 80.00 mm: see the lesson"

    rows = HollowBlank("1500 mm", "1000 mm", "20 mm")
    texts = [text.text for text in compose(rows.plain, square()).page.texts]
    assert rows.row_count == 38
    assert {"low", "pieces", "20.0 mm", "height"} <= set(texts)  # no cell is broken into lines
    assert "mm" not in texts
    assert sum("more rows: see the lesson" in text for text in texts) == 2


def test_a_long_title_and_long_words_stay_in_their_room(tmp_path):
    sheet = square()
    sheet.title = "A title so long that it would run over the lines for the date and the name"
    check(compose(RING.plain, sheet))
    assert "A title so long" in words(pages(write_card(RING.plain, sheet, tmp_path / "card.pdf"))[0])


def test_picture_stays_in_its_box():
    for model, unit, paper in itertools.product(MODELS, UNITS, PAPERS):
        picture = compose(model.plain, draw(model, unit), unit, paper).picture
        for text in picture.texts:
            left, top, right, bottom = text.box()
            assert left >= -0.1 and top >= -0.1, text
            assert right <= picture.width + 0.1 and bottom <= picture.height + 0.1, text


def test_same_model_gives_the_same_bytes(tmp_path):
    first = write_card(RING.plain, square(), tmp_path / "a.pdf").read_bytes()
    assert first == write_card(RING.plain, square(), tmp_path / "b.pdf").read_bytes()
