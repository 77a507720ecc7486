"""A stand's file is read, and what is wrong with it is told: the line, the key, and how to write it."""

import difflib
import re
import tomllib
from functools import cached_property
from typing import NamedTuple

from shoplib.maths.the_stand import Stand
from shoplib.maths.the_stand.made import read_measured
from shoplib.measure import MeasureError
from shoplib.model import REQUIRED, ShapeError
from shoplib.paper.stand_file import keys
from shoplib.paper.stand_file.keys import MADE, example, is_made, item_of, key_in, name_of, table_of, tables

HEADER = re.compile(r"\s*\[+\s*([^\[\]#]+?)\s*\]+\s*(#.*)?")
ENTRY = re.compile(r"\s*([A-Za-z0-9_-]+|\"[^\"]*\"|'[^']*')\s*=")
ALL_TABLES = (*tables(), MADE)
TYPES = {"count": int, "flag": bool}
WANTED = {
    "count": "how many is wanted, a whole number without quotes",
    "flag": "true or false is wanted, without quotes",
    "choice": "one of a few words is wanted, in double quotes",
}


class Given(NamedTuple):
    """One value of a file, and where it stands in words."""

    value: object
    where: str


class Lines:
    """Where tables and keys stand in a text."""

    def __init__(self, text, name):
        self.text, self.name = text, name

    @cached_property
    def numbers(self):
        """The lines of each key, {(table, key): [numbers]}; those of a table itself under (table, None)."""
        found, table = {}, None
        for number, line in enumerate(self.text.splitlines(), 1):
            if header := HEADER.fullmatch(line):
                table = header[1].strip("\"'")
                found.setdefault((table, None), []).append(number)
            elif entry := ENTRY.match(line):
                found.setdefault((table, entry[1].strip("\"'")), []).append(number)
        return found

    def where(self, table, key=None):
        """Where a key of a table stands, or a table, in words."""
        what = f"[{short(table)}]" if key is None else short(key)
        numbers = self.numbers.get((table, key)) or self.numbers.get((table, None))
        return f"{self.name}, line {numbers[0]}, {what}" if numbers else f"{self.name}, {what}"


def read_text(text, name):
    """The stand that a file's text holds."""
    text = text.removeprefix("\ufeff")
    found = _checked(_parsed(text, name), Lines(text, name), name)
    sizes = {key: given.value for key, given in found.items() if not is_made(key)}
    measured = {name_of(key): given.value for key, given in found.items() if is_made(key)}
    try:
        stand = Stand(**sizes)
        return stand.as_made(**measured) if measured else stand
    except ShapeError as error:
        given = found.get(key_in(MADE, error.input)) or found.get(error.input)
        raise _placed(given.where if given else name, error) from None


def _placed(where, error):
    """A ShapeError that says first where in the file its size stands."""
    if error.lengths:  # else the sentence is told as it is, braces too
        where = where.replace("{", "{{").replace("}", "}}")
    return ShapeError(f"{where}: {error.sentence}", *error.lengths, input=error.input)


def short(text):
    """What stands in a file, as far as a sentence bears it."""
    shown = "".join(sign if sign.isprintable() else "?" for sign in str(text))
    return shown if len(shown) <= 41 else f"{shown[:40]}…"


# How it is written -------------------------------------------------------------------------------------------


def _parsed(text, name):
    try:
        return tomllib.loads(text)
    except RecursionError:
        raise MeasureError(f"{name} cannot be read: it has brackets within brackets, and no stand has.") from None
    except ValueError as error:
        raise MeasureError(_not_toml(text, name, str(error))) from None


def _not_toml(text, name, error):
    """What is wrong with the way it is written: something twice, or a line that cannot be read."""
    for (table, key), numbers in Lines(text, name).numbers.items():
        if len(numbers) > 1:
            what = f"the table [{short(table)}]" if key is None else short(key)
            return f"{name}, line {numbers[1]}: {what} is there already, in line {numbers[0]}. Leave one of the two."
    at, rows = re.search(r"line (\d+)", error), text.splitlines()
    number = min(int(at[1]), len(rows)) if at else max(range(1, len(rows) + 1), key=lambda k: len(rows[k - 1]))
    row = rows[number - 1].strip() if rows else ""
    entry = ENTRY.match(row)
    key = entry[1] if entry and entry[1] in Stand.inputs() else "leg_diameter"
    return (
        f"{name}, line {number}: “{short(row)}” cannot be read. A size is written as {example(key)}, a table's name as "
        f"[{table_of(key)}] alone on its line, a note behind a #."
    )


