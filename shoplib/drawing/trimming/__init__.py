"""Plates and templates of trimming: both cuts in section, the arcs with and against the grain, the patch."""

from shoplib.drawing.trimming.grain_arcs import draw_grain_arcs, template_grain_arcs
from shoplib.drawing.trimming.patch import draw_patch, template_patch
from shoplib.drawing.trimming.two_faces import draw_two_faces, template_two_faces

DRAWINGS = {"TwoFaces": draw_two_faces, "GrainArcs": draw_grain_arcs, "Patch": draw_patch}
TEMPLATES = {"TwoFaces": template_two_faces, "GrainArcs": template_grain_arcs, "Patch": template_patch}
