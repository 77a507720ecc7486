"""Practice questions on coped rails, rectangular and round."""

import math

from shoplib.maths.coping import Cope, RoundCope
from shoplib.practice.pictured import Pictured
from shoplib.practice.question import Sizes


def questions(student, unit="mm"):
    """Six questions, with sizes that follow the student number."""
    sizes = Sizes(student, unit)
    leg = sizes.pick(0, mm=(40, 41, 42, 44, 45), inches=(1.5, 1.75, 1.5625, 1.6875, 1.625))
    rail = sizes.pick(1, mm=(18, 20, 22), inches=(11 / 16, 3 / 4, 13 / 16))
    rails = leg, rail, sizes.pick(2, mm=range(320, 480, 20), inches=(12, 12.5, 13.5, 14, 15, 16, 16.5, 18))
    level = Cope(*rails).plain
    drum = leg + sizes.pick(4, mm=(5, 6, 8), inches=(3 / 16, 1 / 4, 5 / 16))
    larger = Cope(*rails, drum_diameter=drum).plain
    leaning = Cope(
        *rails, rake=sizes.pick(3, deg=(10, 12, 14, 15)), rail_height=sizes.pick(2, mm=(85, 105), inches=(3.25, 3.875))
    ).plain
    beside = Cope(*rails, offset=sizes.pick(3, mm=(3.5, 4), inches=(1 / 8, 9 / 64))).plain
    strut = RoundCope(leg, rail, sizes.pick(4, deg=(50, 60, 70))).plain
    return (
        _depth(sizes, level), _length(sizes, level), _beside(sizes, beside), _bottom(sizes, leaning),
        _gap(sizes, larger), _tip(sizes, strut),
    )


def pictured():
    """The drawing over the questions on paper."""
    return Pictured(Cope("35 mm", "20 mm", "360 mm", rail_height="50 mm"), ("The rail from above", "One corner"))


def _depth(sizes, cope):
    radius, half = cope.leg_diameter / 2, cope.rail_thickness / 2
    return sizes.ask(
        f"A rail {sizes.write(cope.rail_thickness)} thick meets a round leg {sizes.write(cope.leg_diameter)} across, "
        "in the middle. How deep is the hollow, from the tips?",
        cope.depth,
        (
            (radius - half, "You took half the rail off the radius: it is the triangle's third side that comes off."),
            (math.sqrt(radius**2 - half**2), "That is how far the tips stand from the leg's centre: take it off "
             "the radius."),
            (2 * radius - math.sqrt(4 * radius**2 - 4 * half**2), "You used the diameters: halve both first."),
            (radius - math.sqrt(max(0.0, radius**2 - 4 * half**2)), "You used the rail's whole thickness: half of "
             "it lies on each side."),
        ),
        "The leg's radius, less the root of its square less the square of half the rail.", mm=0.1, inches=0.003,
    )


def _length(sizes, cope):
    reach, spacing = cope.tip_reach, cope.leg_spacing
    return sizes.ask(
        f"Two such legs stand {sizes.write(spacing)} apart, centre to centre. How long is the rail sawn, tip to tip?",
        cope.rail_length,
        (
            (spacing - cope.leg_diameter, "That is hollow to hollow: the tips reach round the legs, and the rail is "
             "short by two depths."),
            (spacing - reach, "That takes one leg into account: there is one at each end."),
            (spacing, "That is centre to centre: the rail ends at the legs' skin."),
            (spacing - cope.leg_diameter + cope.depth, "The tips reach past the hollow at both ends: add the depth "
             "twice."),
            (spacing - 2 * cope.leg_diameter + 2 * cope.depth, "You took off the diameter at each end: half of it "
             "lies between a leg's centre and its skin."),
        ),
        "The spacing, less twice the way from a leg's centre to the tips.",
    )


