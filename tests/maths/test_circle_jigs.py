"""Circle jigs, judged by sweeping the cutter round the pivot and looking at what is left of the board."""

import itertools
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Point, box

from shoplib import CircleJig, MeasureError, ShapeError

SMOOTH = 256  # straight pieces in a quarter of a circle: 440 mm across is then true within 0.01 mm
CLOSE = pytest.approx

JIGS = [("440 mm", "12 mm", "20 mm"), ("17 3/8 in", "1/2 in", "3/4 in"), ("120 mm", "25 mm", "3 mm"),
        ("1500 mm", "6.35 mm", "200 mm")]  # fmt: skip


def swept(pivot, cutter):
    """What a round cutter takes away when its centre goes once round the pivot."""
    path = Point(0, 0).buffer(pivot, quad_segs=SMOOTH).exterior
    return path.buffer(cutter / 2, quad_segs=SMOOTH)


def board_after(*cuts):
    """The pieces of a large board after these cuts, the one at the pivot first."""
    board = box(-2000, -2000, 2000, 2000)
    for cut in cuts:
        board = board.difference(cut)
    return sorted(board.geoms, key=lambda piece: piece.distance(Point(0, 0)))


def across(edge):
    """The diameters of the circles that just hold an edge and that it just holds."""
    distances = [math.hypot(*point) for point in edge.coords]
    nearest = edge.distance(Point(0, 0))
    return 2 * max(distances), 2 * nearest


@pytest.mark.parametrize(("diameter", "cutter", "width"), JIGS)
class TestSweptCutter:
    def test_outside_cut_leaves_the_disc(self, diameter, cutter, width):
        plain = CircleJig(diameter, cutter).plain
        disc, _ = board_after(swept(plain.outer_pivot, plain.cutter_diameter))
        assert across(disc.exterior) == CLOSE((plain.diameter, plain.diameter), abs=0.02)

    def test_hole_cut_leaves_the_hole(self, diameter, cutter, width):
        plain = CircleJig(diameter, cutter).plain
        _, surround = board_after(swept(plain.hole_pivot, plain.cutter_diameter))
        assert across(surround.interiors[0]) == CLOSE((plain.diameter, plain.diameter), abs=0.02)

    def test_both_cuts_leave_the_ring(self, diameter, cutter, width):
        plain = CircleJig(diameter, cutter, ring_width=width).plain
        cuts = [swept(pivot, plain.cutter_diameter) for pivot in (plain.outer_pivot, plain.inner_pivot)]
        _, ring, _ = board_after(*cuts)
        inside = plain.diameter - 2 * plain.ring_width
        assert across(ring.exterior) == CLOSE((plain.diameter, plain.diameter), abs=0.02)
        assert across(ring.interiors[0]) == CLOSE((inside, inside), abs=0.02)
        assert ring.distance(swept(plain.inner_pivot, plain.cutter_diameter)) == CLOSE(0, abs=0.01)

    def test_reaches_are_to_the_edges_that_are_kept(self, diameter, cutter, width):
        plain = CircleJig(diameter, cutter, ring_width=width).plain
        outer = Point(plain.outer_pivot, 0).buffer(plain.cutter_diameter / 2)
        inner = Point(plain.inner_pivot, 0).buffer(plain.cutter_diameter / 2)
        hole = Point(plain.hole_pivot, 0).buffer(plain.cutter_diameter / 2)
        assert plain.hole_reach == CLOSE(hole.bounds[2])  # far edge
        assert plain.outer_reach == CLOSE(outer.bounds[0])  # near edge
        assert plain.inner_reach == CLOSE(inner.bounds[2])  # far edge

    def test_pivot_step_is_between_the_holes(self, diameter, cutter, width):
        plain = CircleJig(diameter, cutter, ring_width=width).plain
        assert plain.pivot_step == CLOSE(plain.ring_width + plain.cutter_diameter)


