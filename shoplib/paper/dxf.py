"""A template as DXF, for a laser, a CNC router or a CAD program: true millimetres on named layers."""

import io
import math
from contextlib import contextmanager

from shoplib import drawing
from shoplib.drawing.sheet import LAYERS, Area, Circle, Line
from shoplib.model import needing
from shoplib.paper.files import printout_path, save_whole
from shoplib.paper.imprint import imprint_of
from shoplib.paper.paths import arrowhead

TEXT = 3.5  # mm
ROW = 2.2 * TEXT
WORDS_ACROSS = 180.0  # mm, at the least
COLOURS = {  # AutoCAD colour index; 7 is black on white and white on black
    "waste": 8, "board": 9, "kept": 7, "groove": 8, "tool": 8, "hidden": 9, "centre": 1, "joint": 3,
    "cutter": 5, "pivot": 30, "feed": 150, "gap": 6, "dimension": 8,
}
ON_DIMENSION = {"layer": "DIMENSION"}
LINETYPES = {"centre": "CENTER", "hidden": "DASHED", "waste": "DASHED", "groove": "DASHED", "tool": "DASHDOT"}


def save_dxf(model, folder=None, unit="mm", part="", date=None):
    """Write a model's full-size template as a DXF file and return its path.

    The drawing is always in true mm, its words in `unit`; by default it goes into the folder `printouts`.
    `part` is your own name for the piece, `date` another date than today's. Raises PrintoutError (an OSError)
    where the file cannot be written, MissingError where there is no ezdxf.
    """
    path = printout_path(model, "template.dxf", unit, folder, part)
    return write_dxf(drawing.template(model, unit), imprint_of(model, unit, part, date), path)


def write_dxf(sheet, imprint, path):
    """Write a Sheet as DXF, its views as they stand in their own millimetres; returns the path."""
    with _undated():
        document = _document(sheet, imprint)
        return save_whole(path, document.saveas)


def text_of(sheet, imprint):
    """A Sheet as the text of a DXF file."""
    with _undated():
        written = io.StringIO()
        _document(sheet, imprint).write(written)
        return written.getvalue()


def _document(sheet, imprint):
    import ezdxf

    document = ezdxf.new("R2010", setup=True, units=4)  # $INSUNITS 4: millimetres
    document.header["$MEASUREMENT"] = 1
    for name in _layers(sheet):
        linetype = LINETYPES.get(name, "Continuous")
        document.layers.add(name.upper(), color=COLOURS.get(name, 7), linetype=linetype)
    _dimension_style(document)
    for view in sheet.views:
        _draw_view(document.modelspace(), view)
    _words(document.modelspace(), sheet, imprint)
    return document


def _layers(sheet):
    """The layers in use, that of dimensions, notes and words among them."""
    used = {*sheet.layers(), "dimension"}
    return [name for name in LAYERS if name in used]


def _words(space, sheet, imprint):
    """Under the drawing, what it is for: title, sizes, unit, date and mark, and how it is used."""
    bounds = [view.bounds() for view in sheet.views]
    rows = max((each.row + 1 for view in sheet.views for each in view.dimensions if each.side == "below"), default=0)
    left, bottom = min(each[0] for each in bounds), min(each[1] for each in bounds) - (rows + 1.5) * ROW
    drawn = "Drawn in millimetres at full size."
    texts = [imprint.title(sheet.title), imprint.made_from(), f"{imprint.stamp()} {drawn}", sheet.use]
    across = max(WORDS_ACROSS, max(each[2] for each in bounds) - left)
    how = {"char_height": TEXT, "style": "OpenSans", "attachment_point": 1, "width": across}  # top left
    space.add_mtext(_mtext("\n".join(filter(None, texts))), ON_DIMENSION | how).set_location((left, bottom))


@contextmanager
def _undated():
    """No dates and no random ids, so that the same drawing gives the same file."""
    with needing("ezdxf", "An outline for CAD (DXF)"):
        import ezdxf

    before = ezdxf.options.write_fixed_meta_data_for_testing
    ezdxf.options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        ezdxf.options.write_fixed_meta_data_for_testing = before


