"""The SVG on the screen: well-formed, spoken, its own, and readable without colour."""

import itertools
import math
import re
from xml.etree import ElementTree

import pytest
from models import EXAMPLES

from shoplib import CircleJig
from shoplib.drawing import draw
from shoplib.drawing.sheet import LAYERS, EndGrain, Sheet, rectangle
from shoplib.drawing.svg import svg
from shoplib.model import answer, given_in_full

SVG = "{http://www.w3.org/2000/svg}"
JIG = CircleJig("440 mm", "12 mm", ring_width="20 mm", stock_thickness="18 mm", pass_depth="5 mm")
ALL_EXAMPLES = [model for made in EXAMPLES.values() for model in made]


def ids(text):
    return {each.get("id") for each in ElementTree.fromstring(text).iter() if each.get("id")}


@pytest.mark.parametrize("model", ALL_EXAMPLES, ids=repr)
@pytest.mark.parametrize("unit", ["mm", "in"])
def test_well_formed_spoken_and_in_one_style(model, unit):
    text = svg(draw(model, unit), "one")
    root = ElementTree.fromstring(text)
    assert root.tag == SVG + "svg" and root.get("role") == "img"
    assert len(root.get("viewBox").split()) == 4
    assert root.find(f".//{SVG}style") is None and "class=" not in text
    name, item = next(iter(model.inputs().items()))
    given = item.write(model.values[name], unit), given_in_full(model.plain, name, unit)
    assert any(each in root.get("aria-label") for each in given)
    found = [answer(model.plain, name, unit)[0] for name in model.results()]
    assert any(each in root.get("aria-label") for each in found if each != "—")


def test_spoken_description_names_both_pivots():
    label = ElementTree.fromstring(svg(draw(JIG))).get("aria-label")
    assert "440" in label and "226.0 mm" in label and "194.0 mm" in label


@pytest.mark.parametrize("model", ALL_EXAMPLES, ids=repr)
def test_ids_and_what_points_at_them_carry_the_prefix(model):
    one, other = (svg(draw(model), prefix) for prefix in ("bench1", "bench2"))
    assert not ids(one) & ids(other)
    assert all(each.startswith("bench1-") for each in ids(one))
    assert set(re.findall(r"url\(#([^)]*)\)", one)) == ids(one)


def grained(grain):
    sheet = Sheet("wood")
    sheet.view().area("rail", rectangle(0, 0, 100, 40), grain=grain)
    return svg(sheet, "one")


@pytest.mark.parametrize("degrees", [0, 30, 90, 150])
def test_grain_lines_run_the_way_of_the_fibres(degrees):
    """On the screen y runs down, so an anticlockwise angle is a negative turn."""
    found = re.search(r'patternTransform="rotate\(([-\d.]+)\)"', grained(math.radians(degrees)))
    assert -(float(found[1]) if found else 0.0) % 180 == degrees


def test_end_grain_shows_rings_round_the_pith_over_the_whole_shape():
    found = grained(EndGrain((50, 20)))
    radii = [float(each) for each in re.findall(r'<circle cx="[\d.]+" cy="[\d.]+" r="([\d.]+)"', found)]
    tile = float(re.search(r'<pattern id="[^"]*" x="[-\d.]+" y="[-\d.]+" width="([\d.]+)"', found)[1])
    assert len(radii) > 5 and tile / 2 >= radii[-1] and "rotate" not in found


@pytest.mark.parametrize("model", ALL_EXAMPLES, ids=repr)
def test_numbers_have_at_most_two_decimals_and_are_finite(model):
    text = re.sub(r"<text.*?</text>|aria-label=\"[^\"]*\"", "", svg(draw(model)))
    assert not re.search(r"\d\.\d{3}|nan|inf|\de-\d|\"-0\"", text)


def test_the_same_sizes_give_the_same_text():
    assert svg(draw(JIG)) == svg(draw(CircleJig(**{name: getattr(JIG, name) for name in JIG.inputs()})))


def test_texts_are_escaped():
    nasty = "<script>alert(\"1\")</script> & 'more'"
    sheet = Sheet(nasty, nasty)
    view = sheet.view(nasty)
    view.circle("kept", (0, 0), 50)
    view.dimension((-50, 0), (50, 0), nasty)
    view.note((0, 0), nasty)
    text = svg(sheet)
    root = ElementTree.fromstring(text)
    assert "<script" not in text
    assert nasty in root.get("aria-label")
    assert [each.text for each in root.iter(SVG + "text")].count(nasty) == 3


def without_colour(layer):
    """How a circle of a layer is drawn: line width, dashes and hatch, all colours left out."""
    sheet = Sheet("One")
    sheet.view().circle(layer, (0, 0), 50)
    root = ElementTree.fromstring(svg(sheet, "x"))
    drawn = max(root.findall(SVG + "circle"), key=lambda each: float(each.get("r")))
    hatch = re.match(r"url\(#(.*)\)", drawn.get("fill"))
    lines = ()
    if hatch:
        pattern = root.find(f".//{SVG}pattern[@id='{hatch[1]}']")
        lines = (pattern.get("patternTransform"), *(path.get("d") for path in pattern.iter(SVG + "path")))
    return drawn.get("stroke-width"), drawn.get("stroke-dasharray"), lines


KINDS = ["kept", "waste", "cutter", "pivot", "groove"]


@pytest.mark.parametrize("one, other", list(itertools.combinations(KINDS, 2)))
def test_kinds_of_area_differ_by_more_than_colour(one, other):
    first, second = without_colour(one), without_colour(other)
    assert first[1:] != second[1:], "by dashes or hatch"


@pytest.mark.parametrize("model", ALL_EXAMPLES, ids=repr)
def test_no_two_layers_of_a_drawing_differ_by_colour_only(model):
    pens = {name: (pen.width, pen.dashes, pen.hatch, pen.fill == "none") for name, pen in LAYERS.items()}
    pairs = itertools.combinations(draw(model).layers(), 2)
    assert not [pair for pair in pairs if pens[pair[0]] == pens[pair[1]]]
