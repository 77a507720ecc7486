"""Plans that saw parts from boards: sawn again by a program of its own, small cases enumerated whole."""

import itertools
import math
import random
import time

import published
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shoplib import MeasureError, ShapeError, StaveRing
from shoplib.maths.the_stand import stand_parts
from shoplib.maths.timber import (
    Board,
    Part,
    read_boards,
    read_parts,
    saw_plan,
    stand_rack,
    write_boards,
    write_parts,
)
from shoplib.maths.timber.longest_first import longest_first
from shoplib.maths.timber.patterns import Kind, fits
from shoplib.maths.timber.plan import _problem, board_feet
from shoplib.maths.timber.pricing import Pricing, grid_for
from shoplib.maths.timber.sawing import steps
from shoplib.maths.timber.stock import quarters, rough, surfaces_to, thinnest_sold
from shoplib.maths.timber.within import Within

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
        faults = [(f"{start} mm", f"{start + draw(st.sampled_from([1, 2, 4, 50]))} mm") for start in starts]
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


@pytest.mark.parametrize("wide", [0.5, 2, 3, 4, 6, 20])
def test_a_fault_as_narrow_as_a_saw_cut(wide):
    """Both stretches in use: the saw takes the fault, and never a part beyond it."""
    parts = [Part("block", 2, "480 mm", "50 mm", "20 mm", ASH)]
    boards = [Board("b", "1003 mm", "60 mm", "27 mm", faults=[("500 mm", f"{500 + wide} mm")])]
    plan = saw_plan(parts, boards)
    check(plan, parts, boards)
    assert bool(plan.missing) == (wide > 3)


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
    assert "1520.0 mm long" in missing.why() and "54.0 mm wide" in missing.why()
    assert "59 27/32 in long" in missing.why("in")
    check(plan, parts, [plan.boards[0].board])


# Two-dimensional cases, all plans of them tried -----------------------------------------------------------------


def holds(pieces, length, width, kerf, ripped):
    """Whether all pieces (along, across) come out of one rectangle, by trying every way to share them out in strips."""
    sizes = [(a, b) if ripped else (b, a) for a, b in pieces]
    along, across = (length, width) if ripped else (width, length)
    return any(
        sum(max(b for _, b in strip) + kerf for strip in strips) <= across + kerf
        and all(sum(a + kerf for a, _ in strip) <= along + kerf for strip in strips)
        for strips in shared_out(sizes)
    )  # fmt: skip


def shared_out(items):
    """All ways to put items into heaps."""
    if not items:
        yield []
        return
    first, *rest = items
    for heaps in shared_out(rest):
        yield [[first], *heaps]
        for place in range(len(heaps)):
            yield [*heaps[:place], [first, *heaps[place]], *heaps[place + 1 :]]


@pytest.mark.parametrize("seed", range(12))
def test_small_plans_in_two_dimensions_tried_whole(seed):
    """Five pieces and three boards without faults: every board set, every share, every strip."""
    chance = random.Random(seed)
    rough_sizes = [(chance.randrange(150, 600, 10), chance.randrange(40, 110, 5)) for _ in range(5)]
    racks = [(chance.choice([600, 900, 1200]), chance.choice([110, 160, 200])) for _ in range(3)]
    parts = [Part(f"p{n}", 1, f"{a - 20} mm", f"{b - 4} mm", "20 mm", ASH) for n, (a, b) in enumerate(rough_sizes)]
    boards = [Board(f"b{n}", f"{a} mm", f"{b} mm", "27 mm") for n, (a, b) in enumerate(racks)]
    fit = {
        (board, some): any(holds([rough_sizes[n] for n in some], *racks[board], 3, way) for way in (True, False))
        for board in range(3) for count in range(6) for some in itertools.combinations(range(5), count)
    }  # fmt: skip
    costs = [
        sum(a * b for n, (a, b) in enumerate(racks) if n in shared)
        for shared in itertools.product(range(3), repeat=5)
        if all(fit[board, tuple(n for n in range(5) if shared[n] == board)] for board in range(3))
    ]
    plan = saw_plan(parts, boards, seconds=5)
    check(plan, parts, boards)
    if not costs:
        assert plan.missing
        return
    assert plan.bound <= min(costs) * 1e-6 + HAIR, "the bound is above a plan that can be sawn"
    assert min(costs) * 1e-6 - HAIR <= plan.cost <= 1.15 * min(costs) * 1e-6 + HAIR
    if plan.finished:
        assert plan.cost == pytest.approx(min(costs) * 1e-6)


