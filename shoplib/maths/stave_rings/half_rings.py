"""Two half rings whose ends are trued, each to one straight line: how much margin the blank then has left."""

from shoplib.maths.functions import cos, least, most, sin, sqrt, tan


def margin_left(ring):
    """Least wood beyond the finished ring, outside or inside, once two half rings are trued and glued.

    Worked out stave by stave for an even count. Each half is a chain of staves as really sawn round its own apex.
    Truing takes its ends down until both lie in one straight line; that line goes through the middle of the
    finished ring, and the other half is its like. Less than nothing where the blank falls short.
    """
    tip, root = _half_ring(ring)
    line = most(tip[0][1], root[0][1])  # the highest point of the sawn faces: all else is planed down to it
    outside = [_nearest(*part, line) for part in _above(tip, line)]
    inside = [_farthest(*part, line) for part in _above(root, line)]
    reach = least(*outside) - ring.outside_diameter / 2
    hole = ring.inside_diameter / 2
    return least(reach, hole - most(*inside)) if inside else least(reach, hole)


def _half_ring(ring):
    """Outer and inner corners of one half from one end to the other, its apex at the origin."""
    mitre = ring.mitre_angle - ring.saw_error
    apothem = ring.long_edge / 2 / tan(mitre)
    outer, inner = apothem / cos(mitre), (apothem - ring.board_width) / cos(mitre)
    half = ring.staves // 2
    angles = [ring.pi / 2 + (2 * k - half) * mitre for k in range(half + 1)]
    return tuple([(radius * cos(a), radius * sin(a)) for a in angles] for radius in (outer, inner))


def _above(corners, line):
    """The straight parts of an outline that lie above a level line, cut off where they cross it."""
    for (x1, y1), (x2, y2) in zip(corners, corners[1:]):
        if most(y1, y2) > line:
            start, end = ((x1, y1), (x2, y2)) if y1 < y2 else ((x2, y2), (x1, y1))
            share = most(0.0, (line - start[1]) / (end[1] - start[1])) if end[1] > start[1] else 0.0
            yield (start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])), end


def _nearest(start, end, line):
    """How near a straight part comes to the middle of the finished ring, which lies on the line."""
    (x, y), (along, up) = (start[0], start[1] - line), (end[0] - start[0], end[1] - start[1])
    share = -(x * along + y * up) / (along**2 + up**2)
    share = least(most(share, 0.0), 1.0)
    return sqrt((x + share * along) ** 2 + (y + share * up) ** 2)


def _farthest(start, end, line):
    """How far a straight part reaches from the middle of the finished ring."""
    return most(*(sqrt(x**2 + (y - line) ** 2) for x, y in (start, end)))
