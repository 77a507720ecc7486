"""Plates of a screw that lets the panel move: section, seat from below through the year, panel; and the template."""

from shoplib.drawing.parts import centre_lines
from shoplib.drawing.parts import found_in_full as found
from shoplib.drawing.sheet import Circle, EndGrain, Sheet, rectangle
from shoplib.model import given_in_full as given

USE = (
    "Drill the counterbore first, from the rail's underside, with a depth stop. The mark of its point guides the "
    "small hole right through. Lay the panel on the rails, fast screws first; then prick each sliding screw's place "
    "through the middle of its hole, drill the lead hole with a stop, and drive the screw until it just holds."
)


def draw_panel_screw(screw, unit="mm"):
    """Section along the rail as screwed, the seat seen from below through the year, and where the screws go."""
    sheet = Sheet("Screw that lets the panel move", _spoken(screw, unit), use=USE)
    _section(sheet.view("Section along the rail, as screwed", (0, 0, 0.5, 1)), screw, unit)
    _seat(sheet.view("The seat from below, enlarged", (0.5, 0, 0.5, 0.52)), screw, unit)
    _panel(sheet.view("The panel from below", (0.5, 0.52, 0.5, 0.48)), screw, unit)
    return sheet


def _spoken(screw, unit):
    names = ("web", "grip", "cover", "move_dry", "move_damp", "hole_needed", "counterbore_diameter")
    words = [
        f"A screw {given(screw, 'screw_length', unit)} long comes up through a rail "
        f"{given(screw, 'rail_height', unit)} high into a panel {given(screw, 'panel_thickness', unit)} thick."
    ]
    words += [f"{screw.model.results()[name].words}: {found(screw, name, unit)}." for name in names]
    return " ".join(words)


def _section(view, screw, unit):
    """The rail from its underside up, the panel on it; the panel is cut across its grain, the rail along its own."""
    half = max(0.9 * screw.rail_thickness, 0.75 * screw.counterbore_diameter, 0.35 * screw.rail_height)
    low, seat, bore, hole = -screw.rail_height, -screw.web, screw.counterbore_diameter / 2, screw.hole_diameter / 2
    view.area("rail", (
        (-half, low), (-bore, low), (-bore, seat), (-hole, seat), (-hole, 0), (-half, 0),
    ), grain=0.0)  # fmt: skip
    view.area("rail", ((half, low), (bore, low), (bore, seat), (hole, seat), (hole, 0), (half, 0)), grain=0.0)
    thick = screw.panel_thickness
    view.area("panel", rectangle(-half, 0, half, thick), grain=EndGrain((0.0, -2.5 * half)))
    _screw(view, screw, seat)
    view.line("centre", (0, low - 0.06 * screw.rail_height), (0, thick + 0.06 * screw.rail_height))
    view.dimension((half, low), (half, 0), f"rail {given(screw, 'rail_height', unit)}", "right", 1)
    view.dimension((half, low), (half, seat), f"counterbore {given(screw, 'counterbore_depth', unit)}", "right", 0)
    view.dimension((-half, seat), (-half, 0), f"wood left {found(screw, 'web', unit)}", "left", 0)
    view.dimension((-half, 0), (-half, screw.grip), f"thread {found(screw, 'grip', unit)}", "left", 1)
    view.dimension((half, screw.grip), (half, thick), f"above the tip {found(screw, 'cover', unit)}", "right", 2)
    view.dimension((-bore, low), (bore, low), f"counterbore Ø {found(screw, 'counterbore_diameter', unit)}", "below")
    view.dimension((-half, low), (half, low), "along the rail, across the panel's grain", "below")


def _screw(view, screw, seat):
    """Washer and head below the seat, shank and thread up to the tip; the thread's point tapers."""
    root, shank, head = screw.root_diameter / 2, screw.shank_diameter / 2, screw.head_diameter / 2
    if screw.has("washer_diameter"):
        washer = screw.washer_diameter / 2
        view.area("washer", rectangle(-washer, seat - screw.washer_thickness, washer, seat))
    under, tip = seat - screw.washer_thickness, screw.grip
    high = 0.55 * screw.shank_diameter
    view.area("screw", ((-head, under), (head, under), (0.7 * head, under - high), (-0.7 * head, under - high)))
    point = min(1.2 * screw.shank_diameter, screw.grip)
    view.area("screw", ((-shank, under), (shank, under), (shank, tip - point), (0, tip), (-shank, tip - point)))
    for side in (-1, 1):
        view.line("thread", (side * root, max(under, 0.0)), (side * root, tip - point))


