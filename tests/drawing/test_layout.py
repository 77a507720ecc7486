"""Texts, lines and shapes on a plate keep clear of one another, whatever sizes are drawn."""

import itertools

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from models import EXAMPLES, made, sizes
from shapely import box
from shapely.geometry import LineString
from shapes import check_clear, drawn_shapes, text_box

from shoplib import CircleJig, StaveRing
from shoplib.drawing import draw
from shoplib.drawing.layout import Text, lay_out, lay_out_key, text_width
from shoplib.drawing.sheet import LAYERS, Circle, Sheet, rectangle

UNITS = ("mm", "in")
ALL_EXAMPLES = [model for made in EXAMPLES.values() for model in made]


@pytest.mark.parametrize("model", ALL_EXAMPLES, ids=repr)
@pytest.mark.parametrize("unit", UNITS)
def test_examples_are_drawn_clear(model, unit):
    check_clear(draw(model, unit))


@pytest.mark.parametrize("cls", EXAMPLES)
@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.filter_too_much])
@given(st.data(), st.sampled_from(UNITS))
def test_all_sizes_are_drawn_clear(cls, data, unit):
    model = made(cls, data.draw(sizes(cls)))
    assume(model)
    check_clear(draw(model, unit))


@pytest.mark.parametrize("model", [
    CircleJig("80 mm", "3 mm", stock_thickness="3 mm", pass_depth="1 mm", cutting_length="100 mm"),
    CircleJig("690 mm", "25 mm", stock_thickness="3 mm", pass_depth="1 mm", cutting_length="5 mm"),
    CircleJig("1500 mm", "3 mm", ring_width="3 mm", stock_thickness="3 mm", cutting_length="100 mm"),
    StaveRing("1500 mm", "1480 mm", 33),
    StaveRing("1500 mm", "20 mm", 3, saw_error="-0.1 deg"),
], ids=repr)  # fmt: skip
@pytest.mark.parametrize("unit", UNITS)
def test_narrow_views_with_long_texts_are_drawn_clear(model, unit):
    check_clear(draw(model, unit))


@pytest.mark.parametrize("turn, anchor, wanted", [
    (0, "middle", (-50, -5, 50, 5)), (0, "start", (0, -5, 100, 5)), (0, "end", (-100, -5, 0, 5)),
    (90, "middle", (-5, -50, 5, 50)),
])  # fmt: skip
def test_box_of_a_text(turn, anchor, wanted, monkeypatch):
    monkeypatch.setattr("shoplib.drawing.plate.text_width", lambda text, size, bold=False: 100.0)
    assert Text(0, 0, "any", 10, anchor, turn).box() == wanted


@pytest.mark.parametrize("words", ["outside Ø 440.0 mm", "MWMW", "illi 17 3/8 in", "½ ± 0.5 ≈ deg"])
def test_text_width_is_enough_for_a_wide_face(words):
    from matplotlib import font_manager
    from matplotlib.textpath import TextPath

    prop = font_manager.FontProperties(family="DejaVu Sans")
    drawn = TextPath((0, 0), words, size=100, prop=prop).get_extents().width
    assert drawn <= text_width(words, 100) <= 1.35 * drawn


def a_sheet():
    sheet = Sheet("Two discs")
    view = sheet.view("Plan")
    view.circle("kept", (0, 0), 50)
    view.dimension((-50, 0), (50, 0), "100 mm")
    view.dimension((50, -50), (50, 50), "right", "right")
    view.note((0, 10), "upper\nin two lines", "right")
    view.note((0, -10), "lower", "right")
    view.note((0, 0), "left", "left")
    return sheet


def test_notes_and_dimensions_keep_clear():
    check_clear(a_sheet())


def test_notes_stand_in_the_order_of_what_they_point_at():
    heights = {text.text: text.y for text in lay_out(a_sheet()).texts}
    assert heights["upper"] < heights["in two lines"] < heights["lower"]


def texts_on_lines(plate):
    """The texts that a dimension line, an extension line or a leader runs through."""
    lines = [LineString([line.start, line.end]) for line in plate.lines]
    return [text.text for text in plate.texts if any(line.intersects(text_box(text)) for line in lines)]


@pytest.mark.parametrize("scale", [None, 1.0])
@pytest.mark.parametrize("side", ["below", "above", "left", "right"])
def test_extension_lines_run_through_no_text(side, scale):
    """Three short lengths in a row of rows, each narrower than its words: all have to stand beside."""
    sheet = Sheet("Narrow")
    view = sheet.view("Plan", (0, 0, 0.6, 1))
    view.area("kept", rectangle(0, 0, 60, 60))
    for k, words in enumerate(["edge 6.0 mm", "as far again, and some words", "whole 18.0 mm"]):
        ends = (6 * (k % 2), 6 + 6 * k)
        points = [(0, end) for end in ends] if side in ("left", "right") else [(end, 0) for end in ends]
        view.dimension(*points, words, side)
    plate = lay_out(sheet, scale=scale)
    assert texts_on_lines(plate) == []
    assert {text.text for text in plate.texts} >= {"edge 6.0 mm", "whole 18.0 mm"}
    assert all(box(0, 0, plate.width, plate.height).covers(text_box(text)) for text in plate.texts)


