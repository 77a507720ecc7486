"""What stands on a card beside its picture, as data: sizes, what to set, steps to tick, plans, cautions."""

from dataclasses import dataclass
from typing import NamedTuple

from shoplib.model import answer_in_full, capital, in_full, under_headings
from shoplib.paper.imprint import Imprint


class Plan(NamedTuple):
    """A table of rows under a heading; `short` has the same rows without the decimals in brackets."""

    words: str
    head: tuple
    rows: tuple
    short: tuple


@dataclass(frozen=True)
class Contents:
    """The words of a card: `given` are pairs of words and size, `steps` are ticked off one by one.

    `settings` are tables of such pairs, each with its heading: what is set, what comes of it. `told` are paragraphs
    under the picture, each a heading and its text.
    """

    title: str
    imprint: Imprint
    given: tuple = ()
    settings: tuple = ()
    steps: tuple = ()
    plans: tuple = ()
    told: tuple = ()
    cautions: tuple = ()


def contents_of(plain, sheet, imprint, use="", without=()):
    """The words of a solved stand-in's card: the results that it puts there and that have a meaning for its sizes.

    `without` names inputs and results that are of no matter on this card.
    """
    names = [name for name in _with_meaning(plain) if name not in without]
    found = [(plain.model.results()[name], getattr(plain, name)) for name in names]
    unit, no_matter = imprint.unit, {item.words for name, item in plain.model.inputs().items() if name in without}
    return Contents(
        sheet.title,
        imprint,
        tuple(each for each in imprint.sizes if each[0] not in no_matter),
        _settings(plain, [item for item, value in found if not isinstance(value, tuple)], unit),
        tuple(_steps(item, value, unit) for item, value in found if isinstance(value, tuple) and not item.table),
        tuple(_plan(item, value, unit) for item, value in found if item.table and value),
        (("How to do it" if sheet.use else "How to use the template", use),) if use else (),
        tuple(f"{caution.tell(unit)} ({caution.source})" for caution in plain.worries()),
    )


def _with_meaning(plain):
    return [name for name in plain.on_card() if not answer_in_full(plain, name)[1]]


def _settings(plain, items, unit):
    return tuple(
        (heading, tuple((item.words, answer_in_full(plain, item.name, unit)[0]) for item in found))
        for heading, found in under_headings(items)
    )


def _steps(item, values, unit):
    return capital(item.words), tuple(in_full(item.write(value, unit), value, item.kind, unit) for value in values)


def _plan(item, rows, unit):
    """One table, its head from the names of the rows' columns."""
    head = ("", *(name.replace("_", " ") for name in rows[0]._fields))
    short = tuple((str(k), *(item.write_cell(cell, unit) for cell in row)) for k, row in enumerate(rows, 1))
    full = tuple(
        (number, *(in_full(text, cell, "length", unit) for text, cell in zip(texts, row)))
        for (number, *texts), row in zip(short, rows)
    )
    return Plan(capital(item.words), head, full, short)
