"""A slip that a lesson's table lists is known to one of its questions, unless no number gives it away."""

import nbformat
import pytest
from asked import TOPICS, UNITS, asked
from normal_form import lessons

# What you see, as the table of a lesson writes it: the question that knows the slip, and words of what it then says.
KNOWN = {
    "circle_jigs": {
        "disc too small by two cutters": (1, "You took half the cutter off"),
        "disc too small by one cutter": (1, "half the cutter is missing"),
        "ring too thin by half a cutter": (2, "the ring comes out too thin"),
        "full depth, and a skin still left under the board": (5, "The jig's base is not counted"),
        "an edge that is torn and scorched": (6, "The passes would be too deep"),
    },
    "stave_rings": {
        "half of the staves already make a ring": (1, "half of the staves already make a ring"),
        "the ring's flats are thin, or gone": (2, "With the sine"),
        "the strip is one or two staves short": (4, "The saw cuts are missing"),
    },
    "rebates": {
        "the wall is gone on one turn of the jig": (3, "You added half the cutter"),
        "the panel is too small by a whole rebate width": (2, "you counted its width once"),
        "the panel stands out below the rim by mistake": (1, "You took the thickness off the label"),
        "the panel is sunk in though it should stand proud": (1, "That sinks the panel in"),
        "a mitre springs open in the wet season": (2, "without a gap it springs the ring"),
    },
    "dowels": {
        "the rod will not enter its hole": (1, "Across the flats it measures right"),
        "the last rod is a few millimetres short": (2, "the last rod comes out short"),
        "the joint stays open by the same gap everywhere": (3, "the joint stays open"),
        "the second drill drops into a hollow": (4, "the rims are nearer"),
        "a dimple on the far side of the leg": (5, "You forgot the drill's point"),
    },
    "coping": {
        "every rail short by two depths": (2, "That is hollow to hollow"),
        "daylight at the tips": (5, "daylight stays at the tips"),
        "one tip longer than the other": (3, "You forgot the offset"),
    },
    "finding_the_centre": {
        "a zone like a needle": (2, "along the needle, is the worst"),
        "a wall twice as thick on paper as in the leg": (3, "twice as thick on paper"),
        "a radius twice too large": (5, "That is the diameter"),
        "a radius nearly four times too large": (5, "nearly four times too large"),
    },
    "casters": {
        "the top slopes by the caster's height over the wheelbase": (3, "Then the top slopes"),
        "the top slopes by nearly twice that": (3, "by nearly twice that"),
        "the leg is short by the stem's length too": (3, "it takes nothing off its length"),
        "the collar stands clear of the leg, the stem wobbles": (2, "Bored no deeper than the stem"),
        "the leg splits at the first door sill": (1, "there the leg splits"),
        "a caster breaks though three like it could carry the whole": (6, "That is the rule of three"),
    },
    "pull_bars": {
        "the bar is short by its own thickness": (2, "short by its own"),
        "the joint gapes twice what the saw's error told": (3, "That is one face alone"),
        "the arm is off by ever so much more than the bar's skin": (4, "how far the bar's skin has turned"),
        "the bar stays off, the glue comes out": (5, "That stub stands on the bottom"),
        "the stub breaks at the leg, the bar is whole": (6, "there the stub breaks"),
    },
    "screws": {
        "the screw pulls out with hardly any thread on it": (1, "The washer holds the head back"),
        "a move twice too small": (2, "It is held fast on one line"),
        "the panel cracks beside a screw in the damp season": (3, "there it jams"),
        "the washer is jammed in its counterbore": (4, "with no room it stops the screw"),
        "the thread holds by its edges alone": (5, "That is the whole root"),
        "one tip shows in the tray": (6, "So it is in the other rails"),
    },
    "marking_out": {
        "a leg measured by its strip comes out too thick": (2, "You forgot the card"),
        "the far end of a rail is out by twenty times the slip": (3, "the rail carries the angle"),
        "the long board's hole stands too near the corner": (4, "the long board also covers"),
        "the same wrong angle on every leg": (5, "Only on the leg that it was made for"),
        "both lines of the cradle lie too high": (6, "That is for a knife"),
    },
    "timber": {
        "the last piece is short by all the kerfs": (1, "You forgot the kerf"),
        "a block or two too few from a board": (2, "the kerf is taken many times"),
        "a part too thin when both faces are clean": (3, "only as long as nobody planes it"),
        "a bill higher than reckoned": (4, "You took the planed thickness"),
        "a load heavier than reckoned": (5, "add the moisture"),
    },
    "trimming": {
        "a band of waste stays between the two cuts": (2, "You took the overlap off"),
        "a hair of waste stays all round": (2, "You forgot the overlap"),
        "the first cut is shallower than the edges are long": (1, "what lies beside it is lost"),
        "scorch marks and long splinters": (3, "With so few rounds"),
        "marks a whole stave apart": (4, "That is a whole stave"),
        "the patch ends hollow at both ends": (6, "That is right on an outside wall"),
    },
    "the_stand": {
        "twice the air beside each leg on paper": (1, "on both sides together"),
        "knuckles between bar and rim": (2, "between them the tray stands out"),
        "the frame leans to the other hand after clamping": (4, "as far to the other hand"),
        "a frame racked by pushing at one joint": (4, "what the diagonals differ by"),
        "the tin is empty before the last coat is": (5, "has to be poured out too"),
        "it tips though the middle looked low enough": (6, "it lies nearer to the heavier one"),
    },
}
# Slips of the order of work, of the hand or of the choice of a size: none of them turns one number into another.
NO_NUMBER = {
    "circle_jigs": (
        "a ring, but nowhere to swing the outside from", "a step where the groove closes on itself",
        "walls scorched higher up, clean at the bottom",
    ),
    "stave_rings": (
        "the last stave will not go in", "a joint springs open, days later", "the finished ring has a flat spot",
        "a loose sliver along the last row", "two pieces too many",
    ),
    "rebates": (
        "the pivot has nowhere to stand", "light shows beside the panel in the dry season",
        "the rebate is too narrow by half of what the bearing is too large",
    ),
    "dowels": (
        "rail ends out of line by twice the marking error", "the second rail will not come to the right side of a leg",
        "the blank was thrown, or its corner scooped",
    ),
    "coping": (
        "the stand is a little too wide, all tips are gone", "daylight in the middle, tips crushed",
        "the second rail will not go in", "the wrap fits, but a quarter turn round",
        "the saddle at a brace's second end is turned the wrong way",
    ),
    "finding_the_centre": (
        "the centre always off to the same hand", "a radius that will not come out the same twice",
        "a circle that fits no point",
    ),
    "casters": (),
    "pull_bars": (
        "the tips spread, or draw together", "the bar will not go on though each piece is right",
        "a short arm is snatched and torn",
    ),
    "screws": (
        "the panel bows or splits with the seasons", "the small hole runs out to one side",
        "the ring cracks though the screws slide", "the head has pulled into its hole",
    ),
    "marking_out": (
        "the strip's ends gape", "lower rails turned against upper ones", "the second rail on the wrong side of a leg",
    ),
    "timber": ("a knot in the middle of a rail", "a strip that cannot be sawn off in one go", "cross grain in a part"),
    "trimming": (
        "a ridge or a step where the walls meet", "the wall leans, or a dip in it", "crossed arcs tear",
    ),
    "the_stand": (
        "equal diagonals, and a rail that will not go in", "a coped rail with no way to drill it",
        "a rail coped for the leg as it was drawn",
    ),
}  # fmt: skip


