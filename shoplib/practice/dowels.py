"""Practice questions on dowels."""

import math

from shoplib.maths.dowels import DowelFit, DowelJoint, RoundStock
from shoplib.practice.pictured import Pictured
from shoplib.practice.question import Sizes


def questions(student, unit="mm"):
    """Six questions, with sizes that follow the student number."""
    sizes = Sizes(student, unit)
    across = sizes.pick(0, mm=(18, 20, 22, 24, 26, 28, 30), inches=(13 / 16, 7 / 8, 15 / 16, 1, 1.125, 1.25))
    small = sizes.pick(3, mm=(1.5, 2, 2.5, 3), inches=(1 / 16, 5 / 64, 9 / 64, 5 / 32))
    rod = RoundStock(
        across, sizes.pick(1, mm=(300, 350, 420, 460, 480), inches=(12, 14, 15.5, 16.5, 18)),
        sizes.choose(2, (2, 3, 4, 5)), roundover_radius=across / 2 - small,
        grip=sizes.fixed(mm=60, inches=2.5), kerf=sizes.fixed(mm=2, inches=1 / 8),
    ).plain
    fit = DowelFit(
        sizes.pick(0, mm=(8, 10, 12), inches=(5 / 16, 3 / 8, 1 / 2)), "h11", made="7 %",
        now=sizes.pick(1, percent=(10.5, 12, 13)),
    ).plain
    joint = _joint(sizes)
    return (
        _out_of_round(sizes, rod), _blank(sizes, rod), _rail_depth(sizes, joint), _level_holes(sizes, joint),
        _far_wall(sizes, _deep(sizes)), _swelling(sizes, fit),
    )


def pictured():
    """The drawing over the questions on paper."""
    return Pictured(
        DowelJoint("35 mm", "20 mm", "50 mm", "8 mm", "40 mm", "12 mm", "12 mm"), ("From above", "Cut upright")
    )


def _joint(sizes):
    """Two holes on one level that stop before the leg's centre."""
    return DowelJoint(
        sizes.pick(0, mm=(37, 39, 41, 43), inches=(1.5, 1.625, 1.75, 1.875)),
        sizes.fixed(mm=24, inches=3 / 4), "80 mm", sizes.pick(1, mm=(6, 8), inches=(1 / 4, 5 / 16)),
        sizes.pick(2, mm=(35, 40, 45), inches=(1.5, 1.75, 2)),
        sizes.pick(3, mm=(10, 11, 12), inches=(3 / 8, 7 / 16)), "25 mm",
        end_clearance=sizes.fixed(mm=1.5, inches=1 / 32),
    ).plain


def _deep(sizes):
    """One hole that goes past the leg's centre, its drill with a point."""
    leg = sizes.pick(2, mm=(33, 35, 37, 39, 41), inches=(1.25, 1.375, 1.5, 1.625))
    return DowelJoint(
        leg, sizes.fixed(mm=20, inches=3 / 4), "80 mm", sizes.fixed(mm=8, inches=5 / 16),
        sizes.fixed(mm=60, inches=2.5),
        leg - sizes.pick(3, mm=(9, 11, 12, 13), inches=(3 / 8, 7 / 16, 1 / 2)), "25 mm", dowels=1,
        drill_point=sizes.pick(4, mm=(2.3, 2.7, 3.3), inches=(0.086, 0.102, 0.133)),
    ).plain


def _out_of_round(sizes, rod):
    across = rod.diameter
    return sizes.ask(
        f"A square of {sizes.write(across)} is rounded on all four corners with a cutter of "
        f"{sizes.write(rod.cutter_radius)} radius. How much wider is the rod across its corners than across its flats?",
        rod.out_of_round,
        (
            (rod.flat, "That is the flat left on each face: the corners stand out less."),
            (math.sqrt(2) * rod.flat, "That is the small square's diagonal: its side is part of the width already."),
            ((math.sqrt(2) - 1) * across, "That is the square before it was rounded."),
            (rod.out_of_round / 2, "That is on one side only: the jaws touch two corners. Or you took the cutter's "
             "radius off half the square, and have half the flat."),
            (0, "Across the flats it measures right, but a cutter whose radius is less than half the rod leaves "
             "corners: measure at 45 deg as well."),
        ),
        "0.414 times the flat that is left.", mm=0.03, inches=0.002,
    )


