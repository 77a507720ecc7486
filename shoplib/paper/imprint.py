"""What every printout says of itself: what it is for, all sizes it was made from, unit, date and mark.

The mark is a few letters that stand for all sizes together. It is the same on the card, the template and the DXF of
one set of sizes and stands in their names, so that two sets of sizes neither look alike nor overwrite each other.
"""

import datetime
import hashlib
from dataclasses import dataclass

from shoplib.model import REQUIRED, given_in_full, in_full

LETTERS = "BCDFGHJKLMNPQRSTVWXZ"  # without vowels, so that no mark reads as a word
LENGTH = 6
UNITS = {"mm": "millimetres", "in": "inches"}
MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
    "December",
)


@dataclass(frozen=True)
class Imprint:
    """Where a printout comes from; `sizes` are pairs of words and size, `part` is what a person calls the piece."""

    sizes: tuple
    mark: str
    unit: str
    date: datetime.date
    part: str = ""

    def title(self, words):
        """The heading of the printout: the part's own name before what is printed, where it has one."""
        return f"{self.part}: {words[:1].lower()}{words[1:]}" if self.part else words

    def made_from(self):
        """All sizes in one sentence; nothing where they stand elsewhere."""
        told = ", ".join(f"{words} {size}" for words, size in self.sizes)
        return f"Made from: {told}." if told else ""

    def stamp(self):
        """Unit, date and mark in words."""
        return f"{self.unit_and_date()} Mark {self.mark}."

    def unit_and_date(self):
        return f"Lengths in {UNITS[self.unit]}. Printed on {in_words(self.date)}."


def imprint_of(model, unit="mm", part="", date=None):
    """The imprint of a model or its solved stand-in; the date is today's where none is given.

    >>> from shoplib import CircleJig
    >>> imprint = imprint_of(CircleJig("440 mm", "12 mm"), date=datetime.date(2031, 5, 7))
    >>> imprint.stamp()  # doctest: +ELLIPSIS
    'Lengths in millimetres. Printed on 7 May 2031. Mark ...'
    """
    plain = getattr(model, "plain", model)
    inputs = plain.model.inputs().items()
    sizes = tuple((item.words, given_in_full(plain, name, unit)) for name, item in inputs if plain.has(name))
    items = plain.model.inputs() | plain.model.results()
    made = tuple((f"{items[name].words}, as made", _told(items[name], value, unit))
                 for name, value in _made(model).items())  # fmt: skip
    return Imprint(sizes + made, mark_of(model), unit, date or datetime.date.today(), part)


def mark_of(model):
    """The mark of a model or its solved stand-in, in whichever unit it is shown.

    What was left as it is by default does not enter it, so that a new input leaves the old marks alone. What was
    measured as made does: it moves what comes later.
    """
    plain = getattr(model, "plain", model)
    inputs = plain.model.inputs().items()
    given = {name: (item, getattr(plain, name)) for name, item in inputs if plain.has(name)}
    told = [f"{name}={_exactly(value)}" for name, (item, value) in given.items() if value != _usual(item)]
    made = [f"made {name}={_exactly(value)}" for name, value in sorted(_made(model).items())]
    return mark(plain.model.__name__, *told, *made)


def _made(model):
    """What was measured as made, in plain values, where a model keeps such sizes."""
    return model.made if hasattr(type(model), "as_made") else {}


def _told(item, value, unit):
    return in_full(item.write(value, unit), value, item.kind, unit)


def _usual(item):
    """The plain value of an input that is left out."""
    return None if item.default is REQUIRED else item.read(item.default)


def mark(*texts):
    """Letters that stand for texts: other texts, other letters.

    >>> len(mark("a ring", "440")), mark("a ring", "440") == mark("a ring", "441")
    (6, False)
    """
    number = int.from_bytes(hashlib.sha256("\n".join(texts).encode()).digest(), "big")
    letters = ""
    for _ in range(LENGTH):
        number, place = divmod(number, len(LETTERS))
        letters += LETTERS[place]
    return letters


def _exactly(value):
    """A value to the last digit that a sum of floats can be trusted with."""
    return f"{value + 0.0:.12g}" if isinstance(value, float) else str(value)


def in_words(date):
    """A date that reads alike everywhere.

    >>> in_words(datetime.date(2031, 5, 7))
    '7 May 2031'
    """
    return f"{date.day} {MONTHS[date.month - 1]} {date.year}"
