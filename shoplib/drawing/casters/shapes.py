"""What both plates draw: a caster, and boards of a stand that is turned about a point."""

import math

from shoplib.drawing.sheet import rectangle

WHEEL = 0.36  # the wheel's radius, of the caster's height


def turned(point, angle, centre=(0.0, 0.0)):
    """A point turned about a centre, anticlockwise (rad)."""
    (x, y), (cx, cy), c, s = point, centre, math.cos(angle), math.sin(angle)
    return cx + c * (x - cx) - s * (y - cy), cy + s * (x - cx) + c * (y - cy)


def board(view, layer, box, angle=0.0, centre=(0.0, 0.0), upright=False):
    """A piece of wood (left, bottom, right, top), turned; its grain runs level, or along it where it is upright."""
    grain = angle + (math.pi / 2 if upright else 0.0)
    view.area(layer, tuple(turned(corner, angle, centre) for corner in rectangle(*box)), grain=grain)


def caster(view, top, height, angle=0.0, centre=(0.0, 0.0), trail=0.0):
    """A caster of this height under the point `top`: collar, fork and wheel, trailing to the right."""
    x, y = top
    wheel = WHEEL * height

    def at(dx, dy):
        return turned((x + dx, y + dy), angle, centre)

    view.area("metal", tuple(at(*corner) for corner in rectangle(-0.3 * height, -0.08 * height, 0.3 * height, 0)))
    for side in (-0.12, 0.12):
        view.line("joint", at(side * height, -0.08 * height), at(trail, wheel - height))
    view.circle("metal", at(trail, wheel - height), wheel)
