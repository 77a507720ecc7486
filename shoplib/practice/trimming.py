"""Practice questions on trimming a ring to a template, on its grain and on a let-in patch."""

import math

from shoplib.maths.trimming import GrainArcs, Patch, TwoFaces
from shoplib.practice.pictured import Pictured
from shoplib.practice.question import Sizes


def questions(student, unit="mm"):
    """Six questions, with sizes that follow the student number."""
    sizes = Sizes(student, unit)
    template = sizes.pick(0, mm=(12, 15, 18), inches=(1 / 2, 5 / 8, 3 / 4))
    hold = sizes.pick(1, mm=(8, 9, 10, 11), inches=(5 / 16, 11 / 32, 3 / 8, 13 / 32))
    edges = sizes.pick(2, mm=(30, 32, 35, 38, 40), inches=(1.25, 1.375, 1.5, 1.625, 1.75))
    first = TwoFaces(sizes.fixed(mm=60, inches=2), template, hold, edges, sizes.fixed(mm=60, inches=2.5),
                     sizes.fixed(mm=6, inches=1 / 4)).plain  # fmt: skip
    height = sizes.pick(3, mm=(44, 46, 48, 50, 52, 54, 56), inches=(1.75, 1.8125, 1.875, 2, 2.0625, 2.125, 2.25))
    depth = sizes.pick(1, mm=(26.5, 27.5, 28.5, 30.5), inches=(69 / 64, 71 / 64, 75 / 64, 77 / 64))
    second = TwoFaces(height, template, template, sizes.fixed(mm=36, inches=1.375), sizes.fixed(mm=60, inches=2.5),
                      sizes.fixed(mm=6, inches=1 / 4), depth,
                      sizes.pick(4, mm=(2, 4), inches=(1 / 16, 3 / 16))).plain  # fmt: skip
    margin = sizes.pick(5, mm=(4.5, 5, 5.5, 6), inches=(3 / 16, 7 / 32, 1 / 4, 9 / 32))
    rounds = TwoFaces(height, template, template, sizes.fixed(mm=36, inches=1.375), sizes.fixed(mm=60, inches=2.5),
                      sizes.fixed(mm=6, inches=1 / 4), depth, margin=margin,
                      bite=sizes.pick(2, mm=(1.5, 2), inches=(1 / 16, 5 / 64, 3 / 32))).plain  # fmt: skip
    ring = GrainArcs("staves", sizes.choose(3, (7, 9, 10, 11, 14, 15, 16))).plain
    wall = sizes.pick(4, mm=(360, 380, 420, 440, 460), inches=(14, 15, 16.5, 17, 18))
    long = sizes.fixed(mm=42, inches=1.75)
    patch = Patch(wall, sizes.fixed(mm=25, inches=1), "inside", long,
                  sizes.pick(0, mm=(1.5, 1.8, 2.1), inches=(1 / 16, 5 / 64, 3 / 32)),
                  sizes.fixed(mm=10, inches=3 / 8), sizes.fixed(mm=30, inches=1.25),
                  sizes.pick(1, mm=(0.3, 0.4), inches=(1 / 64, 1 / 32))).plain  # fmt: skip
    return (
        _reach(sizes, first), _second(sizes, second), _rounds(sizes, rounds), _mark(sizes, ring), _rise(sizes, patch),
        _patch(sizes, patch),
    )


def pictured():
    """The drawing over the questions on paper."""
    return Pictured(TwoFaces("40 mm", "18 mm", "18 mm", "25 mm", "25 mm", "7 mm"), ("First cut", "Second cut"))


def _reach(sizes, trim):
    thick, hold, edges = trim.template_thickness, trim.bearing_hold, trim.first_cutting_length
    return sizes.ask(
        f"A template {sizes.write(thick)} thick lies on the ring. The bearing's lower rim stands {sizes.write(hold)} "
        f"below the template's top, and the edges, {sizes.write(edges)} long, begin there. How far below the ring's "
        "face do they reach?",
        trim.first_reach,
        (
            (edges, "The edges begin within the template: what lies beside it is lost to the ring."),
            (edges - thick, "That is lost only where the bearing stands at the template's top: it stands lower."),
            (edges - hold, "You took off what the bearing is down: what is lost is the template below its rim."),
            (edges + thick - hold, "You added the template below the bearing's rim: that part of the edges cuts air."),
            (edges + hold, "That is how far they end below the template's top: the ring's face lies lower."),
        ),
        "The edges' length less what of the template lies below the bearing's rim.", mm=0.3, inches=0.01,
    )


