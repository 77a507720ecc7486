"""Practice questions on marking out round legs."""

import math

from shoplib.maths.marking_out import CornerBlock, Cradle, WrapStrip
from shoplib.practice.pictured import Pictured
from shoplib.practice.question import Sizes


def questions(student, unit="mm"):
    """Six questions, with sizes that follow the student number."""
    sizes = Sizes(student, unit)
    leg = sizes.pick(0, mm=(32, 36, 38, 42, 44), inches=(1.25, 1.375, 1.5, 1.625, 1.75))
    strip = WrapStrip(
        leg, sizes.pick(1, mm=(320, 340, 380, 400), inches=(12, 13, 15, 16)),
        sizes.fixed(mm=0.1, inches=0.004), sizes.pick(2, mm=(0.5, 0.6, 0.7, 0.8), inches=(0.02, 0.024, 0.028, 0.032)),
    ).plain
    card = WrapStrip(leg, "360 mm", sizes.pick(2, mm=(0.4, 0.5, 0.6), inches=(0.016, 0.02, 0.024)))
    girth = card.plain.girth + sizes.pick(3, mm=(-1.2, 0.9, 1.5), inches=(-0.05, 0.04, 0.06)).m_as("mm")
    block = CornerBlock(
        leg + sizes.pick(1, mm=(2, 3, 4), inches=(1 / 16, 1 / 8, 3 / 16)), leg,
        sizes.pick(3, mm=(23.5, 24.5), inches=(25 / 32, 31 / 32)),
    ).plain
    cradle = Cradle(leg, "90 deg", None, sizes.pick(1, mm=(3, 3.5, 4), inches=(1 / 8, 9 / 64, 5 / 32))).plain
    return (
        _quarter(sizes, strip), _measured(sizes, card, girth), _miss(sizes, strip), _end(sizes, block),
        _apart(sizes, block), _depth(sizes, cradle),
    )


def pictured():
    """The drawing over the questions on paper."""
    return Pictured(WrapStrip("35 mm", "360 mm", line_drift="0.5 mm"), ("From above", "The leg's end"))


def _quarter(sizes, strip):
    girth, leg, paper = strip.girth, strip.leg_diameter, strip.paper_thickness
    return sizes.ask(
        f"A strip of paper {sizes.write(paper)} thick goes round a leg of {sizes.write(leg)}, its ends just meeting. "
        "How far is it from one quarter mark to the next, laid flat?",
        strip.quarter,
        (
            (girth, "That is once round: a quarter of it lies between two marks."),
            (girth / 2, "That is half way round: you took the radius for the diameter somewhere, or folded once only."),
            (girth / 8, "You took the leg's radius for its diameter."),
            (leg / math.sqrt(2), "That is straight through the leg: the strip goes round its skin."),
        ),
        "Pi times the leg and one paper, over four.", mm=0.1, inches=0.004,
    )


def _measured(sizes, strip, girth):
    paper = strip.plain.paper_thickness
    leg = girth / math.pi - paper
    return sizes.ask(
        f"A strip of card {sizes.write(paper)} thick just meets round another leg; laid flat it is "
        f"{sizes.measured(girth)} long. How thick is the leg?",
        leg,
        (
            (leg + paper, "You forgot the card: its middle runs round a circle one thickness larger than the leg."),
            (leg + 2 * paper, "The card's middle goes round a circle larger than the leg by one thickness: take it "
             "off, do not add it."),
            (leg - paper, "The card counts once: half its thickness on each side."),
            (girth / math.pi / 2, "That is the radius."),
            (girth / 4, "You divided by four instead of pi: that is a quarter of the girth."),
        ),
        "The girth over pi, less one thickness of the card.", mm=0.1, inches=0.004,
    )


def _miss(sizes, strip):
    slip, span = strip.strip_error, strip.leg_spacing
    turn = strip.angle_error
    return sizes.ask(
        f"Back to the first leg. The second rail's mark stands {sizes.write(slip)} off its place round the strip, and "
        f"the leg at the rail's other end is {sizes.write(span)} away, centre to centre. How far beside its centre "
        "does the rail point?",
        strip.rail_miss,
        (
            (slip, "That is at the leg's skin: the rail carries the angle all the way to the far leg."),
            (span * math.tan(turn / 2), "You took the diameter: a mark stands half of it from the leg's centre."),
            (slip * span / strip.girth, "You divided by the girth: a slip is an angle of slip over radius."),
            (span * math.tan(turn) - slip, "The miss counts from the line between the two centres: nothing comes "
             "off."),
        ),
        "The slip over the radius of the strip's middle is the angle; its tangent times the spacing.",
        mm=0.2, inches=0.008,
    )


def _end(sizes, block):
    hole, thick = block.hole_from_corner, block.board_thickness
    return sizes.ask(
        f"A corner block for the first leg is made of boards {sizes.write(thick)} thick. How far from the long board's "
        "end at the corner is its hole?",
        block.hole_from_end,
        (
            (hole, "That is from the inner corner: the long board also covers the short one's end."),
            (2 * hole + thick, "That is the long board's whole width: the hole points at the leg's middle."),
            (2 * hole, "That is the short board's width."),
            (hole + thick / 2, "The short board's end is covered whole, not by half."),
            (hole - thick, "The thickness comes on, not off: the long board reaches out beyond the corner."),
        ),
        "Half the leg, and the short board's thickness.",
    )


def _apart(sizes, block):
    size, leg = block.size, block.leg_diameter
    turn = math.asin((size - leg) / leg)
    return sizes.ask(
        f"The same block is pressed to a thicker leg, of {sizes.write(leg)}. What angle do its two marks stand apart?",
        block.angle_between,
        (
            (math.pi / 2, "Only on the leg that it was made for: on a thicker one both marks move towards the corner."),
            (math.pi / 2 - 2 * turn, "On a thicker leg the marks move towards each other, into the corner."),
            (math.pi / 2 + turn, "Both marks move, one on each board."),
        ),
        "A right angle, less twice the angle whose sine is the difference over the thicker leg.", deg=0.1,
    )


def _depth(sizes, cradle):
    radius, point, seat = cradle.leg_diameter / 2, cradle.point_height, cradle.seat
    return sizes.ask(
        f"The first leg shall lie in a V of 90 deg. The pencil that slides along the block's face draws "
        f"{sizes.write(point)} above it, and its two lines shall be half a turn apart. How deep is the V sawn?",
        cradle.level_depth,
        (
            (seat, "That is for a knife flat on the face: the pencil draws higher, so the leg must lie higher."),
            (seat + point, "The leg has to come up to the pencil: a shallower V."),
            (radius, "A leg does not reach down to the V's bottom: its centre is the root of two times the radius "
             "above it."),
            (radius - point, "A leg does not reach down to the bottom of the V: take its centre's height above it."),
            (2 * seat - point, "You took the diameter for the radius."),
        ),
        "The radius over the sine of half the V's angle, less the pencil's height.", mm=0.1, inches=0.005,
    )
