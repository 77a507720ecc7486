"""Drawings on paper: full-size template pages, bench cards and DXF files; and a stand in its file.

Each is loaded when it is first asked for; fontTools, ezdxf and tomlkit only when something is written.
"""

from shoplib.names import handed_on

_HOMES = {
    "link_to": "shoplib.paper.files", "save_card": "shoplib.paper.card", "save_dxf": "shoplib.paper.dxf",
    "save_rim_card": "shoplib.paper.rim_card", "save_saw_plan": "shoplib.paper.saw_plan",
    "save_template": "shoplib.paper.pages",
}  # fmt: skip
__all__, __getattr__, __dir__ = handed_on(__name__, _HOMES)
