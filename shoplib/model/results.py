"""Results, each declared once: a property whose body is the plain expression of the inputs."""

from shoplib.model.writing import public, write_value

SET, FOUND = "Set it to", "It comes to"


class Result:
    """One declared result: a property of the model whose body runs on the stand-in."""

    def __init__(self, body, words, symbol, kind, step, inch_step, checks, plan, minor, to_set):
        self.body, self.words, self.symbol, self.kind = body, words, symbol, kind
        self.step, self.inch_step, self.checks, self.plan, self.minor = step, inch_step, checks, plan, minor
        self.to_set = to_set
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


def under_headings(items):
    """Results as every table tells them: first what is set, then what comes of it; pairs of heading and Results.

    A heading under which nothing would stand is left out.
    """
    parts = (SET, [item for item in items if item.to_set]), (FOUND, [item for item in items if not item.to_set])
    return tuple((heading, found) for heading, found in parts if found)


def result(
    words, symbol, kind="length", step=None, inch_step="1/64 in", checks=None, plan=False, minor=False, to_set=False
):
    """Declare a result: its words, symbol and kind (length, angle, ratio, count or area).

    `checks` names the input that a measurement of this result tells something about. A `plan` is
    worked out step by step in plain Python (passes, rows): it has no single formula to show. A
    `minor` result is a step on the way to others: it stands in their working but not in the table. What is `to_set`
    is set at a machine, sawn or marked; everything else comes of it, and a rule can check it.
    """
    usual = {
        "length": "0.1 mm", "angle": "0.01 deg", "mass": "0.1 kg", "force": "1 N", "stress": "0.1 MPa",
        "surface": "0.01 m2", "volume": "0.01 l", "ratio": 0.001, "count": 1,
    }

    def declare(body):
        return Result(body, words, symbol, kind, step or usual.get(kind), inch_step, checks, plan, minor, to_set)

    return declare
