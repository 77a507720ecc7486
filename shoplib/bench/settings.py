"""The table of settings, and beside each one a place to write what was measured."""

from shoplib.bench import looks
from shoplib.bench.control import WRONG, tell
from shoplib.measure import plain as read_plain
from shoplib.model import ShapeError, answer, decimal, under_headings, write_value
from shoplib.model.inverse import plain_find


class Settings:
    """What to set, in the unit of the bench; measurements are told back as what they would make."""

    def __init__(self, cls, show, bench):
        self.cls, self.bench = cls, bench
        names = show or [name for name, item in cls.results().items() if not (item.minor or item.plan)]
        self.items = [cls.results()[name] for name in names]
        self.plans = [
            item for item in cls.results().values() if item.plan and not item.minor and item.name not in names
        ]
        self.measured = {item.name: "" for item in self.items if item.kind in ("length", "angle")}

    def html(self):
        parts = [(heading, [self._told(item) for item in items]) for heading, items in under_headings(self.items)]
        return looks.settings(parts)

    def _told(self, item):
        """A result as its row on the page tells it."""
        return item.name, item.words, item.symbol, _help(item), item.name in self.measured

    def shown(self):
        """What stands in the places: sizes, measurements with their verdicts, and the plans."""
        found = {f"measured.{name}": text for name, text in self.measured.items()}
        for item in self.items:
            found |= self._row(item)
        return found | {"plan": looks.plans(map(self._plan, self.plans)) if self.bench.problem is None else ""}

    def _row(self, item):
        place, verdict = f"set.{item.name}", f"told.{item.name}"
        if self.bench.problem is not None:
            return {place: looks.size("—"), verdict: ""}
        plain, unit = self.bench.plain, self.bench.unit
        text, why = answer(plain, item.name, unit)
        beside = "" if why or "." in text else decimal(getattr(plain, item.name), item.kind, unit)
        told = self._verdict(item, self.measured.get(item.name, "").strip())
        return {place: looks.size(text, beside), verdict: looks.quiet(told or why)}

    def take(self, name, text):
        """A measurement was written beside a result."""
        if name in self.measured:
            self.measured[name] = text

    def keep(self, former):
        """Take over what was measured."""
        self.measured |= {name: text for name, text in former.measured.items() if name in self.measured}

    def in_one_line(self):
        """All settings of the table in one line."""
        return ", ".join(
            f"{item.words} {answer(self.bench.plain, item.name, self.bench.unit)[0]}" for item in self.items
        )

    def _verdict(self, item, text):
        """How far a measurement is out, and what it would make."""
        if not text:
            return ""
        try:
            measured = read_plain(item.kind, text)
            out = measured - getattr(self.bench.plain, item.name)
            return self._out_by(item, out) + self._makes(item, measured)
        except WRONG as error:
            return f"✗ {tell(error, self.bench.unit)}"

    def _out_by(self, item, out):
        size = item.write(abs(out), self.bench.unit)
        if size == item.write(0.0, self.bench.unit):
            return "✓ right. "
        return f"{size} too {'large' if out > 0 else 'small'}. "

    def _makes(self, item, measured):
        """What this setting would make: the input it hangs on, found for the measured value."""
        if not item.checks or self.bench.values.get(item.checks) is None:
            return ""
        hangs_on = self.cls.inputs()[item.checks]
        found = plain_find(self.cls, self.bench.values, hangs_on, item, measured)
        made = " or ".join(looks_like(hangs_on, value, self.bench.unit) for value in found)
        return f"It makes: {hangs_on.words} {made}" if made else "No size in range comes out of it."

    def _plan(self, item):
        try:
            found = getattr(self.bench.plain, item.name)
        except ShapeError:
            return ""
        if not item.table:
            return looks.plan(item.words, item.write(found, self.bench.unit))
        if not found:
            return ""
        head = [name.replace("_", " ") for name in found[0]._fields]
        rows = [[item.write_cell(cell, self.bench.unit) for cell in row] for row in found]
        return looks.plan_table(item.words, head, rows)


def looks_like(item, value, unit):
    """A found size, read to a tenth of a millimetre or a 64th."""
    return write_value(value, item.kind, unit, "0.1 mm" if item.kind == "length" else item.step, "1/64 in")


def _help(item):
    return (item.__doc__ or "").strip().partition("\n")[0]
