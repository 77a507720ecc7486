"""The other way round: an input found for a wanted result.

The result is sampled over the input's declared range; each change of sign, and each place where
the curve may just touch the wanted value, is refined, the former by mpmath's Illinois method. Counts are tried one
by one. A result that jumps (boards are counted in whole rows) may have values between two samples that are
not found; each value found is true.
"""

import math

from shoplib import measure
from shoplib.model.facts import Facts
from shoplib.model.inputs import is_in_inches
from shoplib.model.sentences import ShapeError, headed
from shoplib.model.writing import finely, public

SAMPLES = 240
FINER = 16  # parts of a stretch that is looked at more closely
EXACT = {"tol": 1e-13, "maxsteps": 200, "verify": False}


class Found(tuple):
    """The values found, smallest first; shows itself as a small table."""

    def __new__(cls, item, plain, unit="mm"):
        self = super().__new__(cls, (public(value, item.kind) for value in plain))
        texts = " or ".join(finely(item, value, unit) for value in plain)
        self.table = Facts([(item.words, texts or "no value within its range gives that")])
        return self

    def __repr__(self):
        return repr(self.table)

    def _repr_html_(self):
        return self.table._repr_html_()


def find(cls, values, input, wanted, unit=None):
    """All values of `input` within its declared range that give the one wanted result, told in the unit asked in.

    >>> from shoplib.maths.circle_jigs import CircleJig
    >>> CircleJig("440 mm", "12 mm").find("diameter", outer_pivot="226.5 mm")
    outside diameter  441.00 mm
    """
    return Found(cls.inputs()[input], plain_answers(cls, values, input, wanted), unit or _asked_in(cls, wanted))


def _asked_in(cls, wanted):
    """Inches where the wanted size is written in them; millimetres otherwise."""
    (name, value), = wanted.items()
    kind = cls.results()[name].kind
    return "in" if kind == "length" and isinstance(value, str) and is_in_inches(value) else "mm"


def plain_answers(cls, values, input, wanted):
    """The same in floats (mm, rad, kg): for the bench, which writes them itself."""
    (name, value), = wanted.items()
    result = cls.results()[name]
    if result.plan:
        raise ShapeError(f"{headed(result.words)} what is worked out step by step cannot be turned round.")
    target = _target(result, value)
    item = cls.inputs()[input]
    if item.kind in ("flag", "choice"):
        raise ShapeError(f"{headed(item.words)} this is a choice, not a size. Try each in turn.", input=input)
    return plain_find(cls, values, item, result, target)


def _target(result, value):
    """The wanted value in floats; a ratio is a plain number, or text such as '60 %'."""
    if result.kind in ("ratio", "count") and not isinstance(value, str):
        return float(value)
    return measure.plain("percent" if result.kind == "ratio" else result.kind, value)


def plain_find(cls, values, item, result, target):
    """The same in floats: a list of roots, smallest first."""

    def miss(x):
        try:
            return getattr(cls.solved(values | {item.name: x}), result.name) - target
        except ShapeError:
            return math.nan

    if item.kind == "count":
        return [n for n in range(item.low, item.high + 1) if abs(miss(n)) <= _half_step(result)]
    return _distinct(_roots(miss, _samples(miss, item.low, item.high), target), item)


def _half_step(result):
    step = result.step
    return (measure.plain(result.kind, step) if isinstance(step, str) else step) / 2


def _samples(miss, low, high):
    """Points over the range with their misses, and the last point that can be made beside each gap."""
    points = [min(high, low + (high - low) * k / SAMPLES) for k in range(SAMPLES + 1)]
    found = [(x, miss(x)) for x in points]
    edges = []
    for (a, fa), (b, fb) in zip(found, found[1:]):
        if math.isnan(fa) != math.isnan(fb):
            edges.append(_edge(miss, a, b, math.isnan(fa)))
    return sorted({pair for pair in found + edges if not math.isnan(pair[1])})


def _edge(miss, a, b, first_missing):
    """The point between a and b, nearest to the gap, where the model can still be made."""
    bad, good = (a, b) if first_missing else (b, a)
    for _ in range(60):
        middle = (bad + good) / 2
        bad, good = (middle, good) if math.isnan(miss(middle)) else (bad, middle)
    return good, miss(good)


def _roots(miss, samples, target):
    from mpmath import fp

    scale = 1e-9 * max(1.0, abs(target), *(abs(f) for _, f in samples[:1]))
    hits = [abs(f) <= scale for _, f in samples]
    if hits and all(hits):
        raise ShapeError("This result does not depend on that input: every value gives it.")
    if any(map(all, zip(hits, hits[1:], hits[2:]))):
        raise ShapeError("This result does not depend on that input alone: a whole stretch of values gives it.")
    roots = [x for x, f in samples if abs(f) <= scale]
    crossings = list(zip(samples, samples[1:])) + _dips(miss, samples, scale)
    for (a, fa), (b, fb) in crossings:
        if fa * fb < 0:
            unbroken = _unbroken(miss, a, b)
            root = fp.findroot(miss, (a, b), solver="illinois", **EXACT) if unbroken else math.nan
            if abs(miss(root)) <= 1e3 * scale:
                roots.append(root)
        elif a == b:
            roots.append(a)
    return roots


def _unbroken(miss, a, b):
    """Whether the model can be made all the way from a to b."""
    return not any(math.isnan(miss(a + (b - a) * k / 8)) for k in range(9))


def _dips(miss, samples, scale):
    """Crossings, or touching points (a, a), that hide between samples of one sign."""
    found = []
    for (a, fa), (_, fb), (c, fc) in zip(samples, samples[1:], samples[2:]):
        if fa * fb <= 0 or fb * fc <= 0 or not abs(fb) <= min(abs(fa), abs(fc)) or abs(fa) == abs(fc) == abs(fb):
            continue
        sign = math.copysign(1, fb)
        x, nearest = _nearest(lambda x, sign=sign: sign * miss(x), a, c)
        if nearest < -scale:
            found += [((a, fa), (x, sign * nearest)), ((x, sign * nearest), (c, fc))]
        elif nearest <= 1e3 * scale:
            found.append(((x, 0.0), (x, 0.0)))
    return found


def _nearest(miss, a, c):
    """Where between a and c the miss is least, and how much that is: sampled more and more finely."""
    while True:
        points = [a + (c - a) * k / FINER for k in range(FINER + 1)]
        found = [value if not math.isnan(value) else math.inf for value in map(miss, points)]
        least = found.index(min(found))
        if c - a <= 1e-10 or found[least] == math.inf:
            return points[least], found[least]
        a, c = points[max(least - 1, 0)], points[min(least + 1, FINER)]


def _distinct(roots, item):
    """Roots sorted, those that differ by rounding only counted once."""
    close = 1e-7 * max(1.0, item.high - item.low)
    kept = []
    for root in sorted(roots):
        if not kept or root - kept[-1] > close:
            kept.append(root)
    return kept
