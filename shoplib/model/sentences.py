"""The sentences of the house: why a shape cannot be made, and what should worry you."""

from shoplib.model.writing import FINE, LENGTH_STEPS, write_value


def capital(words):
    """Words as they begin a line or a sentence; what comes after the first letter stays as it is.

    >>> capital("V's bottom to leg's centre"), capital("dowel hole")
    ("V's bottom to leg's centre", 'Dowel hole')
    """
    return words[:1].upper() + words[1:]


def headed(words):
    """A size's name before a sentence about it, so that none has to agree with it.

    >>> headed("between the dowels")
    'Between the dowels:'
    """
    return f"{capital(words)}:"


class Told:
    """A sentence with lengths in it, told in the unit that the reader works in.

    The lengths are floats in mm and fill the braces of the sentence in order. A length may bring the
    steps it is written in, as (length, step, inch step), so that it reads as it does in a table.

    >>> Told("The wall is {}.", 25.4).tell("in")
    'The wall is 1 in.'
    >>> Told("It gapes {}.", (9.213, "0.1 mm", "1/64 in")).tell()
    'It gapes 9.2 mm.'
    """

    def __init__(self, sentence, *lengths, input=None):
        self.sentence, self.lengths, self.input = sentence, lengths, input

    def tell(self, unit="mm"):
        if not self.lengths:
            return self.sentence  # may quote what a person typed, braces too
        return self.sentence.format(*(_told(value, unit) for value in self.lengths))

    def __str__(self):
        return self.tell()


def _told(value, unit):
    """A length in a sentence; a small one that the usual step would spoil is written more finely."""
    if type(value) is tuple:
        return write_value(value[0], "length", unit, *value[1:])
    steps, small = (value / 25.4 * 64, 6.35) if unit == "in" else (value * 10, 10.0)
    is_fine = abs(value) < small and abs(steps - round(steps)) > 0.05
    return write_value(value, "length", unit, *(FINE["length"] if is_fine else LENGTH_STEPS))


class ShapeError(Told, ValueError):
    """These sizes cannot be made: says which, how big, what the limit is and what to change."""

    def __init__(self, sentence, *lengths, input=None):
        Told.__init__(self, sentence, *lengths, input=input)
        ValueError.__init__(self, sentence, *lengths)


class Caution(Told):
    """It can be made but should worry you: a sentence, the input it hangs on and its source."""

    def __init__(self, sentence, *lengths, input, source="common practice"):
        super().__init__(sentence, *lengths, input=input)
        self.source = source

    def __repr__(self):
        return f"Caution({self.tell()!r}, source={self.source!r})"
