"""Screws that let the panel move: published values, and a panel that is moved over its screws step by step."""

import math

import models
import numpy
import published
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from models import EXAMPLES
from possible_screws import possible_screws
from shapely import Point, Polygon
from shapely.affinity import rotate, scale, translate

from shoplib import (
    Bench,
    HollowBlank,
    MeasureError,
    PanelScrew,
    ShapeError,
    StaveRing,
    measure,
    ring_seasons,
    screw_sizes,
)
from shoplib.maths.movement import moved
from shoplib.maths.screws.panel_screw import TIMBERS, lead_share
from shoplib.maths.screws.ring_seasons import joint_opens, mitre_now
from shoplib.maths.screws.sizes import OFFER

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
    assert for_gravity / (0.45359237 * 9.80665) == CLOSE(each, rel=2e-5)


@pytest.mark.parametrize(("gravity", "share"), [(0.64, 0.9), (0.601, 0.9), (0.60, 0.7), (0.51, 0.7), (0.50, 0.0)])
def test_lead_hole_by_specific_gravity(gravity, share):
    """NDS: over 0.6 about 90 % of the root, over 0.5 about 70 %, else none required (secondary)."""
    assert [published.row("screw_rules", id=f"SR{n}")["status"] for n in (6, 7, 8)] == ["seen (secondary)"] * 3
    assert lead_share(gravity) == share


def test_a_light_timber_needs_no_lead_hole_and_says_so():
    with pytest.raises(ShapeError, match="starter hole"):
        screw(species="Pine, eastern white").lead_hole  # noqa: B018
    with pytest.raises(ShapeError, match="starter hole"):
        screw(species="Pine, eastern white").lead_depth  # noqa: B018
    assert screw(species="Beech, American").plain.lead_hole == CLOSE(0.9 * 2.8)


def test_each_cut_and_timber_moves_by_its_own_coefficient():
    """Wood Handbook Table 13-5: white ash 0.00169 radially, black cherry 0.00248 tangentially, 0.00126 radially."""
    ash, cherry = "Ash, white", "Cherry, black"
    for species, cut, each in ((ash, "quarter", 0.00169), (cherry, "flat", 0.00248), (cherry, "quarter", 0.00126)):
        assert screw(species=species, cut=cut).plain.move_damp == CLOSE(75 * each * 4)


def test_lead_hole_stops_short_of_the_tip():
    """By hand: 8 mm of thread, 2 or 3 mm less; where nothing would be left of it, none is told."""
    assert screw().plain.lead_depth == 6 and screw(lead_short="3 mm").plain.lead_depth == 5
    assert screw(lead_short="0 mm").plain.lead_depth == 8
    with pytest.raises(ShapeError, match="2.0 mm of thread .* no lead hole can stop 2.0 mm short"):
        screw(screw_length="34 mm").lead_depth  # noqa: B018


def test_movement_as_printed():
    """Wood Handbook p. 13-17: 232 mm, coefficient 0.00245, 8 to 11 %: 1.7 mm more, 233.7 mm; and the same in inches."""
    for each, unit, digits in (("WM1", 25.4 / 25.4, 1), ("WM1i", 25.4, 3)):
        grown, end = published.rows("wood_movement_examples", id=each)
        given_sizes = {name: float(text.split()[0]) for name, text in (
            part.strip().split("=") for part in grown["inputs"].split(";"))}  # fmt: skip
        made, damp = given_sizes["MI"] / 100, given_sizes["MF"] / 100
        stand = screw().plain.model.Stand(screw().values | {"from_fixed": given_sizes["DI"] * unit, "made": made,
                                                          "damp": damp})  # fmt: skip
        scaled = stand.move_damp / stand.movement * given_sizes["CT"] / unit
        assert round(scaled, digits) == float(grown["printed_result"])
        whole = moved(given_sizes["DI"], given_sizes["CT"], made, damp)
        assert round(whole, digits) == float(end["printed_result"])


# The sizes screws are sold in -------------------------------------------------------------------------------


@pytest.mark.parametrize("row", published.rows("metric_wood_screws")[3:9], ids=lambda row: row["d_mm"])
def test_metric_sizes_are_those_of_the_table(row):
    """Thread and core by DIN 7998. A round head (DIN 96) is a little wider than a countersunk one (DIN 97)."""
    sizes = OFFER.sizes[f"{float(row['d_mm']):g} mm"]
    assert (sizes["shank_diameter"], sizes["root_diameter"]) == (float(row["d_mm"]), float(row["core_mm_DIN7998"]))
    assert float(row["head_dia_mm_DIN97"]) < sizes["head_diameter"] == 2 * float(row["d_mm"])


