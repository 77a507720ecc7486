"""Inputs, each declared once: words, symbol, range, step, and the tolerance that a careful person holds."""

from shoplib import measure
from shoplib.model.sentences import ShapeError, headed
from shoplib.model.writing import FINE, LENGTH_STEPS, public, write_value

REQUIRED = object()
SIXTY_FOURTH = 25.4 / 64  # mm, the finest mark of a rule in inches


class Usual(str):
    """A default length: the text of a size that nobody gave."""


class Input:
    """One declared input: as a class attribute it reads, checks and keeps what the model is given."""

    def __init__(
        self, kind, words, symbol, low, high, step, inch_step, tolerance, help, default, options=(), group=""
    ):
        self.kind, self.words, self.symbol = kind, words, symbol
        self.low, self.high, self.step, self.inch_step = low, high, step, inch_step
        self.tolerance, self.help, self.options = tolerance, help, options
        self.default = Usual(default) if kind == "length" and isinstance(default, str) else default
        self.group = group
        self.plain_steps = {
            unit: measure.plain(kind, text) if isinstance(text, str) else text
            for unit, text in (("mm", step), ("in", inch_step or step))
        }

    def __set_name__(self, owner, name):
        self.name = name

    @property
    def optional(self):
        return self.default is None

    def __get__(self, model, owner=None):
        if model is not None:
            return public(model.values[self.name], self.kind)
        if self.default is REQUIRED:
            raise AttributeError(self.name)
        return self.default

    def __set__(self, model, value):
        model.__dict__.setdefault("values", {})[self.name] = self.read(value)
        if self.kind == "length" and isinstance(value, str):
            inches = None if isinstance(value, Usual) else is_in_inches(value)
            model.__dict__.setdefault("_in_inches", {})[self.name] = inches

    def read(self, value):
        """Turn what a person gave into a float in mm or rad, a whole number, or None where left out."""
        if value is None:
            if self.optional:
                return None
            raise measure.MeasureError(f"{headed(self.words)} this is missing. {self.help}")
        if self.kind == "count":
            return self._read_count(value)
        if self.kind == "flag":
            return self._read_flag(value)
        if self.kind == "choice":
            return self._read_choice(value)
        try:
            size = measure.plain(self.kind, value)
        except measure.MeasureError as error:
            raise measure.MeasureError(f"{headed(self.words)} {error}") from None
        return self._inside_limit(size)

    def _read_count(self, value):
        number = value.strip() if isinstance(value, str) else value
        if isinstance(number, str) and number.isascii() and number.isdigit() and len(number) < 7:
            number = int(number)
        if isinstance(number, bool) or not isinstance(number, int):
            raise measure.MeasureError(
                f"{headed(self.words)} write a whole number such as {self.low}, not {str(value)[:30]!r}."
            )
        if not self.low <= number <= self.high:
            raise ShapeError(
                f"{headed(self.words)} it must be from {self.low} to {self.high}, not {number}.", input=self.name
            )
        return number

    def _read_flag(self, value):
        if isinstance(value, bool):
            return value
        raise measure.MeasureError(f"{headed(self.words)} say True or False, not {str(value)[:30]!r}.")

    def _read_choice(self, value):
        if isinstance(value, str) and value in self.options:
            return value
        raise measure.MeasureError(
            f"{headed(self.words)} choose one of {', '.join(self.options)}, not {str(value)[:30]!r}."
        )

    def _inside_limit(self, value):
        """A size whose range starts above nothing must be above nothing; one that starts at nothing may be it."""
        if self.low > 0 and value <= 0 or self.low == 0 and value < 0:
            wanted = "more than nothing" if self.low > 0 else "nothing or more"
            sentence = f"{headed(self.words)} it must be {wanted}, not {{}}. Give a larger one."
            if self.kind == "length":
                raise ShapeError(sentence, value, input=self.name)
            raise ShapeError(sentence.format(self.write(value)), input=self.name)
        return value

    def write(self, value, unit="mm"):
        """Write a plain value for a person, in `unit` where it is a length.

        A size that does not fall on the slider's step is written more finely, never rounded to it.
        """
        if self.kind in FINE and value is not None and not _on_step(value, self.step_in(unit)):
            on_a_rule = self.kind == "length" and unit == "in" and _on_step(value, SIXTY_FOURTH)
            return write_value(value, self.kind, unit, *(LENGTH_STEPS if on_a_rule else FINE[self.kind]))
        return write_value(value, self.kind, unit, self.step, self.inch_step)

    def step_in(self, unit):
        """The slider's step in mm, rad, kg or one: a neat part of a millimetre, or of an inch."""
        return self.plain_steps["in" if unit == "in" else "mm"]


def _on_step(value, step):
    return abs(value / step - round(value / step)) < 1e-7


def is_in_inches(text):
    """Whether a length is written in inches or feet.

    >>> is_in_inches("1' 5 3/8\\""), is_in_inches("44 cm")
    (True, False)
    """
    return measure.reading("length", text)[1] in ("in", "ft")


def _declared(kind):
    def declare(
        words, symbol, low, high, step, tolerance, help, default=REQUIRED, inch_step=None, group=""
    ):  # tolerance: what a careful person holds
        plain = [measure.plain(kind, text) for text in (low, high, tolerance)]
        return Input(
            kind, words, symbol, plain[0], plain[1], step, inch_step, plain[2], help, default, group=group
        )

    declare.__doc__ = f"""Declare an input that is a {kind}: every size as text with its unit.

    `group` names the inputs that it stands with on the bench, where there are many.
    """
    return declare


length, angle, mass, force, stress, percent, surface = map(
    _declared, ("length", "angle", "mass", "force", "stress", "percent", "surface")
)


def count(words, symbol, low, high, help, default=REQUIRED, group=""):
    """Declare an input that is a whole number of things, from low to high."""
    return Input("count", words, symbol, low, high, 1, None, None, help, default, group=group)


def flag(words, symbol, help, default, group=""):
    """Declare an input that is yes or no."""
    return Input("flag", words, symbol, False, True, None, None, None, help, default, group=group)


def choice(words, symbol, options, help, default, group=""):
    """Declare an input that is one of a few words."""
    return Input("choice", words, symbol, None, None, None, None, None, help, default, tuple(options), group)
