"""Rebates: the section is cut with shapely, the cutter rolled round, and a panel grown strip by strip."""

import itertools
import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from models import made, sizes
from shapely import LineString, Point, affinity, box, union_all

from shoplib import CircleJig, MeasureError, PanelSeason, Rebate, ShapeError, equilibrium
from shoplib.maths.passes import passes_with_finish

CLOSE = pytest.approx
SMOOTH = 512
TRAY = ("400 mm", "20 mm", "40 mm", "12 mm", "10 mm")
ASH = ("Ash, white", "flat", "8 %", "6 %", "12 %")


def mm(quantity):
    return quantity.m_as("mm")


def section(rebate):
    """Half of the tray cut through its middle, from the sizes given alone: the rim, and the panel lying in it."""
    given = rebate.values
    inside, thick = given["inside_diameter"] / 2, given["panel_thickness"]
    rim = box(inside, 0, inside + given["ring_width"], given["ring_height"])
    panel = box(0, -given["proud"], inside + given["rebate_width"] - given["clearance"], thick - given["proud"])
    room = box(0, -100, inside + given["rebate_width"], thick - given["proud"])
    return rim - room, panel


@settings(max_examples=150, deadline=None)
@given(sizes(Rebate))
def test_section_by_cutting(given_sizes):
    rebate = made(Rebate, given_sizes)
    assume(rebate)
    rim, panel = section(rebate)
    low, high = rim.bounds[1], rim.bounds[3]
    at_foot = rim.intersection(LineString([(0, low), (2000, low)]))
    at_inside = rim.intersection(LineString([(rim.bounds[0], -100), (rim.bounds[0], 200)]))
    assert rebate.plain.wall == CLOSE(at_foot.length)
    assert rebate.plain.lip == CLOSE(at_inside.length)
    assert rebate.plain.depth == CLOSE(high - low - at_inside.length)
    assert rebate.plain.rebate_diameter == CLOSE(2 * at_foot.bounds[0])
    assert rebate.plain.panel_diameter == CLOSE(2 * panel.bounds[2])
    assert rim.area == CLOSE(
        rebate.plain.ring_width * rebate.plain.ring_height - rebate.plain.depth * rebate.plain.rebate_width
    )
    assert rim.intersection(panel).area < 1e-6, "the panel lies in the rebate without cutting into the rim"
    assert panel.bounds[2] > rim.bounds[0], "and does not fall through"


def test_the_tray_by_hand():
    # 12 deep; 20 - 10 and 40 - 12 left; 400 + 2 * 10 and 420 - 2 * 2.5 across.
    tray = Rebate(*TRAY, clearance="2.5 mm")
    names = ("depth", "wall", "lip", "rebate_diameter", "panel_diameter")
    assert [mm(getattr(tray, name)) for name in names] == [12, 10, 28, 420, 415]
    assert mm(tray.replace(proud="0.5 mm").depth) == 11.5
    assert mm(tray.replace(proud="-1 mm").lip) == 27


