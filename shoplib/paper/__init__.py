"""Drawings on paper: full-size template pages, bench cards and DXF files.

The modules load fontTools and ezdxf only when something is written.
"""

from shoplib.paper.card import save_card
from shoplib.paper.dxf import save_dxf
from shoplib.paper.files import link_to
from shoplib.paper.pages import save_template
from shoplib.paper.rim_card import save_rim_card
from shoplib.paper.saw_plan import save_saw_plan

__all__ = ["link_to", "save_card", "save_dxf", "save_rim_card", "save_saw_plan", "save_template"]
