"""Draws laid-out plates with matplotlib: the same lines, hatches and texts on paper as on the screen.

Widths, dashes, hatches and arrowheads are kept in px of the screen's plate; `pen` says how large such
a px is on this plate. x runs right and y down, as on every plate.
"""

import math
from dataclasses import dataclass

import matplotlib
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.backends.backend_pdf import FigureCanvasPdf, PdfPages
from matplotlib.figure import Figure
from matplotlib.patches import PathPatch
from matplotlib.path import Path
from matplotlib.transforms import Bbox

from shoplib.drawing.layout import lay_out
from shoplib.drawing.sheet import LAYERS, Arc, Area, Circle, EndGrain, Layer, Line, rectangle
from shoplib.paper.boxes import box_of, dot_box, grown, holds, meet, text_box
from shoplib.paper.files import save_whole

MM = 72 / 25.4  # points in a millimetre

LAYERS_ON_PAPER = LAYERS | {
    "frame": Layer("edge of a page", 0.8, (), "#9a9a9a"),
    "target": Layer("register mark", 0.0, (), "#000000", "#000000"),
    "here": Layer("this page", 1.4, (), "#003b5c", "#cfe8f7", "slant"),
    "mark": Layer("register mark", 1.1, (), "#000000"),
    "rule": Layer("check ruler", 1.1, (), "#000000"),
    "grid": Layer("line of a table", 0.7, (), "#8a8a8a"),
    "box": Layer("box to tick", 1.0, (), "#333333", "#ffffff"),
}


def settings():
    """matplotlib's own defaults for as long as we draw, whatever the user has set.

    A tight bounding box, for instance, would change the size of the page.
    """
    ours = {"pdf.fonttype": 42, "lines.scale_dashes": False, "path.simplify": False, "savefig.bbox": None}
    theirs = matplotlib.rcParamsDefault
    return matplotlib.rc_context({key: theirs[key] for key in theirs if not key.startswith("backend")} | ours)


def save_pdf(path, pages, title):
    """Write figures as the pages of one PDF; the same figures always give the same bytes."""

    def write(temporary):
        about = {"Title": title, "Creator": "shoplib", "CreationDate": None}
        with PdfPages(temporary, metadata=about) as pdf:
            for page in pages:
                FigureCanvasPdf(page)
                pdf.savefig(page)

    with settings():
        return save_whole(path, write)


def save_png(sheet, path, width_px=1600, width=960.0, height=690.0):
    """Write a Sheet as a PNG picture, laid out as on the screen; returns the path."""
    return save_plate(lay_out(sheet, width, height), path, width_px)


def save_plate(plate, path, width_px=1600):
    """Write what is laid out already as a PNG picture; returns the path."""
    width, height = plate.width, plate.height
    with settings():
        figure = Figure(figsize=(width / 72, height / 72), dpi=width_px * 72 / width)
        Plotter(axes_on(figure, (0, 0, width, height), (0, 0, width, height), 1.0)).plate(plate)
        FigureCanvasAgg(figure)
        about = {"Title": plate.title, "Software": None}
        return save_whole(path, lambda temporary: figure.savefig(temporary, metadata=about))


def page(width, height):
    """An empty page, in mm."""
    return Figure(figsize=(width / 25.4, height / 25.4))


def axes_on(figure, box, window, point=MM):
    """A part of a page (left, top, width, height) that shows a window (left, top, right, bottom) of a plate.

    What lies outside the window is clipped off. `point` is the size in points of what the box is told in.
    """
    width, height = (inches * 72 / point for inches in figure.get_size_inches())
    left, top, across, down = box
    axes = figure.add_axes((left / width, 1 - (top + down) / height, across / width, down / height))
    axes.set_axis_off()
    axes.set(xlim=(window[0], window[2]), ylim=(window[3], window[1]))
    return axes


