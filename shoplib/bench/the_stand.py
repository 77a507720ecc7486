"""The bench of the whole stand: its sizes in groups that fold, what the one under the hand moves, all its cautions."""

from html import escape

from shoplib.bench import looks
from shoplib.bench.bench import BACK, Bench
from shoplib.bench.control import tell
from shoplib.bench.my_file import row_html
from shoplib.bench.standing import UNITS
from shoplib.maths.the_stand.refused import refusals
from shoplib.model import answer, known

SHOWN = (
    "tray_clear", "way_in_spare", "bar_room", "overall_height", "rail_length", "shortened_leg", "cg_height",
    "loaded_height", "weight", "loaded_weight",
)
# A group with too many sizes for one view goes on under another heading from these sizes on.
GOES_ON = {"template_thickness": "Trimming", "patch_edge": "Patches"}
MOVES, STAYS = "■", "□"


class StandBench(Bench):
    """The whole stand on the bench: one group of sizes open at a time, and beside it what each size moves.

    `bench.touched` is the size that was under the hand last; `bench.moves()` tells the operations that hang on it.

    >>> from shoplib import StandBench, seedling_stand
    >>> bench = StandBench(seedling_stand())
    >>> bench.set(paper_thickness="0.15 mm")
    >>> [title for title, lesson, moves in bench.moves() if moves]
    ['Mark two legs, second rail to the right', 'Mark two legs, second rail to the left']
    """

    def __init__(self, stand, show=SHOWN, unit="mm"):
        self.given = stand
        self.folds = _folds(type(stand).inputs())
        self.opened, self.touched = next(iter(self.folds)), "tray_diameter"
        self._hanging = {}
        super().__init__(stand, show, unit)

    def _keep(self, former):
        super()._keep(former)
        if isinstance(former, StandBench) and former.given == self.given:
            self.opened, self.touched = former.opened, former.touched

    # The page -----------------------------------------------------------------------------------------------

    def html(self):
        """The page, empty: picture and settings on the left; inputs, what they move and cautions on the right."""
        back = looks.button("back", "", BACK, "The sizes that the bench started with")
        bar = looks.buttons(*looks.options("unit", list(UNITS), "Show sizes in "), back, row_html())
        bar += looks.place("mine.told")
        note = looks.place("note", style=f"{looks.QUIET}font-size:14px")
        left = (
            looks.part(1, looks.pictured(960, 690)), looks.part(4, self.settings.html()),
            looks.part(7, looks.place("plan")),
        )
        right = (
            looks.part(2, bar + self._folds_html() + note),
            looks.part(3, looks.place("moves")),
            looks.part(5, looks.place("cautions")),
        )
        return looks.page(left, right, looks.part(8, self.explain.html()))

    def _folds_html(self):
        """A button for each group, and below them its inputs, of which one group is open."""
        buttons = looks.buttons(*(
            looks.button("fold", name, name, f"Open the sizes of: {name}", f"fold.{name}") for name in self.folds
        ))  # fmt: skip
        panes = (
            looks.place(f"sizes.{name}").replace("></div>", f">{self._sizes_html(name)}</div>") for name in self.folds
        )
        return f"<div style='margin:6px 0'>{buttons}</div>{''.join(panes)}"

    def _sizes_html(self, name):
        return looks.inputs([(name, [self.controls[each].html() for each in self.folds[name]])])

    def shown(self):
        return super().shown() | self._folds_shown()

    def _folds_shown(self):
        """Which group is open: by its mark, and by what is hidden."""
        found = {}
        for name in self.folds:
            found[f"fold.{name}"] = "▾ " if name == self.opened else "▸ "
            found[f"sizes.{name}"] = {"hidden": name != self.opened}
        return found

    def _seen(self):
        return super()._seen() | {"moves": self._moves_html()} | ({"cautions": self._refused()} if self.problem else {})

    def _refused(self):
        """All that refuses these sizes, each with its lesson; the first stands over the picture."""
        others = [each.tell(self.unit) for each in refusals(self.cls, self.values)][1:]
        if not others:
            return ""
        return looks.paragraph("<b>Refused too:</b>" + "".join(f"<div>✗ {escape(each)}</div>" for each in others))

    # What moves what ----------------------------------------------------------------------------------------

    def moves(self):
        """The operations in the order of work: title, lesson, and whether it hangs on the size touched last."""
        return tuple((title, lesson, self.touched in sizes) for title, lesson, sizes in self._operations())

    def _operations(self):
        """Each operation's title, lesson and sizes; what hangs on what changes only with the kind of stand."""
        inputs = self.cls.inputs()
        values = self.plain.__dict__
        kind = tuple(values.get(name) for name, item in inputs.items() if item.kind in ("choice", "count", "flag"))
        if kind not in self._hanging:
            found = [(each.title, each.lesson[:2], frozenset(each.sizes)) for each in self._stand().operations()]
            self._hanging = {kind: found}
        return self._hanging[kind]

    def _stand(self):
        """The last stand that could be made."""
        return self._base().of_plain({name: self.plain.__dict__.get(name) for name in self.cls.inputs()})

    def _base(self):
        """The stand whose measured sizes count here: the one in the file where it is chosen, or the one given."""
        return self.mine.stand if self.mine.is_on else self.given

    def _moves_html(self):
        words = self.cls.inputs()[self.touched].words
        rows = self.moves()
        count = sum(moves for *_, moves in rows)
        return looks.marked(
            f"What moves with: {words}",
            f"{count} of {len(rows)} operations, in the order of work, each with its lesson",
            [(MOVES if moves else STAYS, title, lesson, moves) for title, lesson, moves in rows],
            f"{MOVES} moves   {STAYS} stays",
        )

    # What a person does -------------------------------------------------------------------------------------

    def take(self, name, value):
        if name == "fold":
            known(value, self.folds, "group")
            self.opened = value
            self.live.put(self._folds_shown())
        else:
            super().take(name, value)

    def _set_by_hand(self, name, value):
        self.touched = name
        super()._set_by_hand(name, value)

    def set(self, **sizes):
        """Change several sizes at once and redraw once; the last of them counts as touched."""
        for name, value in sizes.items():
            known(name, self.cls.inputs(), "input")
            self.cls.inputs()[name].read(value)
        self.touched = next(reversed(sizes), self.touched)
        super().set(**sizes)

    # From a cell --------------------------------------------------------------------------------------------

    @property
    def model(self):
        """The stand as it stands on the bench, with what was made; raises ShapeError where it cannot be made."""
        with self.lock:
            return self._base().of_plain(self.values)

    def line(self):
        """The sizes that are shown, what moves with the one touched last, or why there is no stand."""
        if self.problem is not None:
            return f"StandBench: cannot be made. {tell(self.problem, self.unit)}"
        rows = self.moves()
        moved = [title for title, _, moves in rows if moves]
        return (
            f"StandBench: {self.settings.in_one_line()}. With the {self.cls.inputs()[self.touched].words} move "
            f"{len(moved)} of {len(rows)} operations"
        )

    def walk(self, **impossible):
        """As on every bench; of the results only those are told that move, and the size touched before stays so."""
        self.at_start = self._answers()
        super().walk(**impossible)

    def _tried(self, name, value):
        """What the bench says with one input changed."""
        former, item = self.values[name], self.cls.inputs()[name]
        try:
            self.values[name] = value
            self._solve()
            found = f"cannot be made. {tell(self.problem, self.unit)}" if self.problem else self._told_moved()
            return f"{item.words} {item.write(value, self.unit)}: {found}"
        finally:
            self.values[name] = former

    def _answers(self):
        """The results that are shown, as they are written."""
        return {item.words: answer(self.plain, item.name, self.unit)[0] for item in self.settings.items}

    def _told_moved(self):
        moved = [f"{words} {text}" for words, text in self._answers().items() if text != self.at_start[words]]
        return ", ".join(moved) or "nothing that is shown here moves"


def _folds(inputs):
    """The inputs' names under the headings of their groups; a long group goes on under another heading."""
    found, group, heading = {}, None, None
    for name, item in inputs.items():
        if item.group != group:
            group = heading = item.group
        heading = GOES_ON.get(name, heading)
        found.setdefault(heading, []).append(name)
    return found
