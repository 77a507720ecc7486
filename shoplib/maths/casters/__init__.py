"""Drilling for casters, the leg that carries one, and what the stand does when it is rolled."""

from shoplib.maths.casters.caster_leg import CasterLeg
from shoplib.maths.casters.rolling import Rolling

__all__ = ["CasterLeg", "Rolling"]
