"""What a wrapped strip cannot mark, and what should worry you about its marks."""

from shoplib.model import Caution, ShapeError

MISS = 2.0  # mm beside the far leg's centre: more shows, and strains the joint


def check(strip):
    """A slip stays near its own quarter; rails lie below one another, and their dowels within them."""
    half_way = strip.girth / 8
    for name, slip in (("strip_error", strip.strip_error), ("line_drift", strip.line_drift)):
        if slip >= half_way:
            raise ShapeError(
                "A mark {} off its line stands half way to the next quarter, {} from it, or beyond: nobody could tell "
                "which it belongs to. Mark anew.", slip, strip.quarter, input=name,
            )
    if strip.has("rail_height"):
        _check_dowels(strip)
    if strip.has("upper_rail") and strip.has("lower_rail"):
        below = strip.upper_rail + (strip.rail_height if strip.has("rail_height") else 0.0)
        if strip.lower_rail <= below:
            raise ShapeError(
                "The lower rail would begin {} below the leg's top, but the upper one reaches down to {}. Set the "
                "lower rail lower.", strip.lower_rail, below, input="lower_rail",
            )


def _check_dowels(strip):
    if not strip.has("dowel_edge"):
        return
    lowest = strip.dowel_edge + strip.stagger + (strip.dowel_spacing if strip.has("dowel_spacing") else 0.0)
    if lowest >= strip.rail_height:
        raise ShapeError(
            "The lowest hole would lie {} below the rail's upper edge, and the rail is {} high. Move the holes up or "
            "take a higher rail.", lowest, strip.rail_height, input="dowel_edge",
        )


def worries(strip):
    """The cautions."""
    if strip.rail_miss > MISS:
        yield Caution(
            "A mark {} out sends the second rail {} beside the far leg's centre: fold the strip, mark with a knife, "
            "and check with dry dowels as pointers before you drill.",
            strip.strip_error, (strip.rail_miss, "0.1 mm", "1/64 in"), input="strip_error",
        )
    if strip.lower_miss > MISS:
        yield Caution(
            "The line along the leg drifts by {}: the lower rail points {} beside the far leg's centre while the "
            "upper one points right. Draw the line with the leg in a cradle.",
            strip.line_drift, (strip.lower_miss, "0.1 mm", "1/64 in"), input="line_drift",
        )
    if strip.paper_thickness > 0.5:
        yield Caution(
            "A strip {} thick is stiff card: it does not lie close round a leg. Take thinner paper.",
            strip.paper_thickness, input="paper_thickness",
        )
    if strip.has("upper_rail") and strip.has("dowel_edge") and not strip.has("rail_height"):
        yield Caution(
            "Without the rail's height nothing tells whether the dowels lie within the rail: give it.",
            input="rail_height", source="this lesson",
        )
