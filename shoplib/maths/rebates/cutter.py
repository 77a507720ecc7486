"""The cutter in a rebate: the rounds of a narrow one, bearings that cannot be, and what should worry you."""

from shoplib.maths.functions import whole
from shoplib.model import Caution, ShapeError

OVERLAP = 0.1  # of a narrow cutter: by so much a round runs into the round before it
MOST_ROUNDS = 50
SMALLEST_BEARING = 8.0  # mm: hardly any is sold below it
BEARING_HEIGHT = 6.0  # mm of wall that a bearing rolls on, its screw not counted
GEOMETRY = "the geometry of this page"


def rounds_inward(at_wall, width, cutter):
    """Pivots from the one at the wall inward in equal steps, until the cutter has cleared this width.

    >>> rounds_inward(216.0, 20.0, 8.0)
    (216.0, 210.0, 204.0)
    """
    if cutter >= width:
        raise ShapeError("One round clears the rebate.", input="cutter_diameter")
    if width > MOST_ROUNDS * cutter:
        raise ShapeError(
            "A cutter of {} is too narrow for a rebate {} wide: it must be over {}. Take a larger one.",
            cutter, width, width / MOST_ROUNDS, input="cutter_diameter",
        )
    left = width - cutter
    steps = whole(left / ((1 - OVERLAP) * cutter))
    return tuple(at_wall - left * (k / steps) for k in range(steps + 1))


def refuse_bearing(rebate, bearing):
    """Raise ShapeError where no bearing is left, or where it does not go into the ring."""
    if bearing <= 0:
        raise ShapeError(
            "A cutter of {} leaves no bearing for a rebate {} wide: it must be over {}. "
            "Take a larger cutter or a narrower rebate.",
            rebate.cutter_diameter, rebate.rebate_width, 2 * rebate.rebate_width, input="cutter_diameter",
        )
    if bearing >= rebate.inside_diameter:
        raise ShapeError(
            "A bearing of {} does not go into a ring {} across inside. Take a smaller cutter.",
            bearing, rebate.inside_diameter, input="cutter_diameter",
        )


def worries_of_the_cutter(rebate):
    """Cautions of the pivot or bearing; one that cannot be told says why here too, for paper has no other place."""
    if not rebate.has("cutter_diameter"):
        if rebate.guide == "bearing":
            yield Caution(
                "Without the cutter's diameter no bearing can be told: the two must differ by {}. Give the cutter.",
                2 * rebate.rebate_width, input="cutter_diameter", source=GEOMETRY,
            )
        return
    try:
        size = getattr(rebate, rebate.guide)
    except ShapeError as error:
        yield Caution(error.sentence, *error.lengths, input=error.input, source=GEOMETRY)
        return
    yield from _of_a_pivot(rebate, size) if rebate.guide == "pivot" else _of_a_bearing(rebate, size)


def _of_a_pivot(rebate, pivot):
    if pivot <= rebate.cutter_diameter / 2:
        yield Caution(
            "With its centre only {} from the pivot, a cutter of {} sweeps over the pivot itself: take a smaller one.",
            pivot, rebate.cutter_diameter, input="cutter_diameter", source=GEOMETRY,
        )


def _of_a_bearing(rebate, bearing):
    if bearing < SMALLEST_BEARING:
        yield Caution(
            "Bearings as small as {} are hardly sold: take a larger cutter or a narrower rebate.",
            bearing, input="cutter_diameter",
        )
    if rebate.lip < BEARING_HEIGHT:
        yield Caution(
            "In the last pass only {} of the inside wall is left for the bearing to roll on, and most are about {} "
            "high. Take a higher ring, or the pivot.", rebate.lip, BEARING_HEIGHT, input="ring_height",
        )
