"""What happens when a person's action fails inside a widget: it is shown in one place, never lost."""

import os

from shoplib.bench.places import collected


def guarded(bench, action):
    """Run a callback under the bench's lock; a failure is shown on the bench, and raised under test.

    Widgets that it makes belong to the bench's place, like all that were made at the start.
    """

    def run(*given):
        with bench.lock, collected() as made:
            try:
                return action(*given)
            except Exception as error:
                bench.show_failure(error)
                if os.environ.get("SHOPLIB_STRICT"):
                    raise
            finally:
                bench.place.made += made

    return run
