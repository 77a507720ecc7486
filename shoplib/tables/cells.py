"""Cells of a table that a spreadsheet may open: none of them is taken for a formula there."""

# What a spreadsheet may take for the beginning of a formula, or of its cell; the signs of full width too.
FORMULA = tuple("=+-@\uff1d\uff0b\uff0d\uff20\t\r\n")


def harmless(cell):
    """A cell that no spreadsheet takes for a formula.

    >>> print(harmless('=HYPERLINK("x")'), harmless("440 mm"))
    '=HYPERLINK("x") 440 mm
    """
    return "'" + cell if cell.startswith(("'", *FORMULA)) or cell.lstrip().startswith(FORMULA) else cell


def as_typed(cell):
    """What was typed, from the cell that was made harmless.

    >>> as_typed(harmless("-1 mm")), as_typed(harmless("'quoted'")), as_typed("440 mm"), as_typed("'old' ash")
    ('-1 mm', "'quoted'", '440 mm', "'old' ash")
    """
    typed = cell.removeprefix("'")
    return typed if harmless(typed) != typed else cell
