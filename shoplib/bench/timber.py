"""The bench for buying timber: tables of parts and boards, and the plan that saws the one from the other."""

import threading
import time
from html import escape

from shoplib.bench import looks
from shoplib.bench.folded import show_folded
from shoplib.bench.my_file import row_html
from shoplib.bench.my_parts import MyParts
from shoplib.bench.printouts import PAPERS, Printouts
from shoplib.bench.standing import UNITS, Standing, still_picture
from shoplib.drawing.svg import write
from shoplib.drawing.timber import draw_boards
from shoplib.maths.timber import files, saw_plan
from shoplib.maths.timber.lot import Unplanned
from shoplib.measure import MeasureError
from shoplib.model import ShapeError

PARTS, BOARDS = 60, 40  # rows that the tables have room for
EACH = {"part": (files.PART_COLUMNS, PARTS), "board": (files.BOARD_COLUMNS, BOARDS)}
WIDTHS = {"part": 124, "board": 124, "count": 48, "price": 66, "faults": 200, "timber": 104, "round": 52}
WIDTHS |= {"per blank": 48}
SIZE = 94  # px for a size with its unit
INSTEAD = "border-left:5px solid #0072b2;padding:6px 12px;margin:8px 0"  # what is said where a plan would stand
ALLOWANCES = {"kerf": "saw kerf", "end": "added to lengths", "edge": "added to widths"}
HIDDEN, ROW = "display:none", "display:flex;flex-wrap:nowrap;align-items:center;gap:4px;margin:2px 0 6px"
BOXES = "flex:1 1 0;min-width:0;display:flex;flex-wrap:wrap;align-items:end;gap:4px"  # what has no room goes below
WRONG = (MeasureError, ShapeError)
OFTEN = 0.2  # s between two looks at the progress
PLANNING = (
    looks.button("plan", "", "Plan", "Find out how the parts are sawn from the boards"),
    looks.button("stop", "", "Stop", "End the work with the best plan so far"),
)


