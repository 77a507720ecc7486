"""A result's formula in sympy symbols: its own body run on symbols instead of numbers.

What is nothing (an offset of 0), a right angle or half a turn may run as what it is, so that a simple piece gets a
simple formula.
"""

from functools import cache


def _symbol(item):
    """A sympy symbol that is known to be a size, or any real number where it may be negative, as any result may."""
    import sympy

    low = getattr(item, "low", None)
    signs = {"real": True} if low is None or low < 0 else {"nonnegative": True}
    return sympy.Symbol(item.symbol, **signs)


def symbols(cls):
    """The model's inputs and results as sympy symbols, by name."""
    return {name: _symbol(item) for name, item in (cls.inputs() | cls.results()).items()}


def formula(cls, name, deep=True, settled=()):
    """A result's formula in sympy symbols; deep puts the formulas of other results in as well.

    `settled` names what runs as a plain number instead of a symbol: pairs of a name and 0, 90 or 180 degrees.

    >>> from shoplib.maths.circle_jigs import CircleJig
    >>> formula(CircleJig, "pivot_step")
    d + w
    """
    return _run(cls, name, deep, {key: _exactly(degrees) for key, degrees in settled})


def gravity():
    """The symbol of standard gravity, as it stands on a page."""
    import sympy

    return sympy.Symbol("g", positive=True)


OWN = ("gravity", "millimetre", "megapascal", "kilogram", "litre", "square_metre")


@cache
def brings_sizes(cls, name):
    """Whether a formula brings sizes of its own, such as 2 mm or gravity: then it holds in mm, N and MPa alone.

    >>> from shoplib.maths.pull_bars import StubBar
    >>> brings_sizes(StubBar, "stub_share"), brings_sizes(StubBar, "stub_length")
    (True, False)
    """
    import sympy

    own = {each: sympy.Symbol(f"own {each}", positive=True) for each in OWN}
    return not _run(cls, name, True, {}, own).free_symbols.isdisjoint(own.values())


def _run(cls, name, deep, numbers, own=None):
    """The result's own body on symbols, some of them exchanged for numbers; `own` are what it brings itself."""
    import sympy

    known = symbols(cls)
    plans = {key for key, item in cls.results().items() if item.plan}
    kept = {
        key: symbol for key, symbol in known.items()
        if key != name and (key in cls.inputs() or key in plans or not deep)
    }
    stand = cls.Stand(kept | numbers | (own or {}) | {"pi": sympy.pi})
    expression = sympy.sympify(getattr(stand, name))
    return _signed(_turned_back(cls, expression)) if numbers else expression


def _signed(expression):
    """A sum that is taken away, -(a - b), as b - a."""
    import sympy

    def is_taken_away(part):
        return part.is_Mul and len(part.args) == 2 and part.args[0] == -1 and part.args[1].is_Add

    return expression.replace(is_taken_away, lambda part: sympy.Add(*(-term for term in part.args[1].args)))


def _turned_back(cls, expression):
    """atan(tan(x)) as x, and so on, where x is a share of a whole that counts settle: atan(tan(pi/n)) is pi/n."""
    import sympy

    known = symbols(cls)
    least = {known[key]: item.low for key, item in cls.inputs().items() if item.kind == "count"}
    for there, back in ((sympy.tan, sympy.atan), (sympy.sin, sympy.asin)):
        turned = {each for each in expression.atoms(back) if isinstance(each.args[0], there)}
        for each in turned:
            angle = each.args[0].args[0]
            n = next(iter(angle.free_symbols), None)
            if n in least and (angle * n).is_number and 0 < angle.subs(n, least[n]) < sympy.pi / 2:
                expression = expression.subs(each, angle)
    return expression


def _exactly(degrees):
    """0, 90 or 180 degrees in radians, as sympy knows them."""
    import sympy

    return sympy.pi * degrees / 180


@cache
def hangs_on(cls, name):
    """The inputs and plans that a result hangs on."""
    free, known = formula(cls, name).free_symbols, symbols(cls)
    return tuple(key for key, symbol in known.items() if symbol in free)


@cache
def on_the_page(cls, name, settled):
    """The formula on the page: settled inputs, and results that they settle, as numbers."""
    known, numbers, own = symbols(cls), {key: _exactly(degrees) for key, degrees in settled}, {"gravity": gravity()}
    expression = _run(cls, name, False, numbers, own)
    if settled:
        leans_on = [key for key in cls.results() if known[key] in expression.free_symbols]
        fixed = {key: value for key in leans_on if (value := _constant(cls, key, settled)) is not None}
        expression = _run(cls, name, False, numbers | fixed, own) if fixed else expression
    return expression


@cache
def _constant(cls, name, settled):
    """The number that a result comes to whatever the other inputs are, or None."""
    if cls.results()[name].plan:
        return None
    found = formula(cls, name, True, settled)
    return found if found.is_number and found.is_finite else None
