"""Both rails' square ends with the holes, as they are marked out: on the plate, and full size on the template."""

from shoplib.drawing.sheet import EndGrain, rectangle
from shoplib.model import given_in_full as given
from shoplib.model import length_in_full

APART = 2.2  # from one rail's middle to the other's, in rail thicknesses


def levels(joint, second=False):
    """Heights of the holes' axes under the rail's upper edge, from the top down; negative."""
    return [-height[int(second)] for height in joint.heights]


def rail_ends(view, joint, unit):
    """Both rails seen from their square ends, side by side, upper edges level."""
    half, low, apart = joint.rail_thickness / 2, -joint.rail_height, APART * joint.rail_thickness
    for x in (0.0, apart):
        rings = EndGrain((x + 2.2 * half, 1.4 * low))
        view.area("rail", rectangle(x - half, low, x + half, 0), grain=rings)
    mark_out(view, joint, unit, apart)
    tell_hole(view, joint, unit, apart, low)


def mark_out(view, joint, unit, apart):
    """The holes of both rails, their heights told from the upper edge."""
    half, radius, height = joint.rail_thickness / 2, joint.dowel_diameter / 2, joint.rail_height
    for x, second, side, name in ((0.0, False, "left", "first"), (apart, True, "right", "second")):
        view.note((x + half * (1 if second else -1), 0), f"{name} rail\nupper edge", side)
        view.line("centre", (x, 0), (x, -1.06 * height))
        for level in levels(joint, second):
            view.circle("hole", (x, level), radius)
            view.cross("centre", (x, level), 1.3 * radius)
            view.note((x, level), broken(length_in_full(-level, unit)), side)


def tell_hole(view, joint, unit, x, y, side="below"):
    """How wide a hole with its middle at x is: told from the level y out to one side."""
    radius = joint.dowel_diameter / 2
    view.dimension((x - radius, y), (x + radius, y), f"Ø {given(joint, 'dowel_diameter', unit)}", side)


def tell_rail(view, joint, unit, y, side):
    """How thick the rail is."""
    half = joint.rail_thickness / 2
    view.dimension((-half, y), (half, y), f"rail {given(joint, 'rail_thickness', unit)}", side)


def broken(text):
    """The decimal inches of a text on a line of their own."""
    return text.replace(" (", "\n(")
