"""The stand from the side: casters at the left, the bar at the right."""

from shoplib.drawing.parts import found, given
from shoplib.drawing.sheet import Circle, EndGrain
from shoplib.drawing.the_stand.shapes import floor, leg, marks, rail, rod, tray


def draw_side(view, stand, unit):
    """Trays, legs, rails and bar, the line of the casters at x = 0, the floor at y = 0."""
    far, middle, half = stand.leg_spacing, stand.leg_spacing / 2, stand.overall_width / 2
    left, right = middle - half, middle - half + stand.overall_length
    floor(view, left - 0.06 * half, right + 0.06 * half)
    for top in stand.rail_tops:
        tray(view, stand, middle, top)
    for x, on_caster in ((0.0, True), (far, stand.casters > 2)):
        leg(view, stand, x, on_caster)
    for top in stand.rail_tops:
        rail(view, stand, middle, top)
    if stand.pull_bar != "none":
        _bar(view, stand, unit)
    marks(view, stand, (
        (stand.cg_from_casters, stand.cg_height), (stand.loaded_from_casters, stand.loaded_height),
    ))  # fmt: skip
    view.dimension((left, 0), (right, 0), f"over all {found(stand, 'overall_length', unit)}")
    view.dimension((0, 0), (0, stand.caster_height), f"caster {given(stand, 'caster_height', unit)}", "left")
    end = right if stand.pull_bar == "none" else far
    view.dimension((end, 0), (end, stand.overall_height), f"over all {found(stand, 'overall_height', unit)}", "right")


def _bar(view, stand, unit):
    """The bar from its end, and the stub or arm that holds it."""
    skin, axis = stand.leg_spacing + stand.leg_diameter / 2, stand.handle_reach
    radius, level = stand.bar_diameter / 2, stand.bar_height
    if stand.pull_bar == "stubs":
        rod(view, "stub", stand, axis - radius, stand.stub_diameter / 2)
        rings = EndGrain((axis + 0.2 * radius, level - 0.3 * radius))
        view.area("bar", Circle("bar", (axis, level), radius), grain=rings)
    else:
        rod(view, "bar", stand, axis + radius, radius)
        view.line("joint", (axis - radius, level - radius), (axis - radius, level + radius))
    view.dimension((skin, level), (axis - radius, level), f"hand {given(stand, 'hand_room', unit)}", "above")
    view.dimension((axis, 0), (axis, level), f"bar {given(stand, 'bar_height', unit)}", "right")
