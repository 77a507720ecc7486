"""What rectangular and round rails share where they meet a round leg."""

from shoplib.model import Caution, ShapeError

BLUNT = 30  # degrees: a tip sharper than this is called out

LEG = dict(
    words="leg diameter", symbol="D", low="20 mm", high="120 mm", step="0.5 mm", inch_step="1/32 in",
    tolerance="0.3 mm", help="Across the round leg, measured where the rail meets it.",
)


def check_count(n):
    """How many points were asked for: two or more."""
    if isinstance(n, bool) or not isinstance(n, int) or not 2 <= n <= 10_000:
        raise ShapeError(f"Ask for a whole number of points from 2 to 10000, not {str(n)[:30]!r}.")


def check_meets(cope, reach, name):
    """The rail must meet the leg over its whole width: its furthest edge, `reach` off the middle, inside the leg."""
    if reach >= cope.leg_diameter / 2:
        raise ShapeError(
            "The rail misses the leg: its edge stands {} off the leg's centre line, and the leg ends at {}. "
            "Take a smaller rail, less offset or a thicker leg.", reach, cope.leg_diameter / 2, input=name,
        )


def worries_tip(cope, reach, name):
    """A thin tip breaks: its angle is that between the rail's side and the leg's skin."""
    from math import acos, degrees

    sharp = degrees(acos(reach / (cope.leg_diameter / 2)))
    if sharp < BLUNT:
        yield Caution(
            f"The tips come to an edge of only {sharp:.0f} deg, which chips and crushes easily: take a thinner rail, "
            "less offset or a thicker leg.", input=name,
        )
