"""Plates for marking out round legs: the wrapped strip, the corner block, the cradle."""

from shoplib.drawing.marking_out.corner_block import draw_corner_block, template_corner_block
from shoplib.drawing.marking_out.cradle import draw_cradle, template_cradle
from shoplib.drawing.marking_out.strip_template import template_wrap_strip
from shoplib.drawing.marking_out.wrap_strip import draw_wrap_strip

DRAWINGS = {"WrapStrip": draw_wrap_strip, "CornerBlock": draw_corner_block, "Cradle": draw_cradle}
TEMPLATES = {"WrapStrip": template_wrap_strip, "CornerBlock": template_corner_block, "Cradle": template_cradle}
