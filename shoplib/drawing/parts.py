"""Small parts that several topics draw or write the same way."""

from shoplib.model import answer, answer_in_full


def found(plain, name, unit):
    """A result written for a drawing, or a dash where it has none."""
    return answer(plain, name, unit)[0]


def found_in_full(plain, name, unit):
    """The same, in inches with the decimal in brackets where the fraction is not exact."""
    return answer_in_full(plain, name, unit)[0]


def told_results(plain, names, unit):
    """Results in words, one after the other, for whoever does not see the drawing."""
    results = plain.model.results()
    return " ".join(f"{results[name].words}: {found_in_full(plain, name, unit)}." for name in names)


def given(plain, name, unit):
    """An input written for a drawing."""
    return plain.model.inputs()[name].write(getattr(plain, name), unit)


def centre_lines(view, half, centre=(0, 0)):
    """Two crossed centre lines that reach `half` to each side of the centre."""
    view.cross("centre", centre, half)
