"""The stand-in that the formulas run on: its fields are floats, arrays, Quantities or symbols."""

import math

from shoplib.model.sentences import ShapeError


class Plain:
    """The stand-in that the bodies run on: inputs as attributes, results worked out when first asked."""

    pi = math.pi
    gravity = 9.80665  # N for each kg: standard gravity, 3rd CGPM 1901
    millimetre = megapascal = kilogram = litre = square_metre = 1  # for sizes that a formula brings itself
    model = None

    def __init__(self, values):
        self.__dict__.update((name, value) for name, value in values.items() if value is not None)

    def __getattr__(self, name):
        if self.model is not None and name in self.model.inputs():
            words = self.model.inputs()[name].words
            raise ShapeError(f"This needs the {words}, which was left out: give it.", input=name)
        raise AttributeError(name)

    def has(self, name):
        """Whether this optional input was given."""
        return name in self.__dict__

    def check(self):
        """Raise ShapeError where the sizes together cannot be made. Models say how."""

    def worries(self):
        """Yield the Cautions. Models say which."""
        return ()

    def on_card(self):
        """The names of the results that go on the bench card, in the order of use.

        All but the minor ones, as they are declared, unless a model says otherwise: it may leave out what these
        sizes have no use for. What has no meaning for them is left out in any case.
        """
        return tuple(name for name, item in self.model.results().items() if not item.minor)