@pytest.mark.parametrize("number", [6, 7, 8, 9, 10, 12, 14])
def test_inch_sizes_are_those_of_the_table_and_follow_its_rule(number):
    """ASME B18.6.1: 0.060 in and 0.013 in for each number. Joyce: 32nds across a flat head, less 3, are the number."""
    row, sizes = published.row("wood_screws", number=str(number)), OFFER.sizes[f"No. {number}"]
    shank, root, head = (sizes[f"{each}_diameter"] / 25.4 for each in ("shank", "root", "head"))
    assert shank == CLOSE(0.060 + 0.013 * number) == CLOSE(float(row["D_basic_in"]))
    assert root == CLOSE(float(row["root_dia_in"])) and head == CLOSE(float(row["pan_head_max_dia_in"]))
    assert abs(32 * float(row["flat_head_max_dia_in"]) - 3 - number) < 1.7 and head < float(row["flat_head_max_dia_in"])


def test_a_table_says_how_far_it_can_be_trusted():
    assert len(screw_sizes().rows) + len(screw_sizes("in").rows) == len(OFFER.sizes) == 13
    assert {row[-1] for row in screw_sizes().rows} == {"from memory"}
    assert {row[-1] for row in screw_sizes("in").rows} == {"at second hand"}
    assert screw_sizes().rows[2][:4] == ("4 mm", "4.0 mm", "2.8 mm", "8.0 mm")


def test_every_offered_screw_is_filled_in_at_once_and_any_other_can_be_typed():
    bench = Bench(EXAMPLES[PanelScrew][0])
    assert bench.shown()["offer"] == "4 mm"
    bench.take("box.root_diameter", "2.9 mm")
    assert bench.shown()["offer"] == "as typed"
    for name, sizes in OFFER.sizes.items():
        bench.take("offer", name)
        assert sizes.items() <= bench.values.items() and bench.shown()["offer"] == name
        assert all(PanelScrew.inputs()[each].low <= size <= PanelScrew.inputs()[each].high
                   for each, size in sizes.items())  # fmt: skip
    bench.take("offer", "as typed")
    assert bench.shown()["offer"] == "No. 14"
    bench.take("back", "")
    assert bench.shown()["offer"] == "4 mm" and bench.problem is None


# A panel moved over its screws ------------------------------------------------------------------------------


class Moved:
    """The panel as a row of fibres that each grow alike: what carries the screw is found by adding them up."""

    def __init__(self, plain):
        self.plain = plain

    def carried(self, moisture, fibres=500):
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
        ("from_fixed", 1, 200), ("hole_diameter", 5, 9), ("panel_thickness", 10, 20)]}
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


# The ring through the year ----------------------------------------------------------------------------------


class StaveCut:
    """One stave as points: its long edge outside, both ends mitred; the seasons stretch it across its grain."""

    def __init__(self, staves, outer, width, growth):
        turn = math.pi / staves
        long, short = outer * math.tan(turn), (outer - width) * math.tan(turn)
        trapeze = Polygon([(-long, 0), (long, 0), (short, -width), (-short, -width)])
        self.points = numpy.array(scale(trapeze, 1, 1 + growth, origin=(0, 0)).exterior.coords)[:4]
        self.turn = turn

    def mitre(self):
        """Of its end, away from square to its long edge."""
        (x, y), (u, v) = self.points[1], self.points[2]
        return math.atan2(x - u, y - v)

    def opens(self):
        """Beside a neighbour turned by two mitres, together outside or inside: what stays open at the other end."""
        outer, inner = self.points[1], self.points[2]
        found = {}
        for side, meet, far in (("inside", outer, inner), ("outside", inner, outer)):
            stave = translate(Polygon(self.points), *-meet)
            mirrored = Polygon([(-x, y) for x, y in stave.exterior.coords])
            other = rotate(mirrored, -math.degrees(2 * self.turn), origin=(0, 0))
            tip = Point(*(far - meet))
            neighbour = rotate(Point(-tip.x, tip.y), -math.degrees(2 * self.turn), origin=(0, 0))
            if stave.intersection(other).area < 1e-9:
                found[side] = tip.distance(neighbour)
        return found


