"""Drawings of the whole stand, of its squareness and of its finish."""

from shoplib.drawing.the_stand.finish import finish
from shoplib.drawing.the_stand.squareness import squareness
from shoplib.drawing.the_stand.stand import draw_stand

DRAWINGS = {"Finish": finish, "Squareness": squareness, "Stand": draw_stand}
TEMPLATES = {}
