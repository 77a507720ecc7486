"""Read and write shop measures: the one place where text becomes a number, and a number text.

A measure is read exactly (as a Fraction) and becomes a float only at the end, so 17 3/8 in is 441.325 mm and
not a hair less. Each kind of measure has a base unit in which the floats of the whole project are kept:
length mm, angle rad, mass kg, force N, stress MPa, surface square metres, volume litres, temperature degC, percent a
plain ratio (12 % is 0.12).

pint takes a third of a second to load, so it is loaded only when a Quantity is made.

>>> plain("length", "17 3/8 in")
441.325
>>> write(441.325, "length", "in", "1/32 in")
'17 3/8 in'
"""

from shoplib.measure.kinds import MeasureError
from shoplib.measure.measures import angle, force, length, mass, percent, plain, stress, surface, temperature, volume
from shoplib.measure.quantities import quantity, registry
from shoplib.measure.text import reading
from shoplib.measure.writing import nearest, show, write

__all__ = [
    "MeasureError", "angle", "force", "length", "mass", "nearest", "percent", "plain", "quantity", "reading",
    "registry", "show", "stress", "surface", "temperature", "volume", "write",
]  # fmt: skip
