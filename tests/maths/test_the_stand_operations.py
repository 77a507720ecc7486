"""The table of operations: each model is the one built by hand from the same sizes, and nothing is left out."""

import re
import time

import pytest
from models import EXAMPLES, SIDE_TABLE

from shoplib import (
    CasterLeg,
    CentreFinder,
    CircleJig,
    Cope,
    CornerBlock,
    Cradle,
    DowelFit,
    DowelJoint,
    Finish,
    GrainArcs,
    HollowBlank,
    MeasureError,
    MitredBar,
    PanelScrew,
    PanelSeason,
    Patch,
    Rebate,
    Rolling,
    RoundCope,
    RoundStock,
    ShapeError,
    Squareness,
    Stand,
    StaveRing,
    StubBar,
    TwoFaces,
    WrapStrip,
    seedling_stand,
)
from shoplib.maths.the_stand.dependencies import sizes_read
from shoplib.maths.the_stand.filling import Always, Size
from shoplib.maths.the_stand.operations import OPERATIONS

CLOSE = pytest.approx
STAND = seedling_stand()
ASH = "Ash, white"

# What the lessons would be given for the seedling stand, typed from its drawing.
BY_HAND = {
    "template": CircleJig("440 mm", "12 mm", ring_width="20 mm", stock_thickness="18 mm", pass_depth="6 mm",
                          through="0.5 mm", cutting_length="25 mm", base_thickness="10 mm", reach_below_base="45 mm"),
    "staves": StaveRing("440 mm", "400 mm", 12, margin="3 mm", kerf="3 mm"),
    "grain_outside": GrainArcs("staves", 12, "outside", "440 mm"),
    "grain_inside": GrainArcs("staves", 12, "inside", "400 mm"),
    "trim": TwoFaces("40 mm", "18 mm", "18 mm", "25 mm", "25 mm", "7 mm"),
    "patch": Patch("400 mm", "20 mm", "inside", "60 mm", "3 mm", "12 mm", "20 mm"),
    "rebate": Rebate("400 mm", "20 mm", "40 mm", "12 mm", "10 mm", clearance="2.5 mm", pass_depth="6 mm",
                     cutter_diameter="32 mm", guide="bearing", panel_cutter="12 mm"),
    "panel": CircleJig("415 mm", "12 mm", stock_thickness="12 mm", pass_depth="6 mm", through="0.5 mm",
                       cutting_length="25 mm", base_thickness="10 mm", reach_below_base="45 mm"),
    "panel_season": PanelSeason("420 mm", "2.5 mm", ASH, "flat", "8 %", "6 %", "12 %", "mitred", "10 mm"),
    "leg_stock": RoundStock("35 mm", "720 mm", pass_depth="6 mm"),
    "strip_right": WrapStrip("35 mm", "360 mm", upper_rail="60 mm", lower_rail="500 mm", rail_height="50 mm",
                             dowel_edge="12 mm", dowel_spacing="26 mm"),
    "strip_left": WrapStrip("35 mm", "360 mm", upper_rail="60 mm", lower_rail="500 mm", rail_height="50 mm",
                            dowel_edge="12 mm", dowel_spacing="26 mm", second_side="left"),
    "cradle": Cradle("35 mm", block_height="60 mm"),
    "corner_block": CornerBlock("35 mm"),
    "dowels": DowelJoint("35 mm", "20 mm", "50 mm", "8 mm", "40 mm", "12 mm", "12 mm"),
    "dowel_fit": DowelFit("8 mm"),
    "bar_stock": RoundStock("19 mm", "420 mm", pass_depth="6 mm"),
    "stub_stock": RoundStock("14 mm", "68 mm", 2, pass_depth="6 mm"),
    "caster_legs": CasterLeg("35 mm", "11 mm", "22 mm", "50 mm", "360 mm", "720 mm"),
    "leg_centres": CentreFinder("35 mm"),
    "rails": Cope("35 mm", "20 mm", "360 mm", rail_height="50 mm"),
    "screws": PanelScrew("50 mm", "20 mm", "19 mm", "40 mm", "4 mm", "2.8 mm", "8 mm", "6 mm", "12 mm", "75 mm", ASH,
                         "flat", "8 %", "6 %", "12 %", "1 mm", "10 mm"),
    "squareness": Squareness("360 mm", "360 mm", "509.1169 mm", "509.1169 mm"),
    "finish": Finish("1.5908 m2", "12 m2"),
    "rolling": Rolling("23.1826 kg", "491.629 mm", "178.314 mm", "360 mm", "360 mm", "430 mm", trail="20 mm"),
    "stub_bar": StubBar("19 mm", "14 mm", "43 mm", "360 mm", "30 mm", "9 mm", "18 mm", "9.6135 kg",
                        leg_diameter="35 mm"),
}  # fmt: skip
IN_INCHES = {
    "template": CircleJig("17 3/8 in", "1/2 in", ring_width="3/4 in", stock_thickness="3/4 in", pass_depth="1/4 in",
                          through="1/32 in", cutting_length="1 in", base_thickness="3/8 in", hold="1 in",
                          reach_below_base="1 3/4 in", pivot_pin="1/4 in"),
    "rebate": Rebate("15 7/8 in", "3/4 in", "1 1/2 in", "1/2 in", "3/8 in", clearance="3/32 in", pass_depth="1/4 in",
                     cutter_diameter="1 1/4 in", guide="bearing", panel_cutter="1/2 in"),
    "panel": CircleJig("16 7/16 in", "1/2 in", stock_thickness="1/2 in", pass_depth="1/4 in", through="1/32 in",
                       cutting_length="1 in", base_thickness="3/8 in", hold="1 in", reach_below_base="1 3/4 in",
                       pivot_pin="1/4 in"),
    "strip_left": WrapStrip("1 3/8 in", "14 1/8 in", "0.004 in", "0.3 mm", "0 in", "2 in", "19 1/2 in", "2 in",
                            "1/2 in", "1 in", "0 in", "left"),
    "dowels": DowelJoint("1 3/8 in", "3/4 in", "2 in", "5/16 in", "1 1/2 in", "7/16 in", "1/2 in",
                         end_clearance="1/16 in"),
    "caster_legs": CasterLeg("1 3/8 in", "7/16 in", "7/8 in", "2 in", "14 1/8 in", "28 in", "1/16 in"),
    "rails": Cope("1 3/8 in", "3/4 in", "14 1/8 in", rail_height="2 in"),
    "leg_stock": RoundStock("1 3/8 in", "28 in", grip="3 in", kerf="1/8 in", pass_depth="1/4 in"),
}  # fmt: skip
TABLE = seedling_stand(**SIDE_TABLE)
OF_THE_TABLE = {
    "boards": HollowBlank("500 mm", "450 mm", "60 mm", margin="3 mm"),
    "grain_inside": GrainArcs("boards", 12, "inside", "450 mm"),
    "panel_season": PanelSeason("470 mm", "2.5 mm", "Cherry, black", "flat", "8 %", "6 %", "12 %", "parallel", "10 mm"),
    "patch": Patch("500 mm", "25 mm", "outside", "50 mm", "4 mm", "12 mm", "20 mm"),
    "arm_cope": RoundCope("40 mm", "19 mm"),
    "mitred_bar": MitredBar("19 mm", "420 mm", "69.5 mm", leg_end="2.4003 mm"),
    "strip_right": WrapStrip("40 mm", "420 mm", upper_rail="40 mm", rail_height="50 mm", dowel_edge="12 mm"),
    "rails": Cope("40 mm", "20 mm", "420 mm", rail_height="50 mm", drum_diameter="38 mm"),
    # bar 420 + 19, two arms of 69.5 + 9.5 + 2.4, four saw cuts of 3
    "bar_stock": RoundStock("19 mm", "613.8006 mm", roundover_radius="9 mm", pass_depth="6 mm"),
}  # fmt: skip

