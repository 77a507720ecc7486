"""Writes a Sheet as SVG text for the screen: crisp at any size, a few kilobytes, spoken by screen readers.

All colours and widths stand on the elements themselves and every id carries the prefix it is given, so that
two drawings on one page cannot disturb each other.
"""

import math
from functools import lru_cache
from html import escape

from shoplib.drawing.layout import lay_out
from shoplib.drawing.sheet import LAYERS, Arc, Circle, Line

FACE = "font-family=\"'DejaVu Sans',Verdana,'Segoe UI',Arial,sans-serif\""


def svg(sheet, prefix="plate", width=960.0, height=690.0, text=17.0):
    """Write a Sheet as one SVG element that fills the width it is given.

    >>> from shoplib.drawing.sheet import Sheet
    >>> sheet = Sheet("A disc", "A disc 100 mm across.")
    >>> sheet.view().circle("kept", (0, 0), 50)
    >>> "A disc 100 mm across." in svg(sheet)
    True
    """
    return write(lay_out(sheet, width, height, text), prefix)


def write(plate, prefix="plate"):
    """Write a laid-out plate."""
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {_n(plate.width)} {_n(plate.height)}" role="img" '
        f'aria-label="{escape(plate.title + ". " + plate.description)}" '
        f'style="width:100%;height:auto;display:block" {FACE}>',
        _definitions(prefix),
        f'<rect width="{_n(plate.width)}" height="{_n(plate.height)}" fill="#ffffff"/>',
    ]
    parts += [_shape(shape, prefix) for shape in plate.shapes]
    parts += [_shape(line, prefix) for line in plate.lines]
    parts += [f'<circle cx="{_n(x)}" cy="{_n(y)}" r="3" fill="#222222"/>' for x, y in plate.dots]
    parts += [_text(text) for text in plate.texts]
    return "".join(parts) + "</svg>"


def _definitions(prefix):
    """Hatches after the trade's habits: grain lines on what is kept, crossed lines on waste."""
    return (
        f'<defs><pattern id="{prefix}-grain" width="26" height="9" patternUnits="userSpaceOnUse">'
        '<rect width="26" height="9" fill="#f7dfae"/>'
        '<path d="M0 2H17M9 6.5H26" stroke="#a8741a" stroke-width="0.8"/></pattern>'
        f'<pattern id="{prefix}-cross" width="9" height="9" patternUnits="userSpaceOnUse" '
        'patternTransform="rotate(45)"><rect width="9" height="9" fill="#f4f4f4"/>'
        '<path d="M0 0H9M0 0V9" stroke="#8a8a8a" stroke-width="0.9"/></pattern>'
        f'<pattern id="{prefix}-cutter" width="5" height="5" patternUnits="userSpaceOnUse" '
        'patternTransform="rotate(-45)"><rect width="5" height="5" fill="#56b4e9"/>'
        '<path d="M0 0H5" stroke="#003b5c" stroke-width="1.4"/></pattern></defs>'
    )


def _n(value):
    """A coordinate to 0.01, without a negative nought."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _pen(layer, prefix):
    style = LAYERS[layer]
    dashes = f' stroke-dasharray="{" ".join(map(str, style.dashes))}"' if style.dashes else ""
    fill = f"url(#{prefix}-{style.hatch})" if style.hatch else style.fill
    return f'stroke="{style.colour}" stroke-width="{style.width}"{dashes}', f'fill="{fill}"'


@lru_cache(maxsize=2048)
def _shape(shape, prefix):
    """One shape; remembered, as many stay where they are when a slider moves."""
    pen, fill = _pen(shape.layer, prefix)
    if isinstance(shape, Line):
        (x1, y1), (x2, y2) = shape.start, shape.end
        head = _arrowhead(shape.end, math.atan2(y2 - y1, x2 - x1), shape.layer) if shape.arrow else ""
        return f'<path d="M{_n(x1)} {_n(y1)}L{_n(x2)} {_n(y2)}" {pen} fill="none"/>{head}'
    if isinstance(shape, Circle):
        (x, y), r = shape.centre, shape.radius
        return f'<circle cx="{_n(x)}" cy="{_n(y)}" r="{_n(r)}" {pen} {fill}/>'
    if isinstance(shape, Arc):
        return _arc(shape, pen)
    path = "".join(map(_outline, shape.outlines))
    return f'<path d="{path}" {pen} {fill} fill-rule="evenodd"/>'


def _arc(arc, pen):
    """An arc as SVG writes it: end points, radius and which way round."""
    (x, y), r = arc.centre, arc.radius
    ends = [(x + r * math.cos(a), y + r * math.sin(a)) for a in (arc.start, arc.end)]
    (x1, y1), (x2, y2) = ends
    large, onward = int(abs(arc.end - arc.start) > math.pi), int(arc.end > arc.start)
    head = ""
    if arc.arrow:
        head = _arrowhead(ends[1], arc.end + (1 if onward else -1) * math.pi / 2, arc.layer)
    return (
        f'<path d="M{_n(x1)} {_n(y1)}A{_n(r)} {_n(r)} 0 {large} {onward} {_n(x2)} {_n(y2)}" {pen} fill="none"/>{head}'
    )


def _outline(outline):
    if isinstance(outline, Circle):
        (x, y), r = outline.centre, outline.radius
        return (
            f"M{_n(x - r)} {_n(y)}A{_n(r)} {_n(r)} 0 1 0 {_n(x + r)} {_n(y)}A{_n(r)} {_n(r)} 0 1 0 {_n(x - r)} {_n(y)}Z"
        )
    return "M" + "L".join(f"{_n(x)} {_n(y)}" for x, y in outline) + "Z"


def _arrowhead(tip, direction, layer):
    """A slim filled arrowhead, longer on thick lines."""
    style = LAYERS[layer]
    length, half = (16, 6) if style.width > 2 else (10, 2.6)
    (x, y), c, s = tip, math.cos(direction), math.sin(direction)
    back = (x - length * c, y - length * s)
    points = [tip, (back[0] - half * s, back[1] + half * c), (back[0] + half * s, back[1] - half * c)]
    return f'<path d="{_outline(points)}" fill="{style.colour}"/>'


@lru_cache(maxsize=512)
def _text(text):
    left, top, right, bottom = text.box()
    turn = f' transform="rotate(-90 {_n(text.x)} {_n(text.y)})"' if text.turn else ""
    bold = ' font-weight="bold"' if text.bold else ""
    return (
        f'<rect x="{_n(left)}" y="{_n(top)}" width="{_n(right - left)}" height="{_n(bottom - top)}" fill="#ffffff"/>'
        f'<text x="{_n(text.x)}" y="{_n(text.y)}" dy="0.36em" font-size="{_n(text.size)}" text-anchor="{text.anchor}"'
        f'{bold}{turn} fill="#111111">{escape(text.text)}</text>'
    )
