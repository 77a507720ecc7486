"""Two ways to one ring stand side by side: what is alike is said once, what differs under each."""

import re

import pytest

from shoplib import HollowBlank, MeasureError, StaveRing, side_by_side

STAVES = StaveRing("440 mm", "400 mm", 12, margin="3 mm", kerf="3 mm", saw_error="0.1 deg")
BOARDS = HollowBlank("440 mm", "400 mm", "60 mm", margin="3 mm")
SHOWN = ("board_width", "piece_count", "glue_lines", "material_yield")


def test_rows_tell_of_each_model_what_it_says_itself():
    facts = side_by_side(STAVES, BOARDS, show=SHOWN).facts()
    assert facts.head == ("", "Stave ring", "Hollow blank")
    assert facts.rows == [
        ("board width", "32.7 mm", "60 mm"),  # a result of the one, given for the other
        ("pieces to cut in all", "12", "14"),
        ("glue lines in the ring", "12", "14"),
        ("share of timber used", "0.588", f"{BOARDS.plain.material_yield:.3f}"),
    ]


def test_without_names_the_results_that_both_have():
    assert [words for words, *_ in side_by_side(STAVES, BOARDS).facts().rows] == ["share of timber used"]


def test_alike_once_and_what_is_apart_under_each():
    beside = side_by_side(STAVES, BOARDS)
    alike = "Given for all: outside diameter 440 mm, inside diameter 400 mm, margin 3.0 mm, kerf 3.0 mm."
    assert beside.together() == alike
    assert beside.apart(STAVES) == "Stave ring: staves 12, saw error 0.10 deg."
    assert beside.apart(BOARDS) == "Hollow blank: board width 60 mm, seam on the centre line yes."
    assert repr(beside).splitlines()[:3] == [alike, beside.apart(STAVES), beside.apart(BOARDS)]


def test_pictures_are_named_and_stand_over_the_table():
    page = side_by_side(STAVES, BOARDS, show=SHOWN)._repr_html_()
    assert len(re.findall('<img alt="(?:Stave ring|Hollow blank)[^"]+"', page)) == page.count("<img") == 2
    assert page.index("<img") < page.index("<table")
    assert "Quantity" not in page and "StaveRing(" not in page


def test_inches_are_inches_everywhere():
    text = repr(side_by_side(STAVES, BOARDS, show=SHOWN, unit="in"))
    assert " mm" not in text and "1 9/32 in (1.288)" in text


def test_a_name_that_none_of_them_has_is_refused():
    with pytest.raises(MeasureError, match="colour"):
        side_by_side(STAVES, BOARDS, show=("colour",))


def test_an_input_that_differs_is_not_called_alike():
    beside = side_by_side(STAVES, BOARDS.replace(kerf="2 mm"))
    assert "kerf" not in beside.together()
    assert "kerf 3.0 mm" in beside.apart(STAVES) and "kerf 2.0 mm" in beside.apart(beside.models[1])
