"""Plates for rings made of pieces: the blank, one piece, and how the pieces come out of the board."""

import math

from shoplib.drawing.parts import centre_lines, found, given
from shoplib.drawing.sheet import Circle, Sheet, rectangle


def draw_stave_ring(ring, unit="mm"):
    """The blank from above, one stave with its sizes, and the strip; for a leaning ring its two saw settings."""
    sheet = Sheet("Stave ring", _spoken_staves(ring, unit))
    if ring.slope != 0:
        _saw_settings(sheet, ring, unit)
        return sheet
    _blank_plan(sheet.view("The blank from above", (0, 0, 0.54, 1)), ring, unit)
    _stave(sheet.view("One stave", (0.54, 0, 0.46, 0.56)), ring, unit)
    used = f"The strip: {100 * ring.material_yield:.0f} % of it ends in the ring"
    _strip(sheet.view(used, (0.54, 0.56, 0.46, 0.44)), ring, unit)
    return sheet


def _spoken_staves(ring, unit):
    words = (
        f"A ring of {ring.staves} staves, outside {given(ring, 'outside_diameter', unit)}, "
        f"inside {given(ring, 'inside_diameter', unit)}."
    )
    names = ("mitre_angle", "blade_tilt") if ring.slope else ("mitre_angle", "long_edge", "board_width", "closing_gap")
    return words + "".join(f" {ring.model.results()[name].words}: {found(ring, name, unit)}." for name in names)


def stave_corners(ring):
    """One stave's corners, long edge up, the ring's centre at the origin: long edge first, clockwise."""
    outer, inner = ring.blank_outer, ring.blank_outer - ring.board_width
    return (
        (-ring.long_edge / 2, outer), (ring.long_edge / 2, outer),
        (ring.short_edge / 2, inner), (-ring.short_edge / 2, inner),
    )


def _turned(points, angle):
    c, s = math.cos(angle), math.sin(angle)
    return tuple((c * x - s * y, s * x + c * y) for x, y in points)


def _blank_plan(view, ring, unit):
    """All staves; what the router keeps of them; and the last joint as the saw error leaves it."""
    step, corners = 2 * math.pi / ring.staves, stave_corners(ring)
    half_step = step / 2
    for k in range(ring.staves):
        view.area("waste", _turned(corners, k * step + half_step))
    outside, inside = ring.outside_diameter / 2, ring.inside_diameter / 2
    view.area("kept", Circle("kept", (0, 0), outside), Circle("kept", (0, 0), inside))
    tip, root = corners[0], corners[3]
    for k in range(ring.staves):
        view.line("joint", *_turned((tip, root), k * step + half_step))
    _last_joint(view, ring, unit)
    view.cross("centre", (0, 0), 0.06 * outside)
    view.dimension((-outside, 0), (outside, 0), f"outside Ø {given(ring, 'outside_diameter', unit)}")
    view.dimension((-inside, 0), (inside, 0), f"inside Ø {given(ring, 'inside_diameter', unit)}")


def _last_joint(view, ring, unit):
    """The last joint as the saw error leaves it, on top: the gap on the finished circle is its true size."""
    if ring.saw_error == 0:
        return
    outer, inner = ring.blank_outer / math.cos(math.pi / ring.staves), ring.blank_inner
    view.area("gap", _wedge(ring, inner, outer))
    side = "outside" if ring.saw_error > 0 else "inside"
    text = f"last joint open {found(ring, 'closing_gap', unit)} {side}"
    half, circle = ring.closing_gap / 2, ring.opening_circle / 2
    height = math.sqrt(circle**2 - half**2)
    view.dimension((-half, height), (half, height), text, "above")


def _wedge(ring, inner, outer):
    """Too shallow mitres leave a wedge from the ring's centre; too steep ones meet outside and open inside."""
    half = ring.closing_angle / 2
    if ring.saw_error > 0:
        c, s = math.cos(half), math.sin(half)
        return ((-inner * s, inner * c), (-outer * s, outer * c), (outer * s, outer * c), (inner * s, inner * c))
    gap, inside = ring.closing_gap / 2, ring.inside_diameter / 2
    root = gap * (outer - inner) / (outer - inside)
    return ((-root, inner), (0, outer), (root, inner))


