"""Plates for round rod from square stock: its end, the rod between jaws, the blank at the router; the template."""

import math

from shoplib.drawing.parts import centre_lines, told_results
from shoplib.drawing.parts import found_in_full as found
from shoplib.drawing.sheet import EndGrain, Sheet, rectangle
from shoplib.model import given_in_full as given
from shoplib.model import length_in_full


def draw_round_stock(rod, unit="mm"):
    """The rod in its square with the cutter at one corner, the rod between jaws, and the blank between its stops."""
    sheet = Sheet("Round stock", _spoken(rod, unit), use=_use(rod))
    _in_its_square(sheet.view("The square's end, the cutter at one corner", (0, 0, 0.47, 0.58)), rod, unit)
    title = f"Turned by 45 deg: {found(rod, 'out_of_round', unit)} out of round"
    _between_jaws(sheet.view(title, (0.47, 0, 0.53, 0.58)), rod, unit)
    title = "At the router table, from above: the start of a pass; dashed, its end"
    _at_the_router(sheet.view(title, (0, 0.58, 1, 0.42)), rod, unit)
    return sheet


def _spoken(rod, unit):
    names = ("ideal_radius", "flat", "across_corners", "out_of_round", "blank_length", "stop_distance")
    words = f"Round rod {given(rod, 'diameter', unit)} across from a square of the same side."
    return f"{words} {told_results(rod, names, unit)}"


def _use(rod):
    """How the rod is made, in sentences for the card."""
    rounds = len(rod.passes)
    height = "Set the cutter to its height." if rounds == 1 else f"Set the cutter to the first of its {rounds} heights."
    again = "" if rounds == 1 else " Then raise it and go round again."
    rods = "rod" if rod.count == 1 else "rods"
    return (
        "Plane the square, saw the blank, mark a grip at each end and the end that leads. Fence level with the "
        f"cutter's bearing, a stop on each side of the cutter. {height} Feed from right to left. Enter: right end "
        "against the right stop, left end held away from the fence, then swing it in until it lies on the fence. "
        "Leave: at the left stop swing the right end out. Turn the blank a quarter, always the same way, the same end "
        f"leading: four corners.{again} Measure across the flats and across the corners; saw the {rods} out, inside "
        "the grips."
    )


def rod_outline(rod, turned=0.0, pieces=24):
    """The true outline as points: each corner's arc in so many pieces, the flats between them."""
    flat, radius = rod.diameter / 2 - rod.cutter_radius, rod.cutter_radius
    points = []
    for quarter in range(4):
        start = turned + quarter * math.pi / 2
        x, y = flat * math.cos(start) - flat * math.sin(start), flat * math.sin(start) + flat * math.cos(start)
        angles = [start + math.pi / 2 * k / pieces for k in range(pieces + 1)]
        points += [(x + radius * math.cos(a), y + radius * math.sin(a)) for a in angles]
    return tuple(points)


def cutter_profile(rod):
    """The roundover cutter at the corner right and above: its hollow touches the rod, its body stands outside."""
    half, radius = rod.diameter / 2, rod.cutter_radius
    flat, beyond = half - radius, 1.4 * half
    angles = [math.pi / 2 * k / 24 for k in range(25)]
    hollow = [(flat + radius * math.cos(a), flat + radius * math.sin(a)) for a in angles]
    return (*hollow, (flat, beyond), (beyond, beyond), (beyond, flat))


def _end_grain(rod):
    """Rings of a square sawn beside the pith."""
    return EndGrain((-0.8 * rod.diameter, -1.1 * rod.diameter))


def _in_its_square(view, rod, unit):
    half, flat = rod.diameter / 2, rod.flat / 2
    view.area("waste", rectangle(-half, -half, half, half))
    view.area("kept", rod_outline(rod), grain=_end_grain(rod))
    view.area("cutter", cutter_profile(rod))
    centre_lines(view, 1.12 * half)
    view.dimension((-half, -half), (half, -half), f"square {given(rod, 'diameter', unit)}")
    radius = length_in_full(rod.cutter_radius, unit)
    view.dimension((half - rod.cutter_radius, 1.4 * half), (half, 1.4 * half), f"radius {radius}", "above")
    if rod.flat > 0:
        view.dimension((-half, -flat), (-half, flat), f"flat {found(rod, 'flat', unit)}", "left")


