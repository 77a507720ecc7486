"""The working shown to a class: the formula, the numbers put in, the result.

The formula is the model's own body run on symbols, so it cannot differ from the number. Results
that it leans on are shown as steps before it. The typeset text is made once for each formula;
after that only the numbers are exchanged, quickly enough for a slider.
"""

import math
from functools import cache
from typing import NamedTuple

from shoplib.model.sentences import ShapeError


class Step(NamedTuple):
    """One line of working: its name and words, and the three stages in MathML and in LaTeX."""

    name: str
    words: str
    mathml: str
    latex: str


class Template(NamedTuple):
    """One formula typeset, with marks where the numbers go."""

    name: str
    leans_on: tuple
    mathml: str
    latex: str


def _symbol(item):
    """A sympy symbol that is known to be a size, or any real number where it may be negative."""
    import sympy

    low = getattr(item, "low", 0)
    signs = {"real": True} if low is None or low < 0 else {"nonnegative": True}
    return sympy.Symbol(item.symbol, **signs)


def symbols(cls):
    """The model's inputs and results as sympy symbols, by name."""
    return {name: _symbol(item) for name, item in (cls.inputs() | cls.results()).items()}


def formula(cls, name, deep=True):
    """A result's formula in sympy symbols; deep puts the formulas of other results in as well.

    >>> from shoplib.maths.circle_jigs import CircleJig
    >>> formula(CircleJig, "pivot_step")
    d + w
    """
    import sympy

    known = symbols(cls)
    plans = {key for key, item in cls.results().items() if item.plan}
    kept = {
        key: symbol for key, symbol in known.items()
        if key != name and (key in cls.inputs() or key in plans or not deep)
    }
    stand = cls.Stand(kept | {"pi": sympy.pi})
    return sympy.sympify(getattr(stand, name))


@cache
def _template(cls, name):
    """Typeset one formula, once with its symbols and once with marks for the numbers."""
    import sympy

    from shoplib.model.typeset import latex, mathml

    known = symbols(cls)
    expression = formula(cls, name, deep=False)
    used = sorted(key for key, symbol in known.items() if symbol in expression.free_symbols)
    marks = {known[key]: _mark(index) for index, key in enumerate(used)}
    stages = [known[name], expression]
    rows = [mathml(stage) for stage in stages], [latex(stage) for stage in stages]
    if used and not expression.has(sympy.Piecewise):
        rows[0].append(mathml(expression, marks))
        rows[1].append(latex(expression, marks))
    return Template(
        name, tuple(used),
        f"<math displaystyle='true'><mrow>{'<mo>=</mo>'.join([*rows[0], _mark('R')])}</mrow></math>",
        " = ".join([*rows[1], _mark("R")]),
    )


def _mark(index):
    return f"[[{index}]]"


class Working:
    """The working of one result, step by step."""

    def __init__(self, cls, plain, name, unit="mm"):
        if cls.results()[name].plan:
            raise ShapeError(f"The {cls.results()[name].words} are worked out step by step, not by one formula.")
        self.cls, self.plain, self.name, self.unit = cls, plain, name, unit
        self.steps = tuple(self._step(template) for template in _chain(cls, name))

    def _step(self, template):
        declared = self.cls.inputs() | self.cls.results()
        found = self.cls.results()[template.name]
        result = found.write(getattr(self.plain, template.name), self.unit)
        mathml = template.mathml.replace(_mark("R"), f"<mtext>{result}</mtext>")
        latex = template.latex.replace(_mark("R"), rf"\text{{{result}}}")
        for index, key in enumerate(template.leans_on):
            number = self._number(declared[key], getattr(self.plain, key))
            mathml = mathml.replace(_mark(index), number)
            latex = latex.replace(_mark(index), number.replace("°", r"^\circ").replace("%", r"\%"))
        return Step(template.name, found.words, mathml, latex)

    def _number(self, item, value):
        """A number as it is put into the formula: mm or decimal inches, degrees with their sign."""
        if item.kind == "angle":
            return _signed(f"{math.degrees(value):.4g}°", value)
        if item.kind == "length":
            return _signed(f"{value / 25.4:.4f}" if self.unit == "in" else _short(value), value)
        if item.kind == "percent":
            return _signed(f"{100 * value:.4g}%", value)
        if isinstance(value, float):
            return _signed(f"{value + 0.0:.5g}", value)
        return str(value)

    @property
    def latex(self):
        lines = (step.latex.replace(" = ", " &= ", 1) for step in self.steps)
        return r"\begin{aligned}" + r" \\ ".join(lines) + r"\end{aligned}"

    def __repr__(self):
        found = self.cls.results()[self.name]
        return f"{found.words}: {found.write(getattr(self.plain, self.name), self.unit)}"

    def _repr_latex_(self):
        return "$\\displaystyle " + self.latex + "$"

    @property
    def html(self):
        """The steps in MathML, one below the other."""
        return "".join(f"<div style='margin:12px 0'>{step.mathml}</div>" for step in self.steps)


def _short(value):
    return f"{value:.3f}".rstrip("0").rstrip(".")


def _signed(text, value):
    return f"({text})" if value < 0 else text


@cache
def _chain(cls, name):
    """The templates of a result and of all that it leans on, in the order of working."""
    template = _template(cls, name)
    chain = []
    for key in template.leans_on:
        if key in cls.results() and not cls.results()[key].plan:
            chain += [step for step in _chain(cls, key) if step not in chain]
    return (*chain, template)
