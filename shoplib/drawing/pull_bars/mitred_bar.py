"""The mitred bar: from above, its corner, an arm, what a slip of either angle does; the strip for its square ends."""

import math

from shoplib.drawing.parts import found_in_full as found
from shoplib.drawing.parts import told_results
from shoplib.drawing.sheet import Circle, EndGrain, Sheet
from shoplib.model import given_in_full as given
from shoplib.model import length_in_full

DOWN = -math.pi / 2  # the way an arm runs on the sheet where one corner is drawn
MARGIN = 18.0  # mm of the strip beyond tip and heel
TAB = 8.0  # mm of the strip that lies under its own beginning
HOW = (
    "Round the stock with its square grips left on. Mark the tips on its outer side. Set the saw to the mitre with two "
    "test cuts laid together. Saw every mitre with a grip's flat side down on the table and its inner or outer side "
    "against the fence, both of the bar's with the same side down, and let the last cut take the grip off. Bore for a "
    "dowel across each mitre, and for one on each arm's axis into its leg: glue alone holds neither. Dry fit on the "
    "legs, then glue."
)
USE = (
    "Cut out, fold along the lines of dashes and dots and wrap the strip round the square stock, print outside, the "
    "tab underneath, so that the tip comes to the bar's or the arm's outer side. Prick the four ringed points: they "
    "lie on the middle of each side and stay on the rod when it is rounded. For the other end of the bar turn the "
    "strip end for end, its outer side on the same side of the stock: then nothing is rolled."
)


def draw_mitred_bar(bar, unit="mm"):
    """The handle from above, one corner, an arm, a corner closed by force, and a look along the bar."""
    sheet = Sheet("Mitred pull bar", _spoken(bar, unit), use=HOW)
    _from_above(sheet.view("From above, both corners true", (0, 0, 0.58, 0.52)), bar, unit)
    _arm(sheet.view(f"An arm, mitre {found(bar, 'mitre_angle', unit)}", (0, 0.52, 0.36, 0.48)), bar, unit)
    _corner(sheet.view(_corner_title(bar, unit), (0.58, 0, 0.42, 0.52)), bar)
    _closed(sheet.view(_closed_title(bar, unit), (0.36, 0.52, 0.34, 0.48)), bar, unit)
    _along(sheet.view(_along_title(bar, unit), (0.7, 0.52, 0.3, 0.48)), bar, unit)
    return sheet


def _spoken(bar, unit):
    words = (
        f"A round bar {given(bar, 'bar_diameter', unit)} across with an arm mitred to each end, "
        f"{given(bar, 'width', unit)} between the arms' centre lines, {given(bar, 'reach', unit)} from the legs."
    )
    names = [name for name in bar.on_card() if name != "hand_room"]
    return f"{words} {told_results(bar, names, unit)}"


def _corner_title(bar, unit):
    if bar.mitre_error == 0:
        return "The corner: the mitre closes"
    where = "outside" if bar.mitre_error > 0 else "inside"
    return f"Held true it gapes {_size(bar, 'gap', unit)} {where}"


def _closed_title(bar, unit):
    if bar.mitre_error == 0:
        return "Closed: no arm aside"
    return f"Closed: {_size(bar, 'splay', unit)} {'outward' if bar.mitre_error > 0 else 'inward'}"


def _along_title(bar, unit):
    return f"Along it: {_size(bar, 'out_of_plane', unit)} off" if bar.roll else "Along it: one plane"


def _size(bar, name, unit):
    """A result of either sign by its size."""
    item = bar.model.results()[name]
    return item.write(abs(getattr(bar, name)), unit)


# One corner in its own frame: the centre lines cross at the origin, the arm runs down, the bar to the left -----------


def _bar_way(bar):
    """Unit vectors along the bar, away from the corner, and square to it, towards its outer side."""
    turn = DOWN - bar.corner
    return (math.cos(turn), math.sin(turn)), (math.sin(turn), -math.cos(turn))


def on_bar(bar, along, across):
    """A point by its ways along the bar from the corner, and to its outer side."""
    (bx, by), (nx, ny) = _bar_way(bar)
    return along * bx + across * nx, along * by + across * ny


def faces(bar, error):
    """Both faces of a corner held true, each from the heel to the tip; they share the end that touches."""
    half, rise = bar.bar_diameter / 2, bar.bar_diameter / 2 * math.tan(bar.mitre_angle)
    slant = bar.bar_diameter * math.tan(bar.mitre_angle - error)
    tip, heel = (half, rise), (-half, -rise)
    if error >= 0:
        return (heel, on_bar(bar, rise - slant, half)), (heel, (half, slant - rise))
    return (on_bar(bar, slant - rise, -half), tip), ((-half, rise - slant), tip)


