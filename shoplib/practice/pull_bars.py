"""Practice questions on pull bars: mitred to their arms, and on stubs."""

import math

from shoplib.maths.pull_bars import MitredBar, StubBar
from shoplib.practice.pictured import Pictured
from shoplib.practice.question import Sizes


def questions(student, unit="mm"):
    """Six questions, with sizes that follow the student number."""
    sizes = Sizes(student, unit)
    thick = sizes.pick(0, mm=(18, 19, 20, 22, 25), inches=(3 / 4, 13 / 16, 7 / 8, 1))
    handle = (thick, sizes.pick(1, mm=(320, 340, 380, 410), inches=(12, 13, 14.5, 16)))
    reach = sizes.pick(2, mm=(52, 54, 58, 61, 66), inches=(2, 2.125, 2.25, 2.5))
    bar = MitredBar(
        *handle, reach, mitre_error=sizes.pick(3, deg=(0.6, 0.7, 0.8, 0.9, 1)),
        roll=sizes.pick(1, deg=(2.5, 3, 3.5, 4)),
    ).plain
    wide = MitredBar(*handle, reach, corner=sizes.pick(2, deg=(100, 106, 112, 118, 124, 132))).plain
    stub = StubBar(
        thick, sizes.pick(1, mm=(12, 13, 14, 15), inches=(1 / 2, 9 / 16, 5 / 8)),
        sizes.pick(3, mm=(40.5, 43.5, 47.5, 49.5), inches=(1.625, 1.75, 1.875, 2)), handle[1],
        sizes.fixed(mm=30, inches=1.25), sizes.pick(2, mm=(9, 10.4, 11.6), inches=(3 / 8, 7 / 16, 1 / 2)),
        sizes.pick(0, mm=(16, 17.2, 19), inches=(5 / 8, 11 / 16, 3 / 4)),
        sizes.pick(2, kg=(9, 11, 12, 14), pounds=(20, 24, 26, 30)),
        end_clearance=sizes.pick(1, mm=(1.5, 2), inches=(3 / 64, 5 / 64)),
    ).plain
    return (
        _saw(sizes, wide), _long_side(sizes, bar), _gap(sizes, bar), _roll(sizes, bar), _stub(sizes, stub),
        _stress(sizes, stub),
    )


def pictured():
    """The drawing over the questions on paper."""
    return Pictured(MitredBar("19 mm", "360 mm", "52.5 mm"), ("From above", "An arm"))


def _saw(sizes, bar):
    corner = bar.corner
    return sizes.ask(
        f"A bar and its arm meet at {sizes.write(corner, 'angle')}, measured inside. How far from a square cut is the "
        "saw set for their mitre?",
        bar.mitre_angle,
        (
            (corner / 2, "That is what lies between the mitre and the piece's side: a saw reads it from a square cut."),
            (math.pi - corner, "That is what both mitres take together: each takes half of it."),
            (corner - math.pi / 2, "You took a right angle off the whole corner: halve the corner first."),
        ),
        "A right angle less half the corner.", deg=0.05,
    )


def _long_side(sizes, bar):
    thick, width = bar.bar_diameter, bar.width
    return sizes.ask(
        f"A bar {sizes.write(thick)} thick is mitred to arms at right angles, {sizes.write(width)} between the arms' "
        "centre lines. How long is its outer side, from tip to tip?",
        bar.bar_long,
        (
            (width, "That is from centre line to centre line: sawn so at the tips, the bar is short by its own "
             "thickness."),
            (width + 2 * thick, "Each tip stands half a thickness outside its centre line, not a whole one."),
            (width - thick, "That is the inner side, from heel to heel."),
            (width + thick / 2, "There are two tips."),
        ),
        "The width and half a thickness at each end.",
    )


def _gap(sizes, bar):
    thick, error = bar.bar_diameter, bar.mitre_error
    return sizes.ask(
        f"The corners of this handle are right angles, but every mitre was sawn {sizes.write(error, 'angle')} too "
        "shallow. The arm is held true: how wide does the joint gape outside?",
        bar.gap,
        (
            (bar.gap / 2, "That is one face alone: the other one is out as well, and the joint gapes twice as much."),
            (2 * thick * math.sin(error), "You took the bar's thickness: the face is an oval, and it gapes over its "
             "long axis."),
            (bar.splay, "That is where the arm's tip goes when the joint is closed."),
            (thick * math.sin(error), "Two faces are out, and each is as long as the oval."),
        ),
        "The oval's long axis times twice the sine of the error.", mm=0.02, inches=0.0008,
    )


def _roll(sizes, bar):
    reach, roll = bar.reach, bar.roll
    return sizes.ask(
        f"The arms reach {sizes.write(reach)} from the bar's centre line to the leg. The bar's two mitres are turned "
        f"{sizes.write(roll, 'angle')} against each other. How far does one arm's tip stand out of the plane of the "
        "rest?",
        bar.out_of_plane,
        (
            (reach * math.sin(roll / 2), "That shares the roll between both arms: against the one arm, the other has "
             "all of it."),
            (reach * math.sin(2 * roll), "The roll counts once: only a mitre's error is met by two faces."),
            (bar.bar_diameter / 2 * math.sin(roll), "That is how far the bar's skin has turned: at the arm's tip it is "
             "as much more as the reach is longer."),
            (reach - reach * math.cos(roll), "That is what the arm falls short: out of the plane it goes by the sine."),
        ),
        "The reach times the sine of the roll.", mm=0.05, inches=0.003,
    )


def _stub(sizes, bar):
    room, into_bar, into_leg, clear = bar.hand_room, bar.bar_depth, bar.leg_depth, bar.end_clearance
    return sizes.ask(
        f"A bar on stubs: {sizes.write(room)} between leg and bar, holes {sizes.write(into_bar)} deep in the bar and "
        f"{sizes.write(into_leg)} in the leg, and {sizes.write(clear)} for glue beyond each end of the stub. How long "
        "is the stub?",
        bar.stub_length,
        (
            (room + into_bar + into_leg, "That stub stands on the bottom of both holes: the glue has no room, and the "
             "bar stays off."),
            (room + into_bar + into_leg + 2 * clear, "The room for glue makes the stub shorter."),
            (room + into_bar + into_leg - clear, "There is room for glue at both ends."),
            (room, "That is what shows of it: the ends lie in the holes."),
            (room + into_leg - clear, "The hole in the bar takes its end as well."),
        ),
        "Both depths and the hand's room, less the glue's room at both ends.", mm=0.2, inches=0.01,
    )


def _stress(sizes, bar):
    arm, thick = bar.hand_room + bar.bar_diameter / 2, bar.stub_diameter
    pull = bar.load * bar.gravity
    return sizes.ask(
        f"A hand lifts {sizes.write(bar.load, 'mass')} right over one stub {sizes.write(thick)} thick. The bar's "
        f"centre line is {sizes.write(arm)} from the leg's surface. How great is the bending stress in the stub there?",
        bar.stub_stress,
        (
            (bar.stub_stress / 2, "You shared the load between both stubs: a hand over one of them loads it alone, and "
             "there the stub breaks."),
            (6 * pull * arm / thick**3, "That is a square stub: a round one is weaker, by 6 to 32 over pi."),
            (32 * pull * bar.hand_room / (math.pi * thick**3), "You took the way to the bar's skin: the pull goes "
             "through the bar's centre line."),
            (bar.stub_stress / 8, "You counted the stub twice as thick: the diameter goes in, not twice it."),
        ),
        "32 times pull and arm, over pi times the cube of the diameter.", megapascals=0.1, psi=15,
    )
