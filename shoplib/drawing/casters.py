"""Plates for casters: the bored leg in section, the stand level and not, and the stand where it tips."""

import math

from shoplib.drawing.parts import found, given, leg_section
from shoplib.drawing.sheet import Sheet, rectangle


def draw_caster_leg(leg, unit="mm"):
    """The leg's end in section with its caster, the stand level, and the stand with no leg shortened."""
    sheet = Sheet("Leg for a caster", _spoken_leg(leg, unit))
    _bored_end(sheet.view("Section through the leg's end", (0, 0, 0.44, 1)), leg, unit)
    _level_stand(sheet.view("From the side: the top is level", (0.44, 0, 0.56, 0.54)), leg, unit)
    title = f"No leg shortened: the top slopes {found(leg, 'tilt_if_uncut', unit)}"
    _sloping_stand(sheet.view(title, (0.44, 0.54, 0.56, 0.46)), leg)
    return sheet


def _spoken_leg(leg, unit):
    return (
        f"A leg of {given(leg, 'leg_diameter', unit)} bored {given(leg, 'hole_diameter', unit)} wide and "
        f"{found(leg, 'hole_depth', unit)} deep; thinnest wall {found(leg, 'wall', unit)}. A leg with a caster is "
        f"{found(leg, 'shortened_leg', unit)} long. Not shortened, the top slopes {found(leg, 'tilt_if_uncut', unit)}."
    )


def _bored_end(view, leg, unit):
    """The hole is drawn off centre by the centring error, its thin side right."""
    half, edge, off = leg.leg_diameter / 2, leg.hole_diameter / 2, leg.centre_error
    height = max(1.5 * leg.hole_depth, leg.leg_diameter)
    view.area("kept", rectangle(-half, 0, half, height))
    view.area("hole", rectangle(off - edge, 0, off + edge, leg.hole_depth))
    _caster(view, off, 0.0, leg.caster_height)
    view.area("metal", rectangle(off - 0.86 * edge, -0.06 * leg.caster_height, off + 0.86 * edge, leg.stem_length))
    view.line("centre", (0, -leg.caster_height), (0, 1.06 * height))
    view.line("floor", (-1.3 * half, -leg.caster_height), (1.3 * half, -leg.caster_height))
    view.dimension((off + edge, 0), (half, 0), f"thinnest wall {found(leg, 'wall', unit)}")
    view.dimension((off - edge, 0), (off + edge, 0), f"hole Ø {given(leg, 'hole_diameter', unit)}")
    view.dimension((-half, 0), (half, 0), f"leg Ø {given(leg, 'leg_diameter', unit)}")
    view.dimension((off - edge, 0), (off - edge, leg.hole_depth), f"hole {found(leg, 'hole_depth', unit)} deep", "left")
    view.dimension((half, -leg.caster_height), (half, 0), f"caster {given(leg, 'caster_height', unit)}", "right")


def _caster(view, x, floor_to, height, turned=0.0, foot=(0.0, 0.0), trail=0.0):
    """A caster of this height under the point (x, floor_to): collar, fork and wheel, trailing to the right."""
    wheel = 0.36 * height

    def at(dx, dy):
        return _turned((x + dx, floor_to + dy), turned, foot)

    collar = rectangle(-0.3 * height, -0.08 * height, 0.3 * height, 0)
    view.area("metal", tuple(at(*corner) for corner in collar))
    for side in (-0.12, 0.12):
        view.line("joint", at(side * height, -0.08 * height), at(trail, wheel - height))
    view.circle("metal", at(trail, wheel - height), wheel)


def _turned(point, angle, centre=(0.0, 0.0)):
    """A point turned about a centre, anticlockwise."""
    (x, y), (cx, cy), c, s = point, centre, math.cos(angle), math.sin(angle)
    return cx + c * (x - cx) - s * (y - cy), cy + s * (x - cx) + c * (y - cy)


def _board(view, layer, left, bottom, right, top, turned, centre):
    view.area(layer, tuple(_turned(corner, turned, centre) for corner in rectangle(left, bottom, right, top)))


