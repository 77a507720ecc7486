"""What a model is: inputs declared once, results declared once, and four uses of one formula.

A model is a frozen dataclass. Each input is declared with its words, symbol, range, step and the
tolerance that a careful person holds. Each result is a property whose body is the plain expression
of the inputs. The body never runs on the model itself but on a stand-in (`Plain`) whose fields
are floats (mm, rad), arrays, Quantities or symbols, so that one body gives

1. the number: `jig.outer_pivot`, a Quantity; `jig.plain.outer_pivot`, the float in mm;
2. the working for the class: `jig.working("outer_pivot")`;
3. the error budget: `jig.budget("outer_pivot")`;
4. the other way round: `jig.find("diameter", outer_pivot="226 mm")`.
"""

import dataclasses
import math
from functools import cached_property

from shoplib import measure

REQUIRED = object()
LENGTH_STEPS = ("0.1 mm", "1/64 in")
FINE = {"length": ("0.01 mm", "0.001 in"), "angle": ("0.01 deg", None), "mass": ("0.01 kg", None)}


class Told:
    """A sentence with lengths in it, told in the unit that the reader works in.

    The lengths are floats in mm and fill the braces of the sentence in order.

    >>> Told("The wall is {}.", 25.4).tell("in")
    'The wall is 1 in.'
    """

    def __init__(self, sentence, *lengths, input=None):
        self.sentence, self.lengths, self.input = sentence, lengths, input

    def tell(self, unit="mm"):
        if not self.lengths:
            return self.sentence  # may quote what a person typed, braces too
        return self.sentence.format(*(_told(value, unit) for value in self.lengths))

    def __str__(self):
        return self.tell()


def _told(value, unit):
    """A length in a sentence; a small one that the usual step would spoil is written more finely."""
    steps, small = (value / 25.4 * 64, 6.35) if unit == "in" else (value * 10, 10.0)
    is_fine = abs(value) < small and abs(steps - round(steps)) > 0.05
    return write_value(value, "length", unit, *(FINE["length"] if is_fine else LENGTH_STEPS))


class ShapeError(Told, ValueError):
    """These sizes cannot be made: says which, how big, what the limit is and what to change."""

    def __init__(self, sentence, *lengths, input=None):
        Told.__init__(self, sentence, *lengths, input=input)
        ValueError.__init__(self, sentence, *lengths)


class Caution(Told):
    """It can be made but should worry you: a sentence, the input it hangs on and its source."""

    def __init__(self, sentence, *lengths, input, source="common practice"):
        super().__init__(sentence, *lengths, input=input)
        self.source = source

    def __repr__(self):
        return f"Caution({self.tell()!r}, source={self.source!r})"


