"""Writes a Sheet as SVG text for the screen: crisp at any size, a few kilobytes, spoken by screen readers.

All colours and widths stand on the elements themselves and every id carries the prefix it is given, so that
two drawings on one page cannot disturb each other.
"""

import math
import re
from functools import lru_cache
from html import escape

from shoplib.drawing.layout import lay_out
from shoplib.drawing.sheet import LAYERS, Arc, Circle, EndGrain, Line

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
        _definitions(plate, prefix),
        f'<rect width="{_n(plate.width)}" height="{_n(plate.height)}" fill="#ffffff"/>',
    ]
    parts += [_shape(shape, prefix) for shape in plate.shapes]
    parts += [_shape(line, prefix) for line in plate.lines]
    parts += [f'<circle cx="{_n(x)}" cy="{_n(y)}" r="3" fill="#222222"/>' for x, y in plate.dots]
    parts += [_text(text) for text in plate.texts]
    return "".join(parts) + "</svg>"


def _definitions(plate, prefix):
    """The hatches in use: grain lines along the fibres, rings on end grain, crossed lines on waste."""
    found = {}
    for shape in plate.shapes:
        name = _hatch(shape)
        if name and not isinstance(shape, (Line, Arc)):
            found[name] = max(found.get(name, 0.0), _reach(shape))
    return "<defs>" + "".join(_pattern(name, prefix, reach) for name, reach in found.items()) + "</defs>"


def _hatch(shape):
    """What tells one hatch from another: kind, ground and direction; None where the shape has none."""
    style, grain = LAYERS[shape.layer], getattr(shape, "grain", None)
    if isinstance(grain, EndGrain):
        x, y = grain.pith
        return "rings", style.fill, round(x, 1), round(y, 1)
    if grain is not None or style.hatch == "grain":
        return "grain", style.fill, round(math.degrees(grain or 0.0) % 180, 1)
    return (style.hatch, style.fill) if style.hatch else None


def _reach(shape):
    """How far from its pith a shape in end grain reaches."""
    grain = getattr(shape, "grain", None)
    if not isinstance(grain, EndGrain):
        return 0.0
    x, y = grain.pith
    return max(math.hypot(px - x, py - y) for px, py in _corners(shape))


def _corners(shape):
    xs, ys = zip(*shape.points())
    return [(x, y) for x in (min(xs), max(xs)) for y in (min(ys), max(ys))]


def _id(name, prefix):
    return re.sub(r"[^A-Za-z0-9-]", "_", "-".join(map(str, (prefix, *name))))


HATCHES = {  # width and height of the tile, how it is turned, its lines, their colour and width
    "grain": (26, 9, 0, "M0 2H17M9 6.5H26", "#a8741a", 0.8),
    "cross": (9, 9, 45, "M0 0H9M0 0V9", "#8a8a8a", 0.9),
    "cutter": (5, 5, -45, "M0 0H5", "#003b5c", 1.4),
}
RING = 7.0  # px from one growth ring to the next


@lru_cache(maxsize=256)
def _pattern(name, prefix, reach):
    kind, ground, *where = name
    if kind == "rings":
        return _rings(name, prefix, reach)
    width, height, turn, lines, colour, pen = HATCHES[kind]
    turn -= where[0] if where else 0  # y runs down on the screen
    turned = f' patternTransform="rotate({_n(turn)})"' if turn else ""
    return (
        f'<pattern id="{_id(name, prefix)}" width="{width}" height="{height}" patternUnits="userSpaceOnUse"{turned}>'
        f'<rect width="{width}" height="{height}" fill="{ground}"/>'
        f'<path d="{lines}" stroke="{colour}" stroke-width="{pen}"/></pattern>'
    )


def _rings(name, prefix, reach):
    """One tile as large as the shape needs, with the pith in its middle."""
    _, ground, x, y = name
    size = 2 * (reach + RING)
    circles = "".join(
        f'<circle cx="{_n(size / 2)}" cy="{_n(size / 2)}" r="{_n(RING * (k + 0.5))}"/>'
        for k in range(int(reach / RING) + 1)
    )
    return (
        f'<pattern id="{_id(name, prefix)}" x="{_n(x - size / 2)}" y="{_n(y - size / 2)}" width="{_n(size)}" '
        f'height="{_n(size)}" patternUnits="userSpaceOnUse"><rect width="{_n(size)}" height="{_n(size)}" '
        f'fill="{ground}"/><g fill="none" stroke="#a8741a" stroke-width="0.8">{circles}</g></pattern>'
    )


def _n(value):
    """A coordinate to 0.01, without a negative nought."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _pen(shape, prefix):
    style, hatch = LAYERS[shape.layer], _hatch(shape)
    dashes = f' stroke-dasharray="{" ".join(map(str, style.dashes))}"' if style.dashes else ""
    fill = f"url(#{_id(hatch, prefix)})" if hatch else style.fill
    return f'stroke="{style.colour}" stroke-width="{style.width}"{dashes}', f'fill="{fill}"'


@lru_cache(maxsize=2048)
def _shape(shape, prefix):
    """One shape; remembered, as many stay where they are when a slider moves."""
    pen, fill = _pen(shape, prefix)
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