def _blank(sizes, rod):
    n = rod.count
    return sizes.ask(
        f"{n} rods, each {sizes.write(rod.length)} long, come from one blank. The saw takes {sizes.write(rod.kerf)}, "
        f"and {sizes.write(rod.grip)} stay square at each end. How long is the blank?",
        rod.blank_length,
        (
            (rod.blank_length - rod.grip, "Only one grip: both ends stay square."),
            (rod.blank_length - 2 * rod.kerf, "The two cuts that part the rods from the square ends are missing."),
            (rod.blank_length - rod.kerf, "One cut is missing, and the last rod comes out short: there is one more "
             "than there are rods."),
            (n * rod.length + 2 * rod.grip, "The saw cuts are missing."),
        ),
        "The rods, one saw cut more than there are rods, and two grips.", mm=0.4, inches=1 / 64,
    )


def _rail_depth(sizes, joint):
    free, found, cope, drilled = joint.end_clearance, joint.rail_depth, joint.cope_depth, joint.drilled_depth
    return sizes.ask(
        f"A dowel {sizes.write(joint.dowel_length)} long goes into a hole {sizes.write(joint.leg_depth)} deep in the "
        f"leg. Both its ends are to stay {sizes.write(free)} clear. The rail is drilled while its end is still square; "
        f"its cope will be {sizes.measured(cope)} deep. How deep is the hole, from the square end?",
        drilled,
        (
            (found, "That is from the bottom of the cope: drilled so from the square end, the hole is too shallow and "
             "the joint stays open."),
            (found - cope, "The cope takes wood away later: from the square end the hole goes deeper."),
            (drilled - 2 * free, "The clearances are missing: the dowel would hold the joint open."),
            (drilled - free, "There is a clearance at both ends."),
            (joint.dowel_length / 2 + free + cope, "Half the dowel each would go deeper into the leg than its hole "
             "is."),
        ),
        "Dowel and both clearances, less the hole in the leg, and the cope's depth.", mm=0.1, inches=0.01,
    )


def _level_holes(sizes, joint):
    bottom, radius = joint.bottom, joint.dowel_diameter / 2
    return sizes.ask(
        f"Two rails meet a leg {sizes.write(joint.leg_diameter)} across at a right angle. Their "
        f"{sizes.write(joint.dowel_diameter)} holes are level and {sizes.write(joint.leg_depth)} deep, with flat "
        "bottoms. How much wood is left between them?",
        joint.crossing_clearance,
        (
            (bottom - radius, "That is along one axis: the rims lie aslant, as far apart along the other axis too."),
            (math.sqrt(2) * bottom, "That is between the middles of the two bottoms: the rims are nearer."),
            (2 * (bottom - radius), "Along both axes, but the way between is the diagonal."),
            (math.sqrt(2) * (bottom - 2 * radius), "You took off the whole dowel: half of it lies beyond each axis."),
            (math.sqrt(2) * (bottom + joint.leg_diameter / 2 - radius), "You used the leg's diameter: from its skin "
             "to its centre is half of that."),
        ),
        "The diagonal of a square whose side is the leg's radius less the depth and half a dowel.",
        mm=0.1, inches=0.004,
    )


def _far_wall(sizes, joint):
    leg, depth, point = joint.leg_diameter, joint.leg_depth, joint.drill_point
    return sizes.ask(
        f"In another leg, {sizes.write(leg)} across, the hole is {sizes.write(depth)} deep on its axis to its flat "
        f"bottom. The drill's point runs {sizes.write(point)} ahead. How much wood is left behind the point?",
        joint.far_wall,
        (
            (leg - depth, "You forgot the drill's point: that is how a dimple comes on the leg's far side."),
            (leg - depth + point, "The point goes deeper than the flat bottom: take it off."),
            (leg - depth - 2 * point, "The point goes in once only."),
            (depth + point, "That is how deep the point goes: take it off the leg."),
        ),
        "The leg less the hole and the drill's point.", mm=0.1, inches=0.004,
    )


def _swelling(sizes, fit):
    change = 100 * (fit.now - fit.made)
    return sizes.ask(
        f"A beech dowel of {sizes.write(fit.diameter)} is glued at {sizes.write(fit.made, 'percent')} moisture and "
        f"comes to {sizes.write(fit.now, 'percent')}. Along the growth rings beech moves 0.431 % for each per cent. "
        "How much does it swell?",
        fit.swelling,
        (
            (fit.swelling * 100, "You forgot the per cent of the movement: 0.431 % is 0.00431."),
            (fit.swelling * 10, "A decimal has slipped."),
            (fit.diameter * fit.movement, "That is for one per cent of moisture only."),
            (fit.diameter * fit.movement * 100 * fit.now, "You took all the moisture: only its change counts."),
            (fit.swelling / 100, f"You put in {change / 100:g} for {change:g} %: the movement is for each single "
             "per cent."),
        ),
        "Diameter times 0.00431 times the change in per cent.", mm=0.01, inches=0.0005,
    )