def _dimension_style(document):
    style = document.dimstyles.new("SHOP")
    style.dxf.dimtxt, style.dxf.dimasz = TEXT, TEXT * 0.8
    style.dxf.dimexo, style.dxf.dimexe, style.dxf.dimgap = TEXT * 0.4, TEXT * 0.4, TEXT * 0.3
    style.dxf.dimtad = 1  # the text above its line
    style.dxf.dimtxsty = "OpenSans"


def _draw_view(space, view):
    for shape in view.shapes:
        _draw(space, shape)
    bounds = view.bounds()
    for each in view.dimensions:
        _dimension(space, each, bounds)
    for side in ("left", "right"):
        _notes(space, view, side, bounds)


def _draw(space, shape):
    """Circles and arcs stay what they are; an area becomes its outlines."""
    on = {"layer": shape.layer.upper()}
    if isinstance(shape, Line):
        space.add_line(shape.start, shape.end, on)
        _arrowhead(space, shape, on)
    elif isinstance(shape, Circle):
        space.add_circle(shape.centre, shape.radius, on)
    elif isinstance(shape, Area):
        for outline in shape.outlines:
            _outline(space, outline, on)
    elif abs(shape.end - shape.start) >= 2 * math.pi - 1e-9:
        space.add_circle(shape.centre, shape.radius, on)
    else:
        start, end = sorted((shape.start, shape.end))  # DXF arcs run anticlockwise
        space.add_arc(shape.centre, shape.radius, math.degrees(start), math.degrees(end), dxfattribs=on)
        _arrowhead(space, shape, on)


def _outline(space, outline, on):
    if isinstance(outline, Circle):
        space.add_circle(outline.centre, outline.radius, on)
    else:
        space.add_lwpolyline(outline, close=True, dxfattribs=on)


def _arrowhead(space, shape, on):
    """A filled arrowhead at the end of an arrow."""
    if shape.arrow:
        space.add_solid(arrowhead(shape, TEXT / 17), on)


def _dimension(space, each, bounds):
    """A real DXF dimension, its line in the same row as on the screen."""
    left, bottom, right, top = bounds
    out = (each.row + 1) * ROW
    bases = {
        "below": (0, bottom - out), "above": (0, top + out),
        "left": (left - out, 0), "right": (right + out, 0),
    }
    space.add_linear_dim(
        bases[each.side], each.start, each.end, text=each.text, dimstyle="SHOP", dxfattribs=ON_DIMENSION,
        angle=0 if each.side in ("below", "above") else 90,
    ).render()


def _notes(space, view, side, bounds):
    """Notes in a column beside the dimensions, from the top down, each with a leader."""
    rows = 1 + max((each.row + 1 for each in view.dimensions if each.side == side), default=0)
    x = bounds[0] - rows * ROW if side == "left" else bounds[2] + rows * ROW
    toward = TEXT if side == "left" else -TEXT
    attachment, free = (6 if side == "left" else 4), math.inf  # middle right, middle left
    for note in sorted((note for note in view.notes if note.side == side), key=lambda note: -note.at[1]):
        height = TEXT * 1.7 * (note.text.count("\n") + 1)
        y = min(note.at[1], free - height / 2)
        free = y - height / 2 - TEXT
        how = {"char_height": TEXT, "style": "OpenSans", "attachment_point": attachment}
        space.add_mtext(_mtext(note.text), ON_DIMENSION | how).set_location((x, y))
        leader = [(x + toward / 2, y), (x + toward, y), note.at]
        space.add_lwpolyline(leader, dxfattribs=ON_DIMENSION)


def _mtext(text):
    """Plain words for MTEXT, whose own signs are the backslash and braces."""
    for sign in "\\{}":
        text = text.replace(sign, "\\" + sign)
    return text.replace("\n", "\\P")
