"""Offers: sizes that are sold together and fill several inputs at once."""

from typing import NamedTuple


class Offer(NamedTuple):
    """What a list on the bench offers, such as screws by their number.

    `sizes` holds for each name the inputs that it fills, in mm, rad or kg; `group` is that of the inputs beside it.
    `in_inches` are the names of those that are sold where people measure in inches.
    """

    words: str
    help: str
    group: str
    sizes: dict
    in_inches: tuple = ()

    def fitting(self, values):
        """The name of the first one whose sizes are these values, or nothing: then they were typed.

        >>> Offer("rod", "", "", {"thin": {"width": 4.0}}).fitting({"width": 4.0, "length": 9.0})
        'thin'
        """
        for name, filled in self.sizes.items():
            if all(values[each] is not None and abs(values[each] - size) < 1e-9 for each, size in filled.items()):
                return name
        return None
