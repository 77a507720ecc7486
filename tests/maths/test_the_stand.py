"""The stand as a whole: its own results, its way in, its parts."""

import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from models import EXAMPLES
from shapely import box
from shapely.affinity import rotate

from shoplib import ShapeError, Stand, saw_plan, seedling_stand, stand_rack
from shoplib.maths.dowels import DowelJoint
from shoplib.maths.the_stand import limits

CLOSE = pytest.approx
STAND = seedling_stand()


def told(stand, *names, unit="mm"):
    return [text for _, text in stand.tell(*names, unit=unit).rows]


class TestOverall:
    def test_the_seedling_stand_by_hand(self):
        names = ("overall_height", "overall_width", "overall_length", "handle_reach", "shortened_leg", "rail_length")
        assert told(STAND, *names) == ["720.0 mm", "440.0 mm", "479.5 mm", "430.0 mm", "670.0 mm", "331.3 mm"]
        # 220 before the middle, and 250 + 9.5 behind it: the tray on one side, the bar on the other
        assert STAND.plain.overall_length == CLOSE(220 + 180 + 17.5 + 43 + 19)

    def test_in_inches(self):
        stand = EXAMPLES[Stand][1]
        assert told(stand, "overall_height", "overall_width", "shortened_leg", unit="in") == [
            "28 in", "17 3/8 in", "26 in"]  # fmt: skip

    def test_whatever_stands_out_furthest(self):
        assert seedling_stand(upper_rail_top="700 mm").plain.overall_height == 740
        assert seedling_stand(upper_rail_top="700 mm", panel_proud="2 mm").plain.overall_height == 742
        wide = {"leg_spacing": "390 mm", "screw_from_fixed": "40 mm"}
        assert seedling_stand(**wide).plain.overall_width == 440
        assert seedling_stand(tray_diameter="430 mm", leg_spacing="400 mm", screw_from_fixed="10 mm",
                              panel_clearance="1 mm").plain.overall_width == 435
        assert seedling_stand(pull_bar="none").plain.overall_length == 440
        # the bar's outer side at 300 + 17.5 + 20 + 19 from the middle, under trays that reach to 400
        low = seedling_stand(leg_spacing="600 mm", tray_diameter="800 mm", hand_room="20 mm", lower_rail_top="180 mm")
        assert low.plain.overall_length == 800

    def test_clear_of_the_legs(self):
        """Half of 360 sqrt(2), less 17.5 and 220."""
        assert STAND.plain.tray_clear == CLOSE(180 * math.sqrt(2) - 237.5)
        with pytest.raises(ShapeError, match="must stay under 474.1 mm"):
            seedling_stand(tray_diameter="474.2 mm")
        seedling_stand(tray_diameter="474.1 mm")

    def test_room_for_a_hand_beside_the_rim(self):
        """180 + 17.5 + 43 - 220: too little for a hand; but the bar keeps 60 mm away from both rims."""
        assert STAND.plain.bar_room == CLOSE(20.5)
        near = "near a rim's height"
        for height, warned in (("570 mm", False), ("600 mm", False), ("601 mm", True), ("320 mm", False),
                               ("319 mm", True)):  # fmt: skip
            found = [each for each in seedling_stand(bar_height=height).cautions if near in each.tell()]
            assert bool(found) == warned, height
        assert not [each for each in seedling_stand(bar_height="610 mm", hand_room="61 mm").cautions
                    if near in each.tell()]  # fmt: skip

    def test_without_a_bar_there_is_none_of_its_sizes(self):
        stand = seedling_stand(pull_bar="none")
        for name in ("bar_length", "stub_length", "bar_stock_length"):
            with pytest.raises(ShapeError, match="no bar"):
                getattr(stand, name)
        assert stand.handle_reach.m_as("mm") == 360


