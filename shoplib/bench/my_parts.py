"""My stand on the saw bench: the parts that it is made of."""

from shoplib.bench import looks
from shoplib.bench.control import WRONG, tell
from shoplib.bench.my_file import HIDDEN, LESSONS, MINE, PATH, ROW, mark_of_file, read_known


class MyParts:
    """The row "Sizes" of the saw bench: its table of parts is filled from the stand; nothing is kept from there.

    `fill(parts)` writes parts into the table, `back()` those of the lesson, `now()` tells what stands in it.
    """

    def __init__(self, fill, back, now):
        self.fill, self.back, self.now = fill, back, now
        self.is_on, self.mark, self.said, self.filled = False, mark_of_file(), "", None

    def look(self):
        """Before anything is done: the parts of a file that has changed are read, if nobody changed them here."""
        mark, self.said = mark_of_file(), ""
        if mark == self.mark:
            return
        self.mark = mark
        if self.is_on and mark is not None:
            if self.now() == self.filled:
                self._load()
                self.said = self.said or looks.paragraph(f"⟳ {PATH} has changed meanwhile: its parts were read again.")
            else:
                self.said = looks.paragraph(f"⟳ {PATH} has changed meanwhile: press “{MINE}” for its parts.")

    def take(self, value):
        """One of the two buttons was pressed."""
        if value == MINE:
            self._load()
        else:
            self.leave()
            self.back()

    def leave(self):
        """The table is the lesson's again."""
        self.is_on = False

    def _load(self):
        try:
            self.fill(read_known(self.mark).parts())
        except (*WRONG, OSError) as error:
            self.said = looks.wrong(tell(error, "mm"))
        else:
            self.is_on, self.filled = True, self.now()

    def keep(self, former):
        """Take over what was chosen on the bench that the same cell made before."""
        self.is_on, self.filled = former.is_on, former.filled

    def shown(self):
        about = "All parts are worked out from the sizes of my stand: what you change here is not kept there."
        told = looks.paragraph(f"<span style='{looks.QUIET}'>{about}</span>", 14) if self.is_on else ""
        return {
            "mine.row": {"style": ROW if self.mark or self.is_on else HIDDEN}, "mine.told": told + self.said,
        } | looks.marks("sizes", [(LESSONS, not self.is_on), (MINE, self.is_on)])  # fmt: skip
