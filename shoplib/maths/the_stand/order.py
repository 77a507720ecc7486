"""The order of work: one table of what must come before what, each with the trap that it avoids."""

import graphlib
import heapq
from dataclasses import dataclass, field

from shoplib.maths.the_stand.operations import has_bar, has_boards, has_mitres, has_staves, has_stubs
from shoplib.model import ShapeError


@dataclass(frozen=True, eq=False)
class Step:
    """One step of the work: its name, what is done, what must be done before (with the trap that it avoids).

    `operations` are those of the table of operations that it is done by; `when` says whether a stand has it. `watch`
    is the trap of a step that may come at any time.
    """

    name: str
    title: str
    lesson: str = ""
    after: dict = field(default_factory=dict)
    operations: tuple = ()
    when: object = None
    watch: str = ""


def has_lower_tray(stand):
    return stand.trays > 1


UNRESTED = "Timber that has not rested goes on moving"

TABLE = (
    Step(
        "buy", "Buy the timber, let it rest, read its moisture", "12_timber",
        watch=f"{UNRESTED}: parts that were fitted fit no longer.",
    ),
    Step(
        "template_outside", "Cut the template's outside", "01_circle_jigs", operations=("template",),
        watch="With the pivot measured to the wrong side of the cutter the template is a cutter's width out.",
    ),
    Step(
        "template_inside", "Cut the template's inside", "01_circle_jigs", operations=("template",),
        after={"template_outside": "Once the inside is out, the pivot's centre is gone and no outside can be swung."},
    ),
    Step(
        "staves", "Saw the staves, fit them dry, true two halves, glue the rims", "02_stave_rings",
        operations=("staves",), when=has_staves,
        after={"buy": f"{UNRESTED}, and the last joint gapes."},
    ),
    Step(
        "boards", "Saw the boards, lay them dry, glue the rims", "02_stave_rings", operations=("boards",),
        when=has_boards, after={"buy": f"{UNRESTED}, and the glue lines open."},
    ),
    Step(
        "height", "Plane the blanks to the rim's height, mark the underside", "02_stave_rings",
        after={
            "staves": "Rings that are not glued yet have no underside to mark: the rebate ends up in a show face.",
            "boards": "Rings that are not glued yet have no underside to mark: the rebate ends up in a show face.",
        },
    ),
    Step(
        "sawn", "Saw the rings outside and inside, a margin off the line", "11_trimming",
        after={
            "template_inside": "Without the whole template there is no line to stay off: no waste is left to trim.",
            "height": "A sawn ring is too narrow to be planed: what it is too high would have no waste to come from.",
        },
    ),
    Step(
        "first_trim", "First trim, the template screwed on where the rebate will be", "11_trimming",
        operations=("grain_outside", "grain_inside", "trim"),
        after={"sawn": "In an unsawn blank the cutter gets nowhere, and the template's screws leave holes that show."},
    ),
    Step(
        "second_trim", "Second trim, from the other face", "11_trimming", operations=("trim",),
        after={"first_trim": "The second cutter's bearing has no wall to run on until the first one has made it."},
    ),
    Step(
        "patches", "Let in patches where a wall tore", "11_trimming", operations=("patch",),
        after={"second_trim": "A wall that is still to be trimmed can tear again, beside the patch or in it."},
    ),
    Step(
        "rebate", "Rebate the rims from below", "03_rebates", operations=("rebate",),
        after={"patches": "The bearing rides a torn wall; and on a rebated rim the router tips over every patch."},
    ),
    Step(
        "panels_glued", "Glue up the panels", "12_timber",
        after={"buy": f"{UNRESTED}: the panel comes out too narrow."},
    ),
    Step(
        "panel_cut", "Cut the panels to the measured rebates", "03_rebates", operations=("panel", "panel_season"),
        after={
            "rebate": "Cut before its rebate can be measured, the panel drops through or binds.",
            "panels_glued": "A panel that is not whole yet has no round edge: it drops through or binds.",
        },
    ),
    Step(
        "panel_finished", "Finish the panels all round, glue faces bare", "13_the_stand", operations=("finish",),
        after={"panel_cut": "What is cut after the finish has a bare edge: a bare line shows in winter."},
    ),
    Step(
        "ring_on", "Set the rims on their panels, with two spots of glue", "08_screws",
        after={
            "panel_finished": "Under the rim no finish gets on any more; and a panel glued all round bursts the rim.",
        },
    ),
    Step(
        "legs_rounded", "Round the legs, saw off the grips, to length", "04_dowels", operations=("leg_stock",),
        after={"buy": f"{UNRESTED}: a bent square is no reference for the fence."},
    ),
    Step(
        "legs_numbered", "Number the legs, mark their tops", "09_marking_out",
        after={"legs_rounded": "What is written on the grips goes with them, and later the wrong leg is drilled."},
    ),
    Step(
        "heights", "Mark the heights, four legs clamped together, from the top", "09_marking_out",
        operations=("strip_right", "strip_left"),
        after={"legs_numbered": "With no top marked a leg is measured from its foot: the rails are out of level."},
    ),
    Step(
        "quarters", "Draw the quarter lines", "09_marking_out", operations=("strip_right", "strip_left", "cradle"),
        after={"legs_numbered": "Without numbers a left leg gets a right leg's lines, and the rails skew."},
    ),
    Step(
        "leg_holes", "Drill the legs for the dowels, in the cradle", "04_dowels",
        operations=("cradle", "corner_block", "dowels", "dowel_fit"),
        after={
            "heights": "Drilled by eye for height, the holes of two rails meet in the leg.",
            "quarters": "Drilled by eye for direction, the holes are not at a right angle and meet in the leg.",
        },
    ),
    Step(
        "stub_holes", "Drill two legs for the stubs", "10_pull_bars", operations=("stub_bar",), when=has_stubs,
        after={
            "heights": "Two holes at two heights put the bar out of line.",
            "quarters": "Stubs that do not point the same way put the bar out of line.",
        },
    ),
    Step(
        "legs_shortened", "Shorten the legs that get casters, at the bottom", "07_casters",
        operations=("caster_legs",),
        after={"heights": "While nothing is marked on a leg both its ends look alike: the wrong end is sawn off."},
    ),
    Step(
        "caster_holes", "Bore the caster holes", "07_casters", operations=("leg_centres", "caster_legs"),
        after={"legs_shortened": "A hole bored before is sawn off with the waste."},
    ),
    Step(
        "rails_square", "Saw the rails square, tip to tip", "05_coping", operations=("rails",),
        after={"buy": f"{UNRESTED}; and a rail sawn hollow to hollow is two copes too short."},
    ),
    Step(
        "rail_holes", "Drill the rails' ends for the dowels", "04_dowels", operations=("dowels",),
        after={"rails_square": "An end that is not sawn square guides no drill, and a cope leaves no square end."},
    ),
    Step(
        "copes", "Hollow the rails' ends", "05_coping", operations=("rails",),
        after={"rail_holes": "A coped end cannot be drilled any more; coped without its dowel, its tips collide."},
    ),
    Step(
        "counterbores", "Drill the counterbores, then the small holes", "08_screws", operations=("screws",),
        after={"rails_square": "In stock that is not sawn the places are guessed, and in a hole that is there the bit "
                               "wanders."},
    ),
    Step(
        "dry", "Put the stand together dry: distances, diagonals", "13_the_stand", operations=("squareness",),
        after={
            "leg_holes": "A leg that is not drilled cannot be tried: its fault is found in the glue.",
            "copes": "A rail that is not coped cannot be tried: its fault is found in the glue.",
        },
    ),
    Step(
        "bar_rounded", "Round the pull bar and what holds it", "04_dowels", operations=("bar_stock", "stub_stock"),
        when=has_bar, after={"buy": f"{UNRESTED}; and stock that was cut short leaves nothing to grip."},
    ),
    Step(
        "bar_holes", "Drill the bar at the measured width", "10_pull_bars", operations=("stub_bar",), when=has_stubs,
        after={
            "dry": "Drilled before the legs can be measured, the bar will not go on.",
            "bar_rounded": "Holes in the square are not square to the round: the bar will not go on.",
        },
    ),
    Step(
        "arms_coped", "Cope the arms to the legs", "05_coping", operations=("arm_cope",), when=has_mitres,
        after={"bar_rounded": "The square has no round skin to wrap the curve round."},
    ),
    Step(
        "bar_mitred", "Saw the mitres at the measured width, glue the bar to its arms", "10_pull_bars",
        operations=("mitred_bar",), when=has_mitres,
        after={
            "dry": "Sawn before the legs can be measured, the bar will not go on.",
            "arms_coped": "A short mitred arm can no longer be held to be coped.",
        },
    ),
    Step(
        "side_frames", "Glue the two side frames", "13_the_stand",
        after={
            "caster_holes": "A leg in a frame does not go under the drill any more.",
            "counterbores": "In a frame the drill does not get at the rails' undersides any more.",
            "dry": "All at once, and never tried dry, the frames rack.",
        },
    ),
    Step(
        "glued", "Glue the rest, the diagonals made equal while it is open", "13_the_stand", operations=("squareness",),
        after={"side_frames": "With all joints open at once the stand sets skew."},
    ),
    Step(
        "bar_on", "Glue the bar on", "10_pull_bars", when=has_bar,
        after={
            "stub_holes": "Without their holes in the legs the stubs have nowhere to go.",
            "bar_holes": "Without its holes the bar does not go on its stubs.",
            "bar_mitred": "Without its arms the bar does not reach the legs.",
            "glued": "A bar that is on stands in the clamps' way.",
        },
    ),
    Step(
        "casters_dry", "Try the casters dry, the stand level", "07_casters",
        after={
            "caster_holes": "Without their holes the casters cannot be tried: the stand rocks later.",
            "glued": "Loose joints stand level on any floor: once glued, the stand rocks.",
        },
    ),
    Step(
        "finish", "Casters out, finish the stand", "13_the_stand", operations=("finish",),
        after={
            "bar_on": "Glue does not hold on finish: what is still to be glued comes off.",
            "casters_dry": "A caster that is tried in wet finish stays: its wheels are glued.",
        },
    ),
    Step(
        "lower_tray", "Put the lower tray in, sideways", "08_screws", when=has_lower_tray,
        after={
            "ring_on": "A rim that is not on its panel yet is shut out once the panel lies there.",
            "finish": "With the tray in, the brush is shut out from legs and rails.",
        },
    ),
    Step(
        "upper_tray", "Put the upper tray on", "08_screws",
        after={
            "ring_on": "A rim set on its panel up there scrapes the finish.",
            "finish": "A tray that is taken off again to finish the stand scrapes the finish.",
        },
    ),
    Step(
        "screws", "Read the moisture; fast screws, then the sliding ones mid-hole", "08_screws",
        operations=("screws",),
        after={
            "lower_tray": "Over a tray that is screwed there is no room left to bring the other in.",
            "upper_tray": "A panel that does not lie in its place yet leaves its screws no room to slide.",
        },
    ),
    Step(
        "casters_in", "Casters in; check how it tips and lifts", "07_casters", operations=("rolling",),
        after={"screws": "On its casters with loose trays the stand rolls off or topples."},
    ),
)  # fmt: skip

