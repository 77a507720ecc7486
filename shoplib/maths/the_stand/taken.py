"""Sizes of the stand taken over from the lessons: the same range, step and tolerance, under the stand's own name."""

from shoplib.model import Input

AS_THERE = object()


def taken(model, name, words, symbol, group, help=None, default=AS_THERE):
    """Declare an input like that of a lesson's model; its help and default are the lesson's where none is given.

    >>> from shoplib import Rebate
    >>> width = taken(Rebate, "rebate_width", "rebate width", "b", "Trays")
    >>> width.low, width.tolerance, width.group
    (2.0, 0.3, 'Trays')
    """
    there = model.inputs()[name]
    return Input(
        there.kind, words, symbol, there.low, there.high, there.step, there.inch_step, there.tolerance,
        help or there.help, there.default if default is AS_THERE else default, there.options, group,
    )  # fmt: skip
