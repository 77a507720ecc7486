"""DXF, read back: true lengths, true circles, named layers, nothing for an auditor to find."""

import datetime
import math

import ezdxf
import pytest

from shoplib import CircleJig, HollowBlank, StaveRing, save_dxf
from shoplib.drawing.sheet import Circle, Sheet, rectangle
from shoplib.paper.dxf import write_dxf
from shoplib.paper.imprint import Imprint

FINE = 0.001  # mm
IMPRINT = Imprint((("ring width", "20 mm"),), "BCDFGH", "mm", datetime.date(2031, 5, 7))


def sheet():
    made = Sheet("Template", use="Fold here.")
    view = made.view("From above")
    view.area("kept", Circle("kept", (0, 0), 220), Circle("kept", (0, 0), 200.125))
    view.area("waste", rectangle(-250, -250, 250, 250))
    view.line("centre", (-250, 0), (250, 0))
    view.line("hidden", (-250, 10), (250, 10))
    view.circle("pivot", (32.0625, 0), 3)
    view.arc("feed", (0, 0), 226, math.radians(20), math.radians(58), arrow=True)
    view.arc("joint", (0, 0), 210, math.radians(90), math.radians(30))
    view.arc("joint", (0, 0), 211, 0.3, 0.3 + 2 * math.pi)
    view.dimension((-220, 0), (220, 0), "outside Ø 440 mm")
    view.dimension((0, -200.125), (0, 220), "upright", "left")
    view.note((220, 0), "kept side\n{show} face", "right")
    view.note((220, 1), "second", "right")
    view.note((-220, 1), "left one", "left")
    return made


@pytest.fixture(scope="module")
def document(tmp_path_factory):
    return ezdxf.readfile(write_dxf(sheet(), IMPRINT, tmp_path_factory.mktemp("dxf") / "t.dxf"))


def found(document, query):
    return list(document.modelspace().query(query))


def test_audit_is_clean(document):
    auditor = document.audit()
    assert not auditor.errors and not auditor.fixes


def test_units_are_millimetres(document):
    assert document.header["$INSUNITS"] == 4 and document.header["$MEASUREMENT"] == 1


def test_circles_are_circles(document):
    circles = {(each.dxf.layer, round(each.dxf.radius, 6)) for each in found(document, "CIRCLE")}
    assert circles == {("KEPT", 220), ("KEPT", 200.125), ("PIVOT", 3), ("JOINT", 211)}
    (pivot,) = found(document, 'CIRCLE[layer=="PIVOT"]')
    assert tuple(pivot.dxf.center) == pytest.approx((32.0625, 0, 0), abs=FINE)


def test_arcs_run_anticlockwise_in_degrees(document):
    arcs = {
        each.dxf.layer: (each.dxf.radius, each.dxf.start_angle, each.dxf.end_angle)
        for each in found(document, "ARC")
    }
    assert arcs["FEED"] == pytest.approx((226, 20, 58), abs=FINE)
    assert arcs["JOINT"] == pytest.approx((210, 30, 90), abs=FINE)


def test_outlines_are_closed(document):
    (board,) = found(document, 'LWPOLYLINE[layer=="WASTE"]')
    assert board.closed
    corners = [tuple(point[:2]) for point in board.get_points()]
    assert corners == [(-250, -250), (250, -250), (250, 250), (-250, 250)]


def test_layers_are_those_in_use_with_their_lines(document):
    ours = {layer.dxf.name: layer for layer in document.layers}
    ours = {name: ours[name] for name in ours if name.lower() not in ("0", "defpoints")}
    assert set(ours) == {"KEPT", "WASTE", "CENTRE", "HIDDEN", "PIVOT", "FEED", "JOINT", "DIMENSION"}
    assert ours["CENTRE"].dxf.linetype == "CENTER" and ours["HIDDEN"].dxf.linetype == "DASHED"
    assert ours["KEPT"].dxf.linetype.upper() == "CONTINUOUS"
    assert len({layer.dxf.color for layer in ours.values()}) > 4


def test_dimensions_are_dimensions(document):
    measured = {each.dxf.text: each.get_measurement() for each in found(document, "DIMENSION")}
    assert measured == pytest.approx({"outside Ø 440 mm": 440, "upright": 420.125}, abs=FINE)
    lines = {each.dxf.text: each.dxf.defpoint for each in found(document, "DIMENSION")}
    assert lines["outside Ø 440 mm"].y < -250 and lines["upright"].x < -250


def test_notes_are_words_apart_from_each_other(document):
    notes = [each for each in found(document, "MTEXT") if each.dxf.attachment_point != 1]
    assert {each.plain_text() for each in notes} == {"kept side\n{show} face", "second", "left one"}
    right = sorted(each.dxf.insert.y for each in notes if each.dxf.insert.x > 0)
    assert len(right) == 2 and right[1] - right[0] > 7
    assert all(abs(each.dxf.insert.x) > 250 for each in notes)


def test_what_it_is_for_stands_under_the_drawing(document):
    (words,) = [each for each in found(document, "MTEXT") if each.dxf.attachment_point == 1]
    assert words.plain_text().split("\n") == [
        "Template",
        "Made from: ring width 20 mm.",
        "Lengths in millimetres. Printed on 7 May 2031. Mark BCDFGH. Drawn in millimetres at full size.",
        "Fold here.",
    ]
    lowest = min(each.dxf.defpoint.y for each in found(document, "DIMENSION"))
    assert words.dxf.insert.y < lowest - 3 and words.dxf.layer == "DIMENSION"


def test_words_in_inches_leave_the_drawing_in_millimetres(tmp_path):
    inches, plain = (ezdxf.readfile(save_dxf(MODELS[0], tmp_path, unit)) for unit in ("in", "mm"))
    assert len(list(tmp_path.iterdir())) == 2
    radii = [sorted(each.dxf.radius for each in found(each, "CIRCLE")) for each in (inches, plain)]
    assert radii[0] == radii[1] and inches.header["$INSUNITS"] == 4
    texts = " ".join(each.dxf.text for each in found(inches, "DIMENSION"))
    assert " in" in texts and " mm" not in texts


def test_same_drawing_gives_the_same_bytes(tmp_path):
    first = write_dxf(sheet(), IMPRINT, tmp_path / "a.dxf").read_bytes()
    assert first == write_dxf(sheet(), IMPRINT, tmp_path / "b.dxf").read_bytes()
    assert ezdxf.options.write_fixed_meta_data_for_testing is False


MODELS = [
    CircleJig("440 mm", "12 mm", ring_width="20 mm"),
    StaveRing("440 mm", "400 mm", 12, margin="3 mm"),
    HollowBlank("440 mm", "400 mm", "60 mm", margin="3 mm"),
]


@pytest.mark.parametrize("model", MODELS, ids=lambda model: type(model).__name__)
def test_templates_of_the_models(tmp_path, model):
    path = save_dxf(model, tmp_path)
    assert path.name.endswith("_template.dxf")
    auditor = ezdxf.readfile(path).audit()
    assert not auditor.errors and not auditor.fixes


def test_pivots_of_a_ring_are_32_mm_apart(tmp_path):
    document = ezdxf.readfile(save_dxf(MODELS[0], tmp_path))
    places = sorted(each.dxf.center.x for each in found(document, 'CIRCLE[layer=="PIVOT"]'))
    assert any(b - a == pytest.approx(32, abs=FINE) for a in places for b in places)
