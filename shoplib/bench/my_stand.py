"""My stand on a bench: its sizes fill the lesson's model, and what is changed or measured here is kept in its file."""

import re
from html import escape

from shoplib.bench import looks
from shoplib.bench.control import WRONG, tell
from shoplib.bench.my_file import HIDDEN, LESSONS, MINE, PATH, ROW, SHOWN, mark_of_file, read_known
from shoplib.measure import plain as read_plain

WITHOUT = ("ChordRise",)  # tells of a curve that was found, not of one that is planned: its bench has no row
MOST_TOLD, SHORT = 4, 26


class MyStand:
    """The row "Sizes" of one bench, and what is told below it."""

    def __init__(self, bench):
        self.bench, self.has_row = bench, bench.cls.__name__ not in WITHOUT
        self.is_on, self.stand, self.filled, self.chosen = False, None, None, None
        self.mark = mark_of_file() if self.has_row else None
        self.wanted, self.said = None, ""

    # What it fills --------------------------------------------------------------------------------------------

    def start(self, lessons):
        """The sizes that the bench starts from: those of the stand where it is chosen, else the lesson's."""
        return dict(self.filled.values) if self.is_on else lessons

    def keep(self, former):
        """Take over what was chosen on the bench that the same cell made before."""
        self.chosen = former.chosen
        if former.is_on and self._load():
            self.is_on = True

    def leave(self):
        """Back to the lesson's sizes."""
        self.is_on = False

    def _load(self):
        """Read the stand and fill the model from it; whether that could be done. Says why where not."""
        try:
            self.stand = read_known(self.mark)
        except (*WRONG, OSError) as error:
            self.said = looks.wrong(tell(error, self.bench.unit))
            return False
        return self._fill()

    def _fill(self):
        from shoplib.bench.filled import Filled, Whole, works

        if self.bench.cls is type(self.stand):
            self.filled = Whole(self.stand)
            return True
        names = [each.name for each in self._works()]
        if not names:
            none = " or ".join(f"“{each.title}”" for each in works(self.bench.cls))
            self.said = looks.wrong(f"My stand, as it is in {PATH}, has no such work: {none}.")
            return False
        self.chosen = self.chosen if self.chosen in names else names[0]
        self.filled = Filled(self.stand, self.chosen)
        return True

    def _works(self):
        """The stand's operations that this bench's model is of."""
        from shoplib.bench.filled import works

        return [each for each in works(self.bench.cls) if each.of(self.stand.plain)]

    # What a person does ---------------------------------------------------------------------------------------

    def look(self):
        """Before anything is done: the file is read again where it has changed, and what has is told."""
        if not self.has_row:
            return
        mark, former = mark_of_file(), self.stand
        self.said = ""
        if mark == self.mark:
            return
        self.mark, self.wanted = mark, None
        if former is None:
            return
        if mark is None:
            self.said = looks.wrong(f"{PATH} is no longer there. These are the sizes that it had.")
            return
        was = self.filled.values if self.filled else {}
        if self._load() and self.is_on:
            self.bench.follow(was, self.filled.values)
        self._tell_changed(former)

    def _tell_changed(self, former):
        from shoplib.paper.stand_file.keys import differing, said, values_of, words_of

        was, now = values_of(former), values_of(self.stand)
        names = differing(was, now)
        told = [f"{words_of(name)} {said(name, now.get(name))}" for name in names[:MOST_TOLD]]
        if told and not self.said:
            more = f", and {len(names) - MOST_TOLD} more" if len(names) > MOST_TOLD else ""
            text = f"{PATH} has changed meanwhile and was read again: {', '.join(told)}{more}."
            self.said = looks.paragraph(f"⟳ {escape(text)}")

    def take(self, name, value):
        """Do what was asked for in the row or below it; whether it was for here at all."""
        act = {
            "sizes": self._choose, "work": self._choose_work, "keep": self._ask, "nominal": self._ask_nominal,
            "keep_it": self._keep, "leave_it": lambda _: None,
        }.get(name)  # fmt: skip
        if name != "keep_it":
            self.wanted = None
        if act:
            act(value)
        return act is not None

    def _choose(self, value):
        on = value == MINE
        if not on:
            self.leave()
        elif self._load():
            self.is_on = True
        self.bench.start_again()

    def _choose_work(self, value):
        if value in [each.name for each in self._works()]:
            self.chosen = value
            self._fill()
            self.bench.start_again()

    def _changed(self):
        """What differs on the bench from the sizes that it started from."""
        from shoplib.paper.stand_file.keys import is_alike

        start = self.bench.started_from()
        return {name: each for name, each in self.bench.values.items() if not is_alike(each, start[name])}

    def _ask(self, value):
        """Tell what keeping would do, before it is done."""
        if not self._load():
            return
        try:
            if value == "made":
                wanted = self.filled.as_made(self._changed(), self._measured(), self.bench.unit)
            else:
                wanted = self.filled.planned(self._changed(), self.bench.unit)
        except WRONG as error:
            self.said = looks.wrong(f"Not kept. {tell(error, self.bench.unit)}")
            return
        if wanted.kept:
            self.wanted = (wanted, "as made" if value == "made" else "")
        else:
            behind = f" It has no place for: {'; '.join(wanted.behind)}." if wanted.behind else ""
            what = "Measure something, or change a size" if value == "made" else "Change a size"
            self.said = looks.paragraph(escape(f"{what} first: nothing here differs from my stand.{behind}"))

    def _measured(self):
        """What stands in the boxes for what was measured, in plain values by result."""
        settings = self.bench.settings
        items = {item.name: item for item in settings.items}
        return {name: read_plain(items[name].kind, text) for name, text in settings.measured.items() if text.strip()}

    def _ask_nominal(self, name):
        if self._load() and name in self.stand.made:
            self.wanted = (self.filled.nominal_again(name, self.bench.unit), "as planned again")

    def _keep(self, _):
        """Keep what was told; where somebody was quicker, nothing is lost and it is told."""
        from shoplib.paper.stand_file import write_stand

        if self.wanted is None:
            return
        (wanted, how), self.wanted = self.wanted, None
        try:
            kept = write_stand(wanted.stand, PATH, since=self.stand)
        except (*WRONG, OSError) as error:
            self.said = looks.wrong(f"Not kept. {tell(error, self.bench.unit)}")
            return
        was = self.filled.values
        self.mark = mark_of_file()
        self._load()
        if self.is_on and self.filled:
            self.bench.follow(was, self.filled.values, wanted.inputs)
        sizes = ", ".join(f"{words} {becomes}" for words, _, becomes in wanted.kept)
        also = f" Another page had kept meanwhile: {', '.join(kept.meanwhile)}." if kept.meanwhile else ""
        self.said = looks.paragraph(f"✓ {escape(f'Kept in {PATH}: {sizes} {how}'.rstrip() + '.' + also)}")

    # What stands on the page ----------------------------------------------------------------------------------

    def shown(self):
        """What stands in the places of the row and below it."""
        if not self.has_row:
            return {}
        found = {"mine.row": {"style": ROW if self.mark or self.is_on else HIDDEN}}
        found |= {"mine.made": {"style": SHOWN if self.is_on else HIDDEN}}
        found |= looks.marks("sizes", [(LESSONS, not self.is_on), (MINE, self.is_on)])
        asked = _told(*self.wanted, self.stand, self.filled.name, self.bench.unit) if self.wanted else ""
        return found | {"mine.told": self._about() + self.said + asked}

    def note(self, name):
        """What stands under an input that is worked out in the stand, or measured."""
        place = getattr(self.bench.controls[name], "note", None)
        if not self.is_on or place is None:
            return {}
        text = "as made" if name in self.filled.as_made_here else ""
        text = text or ("worked out in my stand" if name in self.filled.worked_out else "")
        return {place: f"<div style='{looks.QUIET}font-size:13px;line-height:1.1'>{text}</div>"} if text else {}

    def _about(self):
        """What fills the bench, what stays behind, and what was measured."""
        if not self.is_on:
            return ""
        filled, inputs = self.filled, self.bench.cls.inputs()
        names = [(each.title, each.name) for each in self._works()]
        which = _listed(names, self.chosen) if len(names) > 1 else f"<b>{escape(filled.title)}</b>"
        own = [item.words for name, item in inputs.items() if name not in filled.sizes]
        said = f" Not sizes of the stand, so not kept from here: {'; '.join(own)}." if own else ""
        empty = [name for name in filled.sizes if filled.values[name] is None]
        lacking = [inputs[name].words for name in empty if self.bench.start[name] is not None]
        said += f" Left out in my stand, though not in the lesson: {'; '.join(lacking)}." if lacking else ""
        about = f"{which} <span style='{looks.QUIET}'>({escape(filled.many)}).{escape(said)}</span>"
        return f"<div style='font-size:14px;line-height:1.3;margin-top:4px'>{about}</div>{self._made()}"

    def _made(self):
        """The sizes as they were made, each beside what was planned, to be taken back."""
        unit = self.bench.unit
        rows = []
        for name, (planned, made) in self.filled.made_here().items():
            item = self.stand.inputs().get(name) or self.stand.results()[name]
            size = f"<b>{escape(item.write(made, unit))}</b> (planned {escape(item.write(planned, unit))})"
            again = looks.button("nominal", name, "As planned again", f"Take back the {item.words} as made")
            rows.append(f"{escape(item.words)} {size} {again}")
        return f"<div style='font-size:14px;line-height:1.3'>As made: {'; '.join(rows)}</div>" if rows else ""