class TestTheWayIn:
    def test_by_hand(self):
        """On edge, 390 high between the rails: T cos a + t sin a = 390 at 33.2 deg; it needs 274 of 325."""
        plain = STAND.plain
        tilt = plain.way_in_tilt
        assert 440 * math.cos(tilt) + 40 * math.sin(tilt) == CLOSE(390)
        assert math.degrees(tilt) == CLOSE(33.2, abs=0.05)
        assert plain.way_in_spare == CLOSE(325 - 440 * math.sin(tilt) - 40 * math.cos(tilt))

    def test_upright_where_there_is_room_and_level_where_the_legs_leave_it(self):
        plain = plain_with(tray_diameter=320.0)
        assert plain.rail_gap == 390 and plain.way_in_tilt == 0 and plain.way_in_spare == CLOSE(325 - 40)
        low = plain_with(tray_diameter=300.0, lower_rail_top=550.0)
        assert low.rail_gap == 60 and low.way_in_tilt == math.pi / 2 and low.way_in_spare == CLOSE(25)

    @settings(max_examples=60, deadline=None)
    @given(st.integers(120, 460), st.integers(15, 60), st.integers(80, 500))
    def test_against_every_tilt_tried(self, across, thick, gap):
        """shapely: the tray's side view, first on edge, turned step by step, its box held against the opening."""
        stand = plain_with(tray_diameter=float(across), rim_height=float(thick), lower_rail_top=610.0 - gap)
        assume(gap >= thick)
        on_edge = box(-thick / 2, -across / 2, thick / 2, across / 2)
        spare = -math.inf
        for tenth in range(0, 901):
            left, low, right, high = rotate(on_edge, tenth / 10, origin=(0, 0)).bounds
            if high - low <= gap + 1e-9:
                spare = max(spare, 325 - (right - left))
        assert stand.way_in_spare == CLOSE(spare, abs=across * math.radians(0.1))

    def test_a_caution_where_there_is_none(self):
        stand = seedling_stand(lower_rail_top="320 mm")
        assert stand.plain.way_in_spare < 0
        (said,) = [each for each in stand.cautions if "lower tray does not go in" in each.tell()]
        assert "Put it in before the last glue-up" in said.tell() and said.input == "lower_rail_top"

    def test_the_caution_says_how_much_is_short(self):
        """350 between the rails: T cos a + t sin a = 350 at 42.804 deg; there T sin a + t cos a wants 328.3 of 325."""
        lean = math.radians(42.804)
        assert 440 * math.cos(lean) + 40 * math.sin(lean) == CLOSE(350, abs=0.01)
        assert 325 - 440 * math.sin(lean) - 40 * math.cos(lean) == CLOSE(-3.32, abs=0.01)
        shut_out = seedling_stand(lower_rail_top="260 mm")
        (said,) = [each.tell() for each in shut_out.cautions if "lower tray does not" in each.tell()]
        assert "3.32 mm are short between the legs" in said
        fits = seedling_stand(lower_rail_top="255 mm")
        assert 0 < fits.plain.way_in_spare < 5
        assert not [each for each in fits.cautions if "lower tray does not" in each.tell()]

    def test_one_tray_needs_none(self):
        stand = seedling_stand(trays=1)
        for name in ("way_in_tilt", "way_in_spare", "rail_gap"):
            with pytest.raises(ShapeError, match="One tray"):
                getattr(stand, name)


def plain_with(**sizes):
    """The stand-in with sizes that are not checked together."""
    return Stand.Stand(STAND.values | sizes)


class TestBesideTheDowels:
    def test_as_lesson_10_tells_it(self):
        """The stub of lesson 10's page among the dowels of both rails: its own table."""
        for height in (550, 570, 590, 608, 610, 612, 613):
            stand = seedling_stand(bar_height=f"{height} mm")
            bar, joint = stand.operation("stub_bar").model, stand.operation("dowels").model
            assert isinstance(joint, DowelJoint)
            rows = bar.beside_dowels(joint, f"{height} mm", "660 mm", "220 mm").rows[:2]
            least = min(float(row[2].split()[0]) for row in rows)
            found = limits.wood_beside_stub(stand.plain)
            assert found == CLOSE(least, abs=0.06) or 2.0 < found < least
            assert height < 609 or found == CLOSE(least, abs=0.06)
        staggered = seedling_stand(bar_height="595 mm", stagger="6 mm")
        # the second rail's lower dowel at 660 - 38 - 6 = 616: 21 above the bar, half of 14 and 8 between
        assert limits.wood_beside_stub(staggered.plain) == CLOSE(21 - 11)
        assert limits.wood_beside_stub(seedling_stand(bar_height="595 mm").plain) == CLOSE(27 - 11)
        for height in (615, 618, 640):
            told = bar.beside_dowels(joint, f"{height} mm", "660 mm", "220 mm").rows[0]
            assert "break into each other" in told[2]
            with pytest.raises(ShapeError, match="breaks into a dowel's hole"):
                seedling_stand(bar_height=f"{height} mm")


