"""Parts and boards in a file: a table with names of columns once on top, that any spreadsheet reads and writes."""

import csv
import os
import tempfile
from pathlib import Path

from shoplib import measure
from shoplib.maths.timber.stock import Board, Part, written_exactly
from shoplib.measure import MeasureError
from shoplib.model import ShapeError
from shoplib.tables.cells import as_typed, harmless

PART_COLUMNS = ("part", "count", "length", "width", "thickness", "timber", "round", "per blank")
BOARD_COLUMNS = ("board", "length", "width", "thickness", "price", "faults", "timber")
MAY_BE_LEFT_OUT = ("round", "per blank", "price", "faults", "timber")
MOST_ROWS = 2000
YES, NO = ("yes", "y", "true", "1", "round"), ("no", "n", "false", "0", "")


def read_parts(path):
    """Read parts from a file with the columns of PART_COLUMNS.

    `round` is yes or empty. Raises MeasureError that names the row and the column.
    """
    return parts_in(*_read(path))


def read_boards(path):
    """Read boards from a file with the columns of BOARD_COLUMNS.

    `faults` are stretches along the board, "600 mm to 680 mm; 1200 mm to 1230 mm"; `price` is for the whole board.
    Raises MeasureError that names the row and the column.
    """
    return boards_in(*_read(path))


def parts_in(text, name):
    """The parts in the text of a file of this name."""
    return [part_from_texts(row, where) for where, row in rows_of(text, PART_COLUMNS, name)]


def boards_in(text, name):
    """The boards in the text of a file of this name."""
    return [board_from_texts(row, where) for where, row in rows_of(text, BOARD_COLUMNS, name)]


def write_parts(parts, path, unit="mm"):
    """Write parts as a file that `read_parts` reads; a file that was there stays until the new one is whole."""
    return _write(path, PART_COLUMNS, [part_texts(part, unit) for part in parts])


def write_boards(boards, path, unit="mm"):
    """Write boards as a file that `read_boards` reads; a file that was there stays until the new one is whole."""
    return _write(path, BOARD_COLUMNS, [board_texts(board, unit) for board in boards])


def part_texts(part, unit="mm"):
    """A part as the texts of its cells, by column."""
    sizes = {name: written_exactly(part.plain[name], unit) for name in ("length", "width", "thickness")}
    many = str(part.per_blank) if part.per_blank != 1 else ""
    return {"part": part.name, "count": str(part.count), **sizes, "timber": part.species,
            "round": "yes" if part.round else "", "per blank": many}  # fmt: skip


def board_texts(board, unit="mm"):
    """A board as the texts of its cells, by column.

    >>> board_texts(Board("spare", "1900 mm", "150 mm", "27 mm", faults=[("600 mm", "680 mm")]))["faults"]
    '600 mm to 680 mm'
    """
    sizes = {name: written_exactly(board.plain[name], unit) for name in ("length", "width", "thickness")}
    faults = "; ".join(" to ".join(written_exactly(each, unit) for each in fault) for fault in board.plain["faults"])
    price = "" if board.price is None else f"{board.price:.12g}"
    return {"board": board.name, **sizes, "price": price, "faults": faults, "timber": board.species or ""}


def part_from_texts(row, where=""):
    """A part from the texts of its cells; a MeasureError says where and in which column something is wrong."""
    with _Cell(where):
        return Part(
            _text(row, "part"), _count(row, "count"), *_sizes(row), _text(row, "timber"),
            round=_yes(row), per_blank=_count(row, "per blank", 1),
        )  # fmt: skip


def board_from_texts(row, where=""):
    """A board from the texts of its cells; a MeasureError says where and in which column something is wrong."""
    with _Cell(where):
        return Board(
            _text(row, "board"), *_sizes(row), price=_price(row), faults=_faults(row),
            species=_text(row, "timber", None),
        )  # fmt: skip


class _Cell:
    """Says before whatever is wrong inside where it stands."""

    def __init__(self, *where):
        self.where = "".join(f"{each}: " for each in where if each)

    def __enter__(self):
        return self

    def __exit__(self, kind, error, _):
        if isinstance(error, (ShapeError, MeasureError)):
            raise MeasureError(f"{self.where}{error}") from None


def _text(row, name, otherwise=""):
    return " ".join((row.get(name) or "").split()) or otherwise


def _sizes(row):
    return [_size(row, name) for name in ("length", "width", "thickness")]


def _size(row, name):
    text = _text(row, name)
    if not text:
        raise MeasureError(f"{name} is empty: write a size with its unit.")
    try:
        return measure.length(text)
    except MeasureError as error:
        raise MeasureError(f"{name}: {error}") from None