STEPS = {each.name: each for each in TABLE}

# The step that makes each size. What is not here (tools, bought things, what the day brings) is measured at the start.
MADE_AT = {
    "rim_height": "height", "tray_diameter": "second_trim", "rim_width": "second_trim", "rim_inside": "second_trim",
    "rebate_width": "rebate", "rebate_depth": "rebate", "rebate_diameter": "rebate",
    "panel_thickness": "panels_glued", "panel_diameter": "panel_cut", "panel_clearance": "panel_cut",
    "panel_proud": "ring_on",
    "leg_diameter": "legs_rounded", "stand_height": "legs_rounded",
    "upper_rail_top": "heights", "lower_rail_top": "heights", "bar_height": "heights",
    "dowel_in_leg": "leg_holes", "dowel_in_rail": "rail_holes", "dowel_edge": "leg_holes",
    "dowel_spacing": "leg_holes", "stagger": "leg_holes",
    "stub_in_leg": "stub_holes", "stub_in_bar": "bar_holes",
    "shortened_leg": "legs_shortened", "caster_hole_depth": "caster_holes",
    "rail_thickness": "rails_square", "rail_height": "rails_square", "rail_length": "rails_square",
    "counterbore_depth": "counterbores",
    "leg_spacing": "dry", "legs_clear": "dry", "bar_width": "dry",
    "first_diagonal": "dry", "second_diagonal": "dry",
    "bar_diameter": "bar_rounded", "stub_diameter": "bar_rounded", "stub_length": "bar_rounded",
    "bar_length": "bar_holes", "bar_overhang": "bar_holes", "bar_stock_length": "bar_rounded",
    "bar_reach": "bar_on", "hand_room": "bar_on", "arm_tips": "arms_coped",
}  # fmt: skip


