"""What the seasons do to a ring of solid wood: boards make it oval, mitred staves open their joints."""

import math

from shoplib import measure
from shoplib.maths.movement import coefficient, moved, swelling
from shoplib.maths.stave_rings import StaveRing
from shoplib.model import Facts, write_value

HEAD = ("", "as made", "dry season", "damp season")


def mitre_now(mitre, growth):
    """The mitre that an end cut at `mitre` has when the stave grew across its grain by the share `growth`.

    Along the grain nothing moves, so the end still slants by as much over a width that has changed:
    tan(now) = tan(mitre) / (1 + growth). Angles in rad.

    >>> round(math.degrees(mitre_now(math.radians(15), 0.01096)), 3)
    14.845
    """
    return math.atan(math.tan(mitre) / (1 + growth))


def ring_seasons(ring, species, cut, made, dry, damp, unit="mm"):
    """How a ring of lesson 02 stands as made, in the dry and in the damp season: a small table that shows itself.

    A `HollowBlank` has one grain direction: its ring grows across the grain and not along it. A `StaveRing` has its
    grain all round: each stave grows in width only, which turns both its mitres, just as a saw set wrong by that angle
    would have (too shallow in the damp, too steep in the dry). `cut` is that of its boards: "flat" ones move in
    width with the tangential coefficient, "quarter" ones with the radial (Wood Handbook Table 13-5).

    >>> from shoplib import HollowBlank
    >>> boards = HollowBlank("440 mm", "400 mm", "60 mm")
    >>> ring_seasons(boards, "Ash, white", "flat", "8 %", "6 %", "12 %").rows[1]
    ('across, square to the grain', '440.0 mm', '437.6 mm', '444.8 mm')
    """
    start, *later = (measure.plain("percent", each) for each in (made, dry, damp))
    per_cent = coefficient(species, cut)
    rows = _staves if isinstance(ring, StaveRing) else _boards
    return Facts(rows(ring.plain, per_cent, start, (start, *later), unit), head=HEAD)


def _boards(ring, per_cent, made, contents, unit):
    """A ring of boards: its diameter along the grain and across, and the difference."""
    along = ring.outside_diameter
    across = [moved(along, per_cent, made, now) for now in contents]
    yield "across, along the grain", *(_length(along, unit) for _ in contents)
    yield "across, square to the grain", *(_length(each, unit) for each in across)
    yield "longer one way by", *(_length(abs(each - along), unit) for each in across)


def _staves(ring, per_cent, made, contents, unit):
    """A ring of staves: its mitres, and what each joint opens where the ring's width allows it on one side only."""
    cut_at, width = math.pi / ring.staves, (ring.outside_diameter - ring.inside_diameter) / 2
    growths = [swelling(per_cent, made, now) for now in contents]
    mitres = [mitre_now(cut_at, each) for each in growths]
    gaps = [joint_opens(width, cut_at, each) for each in growths]
    yield "mitre of each end", *(measure.write(each, "angle", "deg", "0.01 deg") for each in mitres)
    yield "each joint opens by", *(_fine(abs(each), unit) for each in gaps)
    yield "on the ring's", *(_side(each) for each in gaps)


def joint_opens(ring_width, mitre, growth):
    """What each joint of a finished ring of staves opens when all share alike: outside positive, inside negative.

    Two ends, each as long as the joint, meet at one tip; each has turned by as much as its mitre has.

    >>> round(joint_opens(20.0, math.radians(15), 0.01096), 3)
    0.11
    """
    face = ring_width * math.hypot(math.sin(mitre), math.cos(mitre) * (1 + growth))
    return 2 * face * math.sin(mitre - mitre_now(mitre, growth))


def _side(opens):
    """The side on which a joint opens, in words."""
    return "—" if abs(opens) < 1e-9 else "outside" if opens > 0 else "inside"


def _length(value, unit):
    return write_value(value, "length", unit, "0.1 mm", "0.01 in")


def _fine(value, unit):
    return write_value(value, "length", unit, "0.01 mm", "0.001 in")
