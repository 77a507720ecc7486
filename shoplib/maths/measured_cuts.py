"""What a cut that was made and measured tells of the jig that made it."""

from typing import NamedTuple

from shoplib import measure
from shoplib.model import Facts


class Groove(NamedTuple):
    """What one groove tells of the jig that cut it."""

    cutter_diameter: object
    pivot: object

    def facts(self):
        """In words, in both units, as a small table."""
        return Facts([("the cutter really cuts", _both(self.cutter_diameter)), ("the pivot is at", _both(self.pivot))])

    def __repr__(self):
        return repr(self.facts())

    def _repr_html_(self):
        return self.facts()._repr_html_()


def _both(size):
    """A measured length as calipers show it, in mm and in inches."""
    return f"{measure.show(size, 'mm', '0.01 mm')} ({measure.show(size, 'in', '0.001 in')})"
