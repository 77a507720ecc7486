"""The best circle through many points, in plain Python: damped Gauss-Newton steps from the algebraic fit.

W. Gander, G. Golub and R. Strebel, Least-squares fitting of circles and ellipses, BIT 34 (1994).
"""

import math

MOST_STEPS = 500


def off_a_line(points):
    """How far the farthest point lies off the line through the first one and the one farthest from it."""
    (x, y), far = points[0], max(points, key=lambda point: math.dist(points[0], point))
    dx, dy = far[0] - x, far[1] - y
    return max(abs(dx * (py - y) - dy * (px - x)) for px, py in points) / math.hypot(dx, dy)


def off_circle(points, circle):
    """How far each point lies outside a circle (x, y, radius)."""
    x, y, radius = circle
    return [math.hypot(px - x, py - y) - radius for px, py in points]


def best_circle(points):
    """The circle (x, y, radius) with the least squares of the distances off it: Gauss and Newton's steps, damped.

    Points are to be of the size of one, about the origin. At the best circle the gradient is nothing, so how exactly
    each step is solved decides only how many it takes. Raises ZeroDivisionError where they lie in a line. Gander, Golub
    and Strebel, section 3.

    >>> [round(each, 9) for each in best_circle([(-0.5, 0.0), (0.5, 0.0), (0.0, 0.5), (0.0, -0.5)])]
    [0.0, 0.0, 0.5]
    """
    circle = _algebraic(points)
    damping, off = 1e-3, off_circle(points, circle)
    for _ in range(MOST_STEPS):
        step = _step(points, circle, off, damping)
        new = tuple(each + change for each, change in zip(circle, step))
        new_off = off_circle(points, new)
        if math.hypot(*new_off) <= math.hypot(*off):
            circle, off, damping = new, new_off, damping / 10
        elif damping > 1e12:
            break
        else:
            damping *= 10
        if math.hypot(*step) <= 1e-15 * math.hypot(*circle):
            break
    return circle


def _step(points, circle, off, damping):
    """What a damped step adds to centre and radius."""
    x, y, _ = circle
    slopes = [((x - px) / d, (y - py) / d, -1.0) for px, py in points for d in [math.hypot(px - x, py - y) or 1.0]]
    return _least_squares(slopes, [-each for each in off], damping)


def _algebraic(points):
    """The circle for which x^2 + y^2 fits best: linear, quick, and near enough to start from."""
    x, y, rest = _least_squares([(2 * x, 2 * y, 1.0) for x, y in points], [x**2 + y**2 for x, y in points])
    return x, y, math.sqrt(max(rest + x**2 + y**2, 1e-12))


def _least_squares(rows, wanted, damping=0.0):
    """The three numbers that bring each row nearest to what is wanted of it, through the normal equations."""
    from mpmath import fp

    normal = fp.matrix([[sum(row[i] * row[j] for row in rows) for j in range(3)] for i in range(3)])
    for k in range(3):
        normal[k, k] *= 1 + damping
    right = fp.matrix([sum(row[i] * each for row, each in zip(rows, wanted)) for i in range(3)])
    return tuple(fp.lu_solve(normal, right))
