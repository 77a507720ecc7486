"""Questions with sizes of the student's own, in the student's own unit: data, so that paper can print them too.

`Sizes` hands out the sizes of one student in millimetres or in inches and writes them into the question's text. What
it asks is a `Question`, which judges an answer within a stated tolerance and names the likely slip.
"""

import math
from dataclasses import dataclass
from functools import lru_cache

from shoplib import measure
from shoplib.model.writing import decimal

SYSTEMS = ("mm", "in")
# What a size may be given in: its kind, and its unit as measure.py knows it.
GIVEN_IN = {
    "mm": ("length", "mm"), "inches": ("length", "in"), "deg": ("angle", "deg"), "percent": ("percent", "percent"),
    "kg": ("mass", "kg"), "pounds": ("mass", "lb"), "newtons": ("force", "N"), "pounds_force": ("force", "lbf"),
    "megapascals": ("stress", "MPa"), "psi": ("stress", "psi"),
    "square_metres": ("surface", "m2"), "square_feet": ("surface", "ft2"),
    "litres": ("volume", "l"), "fluid_ounces": ("volume", "floz"),
}  # fmt: skip
UNITS = {
    "length": ("mm", "in"), "angle": ("deg", "deg"), "percent": ("percent", "percent"), "mass": ("kg", "lb"),
    "force": ("N", "lbf"), "stress": ("MPa", "psi"), "surface": ("m2", "ft2"), "volume": ("l", "floz"),
}  # fmt: skip
STEPS = {
    "mm": ("1 mm", "0.1 mm", "0.01 mm", "0.001 mm"), "in": ("1/64 in", "0.01 in", "0.001 in", "0.0001 in"),
    "deg": ("1 deg", "0.1 deg", "0.01 deg"), "percent": ("1 %", "0.1 %", "0.01 %"),
    "kg": ("1 kg", "0.1 kg", "0.01 kg"), "lb": ("1 lb", "0.1 lb", "0.01 lb"),
    "m2": ("1 m2", "0.1 m2", "0.01 m2"), "ft2": ("1 ft2", "0.1 ft2"),
    "l": ("1 l", "0.1 l", "0.01 l"), "floz": ("1 fl oz", "0.1 fl oz"),
    "N": ("1 N", "0.1 N"), "lbf": ("1 lbf", "0.1 lbf"), "MPa": ("1 MPa", "0.1 MPa"), "psi": ("1 psi",),
}  # fmt: skip
OF_PINT = {"m2": "m**2", "ft2": "ft**2", "l": "liter", "floz": "fluid_ounce"}
USUAL = dict(mm=0.3, inches=1 / 64)
HAIR = 1e-9  # an answer that is out by just the tolerance is within it


class Sizes:
    """The sizes that one student works with, in "mm" or in "in".

    Neighbours get different ones, everyone the same each time. Each choice has a turn of its own (0, 1, 2 ...), so
    that two choices of one topic do not keep step.

    >>> sizes = Sizes(1, "in")
    >>> disc = sizes.pick(0, mm=(300, 320, 340), inches=(12, 12.5, 13))
    >>> sizes.write(disc.m_as("mm")), sizes.choose(0, ("ash", "oak", "elm"))
    ('12 1/2 in', 'oak')
    """

    def __init__(self, student, unit="mm"):
        if unit not in SYSTEMS:
            raise measure.MeasureError(f"Questions come in mm or in in, not in {str(unit)[:20]!r}.")
        self.student, self.unit = student, unit

    def choose(self, turn, choices):
        """One of the choices, the same in both units: a count, a timber."""
        count = len(choices)
        step = next(step for step in range(turn + 1, turn + count + 2) if math.gcd(step, count) == 1)
        return choices[(self.student * step + turn) % count]

    def pick(self, turn, **choices):
        """One of the sizes as a Quantity, from a list in each unit: `mm=...` with `inches=...`, or `deg=...` alone."""
        given, sizes = self._in_my_unit(choices)
        return self.fixed(**{given: self.choose(turn, sizes)})

    def fixed(self, **size):
        """A size that is the same for every student: `mm=...` with `inches=...`."""
        given, value = self._in_my_unit(size)
        unit = GIVEN_IN[given][1]
        return measure.quantity(float(value), OF_PINT.get(unit, unit))

    def _in_my_unit(self, by_unit):
        """Of what is given in each unit, the one for this student; degrees and per cent are the same for all."""
        for given, value in by_unit.items():
            kind, unit = GIVEN_IN[given]
            if unit == _unit(kind, self.unit):
                return given, value
        raise measure.MeasureError(f"Nothing is given for a student who works in {self.unit}: {', '.join(by_unit)}.")

    def write(self, value, kind="length"):
        """A plain value as it stands in a text: a fraction or as few decimals as say it."""
        return _write_whole(float(value), kind, _unit(kind, self.unit))

    def measured(self, value):
        """A length as callipers read it: decimals in both units."""
        return measure.write(value, "length", self.unit, "0.1 mm" if self.unit == "mm" else "0.001 in")

    def ask(self, text, answer, slips, why, kind="length", **tolerance):
        """A question in this unit; the tolerance as `mm=...` with `inches=...`, `deg=...`, or the usual one.

        A count (`kind="count"`) has none.
        """
        if kind == "count":
            return Question(text, answer, slips, why, self.unit, kind, 0.0)
        allowed = tolerance or USUAL
        kind, _ = GIVEN_IN[next(iter(allowed))]
        return Question(text, answer, slips, why, self.unit, kind, measure.plain(kind, self.fixed(**allowed)))


