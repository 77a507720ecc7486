"""The card of a measured rim: points, circle, residuals and verdict, all on one page."""

import datetime
import itertools

import pytest
from paper.reading import page_size, pages
from paper.test_card import check

from shoplib.maths.rims import plain_fit
from shoplib.paper import rim_card, save_rim_card
from shoplib.paper.card import compose
from shoplib.paper.files import PAPERS

DAY = datetime.date(2031, 5, 7)
UNITS = ("mm", "in")
POINTS = [
    (444.5, 279.5), (327.0, 424.0), (171.0, 438.0), (47.5, 348.0), (23.5, 154.5), (92.5, 65.5), (275.0, 11.0),
    (418.5, 110.5), (100.0, 420.0), (400.0, 90.0), (10.0, 200.0), (50.0, 90.0),
]  # fmt: skip
VERDICT = "Point 6 looks wrong: the others agree on a circle 439.9 mm across."


def save(folder, points=POINTS[:8], unit="mm", **how):
    return save_rim_card(points, plain_fit(points), VERDICT, unit, folder=folder, date=DAY, **how)


@pytest.mark.parametrize(("unit", "paper"), [*zip(UNITS, PAPERS)])
def test_tells_points_circle_residuals_and_verdict(tmp_path, unit, paper):
    (page,) = pages(save(tmp_path, unit=unit, paper=paper))
    text = " ".join(page.extract_text().split())
    assert page_size(page) == pytest.approx(PAPERS[paper], abs=0.001)
    point, circle = {
        "mm": ("6 92.5 mm 65.5 mm −7.6 mm", "diameter 439.9 mm"),
        "in": ("6 3 41/64 in (3.642) 2 37/64 in (2.579) −0.30 in", "diameter 17 5/16 in (17.319)"),
    }[unit]
    for said in (point, circle, VERDICT, "Printed on 7 May 2031", "Mark "):
        assert said in text


def test_the_circle_without_the_doubtful_point_comes_first(monkeypatch):
    """Reckoned again from the seven others alone; the circle through all of them follows, and says what it is."""
    told = []
    monkeypatch.setattr(rim_card, "write_card", lambda contents, sheet, path, paper: told.append((contents, sheet)))
    save(None)
    save(None, [*POINTS[:5], *POINTS[6:8]])
    (contents, sheet), (clean, _) = told
    (first, others), (second, everything) = contents.settings
    assert (first, second) == ("Without point 6", "With point 6 too")
    assert clean.settings == (("It comes to", others),) and others != everything
    assert dict(everything)["diameter"] == "438.1 mm"
    assert sheet.views[0].title.startswith("Without point 6: centre ")
    texts = [text.text for text in compose(contents, sheet).page.texts]
    assert first in texts and second in texts, "each heading on a line of its own"
    assert contents.plans[0].words.startswith("Points, and how far each is off the circle without point 6")


def test_other_points_other_names(tmp_path, monkeypatch):
    monkeypatch.setattr(rim_card, "write_card", lambda told, sheet, path, paper: path)
    moved = [(x, y + 0.001 * (k == 3)) for k, (x, y) in enumerate(POINTS[:8])]
    paths = [save(tmp_path), save(tmp_path, moved), save(tmp_path, unit="in"), save(tmp_path, numbers=range(2, 10))]
    assert len(set(paths)) == 4
    assert paths[0].name.startswith("measured-rim_8-points_439.9mm-across_")
    assert paths[2].name.startswith("measured-rim_8-points_17-5-16in-across_")
    assert paths[0] == save(tmp_path)


def test_few_points_and_many_hold_on_one_page(monkeypatch):
    cards = []
    monkeypatch.setattr(
        rim_card, "write_card", lambda told, sheet, path, paper: cards.append(compose(told, sheet, paper))
    )
    for unit, paper, most in itertools.product(UNITS, PAPERS, (3, 7, 12)):
        save(None, POINTS[:most], unit, paper=paper)
    for card in cards:
        check(card)
    assert len(cards) == 12


def test_another_paper_is_refused_before_anything_is_written(tmp_path):
    with pytest.raises(ValueError, match="A4 or Letter"):
        save(tmp_path, paper="A5")
    assert not list(tmp_path.iterdir())
