"""Benches: live pages of sliders, drawing and settings for one model, and practice questions.

Each is loaded when it is first asked for.
"""

import importlib

_HOMES = {
    "Bench": "shoplib.bench.bench", "OrderGame": "shoplib.bench.order_game", "Practice": "shoplib.bench.practice",
    "RimBench": "shoplib.bench.rim", "SawBench": "shoplib.bench.timber",
    "StandBench": "shoplib.bench.the_stand", "side_by_side": "shoplib.bench.compare",
}  # fmt: skip
__all__ = sorted(_HOMES)


def __getattr__(name):
    if name not in _HOMES:
        raise AttributeError(f"There is no {name!r} among the benches")
    return getattr(importlib.import_module(_HOMES[name]), name)
