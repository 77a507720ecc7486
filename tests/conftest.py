"""A failure inside a widget is raised as well as shown; on the test server the drawn sizes stay the same.

The tests of a file stay on one core, and what takes longest begins first.
"""

import os

import pytest
from hypothesis import HealthCheck, settings

os.environ["SHOPLIB_STRICT"] = "1"
settings.register_profile("bench", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.register_profile("server", settings.get_profile("bench"), derandomize=True)
settings.load_profile("server" if os.environ.get("CI") else "bench")


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(items):
    """Pages in a browser first, then whole files in a group each: each group runs on one core from start to end."""
    for item in items:
        if not item.get_closest_marker("xdist_group"):
            item.add_marker(pytest.mark.xdist_group(item.location[0]))
    items.sort(key=lambda item: "browser" not in item.location[0])
