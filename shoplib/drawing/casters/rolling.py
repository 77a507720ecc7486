"""The stand on casters: standing, on an uneven floor, lifted at the handle, and where it tips."""

import math

from shoplib.drawing.casters.shapes import board, caster, turned
from shoplib.drawing.parts import found, given, told_results
from shoplib.drawing.sheet import Circle, EndGrain, Sheet, rectangle
from shoplib.model import answer

LIFTED = math.radians(9)  # as it is drawn
CHOOSE = (
    "Take casters rated above the load on an uneven floor. Each angle is the slope of the floor at which the stand "
    "goes over, its wheels swung inward by the trail: stay well below it."
)
LIFT = " Lift only as far as it needs to roll: lifting tilts it towards the casters as a slope does."
FOUR = (
    "With four casters, the casters are here the pair at the end from which the centre of gravity is measured; the "
    "other end is the other pair. "
)


def draw_rolling(stand, unit="mm"):
    """The stand standing, with one foot clear, lifted where it has two casters, and where it tips each way."""
    four = stand.casters > 3
    sheet = Sheet("Rolling", _spoken(stand, unit), use=FOUR + CHOOSE if four else CHOOSE + LIFT)
    wide, plan = (0.5, 0.5) if four else (0.37, 0.33)
    standing = sheet.view(f"Standing: {found(stand, 'standing_load', unit)} on a caster", (0, 0, wide, 0.56))
    _standing(standing, stand, unit)
    clear = sheet.view(f"One foot clear: {found(stand, 'worst_load', unit)}", (wide, 0, plan, 0.56))
    _one_foot_clear(clear, stand, unit)
    if not four:
        _lifted(sheet.view(f"In the hand: {found(stand, 'lift', unit)}", (0.7, 0, 0.3, 0.56)), stand)
    _ways_to_tip(sheet, stand, unit, four)
    return sheet


def _ways_to_tip(sheet, stand, unit, four):
    arm, side = stand.cg_from_casters, stand.track / 2 - stand.cg_aside
    ways = (
        ("Over the casters", "tip_over_casters", 0.0, stand.wheelbase, arm, (True, four)),
        ("Over the other end", "tip_over_other_end", 0.34, stand.wheelbase, stand.wheelbase - arm, (four, True)),
        ("Sideways", "tip_sideways", 0.67, stand.track, side, (True, True)),
    )
    for words, name, x, width, cg, rolls in ways:
        view = sheet.view(f"{words}: {found(stand, name, unit)}", (x, 0.56, 0.33, 0.44))
        _tipping(view, stand, width, cg, rolls, getattr(stand, name))


def _spoken(stand, unit):
    names = [
        name for name, item in stand.model.results().items() if not item.minor and not answer(stand, name, unit)[1]
    ]
    return f"A stand of {given(stand, 'weight', unit)} on {stand.casters} casters. {told_results(stand, names, unit)}"


def _stand(view, stand, width, angle=0.0, centre=(0.0, 0.0), rolls=(True, False), trail=0.0):
    """Legs, two trays and casters of a stand `width` wide between its legs, turned about a point.

    `rolls` tells whether there is a caster left and right; the left one's wheel trails inward.
    """
    top = max(1.25 * stand.cg_height, 0.6 * width)
    high, leg = 0.09 * top, 0.03 * top
    for x, has_caster, inward in ((0.0, rolls[0], trail), (width, rolls[1], 0.0)):
        foot = high if has_caster else 0.0
        board(view, "leg", (x - leg, foot, x + leg, top), angle, centre, upright=True)
        if has_caster:
            caster(view, (x, high), high, angle, centre, inward)
    for share in (0.42, 1.0):
        board(view, "piece", (-0.1 * width, share * top, 1.1 * width, share * top + 1.4 * leg), angle, centre)
    return top


def _gravity(view, point, length):
    """The centre of gravity and the weight's line straight down from it."""
    _balance(view, point, 0.05 * length)
    view.line("force", point, (point[0], point[1] - length), arrow=True)


def _balance(view, point, radius):
    view.circle("balance", point, radius)
    view.cross("balance", point, 1.8 * radius)


