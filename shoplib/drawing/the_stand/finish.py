"""The surface that gets finish, as one square."""

from shoplib.drawing.parts import found, given
from shoplib.drawing.sheet import Sheet, rectangle


def finish(plain, unit):
    """All faces laid side by side as one square, and what it takes beside it."""
    sheet = Sheet("Finish", _spoken(plain, unit))
    view = sheet.view("All faces as one square")
    side = 1000 * plain.area**0.5
    view.area("piece", rectangle(0, 0, side, side), grain=0.0)
    view.note((side, 0.75 * side), f"surface {given(plain, 'area', unit)}")
    view.note((side, 0.5 * side), f"{plain.coats} coats, in all {found(plain, 'litres', unit)}")
    view.note((side, 0.25 * side), f"for each coat {found(plain, 'each_coat', unit)}")
    return sheet


def _spoken(plain, unit):
    return f"A surface of {given(plain, 'area', unit)} takes {found(plain, 'litres', unit)} of finish."