@dataclass(frozen=True)
class Question:
    """One question: what is asked, the answer in plain units, and the slips as (value, what was done).

    `unit` is what it is asked in, "mm" or "in"; answer, slips and tolerance are in mm, rad or kg all the same.
    """

    text: str
    answer: float
    slips: tuple
    why: str
    unit: str = "mm"
    kind: str = "length"
    tolerance: float = 0.3

    def judge(self, text):
        """Judge what a student typed: (right or not, what to say).

        >>> question = Question("Half of 440 mm?", 220.0, ((440.0, "That is the whole diameter."),), "440 / 2")
        >>> question.judge("440 mm")
        (False, 'Not yet. That is the whole diameter.')
        """
        try:
            given = self._read(text)
        except measure.MeasureError as error:
            return False, str(error)
        if self._is(given, self.answer):
            return True, f"Right: {self.tell(self.answer)}. {self.why}"
        for value, said in self.told_slips():
            if self._is(given, value):
                return False, f"Not yet. {said}"
        if self.kind == "length" and (self._is(given * 25.4, self.answer) or self._is(given / 25.4, self.answer)):
            return False, "Not yet. The number is good, its unit is not: you changed over mm and in."
        return False, "Not yet. Draw it and try again: it is too " + ("large." if given > self.answer else "small.")

    def _is(self, given, value):
        return abs(given - value) <= self.tolerance + HAIR

    def told_slips(self):
        """The slips that the tolerance can tell from the answer and from each other."""
        kept = []
        for value, said in self.slips:
            if all(abs(value - other) > 2 * self.tolerance for other in (self.answer, *(v for v, _ in kept))):
                kept.append((value, said))
        return kept

    def _read(self, text):
        if self.kind != "count":
            return measure.plain(self.kind, text)
        clean = text.strip()
        if not (clean.isascii() and clean.isdigit() and len(clean) < 5):
            raise measure.MeasureError("Write how many, in figures: a whole number and nothing else.")
        return int(clean)

    def write(self, value):
        """A value as a careful person answers: rounded to the coarsest step that the tolerance allows."""
        if self.kind == "count":
            return str(value)
        unit = _unit(self.kind, self.unit)
        *finer, finest = (step for step in STEPS[unit] if step != "1 mm")
        fine_enough = (step for step in finer if measure.plain(self.kind, step) <= self.tolerance + HAIR)
        return measure.write(value, self.kind, unit, next(fine_enough, finest))

    def tell(self, value):
        """The same, with the decimal inches in brackets where a fraction is not exact."""
        written = self.write(value)
        beside = decimal(value, self.kind, self.unit) if "/" in written or "." not in written else ""
        return f"{written} ({beside})" if beside else written

    def within(self):
        """The tolerance in words."""
        if self.kind == "count":
            return "a whole number"
        return f"within {_write_whole(self.tolerance, self.kind, _unit(self.kind, self.unit))}"


def _unit(kind, system):
    return UNITS[kind][SYSTEMS.index(system)]


@lru_cache(maxsize=4096)
def _write_whole(value, kind, unit):
    """A plain value in the first step that says it whole."""
    for step in STEPS[unit]:
        text = measure.write(value, kind, unit, step)
        if abs(measure.plain(kind, text) - value) < 1e-7:
            break
    return text
