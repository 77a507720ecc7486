"""The year of a panel in its rebate, and of a screw that slides with it: with what they must not pass."""

import math
from typing import NamedTuple

from shoplib.drawing.plots import plot as look
from shoplib.drawing.plots.plot import WIDE, Plot, axes_at, text_at
from shoplib.maths.year import MONTHS, ROOM, RoomYear
from shoplib.measure import write
from shoplib.model import Facts, ShapeError, write_value

INCH = 25.4
HEAD, HIGH, FOOT, ROW = 118, 330, 74, 27  # px: above the axes, they themselves, months and moistures, a line of the key
LEFT, RIGHT = 96, 84  # px beside the axes
BELOW = {"textcoords": "offset points", "va": "baseline"}
DOT = {"marker": "o", "markersize": 9, "color": look.BLUE, "markeredgecolor": "white"}
PIECES = 8  # of a month, for the curve
DASHES = {"made": (9, 3, 2, 3), "dry": (6, 3), "damp": (2, 2)}
PENS = {name: {"linewidth": 2.4, "linestyle": (0, dashes)} for name, dashes in DASHES.items()}


class Wall(NamedTuple):
    """What a course must not pass: from here on there is wood; `way` is 1 upwards and -1 downwards."""

    at: float
    way: int
    words: str
    hatch: str = "//"


class Course(NamedTuple):
    """What goes through the year.

    Its title, what is measured and how, the length (mm) `at` a moisture content, how a length is told, the walls, the
    words of the day on which the panel was made, and whether a length is past a wall.
    """

    title: str
    words: str
    measured: str
    at: object
    tell: object
    walls: tuple
    begun: str
    passed: object


def plot_year(model, unit="mm", driest="February"):
    """Show how a panel's gap (PanelSeason) or a sliding screw's way (PanelScrew) goes through the twelve months.

    The air is that of an invented room at 21 °C, driest in the month `driest` and dampest half a year later, in which
    wood just comes to the model's dry and damp season; see `shoplib.maths.year`. The gap is that of the model at the
    two ends of the diameter across the grain; the screw's way is away from the fast screws. `unit`, "mm" or "in", is
    the table's and the left axis's; the right axis has the other one. Raises ShapeError for any other model.

    >>> from shoplib import PanelSeason
    >>> panel = PanelSeason("420 mm", "1 mm", "Ash, white", "flat", "8 %", "6 %", "12 %", ring="mitred")
    >>> print(*repr(plot_year(panel)).splitlines()[:4], sep="\\n")
    Gap round the panel through the year
    month      air     wood    gap on each side
    January    31.3 %  6.4 %   1.93 mm
    February   28.9 %  6.0 %   2.15 mm
    """
    plain = getattr(model, "plain", model)
    course = COURSES.get(getattr(getattr(plain, "model", None), "__name__", None))
    if course is None:
        raise ShapeError("A year is shown of a panel in its rebate (PanelSeason) or of a sliding screw (PanelScrew).")
    year, course = RoomYear(plain.dry, plain.damp, driest), course(plain)
    rows = [
        (month.name, _share(month.humidity), _share(month.moisture), course.tell(course.at(month.moisture), unit))
        for month in year.months()
    ]  # fmt: skip
    table = Facts(rows, head=("month", "air", "wood", course.words))
    key = _key(course, plain, unit)
    high = HEAD + HIGH + FOOT + ROW * (len(key) + 1) + 8
    return Plot(
        course.title, _spoken(course, year, unit), table, high,
        lambda figure: _paint(figure, course, year, key, unit),
    )  # fmt: skip


def _share(ratio):
    return write(ratio, "percent", "percent", "0.1 %")


def _told(size, unit):
    return write_value(size, "length", unit, "0.01 mm", "0.001 in")


# ---- what goes through the year -------------------------------------------------------------------------------------


def _at(plain, name):
    """The model's own result of the damp season, for any moisture."""
    values = {each: getattr(plain, each) if plain.has(each) else None for each in plain.model.inputs()}

    def found(moisture):
        return getattr(plain.model.solved(values | {"dry": moisture, "damp": moisture}), name)

    return found


