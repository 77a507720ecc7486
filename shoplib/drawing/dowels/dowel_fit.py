"""The plate for the fit of a dowel in its hole: what each may measure, drawn to a stated enlargement."""

from shoplib.drawing.dowels.rail_ends import broken
from shoplib.drawing.parts import told_results
from shoplib.drawing.sheet import Circle, EndGrain, Sheet, rectangle
from shoplib.measure import write
from shoplib.model import given_in_full as given

PITCH, HIGH = 0.6, 0.36  # from bar to bar, and a bar's height, in dowel diameters
NEAT = (1, 2, 3, 4, 5, 6, 8)  # times a power of ten: enlargements that are easy to reckon with
USE = (
    "Drill a test hole in an offcut of the leg and measure it. Measure ten dowels of the packet across, each twice at "
    "a right angle. Hold the smallest and the largest of each against the limits here, sort out what is larger than "
    "the hole, and keep the rest as dry as on the day that you glue."
)
MEANING = {
    "as sold": "as sold: over or under", "h8": "h8: never over", "h11": "h11: never over",
    "H8": "H8: never under", "H11": "H11: never under", "H13": "H13: never under",
}  # fmt: skip


def draw_dowel_fit(fit, unit="mm"):
    """Hole and dowel as bars from smallest to largest size, so many times larger than the dowel drawn beside them."""
    times = enlargement(fit)
    sheet = Sheet("Fit of a dowel", _spoken(fit, unit), use=USE)
    view = sheet.view(f"Smallest to largest: the bars {times} times larger than the dowel on the left")
    half, leftmost = fit.diameter / 2, times * min(low for _, low, _ in zones(fit))
    middle = (min(leftmost, 0.0) - 1.8 * half, -1.5 * PITCH * fit.diameter)
    view.area("dowel", Circle("dowel", middle, half), grain=EndGrain((middle[0] - 2.6 * half, middle[1] - 3.2 * half)))
    view.note((middle[0] - half, middle[1]), f"dowel\n{broken(given(fit, 'diameter', unit))}", "left")
    for row, (layer, low, high) in enumerate(zones(fit)):
        top = -row * PITCH * fit.diameter
        view.area(layer, rectangle(times * low, top - HIGH * fit.diameter, times * high, top))
        view.note((times * high, top - HIGH * fit.diameter / 2), _said(fit, layer, low, high, unit), "right")
    view.line("zero", (0, 0.2 * fit.diameter), (0, -(2 * PITCH + HIGH + 0.2) * fit.diameter))
    _plays(view, fit, unit, times)
    return sheet


def zones(fit):
    """From left to right: the hole, the dowel as it is glued, the dowel later; lowest and highest over nominal size."""
    low, high = fit.dowel_lower, fit.dowel_upper
    return (
        ("hole", 0.0, fit.hole_upper), ("dowel", low, high), ("later", low + fit.swelling, high + fit.swelling),
    )


def enlargement(fit):
    """The largest neat number of times at which the bars reach over no more than two and a half dowels."""
    ends = [end for _, low, high in zones(fit) for end in (low, high)]
    most = 2.5 * fit.diameter / max(max(ends) - min(ends), 1e-3)
    return max(neat * 10**power for power in range(5) for neat in NEAT if neat * 10**power <= most)


def _said(fit, layer, low, high, unit):
    """What a bar is, and from where to where it runs."""
    words = {
        "hole": f"hole {MEANING[fit.hole_grade]}", "dowel": f"dowel {MEANING[fit.dowel_grade]}",
        "later": f"same dowel at {given(fit, 'now', unit)}",
    }  # fmt: skip
    return f"{words[layer]}\n{_limits(fit, low, high, unit)}"


def _plays(view, fit, unit, times):
    """What lies between hole and dowel, tightest and loosest pair: above when they are glued, below later."""
    deep = -(2 * PITCH + HIGH) * fit.diameter
    for when, shift, side, y in (("", 0.0, "above", 0.0), ("later, ", fit.swelling, "below", deep)):
        pairs = (("tightest", fit.dowel_upper + shift, 0.0), ("loosest", fit.dowel_lower + shift, fit.hole_upper))
        for pair, dowel, hole in pairs:
            name = pair + ("_later" if when else "")
            view.dimension((times * dowel, y), (times * hole, y), f"{when}{pair}: {_play(fit, name, unit)}", side)


def _play(fit, name, unit):
    """A play in words: what is free, or by how much the dowel is too thick."""
    play, item = getattr(fit, name), fit.model.results()[name]
    return f"{item.write(play, unit)} free" if play >= 0 else f"too thick by {item.write(-play, unit)}"


def _limits(fit, low, high, unit):
    """Smallest and largest size, finely."""
    step = "0.01 mm" if unit == "mm" else "0.001 in"
    return " to ".join(write(fit.diameter + each, "length", unit, step) for each in (low, high))


def _spoken(fit, unit):
    names = ("tightest", "loosest", "swelling", "tightest_later", "loosest_later")
    words = f"A dowel of {given(fit, 'diameter', unit)} in its hole."
    return f"{words} {told_results(fit, names, unit)}"