def _listed(options, chosen):
    """A list in a place that is written anew: the chosen one is marked in its HTML."""
    made = looks.listed("work", "Which work of my stand", options)
    return made.replace(f'value="{escape(chosen)}"', f'value="{escape(chosen)}" selected')


def _told(wanted, how, stand, apart, unit):
    """What keeping does: what is kept, what moves elsewhere, what stays behind, and the two buttons."""
    from shoplib.bench.filled import moves

    kept = "; ".join(f"{words} {was} → {becomes}" for words, was, becomes in wanted.kept)
    head = f"<b>To keep{f' {how}' if how else ''}: {escape(kept)}.</b>"
    behind = f" Stays behind: {escape('; '.join(wanted.behind))}." if wanted.behind else ""
    at_machines, rest = (list(_rows(each, unit)) for each in moves(stand, wanted.stand, apart))
    more = f"<details><summary>and {len(rest)} more that follow</summary>{_table(rest)}</details>" if rest else ""
    moved = f"<div>{'Elsewhere it moves:' if at_machines or rest else 'Elsewhere nothing moves.'}</div>"
    buttons = looks.buttons(
        looks.button("keep_it", "", "Keep it", "Write it into my_stand.toml"),
        looks.button("leave_it", "", "Leave it", "Keep nothing"),
    )
    scroll = "max-height:190px;overflow-y:auto"
    return (
        f"<div role='status' style='font-size:15px;line-height:1.35;border:{looks.LINE};border-left:5px solid #0072b2;"
        f"padding:6px 10px;margin:4px 0'>{head}{behind}{moved}<div style='{scroll}'>{_table(at_machines)}{more}</div>"
        f"{_worries(stand, wanted.stand, unit)}{buttons}</div>"
    )


