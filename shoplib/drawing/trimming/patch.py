"""Plates of a patch let into a ring's wall: the pocket from above with the router's base; the patch at full size."""

import math

from shoplib.drawing.parts import found_in_full as found
from shoplib.drawing.parts import told_results
from shoplib.drawing.sheet import Sheet, rectangle
from shoplib.model import given_in_full as given

PIECES = 48  # corners of a wall


def draw_patch(patch, unit="mm"):
    """The pocket in the ring seen from above, the base on its feet; and the patch by itself."""
    sheet = Sheet("Let-in patch", _spoken(patch, unit), use=_use(patch, unit))
    _pocket(sheet.view(f"The pocket in the {patch.edge} wall, from above", (0, 0, 1, 0.66)), patch, unit)
    _piece(sheet.view("The patch before it is trimmed", (0, 0.66, 1, 0.34)), patch, unit)
    return sheet


def _spoken(patch, unit):
    names = ("rise", "end_depth", "patch_thickness", "wood_left", "plunge")
    wall = f"the {patch.edge} wall, {given(patch, 'diameter', unit)} across"
    words = [f"A patch {given(patch, 'length', unit)} long in {wall}."]
    words.append(told_results(patch, names, unit))
    return " ".join(words)


def _use(patch, unit):
    """How pocket and patch are made, in sentences for the card."""
    return (
        "Clamp the ring on edge, its torn place level. Two feet of one height carry a plank with a slot, which the "
        f"router's base slides on. Stop the plunge {found(patch, 'plunge', unit)} below the base, reach it in small "
        f"steps, rout between two marks {given(patch, 'length', unit)} apart. Square the corners with a chisel. Fit "
        "the patch, its grain along the ring's, glue it, and trim it flush with small bites."
    )


def _walls(patch):
    """Radius of the patched wall and of the other one, and which way the pocket goes: 1 outward, -1 inward."""
    radius, width = patch.diameter / 2, patch.ring_width
    return (radius, radius + width, 1) if patch.edge == "inside" else (radius, radius - width, -1)


def _wall(radius, half, centre):
    """Points of a wall from left to right over `half` to either side, the ring's middle at (0, -centre)."""
    reach = math.asin(min(1.0, half / radius))
    angles = [math.pi / 2 + reach - 2 * reach * k / PIECES for k in range(PIECES + 1)]
    return tuple((radius * math.cos(a), radius * math.sin(a) - centre) for a in angles)


def _pocket(view, patch, unit):
    """The wall's middle at the origin; outward is up."""
    radius, other, way = _walls(patch)
    half, long = patch.length / 2, min(0.87 * patch.length, radius)
    shown = min(long, other)
    wall, back = _wall(radius, long, radius), _wall(other, shown, radius)
    floor = way * patch.depth
    left = [point for point in wall if point[0] < -half] + [(-half, -patch.rise), (-half, floor)]
    right = [(half, floor), (half, -patch.rise)] + [point for point in wall if point[0] > half]
    view.area("kept", (*left, *right, *reversed(back)), grain=0.0)
    turn = math.asin(half / radius)
    view.arc("hidden", (0, -radius), radius, math.pi / 2 - turn, math.pi / 2 + turn)
    base, across = -way * patch.feet_height, patch.cutter_diameter / 2
    beyond = base - way * 0.25 * patch.feet_height
    wide = half + 1.5 * across
    if way > 0 and patch.feet_height < radius:  # the base finds no more room than the hole has there
        wide = min(wide, 0.98 * math.sqrt(radius**2 - (radius - patch.feet_height) ** 2))
    view.area("router_base", rectangle(-wide, min(base, beyond), wide, max(base, beyond)))
    view.area("cutter", rectangle(-across, min(base, floor), across, max(base, floor)))
    view.dimension((-half, floor), (half, floor), f"patch {given(patch, 'length', unit)}", "above")
    view.dimension((-long, 0), (-long, floor), f"depth {given(patch, 'depth', unit)}", "left")
    view.dimension((-long, base), (-long, 0), f"feet {given(patch, 'feet_height', unit)}", "left")
    view.dimension((-long, base), (-long, floor), f"plunge {found(patch, 'plunge', unit)}", "left")
    view.note((half, 0.5 * (floor - patch.rise)), f"at the ends\n{found(patch, 'end_depth', unit)}", "right")
    least = (0.9 * half if way > 0 else 0, way * 0.5 * (patch.depth + patch.back))  # inside the ends are thinnest
    view.note(least, f"wood left\n{found(patch, 'wood_left', unit)}", "right")


def _piece(view, patch, unit):
    """The patch from above, its grain along it, flat bottom down; the dashed wall shows what is trimmed."""
    radius, _, way = _walls(patch)
    half, thick = patch.length / 2, patch.patch_thickness
    view.area("piece", rectangle(-half, 0, half, thick), grain=0.0)
    turn = math.asin(half / radius)
    middle = (0, patch.depth + way * radius)  # an inside wall bends up at the ends, an outside one down
    start = -math.pi / 2 if way > 0 else math.pi / 2
    view.arc("hidden", middle, radius, start - turn, start + turn)
    view.note((half, 0.5 * thick), f"thick\n{found(patch, 'patch_thickness', unit)}", "right")
    view.dimension((-half, 0), (half, 0), f"long {given(patch, 'length', unit)}")


def template_patch(patch, unit="mm"):
    """The patch at full size with the wall's line on it."""
    sheet = Sheet("Patch, full size", _spoken(patch, unit), use=(
        "Cut it out and hold the dashed line against the wall on the ring's face: mark both ends, and the flat bottom "
        "on the face. The patch is sawn to the whole rectangle, as high as the pocket, its grain along it."
    ))
    _piece(sheet.view("From above: flat bottom below, wall dashed"), patch, unit)
    return sheet
