"""The whole stand: every size once, its operations and their order, what was made, and what it all comes to."""

from shoplib.maths.the_stand.finish import Finish
from shoplib.maths.the_stand.seedling import seedling_stand, stand_parts
from shoplib.maths.the_stand.squareness import Squareness
from shoplib.maths.the_stand.stand import Stand

__all__ = ["Finish", "Squareness", "Stand", "seedling_stand", "stand_parts"]
