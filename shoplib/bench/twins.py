"""Sensible sizes to start from in inches: each bench's metric start has a twin that a rule in inches knows."""

from itertools import product

from shoplib.model import inch_twin

FINER = (16, 32, 64)  # parts of an inch, tried in turn


def start_in(cls, start, unit, given_unit):
    """The sizes to start from in a unit: those given, or their inch twins where these can be made together.

    A size whose twin draws a caution that the size itself does not draw has a finer twin, where that helps.
    """
    if unit == given_unit or unit != "in":
        return dict(start)
    lengths = [name for name, value in start.items() if cls.inputs()[name].kind == "length" and value is not None]
    twins = start | {name: inch_twin(start[name]) for name in lengths}
    calm = _cautioned(cls, start) or set()
    worse = _cautioned(cls, twins, calm)
    if worse is None:
        return dict(start)
    for name, parts in product(lengths, FINER):
        if name in worse:
            finer = twins | {name: inch_twin(start[name], parts)}
            left = _cautioned(cls, finer, calm)
            if left is not None and left < worse:
                twins, worse = finer, left
    return twins


def _cautioned(cls, sizes, known=frozenset()):
    """The inputs that cautions hang on beside those known; None where these sizes cannot be made."""
    try:
        return {caution.input for caution in cls.solved(sizes).worries()} - known
    except ValueError:
        return None