# No two sizes of one lesson alike, so that none can be taken for another.
ODD = seedling_stand(
    template_thickness="18 mm", bearing_hold="17 mm", first_edges="26 mm", second_edges="24 mm", second_bearing="7 mm",
    first_depth="23 mm", trim_overlap="1.5 mm", trim_margin="2.5 mm", trim_bite="2 mm", patch_cutter="10 mm",
    patch_feet="21 mm", patch_proud="0.4 mm", rim_width="20.5 mm", dowel_in_leg="11.5 mm", dowel_edge="13 mm",
    stagger="0.5 mm", dowel_clearance="1.4 mm", dowel_drill_point="0.3 mm", stub_in_bar="9.5 mm", stub_in_leg="18 mm",
    stub_clearance="0.9 mm", stub_drill_point="0.2 mm", bar_overhang="31 mm", panel_thickness="11.8 mm",
    panel_proud="0.6 mm", finish_pass="0.7 mm", router_edges="27 mm", jig_base="9 mm", jig_hold="26 mm",
    pivot_pin="5.5 mm", cut_through="0.8 mm", pass_depth="5 mm", moisture_made="8.5 %", leg_roundover="17 mm",
    bar_roundover="9 mm", square_grip="70 mm", saw_kerf="2.8 mm", rounding_bite="5 mm", point_height="0.5 mm",
    v_angle="91 deg", block_board="13 mm", paper_thickness="0.12 mm", lead_short="1.8 mm", drum_diameter="36 mm",
    caster_clearance="2.2 mm", finish_coats=3, finish_loss="12 %", ring_margin="3.2 mm", dowel_grade="h11",
    hole_grade="H8", dowel_timber="Birch, yellow",
)
OF_THE_ODD = {
    "template": CircleJig("440 mm", "12 mm", "20.5 mm", "18 mm", "5 mm", "0.8 mm", "27 mm", "9 mm", "45 mm", "26 mm",
                          "5.5 mm"),
    "staves": StaveRing("440 mm", "399 mm", 12, "3.2 mm", "2.8 mm"),
    "trim": TwoFaces("40 mm", "18 mm", "17 mm", "26 mm", "24 mm", "7 mm", "23 mm", "1.5 mm", "2.5 mm", "2 mm"),
    "patch": Patch("399 mm", "20.5 mm", "inside", "60 mm", "3 mm", "10 mm", "21 mm", "0.4 mm"),
    "rebate": Rebate("399 mm", "20.5 mm", "40 mm", "11.8 mm", "10 mm", "2.5 mm", "0.6 mm", "5 mm", "0.7 mm", "32 mm",
                     "bearing", "12 mm"),
    "panel": CircleJig("414 mm", "12 mm", None, "11.8 mm", "5 mm", "0.8 mm", "27 mm", "9 mm", "45 mm", "26 mm",
                       "5.5 mm"),
    "panel_season": PanelSeason("419 mm", "2.5 mm", ASH, "flat", "8.5 %", "6 %", "12 %", "mitred", "10 mm"),
    "leg_stock": RoundStock("35 mm", "720 mm", 1, "17 mm", "70 mm", "2.8 mm", "5 mm"),
    "bar_stock": RoundStock("19 mm", "422 mm", 1, "9 mm", "70 mm", "2.8 mm", "5 mm"),
    "strip_left": WrapStrip("35 mm", "360 mm", "0.12 mm", upper_rail="60 mm", lower_rail="500 mm", rail_height="50 mm",
                            dowel_edge="13 mm", dowel_spacing="24 mm", stagger="0.5 mm", second_side="left"),
    "cradle": Cradle("35 mm", "91 deg", None, "0.5 mm", "60 mm"),
    "corner_block": CornerBlock("35 mm", None, "13 mm"),
    "dowels": DowelJoint("35 mm", "20 mm", "50 mm", "8 mm", "40 mm", "11.5 mm", "13 mm", 2, "0.5 mm", "1.4 mm",
                         "0.3 mm"),
    "dowel_fit": DowelFit("8 mm", "h11", "H8", "Birch, yellow", "8.5 %", "12 %"),
    "caster_legs": CasterLeg("35 mm", "11 mm", "22 mm", "50 mm", "360 mm", "720 mm", "2.2 mm"),
    "rails": Cope("35 mm", "20 mm", "360 mm", rail_height="50 mm", drum_diameter="36 mm"),
    "screws": PanelScrew("50 mm", "20 mm", "19 mm", "40 mm", "4 mm", "2.8 mm", "8 mm", "6 mm", "11.8 mm", "75 mm", ASH,
                         "flat", "8.5 %", "6 %", "12 %", "1 mm", "10 mm", "1.8 mm"),
}  # fmt: skip