class TestCutter:
    @pytest.mark.parametrize("cutter", [6.0, 12.0, 25.0])
    def test_pivot_swings_the_far_edge_to_the_wall(self, cutter):
        pivot = mm(Rebate(*TRAY).pivot_for(f"{cutter} mm"))
        path = Point(0, 0).buffer(pivot, quad_segs=SMOOTH).exterior
        groove = path.buffer(cutter / 2, quad_segs=SMOOTH)
        assert math.dist((0, 0), groove.exterior.coords[0]) == CLOSE(210, abs=0.01)
        rim = Point(0, 0).buffer(220, quad_segs=SMOOTH) - groove
        assert max(rim.geoms, key=lambda piece: piece.bounds[2]).area == CLOSE(math.pi * (220**2 - 210**2), rel=1e-3)

    def test_pivot_is_that_of_a_hole(self):
        assert Rebate(*TRAY).pivot_for("12 mm") == CircleJig("420 mm", "12 mm").hole_pivot

    @settings(deadline=None, max_examples=40)
    @given(inside=st.floats(80, 500), width=st.floats(2, 15), more=st.floats(3, 20))
    def test_bearing_rolls_round_and_the_cutter_makes_the_rebate(self, inside, width, more):
        """The bearing pressed against the hole in many places: how far out does the cutter ever reach?"""
        cutter = 2 * width + more
        rebate = Rebate(f"{inside:.3f} mm", "40 mm", "40 mm", "12 mm", f"{width:.3f} mm")
        bearing = mm(rebate.bearing_for(f"{cutter:.3f} mm"))
        hole = Point(0, 0).buffer(inside / 2, quad_segs=SMOOTH)
        centre = (inside - bearing) / 2
        assert hole.buffer(1e-2).covers(Point(centre, 0).buffer(bearing / 2))
        spots = [(centre * math.cos(a), centre * math.sin(a)) for a in (0, 1.1, 2.9, 4.4)]
        cut = union_all([Point(spot).buffer(cutter / 2, quad_segs=SMOOTH) for spot in spots])
        assert Point(0, 0).hausdorff_distance(cut) * 2 == CLOSE(mm(rebate.rebate_diameter), abs=0.02)

    @pytest.mark.parametrize("cutter, said", [("20 mm", r"20\.0 mm.*over 20\.0 mm"), ("6 mm", "no bearing")])
    def test_cutter_too_small_for_a_bearing(self, cutter, said):
        with pytest.raises(ShapeError, match=said) as caught:
            Rebate(*TRAY).bearing_for(cutter)
        assert caught.value.input == "cutter_diameter"

    def test_bearing_too_large_for_the_ring(self):
        with pytest.raises(ShapeError, match="does not go into"):
            Rebate("60 mm", "20 mm", "40 mm", "12 mm", "5 mm").bearing_for("70 mm")

    @pytest.mark.parametrize("cutter", ["64 mm", "90 mm"])
    def test_cutter_as_large_as_the_rebate(self, cutter):
        with pytest.raises(ShapeError, match="cannot be swung"):
            Rebate("60 mm", "20 mm", "40 mm", "12 mm", "2 mm").pivot_for(cutter)

    def test_the_number_that_is_set_is_a_result(self):
        swung = Rebate(*TRAY, cutter_diameter="12 mm")
        rolled = Rebate(*TRAY, cutter_diameter="32 mm", guide="bearing")
        assert swung.pivot == swung.pivot_for("12 mm") == rolled.pivot_for("12 mm")
        assert rolled.bearing == rolled.bearing_for("32 mm") == swung.bearing_for("32 mm")
        assert (mm(swung.pivot), mm(rolled.bearing)) == (204, 12)

    def test_reach_needs_no_cutter(self):
        tray = Rebate(*TRAY)
        assert mm(tray.reach) == 210
        with pytest.raises(ShapeError, match="needs the cutter diameter"):
            _ = tray.pivot

    @pytest.mark.parametrize("guide, others, said", [
        ("bearing", ("pivot", "reach", "rounds"), "A bearing guides this cutter"),
        ("pivot", ("bearing",), "A pivot guides this cutter"),
    ])  # fmt: skip
    def test_the_other_way_says_why_it_is_empty(self, guide, others, said):
        tray = Rebate(*TRAY, cutter_diameter="32 mm", guide=guide)
        for name in others:
            with pytest.raises(ShapeError, match=said) as caught:
                getattr(tray, name)
            assert caught.value.input == "guide"

    def test_a_bearing_that_cannot_be_leaves_the_other_sizes_standing(self):
        tray = Rebate(*TRAY, clearance="2.5 mm", cutter_diameter="18 mm", guide="bearing")
        (caution,) = tray.cautions
        assert "— " + caution.tell() in repr(tray.tell("bearing"))
        assert "leaves no bearing" in caution.tell() and mm(tray.panel_diameter) == 415

    def test_bearing_in_the_drawer_asked_the_other_way_round(self):
        tray = Rebate(*TRAY, cutter_diameter="35 mm", guide="bearing")
        (width,) = tray.find("rebate_width", bearing="12.7 mm")
        assert mm(width) == CLOSE((35 - 12.7) / 2)

    @settings(deadline=None, max_examples=40)
    @given(width=st.floats(5, 40), cutter=st.floats(3, 40))
    def test_rounds_of_a_narrow_cutter_clear_the_step(self, width, cutter):
        """The rings that the cutter sweeps, laid over one another, cover the whole step and spare the wall."""
        rebate = Rebate("400 mm", "60 mm", "40 mm", "12 mm", f"{width:.3f} mm", cutter_diameter=f"{cutter:.3f} mm")
        if rebate.plain.cutter_diameter >= rebate.plain.rebate_width:
            with pytest.raises(ShapeError, match="One round"):
                _ = rebate.rounds
            return
        swept = [(p - cutter / 2, p + cutter / 2) for p in map(mm, rebate.rounds)]
        assert swept[0][1] == CLOSE(200 + width, abs=1e-3)
        assert swept[-1][0] == CLOSE(200, abs=1e-3)
        for (outer, _), (_, inner) in itertools.pairwise(swept):
            assert outer + 0.0999 * cutter <= inner, "each round runs into the one before"
        steps = [before[0] - after[0] for before, after in itertools.pairwise(swept)]
        assert steps == CLOSE([steps[0]] * len(steps))
        assert len(swept) == 2 or (width - cutter) / (len(swept) - 2) > 0.899 * cutter, "no round too many"

    def test_a_cutter_like_a_needle_needs_too_many_rounds(self):
        with pytest.raises(ShapeError, match=r"too narrow.*over 0\.2 mm"):
            _ = Rebate(*TRAY, cutter_diameter="0.1 mm").rounds

    @pytest.mark.parametrize("guide, first, missing", [("pivot", "pivot", "bearing"), ("bearing", "bearing", "pivot")])
    def test_card_begins_with_what_is_set(self, guide, first, missing):
        names = Rebate(*TRAY, cutter_diameter="32 mm", guide=guide).plain.on_card()
        assert names[0] == first and missing not in names
        assert set(names) <= set(Rebate.results())

    def test_inches_keep_their_decimals(self):
        tray = Rebate(*TRAY, cutter_diameter="1/2 in")  # 210 mm less 1/4 in
        assert repr(tray.tell("pivot", unit="in")).endswith("8 1/64 in (8.018)")

    def test_panel_from_the_rebate_as_measured(self):
        tray = Rebate(*TRAY, clearance="2.5 mm")
        assert mm(tray.panel_from_measured("420.6 mm")) == CLOSE(415.6)
        assert tray.panel_from_measured(tray.rebate_diameter) == tray.panel_diameter
        with pytest.raises(ShapeError, match="measure it again"):
            tray.panel_from_measured("5 mm")
        with pytest.raises(MeasureError, match="unit"):
            tray.panel_from_measured(420)


    def test_as_measured_tells_panel_and_jig(self):
        told = repr(Rebate(*TRAY, clearance="2.5 mm").as_measured("420.6 mm", "12 mm"))
        assert [line.split("  ")[-1].strip() for line in told.splitlines()] == ["420.6 mm", "415.6 mm", "213.8 mm"]
        assert mm(CircleJig("415.6 mm", "12 mm").outer_pivot) == CLOSE(213.8)
        inches = repr(Rebate(*TRAY, clearance="2.5 mm").as_measured("16 9/16 in", unit="in"))
        assert "pivot" not in inches and "16 9/16 in" in inches and "16 23/64 in (16.366)" in inches


