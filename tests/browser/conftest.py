"""The server and the browser; without a browser these tests say so and skip, on the test server they fail."""

import os

import pytest
from browser.lab import CHROMIUM, Lab, LessonPage, chromium, lessons

pytest.register_assert_rewrite("browser.lesson_tests")


@pytest.fixture(scope="session")
def lab(tmp_path_factory):
    if chromium() is None:
        text = "no chromium found: install it to run the browser tests"
        (pytest.fail if os.environ.get("SHOPLIB_NEEDS_BROWSER") else pytest.skip)(text)
    lab = Lab(tmp_path_factory.mktemp("lab"))
    yield lab
    lab.stop()


@pytest.fixture(scope="module")
def window(lab):
    """One browser window; the lessons are opened in it one after the other."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=chromium(), args=CHROMIUM)
        yield browser.new_page()
        browser.close()


@pytest.fixture(scope="class", params=lessons(), ids=lambda path: path.stem)
def lesson(request, lab, window):
    """A lesson's page, run once for all tests of a class, at the width of the class."""
    window.set_viewport_size({"width": request.cls.width, "height": request.cls.height})
    page = LessonPage(lab, window, request.param)
    yield page
    page.close()
