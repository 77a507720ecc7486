"""The rolling seedling stand as parts to saw, each size from the model of its lesson; and the boards on the rack."""

from math import ceil

from shoplib.maths.coping import Cope
from shoplib.maths.rebates import Rebate
from shoplib.maths.stave_rings import StaveRing
from shoplib.maths.stave_rings.strips import strip_of
from shoplib.maths.timber.stock import Board, Part
from shoplib.model import public

ASH = "Ash, white"
STAVES, TOGETHER = 12, 3  # of a ring, and how many of them lie in one short strip
PANEL_PIECES = 3


def stand_parts():
    """The stand's parts: legs, rails, pull bar, the rims in two layers as strips of three staves, the panels' pieces.

    >>> stand_parts()[1]
    Part: 4 rail, 332.0 x 50.0 x 20.0 mm, Ash, white
    """
    rail = Cope("35 mm", "20 mm", "360 mm", rail_height="50 mm").plain
    ring = StaveRing("440 mm", "400 mm", STAVES, margin="3 mm", kerf="3 mm")
    panel = Rebate("400 mm", "20 mm", "40 mm", "12 mm", "10 mm", clearance="2.5 mm").plain
    across = panel.panel_diameter + 10  # a little more than the disc, to hold it by
    return (
        Part("leg", 4, "720 mm", "35 mm", "35 mm", ASH, round=True),
        Part("rail", 4, _up(rail.rail_length), "50 mm", "20 mm", ASH),
        Part("pull bar", 1, "400 mm", "19 mm", "19 mm", ASH, round=True),
        Part("rim strip", 2 * 2 * STAVES // TOGETHER, _up(strip_of(ring.plain, TOGETHER)), _up(ring.plain.board_width),
             "20 mm", ASH),
        Part("panel piece", 2 * PANEL_PIECES, _up(across), _up(across / PANEL_PIECES), "12 mm", ASH),
    )


def stand_rack():
    """The boards on the rack; the spare one is paid for already and has a fault.

    >>> stand_rack()[3]
    Board: ash 27 spare, 1900.0 x 150.0 x 27.0 mm, fault 600.0 to 680.0 mm
    """
    return (
        Board("ash 52", "2900 mm", "140 mm", "52 mm", price=46.0, species=ASH),
        Board("ash 27", "1900 mm", "150 mm", "27 mm", price=19.0, species=ASH),
        Board("ash 20", "2900 mm", "160 mm", "20 mm", price=23.0, species=ASH),
        Board("ash 27 spare", "1900 mm", "150 mm", "27 mm", price=0.0, faults=[("600 mm", "680 mm")], species=ASH),
    )


def _up(value):
    """A size as a sawyer takes it: the next whole millimetre."""
    return public(float(ceil(value - 1e-6)), "length")