class SawBench(Standing):
    """Parts and boards on the bench, and the plan of sawing.

    `bench.plan` is the plan as it was made last; `bench.solve()` makes it anew and waits for it. Where no plan can be
    made at all, the bench says so where it would stand, and shows the rough sizes as soon as a table changes.

    >>> from shoplib import Board, Part, SawBench
    >>> bench = SawBench([Part("rail", 4, "320 mm", "50 mm", "20 mm", "Ash, white")],
    ...                  [Board("one", "1500 mm", "60 mm", "27 mm")])
    >>> bench.plan.verdict()
    The boards used measure 0.09 m²: no other choice of boards is cheaper.
    """

    failed = "Go back to the first tables."
    asleep = "A still picture: run the notebook to change parts and boards."

    def __init__(self, parts, boards, kerf="3 mm", end="20 mm", edge="4 mm", unit="mm", seconds=10, moisture="8 %"):
        self.unit, self.seconds, self.moisture = unit, seconds, moisture
        self.start = {"kerf": kerf, "end": end, "edge": edge}
        self._table("part", [files.part_texts(part, unit) for part in parts], self.start)
        self._table("board", [files.board_texts(board, unit) for board in boards], self.start)
        self.texts, self.wrong, self.problem, self.worker = dict(self.start), {}, None, None
        self.stopped, self.said, self.share, self.plan = threading.Event(), "", 0.0, None
        self._accept(self._planned(*self._read()))
        self.mine = MyParts(lambda parts: self._fill("part", parts), self._parts_again, self._parts_now)
        super().__init__()
        self._keep(self.place.holder)
        self.stand()

    def _keep(self, former):
        """Take over what a person wrote on the bench that the same cell made before, and its plan."""
        if isinstance(former, SawBench) and former.start == self.start:
            former.stop()
            with former.lock:
                self.texts, self.unit, self.plan = dict(former.texts), former.unit, former.plan
                self.problem, self.wrong = former.problem, dict(former.wrong)
                self.drawing, self.said = former.drawing, former.said
                self.mine.keep(former.mine)

    # Texts ---------------------------------------------------------------------------------------------------

    def _table(self, kind, rows, texts):
        """Write rows into the boxes of one table; the other rows are emptied."""
        columns, most = EACH[kind]
        if len(rows) > most:
            raise MeasureError(f"The bench has room for {most} {kind}s, not {len(rows)}: use saw_plan for more.")
        for number in range(1, most + 1):
            row = rows[number - 1] if number <= len(rows) else {}
            texts |= {f"{kind}.{number}.{column}": row.get(column, "") for column in columns}
        texts[f"{kind}.rows"] = max(len(rows), 1)

    def _rows(self, kind):
        """The rows that are not empty: their number and the texts of their cells."""
        columns, _ = EACH[kind]
        for number in range(1, self.texts[f"{kind}.rows"] + 1):
            row = {column: self.texts[f"{kind}.{number}.{column}"] for column in columns}
            if any(text.strip() for text in row.values()):
                yield number, row

    def _read(self):
        """Parts and boards as they are written; each row that is wrong says so."""
        self.wrong, found = {}, {}
        for kind, reads in (("part", files.part_from_texts), ("board", files.board_from_texts)):
            found[kind] = []
            for number, row in self._rows(kind):
                try:
                    found[kind].append(reads(row, f"{kind.capitalize()} {number}"))
                except MeasureError as error:
                    self.wrong[f"{kind}.{number}"] = str(error)
        for said in self.wrong.values():
            raise MeasureError(said)
        return found["part"], found["board"]

    # The plan ------------------------------------------------------------------------------------------------

    def _planned(self, parts, boards, progress=None):
        """The plan for these parts and boards; raises what keeps it from being made."""
        sizes = {name: self.texts[name] for name in ALLOWANCES}
        return saw_plan(parts, boards, **sizes, seconds=self.seconds, progress=progress, stop=self.stopped.is_set,
                        unit=self.unit)  # fmt: skip

    def _accept(self, plan):
        """Show this plan from now on."""
        self.plan, self.problem = plan, None
        self._draw()

    def plans(self):
        """Whether plans can be made here."""
        return not isinstance(self.plan, Unplanned)

    def _draw(self):
        drawn = self.plans() and self.plan.boards
        self.drawing = write(draw_boards(self.plan, self.unit), self.prefix) if drawn else ""

    def begin(self):
        """Start to plan in a thread of its own: the page can be used meanwhile."""
        if self.worker is not None:
            return
        if not self.plans():
            self._check()
            return
        self.stopped.clear()
        self.printouts.forget()
        try:
            given = self._read()
        except WRONG as error:
            self.problem = error
            return
        self.share, self.said, self.looked = 0.0, "Looking for a first plan.", time.monotonic()
        self.worker = threading.Thread(target=self._in_the_background, args=given, daemon=True)
        self.worker.start()

    def _in_the_background(self, parts, boards):
        plan, failure = None, None
        try:
            plan = self._planned(parts, boards, self._progress)
        except Exception as error:  # told on the page, by `_end`
            failure = error
        self.act(lambda: self._end(plan, failure))

    def _end(self, plan, failure):
        """The work is over: show its plan, or say why there is none."""
        self.worker, self.said = None, ""
        if isinstance(failure, WRONG):
            self.problem = failure
        elif failure is not None:
            raise failure
        else:
            self.said = "Stopped: the best plan so far." if self.stopped.is_set() and not plan.finished else ""
            self._accept(plan)
        self.live.put(self.shown())

    def _progress(self, share, gap):
        """Show how far the work is, a few times a second."""
        if time.monotonic() - self.looked < OFTEN:
            return
        self.looked, self.share = time.monotonic(), share
        told = "no plan yet that holds all parts" if gap is None else f"at most {100 * gap:.1f} % dearer than any plan"
        self.said = f"Working, {100 * share:.0f} % of the time: {told}."
        with self.lock:
            self.live.put(self._at_work())
            self.live.answer()

    def stop(self):
        """End the work with the best plan so far, and wait for it."""
        self.stopped.set()
        worker = self.worker
        if worker is not None:
            worker.join(5)

    def solve(self):
        """Make the plan anew from what is written, and wait for it."""
        self.begin()
        worker = self.worker
        if worker is not None:
            worker.join()
        self.act(lambda: self.live.put(self.shown()))
        if self.problem is not None:
            raise self.problem
        return self.plan

    # The page ------------------------------------------------------------------------------------------------

    def html(self):
        """The page, empty: the tables first, the plan under them."""
        bar = looks.buttons(
            *looks.options("unit", list(UNITS), "Show sizes in "),
            *(PLANNING if self.plans() else ()),
            looks.button("back", "", "First tables again", "The parts and boards that the bench started with"),
            row_html(keeps=False),
        ) + looks.place("mine.told")
        sizes = "".join(
            f"<label style='display:flex;align-items:center;gap:6px;font-size:15px'>{escape(words)}"
            f"{looks.field(name, words, 'size and unit', 90)}</label>" for name, words in ALLOWANCES.items()
        )
        tables = "".join(_table_html(kind) for kind in EACH)
        sizes = f"<div style='display:flex;flex-wrap:wrap;gap:6px 16px;margin:6px 0'>{sizes}</div>"
        work = looks.place("work") + looks.place("problem")
        body = bar + work + looks.place("picture", style="max-width:960px") + looks.place("told") + tables + sizes
        return looks.page([], [], body)

    def printed(self):
        writers = {
            f"Saw plan {paper}": lambda paper=paper: self.save_plan(paper) for paper in PAPERS
        } | {"Parts as a table (CSV)": lambda: self._save_table("part"),
             "Boards as a table (CSV)": lambda: self._save_table("board")}  # fmt: skip
        return Printouts(self, writers)

    def shown(self):
        """All that stands on the page."""
        boxes = {name: text for name, text in self.texts.items() if not name.endswith(".rows")}
        rows = {
            f"{kind}.{number}.row": {"style": ROW if number <= self.texts[f"{kind}.rows"] else HIDDEN}
            for kind, (_, most) in EACH.items() for number in range(1, most + 1)
        }
        notes = {
            f"{kind}.{number}.note": looks.wrong(said) if (said := self.wrong.get(f"{kind}.{number}")) else ""
            for kind, (_, most) in EACH.items() for number in range(1, most + 1)
        }  # fmt: skip
        problem = "" if self.problem is None else looks.wrong(self._why())
        return boxes | rows | notes | self.units_shown() | self._at_work() | self.mine.shown() | {
            "problem": problem, "picture": looks.picture(self.drawing), "told": self._told(),
        } | {f"{kind}.path": self.texts.get(f"{kind}.path", "") for kind in EACH}

    def _why(self):
        """Why there is no plan for what is written, and what is shown instead."""
        shown = "The drawing shows the last plan that could be made." if self.plans() else "The last sizes are below."
        return f"No plan: {_tell(self.problem, self.unit)} {shown}"

    def _at_work(self):
        """The bar and the sentence that tell how far the work is."""
        busy = self.worker is not None
        bar = (
            f"<progress max='1' value='{self.share:.2f}' aria-label='Share of the time used' "
            "style='width:240px;height:18px;vertical-align:middle'></progress> " if busy else ""
        )
        return {"work": looks.paragraph(f"<span role='status'>{bar}{escape(self.said)}</span>") if self.said else ""}

    def _told(self):
        return self._plan_told() if self.plans() else self._sizes_told()

    def _sizes_told(self):
        """In place of the plan: why there is none, and what is known without it."""
        lot, unit = self.plan, self.unit
        sizes, rack = lot.sizes(unit), lot.buy(self.moisture, unit)
        said = f"<div style='{INSTEAD}'>{looks.paragraph(escape(lot.verdict(unit)), 17)}</div>"
        return said + looks.table(sizes.head, sizes.rows) + looks.table(["Rack and parts", ""], rack.rows[1:])

    def _plan_told(self):
        plan = self.plan
        said = looks.paragraph(("⚠ " if plan.missing else "") + escape(plan.verdict(self.unit)), 17)
        bought = looks.table(["To buy", ""], plan.buy(self.moisture, self.unit).rows)
        return said + bought + "".join(map(self._board_told, range(1, len(plan.boards) + 1)))

    def _board_told(self, number):
        name = escape(self.plan.boards[number - 1].board.name)
        cuts, pieces = (getattr(self.plan, what)(number, self.unit) for what in ("cuts_of", "pieces_of"))
        return (
            f"<details style='font-size:16px;margin:4px 0'><summary>Board {number}, {name}: cuts and pieces</summary>"
            f"{looks.table(cuts.head, cuts.rows)}{looks.table(pieces.head, pieces.rows)}</details>"
        )

    # What a person does --------------------------------------------------------------------------------------

    def take(self, name, value):
        """Do what a person asked for on the page: `name` says with what, `value` what stands there now."""
        kind, _, what = name.partition(".")
        self.mine.look()
        if name == "sizes":
            self.mine.take(value)
        elif name == "unit":
            self.unit = UNITS[value]
            self._draw()
        elif name == "plan":
            self.begin()
        elif name == "stop":
            self.stopped.set()
        elif name == "back":
            self.texts = dict(self.start)
            self.mine.leave()
            self.begin()
        elif what in ("add", "load"):
            {"add": self._add, "load": self._load}[what](kind)
        elif what == "file":
            self._chosen(kind, value)
        elif what.endswith(".away"):
            self._away(kind, int(what.partition(".")[0]))
        elif name in self.texts or what == "path":
            self.texts[name] = str(value)
            self._check()
        self.live.put(self.shown())

    def _check(self):
        """Say beside each row what is wrong with it; a plan stays until it is made anew, rough sizes follow at once."""
        self.printouts.forget()
        try:
            given = self._read()
            if self.plans():
                self.problem, self.said = None, "Changed: press Plan."
            else:
                self._accept(self._planned(*given))
        except WRONG as error:
            self.problem = error

    def _add(self, kind):
        _, most = EACH[kind]
        if self.texts[f"{kind}.rows"] < most:
            self.texts[f"{kind}.rows"] += 1
        else:
            self.said = f"There is room for {most} {kind}s on the bench."

    def _away(self, kind, number):
        """Take one row away; those below it move up."""
        columns, _ = EACH[kind]
        last = self.texts[f"{kind}.rows"]
        if not 0 < number <= last:
            return
        for row in range(number, last):
            self.texts |= {f"{kind}.{row}.{column}": self.texts[f"{kind}.{row + 1}.{column}"] for column in columns}
        self.texts |= {f"{kind}.{last}.{column}": "" for column in columns}
        self.texts[f"{kind}.rows"] = max(last - 1, 1)
        self._check()

    def _load(self, kind):
        """Fill a table from a file beside the notebook; where it cannot be read the table stays as it is."""
        try:
            self.read_table(kind, self.texts.get(f"{kind}.path", "").strip())
        except MeasureError as error:
            self.problem = error

    def _chosen(self, kind, file):
        """Fill a table from a file that a person chose on the page; where it cannot be read the table stays."""
        name, text = str(file["name"])[:60], file["text"]
        try:
            if not isinstance(text, str):
                raise MeasureError(f"{name} cannot be read: it is not a text file, or too long for a table.")
            self._fill(kind, {"part": files.parts_in, "board": files.boards_in}[kind](text, name))
        except MeasureError as error:
            self.problem = error

    def read_table(self, kind, path):
        """Fill the table of parts ("part") or boards ("board") from a file."""
        if not path:
            raise MeasureError("Write the name of a file beside this page first, such as boards.csv.")
        self._fill(kind, {"part": files.read_parts, "board": files.read_boards}[kind](path))

    def _parts_now(self):
        """The texts of the table of parts."""
        return {name: text for name, text in self.texts.items() if name.startswith("part.") and name != "part.path"}

    def _parts_again(self):
        """The parts that the bench started with."""
        self.texts |= {name: text for name, text in self.start.items() if name.startswith("part.")}
        self._check()

    def _fill(self, kind, found):
        texts = {"part": files.part_texts, "board": files.board_texts}[kind]
        self._table(kind, [texts(each, self.unit) for each in found], self.texts)
        self._check()

    def show_failure(self, error):
        """Say that the bench itself failed: never a traceback, never silence."""
        text = f"The bench could not work this out ({type(error).__name__}). {self.failed}"
        self.live.put({"problem": looks.wrong(text)})
        self.live.answer()

    # From a cell ---------------------------------------------------------------------------------------------

    def save_plan(self, paper="A4", folder=None, part="", date=None):
        """Write the plan as it was made last; returns its path."""
        from shoplib.paper import save_saw_plan

        return save_saw_plan(self.plan, self.unit, paper, folder, part, date)

    def _save_table(self, kind):
        from shoplib.paper.files import Printout, named

        parts, boards = self._read()
        path = named([f"{kind}s.csv"])
        path.parent.mkdir(parents=True, exist_ok=True)
        writes, rows = {"part": (files.write_parts, parts), "board": (files.write_boards, boards)}[kind]
        return Printout(writes(rows, path, self.unit))

    def line(self):
        """The plan in one line, or why there is none."""
        if self.problem is not None:
            return f"SawBench: no plan. {_tell(self.problem, self.unit)}"
        if not self.plans():
            return f"SawBench: no plan. {self.plan.verdict(self.unit)}"
        boards = ", ".join(f"{each.board.name} {len(each.layout.places)} pieces" for each in self.plan.boards)
        return f"SawBench: {len(self.plan.pieces)} pieces from {boards}. {self.plan.verdict(self.unit)}"

    def walk(self, **impossible):
        """Leave out each board in turn, then write what each keyword holds as the first part's length; show, folded,
        what is said."""
        with self.lock:
            rows = [number for number, _ in self._rows("board")]
            said = [f"without board {n}: {self._tried({f'board.{n}.{column}': '' for column in files.BOARD_COLUMNS})}"
                    for n in rows]  # fmt: skip
            said += [f"{words.replace('_', ' ')}: {self._tried({'part.1.length': text})}"
                     for words, text in impossible.items()]  # fmt: skip
        show_folded("Each board left out in turn", said)

    def _tried(self, texts):
        """What the bench says with other texts in some boxes."""
        former = self.texts, self.plan, self.problem, self.drawing, self.wrong
        try:
            self.texts = self.texts | texts
            self._accept(self._planned(*self._read()))
            return self.line()
        except WRONG as error:
            return f"SawBench: no plan. {_tell(error, self.unit)}"
        finally:
            self.texts, self.plan, self.problem, self.drawing, self.wrong = former

    def still(self):
        """The drawing for pages without a kernel, and the plate that says what is on it."""
        plate = draw_boards(self.plan, self.unit)
        return write(plate, "still"), plate

    def _repr_mimebundle_(self, include=None, exclude=None):
        bundle = super()._repr_mimebundle_(include, exclude)
        shown = still_picture(*self.still(), self.asleep) if self.plans() else looks.paragraph(escape(self.line()))
        return bundle | {"text/html": shown}

    def sheet(self):
        from shoplib.drawing.sheet import Sheet

        return Sheet("Boards and their cuts")


