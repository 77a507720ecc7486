"""Practice questions on screws that let the panel move."""

from shoplib.maths.screws import PanelScrew
from shoplib.practice.question import Sizes


def questions(student, unit="mm"):
    """Five questions, with sizes that follow the student number."""
    sizes = Sizes(student, unit)
    screw = PanelScrew(
        sizes.pick(0, mm=(44, 48, 52, 56), inches=(1.75, 1.875, 2, 2.125)),
        sizes.fixed(mm=24, inches=1),
        sizes.pick(0, mm=(13, 17, 21, 25), inches=(9 / 16, 11 / 16, 13 / 16, 15 / 16)),
        sizes.pick(1, mm=(40, 40.5, 41), inches=(1.5625, 1.59375, 1.625)),
        sizes.fixed(mm=4, inches=0.164), sizes.fixed(mm=2.8, inches=0.131), sizes.fixed(mm=8, inches=5 / 16),
        sizes.pick(2, mm=(5.5, 6, 6.5), inches=(7 / 32, 1 / 4, 9 / 32)), sizes.fixed(mm=14, inches=9 / 16),
        sizes.pick(3, mm=(110, 125, 140, 160, 175), inches=(4.5, 5, 5.5, 6, 6.5)),
        sizes.choose(4, ("Ash, white", "Beech, American", "Maple, sugar", "Birch, yellow")), "flat",
        "8 %", "6 %", sizes.pick(1, percent=(11, 12, 13)),
        washer_thickness=sizes.fixed(mm=1, inches=1 / 32), washer_diameter=sizes.fixed(mm=12, inches=7 / 16),
    ).plain
    return _thread(sizes, screw), _moves(sizes, screw), _hole(sizes, screw), _counterbore(sizes, screw), _lead(sizes)


def _thread(sizes, screw):
    web, washer = screw.web, screw.washer_thickness
    return sizes.ask(
        f"A rail is {sizes.write(screw.rail_height)} high and counterbored {sizes.write(screw.counterbore_depth)} deep "
        f"from below. A screw {sizes.write(screw.screw_length)} long bears on a washer {sizes.write(washer)} thick. How "
        "much of it goes into the panel?",
        screw.grip,
        (
            (screw.grip + washer, "The washer holds the head back: its thickness is missing."),
            (screw.screw_length - screw.rail_height - washer, "The head does not sit on the rail's underside but up in the "
             "counterbore."),
            (web, "That is the wood between head and panel."),
            (screw.panel_thickness - screw.grip, "That is the wood left above the tip."),
            (screw.screw_length - screw.counterbore_depth - washer, "You took the counterbore's depth off the screw: "
             "take off what is left of the rail above it."),
        ),
        "The screw, less the washer, less the rail above the counterbore.", mm=0.2, inches=0.01,
    )


def _moves(sizes, screw):
    timber = " ".join(reversed(screw.species.lower().split(", ")))
    change = 100 * (screw.damp - screw.made)
    return sizes.ask(
        f"A flat-cut panel of {timber} moves {screw.movement:g} of its width for each per cent of moisture. A screw "
        f"sits {sizes.write(screw.from_fixed)} across the grain from the fast ones. Screwed at "
        f"{sizes.write(screw.made, 'percent')}, the panel comes up to {sizes.write(screw.damp, 'percent')}. How far "
        "is the screw carried?",
        screw.move_damp,
        (
            (screw.move_damp / change, "That is for one per cent: there are more."),
            (screw.move_damp / 2, "The panel is held fast at one line: everything beyond it moves one way, not half each way."),
            (screw.from_fixed * screw.movement * 100 * screw.damp, "You took all the moisture: only the change counts."),
            (screw.move_damp / 100, "The movement is for each single per cent: put in the number of per cents."),
        ),
        "Distance from the fast screws times movement times the change in per cent.", mm=0.05, inches=0.002,
    )


def _hole(sizes, screw):
    larger = screw.larger_move
    return sizes.ask(
        f"A shank of {sizes.write(screw.shank_diameter)} is driven in the middle of its hole. In one season it is carried "
        f"{sizes.measured(larger)} one way, in the other less. How large must the hole be?",
        screw.hole_needed,
        (
            (screw.shank_diameter + larger, "Driven in the middle it needs that room on both sides: twice."),
            (2 * larger, "That is the room alone: the shank is missing."),
            (screw.shank_diameter + 4 * larger, "Once on each side is enough."),
        ),
        "The shank and twice the larger move.", mm=0.15, inches=0.008,
    )


def _counterbore(sizes, screw):
    head, hole, shank = screw.head, screw.hole_diameter, screw.shank_diameter
    return sizes.ask(
        f"The washer is {sizes.write(head)} across, the hole {sizes.write(hole)}, the shank {sizes.write(shank)}. How "
        "wide must the counterbore be so that the washer never stops the screw?",
        screw.counterbore_diameter,
        (
            (head, "The washer travels as far as the shank can: with no room it stops the screw."),
            (head + (hole - shank) / 2, "The shank can go to both sides: its whole play counts."),
            (head + hole, "Only the play counts, the hole less the shank."),
        ),
        "The washer and the shank's whole play.", mm=0.2, inches=0.01,
    )


def _lead(sizes):
    root = sizes.pick(2, mm=(2.4, 2.8, 3.1, 3.5), inches=(0.113, 0.131, 0.152, 0.171))
    timber, gravity, share = sizes.choose(
        3, (("white ash", 0.60, 0.7), ("American beech", 0.64, 0.9), ("yellow birch", 0.62, 0.9), ("black walnut", 0.55, 0.7))
    )
    size = root.m_as("mm")
    return sizes.ask(
        f"The panel is {timber}, specific gravity {gravity:g}. The screw's root measures {sizes.measured(size)}. The rule "
        "of the lesson: over 0.6 nine tenths of the root, over 0.5 seven tenths. How wide is the lead hole?",
        share * size,
        (
            (size, "That is the whole root: the thread would hold by its edges alone."),
            ((1.6 - share) * size, "You took the other share: look at the specific gravity again."),
        ),
        "The share times the root.", mm=0.05, inches=0.002,
    )
