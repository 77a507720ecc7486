"""Plates of a ring trimmed from two faces: each cut in section, the wall to the left of the cutter; a setting gauge."""

from shoplib.drawing.parts import found_in_full as found
from shoplib.drawing.parts import told_results
from shoplib.drawing.sheet import EndGrain, Sheet, rectangle
from shoplib.model import given_in_full as given
from shoplib.model import length_in_full

WOOD, ACROSS, THIN = 0.55, 0.32, 0.07  # of the ring's height: the ring and the cutter as drawn, the router's base
STRIP, CUT_OFF = 24.0, 5.0  # mm, width of one strip of the gauge and of a corner cut off


def draw_two_faces(trim, unit="mm"):
    """The first cut with its template; the second one, where it is needed, on the ring turned over."""
    sheet = Sheet("Trimming from two faces", _spoken(trim, unit), use=_use(trim, unit))
    both = not trim.one_face
    _first(sheet.view("First cut: on the template", (0, 0, 0.5 if both else 1, 1)), trim, unit)
    if both:
        _second(sheet.view("Second cut: turned over", (0.5, 0, 0.5, 1)), trim, unit)
    return sheet


def _spoken(trim, unit):
    names = ("first_set", "hold", "depth") + (() if trim.one_face else ("second_set", "second_depth", "band_left"))
    faces = "one face" if trim.one_face else "two faces"
    words = [f"A ring {given(trim, 'ring_height', unit)} high is trimmed from {faces}."]
    words.append(told_results(trim, names, unit))
    return " ".join(words)


def _use(trim, unit):
    """How both cuts are made, in sentences for the card."""
    first = f"First cut: the bearing on the template, the edges' end {found(trim, 'first_set', unit)} below the base. "
    second = "" if trim.one_face else (
        "Second cut: ring turned over, template off, the bearing at the tip on the wall that is there, the tip "
        f"{found(trim, 'second_set', unit)} below the base. "
    )
    return (
        f"{first}{second}{_rounds(trim, unit)}The kept wood on the router's left. A disc inside the ring, its top "
        "level with what the base slides on, keeps the router from tipping."
    )


def _rounds(trim, unit):
    """With which bearings each cutter goes round."""
    *larger, _ = (length_in_full(over, unit) for over in trim.bearings)
    if not larger:
        return ""
    begins = "First" if trim.one_face else "Either cut: first"
    return f"{begins} with bearings larger than the edges by {', '.join(larger)}; last with the flush one. "


def _sizes(trim):
    """Widths of ring and cutter as drawn, and how thick the router's base is."""
    return tuple(share * trim.ring_height for share in (WOOD, ACROSS, THIN))


def _ring(view, trim):
    wood, _, _ = _sizes(trim)
    grain = EndGrain((-0.3 * wood, -1.8 * trim.ring_height))
    view.area("kept", rectangle(-wood, -trim.ring_height, 0, 0), grain=grain)


def _first(view, trim, unit):
    """The wall at x = 0, the upper face at y = 0."""
    (wood, across, thin), height, thick = _sizes(trim), trim.ring_height, trim.template_thickness
    edges, bearing = trim.first_cutting_length - trim.lowest, 0.12 * trim.ring_height
    shank = max(thick, edges + bearing) + 0.2 * height
    _ring(view, trim)
    if not trim.one_face:
        view.area("waste", rectangle(0, -height, trim.margin, -trim.lowest))
    view.area("template", rectangle(-wood, 0, 0, thick))
    view.area("router_base", rectangle(-wood, thick, -0.12 * across, thick + thin))
    _cutter(view, across, -trim.lowest, edges)
    view.area("bearing", rectangle(0, edges, across, edges + bearing))
    view.area("shank", rectangle(0.3 * across, edges + bearing, 0.7 * across, shank))
    view.dimension((-wood, -height), (-wood, 0), f"ring {given(trim, 'ring_height', unit)}", "left", 0)
    view.dimension((-wood, 0), (-wood, thick), f"template {given(trim, 'template_thickness', unit)}", "left", 1)
    view.dimension((across, -trim.depth), (across, 0), f"depth {found(trim, 'depth', unit)}", "right", 0)
    text = f"below the base {found(trim, 'first_set', unit)}"
    view.dimension((across, -trim.lowest), (across, thick), text, "right", 1)
    if not trim.one_face:
        view.dimension((0, -height), (trim.margin, -height), f"margin {given(trim, 'margin', unit)}")