# The parts of the solver -------------------------------------------------------------------------------------


@pytest.mark.parametrize("seed", range(8))
def test_no_pattern_is_worth_more_than_the_pricing_says(seed):
    """All sets of up to five pieces of three kinds, tried whole."""
    chance = random.Random(seed)
    kinds = {n: Kind(chance.randrange(80, 400, 7), chance.randrange(20, 90, 3), 2) for n in range(3)}
    worth = {n: chance.uniform(0.5, 2) for n in kinds}
    length, width = chance.randrange(400, 800), chance.randrange(90, 160)
    pricing = Pricing(kinds, {0: (length, width)}, 3.0)
    (value, pattern), = [pricing.best(worth, dict.fromkeys(kinds, 2))[0]]
    best = max(
        sum(worth[n] for n in some)
        for count in range(6) for some in itertools.combinations([0, 0, 1, 1, 2, 2], count)
        if not some or any(holds([kinds[n][:2] for n in some], length, width, 3, way) for way in (True, False))
    )  # fmt: skip
    assert value >= best - HAIR
    assert fits(pattern(), kinds, length, width, 3.0)
    filled, exact = pricing.fill(0, worth, dict.fromkeys(kinds, 2))
    assert fits(exact, kinds, length, width, 3.0) and filled <= value + HAIR
    assert all(count <= 2 for count in exact.counts().values())


@pytest.mark.parametrize("seed", range(12))
def test_patterns_within_limits_are_the_worthiest(seed):
    """Pieces that would be taken more often than they are wanted: all sets within the limits, tried whole."""
    chance = random.Random(seed)
    kinds = {n: Kind(chance.randrange(60, 200, 7), chance.randrange(20, 60, 3), chance.randint(1, 2)) for n in range(4)}
    worth = {n: kind.length * kind.width * chance.uniform(0.5, 2) for n, kind in kinds.items()}
    limits = {n: kind.count for n, kind in kinds.items()}
    length, width = chance.randrange(300, 600), chance.randrange(90, 160)
    pricing = Pricing(kinds, {0: (length, width)}, 3.0)
    pieces = [n for n in kinds for _ in range(limits[n])]
    best = max(
        sum(worth[n] for n in some)
        for count in range(len(pieces) + 1) for some in set(itertools.combinations(pieces, count))
        if not some or any(holds([kinds[n][:2] for n in some], length, width, 3, way) for way in (True, False))
    )  # fmt: skip
    value, patterns = Within(pricing, states=1000).best(0, worth, limits)
    assert value == pytest.approx(best)
    for pattern in patterns:
        assert fits(pattern, kinds, length, width, 3.0)
        assert all(count <= limits[n] for n, count in pattern.counts().items())
    assert max(sum(worth[n] * c for n, c in each.counts().items()) for each in patterns) == pytest.approx(best)
    for states in (1, 8):  # some kinds are not counted: still no less
        assert Within(pricing, states).best(0, worth, limits)[0] >= best - HAIR


def test_a_bound_counts_pieces_down_and_boards_up():
    kinds = {0: Kind(100.4, 50.4, 9)}
    for_plans, for_bound = (Pricing(kinds, {0: (308.5, 54.5)}, 3.3, 1.0, bound) for bound in (False, True))
    assert for_plans.units[0] == (104, 54) and for_bound.units[0] == (103, 53)
    assert for_plans.rooms[0] == (311, 57) and for_bound.rooms[0] == (312, 58)


def test_a_plan_is_only_exchanged_for_a_better_one():
    """However long it works, it never shows a worse plan than longest-first."""
    parts, boards = crowd(60, 12, 3)
    for seconds in (0.0, 0.3, 1.0):
        plan = saw_plan(parts, boards, seconds=seconds)
        first = longest_first(_problem([rough(part) for part in parts], boards, 3.0))
        assert not plan.missing
        assert not first.complete or plan.cost <= first.cost + HAIR
        check(plan, parts, boards)


