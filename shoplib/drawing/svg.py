"""Writes a Sheet as SVG text for the screen: crisp at any size, a few kilobytes, spoken by screen readers.

All colours and widths stand on the elements themselves and every id carries the prefix it is given, so that
two drawings on one page cannot disturb each other.
"""

import math
import re
from functools import lru_cache
from html import escape
from itertools import groupby

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
    written = [_part(part, prefix) for part in plate.parts or [plate]]
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {_n(plate.width)} {_n(plate.height)}" role="img" '
        f'aria-label="{escape(plate.title + ". " + plate.description)}" '
        f'style="width:100%;height:auto;display:block" {FACE}>{_definitions([found for found, _ in written], prefix)}'
        f'<rect width="{_n(plate.width)}" height="{_n(plate.height)}" fill="#ffffff"/>'
        f"{''.join([text for _, text in written])}</svg>"
    )


@lru_cache(maxsize=24)
def _part(part, prefix):
    """The hatches of a part with how far each reaches, and its SVG; parts that stay as they are are written once.

    Lines, dots and texts of one kind are written together, and what they share is said once.
    """
    hatches = [_hatch(shape) for shape in part.shapes]
    text = "".join([
        *(_shape(shape, hatch, prefix) for shape, hatch in zip(part.shapes, hatches)),
        *(_lines(layer, run) for layer, run in groupby(part.lines, lambda line: line.layer)),
        _dots(part.dots),
        _texts(part.texts),
    ])  # fmt: skip
    return _reaches(part.shapes, hatches), text


def _reaches(shapes, hatches):
    """The hatches in use (grain lines along the fibres, rings on end grain, crossed lines on waste) and their reach."""
    found = {}
    for shape, name in zip(shapes, hatches):
        if name:
            found[name] = max(found.get(name, 0.0), _reach(shape))
    return found


def _definitions(parts, prefix):
    """The hatches of all parts, each defined once."""
    found = {}
    for part in parts:
        for name, reach in part.items():
            found[name] = max(found.get(name, 0.0), reach)
    return "<defs>" + "".join([_pattern(name, prefix, reach) for name, reach in found.items()]) + "</defs>"


def _hatch(shape):
    """What tells one hatch from another: kind, ground and direction; None where the shape has none."""
    if isinstance(shape, (Line, Arc)):
        return None
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


@lru_cache(maxsize=256)
def _pen(layer, hatch, prefix):
    """How the line of a shape is drawn, and what it is filled with."""
    style = LAYERS[layer]
    dashes = f' stroke-dasharray="{" ".join(map(str, style.dashes))}"' if style.dashes else ""
    fill = f"url(#{_id(hatch, prefix)})" if hatch else style.fill
    return f'stroke="{style.colour}" stroke-width="{style.width}"{dashes}', f'fill="{fill}"'


def _shape(shape, hatch, prefix):
    pen, fill = _pen(shape.layer, hatch, prefix)
    if isinstance(shape, Line):
        return _lines(shape.layer, [shape])
    if isinstance(shape, Circle):
        (x, y), r = shape.centre, shape.radius
        return f'<circle cx="{x:.2f}" cy="{y:.2f}" r="{r:.2f}" {pen} {fill}/>'
    if isinstance(shape, Arc):
        return _arc(shape, pen)
    path = "".join(map(_outline, shape.outlines))
    return f'<path d="{path}" {pen} {fill} fill-rule="evenodd"/>'


def _lines(layer, lines):
    """Lines of one layer in one path, their arrowheads in another."""
    length, half = _head(layer)
    paths, heads = [], []
    for line in lines:
        (x1, y1), (x2, y2) = line.start, line.end
        x, y = f"{x2:.2f}", f"{y2:.2f}"
        if y1 == y2:
            paths.append(f"M{x1:.2f} {y}H{x}")
            head = f"l{-length if x2 > x1 else length} {half}v{-2 * half}z"
        elif x1 == x2:
            paths.append(f"M{x} {y1:.2f}V{y}")
            head = f"l{half} {-length if y2 > y1 else length}h{-2 * half}z"
        else:
            paths.append(f"M{x1:.2f} {y1:.2f}L{x} {y}")
            head = _arrowhead(x2 - x1, y2 - y1, length, half) if line.arrow else ""
        if line.arrow:
            heads.append(f"M{x} {y}{head}")
    pen, _ = _pen(layer, None, "")
    return f'<path d="{"".join(paths)}" {pen} fill="none"/>{_filled("".join(heads), layer)}'


