"""The operations of one stand: each with its model, filled from the sizes that are known when it is done."""

from functools import cached_property
from typing import NamedTuple

from shoplib.maths.the_stand.dependencies import sizes_read
from shoplib.maths.the_stand.filling import Size, built
from shoplib.maths.the_stand.limits import caution_from_lesson
from shoplib.maths.the_stand.operations import OPERATIONS
from shoplib.maths.the_stand.order import MADE_AT, STEPS, no_later_than, order, relations
from shoplib.model import Facts, ShapeError, in_full


class Moved(NamedTuple):
    """A result of an operation that is not what it was: plain values, nothing where it has no meaning there."""

    operation: str
    title: str
    lesson: str
    result: str
    words: str
    was: object
    becomes: object
    count: int
    part: str
    item: object

    def written(self, unit="mm"):
        """Both values as a person reads them."""
        return tuple(_written(self.item, value, unit) for value in (self.was, self.becomes))


def _written(item, value, unit):
    return "—" if value is None else in_full(item.write(value, unit), value, item.kind, unit)


class Moves(tuple):
    """Results that are not what they were; shows itself as a small table.

    >>> from shoplib.maths.the_stand import seedling_stand
    >>> stand = seedling_stand()
    >>> wider = stand.replace(leg_spacing="362 mm")
    >>> [row for row in stand.changes(wider).tell().rows if row[2] == "rail's top edge, tip to tip"]
    [('Saw and cope the rails', 'lesson 05', "rail's top edge, tip to tip", '331.3 mm', '333.3 mm', '8 of rail')]
    """

    def tell(self, unit="mm"):
        """The same as a table of texts, of all that reads otherwise in this unit."""
        rows = [
            (each.title, f"lesson {each.lesson[:2]}", each.words, *each.written(unit), f"{each.count} of {each.part}")
            for each in self if len(set(each.written(unit))) > 1
        ]
        return Facts(rows, head=("operation", "lesson", "what", "was", "becomes", "for"), many=True)

    def __repr__(self):
        return repr(self.tell()) if self else "Nothing else moves."

    def _repr_html_(self):
        return self.tell()._repr_html_() if self else "<p>Nothing else moves.</p>"


class BoundOperation:
    """One operation of one stand. Its model is made when it is first asked for."""

    def __init__(self, stand, operation, steps):
        self.stand, self.operation, self.steps = stand, operation, steps
        self.name, self.title, self.lesson, self.part = (
            operation.name, operation.title, operation.lesson, operation.part,
        )  # fmt: skip

    def __repr__(self):
        return f"{self.title}: {self.count} of {self.part}"

    @property
    def count(self):
        return self.operation.how_many(self.stand.plain)

    @cached_property
    def before(self):
        """What must be done before its first step: pairs of a Step and the trap that it avoids."""
        found = relations(self.stand.plain)[self.steps[0].name]
        return tuple((STEPS[name], trap) for name, trap in found.items())

    @cached_property
    def measured(self):
        """The stand's sizes that it takes as made, for it comes later than the step that makes them: plain values."""
        return {name: value for name, value in self.stand.made.items() if self._comes_after(name)}

    def _comes_after(self, name):
        earlier = no_later_than(self.stand.plain, MADE_AT.get(name))
        return not earlier.issuperset(each.name for each in self.steps)

    @cached_property
    def filled_from(self):
        """The stand's stand-in that it is filled from: nominal sizes, as made where they are known by then."""
        return self.stand.plain_with(self.measured)

    @cached_property
    def plain(self):
        """The solved stand-in of its model."""
        return self.operation.solved(self.filled_from)

    @cached_property
    def model(self):
        """Its model, as the lesson would build it from the same sizes."""
        return built(self.operation.model, self.operation.values(self.filled_from))

    @property
    def nominal(self):
        """The solved stand-in of its model from the nominal sizes alone."""
        return self.operation.solved(self.stand.plain)

    @property
    def cautions(self):
        """Its model's cautions, each with the operation and lesson it belongs to, hung on the stand's sizes."""
        return tuple(caution_from_lesson(self.stand.plain, self.operation, each) for each in self.plain.worries())

    @property
    def as_made(self):
        """Its model's inputs that come from a measured size: {input: (nominal, as made)} in plain values."""
        if not self.measured:
            return {}
        nominal, now = (self.operation.values(each) for each in (self.stand.plain, self.filled_from))
        return {name: (nominal[name], value) for name, value in now.items() if value != nominal[name]}

    @property
    def moved(self):
        """Its results that the measured sizes moved: nominal, and as made."""
        return Moves(moves_of(self.operation, self.nominal, self.plain, self.count)) if self.measured else Moves()

    @cached_property
    def sizes(self):
        """The stand's sizes that it hangs on, or that say how many pieces it is done to."""
        found = {}
        for source in self.operation.fill.values():
            names = (source.name,) if type(source) is Size else sizes_read(self.stand.plain, source.read)
            found.update(dict.fromkeys(names))
        found.update(dict.fromkeys(sizes_read(self.stand.plain, self.operation.how_many)))
        return tuple(found)


def bound_operations(stand):
    """The operations that a stand has, in the order of work: each where its first step is."""
    steps = {}
    for step in order(stand.plain):
        for name in step.operations:
            if OPERATIONS[name].of(stand.plain):
                steps.setdefault(name, []).append(step)
    return tuple(BoundOperation(stand, OPERATIONS[name], tuple(found)) for name, found in steps.items())


def moves_of(operation, was, becomes, count):
    """What differs between two solved stand-ins of an operation, either of which may be None."""
    if was is becomes:
        return
    for name, item in operation.model.results().items():
        if item.minor or item.table:
            continue
        values = tuple(_value(plain, name) for plain in (was, becomes))
        if _differ(item, *values):
            yield Moved(
                operation.name, operation.title, operation.lesson, name, item.words, *values, count, operation.part,
                item,
            )  # fmt: skip


def _value(plain, name):
    try:
        return None if plain is None else getattr(plain, name)
    except ShapeError:
        return None


def _differ(item, was, becomes):
    """Whether a person would read another number, in either unit."""
    if was is None or becomes is None:
        return was is not becomes
    return was != becomes and any(item.write(was, unit) != item.write(becomes, unit) for unit in ("mm", "in"))


def changes(stand, other):
    """What differs in the operations' results of two stands, in the order of work."""
    before, after = ({each.name: each for each in bound_operations(one)} for one in (stand, other))
    found = []
    for name in (*before, *(each for each in after if each not in before)):
        one, two = before.get(name), after.get(name)
        count = (two or one).count
        found += moves_of((one or two).operation, one and one.plain, two and two.plain, count)
    return Moves(found)


def moved_by(stand, name):
    """The names of the operations that hang on a size."""
    return tuple(each.name for each in bound_operations(stand) if name in each.sizes)
