"""The frame from above: four legs, two sides, two diagonals, and how far it leans."""

import math

from shoplib.drawing.parts import found, found_in_full, given
from shoplib.drawing.sheet import Sheet

SEEN = 12.0  # times: a lean that shows on the wood is too small for a drawing


def squareness(plain, unit):
    """The four legs' centres as measured, their lean enlarged, beside the rectangle that they should stand on."""
    sheet = Sheet("Squareness", _spoken(plain, unit))
    view = sheet.view(f"From above, the lean drawn {SEEN:.0f} times")
    long, wide = plain.length, plain.width
    lean = max(-0.6, min(0.6, SEEN * plain.skew))
    across, up = wide * math.sin(lean), wide * math.cos(lean)
    legs = [(0, 0), (long, 0), (long + across, up), (across, up)]
    for start, end in zip(((0, 0), (long, 0), (long, wide), (0, wide)), ((long, 0), (long, wide), (0, wide), (0, 0))):
        view.line("true", start, end)
    for start, end in zip(legs, (*legs[1:], legs[0])):
        view.line("frame", start, end)
    view.line("first", legs[0], legs[2])
    view.line("second", legs[1], legs[3])
    size = min(long, wide) / 22
    for leg in legs:
        view.area("leg", _round(leg, size))
    view.dimension((0, 0), (long, 0), f"length {given(plain, 'length', unit)}")
    view.dimension((min(0, across), 0), (min(0, across), wide), f"width {given(plain, 'width', unit)}", "left")
    view.note(_along(legs[0], legs[2], 0.72), f"first diagonal {given(plain, 'diagonal_1', unit)}", "right")
    view.note(_along(legs[1], legs[3], 0.72), f"second diagonal {given(plain, 'diagonal_2', unit)}", "left")
    view.note(_along(legs[1], legs[2], 0.35), f"leans by {found(plain, 'skew', unit)}", "right")
    return sheet


def _round(centre, radius):
    x, y = centre
    angles = [2 * math.pi * k / 24 for k in range(24)]
    return tuple((x + radius * math.cos(a), y + radius * math.sin(a)) for a in angles)


def _along(start, end, share):
    return tuple(a + share * (b - a) for a, b in zip(start, end))


def _spoken(plain, unit):
    return (
        f"Four legs from above, sides {given(plain, 'length', unit)} and {given(plain, 'width', unit)}, leaning by "
        f"{found(plain, 'skew', unit)}. Both diagonals should measure {found_in_full(plain, 'target', unit)}."
    )
