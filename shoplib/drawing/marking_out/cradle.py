"""Plates for the cradle: the leg in its V with the point beside it, the block alone, the block's end at full size."""

import math

from shoplib.drawing.parts import found_in_full as found
from shoplib.drawing.parts import given, told_results
from shoplib.drawing.sheet import Circle, EndGrain, Sheet
from shoplib.model import answer, length_in_full

SHOULDER = 0.35  # of the leg's diameter, at the least, either side of the V


def draw_cradle(cradle, unit="mm"):
    """Along the leg in its V, with the point that slides along the face; the block as it is sawn."""
    sheet = Sheet("Cradle", _spoken(cradle, unit), use=_use(cradle, unit))
    apart, missed = answer(cradle, "lines_apart", unit)
    title = "Along the leg: the point misses it" if missed else f"Along the leg: lines {apart} apart"
    _leg_in(sheet.view(title, (0, 0, 0.56, 1)), cradle, unit)
    title = f"The block, blade tilted {found(cradle, 'blade_tilt', unit)}"
    _sawn(sheet.view(title, (0.56, 0, 0.44, 1)), cradle, unit)
    return sheet


def _spoken(cradle, unit):
    names = ("blade_tilt", "depth", "mouth", "sawn_face", "lines_apart")
    words = f"A leg of {given(cradle, 'leg_diameter', unit)} in a V of {given(cradle, 'v_angle', unit)}."
    return f"{words} {told_results(cradle, [name for name in names if not answer(cradle, name, unit)[1]], unit)}"


def _use(cradle, unit):
    """How the cradle is made and used, in sentences for the card and the foot of the page."""
    point = "a knife held flat on the face"
    if cradle.point_height > 0:
        point = f"a point {given(cradle, 'point_height', unit)} above the face"
    return (
        f"A block longer than half a leg, and {wide(cradle, unit)} wide or wider. Mark the V on both ends, its middle "
        "line square to the face. Saw both its faces with "
        f"the blade tilted {found(cradle, 'blade_tilt', unit)} from upright, {found(cradle, 'depth', unit)} deep below "
        f"the face, in scrap first. Clamp the leg in the V, the strip's mark at the height of {point}, and slide it "
        "along on either side: the lines run with the leg, half a turn apart. In the drill press the leg lies in the "
        "same V, clamped down, the drill over the V's middle line, the line to be drilled on top."
    )


def block_half(cradle):
    """Half the block's width as it is drawn: the V's mouth and a shoulder for the point to slide on."""
    return cradle.mouth / 2 + SHOULDER * cradle.leg_diameter


def wide(cradle, unit):
    """The block's least width in words."""
    return length_in_full(2 * block_half(cradle), unit)


def block_foot(cradle):
    """The block's underside below its face: where it was left out, half a leg below the V."""
    return -cradle.block_height if cradle.has("block_height") else -cradle.depth - 0.5 * cradle.leg_diameter


def block_outline(cradle):
    """The block's end with its V open, the face at nothing."""
    half, mouth, foot = block_half(cradle), cradle.mouth / 2, block_foot(cradle)
    return ((-half, 0), (-mouth, 0), (0, -cradle.depth), (mouth, 0), (half, 0), (half, foot), (-half, foot))


def _block(view, cradle):
    foot = block_foot(cradle)
    view.area("block", block_outline(cradle), grain=EndGrain((0.3 * block_half(cradle), 1.8 * foot)))


def touch_points(cradle):
    """Where the point meets the leg, right and left; none where it misses."""
    off = cradle.point_height - cradle.centre_above
    radius = cradle.leg_diameter / 2
    if abs(off) > radius:
        return ()
    side = math.sqrt(radius**2 - off**2)
    return (side, cradle.point_height), (-side, cradle.point_height)


