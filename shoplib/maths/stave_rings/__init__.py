"""Rings made of pieces: mitred staves, or boards side by side with the middle left open."""

from shoplib.maths.stave_rings.hollow_blank import HollowBlank
from shoplib.maths.stave_rings.stave_ring import StaveRing

__all__ = ["HollowBlank", "StaveRing"]
