"""Squareness by diagonals: by what angle a frame leans, and whether its sides are what they should be."""

from shoplib.maths.functions import asin, sin, sqrt
from shoplib.model import Caution, Input, Model, ShapeError, model, result
from shoplib.model import length as size  # `length` is an input's name here

SIDES_OUT = 1.0  # mm of the mean diagonal: what careful measuring of two sides and two diagonals may come to
SKEW = 0.15  # degrees: what shows, and strains the last joints


@model
class Squareness(Model):
    """Four legs seen from above: two sides and two diagonals, from leg centre to leg centre.

    Measured from outside to outside of the legs: less one leg's diameter.

    >>> frame = Squareness("360 mm", "360 mm", "510.5 mm", "507.7 mm")
    >>> frame.tell("skew", "target", "shift")
    leans by                   0.32 deg
    both diagonals, once true  509.1 mm
    far side shifted by        2.0 mm
    """

    TABLE_HEAD = "It comes to"

    length: Input = size(
        "length", "l", low="100 mm", high="2000 mm", step="1 mm", inch_step="1/16 in", tolerance="0.5 mm",
        help="Leg centre to leg centre, along the longer side.", group="Sides",
    )
    width: Input = size(
        "width", "w", low="100 mm", high="2000 mm", step="1 mm", inch_step="1/16 in", tolerance="0.5 mm",
        help="Leg centre to leg centre, along the shorter side.", group="Sides",
    )
    diagonal_1: Input = size(
        "first diagonal", "d_1", low="100 mm", high="3000 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.5 mm",
        help="Leg centre to leg centre, front left to back right.", group="Diagonals",
    )
    diagonal_2: Input = size(
        "second diagonal", "d_2", low="100 mm", high="3000 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.5 mm",
        help="Leg centre to leg centre, front right to back left.", group="Diagonals",
    )

    def check(self):
        if abs(self.diagonal_1**2 - self.diagonal_2**2) >= 4 * self.length * self.width:
            raise ShapeError(
                "Diagonals of {} and {} do not belong to sides of {} and {}: measure again.",
                self.diagonal_1, self.diagonal_2, self.length, self.width, input="diagonal_1",
            )

    def on_card(self):
        return ("target", "skew", "shift", "mean_diagonal")

    @result("leans by", "alpha", kind="angle", checks="diagonal_1")
    def skew(self):
        """What the corner at the front lacks to a right angle; positive where the first diagonal is the longer.

        Law of cosines: the squares of a parallelogram's diagonals differ by 4 l w sin of that angle.
        """
        return asin((self.diagonal_1**2 - self.diagonal_2**2) / (4 * self.length * self.width))

    @result("both diagonals, once true", "d_0", checks="length")
    def target(self):
        """What both diagonals measure when the frame is a rectangle."""
        return sqrt(self.length**2 + self.width**2)

    @result("far side shifted by", "s")
    def shift(self):
        """How far the back side stands along itself from where it should; positive where the first diagonal is longer.

        A clamp along the longer diagonal draws it back.
        """
        return self.width * sin(self.skew)

    @result("diagonals, root of their mean square", "d_m")
    def mean_diagonal(self):
        """What both diagonals would be if the same sides stood square: the same as the target, if the sides are true.

        Parallelogram law: the squares of both diagonals make twice the squares of both sides.
        """
        return sqrt((self.diagonal_1**2 + self.diagonal_2**2) / 2)

    def worries(self):
        out = self.mean_diagonal - self.target
        if abs(out) > SIDES_OUT:
            yield Caution(
                "These diagonals belong to other sides: squared, they would be {}, not {}. A side is wrong, not the "
                "angle: measure the sides before you clamp.", self.mean_diagonal, self.target, input="length",
                source="geometry",
            )
        if abs(self.skew) > SKEW * self.pi / 180:
            longer = "first" if self.skew > 0 else "second"
            yield Caution(
                f"The {longer} diagonal is too long: draw it in with a clamp until both measure {{}}, while the glue "
                "is open.", self.target, input=f"diagonal_{1 if self.skew > 0 else 2}",
            )
