"""What is drawn as kept, cut and wasted is what the jig really does: measured on the shapes with shapely."""

import itertools
import math

import pytest
from hypothesis import assume, given, settings
from models import EXAMPLES, made, sizes
from shapely import Point
from shapes import areas, disc, measured, on, polygon, ring, view, whole

from shoplib import CircleJig
from shoplib.drawing import draw, template
from shoplib.drawing.circle_jigs import CUTS
from shoplib.drawing.layout import lay_out
from shoplib.drawing.sheet import Arc, Area, Circle

EXACT = 1e-3  # a circle's polygon is a little smaller than the circle
over_the_range = settings(max_examples=50, deadline=None)


def jig_of(sizes):
    jig = made(CircleJig, sizes)
    assume(jig)
    return jig, *(jig.values[name] for name in ("diameter", "cutter_diameter", "ring_width"))


def check_kept(view, wanted):
    """Kept is drawn just where it is wanted, and no waste on it."""
    kept = whole(view, "kept")
    assert kept.symmetric_difference(wanted).area < EXACT * disc(kept.bounds[2]).area
    assert kept.intersection(whole(view, "waste")).area < EXACT * kept.area
    return kept


def check_cut(view, cutter, kept, size):
    """The cutter touches the finished edge and, swung round the pivot, takes nothing but groove."""
    far, radius = Point(cutter.centre).distance(Point(0, 0)), cutter.radius
    assert radius == size / 2
    swept = ring(far + radius, max(0.0, far - radius))
    assert swept.intersection(kept).area < EXACT * kept.area, "eats into kept wood"
    assert swept.intersection(whole(view, "waste")).area < EXACT * kept.area, "leaves no waste in the groove"
    assert disc(radius, cutter.centre).distance(kept) < EXACT * far, "stands off the finished edge"


@over_the_range
@given(sizes(CircleJig))
def test_ring_is_kept_between_both_cuts(sizes):
    jig, across, cutter, width = jig_of(sizes)
    assume(width)
    plan = view(draw(jig), "From above")
    inside = across / 2 - width
    kept = check_kept(plan, ring(across / 2, inside))
    cuts = on(plan, "cutter", Circle)
    for cut in cuts:
        check_cut(plan, cut, kept, cutter)
    reached = [math.hypot(*cut.centre) for cut in cuts]
    wanted = [(across + cutter) / 2, inside - cutter / 2]
    assert reached == pytest.approx(wanted if wanted[1] > 0 else wanted[:1])


@over_the_range
@given(sizes(CircleJig))
def test_disc_and_hole_keep_opposite_sides(sizes):
    jig, across, cutter, _ = jig_of(sizes | {"ring_width": None})
    sheet = draw(jig)
    inside, outside = view(sheet, "A disc"), view(sheet, "A hole")
    kept = check_kept(inside, disc(across / 2))
    (cut,) = on(inside, "cutter", Circle)
    check_cut(inside, cut, kept, cutter)
    assert math.hypot(*cut.centre) > across / 2
    surround = whole(outside, "kept")
    kept = check_kept(outside, surround.convex_hull - disc(across / 2))
    assert kept.bounds[2] > across / 2 + cutter
    (cut,) = on(outside, "cutter", Circle)
    check_cut(outside, cut, kept, cutter)
    assert math.hypot(*cut.centre) < across / 2


@over_the_range
@given(sizes(CircleJig))
def test_pivot_holes_stand_where_both_cuts_need_them(sizes):
    """Wherever the cutter stands, each hole is as far from it as its own cut is from the centre."""
    jig, across, cutter, width = jig_of(sizes)
    for plan in draw(jig).views:
        holes = on(plan, "pivot", Circle)
        if not holes:
            continue
        assert holes[0].centre == (0, 0)
        outer, *others = on(plan, "cutter", Circle)
        if others:
            wanted = pytest.approx([(across + cutter) / 2, across / 2 - width - cutter / 2])
            assert [math.dist(hole.centre, outer.centre) for hole in holes] == wanted
            assert [math.dist(hole.centre, others[0].centre) for hole in reversed(holes)] == wanted


