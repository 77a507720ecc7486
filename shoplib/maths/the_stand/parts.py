"""The parts of the stand as they go to the saw, each size from the model of its lesson."""

from math import ceil

from shoplib.maths.stave_rings.strips import strip_of
from shoplib.maths.timber.stock import Part
from shoplib.model import public

TOGETHER = 3  # staves in one short strip, where their count can be shared so
PANEL_PIECES = 3
SPARE = 2.0  # mm of a panel's glue-up outside the line that it is sawn to


def parts_of(stand):
    """The stand's parts: legs, rails, bar and stubs, the rims as strips of staves or as boards, the panels' pieces.

    Lengths are those of the finished part, rounded up to a whole millimetre; all legs are of one length, for they are
    marked from the top before two of them are shortened.
    """
    plain = {each.name: each.plain for each in stand.operations()}
    counts = {each.name: each.count for each in stand.operations()}
    all_known = stand.plain_with(stand.made)
    timber = all_known.timber

    def squared(name, count, long, wide, thick, species=timber):
        return Part(name, count, _up(long), _up(wide), _mm(thick), species)

    def rounded(name, count, stock, per_blank=1):
        return Part(name, count, _up(stock.length), _mm(stock.diameter), _mm(stock.diameter), timber, True, per_blank)

    rail = plain["rails"]
    found = [
        rounded("leg", counts["leg_stock"], plain["leg_stock"]),
        Part("rail", counts["rails"], _up(rail.rail_length), _mm(rail.rail_height), _mm(rail.rail_thickness), timber),
    ]
    if "bar_stock" in plain:
        found.append(rounded("pull bar", 1, plain["bar_stock"]))
    if "stub_stock" in plain:
        found.append(rounded("stub", 2, plain["stub_stock"], per_blank=2))
    thick = all_known.rim_height / all_known.ring_layers
    if "staves" in plain:
        ring, rings = plain["staves"], counts["staves"]
        together = 1 if ring.staves % TOGETHER else TOGETHER
        strip = strip_of(ring, together)
        found.append(squared("rim strip", rings * ring.staves // together, strip, ring.board_width, thick))
    else:
        ring, rings = plain["boards"], counts["boards"]
        for k, cut in enumerate(ring.cut_list, 1):
            found.append(squared(f"rim board {k}", rings * cut.how_many, cut.each_long, ring.board_width, thick))
    across = panel_side(all_known)
    pieces = all_known.trays * PANEL_PIECES
    found.append(
        squared("panel piece", pieces, across, across / PANEL_PIECES, all_known.panel_thickness,
                all_known.panel_timber)
    )  # fmt: skip
    return tuple(found)


def panel_sawn(stand):
    """Across a panel as it leaves the saw, round, the margin off the line still on it."""
    return stand.panel_diameter + 2 * stand.trim_margin


def panel_side(stand):
    """Of a panel's glue-up, along and across the grain: what holds the circle that it is sawn to."""
    return panel_sawn(stand) + 2 * SPARE


def _mm(value):
    return public(float(value), "length")


def _up(value):
    """A size as a sawyer takes it: the next whole millimetre."""
    return public(float(ceil(value - 1e-6)), "length")
