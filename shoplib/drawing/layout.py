"""Finds the places: a Sheet in millimetres becomes a Plate with every line and text in its place.

Each view gets its scale and keeps bands free round it: rows of dimensions on each side, columns of
notes left and right, its title on top and the key of line kinds below. Texts stand only in these bands, so they
cannot sit on an outline or on one another, whatever the sizes are. x runs right and y down.
"""

from functools import lru_cache

from shoplib.drawing.balance import MARKS, balance
from shoplib.drawing.placing import Placing
from shoplib.drawing.plate import Plate, Text, text_width
from shoplib.drawing.sheet import LAYERS, Area, Circle, Line

KEYED = ("empty", "loaded", "rim")
KEYED += ("kept", "waste", "groove", "cutter", "blade", "pivot", "tool", "feed", "base", "board", "piece", "gap")
KEYED += ("stave", "panel", "clash", "bearing")
KEYED += ("square", "edge", "zone", "drawn", "astray", "mark", "out")
KEYED += ("neighbour", "drum", "leg")
KEYED += ("metal", "balance", "force")
KEYED += ("rail", "hole", "dowel", "later", "breach", "jaw", "blank", "fence", "paper", "fold")
KEYED += ("square_end", "least", "zero")
KEYED += ("template", "router_base", "against", "with")
KEYED += ("screw", "washer", "fast", "dry", "damp", "seat", "slide_hole", "fast_hole", "glue")
KEYED += ("upper_edge", "knife", "drill", "block")
KEYED += ("bar", "stub", "thrown", "prick")
KEYED += ("fault", "saw_cut")


def lay_out(sheet, width=960.0, height=690.0, text=17.0, key=True, scale=None):
    """Place a Sheet on a plate of this size; lengths on the plate are in its own units (px, or mm of paper).

    With a `scale` the plate is made as large as the sheet needs at that scale; 1.0 is full size in mm.
    """
    if scale is not None:
        width, height = _needed(sheet, text, key, scale)
    plate = Plate(width, height, sheet.title, sheet.description)
    legend, foot = _key(tuple(sheet.layers()), width, height, text) if key else (Plate(width, height, "", ""), 0.0)
    plate.take(legend)
    for view in sheet.views:
        x, y, w, h = view.cell
        pad = text * 0.5
        room = height - foot
        cell = (x * width + pad, y * room + pad, w * width - 2 * pad, h * room - 2 * pad)
        plate.take(_placed(_View(view), cell, text, scale))
    return plate


class _View:
    """A view as the mark by which it is known again: equal to each one that shows the same."""

    def __init__(self, view):
        self.view, self.texts = view, tuple(each.text for each in (*view.dimensions, *view.notes))

    def __hash__(self):
        return hash((self.view.title, len(self.view.shapes), self.texts))

    def __eq__(self, other):
        return self.view == other.view


@lru_cache(maxsize=24)
def _placed(seen, cell, text, scale):
    """One view in its cell. Views that a slider leaves as they are, are not placed again."""
    part = Plate(0.0, 0.0, "", "")
    Placing(part, seen.view, text).place(*cell, scale)
    return part


def lay_out_key(sheet, width, text):
    """The key alone, on a plate of this width."""
    layers = tuple(sheet.layers())
    height = _key(layers, width, 0.0, text)[1]
    plate = Plate(width, height, "Key", "")
    plate.take(_key(layers, width, height, text)[0])
    return plate


def _needed(sheet, text, key, scale):
    """Width and height of the plate that holds every view at this scale."""
    needs = [(Placing(None, view, text).needed(scale), view.cell) for view in sheet.views]
    width = max((w + text) / cell[2] for (w, _), cell in needs)
    height = max((h + text) / cell[3] for (_, h), cell in needs)
    return width, height + (_key(tuple(sheet.layers()), width, 0.0, text)[1] if key else 0.0)


@lru_cache(maxsize=24)
def _key(layers, width, height, text):
    """The key along the foot, a swatch of each kind of line or area and its meaning; and how much room it takes."""
    part = Plate(width, height, "", "")
    used = [name for name in KEYED if name in layers]
    if not used:
        return part, 0.0
    small, x, y = text * 0.88, text, height - text
    for name in used:
        meaning = LAYERS[name].meaning
        if x + 2.4 * text + text_width(meaning, small) > width:
            x, y = text, y - 1.5 * text
        _swatch(part, name, x, y, text)
        part.texts.append(Text(x + 2.0 * text, y, meaning, small, "start"))
        x += 3.0 * text + text_width(meaning, small)
    return part, height - y + text * 0.9


def _swatch(plate, name, x, y, text):
    half, middle = text * 0.42, (x + 0.85 * text, y)
    if name in MARKS:
        plate.shapes += balance(name, middle, half)
    elif name in ("cutter", "pivot", "mark", "prick"):
        plate.shapes.append(Circle(name, middle, half))
        if name == "pivot":
            plate.shapes += _cross_lines(name, middle, text * 0.7)
    elif LAYERS[name].fill == "none":
        plate.shapes.append(Line(name, (x, y), (x + 1.7 * text, y), arrow=name in ("feed", "force")))
    else:
        right, top, bottom = x + 1.7 * text, y - half, y + half
        plate.shapes.append(Area(name, (((x, top), (right, top), (right, bottom), (x, bottom)),)))


def _cross_lines(name, middle, arm):
    x, y = middle
    return [Line(name, (x - arm, y), (x + arm, y)), Line(name, (x, y - arm), (x, y + arm))]
