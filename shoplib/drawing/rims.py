"""The plate of a measured rim: its points, the circle that fits them best, and how far each point is off it."""

import math

from shoplib.drawing.finding_the_centre import on
from shoplib.drawing.sheet import Sheet
from shoplib.maths.rims import trusted
from shoplib.model import length_in_full, write_value

USE = (
    "Across is measured from the upright edge, up from the level one; the centre lies where it is told from the same "
    "two edges. "
)
MARK = "Mark it, and check it with compasses at every point before you drill."
STEPS = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000)


def draw_rim(points, circle, unit="mm", numbers=None):
    """Draw points (x, y) and their fitted RimCircle, all floats in mm; the points may bring numbers of their own.

    Where a point looks wrong, the circle without it is drawn, and every point's distance off that.

    >>> from shoplib.maths.rims import plain_fit
    >>> points = [(0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0)]
    >>> draw_rim(points, plain_fit(points)).title
    'Circle through a measured rim'
    """
    numbers, circle = numbers or range(1, len(points) + 1), trusted(points, circle)
    sheet = Sheet("Circle through a measured rim", _spoken(points, circle, unit, numbers), use=_use(circle, numbers))
    times = enlarged(circle)
    x, y = circle.centre
    said = without(circle, numbers)
    title = f"{said}{'centre' if said else 'Centre'} {write(x, unit)} across, {write(y, unit)} up"
    view = sheet.view(title + (f"; out of round enlarged {times} times" if times > 1 else ""))
    view.circle("joint", circle.centre, circle.radius)
    _edges(view, points, circle)
    _points(view, zip(numbers, points, circle.residuals), circle, times, unit)
    view.cross("centre", circle.centre, 0.12 * circle.radius)
    text = f"diameter {write(2 * circle.radius, unit)}"
    view.dimension((x - circle.radius, y), (x + circle.radius, y), text, "above")
    return sheet


def _use(circle, numbers):
    """How the centre is marked; where a point looks wrong, what comes before that."""
    if circle.suspect:
        return f"{USE}Do not mark it yet: measure point {numbers[circle.suspect - 1]} again, and print this card anew."
    return USE + MARK


def without(circle, numbers):
    """What is said before a circle that one point was left out of.

    >>> from shoplib.maths.rims import RimCircle
    >>> without(RimCircle((0.0, 0.0), 5.0, suspect=2), [4, 7, 9])
    'Without point 7: '
    """
    return f"Without point {numbers[circle.suspect - 1]}: " if circle.suspect else ""


def write(value, unit):
    """A size of the rim as it is told everywhere: to a tenth of a millimetre, or a 64th with its decimal."""
    return length_in_full(float(value), unit)


def write_out(value, unit):
    """How far a point is off the circle, with its sign."""
    text = write_value(abs(float(value)), "length", unit, "0.1 mm", "0.01 in")
    if text == write_value(0.0, "length", unit, "0.1 mm", "0.01 in"):
        return text
    return ("+" if value > 0 else "−") + text


def _spoken(points, circle, unit, numbers):
    x, y = (write(each, unit) for each in circle.centre)
    said = without(circle, numbers)
    off = max(abs(each) for place, each in enumerate(circle.residuals, 1) if place != circle.suspect)
    words = (
        f"{len(points)} points measured on a rim. {said}{'the' if said else 'The'} circle that fits best has its "
        f"centre at {x} across and {y} up, diameter {write(2 * circle.radius, unit)}. "
        f"No {'other ' if circle.suspect else ''}point is further off it than {write(off, unit)}."
    )
    return words + (f" Point {numbers[circle.suspect - 1]} looks wrong." if circle.suspect else "")


def enlarged(circle):
    """How many times the residuals are drawn larger: as much as leaves the worst one a quarter of the radius."""
    worst = max(map(abs, circle.residuals))
    if worst < 1e-6 * circle.radius:
        return 1
    return max((step for step in STEPS if step * worst <= circle.radius / 4), default=1)


def _edges(view, points, circle):
    """The two edges that the points are measured from, where they are near enough to show."""
    (x, y), radius = circle.centre, circle.radius
    right = max(x + radius, *(px for px, _ in points))
    top = max(y + radius, *(py for _, py in points))
    if 0 <= x - 0.5 * radius <= 2 * radius and 0 <= y - 0.5 * radius <= 2 * radius:
        view.line("edge", (0, 0), (right, 0))
        view.line("edge", (0, 0), (0, top))
        view.line("centre", (0, y), (x, y))
        view.line("centre", (x, 0), (x, y))


def _points(view, measured, circle, times, unit):
    for place, (number, point, off) in enumerate(measured, 1):
        angle = math.atan2(point[1] - circle.centre[1], point[0] - circle.centre[0])
        rim = on(angle, circle.radius, circle.centre)
        view.circle("mark", point, 0.028 * circle.radius)
        view.line("out", rim, on(angle, circle.radius + times * off, circle.centre))
        wrong = "  looks wrong" if place == circle.suspect else ""
        side = "right" if point[0] >= circle.centre[0] else "left"
        view.note(point, f"{number}:  {write_out(off, unit)}{wrong}", side)