def _corner(view, bar):
    """The corner as both pieces lie when the arm is held true, and what gapes between them."""
    half, rise = bar.bar_diameter / 2, bar.bar_diameter / 2 * math.tan(bar.mitre_angle)
    on_the_bar, on_the_arm = faces(bar, bar.mitre_error)
    stub = rise + 1.3 * bar.bar_diameter
    ends = (on_bar(bar, stub, half), on_bar(bar, stub, -half))
    view.area("bar", (on_the_bar[0], on_the_bar[1], *ends), grain=DOWN - bar.corner)
    view.area("bar", (*on_the_arm, (half, -stub), (-half, -stub)), grain=DOWN)
    if bar.mitre_error:
        shared = on_the_bar[0] if bar.mitre_error > 0 else on_the_bar[1]
        open_ends = [face[1 if bar.mitre_error > 0 else 0] for face in (on_the_bar, on_the_arm)]
        view.area("gap", (shared, *open_ends))
    view.line("centre", (0, 0), (0, -1.1 * stub))
    view.line("centre", (0, 0), on_bar(bar, 1.1 * stub, 0.0))
    view.note((half, rise), "tip", "right")
    view.note((-half, -rise), "heel", "left")


def _closed(view, bar, unit):
    """The arm where it should be, and dashed where it goes when the joint is closed all the same."""
    half, rise = bar.bar_diameter / 2, bar.bar_diameter / 2 * math.tan(bar.mitre_angle)
    stub = rise + 0.8 * bar.bar_diameter
    ends = (on_bar(bar, stub, half), on_bar(bar, stub, -half))
    view.area("bar", ((-half, -rise), (half, rise), *ends), grain=DOWN - bar.corner)
    view.area("bar", ((-half, -rise), (half, rise), (half, -bar.arm), (-half, -bar.arm)), grain=DOWN)
    view.line("centre", (0, 0), (0, -1.06 * bar.arm))
    if bar.mitre_error:
        turn = 2 * bar.mitre_error
        corners = ((-half, -rise), (-half, -bar.arm), (half, -bar.arm), (half, rise))
        _path(view, "thrown", [_turned(corner, turn) for corner in corners])
        view.dimension((0, -bar.arm), _turned((0, -bar.arm), turn), f"aside {_size(bar, 'splay', unit)}")


def _turned(point, turn):
    (x, y), c, s = point, math.cos(turn), math.sin(turn)
    return x * c - y * s, x * s + y * c


def _path(view, layer, points):
    for start, end in zip(points, points[1:]):
        view.line(layer, start, end)


def _along(view, bar, unit):
    """Seen along the bar: the near arm down, the far one turned with the bar's roll."""
    half, reach = bar.bar_diameter / 2, bar.reach
    crown = [(half * math.cos(a), half * math.sin(a)) for a in (math.pi * k / 24 for k in range(25))]
    outline = [(half, -reach), *crown, (-half, -reach)]
    view.area("bar", tuple(outline), grain=DOWN)
    view.line("centre", (0, 1.15 * half), (0, -1.06 * reach))
    if bar.roll:
        _path(view, "thrown", [_turned(point, bar.roll) for point in [*outline, outline[0]]])
        end = _turned((0, -reach), bar.roll)
        view.line("thrown", (0, 0), end)
        view.dimension((0, -reach), end, f"off {_size(bar, 'out_of_plane', unit)}")


def _arm(view, bar, unit):
    """One arm by itself, its end for the leg down."""
    half, rise = bar.bar_diameter / 2, bar.bar_diameter / 2 * math.tan(bar.mitre_angle)
    foot = -bar.arm - bar.leg_end
    view.area("bar", ((-half, foot), (half, foot), (half, rise), (-half, -rise)), grain=DOWN)
    view.line("centre", (0, 1.05 * rise), (0, foot - 0.3 * half))
    if bar.leg_end:
        view.line("hidden", (-1.2 * half, -bar.arm), (1.2 * half, -bar.arm))
        view.dimension((-half, foot), (-half, -bar.arm), f"in leg {given(bar, 'leg_end', unit)}", "left")
    view.dimension((-half, foot), (-half, -rise), f"short {found(bar, 'arm_short', unit)}", "left")
    view.dimension((half, foot), (half, rise), f"long {found(bar, 'arm_long', unit)}", "right")
    view.dimension((-half, foot), (half, foot), f"Ø {given(bar, 'bar_diameter', unit)}")


