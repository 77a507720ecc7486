"""Plates for dowels: the rod in its square, the joint of two rails with a leg, and the fit in the hole."""

from shoplib.drawing.dowels.dowel_fit import draw_dowel_fit
from shoplib.drawing.dowels.dowel_joint import draw_dowel_joint
from shoplib.drawing.dowels.joint_template import template_dowel_joint
from shoplib.drawing.dowels.round_stock import draw_round_stock, template_round_stock

DRAWINGS = {"RoundStock": draw_round_stock, "DowelJoint": draw_dowel_joint, "DowelFit": draw_dowel_fit}
TEMPLATES = {"RoundStock": template_round_stock, "DowelJoint": template_dowel_joint}  # a fit is too fine to draw so