def _second(sizes, trim):
    height, first, over = trim.ring_height, trim.depth, trim.overlap
    return sizes.ask(
        f"A ring {sizes.write(height)} high was cut {sizes.write(first)} deep from its first face. The second cut, "
        f"from the other face, is to run {sizes.write(over)} into that wall. How deep is it?",
        trim.second_depth,
        (
            (height - first, "You forgot the overlap: a hair stays between the two cuts."),
            (height - first - over, "You took the overlap off: a whole band stays between the two cuts."),
            (first - over, "That is the wall that is left for the bearing."),
            (height - first + 2 * over, "You counted the overlap twice: it lies at one end of the cut only."),
        ),
        "What the first cut left of the height, and the overlap.", mm=0.3, inches=0.01,
    )


def _rounds(sizes, trim):
    exact = trim.margin / trim.bite
    return sizes.ask(
        f"The saw stayed {sizes.write(trim.margin)} outside the line, and no round may take more than "
        f"{sizes.write(trim.bite)} sideways. How many times does each cutter go round?",
        trim.rounds,
        (
            (math.floor(exact + 1e-9), "With so few rounds each would take more than that: round up."),
            (2 * trim.rounds, "That counts both cutters: each of them goes round for itself."),
            (trim.rounds + 1, "No flush round comes on top: the last of them is the flush one."),
        ),
        "The margin over the bite, and any part of a round counts as a whole one.", kind="count",
    )


def _mark(sizes, ring):
    arc = ring.arc
    return sizes.ask(
        f"A ring of {ring.staves} staves is trimmed with the router on its show face. Counted anticlockwise from a "
        "joint, how wide is the first arc, which goes against the grain?",
        arc,
        (
            (2 * arc, "That is a whole stave: its second half goes with the grain."),
            (math.pi / 2, "That is for a ring of boards with one grain all through."),
            (math.pi / 2 - arc, "That is from the stave's middle to a quarter turn: count from the joint."),
        ),
        "Half a stave: half a turn over the count of staves.", deg=0.1,
    )


def _rise(sizes, patch):
    radius, half = patch.diameter / 2, patch.length / 2
    return sizes.ask(
        f"An inside wall {sizes.write(patch.diameter)} across is torn over {sizes.write(patch.length)}, straight from "
        "end to end. How far does the wall bend away from a straight edge in the middle of that?",
        patch.rise,
        (
            (patch.diameter - math.sqrt(patch.diameter**2 - half**2), "You put the diameter for the radius: halve it "
             "first."),
            (radius - math.sqrt(radius**2 - patch.length**2), "You used the whole length: half of it lies on either "
             "side of the middle."),
            (math.sqrt(radius**2 - half**2), "That is from the ring's middle to the straight edge: take it off the "
             "radius."),
            (half**2 / radius, "That is twice too much: half the length squared goes over the diameter, about."),
        ),
        "The radius, less the root of its square less the square of half the length.", mm=0.02, inches=0.001,
    )


def _patch(sizes, patch):
    deep, rise, proud = patch.depth, patch.rise, patch.proud
    return sizes.ask(
        f"The same place gets a patch with a flat bottom, {sizes.write(deep)} below the wall's middle, which is to "
        f"stand {sizes.write(proud)} proud at its ends. How thick is the patch made?",
        patch.patch_thickness,
        (
            (deep + proud, "That is right on an outside wall: inside the pocket is deeper at its ends."),
            (deep + rise, "You forgot what is to stand proud: a flush patch ends hollow."),
            (deep - rise + proud, "You took the rise off: on an inside wall the ends come towards you."),
            (deep + 2 * rise + proud, "You counted the rise twice: both ends are alike, one thickness serves both."),
        ),
        "The depth in the middle, the rise that its ends need, and what stands proud.", mm=0.05, inches=0.002,
    )
