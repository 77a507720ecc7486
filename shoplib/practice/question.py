"""Questions with sizes of the student's own, judged within a stated tolerance: data, so that paper can print them too.

A wrong answer is compared with the likely slips; the nearest one that fits is named.
"""

from dataclasses import dataclass

from shoplib import measure
from shoplib.model import write_value

STEPS = {"length": "0.1 mm", "angle": "0.01 deg", "mass": "0.1 kg"}
FINE = {"length": "0.01 mm", "angle": "0.01 deg", "mass": "0.01 kg"}
HAIR = 1e-9  # an answer that is out by just the tolerance is within it


@dataclass(frozen=True)
class Question:
    """One question: what is asked, the answer in plain units, and the slips as (value, what was done)."""

    text: str
    answer: float
    slips: tuple
    why: str
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
        if abs(given - self.answer) <= self.tolerance + HAIR:
            return True, f"Right: {self.write(self.answer)}. {self.why}"
        for value, said in self.told_slips():
            if abs(given - value) <= self.tolerance + HAIR:
                return False, f"Not yet. {said}"
        return False, "Not yet. Draw it and try again: it is too " + ("large." if given > self.answer else "small.")

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
            raise measure.MeasureError(f"Write a whole number such as 4, not {clean[:30]!r}.")
        return int(clean)

    def write(self, value):
        """A value as the answer sheet shows it: more finely where a hundredth is asked for."""
        steps = FINE if self.kind == "length" and self.tolerance < 0.1 else STEPS
        return write_value(value, self.kind, "mm", steps.get(self.kind), None)

    def within(self):
        """The tolerance in words."""
        return (
            "exactly"
            if self.kind == "count"
            else f"within {write_value(self.tolerance, self.kind, 'mm', FINE[self.kind], None)}"
        )


def pick(student, turn, choices):
    """One of the choices for a student: neighbours get different ones, everyone the same each time.

    >>> pick(1, 0, [300, 320, 340]), pick(2, 0, [300, 320, 340])
    (320, 340)
    """
    return choices[(student * (turn + 1) + turn) % len(choices)]
