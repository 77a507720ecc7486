"""Practice questions on buying timber: kerfs, rough thickness, board feet, weight, bounds."""

import math

from shoplib.maths.timber.plan import board_feet, saw_plan
from shoplib.maths.timber.stock import Board, Part, sold, surfaces_to, thinnest_sold
from shoplib.maths.wood import density
from shoplib.practice.pictured import Pictured
from shoplib.practice.question import Sizes

TIMBERS = ("Ash, white", "Walnut, black", "Cherry, black")


def questions(student, unit="mm"):
    """Five questions, with sizes that follow the student number."""
    sizes = Sizes(student, unit)
    return (_length(sizes), _pieces(sizes), _thickness(sizes), _feet(sizes), _weight(sizes))


def pictured():
    """The drawing over the questions on paper: pieces, cuts and waste of one board."""
    sections = "50 mm", "20 mm", "Ash, white"
    parts = [Part("long", 2, "700 mm", *sections), Part("short", 3, "400 mm", *sections)]
    board = Board("the board", "2000 mm", "150 mm", "27 mm", faults=[("950 mm", "1020 mm")])
    return Pictured(saw_plan(parts, [board], kerf="3 mm"))


def _mm(size):
    return size.m_as("mm")


def _length(sizes):
    count = sizes.choose(0, (5, 6, 7, 8))
    piece = _mm(sizes.pick(1, mm=(310, 330, 350, 370), inches=(12, 12.5, 13.5, 14.5)))
    kerf = _mm(sizes.pick(2, mm=(3, 3.2, 3.5), inches=(1 / 8, 9 / 64, 5 / 32)))
    needed = count * piece + (count - 1) * kerf
    return sizes.ask(
        f"{count} rails, each sawn {sizes.write(piece)} long, come from one strip. The saw takes {sizes.write(kerf)}. "
        "The strip's own ends are square and true. How long must it be at least?",
        needed,
        (
            (count * piece, "You forgot the kerf: every cut turns wood into dust, and the last rail is short by all "
             "of it."),
            (count * (piece + kerf), "Between so many rails there is one cut fewer than rails."),
            (count * piece + kerf, "You counted one kerf: there is one between every two rails."),
            (count * piece + 2 * (count - 1) * kerf, "You counted every kerf twice: two neighbours share one cut."),
        ),
        "All pieces, and one kerf fewer than pieces.", mm=0.3, inches=1 / 64,
    )


def _pieces(sizes):
    board = _mm(sizes.pick(0, mm=(1800, 2100, 2400, 2700), inches=(72, 84, 96, 108)))
    kerf = _mm(sizes.fixed(mm=4, inches=5 / 32))
    into = sizes.choose(3, (20, 24, 30))  # just so many would fit if the saw took nothing
    step = _mm(sizes.fixed(mm=1, inches=1 / 8))
    piece = math.floor(board / into / step) * step
    fit = math.floor((board + kerf) / (piece + kerf) + 1e-9)
    return sizes.ask(
        f"How many blocks {sizes.write(piece)} long does a board {sizes.write(board)} long give, with a kerf of "
        f"{sizes.write(kerf)}?",
        fit,
        (
            (math.floor(board / piece + 1e-9), "That is without the saw: the kerf is taken many times, and together it "
             "eats a block or more."),
            (math.floor((board - kerf) / piece + 1e-9), "You took the kerf off once: it is taken between every two "
             "blocks."),
            (fit - 1, "One too few: the last block needs no cut after it."),
        ),
        "The board and one kerf, over a block and one kerf; only whole ones count.", kind="count",
    )


def _thickness(sizes):
    part = _mm(sizes.pick(2, mm=(16, 18, 21, 24), inches=(7 / 8, 15 / 16, 1.125, 1.25)))
    yard = sold(sizes.unit)
    rack = 1 + yard.index(thinnest_sold(part, sizes.unit))
    told = ", ".join(sizes.write(each) for each in yard[:6])
    rule = (
        "Planing takes 5 mm." if sizes.unit == "mm" else
        "They plane to " + ", ".join(sizes.write(surfaces_to(each)) for each in yard[:6]) + ", in this order."
    )
    return sizes.ask(
        f"A part is to be {sizes.write(part)} thick when it is planed. The yard's racks hold rough boards of {told}. "
        f"{rule} From which rack, counted from the thinnest, do you buy?",
        rack,
        (
            (1 + next(n for n, each in enumerate(yard) if each >= part), "That is thick enough only as long as nobody "
             "planes it: both rough faces have to go."),
            (rack + 1, "That does too, and costs a size more: the next thinner one planes to it."),
        ),
        "The thinnest that still planes to the part.", kind="count",
    )


def _feet(sizes):
    """Hundredths of a board foot, so that a whole number answers it."""
    length = sizes.pick(0, mm=(2400, 2700, 3000, 3300), inches=(96, 108, 120, 132))
    width = sizes.pick(1, mm=(150, 180, 200, 220), inches=(6, 7, 8, 9))
    thick = sizes.pick(3, mm=(34, 40, 52), inches=(1.25, 1.5, 2))
    feet = board_feet(Board("b", length, width, thick))
    face = _mm(length) * _mm(width)
    answer = 100 * feet
    planed = surfaces_to(_mm(thick)) / 25.4 * face / 304.8**2 * 100
    whole = round(answer)
    told = (sizes.write(_mm(each)) for each in (length, width, thick))
    return sizes.ask(
        "A board foot is a board one inch thick, a foot wide and a foot long. A rough board is {} long, {} wide and {} "
        "thick. How many hundredths of a board foot is that, rounded to a whole number?".format(*told),
        whole,
        (
            (round(planed), "You took the planed thickness: timber is counted rough, as it is sold."),
            (round(face / 304.8**2 * 100), "That is the face in square feet: the thickness in inches is missing."),
            (round(answer / 12), "You took the thickness in feet: it alone is in inches."),
        ),
        "Thickness in inches, times width in feet, times length in feet.", kind="count",
    )


def _weight(sizes):
    """What a bundle of parts weighs."""
    timber = sizes.choose(0, TIMBERS)
    moisture = sizes.pick(1, percent=(8, 9, 10, 12)).m_as("dimensionless")
    length = _mm(sizes.pick(2, mm=(700, 720, 750), inches=(28, 29, 30)))
    width = _mm(sizes.pick(1, mm=(90, 100, 110), inches=(4, 4.5, 5)))
    thick = _mm(sizes.pick(0, mm=(20, 22, 25), inches=(0.75, 0.875, 1)))
    count = 20
    volume = count * length * width * thick * 1e-9
    weight = volume * density(timber, moisture)
    gravity = density(timber, 0.0) / 1000
    unit = {"kg": 0.1} if sizes.unit == "mm" else {"pounds": 0.2}
    return sizes.ask(
        f"{count} boards of {timber}, planed, are {sizes.write(length)} x {sizes.write(width)} x {sizes.write(thick)} "
        f"and hold {sizes.write(moisture, 'percent')} moisture. Its specific gravity is {gravity:.2f}; water weighs "
        f"{'1000 kg a cubic metre' if sizes.unit == 'mm' else '62.43 lb a cubic foot'}. What do they weigh together?",
        weight,
        (
            (volume * 1000 * gravity, "That is the wood without its water: add the moisture."),
            (volume * 1000 * gravity * (1 - moisture), "The water is added to the dry wood, not taken off."),
            (volume * 1000 * (1 + moisture), "That is as heavy as water: the specific gravity is missing."),
            (weight / count, "That is one board."),
        ),
        "Volume, times the weight of water, times specific gravity, times one and the moisture.", **unit,
    )
