"""The stand from the front: legs, rails and trays at their heights."""

from shoplib.drawing.parts import found, given
from shoplib.drawing.sheet import Sheet, rectangle

UPRIGHT = 1.5707963267948966


def front(plain, unit):
    """The stand seen square to the way it rolls, from the end without casters."""
    sheet = Sheet("The stand", _spoken(plain, unit))
    view = sheet.view("From the front")
    half, leg, top = plain.leg_spacing / 2, plain.leg_diameter / 2, plain.stand_height
    foot = plain.caster_height if plain.casters > 2 else 0.0
    reach = max(plain.tray_diameter / 2, half + leg)
    view.line("floor", (-1.1 * reach, 0), (1.1 * reach, 0))
    for edge in plain.rail_tops:
        low = edge + plain.panel_proud
        wide = plain.tray_diameter / 2
        view.area("piece", rectangle(-wide, low, wide, low + plain.rim_height), grain=0.0)
        view.area("rail", rectangle(leg - half, edge - plain.rail_height, half - leg, edge), grain=0.0)
    for side in (-half, half):
        view.area("leg", rectangle(side - leg, foot, side + leg, top), grain=UPRIGHT)
    view.dimension((-half, 0), (half, 0), f"leg spacing {given(plain, 'leg_spacing', unit)}")
    view.dimension((-plain.tray_diameter / 2, 0), (plain.tray_diameter / 2, 0),
                   f"tray {given(plain, 'tray_diameter', unit)}")  # fmt: skip
    view.dimension((reach, 0), (reach, top), f"legs' tops {given(plain, 'stand_height', unit)}", "right")
    view.dimension((-reach, 0), (-reach, plain.upper_rail_top),
                   f"upper rails {given(plain, 'upper_rail_top', unit)}", "left")  # fmt: skip
    return sheet


def _spoken(plain, unit):
    return (
        f"A stand with {plain.trays} trays of {given(plain, 'tray_diameter', unit)} on four legs, "
        f"{found(plain, 'overall_height', unit)} high over all."
    )
