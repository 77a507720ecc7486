"""The leg for a caster: its bored foot and the caster beside it, the stand level and not, and the template."""

import math

from shoplib.drawing.casters.shapes import board, caster
from shoplib.drawing.parts import centre_lines, found, given
from shoplib.drawing.sheet import Circle, EndGrain, Sheet, rectangle
from shoplib.model import answer_in_full


def draw_caster_leg(leg, unit="mm"):
    """The leg's foot in section, its caster, the stand level, and the stand with no leg shortened."""
    sheet = Sheet("Leg for a caster", _spoken(leg, unit))
    _bored_foot(sheet.view("The foot, bored", (0, 0, 0.46, 0.54)), leg, unit)
    _caster(sheet.view("The caster", (0, 0.54, 0.46, 0.46)), leg, unit)
    _level_stand(sheet.view("From the side: the top is level", (0.46, 0, 0.54, 0.56)), leg, unit)
    title = f"No leg shortened: the top slopes {found(leg, 'tilt_if_uncut', unit)}"
    _sloping_stand(sheet.view(title, (0.46, 0.56, 0.54, 0.44)), leg)
    return sheet


def _spoken(leg, unit):
    return (
        f"A leg of {given(leg, 'leg_diameter', unit)} bored {given(leg, 'hole_diameter', unit)} wide and "
        f"{found(leg, 'hole_depth', unit)} deep; thinnest wall {found(leg, 'wall', unit)}. A leg with a caster is "
        f"{found(leg, 'shortened_leg', unit)} long. Not shortened, the top slopes {found(leg, 'tilt_if_uncut', unit)}."
    )


def _bored_foot(view, leg, unit):
    """The leg's end in section, the stem's place dashed in it; off centre by the centring error, thin side right."""
    half, edge, off = leg.leg_diameter / 2, leg.hole_diameter / 2, leg.centre_error
    height = max(1.25 * leg.hole_depth, 0.8 * leg.leg_diameter)
    view.area("leg", rectangle(-half, 0, half, height), grain=math.pi / 2)
    view.area("hole", rectangle(off - edge, 0, off + edge, leg.hole_depth))
    for side in (-0.9, 0.9):
        view.line("hidden", (off + side * edge, 0), (off + side * edge, leg.stem_length))
    view.line("hidden", (off - 0.9 * edge, leg.stem_length), (off + 0.9 * edge, leg.stem_length))
    view.line("centre", (0, -0.04 * height), (0, 1.06 * height))
    view.dimension((off + edge, 0), (half, 0), f"wall {found(leg, 'wall', unit)}")
    view.dimension((off - edge, 0), (off + edge, 0), f"hole Ø {given(leg, 'hole_diameter', unit)}")
    view.dimension((-half, 0), (half, 0), f"leg Ø {given(leg, 'leg_diameter', unit)}")
    view.dimension((off - edge, 0), (off - edge, leg.hole_depth), f"hole {found(leg, 'hole_depth', unit)}", "left")
    view.dimension((off + edge, 0), (off + edge, leg.stem_length), f"stem {given(leg, 'stem_length', unit)}", "right")


def _caster(view, leg, unit):
    """The caster by itself: what its stem and its height are measured between."""
    edge, high, collar = 0.9 * leg.hole_diameter / 2, leg.caster_height, 0.3 * leg.caster_height
    view.area("metal", rectangle(-edge, 0, edge, leg.stem_length))
    caster(view, (0.0, 0.0), high)
    view.line("centre", (0, -1.04 * high), (0, leg.stem_length + 0.04 * high))
    view.line("floor", (-1.6 * collar, -high), (1.6 * collar, -high))
    view.dimension((-collar, 0), (-edge, leg.stem_length), f"stem {given(leg, 'stem_length', unit)}", "left")
    view.dimension((1.6 * collar, -high), (collar, 0), f"height {given(leg, 'caster_height', unit)}", "right")


def _stand_with_legs(view, leg, caster_leg, angle):
    """Two legs and the top; the caster left, the plain leg's foot at (wheelbase, 0), all turned about it."""
    half, base, top, foot = leg.leg_diameter / 2, leg.wheelbase, leg.leg_length, (leg.wheelbase, 0.0)
    board(view, "leg", (-half, top - caster_leg, half, top), angle, foot, upright=True)
    board(view, "leg", (base - half, 0, base + half, top), angle, foot, upright=True)
    board(view, "piece", (-1.4 * half, top, base + 1.4 * half, top + half), angle, foot)
    caster(view, (0.0, top - caster_leg), leg.caster_height, angle, foot)


def _level_stand(view, leg, unit):
    _stand_with_legs(view, leg, leg.shortened_leg, 0.0)
    half, base, high, under = leg.leg_diameter / 2, leg.wheelbase, leg.leg_length, leg.caster_height
    view.line("floor", (-2 * half, 0), (base + 2 * half, 0))
    view.dimension((-half, under), (-half, high), f"shortened {found(leg, 'shortened_leg', unit)}", "left")
    view.dimension((-half, 0), (-half, under), f"caster {given(leg, 'caster_height', unit)}", "left")
    view.dimension((-half, 0), (-half, high), f"plain leg {given(leg, 'leg_length', unit)}", "left")
    view.dimension((0, 0), (base, 0), f"wheelbase {given(leg, 'wheelbase', unit)}")


def _sloping_stand(view, leg):
    """All legs as long as the plain one: the casters lift their end, and the stand turns about the other feet."""
    half, base = leg.leg_diameter / 2, leg.wheelbase
    _stand_with_legs(view, leg, leg.leg_length, -leg.tilt_if_uncut)
    view.line("floor", (-2 * half, 0), (base + 2 * half, 0))


def template_caster_leg(leg, unit="mm"):
    """The leg's end at full size with its centre and the hole: stick it on, prick the centre, bore."""
    sheet = Sheet("Leg for a caster, drilling template", _spoken(leg, unit))
    deep, short = (answer_in_full(leg, name, unit)[0] for name in ("hole_depth", "shortened_leg"))
    sheet.use = (
        f"Print it once for each leg that gets a caster. Saw that leg to {short} first, measured from its top. Cut the "
        f"paper out round the leg, stick it on the sawn foot, prick the centre through and bore {deep} deep, measured "
        "from the drill's cutting edges."
    )
    view = sheet.view(f"On the foot: bore {deep} deep")
    half, edge = leg.leg_diameter / 2, leg.hole_diameter / 2
    view.area("leg", Circle("leg", (0, 0), half), grain=EndGrain((0.0, 0.0)))
    view.area("hole", Circle("hole", (0, 0), edge))
    centre_lines(view, 1.15 * half)
    view.dimension((-half, 0), (half, 0), f"leg Ø {given(leg, 'leg_diameter', unit)}")
    view.dimension((-edge, 0), (edge, 0), f"hole Ø {given(leg, 'hole_diameter', unit)}", "above")
    return sheet
