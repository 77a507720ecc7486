"""One name for sine, root, least and the rest, whatever they are given."""

import math

import numpy
import pint
import pytest
import sympy

from shoplib import measure
from shoplib.maths import functions

x = sympy.Symbol("x", real=True)
ELEMENTARY = {
    "sin": 0.4, "cos": 0.4, "tan": 0.4, "asin": 0.4, "acos": 0.4, "atan": 2.5, "sqrt": 6.25,
}  # fmt: skip


@pytest.mark.parametrize(("name", "at"), ELEMENTARY.items())
class TestElementary:
    def test_float(self, name, at):
        found = getattr(functions, name)(at)
        assert type(found) is float
        assert found == getattr(math, name)(at)

    def test_whole_number(self, name, at):
        assert getattr(functions, name)(1) == getattr(math, name)(1)

    def test_array(self, name, at):
        found = getattr(functions, name)(numpy.array([at, at / 2]))
        assert isinstance(found, numpy.ndarray)
        assert found == pytest.approx([getattr(math, name)(at), getattr(math, name)(at / 2)])

    def test_element_of_an_array(self, name, at):
        assert getattr(functions, name)(numpy.float64(at)) == pytest.approx(getattr(math, name)(at))

    def test_symbol(self, name, at):
        formula = getattr(functions, name)(x)
        assert formula == getattr(sympy, name)(x)
        assert float(formula.subs(x, at)) == pytest.approx(getattr(math, name)(at))


@pytest.mark.parametrize("name", ["sin", "cos", "tan"])
@pytest.mark.parametrize("unit", ["rad", "deg", "arcminute"])
def test_circular_functions_take_any_unit_of_angle(name, unit):
    found = getattr(functions, name)(measure.quantity(0.4, "rad").to(unit))
    assert found.dimensionless
    assert found.m_as("dimensionless") == pytest.approx(getattr(math, name)(0.4))


@pytest.mark.parametrize("name", ["asin", "acos", "atan"])
def test_inverse_functions_give_an_angle(name):
    ratio = measure.quantity(1, "cm") / measure.quantity(25, "mm")
    wanted = math.degrees(getattr(math, name)(0.4))
    assert getattr(functions, name)(ratio).m_as("deg") == pytest.approx(wanted)


def test_root_of_an_area_is_a_length():
    assert functions.sqrt(measure.quantity(6.25, "cm**2")).m_as("mm") == pytest.approx(25)


@pytest.mark.parametrize("name", ["sin", "cos", "tan", "asin", "acos", "atan"])
def test_a_length_has_no_sine(name):
    with pytest.raises(pint.DimensionalityError):
        getattr(functions, name)(measure.quantity(1, "mm"))


@pytest.mark.parametrize(("function", "wanted"), [(functions.least, 2), (functions.most, 5)])
class TestLeastAndMost:
    def test_floats(self, function, wanted):
        assert function(3.0, 2.0, 5.0) == wanted

    def test_quantities_in_two_units(self, function, wanted):
        found = function(measure.quantity(0.2, "cm"), measure.quantity(5, "mm"))
        assert found.m_as("mm") == pytest.approx(wanted)

    def test_arrays(self, function, wanted):
        found = function(numpy.array([3.0, wanted]), numpy.array([2.0, 3.0]), numpy.array([5.0, 3.0]))
        assert list(found) == [wanted, wanted if wanted > 3 else 2]

    def test_array_and_float(self, function, wanted):
        assert list(function(numpy.array([2.0, 5.0]), 3.0)) == ([2, 3] if wanted == 2 else [3, 5])

    def test_symbols(self, function, wanted):
        assert function(x, 2, 5).subs(x, 3) == wanted

    def test_lengths_and_bare_numbers_do_not_mix(self, function, wanted):
        with pytest.raises(ValueError, match="Cannot compare"):
            function(measure.quantity(1, "mm"), 2.0)


UP = [(2.0, 2), (2.2, 3), (0.0, 0), (-0.3, 0), (3 + 1e-13, 3), (3 - 1e-13, 3), (3 + 1e-6, 4)]


@pytest.mark.parametrize(("number", "wanted"), UP)
def test_whole_number_up(number, wanted):
    assert functions.whole(number) == wanted
    assert type(functions.whole(number)) is int
    assert functions.whole(measure.quantity(number, "m") / measure.quantity(100, "cm")) == wanted
    assert list(functions.whole(numpy.array([number, number]))) == [wanted, wanted]


def test_whole_number_up_of_a_symbol():
    assert functions.whole(x).subs(x, 2.2) == 3


@pytest.mark.parametrize(("at", "wanted"), [(2.0, 10), (-2.0, 20)])
def test_choose(at, wanted):
    assert functions.choose(at > 0, 10, 20) == wanted
    assert list(functions.choose(numpy.array([at, 1.0]) > 0, 10, 20)) == [wanted, 10]
    assert functions.choose(x > 0, sympy.Integer(10), sympy.Integer(20)).subs(x, at) == wanted
    large, small = measure.quantity(10, "mm"), measure.quantity(20, "mm")
    assert functions.choose(measure.quantity(at, "mm") > 0, large, small).m_as("mm") == wanted