class TestPasses:
    def test_by_hand(self):
        # 11.5 in three of 3.8333, then the half millimetre
        tray = Rebate(*TRAY, pass_depth="4 mm", finish_pass="0.5 mm")
        assert [mm(depth) for depth in tray.passes] == CLOSE([23 / 6, 23 / 3, 11.5, 12])

    def test_without_a_light_one_all_are_equal(self):
        assert [mm(depth) for depth in Rebate(*TRAY, pass_depth="5 mm").passes] == CLOSE([4, 8, 12])

    @settings(deadline=None)
    @given(total=st.integers(20, 400), deepest=st.integers(10, 200), finish=st.integers(0, 19))
    def test_fewest_the_last_light_the_others_equal(self, total, deepest, finish):
        assume(finish <= deepest)
        depths = passes_with_finish(total / 10, deepest / 10, finish / 10)
        steps = [after - before for before, after in itertools.pairwise((0.0, *depths))]
        assert depths[-1] == total / 10
        others = steps if finish == 0 else steps[:-1]
        assert finish == 0 or steps[-1] == CLOSE(finish / 10)
        assert others == CLOSE([others[0]] * len(others))
        assert max(others) <= deepest / 10 * (1 + 1e-8)
        assert (len(others) - 1) * deepest < total - finish  # one fewer would not do

    @pytest.mark.parametrize("sizes, hangs_on, said", [
        ({"finish_pass": "12 mm"}, "finish_pass", r"12\.0 mm deep"),
        ({"finish_pass": "2.5 mm", "pass_depth": "2 mm"}, "finish_pass", "deeper than the deepest"),
        ({"pass_depth": "0.01 mm"}, "pass_depth", "deeper passes"),
    ])  # fmt: skip
    def test_passes_that_cannot_be(self, sizes, hangs_on, said):
        with pytest.raises(ShapeError, match=said) as caught:
            Rebate(*TRAY, **sizes)
        assert caught.value.input == hangs_on

    def test_passes_need_the_deepest_one(self):
        with pytest.raises(ShapeError, match="deepest pass"):
            _ = Rebate(*TRAY).passes