def listed(topic):
    """The first column of the lesson's table of slips."""
    (path,) = (path for path in lessons() if path.stem[3:] == topic)
    text = "\n".join(cell.source for cell in nbformat.read(path, as_version=4).cells if cell.cell_type == "markdown")
    lines = text[text.index("| what you see |"):].splitlines()[2:]
    return [line.split("|")[1].strip() for line in lines[: next(i for i, line in enumerate(lines) if "|" not in line)]]


@pytest.mark.parametrize("topic", TOPICS)
def test_every_slip_of_the_lesson_is_known_or_has_no_number(topic):
    assert topic in KNOWN and topic in NO_NUMBER, f"say here which question of {topic} knows which slip of its lesson"
    for seen in listed(topic):
        assert any(seen.startswith(each) for each in (*KNOWN[topic], *NO_NUMBER[topic])), f"who knows of: {seen}?"
    for each in (*KNOWN[topic], *NO_NUMBER[topic]):
        assert any(seen.startswith(each) for seen in listed(topic)), f"the lesson no longer lists: {each}"


@pytest.mark.parametrize("topic", TOPICS)
@pytest.mark.parametrize("unit", UNITS)
def test_the_question_tells_it(topic, unit):
    """Some student of a class, typing the slip's number, is told it."""
    for seen, (number, words) in KNOWN[topic].items():
        told = [said for student in range(1, 25) for _, said in asked(topic, student, unit)[number - 1].told_slips()]
        assert any(words in said for said in told), seen
