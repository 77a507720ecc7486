"""Plates for circle jigs: the plan with both cuts, and a section through the outside cut."""

import math

from shoplib.drawing.parts import centre_lines, found, given
from shoplib.drawing.sheet import Circle, Sheet, rectangle
from shoplib.model import answer


def draw_circle_jig(jig, unit="mm"):
    """Plan seen from above, and a section through the cut where the stock is known."""
    is_ring = jig.has("ring_width")
    sheet = Sheet("Circle jig", _spoken(jig, unit, is_ring))
    has_section = jig.has("stock_thickness")
    if is_ring:
        _ring_plan(sheet.view("From above: outside cut first, then inside", _cell(0, has_section, 0.64)), jig, unit)
    else:
        _disc_plan(sheet.view("A disc: the inside is kept", (0, 0, 0.5, 0.56 if has_section else 1)), jig, unit)
        _hole_plan(sheet.view("A hole: the surround is kept", (0.5, 0, 0.5, 0.56 if has_section else 1)), jig, unit)
    if has_section:
        cell = (0.64, 0, 0.36, 1) if is_ring else (0, 0.56, 1, 0.44)
        _section(sheet.view("Section through the cut", cell), jig, unit)
    return sheet


def _cell(x, shared, width):
    return (x, 0, width if shared else 1, 1)


def _spoken(jig, unit, is_ring):
    what = f"a ring {given(jig, 'ring_width', unit)} wide, " if is_ring else "a disc and a hole "
    words = [f"A router jig for {what}{given(jig, 'diameter', unit)} across, cutter "
        f"{given(jig, 'cutter_diameter', unit)}."]
    names = ("outer_pivot", "inner_pivot") if is_ring else ("outer_pivot", "hole_pivot")
    words += [f"{jig.model.results()[name].words}: {found(jig, name, unit)}." for name in names]
    words.append("Outside cuts run anticlockwise, inside cuts clockwise, seen from above.")
    return " ".join(words)


def _ring_plan(view, jig, unit):
    radius, cutter = jig.diameter / 2, jig.cutter_diameter
    inside = radius - jig.ring_width
    half = radius + cutter + max(8.0, 0.05 * radius)
    view.area("waste", rectangle(-half, -half, half, half), Circle("waste", (0, 0), radius + cutter))
    view.area("groove", Circle("groove", (0, 0), radius + cutter), Circle("groove", (0, 0), radius))
    view.area("kept", Circle("kept", (0, 0), radius), Circle("kept", (0, 0), inside))
    if inside > cutter:
        view.area("groove", Circle("groove", (0, 0), inside), Circle("groove", (0, 0), inside - cutter))
        view.area("waste", Circle("waste", (0, 0), inside - cutter))
    centre_lines(view, half)
    outer = jig.outer_pivot
    _arm(view, outer, 1, cutter, half)
    _pivot(view, (0, 0), half)
    view.circle("cutter", (outer, 0), cutter / 2)
    _feed(view, outer, math.radians(20), math.radians(58))
    view.dimension((0, 0), (outer, 0), f"1 outside cut, pivot {found(jig, 'outer_pivot', unit)}")
    view.dimension((0, 0), (radius, 0), f"reach {found(jig, 'outer_reach', unit)}")
    view.dimension((-radius, 0), (radius, 0), f"outside Ø {given(jig, 'diameter', unit)}")
    if not answer(jig, "inner_pivot")[1]:
        _inside_cut(view, jig, unit, half)


def _inside_cut(view, jig, unit, half):
    inner, inside, cutter = jig.inner_pivot, jig.inner_reach, jig.cutter_diameter
    _arm(view, inner, -1, cutter, half)
    view.circle("cutter", (-inner, 0), cutter / 2)
    _feed(view, inner, math.radians(160), math.radians(122))
    _pivot(view, (jig.pivot_step, 0), half)
    view.dimension((-inner, 0), (0, 0), f"2 inside cut, pivot {found(jig, 'inner_pivot', unit)}", "above")
    view.dimension((-inside, 0), (0, 0), f"reach {found(jig, 'inner_reach', unit)}", "above")
    view.dimension((0, 0), (jig.pivot_step, 0), f"pivot holes {found(jig, 'pivot_step', unit)} apart", "above")


def _disc_plan(view, jig, unit):
    radius, cutter = jig.diameter / 2, jig.cutter_diameter
    half = radius + cutter + max(8.0, 0.05 * radius)
    view.area("waste", rectangle(-half, -half, half, half), Circle("waste", (0, 0), radius + cutter))
    view.area("groove", Circle("groove", (0, 0), radius + cutter), Circle("groove", (0, 0), radius))
    view.area("kept", Circle("kept", (0, 0), radius))
    _cut(view, jig, jig.outer_pivot, half, (20, 58))
    view.dimension((0, 0), (jig.outer_pivot, 0), f"outside cut, pivot {found(jig, 'outer_pivot', unit)}")
    view.dimension((0, 0), (radius, 0), f"reach {found(jig, 'outer_reach', unit)}")