def _head(layer):
    """Length and half the width of an arrowhead: slim, longer on thick lines."""
    return (16, 6) if LAYERS[layer].width > 2 else (10, 2.6)


def _arrowhead(dx, dy, length, half):
    """An arrowhead from its tip on, for a line that comes from (-dx, -dy)."""
    span = math.hypot(dx, dy)
    c, s = dx / span, dy / span
    return f"l{-length * c - half * s:.2f} {-length * s + half * c:.2f}l{2 * half * s:.2f} {-2 * half * c:.2f}z"


def _arc(arc, pen):
    """An arc as SVG writes it: end points, radius and which way round."""
    (x, y), r = arc.centre, arc.radius
    ends = [(x + r * math.cos(a), y + r * math.sin(a)) for a in (arc.start, arc.end)]
    (x1, y1), (x2, y2) = ends
    large, onward = int(abs(arc.end - arc.start) > math.pi), int(arc.end > arc.start)
    head = ""
    if arc.arrow:
        turn = 1 if onward else -1
        way = -turn * math.sin(arc.end), turn * math.cos(arc.end)
        head = _filled(f"M{x2:.2f} {y2:.2f}{_arrowhead(*way, *_head(arc.layer))}", arc.layer)
    path = f"M{x1:.2f} {y1:.2f}A{r:.2f} {r:.2f} 0 {large} {onward} {x2:.2f} {y2:.2f}"
    return f'<path d="{path}" {pen} fill="none"/>{head}'


def _outline(outline):
    if isinstance(outline, Circle):
        (x, y), r = outline.centre, outline.radius
        half = f"A{r:.2f} {r:.2f} 0 1 0 "
        return f"M{x - r:.2f} {y:.2f}{half}{x + r:.2f} {y:.2f}{half}{x - r:.2f} {y:.2f}Z"
    return "M" + "L".join([f"{x:.2f} {y:.2f}" for x, y in outline]) + "Z"


def _filled(path, layer):
    return f'<path d="{path}" fill="{LAYERS[layer].colour}"/>' if path else ""


def _dots(dots):
    circles = "".join([f'<circle cx="{x:.2f}" cy="{y:.2f}" r="3"/>' for x, y in dots])
    return f'<g fill="#222222">{circles}</g>' if dots else ""


def _texts(texts):
    """All texts on their white grounds; most are of one size and stand by their middle."""
    if not texts:
        return ""
    usual = max(text.size for text in texts)
    grounds, written = [], []
    for text in texts:
        left, top, right, bottom = text.box()
        grounds.append(f"M{left:.2f} {top:.2f}h{right - left:.2f}v{bottom - top:.2f}H{left:.2f}z")
        x, y = f"{text.x:.2f}", f"{text.y:.2f}"
        turn = f' transform="rotate(-90 {x} {y})"' if text.turn else ""
        written.append(f'<text x="{x}" y="{y}"{turn}{_face(text.size, text.anchor, text.bold, usual)}')
        written.append(f">{escape(text.text)}</text>")
    return (
        f'<path d="{"".join(grounds)}" fill="#ffffff"/>'
        f'<g font-size="{_n(usual)}" text-anchor="middle" fill="#111111">{"".join(written)}</g>'
    )


@lru_cache(maxsize=64)
def _face(size, anchor, bold, usual):
    """How a text is written where it is not as most are."""
    different = f' font-size="{_n(size)}"' if size != usual else ""
    different += f' text-anchor="{anchor}"' if anchor != "middle" else ""
    return ' dy="0.36em"' + different + (' font-weight="bold"' if bold else "")