def _seat(view, screw, unit):
    """Hole, head and counterbore from below; the shank as screwed, and where the two seasons carry it."""
    hole, shank, head, bore = (
        size / 2 for size in (screw.hole_diameter, screw.shank_diameter, screw.head, screw.counterbore_diameter)
    )
    half = max(1.2 * bore, screw.rail_thickness / 2)
    edge = screw.rail_thickness / 2
    view.area("rail", rectangle(-half, -edge, half, edge), Circle("rail", (0, 0), bore), grain=0.0)
    view.circle("hole", (0, 0), bore)
    view.circle("hidden", (0, 0), head)
    view.circle("hole", (0, 0), hole)
    view.circle("screw", (0, 0), shank)
    view.circle("dry", (screw.move_dry, 0), shank)
    view.circle("damp", (screw.move_damp, 0), shank)
    centre_lines(view, 1.12 * bore)
    view.note((screw.move_damp + 0.7 * shank, 0.7 * shank), f"damp\n{found(screw, 'move_damp', unit)}", "right")
    view.note((screw.move_dry - 0.7 * shank, 0.7 * shank), f"dry\n{found(screw, 'move_dry', unit)}", "left")
    view.dimension((-hole, 0), (hole, 0), f"hole Ø {given(screw, 'hole_diameter', unit)}")
    what = "washer" if screw.has("washer_diameter") else "head"
    view.dimension((-head, 0), (head, 0), f"{what} Ø {found(screw, 'head', unit)}")
    view.dimension((half, bore), (half, edge), f"wall {found(screw, 'counterbore_wall', unit)}", "right")
    view.dimension((-half, -edge), (-half, edge), f"rail {given(screw, 'rail_thickness', unit)}", "left")


def _panel(view, screw, unit):
    """The round panel, its grain left to right; a rail across it, fast screw in the middle, sliding ones outside."""
    far = max(screw.from_fixed, 1.5 * screw.rail_thickness)
    radius, half = 1.45 * far, screw.rail_thickness / 2
    view.area("panel", Circle("panel", (0, 0), radius), grain=0.0)
    view.area("rail", rectangle(-half, -radius, half, radius))
    size = max(0.7 * screw.head_diameter / 2, 0.03 * radius)
    view.circle("fast", (0, 0), size)
    for way in (-1, 1):
        at = way * screw.from_fixed
        view.circle("hole", (0, at), 1.4 * size)
        view.circle("screw", (0, at), 0.8 * size)
    if screw.from_fixed:
        text = f"from the fast screw {given(screw, 'from_fixed', unit)}"
        view.dimension((radius, 0), (radius, screw.from_fixed), text, "right")
    view.note((-half, 0), "fast", "left")
    view.note((-half, -screw.from_fixed), "slides", "left")


def template_panel_screw(screw, unit="mm"):
    """A strip to lay along the rail's underside: the fast screw's place and the sliding ones' at full size."""
    sheet = Sheet("Screw places along a rail", _spoken(screw, unit), use=USE_OF_STRIP)
    view = sheet.view("Along the rail's underside, across the panel's grain")
    half, far = screw.rail_thickness / 2, screw.from_fixed
    end = far + screw.counterbore_diameter + 12
    view.area("rail", rectangle(-end, -half, end, half), grain=0.0)
    view.line("centre", (-end, 0), (end, 0))
    arm = 0.8 * half
    view.cross("pivot", (0, 0), arm)
    view.circle("fast", (0, 0), screw.shank_diameter / 2)
    places = (-far, far) if far else ()
    for x in places:
        view.circle("joint", (x, 0), screw.counterbore_diameter / 2)
        view.circle("hole", (x, 0), screw.hole_diameter / 2)
        view.cross("pivot", (x, 0), arm)
    if far:
        view.dimension((0, 0), (far, 0), f"fast to sliding screw {given(screw, 'from_fixed', unit)}", "above")
        bore = screw.counterbore_diameter / 2
        text = f"counterbore Ø {found(screw, 'counterbore_diameter', unit)}"
        view.dimension((far - bore, 0), (far + bore, 0), f"{text}, hole Ø {given(screw, 'hole_diameter', unit)}")
    view.note((-end, half), "rail's edge", "left")
    return sheet


USE_OF_STRIP = (
    "Lay the strip along the middle of the rail's underside, the fast screw over the panel's middle line. Prick "
    "through the crosses. Counterbore at every cross first; then the wide hole at the sliding screws, and one only as wide as "
    "the shank at the fast one."
)

DRAWINGS = {"PanelScrew": draw_panel_screw}
TEMPLATES = {"PanelScrew": template_panel_screw}
