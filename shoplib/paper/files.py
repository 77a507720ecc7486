"""Where printouts go, what they are called, and how they get there whole or not at all."""

import base64
import contextlib
import os
import re
import sys
import tempfile
import time
from html import escape
from pathlib import Path
from urllib.parse import quote

from shoplib import measure
from shoplib.paper.imprint import mark_of

try:
    import fcntl

    fcntl.flock  # noqa: B018
except (ImportError, AttributeError):  # Windows, which refuses to delete what is being written; a browser's Python
    fcntl = None

FOLDER = Path("printouts")
PAPERS = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}
UNFINISHED = ".shoplib-unfinished-"
KINDS = {
    ".pdf": "application/pdf", ".dxf": "application/dxf", ".csv": "text/csv", ".zip": "application/zip",
}  # fmt: skip
SEEN = sys.platform != "emscripten"  # a page cannot reach the files of a Python that runs in a browser


class PrintoutError(OSError):
    """A printout could not be written: says where, why and what to do."""


class Printout(type(Path())):
    """The path of a saved printout, which shows itself on a page as a sentence with a link."""

    def __repr__(self):
        return f"Saved as {self.as_posix()}"

    def _repr_html_(self):
        link, path = escape(link_to(self)), escape(self.as_posix())
        if not SEEN:
            held = f'<a download="{escape(self.name)}" href="{within(self)}">download</a>'
            return f"<div>✓ Saved as {path} ({held})</div>"
        if not link:
            return f"<div>✓ Saved as {path}</div>"
        return f'<div>✓ Saved as <a href="{link}">{path}</a> (<a download href="{link}">download</a>)</div>'

    @property
    def parent(self):
        return Path(self).parent


class Unsaved(str):
    """Why a printout was not saved: a sentence that shows itself in a Printout's place."""

    def __repr__(self):
        return f"Not saved: {self}"

    def _repr_html_(self):
        return f"<div>✗ {escape(repr(self))}</div>"


def link_to(path):
    """The address of a file from a page in the working folder; nothing where a page cannot reach it.

    JupyterLab opens such a relative address beside the page.

    >>> link_to(Path("printouts/tray ring_440mm.pdf"))
    'printouts/tray%20ring_440mm.pdf'
    """
    path = Path(path)
    if path.is_absolute() and path.is_relative_to(Path.cwd()):
        path = path.relative_to(Path.cwd())
    return quote(path.as_posix()) if SEEN and not path.is_absolute() else ""


def within(path):
    """An address that holds the whole file, for a download wherever the page is."""
    kind = KINDS.get(path.suffix, "application/octet-stream")
    return f"data:{kind};base64,{base64.b64encode(path.read_bytes()).decode()}"


def paper_size(paper):
    """Width and height of a sheet of paper, in mm, standing upright. Raises ValueError for another paper.

    >>> paper_size("A4")
    (210.0, 297.0)
    """
    if paper not in PAPERS:
        raise ValueError(f"Which paper? Choose {' or '.join(PAPERS)}, not {str(paper)[:30]!r}.")
    return PAPERS[paper]


def printout_path(model, what, unit="mm", folder=None, part=""):
    """Path of a printout, named by its part, its model, its main sizes (the first three inputs) and its mark.

    `what` ends the name and brings the suffix.

    >>> from shoplib import CircleJig
    >>> printout_path(CircleJig("440 mm", "12.7 mm"), "template_A4.pdf").as_posix()  # doctest: +ELLIPSIS
    'printouts/circle-jig_440mm_12.7mm_..._template_A4.pdf'
    >>> printout_path(CircleJig("17 3/8 in", "1/2 in"), "template.dxf", "in", part="Tray ring").name
    ... # doctest: +ELLIPSIS
    'tray-ring_circle-jig_17-3-8in_1-2in_..._template.dxf'
    """
    plain = getattr(model, "plain", model)
    main = list(plain.model.inputs().items())[:3]
    sizes = [_size(item, getattr(plain, name), unit) for name, item in main if plain.has(name)]
    if not any(item.kind == "length" and plain.has(name) for name, item in main):
        sizes.append(unit)  # no size in the name tells it
    kind = re.sub(r"(?<!^)(?=[A-Z])", "-", plain.model.__name__).lower()
    return named([part[:40].lower(), kind, *sizes, mark_of(model), what], folder)


def named(pieces, folder=None):
    """A path in the folder of printouts, its name put together from pieces that any file system bears."""
    pieces = [re.sub(r"[^A-Za-z0-9._-]+", "-", piece) for piece in pieces if piece]
    return Path(FOLDER if folder is None else folder) / "_".join(pieces)


def _size(item, value, unit):
    """A size for a file name."""
    if item.kind == "length" and unit == "mm":
        return joined(re.sub(r"\.?0+ ", " ", measure.write(value, "length", "mm", "0.01 mm")))
    return joined(item.write(value, unit))


def joined(words):
    """A written size with its unit close behind.

    >>> joined("17 3/8 in")
    '17 3/8in'
    """
    number, _, unit = words.rpartition(" ")
    return number + unit


def save_whole(path, write):
    """Let `write` fill a temporary file beside `path`, then put it in its place; returns it as a Printout.

    Whatever goes wrong, what stood there before stays as it was and no temporary file is left; what a save left
    that was killed goes at the next one. Raises PrintoutError where the folder or the file cannot be written.
    """
    path = Path(path)
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        clear_unfinished(path.parent)
        handle, name = tempfile.mkstemp(dir=path.parent, prefix=UNFINISHED, suffix=path.suffix)
    except OSError as error:
        raise PrintoutError(
            f"Nothing can be written into the folder {path.parent} ({error.strerror}). Choose another folder."
        ) from error
    temporary = Path(name)
    try:
        with open(handle, "rb") as being_written:
            with contextlib.suppress(OSError):  # a file system without locks: then nobody clears it away either
                _lock(being_written)
            write(temporary)
        temporary.chmod(0o644)  # a temporary file starts closed to everybody else
        os.replace(temporary, path)
    except OSError as error:
        raise PrintoutError(
            f"{path} could not be written ({error.strerror or error}). "
            "Is it open in another program, or the disk full? What was there before is unchanged."
        ) from error
    finally:
        temporary.unlink(missing_ok=True)
    return Printout(path)


@contextlib.contextmanager
def alone_in(folder, seconds=10):
    """Nobody else who asks for it is in this folder meanwhile: for a file that is read, changed and written again.

    Whoever is killed in it lets go of it. Raises PrintoutError where the folder cannot be had. Where there are no
    locks (Windows, some network drives) nobody waits.
    """
    try:
        handle = None if fcntl is None else os.open(folder, os.O_RDONLY)
    except OSError as error:
        raise PrintoutError(f"There is no folder {folder} to write into ({error.strerror}).") from error
    try:
        _wait_for(handle, folder, time.monotonic() + seconds)
        yield
    finally:
        if handle is not None:
            os.close(handle)


def _wait_for(handle, folder, end):
    while handle is not None:
        try:
            return _lock(handle)
        except BlockingIOError:
            if time.monotonic() > end:
                raise PrintoutError(f"Something else keeps writing in the folder {folder}. Try again.") from None
            time.sleep(0.005)
        except OSError:
            return None


def clear_unfinished(folder):
    """Take away the temporary files of saves that were killed; those that are being written stay."""
    for path in Path(folder).glob(UNFINISHED + "*"):
        with contextlib.suppress(OSError):
            with open(path, "rb") as left:
                _lock(left)
            path.unlink()


def _lock(file):
    """Hold a file for as long as it is open; raises OSError where another save holds it."""
    if fcntl is not None:
        fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
