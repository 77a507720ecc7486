"""One input on the bench: a slider, and a box beside it that takes any shop measure at any time."""

import math

from shoplib.bench import looks
from shoplib.measure import MeasureError
from shoplib.model import ShapeError


class Control:
    """Slider and box of one input, as places on the page.

    The slider counts whole steps of the smallest division, so it reaches both its ends. The size
    itself is kept by the bench: a size that is typed between two steps is never rounded to one.
    """

    def __init__(self, item):
        self.item = item
        self.slide, self.box, self.note = (f"{part}.{item.name}" for part in ("slide", "box", "note"))

    def html(self):
        return looks.control(self.item, self.slide, self.box, self.note)

    def shown(self, value, unit):
        """What stands in the places for a value."""
        text = "" if value is None else self.item.write(value, unit)
        low, high = self.ends(unit)
        slide = {"min": low, "max": high, "aria-valuetext": text or "left out"}
        if value is not None:
            slide["value"] = min(max(round(value / self.item.step_in(unit)), low), high)
        return {self.slide: slide, self.box: text, self.note: ""}

    def ends(self, unit):
        """The slider's ends in whole steps, inside the declared range."""
        step = self.item.step_in(unit)
        return math.ceil(self.item.low / step - 1e-9), math.floor(self.item.high / step + 1e-9)

    def slid(self, position, unit):
        """The input's value, in mm, rad or one, at a whole step of the slider."""
        low, high = self.ends(unit)
        position = min(max(int(position), low), high)
        return position if self.item.kind == "count" else position * self.item.step_in(unit)

    def typed(self, text):
        """The value of a text; an emptied box leaves an optional input out. Raises what keeps it from being read."""
        return self.item.read(None if self.item.optional and not text.strip() else text)


class Choice:
    """A yes-or-no input, or one of a few words: plain buttons, the chosen one marked; a list where there are many."""

    def __init__(self, item):
        self.item, self.place = item, f"choose.{item.name}"
        flag = item.kind == "flag"
        self.options = {"yes": True, "no": False} if flag else {word: word for word in item.options}

    def html(self):
        return looks.choice(self.item, self.place, list(self.options))

    def shown(self, value, unit):
        """What stands in the places for a value."""
        if looks.is_list(self.options):
            return {self.place: value}
        return looks.marks(self.place, [(word, each == value) for word, each in self.options.items()])

    def chosen(self, word):
        """The value of the word that was chosen."""
        return self.item.read(self.options.get(word, word))


AS_TYPED = "as typed"


class Offered:
    """A list of sizes that are sold together: each fills several inputs; it shows which of them stands there now."""

    place = "offer"

    def __init__(self, offer):
        self.offer = offer

    def html(self):
        return looks.offered(self.offer, self.place, (AS_TYPED, *self.offer.sizes))

    def shown(self, values):
        """What stands in the place for the values of all inputs."""
        return {self.place: self.offer.fitting(values) or AS_TYPED}

    def filled(self, name):
        """The inputs that a name fills; none where the sizes stay as they were typed."""
        return self.offer.sizes.get(name, {})


def control(item):
    """The right control for an input's kind."""
    return (Choice if item.kind in ("flag", "choice") else Control)(item)


def tell(error, unit):
    """What kept something from being read or made, as a sentence in the unit of the bench."""
    return error.tell(unit) if isinstance(error, ShapeError) else str(error)


WRONG = (MeasureError, ShapeError)
