"""The working shown to a class: the formula, the numbers put in, the result.

The formula is the model's own body run on symbols, so it cannot differ from the number. What is nothing (an
offset of 0), a right angle or half a turn does not run as a symbol but as what it is, so that a simple piece shows a
simple formula; a sentence says what was left out, and the whole formula stands folded below. Results that it
leans on are shown as steps before it. The typeset text is made once for each formula and each set of what is left
out; after that only the numbers are exchanged, quickly enough for a slider.

A formula that brings sizes of its own, such as gravity, holds in mm, N and MPa alone: it is worked in these, and its
result told in inches or pounds as well.
"""

import math
from functools import cache
from html import escape
from textwrap import wrap
from typing import NamedTuple

from shoplib import measure
from shoplib.model.formula import brings_sizes, formula, gravity, hangs_on, on_the_page, symbols
from shoplib.model.sentences import ShapeError, headed
from shoplib.model.stand_in import Plain
from shoplib.model.writing import IN_POUNDS

__all__ = ["Working", "formula", "symbols"]

METRIC = {"mass": ("weights", "kg"), "force": ("forces", "N"), "stress": ("stresses", "MPa"),
          "surface": ("surfaces", "m²"), "volume": ("volumes", "l")}
MEASURED = ("length", "angle", "mass", "force", "stress", "percent", "surface")


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


def _settled(cls, plain, name):
    """What can be left out of a result: pairs of a name and 0, 90 or 180 degrees."""
    declared = cls.inputs() | cls.results()
    for key in hangs_on(cls, name):
        if declared[key].kind in MEASURED:
            value, turns = getattr(plain, key), (0, 90, 180) if declared[key].kind == "angle" else (0,)
            for degrees in turns:
                if isinstance(value, float) and math.isclose(value, math.radians(degrees), rel_tol=1e-12):
                    yield key, degrees


@cache
def _template(cls, name, settled):
    """Typeset one formula, once with its symbols and once with marks for the numbers."""
    import sympy

    from shoplib.model.typeset import latex, mathml

    known = symbols(cls) | {"gravity": gravity()}
    expression = on_the_page(cls, name, settled)
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


@cache
def _chain(cls, name, settled):
    """The templates of a result and of all that it leans on, in the order of working."""
    template = _template(cls, name, settled)
    chain = []
    for key in template.leans_on:
        if key in cls.results() and not cls.results()[key].plan:
            chain += [step for step in _chain(cls, key, settled) if step not in chain]
    return (*chain, template)


@cache
def _is_sound(cls, name, settled):
    """Whether the formula still tells something, and divides by nothing, without the settled inputs."""
    import sympy

    chain = [on_the_page(cls, step.name, settled) for step in _chain(cls, name, settled)]
    infinite = (sympy.zoo, sympy.nan, sympy.oo)
    return not chain[-1].is_number and not any(expression.has(*infinite) for expression in chain)


@cache
def _whole(cls, name):
    """Every formula of the working in symbols alone: MathML and LaTeX of each."""
    from shoplib.model.typeset import latex, mathml

    known = symbols(cls)
    rows = [(known[step.name], on_the_page(cls, step.name, ())) for step in _chain(cls, name, ())]
    return tuple((f"{mathml(one)}<mo>=</mo>{mathml(other)}", f"{latex(one)} = {latex(other)}") for one, other in rows)


