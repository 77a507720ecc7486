"""A drawing without its sizes: lines to write one's own on, in place of every number that has a unit."""

import re

from shoplib.drawing.plate import text_width

SIZE = re.compile(r"[-−]?\d+(?:[ .]\d+)*(?:/\d+)? (?:mm|in|deg|kg|lb|N|%)(?![a-z])")
LEAST, MOST = 3, 12  # letters of a line to write on


def unsized(plate):
    """Take the sizes off a laid-out plate, in its texts, its title and its description; returns the plate."""
    plate.texts = [text._replace(text=_open(text)) for text in plate.texts]
    plate.title, plate.description = (SIZE.sub("…", words) for words in (plate.title, plate.description))
    return plate


def _open(text):
    """The words of a text, a line as long as the size where each stood."""
    return SIZE.sub(lambda found: "_" * _letters(found[0], text.bold), text.text)


def _letters(size, bold):
    return min(MOST, max(LEAST, int(text_width(size, 1.0, bold) / text_width("_", 1.0, bold))))
