"""Plates for circle jigs: the plan with both cuts, and a section through the outside cut."""

import math

from shoplib.drawing.parts import centre_lines, found, given, told_results
from shoplib.drawing.sheet import Circle, Sheet, rectangle
from shoplib.model import answer, answer_in_full, length_in_full

MOST_TOLD = 6  # passes that are told one by one
JUST = 1 - 1e-9  # a hair, for the rounding
RING_CUTS = (
    "Show face down on a sacrificial board, the pivot bored blind into the back. With the router isolated check both "
    "reaches with a rule. 1, the outside: pivot in the jig's hole furthest from the cutter, anticlockwise, all passes "
    "but the last; hold the middle and the surround, then the last. 2, the inside: the nearest hole, clockwise; hold "
    "the ring too before the last pass. Never the inside first: it takes the centre away."
)
DISC_AND_HOLE_CUTS = (
    "On a sacrificial board; with the router isolated check the reach with a rule. A disc: show face down, the pivot "
    "bored blind into its back, anticlockwise. A hole: the pivot in the piece that falls out, clockwise. All passes "
    "but the last; hold the disc and the surround, then the last."
)
SAWN_DISC_CUT = (
    "Saw the disc round first, {} outside the line. Stick it down on a sacrificial board with double-sided tape, show "
    "face down, the pivot bored blind into its back. With the router isolated check the reach with a rule. Go round "
    "anticlockwise, pass by pass: only what the saw left comes off."
)


def draw_circle_jig(jig, unit="mm"):
    """Plan seen from above, and a section through the cut where the stock is known."""
    is_ring = jig.has("ring_width")
    sheet = Sheet("Circle jig", _spoken(jig, unit, is_ring), use=RING_CUTS if is_ring else DISC_AND_HOLE_CUTS)
    has_section = jig.has("stock_thickness")
    if is_ring:
        plan = sheet.view("From above: 1 the outside cut, then 2 the inside", _cell(0, has_section, 0.59))
        _ring_plan(plan, jig, unit)
    else:
        _disc_plan(sheet.view("A disc: the inside is kept", (0, 0, 0.5, 0.58 if has_section else 1)), jig, unit)
        _hole_plan(sheet.view("A hole: the surround is kept", (0.5, 0, 0.5, 0.58 if has_section else 1)), jig, unit)
    if has_section:
        cell = (0.59, 0, 0.41, 1) if is_ring else (0.15, 0.58, 0.7, 0.42)
        said = f"Section: {_passes_in_words(jig)}cutter Ø {given(jig, 'cutter_diameter', unit)}"
        _section(sheet.view(said, cell), jig, unit, is_ring)
    return sheet


def draw_sawn_disc(jig, unit, side, left):
    """A disc alone, sawn from a board `side` long and wide, the saw's cut staying `left` outside the line.

    There is no groove: the cutter stands in the open and takes off what the saw left.
    """
    own_unit = [length_in_full(size, unit) for size in (side, left)]
    spoken = f"A disc {given(jig, 'diameter', unit)} across, sawn round {own_unit[1]} outside the line, then routed."
    sheet = Sheet("Circle jig", spoken, use=SAWN_DISC_CUT.format(own_unit[1]))
    view = sheet.view("From above: sawn round first", _cell(0, jig.has("stock_thickness"), 0.59))
    radius, half = jig.diameter / 2, side / 2
    view.area("hidden", rectangle(-half, -half, half, half))
    view.area("waste", Circle("waste", (0, 0), radius + left), Circle("waste", (0, 0), radius))
    _disc(view, jig, unit, max(half, jig.outer_pivot + jig.cutter_diameter))
    view.dimension((-half, -half), (-half, half), f"glued up {own_unit[0]} square", "left")
    if jig.has("stock_thickness"):
        said = f"Section: {_passes_in_words(jig)}cutter Ø {given(jig, 'cutter_diameter', unit)}"
        _section(sheet.view(said, (0.59, 0, 0.41, 1)), jig, unit, True, left)
    return sheet


def _passes_in_words(jig):
    """How many passes the cut takes, for the section's title."""
    if not jig.has("pass_depth") or answer(jig, "passes")[1]:
        return ""
    number = len(jig.passes)
    return "1 pass, " if number == 1 else f"{number} passes, "


def _cell(x, shared, width):
    return (x, 0, width if shared else 1, 1)


