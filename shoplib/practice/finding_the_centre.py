"""Practice questions on finding the centre."""

import math

from shoplib.maths.finding_the_centre import CentreFinder, ChordRise
from shoplib.maths.rims import centre_and_radius
from shoplib.practice.pictured import Pictured
from shoplib.practice.question import Sizes

TRIANGLES = ((3, 4), (5, 12))  # both have a whole long side


def questions(student, unit="mm"):
    """Six questions, with sizes that follow the student number."""
    sizes = Sizes(student, unit)
    leg = CentreFinder(
        sizes.pick(0, mm=(32, 35, 38, 40, 45, 50), inches=(1.25, 1.375, 1.5, 1.625, 1.75, 2)),
        sizes.pick(1, mm=(0.5, 0.6, 0.8, 1.0), inches=(0.02, 0.025, 0.03, 0.04)),
    )
    flat = leg.replace(crossing_angle=sizes.pick(2, deg=(30, 36, 40, 48)))
    hole = sizes.pick(3, mm=(10, 11, 12, 16), inches=(3 / 8, 7 / 16, 1 / 2, 5 / 8))
    piece = ChordRise(
        sizes.pick(4, mm=range(240, 420, 20), inches=(9.5, 10, 11, 11.5, 12, 13, 14, 15, 16)),
        sizes.pick(1, mm=(30, 36, 44, 50), inches=(1.25, 1.5, 1.75, 2)),
    )
    scale = sizes.pick(0, mm=(22, 25, 26, 28, 30), inches=(7 / 8, 1, 1.125, 1.25)).m_as("mm")
    arms = [scale * side for side in sizes.choose(1, TRIANGLES)]
    side = sizes.pick(2, mm=(1.2, 1.5, 1.9, 2.3), inches=(0.05, 0.06, 0.08, 0.1)).m_as("mm")
    return (
        _crossing(sizes, leg.plain), _flat_crossing(sizes, flat.plain), _wall(sizes, leg, hole), _corner(sizes, *arms),
        _radius(sizes, piece.plain), _triangle(sizes, side),
    )


def pictured():
    """The drawing over the questions on paper."""
    return Pictured(CentreFinder("35 mm", "0.3 mm"), ("1 ", "2 ", "3 ", "4 "))


def _crossing(sizes, leg):
    error = leg.marking_error
    return sizes.ask(
        f"Two lines cross at a right angle on a leg's end. Each may be off by {sizes.write(error)}, square to itself. "
        "How far from the true centre may they cross?",
        leg.centre_error,
        (
            (error, "That is one line's error: the other one is off as well, square to it."),
            (2 * error, "The two errors stand square to each other: put them together by Pythagoras."),
            (error / math.sqrt(2), "The root of two multiplies: the corner lies further out than either line."),
        ),
        "The corner of a square: the root of two times one line's error.", mm=0.03, inches=0.001,
    )


def _flat_crossing(sizes, leg):
    error, angle = leg.marking_error, leg.crossing_angle
    return sizes.ask(
        f"The same hand draws two lines that cross at only {sizes.write(angle, 'angle')}. How far from the true centre "
        "may they cross now?",
        leg.centre_error,
        (
            (error / math.sin(angle), "You took the sine of the whole angle: the far corner lies on the line that "
             "halves it."),
            (error / math.cos(angle / 2), "That is the near corner of the rhombus: the far one, along the needle, is "
             "the worst."),
            (error * math.sqrt(2), "That is for a right angle: flat crossings are worse."),
            (error / math.tan(angle / 2), "You took the tangent: the way to the far corner is the long side of the "
             "triangle, so it is the sine."),
        ),
        "The marking error over the sine of half the angle.", mm=0.03, inches=0.001,
    )


def _wall(sizes, leg, hole):
    plain, across = leg.plain, hole.m_as("mm")
    evenly = (plain.diameter - across) / 2
    return sizes.ask(
        f"The leg of question 1 is {sizes.write(plain.diameter)} across. A hole of {sizes.write(across)} is drilled "
        "where the two lines cross. What is the thinnest wall that may be left?",
        leg.wall_left(hole).m_as("mm"),
        (
            (evenly, "That is the wall of a hole in the true centre."),
            (evenly - plain.marking_error, "Take off the crossing's error, not one line's."),
            (2 * evenly - plain.centre_error, "There is a wall on both sides: halve the difference first, or the wall "
             "is twice as thick on paper as in the leg."),
            (evenly + plain.centre_error, "That is the thickest wall."),
            (evenly - plain.centre_error / 2, "The whole error comes off one wall: the hole moves, it does not grow."),
        ),
        "Half of leg less hole, less the error of the centre.", mm=0.06, inches=0.002,
    )


def _corner(sizes, one, other):
    *_, radius = centre_and_radius((0.0, 0.0), (one, 0.0), (0.0, other))
    return sizes.ask(
        f"A square's corner is laid on the rim of a round. Its edges cross the rim {sizes.write(one)} and "
        f"{sizes.write(other)} from the corner. How large is the round across?",
        2 * radius,
        (
            (radius, "That is the radius: the line between the two marks is a whole diameter."),
            (one + other, "The two edges stand square to each other: put them together by Pythagoras."),
            (max(one, other), "The longer edge alone is only a chord."),
            (4 * radius, "The line between the two marks is the diameter already: do not double it."),
        ),
        "The two marks are the ends of a diameter, and the edges its right-angled triangle.",
    )


def _radius(sizes, piece):
    chord, rise = piece.chord, piece.rise
    return sizes.ask(
        f"A piece of a rim has a chord of {sizes.write(chord)} and rises {sizes.write(rise)} in its middle. What "
        "radius has it?",
        piece.radius,
        (
            (piece.short_rule, "The short rule leaves out half the rise: it is for flat arcs."),
            (piece.diameter, "That is the diameter: the radius is half of it."),
            ((chord**2 + rise**2) / (2 * rise), "That rule wants half the chord: with the whole one the radius comes "
             "out nearly four times too large."),
            (piece.centre_beyond, "That is from the chord to the centre: the rise is missing."),
        ),
        "The chord squared and four times the rise squared, over eight times the rise.",
    )


def _triangle(sizes, side):
    return sizes.ask(
        f"Three lines along a V-cradle's guide form a little triangle with sides of {sizes.write(side)}. By how much "
        "does the guide miss the centre?",
        side / (2 * math.sqrt(3)),
        (
            (side / math.sqrt(3), "That is from the middle to a corner: the guide's lines are the sides."),
            (side / 2, "Half a side is not yet the radius of the circle inside."),
            (side * math.sqrt(3) / 2, "That is the triangle's whole height: its middle lies a third of the way up."),
            (side * math.sqrt(3) / 4, "That is half the triangle's height: its middle lies a third of the way up."),
        ),
        "The radius of the circle that touches its three sides: the side over twice the root of three.",
        mm=0.02, inches=0.001,
    )
