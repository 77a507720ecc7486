"""The bench: one model live on a page, with its sliders, drawing, settings, cautions and printouts."""

from html import escape

from shoplib.bench import looks
from shoplib.bench.control import WRONG, Offered, control, tell
from shoplib.bench.explain import Explain
from shoplib.bench.folded import show_folded
from shoplib.bench.my_file import row_html
from shoplib.bench.my_stand import MyStand
from shoplib.bench.places import running
from shoplib.bench.printouts import Printouts
from shoplib.bench.settings import Settings
from shoplib.bench.standing import UNITS, Standing
from shoplib.bench.twins import start_in
from shoplib.drawing import draw
from shoplib.drawing.svg import svg
from shoplib.model import ShapeError, answer, headed, known, public, summary

STALE = "The cells below still tell of the sizes at the last run. <b>Run ▸ Run All Cells</b> brings them to these."
KEPT = "Run again: your sizes stay, and the cells below tell of them. <b>Back to the start</b> returns to the lesson's."
REFUSED = "Run again with the lesson's sizes: with yours the cells below could not be worked."  # and why


class Bench(Standing):
    """A model on the bench, starting from the sizes it is given.

    Give `show` to choose which results stand in the table. Inside, all sizes are floats in mm
    and rad; `bench.model` is the model as it stands now, `bench.set(...)` changes several inputs
    and redraws once. A cell that runs again keeps what a person set on the page, unless its model
    starts from other sizes now.

    >>> from shoplib import Bench, CircleJig
    >>> bench = Bench(CircleJig("440 mm", "12 mm", ring_width="20 mm"))
    >>> bench.set(diameter="17 3/8 in")
    >>> bench.model.outer_pivot
    <Quantity(226.6625, 'millimeter')>
    """

    def __init__(self, model, show=None, unit="mm"):
        super().__init__()
        self.cls, self.unit, self.given_unit = type(model), unit, unit
        self.start, self.values, self.by_hand, self.refused = dict(model.values), dict(model.values), {}, ""
        self.suited = False  # whether the unit was chosen on the page, so that start sizes may suit it
        self.plain, self.problem, self.found, self.drawn_in = model.plain, None, (), None
        self.controls = {name: control(item) for name, item in self.cls.inputs().items()}
        self.offered = Offered(self.cls.OFFER) if self.cls.OFFER else None
        self.settings, self.explain = Settings(self.cls, show, self), Explain(self.cls, self)
        self.mine = MyStand(self)
        self._keep(self.place.holder)
        self.at_run, self.is_in_cell = dict(self.values), running()[0] is not None
        self._solve()
        self.stand()

    def _keep(self, former):
        """Take over what a person set on the bench that the same cell made before."""
        if not isinstance(former, Bench) or (former.cls, former.start) != (self.cls, self.start):
            return
        if former.given_unit == self.given_unit:
            self.unit, self.suited = former.unit, former.suited
        self.settings.keep(former.settings)
        self.explain.keep(former.explain)
        self.mine.keep(former.mine)
        values = self.started_from() | former.by_hand
        self.refused = self._what_hinders(values)
        if self.refused:
            self.mine.leave()
        else:
            self.values, self.by_hand = values, dict(former.by_hand)

    def _what_hinders(self, values):
        """Why these sizes cannot be made, or which result that the start has cannot be told of them; else nothing."""
        try:
            plain = self.cls.solved(values)
        except ShapeError as error:
            return error.tell(self.unit)
        for name, item in self.cls.results().items():
            why = answer(plain, name, self.unit)[1]
            if why and not answer(self.plain, name)[1]:
                return f"{headed(item.words)} {why}"
        return ""

    # The page -----------------------------------------------------------------------------------------------

    def html(self):
        """The page, empty: picture and settings on the left, inputs, cautions and plans on the right."""
        back = looks.button("back", "", BACK, "The sizes that the bench started with")
        bar = looks.buttons(*looks.options("unit", list(UNITS), "Show sizes in "), back, row_html())
        bar += looks.place("mine.told")
        groups = {item.group: [] for item in self.cls.inputs().values()}
        if self.offered:
            groups[self.cls.OFFER.group].append(self.offered.html())
        for each in self.controls.values():
            groups[each.item.group].append(each.html())
        left = looks.part(1, looks.pictured(960, 690)), looks.part(4, self.settings.html())
        note = looks.place("note", style=f"{looks.QUIET}font-size:14px")
        right = (
            looks.part(2, bar + looks.inputs(groups.items()) + note),
            looks.part(3, looks.place("cautions")),
            looks.part(5, looks.place("plan")),
        )
        return looks.page(left, right, looks.part(6, self.explain.html()))

    def shown(self):
        """All that stands on the page."""
        found = self._seen() | self.units_shown()
        for name in self.controls:
            found |= self._input(name)
        return found | self.mine.shown()

    def _input(self, name):
        """What stands in the places of one input."""
        return self.controls[name].shown(self.values[name], self.unit) | self.mine.note(name)

    def _seen(self):
        """What follows the sizes: all but the inputs themselves."""
        problem = self.problem.tell(self.unit) if self.problem else ""
        offered = self.offered.shown(self.values) if self.offered else {}
        return offered | {
            "picture": looks.picture(self.drawing, problem),
            "cautions": "" if problem else looks.cautions(self.found, self.unit),
            "note": self._note(),
        } | self.settings.shown() | self.explain.shown()

    def _note(self):
        """How the sizes here and the cells below hang together."""
        if not self.is_in_cell:
            return ""
        if self.values != self.at_run:
            return STALE
        return KEPT if self.by_hand else f"{REFUSED} {escape(self.refused)}" if self.refused else ""

    def printed(self):
        return Printouts(self)

    def sheet(self):
        return draw(self.plain, self.unit)

    # What a person does -------------------------------------------------------------------------------------

    def take(self, name, value):
        """Do what a person asked for: `name` says with what (`slide.diameter`), `value` what stands there now."""
        what, _, which = name.partition(".")
        self.mine.look()
        if not self.mine.take(name, value):
            self._do(what, which, name, value)
        self.live.put(self.mine.shown())

    def _do(self, what, which, name, value):
        {
            "slide": lambda: self._set_by_hand(which, self.controls[which].slid(value, self.unit)),
            "box": lambda: self._type(which, value),
            "choose": lambda: self._set_by_hand(which, self.controls[which].chosen(value)),
            "offer": lambda: self._fill(value),
            "unit": lambda: self._choose_unit(UNITS[value]),
            "back": self.start_again,
            "use": lambda: self._use(value),
            "measured": lambda: self._explain(self.settings, which, value),
        }.get(what, lambda: self._explain(self.explain, name, value))()

    def _set_by_hand(self, name, value):
        self.values[name] = self.by_hand[name] = value
        self.live.put(self._input(name))
        self.refresh()

    def _fill(self, offer):
        """Set all that is sold together at once, and redraw once."""
        for name, value in self.offered.filled(offer).items():
            self.values[name] = self.by_hand[name] = value
            self.live.put(self._input(name))
        self.refresh()

    def _type(self, name, text):
        each = self.controls[name]
        self.live.put({each.box: text})
        try:
            value = each.typed(text)
        except WRONG as error:
            self.live.put({each.note: looks.wrong(tell(error, self.unit))})
        else:
            self._set_by_hand(name, value)

    def _use(self, number):
        found = self.explain.use(number)
        if found:
            self._set_by_hand(*found)

    def _explain(self, part, name, value):
        part.take(name, value)
        self.live.put(part.shown())

    def started_from(self):
        """The sizes to start from: my stand's, those given, or those that suit the unit that was chosen on the page."""
        suited = start_in(self.cls, self.start, self.unit, self.given_unit) if self.suited else dict(self.start)
        return self.mine.start(suited)

    def follow(self, was, now, kept=()):
        """My stand's sizes have changed: what stands here as it was, or is kept there, changes with them."""
        for name, value in now.items():
            if name in kept or self.values[name] == was.get(name):
                self.values[name] = value
                self.by_hand.pop(name, None)
        self.refresh()
        self.live.put(self.shown())

    def _choose_unit(self, unit):
        """Another unit, chosen on the page: a bench that nobody has touched yet takes start sizes that suit it."""
        untouched = self.values == self.started_from()
        self.unit, self.suited = unit, True
        if untouched:
            self.values = self.started_from()
        self._switch(unit)

    def _switch(self, unit):
        self.unit = unit
        self.refresh()
        self.live.put(self.shown())

    def start_again(self):
        """All inputs as they were at the start."""
        self.values, self.by_hand, self.refused = self.started_from(), {}, ""
        self.refresh()
        self.live.put(self.shown())

    def refresh(self):
        """Solve, draw and write everything that follows the sizes."""
        self.printouts.forget()
        self._solve()
        self.live.put(self._seen())

    def _solve(self):
        """Solve and draw; where these sizes cannot be made, the last ones that could stay on the drawing."""
        try:
            plain = self.cls.solved(self.values)
            drawing, found = svg(draw(plain, self.unit), self.prefix), tuple(plain.worries())
        except ShapeError as error:
            self.problem = error
            if self.drawn_in != self.unit:
                self.drawing, self.drawn_in = svg(self.sheet(), self.prefix), self.unit
        else:
            self.plain, self.problem, self.found = plain, None, found
            self.drawing, self.drawn_in = drawing, self.unit

    # From a cell --------------------------------------------------------------------------------------------

    @property
    def model(self):
        """The model as it stands on the bench; raises ShapeError where it cannot be made."""
        with self.lock:
            return self.cls(**{name: _quantity(self.cls.inputs()[name], value) for name, value in self.values.items()})

    def set(self, **sizes):
        """Change several inputs at once, given as the model takes them, and redraw once."""
        inputs = self.cls.inputs()
        for name in sizes:
            known(name, inputs, "input")
        read = {name: inputs[name].read(value) for name, value in sizes.items()}

        def change():
            self.values.update(read)
            self.at_run.update(read)
            self.by_hand = {name: value for name, value in self.by_hand.items() if name not in read}
            for name in read:
                self.live.put(self._input(name))
            self.refresh()

        self.act(change)

    def switch(self, unit):
        """Show all sizes in "mm" or in "in"; none of them changes."""
        self.act(lambda: self._switch(unit))

    def line(self):
        """Inputs and results in one line with units, or why there are none."""
        if self.problem is not None:
            return f"{self.cls.__name__}: cannot be made. {self.problem.tell(self.unit)}"
        return summary(self.cls, self.plain, self.unit)

    def walk(self, **impossible):
        """Move each slider to both ends and back, then try what cannot be made; show, folded, what the bench says."""
        inputs = self.cls.inputs()
        tried = [
            (name, each.slid(position, self.unit))
            for name, each in self.controls.items() if hasattr(each, "ends") for position in each.ends(self.unit)
        ] + [(name, inputs[name].read(size)) for name, size in impossible.items()]  # fmt: skip
        with self.lock:
            said = [self._tried(name, value) for name, value in tried]
            self._solve()
        show_folded(f"{self.cls.__name__}: every slider at both ends", said)

    def _tried(self, name, value):
        """What the bench says with one input changed."""
        former, item = self.values[name], self.cls.inputs()[name]
        try:
            self.values[name] = value
            self._solve()
            found = "cannot be made. " + self.problem.tell(self.unit) if self.problem else self.settings.in_one_line()
            return f"{item.words} {item.write(value, self.unit)}: {found}"
        finally:
            self.values[name] = former


BACK = "Back to the start"


def _quantity(item, value):
    return value if value is None else public(value, item.kind)
