"""The rails of a four-legged stand, how many and how long: a list that shows itself."""

from typing import NamedTuple

from shoplib.model import Facts, ShapeError, decimal

ONE_PLANE = "Only the two rails in whose plane the legs lean: the rails across to them meet the legs otherwise."


class Cut(NamedTuple):
    """Rails of one length: how many, their edges tip to tip, and the way between the legs at their top edge.

    `bottom` is None between upright legs, where both edges are alike; `between` is None where the legs
    themselves are to be measured.
    """

    pieces: int
    top: object
    bottom: object
    between: object

    @property
    def length(self):
        """The longest edge, tip to tip: what to saw."""
        return self.top if self.bottom is None else max(self.top, self.bottom)


def cut_of(rail, pieces):
    """The line of the list for so many of a rail."""
    try:
        between = rail.between
    except ShapeError:
        between = None
    return Cut(pieces, rail.rail_length, rail.rail_length_bottom if rail.plain.rake else None, between)


class CuttingList(tuple):
    """Cuts, shown as a table in mm or in."""

    def __new__(cls, cuts, model, unit="mm"):
        self = super().__new__(cls, cuts)
        self.items, self.unit = model.results(), unit
        return self

    def facts(self):
        """The same as a table of texts."""
        edges = ("top edge, tip to tip", "bottom edge, tip to tip") if self.leans else ("saw to, tip to tip",)
        between = "between the legs, at the rail's top" if self.leans else "between the legs"
        return Facts([self._row(cut) for cut in self], head=("rails", *edges, between))

    def _row(self, cut):
        sizes = [("rail_length", cut.top), ("rail_length_bottom", cut.bottom)]
        texts = [self._written(name, size) for name, size in sizes if size is not None]
        apart = self._written("between", cut.between) if cut.between is not None else "measure the legs"
        return str(cut.pieces), *texts, apart

    def _written(self, name, size):
        mm = size.m_as("mm")
        beside = decimal(mm, "length", self.unit)
        return self.items[name].write(mm, self.unit) + (f" ({beside})" if beside else "")

    @property
    def leans(self):
        """Whether the legs lean: then the list is not of the whole stand."""
        return any(cut.bottom is not None for cut in self)

    def __repr__(self):
        return repr(self.facts()) + (f"\n{ONE_PLANE}" if self.leans else "")

    def _repr_html_(self):
        return self.facts()._repr_html_() + (f"<p><b>{ONE_PLANE}</b></p>" if self.leans else "")
