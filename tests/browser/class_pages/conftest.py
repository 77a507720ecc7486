"""The folder of class pages, handed out under a made-up name, and a browser that can reach nothing else.

Nothing here is collected unless SHOPLIB_CLASS_PAGES names a folder that was built, for that takes minutes.
"""

import os
import threading

import pytest
from browser.class_pages.opened import DEVICES, STARTING, Opened
from browser.lab import CHROMIUM, HOUSE, chromium
from playwright.sync_api import sync_playwright

from shoplib.class_pages.pages import lessons
from shoplib.class_pages.serve import server

HOST = "workshop.test"
ONLY_HERE = f"--host-resolver-rules=MAP {HOST} 127.0.0.1, MAP * ~NOTFOUND, EXCLUDE 127.0.0.1"
ALONE = {"executable_path": chromium(), "args": [*CHROMIUM[:-1], ONLY_HERE]}
collect_ignore_glob = [] if "SHOPLIB_CLASS_PAGES" in os.environ else ["*.py"]
pytest.register_assert_rewrite("browser.class_pages.lesson_tests", "browser.class_pages.finger_tests")


@pytest.fixture(scope="session")
def site():
    """The folder that README.md's command built."""
    return (HOUSE / os.environ["SHOPLIB_CLASS_PAGES"]).resolve()


@pytest.fixture(scope="session")
def home(site):
    """The address of the pages, under another name than this computer's."""
    with server(site, port=0) as serving:
        threading.Thread(target=serving.serve_forever, daemon=True).start()
        yield f"http://{HOST}:{serving.server_address[1]}"
        serving.shutdown()


@pytest.fixture(scope="session")
def playwright():
    with sync_playwright() as playwright:
        yield playwright


@pytest.fixture(scope="class")
def context(playwright, request, tmp_path_factory):
    """One device, which keeps on its disk what it has fetched from one lesson to the next."""
    kept = tmp_path_factory.mktemp(request.cls.device)
    context = playwright.chromium.launch_persistent_context(kept, **ALONE, **DEVICES[request.cls.device])
    context.add_init_script(STARTING)
    yield context
    context.close()


def pytest_generate_tests(metafunc):
    """Each device has its share of the lessons: they take turns."""
    if "opened" in metafunc.fixturenames and getattr(metafunc.cls, "device", ""):
        turn, found = list(DEVICES).index(metafunc.cls.device), lessons(HOUSE / "notebooks")
        shared = metafunc.cls.some or [lesson.name for lesson in found[turn :: len(DEVICES)]]
        metafunc.parametrize("opened", shared, indirect=True, scope="class")


@pytest.fixture(scope="class")
def opened(request, context, home):
    """A lesson's page, run once for all tests of a class."""
    opened = Opened(context, home, request.param)
    yield opened
    opened.page.close()
