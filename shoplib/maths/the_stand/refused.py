"""All that refuses a stand's sizes at once: a model's own check stops at the first."""

from shoplib.maths.the_stand import limits
from shoplib.maths.the_stand.made import checked
from shoplib.maths.the_stand.operations import OPERATIONS
from shoplib.model import ShapeError


def refusals(cls, values):
    """Why these plain sizes cannot be made: a ShapeError for each operation that refuses them, with its lesson.

    Where the whole refuses them, that one alone: then no operation can be asked.

    >>> from shoplib import Stand, seedling_stand
    >>> wide = seedling_stand().values | {"caster_hole": 40.0, "rail_thickness": 12.0}
    >>> [error.tell().partition(":")[0] for error in refusals(Stand, wide)]
    ['Shorten and bore the legs with casters (lesson 07)', 'Drill and drive the sliding screws (lesson 08)']
    """
    stand, found = cls.Stand(values), {}
    try:
        limits.check(stand)
    except ShapeError as error:
        return (error,)
    for operation in OPERATIONS.values():
        if operation.of(stand):
            try:
                checked(stand, operation, stand)
            except ShapeError as error:
                found.setdefault((operation.lesson, error.sentence.partition("): ")[2], error.lengths), error)
            except (ArithmeticError, ValueError):
                continue  # what it is filled from is refused by another one
    return tuple(found.values())