@pytest.mark.parametrize("growth", [0.011, -0.0055, 0.03, -0.02])
@pytest.mark.parametrize("staves", [6, 8, 12, 16])
def test_staves_stretched_across_their_grain_open_as_told(staves, growth):
    """shapely stretches a stave and lays it against its neighbour: mitre, gap and side read on the points."""
    outer, width = 220.0, 20.0
    stave = StaveCut(staves, outer, width, growth)
    assert mitre_now(math.pi / staves, growth) == CLOSE(stave.mitre())
    opens = joint_opens(width / math.cos(math.pi / staves), math.pi / staves, growth)
    assert stave.opens() == {"outside" if opens > 0 else "inside": CLOSE(abs(opens))}


def test_the_seasons_turn_mitres_as_a_saw_set_wrong():
    """The same error on the saw, lesson 02's own model: nearly the same gap, on the same side."""
    ring = StaveRing("440 mm", "400 mm", 12)
    told = ring_seasons(ring, "Ash, white", "flat", "8 %", "6 %", "12 %")
    assert [row[0] for row in told.rows] == ["mitre of each end", "each joint opens by", "on the ring's"]
    assert told.rows[0][1:] == ("15.00 deg", "15.08 deg", "14.84 deg")
    assert told.rows[1][1:] == ("0.00 mm", "0.05 mm", "0.11 mm")  # 2 x 20 mm x sin 0.155 deg = 0.108
    assert told.rows[2][1:] == ("—", "inside", "outside")
    error = math.radians(15) - mitre_now(math.radians(15), 0.01096)
    saw = ring.replace(saw_error=f"{math.degrees(error):.9f} deg").plain
    assert joint_opens(20.0, math.radians(15), 0.01096) == CLOSE(2 * 20.0 * math.sin(error), rel=0.02)
    assert saw.gap_per_joint / saw.joint_face == CLOSE(2 * math.sin(error), rel=1e-6)


def test_a_ring_of_boards_grows_one_way():
    """232 mm of the Handbook's example timber become 233.7 mm across, and stay along the grain."""
    told = ring_seasons(HollowBlank("440 mm", "400 mm", "60 mm"), "Ash, white", "quarter", "8 %", "8 %", "12 %", "in")
    along, across, longer = told.rows
    assert along[1:] == ("17.32 in",) * 3 and across[1:3] == along[1:3] and longer[1:3] == ("0.00 in",) * 2
    assert float(longer[3].split()[0]) == CLOSE(440 / 25.4 * 0.00169 * 4, abs=0.005)
    dry = ring_seasons(HollowBlank("440 mm", "400 mm", "60 mm"), "Ash, white", "quarter", "8 %", "6 %", "12 %").rows
    assert dry[2][2] == "1.5 mm", "440 x 0.00169 x 2, along the grain: longer all the same"
    with pytest.raises(MeasureError, match="no timber"):
        ring_seasons(HollowBlank("440 mm", "400 mm", "60 mm"), "Lead", "flat", "8 %", "6 %", "12 %")


# Limits -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("changed", "told"),
    [
        (dict(screw_length="44 mm"), "through a panel"), (dict(screw_length="45 mm"), "through a panel"),
        (dict(screw_length="32 mm"), "below the panel"), (dict(counterbore_depth="50 mm"), "goes right through"),
        (dict(hole_diameter="3.5 mm"), "does not go through"), (dict(rail_thickness="11 mm"), "leaves no wall"),
        (dict(washer_diameter="7 mm"), "smaller than the head"),
        (dict(head_diameter="4 mm"), "holds nothing"),
        (dict(hole_diameter="10 mm"), "washer of 10.0 mm slips"), (dict(damp="31 %"), "wet wood"),
        (dict(hole_diameter="8 mm", washer_diameter=None, washer_thickness="0 mm"), "head of 8.0 mm slips"),
        (dict(dry="13 %"), "Change the two over"), (dict(root_diameter="4.5 mm"), "thicker than the shank"),
    ],
)  # fmt: skip
def test_what_cannot_be_made_is_said(changed, told):
    with pytest.raises(ShapeError, match=told):
        screw(**changed)


