"""Boards on the drawing: every piece and cut once, numbers apart from one another and within their pieces."""

import pytest
import shapely

from shoplib import Board, Part, saw_plan, stand_parts, stand_rack
from shoplib.drawing.sheet import Area, Line
from shoplib.drawing.timber import draw_boards

ASH = "Ash, white"
SMALL = [Part(f"p{n}", 9, f"{40 + 30 * n} mm", f"{12 + 9 * n} mm", "20 mm", ASH) for n in range(5)]
RACKS = [
    (stand_parts(), stand_rack()),
    (SMALL, [Board("x" * 60, "2900 mm", "200 mm", "27 mm", faults=[("0 mm", "60 mm"), ("900 mm", "940 mm")])]),
    ([Part("one", 1, "80 mm", "16 mm", "20 mm", ASH)], [Board("scrap", "100 mm", "20 mm", "27 mm")]),
]


@pytest.fixture(params=range(len(RACKS)), ids=("stand", "small", "one"), scope="module")
def plan(request):
    return saw_plan(*RACKS[request.param], seconds=2)


def boxes(plate, bold=None):
    return [(text, shapely.box(*text.box())) for text in plate.texts if bold is None or text.bold == bold]


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_numbers_touch_no_other(plan, unit):
    plate = draw_boards(plan, unit)
    found = boxes(plate)
    for place, (text, box) in enumerate(found):
        for other, another in found[place + 1 :]:
            assert not box.intersects(another), (text.text, other.text)
        assert text.box()[0] >= 0 and text.box()[2] <= plate.width and text.box()[3] <= plate.height


def test_every_piece_is_drawn_and_bears_its_number(plan):
    plate = draw_boards(plan)
    areas = [shapely.Polygon(each.outlines[0]) for each in plate.shapes if isinstance(each, Area) and
             each.layer == "piece" and each.grain == 0.0]  # fmt: skip
    assert len(areas) == len(plan.pieces)
    numbers = {text.text: box for text, box in boxes(plate, bold=True) if text.text.isdigit()}
    read = [number for number, (piece, area) in enumerate(zip(plan.pieces, areas), 1)
            if str(number) in numbers and area.contains(numbers[str(number)].centroid)]  # fmt: skip
    assert len(read) >= 0.9 * len(plan.pieces)
    for one, area in enumerate(areas):
        assert all(area.intersection(other).area < 1e-6 for other in areas[one + 1 :])


def test_every_cut_is_a_line(plan):
    plate = draw_boards(plan)
    lines = [each for each in plate.shapes if isinstance(each, Line) and each.layer == "saw_cut"]
    assert len(lines) == 1 + sum(len(each.layout.cuts) for each in plan.boards)  # one in the key


def test_faults_are_keyed_only_where_there_are_any():
    plain = saw_plan([SMALL[0]], [Board("b", "2 m", "100 mm", "27 mm")])
    assert not any(each.layer == "fault" for each in draw_boards(plain).shapes)
    assert sum(each.layer == "fault" for each in draw_boards(saw_plan(*RACKS[0])).shapes) == 2


def test_one_board_alone(plan):
    plate = draw_boards(plan, boards={1})
    assert "Board 1," in plate.description and "Board 2," not in plate.description
