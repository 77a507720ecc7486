"""Screws that let a panel move, the sizes they are sold in, and what the seasons do to the ring round it."""

from shoplib.maths.screws.panel_screw import PanelScrew
from shoplib.maths.screws.ring_seasons import ring_seasons
from shoplib.maths.screws.sizes import screw_sizes

__all__ = ["PanelScrew", "ring_seasons", "screw_sizes"]