@pytest.mark.parametrize(
    ("changed", "told"),
    [
        (dict(screw_length="42.5 mm"), "Only 1.5 mm of wood above the tip"),  # 12 - (42.5 - 1 - 31)
        (dict(screw_length="38 mm"), "Only 6.0 mm of thread in the panel, less than twice the shank"),  # 38 - 1 - 31
        (dict(washer_diameter=None, washer_thickness="0 mm"), "no longer covers the hole"),
        (dict(washer_diameter=None), "its width is not known"),
        (dict(washer_diameter="8.5 mm"), "take a larger washer"), (dict(washer_thickness="0 mm"), "without its thick"),
        (dict(damp="15 %"), "lies outside"),
        (dict(counterbore_depth="45 mm", screw_length="20 mm", panel_thickness="18 mm"), "smooth part"),
        (dict(rail_thickness="16 mm"), "Only 2.0 mm of wood beside the counterbore"),  # (16 - (10 + 6 - 4))/2
        (dict(from_fixed="150 mm"), "In the damp season the panel wants 0.64 mm more room"),  # 150 x 0.00274 x 4 - 1
        (dict(from_fixed="150 mm", made="12 %"), "dry season"),
    ],
)  # fmt: skip
def test_what_should_worry_is_said(changed, told):
    assert any(told in each.tell() for each in screw(**changed).cautions)


@pytest.mark.parametrize(("length", "smooth"), [("19.2 mm", False), ("20.9 mm", False), ("21.1 mm", True)])
def test_thread_reaches_two_thirds_of_the_way(length, smooth):
    """NDS: about two thirds of a wood screw are thread. 7 mm lie below the panel: at 21 mm, 14 of them stand in it."""
    deep = screw(counterbore_depth="44 mm", screw_length=length, panel_thickness="18 mm")
    assert any("smooth part" in each.tell() for each in deep.cautions) == smooth


def test_the_washer_that_is_asked_for_bears_enough():
    bare = screw(washer_diameter=None, washer_thickness="0 mm")
    (told,) = (each.tell() for each in bare.cautions if "no longer covers" in each.tell())
    washer = told.partition("Take a washer, ")[2].partition(" across")[0]
    assert bare.replace(washer_diameter=washer).bearing.m_as("mm") == CLOSE(0.5)


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_a_hole_a_hair_too_narrow_is_told_so_that_it_can_be_mended(unit):
    """The hole that the caution names is drilled, and nothing more is said: no rounding left it too narrow."""
    for far in range(92, 110):
        jammed = screw(from_fixed=f"{far} mm")
        (told,) = (each.tell(unit) for each in jammed.cautions)
        assert " 0 in more" not in told and "0.00 mm more" not in told
        hole = told.partition("a hole of ")[2].partition(" or more")[0]
        size = measure.length(hole).m_as("mm") + 0.0127  # half of what the caution is rounded to
        assert not jammed.replace(hole_diameter=f"{size} mm", rail_thickness="30 mm").cautions, (hole, far)


def test_the_card_follows_the_drill():
    """The counterbore first, for in a hole that is there the bit wanders; then the hole through, then the lead hole."""
    card = screw().plain.on_card()
    assert [name for name in card if name in ("lead_hole", "hole_needed", "counterbore_diameter")] == [
        "counterbore_diameter", "hole_needed", "lead_hole",
    ]  # fmt: skip
    assert card[0] == "counterbore_diameter"


def test_the_stand_worries_nobody():
    assert screw().cautions == ()


def test_both_examples_have_units_of_their_own():
    metric, inch = EXAMPLES[PanelScrew][:2]
    assert math.isclose(metric.plain.rail_height, 50) and math.isclose(inch.plain.rail_height % 25.4, 0, abs_tol=1e-9)
    assert measure.show(inch.rail_height, "in", "1/64 in").endswith(" in")


# Over the whole range ---------------------------------------------------------------------------------------


@settings(max_examples=100)
@given(possible_screws())
def test_over_the_whole_range(given_sizes):
    """Reckoned anew from the texts alone, from the rail's underside up and from the middle of the hole outward."""
    size = read(given_sizes)
    plain = PanelScrew(**given_sizes).plain
    seat = size["counterbore_depth"]
    tip = seat - size["washer_thickness"] + size["screw_length"]  # above the rail's underside
    assert plain.web == CLOSE(size["rail_height"] - seat, abs=1e-9)
    assert plain.grip == CLOSE(tip - size["rail_height"], abs=1e-9) and plain.grip > 0
    assert plain.cover == CLOSE(size["rail_height"] + size["panel_thickness"] - tip, abs=1e-9) and plain.cover > 0
    side = (size["hole_diameter"] - size["shank_diameter"]) / 2  # as far as the shank can go
    edge = (size["washer_diameter"] or size["head_diameter"]) / 2
    assert plain.bearing == CLOSE(edge - side - size["hole_diameter"] / 2, abs=1e-9)
    assert plain.counterbore_wall == CLOSE(size["rail_thickness"] / 2 - edge - side, abs=1e-9)
    assert plain.counterbore_diameter == CLOSE(2 * (edge + side))
    moves = [Moved(plain).carried(size[season]) for season in ("dry", "damp")]
    assert (plain.move_dry, plain.move_damp) == CLOSE(tuple(moves), abs=1e-8)
    assert plain.hole_needed == CLOSE(size["shank_diameter"] + 2 * max(map(abs, moves)), abs=1e-7)
    assert plain.spare == CLOSE(side - max(map(abs, moves)), abs=1e-7)