# What it says ------------------------------------------------------------------------------------------------


def _checked(parsed, lines, name):
    """All values, checked one by one: {key: Given}."""
    found = {}
    for table, content in parsed.items():
        _check_table(table, content, lines)
        for key, value in content.items():
            _check_name(table, key, lines)
            given = Given(value, lines.where(table, key))
            _check_value(key_in(table, key), given)
            found[key_in(table, key)] = given
    if not found:
        raise MeasureError(f"{name} is empty: there is no size in it. Copy stand.toml and change what differs.")
    _check_whole(found, name)
    return found


def _check_table(table, content, lines):
    if not isinstance(content, dict):
        where = lines.where(None, table)
        if table in Stand.inputs():
            raise MeasureError(f"{where}: it stands above all tables. Set it under [{table_of(table)}].")
        raise MeasureError(f"{where}: there is no size of this name.{_near(table, Stand.inputs())}")
    if table not in ALL_TABLES:
        near = nearest(table, ALL_TABLES)
        told = f"Is it [{near}]?" if near else f"There are {', '.join(f'[{each}]' for each in ALL_TABLES)}."
        raise MeasureError(f"{lines.where(table)}: there is no table of this name. {told}")


def _check_name(table, name, lines):
    where = lines.where(table, name)
    if table == MADE:
        if name not in keys.measured_items():
            near = nearest(name, keys.measured_items())
            told = f" Is it {near}? Write {example(key_in(MADE, near))}." if near else ""
            raise MeasureError(f"{where}: nothing of this name is measured.{told}")
    elif name not in Stand.inputs():
        raise MeasureError(f"{where}: there is no size of this name.{_near(name, Stand.inputs())}")
    elif table != table_of(name):
        right = lines.numbers.get((table_of(name), name))
        told = f"it stands in line {right[0]} too" if right else "it belongs"
        raise MeasureError(
            f"{where}: {told}, under [{table_of(name)}]. Each size is there once, and in its own table: "
            f"{'take this one away' if right else 'move it there'}."
        )


def _near(name, names):
    near = nearest(name, names)
    told = f" Is it {near}? Write {example(near)} under [{table_of(near)}]." if near else ""
    return told or " All names are in stand.toml."


def nearest(word, words):
    """The word that is most like another, None where none is."""
    likely = word.lower().replace("-", "_").replace(" ", "_")
    return next(iter(difflib.get_close_matches(likely, list(words), 1)), None)


def _check_value(key, given):
    item = item_of(key)
    if type(given.value) is not TYPES.get(item.kind, str):
        raise MeasureError(f"{given.where}: {_wanted(item, given.value)}. Write {example(key)}.")
    if item.kind == "choice" and given.value not in item.options:
        raise MeasureError(f"{given.where}: {_no_word(item, given.value)} As in: {example(key)}.")
    try:
        read_measured(item, given.value) if is_made(key) else item.read(given.value)
    except ShapeError as error:
        raise _placed(given.where, error) from None
    except MeasureError as error:
        raise MeasureError(f"{given.where}: {error} Here: {example(key)}.") from None


def _wanted(item, value):
    """What should stand there instead of something of another kind."""
    if item.kind in WANTED:
        return WANTED[item.kind]
    if type(value) in (int, float):
        return f"{short(value)} is a bare number: which unit? A size is text with its unit, in double quotes"
    return "a size is wanted, text with its unit, in double quotes"


def _no_word(item, value):
    """What to say of a word that a choice does not have: all that it has, or the most like of many."""
    told = f"there is no “{short(value)}” to choose."
    if len(item.options) < 6:
        return f"{told} Choose {', '.join(f'“{each}”' for each in item.options)}."
    near = difflib.get_close_matches(value.capitalize(), item.options, 3, 0.4)
    return f"{told} Is it {' or '.join(f'“{each}”' for each in near)}?" if near else f"{told} {item.help}"


def _check_whole(found, name):
    """Refuse a file that leaves out a size without which nothing can be worked out."""
    missing = [key for key, item in Stand.inputs().items() if key not in found and item.default is REQUIRED]
    if not missing:
        return
    first, *others = missing
    more = f" Missing as well: {', '.join(others)}." if others else ""
    raise MeasureError(
        f"{name}: {first} is missing. Write it under [{table_of(first)}], as in {example(first)}.{more}"
    )