def _stand_with_legs(view, leg, caster_leg, turned):
    """Two legs and the top; the casters left, the plain leg's foot at (wheelbase, 0), all turned about it."""
    half, base, foot = leg.leg_diameter / 2, leg.wheelbase, (leg.wheelbase, 0.0)
    top = leg.leg_length
    _board(view, "kept", -half, top - caster_leg, half, top, turned, foot)
    _board(view, "kept", base - half, 0, base + half, top, turned, foot)
    _board(view, "piece", -1.4 * half, top, base + 1.4 * half, top + half, turned, foot)
    _caster(view, 0.0, top - caster_leg, leg.caster_height, turned, foot)


def _level_stand(view, leg, unit):
    _stand_with_legs(view, leg, leg.shortened_leg, 0.0)
    half, base, high = leg.leg_diameter / 2, leg.wheelbase, leg.leg_length
    view.line("floor", (-2 * half, 0), (base + 2 * half, 0))
    view.dimension((-half, leg.caster_height), (-half, high), f"leg with caster "
        f"{found(leg, 'shortened_leg', unit)}", "left")
    view.dimension((base + half, 0), (base + half, high), f"plain leg {given(leg, 'leg_length', unit)}", "right")
    view.dimension((0, 0), (base, 0), f"wheelbase {given(leg, 'wheelbase', unit)}")


def _sloping_stand(view, leg):
    """All legs as long as the plain one: the casters lift their end, and the stand turns about the other feet."""
    half, base = leg.leg_diameter / 2, leg.wheelbase
    _stand_with_legs(view, leg, leg.leg_length, -leg.tilt_if_uncut)
    view.line("floor", (-2 * half, 0), (base + 2 * half, 0))


def draw_rolling(stand, unit="mm"):
    """The stand from the side: standing, lifted at the handle, and where it tips over either end and sideways."""
    sheet = Sheet("Rolling", _spoken_rolling(stand, unit))
    _standing(sheet.view(_on_each(stand, "Standing", "standing_load", unit), (0, 0, 0.5, 0.56)), stand, unit)
    lifted = f"Rolling: {found(stand, 'lift', unit)} in the hand"
    _lifted(sheet.view(lifted, (0.5, 0, 0.5, 0.56)), stand)
    arm, four = stand.cg_from_casters, stand.casters > 3
    ways = (
        ("Over the casters", "tip_over_casters", 0.0, stand.wheelbase, arm, (True, four)),
        ("Over the other end", "tip_over_other_end", 0.34, stand.wheelbase, stand.wheelbase - arm, (four, True)),
        ("Sideways", "tip_sideways", 0.67, stand.track, stand.track / 2, (True, True)),
    )
    for words, name, x, width, cg, rolls in ways:
        view = sheet.view(f"{words}: {found(stand, name, unit)}", (x, 0.56, 0.33, 0.44))
        _tipping(view, stand, width, cg, rolls, getattr(stand, name))
    return sheet


def _on_each(stand, how, name, unit):
    return f"{how}: {found(stand, name, unit)} on each caster"


def _spoken_rolling(stand, unit):
    names = ("standing_load", "rolling_load", "lift", "tip_over_casters", "tip_over_other_end", "tip_sideways")
    told = " ".join(f"{stand.model.results()[name].words}: {found(stand, name, unit)}." for name in names)
    return f"A stand of {given(stand, 'weight', unit)} on {stand.casters} casters. {told}"


def _stand(view, stand, width, turned=0.0, centre=(0.0, 0.0), rolls=(True, False), trail=0.0):
    """Legs, two trays and casters of a stand `width` wide between its legs, turned about a point.

    `rolls` tells whether there is a caster left and right; the left one's wheel trails inward.
    """
    top = max(1.25 * stand.cg_height, 0.6 * width)
    caster, leg = 0.09 * top, 0.03 * top
    for x, has_caster, inward in ((0.0, rolls[0], trail), (width, rolls[1], 0.0)):
        foot = caster if has_caster else 0.0
        _board(view, "piece", x - leg, foot, x + leg, top, turned, centre)
        if has_caster:
            _caster(view, x, caster, caster, turned, centre, inward)
    for share in (0.42, 1.0):
        _board(view, "piece", -0.1 * width, share * top, 1.1 * width, share * top + 1.4 * leg, turned, centre)
    return top


