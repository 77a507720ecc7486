"""Practice questions on screws that let the panel move."""

from shoplib.maths.screws import PanelScrew
from shoplib.practice.pictured import Pictured
from shoplib.practice.question import Sizes

COUNTRIES = ("American",)  # kinds of timber that keep their capital


def questions(student, unit="mm"):
    """Six questions, with sizes that follow the student number."""
    sizes = Sizes(student, unit)
    screw = _screw(sizes)
    return _thread(sizes, screw), _moves(sizes, screw), _hole(sizes), _counterbore(sizes), _lead(sizes), _low(sizes)


def pictured():
    """The drawing over the questions on paper."""
    screw = PanelScrew(
        "50 mm", "20 mm", "19 mm", "40 mm", "4 mm", "2.8 mm", "8 mm", "6 mm", "12 mm", "75 mm", "Ash, white", "flat",
        washer_thickness="1 mm", washer_diameter="10 mm",
    )  # fmt: skip
    return Pictured(screw, ("Section", "Seat"))


def _screw(sizes):
    """The screw of the first two questions."""
    return PanelScrew(
        sizes.pick(0, mm=(64, 72, 80, 88, 96), inches=(2.5, 2.75, 3, 3.25, 3.5)),
        sizes.fixed(mm=24, inches=1),
        sizes.pick(0, mm=(34, 42, 50, 58, 66), inches=(1.25, 1.5, 1.75, 2, 2.25)),
        sizes.pick(1, mm=(41, 42, 43), inches=(1.75, 1.8125, 1.84375)),
        sizes.fixed(mm=4, inches=0.164), sizes.fixed(mm=2.8, inches=0.131), sizes.fixed(mm=8, inches=5 / 16),
        sizes.fixed(mm=6, inches=1 / 4), sizes.fixed(mm=16, inches=11 / 16),
        sizes.pick(3, mm=(75, 78, 81, 85, 90), inches=(3, 3.1875, 3.375, 3.5625, 3.75)),
        sizes.choose(4, ("Ash, white", "Beech, American", "Maple, sugar", "Birch, yellow")), "flat",
        sizes.pick(1, percent=(7, 8, 9)), "6 %", sizes.pick(1, percent=(11, 12, 13)),
        washer_thickness=sizes.pick(2, mm=(0.5, 0.6, 0.7), inches=(0.02, 0.025, 0.03)),
        washer_diameter=sizes.fixed(mm=12, inches=7 / 16),
    ).plain  # fmt: skip


def _thread(sizes, screw):
    web, washer = screw.web, screw.washer_thickness
    return sizes.ask(
        f"A rail is {sizes.write(screw.rail_height)} high and counterbored {sizes.write(screw.counterbore_depth)} "
        f"deep from below. A screw {sizes.write(screw.screw_length)} long bears on a washer {sizes.write(washer)} "
        "thick. How much of it goes into the panel?",
        screw.grip,
        (
            (screw.grip + washer, "The washer holds the head back: its thickness is missing."),
            (web, "That is the wood between head and panel, not the thread above it."),
            (screw.grip + 2 * washer, "The washer takes its thickness away: you added it."),
        ),
        "The screw, less the washer, less the rail above the counterbore.", mm=0.1, inches=0.01,
    )  # fmt: skip


def _moves(sizes, screw):
    wood, kind = screw.species.split(", ")
    timber = f"{kind if kind in COUNTRIES else kind.lower()} {wood.lower()}"
    change = 100 * (screw.damp - screw.made)
    return sizes.ask(
        f"A flat-cut panel of {timber} moves {screw.movement:g} of its width for each per cent of moisture. A screw "
        f"sits {sizes.write(screw.from_fixed)} across the grain from the fast ones. Screwed at "
        f"{sizes.write(screw.made, 'percent')}, the panel comes up to {sizes.write(screw.damp, 'percent')}. How far "
        "is the screw carried?",
        screw.move_damp,
        (
            (screw.move_damp / change, "That is for a single per cent: there are more."),
            (screw.move_damp / 2, "It is held fast on one line: all beyond it moves one way, not half each way."),
            (screw.from_fixed * screw.movement * 100 * screw.damp, "You took all the moisture: the change counts."),
        ),
        "Distance from the fast screws times movement times the change in per cent.", mm=0.05, inches=0.002,
    )  # fmt: skip


