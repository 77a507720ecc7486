"""Screws that let the panel move: published values, and a panel that is moved over its screws step by step."""

import math

import published
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
import models
from models import EXAMPLES

from shoplib import PanelScrew, ShapeError, measure
from shoplib.maths.screws import TIMBERS, lead_share

CLOSE = pytest.approx
DEMO = dict(
    rail_height="50 mm", rail_thickness="20 mm", counterbore_depth="19 mm", screw_length="40 mm",
    shank_diameter="4 mm", root_diameter="2.8 mm", head_diameter="8 mm", hole_diameter="6 mm",
    panel_thickness="12 mm", from_fixed="75 mm", species="Ash, white", cut="flat", made="8 %", dry="6 %",
    damp="12 %", washer_thickness="1 mm", washer_diameter="10 mm",
)  # fmt: skip


def screw(**changed):
    return PanelScrew(**DEMO | changed)


def test_the_stand():
    plain = screw().plain
    assert (plain.web, plain.grip, plain.cover, plain.bearing, plain.counterbore_wall) == (31, 8, 4, 1, 4)
    assert plain.move_damp == CLOSE(0.822) and plain.move_dry == CLOSE(-0.411)


# Published --------------------------------------------------------------------------------------------------


def test_withdrawal_as_printed():
    """NDS design value 2850 G^2 D: G 0.45 and a shank of 0.190 in give 109 lb for each inch of thread (secondary)."""
    row = published.row("screw_rules", id="SR11")
    assert "109 lb/in" in row["value"]
    each = 2850 * 0.45**2 * 0.190
    assert round(each, 1) == 109.7
    plain = screw(shank_diameter="0.190 in", root_diameter="0.152 in", hole_diameter="6.5 mm").plain
    for_gravity = plain.pull / plain.gravity_of_wood**2 * 0.45**2 / (plain.grip / 25.4)
    assert for_gravity / (0.45359237 * 9.80665) == CLOSE(each)


@pytest.mark.parametrize(("gravity", "share"), [(0.64, 0.9), (0.601, 0.9), (0.60, 0.7), (0.51, 0.7), (0.50, 0.0)])
def test_lead_hole_by_specific_gravity(gravity, share):
    """NDS: over 0.6 about 90 % of the root, over 0.5 about 70 %, else none required (secondary)."""
    assert [published.row("screw_rules", id=f"SR{n}")["status"] for n in (6, 7, 8)] == ["seen (secondary)"] * 3
    assert lead_share(gravity) == share


def test_a_light_timber_needs_no_lead_hole_and_says_so():
    with pytest.raises(ShapeError, match="starter hole"):
        screw(species="Pine, eastern white").lead_hole  # noqa: B018
    assert screw(species="Beech, American").plain.lead_hole == CLOSE(0.9 * 2.8)


@pytest.mark.parametrize("row", published.rows("metric_wood_screws")[3:9], ids=lambda row: row["d_mm"])
def test_sizes_offered_are_those_of_the_table(row):
    """DIN 7998 (core, from memory for the larger sizes): a screw of these sizes can be asked for."""
    sizes = dict(shank_diameter=f"{row['d_mm']} mm", root_diameter=f"{row['core_mm_DIN7998']} mm", hole_diameter="9 mm")
    assert screw(**sizes, head_diameter="8 mm", washer_diameter="12 mm").plain.hole_needed > float(row["d_mm"])


# A panel moved over its screws ------------------------------------------------------------------------------


class Moved:
    """The panel as a row of fibres that each grow alike: what carries the screw is found by adding them up."""

    def __init__(self, plain):
        self.plain = plain

    def carried(self, moisture, fibres=5000):
        width = self.plain.from_fixed / fibres
        change = self.plain.movement * 100 * (moisture - self.plain.made)
        return sum(width * (1 + change) for _ in range(fibres)) - self.plain.from_fixed

    def shank_edges(self, moisture):
        """Left and right edge of the shank in the hole, whose middle is nought."""
        at = self.carried(moisture)
        return at - self.plain.shank_diameter / 2, at + self.plain.shank_diameter / 2

    def touches(self):
        """Least distance from the shank to the hole's side through the whole year; below nothing it would cut in."""
        radius = self.plain.hole_diameter / 2
        moistures = [self.plain.dry + (self.plain.damp - self.plain.dry) * k / 200 for k in range(201)]
        edges = [self.shank_edges(each) for each in (*moistures, self.plain.made)]
        return min(min(radius + left, radius - right) for left, right in edges)