def _count(row, name, otherwise=None):
    text = _text(row, name)
    if not text and otherwise is not None:
        return otherwise
    if not (text.isascii() and text.isdigit() and len(text) < 5):
        raise MeasureError(f"{name}: write how many in figures, a whole number, not {text[:30]!r}.")
    return int(text)


def _yes(row):
    text = _text(row, "round").lower()
    if text not in YES + NO:
        raise MeasureError(f"round: write yes, or leave it empty, not {text[:30]!r}.")
    return text in YES


def _price(row):
    text = _text(row, "price")
    if not text:
        return None
    whole, _, part = text.replace(",", ".").partition(".")
    if "," in text and len(part) == 3:
        raise MeasureError(f"price: is {text[:30]!r} a thousand or a decimal? Write it without a comma.")
    if not (f"{whole}{part}".isascii() and f"{whole}{part}".isdigit() and len(text) < 12):
        raise MeasureError(f"price: write a plain number without a sign of money, such as 24.50, not {text[:30]!r}.")
    return float(f"{whole or 0}.{part or 0}")


def _faults(row):
    """Stretches "from to to", one after the other with a semicolon between."""
    found = []
    for stretch in filter(None, (each.strip() for each in _text(row, "faults").split(";"))):
        ends = stretch.split(" to ")
        if len(ends) != 2:
            raise MeasureError(
                f"faults: write each as 600 mm to 680 mm, with a semicolon between, not {stretch[:30]!r}."
            )
        try:
            found.append(tuple(map(measure.length, ends)))
        except MeasureError as error:
            raise MeasureError(f"faults: {error}") from None
    return found


def _read(path):
    """The text of a file and its name."""
    path = Path(path)
    try:
        return path.read_text(encoding="utf-8"), path.name
    except (OSError, UnicodeDecodeError) as error:
        why = getattr(error, "strerror", None) or "it is not a text file"
        raise MeasureError(f"{path.name} cannot be read: {why}.") from None


def rows_of(text, columns, name):
    """The rows of a file's text: pairs of where a row stands, and its cells by column."""
    lines = text.removeprefix("\ufeff").splitlines()
    between = max(",;\t", key=lambda mark: lines[0].count(mark)) if lines else ","
    try:
        table = [row for row in csv.reader(lines, delimiter=between, strict=True)]
    except csv.Error as error:
        raise MeasureError(f"{name} cannot be read as a table: {error}.") from None
    head = [" ".join(cell.lower().split()) for cell in table[0]] if table else []
    _check_head(head, columns, name)
    found = []
    for number, cells in enumerate(table[1:], 2):
        if not any(cell.strip() for cell in cells):
            continue
        if len(cells) > len(head):
            raise MeasureError(
                f"{name}, row {number}: it has {len(cells)} cells and the head {len(head)}. A cell that holds the mark "
                "between cells stands in double quotes."
            )
        found.append((f"{name}, row {number}", dict(zip(head, map(as_typed, cells)))))
    if len(found) > MOST_ROWS:
        raise MeasureError(f"{name} has {len(found)} rows: at most {MOST_ROWS}.")
    return found


def _check_head(head, columns, name):
    needed = [each for each in columns if each not in MAY_BE_LEFT_OUT or (each == "timber" and "part" in columns)]
    missing = [each for each in needed if each not in head]
    if missing:
        raise MeasureError(
            f"{name}, row 1: the column {' and the column '.join(missing)} is missing. "
            f"The first row names the columns: {', '.join(columns)}."
        )
    unknown = [each for each in head if each and each not in columns]
    if unknown:
        raise MeasureError(f"{name}, row 1: no column is called {unknown[0][:30]!r}. Use: {', '.join(columns)}.")
    twice = [each for each in head if each and head.count(each) > 1]
    if twice:
        raise MeasureError(f"{name}, row 1: the column {twice[0]} is there twice.")


def _write(path, columns, rows):
    """Fill a file beside the old one, then put it in its place."""
    path = Path(path)
    handle, aside = tempfile.mkstemp(dir=path.parent, prefix=f".{path.stem}-", suffix=".csv")
    try:
        with open(handle, "w", encoding="utf-8", newline="") as file:
            writer = csv.DictWriter(file, columns, lineterminator="\n")
            writer.writeheader()
            writer.writerows({name: harmless(cell) for name, cell in row.items()} for row in rows)
        os.chmod(aside, 0o644)
        os.replace(aside, path)
    finally:
        Path(aside).unlink(missing_ok=True)
    return path