def test_settings_of_the_demo_tray_by_hand():
    # 440/2 = 220 and half of 12 is 6: 226 outside, 214 for a hole, 200 - 6 inside.
    jig = CircleJig("440 mm", "12 mm", ring_width="20 mm")
    names = ["outer_pivot", "hole_pivot", "inner_pivot", "pivot_step", "outer_reach", "inner_reach"]
    assert [getattr(jig, name).m_as("mm") for name in names] == [226, 214, 194, 32, 220, 200]


def test_a_pivot_error_doubles_in_the_diameter():
    jig = CircleJig("440 mm", "12 mm")
    disc, _ = board_after(swept(jig.plain.outer_pivot + 0.5, 12))
    assert across(disc.exterior)[0] == CLOSE(441, abs=0.02)


class TestPasses:
    PASSES = {"stock_thickness": "18 mm", "pass_depth": "5 mm"}

    def test_by_hand(self):
        jig = CircleJig("440 mm", "12 mm", **self.PASSES)
        assert [depth.m_as("mm") for depth in jig.passes] == [4.5, 9, 13.5, 18]
        assert jig.depth.m_as("mm") == 18

    def test_run_through_is_cut_too(self):
        jig = CircleJig("440 mm", "12 mm", through="3 mm", **self.PASSES)
        assert [depth.m_as("mm") for depth in jig.passes] == CLOSE([4.2, 8.4, 12.6, 16.8, 21])

    @pytest.mark.parametrize(("stock", "count"), [("20 mm", 4), ("20.1 mm", 5), ("3 mm", 1), ("5 mm", 1)])
    def test_a_whole_number_of_passes_needs_no_more(self, stock, count):
        jig = CircleJig("440 mm", "12 mm", stock_thickness=stock, pass_depth="5 mm")
        assert len(jig.passes) == count

    @settings(deadline=None)
    @given(stock=st.integers(30, 800), through=st.integers(0, 60), deepest=st.integers(10, 200))
    def test_fewest_equal_none_too_deep_to_the_bottom(self, stock, through, deepest):
        jig = CircleJig(
            "440 mm", "12 mm", stock_thickness=f"{stock / 10} mm", through=f"{through / 10} mm",
            pass_depth=f"{deepest / 10} mm",
        )  # fmt: skip
        depths = jig.plain.passes
        steps = [after - before for before, after in itertools.pairwise((0.0, *depths))]
        assert depths[-1] == jig.plain.stock_thickness + jig.plain.through
        assert steps == CLOSE([steps[0]] * len(steps))
        assert max(steps) <= deepest / 10 * (1 + 1e-8)
        assert (len(depths) - 1) * deepest < stock + through  # one fewer would not do

    def test_passes_need_both_sizes(self):
        with pytest.raises(ShapeError, match="deepest pass"):
            _ = CircleJig("440 mm", "12 mm", stock_thickness="18 mm").passes
        with pytest.raises(ShapeError, match="stock thickness"):
            _ = CircleJig("440 mm", "12 mm", pass_depth="5 mm").passes

    def test_a_slip_in_the_unit_does_not_ask_for_a_million_passes(self):
        jig = CircleJig("440 mm", "12 mm", stock_thickness="18 mm", pass_depth="0.00001 mm")
        with pytest.raises(ShapeError, match=r"0\.0 mm.*18\.0 mm.*0\.09 mm.*deeper passes") as caught:
            _ = jig.passes
        assert caught.value.input == "pass_depth"
        assert jig.outer_pivot.m_as("mm") == 226


def lowest_tip(jig):
    """How deep in the stock the tip gets with the router plunged right down on the jig's base."""
    return jig.reach_below_base - jig.base_thickness


