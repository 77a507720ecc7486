"""Plans that saw parts from boards: sawn again by a program of its own, small cases enumerated whole."""

import itertools
import math
import random

import published
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shoplib import MeasureError, ShapeError
from shoplib.maths.timber import Board, Part, saw_plan
from shoplib.maths.timber.plan import board_feet
from shoplib.maths.timber.stock import quarters, rough, surfaces_to, thinnest_sold

ASH = "Ash, white"
HAIR = 1e-6


# An independent saw: it knows rectangles and cuts, nothing of patterns --------------------------------------


def sawn(board, cuts, kerf):
    """The rectangles (left, low, right, high) that a board falls into; every cut must part one of them whole."""
    loose = [(0.0, 0.0, board.plain["length"], board.plain["width"])]
    for number, cut in enumerate(cuts, 1):
        assert cut.number == number
        assert -HAIR <= cut.end - cut.start <= kerf + HAIR
        (piece,) = [each for each in loose if _parted_by(each, cut)]
        loose.remove(piece)
        left, low, right, high = piece
        halves = (
            [(left, low, right, cut.start), (left, cut.end, right, high)] if cut.rip
            else [(left, low, cut.start, high), (cut.end, low, right, high)]
        )  # fmt: skip
        loose += [(a, b, c, d) for a, b, c, d in halves if c - a > HAIR and d - b > HAIR]
    return loose


def _parted_by(piece, cut):
    """Whether a cut runs right through a rectangle, from edge to edge, with wood on its near side."""
    left, low, right, high = piece
    near, far, start, end = (low, high, left, right) if cut.rip else (left, right, low, high)
    return (
        abs(cut.low - start) < HAIR and abs(cut.high - end) < HAIR
        and near - HAIR <= cut.start and cut.end <= far + HAIR
    )  # fmt: skip


def check(plan, parts, boards, kerf=3.0, end=20.0, edge=4.0):
    """Everything that a plan promises, found out from its places and cuts alone."""
    wanted = {part.name: part.blanks for part in parts}
    for missing in plan.missing:
        wanted[missing.part.name] -= missing.count
    found, numbers = {}, []
    for each in plan.boards:
        assert each.board in boards
        loose = sawn(each.board, each.layout.cuts, kerf)
        for place in each.layout.places:
            piece = plan.pieces[place.piece - 1]
            numbers.append(place.piece)
            assert piece.number == place.piece
            _check_place(place, piece.part, each.board, loose, end, edge)
            found[piece.part.name] = found.get(piece.part.name, 0) + 1
    assert sorted(numbers) == list(range(1, len(plan.pieces) + 1))
    assert found == {name: count for name, count in wanted.items() if count}


def _check_place(place, part, board, loose, end, edge):
    box = (place.left, place.low, place.left + place.length, place.low + place.width)
    assert any(all(abs(a - b) < HAIR for a, b in zip(box, other)) for other in loose), "the saw never frees it"
    assert place.length == pytest.approx(part.net_length() + end)
    assert place.width == pytest.approx(part.plain["width"] + edge)
    assert board.species in (None, part.species)
    assert surfaces_to(board.plain["thickness"]) >= part.plain["thickness"] - HAIR
    for low, high in board.plain["faults"]:
        assert box[2] <= low + HAIR or box[0] >= high - HAIR, "a part lies on a fault"


sizes = st.builds(
    Part, st.just("part"), st.integers(1, 5), st.integers(60, 900).map("{} mm".format),
    st.integers(15, 150).map("{} mm".format), st.integers(8, 40).map("{} mm".format),
    st.sampled_from([ASH, "Walnut, black"]),
)  # fmt: skip


@st.composite
def racks(draw):
    boards = []
    for number in range(draw(st.integers(1, 4))):
        length = draw(st.integers(300, 3000))
        starts = draw(st.lists(st.integers(0, length - 60), max_size=2, unique=True))
        faults = [(f"{start} mm", f"{start + 50} mm") for start in starts]
        boards.append(
            Board(
                f"board {number}", f"{length} mm", f"{draw(st.integers(60, 220))} mm",
                f"{draw(st.sampled_from([20, 27, 34, 52]))} mm", faults=faults,
                species=draw(st.sampled_from([None, ASH])),
            )
        )  # fmt: skip
    return boards


@settings(max_examples=25)
@given(st.lists(sizes, min_size=1, max_size=4), racks())
def test_every_plan_can_be_sawn(parts, boards):
    parts = [
        Part(f"part {number}", part.count, part.length, part.width, part.thickness, part.species)
        for number, part in enumerate(parts)
    ]
    plan = saw_plan(parts, boards, seconds=0.4)
    check(plan, parts, boards)
    if not plan.missing:
        assert plan.bound <= plan.cost + HAIR and plan.gap >= 0


def strips_only(pieces, boards):
    """Whether pieces of one width can be cut from boards of that width: all ways of sharing them out, one by one."""
    lengths = [length for length, count in pieces for _ in range(count)]
    for shared in itertools.product(range(len(boards)), repeat=len(lengths)):
        loads = [[length for length, at in zip(lengths, shared) if at == board] for board in range(len(boards))]
        if all(sum(load) + 3 * len(load) <= boards[n] + 3 for n, load in enumerate(loads)):
            yield sum(boards[n] for n, load in enumerate(loads) if load)