class TestCannotBeMade:
    @pytest.mark.parametrize("changed, hangs_on, said", [
        ({"rebate_width": "20 mm"}, "rebate_width", r"leaves no wall.*under 20\.0 mm"),
        ({"panel_thickness": "40 mm"}, "panel_thickness", "no lip"),
        ({"proud": "12 mm"}, "proud", "no rebate is left"),
        ({"clearance": "10 mm"}, "clearance", "falls through"),
    ])  # fmt: skip
    def test_said_with_its_limit(self, changed, hangs_on, said):
        with pytest.raises(ShapeError, match=said) as caught:
            Rebate(*TRAY).replace(**changed)
        assert caught.value.input == hangs_on

    @pytest.mark.parametrize("changed, hangs_on, said", [
        ({"clearance": "210 mm"}, "clearance", "no panel"),
        ({"dry": "13 %"}, "dry", r"13\.0 %.*12\.0 %.*two over"),
        ({"damp": "31 %"}, "damp", r"31\.0 %.*under 30"),
        ({"made": "40 %"}, "made", "wet wood"),
    ])  # fmt: skip
    def test_a_year_that_cannot_be(self, changed, hangs_on, said):
        with pytest.raises(ShapeError, match=said) as caught:
            PanelSeason("420 mm", "1 mm", *ASH).replace(**changed)
        assert caught.value.input == hangs_on

    @pytest.mark.parametrize("changed", [
        {"made": "8"}, {"made": 0.08}, {"species": "Balsa"}, {"cut": "rift"}, {"ring": "square"}, {"dry": "6 mm"},
    ])  # fmt: skip
    def test_what_cannot_be_read(self, changed):
        with pytest.raises(MeasureError):
            PanelSeason("420 mm", "1 mm", *ASH).replace(**changed)


def cautions(model):
    return {caution.input for caution in model.cautions}


