"""What cannot be done here says so in one sentence: in a page that computes by itself there are no heavy libraries."""

from contextlib import contextmanager


class MissingError(ImportError):
    """Something needs a library that is not installed here: says what, which, and where it can be done."""


@contextmanager
def needing(library, what):
    """Import a library for `what` inside this; where it cannot be had, MissingError tells it in a sentence.

    >>> with needing("a_library", "A saw plan"):
    ...     import a_library
    Traceback (most recent call last):
    shoplib.model.missing.MissingError: A saw plan needs a_library, which is not here: make it in JupyterLab.
    """
    try:
        yield
    except ModuleNotFoundError as error:
        raise MissingError(
            f"{what} needs {library}, which is not here: make it in JupyterLab."
        ) from error