def _between_jaws(view, rod, unit):
    reach, high = rod.across_corners / 2, 0.75 * rod.diameter
    for side in (-1, 1):
        inner, outer = sorted((side * reach, side * (reach + 0.12 * rod.diameter)))
        view.area("jaw", rectangle(inner, -high, outer, high))
    view.area("kept", rod_outline(rod, math.pi / 4), grain=_end_grain(rod))
    centre_lines(view, 1.1 * reach)
    view.dimension((-reach, -high), (reach, -high), f"corners {found(rod, 'across_corners', unit)}")


def _at_the_router(view, rod, unit):
    """The blank at the right stop, the cutter at the grip's end; dashed, where it lies at the left stop."""
    wide, end, stop = rod.diameter, rod.stop_distance, 0.04 * rod.stop_distance
    gap = 0.35 * wide + 0.02 * end  # of the fence, round the cutter
    deep = max(0.8 * wide, 0.03 * end)
    for side in (-1, 1):
        near, far = sorted((side * gap, side * (end + stop)))
        view.area("fence", rectangle(near, 0, far, deep))
        near, far = sorted((side * end, side * (end + stop)))
        view.area("fence", rectangle(near, -wide, far, 0))
    view.area("hidden", rectangle(-end, -wide, -rod.grip, 0))
    _blank(view, rod, -rod.grip)
    view.circle("cutter", (0, 0), 0.35 * wide + 0.008 * end)
    low = -wide - max(0.9 * wide, 0.03 * end)
    view.line("feed", (0.35 * end, low), (-0.35 * end, low), arrow=True)
    _blank_sizes(view, rod, unit, low)
    for side in (-1, 1):
        view.dimension((0, deep), (side * end, deep), f"to the stop {found(rod, 'stop_distance', unit)}", "above", 0)


def _blank(view, rod, start):
    """The blank from its leading end at `start`: both grips square, the rods between them a saw cut apart."""
    wide, x = rod.diameter, start + rod.grip
    view.area("blank", rectangle(start, -wide, start + rod.blank_length, 0), grain=0.0)
    for _ in range(rod.count):
        view.area("kept", rectangle(x + rod.kerf, -wide, x + rod.kerf + rod.length, 0), grain=0.0)
        x += rod.kerf + rod.length


def _blank_sizes(view, rod, unit, low):
    start, first = -rod.grip, rod.kerf
    rods = "rod" if rod.count == 1 else f"{rod.count} rods, each"
    view.dimension((first, low), (first + rod.length, low), f"{rods} {given(rod, 'length', unit)}", row=0)
    view.dimension((start, low), (0, low), f"grip {given(rod, 'grip', unit)}", row=1)
    view.dimension((start, low), (start + rod.blank_length, low), f"blank {found(rod, 'blank_length', unit)}", row=2)


def template_round_stock(rod, unit="mm"):
    """The blank's end at full size, to glue on: the square, the rod's true outline and its four corners in turn."""
    use = (
        "Cut out the square and glue it to the end of the blank that leads, the left one at the router table. Raise "
        "the cutter, the fence level with its bearing, until its edge follows the outline. Run corner 1, then turn the "
        "blank so that corner 2 lies where 1 lay, and so on: all four at each height."
    )
    sheet = Sheet("Round stock, the blank's end", _spoken(rod, unit), use=use)
    view = sheet.view("The end that leads")
    half = rod.diameter / 2
    view.area("waste", rectangle(-half, -half, half, half))
    view.area("kept", rod_outline(rod), grain=_end_grain(rod))
    centre_lines(view, 1.3 * half)
    reach = 0.93 * half
    for number, (x, y, side) in enumerate(((1, 1, "right"), (1, -1, "right"), (-1, -1, "left"), (-1, 1, "left")), 1):
        view.note((x * reach, y * reach), f"corner {number}", side)
    view.dimension((-half, -half), (half, -half), f"square {given(rod, 'diameter', unit)}")
    return sheet
