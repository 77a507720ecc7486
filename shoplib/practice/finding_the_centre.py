"""Practice questions on finding the centre."""

import math

from shoplib.maths.finding_the_centre import CentreFinder, ChordRise
from shoplib.maths.rims import centre_and_radius
from shoplib.measure import quantity
from shoplib.practice.question import Question, pick


def questions(student):
    """Six questions, with sizes that follow the student number."""
    leg = CentreFinder(
        quantity(float(pick(student, 0, (32, 35, 38, 40, 45, 50))), "mm"),
        quantity(pick(student, 1, (0.5, 0.6, 0.8, 1.0)), "mm"),
    )
    flat = leg.replace(crossing_angle=quantity(float(pick(student, 2, (30, 36, 40, 48))), "deg"))
    hole = float(pick(student, 3, (10, 11, 12, 16)))
    piece = ChordRise(
        quantity(float(pick(student, 4, range(240, 420, 20))), "mm"),
        quantity(float(pick(student, 1, (30, 36, 44, 50))), "mm"),
    )
    arms = pick(student, 0, ((120.0, 160.0), (150.0, 200.0), (180.0, 240.0), (140.0, 336.0), (210.0, 280.0)))
    return (
        _crossing(leg.plain), _flat_crossing(flat.plain), _wall(leg, hole), _corner(*arms),
        _radius(piece.plain), _triangle(pick(student, 2, (1.2, 1.6, 2.0, 2.4))),
    )


def _crossing(leg):
    error = leg.marking_error
    return Question(
        f"Two lines cross at a right angle on a leg's end. Each may be off by {error:g} mm, square to itself. How far "
        "from the true centre may they cross?",
        leg.centre_error,
        (
            (error, "That is one line's error: the other one is off as well, square to it."),
            (2 * error, "The two errors stand square to each other: put them together by Pythagoras."),
            (error / math.sqrt(2), "The root of two multiplies: the corner lies further out than either line."),
        ),
        "The corner of a square: the root of two times one line's error.", tolerance=0.06,
    )


def _flat_crossing(leg):
    error, angle = leg.marking_error, leg.crossing_angle
    return Question(
        f"The same hand draws two lines that cross at only {math.degrees(angle):g} deg. How far from the true centre "
        "may they cross now?",
        leg.centre_error,
        (
            (error / math.sin(angle), "The far corner lies on the line that halves the angle: take the sine of half."),
            (error / math.cos(angle / 2), "That is the near corner of the rhombus: the far one is the worst."),
            (error * math.sqrt(2), "That is for a right angle: flat crossings are worse."),
        ),
        "The marking error over the sine of half the angle.", tolerance=0.06,
    )


def _wall(leg, hole):
    plain = leg.plain
    return Question(
        f"The leg of question 1 is {plain.diameter:g} mm across. A hole of {hole:g} mm is drilled where they cross. "
        "What is the thinnest wall that may be left?",
        leg.wall_left(quantity(hole, "mm")).m_as("mm"),
        (
            ((plain.diameter - hole) / 2, "That is the wall of a hole in the true centre."),
            ((plain.diameter - hole) / 2 - plain.marking_error, "Take off the crossing's error, not one line's."),
            (plain.diameter - hole - plain.centre_error, "There is a wall on both sides: halve the difference first."),
            ((plain.diameter - hole) / 2 + plain.centre_error, "That is the thickest wall."),
        ),
        "Half of leg less hole, less the error of the centre.", tolerance=0.06,
    )


def _corner(one, other):
    *_, radius = centre_and_radius((0.0, 0.0), (one, 0.0), (0.0, other))
    return Question(
        f"A square's corner is laid on the rim of a round. Its edges cross the rim {one:g} mm and {other:g} mm from "
        "the corner. How large is the round across?",
        2 * radius,
        (
            (radius, "That is the radius: the line between the two marks is a whole diameter."),
            (one + other, "The two edges stand square to each other: put them together by Pythagoras."),
            (max(one, other), "The longer edge alone is only a chord."),
        ),
        "The two marks are the ends of a diameter, and the edges its right-angled triangle.",
    )


def _radius(piece):
    chord, rise = piece.chord, piece.rise
    return Question(
        f"A piece of a rim has a chord of {chord:g} mm and rises {rise:g} mm in its middle. What radius has it?",
        piece.radius,
        (
            (piece.short_rule, "The short rule leaves out half the rise: it is for flat arcs."),
            (piece.diameter, "That is the diameter."),
            ((chord**2 + rise**2) / (2 * rise), "That rule wants half the chord."),
            (piece.centre_beyond, "That is from the chord to the centre: the rise is missing."),
        ),
        "The chord squared and four times the rise squared, over eight times the rise.", tolerance=0.5,
    )


def _triangle(side):
    return Question(
        f"Three lines along a V-cradle's guide form a little triangle with sides of {side:g} mm. By how much does "
        "the guide miss the centre?",
        side / (2 * math.sqrt(3)),
        (
            (side / math.sqrt(3), "That is from the middle to a corner: the guide's lines are the sides."),
            (side / 2, "Half a side is not yet the radius of the circle inside."),
            (side * math.sqrt(3) / 2, "That is the triangle's whole height: its middle lies a third of the way up."),
        ),
        "The radius of the circle that touches its three sides: the side over twice the root of three.", tolerance=0.06,
    )