def check_same(found, by_hand):
    assert type(found) is type(by_hand)
    for name, value in by_hand.values.items():
        rounded = isinstance(value, float) and (abs(value - round(value, 4)) < 1e-9) and value > 1
        same = CLOSE(value, rel=2e-5 if rounded else 1e-9, abs=1e-9) if isinstance(value, float) else value
        assert found.values[name] == same, name


class TestByHand:
    def test_every_operation_of_the_seedling_stand_is_there(self):
        assert {each.name for each in STAND.operations()} == set(BY_HAND)

    @pytest.mark.parametrize("name", BY_HAND)
    def test_metric(self, name):
        check_same(STAND.operation(name).model, BY_HAND[name])

    @pytest.mark.parametrize("name", IN_INCHES)
    def test_inches(self, name):
        check_same(EXAMPLES[Stand][1].operation(name).model, IN_INCHES[name])

    @pytest.mark.parametrize("name", OF_THE_TABLE)
    def test_another_piece(self, name):
        check_same(TABLE.operation(name).model, OF_THE_TABLE[name])

    @pytest.mark.parametrize("name", OF_THE_ODD)
    def test_no_size_is_taken_for_another(self, name):
        check_same(ODD.operation(name).model, OF_THE_ODD[name])

    def test_the_stub_bar_too(self):
        load = f"{ODD.plain.bar_load:.9f} kg"
        by_hand = StubBar("19 mm", "14 mm", "43 mm", "360 mm", "31 mm", "9.5 mm", "18 mm", load, ASH, ASH, "0.9 mm",
                          "0.2 mm", "35 mm")  # fmt: skip
        check_same(ODD.operation("stub_bar").model, by_hand)

    def test_exactly_the_same_numbers_come_out(self):
        for name, by_hand in BY_HAND.items():
            if name not in ("rolling", "stub_bar", "finish", "squareness"):
                found = STAND.operation(name).model
                assert found == by_hand, name
                assert found.summary() == by_hand.summary()

    def test_how_many(self):
        counts = {each.name: each.count for each in STAND.operations()}
        assert counts == dict.fromkeys(counts, 1) | {
            "staves": 4, "grain_outside": 2, "grain_inside": 2, "trim": 2, "rebate": 2, "panel": 2, "panel_season": 2,
            "leg_stock": 4, "strip_right": 2, "strip_left": 2, "dowels": 16, "dowel_fit": 32, "stub_stock": 2,
            "caster_legs": 2, "leg_centres": 2, "rails": 8, "screws": 4,
        }  # fmt: skip
        one = {each.name: each.count for each in TABLE.operations()}
        assert (one["rails"], one["caster_legs"], one["boards"], one["dowel_fit"]) == (4, 4, 2, 8)

    def test_rolling_on_four_casters_has_no_lift_and_the_bar_half_the_weight(self):
        stand = seedling_stand(casters=4)
        with pytest.raises(ShapeError, match="nothing is lifted"):
            stand.rolling.lift  # noqa: B018
        assert stand.operation("stub_bar").plain.load == CLOSE(stand.plain.loaded_weight / 2)


