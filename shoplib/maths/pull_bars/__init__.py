"""Pull bars: a round bar mitred to its arms, and a straight bar on two stubs."""

from shoplib.maths.pull_bars.mitred_bar import MitredBar
from shoplib.maths.pull_bars.stub_bar import StubBar

__all__ = ["MitredBar", "StubBar"]
