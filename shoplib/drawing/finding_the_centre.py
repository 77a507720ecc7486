"""Plates for finding the centre: the zone in which it may lie, four ways to mark it, and the arc of a chord."""

import math

from shoplib.drawing.parts import found_in_full as found
from shoplib.drawing.parts import told_results
from shoplib.drawing.sheet import Circle, EndGrain, Sheet
from shoplib.model import given_in_full as given

USE_OF_WAYS = (
    "Square the end first, and plane or chalk it. Then one of four. 1: two chords anywhere, each halved by compasses; "
    "the lines through the arcs' crossings meet. 2: arms on the rim, draw along the blade, turn it a quarter, draw "
    "again. 3: a square's corner on the rim; join where its edges leave the rim and halve that line. 4: three lines "
    "along the cradle's guide, a third of a turn apart; prick the middle of their triangle. Check with compasses."
)
USE_OF_PIECE = (
    "Lay a straightedge across the piece from rim to rim: the chord. Measure the rise in its middle, square to it, "
    "with care, for the radius hangs on it. The longest chord that you can take is the best."
)


def leg_end(view, radius):
    """A leg's end: growth rings round a pith that lies anywhere but in the middle."""
    view.area("kept", Circle("kept", (0, 0), radius), grain=EndGrain((0.35 * radius, -0.25 * radius)))


def draw_centre_finder(end, unit="mm"):
    """The end with its two lines, the zone of their crossing enlarged, and the four ways in small views."""
    sheet = Sheet("Finding the centre", _spoken(end, unit), use=USE_OF_WAYS)
    _end(sheet.view("The end, true proportion", (0, 0, 0.36, 0.54)), end, unit)
    _zone(sheet.view("The middle, enlarged", (0.36, 0, 0.64, 0.54)), end, unit)
    ways = (
        ("bisectors", _bisectors), ("centre_square", _centre_square),
        ("semicircle", _semicircle), ("v_cradle", _v_cradle),
    )
    for place, (name, way) in enumerate(ways):
        title = f"{_SHORT[name]}: {found(end, name, unit)}"
        way(sheet.view(title, (0.25 * place, 0.54, 0.25, 0.46)), end)
    return sheet


_SHORT = {"bisectors": "1 Bisectors", "centre_square": "2 Square", "semicircle": "3 Corner", "v_cradle": "4 Cradle"}


def _spoken(end, unit):
    words = (
        f"A round {given(end, 'diameter', unit)} across. Two lines, each off by up to "
        f"{given(end, 'marking_error', unit)}, cross at {given(end, 'crossing_angle', unit)}: where they may cross is "
        f"a rhombus whose far corners lie {found(end, 'centre_error', unit)} from the centre. Four ways to mark the "
        "centre, each with how far it may be off."
    )
    names = ("bisectors", "centre_square", "semicircle", "v_cradle")
    return f"{words} {told_results(end, names, unit)}"


def on(angle, radius, centre=(0.0, 0.0)):
    """The point at this angle (rad) and distance from a centre."""
    return (centre[0] + radius * math.cos(angle), centre[1] + radius * math.sin(angle))


def through(view, layer, point, angle, half):
    """A line through a point at this angle, reaching `half` to both sides."""
    view.line(layer, on(angle, -half, point), on(angle, half, point))


def zone_corners(end):
    """Corners of the rhombus in which the lines may cross, the lines' halving line level: right, top, left, bottom."""
    half = end.crossing_angle / 2
    across, up = end.marking_error / math.sin(half), end.marking_error / math.cos(half)
    return ((across, 0.0), (0.0, up), (-across, 0.0), (0.0, -up))


def _end(view, end, unit):
    radius, half = end.diameter / 2, end.crossing_angle / 2
    leg_end(view, radius)
    for angle in (half, -half):
        through(view, "drawn", (0, 0), angle, 1.12 * radius)
    view.area("zone", zone_corners(end))
    view.dimension((-radius, 0), (radius, 0), f"Ø {given(end, 'diameter', unit)}")


