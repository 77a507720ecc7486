"""Buying timber: parts, boards, and the plan that saws the one from the other."""

from shoplib.maths.timber.files import read_boards, read_parts, write_boards, write_parts
from shoplib.maths.timber.plan import SawPlan, saw_plan
from shoplib.maths.timber.rack import stand_rack
from shoplib.maths.timber.stock import Board, Part

__all__ = [
    "Board", "Part", "SawPlan", "read_boards", "read_parts", "saw_plan", "stand_rack", "write_boards", "write_parts",
]
