"""A reader's own stand on the class pages: kept in the browser for all lessons and tabs, and no longer than wanted."""

import json
import re
from pathlib import Path
from urllib.parse import unquote

import pytest
from browser.class_pages.opened import READY, Opened
from browser.lab import HOUSE

# A tab that hears nothing of the others, as one that a tablet has put to sleep.
ASLEEP = """if (location.pathname.startsWith('/lessons/')) {
  window.BroadcastChannel = class { postMessage() {} addEventListener() {} };
  document.addEventListener = new Proxy(document.addEventListener, {
    apply: (add, self, given) => given[0] === 'visibilitychange' || Reflect.apply(add, self, given)});
}"""
RESTART = "() => window.jupyterapp.shell.currentWidget.sessionContext.session.kernel.restart()"
SIDE_TABLE = HOUSE / "notebooks" / "side_table.toml"


def begun(lesson):
    """A stand of one's own, begun from the page's bar."""
    lesson.page.on("dialog", lambda dialog: dialog.accept())
    opened_bar(lesson)
    lesson.page.locator("#begin").click()
    lesson.page.locator("#taken").wait_for()
    return lesson


def opened_bar(lesson):
    lesson.page.evaluate("document.getElementById('mine').open = true")


def about(lesson):
    return lesson.page.locator("#about").text_content()


def sizes(lesson):
    """The sizes that the page has to be taken along."""
    held = unquote(lesson.page.locator("#taken").get_attribute("href") or "")
    return dict(re.findall(r'^(leg_diameter|rail_thickness) = "([^"]*)"', held, re.MULTILINE))


def soon(lesson, found, what):
    """What is wanted, as soon as it is so."""
    for _ in range(100):
        if found() == what:
            break
        lesson.page.wait_for_timeout(100)
    return found()


def keep(lesson, **wanted):
    """Take my stand's sizes on the first bench, change some, and keep them."""
    bench = lesson.benches()[0]
    bench.press("my stand's")
    for name, text in wanted.items():
        box = bench.root.locator(f"input[data-ask='box.{name}']")
        box.fill(text)
        box.press("Enter")
        lesson.settle()
    bench.press("Keep in my stand", "Keep it")


@pytest.fixture(scope="class")
def coping(context, home):
    return begun(Opened(context, home, "05_coping"))


@pytest.fixture(scope="class")
def lesson(context, home):
    return Opened(context, home, "01_circle_jigs")


class TestMyStand:
    device = "desk"

    def test_it_is_kept_and_seen_by_every_other_lesson(self, coping, context, home):
        keep(coping, leg_diameter="36 mm")
        assert soon(coping, lambda: sizes(coping)["leg_diameter"], "36 mm") == "36 mm"
        other = Opened(context, home, "07_casters")
        bench = other.benches()[0]
        bench.press("my stand's")
        assert bench.root.locator("input[data-ask='box.leg_diameter']").input_value() == "36.0 mm"
        keep(coping, leg_diameter="34 mm")
        assert soon(other, lambda: sizes(other)["leg_diameter"], "34 mm") == "34 mm"
        assert bench.root.locator("input[data-ask='box.leg_diameter']").input_value() == "34.0 mm"
        assert coping.troubles() == other.troubles() == [] == coping.elsewhere + other.elsewhere
        other.page.close()

    def test_what_two_tabs_keep_goes_together_or_is_told(self, coping, context, home):
        keep(coping, leg_diameter="35.5 mm", rail_thickness="20.5 mm")
        context.add_init_script(ASLEEP)
        other = Opened(context, home, "05_coping")
        keep(coping, leg_diameter="36 mm")
        soon(coping, lambda: sizes(coping)["leg_diameter"], "36 mm")
        keep(other, rail_thickness="22 mm")
        both = {"leg_diameter": "36 mm", "rail_thickness": "22 mm"}
        assert soon(other, lambda: sizes(other), both) == both
        assert "by another page, and still there: leg diameter 36 mm" in about(other)
        coping.page.evaluate("document.dispatchEvent(new Event('visibilitychange'))")
        assert soon(coping, lambda: sizes(coping), both) == both
        keep(coping, leg_diameter="38 mm")
        soon(coping, lambda: sizes(coping)["leg_diameter"], "38 mm")
        keep(other, leg_diameter="37 mm")
        assert soon(other, lambda: sizes(other)["leg_diameter"], "38 mm") == "38 mm"
        assert "another page has kept 38 mm" in about(other) and "here it is 37 mm" in about(other)
        assert other.page.locator("#about").is_visible()
        other.page.close()

    def test_it_goes_out_and_comes_in_as_a_file(self, coping, tmp_path):
        (tmp_path / "wrong.toml").write_text("[legs_and_rails]\nleg_diameter = 36\n")
        before = sizes(coping)
        coping.page.set_input_files("#chosen", tmp_path / "wrong.toml")
        coping.page.get_by_text("wrong.toml was not opened").wait_for()
        assert "line 2" in about(coping) and sizes(coping) == before
        coping.page.set_input_files("#chosen", SIDE_TABLE)
        assert soon(coping, lambda: sizes(coping)["leg_diameter"], "40 mm") == "40 mm"
        opened_bar(coping)
        with coping.page.expect_download() as taken:
            coping.page.locator("#taken").click()
        assert taken.value.suggested_filename == "my_stand.toml"
        assert Path(taken.value.path()).read_bytes() == SIDE_TABLE.read_bytes()

    def test_a_python_started_anew_has_its_files(self, coping):
        coping.frame.evaluate(RESTART)
        there = "import os; print(os.path.exists('my_stand.toml'))"
        assert soon(coping, lambda: coping.run(there).strip(), "True") == "True"

    def test_it_is_forgotten_everywhere(self, coping, context, home):
        opened_bar(coping)
        coping.page.locator("#forget").click()
        coping.page.locator("#begin").wait_for()
        assert "no stand of yours on this device" in about(coping)
        assert "my_stand.toml" not in coping.run("import os; print(os.listdir())")
        other = Opened(context, home, "07_casters")
        assert "no stand of yours" in about(other) and sizes(other) == {}
        assert not other.frame.get_by_text("my stand's", exact=True).first.is_visible()
        other.page.close()


