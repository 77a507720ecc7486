"""Plates of a ring's wall with the arcs where the cutter works with and against the grain, from either face."""

import math

from shoplib.drawing.parts import found_in_full as found
from shoplib.drawing.parts import given
from shoplib.drawing.sheet import Circle, Sheet
from shoplib.maths.trimming.grain_arcs import AGAINST, degrees

RADIUS = 100.0  # mm, of the drawing: the arcs are the same on a ring of any size
WIDE = 0.2  # of the radius: the ring's width in the drawing
PIECES = 32  # corners of an eighth of a turn
DISC = 62.0  # mm, radius of the disc of angles: it goes on one sheet
BAND = 18.0  # mm, how wide the band is that is stuck on the ring


def draw_grain_arcs(ring, unit="mm"):
    """The wall from the show face and from the back face, as each looks from above."""
    sheet = Sheet("Grain round the ring", spoken(ring), use=_use(ring, unit))
    start = "along the grain" if ring.construction == "boards" else "at a joint"
    _face(sheet.view(f"Show face up: 0 deg right, {start}", (0, 0, 0.5, 1)), ring, "show")
    _face(sheet.view("Back face up: 0 deg left", (0.5, 0, 0.5, 1)), ring, "back")
    return sheet


def spoken(ring):
    """What a screen reader says of the arcs."""
    arcs = [arc for arc in ring.arcs("show") if arc.grain == AGAINST]
    turns = " and ".join(f"from {degrees(arc.start)} to {degrees(arc.end)}" for arc in arcs[:2])
    built = "of boards" if ring.construction == "boards" else f"of {ring.staves} staves"
    more = "" if len(arcs) < 3 else ", and so on round the ring"
    return (
        f"A ring {built}, its {ring.edge} wall. From the show face the cutter works against the grain {turns}{more}; "
        "from the back face everywhere else."
    )


def _starts(ring):
    """Where the angles are counted from, as a text says it."""
    return "the grain's direction" if ring.construction == "boards" else "a joint"


def _use(ring, unit):
    """How the arcs are marked and cut, in sentences for the card."""
    step = f", {found(ring, 'chord', unit)} apart with the dividers" if ring.has("diameter") else ""
    around = "anticlockwise" if ring.edge == "outside" else "clockwise"
    return (
        f"Mark the {ring.edge} wall on the show face every {degrees(ring.arc)} from {_starts(ring)} on{step}, and "
        "number the arcs anticlockwise, 1 at the first mark. From the show face the odd arcs go against the grain, the "
        "even ones with it; from the back face it is the other way round. Cut an arc from the face where it goes with "
        f"the grain; where that cannot be, halve the bite. Move the router {around} as you look down on it, whichever "
        "face is up: the kept wood stays on its left."
    )


def sector(radius, width, start, end):
    """Corners of a part of a band, from its inner radius outward by a width."""
    pieces = max(2, math.ceil(PIECES * (end - start) / (math.pi / 4)))
    angles = [start + (end - start) * k / pieces for k in range(pieces + 1)]
    outer = [((radius + width) * math.cos(a), (radius + width) * math.sin(a)) for a in angles]
    inner = [(radius * math.cos(a), radius * math.sin(a)) for a in reversed(angles)]
    return (*outer, *inner)


def _face(view, ring, face):
    """The ring as it lies; the back face is seen mirrored, its 0 mark on the left."""
    inner = RADIUS * (1 - WIDE)
    _ring(view, ring, inner, RADIUS, face)
    outside = ring.edge == "outside"
    low, high = (1.03 * RADIUS, 1.13 * RADIUS) if outside else (0.86 * inner, 0.97 * inner)
    for arc in _seen(ring, face):
        view.area("against" if arc.grain == AGAINST else "with", sector(low, high - low, arc.start, arc.end))
    at = 1.24 * RADIUS if outside else 0.72 * inner
    for middle in (math.radians(45), math.radians(225)):
        turn = math.radians(22) * (1 if outside else -1)
        view.arc("feed", (0, 0), at, middle - turn, middle + turn, arrow=True)
    way = 1 if face == "show" else -1
    view.line("centre", (0, 0), (way * RADIUS, 0))


