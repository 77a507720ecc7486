"""A failure inside a widget is raised as well as shown; on the test server the drawn sizes stay the same."""

import os

from hypothesis import HealthCheck, settings

os.environ["SHOPLIB_STRICT"] = "1"
settings.register_profile("bench", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.register_profile("server", settings.get_profile("bench"), derandomize=True)
settings.load_profile("server" if os.environ.get("CI") else "bench")