def _zone(view, end, unit):
    """The true lines, the same lines off either way, and the rhombus between them."""
    corners, half, error = zone_corners(end), end.crossing_angle / 2, end.marking_error
    right, top = corners[0][0], corners[1][1]
    reach = 1.45 * max(right, top)
    view.area("zone", corners)
    for angle in (half, -half):
        through(view, "drawn", (0, 0), angle, reach)
        for side in (1, -1):
            through(view, "astray", on(angle + side * math.pi / 2, error), angle, reach)
    view.cross("centre", (0, 0), 0.12 * max(right, top))
    far = f"off by up to {found(end, 'centre_error', unit)}"
    near = found(end, "near_corner", unit)
    level = end.crossing_angle <= math.pi / 2
    view.dimension((0, 0), (right, 0), far if level else near)
    view.dimension((0, 0), (0, top), near if level else far, "left")
    astray = on(-half - math.pi / 2, error, on(-half, 0.8 * reach))
    view.note(astray, f"each line off by\n{given(end, 'marking_error', unit)} either way")
    view.note(on(half, 0.85 * reach), f"lines cross at\n{given(end, 'crossing_angle', unit)}")


def _bisectors(view, end):
    """Two chords, and the lines that halve them square."""
    radius, half = end.diameter / 2, end.crossing_angle / 2
    leg_end(view, radius)
    opposite = math.pi if end.crossing_angle < math.pi / 2 else 0.0  # chords stay apart
    for angle in (half, opposite - half):
        middle, along = on(angle, 0.72 * radius), angle + math.pi / 2
        through(view, "joint", middle, along, math.sqrt(1 - 0.72**2) * radius)
        through(view, "drawn", (0, 0), angle, 1.08 * radius)


def _centre_square(view, end):
    """The square's arms on the rim, its blade's edge through the centre, and the line of a quarter turn before."""
    radius = end.diameter / 2
    wide, long = 0.2 * radius, 1.25 * radius
    leg_end(view, radius)
    corner = on(1.25 * math.pi, math.sqrt(2) * radius)
    view.area("square", _square(corner, (0.0, math.pi / 2), (long, long), -wide))
    edge = (corner, on(math.pi / 4, 2.15 * radius, corner))
    view.area("square", (*edge, *(on(-math.pi / 4, wide, point) for point in reversed(edge))))
    view.line("drawn", on(1.25 * math.pi, radius), on(math.pi / 4, radius))
    view.line("drawn", on(0.75 * math.pi, radius), on(-math.pi / 4, radius))


def _square(corner, angles, lengths, wide):
    """A square's two arms: edges from the corner at two angles, `wide` of steel inside them (negative: outside)."""
    one, other = angles
    inner = on(other, wide, on(one, wide, corner))
    ends = on(one, lengths[0], corner), on(other, lengths[1], corner)
    return (corner, ends[0], on(other, wide, ends[0]), inner, on(one, wide, ends[1]), ends[1])


def _semicircle(view, end):
    """A try square's corner on the rim; where its edges leave the rim are the ends of a diameter, then halved."""
    radius, lean = end.diameter / 2, math.radians(-14)
    leg_end(view, radius)
    corner, left, right = on(math.radians(112), radius), on(math.pi + lean, radius), on(lean, radius)
    angles = [math.atan2(point[1] - corner[1], point[0] - corner[0]) for point in (left, right)]
    lengths = [math.dist(corner, point) + 0.15 * radius for point in (left, right)]
    view.area("square", _square(corner, angles, lengths, 0.2 * radius))
    view.line("drawn", left, right)
    for point in (left, right):
        view.circle("mark", point, 0.05 * radius)
    through(view, "drawn", (0, 0), lean + math.pi / 2, 0.16 * radius)


def _v_cradle(view, end):
    """The leg in its cradle and three lines a third of a turn apart; what the guide misses is enlarged."""
    radius = end.diameter / 2
    deep, wide, foot = math.sqrt(2) * radius, 1.3 * radius, -1.62 * radius
    leg_end(view, radius)
    view.area("square", ((0, -deep), (wide, -deep + wide), (wide, foot), (-wide, foot), (-wide, -deep + wide)))
    missed = 0.13 * radius if end.square_error else 0.0
    for k in range(3):
        angle = math.pi / 2 + 2 * math.pi * k / 3
        half = math.sqrt(radius**2 - missed**2)
        through(view, "drawn", on(angle - math.pi / 2, missed), angle, half)
    view.cross("centre", (0, 0), 0.05 * radius)


def rings(diameter, unit="mm"):
    """Diameters of the template's rings: this one, and three smaller and three larger by an even step."""
    step = (2.0 if diameter < 100 else 10.0) if unit == "mm" else (25.4 / 16 if diameter < 100 else 25.4 * 3 / 8)
    return [diameter + step * k for k in range(-3, 4) if diameter + step * k > 0]