class Input:
    """One declared input: as a class attribute it reads, checks and keeps what the model is given."""

    def __init__(self, kind, words, symbol, low, high, step, inch_step, tolerance, help, default, options=()):
        self.kind, self.words, self.symbol = kind, words, symbol
        self.low, self.high, self.step, self.inch_step = low, high, step, inch_step
        self.tolerance, self.help, self.default, self.options = tolerance, help, default, options
        self.plain_steps = {
            unit: measure.plain(kind, text) if isinstance(text, str) else text
            for unit, text in (("mm", step), ("in", inch_step or step))
        }

    def __set_name__(self, owner, name):
        self.name = name

    @property
    def optional(self):
        return self.default is None

    def __get__(self, model, owner=None):
        if model is not None:
            return public(model.values[self.name], self.kind)
        if self.default is REQUIRED:
            raise AttributeError(self.name)
        return self.default

    def __set__(self, model, value):
        model.__dict__.setdefault("values", {})[self.name] = self.read(value)

    def read(self, value):
        """Turn what a person gave into a float in mm or rad, a whole number, or None where left out."""
        if value is None:
            if self.optional:
                return None
            raise measure.MeasureError(f"The {self.words} is missing. {self.help}")
        if self.kind == "count":
            return self._read_count(value)
        if self.kind == "flag":
            return self._read_flag(value)
        if self.kind == "choice":
            return self._read_choice(value)
        try:
            size = measure.plain(self.kind, value)
        except measure.MeasureError as error:
            raise measure.MeasureError(f"{self.words[:1].upper()}{self.words[1:]}: {error}") from None
        return self._inside_limit(size)

    def _read_count(self, value):
        number = value.strip() if isinstance(value, str) else value
        if isinstance(number, str) and number.isascii() and number.isdigit() and len(number) < 7:
            number = int(number)
        if isinstance(number, bool) or not isinstance(number, int):
            raise measure.MeasureError(
                f"The {self.words} is a count: write a whole number such as {self.low}, not {str(value)[:30]!r}."
            )
        if not self.low <= number <= self.high:
            raise ShapeError(
                f"The {self.words} is {number}: it must be from {self.low} to {self.high}.", input=self.name
            )
        return number

    def _read_flag(self, value):
        if isinstance(value, bool):
            return value
        raise measure.MeasureError(f"{self.words}: say True or False, not {str(value)[:30]!r}.")

    def _read_choice(self, value):
        if isinstance(value, str) and value in self.options:
            return value
        raise measure.MeasureError(
            f"{self.words}: choose one of {', '.join(self.options)}, not {str(value)[:30]!r}."
        )

    def _inside_limit(self, value):
        """A size whose range starts above nothing must be above nothing; one that starts at nothing may be it."""
        if self.low > 0 and value <= 0 or self.low == 0 and value < 0:
            wanted = "more than nothing" if self.low > 0 else "nothing or more"
            sentence = f"The {self.words} is {{}}: it must be {wanted}. Give a larger one."
            if self.kind == "length":
                raise ShapeError(sentence, value, input=self.name)
            raise ShapeError(sentence.format(self.write(value)), input=self.name)
        return value

    def write(self, value, unit="mm"):
        """Write a plain value for a person, in `unit` where it is a length.

        A size that does not fall on the slider's step is written more finely, never rounded to it.
        """
        if self.kind in FINE and value is not None and not self._on_step(value, unit):
            return write_value(value, self.kind, unit, *FINE[self.kind])
        return write_value(value, self.kind, unit, self.step, self.inch_step)

    def _on_step(self, value, unit):
        steps = value / self.step_in(unit)
        return abs(steps - round(steps)) < 1e-7

    def step_in(self, unit):
        """The slider's step in mm, rad, kg or one: a neat part of a millimetre, or of an inch."""
        return self.plain_steps["in" if unit == "in" else "mm"]


def _declared(kind):
    def declare(
        words, symbol, low, high, step, tolerance, help, default=REQUIRED, inch_step=None
    ):  # tolerance: what a careful person holds
        plain = [measure.plain(kind, text) for text in (low, high, tolerance)]
        return Input(kind, words, symbol, plain[0], plain[1], step, inch_step, plain[2], help, default)

    declare.__doc__ = f"Declare an input that is a {kind}: every size as text with its unit."
    return declare


length, angle, mass, percent = map(_declared, ("length", "angle", "mass", "percent"))


def count(words, symbol, low, high, help, default=REQUIRED):
    """Declare an input that is a whole number of things, from low to high."""
    return Input("count", words, symbol, low, high, 1, None, None, help, default)


def flag(words, symbol, help, default):
    """Declare an input that is yes or no."""
    return Input("flag", words, symbol, False, True, None, None, None, help, default)


def choice(words, symbol, options, help, default):
    """Declare an input that is one of a few words."""
    return Input("choice", words, symbol, None, None, None, None, None, help, default, tuple(options))


class Result:
    """One declared result: a property of the model whose body runs on the stand-in."""

    def __init__(self, body, words, symbol, kind, step, inch_step, checks, plan, minor):
        self.body, self.words, self.symbol, self.kind = body, words, symbol, kind
        self.step, self.inch_step, self.checks, self.plan, self.minor = step, inch_step, checks, plan, minor
        self.__doc__ = body.__doc__

    @property
    def table(self):
        """Whether this is a plan of several columns, too long for one line."""
        return self.plan and self.kind == "table"

    def __set_name__(self, owner, name):
        self.name = name

    def __get__(self, model, owner=None):
        return self if model is None else public(getattr(model.plain, self.name), self.kind)

    def write(self, value, unit="mm"):
        """Write a plain value of this result for a person, in `unit` where it is a length."""
        return write_value(value, self.kind, unit, self.step, self.inch_step)


    def write_cell(self, value, unit="mm"):
        """Write one cell of a table: a length, or a count of things."""
        if isinstance(value, float):
            return write_value(value, "length", unit, self.step or "0.1 mm", self.inch_step)
        return str(value)


def result(words, symbol, kind="length", step=None, inch_step="1/64 in", checks=None, plan=False, minor=False):
    """Declare a result: its words, symbol and kind (length, angle, ratio, count or area).

    `checks` names the input that a measurement of this result tells something about. A `plan` is
    worked out step by step in plain Python (passes, rows): it has no single formula to show. A
    `minor` result is a step on the way to others: it stands in their working but not in the table.
    """
    usual = {"length": "0.1 mm", "angle": "0.01 deg", "mass": "0.1 kg", "ratio": 0.001, "count": 1}

    def declare(body):
        return Result(body, words, symbol, kind, step or usual.get(kind), inch_step, checks, plan, minor)

    return declare