def relations(stand):
    """For each step of this stand what must come before it, with the trap: {step: {step before: trap}}.

    A step that the stand does not have hands what comes before it on to what comes after it, as far as that is not
    settled already by what else comes before.
    """
    there = {each.name for each in TABLE if each.when is None or each.when(stand)}
    own, handed_on = {}, {}
    for step in TABLE:
        if step.name in there:
            own[step.name] = {name: trap for name, trap in step.after.items() if name in there}
            handed_on[step.name] = {
                further: trap for name, trap in step.after.items() if name not in there
                for further in _instead(name, there)
            }  # fmt: skip
    whole = {name: found | handed_on[name] for name, found in own.items()}
    return {name: found | _unsettled(found, handed_on[name], whole) for name, found in own.items()}


def _instead(name, there):
    """The steps that a step which is not there leaves to what comes after it."""
    for each in STEPS[name].after:
        yield from (each,) if each in there else _instead(each, there)


def _unsettled(found, handed_on, whole):
    """What is handed on and does not come before anyway."""
    settled = set().union(*(_closure(whole, each) for each in found)) if found else set()
    left = {name: trap for name, trap in handed_on.items() if name not in settled}
    return {
        name: trap for name, trap in left.items()
        if not any(name in _closure(whole, other) for other in left if other != name)
    }  # fmt: skip


