"""The error budget: what each input's tolerance does to a result.

The result is worked out again with one input at a time out by its tolerance, upwards and
downwards. Where only one side can be made, or both sides push the same way (a limit or a kink),
the budget says so and counts what it found. Worst case: all errors at once, each the bad way.
Root-sum-square: what several independent errors are likely to make together (JCGM 100:2008, 5.1).
"""

import math
from typing import NamedTuple

from shoplib.model.sentences import ShapeError
from shoplib.model.writing import public, write_finely


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
    """All shares, largest first, and what they make together; printed as a small table."""

    result: str
    shares: tuple
    worst_case: object
    root_sum_square: object

    def __repr__(self):
        rows = [(share.words, f"out by {write_finely(share.tolerance)}", _moves(share)) for share in self.shares]
        rows += [
            ("worst case", "all at once, each the bad way", write_finely(self.worst_case)),
            ("root-sum-square", "as independent errors add up", write_finely(self.root_sum_square)),
        ]
        return "\n".join(f"{words:<20} {cause:<30} {effect}" for words, cause, effect in rows)


def _moves(share):
    return f"moves it by {write_finely(share.effect)}" + (" (one side only)" if share.one_sided else "")


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
    if item.low >= 0 and changed < 0:
        return None
    try:
        return getattr(cls.solved(values | {item.name: changed}), name) - nominal
    except ShapeError:
        return None


def budget(cls, values, name):
    """The budget with units.

    >>> from shoplib.maths.circle_jigs import CircleJig
    >>> found = CircleJig("440 mm", "12 mm").budget("outer_pivot")
    >>> [(share.words, share.effect) for share in found.shares][0]
    ('outside diameter', <Quantity(0.25, 'millimeter')>)
    """
    item = cls.results()[name]
    if item.plan:
        raise ShapeError(f"The {item.words} are worked out step by step: ask for the budget of one size.")
    found = plain_budget(cls, values, name)
    return found._replace(
        shares=tuple(_with_units(share, cls.inputs()[share.input].kind, item.kind) for share in found.shares),
        worst_case=public(found.worst_case, item.kind),
        root_sum_square=public(found.root_sum_square, item.kind),
    )


def _with_units(share, input_kind, result_kind):
    return share._replace(
        tolerance=public(share.tolerance, input_kind),
        up=public(share.up, result_kind),
        down=public(share.down, result_kind),
        effect=public(share.effect, result_kind),
    )
