"""Plates for rings made of pieces: the blank, one piece, and how the pieces come out of the board."""

from shoplib.drawing.stave_rings.hollow_blank import draw_hollow_blank, template_hollow_blank
from shoplib.drawing.stave_rings.stave_ring import draw_stave_ring, template_stave_ring

DRAWINGS = {"StaveRing": draw_stave_ring, "HollowBlank": draw_hollow_blank}
TEMPLATES = {"StaveRing": template_stave_ring, "HollowBlank": template_hollow_blank}
