"""Views of a leaning or upright ring of staves: how it leans, and the saw's two settings. Its sizes are schematic."""

import math

from shoplib.drawing.parts import found, given
from shoplib.drawing.sheet import EndGrain

BOARD, THICK, LENGTH = 60.0, 20.0, 70.0  # mm, of the board that is drawn


def leaning_ring(sheet, ring, unit):
    """The lean in section, then the saw from above and from the board's edge."""
    _lean(sheet.view("The lean: the ring cut through (no sizes, angles only)", (0, 0, 1, 0.5)), ring, unit)
    _mitre(sheet.view("On the saw: inside face up, from above", (0, 0.5, 0.54, 0.5)), ring, unit, (0.0, 0.0))
    _tilt(sheet.view("From the board's long edge: the tilt", (0.54, 0.5, 0.46, 0.5)), ring, unit, (0.0, 0.0))


def _lean(view, ring, unit):
    """Both sides of the ring with the end grain that the cut shows, on the level from which the slope is counted."""
    thick, foot = 0.6 * THICK, 45.0
    along, across = (math.cos(ring.slope), math.sin(ring.slope)), (-math.sin(ring.slope), math.cos(ring.slope))
    top = max(BOARD * along[1] + thick * across[1], thick)
    for side in (1, -1):
        corners = [(0, 0), (BOARD, 0), (BOARD, thick), (0, thick)]
        placed = [(foot + a * along[0] + t * across[0], a * along[1] + t * across[1]) for a, t in corners]
        a, t = 0.5 * BOARD, -1.5 * BOARD
        pith = (side * (foot + a * along[0] + t * across[0]), a * along[1] + t * across[1])
        view.area("kept", tuple((side * x, y) for x, y in placed), grain=EndGrain(pith))
    view.line("centre", (0, -0.1 * BOARD), (0, top + 0.1 * BOARD))
    level = foot + 1.1 * BOARD
    view.line("hidden", (foot, 0), (level, 0))
    view.arc("drawn", (foot, 0), 0.8 * BOARD, 0.0, ring.slope, arrow=True)
    middle = (foot + 0.8 * BOARD * math.cos(ring.slope / 2), 0.8 * BOARD * math.sin(ring.slope / 2))
    view.note(middle, f"slope {given(ring, 'slope', unit)},\ncounted from lying flat")
    for a, t, words in ((0.85 * BOARD, thick, "inside face"), (BOARD, 0.5 * thick, "long edge")):
        view.note((-foot - a * along[0] - t * across[0], a * along[1] + t * across[1]), words, "left")


def _mitre(view, ring, unit, at):
    """The board flat on the table with its long edge below, inside face up."""
    x, y = at
    run = BOARD * math.tan(ring.mitre_angle)
    left, right = x - LENGTH - run, x + 0.5 * LENGTH
    view.area("waste", ((x, y), (right, y), (right, y + BOARD), (x - run, y + BOARD)))
    view.area("kept", ((left, y), (x, y), (x - run, y + BOARD), (left, y + BOARD)))
    view.line("hidden", (x, y), (x, y + BOARD))
    text = f"mitre {found(ring, 'mitre_angle', unit)} off square"
    view.dimension((x - run, y + BOARD), (x, y + BOARD), text, "above")
    view.dimension((left, y), (x, y), "long edge on this side")


def _tilt(view, ring, unit, at):
    """The board seen from its long edge, inside face up; the blade leans over what is kept."""
    x, y = at
    lean = math.tan(ring.blade_tilt)
    out = 0.8 * THICK
    view.area("waste", ((x, y), (x + 45, y), (x + 45, y + THICK), (x - THICK * lean, y + THICK)))
    view.area("kept", ((x - 60, y), (x, y), (x - THICK * lean, y + THICK), (x - 60, y + THICK)))
    view.line("blade", (x + out * lean, y - out), (x - (THICK + out) * lean, y + THICK + out))
    view.line("hidden", (x, y), (x, y + THICK + out))
    high = y + THICK + out
    view.dimension((x - (THICK + out) * lean, high), (x, high), f"tilt {found(ring, 'blade_tilt', unit)}", "above")


def bevels(view, ring, unit):
    """Both angles at full size side by side, each between the slanting end and the straight edge below."""
    left, high = 0.0, 100.0
    for words, name in (("mitre", "mitre_angle"), ("tilt", "blade_tilt")):
        run = high * math.tan(getattr(ring, name))
        right = left + 40.0 + run
        view.area("kept", ((left, 0), (right, 0), (right - run, high), (left, high)))
        view.line("hidden", (right, 0), (right, high))
        view.dimension((right - run, high), (right, high), f"{words} {found(ring, name, unit)}", "above", row=0)
        left = right + 70.0
