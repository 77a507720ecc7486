"""Sensible sizes to start from in inches: each bench's metric start has a twin that a rule in inches knows."""

from shoplib.model import inch_twin


def start_in(cls, start, unit, given_unit):
    """The sizes to start from in a unit: those given, or their inch twins where these can be made together."""
    if unit == given_unit or unit != "in":
        return dict(start)
    twins = {
        name: inch_twin(value) if cls.inputs()[name].kind == "length" and value is not None else value
        for name, value in start.items()
    }
    try:
        cls.solved(twins)
    except ValueError:
        return dict(start)
    return twins
