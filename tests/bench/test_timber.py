"""The bench for buying timber: written in by anybody, planned beside the page, never a traceback."""

import sys
import time

import pytest
from pages import NASTY

from shoplib import Board, MeasureError, Part, SawBench, read_boards, stand_parts, stand_rack, write_boards
from shoplib.bench import timber as module
from shoplib.model import MissingError

ASH = "Ash, white"
RAIL = Part("rail", 4, "320 mm", "50 mm", "20 mm", ASH)
ONE = Board("one", "1500 mm", "60 mm", "27 mm", price=9)


@pytest.fixture
def bench():
    return SawBench([RAIL], [ONE])


def ask(bench, **asked):
    bench.hear({name.replace("__", "."): value for name, value in asked.items()})
    wait(bench)


def wait(bench):
    worker = bench.worker
    if worker is not None:
        worker.join(30)


def everything(bench):
    """All HTML on the page; what stands in the boxes is none."""
    return " ".join(str(each) for name, each in bench.live.shown.items() if name not in bench.texts)


def test_shows_the_plan_with_cuts_and_money(bench):
    assert bench.line() == (
        "SawBench: 4 pieces from one 4 pieces. The boards used cost 9.00: no other choice of boards is cheaper."
    )
    told = bench.live.shown["told"]
    for said in ("To buy", "9.00", "board feet", "piece 4, rail", "340.0 mm"):
        assert said in told
    assert bench.live.shown["picture"].startswith("<svg")


def test_planned_anew_only_when_asked(bench):
    ask(bench, **{"part__1__count": "5"})
    assert len(bench.plan.pieces) == 4 and "press Plan" in bench.live.shown["work"]
    ask(bench, plan="")
    assert bench.plan.missing and "⚠" in bench.live.shown["told"] and "1 x rail" in bench.live.shown["told"]
    ask(bench, back="")
    assert len(bench.plan.pieces) == 4 and not bench.plan.missing


@pytest.mark.parametrize(
    ("box", "text", "said"),
    [
        ("part.1.length", "320", "which unit"), ("part.1.count", "many", "how many"), ("part.1.width", NASTY, "Part 1"),
        ("board.1.faults", "1 m", "write each as"), ("board.1.faults", "1400 mm to 1600 mm", "does not lie"),
        ("board.1.price", "nine", "plain number"), ("board.1.board", "", "name"),
    ],
)  # fmt: skip
def test_what_cannot_be_read_is_said_at_its_row(bench, box, text, said):
    before = bench.drawing
    ask(bench, **{box.replace(".", "__"): text})
    kind = box.partition(".")[0]
    assert said in bench.live.shown[f"{kind}.1.note"] and "No plan" in bench.live.shown["problem"]
    assert bench.drawing == before and bench.line().startswith("SawBench: no plan.")
    ask(bench, plan="")
    assert said in bench.live.shown[f"{kind}.1.note"]
    assert "<script" not in everything(bench)


def test_kerf_that_cannot_be_read(bench):
    ask(bench, kerf="3")
    ask(bench, plan="")
    assert "which unit" in bench.live.shown["problem"] and bench.plan is not None
    ask(bench, kerf="-3 mm", plan="")
    assert "must be nothing or more" in bench.live.shown["problem"]
    ask(bench, kerf="3 mm", plan="")
    assert bench.live.shown["problem"] == ""


def test_rows_come_and_go(bench):
    ask(bench, board__add="")
    assert bench.live.shown["board.2.row"]["style"] == module.ROW
    assert bench.live.shown["board.3.row"]["style"] == module.HIDDEN
    ask(bench, board__2__board="two", board__2__length="1 m")
    assert "width is empty" in bench.live.shown["board.2.note"]
    ask(bench, board__2__away="")
    assert bench.live.shown["board.2.row"]["style"] == module.HIDDEN and bench.problem is None
    for _ in range(50):
        ask(bench, board__add="")
    assert "room for 40 boards" in bench.said


