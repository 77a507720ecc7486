"""Every printout says what it is for; one mark for one set of sizes, another for another."""

import datetime
import math

import ezdxf
import pytest
from models import EXAMPLES
from paper.reading import pages

from shoplib import CircleJig, RoundCope, StaveRing, save_card, save_dxf, save_template
from shoplib.drawing import has_template, template
from shoplib.maths.the_stand import seedling_stand
from shoplib.model import ShapeError
from shoplib.paper.imprint import LENGTH, LETTERS, imprint_of, in_words, mark, mark_of

DAY = datetime.date(2031, 5, 7)
ALL = [model for models in EXAMPLES.values() for model in models]
JIG = CircleJig("440 mm", "12 mm", ring_width="20 mm", stock_thickness="18 mm", pass_depth="5 mm")


def changed(item, value):
    """Values of one input that differ from this one by a hair, or by the least step there is."""
    if item.kind == "flag":
        return [not value]
    if item.kind == "choice":
        return [option for option in item.options if option != value]
    if item.kind == "count":
        return [value + 1]
    return [math.nextafter(value, math.inf) + 1e-6, -value] if value else [1e-6]


@pytest.mark.parametrize("cls", EXAMPLES)
def test_any_other_size_has_another_mark(cls):
    for model in EXAMPLES[cls]:
        for name, item in cls.inputs().items():
            given = model.values[name]
            others = [] if given is None else changed(item, given) + [None] * item.optional
            stands = [cls.Stand(model.values | {name: other}) for other in [given, *others]]
            assert len(set(map(mark_of, stands))) == len(stands), (name, given)


def test_marks_are_few_letters_that_make_no_word():
    assert all(len(mark_of(model)) == LENGTH and set(mark_of(model)) <= set(LETTERS) for model in ALL)
    assert not set(LETTERS) & set("AEIOUY")
    assert len({mark(str(number)) for number in range(3000)}) == 3000


def test_one_mark_in_both_units_and_however_the_sizes_were_given():
    in_mm = CircleJig("441.325 mm", "12.7 mm", hold="25.4 mm", pivot_pin="6.35 mm")
    assert mark_of(CircleJig("17 3/8 in", "1/2 in")) == mark_of(in_mm) != mark_of(CircleJig("441.325 mm", "12.7 mm"))
    assert mark_of(JIG.plain) == mark_of(JIG) == mark_of(JIG.replace(diameter=JIG.diameter.to("in")))
    assert mark_of(StaveRing("440 mm", "400 mm", 12, slope="0 deg")) == mark_of(StaveRing("440 mm", "400 mm", 12))
    assert mark_of(RoundCope("35 mm", "19 mm", "50 deg")) == mark_of(RoundCope("35 mm", "19 mm", "3000 arcminute"))


def test_what_was_made_has_a_mark_of_its_own(tmp_path):
    """On single printouts as on the packet: a stand made otherwise is not overwritten by the nominal one."""
    stand = seedling_stand()
    thin, thick = (stand.as_made(panel_thickness=size) for size in ("11.7 mm", "12.3 mm"))
    assert len({mark_of(stand), mark_of(thin), mark_of(thick), mark_of(stand.as_made(panel_diameter="414 mm"))}) == 4
    assert mark_of(thin) == mark_of(stand.as_made(panel_thickness="11.7 mm")) == imprint_of(thin).mark
    assert ("panel thickness, as made", "11.7 mm") in imprint_of(thin).sizes
    assert mark_of(thin) in save_card(thin, folder=tmp_path).name
    assert mark_of(stand) in save_card(stand, folder=tmp_path).name
    assert mark_of(thin.not_made("panel_thickness")) == mark_of(stand) == mark_of(stand.plain)


def test_another_model_of_the_same_sizes_has_another_mark():
    assert mark("CircleJig", "diameter=440") != mark("StaveRing", "diameter=440")


@pytest.mark.parametrize(("unit", "paper"), [("mm", "Letter"), ("in", "A4")])
def test_card_template_and_dxf_say_the_same(tmp_path, unit, paper):
    """What part, all sizes, unit, date and mark: in words on each page, the mark in each name."""
    how = {"unit": unit, "folder": tmp_path, "part": "Upper tray", "date": DAY}
    dxf = save_dxf(JIG, **how)
    card, sheet = save_card(JIG, paper=paper, **how), save_template(JIG, paper=paper, **how)
    printed = [page.extract_text() for path in (card, sheet) for page in pages(path)]
    texts = [each.plain_text() for each in ezdxf.readfile(dxf).modelspace().query("MTEXT")]
    printed.append(" ".join(next(text for text in texts if "Made from" in text).split()))
    for text in printed:
        words = " ".join(text.split())
        for name, size in imprint_of(JIG, unit).sizes:
            assert f"{name} {size}" in words
        for said in ("Upper tray: circle jig", "Printed on 7 May 2031", f"Mark {mark_of(JIG)}"):
            assert said in words
        assert {"mm": "Lengths in millimetres", "in": "Lengths in inches"}[unit] in words
    assert len(printed) >= 3
    assert all(mark_of(JIG) in path.name and path.name.startswith("upper-tray_") for path in (card, sheet, dxf))


def test_inches_keep_their_decimals():
    sizes = dict(imprint_of(JIG, "in").sizes)
    assert sizes["outside diameter"] == "17 21/64 in (17.323)" and sizes["cutter diameter"] == "15/32 in (0.472)"
    assert dict(imprint_of(CircleJig("17 3/8 in", "1/2 in"), "in").sizes)["cutter diameter"] == "1/2 in"


def test_the_date_is_todays_unless_another_is_given(tmp_path):
    days = (datetime.date.today(), imprint_of(JIG).date, datetime.date.today())
    assert days[1] in (days[0], days[2])
    written = [save_dxf(JIG, tmp_path, date=day).read_bytes() for day in (DAY, DAY, datetime.date(2031, 5, 8))]
    assert written[0] == written[1] != written[2]


def test_a_date_reads_alike_everywhere():
    assert in_words(datetime.date(2032, 2, 29)) == "29 February 2032"
    assert len({in_words(datetime.date(2032, month, 1)) for month in range(1, 13)}) == 12


def test_every_template_has_a_title_in_words():
    """What is drawn, and what it is good for."""
    for model in ALL:
        if has_template(type(model)):
            try:
                sheet = template(model)
            except ShapeError:
                continue
            assert len(sheet.title.split()) >= 2, sheet.title