def crowd(count, many, seed):
    """Parts and boards by chance: equal parts by twos and fours, boards with a fault here and there."""
    chance = random.Random(seed)
    parts = [
        Part(f"p{n}", 4, f"{chance.randrange(120, 780, 10)} mm", f"{chance.choice([30, 40, 60, 80])} mm", "20 mm", ASH)
        for n in range(count // 4)
    ]
    boards = [
        Board(f"b{n}", f"{chance.randrange(1500, 3100, 50)} mm", f"{chance.randrange(110, 230, 5)} mm", "27 mm",
              faults=[("400 mm", "450 mm")] if n % 3 == 0 else ()) for n in range(many)
    ]  # fmt: skip
    return parts, boards


def test_a_stop_is_heard_within_a_second_and_the_gap_is_told():
    parts, boards = crowd(120, 24, 1)
    begun, told = time.monotonic(), []
    plan = saw_plan(parts, boards, seconds=30, stop=lambda: time.monotonic() > begun + 1.0,
                    progress=lambda share, gap: told.append((share, gap)))  # fmt: skip
    assert time.monotonic() - begun < 1.0 + 3.0  # a second, and what a loaded machine takes
    assert not plan.missing and not plan.finished
    shares, gaps = zip(*told)
    assert list(shares) == sorted(shares) and all(0 <= share <= 1 for share in shares)
    known = [gap for gap in gaps if gap is not None]
    assert known == sorted(known, reverse=True) and known[-1] == pytest.approx(plan.gap)


def test_inches_lie_on_a_grid_of_their_own():
    assert grid_for([25.4, 3.175, 38.1]) == (25.4 / 32, True)
    parts = [Part("rail", 5, "11 7/8 in", "2 in", "3/4 in", ASH)]
    plan = saw_plan(parts, [Board("b", "60 1/2 in", "2 in", "1 in")], kerf="1/8 in", end="1/8 in", edge="0 in",
                    unit="in")  # fmt: skip
    assert not plan.missing and plan.finished  # 5 x 12 in and four kerfs: to the last 1/8


# What the sheet says of each cut -----------------------------------------------------------------------------


@settings(max_examples=15)
@given(st.lists(sizes, min_size=1, max_size=4), racks())
def test_steps_free_every_piece_once(parts, boards):
    plan = saw_plan(parts, boards, seconds=0.2)
    for each in plan.boards:
        done = steps(each.board.plain["length"], each.board.plain["width"], each.layout)
        freed = [number for step in done for number in step.frees]
        places = {place.piece: place for place in each.layout.places}
        whole = [p for p in places.values() if math.isclose(p.length, each.board.plain["length"])
                 and math.isclose(p.width, each.board.plain["width"])]  # fmt: skip
        assert sorted(set(freed)) == sorted(set(places) - {p.piece for p in whole})
        assert all(step.fence >= -HAIR for step in done)


# Files -------------------------------------------------------------------------------------------------------

HEAD = "board,length,width,thickness,price,faults,timber\n"


def write_file(folder, text, name="boards.csv"):
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path


def test_boards_and_parts_go_to_a_file_and_back(tmp_path):
    for unit in ("mm", "in"):
        boards = read_boards(write_boards(stand_rack(), tmp_path / "rack.csv", unit))
        assert [(each.name, each.plain, each.price, each.species) for each in boards] == [
            (each.name, each.plain, each.price, each.species) for each in stand_rack()
        ]
        parts = read_parts(write_parts(stand_parts(), tmp_path / "parts.csv", unit))
        assert [repr(each) for each in parts] == [repr(each) for each in stand_parts()]
        assert [each.plain for each in parts] == [each.plain for each in stand_parts()]
    assert sorted(each.name for each in tmp_path.iterdir()) == ["parts.csv", "rack.csv"]


def test_semicolons_inches_and_faults(tmp_path):
    text = HEAD.replace(",", ";") + 'a;8 ft;5 1/2 in;1 in;24,50;"10 in to 12 in; 40 in to 41 in";\n;;;;;;\n'
    (board,) = read_boards(write_file(tmp_path, text))
    assert board.price == 24.5 and board.species is None
    assert sum(board.plain["faults"], ()) == pytest.approx((254.0, 304.8, 1016.0, 1041.4))


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("board,length,width\na,1 m,100 mm\n", "row 1: the column thickness is missing"),
        (HEAD.replace("width", "breadth"), "row 1: the column width is missing"),
        (HEAD.replace("price", "colour"), "row 1: no column is called 'colour'"),
        (HEAD.replace("price", "width"), "row 1: the column width is there twice"),
        (HEAD + "a,1900,150 mm,27 mm,,,\n", "row 2: length: .*which unit"),
        (HEAD + "a,1900 mm,150 mm,27 mm,,,\nb,1900 mm,,27 mm,,,\n", "row 3: width is empty"),
        (HEAD + "a,1900 mm,150 mm,27 mm,,1850 mm to 1950 mm,\n", "row 2: .*does not lie on a board"),
        (HEAD + "a,1900 mm,150 mm,27 mm,,600 mm - 680 mm,\n", "row 2: faults: write each as"),
        (HEAD + "a,1900 mm,150 mm,27 mm,,600 to 680 mm,\n", "row 2: faults: .*which unit"),
        (HEAD + "a,1900 mm,150 mm,27 mm,cheap,,\n", "row 2: price: write a plain number"),
        (HEAD + '"a","1900 mm","150 mm","27 mm","1,250",,\n', "row 2: price: .*thousand or a decimal"),
        (HEAD + ",1900 mm,150 mm,27 mm,,,\n", "row 2: .*name of 1 to 60"),
        (HEAD + "a,1900 mm,150 mm,27 mm,,,,,,\n", "row 2: it has 10 cells and the head 7"),
        ("", "row 1: the column board and the column length"),
    ],
)
def test_a_bad_file_says_where(tmp_path, text, told):
    path = write_file(tmp_path, text)
    with pytest.raises(MeasureError, match=told):
        read_boards(path)
    assert path.read_text(encoding="utf-8") == text


