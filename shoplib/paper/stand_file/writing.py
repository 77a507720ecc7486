"""The text of a stand's file is made, and changed: only the keys that change, all else as a person typed it."""

import re
import tomllib

from shoplib.maths.the_stand import Stand
from shoplib.model import capital
from shoplib.model.inputs import is_in_inches
from shoplib.paper.stand_file.keys import (
    MADE,
    example,
    is_alike,
    is_made,
    item_of,
    key_in,
    name_of,
    spelt,
    table_of,
    text_for,
)
from shoplib.paper.stand_file.keys import tables as all_tables
from shoplib.paper.stand_file.reading import ENTRY, HEADER

LEFT_OUT = re.compile(r"(\s*#+\s*)([a-z0-9_]+)\s*=")
HEAD = """\
# The sizes of a stand, each of them once. A size is text with its unit: "440 mm", "17 3/8 in", "44 cm".
# A count is a whole number, a choice is one of a few words. What stands behind a # is for people.
# A line that begins with a # is left out: take the # away to give that size.
"""
HEAD_MADE = "# What was really measured, by the same names. What is done later is worked out from it."


def new_text(stand, unit=None):
    """The text of a new file: every size with a note, in the order of the stand, in "mm" or "in"."""
    unit = unit or usual_unit(stand)
    parts = [HEAD]
    for table, items in all_tables().items():
        rows = [_row(name, item, stand.values[name], unit) for name, item in items.items()]
        width = max(len(row) for row, _ in rows) + 2
        parts.append("\n".join([f"[{table}]", *(f"{row:{width}}# {note}" for row, note in rows)]) + "\n")
    made = [
        f"{name} = {spelt(text_for(item_of(key_in(MADE, name)), value, unit))}" for name, value in stand.made.items()
    ]
    return "\n".join([*parts, "\n".join([f"[{MADE}]", HEAD_MADE, *made]) + "\n"])


def _row(name, item, value, unit):
    """One size as its line, and the note behind it."""
    note = f"{capital(item.words)}. {item.help}"
    if item.kind == "choice" and len(item.options) < 6:
        note += f" One of: {', '.join(item.options)}."
    if value is None:
        return f"# {example(name)}", note
    return f"{name} = {spelt(text_for(item, value, unit))}", note


def usual_unit(stand):
    """The unit in which more of a stand's lengths are neat: "mm" or "in"."""
    lengths = [value for name, value in stand.values.items() if value and Stand.inputs()[name].kind == "length"]
    inches, halves = (
        sum(is_alike(value / step, float(round(value / step))) for value in lengths) for step in (25.4 / 64, 0.5)
    )
    return "in" if inches > halves else "mm"


def with_values(text, values):
    """A file's text with other values for some keys, None to leave one out: its line stays, behind a #.

    A size is written in the unit in which it stood there, or else in that of most sizes of the file.
    """
    import tomlkit

    bare = _turned(text.removeprefix("\ufeff"), values)
    document, given = tomlkit.parse(bare), tomllib.loads(bare)
    for key, value in values.items():
        table, name = table_of(key), name_of(key)
        if table not in document:
            document[table] = tomlkit.table()
        if value is None:
            document[table].pop(name, None)
        else:
            _put(document[table], name, text_for(item_of(key), value, _unit_of(key, given)))
    changed = "\ufeff" * text.startswith("\ufeff") + tomlkit.dumps(document)
    return changed.replace("\r\n", "\n").replace("\n", "\r\n") if "\r\n" in text else changed


def _turned(text, values):
    """A text in which the # is set before the line of a size that is left out, and taken from one that is given."""
    given = tomllib.loads(text)
    out = {
        (table_of(key), key): value is None for key, value in values.items()
        if not is_made(key) and (value is None) == (key in given.get(table_of(key), {}))
    }  # fmt: skip
    rows, table = text.splitlines(keepends=True), None
    for k, row in enumerate(rows):
        if header := HEADER.fullmatch(row.rstrip()):
            table = header[1]
        elif (entry := ENTRY.match(row)) and out.get((table, entry[1])) and _is_alone(row):
            rows[k] = f"# {row.lstrip()}"
        elif (entry := LEFT_OUT.match(row)) and out.get((table, entry[2])) is False and _is_alone(row[entry.end(1) :]):
            del out[table, entry[2]]
            rows[k] = row[entry.end(1) :]
    return "".join(rows)


def _is_alone(row):
    """Whether a line gives one value by itself: a note or half of a longer text does not."""
    try:
        return len(tomllib.loads(row)) == 1
    except ValueError:
        return False


def _put(table, name, value):
    """Set a value in its place; a new one below the table's last, above what is said before the next table."""
    import tomlkit

    if name in table or not isinstance(table, tomlkit.items.Table) or table.is_super_table():
        table[name] = value
        return
    names = [key for key, _ in table.value.body if key is not None]
    if names:
        table.value._insert_after(names[-1], name, tomlkit.item(value))
    else:
        table.append(name, value)


def _unit_of(key, given):
    """The unit to write a size in: the one in which it stands in the file, or else that of most lengths there."""
    for each in (key, name_of(key)):
        if each in Stand.inputs() or each == key:
            unit = _unit_in(item_of(each), given.get(table_of(each), {}).get(name_of(each)))
            if unit:
                return unit
    units = [
        _unit_in(item, given.get(table, {}).get(name)) for table, items in all_tables().items()
        for name, item in items.items()
    ]  # fmt: skip
    return "in" if units.count("in") > units.count("mm") else "mm"


def _unit_in(item, text):
    """The unit of a length that stands in a file, None where there is none."""
    if item.kind != "length" or text is None:
        return None
    return "in" if is_in_inches(text) else "mm"