class TestReachOfTheCutter:
    """A cutter that is too short spoils the passes, never the pivots."""

    SIZES = {"stock_thickness": "18 mm", "through": "0.5 mm", "base_thickness": "10 mm", "pass_depth": "5 mm"}

    def test_router_that_just_reaches(self):
        jig = CircleJig("440 mm", "12 mm", reach_below_base="28.5 mm", **self.SIZES)
        assert jig.passes[-1] == lowest_tip(jig)

    def test_router_that_does_not_reach(self):
        jig = CircleJig("440 mm", "12 mm", reach_below_base="28.4 mm", **self.SIZES)
        with pytest.raises(ShapeError, match=r"28\.4 mm.*28\.5 mm.*reaches 0\.1 mm further") as caught:
            _ = jig.passes
        assert caught.value.input == "reach_below_base"
        assert [caution.input for caution in jig.cautions] == ["reach_below_base"]
        assert jig.outer_pivot.m_as("mm") == 226 and jig.depth.m_as("mm") == 18.5

    def test_whatever_the_rounding(self):
        assert 3.1 + 13.3 > 16.4
        sizes = {"stock_thickness": "13.3 mm", "base_thickness": "3.1 mm", "pass_depth": "5 mm"}
        jig = CircleJig("440 mm", "12 mm", reach_below_base="16.4 mm", **sizes)
        assert len(jig.passes) == 3

    @settings(deadline=None)
    @given(reach=st.integers(50, 600), base=st.integers(0, 200), stock=st.integers(30, 500))
    def test_passes_end_where_the_tip_can_go(self, reach, base, stock):
        jig = CircleJig(
            "440 mm", "12 mm", reach_below_base=f"{reach / 10} mm", base_thickness=f"{base / 10} mm",
            stock_thickness=f"{stock / 10} mm", pass_depth="5 mm", through="1 mm",
        )  # fmt: skip
        if reach < base + stock + 10:  # tenths of a millimetre
            with pytest.raises(ShapeError, match="below the router's base"):
                _ = jig.passes
        else:
            assert jig.passes[-1] <= lowest_tip(jig) * (1 + 1e-9)

    def test_edges_shorter_than_the_cut_are_a_caution(self):
        """Six passes of 3.08 mm with edges 6 mm long: each pass is cut by edges, the shank follows from 6 mm on."""
        jig = CircleJig("440 mm", "12 mm", cutting_length="6 mm", **(self.SIZES | {"pass_depth": "3.1 mm"}))
        assert len(jig.passes) == 6
        (caution,) = jig.cautions
        assert caution.input == "cutting_length" and "6.0 mm long, the cut is 18.5 mm deep" in caution.tell()
        whole = CircleJig("440 mm", "12 mm", cutting_length="18.5 mm", **self.SIZES)
        assert not whole.cautions  # the base needs no edges

    def test_edges_shorter_than_one_pass_cannot_cut_it(self):
        jig = CircleJig("440 mm", "12 mm", cutting_length="4.6 mm", **self.SIZES)  # passes of 4.625 mm
        with pytest.raises(ShapeError, match=r"4\.63 mm deep.*4\.6 mm long") as caught:
            _ = jig.passes
        assert caught.value.input == "cutting_length"
        assert [caution.input for caution in jig.cautions] == ["cutting_length"]
        assert len(CircleJig("440 mm", "12 mm", cutting_length="4.625 mm", **self.SIZES).passes) == 4


class TestBlank:
    @pytest.mark.parametrize(("diameter", "cutter", "width"), JIGS)
    @pytest.mark.parametrize("hold", ["25 mm", "1 in", "5 mm"])
    def test_groove_keeps_the_hold_to_all_four_edges(self, diameter, cutter, width, hold):
        jig = CircleJig(diameter, cutter, ring_width=width, hold=hold).plain
        half = jig.blank / 2
        square = box(-half, -half, half, half)
        groove = swept(jig.outer_pivot, jig.cutter_diameter)
        assert square.buffer(1e-6).covers(groove)
        assert groove.distance(square.exterior) == CLOSE(jig.hold, abs=0.01)

    def test_by_hand(self):
        # 440, a groove of 12 and 25 left on both sides: 440 + 24 + 50.
        assert CircleJig("440 mm", "12 mm", ring_width="20 mm").blank.m_as("mm") == 514