def test_a_bad_part_says_where(tmp_path):
    head = "part,count,length,width,thickness,timber,round,per blank\n"
    for row, told in (
        ("leg,four,720 mm,35 mm,35 mm,ash,yes,", "row 2: count: write how many"),
        ("leg,4,720 mm,35 mm,35 mm,,yes,", "row 2: .*timber"),
        ("leg,4,720 mm,35 mm,35 mm,ash,maybe,", "row 2: round: write yes"),
        ("leg,4,720 mm,35 mm,30 mm,ash,yes,", "row 2: .*is round"),
    ):
        with pytest.raises(MeasureError, match=told):
            read_parts(write_file(tmp_path, head + row + "\n", "parts.csv"))


def test_a_file_that_is_none(tmp_path):
    with pytest.raises(MeasureError, match="cannot be read"):
        read_boards(tmp_path / "nothing.csv")
    (tmp_path / "picture.csv").write_bytes(b"\xff\xfe\x00\x81")
    with pytest.raises(MeasureError, match="not a text file"):
        read_boards(tmp_path / "picture.csv")


# The stand ---------------------------------------------------------------------------------------------------


def test_the_stand_comes_out_of_its_rack():
    parts, boards = stand_parts(), stand_rack()
    plan = saw_plan(parts, boards)
    check(plan, parts, boards)
    assert not plan.missing and plan.finished and plan.cost == 69.0
    (spare,) = [each for each in plan.boards if each.board.name == "ash 27 spare"]
    assert {place.left < 600 for place in spare.layout.places} == {True, False}  # on both sides of the fault


def test_sizes_are_told_finished_and_rough():
    plan = saw_plan([Part("rail", 2, "13 in", "2 in", "3/4 in", ASH)], [Board("b", "8 ft", "3 in", "1 in")], unit="in",
                    end="1 in", edge="1/4 in")  # fmt: skip
    assert plan.sizes("in").rows == [("rail", "2", "13 × 2 × 3/4 in", "14 × 2 1/4 × 1 in")]


def test_a_whole_rings_strip_finds_no_place_between_the_knots():
    ring = StaveRing("440 mm", "400 mm", 12, margin="3 mm", kerf="3 mm")
    whole = Part("rim strip", 1, ring.strip_length, ring.board_width, "20 mm", ASH)
    plan = saw_plan([whole], [stand_rack()[3]])
    (missing,) = plan.missing
    assert not missing.could and "between its faults" in missing.why()


def test_weight_and_money():
    """A block of ash 1 m x 100 mm x 50 mm at 12 %: 672 kg a cubic metre (1000 x 0.60 x 1.12)."""
    plan = saw_plan([Part("block", 2, "1 m", "100 mm", "50 mm", ASH)], [Board("b", "3 m", "110 mm", "65 mm", price=30)])
    assert plan.weight("12 %").m_as("kg") == pytest.approx(2 * 0.005 * 672)
    bought = dict(plan.buy("12 %").rows)
    assert bought["money, in the currency of the prices"] == "30.00"
    assert bought["weight of the parts at 12 %"] == "6.7 kg"
    assert bought["wood as bought"].endswith(" m³")
    assert bought["board feet, rough"] == f"{3000 * 110 * 65 / (25.4 * 304.8**2):.1f}"
