"""The model: a frozen dataclass of declared inputs, with what every model can do."""

import dataclasses
from functools import cached_property

from shoplib import measure
from shoplib.model.facts import Cautions, Facts
from shoplib.model.inputs import Input
from shoplib.model.results import Result
from shoplib.model.sentences import ShapeError
from shoplib.model.stand_in import Plain
from shoplib.model.twins import inch_twin
from shoplib.model.writing import LENGTH_STEPS, in_full, write_value


def model(cls):
    """Make a class a model: a frozen dataclass with its stand-in."""
    cls = dataclasses.dataclass(frozen=True, repr=False, eq=False)(cls)
    own = {
        name: cached_property(item.body) if isinstance(item, Result) else item
        for name, item in vars(cls).items()
        if not name.startswith("__") and not isinstance(item, Input)
    }
    cls.Stand = type(cls.__name__, (Plain,), own | {"model": cls, "__doc__": cls.__doc__})
    return cls


class Model:
    """What every model can do with its inputs and results."""

    OFFER = None  # an Offer, where some inputs are sold together in sizes

    def __post_init__(self):
        self._suit_defaults()
        self.plain.check()

    def _suit_defaults(self):
        """Where all lengths are written in inches, a default too is a size that a rule in inches knows."""
        inches = self.__dict__.pop("_in_inches", {})  # None: left out
        if set(inches.values()) == {True, None}:
            left_out = (name for name, given in inches.items() if given is None)
            self.values.update((name, inch_twin(self.values[name])) for name in left_out)

    @classmethod
    def inputs(cls):
        """The declared inputs by name, in the order of the signature."""
        return _declarations(cls, Input)

    @classmethod
    def results(cls):
        """The declared results by name, in the order of the class."""
        return _declarations(cls, Result)

    @classmethod
    def solved(cls, values):
        """The checked stand-in for plain values (mm, rad): the slider's short way past all text."""
        plain = cls.Stand(values)
        plain.check()
        return plain

    @property
    def plain(self):
        """The stand-in with floats in mm and rad."""
        return self.__dict__.setdefault("_plain", self.Stand(self.values))

    @property
    def cautions(self):
        """What can be made with these sizes but should worry you."""
        return Cautions(self.plain.worries())

    def tell(self, *names, unit="mm"):
        """Results in words with their values, or why they have none: a small table that shows itself.

        A plan of several columns is told alone, with a head of its own.

        >>> from shoplib import CircleJig
        >>> CircleJig("440 mm", "12 mm", ring_width="20 mm").tell("outer_pivot", "inner_pivot", unit="in")
        outside cut, pivot  8 57/64 in (8.898)
        inside cut, pivot   7 41/64 in (7.638)
        """
        for name in names:
            known(name, self.results(), "result")
        if len(names) == 1 and self.results()[names[0]].table:
            return self._told_plan(names[0], unit)
        words = [(self.results()[name].words, answer_in_full(self.plain, name, unit)) for name in names]
        return Facts([(said, f"— {why}" if why else text) for said, (text, why) in words])

    def _told_plan(self, name, unit):
        item, rows = self.results()[name], getattr(self.plain, name)
        if not rows:
            return Facts([(item.words, "none")])
        head = [column.replace("_", " ") for column in rows[0]._fields]
        cells = ([in_full(item.write_cell(cell, unit), cell, "length", unit) for cell in row] for row in rows)
        return Facts(cells, head)

    def vary(self, input, *sizes, show, unit="mm"):
        """What several sizes of one input make of some results, the other inputs as they are: a small table.

        >>> from shoplib import CircleJig
        >>> CircleJig("440 mm", "12 mm").vary("cutter_diameter", "8 mm", "12 mm", show=("outer_pivot", "hole_pivot"))
        cutter diameter  outside cut, pivot  plain hole, pivot
        8.0 mm           224.0 mm            216.0 mm
        12.0 mm          226.0 mm            214.0 mm
        """
        known(input, self.inputs(), "input")
        for name in show:
            known(name, self.results(), "result")
        head = [self.inputs()[input].words, *(self.results()[name].words for name in show)]
        rows = []
        for size in sizes:
            plain = self.replace(**{input: size}).plain
            texts = [given_in_full(plain, input, unit), *(answer_in_full(plain, name, unit)[0] for name in show)]
            rows.append(texts)
        return Facts(rows, head)

    def working(self, name, unit="mm"):
        """Show how a result comes about: formula, numbers put in, result."""
        from shoplib.model.working import Working

        known(name, self.results(), "result")
        return Working(type(self), self.plain, name, unit)

    def budget(self, name, unit="mm"):
        """What each input's tolerance does to a result, largest first; `unit` is that of the table it shows."""
        from shoplib.model.budget import budget

        known(name, self.results(), "result")
        return budget(type(self), self.values, name, unit)

    def find(self, input, unit=None, **wanted):
        """Find the values of one input that give a wanted result, the others staying as they are.

        All values within the input's declared range are returned, smallest first, and show themselves in `unit`,
        "mm" or "in": where it is left out, in inches if you ask in inches. Counts are tried one by one and kept
        where the result, read to its own step, is the wanted one.

        >>> from shoplib import CircleJig
        >>> CircleJig("17 3/8 in", "1/2 in").find("diameter", outer_pivot="9 in")
        outside diameter  17.500 in
        """
        from shoplib.model.inverse import find

        if len(wanted) != 1:
            raise measure.MeasureError("Ask for one result at a time, for instance outer_pivot='226 mm'.")
        known(input, self.inputs(), "input")
        known(*wanted, self.results(), "result")
        return find(type(self), self.values, input, wanted, unit)

    def replace(self, **changes):
        """The same model with some inputs changed, the others kept to the last digit."""
        changed = dataclasses.replace(self, **changes)
        values = changed.values | {name: value for name, value in self.values.items() if name not in changes}
        vars(changed).update(values=values, _plain=self.solved(values))
        return changed

    def summary(self, unit="mm"):
        """Inputs and results in one line, with units."""
        return summary(type(self), self.plain, unit)

    def __repr__(self):
        given = ", ".join(
            f"{name}={item.write(self.values[name])}" for name, item in self.inputs().items()
            if self.values[name] is not None
        )
        return f"{type(self).__name__}({given})"

    def __eq__(self, other):
        return type(self) is type(other) and self.values == other.values

    def __hash__(self):
        return hash((type(self), tuple(self.values.items())))


