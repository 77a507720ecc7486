"""The order of work as a game: a student picks the next step of a stand; one that comes too early names its trap.

What must come before what is the table of `maths/the_stand/order.py`; which stand it is follows the student number.
"""

import random
from itertools import product
from typing import NamedTuple

from shoplib.maths.the_stand import seedling_stand
from shoplib.maths.the_stand.order import STEPS, order, relations
from shoplib.measure import MeasureError
from shoplib.model import Facts

OFFERED = 6  # steps to pick from at a time
BARS = {"stubs": "a pull bar on stubs", "mitred": "a pull bar mitred to arms", "none": "no pull bar"}
KINDS = tuple(product((2, 1), ("staves", "boards"), BARS, (2, 4)))  # the first is the stand of the lessons
APART = 5  # from one student's kind to the next one's; no divisor of their number
NUMBERS = {1: "one", 2: "two", 4: "four"}


class Said(NamedTuple):
    """What a pick is answered with: whether it is right, and a sentence; `met` are the traps that it met."""

    right: bool
    sentence: str
    met: tuple = ()


class Trap(NamedTuple):
    """A step that was picked too early, a step that was still missing, and what comes of it."""

    step: object
    missing: object
    sentence: str


def kind_of_stand(student):
    """The stand of one student: (trays, how the rims are made, the bar, casters).

    >>> kind_of_stand(1), kind_of_stand(2)
    ((2, 'staves', 'stubs', 2), (2, 'staves', 'none', 4))
    """
    if not (isinstance(student, int) and 1 <= student <= 99):
        raise MeasureError("A student number is a whole number from 1 to 99.")
    return KINDS[APART * (student - 1) % len(KINDS)]


class OrderOfWork:
    """One student's game. `offered` are the names of the steps to pick from, `done` those that are in order already.

    >>> game = OrderOfWork(1)
    >>> print(game.pick("template_inside").sentence)
    Too early. Once the inside is out, the pivot's centre is gone and no outside can be swung. First: Cut the \
template's outside.
    """

    def __init__(self, student=1):
        self.student = student
        trays, route, bar, casters = self.kind = kind_of_stand(student)
        stand = seedling_stand(trays=trays, ring_route=route, pull_bar=bar, casters=casters).plain
        self.steps, self.after = order(stand), relations(stand)
        self.done, self.traps = [], []
        self._pile = [each.name for each in self.steps]
        random.Random(student).shuffle(self._pile)
        self.offered = []
        while len(self.offered) < OFFERED:
            self._deal(len(self.offered))

    @property
    def left(self):
        """How many steps are still to be done."""
        return len(self.steps) - len(self.done)

    def words(self):
        """Which stand it is."""
        trays, route, bar, casters = self.kind
        return (
            f"a stand with {NUMBERS[trays]} {'trays' if trays > 1 else 'tray'}, rims of {route}, {BARS[bar]} and "
            f"{NUMBERS[casters]} casters"
        )

    def missing(self, name):
        """What is still missing before a step: pairs of a step's name and the trap."""
        return [(each, trap) for each, trap in self.after[name].items() if each not in self.done]

    def pick(self, name):
        """Take a step as the next one: it is done, or it is too early and says why."""
        if name not in self.after:
            raise MeasureError(f"This stand has no step {str(name)[:30]!r}.")
        if name in self.done:
            return Said(False, f"{STEPS[name].title}: that is done already.")
        met = tuple(Trap(STEPS[name], STEPS[each], trap) for each, trap in self.missing(name))
        if met:
            self.traps += met
            told = " ".join(f"{trap.sentence} First: {trap.missing.title}." for trap in met)
            return Said(False, f"Too early. {told}", met)
        self.done.append(name)
        if name in self.offered:
            self._deal(self.offered.index(name))
        else:
            self._pile.remove(name)
        watch = f" Mind: {STEPS[name].watch}" if STEPS[name].watch else ""
        return Said(True, f"Right: {len(self.done)}. {STEPS[name].title}.{watch}")

    def _deal(self, slot):
        """Put another step into this slot: any, but one that can be done where no other slot holds one."""
        others = [name for k, name in enumerate(self.offered) if k != slot and name not in self.done]
        if not self._pile:
            del self.offered[slot : slot + 1]
            return
        last = slot == OFFERED - 1 or len(self.offered) == OFFERED
        fits = [name for name in self._pile if not self.missing(name)]
        name = fits[0] if last and fits and all(map(self.missing, others)) else self._pile[0]
        self._pile.remove(name)
        self.offered[slot : slot + 1] = [name]

    def verdict(self):
        """How it went, once all is done."""
        if self.left:
            return f"{len(self.done)} of {len(self.steps)} steps are in order."
        if not self.traps:
            return f"All {len(self.steps)} steps are in an order that cannot trap, and you met no trap."
        names = dict.fromkeys(trap.step.title for trap in self.traps)
        return (
            f"All {len(self.steps)} steps are in an order that cannot trap. Too early at first: "
            f"{'; '.join(names)}."
        )

    def answers(self):
        """One order that cannot trap, for the teacher: each step, its lesson, what it waits for, and the traps.

        >>> OrderOfWork(1).answers().rows[2][:4]
        ('3', "Cut the template's inside", '01', '2')
        """
        numbers = {each.name: number for number, each in enumerate(self.steps, 1)}
        rows = []
        for name, number in numbers.items():
            after, step = self.after[name], STEPS[name]
            waits = ", ".join(str(numbers[each]) for each in after) or "—"
            traps = " ".join(dict.fromkeys([*after.values(), *([step.watch] if step.watch else [])]))
            rows.append((str(number), step.title, step.lesson[:2], waits, traps))
        return Facts(rows, head=("step", "what is done", "lesson", "after", "or else"))
