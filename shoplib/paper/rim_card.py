"""The card of a measured rim: its points, the circle that fits them best, how far each point is off it, the verdict."""

import datetime

from shoplib.drawing.rims import draw_rim, write_out
from shoplib.maths.rims import trusted
from shoplib.model import FOUND, LENGTH_STEPS, in_full, write_value
from shoplib.paper.card import write_card
from shoplib.paper.contents import Contents, Plan
from shoplib.paper.files import joined, named, paper_size
from shoplib.paper.imprint import Imprint, mark

HEAD = ("point", "across", "up", "off")


def save_rim_card(points, circle, verdict, unit="mm", paper="A4", folder=None, numbers=None, date=None):
    """Write the card of points (x, y) and their fitted RimCircle, all floats in mm, and return its path.

    `verdict` is the sentence on whether a point looks wrong, `numbers` what the points are called. Raises ValueError
    for another paper and PrintoutError (an OSError) where the file cannot be written.
    """
    paper_size(paper)
    numbers = tuple(numbers or range(1, len(points) + 1))
    imprint = _imprint(points, numbers, unit, date)
    across = joined(write_value(2 * trusted(points, circle).radius, "length", unit, *LENGTH_STEPS))
    kind = ["measured-rim", f"{len(points)}-points", f"{across}-across", imprint.mark, f"card_{paper}.pdf"]
    sheet = draw_rim(points, circle, unit, numbers)
    return write_card(_contents(sheet, imprint, points, circle, numbers, verdict), sheet, named(kind, folder), paper)


def _imprint(points, numbers, unit, date):
    sizes = tuple(
        (f"point {number}", f"{_size(x, unit)} across, {_size(y, unit)} up") for number, (x, y) in zip(numbers, points)
    )
    exactly = [f"{number}: {x + 0.0:.12g} {y + 0.0:.12g}" for number, (x, y) in zip(numbers, points)]
    return Imprint(sizes, mark("measured rim", *exactly), unit, date or datetime.date.today())


def _contents(sheet, imprint, points, circle, numbers, verdict):
    unit, best = imprint.unit, trusted(points, circle)
    found = ((FOUND, _sizes(best, unit)),)
    if circle.suspect:
        wrong = numbers[circle.suspect - 1]
        found = (f"Without point {wrong}", _sizes(best, unit)), (f"With point {wrong} too", _sizes(circle, unit))
    rows = tuple(
        (str(number), _size(across, unit), _size(up, unit), write_out(off, unit))
        for number, (across, up), off in zip(numbers, points, best.residuals)
    )
    which = f"the circle without point {wrong}" if circle.suspect else "the circle"
    plan = Plan(f"Points, and how far each is off {which}: + outside it, − inside", HEAD, rows, rows)
    told = ("Verdict", verdict), ("How to do it", sheet.use)
    return Contents(sheet.title, imprint, (), found, plans=(plan,), told=told)


def _sizes(circle, unit):
    (x, y), radius = circle.centre, circle.radius
    sizes = (("centre across", x), ("centre up", y), ("diameter", 2 * radius), ("radius", radius))
    return tuple((words, _size(value, unit)) for words, value in sizes)


def _size(value, unit):
    return in_full(write_value(float(value), "length", unit, *LENGTH_STEPS), float(value), "length", unit)