def _stave(view, ring, unit):
    outer, inner = 0.0, -ring.board_width
    long, short = ring.long_edge / 2, ring.short_edge / 2
    view.area("waste", ((-long, outer), (long, outer), (short, inner), (-short, inner)))
    _kept_in_stave(view, ring)
    view.line("centre", (0, outer + 0.12 * ring.board_width), (0, inner - 0.12 * ring.board_width))
    view.line("hidden", (short, outer), (short, inner))
    view.dimension((-long, outer), (long, outer), f"long edge {found(ring, 'long_edge', unit)}", "above")
    view.dimension((-short, inner), (short, inner), f"short edge {found(ring, 'short_edge', unit)}")
    view.dimension((long, inner), (long, outer), f"board {found(ring, 'board_width', unit)}", "right")
    view.dimension((short, inner), (long, inner), f"mitre {found(ring, 'mitre_angle', unit)} off square", row=1)


def _kept_in_stave(view, ring):
    """The part of one stave that stays when the ring is cut round."""
    half, shift = math.pi / ring.staves, ring.blank_outer
    outside, inside = ring.outside_diameter / 2, ring.inside_diameter / 2
    angles = [math.pi / 2 - half + 2 * half * k / 24 for k in range(25)]
    arc = [(outside * math.cos(a), outside * math.sin(a) - shift) for a in angles]
    back = [(inside * math.cos(a), inside * math.sin(a) - shift) for a in reversed(angles)]
    view.area("kept", (*arc, *back))


def _strip(view, ring, unit):
    """All staves nested along a square-ended strip, one saw cut between neighbours."""
    view.area("board", rectangle(0, 0, ring.strip_length, ring.board_width))
    for corners in nested_staves(ring):
        view.area("piece", corners)
    view.dimension((0, 0), (ring.strip_length, 0), f"strip {found(ring, 'strip_length', unit)}")


def nested_staves(ring):
    """Corners of all staves along the strip, every second one turned end for end, a kerf square to the cut between."""
    tan = math.tan(math.pi / ring.staves)
    slant, cut = ring.board_width * tan, ring.kerf / math.cos(math.pi / ring.staves)
    step = ring.long_edge - slant + cut
    return [_nested(k * step, ring, slant, turned_over=k % 2 == 1) for k in range(ring.staves)]


def _nested(x, ring, slant, turned_over):
    """A stave whose leftmost point is at x: long edge below, or above when turned."""
    long, short = (x, x + ring.long_edge), (x + slant, x + slant + ring.short_edge)
    low, high = (short, long) if turned_over else (long, short)
    return ((low[0], 0), (low[1], 0), (high[1], ring.board_width), (high[0], ring.board_width))


def _saw_settings(sheet, ring, unit):
    """For a leaning or upright ring: the mitre on the board's face and the blade's tilt, schematic sizes."""
    board, tan = 60.0, math.tan(ring.mitre_angle)
    face = sheet.view("Mitre: the board flat on the table, from above", (0, 0, 0.56, 1))
    left = -90.0 - board * tan
    face.area("waste", ((0, 0), (70, 0), (70, board), (-board * tan, board)))
    face.area("kept", ((left, 0), (0, 0), (-board * tan, board), (left, board)))
    face.line("hidden", (0, 0), (0, board))
    face.dimension((-board * tan, board), (0, board), f"mitre {found(ring, 'mitre_angle', unit)} off square", "above")
    thick, lean = 20.0, math.tan(ring.blade_tilt)
    edge = sheet.view("Tilt: the blade, from the board's edge", (0.56, 0, 0.44, 1))
    edge.area("waste", ((0, 0), (45, 0), (45, thick), (-thick * lean, thick)))
    edge.area("kept", ((-60, 0), (0, 0), (-thick * lean, thick), (-60, thick)))
    edge.line("blade", (20 * lean, -20), (-(thick + 20) * lean, thick + 20))
    edge.line("hidden", (0, 0), (0, thick + 20))
    edge.dimension((-(thick + 20) * lean, thick + 20), (0, thick + 20), f"tilt "
        f"{found(ring, 'blade_tilt', unit)}", "above")


