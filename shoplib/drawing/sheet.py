"""A drawing as data: shapes, dimensions and notes in millimetres on named layers.

A Sheet holds one or more views (a plan, a section). Shapes stand in true size, x to the right and
y up. Dimensions and notes say only what they measure or point at; `layout.py` finds their places.
"""

import math
from dataclasses import dataclass, field
from typing import NamedTuple


class Layer(NamedTuple):
    """How a layer is drawn (line habits after ISO 128) and what it stands for."""

    meaning: str
    width: float
    dashes: tuple = ()
    colour: str = "#111111"
    fill: str = "none"
    hatch: str = ""


LAYERS = {
    "waste": Layer("waste", 1.0, (7, 4), "#555555", "#f4f4f4", "cross"),
    "base": Layer("jig base and sacrificial board", 1.0, (), "#555555", "#ffffff"),
    "board": Layer("board", 1.0, (), "#555555", "#ffffff"),
    "piece": Layer("piece", 1.2, (), "#111111", "#f7dfae", "grain"),
    "kept": Layer("kept", 2.6, (), "#111111", "#f7dfae", "grain"),
    "groove": Layer("groove", 1.0, (3, 3), "#111111", "#ffffff"),
    "tool": Layer("jig", 1.3, (14, 3, 3, 3, 3, 3), "#333333"),
    "hidden": Layer("hidden edge", 1.2, (6, 4)),
    "centre": Layer("centre line", 0.9, (16, 4, 3, 4), "#333333"),
    "joint": Layer("joint", 1.4, (), "#111111"),
    "blade": Layer("saw blade", 2.4, (14, 3, 3, 3), "#003b5c"),
    "cutter": Layer("cutter", 1.8, (), "#003b5c", "#56b4e9", "cutter"),
    "pivot": Layer("pivot hole", 1.8, (), "#8a3800", "#ffffff"),
    "feed": Layer("feed", 2.4, (), "#0072b2"),
    "gap": Layer("gap", 1.7, (), "#b0004b", "#ffffff"),
    "stave": Layer("stave", 1.2, (), "#111111", "#f7dfae", "grain"),
    "bearing": Layer("bearing", 1.9, (), "#222222", "#d8dee4"),
    "square": Layer("square or cradle", 1.5, (12, 3, 4, 3), "#333333"),
    "edge": Layer("edge measured from", 2.0, (), "#333333"),
    "zone": Layer("where the centre may lie", 1.6, (), "#b0004b", "#fbdbe8"),
    "drawn": Layer("line drawn", 1.8, (), "#0072b2"),
    "astray": Layer("line off", 1.2, (5, 4), "#0072b2"),
    "mark": Layer("point on the rim", 2.1, (), "#8a3800", "#ffffff"),
    "out": Layer("out of round, enlarged", 3.0, (), "#b0004b"),
    "panel": Layer("panel", 1.4, (), "#111111", "#fffaf0"),
    "clash": Layer("no room: wood in wood", 2.0, (5, 3), "#b0004b", "#f9c6d8"),
    "drum": Layer("sanding drum", 1.6, (14, 3, 3, 3), "#003b5c"),
    "neighbour": Layer("neighbouring rail", 1.2, (), "#111111", "#ffffff"),
    "bar": Layer("bar and arms", 1.6, (), "#111111", "#f7dfae", "grain"),
    "stub": Layer("stub", 1.8, (), "#111111", "#d9a75c"),
    "prick": Layer("prick through", 1.6, (), "#8a3800", "#ffffff"),
    "thrown": Layer("arm as it comes out", 2.0, (6, 3), "#b0004b"),
    "rail": Layer("rail", 1.2, (), "#111111", "#fff6df"),
    "leg": Layer("leg", 1.5, (), "#111111", "#fff6df"),
    "hole": Layer("hole", 1.4, (), "#111111", "#ffffff"),
    "dowel": Layer("dowel", 2.2, (), "#111111", "#d9a75c"),
    "later": Layer("dowel later", 1.6, (5, 3), "#111111", "#e8cfa6"),
    "breach": Layer("holes break into each other", 2.0, (5, 3), "#b0004b", "#f9c6d8"),
    "jaw": Layer("jaw", 1.2, (), "#333333", "#d8dee4"),
    "blank": Layer("square blank", 1.0, (), "#555555", "#f3ead2"),
    "fence": Layer("fence and stops", 1.6, (), "#333333", "#cfd6dc"),
    "paper": Layer("template, to cut out", 1.1, (), "#111111", "#ffffff"),
    "fold": Layer("fold here", 1.4, (10, 3, 2, 3, 2, 3)),
    "square_end": Layer("rail's end while square", 1.6, (7, 3), "#0072b2"),
    "least": Layer("least wood between holes", 2.4, (), "#b0004b"),
    "zero": Layer("nominal size", 1.2, (16, 4, 3, 4), "#333333"),
    "template": Layer("template", 1.4, (), "#111111", "#d9d2c0"),
    "router_base": Layer("router's base", 2.2, (), "#333333", "#cfd6dc"),
    "shank": Layer("shank", 1.2, (), "#333333", "#ffffff"),
    "against": Layer("against the grain", 1.4, (), "#111111", "#ffffff", "cross"),
    "with": Layer("with the grain", 1.4, (), "#111111", "#ffffff"),
    "washer": Layer("washer", 1.3, (), "#222222", "#ffffff"),
    "screw": Layer("screw", 1.6, (), "#222222", "#ccd3da"),
    "thread": Layer("thread", 0.8, (4, 2), "#222222"),
    "fast": Layer("fast screw", 1.8, (), "#222222", "#222222"),
    "slide_hole": Layer("hole and counterbore", 1.5, (), "#222222", "#ffffff"),
    "fast_hole": Layer("hole of the fast screw", 1.9, (), "#222222", "#ffffff"),
    "seat": Layer("counterbore", 1.4, (6, 3), "#003b5c"),
    "glue": Layer("glue spot, ring to panel", 1.7, (), "#8a3800", "#f9c6d8"),
    "dry": Layer("shank, dry season", 2.0, (5, 3), "#8a3800"),
    "damp": Layer("shank, damp season", 2.0, (), "#0072b2"),
    "floor": Layer("floor", 2.6, (), "#333333"),
    "metal": Layer("caster", 1.9, (), "#222222", "#ccd3da"),
    "balance": Layer("centre of gravity", 1.8, (), "#8a3800", "#ffffff"),
    "empty": Layer("centre of gravity, empty", 2.0, (), "#8a3800", "#ffffff"),
    "loaded": Layer("centre of gravity, loaded", 2.3, (), "#8a3800", "#8a3800"),
    "rim": Layer("tray rim", 1.4, (), "#111111", "#f7dfae", "grain"),
    "force": Layer("weight and pull", 2.4, (), "#b0004b"),
    "upper_edge": Layer("rail's upper edge", 2.4, (), "#003b5c"),
    "knife": Layer("knife or pencil point, slid along", 2.2, (), "#8a3800"),
    "drill": Layer("drill's middle", 2.1, (), "#0072b2"),
    "block": Layer("block", 1.2, (), "#111111", "#f3ead2"),
    "frame": Layer("frame as it stands, its lean enlarged", 2.2, (), "#333333"),
    "true": Layer("frame as it should be", 1.1, (12, 3, 3, 3), "#333333"),
    "first": Layer("first diagonal", 1.8, (), "#0072b2"),
    "second": Layer("second diagonal", 1.8, (6, 4), "#8a3800"),
    "fault": Layer("fault", 1.4, (5, 3), "#b0004b", "#f9c6d8", "cutter"),
    "saw_cut": Layer("saw cut", 1.8, (), "#003b5c"),
    "dimension": Layer("dimension", 0.9, (), "#222222"),
}