def known(name, declared, what):
    """Refuse a name that the model does not have."""
    if name not in declared:
        raise measure.MeasureError(f"There is no {what} {str(name)[:40]!r} here. There are: {', '.join(declared)}.")


def _declarations(cls, kind):
    """All Inputs or Results of a model class, looked up once."""
    cache = cls.__dict__.get("_declared_" + kind.__name__)
    if cache is None:
        cache = {name: item for name, item in vars(cls).items() if isinstance(item, kind)}
        setattr(cls, "_declared_" + kind.__name__, cache)
    return cache


def answer(plain, name, unit="mm"):
    """A result written for a person, or the reason why it has none: (text, reason)."""
    try:
        return plain.model.results()[name].write(getattr(plain, name), unit), ""
    except ShapeError as error:
        return "—", error.tell(unit)


def answer_in_full(plain, name, unit="mm"):
    """The same with the decimal inches in brackets, where a fraction is not exact."""
    text, why = answer(plain, name, unit)
    return (text if why else in_full(text, getattr(plain, name), plain.model.results()[name].kind, unit)), why


def given_in_full(plain, name, unit="mm"):
    """An input written for a person, in inches to a 64th with the decimal in brackets where that is not exact.

    >>> from shoplib import CircleJig
    >>> given_in_full(CircleJig("440 mm", "12.7 mm").plain, "diameter", "in")
    '17 21/64 in (17.323)'
    """
    item, value = plain.model.inputs()[name], getattr(plain, name)
    if unit != "in" or item.kind != "length":
        return item.write(value, unit)
    return in_full(write_value(value, item.kind, unit, *LENGTH_STEPS), value, item.kind, unit)


def summary(cls, plain, unit="mm"):
    """Inputs and results in one line, with units; a result without meaning is left out."""
    given = [
        f"{item.words} {item.write(getattr(plain, name), unit)}"
        for name, item in cls.inputs().items() if plain.has(name)
    ]
    found = [
        f"{item.words} {answer(plain, name, unit)[0]}"
        for name, item in cls.results().items() if not (item.table or item.minor) and not answer(plain, name, unit)[1]
    ]
    return f"{cls.__name__}: {', '.join(given)} -> {', '.join(found)}"
