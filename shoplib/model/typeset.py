"""Typesets formulas as MathML for the bench and as LaTeX for the lesson.

What is added stands before what is taken away. Where marks are given for symbols, they are put in
the symbols' places, and products get their sign.
"""

import sympy
from sympy.printing.latex import LatexPrinter
from sympy.printing.mathml import MathMLPresentationPrinter


class AddFirst:
    """Terms in sympy's own order, but those that are taken away last."""

    def _as_ordered_terms(self, expr, order=None):
        terms = super()._as_ordered_terms(expr, order=order)
        return sorted(terms, key=lambda term: term.could_extract_minus_sign())


class Latex(AddFirst, LatexPrinter):
    pass


class MathML(AddFirst, MathMLPresentationPrinter):
    """Presentation MathML with marks as numbers, and cases behind a brace."""

    def _print_Symbol(self, sym, style="plain"):
        if sym not in self._settings["symbol_names"]:
            return super()._print_Symbol(sym, style)
        return self._text("mn", self._settings["symbol_names"][sym])

    def _print_Piecewise(self, expr):
        """A brace, then a line for each case: what it is, and when."""
        cases = [self._case(value, condition) for value, condition in expr.args]
        return self._within("mrow", self._text("mo", "{"), self._within("mtable", *cases))

    def _case(self, value, condition):
        when = [self._text("mtext", "if\u00a0"), self._print(condition)]
        if condition is sympy.true:
            when = [self._text("mtext", "otherwise")]
        return self._within("mtr", self._within("mtd", self._print(value)), self._within("mtd", *when))

    def _text(self, tag, text):
        return self._within(tag, self.dom.createTextNode(text))

    def _within(self, tag, *children):
        element = self.dom.createElement(tag)
        for child in children:
            element.appendChild(child)
        return element


def _settings(marks):
    return {"symbol_names": marks, "mul_symbol": "times"} if marks else {}


def latex(expression, marks=None):
    """An expression in LaTeX.

    >>> latex(sympy.Symbol("d") - sympy.Symbol("a"))
    'd - a'
    """
    return Latex(_settings(marks)).doprint(expression)


def mathml(expression, marks=None):
    """An expression in presentation MathML, without the surrounding element; its minus is as long as its plus."""
    return MathML(_settings(marks)).doprint(expression).replace("<mo>-</mo>", "<mo>\u2212</mo>")