def _gravity(view, point, length):
    """The centre of gravity and the weight's line straight down from it."""
    view.circle("balance", point, 0.05 * length)
    view.cross("balance", point, 0.09 * length)
    view.line("force", point, (point[0], point[1] - length), arrow=True)


def _standing(view, stand, unit):
    top = _stand(view, stand, stand.wheelbase, rolls=(True, stand.casters > 3))
    cg = (stand.cg_from_casters, stand.cg_height)
    _gravity(view, cg, 0.6 * stand.cg_height)
    reach = (stand.handle_reach, 0.8 * top)
    view.line("joint", (stand.wheelbase, reach[1]), reach)
    view.circle("metal", reach, 0.03 * top)
    view.line("floor", (-0.15 * stand.wheelbase, 0), (max(1.15 * stand.wheelbase, stand.handle_reach), 0))
    view.dimension((0, 0), (cg[0], 0), f"centre of gravity {given(stand, 'cg_from_casters', unit)}")
    view.dimension((0, 0), (stand.wheelbase, 0), f"wheelbase {given(stand, 'wheelbase', unit)}")
    view.dimension((0, 0), (stand.handle_reach, 0), f"handle {given(stand, 'handle_reach', unit)}")
    view.dimension((0, 0), (0, stand.cg_height), f"height {given(stand, 'cg_height', unit)}", "left")


def _lifted(view, stand):
    """Turned a little about the casters, the hand's pull and the weight drawn as arrows."""
    turn = math.radians(9)
    top = _stand(view, stand, stand.wheelbase, turn, rolls=(True, stand.casters > 3))
    _gravity(view, _turned((stand.cg_from_casters, stand.cg_height), turn), 0.6 * stand.cg_height)
    post, hand = (_turned((x, 0.8 * top), turn) for x in (stand.wheelbase, stand.handle_reach))
    view.line("joint", post, hand)
    view.line("force", hand, (hand[0], hand[1] + 0.3 * top), arrow=True)
    view.line("floor", (-0.15 * stand.wheelbase, 0), (max(1.15 * stand.wheelbase, hand[0]), 0))


def _tipping(view, stand, width, cg, rolls, slope):
    """On a floor so steep that the centre of gravity stands over the contact: any more and it goes over.

    The lower foot is drawn left: a plain leg, or a caster whose wheel has swung inward by its trail.
    """
    trail = stand.trail if rolls[0] else 0.0
    contact = (trail, 0.0)
    _stand(view, stand, width, slope, contact, rolls, trail)
    centre = _turned((cg, stand.cg_height), slope, contact)
    view.line("centre", contact, (contact[0], 1.1 * centre[1]))
    _gravity(view, centre, 0.5 * stand.cg_height)
    ends = ((-0.2 * width, 0.0), (1.2 * width, 0.0))
    view.line("floor", *(_turned(end, slope, contact) for end in ends))


def template_caster_leg(leg, unit="mm"):
    """The leg's end at full size with its centre and the hole: stick it on, prick the centre, bore."""
    sheet = Sheet("Leg for a caster, drilling template", _spoken_leg(leg, unit))
    view = sheet.view(f"Bore {found(leg, 'hole_depth', unit)} deep into the foot of each leg with a caster")
    half = leg.leg_diameter / 2
    leg_section(view, half)
    view.circle("cutter", (0, 0), leg.hole_diameter / 2)
    view.cross("pivot", (0, 0), 0.3 * leg.hole_diameter)
    view.dimension((-half, 0), (half, 0), f"leg Ø {given(leg, 'leg_diameter', unit)}")
    edge = leg.hole_diameter / 2
    view.dimension((-edge, 0), (edge, 0), f"hole Ø {given(leg, 'hole_diameter', unit)}", "above")
    return sheet


DRAWINGS = {"CasterLeg": draw_caster_leg, "Rolling": draw_rolling}
TEMPLATES = {"CasterLeg": template_caster_leg}
