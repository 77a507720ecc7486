"""What of a dowel joint cannot be made, and what should worry you."""

from shoplib.maths.functions import least
from shoplib.model import Caution, ShapeError

THIN = 1 / 4  # of the dowel's diameter: wood thinner than this between or behind holes is worth a caution
RULE = "a rule of thumb of this lesson"


def check(joint):
    """Raise ShapeError where the sizes of a joint together cannot be made."""
    _check_rail(joint)
    _check_leg(joint)
    _check_dowel(joint)
    _check_heights(joint)


def _check_rail(joint):
    if joint.rail_thickness > joint.leg_diameter:
        raise ShapeError(
            "A rail {} thick cannot be coped round a leg {} across. Take a thinner rail or a thicker leg.",
            joint.rail_thickness, joint.leg_diameter, input="rail_thickness",
        )
    if joint.dowel_diameter >= joint.rail_thickness:
        raise ShapeError(
            "A hole of {} leaves nothing of a rail {} thick: it must be smaller. Take a thinner dowel.",
            joint.dowel_diameter, joint.rail_thickness, input="dowel_diameter",
        )


def _check_leg(joint):
    if joint.far_wall <= 0 or joint.corner_wall <= 0:
        raise ShapeError(
            "A hole {} deep and {} wide, its point {} ahead, comes out behind a leg {} across. Drill less deep.",
            joint.leg_depth, joint.dowel_diameter, joint.drill_point, joint.leg_diameter, input="leg_depth",
        )


def _check_dowel(joint):
    if joint.leg_depth <= joint.end_clearance:
        raise ShapeError(
            "A hole {} deep with {} left at its end takes no dowel. Drill deeper or leave less.",
            joint.leg_depth, joint.end_clearance, input="leg_depth",
        )
    if joint.rail_depth <= joint.end_clearance:
        raise ShapeError(
            "A dowel {} long vanishes in a hole {} deep: nothing of it stands in the rail. Drill the leg less "
            "than {} deep or take a longer dowel.",
            joint.dowel_length, joint.leg_depth, joint.dowel_length + joint.end_clearance, input="leg_depth",
        )


def _check_heights(joint):
    radius = joint.dowel_diameter / 2
    if joint.edge <= radius:
        raise ShapeError(
            "A hole of {} breaks out of the rail's edge when its centre is {} from it: it must be more than {}. "
            "Move it in.", joint.dowel_diameter, joint.edge, radius, input="edge",
        )
    if joint.dowels > 1 and joint.spacing <= joint.dowel_diameter:
        raise ShapeError(
            f"With {{}} at both edges, {joint.dowels} holes of {{}} run into each other in a rail {{}} high. Move "
            "them out, or take fewer or thinner dowels.",
            joint.edge, joint.dowel_diameter, joint.rail_height, input="edge",
        )
    if joint.dowels == 1 and joint.rail_height - joint.edge <= radius:
        raise ShapeError(
            "A hole {} from one edge breaks out of the other one of a rail {} high. Move it in.",
            joint.edge, joint.rail_height, input="edge",
        )
    if joint.shifted_edge <= radius:
        raise ShapeError(
            "Shifted by {}, the second rail's holes break out of its edge: there is room for {}. Take less "
            "stagger or move the holes in from the edges.",
            joint.stagger, joint.shifted_edge + joint.stagger - radius, input="stagger",
        )


def worries(joint):
    """Yield the Cautions of a joint that can be made."""
    if joint.rail_thickness**2 > joint.leg_diameter**2 / 2 * (1 + 1e-9):
        yield Caution(
            "Two rails {} thick collide at their tips beside a leg {} across: take thinner rails or a thicker leg.",
            joint.rail_thickness, joint.leg_diameter, input="rail_thickness", source="geometry",
        )
    share = joint.dowel_diameter / joint.rail_thickness
    if share > 0.5 * (1 + 1e-9) or share < (1 - 1e-9) / 3:
        yield Caution(
            "A dowel of {} in a rail {} thick: it should be from {} to {}, a third to half of the rail.",
            joint.dowel_diameter, joint.rail_thickness, joint.rail_thickness / 3, joint.rail_thickness / 2,
            input="dowel_diameter",
        )
    yield from wood_worries(joint)
    yield from _hold_worries(joint)


def wood_worries(joint):
    """Too little wood between or behind the holes, or beside them."""
    thin = THIN * joint.dowel_diameter
    if joint.crossing_clearance == 0:
        yield Caution(
            "The holes of the two rails break into each other in the leg: drill less deep, stagger them or take "
            "thinner dowels.", input="leg_depth",
        )
    elif joint.crossing_clearance < thin:
        yield Caution(
            "Only {} of wood stays between the two rails' holes: leave {} or more.",
            joint.crossing_clearance, thin, input="leg_depth", source=RULE,
        )
    wall = least(joint.far_wall, joint.corner_wall)
    if wall < thin:
        yield Caution(
            "Only {} of the leg stays behind the hole: leave {} or more, or the drill's point will show.",
            wall, thin, input="leg_depth", source=RULE,
        )
    edge, name = min((joint.edge, "edge"), (joint.shifted_edge, "stagger"))
    if edge < joint.dowel_diameter:
        yield Caution(
            "A hole's centre lies only {} from the rail's edge: leave a dowel's diameter, {}, or the edge may "
            "split.",
            edge, joint.dowel_diameter, input=name, source=RULE,
        )


def _hold_worries(joint):
    """Too little of the dowel in leg or rail, or no room for glue."""
    for depth, where in ((joint.leg_depth, "leg"), (joint.rail_depth, "rail")):
        if depth - joint.end_clearance < joint.dowel_diameter:
            yield Caution(
                f"Only {{}} of the dowel holds in the {where}, less than it is thick ({{}}).",
                depth - joint.end_clearance, joint.dowel_diameter, input="leg_depth", source=RULE,
            )
    if joint.end_clearance < 1.0:
        yield Caution(
            "With {} left beyond the dowel the trapped glue may hold the joint open or split the leg: leave {} "
            "at each end.",
            joint.end_clearance, 1.5, input="end_clearance",
        )
