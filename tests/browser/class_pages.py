"""The class pages as they were built, in a real browser, under a name that is not this computer's own.

Run by itself, for the pages take minutes to build: SHOPLIB_CLASS_PAGES=class_pages pytest tests/browser/class_pages.py
"""

import base64
import json
import os
import re
import threading
import time

import numpy
import pytest
from browser.lab import CHROMIUM, HOUSE, chromium
from paper.reading import page_size, pages, pixels, strokes
from playwright.sync_api import sync_playwright

from shoplib.class_pages.serve import server

HOST = "workshop.test"
WIDTHS = {"desk": (1440, 900), "tablet": (820, 1180), "phone": (390, 844)}
LESSONS = {"01_circle_jigs": "tablet", "06_finding_the_centre": "phone", "13_the_stand": "desk"}
ALL_TEXTS = """() => [...window.jupyterapp.shell.currentWidget.content.model.cells].map(cell => cell.toJSON())
  .filter(cell => cell.cell_type === 'code')
  .map(cell => cell.outputs.map(each => [each.data?.['text/plain'] ?? each.text ?? ''].flat().join('')))"""
TRANSFERRED = "performance.getEntriesByType('resource').map(each => each.transferSize)"
NO_DXF = "Not saved: An outline for CAD (DXF) needs ezdxf"
HIGHEST = 60e6  # bytes
DOTS = 600 / 25.4  # a mm


@pytest.fixture(scope="module")
def site():
    """The folder that README.md's command built."""
    return (HOUSE / os.environ["SHOPLIB_CLASS_PAGES"]).resolve()


@pytest.fixture(scope="module")
def home(site):
    """The address of the pages, under another name than this computer's."""
    with server(site, port=0) as serving:
        threading.Thread(target=serving.serve_forever, daemon=True).start()
        yield f"http://{HOST}:{serving.server_address[1]}"
        serving.shutdown()


@pytest.fixture(scope="module")
def browser():
    rules = f"--host-resolver-rules=MAP {HOST} 127.0.0.1, MAP * ~NOTFOUND, EXCLUDE 127.0.0.1"
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=chromium(), args=[*CHROMIUM[:-1], rules])
        yield browser
        browser.close()


class Opened:
    """A lesson opened from the contents, run to its end, with all that went wrong."""

    def __init__(self, context, home, name):
        self.elsewhere, self.complaints = [], []
        self.page = context.new_page()
        self.page.set_default_timeout(30_000)
        self.page.on("request", lambda request: self._asked(request.url, home))
        self.page.on("pageerror", lambda error: self.complaints.append(str(error)))
        self.page.on("response", lambda answer: answer.status >= 400 and self.complaints.append(answer.url))
        self.page.goto(f"{home}/")
        start = time.monotonic()
        self.page.locator(f'a[href="lessons/{name}.html"]').click()
        self.page.wait_for_selector("#status")
        self.still = self.page.locator("#still").inner_text()
        self.still_picture = self.page.locator("#still img[alt]").count()
        self.page.wait_for_selector("body[data-ready]", timeout=240_000)
        self.seconds = time.monotonic() - start
        self.frame = self.page.frame(url=re.compile("/jupyter/notebooks/"))
        self.bench = self.frame.locator(".jp-OutputArea-output:has([data-press=back]):has(svg[aria-label])").first

    def _asked(self, url, home):
        if not url.startswith((home, "data:", "blob:")):
            self.elsewhere.append(url)

    def drawing(self):
        return self.bench.locator("svg[aria-label]").evaluate("svg => svg.outerHTML")

    def changes(self, act, seconds=30):
        """Whether the drawing follows what a person does."""
        before = self.drawing()
        act()
        for _ in range(10 * seconds):
            if self.drawing() != before:
                return True
            self.page.wait_for_timeout(100)
        return False


@pytest.fixture(scope="module", params=LESSONS)
def opened(request, browser, home):
    wide, high = WIDTHS[LESSONS[request.param]]
    size = {"width": wide, "height": high}
    context = browser.new_context(viewport=size, has_touch=wide < 1000, accept_downloads=True)
    opened = Opened(context, home, request.param)
    opened.name = request.param
    yield opened
    context.close()


def test_the_still_lesson_is_there_at_once(opened):
    assert opened.still_picture >= 1 and "What you will be able to set up" in opened.still
    assert "Press Run" not in opened.still


def test_it_runs_by_itself_and_asks_nobody_else(opened):
    assert opened.page.locator("#status").inner_text() == "Ready: all of it runs on this device."
    assert opened.page.evaluate("window.isSecureContext") is False
    assert (opened.elsewhere, opened.complaints) == ([], [])


