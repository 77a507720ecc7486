"""Marking out round legs: the strip wrapped round, the block in the corner, the cradle with its level lines."""

from shoplib.maths.marking_out.corner_block import CornerBlock
from shoplib.maths.marking_out.cradle import Cradle
from shoplib.maths.marking_out.wrap_strip import WrapStrip

__all__ = ["CornerBlock", "Cradle", "WrapStrip"]
