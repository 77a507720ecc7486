"""The stand from the front: the end with the bar, opposite the casters where there are two."""

from shoplib.drawing.parts import given
from shoplib.drawing.sheet import rectangle
from shoplib.drawing.the_stand.shapes import floor, leg, marks, rail, tray


def draw_front(view, stand, unit):
    """Trays, legs, rails and bar, the middle at x = 0, the floor at y = 0."""
    half = stand.leg_spacing / 2
    reach = 1.06 * max(stand.overall_width / 2, half_bar(stand))
    floor(view, -reach, reach)
    for top in stand.rail_tops:
        tray(view, stand, 0.0, top)
    for x in (-half, half):
        leg(view, stand, x, on_caster=stand.casters > 2)
    for top in stand.rail_tops:
        rail(view, stand, 0.0, top)
    if stand.pull_bar != "none":
        long, thick = half_bar(stand), stand.bar_diameter / 2
        view.area("bar", rectangle(-long, stand.bar_height - thick, long, stand.bar_height + thick), grain=0.0)
    marks(view, stand, ((0.0, stand.cg_height), (0.0, stand.loaded_height)))
    view.dimension((-half, 0), (half, 0), f"legs {given(stand, 'leg_spacing', unit)}")
    wide = stand.tray_diameter / 2
    low = stand.rail_tops[0] + stand.panel_proud
    view.dimension((-wide, low), (wide, low), f"tray Ø {given(stand, 'tray_diameter', unit)}")
    tip = stand.rail_length / 2
    if stand.trays > 1:
        text = f"lower rails {given(stand, 'lower_rail_top', unit)}"
        view.dimension((-half, 0), (-tip, stand.lower_rail_top), text, "left")
    text = f"upper rails {given(stand, 'upper_rail_top', unit)}"
    view.dimension((-half, 0), (-tip, stand.upper_rail_top), text, "left")


def half_bar(stand):
    """From the middle of the bar to its end; nothing without one."""
    if stand.pull_bar == "none":
        return 0.0
    return stand.bar_length / 2 if stand.pull_bar == "stubs" else (stand.bar_width + stand.bar_diameter) / 2
