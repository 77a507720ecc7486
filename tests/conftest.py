"""Under test a failure inside a widget is raised as well as shown."""

import os

os.environ["SHOPLIB_STRICT"] = "1"