def _panel(plain):
    walls = [Wall(0.0, -1, "no gap left: the panel presses into the ring")]
    loose = plain.rebate_width / 2 if plain.has("rebate_width") else math.inf
    if plain.gap_dry > 0.6 * loose:
        walls.append(Wall(loose, 1, "no lap left: slid over, the panel comes out from under the lip", "\\\\"))
    return Course(
        "Gap round the panel through the year", "gap on each side",
        "The gap is that at each end of the panel's diameter across its grain.",
        _at(plain, "gap_damp"), _tell_gap, tuple(walls), "as made",
        lambda gap: gap < -1e-9 or gap > loose + 1e-9,
    )  # fmt: skip


def _tell_gap(gap, unit):
    return _told(gap, unit) if gap >= 0 else f"too large by {_told(-gap, unit)}"


def _screw(plain):
    play = (plain.hole_diameter - plain.shank_diameter) / 2
    words = "the hole's side: no room for the screw beyond it"
    return Course(
        "Way of the sliding screw through the year", "screw has moved",
        "0 is the middle of the hole; up is outward, away from the fast screws.",
        _at(plain, "move_damp"), _tell_way, (Wall(play, 1, words), Wall(-play, -1, words)), "when screwed",
        lambda way: abs(way) > play + 1e-9,
    )  # fmt: skip


def _tell_way(way, unit):
    size = _told(abs(way), unit)
    return size if size == _told(0.0, unit) else f"{size} {'outward' if way > 0 else 'inward'}"


COURSES = {"PanelSeason": _panel, "PanelScrew": _screw}


def _key(course, plain, unit):
    """The lines of the key under the curve's own: words, size (None for a wall), colour, pen, and a wall's hatch."""
    seasons = (
        (course.begun, plain.made, look.BLACK, "made"),
        ("dry season", plain.dry, look.VERMILION, "dry"),
        ("damp season", plain.damp, look.GREEN, "damp"),
    )
    lines = [
        (f"{words}, wood at {_share(moisture)}: {course.tell(size, unit)}", size, colour, PENS[pen], None)
        for words, moisture, colour, pen in seasons
        for size in (course.at(moisture),)
    ]
    walls = {wall.words: wall.hatch for wall in course.walls}
    return lines + [(words, None, look.PURPLE, {"linewidth": 1.2}, hatch) for words, hatch in walls.items()]


def _air(year):
    low, high = (write(each, "percent", "percent", "1 %") for each in year.humidities)
    return (
        f"Air of an invented room: {ROOM:.0f} °C all year, relative humidity {low} in {MONTHS[year.driest]}, "
        f"{high} in {MONTHS[year.dampest]}."
    )


def _spoken(course, year, unit):
    """The picture in words: the air, both seasons, and the months in which a wall is passed."""
    months = year.months()
    dry, damp = (course.tell(course.at(months[k].moisture), unit) for k in (year.driest, year.dampest))
    passed = [month.name for month in months if course.passed(course.at(month.moisture))]
    warning = f"Past its limit in {_listed(passed)}." if passed else "Within its limits all year."
    return (
        f"{_air(year)} {course.measured} {course.words.capitalize()}: {MONTHS[year.driest]} {dry}, "
        f"{MONTHS[year.dampest]} {damp}, smooth between. {warning}"
    )


def _listed(names):
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


# ---- the picture ----------------------------------------------------------------------------------------------------


