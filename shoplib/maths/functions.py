"""Sine, root, least and the rest for all that a formula runs on.

A formula is written once and is run on floats (mm, rad), numpy arrays, pint Quantities and
sympy symbols. Each function here looks at what it was given and asks the library that owns it.
"""

import math


def _owner(*values):
    """Name the library that the values belong to: sympy, pint, numpy or plain Python."""
    for value in values:
        home = type(value).__module__
        if home.startswith("sympy"):
            return "sympy"
        if home.startswith("pint"):
            return "pint"
    return "numpy" if any(type(value).__module__ == "numpy" for value in values) else "python"


def _elementary(name):
    """Make the function of one number that math, numpy, sympy and pint all know as `name`."""
    plain = getattr(math, name)

    def function(x):
        if type(x) is float or type(x) is int:
            return plain(x)
        owner = _owner(x)
        if owner == "sympy":
            import sympy

            return getattr(sympy, name)(x)
        if owner == "python":
            return plain(x)
        import numpy

        if owner == "pint" and not name.startswith("a") and name != "sqrt":
            x = x.to("radian")
        elif owner == "pint" and name.startswith("a"):
            x = x.to("dimensionless")
        return getattr(numpy, "arc" + name[1:] if name.startswith("a") else name)(x)

    function.__name__ = name
    function.__doc__ = f"The {name} of a float, array, Quantity or symbol; angles in radians."
    return function


sin, cos, tan = _elementary("sin"), _elementary("cos"), _elementary("tan")
asin, acos, atan = _elementary("asin"), _elementary("acos"), _elementary("atan")
sqrt = _elementary("sqrt")


def _pick(values, python, sympy_name, numpy_name):
    owner = _owner(*values)
    if owner == "sympy":
        import sympy

        return getattr(sympy, sympy_name)(*values)
    if owner in ("python", "pint"):
        return python(values)
    import functools

    import numpy

    return functools.reduce(getattr(numpy, numpy_name), values)


def least(*values):
    """The smallest of the values.

    >>> least(3.0, 2.0)
    2.0
    """
    return _pick(values, min, "Min", "minimum")


def most(*values):
    """The largest of the values.

    >>> most(3.0, 2.0)
    3.0
    """
    return _pick(values, max, "Max", "maximum")


def whole(x):
    """The next whole number up: how many boards, passes or staves.

    A hair of rounding (one part in a thousand million) does not ask for one more.

    >>> whole(2.2), whole(3.0000000000001)
    (3, 3)
    """
    owner = _owner(x)
    if owner == "sympy":
        import sympy

        return sympy.ceiling(x)
    if owner == "pint":
        x = x.to("dimensionless").magnitude
    if owner == "numpy":
        import numpy

        return numpy.ceil(x - 1e-9)
    return math.ceil(x - 1e-9)


def choose(condition, yes, no):
    """`yes` where the condition holds, else `no`.

    >>> choose(2 > 1, "outside", "inside")
    'outside'
    """
    owner = _owner(condition, yes, no)
    if owner == "sympy":
        import sympy

        return sympy.Piecewise((yes, condition), (no, True))
    if owner == "numpy":
        import numpy

        return numpy.where(condition, yes, no)
    return yes if condition else no