class TestCard:
    def test_ring_has_no_plain_hole(self):
        names = CircleJig("440 mm", "12 mm", ring_width="20 mm").plain.on_card()
        assert names[0] == "blank" and names[-1] == "passes"
        assert {"outer_pivot", "inner_pivot", "pivot_step"} < set(names)
        assert not any("hole" in name for name in names)

    def test_disc_and_hole_have_no_ring(self):
        names = CircleJig("440 mm", "12 mm").plain.on_card()
        assert {"outer_pivot", "hole_pivot", "outer_reach", "hole_reach"} < set(names)
        assert not {"inner_pivot", "inner_reach", "pivot_step"} & set(names)


class TestAfterTestCut:
    JIG = CircleJig("440 mm", "12 mm", ring_width="20 mm")

    @pytest.mark.parametrize("slip", [-1.5, -0.2, 0.0, 0.35])
    @pytest.mark.parametrize(
        ("cut", "wanted", "kept"),
        [
            ("outer", 440, lambda pivot: 2 * (pivot - 5.8)),
            ("hole", 440, lambda pivot: 2 * (pivot + 5.8)),
            ("inner", 400, lambda pivot: 2 * (pivot + 5.8)),
        ],
    )
    def test_corrected_jig_cuts_what_was_wanted(self, cut, wanted, kept, slip):
        """A jig out by a slip, with a cutter of truly 11.6 mm: the second cut comes out right."""
        pivot = {"outer": 226, "hole": 214, "inner": 194}[cut]
        measured = kept(pivot + slip)
        corrected = self.JIG.after_test_cut(cut, f"{measured:.4f} mm").m_as("mm")
        assert kept(corrected + slip) == CLOSE(wanted)

    def test_too_large_a_disc_brings_the_pivot_in_by_half(self):
        assert self.JIG.after_test_cut("outer", "441 mm").m_as("mm") == 225.5

    @pytest.mark.parametrize("word", ["side", "{}", "", None])
    def test_which_cut(self, word):
        with pytest.raises(ShapeError, match="outer, hole or inner") as caught:
            self.JIG.after_test_cut(word, "440 mm")
        assert str(word) in str(caught.value)

    @pytest.mark.parametrize("measured", ["0 mm", "-3 mm", "2000 mm"])
    def test_nonsense_measured(self, measured):
        with pytest.raises(ShapeError):
            self.JIG.after_test_cut("outer", measured)

    def test_measured_without_unit(self):
        with pytest.raises(MeasureError, match="unit"):
            self.JIG.after_test_cut("outer", 441)

    def test_inside_of_a_plain_disc(self):
        with pytest.raises(ShapeError, match="ring width"):
            CircleJig("440 mm", "12 mm").after_test_cut("inner", "400 mm")


class TestFromGroove:
    @settings(deadline=None)
    @given(pivot=st.integers(300, 7000), cutter=st.integers(30, 250))
    def test_finds_cutter_and_pivot(self, pivot, cutter):
        disc, hole = 2 * pivot - cutter, 2 * pivot + cutter  # edges of a groove, in tenths of a millimetre
        found = CircleJig.from_groove(f"{disc / 10} mm", f"{hole / 10} mm")
        assert found.cutter_diameter.m_as("mm") == CLOSE(cutter / 10)
        assert found.pivot.m_as("mm") == CLOSE(pivot / 10)

    def test_tells_itself_in_both_units(self):
        told = repr(CircleJig.from_groove("440.3 mm", "464.1 mm"))
        assert "11.90 mm (0.469 in)" in told and "226.10 mm (8.902 in)" in told

    def test_in_inches(self):
        found = CircleJig.from_groove("17 in", "18 in")
        assert (found.cutter_diameter.m_as("in"), found.pivot.m_as("in")) == CLOSE((0.5, 8.75))

    @pytest.mark.parametrize(
        ("disc", "hole"), [("464 mm", "440 mm"), ("440 mm", "440 mm"), ("0 mm", "12 mm")]
    )
    def test_edges_changed_over(self, disc, hole):
        with pytest.raises(ShapeError, match="changed over"):
            CircleJig.from_groove(disc, hole)