class TestCautions:
    def test_none_for_a_sound_rebate(self):
        assert not Rebate(*TRAY, clearance="2.5 mm").cautions

    @pytest.mark.parametrize("changed, hangs_on", [
        ({"rebate_width": "13.5 mm"}, "rebate_width"), ({"ring_height": "17.9 mm"}, "ring_height"),
        ({"clearance": "0 mm"}, "clearance"), ({"clearance": "5 mm"}, "clearance"), ({"proud": "0.2 mm"}, "proud"),
        ({"guide": "bearing"}, "cutter_diameter"),
        ({"guide": "bearing", "cutter_diameter": "27.9 mm"}, "cutter_diameter"),
        ({"guide": "bearing", "cutter_diameter": "32 mm", "ring_height": "17.9 mm"}, "ring_height"),
        ({"inside_diameter": "60 mm", "cutter_diameter": "40 mm"}, "cutter_diameter"),
    ])  # fmt: skip
    def test_what_should_worry(self, changed, hangs_on):
        assert cautions(Rebate(*TRAY, clearance="2.5 mm").replace(**changed)) == {hangs_on}

    @pytest.mark.parametrize("sound", [
        {"proud": "-0.2 mm"}, {"guide": "bearing", "cutter_diameter": "28 mm"},
        {"inside_diameter": "60 mm", "cutter_diameter": "39 mm"},
        {"guide": "bearing", "cutter_diameter": "32 mm", "ring_height": "18 mm"},
    ])  # fmt: skip
    def test_what_need_not_worry(self, sound):
        assert not Rebate(*TRAY, clearance="2.5 mm").replace(**sound).cautions

    def test_a_low_ring_on_a_bearing_is_told_of_both(self):
        low = Rebate("400 mm", "20 mm", "11 mm", "6 mm", "10 mm", "2 mm", cutter_diameter="32 mm", guide="bearing")
        (caution,) = low.cautions
        assert "5.0 mm of the inside wall" in caution.tell()

    def test_a_panel_that_would_burst_the_ring(self):
        burst = PanelSeason("420 mm", "1 mm", *ASH, ring="mitred")
        (caution,) = burst.cautions
        assert "burst" in caution.tell() and "1.29 mm" in caution.tell() and "2.28 mm" in caution.tell()
        held = burst.replace(clearance="3.5 mm")
        assert "no glue along the rebate" in held.cautions[0].tell()
        assert not burst.replace(ring="parallel").cautions

    def test_a_gap_smaller_than_what_it_may_be_out_by(self):
        """By hand for 420 mm: 1 % of moisture at either end is 0.57 mm, the clearance 0.2 mm; together 0.83 mm."""
        year = PanelSeason("420 mm", "2.5 mm", *ASH, ring="mitred")
        moisture, sizes = 415 * 0.00274 / 2, math.hypot(0.2 * 1.01096, 0.25 * 0.01096)
        out = math.hypot(moisture, moisture, sizes)
        (caution, _) = year.cautions
        assert caution.input == "clearance" and f"out by {out:.2f} mm" in caution.tell()
        wanted = 2.5 + (out - mm(year.gap_damp)) / 1.01096
        assert f"Give {wanted:.1f} mm" in caution.tell()
        assert "clearance" not in cautions(year.replace(clearance=f"{wanted + 0.01} mm"))
        assert "clearance" in cautions(year.replace(clearance=f"{wanted - 0.01} mm"))
        assert "clearance" in cautions(year.replace(clearance=year.least_clearance)), "nothing left at all"

    def test_a_panel_that_drops_off_its_lip(self):
        year = PanelSeason("420 mm", "3.5 mm", *ASH, ring="mitred", rebate_width="9 mm")
        assert cautions(year) == {"ring", "rebate_width"}
        assert cautions(year.replace(rebate_width="10 mm")) == {"ring"}


# Seasons ----------------------------------------------------------------------------------------------------


def grown(width, per_cent, made, now, strips=200):
    """A panel glued up of narrow strips, each growing by itself, a tenth of a per cent at a time."""
    first = [width / strips] * strips
    steps = round(1000 * (now - made))
    grow = [each * per_cent / 10 * abs(steps) for each in first]
    return sum(each + more * (1 if steps > 0 else -1) for each, more in zip(first, grow))


def shapes(year, now, ring):
    """Panel and rebate as shapely sees them at a moisture: round when made, then drawn out across the grain."""
    across, disc = year.values["rebate_diameter"], year.values["rebate_diameter"] - 2 * year.values["clearance"]
    stretch = grown(1000.0, 0.00274, year.values["made"], now) / 1000
    panel = affinity.scale(Point(0, 0).buffer(disc / 2, quad_segs=SMOOTH), 1.0, stretch)
    rebate = Point(0, 0).buffer(across / 2, quad_segs=SMOOTH)
    return panel, affinity.scale(rebate, 1.0, stretch) if ring == "parallel" else rebate


