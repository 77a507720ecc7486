"""The whole stand in three views, and one corner of the plan enlarged, where tray and leg come closest."""

from shoplib.drawing.parts import given, told_results
from shoplib.drawing.sheet import Sheet
from shoplib.drawing.the_stand.corner import draw_corner
from shoplib.drawing.the_stand.front import draw_front
from shoplib.drawing.the_stand.plan import draw_plan
from shoplib.drawing.the_stand.side import draw_side


def draw_stand(stand, unit="mm"):
    """From the front (the end with the bar), from the side, from above, and along the diagonal of the legs."""
    sheet = Sheet("The stand", _spoken(stand, unit))
    draw_front(sheet.view("From the front", (0, 0, 0.3, 1)), stand, unit)
    draw_side(sheet.view("From the side", (0.3, 0, 0.4, 1)), stand, unit)
    draw_plan(sheet.view("From above", (0.7, 0, 0.3, 0.56)), stand, unit)
    draw_corner(sheet.view("One leg and its tray", (0.7, 0.56, 0.3, 0.44)), stand, unit)
    return sheet


BARS = {"stubs": "a pull bar on two stubs", "mitred": "a pull bar mitred to two arms", "none": "no pull bar"}


def _spoken(stand, unit):
    trays = "Two round trays" if stand.trays > 1 else "One round tray"
    names = ("overall_height", "tray_clear", "weight", "cg_height", "loaded_weight", "loaded_height")
    return (
        f"{trays} {given(stand, 'tray_diameter', unit)} across, of {stand.ring_route}, on four legs "
        f"{given(stand, 'leg_spacing', unit)} apart, {stand.casters} of them on casters, with {BARS[stand.pull_bar]}. "
        f"{told_results(stand, names, unit)}"
    )