class TestTheTable:
    @pytest.mark.parametrize("operation", OPERATIONS.values(), ids=lambda each: each.name)
    def test_every_input_is_filled_or_left_on_purpose(self, operation):
        assert set(operation.fill) | set(operation.left) == set(operation.model.inputs())
        assert not set(operation.fill) & set(operation.left)

    @pytest.mark.parametrize("operation", OPERATIONS.values(), ids=lambda each: each.name)
    def test_sizes_are_of_the_kind_that_the_lesson_asks_for(self, operation):
        inputs = Stand.inputs()
        for name, source in operation.fill.items():
            item = operation.model.inputs()[name]
            if isinstance(source, Size):
                assert inputs[source.name].kind == item.kind
                assert inputs[source.name].low == item.low or item.low is None or inputs[source.name].low >= 0
                assert inputs[source.name].optional == item.optional or not inputs[source.name].optional
                if item.options and inputs[source.name].options:
                    assert set(inputs[source.name].options) <= set(item.options)
            elif isinstance(source, Always) and item.options:
                assert source.value in item.options
        for name, own in operation.gives.items():
            assert operation.model.results()[name].kind == Stand.results()[own].kind

    def test_no_size_of_the_stand_is_without_use(self):
        used = set()
        for stand in (*EXAMPLES[Stand], seedling_stand(ring_route="boards"), seedling_stand(casters=4)):
            for each in stand.operations():
                used |= set(each.sizes)
        assert set(Stand.inputs()) - used == set()

    def test_what_gives_a_result_agrees_with_the_stand(self):
        for stand in EXAMPLES[Stand]:
            for each in stand.operations():
                for name, own in each.operation.gives.items():
                    try:
                        number = getattr(each.plain, name)
                    except ShapeError:
                        continue
                    assert getattr(stand.plain, own) == CLOSE(number)

    def test_every_size_is_declared_once_and_in_a_group(self):
        groups = [item.group for item in Stand.inputs().values()]
        assert all(groups)
        assert len([k for k, each in enumerate(groups) if k == 0 or groups[k - 1] != each]) == len(set(groups))

    def test_an_unknown_operation_names_those_there_are(self):
        with pytest.raises(MeasureError, match="no operation 'rebates'.*rebate, panel"):
            STAND.operation("rebates")


