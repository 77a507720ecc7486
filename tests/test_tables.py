"""The published tables: whole, named, and confirmed by another table of the same source."""

from pathlib import Path

import published
import pytest

import shoplib
from shoplib.tables import source, table

NAMES = sorted(path.stem for path in (Path(shoplib.__file__).parent / "tables").glob("*.csv"))

# Woods whose fibre saturation lies well under the 30 % that the general formula takes for all (Wood Handbook, ch. 4);
# and sweet birch, which the table prints equal to yellow birch.
EXCEPTIONS = {
    "Birch, sweet", "Cedar, northern white", "Cedar, western redcedar", "Redwood, old-growth",
    "Khaya (African mahogany)", "Mahogany (Swietenia)", "Teak",
}  # fmt: skip


@pytest.mark.parametrize("name", NAMES)
def test_every_table_names_its_source_and_is_whole(name):
    assert len(source(name)) > 15
    rows = table(name)
    assert rows
    assert all(None not in row and None not in row.values() and "" not in row.values() for row in rows)
    assert table(name) is rows  # loaded once


def test_movement_agrees_with_shrinkage():
    """Wood Handbook Eq. 13-3 at 10 % moisture turns Table 4-3's shrinkage into Table 13-5's coefficient.

    An independent check, also of the rows that were written down from memory.
    """
    shrinkage = {row["species"]: row for row in published.rows("shrinkage")}
    compared = 0
    for row in table("wood_movement"):
        if row["species"] in EXCEPTIONS or row["species"] not in shrinkage:
            continue
        for way in ("radial", "tangential"):
            total = float(shrinkage[row["species"]][f"{way}_pct"])
            assert row[way] == pytest.approx(1 / (3000 / total - 30 + 10), abs=1.5e-5), (row["species"], way)
            compared += 1
    assert compared > 80


def test_formula_of_moisture_in_air_by_hand():
    """At 20 degC, reckoned from the printed parameters of Eq. 4-5."""
    values = {row["parameter"]: row["c0"] + 20 * row["c1"] + 400 * row["c2"] for row in table("emc_equation")}
    assert values == pytest.approx({"W": 380.2, "K": 0.818628, "K1": 5.9612, "K2": 2.6068})