@dataclass
class Plotter:
    """Draws on axes; `pen` is the size of a screen px on this plate, `point` the points in a unit of it.

    `thin` makes the lines finer but leaves arrowheads as they are; `open` spreads the hatches. With `whole`
    a text, a dot or an arrowhead that the axes would cut is left out.
    """

    axes: object
    pen: float = 1.0
    point: float = 1.0
    thin: float = 1.0
    open: float = 1.0
    whole: bool = False

    def plate(self, plate):
        """Draw whatever of a plate can be seen in the axes."""
        for shape in plate.shapes + plate.lines:
            if self._seen(box_of(shape)):
                self.shape(shape)
        for centre in plate.dots:
            if self._shown(dot_box(centre, self.pen)):
                self._patch(_circle(centre, 3 * self.pen), facecolor="#222222", edgecolor="none")
        for text in plate.texts:
            if self._shown(text_box(text)):
                self._text(text)

    def shape(self, shape):
        style = LAYERS_ON_PAPER[shape.layer]
        path = path_of(shape)
        if isinstance(shape, (Circle, Area)):
            if style.fill != "none":
                self._patch(path, facecolor=style.fill, edgecolor="none")
            grain = getattr(shape, "grain", None)
            if style.hatch or grain is not None:
                self._hatch(path, style.hatch if grain is None else "grain", grain or 0.0)
        self._stroke(path, style)
        if isinstance(shape, (Line, Arc)) and shape.arrow:
            corners = arrowhead(shape, self.pen)
            if self._shown(box_of(Area(shape.layer, (corners,)))):
                self._fill(corners, style.colour)

    def outline(self, shape):
        """Only the line of a shape."""
        self._stroke(path_of(shape), LAYERS_ON_PAPER[shape.layer])

    def _window(self):
        window = self.axes.viewLim
        return window.xmin, window.ymin, window.xmax, window.ymax

    def _seen(self, box):
        """Whether a box comes near the window."""
        return meet(grown(box, 20 * self.pen), self._window())

    def _shown(self, box):
        """Whether what has this box is drawn, where it must not be cut."""
        return holds(self._window(), box) if self.whole else self._seen(box)

    def _patch(self, path, **how):
        return self.axes.add_artist(PathPatch(path, **({"linewidth": 0} | how)))

    def _fill(self, corners, colour):
        self._patch(Path(corners), facecolor=colour, edgecolor="none")

    def _stroke(self, path, style):
        px = self.pen * self.point
        line = (0, [dash * px for dash in style.dashes]) if style.dashes else "solid"
        width = style.width * px * self.thin
        self._patch(path, fill=False, edgecolor=style.colour, linewidth=width, linestyle=line)

    def _hatch(self, area, kind, grain=0.0):
        """Hatch lines over what can be seen of the area's box, clipped to the area."""
        colour, width = HATCHES[kind]
        seen, box = self.axes.viewLim, area.get_extents()
        box = (
            max(box.xmin, seen.xmin), max(box.ymin, seen.ymin),
            min(box.xmax, seen.xmax), min(box.ymax, seen.ymax),
        )
        lines = _hatch_lines(kind, box, self.pen * self.open, grain)
        width *= self.pen * self.point * self.thin
        patch = self._patch(lines, fill=False, edgecolor=colour, linewidth=width)
        patch.set_clip_path(area, self.axes.transData)
        patch.set_clip_box(self.axes.bbox)

    def _text(self, text):
        """A text on a white ground, its baseline as far under the middle as on the screen."""
        self._fill(rectangle(*text.box()), "#ffffff")
        drop = 0.36 * text.size
        x, y = (text.x + drop, text.y) if text.turn else (text.x, text.y + drop)
        self.axes.text(
            x, y, text.text, fontsize=text.size * self.point, rotation=text.turn, rotation_mode="anchor",
            ha={"start": "left", "middle": "center", "end": "right"}[text.anchor], va="baseline",
            weight="bold" if text.bold else "normal", color="#111111", parse_math=False, clip_on=True,
        )


def path_of(shape):
    """A shape as a matplotlib path; the holes of an area wind the other way than its outline."""
    if isinstance(shape, Line):
        return Path([shape.start, shape.end])
    if isinstance(shape, Circle):
        return _circle(shape.centre, shape.radius)
    if isinstance(shape, Arc):
        turned = sorted(map(math.degrees, (shape.start, shape.end)))
        return Path(Path.arc(*turned).vertices * shape.radius + shape.centre, Path.arc(*turned).codes)
    outer, *holes = map(_outline, shape.outlines)
    return Path.make_compound_path(_wound(outer, 1), *(_wound(hole, -1) for hole in holes))


def _circle(centre, radius):
    unit = Path.unit_circle()
    return Path(unit.vertices * radius + centre, unit.codes)


def _outline(outline):
    if isinstance(outline, Circle):
        return _circle(outline.centre, outline.radius)
    return Path([*outline, outline[0]], closed=True)


def _wound(path, way):
    """The closed path, turned round where it runs the other way."""
    points = path.vertices[:-1]
    x, y = points[:, 0] - points[0, 0], points[:, 1] - points[0, 1]
    twice_area = (x[:-1] * y[1:] - x[1:] * y[:-1]).sum()
    if twice_area * way >= 0:
        return path
    turned = path.vertices.copy()
    turned[:-1] = points[::-1]
    return Path(turned, path.codes)


def crosses(shape, box):
    """Whether a shape's line runs through a box (left, top, right, bottom)."""
    return path_of(shape).intersects_bbox(Bbox.from_extents(*box), filled=False)