def read(given_sizes):
    """The numbers in the texts, in mm, a moisture as a ratio."""
    return {
        name: text if text is None or name in ("species", "cut")
        else float(text.split()[0]) / (100 if text.endswith("%") else 1) for name, text in given_sizes.items()
    }  # fmt: skip


def test_every_end_of_every_range_can_be_made():
    """What is drawn leaves no part of the declared ranges out, and not a single screw is refused."""
    wanted = {(name, end) for name, item in PanelScrew.inputs().items() for end in (item.low, item.high)
              if not item.options}  # fmt: skip
    seen, counted = set(), []

    @settings(max_examples=300, derandomize=True, database=None)
    @given(possible_screws())
    def look(given_sizes):
        counted.append(PanelScrew(**given_sizes))
        values = counted[-1].values
        seen.update(pair for pair in wanted if values[pair[0]] is not None and abs(values[pair[0]] - pair[1]) < 0.02)

    look()
    assert wanted - seen == set() and len(counted) >= 300
    assert {each.values["washer_diameter"] is None for each in counted} == {True, False}


def can_be_made(size):
    """By hand: wood over the head, thread in the panel, wood over the tip; head wider than hole, hole than shank."""
    web = size["rail_height"] - size["counterbore_depth"]
    thread = size["screw_length"] - size["washer_thickness"] - web
    washer, head, hole, shank = (size[f"{each}_diameter"] for each in ("washer", "head", "hole", "shank"))
    bears = head if washer is None else washer
    return (
        web > 0 and 0 < thread < size["panel_thickness"] and size["root_diameter"] <= shank < head <= bears
        and shank <= hole < bears and bears + hole - shank < size["rail_thickness"] and size["dry"] <= size["damp"]
    )


@settings(max_examples=200)
@given(models.sizes(PanelScrew))
def test_any_sizes_are_made_or_refused_as_they_should(given_sizes):
    numbers = read({name: given_sizes.get(name) for name in PanelScrew.inputs()})
    assert (models.made(PanelScrew, given_sizes) is not None) == can_be_made(numbers)


PAST = {  # what is changed, to what (a hair past the limit), and the words of the refusal
    "counterbore": ("counterbore_depth", lambda plain: plain.rail_height + 1e-6, "goes right through"),
    "short": ("screw_length", lambda plain: plain.screw_length - plain.grip - 1e-6, "below the panel"),
    "long": ("screw_length", lambda plain: plain.screw_length + plain.cover + 1e-6, "through a panel"),
    "root": ("root_diameter", lambda plain: plain.shank_diameter + 1e-6, "thicker than the shank"),
    "head": ("head_diameter", lambda plain: plain.shank_diameter - 1e-6, "holds nothing"),
    "washer": ("washer_diameter", lambda plain: plain.head_diameter - 1e-6, "smaller than the head"),
    "tight": ("hole_diameter", lambda plain: plain.shank_diameter - 1e-6, "does not go through"),
    "wide": ("hole_diameter", lambda plain: plain.head + 1e-6, "slips through"),
    "thin": ("rail_thickness", lambda plain: plain.counterbore_diameter - 1e-6, "leaves no wall"),
    "seasons": ("dry", lambda plain: plain.damp + 1e-6, "Change the two over"),
    "wet": ("damp", lambda plain: 0.300001, "wet wood"),
    "made wet": ("made", lambda plain: 0.300001, "wet wood"),
}


@pytest.mark.parametrize("past", PAST)
@settings(max_examples=20)
@given(given_sizes=possible_screws())
def test_a_hair_past_each_limit_is_refused_for_its_reason(past, given_sizes):
    name, limit, told = PAST[past]
    right = PanelScrew(**given_sizes)
    with pytest.raises(ShapeError, match=told):
        PanelScrew.solved(right.values | {name: limit(right.plain)})
