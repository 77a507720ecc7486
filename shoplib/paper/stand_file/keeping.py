"""A stand is read from its file and kept in it: never half, never over what cannot be read, never over another's."""

import os
from dataclasses import dataclass
from pathlib import Path

from shoplib.maths.the_stand import Stand
from shoplib.measure import MeasureError
from shoplib.model import headed
from shoplib.paper.files import Printout, alone_in, save_whole
from shoplib.paper.stand_file.keys import (
    differing,
    is_alike,
    is_made,
    item_of,
    name_of,
    said,
    text_for,
    values_of,
    words_of,
)
from shoplib.paper.stand_file.reading import read_text
from shoplib.paper.stand_file.writing import new_text, with_values

LARGEST = 100_000  # bytes; a stand with a note on each line has a tenth of it


class KeptElsewhere(MeasureError):
    """Another page has kept another value of the same size meanwhile; nothing was written. `now` is what is kept."""

    def __init__(self, sentence, now):
        super().__init__(sentence)
        self.now = now


@dataclass(frozen=True)
class Kept:
    """What was kept: the file, the stand that is in it now, and in words what others had kept there meanwhile."""

    path: Printout
    stand: Stand
    meanwhile: tuple = ()

    def __repr__(self):
        also = f" Kept there meanwhile by another page, and still there: {', '.join(self.meanwhile)}."
        return f"Kept in {self.path.name}.{also if self.meanwhile else ''}"


def read_stand(path):
    """Read a stand from a file of sizes.

    The file has a table for each group of sizes. A size is text with its unit, a count a whole number, a choice a
    word; what was really measured stands under `[made]`. Raises MeasureError where something cannot be read, with the
    line, the key and how to write it, and ShapeError where these sizes cannot be made.

    >>> import tempfile
    >>> from shoplib import seedling_stand
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     kept = write_stand(seedling_stand(leg_diameter="1 3/8 in"), f"{folder}/stand.toml")
    ...     kept, read_stand(f"{folder}/stand.toml").leg_diameter
    (Kept in stand.toml., <Quantity(34.925, 'millimeter')>)
    """
    path = Path(path)
    return read_text(_text(path), path.name)


def write_stand(stand, path, since=None, unit=None):
    """Keep a stand in a file: what has changed is written, all else there stays as a person typed it.

    `since` is the stand as it was read from there. Then only what differs from it is kept, on top of what others have
    kept meanwhile. Raises KeptElsewhere where that is another value of the same size, MeasureError or ShapeError where
    the file cannot be read or the sizes cannot be made together, PrintoutError where it cannot be written. In all
    these cases the file stays as it is. `unit` is that of a new file: "mm" or "in".
    """
    path = Path(os.path.realpath(path))
    with alone_in(path.parent):
        meanwhile = ()
        text = new_text(stand, unit) if since is None and not path.exists() else _text(path)
        if since is not None:
            stand, meanwhile = _merged(stand, since, read_text(text, path.name), path.name)
        text = _with(text, stand, path.name)
        return Kept(save_whole(path, lambda aside: aside.write_bytes(text.encode())), stand, meanwhile)


def _text(path):
    """The text of a file; raises MeasureError for what cannot be one of a stand's sizes."""
    name = path.name
    try:
        if path.is_dir():
            raise MeasureError(f"{name} is a folder. Name the file in it that holds the sizes.")
        if not path.exists():
            raise MeasureError(f"There is no file {name} in {path.absolute().parent}. Copy stand.toml there.")
        if not path.is_file():
            raise MeasureError(f"{name} is no file of sizes.")
        with open(path, "rb") as file:
            content = file.read(LARGEST + 1)
    except OSError as error:
        raise MeasureError(f"{name} cannot be read: {error.strerror or error}.") from None
    if len(content) > LARGEST:
        raise MeasureError(f"{name} has more than {LARGEST // 1000} kilobytes: that is no file of a stand's sizes.")
    try:
        return content.decode()
    except UnicodeDecodeError as error:
        line = content[: error.start].count(b"\n") + 1
        raise MeasureError(
            f"{name}, line {line}: it holds a sign that is not in UTF-8. Save the file again as UTF-8 text."
        ) from None


def _merged(stand, since, now, name):
    """What this page changed, on top of what is kept now; and in words what others changed meanwhile."""
    here, read, there = (values_of(each) for each in (stand, since, now))
    mine, theirs = differing(here, read), differing(there, read)
    for key in mine:
        if key in theirs and not is_alike(here.get(key), there.get(key)):
            texts = [said(key, each.get(key)) for each in (read, there, here)]
            raise KeptElsewhere(_conflict(name, key, *texts), now)
    if not theirs:
        return stand, ()
    together = there | {key: here.get(key) for key in mine}
    return _stand(now, together), tuple(f"{words_of(key)} {said(key, there.get(key))}" for key in theirs)


def _conflict(name, key, read, there, here):
    words = words_of(key)
    return (
        f"{headed(words)} another page has kept {there} in {name} meanwhile, where this page had read "
        f"{read}; here it is {here}. Nothing was kept."
    )


def _stand(now, values):
    """A stand of these values by key, checked like any other; `now` is one to start from."""
    sizes, made = {}, {}
    for key, value in values.items():
        (made if is_made(key) else sizes)[name_of(key)] = value if value is None else text_for(item_of(key), value)
    changed = now.not_made(*now.made).replace(**sizes)
    made = {name: text for name, text in made.items() if text is not None}
    return changed.as_made(**made) if made else changed


def _with(text, stand, name):
    """A text that holds this stand, and reads so: what differs in it is changed.

    Twice, for in a file all in inches a size that is left out is one in inches, until the first in mm comes in.
    """
    for _ in range(3):
        kept, wanted = values_of(read_text(text, name)), values_of(stand)
        changed = differing(wanted, kept)
        if not changed:
            return text
        text = with_values(text, {key: wanted.get(key) for key in changed})
    raise MeasureError(f"{name} is written in a way that cannot be changed in its place. Nothing was kept.")
