"""The error budget: what each input's tolerance does to a result.

The result is worked out again with one input at a time out by its tolerance, upwards and
downwards. Where only one side can be made, or both sides push the same way (a limit or a kink),
the budget says so and counts what it found. Worst case: all errors at once, each the bad way.
Root-sum-square: what several independent errors are likely to make together (JCGM 100:2008, 5.1).
"""

import math
from typing import NamedTuple

from shoplib.model.facts import Facts
from shoplib.model.sentences import ShapeError, headed
from shoplib.model.writing import finely, public


class Share(NamedTuple):
    """One input's share: its tolerance and what it does to the result, out upwards and downwards."""

    input: str
    words: str
    tolerance: object
    up: object
    down: object
    effect: object
    one_sided: bool


class Budget(NamedTuple):
    """All shares, largest first, and what they make together; shows itself as a small table."""

    result: str
    shares: tuple
    worst_case: object
    root_sum_square: object
    table: Facts | None = None

    def __repr__(self):
        return repr(self.table)

    def _repr_html_(self):
        return self.table._repr_html_()


def plain_budget(cls, values, name):
    """The budget in floats: for the bench, which works it out at every move of a slider."""
    nominal = getattr(cls.solved(values), name)
    shares = [
        _share(cls, values, name, item, nominal)
        for item in cls.inputs().values() if item.tolerance and values[item.name] is not None
    ]
    shares = sorted((share for share in shares if share.effect), key=lambda share: -share.effect)
    effects = [share.effect for share in shares]
    return Budget(name, tuple(shares), sum(effects, 0.0), math.hypot(*effects))


def _share(cls, values, name, item, nominal):
    up, down = (
        _change(cls, values, name, item, sign * item.tolerance, nominal) for sign in (1, -1)
    )
    found = [change for change in (up, down) if change is not None]
    one_sided = len(found) == 1 or len(found) == 2 and up * down > 0
    effect = max((abs(change) for change in found), default=0.0)
    return Share(item.name, item.words, item.tolerance, up, down, effect, one_sided)


def _change(cls, values, name, item, error, nominal):
    """How the result changes when one input is out by `error`; None where that cannot be made."""
    changed = values[item.name] + error
    if changed < 0 <= item.low or changed <= 0 < item.low:  # what is always more than nothing never is nothing
        return None
    try:
        return getattr(cls.solved(values | {item.name: changed}), name) - nominal
    except ShapeError:
        return None


def told(cls, found, unit="mm"):
    """A budget in floats as a table of texts.

    >>> from shoplib.maths.circle_jigs import CircleJig
    >>> CircleJig("440 mm", "12 mm").budget("outer_pivot", unit="in")
    measurement                    out by      outside cut, pivot, moved by
    outside diameter               ± 0.020 in  0.010 in                      both ways
    cutter diameter                ± 0.002 in  0.001 in                      both ways
    all at once, each the bad way              0.011 in                      worst case
    as independent errors add up               0.010 in                      root-sum-square
    """
    item, inputs = cls.results()[found.result], cls.inputs()
    rows = [
        (
            share.words, f"± {finely(inputs[share.input], share.tolerance, unit)}", finely(item, share.effect, unit),
            "one side only" if share.one_sided else "both ways",
        )
        for share in found.shares
    ]  # fmt: skip
    rows += [
        ("all at once, each the bad way", "", finely(item, found.worst_case, unit), "worst case"),
        ("as independent errors add up", "", finely(item, found.root_sum_square, unit), "root-sum-square"),
    ]
    return Facts(rows, head=("measurement", "out by", f"{item.words}, moved by", ""))


def budget(cls, values, name, unit="mm"):
    """The budget with units.

    >>> from shoplib.maths.circle_jigs import CircleJig
    >>> found = CircleJig("440 mm", "12 mm").budget("outer_pivot")
    >>> [(share.words, share.effect) for share in found.shares][0]
    ('outside diameter', <Quantity(0.25, 'millimeter')>)
    """
    item = cls.results()[name]
    if item.plan:
        raise ShapeError(f"{headed(item.words)} this is worked out step by step. Ask for the budget of one size.")
    found = plain_budget(cls, values, name)
    return found._replace(
        shares=tuple(_with_units(share, cls.inputs()[share.input].kind, item.kind) for share in found.shares),
        worst_case=public(found.worst_case, item.kind),
        root_sum_square=public(found.root_sum_square, item.kind),
        table=told(cls, found, unit),
    )


def _with_units(share, input_kind, result_kind):
    return share._replace(
        tolerance=public(share.tolerance, input_kind),
        up=public(share.up, result_kind),
        down=public(share.down, result_kind),
        effect=public(share.effect, result_kind),
    )