def _seen(ring, face):
    """The arcs as they look from a face: from the back everything is mirrored, left for right."""
    arcs = ring.arcs(face)
    if face == "show":
        return arcs
    return tuple(arc._replace(start=math.pi - arc.end, end=math.pi - arc.start) for arc in arcs)


def _ring(view, ring, inner, outer, face):
    """Boards: the whole ring with one grain. Staves: each with its own, along its middle."""
    if ring.construction == "boards":
        circles = (Circle("kept", (0, 0), radius) for radius in (outer, inner))
        view.area("kept", *circles, grain=0.0)
        return
    step = 2 * math.pi / ring.staves
    for k in range(ring.staves):
        start = k * step if face == "show" else math.pi - (k + 1) * step
        view.area("stave", sector(inner, outer - inner, start, start + step), grain=start + step / 2 + math.pi / 2)


def template_grain_arcs(ring, unit="mm"):
    """With a diameter: one pair of arcs as a band to stick on the ring, true to size. Else a disc of angles."""
    return _band(ring, unit) if ring.has("diameter") else _disc(ring)


def _band(ring, unit):
    """One arc against and one with, on the kept side of the wall; laid on again at every second mark."""
    radius, inside = ring.diameter / 2, ring.edge == "inside"
    wide = min(BAND, 0.3 * radius)
    low, out = (radius, 1) if inside else (radius - wide, -1)
    sheet = Sheet("Band of arcs, show face", spoken(ring), use=(
        f"For the {ring.edge} wall, {given(ring, 'diameter', unit)} across, the show face up. Cut it out; its "
        f"{'inner' if inside else 'outer'} edge lies on the wall's line, the mark at its hatched end on "
        f"{_starts(ring)}; lay the band on again where it ends until you are round. Carry the marks over the wall. Arc "
        "1 goes against the grain from this face: cut it from the back. Arc 2 goes with the grain from this face."
    ))
    view = sheet.view("Arc 1, hatched: from the back. Arc 2: from this face")
    first, second = ring.arcs("show")[:2]
    turn = math.pi / 2 - first.end  # the mark between both arcs at the top
    for arc, layer in ((first, "against"), (second, "with")):
        view.area(layer, sector(low, wide, arc.start + turn, arc.end + turn))
    for angle in ring.marks[:3]:
        at = angle + turn
        for_mark = (radius * math.cos(at), radius * math.sin(at))
        past = radius - out * 5.0
        view.line("joint", for_mark, (past * math.cos(at), past * math.sin(at)))
    ends = [(radius * math.cos(angle + turn), radius * math.sin(angle + turn)) for angle in ring.marks[:3]]
    view.note(ends[0], f"0 deg: {_starts(ring)}", "right")
    view.note(ends[2], f"{degrees(ring.marks[2])}: next band", "left")
    return sheet


def _disc(ring):
    """A disc of angles to lay in the ring's middle, show face up: true for a ring of any size."""
    sheet = Sheet("Disc of arcs, show face", spoken(ring), use=(
        "Cut the disc out and lay it on the middle of a board that fills the ring, show face up, its 0 mark on "
        f"{_starts(ring)}: from there, anticlockwise, runs a hatched arc. Carry the marks out to the wall with a "
        "straight edge that lies on the disc's centre. From "
        "this face the hatched arcs go against the grain: cut them from the back, the white ones from this face."
    ))
    view = sheet.view("Hatched: from the back. White: from this face")
    for arc in ring.arcs("show"):
        layer = "against" if arc.grain == AGAINST else "with"
        view.area(layer, sector(0.72 * DISC, 0.28 * DISC, arc.start, arc.end))
        view.line("joint", (0, 0), (DISC * math.cos(arc.start), DISC * math.sin(arc.start)))
    view.cross("centre", (0, 0), 6.0)
    view.note((DISC, 0), f"0 deg: {_starts(ring)}", "right")
    return sheet
