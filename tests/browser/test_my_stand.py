"""My stand in a browser: a leg changed there copes the rails anew, and a thin panel makes a shallower rebate."""

import re

import pytest
from browser.lab import HOUSE, WIDTHS, LessonPage
from browser.probes import CONTRAST, IN_VIEW, THEME, TOO_WIDE, out_of_reach

from shoplib import read_stand, seedling_stand, write_stand

pytestmark = pytest.mark.xdist_group("my_stand")


@pytest.fixture(scope="module")
def mine(lab):
    """The reader's own file, as copied from the demo's; it is taken away again for the other tests."""
    path = lab.folder / "my_stand.toml"
    path.write_text((HOUSE / "notebooks" / "stand.toml").read_text("utf-8"), "utf-8")
    yield path
    path.unlink()


@pytest.fixture
def opened(lab, window, mine):
    """Opens a lesson, and holds in the end that nothing went wrong in it."""
    pages = []

    def open_lesson(name):
        pages.append(LessonPage(lab, window, HOUSE / "notebooks" / name))
        pages[0].widen("desktop")
        return pages[0], pages[0].benches()[0]

    yield open_lesson
    for page in pages:
        page.settle()
        assert page.troubles() == []
        page.close()


def size_of(bench, words):
    """What stands in the box beside a slider."""
    return bench.root.get_by_role("textbox", name=re.compile(f"^{words}\\.")).input_value()


def result(bench, name):
    return bench.root.locator(f"[data-place='set.{name}']").text_content()


def told(bench):
    return " ".join(bench.root.locator("[data-place='mine.told']").inner_text().split())


def check_looks(lesson, bench):
    """Everything has its room and a name at both widths, in both themes."""
    for width in WIDTHS:
        lesson.widen(width)
        assert lesson.page.evaluate(TOO_WIDE) == [], width
        assert out_of_reach(lesson.page) == [], width
    lesson.widen("desktop")


def check_themes(page):
    """Every field and button can be read in the dark theme and in the light one."""
    for theme in ("JupyterLab Dark", "JupyterLab Light"):
        page.evaluate(THEME, theme)
        page.wait_for_function(f"document.body.dataset.jpThemeName === '{theme}'")
        page.wait_for_function("!document.getElementById('jupyterlab-splash')")
        assert [each for each in page.evaluate(CONTRAST) if each[1] < 4.5] == []


def test_a_leg_changed_in_my_stand_copes_the_rails_anew(opened, mine):
    stand = read_stand(mine)
    write_stand(stand.replace(leg_diameter="38 mm"), mine, since=stand)
    lesson, bench = opened("05_coping.ipynb")
    assert size_of(bench, "leg diameter") == "35.0 mm" and result(bench, "depth") == "3.1 mm"
    bench.press("my stand's")
    cope = seedling_stand(leg_diameter="38 mm").operation("rails").model
    assert size_of(bench, "leg diameter") == "38.0 mm" and "leg Ø 38.0 mm" in bench.drawing()
    assert [result(bench, name) for name in ("depth", "rail_length")] == [
        cope.tell(name).rows[0][1] for name in ("depth", "rail_length")
    ]
    assert result(bench, "depth") == "2.8 mm"
    assert bench.root.locator("svg[aria-label]").evaluate(IN_VIEW) == []
    bench.type(bench.length_box(), "36 mm")
    bench.press("Keep in my stand")
    assert "To keep: leg diameter 38.0 mm → 36.0 mm." in told(bench) and "16 × rail end and leg" in told(bench)
    check_looks(lesson, bench)
    check_themes(lesson.page)
    assert read_stand(mine).plain.leg_diameter == 38.0
    bench.press("Keep it")
    assert "Kept in my_stand.toml: leg diameter 36.0 mm." in told(bench)
    assert read_stand(mine).plain.leg_diameter == 36.0
    assert 'leg_diameter = "36 mm"     # Leg diameter.' in mine.read_text("utf-8")


def test_a_thin_panel_kept_as_made_makes_the_rebate_shallower(opened, mine):
    lesson, bench = opened("03_rebates.ipynb")
    bench.press("my stand's")
    assert result(bench, "depth") == "12.0 mm" and "Rebate the rims from below" in told(bench)
    panel = bench.root.get_by_role("textbox", name=re.compile("^panel thickness"))
    bench.type(panel, "11.7 mm")
    bench.press("Keep as made")
    assert "To keep as made: panel thickness 12.0 mm → 11.7 mm." in told(bench)
    assert re.search(r"depth of cut 12.5 mm → 12.2 mm 2 × panel lesson 01", told(bench))
    bench.press("Keep it")
    assert "As made: panel thickness 11.7 mm (planned 12.0 mm)" in told(bench)
    assert result(bench, "depth") == "11.7 mm" and "panel 11.7 mm" in bench.drawing()
    stand = read_stand(mine)
    assert stand.made == {"panel_thickness": 11.7} and stand.operation("rebate").model.depth.m == 11.7
    check_looks(lesson, bench)
    bench.press("As planned again", "Keep it")
    assert result(bench, "depth") == "12.0 mm" and read_stand(mine).made == {}
    bench.press("this lesson's")
    assert told(bench) == "" and size_of(bench, "panel thickness") == "12.0 mm"
