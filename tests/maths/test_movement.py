"""How wood moves, against the Wood Handbook's own examples and its table of moisture contents."""

import published
import pytest

from shoplib import MeasureError, ShapeError, equilibrium, moistures
from shoplib.maths.movement import coefficient, content_in_air, moved, species, swelling, worries_of_moisture

CLOSE = pytest.approx


@pytest.mark.parametrize("example, width, per_cent, made, now, digits", [
    ("WM1", 232.0, 0.00245, 0.08, 0.11, 1),  # Wood Handbook (FPL-GTR-190) p. 13-17, mm
    ("WM1i", 9.15, 0.00245, 0.08, 0.11, 3),  # the same in inches
    ("WM2", 5.0, 0.00129, 0.06, 0.09, 3),  # NWFA Technical Publication A200: mesquite, inches
])  # fmt: skip
def test_printed_examples(example, width, per_cent, made, now, digits):
    change = published.row("wood_movement_examples", id=example, quantity="dD")
    found = moved(width, per_cent, made, now)
    assert round(found - width, digits) == float(change["printed_result"])


@pytest.mark.parametrize("example, width, digits", [("WM1", 232.0, 1), ("WM1i", 9.15, 3)])
def test_printed_width_after_the_change(example, width, digits):
    """Wood Handbook (FPL-GTR-190) p. 13-17."""
    end = published.row("wood_movement_examples", id=example, quantity="D_end")
    assert round(moved(width, 0.00245, 0.08, 0.11), digits) == float(end["printed_result"])


def test_wood_swells_in_the_damp_and_shrinks_in_the_dry():
    assert moved(400.0, 0.00274, 0.08, 0.12) == CLOSE(400 + 4 * 400 * 0.00274)
    assert moved(400.0, 0.00274, 0.08, 0.06) == CLOSE(400 - 2 * 400 * 0.00274)
    assert swelling(0.00274, 0.08, 0.08) == 0


def test_moisture_in_air_is_the_printed_table():
    """Wood Handbook Table 4-2: Eq. 4-5 keeps within 0.055 % of all its 228 cells."""
    cells = published.rows("emc")
    assert len(cells) == 228
    for cell in cells:
        found = equilibrium(f"{cell['temp_F']} °F", f"{cell['humidity']} %").magnitude
        assert found == CLOSE(float(cell["moisture"]), abs=0.0551), cell


def test_moisture_in_air_from_text_in_either_unit():
    assert equilibrium("68 °F", "50 %").magnitude == CLOSE(equilibrium("20 °C", "50 %").magnitude)
    assert equilibrium("20 °C", "50 %").m_as("dimensionless") == CLOSE(content_in_air(20.0, 0.5))
    assert equilibrium("20 °C", "0 %").magnitude == 0


def test_a_table_of_moistures_is_the_printed_one():
    """Wood Handbook Table 4-2 at 70 °F, to a tenth of a per cent and its rounding."""
    printed = {row["humidity"]: float(row["moisture"]) for row in published.rows("emc", temp_F="70")}
    humidities = sorted(printed, key=float)
    table = moistures("70 °F", *(f"{each} %" for each in humidities))
    assert [float(told.removesuffix(" %")) for _, told in table.rows] == CLOSE(
        [printed[each] for each in humidities], abs=0.1001
    )
    assert "21.1 °C" in table.head[0] and "<td" in table._repr_html_()


@pytest.mark.parametrize("air, humidity, said", [
    ("70 °C", "50 %", "70.0 °C.*-1 to 60"), ("-10 °C", "50 %", "-10.0 °C"), ("20 °C", "99 %", "99.0 %.*0 to 95"),
    ("20 °C", "-1 %", "-1.0 %"),
])  # fmt: skip
def test_air_outside_the_formula(air, humidity, said):
    with pytest.raises(ShapeError, match=said):
        equilibrium(air, humidity)


@pytest.mark.parametrize("air, humidity", [(20, "50 %"), ("20 °C", 0.5), ("20 mm", "50 %"), ("20 °C", "50 deg")])
def test_air_without_its_unit(air, humidity):
    with pytest.raises(MeasureError):
        equilibrium(air, humidity)


def test_flat_is_tangential_and_quarter_radial():
    """Wood Handbook Table 13-5, white ash."""
    assert (coefficient("Ash, white", "flat"), coefficient("Ash, white", "quarter")) == (0.00274, 0.00169)


def test_every_timber_moves_more_when_flat_cut():
    assert len(species()) == len(set(species())) > 60
    for timber in species():
        assert 0 < coefficient(timber, "quarter") < coefficient(timber, "flat") < 0.005


@pytest.mark.parametrize("timber, cut, said", [("Balsa", "flat", "Balsa"), ("Ash, white", "rift", "flat or quarter")])
def test_unknown_timber_or_cut(timber, cut, said):
    with pytest.raises(MeasureError, match=said):
        coefficient(timber, cut)


def test_cautions_outside_the_table():
    assert not list(worries_of_moisture("Ash, white", made=0.06, damp=0.14))
    found = list(worries_of_moisture("Ash, white", made=0.059, dry=0.08, damp=0.141))
    assert [each.input for each in found] == ["made", "damp"]
    assert "14.1 %" in found[1].tell()
    assert [each.input for each in worries_of_moisture("Teak", made=0.08)] == ["species"]
