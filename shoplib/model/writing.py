"""Plain values (floats in mm, rad or kg) written for a person, and handed out with their units."""

import math

from shoplib import measure

LENGTH_STEPS = ("0.1 mm", "1/64 in")
FINE = {
    "length": ("0.01 mm", "0.001 in"), "angle": ("0.01 deg", None), "mass": ("0.01 kg", None),
    "force": ("0.1 N", None), "stress": ("0.01 MPa", None),
    "surface": ("0.001 m2", None), "volume": ("0.001 l", None),
}
IN_POUNDS = {
    "mass": ("lb", "0.1 lb"), "force": ("lbf", "1 lbf"), "stress": ("psi", "10 psi"), "surface": ("ft2", "0.1 ft2"),
    "volume": ("floz", "0.1 floz"),
}  # beside inches


def write_value(value, kind, unit, step, inch_step):
    """Write one plain value: '226.0 mm', '8 57/64 in', '15.00 deg', '12', 'yes' or '0.712'."""
    if value is None:
        return "left out"
    if type(value) is tuple:
        return ", ".join(write_value(each, kind, unit, step, inch_step) for each in value)
    if kind == "length" and isinstance(value, float):
        return measure.write(value, kind, unit, inch_step if unit == "in" else step)
    if kind == "angle":
        return measure.write(value, kind, "deg", step)
    if kind in IN_POUNDS:
        return measure.write(value, kind, *IN_POUNDS[kind] if unit == "in" else (_METRIC[kind], step))
    if kind == "percent":
        on_tenths = abs(1000 * value - round(1000 * value)) < 1e-6
        return measure.write(value, kind, "percent", "0.1 %" if on_tenths else "0.01 %")
    if kind == "flag":
        return "yes" if value else "no"
    if kind == "ratio":
        digits = max(0, -math.floor(math.log10(step)))
        return f"{round(value, digits) + 0.0:.{digits}f}"
    return str(value)


def decimal(value, kind, unit):
    """Decimal inches to stand beside a fraction that is not exact; nothing in mm or where a 64th says it all.

    >>> decimal(226.0, "length", "in"), decimal(25.4, "length", "in"), decimal(226.0, "length", "mm")
    ('8.898', '', '')
    """
    if unit != "in" or kind != "length" or not isinstance(value, float):
        return ""
    sixty_fourths = value / 25.4 * 64
    return "" if abs(sixty_fourths - round(sixty_fourths)) < 1e-6 else f"{value / 25.4:.3f}"


def in_full(text, value, kind, unit):
    """A written value with the decimal inches in brackets where the fraction is not exact, or alone where it is none.

    >>> in_full("8 57/64 in", 226.0, "length", "in"), in_full("0 in", 0.1, "length", "in")
    ('8 57/64 in (8.898)', '0.004 in')
    """
    beside = "" if "." in text else decimal(value, kind, unit)  # what is in decimals already needs none beside
    if text == "0 in" and beside:
        return f"{beside} in"
    return f"{text} ({beside})" if beside else text


def length_in_full(value, unit="mm"):
    """A length in mm as it is told everywhere: to a tenth of a millimetre, or a 64th with its decimal.

    >>> length_in_full(226.0), length_in_full(226.0, "in")
    ('226.0 mm', '8 57/64 in (8.898)')
    """
    return in_full(write_value(value, "length", unit, *LENGTH_STEPS), value, "length", unit)


def finely(item, value, unit="mm"):
    """A small plain value of an input or result: to 0.01 mm, 0.001 in or 0.01 deg, a ratio to a tenth of its step."""
    step = item.step / 10 if item.kind == "ratio" else item.step
    return write_value(value, item.kind, unit, *FINE.get(item.kind, (step, None)))


_WRITTEN = {
    "length": "mm", "angle": "deg", "mass": "kg", "force": "N", "stress": "MPa", "surface": "m2", "volume": "l",
}


def write_finely(value):
    """A Quantity for a person, to 0.01 mm or 0.01 deg; counts as they are, ratios to four places."""
    if isinstance(value, int):
        return str(value)
    if not hasattr(value, "magnitude"):
        return f"{value:.4f}"
    if str(value.units) in ("percent", "degree") or value.dimensionless:
        unit = "percent" if str(value.units) == "percent" else "deg"
        return measure.show(value, unit, "0.01 %" if unit == "percent" else "0.01 deg")
    kind = next(kind for kind in FINE if value.is_compatible_with(_BASE_UNITS[kind]))
    return measure.show(value, _WRITTEN[kind], FINE[kind][0])


_BASE_UNITS = {
    "length": "mm", "table": "mm", "angle": "rad", "mass": "kg", "force": "N", "stress": "MPa", "temperature": "degC",
    "surface": "m**2", "volume": "liter",
}
_METRIC = {"mass": "kg", "force": "N", "stress": "MPa", "surface": "m2", "volume": "l"}


def public(value, kind):
    """A plain value as the outside sees it: floats with a unit become Quantities, plans tuples of them."""
    if isinstance(value, tuple):
        items = [public(each, kind) for each in value]
        return type(value)(*items) if hasattr(value, "_fields") else tuple(items)
    if isinstance(value, float) and kind == "percent":
        return measure.quantity(round(100 * value, 12), "percent")
    if isinstance(value, float) and kind in _BASE_UNITS:
        found = measure.quantity(value, _BASE_UNITS[kind])
        return found.to("deg") if kind == "angle" else found
    return value