def _hole(sizes):
    shank = sizes.pick(1, mm=(3.5, 4, 4.5), inches=(0.164, 0.177, 0.19)).m_as("mm")
    larger = sizes.pick(2, mm=(1.8, 1.9, 2.1, 2.3, 2.6), inches=(0.07, 0.075, 0.085, 0.083, 0.096)).m_as("mm")
    smaller = sizes.fixed(mm=0.4, inches=0.015).m_as("mm")
    return sizes.ask(
        f"A shank of {sizes.measured(shank)} is driven in the middle of its hole. The damp season carries it "
        f"{sizes.measured(larger)} outward, the dry one {sizes.measured(smaller)} inward. How large must the hole be?",
        shank + 2 * larger,
        (
            (shank + larger, "In the middle of its hole it has half the room on each side: there it jams."),
            (shank + larger + smaller, "That would do for a screw driven out of the middle. Driven in it, the larger "
             "move counts on both sides."),
            (2 * larger, "That is the room alone: the shank is missing."),
        ),
        "The shank and twice the larger move.", mm=0.1, inches=0.003,
    )  # fmt: skip


def _counterbore(sizes):
    washer = sizes.pick(3, mm=(14, 14.5, 15, 15.5, 16), inches=(11 / 16, 23 / 32, 49 / 64, 13 / 16, 27 / 32)).m_as("mm")
    hole = sizes.pick(1, mm=(5.5, 6, 6.5), inches=(1 / 4, 17 / 64, 9 / 32)).m_as("mm")
    shank = sizes.fixed(mm=4, inches=0.177).m_as("mm")
    return sizes.ask(
        f"A washer is {sizes.write(washer)} across, the hole {sizes.write(hole)}, the shank {sizes.measured(shank)}. "
        "How wide must the counterbore be so that the washer never stops the screw?",
        washer + hole - shank,
        (
            (washer, "The washer travels as far as the shank can: with no room it stops the screw."),
            (washer + (hole - shank) / 2, "The shank can go to both sides: its whole play counts."),
            (washer + hole, "Only the play counts, the hole less the shank."),
        ),
        "The washer and the shank's whole play.", mm=0.1, inches=0.01,
    )  # fmt: skip


def _lead(sizes):
    root = sizes.pick(2, mm=(2.4, 2.8, 3.1, 3.5), inches=(0.113, 0.131, 0.152, 0.171)).m_as("mm")
    timber, gravity, share = sizes.choose(3, (
        ("white ash", 0.60, 0.7), ("American beech", 0.64, 0.9), ("yellow birch", 0.62, 0.9),
        ("black walnut", 0.55, 0.7),
    ))  # fmt: skip
    return sizes.ask(
        f"A panel is {timber}, specific gravity {gravity:.2f}. The screw's root measures {sizes.measured(root)}. The "
        "lesson's rule: over 0.6 nine tenths of the root, over 0.5 seven tenths. How wide is the lead hole?",
        share * root,
        (
            (root, "That is the whole root: the thread would hold by its edges alone."),
            ((1.6 - share) * root, "You took the other share: look at the specific gravity again."),
        ),
        "The share times the root.", mm=0.05, inches=0.002,
    )  # fmt: skip


def _low(sizes):
    panel = sizes.pick(3, mm=(20, 21, 22, 23), inches=(17 / 16, 35 / 32, 9 / 8, 37 / 32)).m_as("mm")
    thread = sizes.pick(1, mm=(10, 11, 12), inches=(3 / 8, 13 / 32, 7 / 16)).m_as("mm")
    low = sizes.pick(2, mm=(2.3, 2.7, 3.3), inches=(7 / 64, 1 / 8, 9 / 64)).m_as("mm")
    return sizes.ask(
        f"With {sizes.write(thread)} of thread in a panel of {sizes.write(panel)} a screw is just right. One rail "
        f"was planed {sizes.write(low)} lower than the others and counterbored from below with the same stop. How much "
        "wood is left above the tip of its screw?",
        panel - thread - low,
        (
            (panel - thread, "So it is in the other rails: in this one the head sits nearer to the panel."),
            (panel - thread + low, "It comes further up, not less far: the stop is set from the rail's underside, and "
             "that lies nearer to the panel."),
            (thread + low, "That is the thread now in the panel: it must not come out at the top."),
        ),
        "The panel, less the thread, less what the rail is low.", mm=0.1, inches=0.01,
    )  # fmt: skip