class TestNotebook:
    device = "desk"

    def test_a_lesson_is_used_not_edited(self, lesson):
        """The keys and clicks that cut a cell or open its source in a notebook."""
        cells = lesson.frame.locator(".jp-Cell").count()
        assert lesson.page.evaluate("document.activeElement.id") == "lesson"
        lesson.page.keyboard.press("Tab")
        links = "[...document.querySelectorAll('.jp-Notebook a')]"
        first = lesson.frame.evaluate(f"{links}.indexOf(document.activeElement)")
        lesson.page.keyboard.press("Shift+Tab")
        lesson.page.keyboard.press("Shift+Tab")
        assert (first, lesson.page.evaluate("document.activeElement.textContent")) == (0, "My stand")
        text = lesson.frame.locator(".jp-RenderedMarkdown li").first
        text.click()
        for key in ("x", "d", "d", "Enter", "a"):
            lesson.page.keyboard.press(key)
        text.dblclick()
        lesson.page.wait_for_timeout(500)
        assert lesson.frame.locator(".jp-Cell").count() == cells and text.is_visible()
        assert lesson.frame.locator(".jp-MarkdownCell .jp-InputArea-editor:visible").count() == 0

    def test_the_notebook_is_a_click_away_and_back(self, lesson):
        menu, code = map(lesson.frame.locator, ("#menu-panel-wrapper", ".jp-CodeCell .jp-InputArea-editor"))
        assert not menu.is_visible() and not code.first.is_visible()
        button = lesson.page.get_by_role("button", name="Notebook")
        button.click()
        assert button.get_attribute("aria-pressed") == "true" and menu.is_visible() and code.first.is_visible()
        button.click()
        assert button.get_attribute("aria-pressed") == "false" and not menu.is_visible()

    def test_a_notebook_that_was_saved_here_is_told_and_can_go(self, lesson, context, home):
        change = "window.jupyterapp.shell.currentWidget.content.model.cells.get(0).sharedModel.setSource('# Mine')"
        lesson.frame.evaluate(f"() => {{ {change}; return window.jupyterapp.commands.execute('docmanager:save'); }}")
        again = Opened(context, home, "01_circle_jigs")
        assert "changed and saved on this device" in again.said() and again.frame.get_by_text("Mine").count()
        again.page.locator("#built").click()
        again.page.wait_for_function("document.getElementById('status').textContent.includes('loaded')")
        again.page.wait_for_selector("body[data-ready]", timeout=120_000)
        assert again.said() == READY and not again.page.locator("#built").is_visible()
        again.page.close()


class TestPhone:
    device = "phone"

    def test_its_bar_is_small_and_made_for_fingers(self, context, home):
        lesson = Opened(context, home, "06_finding_the_centre")
        bar = lesson.page.locator("header").bounding_box()
        assert bar["height"] < 60
        for each in lesson.page.locator("nav > *").all():
            assert each.bounding_box()["height"] >= 44
        for where in (lesson.page, lesson.frame):
            assert where.evaluate("document.documentElement.scrollWidth <= innerWidth")
        lesson.page.locator("#mine summary").tap()
        panel = lesson.page.locator("#mine > div").bounding_box()
        assert panel["x"] >= 0 and panel["x"] + panel["width"] <= 390 and lesson.page.locator("#begin").is_visible()


class TestDark:
    device = "tablet"

    def test_it_is_dark_where_the_device_is(self, context, home):
        lesson = Opened(context, home, "01_circle_jigs")
        inks = []
        for scheme in ("light", "dark"):
            lesson.page.emulate_media(color_scheme=scheme)
            name = f"JupyterLab {scheme.capitalize()}"
            lesson.frame.wait_for_function(f"document.body.dataset.jpThemeName === '{name}'", timeout=20_000)
            for where, part in ((lesson.page, "header"), (lesson.frame, ".jp-RenderedMarkdown p")):
                ink = where.locator(part).first.evaluate("each => getComputedStyle(each).color")
                inks.append(sum(map(int, re.findall(r"\d+", ink)[:3])) > 380)
        assert inks == [False, False, True, True]


class TestLost:
    device = "desk"

    def test_what_to_do_is_said_where_the_pages_are_gone(self, context, home):
        page = context.new_page()
        page.goto(f"{home}/lessons/01_circle_jigs.html")
        context.set_offline(True)
        page.locator("#again").wait_for(timeout=40_000)
        assert "cannot be reached any more" in page.locator("#status").inner_text()
        assert page.locator("#still").is_visible() and not page.locator("#far").is_visible()
        context.set_offline(False)
        page.locator("#again").click()
        page.wait_for_selector("body[data-ready]", timeout=120_000)
        assert page.locator("#status").inner_text() == READY
        assert json.loads(page.evaluate("localStorage.getItem('seconds')")) > 0
