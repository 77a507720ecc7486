"""How wood takes up and gives off moisture, and how far it moves across the grain.

Moisture contents and humidities are plain ratios here: 0.08 is 8 %.
"""

from shoplib import measure
from shoplib.measure import MeasureError
from shoplib.model import Caution, Facts, ShapeError, percent, public
from shoplib.tables import table

CUTS = {"flat": "tangential", "quarter": "radial"}
VALID = (0.06, 0.14)  # moisture contents for which Table 13-5 holds
SOURCE = "Wood Handbook, FPL-GTR-190, Table 13-5"


def moisture(words, symbol, help, **more):
    """Declare an input that is a moisture content; a tolerance as of a careful hand with a pin meter."""
    return percent(words, symbol, low="3 %", high="20 %", step="0.5 %", tolerance="1 %", help=help, **more)


def species():
    """The timbers of the table, in its order.

    >>> "Ash, white" in species()
    True
    """
    return tuple(row["species"] for row in table("wood_movement"))


def _row(timber):
    for row in table("wood_movement"):
        if row["species"] == timber:
            return row
    raise MeasureError(f"There is no timber {str(timber)[:30]!r} in the table; for instance 'Ash, white'.")


def coefficient(timber, cut):
    """Change of width for each per cent of moisture content, as a ratio of the width.

    A board cut "flat" moves with the tangential coefficient across its width, one cut "quarter"
    with the radial one. Wood Handbook (FPL-GTR-190) Table 13-5, for 6 to 14 % moisture content.

    >>> coefficient("Ash, white", "flat"), coefficient("Ash, white", "quarter")
    (0.00274, 0.00169)
    """
    if cut not in CUTS:
        raise MeasureError(f"The cut is flat or quarter, not {str(cut)[:30]!r}.")
    return _row(timber)[CUTS[cut]]


def swelling(per_cent, made, now):
    """Share of its width by which wood grows across the grain from `made` to `now`; less than nothing: shrinks.

    Wood Handbook p. 13-17: coefficient x change of moisture content in per cent.

    >>> round(swelling(0.00274, 0.08, 0.12), 5)
    0.01096
    """
    return per_cent * 100 * (now - made)


def moved(width, per_cent, made, now):
    """Width across the grain after the moisture content went from `made` to `now`.

    Wood Handbook p. 13-17: change = width x coefficient x change of moisture content in per cent.

    >>> round(moved(232.0, 0.00245, 0.08, 0.11), 1)
    233.7
    """
    return width * (1 + swelling(per_cent, made, now))


def worries_of_moisture(timber, **contents):
    """Cautions where the table does not reach: moisture contents out of its range, or a row not confirmed."""
    low, high = VALID
    for name, content in contents.items():
        if not low - 1e-9 <= content <= high + 1e-9:
            yield Caution(
                f"A moisture content of {measure.write(content, 'percent', 'percent', '0.1 %')} lies outside "
                "the 6 to 14 % for which the table holds: take the movement for a rough guess.",
                input=name, source=SOURCE,
            )
    if "from memory" in _row(timber)["status"]:
        yield Caution(
            f"The figures for {timber} in our copy of the table were not read in its text: look them up there "
            "before you cut good timber.", input="species", source=SOURCE,
        )


def equilibrium(temperature, humidity):
    """Moisture content that wood comes to in air of this temperature and relative humidity, given time.

    Takes text or Quantities and returns per cent. Hailwood-Horrobin equation with two hydrates, Wood
    Handbook (FPL-GTR-190) Eq. 4-5. Raises ShapeError outside -1 to 60 degC and 0 to 95 %, where the
    Handbook's Table 4-2 ends.

    >>> print(round(equilibrium("70 °F", "50 %"), 1))
    9.2 percent
    """
    warm, damp = measure.plain("temperature", temperature), measure.plain("percent", humidity)
    if not -1.2 <= warm <= 60:
        raise ShapeError(f"Air of {warm:.1f} °C is outside the formula: it must be from -1 to 60 °C.")
    if not 0 <= damp <= 0.95:
        raise ShapeError(f"A humidity of {100 * damp:.1f} % is outside the formula: it must be from 0 to 95 %.")
    return public(content_in_air(warm, damp), "percent")


def moistures(temperature, *humidities):
    """What wood comes to in air of this temperature, for each relative humidity: a small table that shows itself.

    >>> moistures("21 °C", "30 %", "50 %")
    relative humidity at 21.0 °C  wood comes to
    30.0 %                        6.2 %
    50.0 %                        9.2 %
    """
    degrees = measure.plain("temperature", temperature)
    rows = [(_told(measure.percent(each)), _told(equilibrium(temperature, each))) for each in humidities]
    return Facts(rows, head=(f"relative humidity at {degrees:.1f} °C", "wood comes to"))


def _told(content):
    return measure.show(content, "percent", "0.1 %")


def content_in_air(temperature, humidity):
    """The same in plain numbers: degrees Celsius and a ratio give a ratio.

    >>> round(content_in_air(21.1, 0.50), 3)
    0.092
    """
    w, k, k1, k2 = (
        row["c0"] + row["c1"] * temperature + row["c2"] * temperature**2 for row in table("emc_equation")
    )
    kh = k * humidity
    hydrated = k1 * kh + 2 * k1 * k2 * kh**2
    return 18 / w * (kh / (1 - kh) + hydrated / (1 + k1 * kh + k1 * k2 * kh**2))
