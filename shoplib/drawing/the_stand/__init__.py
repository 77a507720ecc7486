"""Drawings of the whole stand, of its squareness and of its finish."""

from shoplib.drawing.the_stand.finish import finish
from shoplib.drawing.the_stand.front import front
from shoplib.drawing.the_stand.squareness import squareness

DRAWINGS = {"Finish": finish, "Squareness": squareness, "Stand": front}
TEMPLATES = {}
