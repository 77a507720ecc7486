"""The bench for a measured rim: type points, see the circle that fits them best and how far each one is off."""

import itertools
import threading
from html import escape

import ipywidgets as widgets

from shoplib.bench import looks
from shoplib.bench.bench import close_the_one_before, still_picture
from shoplib.bench.control import Options
from shoplib.bench.folded import show_folded
from shoplib.bench.guard import guarded
from shoplib.bench.printouts import PAPERS, Printouts
from shoplib.drawing.rims import draw_rim, write, write_out
from shoplib.drawing.svg import svg
from shoplib.maths.rims import plain_fit, read_points, verdict
from shoplib.measure import MeasureError, plain
from shoplib.model import ShapeError, public, write_value

ROWS = 12
NARROW = widgets.Layout(
    flex="1 1 90px",
    width="auto",
    min_width="84px",
    height="40px",
    margin="2px 3px",
    flex_flow="column",
    align_items="stretch",
)
NUMBER = widgets.Layout(flex="0 0 26px", width="26px")
ROW = widgets.Layout(width="100%", align_items="center", overflow="visible")

_numbers = itertools.count(1)


class RimBench:
    """Points of a rim on the bench: pairs of lengths, measured across and up from two edges at a right angle.

    `bench.circle` is the best circle through them, with Quantities; `bench.set(points)` exchanges all points.

    >>> from shoplib import RimBench
    >>> bench = RimBench([("0 mm", "0 mm"), ("4 mm", "0 mm"), ("0 mm", "3 mm")])
    >>> bench.circle.radius.round(9)
    <Quantity(2.5, 'millimeter')>
    """

    def __init__(self, points, unit="mm"):
        self.unit, self.lock = unit, threading.RLock()
        self.problem, self.found, self.drawing = None, None, ""
        self.prefix = f"rim{next(_numbers)}"
        self.start = self._texts(points)
        self.boxes = [[self._box(number, way) for way in ("across", "up")] for number in range(1, ROWS + 1)]
        self.notes = [widgets.HTML(layout=looks.COLUMN) for _ in self.boxes]
        self.picture = widgets.HTML(layout=looks.PICTURE)
        self.told = widgets.HTML(layout=looks.COLUMN)
        cards = {f"Bench card {paper}": lambda paper=paper: self.save_card(paper) for paper in PAPERS}
        self.printouts = Printouts(self, cards)
        self.widget = self._build()
        close_the_one_before(self)
        self._write(self.start)
        self.refresh()
        if self.problem is not None:
            raise self.problem

    def _texts(self, points):
        """What stands in the boxes: text as a person typed it, sizes written in the unit of the bench."""
        points = list(points)
        if len(points) > ROWS:
            raise ShapeError(f"The bench has room for {ROWS} points, not {len(points)}: use fit_circle for more.")
        read_points(points)
        return [tuple(each if isinstance(each, str) else self._as_text(each) for each in point) for point in points]

    def _as_text(self, size):
        return write_value(plain("length", size), "length", self.unit, "0.01 mm", "0.001 in")

    def _box(self, number, way):
        box = widgets.Text(continuous_update=False, placeholder=way, layout=NARROW, style=looks.TYPED)
        box.tooltip = f"Point {number}, {way}"
        box.observe(guarded(self, lambda _: self._typed()), "value")
        return box

    def _build(self):
        self.units = Options([("millimetres", "mm"), ("inches", "in")], self.unit)
        self.units.observe(guarded(self, self._switch_units), "value")
        back = widgets.Button(description="First points again", layout=looks.BUTTON)
        back.on_click(guarded(self, lambda _: self.set(self.start)))
        bar = widgets.HBox([*self.units.children, back], layout=looks.row())
        head = widgets.HTML(looks.paragraph("<b>Across</b> and <b>up</b> from two edges; empty rows are left out"))
        grid = [
            widgets.VBox([widgets.HBox([self._label(number), *boxes], layout=ROW), note], layout=looks.COLUMN)
            for number, (boxes, note) in enumerate(zip(self.boxes, self.notes), 1)
        ]
        controls = widgets.VBox([bar, head, *grid], layout=widgets.Layout(flex="1 1 300px", min_width="280px"))
        top = widgets.Box([self.picture, controls], layout=looks.TOP)
        return widgets.VBox([top, self.told, self.printouts.widget], layout=looks.COLUMN)

    @staticmethod
    def _label(number):
        return widgets.HTML(looks.paragraph(f"<b>{number}</b>", 16), layout=NUMBER)

    @property
    def circle(self):
        """The best circle through the points as they stand; raises what keeps it from being found."""
        with self.lock:
            if self.problem is not None:
                raise self.problem
            return public(self.found, "length")

    def save_card(self, paper="A4", folder=None, date=None):
        """Write the card of the points as they stand: circle, residuals and verdict; returns its path."""
        from shoplib.paper import save_rim_card

        with self.lock:
            if self.problem is not None:
                raise self.problem
            return save_rim_card(
                self.points, self.found, self.verdict(), self.unit, paper, folder, self.rows, date
            )

    def set(self, points):
        """Exchange all points, given as pairs of lengths, and redraw once."""
        texts = self._texts(points)
        with self.lock:
            self._write(texts)
            self.refresh()

    def _write(self, texts):
        self.quiet = True
        try:
            for row, boxes in enumerate(self.boxes):
                for way, box in enumerate(boxes):
                    box.value = texts[row][way] if row < len(texts) else ""
        finally:
            self.quiet = False

    def _typed(self):
        if not self.quiet:
            self.refresh()

    def _switch_units(self, change):
        self.unit = change["new"]
        self.refresh()

    def refresh(self):
        """Read the boxes, fit, draw and write everything anew."""
        self.printouts.forget()
        try:
            self.rows, points = self._read()
            found = plain_fit(points)
            drawing = svg(draw_rim(points, found, self.unit, self.rows), self.prefix)
        except (MeasureError, ShapeError) as error:
            self._cannot(error)
            return
        self.problem, self.points, self.found, self.drawing = None, points, found, drawing
        self.picture.value = looks.picture(drawing)
        self.told.value = self._said()

    def _read(self):
        """The numbers of the rows that are filled, and their points; each row says what is wrong with it."""
        rows, points, wrong = [], [], None
        for number, (boxes, note) in enumerate(zip(self.boxes, self.notes), 1):
            texts = [box.value.strip() for box in boxes]
            error = None
            if any(texts):
                try:
                    points.append(_pair(number, texts))
                    rows.append(number)
                except MeasureError as found:
                    error = found
            self._say(note, error)
            wrong = wrong or error
        if wrong is not None:
            raise wrong
        return rows, points

    @staticmethod
    def _say(note, error):
        text = "" if error is None else looks.told(False, str(error))
        if note.value != text:
            note.value = text

    def _cannot(self, error):
        """Say why there is no circle; the last good drawing stays, marked as such."""
        self.problem = error
        self.picture.value = looks.picture(self.drawing, _tell(error, self.unit), "No circle from these points.")
        self.told.value = ""

    def show_failure(self, error):
        """Say that the bench itself failed: never a traceback, never silence."""
        text = f"The bench could not work this out ({type(error).__name__}). Go back to the first points."
        self.picture.value = looks.picture(self.drawing, text, "Something failed.")

    def results(self):
        """What the rim tells, as rows of words and size."""
        (x, y), found = self.found.centre, self.found
        worst = max(range(len(self.rows)), key=lambda place: abs(found.residuals[place]))
        return [
            ("centre across", write(x, self.unit)),
            ("centre up", write(y, self.unit)),
            ("diameter", write(2 * found.radius, self.unit)),
            ("radius", write(found.radius, self.unit)),
            (f"furthest off the circle, point {self.rows[worst]}", write_out(found.residuals[worst], self.unit)),
        ]

    def verdict(self):
        """Which point looks wrong, or whether anyone could tell: a sentence that shows itself."""
        return verdict(self.points, self.found, self.rows, self.unit)

    def _said(self):
        return looks.table(["What", "Found"], self.results()) + looks.paragraph(
            ("⚠ " if self.verdict().warns else "") + escape(self.verdict()), 16
        )

    def line(self):
        """Points and results in one line with units, or why there are none."""
        if self.problem is not None:
            return f"RimBench: no circle. {_tell(self.problem, self.unit)}"
        found = ", ".join(f"{words} {size}" for words, size in self.results())
        return f"RimBench: {len(self.points)} points -> {found}. {self.verdict()}"

    def walk(self, **impossible):
        """Leave out each point in turn, then type what each keyword holds for point 1 across; show, folded, "
        "what is said."""
        said = []
        for row, boxes in enumerate(self.boxes[: len(self.start)]):
            former = [box.value for box in boxes]
            self._write_row(row, ["", ""])
            said.append(f"without point {row + 1}: {self.line()}")
            self._write_row(row, former)
        for words, text in impossible.items():
            former = [box.value for box in self.boxes[0]]
            self.boxes[0][0].value = text
            said.append(f"{words.replace('_', ' ')}: {self.line()}")
            self._write_row(0, former)
        show_folded("Each point left out in turn", said)

    def _write_row(self, row, texts):
        self.quiet = True
        try:
            for box, text in zip(self.boxes[row], texts):
                box.value = text
        finally:
            self.quiet = False
        self.refresh()

    def _repr_mimebundle_(self, include=None, exclude=None):
        sheet = draw_rim(self.points, self.found, self.unit, self.rows)
        live = self.widget._repr_mimebundle_()
        return {
            "text/plain": self.line(),
            "text/html": still_picture(svg(sheet, "still"), sheet, "A still picture: run the notebook to type points."),
            "application/vnd.jupyter.widget-view+json": live["application/vnd.jupyter.widget-view+json"],
        }


def _pair(number, texts):
    """One row's two texts as a point in mm."""
    for way, text in zip(("across", "up"), texts):
        if not text:
            raise MeasureError(f"Point {number}: the size {way} is missing. Write it, or empty the whole row.")
    (point,) = read_points([texts], first=number)
    return point


def _tell(error, unit):
    return error.tell(unit) if isinstance(error, ShapeError) else str(error)