def _spoken(jig, unit, is_ring):
    what = f"a ring {given(jig, 'ring_width', unit)} wide, " if is_ring else "a disc and a hole "
    words = [f"A router jig for {what}{given(jig, 'diameter', unit)} across, cutter "
        f"{given(jig, 'cutter_diameter', unit)}."]
    names = ("outer_pivot", "inner_pivot") if is_ring else ("outer_pivot", "hole_pivot")
    words.append(told_results(jig, names, unit))
    words.append("Outside cuts run anticlockwise, inside cuts clockwise, seen from above.")
    return " ".join(words)


def _ring_plan(view, jig, unit):
    radius, cutter, half = jig.diameter / 2, jig.cutter_diameter, jig.blank / 2
    inside = radius - jig.ring_width
    _board(view, "waste", jig)
    view.area("groove", Circle("groove", (0, 0), radius + cutter), Circle("groove", (0, 0), radius))
    view.area("kept", Circle("kept", (0, 0), radius), Circle("kept", (0, 0), inside), grain=0.0)
    if inside > cutter:
        view.area("groove", Circle("groove", (0, 0), inside), Circle("groove", (0, 0), inside - cutter))
        view.area("waste", Circle("waste", (0, 0), inside - cutter))
    centre_lines(view, half)
    outer = jig.outer_pivot
    _arm(view, outer, 1, cutter, half)
    _pivot(view, (0, 0), half)
    view.circle("cutter", (outer, 0), cutter / 2)
    _feed(view, outer, math.radians(20), math.radians(58))
    view.dimension((0, 0), (outer, 0), f"1 pivot {found(jig, 'outer_pivot', unit)}")
    view.dimension((0, 0), (radius, 0), f"reach {found(jig, 'outer_reach', unit)}")
    _blank_size(view, jig, unit)
    _ring_sizes(view, jig, unit)
    if not answer(jig, "inner_pivot")[1]:
        _inside_cut(view, jig, unit, half)


def _board(view, layer, jig, *holes):
    """The square blank with its outside groove left open, and what else is cut out of it."""
    half, groove = jig.blank / 2, jig.diameter / 2 + jig.cutter_diameter
    holes = holes or (Circle(layer, (0, 0), groove),)
    view.area(layer, rectangle(-half, -half, half, half), *holes)


def _blank_size(view, jig, unit):
    half = jig.blank / 2
    view.dimension((-half, -half), (-half, half), f"blank {found(jig, 'blank', unit)} square", "left")


def _ring_sizes(view, jig, unit):
    """Ring width, inside and outside, measured up the centre line."""
    radius, inside = jig.diameter / 2, jig.diameter / 2 - jig.ring_width
    across = jig.model.inputs()["diameter"].write(2 * inside, unit)
    view.dimension((0, inside), (0, radius), f"ring width {given(jig, 'ring_width', unit)}", "right")
    view.dimension((0, -inside), (0, inside), f"inside Ø {across}", "right")
    view.dimension((0, -radius), (0, radius), f"outside Ø {given(jig, 'diameter', unit)}", "right")


def _inside_cut(view, jig, unit, half):
    inner, inside, cutter = jig.inner_pivot, jig.inner_reach, jig.cutter_diameter
    _arm(view, inner, -1, cutter, half)
    view.circle("cutter", (-inner, 0), cutter / 2)
    _feed(view, inner, math.radians(160), math.radians(122))
    _pivot(view, (jig.pivot_step, 0), half)
    view.dimension((-inner, 0), (0, 0), f"2 pivot {found(jig, 'inner_pivot', unit)}", "above")
    view.dimension((-inside, 0), (0, 0), f"reach {found(jig, 'inner_reach', unit)}", "above")
    view.dimension((0, 0), (jig.pivot_step, 0), f"holes {found(jig, 'pivot_step', unit)} apart", "above")


def _disc_plan(view, jig, unit):
    radius, cutter, half = jig.diameter / 2, jig.cutter_diameter, jig.blank / 2
    _board(view, "waste", jig)
    view.area("groove", Circle("groove", (0, 0), radius + cutter), Circle("groove", (0, 0), radius))
    _disc(view, jig, unit, half)
    _blank_size(view, jig, unit)


def _disc(view, jig, unit, half):
    """The disc that is kept, the cutter beside it, and what the jig is set to."""
    radius = jig.diameter / 2
    view.area("kept", Circle("kept", (0, 0), radius), grain=0.0)
    _cut(view, jig, jig.outer_pivot, half, (20, 58))
    view.dimension((0, 0), (jig.outer_pivot, 0), f"pivot {found(jig, 'outer_pivot', unit)}")
    view.dimension((0, 0), (radius, 0), f"reach {found(jig, 'outer_reach', unit)}")
    view.dimension((0, -radius), (0, radius), f"disc Ø {given(jig, 'diameter', unit)}", "right")