def _from_above(view, bar, unit):
    """The handle on its legs, which stand below it on the sheet."""
    half, rise, spread = bar.bar_diameter / 2, bar.bar_diameter / 2 * math.tan(bar.mitre_angle), bar.legs_apart / 2
    leg = max(1.84 * half, 0.7 * bar.leg_end)
    for way in (-1, 1):
        centre = (way * spread, -bar.reach - leg)
        view.area("leg", Circle("leg", centre, leg), grain=EndGrain((centre[0] - 0.3 * leg, centre[1] - 0.2 * leg)))
    tip, heel = (bar.width / 2 + rise, half), (bar.width / 2 - rise, -half)
    view.area("bar", ((-tip[0], half), tip, heel, (-heel[0], -half)), grain=0.0)
    lean = -bar.corner
    way = (-math.cos(lean), math.sin(lean))  # along the right arm, from the corner to the leg
    foot = (bar.width / 2 + bar.arm * way[0], bar.arm * way[1])
    for side in (-1, 1):
        ends = [(foot[0] - k * half * way[1], foot[1] + k * half * way[0]) for k in (1, -1)]
        outline = (tip, heel, *reversed(ends)) if ends[0][0] > ends[1][0] else (tip, heel, *ends)
        view.area("bar", tuple((side * x, y) for x, y in outline), grain=math.atan2(way[1], side * way[0]))
        view.line("centre", (side * bar.width / 2, 0), (side * foot[0], foot[1]))
    view.line("centre", (-tip[0], 0), (tip[0], 0))
    view.dimension((-bar.width / 2, 0), (bar.width / 2, 0), f"width {given(bar, 'width', unit)}", "above")
    view.dimension((-tip[0], half), tip, f"long side {found(bar, 'bar_long', unit)}", "above")
    view.dimension((-heel[0], -half), heel, f"short side {found(bar, 'bar_short', unit)}")
    view.dimension((-spread, -bar.reach), (spread, -bar.reach), f"legs apart {found(bar, 'legs_apart', unit)}")
    view.dimension((-spread, -bar.reach), (-bar.width / 2, 0), f"reach {given(bar, 'reach', unit)}", "left")
    view.dimension((spread, -bar.reach), (heel[0], -half), f"room {found(bar, 'hand_room', unit)}", "right")


# On paper ---------------------------------------------------------------------------------------------------------


def template_mitred_bar(bar, unit="mm"):
    """A strip to fold round the square stock: where the saw comes through each of its four sides."""
    mitre = found(bar, "mitre_angle", unit)
    spoken = f"A strip of four sides, each {given(bar, 'bar_diameter', unit)} wide, with the mitre's line at {mitre}."
    sheet = Sheet("Mitred pull bar, strip", spoken, use=USE)
    view = sheet.view(f"Round the square: mitre {mitre}")
    side, rise = bar.bar_diameter, bar.bar_diameter / 2 * math.tan(bar.mitre_angle)
    head, foot = rise + MARGIN, -rise - MARGIN
    line = [(0, rise), (side, rise), (2 * side, -rise), (3 * side, -rise), (4 * side, rise)]
    view.area("waste", (*line, (4 * side, head), (0, head)))
    view.area("kept", (*line, (4 * side, foot), (0, foot)), grain=math.pi / 2)
    view.area("paper", ((4 * side, head), (4 * side + TAB, head - 2), (4 * side + TAB, foot + 2), (4 * side, foot)))
    for fold in (1, 2, 3, 4):
        view.line("fold", (fold * side, foot), (fold * side, head))
    for number, height in enumerate((rise, 0.0, -rise, 0.0)):
        view.circle("prick", ((number + 0.5) * side, height), 1.2)
    view.note((0.5 * side, rise), "outer side: tip", "left")
    view.note((1.5 * side, 0), "upper side", "left")
    view.note((3.5 * side, 0), "under side", "right")
    view.note((2.5 * side, -rise), "inner side: heel", "right")
    view.note((0.2 * side, head), "grip, sawn off", "left")
    view.note((0.2 * side, foot), "bar or arm", "left")
    view.dimension((0, foot), (side, foot), f"one side {given(bar, 'bar_diameter', unit)}")
    view.dimension((0, foot), (4 * side, foot), f"once round {length_in_full(4 * side, unit)}")
    drop = f"tip to heel {length_in_full(2 * rise, unit)}"
    view.dimension((4 * side, -rise), (4 * side, rise), drop, "right")
    return sheet
