"""A year in a heated room: the air of each month, and what wood comes to in it.

The room is invented. It is kept at one temperature; one month has its driest air, the month half a year later its
dampest, and between them the humidity rises and falls smoothly, just so far that wood left in it comes to the moisture
of a dry and a damp season. Wood is taken to keep up with the month's air: a thick or finished panel lags behind.
"""

import math
from typing import NamedTuple

from shoplib import measure
from shoplib.maths.movement import content_in_air
from shoplib.measure import MeasureError
from shoplib.model import ShapeError

MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
    "December",
)  # fmt: skip
ROOM = 21.0  # °C
DAMPEST_AIR = 0.95  # relative humidity, where the table behind the formula ends


class Month(NamedTuple):
    """The air's relative humidity in a month, and the moisture content that wood comes to in it; both ratios."""

    name: str
    humidity: float
    moisture: float


def humidity_for(temperature, content):
    """Relative humidity of the air in which wood comes to this moisture content: `content_in_air` the other way round.

    Plain numbers: degrees Celsius and a ratio give a ratio, found by halving. Raises ShapeError for wood that is
    damper than any air of up to 95 % makes it.

    >>> round(humidity_for(21.1, 0.092), 2)
    0.5
    """
    most = content_in_air(temperature, DAMPEST_AIR)
    if content > most:
        raise ShapeError(
            f"No air of {temperature:.0f} °C makes wood as damp as {_percent(content)}: up to a relative humidity of "
            f"{_percent(DAMPEST_AIR)} it comes to {_percent(most)}. Give a lower moisture."
        )
    low, high = 0.0, DAMPEST_AIR
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if content_in_air(temperature, middle) < content else (low, middle)
    return (low + high) / 2


def _percent(ratio):
    return measure.write(ratio, "percent", "percent", "0.1 %")


class RoomYear:
    """The invented room's year between a dry and a damp season, given as moisture contents of wood (ratios).

    Time runs in months from the middle of January, so that 1 is the middle of February.

    >>> year = RoomYear(0.06, 0.12)
    >>> [f"{month.name}: {month.moisture:.3f}" for month in year.months()][1:8:3]
    ['February: 0.060', 'May: 0.088', 'August: 0.120']
    """

    def __init__(self, dry, damp, driest="February"):
        if driest not in MONTHS:
            raise MeasureError(f"There is no month {str(driest)[:20]!r}; for instance 'February' or 'July'.")
        self.driest = MONTHS.index(driest)
        self.dampest = (self.driest + 6) % 12
        self.humidities = humidity_for(ROOM, dry), humidity_for(ROOM, damp)

    def humidity_at(self, time):
        """Relative humidity of the air, smooth between its lowest and its highest."""
        low, high = self.humidities
        return low + (high - low) * (1 - math.cos(2 * math.pi * (time - self.driest) / 12)) / 2

    def moisture_at(self, time):
        """Moisture content that wood comes to in that air: Wood Handbook (FPL-GTR-190) Eq. 4-5."""
        return content_in_air(ROOM, self.humidity_at(time))

    def months(self):
        """All twelve, each by its middle."""
        return [Month(name, self.humidity_at(k), self.moisture_at(k)) for k, name in enumerate(MONTHS)]