def _hole_plan(view, jig, unit):
    if answer(jig, "hole_pivot")[1]:
        view.circle("cutter", (0, 0), jig.cutter_diameter / 2)
        view.circle("kept", (0, 0), jig.diameter / 2)
        return
    radius, cutter, half = jig.diameter / 2, jig.cutter_diameter, jig.blank / 2
    _board(view, "kept", jig, Circle("kept", (0, 0), radius))
    within = max(radius - cutter, 0.0)
    view.area("groove", Circle("groove", (0, 0), radius), Circle("groove", (0, 0), within))
    view.area("waste", Circle("waste", (0, 0), within))
    _cut(view, jig, jig.hole_pivot, half, (58, 20))
    view.dimension((0, 0), (jig.hole_pivot, 0), f"pivot {found(jig, 'hole_pivot', unit)}")
    view.dimension((0, 0), (radius, 0), f"reach {found(jig, 'hole_reach', unit)}")
    view.dimension((0, -radius), (0, radius), f"hole Ø {given(jig, 'diameter', unit)}", "right")


def _cut(view, jig, pivot, half, feed):
    centre_lines(view, half)
    _arm(view, pivot, 1, jig.cutter_diameter, half)
    _pivot(view, (0, 0), half)
    view.circle("cutter", (pivot, 0), jig.cutter_diameter / 2)
    _feed(view, pivot, *map(math.radians, feed))


def _arm(view, reach, way, cutter, half):
    """The jig's arm from beyond the pivot to beyond the cutter."""
    depth = max(0.75 * cutter, 0.05 * half)
    near, far = -1.2 * depth, min(reach + cutter / 2 + depth, half)
    left, right = sorted((way * near, way * far))
    view.area("tool", rectangle(left, -depth, right, depth))


def _pivot(view, centre, half):
    view.circle("pivot", centre, 0.016 * half)
    view.cross("pivot", centre, 0.03 * half)


def _feed(view, radius, start, end):
    """The way to move the router: anticlockwise outside, clockwise inside, seen from above."""
    view.arc("feed", (0, 0), radius, start, end, arrow=True)


def _section(view, jig, unit, upright, left=None):
    """Across the groove: pivot and kept side left, waste right, each pass a level in the groove.

    `left` is all the waste there is where the disc was sawn round first.
    """
    cutter, stock, depth, base = jig.cutter_diameter, jig.stock_thickness, jig.depth, jig.base_thickness
    side = max(1.6 * cutter, 0.45 * stock)
    edge, spoil = cutter / 2, -stock - max(jig.through * 1.6, 0.35 * stock)
    view.area("kept", rectangle(-edge - side, -stock, -edge, 0), grain=0.0)
    waste = edge + side if left is None else left - edge
    if waste > edge:
        view.area("waste", rectangle(edge, -stock, waste, 0))
    view.area("base", rectangle(-edge - side, spoil, edge + side, -stock))
    if base:
        view.area("base", rectangle(-edge - side, 0, -edge * 1.25, base))
        view.area("base", rectangle(edge * 1.25, 0, edge + side, base))
    end, top = _draw_cutter(view, jig, depth, base)
    view.line("centre", (0, spoil), (0, top + 0.2 * cutter))
    _depth(view, (edge + side, -stock), f"stock {given(jig, 'stock_thickness', unit)}", upright)
    _depth(view, (edge, -depth), f"cut {found(jig, 'depth', unit)} deep", upright)
    if jig.has("cutting_length"):
        text = f"edges {given(jig, 'cutting_length', unit)} long"
        if upright:
            view.dimension((edge, -depth), (edge, end), text, "right")
        else:
            view.note((edge, end), text, "right")
    if jig.has("pass_depth") and not answer(jig, "passes")[1]:
        _levels(view, jig, unit)


def _depth(view, point, text, upright):
    """A depth from the face: measured upright where the view is narrow, else told beside its level."""
    if upright:
        view.dimension(point, (point[0], 0), text, "right")
    else:
        view.note(point, text, "right")


def _levels(view, jig, unit):
    """A level for each pass, its depth from the face beside it: all of a few, of many the first and the last."""
    edge, number = jig.cutter_diameter / 2, len(jig.passes)
    for done in jig.passes:
        view.line("joint", (-edge, -done), (edge, -done))
    for k in range(number) if number <= MOST_TOLD else (0, number - 1):
        depth = jig.model.results()["passes"].write(jig.passes[k], unit)
        view.note((-edge, -jig.passes[k]), f"{k + 1}: {depth}", "left")


