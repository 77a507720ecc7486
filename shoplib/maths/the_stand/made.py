"""Sizes as they were made: which can be measured, how they are read, and whether what is left to do still goes."""

from shoplib import measure
from shoplib.maths.the_stand import limits
from shoplib.maths.the_stand.filling import NUMBERS, Reckoned
from shoplib.maths.the_stand.operations import OPERATIONS
from shoplib.model import Input, ShapeError, headed


def checked(stand, operation, filled_from):
    """The operation's solved stand-in; its refusal in the words of the stand."""
    try:
        return operation.solved(filled_from)
    except ShapeError as error:
        raise limits.from_lesson(ShapeError, stand, operation, error) from None


def measurable(cls):
    """The inputs and results that can be measured: sizes, and what some operation is filled from or tells."""
    results = cls.results()
    found = {name: item for name, item in cls.inputs().items() if item.kind in NUMBERS}
    for operation in OPERATIONS.values():
        names = [source.named for source in operation.fill.values() if type(source) is Reckoned]
        found.update((name, results[name]) for name in (*names, *operation.gives.values()) if name in results)
    return {name: item for name, item in found.items() if item.kind in NUMBERS}


def read_measured(item, value):
    """A measured value in plain units; a size keeps to its limit, a result must be more than nothing."""
    if isinstance(item, Input):
        return item.read(value)
    found = measure.plain(item.kind, value)
    if found <= 0:
        raise ShapeError(f"{headed(item.words)} it must be more than nothing, not {str(value)[:30]}.")
    return found