class TestParts:
    @pytest.mark.parametrize(("staves", "strips", "in_each"), [(12, 16, 3), (15, 20, 3), (16, 64, 1), (10, 40, 1)])
    def test_staves_go_to_the_saw_by_threes_where_they_can_be_shared_so(self, staves, strips, in_each):
        stand = seedling_stand(staves=staves)
        (strip,) = [part for part in stand.parts() if part.name == "rim strip"]
        assert strip.count == strips and strip.count * in_each == 4 * staves
        ring = stand.operation("staves").plain
        least, most = (in_each - 0.5) * ring.short_edge, in_each * (ring.long_edge + 3)
        assert least < strip.plain["length"] < most, "long enough for so many and for no more"

    def test_of_the_seedling_stand(self):
        assert [repr(part) for part in STAND.parts()] == [
            "Part: 4 leg, 720.0 x 35.0 x 35.0 mm, Ash, white",
            "Part: 8 rail, 332.0 x 50.0 x 20.0 mm, Ash, white",
            "Part: 1 pull bar, 420.0 x 19.0 x 19.0 mm, Ash, white",
            "Part: 2 stub, 68.0 x 14.0 x 14.0 mm, Ash, white",
            "Part: 16 rim strip, 348.0 x 33.0 x 20.0 mm, Ash, white",
            "Part: 6 panel piece, 425.0 x 142.0 x 12.0 mm, Ash, white",
        ]

    def test_another_route_and_another_timber(self):
        parts = {part.name: part for part in seedling_stand(
            ring_route="boards", pull_bar="mitred", panel_timber="Cherry, black").parts()}  # fmt: skip
        boards = [part for name, part in parts.items() if name.startswith("rim board")]
        cut_list = seedling_stand(ring_route="boards").operation("boards").plain.cut_list
        assert [part.count for part in boards] == [4 * cut.how_many for cut in cut_list]
        assert {part.plain["thickness"] for part in boards} == {20.0}
        assert parts["panel piece"].species == "Cherry, black" and "stub" not in parts
        # bar 360 + 19, two arms of 52.5 + 9.5 + 2.8, four saw cuts of 3
        assert parts["pull bar"].plain["length"] == 521

    def test_they_follow_what_was_made(self):
        parts = {part.name: part for part in STAND.as_made(bar_width="364 mm").parts()}
        assert parts["pull bar"].plain["length"] == 424

    def test_they_can_be_bought(self):
        plan = saw_plan(STAND.parts(), stand_rack(), seconds=5)
        assert "no other choice of boards is cheaper" in str(plan)

    @pytest.mark.parametrize("stand", EXAMPLES[Stand], ids=["mm", "in", "side table"])
    def test_finished_volume_is_about_that_of_the_weight(self, stand):
        """Parts before coping, rounding out and boring are more wood than the stand, by the rings' corners mostly."""
        from shoplib.maths.the_stand import weights

        bought = sum(part.volume() for part in stand.parts())
        built = sum(piece.count * piece.volume for piece in weights.pieces(stand.plain))
        assert 1.05 * built < bought < 1.6 * built


def test_the_stand_itself():
    assert seedling_stand() == seedling_stand(leg_diameter="35 mm") != seedling_stand(leg_diameter="35.1 mm")
    with pytest.raises(TypeError, match="tray_diameter"):
        Stand()
    with pytest.raises(TypeError):
        Stand("440 mm")
    assert len(Stand.inputs()) > 100
