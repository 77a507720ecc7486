"""The plate for the fit of a dowel in its hole."""

from shoplib.drawing.parts import found, given
from shoplib.drawing.sheet import Sheet, rectangle
from shoplib.model import ShapeError


def draw_dowel_fit(fit, unit="mm"):
    """Sizes of hole and dowel as zones over and under the nominal size, much enlarged and true to one another."""
    sheet = Sheet("Fit of a dowel", _spoken_fit(fit, unit))
    view = sheet.view("Sizes over and under the nominal diameter (the line), greatly enlarged")
    zones = _zones(fit)
    span = max(high for _, _, high in zones) - min(low for _, low, _ in zones)
    span = max(span, 0.01 * fit.diameter)
    wide, step = 0.3 * span, 0.5 * span
    for k, (layer, low, high) in enumerate(zones):
        view.area(layer, rectangle(k * step, low, k * step + wide, high))
    view.line("centre", (-0.2 * span, 0), (2 * step + wide + 0.2 * span, 0))
    _fit_sizes(view, fit, unit, step, wide)
    return sheet


def _zones(fit):
    """From left to right: the hole, the dowel as it is glued, the dowel later; lowest and highest of each."""
    low, high = fit.dowel_lower, fit.dowel_upper
    return (
        ("hole", 0.0, fit.hole_upper), ("dowel", low, high), ("later", low + fit.swelling, high + fit.swelling),
    )


def _fit_sizes(view, fit, unit, step, wide):
    upper, low, high = fit.hole_upper, fit.dowel_lower, fit.dowel_upper
    left, right = 0.0, 2 * step + wide
    view.dimension((left, high), (left, 0.0), f"tightest {found(fit, 'tightest', unit)}", "left")
    view.dimension((left, low), (left, upper), f"loosest {found(fit, 'loosest', unit)}", "left")
    now = fit.swelling
    view.dimension((right, high + now), (right, 0.0), f"later, tightest {found(fit, 'tightest_later', unit)}", "right")
    view.dimension((right, low + now), (right, upper), f"later, loosest {found(fit, 'loosest_later', unit)}", "right")
    size = fit.model.results()["loosest"].write
    view.dimension((0, 0), (wide, 0), f"hole {size(fit.diameter, unit)} to {size(fit.diameter + upper, unit)}")
    sizes = " to ".join(size(fit.diameter + each, unit) for each in (low, high))
    view.dimension((step, low), (step + wide, low), f"dowel when glued {sizes}")
    sizes = " to ".join(size(fit.diameter + each + now, unit) for each in (low, high))
    view.dimension((2 * step, low + now), (2 * step + wide, low + now), f"dowel later {sizes}")


def _spoken_fit(fit, unit):
    names = ("tightest", "loosest", "swelling", "tightest_later", "loosest_later")
    return f"A dowel of {given(fit, 'diameter', unit)} in its hole." + "".join(
        f" {fit.model.results()[name].words}: {found(fit, name, unit)}." for name in names
    )


def template_dowel_fit(fit, unit="mm"):
    """A fit is too fine to draw at full size."""
    raise ShapeError("A fit is measured with a calliper: there is no template of it. Print the bench card.")