class Line(NamedTuple):
    layer: str
    start: tuple
    end: tuple
    arrow: bool = False

    def points(self):
        return (self.start, self.end)


class Circle(NamedTuple):
    layer: str
    centre: tuple
    radius: float

    def points(self):
        (x, y), r = self.centre, self.radius
        return ((x - r, y - r), (x + r, y + r))


class Arc(NamedTuple):
    """Anticlockwise from the start angle to the end angle (rad); with an arrow, at its end.

    An end smaller than the start runs clockwise.
    """

    layer: str
    centre: tuple
    radius: float
    start: float
    end: float
    arrow: bool = False

    def points(self, pieces=24):
        (x, y), r = self.centre, self.radius
        turn = self.end - self.start
        angles = [self.start + turn * k / pieces for k in range(pieces + 1)]
        return tuple((x + r * math.cos(a), y + r * math.sin(a)) for a in angles)


class EndGrain(NamedTuple):
    """Wood seen on its end: growth rings round the pith, which may lie outside the shape."""

    pith: tuple


class Area(NamedTuple):
    """A filled shape: an outer outline and the holes left open in it; each a Circle or points.

    `grain` is the way the wood's fibres run: an angle (rad, anticlockwise from x to the right), or EndGrain.
    """

    layer: str
    outlines: tuple
    grain: float | EndGrain | None = None

    def points(self):
        return _points(self.outlines[0])


