"""Practice questions on the whole stand: what has to be clear, whether it is square, its finish, its weight."""

import math

from shoplib.maths.the_stand import Finish, Squareness, seedling_stand
from shoplib.practice.pictured import Pictured
from shoplib.practice.question import Sizes

GALLON = 3.785411784  # litres, exactly: 231 cubic inches


def questions(student, unit="mm"):
    """Six questions, with sizes that follow the student number."""
    sizes = Sizes(student, unit)
    return (
        _clear(sizes), _hand(sizes), _diagonal(sizes), _shift(sizes), _finish(sizes), _gravity(sizes),
    )  # fmt: skip


def pictured():
    """The drawing over the questions on paper."""
    return Pictured(seedling_stand(), ("From the side", "From above"))


def _mm(size):
    return size.m_as("mm")


def _frame(length, width, first, second):
    return Squareness.solved({"length": length, "width": width, "diagonal_1": first, "diagonal_2": second})


def _clear(sizes):
    leg = _mm(sizes.pick(0, mm=(32, 35, 38, 40), inches=(1.25, 1.375, 1.5, 1.625)))
    apart = _mm(sizes.pick(1, mm=(354, 362, 368, 376, 384), inches=(14, 14.25, 14.5, 14.75, 15.25)))
    tray = _mm(sizes.pick(2, mm=(415, 422, 430, 436), inches=(16.25, 16.625, 17, 17.375)))
    half = math.sqrt(2) * apart / 2
    return sizes.ask(
        f"Four round legs of {sizes.write(leg)} stand on a square, {sizes.write(apart)} apart from centre to centre. A "
        f"round tray of {sizes.write(tray)} lies in their middle. How far is its rim clear of each leg?",
        half - leg / 2 - tray / 2,
        (
            (2 * half - leg - tray, "That is what is clear on both sides together: half of it is on each."),
            (half - leg - tray / 2, "Only half of the leg lies on this side of its centre."),
            (half - tray / 2, "That is as far as the leg's centre: half the leg comes off."),
        ),
        "Half the diagonal of the legs' square, less half a leg and half the tray.", mm=0.3, inches=1 / 64,
    )


def _hand(sizes):
    leg = _mm(sizes.pick(1, mm=(33, 37, 41), inches=(1.6875, 1.8125, 1.9375)))
    apart = _mm(sizes.pick(2, mm=(340, 348, 356, 366), inches=(13.25, 13.5, 13.875, 14.25)))
    tray = _mm(sizes.pick(0, mm=(418, 424, 428, 434, 438), inches=(16.5, 16.625, 16.75, 17, 17.25)))
    room = _mm(sizes.pick(3, mm=(59, 63, 68, 74, 77), inches=(2.25, 2.5, 2.625, 2.75, 2.875)))
    return sizes.ask(
        f"Legs of {sizes.write(leg)} stand {sizes.write(apart)} apart from centre to centre. A bar runs "
        f"{sizes.write(room)} clear of them, at the height of a tray's rim; the tray is {sizes.write(tray)} across. "
        "How much room has the hand between bar and rim?",
        apart / 2 + leg / 2 + room - tray / 2,
        (
            (room, "That is the room at the legs: between them the tray stands out towards the bar."),
            (apart / 2 + room - tray / 2, "The room counts from the leg's skin: half a leg is missing."),
            (apart / 2 + leg + room - tray / 2, "You took the whole leg: its centre stands on the square, half of it "
             "outside."),
        ),
        "From the middle: half the spacing, half a leg and the room, less half the tray.", mm=0.3, inches=1 / 64,
    )


def _diagonal(sizes):
    long = _mm(sizes.pick(0, mm=(398, 412, 426, 438, 452), inches=(15.5, 16.125, 16.75, 17.5, 17.875)))
    wide = _mm(sizes.pick(1, mm=(302, 316, 328), inches=(11.875, 12.375, 12.875)))
    return sizes.ask(
        f"A frame's legs stand {sizes.write(long)} apart one way and {sizes.write(wide)} the other, centre to centre. "
        "What must both diagonals measure when it is glued square?",
        _frame(long, wide, wide, wide).target,
        (
            (long + wide, "That is the way round the corner: the diagonal is shorter."),
            (math.sqrt(2) * long, "Only a square has sides that are alike: take both."),
            (math.sqrt(2) * wide, "Only a square has sides that are alike: take both."),
            ((long + wide) / 2, "That is the mean of the sides: no diagonal is shorter than its longer side."),
        ),
        "The square root of both sides squared and added.",
    )


