"""Plates for the corner block: the leg in it, seen along the leg; both boards; the boards at full size."""

import math

from shoplib.drawing.parts import found_in_full as found
from shoplib.drawing.parts import given, told_results
from shoplib.drawing.sheet import Circle, EndGrain, Sheet, rectangle
from shoplib.model import length_in_full

LONG = 2.0  # how long the boards are along the leg, in the diameters of the leg that the block is made for
GAP = 14.0  # mm between the boards on the template
UPRIGHT = math.pi / 2


def draw_corner_block(block, unit="mm"):
    """Along the leg: both boards, their holes, where the drill meets the leg; beside it both boards laid flat."""
    sheet = Sheet("Corner block", _spoken(block, unit), use=_use(block, unit))
    title = f"Along the leg: marks {found(block, 'angle_between', unit)} apart"
    _along(sheet.view(title, (0, 0, 0.54, 1)), block, unit)
    view = sheet.view("Long board, inner face", (0.54, 0, 0.46, 0.5))
    _board(view, block, unit, block.board_thickness)
    view = sheet.view("Short board, inner face", (0.54, 0.5, 0.46, 0.5))
    _board(view, block, unit, 0.0)
    return sheet


def _spoken(block, unit):
    names = ("short_board", "long_board", "hole_from_corner", "hole_from_end", "angle_between")
    thick, leg = given(block, "board_thickness", unit), given(block, "leg_diameter", unit)
    words = f"Two boards {thick} thick round a leg of {leg}."
    return f"{words} {told_results(block, names, unit)}"


def _use(block, unit):
    """How the block is made and used, in sentences for the card and the foot of the page."""
    return (
        f"Plane both boards, {_long(block, unit)} long, grain along the leg, and bore each square to its face, both "
        f"holes at the middle of the length: {found(block, 'hole_from_corner', unit)} from the other board's inner "
        "face. Glue the long board over the short one's end, inside a square. Press the leg into the corner until "
        "it touches both boards along their whole length, and clamp it. Lay the hole of the long board on "
        "the first rail's mark, drill or prick, then the other hole for the second rail, without moving the leg; where "
        "the second rail's holes are staggered, slide the block along by the stagger, pressed to the first line by a "
        "dowel in its hole. For the legs of the other hand turn the block end for end."
    )


def _long(block, unit):
    """How long the boards are along the leg, in words."""
    return length_in_full(LONG * block.size, unit)


def marks(block):
    """Where the drill's middle meets the leg through the long board (below) and through the short one (left).

    The corner is the origin; the long board's inner face lies along x, the short one's along y.
    """
    radius, hole = block.leg_diameter / 2, block.hole_from_corner
    reach = radius - math.sqrt(radius**2 - (hole - radius) ** 2)
    return (hole, reach), (reach, hole)


def _along(view, block, unit):
    """The leg in the corner, cut across; the long board below, the short one left of it."""
    size, thick, radius = block.size, block.board_thickness, block.leg_diameter / 2
    hole, bore = block.hole_from_corner, 0.06 * size
    view.area("board", rectangle(-thick, -thick, size, 0), grain=EndGrain((-0.4 * size, 1.6 * size)))
    view.area("board", rectangle(-thick, 0, 0, size), grain=EndGrain((1.7 * size, -0.5 * size)))
    view.area("hole", rectangle(hole - bore, -thick, hole + bore, 0))
    view.area("hole", rectangle(-thick, hole - bore, 0, hole + bore))
    view.area("leg", Circle("leg", (radius, radius), radius), grain=EndGrain((0.7 * radius, 0.6 * radius)))
    (x, y), _ = found_marks = marks(block)
    view.line("drill", (hole, -1.25 * thick), (x, y), arrow=True)
    view.line("drill", (-1.25 * thick, hole), (y, x), arrow=True)
    for at in found_marks:
        view.line("centre", (radius, radius), at)
    view.dimension((0, 0), (hole, -thick), f"hole {found(block, 'hole_from_corner', unit)}")
    view.dimension((-thick, -thick), (hole, -thick), f"from the end {found(block, 'hole_from_end', unit)}")
    view.dimension((-thick, -thick), (size, -thick), f"long board {found(block, 'long_board', unit)}")
    view.dimension((-thick, 0), (-thick, hole), f"hole {found(block, 'hole_from_corner', unit)}", "left")
    view.dimension((-thick, 0), (-thick, size), f"short board {found(block, 'short_board', unit)}", "left")
    view.dimension((0, 2 * radius), (2 * radius, 2 * radius), f"leg Ø {given(block, 'leg_diameter', unit)}", "above")


def _board(view, block, unit, covers, x=0.0):
    """One board, its inner face up, the corner's edge left; `covers` is how much of it lies over the other's end."""
    wide, long, hole = block.size, LONG * block.size, block.hole_from_corner
    view.area("board", rectangle(x - covers, 0, x + wide, long), grain=UPRIGHT)
    if covers:
        view.line("hidden", (x, 0), (x, long))
    view.circle("hole", (x + hole, long / 2), 0.06 * wide)
    view.cross("centre", (x + hole, long / 2), 0.14 * wide)
    name, width = ("hole_from_end", "long_board") if covers else ("hole_from_corner", "short_board")
    view.dimension((x - covers, 0), (x + hole, long / 2), f"hole {found(block, name, unit)}")
    view.dimension((x - covers, 0), (x + wide, 0), f"wide {found(block, width, unit)}")
    view.dimension((x + wide, 0), (x + wide, long), f"{_long(block, unit)} long", "right")


def template_corner_block(block, unit="mm"):
    """Both boards at full size, inner faces up, their edges at the corner turned to each other."""
    sheet = Sheet("Corner block, both boards", _spoken(block, unit), use=_use(block, unit))
    view = sheet.view("Inner faces up: the short board left, the long board right")
    wide, long, hole, thick = block.size, LONG * block.size, block.hole_from_corner, block.board_thickness
    apart = GAP + thick
    view.area("board", rectangle(-wide, 0, 0, long), grain=UPRIGHT)
    view.area("board", rectangle(apart - thick, 0, apart + wide, long), grain=UPRIGHT)
    view.line("hidden", (apart, 0), (apart, long))
    for x in (-hole, apart + hole):
        view.circle("hole", (x, long / 2), 0.6)
        view.cross("centre", (x, long / 2), 0.18 * wide)
    view.note((-wide, 0.9 * long), "short board", "left")
    view.note((apart + wide, 0.9 * long), "long board", "right")
    view.note((apart, 0.02 * long), "short board's end\ncomes here", "right")
    view.dimension((-hole, long / 2), (0, long), f"hole {found(block, 'hole_from_corner', unit)}", "above")
    view.dimension((apart - thick, 0), (apart + hole, long / 2), f"hole {found(block, 'hole_from_end', unit)}")
    view.dimension((-wide, long), (0, long), f"short {found(block, 'short_board', unit)}", "above")
    view.dimension((apart - thick, 0), (apart + wide, 0), f"long {found(block, 'long_board', unit)}")
    view.dimension((-wide, 0), (-wide, long), f"{_long(block, unit)} along the leg", "left")
    return sheet