def touches(shape, box):
    """Whether a shape's line, or the ground it fills, touches a box (left, top, right, bottom)."""
    if crosses(shape, box):
        return True
    if not isinstance(shape, Area) or LAYERS_ON_PAPER[shape.layer].fill == "none":
        return False
    middle = ((box[0] + box[2]) / 2, (box[1] + box[3]) / 2)
    inside = [_outline(outline).contains_point(middle) for outline in shape.outlines]
    return sum(inside) % 2 == 1


def arrowhead(shape, pen):
    """Tip and back corners of the arrowhead at the end of a line or arc, longer on thick lines."""
    if isinstance(shape, Line):
        (x1, y1), tip = shape.start, shape.end
        direction = math.atan2(tip[1] - y1, tip[0] - x1)
    else:
        x, y = shape.centre
        tip = (x + shape.radius * math.cos(shape.end), y + shape.radius * math.sin(shape.end))
        direction = shape.end + math.copysign(math.pi / 2, shape.end - shape.start)
    length, half = (16 * pen, 6 * pen) if LAYERS_ON_PAPER[shape.layer].width > 2 else (10 * pen, 2.6 * pen)
    c, s = math.cos(direction), math.sin(direction)
    x, y = tip[0] - length * c, tip[1] - length * s
    return [tip, (x - half * s, y + half * c), (x + half * s, y - half * c)]


HATCHES = {  # colour and width in px
    "grain": ("#a8741a", 0.8),
    "cross": ("#8a8a8a", 0.9),
    "cutter": ("#003b5c", 1.4),
    "slant": ("#003b5c", 0.7),
}


def _hatch_lines(kind, box, px, grain=0.0):
    """The lines of a hatch over a box: along the grain, rings on end grain, crossed or slanting.

    They hang on the plate's own corner or on the pith, so that they meet from one page to the next.
    """
    if isinstance(grain, EndGrain):
        return _rings(grain.pith, box, 7 * px)
    if kind == "grain":
        return _strokes(_turned_grain(box, px, -grain))  # y runs down on a plate
    if kind == "cross":
        return _strokes([*_slanting(box, 9 * px, 1), *_slanting(box, 9 * px, -1)])
    return _strokes(_slanting(box, (5 if kind == "cutter" else 7) * px, -1))


def _grain(box, px):
    """Dashes in rows, every second row moved along by half a dash and gap."""
    left, top, right, bottom = box
    step, pitch = 4.5 * px, 26 * px
    for row in range(math.ceil(top / step), math.floor(bottom / step) + 1):
        start = 13 * px * (row % 2)
        for k in range(math.floor((left - start) / pitch), math.floor((right - start) / pitch) + 1):
            yield (start + k * pitch, row * step), (start + k * pitch + 17 * px, row * step)


def _turned_grain(box, px, angle):
    """Grain that runs at an angle: laid over the box as it looks from there, then turned back."""
    if not angle:
        yield from _grain(box, px)
        return
    left, top, right, bottom = box
    xs, ys = zip(*(_turn(corner, -angle) for corner in ((left, top), (right, top), (right, bottom), (left, bottom))))
    for start, end in _grain((min(xs), min(ys), max(xs), max(ys)), px):
        yield _turn(start, angle), _turn(end, angle)


def _turn(point, angle):
    (x, y), c, s = point, math.cos(angle), math.sin(angle)
    return x * c - y * s, x * s + y * c


def _rings(pith, box, step):
    """Growth rings round the pith as far as the box reaches, those that miss it left out."""
    (x, y), (left, top, right, bottom) = pith, box
    far = max(math.hypot(px - x, py - y) for px in (left, right) for py in (top, bottom))
    near = math.hypot(max(left - x, 0, x - right), max(top - y, 0, y - bottom))
    circles = [_circle(pith, step * (k + 0.5)) for k in range(int(near / step), int(far / step) + 1)]
    return Path.make_compound_path(*circles) if circles else _strokes([])


def _slanting(box, step, way):
    """Lines at 45 degrees across a box, `step` apart, where y = way * x + rise."""
    left, top, right, bottom = box
    step *= math.sqrt(2)
    rises = (top - way * left, top - way * right, bottom - way * left, bottom - way * right)
    for k in range(math.ceil(min(rises) / step), math.floor(max(rises) / step) + 1):
        yield (left, way * left + k * step), (right, way * right + k * step)


def _strokes(lines):
    points = [point for line in lines for point in line] or [(0.0, 0.0), (0.0, 0.0)]
    return Path(points, [Path.MOVETO, Path.LINETO] * (len(points) // 2))
