"""Trimming a sawn ring to a template: two cutters from two faces, the grain on the way, patches for what tore."""

from shoplib.maths.trimming.grain_arcs import GrainArcs
from shoplib.maths.trimming.patch import Patch
from shoplib.maths.trimming.two_faces import TwoFaces

__all__ = ["GrainArcs", "Patch", "TwoFaces"]
