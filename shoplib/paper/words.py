"""Words on paper: lines broken and letters sized so that they stay within their room."""

import re

from shoplib.drawing.layout import Text, text_width

LEADING = 1.3
TIE = "\u00a0"  # a space at which no line breaks
IN_A_MEASURE = re.compile(
    r"(?<=\d) (?=\d+/\d|(?:mm|m|in|ft|m²|ft²|deg|%|kg|lb|lbf|N|MPa|psi|l|fl oz)(?!\w))|(?<= fl) (?=oz)"
)


def fitted(text, size, room, bold=False):
    """The size, made smaller where the text would be wider than its room.

    >>> fitted("short", 4.0, 100.0)
    4.0
    """
    width = text_width(text, size, bold)
    return size if width <= room else size * room / width


def wrapped(text, size, room, bold=False):
    """The text broken into lines that fit the room; a single word that is too long is broken anywhere.

    >>> wrapped("one two three", 4.0, 20.0)
    ['one two', 'three']
    """
    lines = [""]
    for word in re.split(r"[ \n\t\r]+", text.strip()):
        for piece in _pieces(word, size, room, bold):
            longer = f"{lines[-1]} {piece}".strip()
            if text_width(longer, size, bold) <= room:
                lines[-1] = longer
            else:
                lines.append(piece)
    return [line.replace(TIE, " ") for line in lines]


def tied(text):
    """The text with its measures tied, so that no line ends between a number and its unit or its fraction.

    >>> wrapped("it is 1 1/2 in long", 4.0, 22.0), wrapped(tied("it is 1 1/2 in long"), 4.0, 22.0)
    (['it is 1 1/2', 'in long'], ['it is', '1 1/2 in', 'long'])
    """
    return IN_A_MEASURE.sub(TIE, text)


def _pieces(word, size, room, bold):
    """The word whole, or cut where it is wider than the room."""
    while text_width(word, size, bold) > room and len(word) > 1:
        fits = max(1, sum(text_width(word[: k + 1], size, bold) <= room for k in range(len(word))))
        yield word[:fits]
        word = word[fits:]
    yield word


def paragraph(text, x, y, room, size, bold=False):
    """The text's lines as Texts, the middle of the first one at y."""
    return [
        Text(x, y + k * LEADING * size, line, size, "start", bold=bold)
        for k, line in enumerate(wrapped(text, size, room, bold))
    ]