class Working:
    """The working of one result, step by step.

    >>> from shoplib import Cope
    >>> working = Cope("35 mm", "20 mm", "360 mm").working("rail_length")
    >>> working.left_out
    'Left out here, being nothing: offset, rake.'
    """

    def __init__(self, cls, plain, name, unit="mm", whole=False):
        if cls.results()[name].plan:
            words = headed(cls.results()[name].words)
            raise ShapeError(f"{words} this is worked out step by step, not by one formula.")
        self.cls, self.plain, self.name, self.unit = cls, plain, name, unit
        self.worked_in = "mm" if brings_sizes(cls, name) else unit
        self.settled = () if whole else self._left_out()
        self.steps = tuple(self._step(template) for template in _chain(cls, name, self.settled))

    def _left_out(self):
        """What can be left out here, one thing after another, as long as the formula still tells something."""
        settled = ()
        for pair in _settled(self.cls, self.plain, self.name):
            if _is_sound(self.cls, self.name, (*settled, pair)):
                settled = (*settled, pair)
        return settled

    @property
    def whole(self):
        """The same working with nothing left out."""
        return Working(self.cls, self.plain, self.name, self.unit, whole=True)

    @property
    def left_out(self):
        """A sentence that says what was left out of the formula; empty where nothing was."""
        declared, told = self.cls.inputs() | self.cls.results(), []
        for degrees, being in ((0, "nothing"), (90, "90 deg"), (180, "180 deg")):
            names = [declared[name].words for name, settled in self.settled if settled == degrees]
            told += [f"being {being}: {', '.join(names)}"] if names else []
        return f"Left out here, {'; '.join(told)}." if told else ""

    def _step(self, template):
        declared = self.cls.inputs() | self.cls.results()
        found = self.cls.results()[template.name]
        result = self._found(found, getattr(self.plain, template.name))
        mathml = template.mathml.replace(_mark("R"), f"<mtext>{result}</mtext>")
        latex = template.latex.replace(_mark("R"), _latex_text(result))
        for index, key in enumerate(template.leans_on):
            number = f"{Plain.gravity:g}"
            if key in declared:
                number = _bracketed(self._number(declared[key], getattr(self.plain, key)))
            mathml = mathml.replace(_mark(index), number)
            latex = latex.replace(_mark(index), _in_latex(number))
        return Step(template.name, found.words, mathml, latex)

    def _found(self, item, value):
        """What a step comes to: the last one as it is set, those before it as they are put in below.

        A length in inches is a decimal, and for the last step its fraction as well.
        """
        in_inches = self.unit == "in" and item.kind == "length" and isinstance(value, float)
        if item.name != self.name:
            return self._number(item, value) + self._unit_of(item, value)
        if self.worked_in != self.unit:
            worked, told = item.write(value, self.worked_in), item.write(value, self.unit)
            return worked if worked == told else f"{worked}, that is {told}"
        if not in_inches:
            return item.write(value, self.unit)
        inches, set_to = _inches(value / 25.4), item.write(value, "in").removesuffix(" in")
        _, is_part, part = item.inch_step.removesuffix(" in").partition("/")
        if not is_part or inches == set_to:
            return f"{set_to} in"
        return f"{inches} in, {set_to} to the nearest {_ORDINALS[part]}"

    def _number(self, item, value):
        """A number as it is put into the formula: mm or decimal inches, degrees with their sign."""
        if item.kind == "angle":
            return f"{math.degrees(value) + 0.0:.4g}°"
        if item.kind == "percent":
            return f"{100 * value:.4g}%"
        if not isinstance(value, float):
            return str(value)
        if item.kind == "length":
            return _trimmed(value / 25.4, 4) if self.worked_in == "in" else _trimmed(value, 3)
        if item.kind in IN_POUNDS and self.worked_in == "in":
            value /= _pound(item.kind)
        return f"{value + 0.0:.5g}"

    def _unit_of(self, item, value):
        """The unit that a number of this kind is put in, after a space."""
        if item.kind == "length":
            return f" {self.worked_in}"
        if item.kind in METRIC and isinstance(value, float):
            return " " + (IN_POUNDS[item.kind][0] if self.worked_in == "in" else METRIC[item.kind][1])
        return ""

    @property
    def units(self):
        """A line that says in which units the numbers stand that bring none."""
        declared = self.cls.inputs() | self.cls.results()
        keys = {key for step in _chain(self.cls, self.name, self.settled) for key in step.leans_on}
        kinds = {declared[key].kind for key in keys & set(declared)}
        unit = "inches" if self.worked_in == "in" else "mm"
        named = {"length": ("lengths", unit)} | {
            kind: (words, IN_POUNDS[kind][0] if self.worked_in == "in" else metric)
            for kind, (words, metric) in METRIC.items()
        }
        told = [f"{words} in {unit}" for kind, (words, unit) in named.items() if kind in kinds]
        return ", ".join(told + ["gravity g in N/kg"] * ("gravity" in keys))

    @property
    def latex(self):
        lines = (step.latex.replace(" = ", " &= ", 1) for step in self.steps)
        return r"\begin{aligned}" + r" \\ ".join(lines) + r"\end{aligned}"

    def __repr__(self):
        found = self.cls.results()[self.name]
        return f"{found.words}: {found.write(getattr(self.plain, self.name), self.unit)}"

    def _repr_latex_(self):
        if not self.left_out:
            return "$\\displaystyle " + self.latex + "$"
        lines = wrap(self.left_out, LINE)
        told = rf"\\[1.5ex] {_latex_text(lines[0])}" + "".join(rf" \\ {_latex_text(line)}" for line in lines[1:])
        return rf"$\displaystyle \begin{{array}}{{l}}\displaystyle {self.latex} {told}\end{{array}}$"

    @property
    def html(self):
        """The steps in MathML, what was left out, and the whole formula folded below."""
        return self.steps_html + self.whole_html

    @property
    def steps_html(self):
        """The steps in MathML, one below the other, and a sentence on what was left out."""
        told = f"<div style='font-size:15px'>{escape(self.left_out)}</div>" if self.left_out else ""
        return "".join(f"<div style='margin:12px 0'>{step.mathml}</div>" for step in self.steps) + told

    @property
    def whole_html(self):
        """The whole formula in symbols, folded; empty where nothing was left out. No slider changes it."""
        if not self.settled:
            return ""
        rows = "".join(
            f"<div style='margin:12px 0'><math displaystyle='true'><mrow>{row}</mrow></math></div>"
            for row, _ in _whole(self.cls, self.name)
        )
        return f"<details><summary style='font-size:15px;cursor:pointer'>The whole formula</summary>{rows}</details>"


LINE = 56  # letters of a sentence under a formula, which breaks no line of its own
_ORDINALS = {"2": "half", "4": "quarter", "8": "8th", "16": "16th", "32": "32nd", "64": "64th", "128": "128th"}


def _trimmed(value, places):
    """A decimal without noughts at its end, and without a negative nought."""
    text = f"{value:.{places}f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _inches(value):
    """Decimal inches to three places; fewer only where they say all."""
    return _trimmed(value, 3) if abs(value - round(value, 3)) < 1e-9 else f"{value:.3f}"


def _bracketed(number):
    """A negative number in brackets."""
    return f"({number})" if number.startswith("-") else number


def _in_latex(text):
    return text.replace("°", r"^\circ").replace("%", r"\%")


@cache
def _pound(kind):
    """A pound, a pound-force or a pound a square inch in the units that formulas run on."""
    return measure.plain(kind, f"1 {IN_POUNDS[kind][0]}")


def _latex_text(text):
    """Words in LaTeX, where a degree's sign stands as it is: maths is not read among words."""
    escaped = text.replace("%", r"\%")
    return rf"\text{{{escaped}}}"