def _shift(sizes):
    side = _mm(sizes.pick(2, mm=(330, 345, 372, 390), inches=(13, 13.625, 14.625, 15.375)))
    out = _mm(sizes.pick(0, mm=(3, 3.6, 4.2, 5), inches=(0.125, 0.1875, 0.21875, 0.25)))
    first = _mm(sizes.pick(1, mm=(0.5, 1, 1.5), inches=(0, 1 / 32, 1 / 16)))
    step = 0.5 if sizes.unit == "mm" else 25.4 / 32
    one = round((math.sqrt(2) * side + out / 2) / step) * step + first
    other = one - out
    frame = _frame(side, side, one, other)
    return sizes.ask(
        f"The legs stand {sizes.write(side)} apart on every side, but one diagonal measures {sizes.write(one)} and the "
        f"other {sizes.write(other)}. How far has the far side to be drawn along itself to make them equal?",
        frame.shift,
        (
            (out, "That is what the diagonals differ by: the side moves less, for it runs aslant to them."),
            (out / 2, "Each diagonal is half of that out, but it runs aslant to the side: the side moves more."),
            (2 * frame.shift, "That would lean it as far to the other hand."),
        ),
        "The difference of the squared diagonals, over four times the side.",
        mm=0.15, inches=0.006,
    )


def _finish(sizes):
    area = sizes.pick(0, square_metres=(2, 2.4, 2.6, 2.9, 3.3), square_feet=(22, 28, 30, 33, 36)).m_as("m**2")
    cover = sizes.pick(1, square_metres=(8, 9, 11), square_feet=(340, 380, 480)).m_as("m**2")
    coats = sizes.choose(2, (2, 3, 4, 5))
    loss = sizes.pick(3, percent=(15, 20, 25)).m_as("dimensionless")
    tin, litres = ("litre", 1.0) if sizes.unit == "mm" else ("gallon (128 fl oz)", GALLON)
    answer = Finish.solved({"area": area, "coverage": cover / litres, "coats": coats, "loss": loss}).litres
    words = {2: "two", 3: "three", 4: "four", 5: "five"}
    return sizes.ask(
        f"A stand has {sizes.write(area, 'surface')} to finish, in {words[coats]} coats. One {tin} covers "
        f"{sizes.write(cover, 'surface')} once, and {sizes.write(loss, 'percent')} of what is poured out stays in rag "
        "and pot. How much finish does it take?",
        answer,
        (
            (answer * (1 - loss), "What stays in rag and pot has to be poured out too."),
            (answer / coats, "That is one coat."),
            (answer * (1 - loss) * (1 + loss), "The loss is a share of what you pour out, not of what sticks: divide."),
            (answer * (1 - loss) ** 2, "The loss makes it more, not less."),
        ),
        "Surface times coats, over what it covers, over the share that is not lost.",
        **({"litres": 0.01} if sizes.unit == "mm" else {"fluid_ounces": 0.3}),
    )


def _gravity(sizes):
    own = sizes.pick(1, kg=(6.5, 7, 7.5, 8), pounds=(14, 15, 17, 18)).m_as("kg")
    pots = sizes.pick(0, kg=(5, 9, 11, 13, 16), pounds=(11, 20, 24, 29, 35)).m_as("kg")
    low = _mm(sizes.pick(2, mm=(382, 394, 407), inches=(15.125, 15.5, 16)))
    high = _mm(sizes.pick(3, mm=(739, 753, 766, 784), inches=(29, 29.5, 30.25, 31)))
    answer = (own * low + pots * high) / (own + pots)
    return sizes.ask(
        f"An empty stand weighs {sizes.write(own, 'mass')}, its centre of gravity {sizes.write(low)} above the floor. "
        f"Pots of {sizes.write(pots, 'mass')} go on the upper tray, theirs {sizes.write(high)} above the floor. How "
        "high is the centre of gravity of both together?",
        answer,
        (
            ((low + high) / 2, "That is the middle between both: it lies nearer to the heavier one."),
            ((own * high + pots * low) / (own + pots), "You took the weights the other way round: it lies nearer to "
             "the heavier one."),
            (low + high * pots / (own + pots), "Each height counts by its own share of the weight: the stand's too."),
        ),
        "Each height times its weight, added up, over the whole weight.", mm=0.5, inches=0.02,
    )