@over_the_range
@given(sizes(CircleJig))
def test_section_shows_the_cut_at_its_depth(sizes):
    jig, _, cutter, _ = jig_of(sizes)
    stock, through = jig.values["stock_thickness"], jig.values["through"]
    assume(stock)
    section = view(draw(jig), "Section")
    (kept,), (waste,), (bit,) = (areas(section, layer) for layer in ("kept", "waste", "cutter"))
    assert (kept.bounds[1], kept.bounds[3]) == (waste.bounds[1], waste.bounds[3]) == (-stock, 0)
    assert kept.bounds[2] == bit.bounds[0] == -cutter / 2 and waste.bounds[0] == bit.bounds[2] == cutter / 2
    assert bit.bounds[1] == pytest.approx(-stock - through)
    if jig.values["cutting_length"]:
        assert bit.bounds[3] - bit.bounds[1] == pytest.approx(jig.values["cutting_length"])
    passes = [-line.start[1] for line in on(section, "joint")]
    reach = jig.values["reach_below_base"]
    if jig.values["pass_depth"] and passes == []:
        too_short = reach is not None and reach < jig.values["base_thickness"] + stock + through
        assert too_short or jig.values["cutting_length"] < jig.values["pass_depth"]
    elif jig.values["pass_depth"]:
        steps = [after - before for before, after in zip([0, *passes], passes)]
        assert passes[-1] == pytest.approx(stock + through)
        assert max(steps) <= jig.values["pass_depth"] + 1e-9
        assert steps == pytest.approx([steps[0]] * len(steps))


def test_levels_of_the_passes_are_told_from_the_face_beside_them():
    """No depth is measured across the cutter's width: each pass is a level with its depth at the side."""
    sizes = {"stock_thickness": "18 mm", "pass_depth": "5 mm", "through": "1 mm"}
    jig = CircleJig("440 mm", "12 mm", ring_width="20 mm", **sizes)
    section = view(draw(jig), "Section: 4 passes, cutter Ø 12.0 mm")
    assert all(each.start[1] != each.end[1] for each in section.dimensions)
    told = {note.text: -note.at[1] for note in section.notes}
    assert told == {"1: 4.75 mm": 4.75, "2: 9.50 mm": 9.5, "3: 14.25 mm": 14.25, "4: 19.00 mm": 19.0}


def test_of_many_passes_the_first_and_the_last_are_told():
    sizes = {"stock_thickness": "40 mm", "pass_depth": "2 mm"}
    section = view(draw(CircleJig("440 mm", "12 mm", **sizes)), "Section: 20 passes, cutter")
    told = [note.text for note in section.notes if note.side == "left"]
    assert told == ["1: 2.00 mm", "20: 40.00 mm"]
    assert {note.text: -note.at[1] for note in section.notes if note.side == "right"} == {
        "stock 40.0 mm": 40, "cut 40.0 mm deep": 40,
    }  # fmt: skip
    assert len(on(section, "joint")) == 20


def test_cutter_that_cannot_get_there_is_drawn_without_passes():
    sizes = {"stock_thickness": "18 mm", "pass_depth": "5 mm", "reach_below_base": "17 mm"}
    section = view(draw(CircleJig("440 mm", "12 mm", **sizes)), "Section: cutter Ø 12.0 mm")
    assert not on(section, "joint") and not [note for note in section.notes if note.side == "left"]


@over_the_range
@given(sizes(CircleJig))
def test_plan_is_measured_as_drawn(sizes):
    jig, across, cutter, width = jig_of(sizes)
    assume(width)
    plan = view(draw(jig), "From above")
    assert measured(plan, "ring width") == pytest.approx(width)
    assert measured(plan, "inside Ø") == pytest.approx(across - 2 * width)
    assert measured(plan, "outside Ø") == pytest.approx(across)
    board = whole(plan, "waste").bounds
    assert measured(plan, "blank") == pytest.approx(board[2] - board[0])
    assert board[2] - board[0] == pytest.approx(across + 2 * cutter + 2 * jig.values["hold"])


def test_wood_runs_straight_across_disc_and_ring():
    for width, part in ((None, "A disc"), ("20 mm", "From above")):
        (kept,) = on(view(draw(CircleJig("440 mm", "12 mm", ring_width=width)), part), "kept", Area)
        assert kept.grain == 0.0


@pytest.mark.parametrize("part, clockwise", [
    ("From above", (False, True)), ("A disc", (False,)), ("A hole", (True,)),
])  # fmt: skip
def test_feed_goes_anticlockwise_outside_and_clockwise_inside(part, clockwise):
    jig = CircleJig("440 mm", "12 mm", ring_width="20 mm" if part == "From above" else None)
    arrows = on(view(draw(jig), part), "feed")
    assert all(arrow.arrow for arrow in arrows)
    assert tuple(arrow.end < arrow.start for arrow in arrows) == clockwise


