"""A laid-out drawing: every line and text in its place, x to the right and y down."""

from dataclasses import dataclass, field
from functools import cache, lru_cache
from typing import NamedTuple

from shoplib.tables import table

UNITS = 2048  # of the table of letters, in a text's height


class Text(NamedTuple):
    """A text by the middle of its box; `turn` 90 reads upwards."""

    x: float
    y: float
    text: str
    size: float
    anchor: str = "middle"
    turn: int = 0
    bold: bool = False

    def box(self):
        """Left, top, right and bottom."""
        width, height = text_width(self.text, self.size, self.bold), self.size
        if self.turn:
            return self.x - height / 2, self.y - width / 2, self.x + height / 2, self.y + width / 2
        left = self.x - {"start": 0, "middle": width / 2, "end": width}[self.anchor]
        return left, self.y - height / 2, left + width, self.y + height / 2


@lru_cache(maxsize=4096)
def text_width(text, size, bold=False):
    """How wide a text runs in DejaVu Sans, a wide face: most others take less.

    >>> round(text_width("Ø 440.0 mm", 10), 2), round(text_width("Ø 440.0 mm", 10, bold=True), 2)
    (62.34, 67.93)
    """
    widths, other = letter_widths(bold)
    return sum([widths.get(letter, other) for letter in text]) * size / UNITS


@cache
def letter_widths(bold=False):
    """The width of every letter that there is, and of the sign that stands for any other, in 2048ths of the height."""
    widths = {row["letter"]: int(row["bold" if bold else "regular"]) for row in table("letters")}
    other = widths.pop("other")
    return {chr(int(code.removeprefix("U+"), 16)): width for code, width in widths.items()}, other


@dataclass(eq=False)
class Plate:
    """A laid-out drawing: its size, shapes, leader and dimension lines, texts and scales, and the parts it has."""

    width: float
    height: float
    title: str
    description: str
    shapes: list = field(default_factory=list)
    lines: list = field(default_factory=list)
    dots: list = field(default_factory=list)
    texts: list = field(default_factory=list)
    scales: list = field(default_factory=list)
    parts: list = field(default_factory=list)

    def take(self, part):
        """Put a part on: a plate whose shapes, lines and texts stand where they are to stand on this one."""
        for name in ("shapes", "lines", "dots", "texts", "scales"):
            getattr(self, name).extend(getattr(part, name))
        self.parts.append(part)
