"""Benches: live pages of sliders, drawing and settings for one model, and practice questions."""

from shoplib.bench.bench import Bench
from shoplib.bench.compare import side_by_side
from shoplib.bench.practice import Practice
from shoplib.bench.rim import RimBench
from shoplib.bench.timber import SawBench

__all__ = ["Bench", "Practice", "RimBench", "SawBench", "side_by_side"]
