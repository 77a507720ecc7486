"""A drawing without its sizes: no number with a unit is left, and a line to write on stands where each was."""

import pytest
from asked import measures

from shoplib.drawing.plate import Plate, Text, text_width
from shoplib.drawing.unsized import unsized


def opened(words, bold=False):
    plate = Plate(100, 100, words, words, texts=[Text(10, 10, words, 3.0, bold=bold)])
    assert unsized(plate) is plate
    return plate


@pytest.mark.parametrize("words, left", [
    ("outside Ø 440 mm", "outside Ø {}"), ("1 pivot 226.0 mm", "1 pivot {}"), ("reach 8 57/64 in", "reach {}"),
    ("mitre 15.00 deg: 8.8 mm off square", "mitre {}: {} off square"), ("wall -0.5 mm", "wall {}"),
    ("The strip: 59 % of it", "The strip: {} of it"), ("4 passes, 12 inside", "4 passes, 12 inside"),
])  # fmt: skip
def test_lines_stand_where_sizes_were(words, left):
    plate = opened(words)
    text = plate.texts[0].text
    assert text.replace("_", "") == left.format(*[""] * left.count("{}"))
    assert measures(text) == measures(plate.title) == measures(plate.description) == []
    pieces = [each for each in text.split() if set(each) <= set("_:")]
    assert len(pieces) == left.count("{}") and all(each.count("_") >= 3 for each in pieces)


def test_a_line_is_no_longer_than_the_size_was():
    words = "cope depth 123.45 mm"
    for bold in (False, True):
        assert text_width(opened(words, bold).texts[0].text, 3.0, bold) <= text_width(words, 3.0, bold)
