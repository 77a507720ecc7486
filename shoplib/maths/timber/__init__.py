"""Buying timber: parts, boards, and the plan that saws the one from the other."""

from shoplib.maths.timber.plan import SawPlan, saw_plan
from shoplib.maths.timber.stock import Board, Part

__all__ = ["Board", "Part", "SawPlan", "saw_plan"]
