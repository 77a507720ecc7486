"""Plates for rebates: section and plan of ring and panel, and the gap between them through the year."""

from shoplib.drawing.rebates.panel_season import draw_panel_season, template_panel_season
from shoplib.drawing.rebates.rebate import draw_rebate, template_rebate

DRAWINGS = {"Rebate": draw_rebate, "PanelSeason": draw_panel_season}
TEMPLATES = {"Rebate": template_rebate, "PanelSeason": template_panel_season}
