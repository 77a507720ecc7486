"""Practice questions on legs for casters and on rolling."""

import math

from shoplib.maths.casters import CasterLeg, Rolling
from shoplib.measure import quantity
from shoplib.practice.question import Question, pick


def _mm(size):
    return quantity(float(size), "mm")


def questions(student):
    """Five questions, with sizes that follow the student number."""
    leg = CasterLeg(
        _mm(pick(student, 0, (32, 35, 38, 40))),
        _mm(pick(student, 1, (10, 11, 12))),
        _mm(pick(student, 2, (22, 25, 30, 35))),
        _mm(pick(student, 0, (45, 50, 58, 65, 75))),
        _mm(pick(student, 1, (320, 340, 360, 380))),
        _mm(720),
        bottom_clearance=_mm(pick(student, 3, (2, 3))),
        centre_error=_mm(pick(student, 2, (0.5, 1.0, 1.5))),
    ).plain
    stand = Rolling(
        quantity(float(pick(student, 0, (20, 24, 28, 30, 36))), "kg"),
        _mm(pick(student, 2, (380, 420, 450, 500))),
        _mm(pick(student, 1, (140, 150, 160, 170))),
        _mm(360),
        _mm(360),
        _mm(pick(student, 3, (420, 430, 450))),
        trail=_mm(pick(student, 2, (15, 18, 20))),
    ).plain
    return _wall(leg), _shortened(leg), _uncut(leg), _lift(stand), _tips(stand)


def _wall(leg):
    beside = (leg.leg_diameter - leg.hole_diameter) / 2
    return Question(
        f"A leg of {leg.leg_diameter:g} mm gets a hole of {leg.hole_diameter:g} mm. The centre may be "
        f"{leg.centre_error:g} mm "
        "off. How thin can the wall be?",
        leg.wall,
        (
            (beside, "That is the wall with the hole in the very middle: the centring error comes off the thin side."),
            (
                leg.leg_diameter - leg.hole_diameter - leg.centre_error,
                "That is both walls together: the hole sits between them.",
            ),
            (beside + leg.centre_error, "That is the thick side."),
            (beside - leg.centre_error / 2, "The whole error comes off one wall: the hole moves, it does not grow."),
        ),
        "Half of leg less hole, less the error.",
        tolerance=0.1,
    )


def _shortened(leg):
    return Question(
        f"The plain legs are {leg.leg_length:g} mm long, the casters {leg.caster_height:g} mm high with a stem "
        f"of {leg.stem_length:g} mm. "
        "How long is a leg that carries a caster?",
        leg.shortened_leg,
        (
            (leg.leg_length, "Then the top slopes: the caster lifts its end."),
            (leg.leg_length + leg.caster_height, "You lengthened it: the caster already adds its height."),
            (
                leg.leg_length - leg.caster_height - leg.stem_length,
                "The stem goes up into the leg: it takes nothing off its length.",
            ),
            (leg.leg_length - leg.stem_length, "It is the height under the leg that counts, not the stem in it."),
        ),
        "The plain leg less the caster's height.",
    )


def _uncut(leg):
    slope = leg.tilt_if_uncut
    return Question(
        f"Nobody shortened anything: casters of {leg.caster_height:g} mm under two legs, {leg.wheelbase:g} mm "
        "from the plain "
        "ones. How far does the top slope?",
        slope,
        (
            (
                math.atan(leg.wheelbase / leg.caster_height),
                "That is the angle from upright: height over base, not base over height.",
            ),
            (
                math.atan(leg.caster_height / leg.leg_length),
                "The legs' length has nothing to do with it: it is the wheelbase.",
            ),
            (slope / 2, "The whole height is gained over the wheelbase once."),
        ),
        "The height over the wheelbase is its tangent.",
        kind="angle",
        tolerance=math.radians(0.1),
    )


def _lift(stand):
    return Question(
        f"The stand weighs {stand.weight:g} kg, its centre of gravity {stand.cg_from_casters:g} mm from the "
        "casters' line; the hand "
        f"is {stand.handle_reach:g} mm from that line. How much does the hand lift?",
        stand.lift,
        (
            (
                stand.weight * stand.cg_from_casters / stand.wheelbase,
                "That is what the plain legs carry: the hand reaches further out.",
            ),
            (stand.weight - stand.lift, "That is what the casters keep."),
            (stand.weight / 2, "Only if the centre of gravity lay half way to the hand."),
            (stand.weight, "The casters carry their share."),
        ),
        "Weight times its distance from the casters, over the hand's.",
        kind="mass",
        tolerance=0.1,
    )


def _tips(stand):
    arm, high = stand.cg_from_casters, stand.cg_height
    return Question(
        f"The same stand: its centre of gravity is {high:g} mm high, {arm:g} mm from the casters' line, and the "
        "wheels trail by "
        f"{stand.trail:g} mm. On what slope does it tip over the casters?",
        stand.tip_over_casters,
        (
            (math.atan(arm / high), "The wheels can swing inward: the trail comes off."),
            (math.atan((arm + stand.trail) / high), "You let the wheels swing outward: take them at their worst."),
            (
                math.pi / 2 - stand.tip_over_casters,
                "That is the angle at the other corner: the level distance over the height.",
            ),
        ),
        "The level distance less the trail, over the height, is its tangent.",
        kind="angle",
        tolerance=math.radians(0.1),
    )