def _points(outline):
    return outline.points() if isinstance(outline, Circle) else outline


class Dimension(NamedTuple):
    """A linear dimension between two points, its line moved out to one side of the view.

    `side` is below, above, left or right; the text names what is measured and its size.
    """

    start: tuple
    end: tuple
    text: str
    side: str
    row: int


class Note(NamedTuple):
    """A sentence beside the view with a leader to the point it speaks of."""

    at: tuple
    text: str
    side: str


@dataclass
class View:
    """One view: its title, its cell of the sheet (x, y, width, height as shares), and what is in it."""

    title: str
    cell: tuple
    shapes: list = field(default_factory=list)
    dimensions: list = field(default_factory=list)
    notes: list = field(default_factory=list)

    def line(self, layer, start, end, arrow=False):
        self.shapes.append(Line(layer, start, end, arrow))

    def circle(self, layer, centre, radius):
        self.shapes.append(Circle(layer, centre, radius))

    def arc(self, layer, centre, radius, start, end, arrow=False):
        self.shapes.append(Arc(layer, centre, radius, start, end, arrow))

    def area(self, layer, *outlines, grain=None):
        self.shapes.append(Area(layer, outlines, grain))

    def cross(self, layer, centre, arm):
        """Two short lines that mark a centre."""
        x, y = centre
        self.line(layer, (x - arm, y), (x + arm, y))
        self.line(layer, (x, y - arm), (x, y + arm))

    def dimension(self, start, end, text, side="below", row=None):
        """Measure from start to end, the line on one side; rows count outward from the view."""
        taken = [each.row for each in self.dimensions if each.side == side]
        row = row if row is not None else max(taken, default=-1) + 1
        self.dimensions.append(Dimension(start, end, text, side, row))

    def note(self, at, text, side="right"):
        self.notes.append(Note(at, text, side))

    def bounds(self):
        """Left, bottom, right and top of all shapes, in mm."""
        points = [point for shape in self.shapes for point in shape.points()]
        xs, ys = [x for x, _ in points], [y for _, y in points]
        return min(xs), min(ys), max(xs), max(ys)


@dataclass
class Sheet:
    """A whole drawing: what it is called, what a screen reader says of it, and its views.

    `use`: sentences for the paper, how the sheet is used at the bench (which line is folded, what is wrapped).
    """

    title: str
    description: str = ""
    views: list = field(default_factory=list)
    use: str = ""

    def view(self, title="", cell=(0, 0, 1, 1)):
        self.views.append(View(title, cell))
        return self.views[-1]

    def layers(self):
        """The layers in use, in the order of LAYERS."""
        used = {shape.layer for view in self.views for shape in view.shapes}
        return [name for name in LAYERS if name in used]


def polygon(centre, radius, corners, turned=0.0):
    """Corner points of a regular polygon of this corner radius, the first at the angle `turned` (rad).

    >>> [(round(x, 6), round(y, 6)) for x, y in polygon((0, 0), 1.0, 4)]
    [(1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (-0.0, -1.0)]
    """
    x, y = centre
    angles = [turned + 2 * math.pi * k / corners for k in range(corners)]
    return tuple((x + radius * math.cos(a), y + radius * math.sin(a)) for a in angles)


def rectangle(left, bottom, right, top):
    """Corner points of an upright rectangle.

    >>> rectangle(0, 0, 2, 1)
    ((0, 0), (2, 0), (2, 1), (0, 1))
    """
    return ((left, bottom), (right, bottom), (right, top), (left, top))
