"""Drawings of the whole stand."""

from shoplib.drawing.the_stand.front import front

DRAWINGS = {"Stand": front}
TEMPLATES = {}