def test_boards_from_a_file(bench, tmp_path):
    path = write_boards(stand_rack(), tmp_path / "rack.csv")
    ask(bench, board__path=str(path), board__load="")
    assert bench.live.shown["board.4.faults"] == "600 mm to 680 mm" and bench.problem is None
    path.write_text("board,length\nx,1 m\n")
    ask(bench, board__load="")
    assert "column width" in bench.live.shown["problem"]
    assert bench.live.shown["board.4.faults"] == "600 mm to 680 mm"  # nothing is lost
    ask(bench, board__path=" ", board__load="")
    assert "name of a file" in bench.live.shown["problem"]


def test_a_row_taken_away_lets_those_below_move_up(bench, tmp_path):
    bench.read_table("board", write_boards(stand_rack(), tmp_path / "rack.csv"))
    ask(bench, board__2__away="")
    shown = [bench.live.shown[f"board.{number}.board"] for number in (1, 2, 3, 4)]
    assert shown == ["ash 52", "ash 20", "ash 27 spare", ""] and bench.live.shown["board.3.faults"]
    ask(bench, board__4__away="")  # not there
    assert bench.live.shown["board.3.board"] == "ash 27 spare"
    ask(bench, plan="")
    assert bench.problem is None and {each.board.name for each in bench.plan.boards} <= set(shown)


def test_a_file_chosen_on_the_page(bench, tmp_path):
    text = "\ufeff" + write_boards(stand_rack(), tmp_path / "rack.csv").read_text()
    ask(bench, board__file={"name": "rack.csv", "text": text})
    assert bench.live.shown["board.4.faults"] == "600 mm to 680 mm" and bench.problem is None
    for name, bad, said in (
        ("rack.csv", text.replace("1900 mm", "1900", 1), "rack.csv, row 3: length: "),
        ("rack.csv", text.replace("faults", "knots"), "row 1: no column is called"),
        ("rack.csv", "", "row 1: the column board"),
        ("picture.png", None, "picture.png cannot be read: it is not a text file"),
        (NASTY, text.replace("27 mm", "27"), "row 3: thickness: "),
    ):
        ask(bench, board__file={"name": name, "text": bad})
        assert said in bench.live.shown["problem"] and bench.live.shown["board.4.faults"] == "600 mm to 680 mm"
        assert "<script" not in everything(bench)
    parts = write_boards([ONE], tmp_path / "one.csv").read_text()
    ask(bench, part__file={"name": "one.csv", "text": parts})
    assert "the column part" in bench.live.shown["problem"] and bench.live.shown["part.1.part"] == "rail"


def test_too_many_rows_are_refused(bench, tmp_path):
    path = write_boards([ONE] * 41, tmp_path / "rack.csv")
    assert len(read_boards(path)) == 41
    with pytest.raises(MeasureError, match="room for 40 boards"):
        bench.read_table("board", path)


def hard(**how):
    parts = [Part(f"p{n}", 3, f"{211 + 37 * n} mm", f"{31 + 7 * n} mm", "20 mm", ASH) for n in range(12)]
    boards = [Board(f"b{n}", f"{1500 + 130 * n} mm", f"{110 + 7 * n} mm", "27 mm") for n in range(12)]
    return SawBench(parts, boards, **how)


def test_page_answers_while_it_works_and_stops_at_once():
    bench = hard(seconds=0.1)
    bench.seconds = 60
    bench.hear({"plan": ""})
    begun = time.monotonic()
    time.sleep(1.0)
    bench.hear({"unit": "inches"})
    if bench.worker is None:  # it was solved to the end already
        assert bench.plan.finished
        return
    assert "<progress" in bench.live.shown["work"] and "Working" in bench.live.shown["work"]
    bench.hear({"stop": ""})
    wait(bench)
    assert time.monotonic() - begun < 1.0 + 4.0 and bench.worker is None  # a second, and what a loaded machine takes
    assert "Stopped" in bench.live.shown["work"] and not bench.plan.missing


def test_failure_in_the_thread_is_shown(bench, monkeypatch):
    monkeypatch.delenv("SHOPLIB_STRICT", raising=False)
    monkeypatch.setattr(module, "saw_plan", lambda *given, **how: 1 / 0)
    ask(bench, plan="")
    assert "could not work this out" in bench.live.shown["problem"] and "Traceback" not in everything(bench)


def test_units_change_what_is_told_not_what_was_typed(bench):
    ask(bench, unit="inches")
    assert bench.live.shown["part.1.length"] == "320 mm" and "13 25/64 in" in bench.live.shown["told"]
    assert "lb" in bench.live.shown["told"]