def _closure(after, name):
    """A step and all that comes before it."""
    found, to_do = set(), [name]
    while to_do:
        each = to_do.pop()
        if each not in found:
            found.add(each)
            to_do.extend(after.get(each, ()))
    return found


def order(stand):
    """The stand's steps in an order that cannot trap: sorted by what must come before, ties as in the table."""
    after = relations(stand)
    place = {each.name: k for k, each in enumerate(TABLE)}
    sorter = graphlib.TopologicalSorter(after)
    sorter.prepare()
    ready, found = [], []
    while sorter.is_active():
        for name in sorter.get_ready():
            heapq.heappush(ready, (place[name], name))
        _, name = heapq.heappop(ready)
        found.append(STEPS[name])
        sorter.done(name)
    return tuple(found)


def too_early(stand, done, name):
    """What would still be missing if this step came next, each with its trap: pairs of a Step and a sentence."""
    after = relations(stand)
    if name not in after:
        raise ShapeError(f"This stand has no step {str(name)[:30]!r}.")
    done = set(done)
    return tuple((STEPS[each], trap) for each, trap in after[name].items() if each not in done)


def check_order(stand, names):
    """Raise ShapeError with the trap of the first step that comes too early, or where a step is left out or unknown."""
    names = [getattr(each, "name", each) for each in names]
    after = relations(stand)
    for k, name in enumerate(names):
        if name in names[:k]:
            raise ShapeError(f"{STEPS[name].title}: this step is there twice.")
        for step, trap in too_early(stand, names[:k], name):
            raise ShapeError(f"{STEPS[name].title}: too early. {trap} First: {step.title}.")
    for name in after:
        if name not in names:
            raise ShapeError(f"{STEPS[name].title}: this step is left out.")


def no_later_than(stand, name):
    """A step and all that has to come before it, by name; nothing where this stand does not have the step."""
    after = relations(stand)
    return frozenset(_closure(after, name)) if name in after else frozenset()
