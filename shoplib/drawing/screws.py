"""Plates of a screw that lets the panel move: section, seat from below through the year, panel; and the template."""

from shoplib.drawing.parts import centre_lines, told_results
from shoplib.drawing.parts import found_in_full as found
from shoplib.drawing.sheet import Circle, EndGrain, Sheet, rectangle
from shoplib.model import answer_in_full, length_in_full, write_value
from shoplib.model import given_in_full as given

UPRIGHT = 1.5707963267948966  # rad: grain that runs up the picture


def draw_panel_screw(screw, unit="mm"):
    """Section along the rail as screwed, the seat seen from below through the year, and where the screws go."""
    sheet = Sheet("Screw that lets the panel move", _spoken(screw, unit), use=_use(screw, unit))
    _section(sheet.view("Section along the rail, across the panel's grain", (0, 0, 0.5, 1)), screw, unit)
    bears = "washer" if screw.has("washer_diameter") else "head"
    title = f"Seat from below, {bears} Ø {found(screw, 'head', unit)}"
    _seat(sheet.view(title, (0.5, 0, 0.5, 0.46)), screw, unit)
    _panel(sheet.view("The panel from below, not to scale", (0.5, 0.46, 0.5, 0.54)), screw, unit)
    return sheet


def _use(screw, unit):
    """What is drilled and driven, in this order, for the card and the foot of the page."""
    slides, fast = given(screw, "hole_diameter", unit), given(screw, "shank_diameter", unit)
    return (
        "Drill the counterbore first, from the rail's underside, with a depth stop. The mark of its point guides the "
        f"small hole right through: {slides} where the screw slides, only as wide as the shank, {fast}, where it is "
        "fast. Lay the panel on the rails, the fast holes under its grain centre line, and drive the fast screws from "
        "below; then prick each sliding screw's place through the middle of its hole, "
        f"{_lead(screw, unit)}, and drive the screw until it just holds. A move is away from the fast screws, one with "
        "a minus towards them."
    )


def _lead(screw, unit):
    """What is done for the thread: the lead hole, or where there is none, a starter hole."""
    (hole, light), (deep, shallow) = (answer_in_full(screw, name, unit) for name in ("lead_hole", "lead_depth"))
    if light or shallow:
        return "prick a starter hole with an awl"
    return f"drill the lead hole, {hole} wide and {deep} deep, with a stop"


def _spoken(screw, unit):
    names = ("web", "grip", "cover", "hole_needed", "counterbore_diameter")
    words = [
        f"A screw {given(screw, 'screw_length', unit)} long comes up through a rail "
        f"{given(screw, 'rail_height', unit)} high into a panel {given(screw, 'panel_thickness', unit)} thick."
    ]
    words.append(told_results(screw, names, unit))
    words += [f"{season} season: {_way(getattr(screw, f'move_{season}'), unit)}." for season in ("dry", "damp")]
    return " ".join(words)


def _way(move, unit):
    """A move in words: outward is away from the fast screws."""
    size = write_value(abs(move), "length", unit, "0.01 mm", "0.001 in")
    if abs(move) < 5e-3:
        return f"{size}, stays"
    return f"{size} {'outward' if move > 0 else 'inward'}"


def _section(view, screw, unit):
    """The rail from its underside up, the panel on it; the panel is cut across its grain, the rail along its own."""
    half = max(0.9 * screw.rail_thickness, 0.75 * screw.counterbore_diameter, 0.35 * screw.rail_height)
    low, seat, bore, hole = -screw.rail_height, -screw.web, screw.counterbore_diameter / 2, screw.hole_diameter / 2
    for side in (-1, 1):
        view.area("rail", tuple((side * x, y) for x, y in (
            (half, low), (bore, low), (bore, seat), (hole, seat), (hole, 0), (half, 0),
        )), grain=0.0)  # fmt: skip
    thick = screw.panel_thickness
    pith = (0.0, -2.5 * half) if screw.cut == "flat" else (-60 * half, 0.0)
    view.area("panel", rectangle(-half, 0, half, thick), grain=EndGrain(pith))
    _screw(view, screw, seat)
    view.line("centre", (0, low - 0.06 * screw.rail_height), (0, thick + 0.06 * screw.rail_height))
    view.dimension((half, low), (half, seat), f"counterbore {given(screw, 'counterbore_depth', unit)}", "right", 0)
    view.dimension((half, low), (half, 0), f"rail {given(screw, 'rail_height', unit)}", "right", 1)
    view.dimension((half, screw.grip), (half, thick), f"above the tip {found(screw, 'cover', unit)}", "right", 2)
    view.dimension((-half, seat), (-half, 0), f"wood left {found(screw, 'web', unit)}", "left", 0)
    view.dimension((-half, 0), (-half, screw.grip), f"thread {found(screw, 'grip', unit)}", "left", 1)
    view.dimension((-half, 0), (-half, thick), f"panel {given(screw, 'panel_thickness', unit)}", "left", 2)
    view.dimension((-bore, low), (bore, low), f"counterbore Ø {found(screw, 'counterbore_diameter', unit)}")


def _screw(view, screw, seat):
    """Washer and head below the seat, shank and thread up to the tip; the thread's point tapers."""
    root, shank, head = screw.root_diameter / 2, screw.shank_diameter / 2, screw.head_diameter / 2
    if screw.washer_thickness:
        view.area("washer", rectangle(-screw.head / 2, seat - screw.washer_thickness, screw.head / 2, seat))
    under, tip = seat - screw.washer_thickness, screw.grip
    high = 0.55 * screw.shank_diameter
    view.area("screw", ((-head, under), (head, under), (0.7 * head, under - high), (-0.7 * head, under - high)))
    point = min(1.2 * screw.shank_diameter, screw.grip)
    view.area("screw", ((-shank, under), (shank, under), (shank, tip - point), (0, tip), (-shank, tip - point)))
    for side in (-1, 1):
        view.line("thread", (side * root, max(under, 0.0)), (side * root, tip - point))


