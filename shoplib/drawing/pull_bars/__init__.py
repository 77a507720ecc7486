"""Plates for pull bars: mitred to their arms, and on stubs."""

from shoplib.drawing.pull_bars.mitred_bar import draw_mitred_bar, template_mitred_bar
from shoplib.drawing.pull_bars.stub_bar import draw_stub_bar, template_stub_bar

DRAWINGS = {"MitredBar": draw_mitred_bar, "StubBar": draw_stub_bar}
TEMPLATES = {"MitredBar": template_mitred_bar, "StubBar": template_stub_bar}
