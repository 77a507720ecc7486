"""Dowels: round rod from square stock, the joint of a rail with a round leg, and the fit of a dowel in its hole."""

from shoplib.maths.dowels.dowel_fit import DowelFit
from shoplib.maths.dowels.dowel_joint import DowelJoint
from shoplib.maths.dowels.round_stock import RoundStock

__all__ = ["DowelFit", "DowelJoint", "RoundStock"]
