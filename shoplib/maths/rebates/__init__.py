"""Rebates: the step in a ring's underside that takes a panel, and the gap that the seasons leave round it."""

from shoplib.maths.rebates.panel_season import PanelSeason, Season
from shoplib.maths.rebates.rebate import Rebate

__all__ = ["PanelSeason", "Rebate", "Season"]