def _table_html(kind):
    """One table of boxes, with buttons for its rows and its file."""
    columns, most = EACH[kind]
    head = "".join(
        f"<b style='flex:0 0 {WIDTHS.get(name, SIZE)}px;font-size:14px'>{escape(name)}</b>" for name in columns
    )
    rows = "".join(
        looks.place(f"{kind}.{number}.row", style=HIDDEN).replace("></div>", f">{_boxes(kind, number)}</div>")
        + looks.place(f"{kind}.{number}.note") for number in range(1, most + 1)
    )
    bar = looks.buttons(
        looks.button(f"{kind}.add", "", "Add a row", f"One more row for a {kind}"),
        looks.opener(f"{kind}.file", "Fill from a file …", f"Choose a CSV file: all {kind}s come from it"),
        "<span style='font-size:15px'>or</span>",
        looks.field(f"{kind}.path", f"File with {kind}s, beside this page", f"{kind}s.csv", 150),
        looks.button(f"{kind}.load", "", "Fill from this path", f"All {kind}s come from the file of this name"),
    )
    return (
        f"<div style='margin:8px 0'><b style='font-size:17px'>{kind.capitalize()}s</b><div>"
        f"<div style='{ROW}'><span style='flex:0 0 62px'></span><span style='{BOXES}'>{head}</span></div>"
        f"{rows}</div>{bar}</div>"
    )


def _boxes(kind, number):
    columns, _ = EACH[kind]
    away = looks.button(f"{kind}.{number}.away", "", "✕", f"Take {kind} {number} away")
    boxes = "".join(
        looks.field(f"{kind}.{number}.{name}", f"{kind.capitalize()} {number}, {name}", "", WIDTHS.get(name, SIZE))
        for name in columns
    )
    head = f"<b style='flex:0 0 22px;font-size:15px'>{number}</b><span style='flex:0 0 36px'>{away}</span>"
    return f"{head}<span style='{BOXES}'>{boxes}</span>"


def _tell(error, unit):
    return error.tell(unit) if isinstance(error, ShapeError) else str(error)
