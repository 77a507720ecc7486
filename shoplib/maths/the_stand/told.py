"""What a step needs and no card of its own tells: sizes of the stand, and words that say which piece or which side."""

from typing import NamedTuple

from shoplib.maths.the_stand.operations import has_bar, has_mitres
from shoplib.maths.the_stand.parts import panel_sawn, panel_side


class Size(NamedTuple):
    """A length reckoned from the stand's sizes, with its words; `when` says whether a stand has it."""

    words: str
    formula: object
    when: object = None


BELOW_TOP = Size("bar's middle, below the legs' tops", lambda stand: stand.stand_height - stand.bar_height, has_bar)
ARMS = BELOW_TOP._replace(when=has_mitres)

# Names are those of the stand's own sizes and results.
SIZES = {
    "buy": ("moisture_made",),
    "height": ("rim_height",),
    "sawn": (
        Size("outside, sawn to Ø", lambda stand: stand.tray_diameter + 2 * stand.trim_margin),
        Size("inside, sawn to Ø", lambda stand: stand.rim_inside - 2 * stand.trim_margin),
    ),
    "first_trim": ("rebate_width", "rebate_depth"),
    "panels_glued": (
        Size("glued up, along and across the grain", panel_side), "panel_thickness",
    ),
    "panel_cut": (Size("sawn round to Ø", panel_sawn),),
    "heights": (BELOW_TOP,),
    "leg_holes": (ARMS,),
    "stub_holes": (BELOW_TOP,),
    "dry": ("legs_clear",),
    "side_frames": ("legs_clear",),
    "lower_tray": ("way_in_tilt", "way_in_spare"),
}  # fmt: skip


def _ends(stand):
    """Which end is the front: the one away from two casters, which has the bar where there is one."""
    front = "The front is the end with the bar" if has_bar(stand) else "Choose the front"
    return f"{front}; the two casters go under the back legs." if stand.casters == 2 else f"{front}."


def _of_mitres(words):
    return lambda stand: words if has_mitres(stand) else ""


WORDS = {
    "first_trim": "The template's screws may go only where the rebate takes the wood away, and no deeper.",
    "ring_on": "One spot at each end of the panel's grain centre line, where it does not move, and nowhere else.",
    "legs_numbered": _ends,
    "leg_holes": _of_mitres(
        "For the arms of the bar each of the two front legs gets one more dowel hole, on the side away from its second "
        "rail: the strip's dashed line."
    ),
    "arms_coped": _of_mitres(
        "Glue alone does not hold a cope: while the arm's end is still square bore it on its axis for a dowel, as the "
        "rails are."
    ),
    "bar_on": _of_mitres("Each arm goes on its leg with a dowel and glue."),
    "stub_holes": "The two front legs, on the side away from their second rail: the strip's dashed line.",
    "legs_shortened": lambda stand: "The two back legs." if stand.casters == 2 else "",
    "counterbores": "In the rails across the panel's grain: the first rails, where the grain runs from front to back.",
    "side_frames": "A side frame is a front leg and a back leg with the second rails between them.",
    "lower_tray": "On its edge, between two legs; the lean is from upright.",
}


def sizes_of(step, stand):
    """Of a step, by its name: what it needs of a solved stand, names and Sizes."""
    return [each for each in SIZES.get(step, ())
            if type(each) is str or each.when is None or each.when(stand)]  # fmt: skip


def words_of(step, stand):
    """Of a step, by its name: which piece or side it is about; nothing where that is clear."""
    found = WORDS.get(step, "")
    return found(stand) if callable(found) else found