@pytest.mark.parametrize("seed", range(6))
def test_small_cases_enumerated_whole(seed):
    """Boards as wide as the pieces: only lengths matter, and all ways of sharing them out can be tried."""
    chance = random.Random(seed)
    pieces = [(chance.randrange(150, 700, 10), chance.randint(1, 2)) for _ in range(3)]
    lengths = [chance.choice([900, 1200, 1500, 2000]) for _ in range(3)]
    parts = [Part(f"p{n}", count, f"{size - 20} mm", "50 mm", "20 mm", ASH) for n, (size, count) in enumerate(pieces)]
    boards = [Board(f"b{n}", f"{length} mm", "54 mm", "27 mm") for n, length in enumerate(lengths)]
    plan = saw_plan(parts, boards, seconds=5)
    least = min(strips_only(pieces, lengths), default=None)
    check(plan, parts, boards)
    if least is None:
        assert plan.missing
    else:
        assert plan.cost == pytest.approx(least * 54e-6)
        assert plan.bound <= plan.cost + HAIR


def test_the_same_input_gives_the_same_plan():
    parts = [Part("rail", 6, "320 mm", "50 mm", "20 mm", ASH), Part("stave", 12, "120 mm", "30 mm", "20 mm", ASH)]
    boards = [Board("a", "2900 mm", "140 mm", "27 mm"), Board("b", "1900 mm", "150 mm", "27 mm")]
    first, second = (saw_plan(parts, boards) for _ in range(2))
    assert first.finished and repr(first) == repr(second)
    assert [each.layout for each in first.boards] == [each.layout for each in second.boards]


# Sizes ------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("row", published.rows("board_feet"), ids=lambda row: row["id"])
def test_board_feet_as_printed(row):
    """W. Noyes, Handwork in Wood (1910)."""
    board = Board("b", f"{row['length_ft']} ft", f"{row['width_in']} in", f"{row['thickness_in']} in")
    assert board_feet(board) == pytest.approx(float(row["board_feet"]), abs=1e-3)


def test_quarters_as_sold():
    """NHLA standard thicknesses: 1 in rough surfaces to 13/16, 2 in to 1 3/4."""
    assert dict(quarters())[25.4] == pytest.approx(13 / 16 * 25.4)
    assert surfaces_to(50.8) == pytest.approx(1.75 * 25.4)


def test_allowances_are_added_once():
    piece = rough(Part("rail", 4, "320 mm", "50 mm", "20 mm", ASH), 20.0, 4.0)
    assert (piece.length, piece.width) == (340.0, 54.0)
    assert thinnest_sold(20.0) == 27.0 and thinnest_sold(22.1) == 34.0


def test_round_parts_come_from_blanks_with_grips():
    leg = Part("leg", 4, "720 mm", "35 mm", "35 mm", ASH, round=True, per_blank=2)
    assert leg.blanks == 2
    assert leg.net_length() == pytest.approx(2 * 720 + 2 * 75 + 3 * 3)
    assert leg.volume() == pytest.approx(4 * math.pi / 4 * 35**2 * 720)


def test_too_thick_a_part_is_told_in_layers():
    with pytest.raises(ShapeError, match="2 layers"):
        rough(Part("block", 1, "100 mm", "80 mm", "90 mm", ASH))


@pytest.mark.parametrize(
    ("make", "told"),
    [
        (lambda: Board("b", "1900", "150 mm", "27 mm"), "length.*which unit"),
        (lambda: Board("b", "1900 mm", "150 mm", "27 mm", faults=[("1850 mm", "1950 mm")]), "does not lie on a board"),
        (lambda: Board("b", "1900 mm", "150 mm", "27 mm", faults=[("300 mm", "200 mm")]), "the smaller first"),
        (lambda: Board("", "1900 mm", "150 mm", "27 mm"), "name"),
        (lambda: Board("b", "0 mm", "150 mm", "27 mm"), "more than"),
        (lambda: Board("b", "1900 mm", "150 mm", "27 mm", price="12"), "plain number"),
        (lambda: Part("p", 0, "100 mm", "50 mm", "20 mm", ASH), "whole number"),
        (lambda: Part("p", 1, "100 mm", "50 mm", "20 mm", ASH, round=True), "diameter"),
        (lambda: saw_plan([], [Board("b", "1 m", "100 mm", "27 mm")]), "no parts"),
        (lambda: saw_plan([Part("p", 1, "100 mm", "50 mm", "20 mm", ASH)], []), "no boards"),
        (
            lambda: saw_plan([Part("p", 501, "100 mm", "50 mm", "20 mm", ASH)], [Board("b", "1 m", "100 mm", "27 mm")]),
            "at most 500",
        ),
    ],
)
def test_what_cannot_be_is_said(make, told):
    with pytest.raises((MeasureError, ShapeError), match=told):
        make()


def test_a_part_that_no_board_can_hold_is_named_with_the_board_it_needs():
    parts = [Part("long rail", 2, "1500 mm", "50 mm", "20 mm", ASH), Part("cleat", 2, "200 mm", "50 mm", "20 mm", ASH)]
    plan = saw_plan(parts, [Board("b", "1000 mm", "150 mm", "27 mm")])
    (missing,) = plan.missing
    assert (missing.part.name, missing.count) == ("long rail", 2)
    assert "1520 mm long" in missing.why and "54 mm wide" in missing.why
    check(plan, parts, [plan.boards[0].board])
