"""Sensible sizes to start from in inches: each bench's metric start has a twin that a rule in inches knows."""

from itertools import product

from shoplib.model import inch_twin

FINER = (16, 32, 64)  # parts of an inch, tried in turn


def start_in(cls, start, unit, given_unit):
    """The sizes to start from in a unit: those given, or their inch twins where these can be made together.

    What is sold together starts as it is sold in inches. A size whose twin draws a caution that the size itself does
    not draw has a finer twin, where that helps; where it does not, all of them have.
    """
    if unit == given_unit or unit != "in":
        return dict(start)
    sold = _sold_in_inches(cls, start)
    lengths = [name for name, item in cls.inputs().items()
               if item.kind == "length" and start[name] is not None and name not in sold]  # fmt: skip
    weighed = {name: _round_steps(item, start[name]) for name, item in cls.inputs().items()
               if item.kind in ("mass", "force", "stress", "surface") and start[name] is not None}  # fmt: skip
    twins = start | weighed | {name: inch_twin(start[name]) for name in lengths} | sold
    calm = _cautioned(cls, start) or set()
    worse = _cautioned(cls, twins, calm)
    if worse is None:
        return dict(start)
    return _calmed(cls, start, lengths, twins, worse, calm)


def _calmed(cls, start, lengths, twins, worse, calm):
    """Twins fine enough to draw no caution that the sizes themselves do not draw, or as few as can be."""
    alone = ({name: parts} for name, parts in product(lengths, FINER) if name in worse)
    together = (dict.fromkeys(lengths, parts) for parts in FINER)
    for finer in (*alone, *together):
        if not worse:
            break
        tried = twins | {name: inch_twin(start[name], parts) for name, parts in finer.items()}
        left = _cautioned(cls, tried, calm)
        if left is not None and left < worse:
            twins, worse = tried, left
    return twins


def _sold_in_inches(cls, start):
    """What is sold in inches instead of what these sizes are sold as: the nearest that is in no way smaller.

    Nothing where the sizes are not sold together, or nothing in inches is large enough.
    """
    offer = cls.OFFER
    if offer is None or offer.fitting(start) is None:
        return {}
    sold = [offer.sizes[name] for name in offer.in_inches]
    enough = [sizes for sizes in sold if all(size >= start[name] for name, size in sizes.items())]
    return min(enough, key=lambda sizes: sum(size / start[name] for name, size in sizes.items()), default={})


def _round_steps(item, value):
    """A weight, a force or a surface to the nearest whole step in the units that go with inches."""
    step = item.plain_steps["in"]
    return round(value / step) * step or value


def _cautioned(cls, sizes, known=frozenset()):
    """The inputs that cautions hang on beside those known; None where these sizes cannot be made."""
    try:
        return {caution.input for caution in cls.solved(sizes).worries()} - known
    except ValueError:
        return None
