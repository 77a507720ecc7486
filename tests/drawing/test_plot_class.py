"""The class report's bars: their lengths are measured in the picture and compared with what was counted."""

import re
import runpy
from collections import Counter
from pathlib import Path
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shoplib import class_report, plot_class
from shoplib.drawing.plots import class_bars, plot
from shoplib.practice.class_report import ClassReport, Counted

SVG = "{http://www.w3.org/2000/svg}"
HANDED_IN = Path(__file__).resolve().parents[2] / "notebooks" / "handed_in"


def counted(number, right, open, *slips, others=0):
    asked = right + open + sum(slips) + others
    return Counted("rebates", number, asked, right, open, Counter({f"slip {k}": n for k, n in enumerate(slips) if n}))


def shown(*questions):
    return plot_class(ClassReport(list(questions), 20, 20, [], [], 0))


def bars(picture):
    """The pieces of each bar in the picture, from top to bottom: (colour, share of the whole bar)."""
    root = ElementTree.fromstring(picture.svg())
    axes = root.find(".//*[@id='axes_1']")
    found = {}
    for group in axes:
        path = group.find(f"{SVG}path")
        if not (group.get("id") or "").startswith("patch_") or path is None:
            continue
        numbers = [float(each) for each in re.findall(r"-?\d+\.?\d*", path.get("d"))]
        xs, ys = numbers[0::2], numbers[1::2]
        found.setdefault(round(min(ys), 2), []).append((min(xs), max(xs), path.get("style") or ""))
    rows = [sorted(found[y]) for y in sorted(found)]
    whole = max(x for row in rows for _, x, _ in row) - min(x for row in rows for x, _, _ in row)
    return [[(x2 - x1) / whole for x1, x2, _ in row] for row in rows]


@settings(max_examples=25)
@given(st.lists(
    st.tuples(st.integers(0, 20), st.integers(0, 9), st.integers(0, 9), st.integers(0, 9), st.integers(0, 9)),
    min_size=1, max_size=3,
).filter(lambda rows: all(map(sum, rows))))  # fmt: skip
def test_lengths_of_the_pieces_are_the_shares_of_the_class(rows):
    questions = [counted(n, right, left, a, b, others=c) for n, (right, left, a, b, c) in enumerate(rows, 1)]
    for row, each in zip(bars(shown(*questions)), questions, strict=True):
        told = [size for size in class_bars.pieces(each) if size]
        assert sum(told) == each.asked
        assert row == pytest.approx([size / each.asked for size in told], abs=1e-4)


def test_words_beside_the_bars_and_in_the_description():
    picture = shown(counted(1, 9, 2, 5, 1, others=3), counted(2, 20, 0))
    text = picture.svg()
    for words in ("Rebates 1", "9 of 20", "Rebates 2", "20 of 20", *(kind[0] for kind in class_bars.KINDS)):
        assert f">{words}<" in text
    assert picture.description == "Bars, a row for each question: Rebates 1, 9 of 20 right; Rebates 2, 20 of 20 right."
    assert "Rebates 1  9 of 20   2          5      slip 0" in repr(picture)
    assert picture._repr_html_().startswith("<img alt=")


def test_no_meaning_hangs_on_a_colour_alone():
    looks = [(colour if hatch else "", hatch) for _, colour, hatch in class_bars.KINDS if hatch]
    plain = [colour for _, colour, hatch in class_bars.KINDS if not hatch]
    assert len(set(looks)) == 2 and plain == [plot.SKY, "#ffffff"]


def test_an_empty_report_has_a_picture_too(tmp_path):
    assert plot_class(class_report(tmp_path)).svg()


def test_the_class_of_the_first_page_is_the_one_that_is_made():
    """Each file as the command makes it, and the report what the class was made with."""
    made = runpy.run_path(str(HANDED_IN.parents[1] / "tests" / "make_class.py"))
    files = made["files"]()
    assert {path.name: path.read_bytes() for path in HANDED_IN.iterdir()} == files
    report = class_report(HANDED_IN)
    slips, left = made["SLIPS"], made["OPEN"]
    for each in report.counted:
        wrong = sum(each.number in places for places in slips.values())
        unanswered = sum(number == each.number for _, number in left)
        torn = each.number == 6
        assert (each.right, each.open, each.asked) == (8 - wrong - unanswered - torn, unanswered, 8 - torn)
    assert [name for name, _ in report.left_out] == ["student_5_first_try.csv"]
    assert report.notes == [("student_8.csv", "question 6 is not in it")]