def test_it_says_what_the_notebook_says(opened):
    """All texts of all cells, as they are stored in the notebook, but for DXF, which cannot be there."""
    cells = json.loads((HOUSE / "notebooks" / f"{opened.name}.ipynb").read_text("utf-8"))["cells"]
    stored = [
        ["".join(each.get("data", {}).get("text/plain", each.get("text", ""))) for each in cell["outputs"]]
        for cell in cells if cell["cell_type"] == "code"
    ]  # fmt: skip
    said = opened.frame.evaluate(ALL_TEXTS)
    assert len(said) == len(stored)
    for ours, theirs in zip(said, stored):
        assert [text for text in ours if NO_DXF not in text] == [text for text in theirs if "templates.zip" not in text]


def test_its_code_is_hidden_until_it_is_asked_for(opened):
    code = opened.frame.locator(".jp-CodeCell .jp-InputArea-editor")
    assert code.count() > 5 and not any(each.is_visible() for each in code.all())
    opened.page.locator("#code").click()
    assert code.first.is_visible()
    opened.page.locator("#code").click()
    assert not code.first.is_visible()


def test_nothing_is_wider_than_the_page(opened):
    for where in (opened.page, opened.frame):
        assert where.evaluate("document.documentElement.scrollWidth <= window.innerWidth")


def test_its_bench_follows_the_hand(opened):
    sliders = opened.bench.locator("input[type=range]:visible").all()[:3]  # one of a count may stand at its end
    assert any(opened.changes(lambda slider=slider: slider.press("ArrowRight"), 5) for slider in sliders)
    assert opened.changes(lambda: opened.bench.get_by_role("button", name="inches").click())
    box = opened.bench.locator("input[type=text]:visible").first
    box.fill("rubbish")
    box.press("Enter")
    opened.frame.wait_for_selector("text=✗", timeout=20_000)
    opened.bench.get_by_role("button", name="millimetres").click()


def test_practice_judges(opened):
    box = opened.frame.locator("input[placeholder='size and unit'], input[placeholder='how many']").first
    box.fill("rubbish")
    box.press("Enter")
    told = opened.frame.locator(".jp-OutputArea-output:has(input[placeholder='size and unit'])")
    told.get_by_text("✗").first.wait_for(timeout=20_000)


def saved(opened, button):
    """The bytes of what a button beside the bench offers as a download."""
    opened.frame.locator("button", has_text=button).first.click()
    link = opened.frame.locator("a[download][href^='data:application/pdf']", has_text="Download it").first
    link.wait_for(timeout=60_000)
    with opened.page.expect_download() as download:
        link.click()
    path = download.value.path()
    assert base64.b64decode(link.get_attribute("href").partition(",")[2]) == path.read_bytes()
    return path


@pytest.mark.parametrize("opened", ["01_circle_jigs", "06_finding_the_centre"], indirect=True)
def test_a_template_comes_as_a_download_at_true_size(opened):
    """The check ruler's marks, in the pixels of another program: the first and the last stand 100 mm apart."""
    path = saved(opened, "Template A4")
    (page, *_) = pages(path)
    high = page_size(page)[1]
    assert sorted(page_size(page)) == pytest.approx([210, 297], abs=0.1)
    (base,) = [each for each in strokes(page) if abs(each.size[0] - 101.6) < 0.5 and each.size[1] < 0.1]
    row = pixels(path, dpi=600).mean(axis=2)[round((high - base.middle[1] - 1) * DOTS)]
    left, right = (round((base.middle[0] + out) * DOTS) for out in (-52, 52))
    dark = numpy.flatnonzero(row[left:right] < 0.5)
    marks = [each.mean() for each in numpy.split(dark, numpy.flatnonzero(numpy.diff(dark) > 1) + 1)]
    assert len(marks) == 11 and abs((marks[-1] - marks[0]) / DOTS - 100) < 0.1


def test_a_second_visit_starts_from_the_cache(opened, home):
    """The same lesson once more in the same browser: no large file comes over the network again."""
    fetched = []
    opened.page.context.on("response", lambda answer: fetched.append((answer.status, answer.url)))
    again = Opened(opened.page.context, home, opened.name)
    assert again.page.locator("#status").inner_text() == "Ready: all of it runs on this device."
    sizes = again.page.evaluate(TRANSFERRED) + again.frame.evaluate(TRANSFERRED)
    assert sum(sizes) < 1e6 and fetched
    again.page.close()


def test_the_folder_is_small(site):
    assert sum(path.stat().st_size for path in site.rglob("*") if path.is_file()) < HIGHEST
