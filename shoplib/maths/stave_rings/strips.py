"""Short strips: some of a ring's staves nested in one piece of board."""

from math import cos, pi


def strip_of(ring, staves):
    """Shortest square-ended strip that holds so many staves of a solved ring, in mm; all of them: its `strip_length`.

    >>> from shoplib import StaveRing
    >>> ring = StaveRing("440 mm", "400 mm", 12, margin="3 mm", kerf="3 mm").plain
    >>> round(strip_of(ring, 12) - ring.strip_length, 9), round(strip_of(ring, 3), 1)
    (0.0, 347.2)
    """
    mean, slant = (ring.long_edge + ring.short_edge) / 2, (ring.long_edge - ring.short_edge) / 2
    return staves * mean + (staves - 1) * ring.kerf / cos(pi / ring.staves) + slant