def _paint(figure, course, year, key, unit):
    axes = axes_at(figure, LEFT, HEAD, WIDE - LEFT - RIGHT, HIGH)
    times = [k / PIECES for k in range(-PIECES // 2, 12 * PIECES - PIECES // 2 + 1)]
    sizes = [course.at(year.moisture_at(time)) for time in times]
    marked = [size for _, size, *_ in key if size is not None]
    low, high = _range([*sizes, *marked, *(wall.at for wall in course.walls)])
    axes.set_xlim(times[0], times[-1])
    axes.set_ylim(low, high)
    _scales(axes, low, high, unit)
    _months(axes, year)
    for wall in course.walls:
        wood = {"facecolor": look.PALE, "edgecolor": look.PURPLE, "hatch": wall.hatch, "linewidth": 0}
        axes.axhspan(wall.at, high if wall.way > 0 else low, **wood)
        axes.axhline(wall.at, color=look.BLACK, linewidth=2.6)
    for _, size, colour, pen, _ in key:
        if size is not None:
            axes.axhline(size, color=colour, **pen)
    axes.plot(times, sizes, color=look.BLUE, linewidth=4)
    axes.plot(range(12), [course.at(month.moisture) for month in year.months()], linestyle="none", **DOT)
    text_at(figure, 12, 12, course.title, fontsize=look.HEADING, fontweight="bold")
    text_at(figure, 12, 42, _air(year), fontsize=look.SMALL)
    text_at(figure, 12, 64, course.measured, fontsize=look.SMALL)
    look.write_key(figure, LEFT, HEAD + HIGH + FOOT - 4, [
        (f"{course.words}; dots: the middle of each month", {"linewidth": 4, **DOT}, None),
        *((words, {"color": colour, **pen}, hatch) for words, _, colour, pen, hatch in key),
    ])  # fmt: skip


def _range(sizes):
    """Lowest and highest size in the picture, with a margin on both sides in which a wall can be seen."""
    spare = 0.14 * (max(sizes) - min(sizes) or 1.0)
    return min(sizes) - spare, max(sizes) + spare


def _scales(axes, low, high, unit):
    """Millimetres on one side, inches on the other: with grid lines for the unit that is read."""
    other = axes.twinx()
    other.set_ylim(low, high)
    for side, name, where in ((axes, unit, 0.0), (other, "in" if unit == "mm" else "mm", 1.0)):
        ticks = inch_ticks(low, high) if name == "in" else millimetre_ticks(low, high)
        side.set_yticks([size for size, _ in ticks], [text for _, text in ticks])
        side.tick_params(length=5, width=1.2)
        axes.annotate(
            name, (where, 1), xycoords="axes fraction", xytext=(-10 if where == 0 else 10, 8), fontweight="bold",
            textcoords="offset points", ha="right" if where == 0 else "left",
        )
    axes.grid(axis="y", color="#cccccc", linewidth=0.9)
    axes.set_axisbelow(True)


def millimetre_ticks(low, high, most=8):
    """Round millimetres between two sizes with their texts, `most` of them or fewer."""
    step = _round_step((high - low) / most)
    digits = max(0, -math.floor(math.log10(step) + 1e-9))
    first, last = math.ceil(low / step), math.floor(high / step)
    return [(k * step, f"{k * step + 0.0:.{digits}f}") for k in range(first, last + 1)]


def inch_ticks(low, high, most=8):
    """The same in inches: fractions down to 64ths; where these are too coarse, thousandths."""
    span = (high - low) / INCH
    if span > 2 / 64:
        step = next((1 / parts for parts in (64, 32, 16, 8, 4, 2) if span * parts <= most), _round_step(span / most))
    else:
        step = _round_step(span / most)
    fraction = any(abs(step * parts - 1) < 1e-9 for parts in (64, 32, 16, 8, 4, 2))
    writing = "1/64 in" if fraction or step >= 1 else "0.0001 in" if step < 0.001 else "0.001 in"
    first, last = math.ceil(low / INCH / step), math.floor(high / INCH / step)
    sizes = [k * step * INCH for k in range(first, last + 1)]
    return [(size, write(size, "length", "in", writing).removesuffix(" in")) for size in sizes]


def _round_step(least):
    """The smallest of 1, 2 or 5 times a power of ten that is not less than this."""
    ten = 10.0 ** math.floor(math.log10(least))
    return next(ten * times for times in (1, 2, 5, 10) if ten * times >= least * (1 - 1e-9))


def _months(axes, year):
    """The months, and under each what the wood has come to, in per cent."""
    axes.set_xticks(range(12), [""] * 12)
    axes.tick_params(axis="x", length=5, width=1.2)
    for place, month in enumerate(year.months()):
        for text, down in ((month.name[:3], -19), (f"{100 * month.moisture:.1f}", -37)):
            axes.annotate(text, (place, 0), xycoords=("data", "axes fraction"), xytext=(0, down), ha="center", **BELOW)
    axes.annotate("wood, %", (0, 0), xycoords="axes fraction", xytext=(-6, -37), ha="right", **BELOW)