def write_value(value, kind, unit, step, inch_step):
    """Write one plain value: '226.0 mm', '8 57/64 in', '15.00 deg', '12', 'yes' or '0.712'."""
    if value is None:
        return "left out"
    if type(value) is tuple:
        return ", ".join(write_value(each, kind, unit, step, inch_step) for each in value)
    if kind == "length" and isinstance(value, float):
        return measure.write(value, kind, unit, inch_step if unit == "in" else step)
    if kind == "angle":
        return measure.write(value, kind, "deg", step)
    if kind == "mass":
        return measure.write(value, kind, "lb", "0.1 lb") if unit == "in" else measure.write(value, kind, "kg", step)
    if kind == "percent":
        on_tenths = abs(1000 * value - round(1000 * value)) < 1e-6
        return measure.write(value, kind, "percent", "0.1 %" if on_tenths else "0.01 %")
    if kind == "flag":
        return "yes" if value else "no"
    if kind == "ratio":
        digits = max(0, -math.floor(math.log10(step)))
        return f"{round(value, digits) + 0.0:.{digits}f}"
    return str(value)


def write_finely(value):
    """A Quantity for a person, to 0.01 mm or 0.01 deg; counts as they are, ratios to four places."""
    if isinstance(value, int):
        return str(value)
    if not hasattr(value, "magnitude"):
        return f"{value:.4f}"
    for unit, step in (("mm", "0.01 mm"), ("deg", "0.01 deg"), ("kg", "0.01 kg"), ("percent", "0.01 %")):
        if str(value.units) == unit or value.is_compatible_with(unit) and not value.dimensionless:
            return measure.show(value, unit, step)
    return measure.show(value, "deg", "0.01 deg")


_BASE_UNITS = {"length": "mm", "table": "mm", "angle": "rad", "mass": "kg", "temperature": "degC"}


def public(value, kind):
    """A plain value as the outside sees it: floats with a unit become Quantities, plans tuples of them."""
    if isinstance(value, tuple):
        items = [public(each, kind) for each in value]
        return type(value)(*items) if hasattr(value, "_fields") else tuple(items)
    if isinstance(value, float) and kind == "percent":
        return measure.quantity(round(100 * value, 12), "percent")
    if isinstance(value, float) and kind in _BASE_UNITS:
        found = measure.quantity(value, _BASE_UNITS[kind])
        return found.to("deg") if kind == "angle" else found
    return value


class Plain:
    """The stand-in that the bodies run on: inputs as attributes, results worked out when first asked."""

    pi = math.pi
    model = None

    def __init__(self, values):
        self.__dict__.update((name, value) for name, value in values.items() if value is not None)

    def __getattr__(self, name):
        if self.model is not None and name in self.model.inputs():
            words = self.model.inputs()[name].words
            raise ShapeError(f"This needs the {words}, which was left out: give it.", input=name)
        raise AttributeError(name)

    def has(self, name):
        """Whether this optional input was given."""
        return name in self.__dict__

    def check(self):
        """Raise ShapeError where the sizes together cannot be made. Models say how."""

    def worries(self):
        """Yield the Cautions. Models say which."""
        return ()


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

    TABLE_HEAD = "Set it to"  # or, where nothing is set, "It comes to"

    def __post_init__(self):
        self.plain.check()

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
        return tuple(self.plain.worries())

    def working(self, name, unit="mm"):
        """Show how a result comes about: formula, numbers put in, result."""
        from shoplib.working import Working

        known(name, self.results(), "result")
        return Working(type(self), self.plain, name, unit)

    def budget(self, name):
        """What each input's tolerance does to a result, largest first."""
        from shoplib.budget import budget

        known(name, self.results(), "result")
        return budget(type(self), self.values, name)

    def find(self, input, **wanted):
        """Find the values of one input that give a wanted result, the others staying as they are.

        All values within the input's declared range are returned, smallest first; counts are
        tried one by one and kept where the result, read to its own step, is the wanted one.
        """
        from shoplib.inverse import find

        if len(wanted) != 1:
            raise measure.MeasureError("Ask for one result at a time, for instance outer_pivot='226 mm'.")
        known(input, self.inputs(), "input")
        known(*wanted, self.results(), "result")
        return find(type(self), self.values, input, wanted)

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
