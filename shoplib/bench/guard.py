"""What happens when a person's action fails inside a widget: it is shown in one place, never lost."""

import os


def guarded(bench, action):
    """Run a callback under the bench's lock; a failure is shown on the bench, and raised under test."""

    def run(*given):
        with bench.lock:
            try:
                return action(*given)
            except Exception as error:
                bench.show_failure(error)
                if os.environ.get("SHOPLIB_STRICT"):
                    raise

    return run
