"""The invented room's year: its humidities against the Wood Handbook's table, read both ways."""

import numpy
import published
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from shoplib import MeasureError, ShapeError
from shoplib.maths.movement import content_in_air
from shoplib.maths.year import MONTHS, ROOM, RoomYear, humidity_for

CLOSE = pytest.approx


def printed(temperature="70"):
    """Humidities and moistures of one row of the Wood Handbook's Table 4-2, in per cent."""
    cells = published.rows("emc", temp_F=temperature)
    return [float(cell["humidity"]) for cell in cells], [float(cell["moisture"]) for cell in cells]


def test_humidity_for_a_moisture_is_the_printed_table_read_the_other_way():
    """Wood Handbook Table 4-2, 70 °F; a tenth of a per cent of moisture is at most 0.9 % of humidity there."""
    for humidity, moisture in zip(*(cells[:-1] for cells in printed())):
        assert 100 * humidity_for(21.1, moisture / 100) == CLOSE(humidity, abs=0.9), humidity


@given(st.floats(0.01, 0.23), st.floats(0.0, 50.0))
def test_humidity_against_another_root_finder(content, temperature):
    if content < content_in_air(temperature, 0.95):
        root = brentq(lambda humidity: content_in_air(temperature, humidity) - content, 0.0, 0.95)
        assert humidity_for(temperature, content) == CLOSE(root, abs=1e-9)


def test_wood_damper_than_any_air_is_refused():
    with pytest.raises(ShapeError, match=r"as damp as 25\.0 %: up to a relative humidity of 95\.0 % it comes to 23\.9"):
        humidity_for(ROOM, 0.25)
    with pytest.raises(ShapeError):
        RoomYear(0.06, 0.25)


def test_a_month_that_there_is_not():
    with pytest.raises(MeasureError, match="There is no month 'Winter'"):
        RoomYear(0.06, 0.12, "Winter")


@pytest.mark.parametrize("driest", ["February", "July", "December"])
def test_the_year_runs_between_its_two_seasons(driest):
    months = RoomYear(0.06, 0.12, driest).months()
    assert [month.name for month in months] == list(MONTHS)
    turned = [months[(MONTHS.index(driest) + k) % 12] for k in range(13)]
    contents = [month.moisture for month in turned]
    assert contents[0] == CLOSE(0.06, abs=1e-9) and contents[6] == CLOSE(0.12, abs=1e-9)
    assert contents[:7] == sorted(contents[:7]) and contents[6:] == sorted(contents[6:], reverse=True)
    assert contents == CLOSE(contents[::-1]), "the way down is the way up"
    assert turned[3].humidity == CLOSE((turned[0].humidity + turned[6].humidity) / 2)


def test_each_month_is_what_the_printed_table_says_of_its_air():
    """Wood Handbook Table 4-2 at 70 °F, straight lines between its cells; the room has 21 °C."""
    for month in RoomYear(0.06, 0.14).months():
        found = numpy.interp(100 * month.humidity, *printed())
        assert 100 * month.moisture == CLOSE(found, abs=0.1), month.name


def test_a_year_without_seasons_stays_as_it_is():
    assert {round(month.moisture, 9) for month in RoomYear(0.08, 0.08).months()} == {0.08}
