"""The wrapped strip at full size, with a tab that goes under its beginning."""

from shoplib.drawing.marking_out.strip_flat import flat_strip, second_line, strip_height, tell_flat
from shoplib.drawing.parts import found_in_full as found
from shoplib.drawing.parts import given
from shoplib.drawing.sheet import Sheet

TAB = 10.0  # mm that lie under the strip's own beginning


def template_wrap_strip(strip, unit="mm"):
    """The strip at full size: both rails' lines, the quarters, the dowels' heights, a tab."""
    sheet = Sheet("Wrap strip", spoken_strip(strip, unit), use=strip_use(strip))
    way = "right" if second_line(strip) > 0 else "left"
    view = sheet.view(f"Ink outside, leg's top up; second rail to the {way}")
    half, foot = 2 * strip.quarter, -strip_height(strip)
    tab = min(TAB, 0.4 * strip.quarter)
    view.area("hidden", ((half, 0), (half + tab, -0.2 * tab), (half + tab, foot + 0.2 * tab), (half, foot)))
    flat_strip(view, strip)
    tell_flat(view, strip, unit)
    view.note((half + tab, foot / 2), "tab", "right")
    return sheet


def spoken_strip(strip, unit):
    """What a screen reader says of a strip."""
    words = [
        f"A strip of paper round a leg {given(strip, 'leg_diameter', unit)} across, {found(strip, 'girth', unit)} once "
        f"round, quarters of {found(strip, 'quarter', unit)}."
    ]
    if strip.strip_error > 0:
        words.append(f"The second rail misses the far leg's centre by {found(strip, 'rail_miss', unit)}.")
    if strip.line_drift > 0:
        words.append(f"The lower rail misses it by {found(strip, 'lower_miss', unit)}.")
    return " ".join(words)


def strip_use(strip):
    """How the strip is used, in sentences for the foot of the page and for the card."""
    legs = ("front left and back right", "front right and back left")
    mine, other = legs if second_line(strip) > 0 else legs[::-1]
    tall = strip.has("upper_rail")
    where = "its upper edge flush with the leg's top" if tall else "its upper edge where a rail's upper edge comes"
    marks = "the dowels' centres through it" if tall and strip.has("dowel_edge") else "both rails' lines at both edges"
    return (
        f"For the legs {mine}, each numbered and its top marked; the legs {other} need the second rail on the other "
        "side. First rails run left and right, second rails front and back. Cut the strip out with its tab. Wrap it "
        f"round the leg, ink outside, {where}, the first rail's line facing the first rail, the tab under the "
        f"beginning. Its ends must just meet, else the leg is not the size given here. Tape it, prick {marks}. Lay the "
        "leg in the cradle, draw both lines through the pricks and check the heights from the leg's top."
    )
