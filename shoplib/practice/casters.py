"""Practice questions on legs for casters and on rolling."""

import math

from shoplib.maths.casters import CasterLeg, Rolling
from shoplib.practice.pictured import Pictured
from shoplib.practice.question import Sizes


def questions(student, unit="mm"):
    """Six questions, with sizes that follow the student number."""
    sizes = Sizes(student, unit)
    leg = CasterLeg(
        sizes.pick(0, mm=(32, 35, 38, 40), inches=(1.25, 1.375, 1.5, 1.75)),
        sizes.pick(1, mm=(10, 11, 12), inches=(3 / 8, 7 / 16, 1 / 2)),
        sizes.pick(2, mm=(23, 26, 30, 36), inches=(7 / 8, 1, 1.25, 1.5)),
        sizes.pick(0, mm=(45, 50, 58, 65, 75), inches=(1.75, 2, 2.25, 2.5, 3)),
        sizes.fixed(mm=360, inches=14),
        sizes.pick(2, mm=(680, 700, 720, 750), inches=(27, 28, 28.5, 29.5)),
        bottom_clearance=sizes.pick(3, mm=(2, 3), inches=(1 / 16, 1 / 8)),
        centre_error=sizes.pick(2, mm=(0.7, 0.9, 1.4), inches=(1 / 64, 1 / 32, 1 / 16)),
    ).plain
    standing = (
        sizes.pick(0, kg=(20, 24, 28, 30, 36), pounds=(44, 50, 55, 60, 66)),
        sizes.pick(2, mm=(390, 420, 450, 500), inches=(15, 16.5, 18, 20)),
        sizes.pick(1, mm=(140, 150, 160, 170), inches=(5.5, 6, 6.5, 7)), "360 mm", "360 mm",
        sizes.pick(3, mm=(410, 430, 455), inches=(16, 17, 18.5)),
    )
    stand = Rolling(*standing, trail=sizes.pick(2, mm=(15, 18, 20), inches=(5 / 8, 3 / 4, 7 / 8))).plain
    four = Rolling(*standing, casters=4).plain
    return (
        _wall(sizes, leg), _depth(sizes, leg), _shortened(sizes, leg), _lift(sizes, stand), _tips(sizes, stand),
        _hangs_clear(sizes, four),
    )


def pictured():
    """The drawing over the questions on paper."""
    return Pictured(CasterLeg("35 mm", "11 mm", "22 mm", "50 mm", "360 mm", "720 mm"), ("The foot", "From the side"))


def _wall(sizes, leg):
    beside, error = (leg.leg_diameter - leg.hole_diameter) / 2, leg.centre_error
    return sizes.ask(
        f"A leg of {sizes.write(leg.leg_diameter)} gets a hole of {sizes.write(leg.hole_diameter)}. The centre may be "
        f"{sizes.write(error)} off. How thin can the wall be?",
        leg.wall,
        (
            (beside, "That is the wall with the hole in the very middle: the centring error comes off the thin side, "
             "and there the leg splits."),
            (2 * beside - error, "That is both walls together: the hole sits between them."),
            (beside + error, "That is the thick side."),
            (beside - error / 2, "The whole error comes off one wall: the hole moves, it does not grow."),
        ),
        "Half of leg less hole, less the error.", mm=0.05, inches=0.003,
    )


def _depth(sizes, leg):
    stem, free = leg.stem_length, leg.bottom_clearance
    return sizes.ask(
        f"The caster's stem is {sizes.write(stem)} long and must stay {sizes.write(free)} clear of the hole's bottom. "
        "How deep is the hole bored?",
        leg.hole_depth,
        (
            (stem, "Bored no deeper than the stem, the stem stands on the hole's bottom, the collar clear of the leg, "
             "and it wobbles."),
            (stem - free, "The clearance makes the hole deeper, not shallower."),
            (stem + 2 * free, "Only the bottom end of the hole needs clearance: at the other one sits the collar."),
        ),
        "The stem and the clearance below it.", mm=0.2, inches=1 / 64,
    )


def _shortened(sizes, leg):
    high, long, stem = leg.caster_height, leg.leg_length, leg.stem_length
    return sizes.ask(
        f"The plain legs are {sizes.write(long)} long, the casters {sizes.write(high)} high with a stem of "
        f"{sizes.write(stem)}. How long is a leg that carries a caster?",
        leg.shortened_leg,
        (
            (long, "Then the top slopes: the caster lifts its end by all its height, or by nearly twice that where the "
             "plain legs were shortened instead."),
            (long + high, "You lengthened it: the caster already adds its height."),
            (long - high - stem, "The stem goes up into the leg: it takes nothing off its length."),
            (long - stem, "It is the height under the leg that counts, not the stem in it."),
            (long - high + stem, "The stem goes up into the leg: it adds nothing to its length."),
            (long - high / 2, "The caster's whole height stands under that leg: take all of it off."),
        ),
        "The plain leg less the caster's height.",
    )


def _lift(sizes, stand):
    weight, arm, reach = stand.weight, stand.cg_from_casters, stand.handle_reach
    return sizes.ask(
        f"The stand weighs {sizes.write(weight, 'mass')}, its centre of gravity lies {sizes.write(arm)} from the "
        f"casters' line; the hand is {sizes.write(reach)} from that line. How much does the hand lift?",
        stand.lift,
        (
            (weight * arm / (reach - arm), "You took the hand's way from the centre of gravity: the stand turns about "
             "the casters, so measure both from there."),
            (weight - stand.lift, "That is what the casters keep."),
            (weight / 2, "Only if the centre of gravity lay half way to the hand."),
            (weight, "The casters carry their share."),
            (stand.lift / 2, "That is half of it: one hand takes the whole lift, only the casters are two."),
        ),
        "Weight times its distance from the casters, over the hand's.", kg=0.1, pounds=0.2,
    )


def _tips(sizes, stand):
    arm, high, trail = stand.cg_from_casters, stand.cg_height, stand.trail
    return sizes.ask(
        f"The same stand: its centre of gravity is {sizes.write(high)} high, {sizes.write(arm)} from the casters' "
        f"line, and the wheels trail by {sizes.write(trail)}. On what slope does it tip over the casters?",
        stand.tip_over_casters,
        (
            (math.atan(arm / high), "The wheels can swing inward: the trail comes off."),
            (math.atan((arm + trail) / high), "You let the wheels swing outward: take them at their worst."),
            (math.pi / 2 - stand.tip_over_casters, "That is the angle at the other corner: the level distance over "
             "the height."),
            (math.asin((arm - trail) / high), "You took the sine: distance and height stand square to each other, so "
             "it is the tangent."),
            (math.atan((arm - trail) / 2 / high), "The level distance counts whole: it is no diameter."),
        ),
        "The level distance less the trail, over the height, is its tangent.", deg=0.05,
    )


def _hangs_clear(sizes, stand):
    weight = stand.weight
    return sizes.ask(
        "The same stand on four casters, its weight on the centre line. The floor is uneven, and one of the four hangs "
        "clear. What must each of them be able to carry?",
        stand.worst_load,
        (
            (weight / 3, "That is the rule of three: but where one hangs clear, two that stand across from each other "
             "can come to carry all."),
            (weight / 4, "Four share alike only on a floor that is flat."),
            (weight, "No caster carries more than its own side does, and that is not all of it."),
        ),
        "Half of the weight: what both casters of one side carry together.", kg=0.1, pounds=0.2,
    )