def _second(view, trim, unit):
    """Turned over: what the first cut made is the lower part of the wall; the waste above it is gone."""
    (wood, across, thin), height = _sizes(trim), trim.ring_height
    first, bottom, top = -(height - trim.depth), -trim.second_depth, trim.second_cutting_length - trim.second_depth
    _ring(view, trim)
    view.area("router_base", rectangle(-wood, 0, -0.12 * across, thin))
    _cutter(view, across, bottom, top)
    view.area("bearing", rectangle(0, bottom - trim.second_bearing, across, bottom))
    view.area("shank", rectangle(0.3 * across, top, 0.7 * across, top + 0.2 * height))
    view.line("hidden", (-wood, first), (0, first))
    view.dimension((-wood, -height), (-wood, bottom), f"wall {found(trim, 'band_left', unit)}", "left", 0)
    view.dimension((-wood, bottom), (-wood, first), f"overlap {given(trim, 'overlap', unit)}", "left", 1)
    view.dimension((across, bottom), (across, 0), f"depth {found(trim, 'second_depth', unit)}", "right", 0)
    text = f"below the base {found(trim, 'second_set', unit)}"
    view.dimension((across, bottom - trim.second_bearing), (across, 0), text, "right", 1)


def _cutter(view, across, bottom, top):
    view.area("cutter", rectangle(0, bottom, across, top))
    view.line("centre", (across / 2, bottom - 0.2 * across), (across / 2, top + 0.2 * across))


def template_two_faces(trim, unit="mm"):
    """A strip for each cut that stands on the router's base beside the cutter: where edges and bearing lie.

    Its words stay on the sheet when it is cut out: as many corners as are cut off at its top, that cut it is for.
    """
    sheet = Sheet("Setting gauge", _spoken(trim, unit), use=(
        f"Cut {'the strip' if trim.one_face else 'each strip'} out and glue it on thin wood. One corner is cut off for "
        f"the first cut{'' if trim.one_face else ', two are for the second one'}. Turn the router upside down, "
        "unplugged; stand the strip on its base beside the cutter, square end down, and bring edges and bearing to the "
        "lines."
    ))
    view = sheet.view("Square end on the router's base")
    strips = [("first", trim.first_set, trim.hold, "edges' end", "bearing's rim")]
    if not trim.one_face:
        strips.append(("second", trim.second_set, trim.second_depth, "tip", "edges' end"))
    high = max(strip[1] for strip in strips) + 8
    for column, (name, far, near, outer, inner) in enumerate(strips):
        left, side = 1.5 * STRIP * column, ("left", "right")[column]
        edge = left + STRIP * column
        view.area("paper", _strip(left, high, column + 1))
        for height in (far, near):
            view.line("joint", (left, height), (left + STRIP, height))
        view.dimension((edge, 0), (edge, near), f"{name}: {inner} {length_in_full(near, unit)}", side, 0)
        view.dimension((edge, 0), (edge, far), f"{name}: {outer} {length_in_full(far, unit)}", side, 1)
    return sheet


def _strip(left, high, corners):
    """A strip's outline with one or two of its upper corners cut off."""
    right, low = left + STRIP, high - CUT_OFF
    head = ((right, low), (right - CUT_OFF, high)) if corners == 2 else ((right, high),)
    return ((left, 0), (right, 0), *head, (left + CUT_OFF, high), (left, low))