class TestSeasons:
    @pytest.mark.parametrize("ring", ["parallel", "mitred"])
    @pytest.mark.parametrize("clearance", ["1 mm", "2.5 mm", "4 mm"])
    def test_strip_by_strip(self, ring, clearance):
        year = PanelSeason("420 mm", clearance, *ASH, ring=ring)
        for now, found in ((0.06, year.plain.gap_dry), (0.12, year.plain.gap_damp), (0.08, year.plain.gap_as_made)):
            panel, rebate = shapes(year, now, ring)
            assert (rebate.bounds[3] - panel.bounds[3]) == CLOSE(found, abs=1e-6)

    @pytest.mark.parametrize("clearance", ["2.5 mm", "4 mm"])
    def test_across_the_grain_is_where_it_is_tightest_and_widest(self, clearance):
        """Looked for in all directions: no gap round a mitred ring is smaller in the damp or larger in the dry."""
        year = PanelSeason("420 mm", clearance, *ASH, ring="mitred")
        panel, rebate = shapes(year, 0.12, "mitred")
        assert panel.exterior.distance(rebate.exterior) == CLOSE(year.plain.gap_damp, abs=2e-3)
        panel, rebate = shapes(year, 0.06, "mitred")
        assert rebate.exterior.hausdorff_distance(panel.exterior) == CLOSE(year.plain.gap_dry, abs=2e-3)

    def test_a_burst_ring_is_wood_in_wood(self):
        panel, rebate = shapes(PanelSeason("420 mm", "1 mm", *ASH), 0.12, "mitred")
        assert (panel - rebate).area > 100
        panel, rebate = shapes(PanelSeason("420 mm", "1 mm", *ASH), 0.12, "parallel")
        assert (panel - rebate).area < 1e-6

    @settings(max_examples=100, deadline=None)
    @given(sizes(PanelSeason))
    def test_least_clearance_just_fills_the_rebate(self, given_sizes):
        year = made(PanelSeason, given_sizes)
        assume(year)
        least = year.plain.least_clearance
        filled = year.solved(year.values | {"clearance": least})
        if year.values["ring"] == "parallel":
            assert least == CLOSE(0, abs=1e-9)
        elif year.values["damp"] > year.values["made"]:
            assert filled.gap_damp == CLOSE(0, abs=1e-9)
        else:
            assert least == 0 <= filled.gap_damp + 1e-9

    def test_a_year_without_change_changes_nothing(self):
        year = PanelSeason("420 mm", "1.5 mm", "Ash, white", "flat", "8 %", "8 %", "8 %", ring="mitred")
        assert year.gap_dry == year.gap_damp == year.gap_as_made
        assert mm(year.gap_as_made) == CLOSE(1.5)

    def test_quarter_cut_moves_less(self):
        flat = PanelSeason("420 mm", "1 mm", *ASH, ring="mitred")
        quarter = flat.replace(cut="quarter")
        assert quarter.gap_damp > flat.gap_damp and quarter.gap_dry < flat.gap_dry

    def test_lap_with_the_panel_slid_over(self):
        """Pushed against one wall, the other side shows both gaps."""
        year = PanelSeason("420 mm", "2.5 mm", *ASH, ring="mitred", rebate_width="10 mm")
        panel, rebate = shapes(year, 0.06, "mitred")
        slid = affinity.translate(panel, 0, rebate.bounds[3] - panel.bounds[3])
        lip = rebate.bounds[1] + 10
        assert year.plain.lap == CLOSE(lip - slid.bounds[1], abs=1e-6)

    def test_rebate_and_bench_say_the_same(self):
        tray = Rebate(*TRAY, clearance="1 mm")
        season = tray.season(*ASH, ring="mitred")
        year = PanelSeason(tray.rebate_diameter, "1 mm", *ASH, "mitred", tray.rebate_width)
        assert season[:3] == (year.gap_as_made, year.gap_dry, year.gap_damp)
        assert "burst" in season.cautions[0].tell() and "Caution" in repr(season)
        assert "as made 1.00 mm dry season 2.15 mm damp season none: the panel is too large by 1.29 mm" in " ".join(
            repr(season).split()
        )
        assert "<td" in season._repr_html_() and "too large by 0.051 in" in repr(season.tell("in"))
        assert mm(season.damp) == CLOSE((420 - 418 * (1 + 4 * 0.00274)) / 2)
        assert mm(tray.season(*ASH).damp) == CLOSE(1 + 4 * 0.00274)  # parallel: the gap itself swells, no more

    def test_moistures_from_air(self):
        year = PanelSeason("420 mm", "2.5 mm", "Ash, white", "flat", "8 %", equilibrium("21 °C", "30 %"),
                           equilibrium("10 °C", "65 %"), ring="mitred")  # fmt: skip
        assert year.dry.magnitude == CLOSE(6.2, abs=0.1)

    def test_what_a_measured_gap_tells_of_the_moisture(self):
        year = PanelSeason("420 mm", "2.5 mm", *ASH, ring="mitred")
        (found,) = year.find("damp", gap_damp="1 mm")
        assert mm(year.replace(damp=found).gap_damp) == CLOSE(1)
        assert str(found.units) == "percent"
