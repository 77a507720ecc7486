"""Sizes of a screw, its rail and its panel that suit one another, drawn over the whole declared ranges.

Of sizes drawn each for itself hardly one set in a hundred can be made. Here each is drawn between what the declared
range and the sizes before it leave; so all can be made, and every end of every range still comes up.
"""

from hypothesis import strategies as st

from shoplib.maths.screws.panel_screw import TIMBERS, PanelScrew

INPUTS = PanelScrew.inputs()
HAIR = 0.01  # mm kept from what can just no longer be made


@st.composite
def possible_screws(draw):
    """Keyword arguments of a PanelScrew that can be made."""

    def between(name, low=None, high=None):
        """A size over its declared range, kept between low and high; the ends of that every other time."""
        item = INPUTS[name]
        low = item.low if low is None else max(item.low, low)
        high = item.high if high is None else min(item.high, high)
        assert low <= high, f"nothing is left for {name}"
        return draw(st.floats(low, high) | st.sampled_from([low, high]))

    longest, shortest = INPUTS["screw_length"].high, INPUTS["screw_length"].low
    sizes = {name: between(name) for name in ("rail_height", "panel_thickness", "washer_thickness", "shank_diameter")}
    high, thick, washer, shank = sizes.values()
    deepest = min(high - HAIR, high + washer + thick - shortest - 2 * HAIR)
    sizes["counterbore_depth"] = between("counterbore_depth", high + washer - longest + 2 * HAIR, deepest)
    below = high - sizes["counterbore_depth"] + washer  # what of the screw is below the panel
    sizes["screw_length"] = between("screw_length", below + HAIR, below + thick - HAIR)
    sizes["root_diameter"] = between("root_diameter", high=shank)
    sizes["head_diameter"] = between("head_diameter", shank + HAIR)
    sizes["washer_diameter"] = between("washer_diameter", sizes["head_diameter"]) if draw(st.booleans()) else None
    bears = sizes["washer_diameter"] or sizes["head_diameter"]
    sizes["hole_diameter"] = between("hole_diameter", shank, bears - HAIR)
    sizes["rail_thickness"] = between("rail_thickness", bears + sizes["hole_diameter"] - shank + HAIR)
    sizes |= {name: between(name) for name in ("from_fixed", "lead_short", "made", "dry")}
    sizes["damp"] = between("damp", sizes["dry"])
    words = {"species": draw(st.sampled_from(TIMBERS)), "cut": draw(st.sampled_from(["flat", "quarter"]))}
    return {name: _typed(name, size) for name, size in sizes.items()} | words


def _typed(name, size):
    """A size as a person would type it, finely enough to stay between its limits."""
    if size is None:
        return None
    return f"{100 * size:.6f} %" if INPUTS[name].kind == "percent" else f"{size:.6f} mm"