class TestRefusals:
    @pytest.mark.parametrize(
        ("changes", "said", "hangs_on"),
        [
            ({"rebate_width": "20 mm"}, r"^Rebate the rims from below \(lesson 03\): A rebate 20.0 mm wide leaves no "
             "wall", "rebate_width"),
            ({"screw_length": "46 mm"}, r"^Drill and drive the sliding screws \(lesson 08\): ", "screw_length"),
            ({"dowel_in_leg": "36 mm"}, r"\(lesson 04\): .*comes out behind a leg", "dowel_in_leg"),
            ({"caster_hole": "36 mm"}, r"\(lesson 07\): .*breaks out of a leg", "caster_hole"),
            ({"rim_height": "60 mm"}, r"^Trim the rims from two faces \(lesson 11\): .*up to 48.0 mm tall",
             "second_edges"),
            ({"stub_diameter": "20 mm"}, r"^Drill legs and bar for the stubs \(lesson 10\)", "stub_diameter"),
            ({"leg_roundover": "18 mm"}, r"^Round the legs \(lesson 04\): A roundover", "leg_roundover"),
            ({"ring_margin": "210 mm"}, r"^Saw the staves of the rims \(lesson 02\)", "ring_margin"),
            ({"tray_diameter": "475 mm"}, "^A tray of 475.0 mm runs into the legs", "tray_diameter"),
            ({"rim_width": "230 mm"}, "leaves no inside", "rim_width"),
            ({"upper_rail_top": "721 mm"}, "lies over the legs' tops", "upper_rail_top"),
            ({"lower_rail_top": "120 mm"}, "below the end of the casters' holes", "lower_rail_top"),
            ({"lower_rail_top": "571 mm"}, "the lower tray is 40.0 mm high", "lower_rail_top"),
            ({"screw_from_fixed": "180 mm"}, "comes up beside the panel", "screw_from_fixed"),
            ({"screw_from_fixed": "102 mm"}, "comes up beside the panel", "screw_from_fixed"),
            ({"tray_diameter": "385 mm"}, "the tray falls between them", "tray_diameter"),
            ({"bar_height": "711 mm"}, "does not lie on the legs", "bar_height"),
            ({"bar_height": "615 mm"}, "breaks into a dowel's hole", "bar_height"),
            ({"bar_height": "680 mm", "hand_room": "22 mm"}, "inside the tray's rim", "bar_height"),
            ({"bar_diameter": "35 mm"}, "must be thinner than a leg", "bar_diameter"),
            ({"casters": 3}, r"\(lesson 07\): Three casters", "casters"),
        ],
    )
    def test_what_cannot_be_made_says_whose_it_is_and_hangs_on_a_size(self, changes, said, hangs_on):
        with pytest.raises(ShapeError) as caught:
            seedling_stand(**changes)
        text = str(caught.value)
        assert re.search(said, text), text
        assert caught.value.input == hangs_on

    def test_told_in_inches_too(self):
        with pytest.raises(ShapeError) as caught:
            seedling_stand(rebate_width="20 mm")
        assert "A rebate 25/32 in wide" in caught.value.tell("in") and " mm" not in caught.value.tell("in")

    @pytest.mark.parametrize("name", ["rebate_width", "lower_rail_top", "screw_length"])
    def test_replace_and_as_made_refuse_alike(self, name):
        wrong = {"rebate_width": "20 mm", "lower_rail_top": "600 mm", "screw_length": "60 mm"}[name]
        for change in (STAND.replace, STAND.as_made):
            if (name, change) != ("rebate_width", STAND.as_made):
                with pytest.raises(ShapeError):
                    change(**{name: wrong})

    def test_what_this_stand_has_not_cannot_spoil_it(self):
        seedling_stand(stub_diameter="20 mm", pull_bar="none")
        seedling_stand(lower_rail_top="600 mm", trays=1)
        seedling_stand(ring_board_width="1 mm")


