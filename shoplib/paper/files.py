"""Where printouts go, what they are called, and how they get there whole or not at all."""

import os
import re
import tempfile
from pathlib import Path

from shoplib import measure

FOLDER = Path("printouts")
PAPERS = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}


class PrintoutError(OSError):
    """A printout could not be written: says where, why and what to do."""


def paper_size(paper):
    """Width and height of a sheet of paper, in mm, standing upright. Raises ValueError for another paper.

    >>> paper_size("A4")
    (210.0, 297.0)
    """
    if paper not in PAPERS:
        raise ValueError(f"Which paper? Choose {' or '.join(PAPERS)}, not {str(paper)[:30]!r}.")
    return PAPERS[paper]


def printout_path(model, what, unit="mm", folder=None):
    """Path of a printout, named by its model and main sizes: its first three inputs, where given.

    `what` ends the name and brings the suffix.

    >>> from shoplib import CircleJig
    >>> printout_path(CircleJig("440 mm", "12.7 mm"), "template_A4.pdf").as_posix()
    'printouts/circle-jig_440mm_12.7mm_template_A4.pdf'
    >>> printout_path(CircleJig("17 3/8 in", "1/2 in"), "template.dxf", "in").name
    'circle-jig_17-3-8in_1-2in_template.dxf'
    """
    plain = getattr(model, "plain", model)
    main = list(plain.model.inputs().items())[:3]
    sizes = [_size(item, getattr(plain, name), unit) for name, item in main if plain.has(name)]
    kind = re.sub(r"(?<!^)(?=[A-Z])", "-", plain.model.__name__).lower()
    name = "_".join([kind, *sizes, what])
    return Path(FOLDER if folder is None else folder) / re.sub(r"[^A-Za-z0-9._-]", "-", name)


def _size(item, value, unit):
    """A size for a file name: exact enough that another size gets another name."""
    if item.kind != "length":
        return item.write(value, unit).replace(" ", "")
    if unit == "in":
        words = item.write(value, unit)
    else:
        words = re.sub(r"\.?0+ ", " ", measure.write(value, "length", "mm", "0.01 mm"))
    number, _, word = words.rpartition(" ")
    return number + word


def save_whole(path, write):
    """Let `write` fill a temporary file beside `path`, then put it in its place; returns the path.

    Whatever goes wrong, what stood there before stays as it was and no temporary file is left.
    Raises PrintoutError where the folder or the file cannot be written.
    """
    path = Path(path)
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, name = tempfile.mkstemp(dir=path.parent, prefix=".", suffix=path.suffix)
    except OSError as error:
        raise PrintoutError(
            f"Nothing can be written into the folder {path.parent} ({error.strerror}). Choose another folder."
        ) from error
    os.close(handle)
    temporary = Path(name)
    try:
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
    return path
