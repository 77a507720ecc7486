"""Depths of a cut that is too deep for one pass."""

from shoplib.maths.functions import whole


def equal_passes(total, deepest):
    """Cumulative depths of the fewest equal passes, none deeper than `deepest`, ending at `total`.

    >>> equal_passes(18.0, 5.0)
    (4.5, 9.0, 13.5, 18.0)
    """
    passes = whole(total / deepest)
    return tuple(total * (k / passes) for k in range(1, passes)) + (total,)


def passes_with_finish(total, deepest, finish):
    """Cumulative depths of the fewest passes of which the last is only `finish` deep and the others equal.

    Where `finish` is nothing they are all equal.

    >>> passes_with_finish(12.0, 4.0, 0.75)
    (3.75, 7.5, 11.25, 12.0)
    """
    if finish == 0:
        return equal_passes(total, deepest)
    return (*equal_passes(total - finish, deepest), total)