def _seat(view, screw, unit):
    """Counterbore, washer or head, and hole from below; the shank as screwed, and where the two seasons carry it.

    To the right is outward, away from the fast screws.
    """
    hole, shank, head, bore = (
        size / 2 for size in (screw.hole_diameter, screw.shank_diameter, screw.head, screw.counterbore_diameter)
    )
    edge = screw.rail_thickness / 2
    half = max(1.3 * bore, 0.7 * edge)
    view.area("rail", rectangle(-half, -edge, half, edge), Circle("rail", (0, 0), bore), grain=0.0)
    view.circle("slide_hole", (0, 0), bore)
    view.circle("hidden", (0, 0), head)
    view.circle("slide_hole", (0, 0), hole)
    view.circle("screw", (0, 0), shank)
    view.circle("dry", (screw.move_dry, 0), shank)
    view.circle("damp", (screw.move_damp, 0), shank)
    centre_lines(view, 1.12 * bore)
    rise = 0.7 * shank
    view.note((screw.move_damp + rise, rise), f"damp season:\n{_way(screw.move_damp, unit)}", "right")
    view.note((screw.move_dry + rise, -rise), f"dry season:\n{_way(screw.move_dry, unit)}", "right")
    view.note((-0.7 * half, -edge), f"rail\n{_told(screw.rail_thickness, unit)}", "left")
    view.note((-0.3 * half, (bore + edge) / 2), f"wall\n{_told(screw.counterbore_wall, unit)}", "left")
    view.dimension((-hole, 0), (hole, 0), f"hole Ø {given(screw, 'hole_diameter', unit)}")


def _told(size, unit):
    """A length for a note, its decimal on a line of its own."""
    return length_in_full(size, unit).replace(" (", "\n(")


OUT, RIM = 1.4, 2.0  # of the way to the sliding screw: the rails' middle lines, and the panel's edge


def _panel(view, screw, unit):
    """The round panel, its grain up the picture, on four rails: two across it are screwed, two along it only carry.

    It lies as in the section: to the right is away from the fast screws.
    """
    far = max(screw.from_fixed, 2 * screw.rail_thickness)
    radius, at, half = RIM * far, OUT * far, 0.12 * far
    view.area("panel", Circle("panel", (0, 0), radius), grain=UPRIGHT)
    for side in (-1, 1):
        view.area("rail", rectangle(side * at - half, -at, side * at + half, at), grain=UPRIGHT)
    for side in (-1, 1):
        view.area("rail", rectangle(-at - half, side * at - half, at + half, side * at + half), grain=0.0)
        view.circle("fast", (0, side * at), 0.5 * half)
        for way in (-1, 1) if screw.from_fixed else ():
            view.circle("slide_hole", (way * screw.from_fixed, side * at), 0.8 * half)
            view.circle("screw", (way * screw.from_fixed, side * at), 0.4 * half)
        view.circle("glue", (0, side * radius), 0.5 * half)
    view.note((-at, 0.2 * far), "along the grain:\nonly carries", "left")
    if screw.from_fixed:
        view.note((-screw.from_fixed - 0.8 * half, -at), "sliding screw", "left")
        text = f"from the fast screw {given(screw, 'from_fixed', unit)}"
        view.dimension((0, -at), (screw.from_fixed, -at), text)


def template_panel_screw(screw, unit="mm"):
    """A strip to lay along the rail's underside: the fast screw's place and the sliding ones' at full size."""
    sheet = Sheet("Screw places along a rail", _spoken(screw, unit), use=USE_OF_STRIP)
    view = sheet.view("Along the rail's underside, across the panel's grain")
    half, far, bore = screw.rail_thickness / 2, screw.from_fixed, screw.counterbore_diameter / 2
    end = far + 2 * bore + 12
    view.area("rail", rectangle(-end, -half, end, half), grain=0.0)
    view.line("centre", (-end, 0), (end, 0))
    for x in (-far, 0.0, far) if far else (0.0,):
        view.circle("seat", (x, 0), bore)
        if x:
            view.circle("hole", (x, 0), screw.hole_diameter / 2)
        else:
            view.circle("fast_hole", (x, 0), screw.shank_diameter / 2)
        centre_lines(view, 1.3 * bore, (x, 0))
        view.circle("prick", (x, 0), 0.25 * screw.shank_diameter)
    shank, hole = screw.shank_diameter / 2, screw.hole_diameter / 2
    view.dimension((-shank, 0), (shank, 0), f"fast: hole Ø {given(screw, 'shank_diameter', unit)}", "below", 0)
    if far:
        view.dimension((0, 0), (far, 0), f"fast to sliding screw {given(screw, 'from_fixed', unit)}", "above")
        text = f"slides: hole Ø {given(screw, 'hole_diameter', unit)}"
        view.dimension((far - hole, 0), (far + hole, 0), text, "below", 1)
    text = f"counterbore Ø {found(screw, 'counterbore_diameter', unit)}"
    view.dimension((-far - bore, 0), (bore - far, 0), text, "below", 2)
    return sheet


USE_OF_STRIP = (
    "Cut the strip out along the rail's sides and stick it to the underside of a rail that runs across the panel's "
    "grain, the fast screw over the panel's middle line. Prick through the crosses. Counterbore at every cross first; "
    "then the wide hole at the sliding screws, and one only as wide as the shank at the fast one."
)

DRAWINGS = {"PanelScrew": draw_panel_screw}
TEMPLATES = {"PanelScrew": template_panel_screw}
