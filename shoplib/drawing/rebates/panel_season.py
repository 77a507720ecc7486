"""The plate of a panel through the year, and the gauge for its gap."""

import math

from shoplib.drawing.parts import centre_lines, found, given
from shoplib.drawing.sheet import Circle, Sheet, rectangle

SEASONS = (("As made", "made", "gap_as_made"), ("Dry season", "dry", "gap_dry"), ("Damp season", "damp", "gap_damp"))


def draw_panel_season(panel, unit="mm"):
    """Panel and ring from below in the damp season, and one side of the panel enlarged in each season."""
    sheet = Sheet("Panel through the year", _spoken_season(panel, unit))
    _damp_plan(sheet.view("Damp season, from below", (0, 0, 0.45, 1)), panel, unit)
    for index, (title, content, gap) in enumerate(SEASONS):
        moist = given(panel, content, unit)
        view = sheet.view(f"{title}, {moist}, enlarged", (0.45, index / 3, 0.55, 1 / 3))
        _one_side(view, panel, getattr(panel, gap), unit)
    return sheet


def _spoken_season(panel, unit):
    words = (
        f"A panel of {panel.species}, {panel.cut} cut, in a rebate {given(panel, 'rebate_diameter', unit)} across; "
        f"{panel.ring} ring. Gap on each side, across the grain:"
    )
    names = (("made", "gap_as_made"), ("dry", "gap_dry"), ("damp", "gap_damp"))
    return words + "".join(f" {found(panel, gap, unit)} at {given(panel, moist, unit)}." for moist, gap in names)


def _ellipse(along, across, pieces=144):
    """Points of an ellipse by its diameters along and across the grain; the grain runs level."""
    angles = [2 * math.pi * k / pieces for k in range(pieces)]
    return [(along / 2 * math.cos(a), across / 2 * math.sin(a)) for a in angles]


def _damp_plan(view, panel, unit):
    """Ring and panel at their true damp size; the panel's grain runs from left to right."""
    outside = 0.56 * panel.rebate_diameter + max(0.0, panel.panel_damp - panel.rebate_diameter)
    rebate = _ellipse(panel.rebate_diameter, panel.rebate_damp)
    disc = _ellipse(panel.panel_diameter, panel.panel_damp)
    view.area("kept", Circle("kept", (0, 0), outside), rebate)
    if panel.ring == "mitred":
        _mitres(view, panel.rebate_diameter / 2, outside)
    view.area("panel", disc)
    _grain(view, panel.panel_diameter, panel.panel_damp)
    if panel.gap_damp < 0:
        _clashes(view, panel)
    centre_lines(view, 1.06 * outside)
    half, along = panel.panel_damp / 2, panel.panel_diameter / 2
    view.dimension((0, -half), (0, half), f"panel, across the grain {found(panel, 'panel_damp', unit)}", "right")
    text = f"panel, along the grain {found(panel, 'panel_diameter', unit)}"
    view.dimension((-along, 0), (along, 0), text)
    wall = panel.rebate_damp / 2
    view.dimension((0, -wall), (0, wall), f"rebate {found(panel, 'rebate_damp', unit)}", "left")


def _mitres(view, inside, outside, staves=12):
    for k in range(staves):
        a = math.pi / staves * (2 * k + 1)
        view.line("joint", (inside * math.cos(a), inside * math.sin(a)), (outside * math.cos(a), outside * math.sin(a)))


def _grain(view, along, across, lines=12):
    """The panel's grain as level lines, none of them on the centre line."""
    for k in range(lines):
        height = (k + 0.5) / lines * 2 - 1
        reach = 0.47 * along * math.sqrt(1 - height**2)
        view.line("grain", (-reach, height * across / 2), (reach, height * across / 2))


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


def _one_side(view, panel, gap, unit):
    """A cut across the grain at the panel's edge, the wall at x = 0: widths true, heights only for show."""
    left, right = _extent(panel)
    thick, top = 0.12 * (right - left), 0.2 * (right - left)
    if panel.has("rebate_width"):
        lip = -panel.rebate_width
        view.area("kept", ((0, 0), (right, 0), (right, top), (lip, top), (lip, thick), (0, thick)))
    else:
        view.area("kept", rectangle(0, 0, right, top))
    view.area("panel", rectangle(left, 0, min(-gap, 0.0), thick))
    write = panel.model.results()["gap_damp"].write
    if gap < 0:
        view.area("clash", rectangle(0, 0, -gap, thick))
        view.dimension((0, 0), (-gap, 0), f"too large by {write(-gap, unit)}")
    else:
        view.area("gap", rectangle(-gap, 0, 0, thick))
        view.dimension((-gap, 0), (0, 0), f"gap {write(gap, unit)}")


def _extent(panel):
    """Left and right end of what is shown, the same in all seasons."""
    gaps = [getattr(panel, gap) for _, _, gap in SEASONS]
    widest, deepest = max(0.0, *gaps), max(0.0, *(-gap for gap in gaps))
    lip = panel.rebate_width if panel.has("rebate_width") else 0.0
    spare = max(widest + deepest, 0.3 * lip, 1.0)
    return -max(widest, lip) - spare, deepest + spare


def template_panel_season(panel, unit="mm"):
    """A gap gauge at full size: the wall, and the panel's edge in each season, one strip under the other."""
    sheet = Sheet("Panel, gap gauge", _spoken_season(panel, unit))
    view = sheet.view("Gap gauge: lay the wall's line on the wall")
    gaps = [getattr(panel, gap) for _, _, gap in SEASONS]
    left, right = -max(50.0, 1.5 * max(gaps)), max(20.0, -1.5 * min(gaps))
    view.area("kept", rectangle(0, -45, right, 0))
    for index, ((title, content, name), gap) in enumerate(zip(SEASONS, gaps)):
        high = -15.0 * index
        view.area("panel", rectangle(left, high - 15, min(-gap, 0.0), high))
        if gap < 0:
            view.area("clash", rectangle(0, high - 15, -gap, high))
        text = f"{title}, {given(panel, content, unit)}: {found(panel, name, unit)}"
        view.note((left + 3, high - 7.5), text, "left")
    view.line("joint", (0, 0), (0, -45))
    return sheet
