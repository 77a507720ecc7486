"""The plate of a panel through the year, and the gauge for its gap."""

import math

from shoplib.drawing.parts import centre_lines
from shoplib.drawing.parts import found_in_full as found
from shoplib.drawing.rebates.ring import boards, staves
from shoplib.drawing.sheet import EndGrain, Sheet, rectangle
from shoplib.model import given_in_full as given
from shoplib.model import length_in_full

SEASONS = (("As made", "made", "gap_as_made"), ("Dry season", "dry", "gap_dry"), ("Damp season", "damp", "gap_damp"))

USE = (
    "Read the panel's moisture on the day. Cut it round to its diameter as made, mark the grain's direction on its "
    "underside and lay it in with equal strips all round. Measure the gap at both ends of the diameter across its "
    "grain; there it changes most. Lap: how far a panel that has shrunk, and slid right over to the other side, still "
    "reaches under the lip."
)


def draw_panel_season(panel, unit="mm"):
    """Panel and ring from below in the damp season, and one side of the panel enlarged in each season.

    Where the rebate's width is known, a last view shows what still laps under the lip of a shrunk panel slid over.
    """
    sheet = Sheet("Panel through the year", _spoken_season(panel, unit), use=USE)
    _damp_plan(sheet.view("Damp season, underside up", (0, 0, 0.45, 1)), panel, unit)
    rows = len(SEASONS) + panel.has("rebate_width")
    for index, (title, content, gap) in enumerate(SEASONS):
        view = sheet.view(f"{title}, {given(panel, content, unit)}", (0.45, index / rows, 0.55, 1 / rows))
        _one_side(view, panel, getattr(panel, gap))
        _tell_gap(view, panel, getattr(panel, gap), unit)
    if panel.has("rebate_width"):
        view = sheet.view("Dry season, slid over: its lap under the lip", (0.45, 1 - 1 / rows, 0.55, 1 / rows))
        _one_side(view, panel, 2 * panel.gap_dry)
        _tell_lap(view, panel, unit)
    return sheet


def _spoken_season(panel, unit):
    words = (
        f"A panel of {panel.species}, {panel.cut} cut, in a rebate {given(panel, 'rebate_diameter', unit)} across; "
        f"{panel.ring} ring. Gap on each side, across the grain:"
    )
    names = (("made", "gap_as_made"), ("dry", "gap_dry"), ("damp", "gap_damp"))
    return words + "".join(f" {found(panel, gap, unit)} at {given(panel, moist, unit)}." for moist, gap in names)


def _ellipse(along, across, pieces=96):
    """Points of an ellipse by its diameters along and across the grain; the grain runs level."""
    angles = [2 * math.pi * k / pieces for k in range(pieces)]
    return [(along / 2 * math.cos(a), across / 2 * math.sin(a)) for a in angles]


def _damp_plan(view, panel, unit):
    """Ring and panel at their true damp size; the panel's grain runs from left to right."""
    outside = 0.56 * panel.rebate_diameter + max(0.0, panel.panel_damp - panel.rebate_diameter)
    rebate = _ellipse(panel.rebate_diameter, panel.rebate_damp)
    disc = _ellipse(panel.panel_diameter, panel.panel_damp)
    if panel.ring == "mitred":
        staves(view, panel.rebate_diameter / 2, outside)
    else:
        boards(view, rebate, outside)
    view.area("panel", disc, grain=0.0)
    if panel.gap_damp < 0:
        _clashes(view, panel)
    centre_lines(view, 1.06 * outside)
    half, along = panel.panel_damp / 2, panel.panel_diameter / 2
    view.dimension((0, -half), (0, half), f"across the grain {found(panel, 'panel_damp', unit)}", "right")
    text = f"along the grain {found(panel, 'panel_diameter', unit)}"
    view.dimension((-along, 0), (along, 0), text)
    wall = panel.rebate_damp / 2
    view.dimension((0, -wall), (0, wall), f"rebate {found(panel, 'rebate_damp', unit)}", "left")


def _clashes(view, panel, pieces=72):
    """Above and below: where the panel would stand in the ring's wood."""
    angles = [math.pi * k / pieces for k in range(1, pieces)]
    disc = [_polar(a, panel.panel_diameter, panel.panel_damp) for a in angles]
    rebate = [_polar(a, panel.rebate_diameter, panel.rebate_damp) for a in angles]
    over = [k for k, (one, other) in enumerate(zip(disc, rebate)) if one > other]
    if len(over) < 2:
        return
    outline = [(disc[k], angles[k]) for k in over] + [(rebate[k], angles[k]) for k in reversed(over)]
    for way in (1, -1):
        view.area("clash", tuple((r * math.cos(a), way * r * math.sin(a)) for r, a in outline))