class TestCautions:
    def test_each_operation_s_cautions_come_with_their_lesson(self):
        told = [caution.tell() for caution in STAND.cautions]
        wanted = [
            f"{each.title} (lesson {each.lesson[:2]}): {caution.tell()}"
            for each in STAND.operations() for caution in each.model.cautions
        ]  # fmt: skip
        assert set(told) <= set(wanted)
        without_title = {text.partition(": ")[2] for text in told}
        assert without_title == {text.partition(": ")[2] for text in wanted}
        assert len(told) == len(without_title), "what two operations share is told once"

    def test_the_stand_in_tells_the_same(self):
        for stand in EXAMPLES[Stand]:
            assert [each.tell() for each in stand.plain.worries()][-1] in [each.tell() for each in stand.cautions]
            assert {each.tell() for each in stand.plain.worries()} == {each.tell() for each in stand.cautions}

    @pytest.mark.parametrize(
        ("changes", "said", "hangs_on"),
        [
            ({"bar_height": "605 mm"}, "near a rim's height and only 20.5 mm clear", "bar_height"),
            ({"bar_height": "612 mm"}, "stub's hole and a dowel's", "bar_height"),
            ({"lower_rail_top": "300 mm"}, "the lower tray does not go in", "lower_rail_top"),
            ({"rebate_cutter": "12 mm"}, "Rebate the rims from below (lesson 03): ", "rebate_cutter"),
            ({"dowels": 3}, "marks two dowels at the most", "dowels"),
        ],
    )
    def test_of_the_whole(self, changes, said, hangs_on):
        found = [each for each in seedling_stand(**changes).cautions if said in each.tell()]
        assert [each.input for each in found] == [hangs_on]
        assert not [each for each in STAND.cautions if said in each.tell()]