def _hole_plan(view, jig, unit):
    if answer(jig, "hole_pivot")[1]:
        view.circle("cutter", (0, 0), jig.cutter_diameter / 2)
        view.circle("kept", (0, 0), jig.diameter / 2)
        return
    radius, cutter = jig.diameter / 2, jig.cutter_diameter
    half = radius + cutter + max(8.0, 0.05 * radius)
    view.area("kept", rectangle(-half, -half, half, half), Circle("kept", (0, 0), radius))
    within = max(radius - cutter, 0.0)
    view.area("groove", Circle("groove", (0, 0), radius), Circle("groove", (0, 0), within))
    view.area("waste", Circle("waste", (0, 0), within))
    _cut(view, jig, jig.hole_pivot, half, (58, 20))
    view.dimension((0, 0), (jig.hole_pivot, 0), f"hole, pivot {found(jig, 'hole_pivot', unit)}")
    view.dimension((0, 0), (radius, 0), f"reach {_half(jig, unit)}")


def _half(jig, unit):
    return jig.model.results()["outer_reach"].write(jig.diameter / 2, unit)


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


def _section(view, jig, unit):
    """Across the groove: pivot and kept side left, waste right, passes in the middle."""
    cutter, stock, depth, base = jig.cutter_diameter, jig.stock_thickness, jig.depth, jig.base_thickness
    side = max(1.6 * cutter, 0.45 * stock)
    edge, spoil = cutter / 2, -stock - max(jig.through * 1.6, 0.35 * stock)
    view.area("kept", rectangle(-edge - side, -stock, -edge, 0))
    view.area("waste", rectangle(edge, -stock, edge + side, 0))
    view.area("base", rectangle(-edge - side, spoil, edge + side, -stock))
    if base:
        view.area("base", rectangle(-edge - side, 0, -edge * 1.25, base))
        view.area("base", rectangle(edge * 1.25, 0, edge + side, base))
    top = _draw_cutter(view, jig, depth, base)
    view.line("centre", (0, spoil), (0, top + 0.2 * cutter))
    view.dimension((edge + side, -stock), (edge + side, 0), f"stock {given(jig, 'stock_thickness', unit)}", "right")
    view.dimension((edge, -depth), (edge, 0), f"cut {found(jig, 'depth', unit)} deep", "right")
    view.dimension((-edge, -depth), (edge, -depth), f"cutter {given(jig, 'cutter_diameter', unit)}")
    if jig.has("cutting_length"):
        text = f"cutting length {given(jig, 'cutting_length', unit)}"
        view.dimension((-edge, -depth), (-edge, jig.cutting_length - depth), text, "left")
    if jig.has("pass_depth"):
        for done in jig.passes:
            view.line("joint", (-edge, -done), (edge, -done))
        each = jig.model.results()["passes"].write(jig.passes[0], unit)
        view.dimension((-edge, -jig.passes[0]), (edge, -jig.passes[0]), _passes_text(len(jig.passes), each))


def _passes_text(number, each):
    return f"1 pass of {each}" if number == 1 else f"{number} passes of {each}"


def _draw_cutter(view, jig, depth, base):
    """The cutter at its full depth, its shank above; returns its top."""
    edge = jig.cutter_diameter / 2
    end = jig.cutting_length - depth if jig.has("cutting_length") else base + edge
    view.area("cutter", rectangle(-edge, -depth, edge, end))
    top = max(end, base) + 1.2 * edge
    view.area("base", rectangle(-0.6 * edge, end, 0.6 * edge, top))
    return top


def template_circle_jig(jig, unit="mm"):
    """The jig's base at full size: where the cutter comes through and where the pivot holes are drilled."""
    sheet = Sheet("Circle jig, drilling template", _spoken(jig, unit, jig.has("ring_width")))
    view = sheet.view("Drill the pivot holes here, the cutter's hole there")
    cutter = jig.cutter_diameter
    names = [name for name in ("outer_pivot", "inner_pivot", "hole_pivot") if not answer(jig, name)[1]]
    if jig.has("ring_width"):
        names.remove("hole_pivot")
    half = max(25.0, 1.5 * cutter)
    reach = max(getattr(jig, name) for name in names)
    view.area("tool", rectangle(-reach - 20, -half, half, half))
    view.line("centre", (-reach - 20, 0), (half, 0))
    view.circle("cutter", (0, 0), cutter / 2)
    view.cross("centre", (0, 0), cutter / 2 + 8)
    for row, name in enumerate(names):
        pivot = getattr(jig, name)
        view.circle("pivot", (-pivot, 0), 2.0)
        view.cross("pivot", (-pivot, 0), 6.0)
        text = f"{jig.model.results()[name].words} {found(jig, name, unit)}"
        view.dimension((-pivot, 0), (0, 0), text, "below", row)
    return sheet


DRAWINGS = {"CircleJig": draw_circle_jig}
TEMPLATES = {"CircleJig": template_circle_jig}