def _draw_cutter(view, jig, depth, base):
    """The cutter at its full depth, its shank above; returns where its edges end, and its top."""
    edge = jig.cutter_diameter / 2
    end = jig.cutting_length - depth if jig.has("cutting_length") else base + edge
    view.area("cutter", rectangle(-edge, -depth, edge, end))
    top = max(end, base) + 1.2 * edge
    view.area("base", rectangle(-0.6 * edge, end, 0.6 * edge, top))
    return end, top


def template_circle_jig(jig, unit="mm"):
    """The jig's base at full size: where the cutter comes through and where the pivot holes are drilled.

    Each pivot hole's distance from the cutter's centre is true wherever it lies: two that would come too near one
    another on the line stand beside it, on an arc about the cutter's centre.
    """
    sheet = Sheet("Circle jig, drilling template", _spoken(jig, unit, jig.has("ring_width")))
    view = sheet.view("Drill the pivot holes here, the cutter's hole there")
    places = pivot_places(jig)
    sheet.use = _template_use(jig, unit, places)
    _jig_base(view, jig, places)
    for name, (x, y) in places.items():
        _pivot_hole(view, jig, name, x, y)
        edge, pivot = jig.pivot_pin / 2, getattr(jig, name)
        drill = f"{CUTS[name]}: drill Ø {given(jig, 'pivot_pin', unit)}"
        view.dimension((x - edge, y), (x + edge, y), drill, "above")
        view.dimension((-pivot, 0), (0, 0), f"{CUTS[name]}: pivot {answer_in_full(jig, name, unit)[0]}")
    edge = jig.cutter_diameter / 2
    view.dimension((-edge, 0), (edge, 0), f"cutter Ø {given(jig, 'cutter_diameter', unit)}: bore wider", "above")
    return sheet


def _jig_base(view, jig, places):
    """The base's outline with its centre line, and the cutter."""
    cutter = jig.cutter_diameter
    half = max(20.0, 1.5 * cutter) + max(abs(y) for _, y in places.values())
    left, right = -max(getattr(jig, name) for name in places) - jig.pivot_pin / 2 - 8, max(15.0, cutter)
    view.area("tool", rectangle(left, -half, right, half))
    view.line("centre", (left, 0), (right, 0))
    view.circle("cutter", (0, 0), cutter / 2)
    view.cross("centre", (0, 0), cutter / 2 + 8)


def _pivot_hole(view, jig, name, x, y):
    """A pivot hole; beside the line with a line of its own to the cutter, and the arc that brings it there."""
    view.circle("pivot", (x, y), jig.pivot_pin / 2)
    view.cross("pivot", (x, y), jig.pivot_pin / 2 + 3)
    if y:
        view.line("centre", (0, 0), (x, y))
        view.arc("hidden", (0, 0), getattr(jig, name), math.pi, math.atan2(y, x) % (2 * math.pi))


CUTS = {"outer_pivot": "outside cut", "inner_pivot": "inside cut", "hole_pivot": "plain hole"}


def _template_use(jig, unit, places):
    pin = given(jig, "pivot_pin", unit)
    slant = "A hole beside the line is measured on the slant, along its own line. "
    aside = slant if any(y for _, y in places.values()) else ""
    return (
        f"The pivot holes are drawn for a pin {pin} thick: drill them to fit the pin that you have, the centres stay. "
        f"{aside}Bore the cutter's hole wider than the cutter, so that it runs free. Mark each hole with its cut."
    )


def pivot_places(jig):
    """Where each pivot hole of this jig goes, the cutter's centre at the origin: on the line, or beside it.

    At least one pin's thickness of wood is left between two holes.
    """
    places, pin = {}, jig.pivot_pin
    names = [name for name in CUTS if not answer(jig, name)[1]]
    for name in sorted(names, key=lambda name: getattr(jig, name)):
        pivot = getattr(jig, name)
        rows = [(-math.sqrt(pivot**2 - y**2), y) for y in (0.0, 2 * pin, -2 * pin) if abs(y) < pivot]
        clear = [
            place for place in rows if all(math.dist(place, other) >= 2 * pin * JUST for other in places.values())
        ]
        places[name] = (clear or rows)[0]
    return places


DRAWINGS = {"CircleJig": draw_circle_jig}
TEMPLATES = {"CircleJig": template_circle_jig}