def test_hole_no_larger_than_the_cutter_is_shown_without_a_cut():
    jig = CircleJig("100 mm", "25 mm", ring_width="40 mm")
    assert len(on(view(draw(jig), "From above"), "cutter")) == 1


@pytest.mark.parametrize("jig", EXAMPLES[CircleJig], ids=repr)
def test_template_is_true_to_size(jig):
    """Cutter and pivot holes on the full-size plate, measured there."""
    across, cutter, width = (jig.values[name] for name in ("diameter", "cutter_diameter", "ring_width"))
    plate = lay_out(template(jig), text=4.0, key=False, scale=1.0)
    circles = [shape for shape in plate.shapes if isinstance(shape, Circle)]
    (hole,) = [shape for shape in circles if shape.layer == "cutter"]
    pivots = [shape for shape in circles if shape.layer == "pivot"]
    assert hole.radius == pytest.approx(cutter / 2)
    assert {pivot.radius for pivot in pivots} == {jig.values["pivot_pin"] / 2}
    reached = sorted(math.dist(pivot.centre, hole.centre) for pivot in pivots)
    wanted = [(across + cutter) / 2, (across - cutter) / 2]
    assert reached == pytest.approx(sorted(wanted + ([(across - cutter) / 2 - width] if width else [])))


@over_the_range
@given(sizes(CircleJig))
def test_template_holes_leave_wood_between_them_at_their_true_distance(sizes):
    """All pivots on one jig: every hole as far from the cutter as told, a pin's thickness of wood between two."""
    jig, _, cutter, _ = jig_of(sizes)
    sheet = template(jig)
    (only,) = sheet.views
    holes, pin = on(only, "pivot", Circle), jig.values["pivot_pin"]
    told = sorted(measured(only, f"{cut}: pivot") for cut in CUTS.values() if _has(only, cut))
    assert sorted(math.hypot(*hole.centre) for hole in holes) == pytest.approx(told)
    assert len(holes) >= 2
    for one, other in itertools.combinations(holes, 2):
        assert math.dist(one.centre, other.centre) >= 2 * pin * (1 - 1e-6)
    drills = [each for each in only.dimensions if "drill Ø" in each.text]
    assert len(drills) == len(holes)
    assert [math.dist(each.start, each.end) for each in drills] == pytest.approx([pin] * len(holes))
    assert "drill them to fit" in sheet.use


def _has(view, cut):
    return any(each.text.startswith(f"{cut}: pivot") for each in view.dimensions)


def test_tight_pivots_stand_beside_the_line_on_an_arc():
    """A 3 mm cutter's disc and hole lie 3 mm apart: a 6 mm pin needs 12."""
    (only,) = template(CircleJig("440 mm", "3 mm")).views
    (arc,) = on(only, "hidden", Arc)
    hole, outer = on(only, "pivot", Circle)
    assert arc.radius == pytest.approx(math.hypot(*outer.centre)) == pytest.approx(221.5)
    assert hole.centre[1] == 0 and outer.centre[1] == 12
    assert arc.points()[-1] == pytest.approx(outer.centre)
    assert "on the slant" in template(CircleJig("440 mm", "3 mm")).use
    assert "on the slant" not in template(CircleJig("440 mm", "12 mm")).use


def test_card_says_which_cut_comes_first_from_which_hole_and_which_way_round():
    """The pivots grow from the inside cut to the outside one, so the nearest hole is the inside's."""
    jig = CircleJig("440 mm", "12 mm", ring_width="20 mm")
    outside, inside = draw(jig).use.split("2, the inside")
    assert "1, the outside" in outside and "furthest" in outside and "anticlockwise" in outside
    assert "nearest" in inside and "hole, clockwise" in inside and "Never the inside first" in inside
    assert jig.plain.outer_pivot > jig.plain.hole_pivot > jig.plain.inner_pivot
    disc, hole = draw(CircleJig("440 mm", "12 mm")).use.split("A hole")
    assert "anticlockwise" in disc and ", clockwise" in hole and "inside first" not in hole


def test_template_fits_on_the_jig_that_it_shows():
    sheet = template(EXAMPLES[CircleJig][0])
    (base,) = areas(sheet.views[0], "tool")
    drilled = [polygon(shape) for shape in sheet.views[0].shapes if isinstance(shape, Circle | Area)]
    assert all(base.covers(each) for each in drilled)
