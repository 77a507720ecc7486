"""The server and the browser; without a browser these tests say so and skip, on the test server they fail."""

import os

import pytest
from browser.lab import CHROMIUM, WIDTHS, Lab, LessonPage, chromium, lessons

pytest.register_assert_rewrite("browser.lesson_tests")


@pytest.fixture(scope="session")
def lab(tmp_path_factory):
    if chromium() is None:
        text = "no chromium found: install it to run the browser tests"
        (pytest.fail if os.environ.get("SHOPLIB_NEEDS_BROWSER") else pytest.skip)(text)
    lab = Lab(tmp_path_factory.mktemp("lab"))
    yield lab
    lab.stop()


@pytest.fixture(scope="session")
def browser(lab):
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=chromium(), args=CHROMIUM)
        yield browser
        browser.close()


@pytest.fixture(scope="session")
def window(browser):
    """One browser window; the lessons are opened in it one after the other."""
    return browser.new_page()


def pytest_generate_tests(metafunc):
    """The lessons that are used in the width of a class: they take turns."""
    if getattr(metafunc.cls, "width", ""):
        turn = list(WIDTHS).index(metafunc.cls.width)
        used = lessons()[turn :: len(WIDTHS)]
        metafunc.parametrize("page", used, indirect=True, scope="class", ids=lambda path: path.stem)


@pytest.fixture(scope="class")
def page(request, lab, window):
    """A lesson's page, run once for all tests of a class."""
    page = LessonPage(lab, window, request.param, request.cls.width)
    yield page
    page.close()


@pytest.fixture
def lesson(page):
    """The lesson's page at the width in which it is used."""
    page.widen(page.width)
    return page
