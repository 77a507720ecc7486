"""The outline of a rod that a roundover cutter makes of a square: true, and with the cutter set wrong.

Plain floats in mm and rad; the rod's centre is the origin.
"""

import math


def on_outline(angle, half, radius):
    """Where a ray from the centre meets the rounded square."""
    c, s = math.cos(angle), math.sin(angle)
    reach = half / max(abs(c), abs(s))
    corner = half - radius
    if min(abs(c), abs(s)) * reach > corner and radius:
        along = corner * (abs(c) + abs(s))  # the corner's centre, seen along the ray
        reach = along + math.sqrt(max(along**2 - 2 * corner**2 + radius**2, 0.0))
    return reach * c + 0.0, reach * s + 0.0


def pass_left(half, radius, error):
    """One pass at the corner right and above: arc's centre, its first and last angle, and the corners it leaves.

    The upper face lies on the table, the right one against the fence; the arc's centre sinks by the
    error from the table's face. Turned by quarters of a circle this is the whole rod.
    """
    flat = half - radius
    x, y = flat, flat - error
    if error >= 0:
        first = math.asin(max(-flat - y, 0.0) / radius)
        return (x, y), first, math.pi / 2, ((x + radius * math.cos(first), -flat),)
    return (x, y), 0.0, math.asin((half - y) / radius), ()


def set_error(half, radius, error):
    """Smallest and largest width of the rod that four such passes leave, from its hull's reach in every direction."""
    (x, y), first, last, corners = pass_left(half, radius, error)
    ends = [(x + radius * math.cos(a), y + radius * math.sin(a)) for a in (first, last)]
    points = [turned for point in (*ends, *corners) for turned in quarters(point)]
    arcs = [(turned, first + k * math.pi / 2, last + k * math.pi / 2) for k, turned in enumerate(quarters((x, y)))]

    def width(angle):
        c, s = math.cos(angle), math.sin(angle)
        reach = [px * c + py * s for px, py in points]
        for (cx, cy), low, high in arcs:
            if low <= angle + 2 * math.pi * math.ceil((low - angle) / (2 * math.pi)) <= high:
                reach.append(cx * c + cy * s + radius)
        return 2 * max(reach)

    widths = [width(angle) for angle in _turning_points(points, [arc[0] for arc in arcs], radius)]
    return min(widths), max(widths)


def quarters(point):
    """A point turned about the centre by none, one, two and three quarters of a circle."""
    x, y = point
    return (x, y), (-y, x), (-x, -y), (y, -x)


def _turning_points(points, centres, radius):
    """All angles at which the hull's reach can be largest or smallest: towards a point, square to an edge."""
    found = [math.atan2(y, x) for x, y in (*points, *centres)]
    found += [angle + math.pi for angle in found]
    for px, py in points:
        found += [math.atan2(qx - px, py - qy) for qx, qy in points if (qx, qy) != (px, py)]
        for cx, cy in centres:
            far = math.hypot(px - cx, py - cy)
            if far >= radius:
                lean = math.acos(radius / far)
                found += [math.atan2(py - cy, px - cx) + sign * lean for sign in (1, -1)]
    return [angle % (2 * math.pi) for angle in found]