def _leg_in(view, cradle, unit):
    radius, high = cradle.leg_diameter / 2, cradle.centre_above
    _block(view, cradle)
    view.area("leg", Circle("leg", (0, high), radius), grain=EndGrain((-0.3 * radius, high + 0.25 * radius)))
    view.cross("centre", (0, high), 1.15 * radius)
    if not touch_points(cradle):
        passing = block_half(cradle), cradle.point_height
        view.line("knife", passing, (-passing[0], passing[1]), arrow=True)
    for x, y in touch_points(cradle):
        out = math.copysign(block_half(cradle), x)
        view.line("knife", (out, y), (x, y), arrow=True)
        view.line("centre", (0, high), (x, y))
        view.circle("drawn", (x, y), 0.025 * cradle.leg_diameter)
    half, foot = block_half(cradle), block_foot(cradle)
    if abs(high) > 1e-9:
        view.dimension((half, 0), (0, high), f"centre {found(cradle, 'centre_above', unit)}", "right")
    if cradle.point_height > 0:
        view.dimension((-half, 0), (-half, cradle.point_height), f"point {given(cradle, 'point_height', unit)}", "left")
    view.dimension((-half, -cradle.depth), (-half, 0), f"V {found(cradle, 'depth', unit)}", "left")
    if cradle.has("block_height"):
        view.dimension((half, foot), (half, 0), f"block {given(cradle, 'block_height', unit)}", "right")
        view.dimension((half, foot), (0, -cradle.depth), f"left {found(cradle, 'left_below', unit)}", "right")
    view.dimension((-radius, high), (radius, high), f"leg Ø {given(cradle, 'leg_diameter', unit)}", "above")
    view.dimension((-cradle.mouth / 2, 0), (cradle.mouth / 2, 0), f"mouth {found(cradle, 'mouth', unit)}")


def _sawn(view, cradle, unit):
    """The block alone: the faces of the V drawn on beyond the face, as the tilted blade comes through."""
    mouth, deep, half = cradle.mouth / 2, cradle.depth, block_half(cradle)
    _block(view, cradle)
    view.line("centre", (0, 0.35 * deep), (0, block_foot(cradle)))
    for way in (-1, 1):
        view.line("blade", (way * 1.3 * mouth, 0.3 * deep), (0, -deep))
    sawn = found(cradle, "sawn_face", unit).replace(" (", "\n(")
    view.note((0.5 * mouth, -0.5 * deep), f"sawn face\n{sawn}", "right")
    view.dimension((-half, -deep), (-half, 0), f"deep {found(cradle, 'depth', unit)}", "left")
    view.dimension((-mouth, 0), (mouth, 0), f"mouth {found(cradle, 'mouth', unit)}")
    view.dimension((-half, block_foot(cradle)), (half, block_foot(cradle)), f"wide {wide(cradle, unit)}")


def template_cradle(cradle, unit="mm"):
    """The block's end at full size, the V on its middle line."""
    sheet = Sheet("Cradle, the block's end", _spoken(cradle, unit), use=_use(cradle, unit))
    deep, tilt = found(cradle, "depth", unit), found(cradle, "blade_tilt", unit)
    view = sheet.view(f"Stick on both ends, the face up: {deep} deep, blade {tilt}")
    half, mouth, foot = block_half(cradle), cradle.mouth / 2, block_foot(cradle)
    view.area("waste", ((-mouth, 0), (mouth, 0), (0, -cradle.depth)))
    _block(view, cradle)
    view.line("centre", (0, 0), (0, foot))
    view.note((-half, 0), "face", "left")
    view.dimension((half, -cradle.depth), (half, 0), f"deep {deep}", "right")
    view.dimension((-mouth, 0), (mouth, 0), f"mouth {found(cradle, 'mouth', unit)}", "above")
    view.dimension((-half, foot), (half, foot), f"wide {wide(cradle, unit)} or wider")
    if cradle.has("block_height"):
        view.dimension((half, foot), (half, 0), f"block {given(cradle, 'block_height', unit)}", "right")
    return sheet
