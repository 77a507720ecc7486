"""Practice questions on coped rails, rectangular and round."""

import math

from shoplib.maths.coping import Cope, RoundCope
from shoplib.measure import quantity
from shoplib.practice.question import Question, pick


def questions(student):
    """Six questions, with sizes that follow the student number."""
    leg = float(pick(student, 0, (40, 42, 44, 46, 48)))
    rail = float(pick(student, 1, (20, 22, 24, 26)))
    spacing = float(pick(student, 2, range(320, 480, 20)))
    sizes = [quantity(size, "mm") for size in (leg, rail, spacing)]
    level = Cope(*sizes).plain
    drum = leg + float(pick(student, 4, (5, 6, 8)))
    larger = Cope(*sizes, drum_diameter=quantity(drum, "mm")).plain
    leaning = Cope(*sizes, rake=quantity(pick(student, 3, (4, 5, 6, 8)), "deg"), rail_height="60 mm").plain
    beside = Cope(*sizes, offset=quantity(float(pick(student, 3, (3, 4, 5))), "mm")).plain
    strut = RoundCope(sizes[0], sizes[1], quantity(float(pick(student, 4, (50, 60, 70))), "deg")).plain
    return _depth(level), _length(level), _beside(beside), _bottom(leaning), _gap(larger), _tip(strut)


def _depth(cope):
    radius, half = cope.leg_diameter / 2, cope.rail_thickness / 2
    return Question(
        f"A rail {cope.rail_thickness:g} mm thick meets a round leg {cope.leg_diameter:g} mm across, in the "
        "middle. How deep is the hollow, from the tips?",
        cope.depth,
        (
            (radius - half, "You took half the rail off the radius: it is the triangle's third side that comes off."),
            (math.sqrt(radius**2 - half**2), "That is how far the tips stand from the leg's centre: take it off "
            "the radius."),
            (2 * radius - math.sqrt(4 * radius**2 - 4 * half**2), "You used the diameters: halve both first."),
            (radius - math.sqrt(max(0.0, radius**2 - 4 * half**2)), "You used the rail's whole thickness: half of "
            "it lies on each side."),
        ),
        "The leg's radius, less the root of its square less the square of half the rail.", tolerance=0.2,
    )


def _length(cope):
    reach = cope.tip_reach
    return Question(
        f"Two such legs stand {cope.leg_spacing:g} mm apart, centre to centre. How long is the rail sawn, tip to tip?",
        cope.rail_length,
        (
            (cope.leg_spacing - cope.leg_diameter, "That is hollow to hollow: the tips reach round the legs."),
            (cope.leg_spacing - reach, "That takes one leg into account: there is one at each end."),
            (cope.leg_spacing, "That is centre to centre: the rail ends at the legs' skin."),
            (cope.leg_spacing - cope.leg_diameter + cope.depth, "The tips reach past the hollow at both ends: add "
            "the depth twice."),
        ),
        "The spacing, less twice the way from a leg's centre to the tips.",
    )


def _beside(cope):
    radius = cope.leg_diameter / 2
    centred = radius - math.sqrt(radius**2 - (cope.rail_thickness / 2) ** 2)
    near = math.sqrt(radius**2 - (cope.rail_thickness / 2 - cope.offset) ** 2)
    return Question(
        f"Now the rail is set {cope.offset:g} mm off the legs' centre line. How deep is the hollow from "
        "its longest tip?",
        cope.depth,
        (
            (centred, "That is the rail in the middle: one edge now lies further out, where the leg falls away "
             "faster."),
            (radius - near, "That is from the shorter tip: take the edge that lies further out."),
            (near - cope.tip_reach, "That is from tip to tip: the deepest point lies on the legs' centre line, "
            "within the rail."),
        ),
        "The radius, less the root of its square less the square of offset and half the rail together.", tolerance=0.2,
    )


def _bottom(cope):
    lean = cope.rail_height * math.tan(cope.rake)
    return Question(
        f"Back in the middle, but the legs spread downward, each {math.degrees(cope.rake):g} deg off upright in "
        f"the rail's plane. They are {cope.leg_spacing:g} mm apart at the top of the rail, which is "
        f"{cope.rail_height:g} mm high. How long is the rail at its bottom, tip to tip?",
        cope.rail_length_bottom,
        (
            (cope.rail_length, "That is the rail's top: further down the legs stand wider."),
            (cope.rail_length + lean, "Both legs lean: the rail grows at both ends."),
            (cope.rail_length - 2 * lean, "The legs spread downward, so the bottom is the longer one."),
        ),
        "The top length, and at each end the height times the tangent of the rake.", tolerance=0.4,
    )


def _gap(cope):
    return Question(
        f"The legs are upright again, but the only drum is {cope.drum_diameter:g} mm across. The rail's end is "
        "sanded on it and pushed up to the leg. How wide is the gap at the tips, measured along the rail?",
        cope.drum_gap,
        (
            (cope.drum_depth, "That is how deep the drum's hollow is: compare it with the leg's."),
            (cope.depth, "That is how deep the hollow should be: compare it with the drum's."),
            ((cope.drum_diameter - cope.leg_diameter) / 2, "That is the difference of the radii: the gap is the "
            "difference of the depths."),
        ),
        "The leg's cope depth less the drum's.", tolerance=0.1,
    )


def _tip(cope):
    radius, rail, turn = cope.leg_diameter / 2, cope.rail_diameter / 2, cope.angle
    square = math.sqrt(radius**2 - rail**2)
    return Question(
        f"A round rail {cope.rail_diameter:g} mm across meets the same leg in the middle at "
        f"{math.degrees(turn):g} deg. How far along the rail is it from the leg's centre to "
        "the saddle's deepest point?",
        cope.root_reach,
        (
            (radius, "That is the leg's radius: a leaning rail runs aslant to it, and its lower side ends sooner "
             "still."),
            (radius / math.sin(turn), "That is on the rail's centre line: its lower side ends sooner."),
            ((radius - rail * math.cos(turn)) / math.sin(turn), "That is the upper side of the rail: the deepest "
            "point is on the other."),
            (square, "That is to the tips beside the leg."),
        ),
        "The leg's radius and the rail's radius times the cosine of the angle, over its sine.", tolerance=0.2,
    )
