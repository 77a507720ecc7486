"""Plates for a ring of boards: the boards with the ring on them, and one quarter to lay them out by."""

import math

from shoplib.drawing.parts import centre_lines, found, given
from shoplib.drawing.sheet import Circle, Sheet, rectangle

MOST_NOTES = 8  # boards that are named one by one
LAYING = (
    "Of the lines of dots and dashes the level one is the centre line, the upright one the cross line: mirror the "
    "quarter over both. Full curves are the finished ring, broken ones the ring with its margin. Lay each board on its "
    "outline, show face up, and glue row by row from the centre line outward."
)


def draw_hollow_blank(blank, unit="mm"):
    """The boards from above with the ring on them, and one quarter with the length of each piece."""
    sheet = Sheet("Hollow blank", _spoken(blank, unit))
    _boards_plan(sheet.view("The boards from above", (0, 0, 0.5, 1)), blank, unit)
    _quarter(sheet.view("One quarter: how many, how long", (0.5, 0, 0.5, 1)), blank, unit)
    return sheet


def _spoken(blank, unit):
    pieces = ", ".join(f"{cut.how_many} of {_written(cut.each_long, blank, unit)}" for cut in blank.cut_list[:12])
    return (
        f"A ring, outside {given(blank, 'outside_diameter', unit)}, inside {given(blank, 'inside_diameter', unit)}, "
        f"from boards {given(blank, 'board_width', unit)} wide laid side by side. Pieces: {pieces}. Board in all: "
        f"{found(blank, 'total_length', unit)}."
    )


def row_boxes(row):
    """The boards of one row as left, bottom, right, top: one that runs through, or two."""
    if row.pieces == 1:
        return [(-row.outer, row.low, row.outer, row.high)]
    return [(-row.outer, row.low, -row.inner, row.high), (row.inner, row.low, row.outer, row.high)]


def all_boards(blank):
    """Every board of the blank, above and below the centre line."""
    boxes = []
    for row in blank.rows:
        above = row_boxes(row)
        boxes += above
        if row.low >= 0:
            boxes += [(left, -top, right, -bottom) for left, bottom, right, top in above]
    return boxes


def _boards_plan(view, blank, unit):
    outside, inside = blank.outside_diameter / 2, blank.inside_diameter / 2
    boxes = all_boards(blank)
    for box in boxes:
        view.area("waste", rectangle(*box))
    view.area("kept", Circle("kept", (0, 0), outside), Circle("kept", (0, 0), inside), grain=0.0)
    for seam in blank.overlaps:
        _seam(view, seam, outside, inside)
    centre_lines(view, 1.06 * max(box[2] for box in boxes))
    view.dimension((-outside, 0), (outside, 0), f"outside Ø {given(blank, 'outside_diameter', unit)}")
    view.dimension((-inside, 0), (inside, 0), f"inside Ø {given(blank, 'inside_diameter', unit)}")
    first = blank.rows[0]
    view.dimension((first.outer, first.low), (first.outer, first.high), given(blank, "board_width", unit), "right")


def _seam(view, seam, outside, inside):
    """The glue lines of one seam in the finished ring, on all sides of the centre lines it appears on."""
    if not seam.how_many:
        return
    far = math.sqrt(outside**2 - seam.off_centre**2)
    near = far - seam.in_the_ring
    for y in dict.fromkeys((-seam.off_centre, seam.off_centre)):  # not a set: its order is the computer's own
        view.line("joint", (near, y), (far, y))
        if near > 0:
            view.line("joint", (-far, y), (-near, y))


def _quarter(view, blank, unit):
    """The boards right of the centre and above the centre line, with the ring's edges over them."""
    outside, inside = blank.outside_diameter / 2, blank.inside_diameter / 2
    for row in blank.rows:
        left, bottom, right, top = row_boxes(row)[-1]
        view.area("piece", rectangle(max(left, 0.0), bottom, right, top), grain=0.0)
        if len(blank.rows) <= MOST_NOTES:
            view.note((right, (bottom + top) / 2), _piece(row, blank, unit))
    for radius in (outside, inside):
        view.arc("joint", (0, 0), radius, 0.0, math.pi / 2)
    for radius in (blank.blank_outer, blank.blank_inner):
        view.arc("hidden", (0, 0), radius, 0.0, math.pi / 2)
    view.line("centre", (0, 0), (blank.blank_outer, 0))
    view.line("centre", (0, 0), (0, blank.rows[-1].high))
    first = blank.rows[0]
    view.dimension((0, 0), (first.outer, 0), f"first row: ends at {_written(first.outer, blank, unit)}")
    if first.inner > 0:
        view.dimension((0, 0), (first.inner, 0), f"begins at {_written(first.inner, blank, unit)}")


def _piece(row, blank, unit):
    """How often a row's piece is cut for the whole ring, and how long."""
    return f"{row.pieces * (2 if row.low >= 0 else 1)} of {_written(row.length, blank, unit)}"


def _written(value, blank, unit):
    return blank.model.results()["blank_outer"].write(value, unit)


def template_hollow_blank(blank, unit="mm"):
    """One quarter of the blank at full size: boards, seams and the finished ring's edges."""
    sheet = Sheet("Hollow blank, one quarter", _spoken(blank, unit), use=LAYING)
    _quarter(sheet.view("One quarter: lay the boards on it, show face up"), blank, unit)
    return sheet