def template_centre_finder(end, unit="mm"):
    """Rings round a cross: laid on the end until the rim runs evenly between two of them, and pricked through."""
    diameters = rings(end.diameter, unit)
    step = given_size(end, diameters[-1] - diameters[-2], unit)
    use = (
        f"The full ring is the end's own size; the broken ones are larger and smaller by {step} each. Cut the paper "
        "along a ring a little smaller than the end, lay it on so that the same margin of wood shows all round, and "
        "prick through the cross."
    )
    sheet = Sheet("Centre template", _spoken(end, unit), use=use)
    view = sheet.view("Prick through the cross")
    for diameter in diameters:
        view.circle("joint" if diameter == end.diameter else "hidden", (0, 0), diameter / 2)
    view.cross("centre", (0, 0), 0.54 * diameters[-1])
    view.cross("joint", (0, 0), 2.0)
    for diameter in (diameters[0], end.diameter, diameters[-1]):
        view.dimension((-diameter / 2, 0), (diameter / 2, 0), f"Ø {given_size(end, diameter, unit)}")
    return sheet


def given_size(end, size, unit):
    """A length written as an input of the end is."""
    return given(end.model.Stand({"diameter": size}), "diameter", unit)


def draw_chord_rise(piece, unit="mm"):
    """The whole circle with the measured piece on it, and the piece alone."""
    sheet = Sheet("Radius from chord and rise", _spoken_piece(piece, unit), use=USE_OF_PIECE)
    _whole(sheet.view("The whole circle", (0, 0, 0.5, 1)), piece, unit)
    _piece(sheet.view("The piece that was measured", (0.5, 0, 0.5, 1)), piece, unit)
    return sheet


def _spoken_piece(piece, unit):
    return (
        f"A piece of a circle with a chord of {given(piece, 'chord', unit)} and a rise of {given(piece, 'rise', unit)} "
        f"in its middle. Radius: {found(piece, 'radius', unit)}. Diameter: {found(piece, 'diameter', unit)}."
    )


def segment(piece, pieces=120):
    """The measured piece's outline: along the arc from the chord's right end to its left; the centre at the origin."""
    start, turn = (math.pi - piece.arc_angle) / 2, piece.arc_angle
    return tuple(on(start + turn * k / pieces, piece.radius) for k in range(pieces + 1))


def _whole(view, piece, unit):
    radius, half, low = piece.radius, piece.chord / 2, piece.radius - piece.rise
    view.area("piece", segment(piece))
    view.circle("hidden", (0, 0), radius)
    view.line("joint", (-half, low), (half, low))
    view.cross("centre", (0, 0), 0.06 * radius)
    view.line("joint", (0, 0), (half, low))
    view.line("centre", (0, 0), (0, radius))
    view.dimension((0, 0), (0, radius), f"radius {found(piece, 'radius', unit)}", "left")
    view.dimension((-radius, 0), (radius, 0), f"diameter {found(piece, 'diameter', unit)}")


def _piece(view, piece, unit):
    half, low = piece.chord / 2, piece.radius - piece.rise
    view.area("piece", segment(piece))
    view.line("centre", (0, low - 0.02 * piece.chord), (0, piece.radius + 0.02 * piece.chord))
    view.dimension((-half, low), (half, low), f"chord {given(piece, 'chord', unit)}")
    view.dimension((0, low), (0, piece.radius), f"rise {given(piece, 'rise', unit)}", "right")


def template_chord_rise(piece, unit="mm"):
    """The piece at full size: cut it out and lay it against the work, or mark the curve with it."""
    use = (
        "Cut along the curve and the chord. Lay it on the work: where the radius is the same, the curve runs along the "
        "rim from end to end. The chain line is square to the chord and points to the centre."
    )
    sheet = Sheet("Gauge of an arc", _spoken_piece(piece, unit), use=use)
    view = sheet.view(f"Arc of radius {found(piece, 'radius', unit)}, full size")
    _piece(view, piece, unit)
    view.note(on(math.pi / 2 + piece.arc_angle / 4, piece.radius), "the rim's edge", "left")
    return sheet


DRAWINGS = {"CentreFinder": draw_centre_finder, "ChordRise": draw_chord_rise}
TEMPLATES = {"CentreFinder": template_centre_finder, "ChordRise": template_chord_rise}