def draw_hollow_blank(blank, unit="mm"):
    """The boards from above with the ring on them, and one quarter with the reaches of the first rows."""
    sheet = Sheet("Hollow blank", _spoken_boards(blank, unit))
    _boards_plan(sheet.view("The boards from above", (0, 0, 0.56, 1)), blank, unit)
    _quarter(sheet.view("One quarter: reach along the grain", (0.56, 0, 0.44, 1)), blank, unit)
    return sheet


def _spoken_boards(blank, unit):
    pieces = [row.pieces for row in blank.rows]
    return (
        f"A ring, outside {given(blank, 'outside_diameter', unit)}, inside {given(blank, 'inside_diameter', unit)}, "
        f"from boards {given(blank, 'board_width', unit)} wide laid side by side. On one side of the centre line "
        f"{len(pieces)} rows, {pieces.count(1)} of them running through. Boards in all: "
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
    view.area("kept", Circle("kept", (0, 0), outside), Circle("kept", (0, 0), inside))
    for seam in blank.overlaps:
        _seam(view, seam, outside, inside)
    half = 1.06 * max(box[2] for box in boxes)
    centre_lines(view, half)
    view.dimension((-outside, 0), (outside, 0), f"outside Ø {given(blank, 'outside_diameter', unit)}")
    view.dimension((-inside, 0), (inside, 0), f"inside Ø {given(blank, 'inside_diameter', unit)}")
    first = blank.rows[0]
    view.dimension((first.outer, first.low), (first.outer, first.high), given(blank, "board_width", unit), "right")


def _seam(view, seam, outside, inside):
    """The glue lines of one seam in the finished ring, on all sides of the centre lines it appears on."""
    if seam.ring <= 0:
        return
    far = math.sqrt(outside**2 - seam.height**2)
    near = far - seam.ring
    for y in {seam.height, -seam.height}:
        view.line("joint", (near, y), (far, y))
        view.line("joint", (-far, y), (-near, y))


def _quarter(view, blank, unit):
    """The boards right of the centre and above the centre line, with the ring's edges over them."""
    outside, inside = blank.outside_diameter / 2, blank.inside_diameter / 2
    for row in blank.rows:
        left, bottom, right, top = row_boxes(row)[-1]
        view.area("piece", rectangle(max(left, 0.0), bottom, right, top))
    for radius in (outside, inside):
        view.arc("joint", (0, 0), radius, 0.0, math.pi / 2)
    for radius in (blank.blank_outer, blank.blank_inner):
        view.arc("hidden", (0, 0), radius, 0.0, math.pi / 2)
    view.line("centre", (0, 0), (blank.blank_outer, 0))
    view.line("centre", (0, 0), (0, blank.rows[-1].high))
    first = blank.rows[0]
    view.dimension((0, 0), (first.outer, 0), f"outer reach, first row {_reach(first.outer, blank, unit)}")
    if first.inner > 0:
        view.dimension((0, 0), (first.inner, 0), f"inner reach, first row {_reach(first.inner, blank, unit)}")


def _reach(value, blank, unit):
    return blank.model.results()["blank_outer"].write(value, unit)


def template_stave_ring(ring, unit="mm"):
    """One stave at full size with the finished ring's edges on it: cut to the outline, check the mitre."""
    sheet = Sheet("Stave ring, one stave", _spoken_staves(ring, unit))
    view = sheet.view(f"Stave: make {ring.staves}; show face up, long edge outside")
    _stave(view, ring, unit)
    return sheet


def template_hollow_blank(blank, unit="mm"):
    """One quarter of the blank at full size: boards, seams and the finished ring's edges."""
    sheet = Sheet("Hollow blank, one quarter", _spoken_boards(blank, unit))
    _quarter(sheet.view("One quarter: lay the boards out on it, show face up"), blank, unit)
    return sheet


DRAWINGS = {"StaveRing": draw_stave_ring, "HollowBlank": draw_hollow_blank}
TEMPLATES = {"StaveRing": template_stave_ring, "HollowBlank": template_hollow_blank}
