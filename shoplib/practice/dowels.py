"""Practice questions on dowels."""

import math

from shoplib.maths.dowels import DowelFit, DowelJoint, RoundStock
from shoplib.measure import quantity
from shoplib.practice.question import Question, pick


def _mm(size):
    return quantity(float(size), "mm")


def questions(student):
    """Six questions, with sizes that follow the student number."""
    across = pick(student, 0, (18, 20, 22, 24, 26, 28, 30))
    rod = RoundStock(
        _mm(across), _mm(pick(student, 1, (300, 350, 420, 460, 480))), pick(student, 2, (2, 3, 4, 5)),
        roundover_radius=_mm(across / 2 - pick(student, 3, (1.5, 1.75, 2.0, 2.5, 3.0))), grip="60 mm", kerf="2 mm",
    ).plain
    dowel = pick(student, 0, (6, 8))
    joint = DowelJoint(
        _mm(pick(student, 0, (36, 38, 40, 42, 44))), "20 mm", "80 mm", _mm(dowel),
        _mm(pick(student, 2, (35, 40, 45, 50))), _mm(pick(student, 3, (10, 11, 12))), "25 mm",
    ).plain
    fit = DowelFit(
        _mm(pick(student, 0, (8, 10, 12))), "h11", made="7 %", now=quantity(pick(student, 1, (11, 12, 13)), "percent"),
    ).plain
    return (
        _out_of_round(rod), _blank(rod), _rail_depth(joint), _level_holes(joint),
        _stagger(joint, pick(student, 4, (2, 2.5, 3))), _swelling(fit),
    )


def _out_of_round(rod):
    across, radius = rod.diameter, rod.cutter_radius
    return Question(
        f"A square of {across:g} mm is rounded on all four corners with a cutter of {radius:g} mm radius. How much "
        "wider is the rod across its corners than across its flats?",
        rod.out_of_round,
        (
            (rod.flat, "That is the flat left on each face: the corners stand out less."),
            (math.sqrt(2) * rod.flat, "That is the small square's diagonal: its side is part of the width already."),
            ((math.sqrt(2) - 1) * across, "That is the square before it was rounded."),
            (rod.out_of_round / 2, "That is on one side only: the jaws touch two corners."),
        ),
        "0.414 times the flat that is left.", tolerance=0.06,
    )


def _blank(rod):
    n = rod.count
    return Question(
        f"{n} rods, each {rod.length:g} mm long, come from one blank. The saw takes {rod.kerf:g} mm, and {rod.grip:g} "
        "mm stay square at each end. How long is the blank?",
        rod.blank_length,
        (
            (rod.blank_length - rod.grip, "Only one grip: both ends stay square."),
            (rod.blank_length - 2 * rod.kerf, "The two cuts that part the rods from the square ends are missing."),
            (rod.blank_length - rod.kerf, "One cut is missing: both ends of every rod are sawn."),
            (n * rod.length + 2 * rod.grip, "The saw cuts are missing."),
        ),
        f"{n} rods, {n + 1} cuts, 2 grips.", tolerance=0.4,
    )


def _rail_depth(joint):
    free = joint.end_clearance
    return Question(
        f"A dowel {joint.dowel_length:g} mm long goes into a hole {joint.leg_depth:g} mm deep in the leg. Both its "
        f"ends are to stay {free:g} mm clear. How deep is the hole in the rail, from the bottom of the cope?",
        joint.rail_depth,
        (
            (joint.rail_depth - 2 * free, "The clearances are missing: the dowel would hold the joint open."),
            (joint.rail_depth - free, "There is a clearance at both ends."),
            (joint.dowel_length / 2 + free, "Half the dowel each would go deeper into the leg than its hole is."),
        ),
        "Dowel and both clearances, less the hole in the leg.",
    )


def _level_holes(joint):
    bottom, radius = joint.bottom, joint.dowel_diameter / 2
    return Question(
        f"Two rails meet a leg {joint.leg_diameter:g} mm across at a right angle. Their {joint.dowel_diameter:g} mm "
        f"holes are level and {joint.leg_depth:g} mm deep, with flat bottoms. How much wood is left between them?",
        joint.crossing_clearance,
        (
            (bottom - radius, "That is along one axis: the rims lie aslant, as far apart along the other axis too."),
            (math.sqrt(2) * bottom, "That is between the middles of the two bottoms: the rims are nearer."),
            (2 * (bottom - radius), "Along both axes, but the way between is the diagonal."),
        ),
        "The diagonal of a square whose side is the leg's radius less the depth and half a dowel.", tolerance=0.1,
    )


def _stagger(joint, wood):
    dowel = joint.dowel_diameter
    return Question(
        f"Now the {dowel:g} mm holes go past the middle of the leg. By how much must the second rail's holes be "
        f"shifted so that {wood:g} mm of wood stays between them?",
        dowel + wood,
        (
            (dowel, "Then they just touch: no wood is left."),
            (dowel / 2 + wood, "Both holes reach half a dowel towards each other."),
            (2 * dowel + wood, "Only half of each hole lies between the two axes."),
        ),
        "One dowel and the wood.", tolerance=0.1,
    )


def _swelling(fit):
    return Question(
        f"A beech dowel of {fit.diameter:g} mm is glued at {100 * fit.made:g} % moisture and comes to "
        f"{100 * fit.now:g} %. Along the growth rings beech moves 0.431 % for each per cent. How much does it swell?",
        fit.swelling,
        (
            (fit.swelling * 10, "A decimal has slipped."),
            (fit.diameter * fit.movement, "That is for one per cent of moisture only."),
            (fit.diameter * fit.movement * 100 * fit.now, "Only the change of moisture counts."),
        ),
        "Diameter times 0.00431 times the change in per cent.", tolerance=0.01,
    )
