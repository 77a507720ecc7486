"""The bench for a measured rim: type points, see the circle that fits them best and how far each one is off."""

from html import escape

from shoplib.bench import looks
from shoplib.bench.control import WRONG, tell
from shoplib.bench.folded import show_folded
from shoplib.bench.printouts import PAPERS, Printouts
from shoplib.bench.standing import UNITS, Standing
from shoplib.drawing.rims import draw_rim, without, write, write_out
from shoplib.drawing.svg import svg
from shoplib.maths.rims import plain_fit, read_points, trusted, verdict
from shoplib.measure import MeasureError, plain
from shoplib.model import ShapeError, capital, public, write_value

ROWS = 12
WAYS = ("across", "up")
NONE = "No circle from these points."


class RimBench(Standing):
    """Points of a rim on the bench: pairs of lengths, measured across and up from two edges at a right angle.

    They tell of a rim that was found, so no stand can fill them in.

    `bench.circle` is the best circle through them, with Quantities; `bench.set(points)` exchanges all points.

    >>> from shoplib import RimBench
    >>> bench = RimBench([("0 mm", "0 mm"), ("4 mm", "0 mm"), ("0 mm", "3 mm")])
    >>> bench.circle.radius.round(9)
    <Quantity(2.5, 'millimeter')>
    """

    failed = "Go back to the first points."
    asleep = "A still picture: run the notebook to type points."

    def __init__(self, points, unit="mm"):
        self.unit, self.given_unit, self.problem, self.found = unit, unit, None, None
        self.start = self._texts(points)
        self.texts = _in_boxes(self.start)
        self._solve()
        if self.problem is not None:
            raise self.problem
        super().__init__()
        self._keep(self.place.holder)
        self.stand()

    def _keep(self, former):
        """Take over what a person typed on the bench that the same cell made before, where it gives a circle."""
        if isinstance(former, RimBench) and (former.start, former.given_unit) == (self.start, self.given_unit):
            self.unit = former.unit
            if former.problem is None:
                self.texts = dict(former.texts)
            self._solve()

    def _texts(self, points):
        """What stands in the boxes: text as a person typed it, sizes written in the unit of the bench."""
        points = list(points)
        if len(points) > ROWS:
            raise ShapeError(f"The bench has room for {ROWS} points, not {len(points)}: use fit_circle for more.")
        read_points(points)
        return [tuple(each if isinstance(each, str) else self._as_text(each) for each in point) for point in points]

    def _as_text(self, size):
        return write_value(plain("length", size), "length", self.unit, "0.01 mm", "0.001 in")

    # The page -----------------------------------------------------------------------------------------------

    def html(self):
        """The page, empty: the picture and what the rim tells on the left, the points on the right."""
        bar = looks.buttons(
            *looks.options("unit", list(UNITS), "Show sizes in "),
            looks.button("back", "", "First points again", "The points that the bench started with"),
        )
        head = looks.paragraph("<b>Across</b> and <b>up</b> from two edges; empty rows are left out")
        rows = "".join(map(_row, range(1, ROWS + 1)))
        grid = (
            "<div style='display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,270px),1fr));"
            f"gap:4px 24px;align-items:start'>{rows}</div>"
        )
        return looks.page(
            [looks.part(1, looks.pictured(960, 690)), looks.part(3, looks.place("told"))],
            [looks.part(2, bar + head + grid)],
        )

    def shown(self):
        """All that stands on the page."""
        return self._seen() | self.texts | self.units_shown()

    def _seen(self):
        """What follows the points."""
        problem = tell(self.problem, self.unit) if self.problem else ""
        return {
            "picture": looks.picture(self.drawing, problem, NONE),
            "told": "" if problem else self._said(),
        } | {f"note.{number}": looks.wrong(self.wrong[number]) if number in self.wrong else "" for number in _rows()}

    def printed(self):
        return Printouts(self, {f"Bench card {paper}": lambda paper=paper: self.save_card(paper) for paper in PAPERS})

    def sheet(self):
        return draw_rim(self.points, self.found, self.unit, self.good_rows)

    # What a person does -------------------------------------------------------------------------------------

    def take(self, name, value):
        """Do what a person asked for on the page: `name` says with what, `value` what stands there now."""
        if name == "unit":
            self.unit = UNITS[value]
        elif name == "back":
            self.texts = _in_boxes(self.start)
        elif name in self.texts:
            self.texts[name] = value
        self.refresh()

    def refresh(self):
        """Read the boxes, fit, draw and write everything anew."""
        self.printouts.forget()
        self._solve()
        self.live.put(self.shown())

    def _solve(self):
        """Read and fit; where there is no circle, the last one that there was stays on the drawing."""
        try:
            self.rows, points = self._read()
            found = plain_fit(points)
        except WRONG as error:
            self.problem = error
        else:
            self.problem, self.points, self.found, self.good_rows = None, points, found, self.rows
        if self.found is not None:
            self.drawing = svg(self.sheet(), self.prefix)

    def _read(self):
        """The numbers of the rows that are filled, and their points; each row says what is wrong with it."""
        rows, points, self.wrong = [], [], {}
        for number in _rows():
            texts = [self.texts[_box(number, way)].strip() for way in WAYS]
            if any(texts):
                try:
                    points.append(_pair(number, texts))
                    rows.append(number)
                except MeasureError as error:
                    self.wrong[number] = str(error)
        for said in self.wrong.values():
            raise MeasureError(said)
        return rows, points

    # From a cell --------------------------------------------------------------------------------------------

    @property
    def circle(self):
        """The best circle through the points as they stand; raises what keeps it from being found."""
        with self.lock:
            if self.problem is not None:
                raise self.problem
            return public(self.found, "length")

    def set(self, points):
        """Exchange all points, given as pairs of lengths, and redraw once."""
        texts = self._texts(points)

        def change():
            self.texts = _in_boxes(texts)
            self.refresh()

        self.act(change)

    def save_card(self, paper="A4", folder=None, date=None):
        """Write the card of the points as they stand: circle, residuals and verdict; returns its path."""
        from shoplib.paper import save_rim_card

        with self.lock:
            if self.problem is not None:
                raise self.problem
            return save_rim_card(
                self.points, self.found, self.verdict(), self.unit, paper, folder, self.rows, date
            )

    def results(self):
        """What the rim tells, as rows of words and size: where a point looks wrong, of the circle without it first."""
        found = trusted(self.points, self.found)
        x, y = found.centre
        worst = max(range(len(self.rows)), key=lambda place: abs(found.residuals[place]))
        rows = [
            ("centre across", write(x, self.unit)),
            ("centre up", write(y, self.unit)),
            ("diameter", write(2 * found.radius, self.unit)),
            ("radius", write(found.radius, self.unit)),
            (f"furthest off the circle, point {self.rows[worst]}", write_out(found.residuals[worst], self.unit)),
        ]
        if found.suspect:
            wrong = self.rows[found.suspect - 1]
            rows.append((f"diameter with point {wrong} too", write(2 * self.found.radius, self.unit)))
        return rows

    def verdict(self):
        """Which point looks wrong, or whether anyone could tell: a sentence that shows itself."""
        return verdict(self.points, self.found, self.rows, self.unit)

    def _said(self):
        head = f"{without(self.found, self.rows)}found"
        return looks.table(["What", capital(head)], self.results()) + looks.paragraph(
            ("⚠ " if self.verdict().warns else "") + escape(self.verdict()), 16
        )

    def line(self):
        """Points and results in one line with units, or why there are none."""
        if self.problem is not None:
            return f"RimBench: no circle. {tell(self.problem, self.unit)}"
        found = ", ".join(f"{words} {size}" for words, size in self.results())
        said = without(self.found, self.rows)
        return f"RimBench: {len(self.points)} points -> {said[:1].lower()}{said[1:]}{found}. {self.verdict()}"

    def walk(self, **impossible):
        """Leave out each point in turn, then type what each keyword holds for point 1 across; show, folded, what
        is said."""
        with self.lock:
            said = [
                f"without point {number}: {self._tried({_box(number, way): '' for way in WAYS})}"
                for number, _ in enumerate(self.start, 1)
            ] + [
                f"{words.replace('_', ' ')}: {self._tried({_box(1, 'across'): text})}"
                for words, text in impossible.items()
            ]  # fmt: skip
            self._solve()
        show_folded("Each point left out in turn", said)

    def _tried(self, texts):
        """What the bench says with other texts in some boxes."""
        former = self.texts
        try:
            self.texts = former | texts
            self._solve()
            return self.line()
        finally:
            self.texts = former


def _rows():
    return range(1, ROWS + 1)


def _box(number, way):
    return f"{way}.{number}"


def _in_boxes(points):
    """The points' texts by the name of their boxes; the other boxes are empty."""
    boxes = {_box(number, way): "" for number in _rows() for way in WAYS}
    for number, point in enumerate(points, 1):
        boxes |= {_box(number, way): text for way, text in zip(WAYS, point)}
    return boxes


def _row(number):
    """One point: its number, two boxes, and a place for what is wrong with it."""
    boxes = "".join(looks.field(_box(number, way), f"Point {number}, {way}", way) for way in WAYS)
    return (
        f"<div><div style='display:flex;align-items:center;gap:8px'><b style='flex:0 0 26px;font-size:16px'>{number}"
        f"</b>{boxes}</div>{looks.place(f'note.{number}')}</div>"
    )


def _pair(number, texts):
    """One row's two texts as a point in mm."""
    for way, text in zip(WAYS, texts):
        if not text:
            raise MeasureError(f"Point {number}: the size {way} is missing. Write it, or empty the whole row.")
    (point,) = read_points([texts], first=number)
    return point