def _beside(sizes, cope):
    radius, half, beside = cope.leg_diameter / 2, cope.rail_thickness / 2, cope.offset
    near = math.sqrt(radius**2 - (half - beside) ** 2)
    return sizes.ask(
        f"Now the rail is set {sizes.write(beside)} off the legs' centre line. How deep is the hollow from "
        "its longest tip?",
        cope.depth,
        (
            (radius - math.sqrt(radius**2 - half**2), "You forgot the offset: one edge now lies further out, where "
             "the leg falls away faster, and one tip is longer than the other."),
            (radius - near, "That is from the shorter tip: take the edge that lies further out."),
            (near - cope.tip_reach, "That is from tip to tip: the deepest point lies on the legs' centre line, "
            "within the rail."),
            (radius - math.sqrt(radius**2 - (half + beside / 2) ** 2), "You took half the offset: the rail moves by "
             "all of it."),
        ),
        "The radius, less the root of its square less the square of offset and half the rail together.",
        mm=0.1, inches=0.003,
    )


def _bottom(sizes, cope):
    height, rake = cope.rail_height, cope.rake
    circle = cope.leg_spacing - 2 * cope.tip_reach * math.cos(rake)
    return sizes.ask(
        f"Back in the middle, but the legs spread downward, each {sizes.write(rake, 'angle')} off upright in the "
        f"rail's plane. They are {sizes.write(cope.leg_spacing)} apart at the top of the rail, which is "
        f"{sizes.write(height)} high. How long is the rail at its bottom, tip to tip?",
        cope.rail_length_bottom,
        (
            (cope.rail_length, "That is the rail's top: further down the legs stand wider."),
            (cope.rail_length + height * math.tan(rake), "Both legs lean: the rail grows at both ends."),
            (cope.rail_length - 2 * height * math.tan(rake), "The legs spread downward, so the bottom is the longer "
             "one."),
            (circle + 2 * height * math.tan(rake), "A level cut through a leaning leg is an ellipse: its reach along "
             "the rail is longer by one over the cosine of the rake."),
            (cope.rail_length + 2 * height * math.sin(rake), "You took the sine: the rail's height stands upright, so "
             "it is the tangent."),
        ),
        "The top length, and at each end the height times the tangent of the rake.", mm=0.2, inches=0.01,
    )


def _gap(sizes, cope):
    return sizes.ask(
        f"The legs are upright again, but the only drum is {sizes.write(cope.drum_diameter)} across. The rail's end is "
        "sanded on it and pushed up to the leg. How wide is the gap at the tips, measured along the rail?",
        cope.drum_gap,
        (
            (cope.drum_depth, "That is how deep the drum's hollow is: compare it with the leg's."),
            (cope.depth, "That is how deep the hollow should be: compare it with the drum's."),
            ((cope.drum_diameter - cope.leg_diameter) / 2, "That is the difference of the radii: the gap is the "
             "difference of the depths."),
            (cope.drum_diameter - cope.leg_diameter, "That is the difference of the diameters: the gap is the "
             "difference of the depths."),
            (0, "A drum larger than the leg makes a flatter hollow: daylight stays at the tips."),
        ),
        "The leg's cope depth less the drum's.", mm=0.05, inches=0.002,
    )


def _tip(sizes, cope):
    radius, rail, turn = cope.leg_diameter / 2, cope.rail_diameter / 2, cope.angle
    sine, cosine = math.sin(turn), math.cos(turn)
    return sizes.ask(
        f"A round rail {sizes.write(cope.rail_diameter)} across meets the same leg in the middle at "
        f"{sizes.write(turn, 'angle')}. How far along the rail is it from the leg's centre to the saddle's deepest "
        "point?",
        cope.root_reach,
        (
            (radius, "That is the leg's radius: a leaning rail runs aslant to it, and its lower side ends sooner "
             "still."),
            (radius / sine, "That is on the rail's centre line: its lower side ends sooner."),
            ((radius - rail * cosine) / sine, "That is the upper side of the rail: the deepest point is on the "
             "other."),
            (math.sqrt(radius**2 - rail**2), "That is to the tips beside the leg."),
            ((radius + rail * cosine) / math.tan(turn), "You divided by the tangent: the way along the rail is the "
             "long side of the triangle, so it is the sine."),
            ((radius + rail * sine) / cosine, "You changed over sine and cosine: at a right angle the leg's radius "
             "alone must be left."),
            ((radius + 2 * rail * cosine) / sine, "You used the rail's diameter: half of it lies below its centre "
             "line."),
        ),
        "The leg's radius and the rail's radius times the cosine of the angle, over its sine.", mm=0.2, inches=0.01,
    )
