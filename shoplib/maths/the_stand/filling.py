"""How a lesson's model is filled from the stand: from a size of it, from a formula of sizes, or always alike."""

from dataclasses import dataclass, field
from functools import lru_cache
from operator import attrgetter
from typing import NamedTuple

from shoplib.model import REQUIRED, ShapeError

NUMBERS = ("length", "angle", "mass", "force", "stress", "percent", "surface")
OWN = ("gravity", "millimetre", "megapascal", "kilogram", "litre", "square_metre", "pi")


class Size(NamedTuple):
    """Filled from one size of the stand: what is changed in the lesson can be kept in the stand."""

    name: str

    def read(self, plain):
        fields = plain.__dict__
        if "seen" in fields:  # it is being watched which sizes are read
            fields["seen"][self.name] = None
        return fields.get(self.name)


class Reckoned(NamedTuple):
    """Filled by a formula of the stand's sizes: one way only."""

    formula: object
    named: str = ""  # the stand's result that it is

    def read(self, plain):
        return self.formula(plain)


class Always(NamedTuple):
    """The same for every stand."""

    value: object

    def read(self, plain):
        return self.value


def size(name):
    """From this size of the stand."""
    return Size(name)


def reckoned(formula):
    """From a formula of the stand's sizes, or from the stand's result of this name."""
    return Reckoned(attrgetter(formula), formula) if isinstance(formula, str) else Reckoned(formula)


def always(value):
    """From the way this stand is built, whatever its sizes."""
    return Always(value)


@dataclass(frozen=True, eq=False)
class Operation:
    """One operation of the work: what it is called, whose lesson it is, and how that lesson's model is filled.

    `part` is what it is done to and `count` how many of it there are: a number, or the formula of one. `when` says
    whether a stand has it at all. `left` names the model's inputs that stay at their default on purpose. `gives` names
    the model's results that are sizes or results of the stand too, by the stand's name.
    """

    name: str
    title: str
    lesson: str
    model: type
    part: str
    fill: dict
    count: object = 1
    when: object = None
    left: tuple = ()
    gives: dict = field(default_factory=dict)

    @property
    def lesson_words(self):
        """The lesson as a reader knows it.

        >>> from shoplib.maths.the_stand.operations import OPERATIONS
        >>> OPERATIONS["rebate"].lesson_words
        'lesson 03'
        """
        return f"lesson {self.lesson[:2]}"

    def of(self, plain):
        """Whether this stand has the operation."""
        return self.when is None or self.when(plain)

    def how_many(self, plain):
        """How many pieces it is done to."""
        return self.count(plain) if callable(self.count) else self.count

    def values(self, plain):
        """The model's inputs in plain values, from the stand's stand-in."""
        found = dict(_defaults(self.model))
        for name, source in self.fill.items():
            found[name] = source.read(plain)
        return found

    def sources(self, name):
        """The stand's size that an input is filled from, or nothing where it is reckoned."""
        source = self.fill.get(name)
        return source.name if type(source) is Size else None

    def instance(self, plain):
        """The model's stand-in on whatever the stand's fields are: floats, arrays, Quantities or symbols.

        Not checked, and filled only as far as it is asked. What the stand knows already of the model's results
        is taken over.
        """
        found = _lazy(self)({})
        found.__dict__["stand"] = plain
        for name, known in self.gives.items():
            if known in plain.__dict__:
                found.__dict__[name] = plain.__dict__[known]
        for own in OWN:
            if own in plain.__dict__:
                found.__dict__[own] = plain.__dict__[own]
        return found

    def solved(self, plain):
        """The model's checked stand-in; raises ShapeError in the words of its lesson."""
        found = _solved(self, tuple(self.values(plain).values()))
        if isinstance(found, ShapeError):
            raise found
        return found


def built(model, values):
    """The model of plain values, checked: none of them goes through text."""
    found = object.__new__(model)
    found.__dict__.update(values=values, _plain=model.solved(values))
    return found


@lru_cache(maxsize=64)
def _lazy(operation):
    """The model's stand-in class whose fields are filled from the stand in `stand` when they are first read."""
    fill, inputs, defaults = operation.fill, operation.model.inputs(), _defaults(operation.model)

    def filled(self, name):
        if name in fill:
            return fill[name].read(self.stand)
        value = defaults[name]
        return value * self.stand.millimetre if value and inputs[name].kind == "length" else value

    def __getattr__(self, name):
        value = filled(self, name) if name in inputs else None
        if value is None:
            return operation.model.Stand.__getattr__(self, name)
        self.__dict__[name] = value
        return value

    def has(self, name):
        return name in self.__dict__ or filled(self, name) is not None

    return type(operation.model.__name__, (operation.model.Stand,), {"__getattr__": __getattr__, "has": has})


@lru_cache(maxsize=64)
def _defaults(model):
    """The plain values of a model's inputs that have a default; None for the others."""
    return {
        name: None if item.default is REQUIRED or item.default is None else item.read(item.default)
        for name, item in model.inputs().items()
    }


@lru_cache(maxsize=512)  # most operations stay as they are while one slider moves
def _solved(operation, values):
    """The checked stand-in for these values, or the ShapeError that says why there is none."""
    inputs = operation.model.inputs()
    given = dict(zip(inputs, values))
    try:
        for name, item in inputs.items():
            value = given[name]
            if value is not None and item.kind in NUMBERS:
                item._inside_limit(value)
            elif item.kind == "count":
                item.read(value)
        return operation.model.solved(given)
    except ShapeError as error:
        return error
