"""Drawings on paper: full-size template pages, bench cards and DXF files.

The modules load matplotlib and ezdxf only when something is written.
"""

from shoplib.paper.card import save_card
from shoplib.paper.dxf import save_dxf
from shoplib.paper.pages import save_template

__all__ = ["save_card", "save_dxf", "save_template"]
