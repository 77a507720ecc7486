"""Plates for coped rails, rectangular and round."""

from shoplib.drawing.coping.cope import draw_cope
from shoplib.drawing.coping.round_cope import draw_round_cope, template_round_cope
from shoplib.drawing.coping.trace import template_cope

DRAWINGS = {"Cope": draw_cope, "RoundCope": draw_round_cope}
TEMPLATES = {"Cope": template_cope, "RoundCope": template_round_cope}