def test_still_picture_has_words_and_no_ids_by_chance(bench):
    bundle = bench._repr_mimebundle_()
    assert bundle["text/plain"] == bench.line()
    assert bundle["text/html"].startswith('<img alt="Boards and their cuts. Board 1, one: 4 pieces')
    assert SawBench([RAIL], [ONE])._repr_mimebundle_()["text/html"] == bundle["text/html"]


def test_walk_says_a_line_for_each_board_and_comes_back(capsys):
    bench = SawBench(stand_parts(), stand_rack())
    line = bench.line()
    bench.walk(no_unit="72")
    said = capsys.readouterr().out.splitlines()
    assert len(said) == 5 and said[0].startswith("without board 1: ") and "which unit" in said[-1]
    assert bench.line() == line


def test_every_box_is_named_for_a_screen_reader(bench):
    html = bench.html()
    assert html.count("<input") == html.count("aria-label=") == 60 * 8 + 40 * 7 + 3 + 2


def test_plan_and_tables_are_saved(bench, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    for words, button in bench.printouts.buttons.items():
        button.click()
        assert "Saved as" in bench.printouts.link.value, words
        assert ("data:text/csv" if "CSV" in words else "data:application/pdf") in bench.printouts.link.value
    names = sorted(each.name for each in (tmp_path / "printouts").iterdir())
    assert names[:2] == ["boards.csv", "parts.csv"] and len(names) == 4


def test_a_timber_of_ones_own_is_planned_and_has_no_weight(bench):
    ask(bench, part__1__timber=f"bog oak {NASTY}"[:60])
    ask(bench, plan="")
    assert bench.problem is None and "not known: no density of bog oak" in bench.live.shown["told"]
    assert "<script" not in everything(bench)


def test_no_boards_at_all():
    with pytest.raises(MeasureError, match="no boards"):
        SawBench([RAIL], [])


@pytest.fixture
def without_scipy(monkeypatch):
    for name in ("scipy", "scipy.optimize", "scipy.sparse"):
        monkeypatch.setitem(sys.modules, name, None)


NO_PLAN = "A saw plan needs scipy, which is not here: make it in JupyterLab."


def test_without_scipy_all_is_there_but_the_plan(without_scipy, bench_of_two):
    bench = bench_of_two
    assert bench.line() == f"SawBench: no plan. {NO_PLAN}" == bench._repr_mimebundle_()["text/plain"]
    assert NO_PLAN in bench._repr_mimebundle_()["text/html"] and 'data-press="plan"' not in bench.html()
    ask(bench, part__1__length="400 mm")
    assert "420 × 54 × 27 mm" in bench.live.shown["told"] and "press Plan" not in everything(bench)
    ask(bench, part__1__length="400")
    assert "which unit" in bench.live.shown["part.1.note"] and "The last sizes are below" in bench.live.shown["problem"]
    ask(bench, part__1__length="4 m")
    assert "no board is large enough; it needs one at least 4020.0 mm long" in bench.live.shown["told"]
    ask(bench, back="", plan="", stop="")
    assert "340 × 54 × 27 mm" in bench.live.shown["told"] and bench.worker is None and bench.problem is None
    assert bench.live.shown["picture"] == "" and "Traceback" not in everything(bench)


@pytest.fixture
def bench_of_two(without_scipy):
    return SawBench([RAIL], [ONE, Board("two", "2 m", "60 mm", "27 mm", price=4)])


def test_what_only_a_plan_has_is_refused_in_the_same_sentence(bench_of_two):
    plan = bench_of_two.plan
    assert str(plan.cuts_of(1)) == str(plan.pieces_of(1)) == repr(plan) == NO_PLAN
    assert dict(plan.buy().rows)["boards on the rack"] == "2" and plan.weight() > 0
    assert repr(bench_of_two.save_plan()) == f"Not saved: {NO_PLAN}"
    for name in ("boards", "pieces", "cost", "bound", "gap", "missing", "finished"):
        with pytest.raises(MissingError, match="needs scipy"):
            getattr(plan, name)
    assert not hasattr(plan, "nonsense")