sizes = st.fixed_dictionaries(
    {name: st.sampled_from([f"{n} mm" for n in range(low, high)]) for name, low, high in [
        ("from_fixed", 1, 400), ("hole_diameter", 5, 9), ("panel_thickness", 10, 20)]}
    | {"species": st.sampled_from(TIMBERS), "cut": st.sampled_from(["flat", "quarter"]),
       "made": st.sampled_from(["6 %", "8 %", "10 %"])}
)  # fmt: skip


@settings(max_examples=60)
@given(sizes)
def test_room_to_spare_is_what_is_left_through_the_year(given_sizes):
    plain = screw(rail_thickness="30 mm", washer_diameter="14 mm", **given_sizes).plain
    moved = Moved(plain)
    assert plain.move_damp == CLOSE(moved.carried(plain.damp), abs=1e-9)
    if plain.dry <= plain.made <= plain.damp:
        assert plain.spare == CLOSE(moved.touches(), abs=1e-9)


@settings(max_examples=40)
@given(sizes)
def test_the_hole_needed_is_just_enough(given_sizes):
    loose = screw(rail_thickness="30 mm", washer_diameter="14 mm", **given_sizes)
    snug = loose.replace(hole_diameter=loose.hole_needed)
    assert snug.plain.spare == CLOSE(0, abs=1e-9)


def test_head_still_bears_and_finds_room_with_the_shank_at_the_side():
    """The head's circle and the hole's, the shank pushed against the hole's side: measured on their edges."""
    plain = screw().plain
    aside = (plain.hole_diameter - plain.shank_diameter) / 2
    narrow = (plain.head / 2 - aside) - plain.hole_diameter / 2
    assert plain.bearing == CLOSE(narrow)
    assert plain.counterbore_diameter / 2 == CLOSE(aside + plain.head / 2)


# Limits -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("changed", "told"),
    [
        (dict(screw_length="44 mm"), "through a panel"), (dict(screw_length="45 mm"), "through a panel"),
        (dict(screw_length="32 mm"), "below the panel"), (dict(counterbore_depth="50 mm"), "goes right through"),
        (dict(hole_diameter="3.5 mm"), "does not go through"), (dict(hole_diameter="14 mm"), "leaves no wall"),
        (dict(washer_diameter="7 mm"), "smaller than the head"), (dict(washer_diameter=None), "needs its diameter"),
        (dict(dry="13 %"), "Change the two over"), (dict(root_diameter="4.5 mm"), "thicker than the shank"),
    ],
)  # fmt: skip
def test_what_cannot_be_made_is_said(changed, told):
    with pytest.raises(ShapeError, match=told):
        screw(**changed)


@pytest.mark.parametrize(
    ("changed", "told"),
    [
        (dict(screw_length="42.5 mm"), "above the tip"), (dict(screw_length="38 mm"), "less than twice the shank"),
        (dict(washer_diameter=None, washer_thickness="0 mm"), "take a washer"),
        (dict(rail_thickness="16 mm"), "beside the counterbore"), (dict(from_fixed="150 mm"), "damp season"),
        (dict(from_fixed="150 mm", made="12 %"), "dry season"),
    ],
)  # fmt: skip
def test_what_should_worry_is_said(changed, told):
    assert any(told in each.tell() for each in screw(**changed).cautions)


def test_the_stand_worries_nobody():
    assert screw().cautions == ()


def test_both_examples_have_units_of_their_own():
    metric, inch = EXAMPLES[PanelScrew][:2]
    assert math.isclose(metric.plain.rail_height, 50) and math.isclose(inch.plain.rail_height % 25.4, 0, abs_tol=1e-9)
    assert measure.show(inch.rail_height, "in", "1/64 in").endswith(" in")


@settings(max_examples=40)
@given(models.sizes(PanelScrew))
def test_over_the_whole_range(given_sizes):
    plain = models.drawn(PanelScrew, given_sizes)
    assert plain.web + plain.counterbore_depth == CLOSE(plain.rail_height)
    assert plain.grip + plain.cover == CLOSE(plain.panel_thickness)
    assert plain.grip > 0 and plain.cover > 0 and plain.hole_needed >= plain.shank_diameter
