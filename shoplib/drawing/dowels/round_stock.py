"""Plates for round rod from square stock."""

import math

from shoplib.drawing.parts import centre_lines, found, given
from shoplib.drawing.sheet import Sheet, rectangle


def draw_round_stock(rod, unit="mm"):
    """The rod in its square with the cutter at one corner, the rod between jaws, and the whole blank."""
    sheet = Sheet("Round stock", _spoken_rod(rod, unit))
    _in_its_square(sheet.view("The square's end, the cutter at one corner", (0, 0, 0.52, 0.72)), rod, unit)
    _between_jaws(sheet.view("Turned 45 deg between parallel jaws", (0.52, 0, 0.48, 0.72)), rod, unit)
    _blank(sheet.view("The blank: square ends ride the fence", (0, 0.72, 1, 0.28)), rod, unit)
    return sheet


def _spoken_rod(rod, unit):
    names = ("ideal_radius", "flat", "across_corners", "out_of_round", "blank_length")
    return f"Round rod {given(rod, 'diameter', unit)} across from a square of the same side." + "".join(
        f" {rod.model.results()[name].words}: {found(rod, name, unit)}." for name in names
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


def _in_its_square(view, rod, unit):
    half, flat = rod.diameter / 2, rod.flat / 2
    view.area("waste", rectangle(-half, -half, half, half))
    view.area("kept", rod_outline(rod))
    view.area("cutter", cutter_profile(rod))
    centre_lines(view, 1.12 * half)
    view.dimension((-half, -half), (half, -half), f"square and rod {given(rod, 'diameter', unit)}")
    radius = rod.model.results()["ideal_radius"].write(rod.cutter_radius, unit)
    view.dimension((half - rod.cutter_radius, half), (half, half), f"roundover radius {radius}", "above")
    if rod.flat > 0:
        view.dimension((-half, -flat), (-half, flat), f"flat {found(rod, 'flat', unit)}", "left")


def _between_jaws(view, rod, unit):
    reach, high = rod.across_corners / 2, 0.75 * rod.diameter
    for side in (-1, 1):
        inner, outer = sorted((side * reach, side * (reach + 0.12 * rod.diameter)))
        view.area("jaw", rectangle(inner, -high, outer, high))
    view.area("kept", rod_outline(rod, math.pi / 4))
    centre_lines(view, 1.1 * reach)
    view.dimension((-reach, -high), (reach, -high), f"across the corners {found(rod, 'across_corners', unit)}")
    half = rod.diameter / 2
    text = f"across the flats {given(rod, 'diameter', unit)}: {found(rod, 'out_of_round', unit)} out of round"
    view.dimension((-half, -high), (half, -high), text, row=1)


def _blank(view, rod, unit):
    half, end = rod.diameter / 2, rod.blank_length
    view.area("waste", rectangle(0, -half, end, half))
    x = rod.grip
    for _ in range(rod.count):
        view.area("kept", rectangle(x + rod.kerf, -half, x + rod.kerf + rod.length, half))
        x += rod.kerf + rod.length
    view.line("centre", (-0.03 * end, 0), (1.03 * end, 0))
    view.dimension((0, -half), (end, -half), f"blank {found(rod, 'blank_length', unit)}")
    first = rod.grip + rod.kerf
    rods = "rod" if rod.count == 1 else f"{rod.count} rods, each"
    view.dimension((first, half), (first + rod.length, half), f"{rods} {given(rod, 'length', unit)}", "above")
    view.dimension((0, half), (rod.grip, half), f"square grip {given(rod, 'grip', unit)}", "above")


def template_round_stock(rod, unit="mm"):
    """The blank's end at full size, to glue on: the square, the rod's true outline and the centre."""
    sheet = Sheet("Round stock, the blank's end", _spoken_rod(rod, unit))
    view = sheet.view("Glue to the end of the square: set the cutter to the outline")
    half = rod.diameter / 2
    view.area("waste", rectangle(-half, -half, half, half))
    view.area("kept", rod_outline(rod))
    centre_lines(view, 1.3 * half)
    view.dimension((-half, -half), (half, -half), f"square {given(rod, 'diameter', unit)}")
    return sheet
