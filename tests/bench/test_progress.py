"""The bar that tells how far a printing is: shown once, then moved, a step for each per cent."""

import pytest
from pages import said

from shoplib import ProgressBar, save_handouts
from shoplib.bench import progress


class Shown:
    """What a page shows, as the notebook would be told."""

    def __init__(self):
        self.told = []

    def __call__(self, bar, display_id):
        assert display_id and not self.told, "shown twice"
        self.told.append(repr(bar))
        return self

    def update(self, bar):
        self.told.append(repr(bar))


@pytest.fixture
def page(monkeypatch):
    shown = Shown()
    monkeypatch.setattr(progress, "display", shown)
    return shown


def test_a_printing_moves_the_bar_to_its_end(page, tmp_path):
    bar = ProgressBar()
    save_handouts("rebates", range(1, 4), folder=tmp_path, progress=bar)
    assert page.told == ["25 %", "50 %", "75 %", "100 %"]
    assert said(bar._repr_html_()) == "100 %" and "value='1.00'" in bar._repr_html_()


def test_steps_smaller_than_a_per_cent_are_not_sent(page):
    bar = ProgressBar()
    for step in range(1, 1001):
        bar(step / 1000)
    assert len(page.told) == 101 and page.told[-1] == "100 %"