def _rows(found, unit):
    """What moves, as rows of texts; what reads the same in this unit is left out."""
    for same in found:
        was, becomes = same[0].written(unit)
        if was != becomes:
            many = sum(each.count for each in same)
            yield same[0].words, f"{was} → {becomes}", f"{many} × {same[0].part}", f"lesson {same[0].lesson[:2]}"


def _table(rows):
    """The same in a small table; a size keeps its unit beside it."""
    cell = f"padding:2px 10px 2px 0;border-top:{looks.LINE};text-align:left;vertical-align:top"
    whole = {True: ";white-space:nowrap", False: ""}
    body = "".join(
        "<tr>" + "".join(
            f"<td style='{cell}{whole[len(text) < SHORT and k > 0]}'>{escape(_close(text))}</td>"
            for k, text in enumerate(row)
        ) + "</tr>" for row in rows
    )
    return f"<table style=\"{looks.FACE}font-size:14px;line-height:1.25;border-collapse:collapse\">{body}</table>"


def _close(text):
    """A text whose units stay on the line of their number."""
    return re.sub(r"(?<=\d) (?=[^\d →])|(?<=\w) (?=\d\d$)|(?<=\d) (?=×)", "\u00a0", text)


def _worries(stand, new, unit):
    """The cautions that the change brings with it."""
    known = {(each.sentence, each.input) for each in stand.cautions}
    found = [each.tell(unit) for each in new.cautions if (each.sentence, each.input) not in known]
    return "".join(f"<div style='font-size:14px'>⚠ {escape(text)}</div>" for text in found[:2])
