"""Plates for casters: the bored leg with its caster, and the stand that stands, is lifted and tips."""

from shoplib.drawing.casters.caster_leg import draw_caster_leg, template_caster_leg
from shoplib.drawing.casters.rolling import draw_rolling

DRAWINGS = {"CasterLeg": draw_caster_leg, "Rolling": draw_rolling}
TEMPLATES = {"CasterLeg": template_caster_leg}
