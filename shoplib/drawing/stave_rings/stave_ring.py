"""Plates for a flat ring of staves: the blank, one stave, the strip, and what the saw's error does to the joints."""

import math

from shoplib.drawing.parts import found, given, told_results
from shoplib.drawing.sheet import Sheet, rectangle
from shoplib.drawing.stave_rings.leaning_ring import bevels, leaning_ring

ARC, FINE_ARC = math.radians(3.75), math.radians(0.5)  # one straight piece of an arc at most; at full size
FLAT_CUT = (
    "Saw the strip to width and length; mark the show face all along it. Set the mitre, blade upright, and saw off the "
    "first slant. Turn the strip over for each further cut, the tip of its long edge against a stop that stands the "
    "long edge's length from the blade. Lay all marks up, long edges outside, and fit the ring dry before any glue."
)
LEANING_CUT = (
    "Lay the board inside face up. Set mitre and tilt and saw one end; turn the board end for end, the same face up, "
    "and swing the mitre to the other side: the tilt stays. Fit half a ring of scrap dry before you saw good wood."
)


def draw_stave_ring(ring, unit="mm"):
    """The blank from above, one stave with its sizes, the strip; for a leaning ring its lean and two saw settings."""
    sheet = Sheet("Stave ring", _spoken(ring, unit), use=LEANING_CUT if ring.slope else FLAT_CUT)
    if ring.slope != 0:
        leaning_ring(sheet, ring, unit)
        return sheet
    off = ring.saw_error != 0
    _blank_plan(sheet.view("The blank from above", (0, 0, 0.54, 1)), ring, unit)
    _stave(sheet.view("One stave", (0.54, 0, 0.46, 0.46 if off else 0.56)), ring, unit)
    strip = (0.54, 0.46, 0.46, 0.25) if off else (0.54, 0.56, 0.46, 0.44)
    _strip(sheet.view(f"The strip: {100 * ring.material_yield:.0f} % of it ends in the ring", strip), ring, unit)
    if off:
        gapes, touches = ("outside", "inside") if ring.saw_error > 0 else ("inside", "outside")
        title = f"A joint, dry: gapes {gapes}, touches {touches}"
        _shared_joints(sheet.view(title, (0.54, 0.71, 0.46, 0.29)), ring, unit)
    return sheet


def _spoken(ring, unit):
    words = (
        f"A ring of {ring.staves} staves, outside {given(ring, 'outside_diameter', unit)}, "
        f"inside {given(ring, 'inside_diameter', unit)}."
    )
    if ring.slope:
        words += f" It leans {given(ring, 'slope', unit)} from lying flat."
        names = ("mitre_angle", "blade_tilt")
    else:
        names = ("mitre_angle", "long_edge", "board_width", *_last_joint_results(ring))
    return f"{words} {told_results(ring, names, unit)}"


def _last_joint_results(ring):
    """What the saw's error does to this ring, where there is one."""
    return tuple(name for name in ("closing_gap", "overlap", "gap_per_joint", "half_gap") if name in ring.on_card())


def stave_corners(ring):
    """One stave's corners, long edge up, the ring's centre at the origin: long edge first, clockwise."""
    outer, inner = ring.blank_outer, ring.blank_outer - ring.board_width
    return (
        (-ring.long_edge / 2, outer), (ring.long_edge / 2, outer),
        (ring.short_edge / 2, inner), (-ring.short_edge / 2, inner),
    )


def turned(points, angle):
    """Points turned about the origin, anticlockwise."""
    c, s = math.cos(angle), math.sin(angle)
    return tuple((c * x - s * y, s * x + c * y) for x, y in points)


def _share_of_ring(ring, centre=(0.0, 0.0), piece=ARC):
    """The part of the finished ring that one stave makes, its stave's long edge up."""
    half = math.pi / ring.staves
    pieces = max(2, math.ceil(2 * half / piece))
    angles = [math.pi / 2 - half + 2 * half * k / pieces for k in range(pieces + 1)]
    x, y = centre

    def arc(radius, angles):
        return [(x + radius * math.cos(a), y + radius * math.sin(a)) for a in angles]

    return (*arc(ring.outside_diameter / 2, angles), *arc(ring.inside_diameter / 2, reversed(angles)))


def _blank_plan(view, ring, unit):
    """All staves, grain along each; what the router keeps of them; and the last joint as the saw error leaves it."""
    step, corners, share = 2 * math.pi / ring.staves, stave_corners(ring), _share_of_ring(ring)
    turns = [(k + 0.5) * step for k in range(ring.staves)]
    for turn in turns:
        view.area("waste", turned(corners, turn))
    for turn in turns:
        view.area("kept", turned(share, turn), grain=turn)
    for turn in turns:
        view.line("joint", *turned((corners[0], corners[3]), turn))
    _last_joint(view, ring, unit)
    outside, inside = ring.outside_diameter / 2, ring.inside_diameter / 2
    view.cross("centre", (0, 0), 0.06 * outside)
    view.dimension((-outside, 0), (outside, 0), f"outside Ø {given(ring, 'outside_diameter', unit)}")
    view.dimension((-inside, 0), (inside, 0), f"inside Ø {given(ring, 'inside_diameter', unit)}")


def _last_joint(view, ring, unit):
    """The last joint as the saw error leaves it, on top: its chord on the finished outside circle is true."""
    if ring.saw_error == 0:
        return
    half, radius = ring.closing_angle / 2, ring.outside_diameter / 2
    x, y = radius * math.sin(half), radius * math.cos(half)
    opens = ring.saw_error > 0
    view.area("gap" if opens else "clash", _out_of_blank(ring, half))
    text = f"last joint open {found(ring, 'closing_gap', unit)}" if opens else (
        f"last stave overlaps {found(ring, 'overlap', unit)}")
    view.dimension((-x, y), (x, y), text, "above")