def _standing(view, stand, unit):
    base, four = stand.wheelbase, stand.casters > 3
    top = _stand(view, stand, base, rolls=(True, four))
    cg, far = (stand.cg_from_casters, stand.cg_height), 1.15 * base
    _gravity(view, cg, 0.6 * stand.cg_height)
    if not four:
        hand = (stand.handle_reach, 0.8 * top)
        view.line("joint", (base, hand[1]), hand)
        view.circle("metal", hand, 0.03 * top)
        far = max(far, stand.handle_reach)
    view.line("floor", (-0.15 * base, 0), (far, 0))
    view.dimension((0, cg[1]), cg, f"gravity {given(stand, 'cg_from_casters', unit)}", "above")
    view.dimension((0, 0), (base, 0), f"base {given(stand, 'wheelbase', unit)}")
    if not four:
        view.dimension((0, 0), (stand.handle_reach, 0), f"handle {given(stand, 'handle_reach', unit)}")
    view.dimension((0, 0), (0, stand.cg_height), f"height {given(stand, 'cg_height', unit)}", "left")


def clear_foot(stand):
    """Where the heaviest caster stands and where its neighbour hangs clear, seen from above.

    The casters' line lies at x = 0, the heavier side at positive y.
    """
    base, side = stand.wheelbase, stand.track / 2
    at_casters = stand.casters == 2 or stand.cg_from_casters <= base / 2
    heavy, other = (0.0, base) if at_casters else (base, 0.0)
    clear = (heavy, -side) if stand.end_load <= stand.side_load else (other, side)
    return (heavy, side), clear


def _one_foot_clear(view, stand, unit):
    """From above: the heaviest caster, the foot beside it that hangs clear, and the two that steady the stand."""
    base, side, aside = stand.wheelbase, stand.track / 2, stand.cg_aside
    foot = 0.075 * max(base, 2 * side)
    heaviest, clear = clear_foot(stand)
    view.area("panel", rectangle(-1.6 * foot, -side - 1.6 * foot, base + 1.6 * foot, side + 1.6 * foot))
    view.line("centre", (-1.6 * foot, 0), (base + 1.6 * foot, 0))
    for x in (0.0, base):
        for y in (-side, side):
            _foot(view, (x, y), foot, "hidden" if (x, y) == clear else "", rolls=stand.casters > 3 or x == 0)
    view.circle("force", heaviest, 1.25 * foot)
    _balance(view, (stand.cg_from_casters, aside), 0.4 * foot)
    view.note(heaviest, found(stand, "worst_load", unit), "left" if heaviest[0] == 0 else "right")
    view.note(clear, "clear", "left" if clear[0] == 0 else "right")
    edge = base + 1.6 * foot
    view.dimension((edge, -side), (edge, side), f"track {given(stand, 'track', unit)}", "right")
    if aside:
        text = f"aside {given(stand, 'cg_aside', unit)}"
        view.dimension((-1.6 * foot, 0), (-1.6 * foot, aside), text, "left")


def _foot(view, centre, radius, hanging, rolls):
    """A caster's wheel, or a plain leg on its end; dashed where it hangs clear."""
    if hanging:
        view.circle(hanging, centre, radius)
    elif rolls:
        view.circle("metal", centre, radius)
    else:
        view.area("leg", Circle("leg", centre, radius), grain=EndGrain(centre))


def _lifted(view, stand):
    """Turned a little about the casters, the hand's pull and the weight drawn as arrows."""
    base = stand.wheelbase
    top = _stand(view, stand, base, LIFTED)
    _gravity(view, turned((stand.cg_from_casters, stand.cg_height), LIFTED), 0.6 * stand.cg_height)
    post, hand = (turned((x, 0.8 * top), LIFTED) for x in (base, stand.handle_reach))
    view.line("joint", post, hand)
    view.line("force", hand, (hand[0], hand[1] + 0.3 * top), arrow=True)
    view.line("floor", (-0.15 * base, 0), (max(1.15 * base, hand[0]), 0))


def _tipping(view, stand, width, cg, rolls, slope):
    """On a floor so steep that the centre of gravity stands over the contact: any more and it goes over.

    The lower foot is drawn left: a plain leg, or a caster whose wheel has swung inward by its trail.
    """
    trail = stand.trail if rolls[0] else 0.0
    contact = (trail, 0.0)
    _stand(view, stand, width, slope, contact, rolls, trail)
    centre = turned((cg, stand.cg_height), slope, contact)
    view.line("centre", contact, (contact[0], 1.1 * centre[1]))
    _gravity(view, centre, 0.5 * stand.cg_height)
    ends = ((-0.2 * width, 0.0), (1.2 * width, 0.0))
    view.line("floor", *(turned(end, slope, contact) for end in ends))
