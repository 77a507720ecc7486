"""A laid-out drawing: every line and text in its place, x to the right and y down."""

from dataclasses import dataclass, field
from functools import lru_cache
from typing import NamedTuple

# Advance widths of DejaVu Sans in thousandths of the text height, a wide face: others take less.
_NARROW = dict.fromkeys("ijlI'", 278) | dict.fromkeys(" .,|:;/\\", 327) | dict.fromkeys("frt()[]-!", 400)
_WIDE = dict.fromkeys("mMW", 980) | dict.fromkeys("wQOGNDH%&+=<>×±−≈→", 830) | dict.fromkeys("½¼¾⅛—", 985)
_WIDTHS = _NARROW | _WIDE


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
        width, height = text_width(self.text, self.size), self.size
        if self.turn:
            return self.x - height / 2, self.y - width / 2, self.x + height / 2, self.y + width / 2
        left = self.x - {"start": 0, "middle": width / 2, "end": width}[self.anchor]
        return left, self.y - height / 2, left + width, self.y + height / 2


@lru_cache(maxsize=4096)
def text_width(text, size):
    """How wide a text runs in a wide sans face."""
    return sum(_WIDTHS.get(letter, 640) for letter in text) * size / 1000


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