def _out_of_blank(ring, half):
    """The wedge of the blank that lies within half an angle of the last joint, on both of its sides."""
    step = 2 * math.pi / ring.staves
    corners = [k * step for k in range(-ring.staves, ring.staves + 1) if abs(k * step) < half]
    angles = [-half, *corners, half]
    flats = ring.blank_outer, ring.blank_outer - ring.board_width

    def outline(flat, angles):
        reach = [flat / math.cos(step / 2 - abs(a) % step) for a in angles]
        return [(r * math.sin(a), r * math.cos(a)) for r, a in zip(reach, angles)]

    return (*outline(flats[0], angles), *outline(flats[1], angles[::-1]))


def _stave(view, ring, unit, piece=ARC):
    """One stave, its long edge up, with what the finished ring keeps of it."""
    outer, inner = 0.0, -ring.board_width
    long, short = ring.long_edge / 2, ring.short_edge / 2
    view.area("waste", ((-long, outer), (long, outer), (short, inner), (-short, inner)))
    view.area("kept", _share_of_ring(ring, (0.0, -ring.blank_outer), piece), grain=0.0)
    view.line("centre", (0, outer + 0.12 * ring.board_width), (0, inner - 0.12 * ring.board_width))
    view.line("hidden", (short, outer), (short, inner))
    view.dimension((-long, outer), (long, outer), f"long edge {found(ring, 'long_edge', unit)}", "above")
    view.dimension((-short, inner), (short, inner), f"short edge {found(ring, 'short_edge', unit)}")
    view.dimension((long, inner), (long, outer), f"board {found(ring, 'board_width', unit)}", "right")
    slant = ring.model.results()["long_edge"].write(long - short, unit)
    mitre = f"mitre {found(ring, 'mitre_angle', unit)}: {slant} off square"
    view.dimension((short, inner), (long, inner), mitre, row=1)


def _strip(view, ring, unit):
    """All staves nested along a square-ended strip, one saw cut between neighbours."""
    view.area("board", rectangle(0, 0, ring.strip_length, ring.board_width))
    for corners in nested_staves(ring):
        view.area("piece", corners)
    view.dimension((0, 0), (ring.strip_length, 0), f"strip {found(ring, 'strip_length', unit)}")


def nested_staves(ring):
    """Corners of all staves along the strip, every second one turned end for end, a kerf square to the cut between."""
    tan = math.tan(math.pi / ring.staves)
    slant, cut = ring.board_width * tan, ring.kerf / math.cos(math.pi / ring.staves)
    step = ring.long_edge - slant + cut
    return [_nested(k * step, ring, slant, turned_over=k % 2 == 1) for k in range(ring.staves)]


def _nested(x, ring, slant, turned_over):
    """A stave whose leftmost point is at x: long edge below, or above when turned."""
    long, short = (x, x + ring.long_edge), (x + slant, x + slant + ring.short_edge)
    low, high = (short, long) if turned_over else (long, short)
    return ((low[0], 0), (low[1], 0), (high[1], ring.board_width), (high[0], ring.board_width))


def _shared_joints(view, ring, unit):
    """Joints that share the saw's error, sawn faces level and the ring's outside to the right; gaps are true."""
    shares = [("two halves", "half_gap", ring.closing_angle / 2)] if ring.staves % 2 == 0 else []
    shares += [("band clamp", "gap_per_joint", 2 * abs(ring.saw_error))]
    face = ring.joint_face
    for k, (words, name, angle) in enumerate(shares):
        high = -k * (0.75 * face + face * math.sin(shares[0][2] / 2))
        tip = _dry_joint(view, ring, high, angle)
        view.note(tip, f"{words}:\n{found(ring, name, unit)}", "right" if ring.saw_error > 0 else "left")


def _dry_joint(view, ring, high, angle):
    """Two staves' ends, touching at one end of their faces and open by an angle; returns the middle of the gap."""
    face, deep = ring.joint_face, 0.22 * ring.joint_face
    way = 1 if ring.saw_error > 0 else -1
    touch = -way * face / 2
    rise, run = face * math.sin(angle / 2), way * face * math.cos(angle / 2)
    fibres = math.pi / 2 + math.pi / ring.staves
    for up in (1, -1):
        near, far = (touch, high), (touch + run, high + up * rise)
        back = [(x, y + up * deep) for x, y in (far, near)]
        view.area("kept", (near, far, *back), grain=up * fibres)
    view.area("gap", ((touch, high), (touch + run, high + rise), (touch + run, high - rise)))
    return touch + run, high


def template_stave_ring(ring, unit="mm"):
    """One stave at full size with the finished ring's edges on it; for a leaning ring two angles to set a bevel by."""
    if ring.slope != 0:
        use = "Set a sliding bevel by the slanting edges, then the saw by it. The sheet tells no sizes of the stave."
        sheet = Sheet("Stave ring, saw settings", _spoken(ring, unit), use=use)
        bevels(sheet.view("Two angles to set a sliding bevel by"), ring, unit)
        return sheet
    use = (
        f"Make {ring.staves}, grain along the long edge. The broken outline is the stave as sawn: hold a test cut to "
        "it. The thick shape is what stays when the ring is cut round."
    )
    sheet = Sheet("Stave ring, one stave", _spoken(ring, unit), use=use)
    view = sheet.view(f"Stave: make {ring.staves}; show face up, long edge outside")
    _stave(view, ring, unit, FINE_ARC)
    return sheet
