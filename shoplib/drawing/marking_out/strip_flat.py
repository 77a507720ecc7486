"""The strip laid flat, ink up, as the plate and the full-size template draw it: quarters, rails, dowels' heights."""

from shoplib.drawing.parts import found_in_full as found
from shoplib.drawing.sheet import rectangle
from shoplib.model import length_in_full

BAND = 40.0  # mm, how tall a strip is that carries quarters only
MARGIN = 15.0  # mm of strip below the lowest rail
RAIL = 50.0  # mm, drawn where the rail's height is not known


def strip_height(strip):
    """How far the strip reaches down the leg, from its upper edge: the leg's top where it carries the rails."""
    if not strip.has("upper_rail"):
        return min(BAND, 0.6 * strip.girth)
    lowest = strip.lower_rail if strip.has("lower_rail") else strip.upper_rail
    last = strip.heights[-1].second_rail
    return max(lowest + _rail(strip), last) + MARGIN


def _rail(strip):
    return strip.rail_height if strip.has("rail_height") else RAIL


def second_line(strip):
    """Where the second rail's line lies: the first rail's is at nothing, right is positive."""
    return strip.quarter if strip.second_side == "right" else -strip.quarter


def quarter_lines(strip):
    """The four quarter lines and the strip's other end: half a turn either side of the first rail's line."""
    return [turns * strip.quarter for turns in (-2, -1, 0, 1, 2)]


def flat_strip(view, strip):
    """The strip's outline and its lines: both rails' in full, the two that no rail needs dashed."""
    half, foot = 2 * strip.quarter, -strip_height(strip)
    view.area("paper", rectangle(-half, foot, half, 0))
    for x in quarter_lines(strip)[1:4]:
        view.line("centre" if x in (0.0, second_line(strip)) else "hidden", (x, 0), (x, foot))
    if not strip.has("upper_rail"):
        return
    arm = 0.12 * strip.quarter
    for row in strip.heights:
        for x, down in ((0.0, row.first_rail), (second_line(strip), row.second_rail)):
            if row.mark.endswith("edge"):
                view.line("upper_edge", (x - 0.3 * strip.quarter, -down), (x + 0.3 * strip.quarter, -down))
            else:
                view.circle("hole", (x, -down), 0.6 * arm)
                view.cross("centre", (x, -down), arm)


def tell_flat(view, strip, unit, lengths="below"):
    """The names of the lines and the heights of all marks beside the strip, its lengths above or below it."""
    half, foot, second = 2 * strip.quarter, -strip_height(strip), second_line(strip)
    left, right = ("first_rail", "second_rail") if second > 0 else ("second_rail", "first_rail")
    if strip.has("upper_rail"):
        for row in strip.heights:
            _tell_height(view, row, left, 0.0 if left == "first_rail" else second, "left", unit)
            _tell_height(view, row, right, 0.0 if right == "first_rail" else second, "right", unit)
        view.note((-half, 0), "leg's top", "left")
    tell_lines(view, strip, foot)
    end = foot if lengths == "below" else 0.0
    view.dimension((0, end), (second, end), f"a quarter {found(strip, 'quarter', unit)}", lengths)
    view.dimension((-half, end), (half, end), f"once round {found(strip, 'girth', unit)}", lengths)


def tell_lines(view, strip, foot):
    """Which line is which, half way down the strip."""
    second = second_line(strip)
    view.note((0, foot / 2), "first rail", "left" if second > 0 else "right")
    view.note((second, foot / 2), "second rail", "right" if second > 0 else "left")


def _tell_height(view, row, rail, x, side, unit):
    """One mark's height below the leg's top, beside its own line."""
    down = getattr(row, rail)
    view.note((x, -down), length_in_full(down, unit).replace(" (", "\n("), side)