class TestCannotBeMade:
    @pytest.mark.parametrize("width", ["220 mm", "300 mm"])
    def test_ring_without_inside(self, width):
        with pytest.raises(ShapeError, match=r"220\.0 mm.*narrower") as caught:
            CircleJig("440 mm", "12 mm", ring_width=width)
        assert caught.value.input == "ring_width"
        assert "8 21/32 in" in caught.value.tell("in")

    @pytest.mark.parametrize("inside", ["12 mm", "11 mm"])
    def test_hole_no_larger_than_the_cutter(self, inside):
        with pytest.raises(ShapeError, match=rf"{inside[:2]}\.0 mm across.*12\.0 mm") as caught:
            _ = CircleJig(inside, "12 mm").hole_pivot
        assert caught.value.input == "cutter_diameter"

    def test_inside_no_larger_than_the_cutter(self):
        jig = CircleJig("100 mm", "12 mm", ring_width="45 mm")
        assert jig.outer_pivot.m_as("mm") == 56
        with pytest.raises(ShapeError, match=r"10\.0 mm across"):
            _ = jig.inner_pivot
        with pytest.raises(ShapeError):
            _ = jig.pivot_step

    def test_inside_of_a_plain_disc(self):
        with pytest.raises(ShapeError, match="ring width") as caught:
            _ = CircleJig("440 mm", "12 mm").inner_reach
        assert caught.value.input == "ring_width"


def cautions(*sizes, **more):
    return {caution.input for caution in CircleJig(*sizes, **more).cautions}


class TestCautions:
    def test_none_for_a_careful_cut(self):
        sizes = {"ring_width": "20 mm", "stock_thickness": "18 mm", "pass_depth": "5 mm", "through": "0.5 mm"}
        assert cautions("440 mm", "12 mm", **sizes) == set()

    def test_pass_deeper_than_the_cutter_is_wide(self):
        assert cautions("440 mm", "6 mm", pass_depth="6.1 mm") == {"pass_depth"}
        assert cautions("440 mm", "6 mm", pass_depth="6 mm") == set()

    def test_cutter_sweeps_over_its_own_pivot(self):
        """The cutter's near edge reaches the pivot where the inside's radius is one cutter."""
        jig = CircleJig("100 mm", "12 mm", ring_width="38 mm")
        assert jig.plain.inner_pivot == jig.plain.cutter_diameter / 2
        assert cautions("100 mm", "12 mm", ring_width="38 mm") == {"ring_width"}

    def test_cutter_runs_into_the_pin(self):
        """3 mm of a 6 mm pin stand on each side of the pivot's centre: the near edge may not come that close."""
        assert cautions("100 mm", "12 mm", ring_width="37.9 mm") == {"pivot_pin"}
        assert cautions("100 mm", "12 mm", ring_width="35 mm") == {"pivot_pin"}
        assert cautions("100 mm", "12 mm", ring_width="34.9 mm") == set()
        assert cautions("100 mm", "12 mm", ring_width="35 mm", pivot_pin="5.9 mm") == set()

    def test_board_too_small_to_hold(self):
        assert cautions("440 mm", "12 mm", hold="14.9 mm") == {"hold"}
        assert cautions("440 mm", "12 mm", hold="15 mm") == set()

    def test_ring_thinner_than_half_the_cutter(self):
        assert cautions("440 mm", "12 mm", ring_width="5.9 mm") == {"ring_width"}
        assert cautions("440 mm", "12 mm", ring_width="6 mm") == set()

    def test_last_pass_level_with_the_underside(self):
        assert cautions("440 mm", "12 mm", stock_thickness="18 mm") == {"through"}
        assert cautions("440 mm", "12 mm", stock_thickness="18 mm", through="0.1 mm") == set()