def _polar(angle, along, across):
    """Centre to the edge of an ellipse in one direction."""
    return along * across / 2 / math.hypot(across * math.cos(angle), along * math.sin(angle))


def _one_side(view, panel, gap):
    """A cut across the grain at the panel's edge, the wall at x = 0: widths true, heights only for show."""
    left, right = _extent(panel)
    thick, top = 0.12 * (right - left), 0.2 * (right - left)
    rim = EndGrain((0.3 * right, -0.9 * (right - left)))
    if panel.has("rebate_width"):
        lip = -panel.rebate_width
        view.area("kept", ((0, 0), (right, 0), (right, top), (lip, top), (lip, thick), (0, thick)), grain=rim)
    else:
        view.area("kept", rectangle(0, 0, right, top), grain=rim)
    edge = min(-gap, 0.0)
    view.area("panel", rectangle(left, 0, edge, thick), grain=_end_grain(panel, left, edge, thick))
    if gap < 0:
        view.area("clash", rectangle(0, 0, -gap, thick))
    else:
        view.area("gap", rectangle(-gap, 0, 0, thick))


def _end_grain(panel, left, edge, thick):
    """Growth rings along a flat-cut panel's width, upright in a quarter-cut one."""
    wide = edge - left
    if panel.cut == "flat":
        return EndGrain(((left + edge) / 2, -0.9 * wide))
    return EndGrain((left - 0.6 * wide, thick / 2))


def _tell_gap(view, panel, gap, unit):
    view.dimension((-max(gap, 0.0), 0), (max(-gap, 0.0), 0), _gap_words(gap, unit))


def _gap_words(gap, unit):
    """The gap in words, in full where inches are not exact; less than nothing is wood in wood."""
    text = length_in_full(abs(gap), unit)
    return f"too large by {text}" if gap < 0 else f"gap {text}"


def _tell_lap(view, panel, unit):
    """From the ring's inside to the panel's edge, slid away from this wall."""
    text = length_in_full(abs(panel.lap), unit)
    text = f"lap {text}" if panel.lap > 0 else f"out by {text}"
    view.dimension((-panel.rebate_width, 0), (-2 * panel.gap_dry, 0), text)


def _extent(panel):
    """Left and right end of what is shown, the same in all views."""
    gaps = [getattr(panel, gap) for _, _, gap in SEASONS]
    lip = panel.rebate_width if panel.has("rebate_width") else 0.0
    slid = 2 * panel.gap_dry if lip else 0.0
    widest, deepest = max(0.0, slid, *gaps), max(0.0, -slid, *(-gap for gap in gaps))
    spare = max(widest + deepest, 0.3 * lip, 1.0)
    return -max(widest, lip) - spare, deepest + spare


USE_OF_GAUGE = (
    "Cut the gauge along the lower edge of the strip that you need. Lay that edge across the gap, at one end of the "
    "panel's diameter across its grain, with the line between strip and ring on the rebate's wall. The panel's edge "
    "lies right where the strip ends."
)
HIGH = 15.0  # mm, of each strip


def template_panel_season(panel, unit="mm"):
    """A gap gauge at full size: the wall, and the panel's edge in each season, one strip under the other."""
    sheet = Sheet("Panel, gap gauge", _spoken_season(panel, unit), use=USE_OF_GAUGE)
    view = sheet.view("Gap gauge, full size")
    gaps = [getattr(panel, gap) for _, _, gap in SEASONS]
    left, right = -max(50.0, 1.5 * max(gaps)), max(20.0, -1.5 * min(gaps))
    view.area("kept", rectangle(0, -HIGH * len(gaps), right, 0))
    for index, ((title, content, _), gap) in enumerate(zip(SEASONS, gaps)):
        high = -HIGH * index
        view.area("panel", rectangle(left, high - HIGH, min(-gap, 0.0), high))
        if gap < 0:
            view.area("clash", rectangle(0, high - HIGH, -gap, high))
        text = f"{title}, {given(panel, content, unit)}:\n{_gap_words(gap, unit)}"
        view.note((left + 3, high - HIGH / 2), text, "left")
    view.line("joint", (0, 0), (0, -HIGH * len(gaps)))
    view.note((right / 2, -HIGH / 2), "ring, its wall\nat this line")
    return sheet
