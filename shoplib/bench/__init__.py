"""Benches: live pages of sliders, drawing and settings for one model, and practice questions.

Each is loaded when it is first asked for.
"""

from shoplib.names import handed_on

_HOMES = {
    "Bench": "shoplib.bench.bench", "OrderGame": "shoplib.bench.order_game", "Practice": "shoplib.bench.practice",
    "RimBench": "shoplib.bench.rim", "SawBench": "shoplib.bench.timber",
    "StandBench": "shoplib.bench.the_stand", "side_by_side": "shoplib.bench.compare",
}  # fmt: skip
__all__, __getattr__, __dir__ = handed_on(__name__, _HOMES)
