"""The room that a hand needs behind a bar."""

from shoplib.model import Caution

HAND = 38.1  # mm: 1 1/2 in, between a grab bar and its wall
SOURCE = "2010 ADA Standards, 609.3, of grab bars"


def tight_for_a_hand(room, name):
    """Yield a Caution where the clear room between leg and bar is too little; 38 mm count as enough."""
    if room < 38 - 1e-9:
        yield Caution(
            "A hand room of {} is tight for a hand: leave at least {}.", room, HAND, input=name, source=SOURCE
        )