class TestWhatMovesWhat:
    def test_leg_spacing(self):
        told = STAND.changes(STAND.replace(leg_spacing="357.1 mm")).tell()
        (row,) = [row for row in told.rows if row[2] == "rail's top edge, tip to tip"]
        assert row == ("Saw and cope the rails", "lesson 05", row[2], "331.3 mm", "328.4 mm", "8 of rail")

    def test_nothing_moves_where_nothing_changed(self):
        assert STAND.changes(STAND.replace()) == ()
        assert repr(STAND.changes(STAND)) == "Nothing else moves."

    def test_another_route_takes_the_one_away_and_brings_the_other(self):
        found = STAND.changes(seedling_stand(ring_route="boards"))
        gone = {each.was is not None and each.becomes is None for each in found if each.operation == "staves"}
        come = {each.was is None and each.becomes is not None for each in found if each.operation == "boards"}
        assert gone == come == {True}

    def test_changes_are_those_of_the_models(self):
        """All results of all operations compared one by one, told in mm."""
        other = STAND.replace(leg_diameter="36 mm")
        wanted = set()
        for one, two in zip(STAND.operations(), other.operations()):
            for name, item in one.operation.model.results().items():
                if not (item.minor or item.table):
                    texts = [item.write(getattr(each.plain, name)) for each in (one, two)] \
                        if _both(one, two, name) else ["", ""]
                    if len(set(texts)) > 1:
                        wanted.add((one.name, name))
        found = {(each.operation, each.result) for each in STAND.changes(other)}
        assert wanted <= found and ("rails", "depth") in wanted
        assert {each for each in found - wanted if each[0] == "corner_block"} == set()

    @pytest.mark.parametrize("name", [name for name, item in Stand.inputs().items() if item.kind == "length"])
    def test_moved_by_names_every_operation_that_changes(self, name):
        """Each size moved by a hair: what any operation is filled with then must be among those named."""
        values = STAND.values
        if values[name] is None:
            return
        moved = Stand.Stand(values | {name: values[name] + 1e-3})
        found = {
            each.name for each in STAND.operations()
            if any(one != two for one, two in zip(each.operation.values(moved).values(),
                                                  each.operation.values(STAND.plain).values()))
        }  # fmt: skip
        assert found <= set(STAND.moved_by(name))

    def test_moved_by_is_found_through_formulas(self):
        assert STAND.moved_by("rebate_width") == ("rebate", "panel", "panel_season", "finish", "stub_bar", "rolling")
        assert STAND.moved_by("v_angle") == ("cradle",)
        assert STAND.moved_by("ring_board_width") == ()
        with pytest.raises(MeasureError, match="no input"):
            STAND.moved_by("nothing")

    def test_what_a_formula_reads(self):
        assert set(sizes_read(STAND.plain, lambda s: s.panel_diameter)) == {
            "tray_diameter", "rim_width", "rebate_width", "panel_clearance"}  # fmt: skip
        assert sizes_read(STAND.plain, lambda s: s.rail_length) == ("leg_spacing", "leg_diameter", "rail_thickness")


def _both(one, two, name):
    try:
        return all(getattr(each.plain, name) is not None for each in (one, two))
    except ShapeError:
        return False


class TestSpeed:
    def milliseconds(self, work, times=60):
        best = []
        for _ in range(5):
            start = time.process_time()
            for k in range(times):
                work(k)
            best.append((time.process_time() - start) / times * 1000)
        return min(best)

    def test_a_move_of_any_size_solves_all_operations_in_three_milliseconds(self):
        values = STAND.values
        fresh = iter(range(10**6))

        def move(_):
            Stand.solved(values | {"leg_diameter": 35 + next(fresh) * 1e-4})

        assert self.milliseconds(move) < 3.0

    def test_with_all_cautions_too(self):
        values = STAND.values
        fresh = iter(range(10**6))
        assert self.milliseconds(
            lambda _: list(Stand.solved(values | {"leg_spacing": 360 + next(fresh) * 1e-4}).worries())
        ) < 4.0  # fmt: skip

    def test_models_are_made_only_when_asked_for(self, monkeypatch):
        asked = []
        monkeypatch.setattr("shoplib.maths.the_stand.bound.built", lambda *given: asked.append(given))
        stand = seedling_stand()
        assert len(stand.operations()) == 26 and not asked
        stand.operation("rails").model  # noqa: B018
        assert len(asked) == 1