def test_a_text_with_room_stands_in_the_middle_of_its_line():
    sheet = Sheet("Wide")
    view = sheet.view()
    view.area("kept", rectangle(0, 0, 60, 60))
    view.dimension((0, 0), (60, 0), "60 mm")
    plate = lay_out(sheet, key=False)
    (text,) = plate.texts
    ends = [line.end[0] for line in plate.lines if line.arrow]
    assert text.x == pytest.approx(sum(ends) / 2)


@pytest.mark.parametrize("scale", [1.0, 0.5])
def test_given_scale_is_kept_and_the_plate_made_large_enough(scale):
    sheet = a_sheet()
    plate = lay_out(sheet, text=4.0, key=False, scale=scale)
    assert plate.scales == [scale]
    assert drawn_shapes(plate, sheet)[0].radius == 50 * scale
    assert all(box(0, 0, plate.width, plate.height).covers(text_box(text)) for text in plate.texts)


@pytest.mark.parametrize("words", ["a long text below a narrow piece of wood", "short"])
def test_full_size_plate_holds_texts_longer_than_its_shapes(words):
    sheet = Sheet("Narrow")
    view = sheet.view()
    view.area("kept", rectangle(0, 0, 4, 30))
    view.dimension((0, 0), (4, 0), words)
    view.dimension((4, 0), (4, 30), words, "right")
    plate = lay_out(sheet, text=4.0, key=False, scale=1.0)
    low, high = map(text_box, plate.texts)
    assert not low.intersects(high)
    assert box(0, 0, plate.width, plate.height).covers(low.union(high))


def test_key_names_each_kind_of_line_once():
    sheet = a_sheet()
    sheet.views[0].circle("waste", (0, 0), 40)
    sheet.views[0].circle("kept", (0, 0), 30)
    words = [text.text for text in lay_out_key(sheet, 300, 10).texts]
    assert words == [LAYERS["kept"].meaning, LAYERS["waste"].meaning]


def test_long_key_goes_on_in_a_second_line():
    sheet = Sheet("All")
    for layer in LAYERS:
        sheet.view().circle(layer, (0, 0), 10)
    plate = lay_out_key(sheet, 400, 12)
    boxes = [text_box(text) for text in plate.texts]
    assert all(box(0, 0, 400, plate.height).covers(each) for each in boxes)
    assert not any(one.intersects(other) for one, other in itertools.combinations(boxes, 2))


def test_plate_keeps_y_down_and_the_shape_undistorted():
    sheet = Sheet("Corner")
    view = sheet.view()
    view.circle("kept", (0, 100), 1)
    view.circle("waste", (300, 0), 1)
    plate = lay_out(sheet)
    high, right = drawn_shapes(plate, sheet)
    across, down = right.centre[0] - high.centre[0], right.centre[1] - high.centre[1]
    assert down > 0 and across == pytest.approx(3 * down)
    assert isinstance(high, Circle) and high.radius == pytest.approx(down / 100)


def two_views(size):
    """A sheet of which one view stays as it is while a size changes."""
    sheet = Sheet("two")
    for title, radius, cell in (("still", 50, (0, 0, 0.5, 1)), ("moving", size, (0.5, 0, 0.5, 1))):
        view = sheet.view(title, cell)
        view.circle("kept", (0, 0), radius)
        view.dimension((-radius, 0), (radius, 0), f"{2 * radius} mm")
    return sheet


def test_a_view_that_stays_is_not_placed_again():
    first, second = lay_out(two_views(30)), lay_out(two_views(31))
    same = [one is other for one, other in zip(first.parts, second.parts)]
    assert same == [True, True, False], "key and still view, but not the moving one"
    assert first.texts != second.texts and len(first.shapes) == len(second.shapes)


def test_what_is_done_to_a_plate_reaches_no_other():
    plate = lay_out(two_views(30))
    whole = list(plate.texts), list(plate.shapes)
    plate.texts.clear()
    plate.shapes.append(plate.shapes[0])
    again = lay_out(two_views(30))
    assert (again.texts, again.shapes) == whole


def test_a_view_with_the_same_texts_and_another_shape_is_placed_anew():
    one, other = two_views(30), two_views(30)
    other.views[0].circle("waste", (0, 0), 20)
    other.views[0].shapes.pop(0)
    assert lay_out(one).parts[1] is not lay_out(other).parts[1]


def test_no_last_digit_decides_how_large_a_view_is():
    """Sizes that nobody can tell apart are drawn alike: on every computer, and while a slider moves."""
    rings = (StaveRing(f"{440 + k * 1e-7:.8f} mm", "400 mm", 12) for k in range(20))
    first, *others = (lay_out(draw(ring)).scales for ring in rings)
    assert others == [pytest.approx(first)] * 19
