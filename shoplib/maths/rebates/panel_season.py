"""The gap that the seasons leave round a panel of solid wood."""

from typing import NamedTuple

from shoplib import measure
from shoplib.maths.functions import most
from shoplib.maths.movement import SOURCE, coefficient, moisture, species, swelling, worries_of_moisture
from shoplib.model import REQUIRED, Caution, Facts, Input, Model, ShapeError, choice, length, model, result, write_value
from shoplib.model.budget import plain_budget

REBATE, TIMBER, MOISTURE = "The rebate", "The timber", "Its moisture"


class Season(NamedTuple):
    """The gap between panel and ring, across the panel's grain: as made, in the dry and in the damp season."""

    made: object
    dry: object
    damp: object
    cautions: tuple

    def tell(self, unit="mm"):
        """The three gaps as a small table that shows itself."""
        names = ("as made", "dry season", "damp season")
        return Facts(zip(names, (_gap(each.m_as("mm"), unit) for each in self[:3])), head=("gap on each side", ""))

    def __repr__(self):
        return f"{self.tell()}\n{self.cautions}"

    def _repr_html_(self):
        return self.tell()._repr_html_() + self.cautions._repr_html_()


@model
class PanelSeason(Model):
    """A round panel of solid wood in its rebate through the year.

    The panel moves across its grain and hardly along it, so the gap is told where it changes most: at the two
    ends of the diameter across the grain, with the panel lying in the middle. A ring with the panel's own grain
    direction ("parallel": boards side by side, of the same timber and cut) moves with it. A mitred ring has its
    grain all round and keeps its diameter.

    >>> panel = PanelSeason("420 mm", "2.5 mm", "Ash, white", "flat", "8 %", "6 %", "12 %", ring="mitred")
    >>> print(round(panel.gap_dry, 2), round(panel.gap_damp, 2))
    3.64 millimeter 0.23 millimeter
    """

    rebate_diameter: Input = length(
        "rebate diameter", "D_r", low="60 mm", high="1500 mm", step="1 mm", inch_step="1/16 in", tolerance="0.5 mm",
        help="Across the rebate, wall to wall, as made.", group=REBATE,
    )
    clearance: Input = length(
        "clearance", "c", low="0 mm", high="12 mm", step="0.1 mm", inch_step="1/64 in", tolerance="0.2 mm",
        help="Gap all round between panel and wall, as made.", group=REBATE,
    )
    species: Input = choice(
        "timber", "species_of_wood", species(), help="Of the panel, and of a ring of boards.", default=REQUIRED,
        group=TIMBER,
    )
    cut: Input = choice(
        "cut", "cut_of_board", ("flat", "quarter"), default=REQUIRED,
        help="Flat: rings lie along the board's width. Quarter: they stand upright in it.", group=TIMBER,
    )
    made: Input = moisture("moisture when made", "M_0", help="Of the panel on the day that it is cut.", group=MOISTURE)
    dry: Input = moisture(
        "moisture, dry season", "M_1", help="What the panel comes down to, such as in a heated room.", group=MOISTURE
    )
    damp: Input = moisture("moisture, damp season", "M_2", help="What the panel comes up to.", group=MOISTURE)
    ring: Input = choice(
        "ring", "grain_of_ring", ("parallel", "mitred"), default="parallel",
        help="Parallel: boards with the panel's grain direction. Mitred: grain all round.", group=TIMBER,
    )
    rebate_width: Input = length(
        "rebate width", "b", low="2 mm", high="60 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.3 mm",
        help="From the ring's inside to the wall. Leave out where it does not matter.", default=None, group=REBATE,
    )

    def check(self):
        if 2 * self.clearance >= self.rebate_diameter:
            raise ShapeError(
                "A clearance of {} leaves no panel: it must stay under {}. Give less.",
                self.clearance, self.rebate_diameter / 2, input="clearance",
            )
        if self.dry > self.damp:
            raise ShapeError(
                f"The dry season's moisture ({_content(self.dry)}) must not be more than the damp one's "
                f"({_content(self.damp)}). Change the two over.", input="dry",
            )
        for name in ("made", "damp"):
            if getattr(self, name) > 0.30:
                raise ShapeError(
                    f"A moisture content of {_content(getattr(self, name))} is that of wet wood, which no longer "
                    "swells: it must stay under 30.0 %. Let it dry first.", input=name,
                )

    @result("panel diameter, as made", "D_p", checks="clearance")
    def panel_diameter(self):
        """Across the panel when it is cut: the rebate's diameter less the clearance on each side."""
        return self.rebate_diameter - 2 * self.clearance

    @result("panel's movement for 1 %", "C", kind="ratio", step=0.00001, plan=True)
    def movement(self):
        """Change of the panel's width across the grain for each per cent of moisture, as a ratio: looked up.

        Wood Handbook (FPL-GTR-190) Table 13-5.
        """
        return coefficient(self.species, self.cut)

    @result("ring's movement for 1 %", "C_r", kind="ratio", step=0.00001, plan=True)
    def ring_movement(self):
        """The same for the ring's diameter in that direction: the panel's if parallel, nothing if mitred."""
        return self.movement if self.ring == "parallel" else 0.0

    @result("panel's growth, dry season", "e_1", kind="ratio", step=0.00001, minor=True)
    def growth_dry(self):
        """Share of its width by which the panel grows across the grain towards the dry season; it shrinks."""
        return swelling(self.movement, self.made, self.dry)

    @result("panel's growth, damp season", "e_2", kind="ratio", step=0.00001, minor=True)
    def growth_damp(self):
        """Share of its width by which the panel grows across the grain towards the damp season."""
        return swelling(self.movement, self.made, self.damp)

    @result("ring's growth, dry season", "r_1", kind="ratio", step=0.00001, minor=True)
    def ring_growth_dry(self):
        """The same share for the ring, in the dry season."""
        return swelling(self.ring_movement, self.made, self.dry)

    @result("ring's growth, damp season", "r_2", kind="ratio", step=0.00001, minor=True)
    def ring_growth_damp(self):
        """The same share for the ring, in the damp season."""
        return swelling(self.ring_movement, self.made, self.damp)

    @result("rebate, dry season", "R_1", minor=True)
    def rebate_dry(self):
        """Across the rebate in the dry season, square to the panel's grain."""
        return self.rebate_diameter * (1 + self.ring_growth_dry)

    @result("rebate, damp season", "R_2", minor=True)
    def rebate_damp(self):
        """Across the rebate in the damp season, square to the panel's grain."""
        return self.rebate_diameter * (1 + self.ring_growth_damp)

    @result("panel, dry season", "P_1")
    def panel_dry(self):
        """Across the panel in the dry season, square to its grain: Wood Handbook p. 13-17."""
        return self.panel_diameter * (1 + self.growth_dry)

    @result("panel, damp season", "P_2")
    def panel_damp(self):
        """Across the panel in the damp season, square to its grain: Wood Handbook p. 13-17."""
        return self.panel_diameter * (1 + self.growth_damp)

    @result("gap as made", "g_0", checks="clearance")
    def gap_as_made(self):
        """Panel's edge to the wall on the day it is made, all round."""
        return (self.rebate_diameter - self.panel_diameter) / 2

    @result("gap, dry season", "g_1", checks="dry")
    def gap_dry(self):
        """Panel's edge to the wall in the dry season, at each end of the diameter across the grain."""
        return (self.rebate_dry - self.panel_dry) / 2

    @result("gap, damp season", "g_2", checks="damp")
    def gap_damp(self):
        """The same in the damp season; less than nothing: the panel presses into the ring by so much on each side."""
        return (self.rebate_damp - self.panel_damp) / 2

    @result("least clearance", "c_m")
    def least_clearance(self):
        """The smallest clearance at which the panel just fills the rebate in the damp season, not more.

        From gap_damp = 0, solved for the clearance. Nothing where the panel does not outgrow the ring.

        >>> panel = PanelSeason("420 mm", "1 mm", "Ash, white", "flat", "8 %", "6 %", "12 %", ring="mitred")
        >>> print(round(panel.least_clearance, 2))
        2.28 millimeter
        """
        outgrown = self.rebate_diameter * (self.growth_damp - self.ring_growth_damp)
        return most(0 * self.rebate_diameter, outgrown / (2 * (1 + self.growth_damp)))

    @result("lap under the lip, dry season", "u", checks="rebate_width")
    def lap(self):
        """How far the panel still reaches under the lip in the dry season, slid right over to the other side.

        Panel's edge to the ring's inside, level: nothing or less, and the panel comes out.
        """
        return self.rebate_width - 2 * self.gap_dry

    def worries(self):
        if self.gap_damp < -1e-9:
            quarter = ", less with a quarter-cut panel" if self.cut == "flat" else ""
            yield Caution(
                "In the damp season the panel would burst the ring: it outgrows the rebate by {} on each side. "
                f"Give at least {{}} of clearance{quarter}, or take a ring with the panel's grain direction.",
                -self.gap_damp, self.least_clearance, input="clearance", source=SOURCE,
            )
        else:
            yield from self._worries_of_guesses()
        if self.gap_damp >= -1e-9 and self.ring == "mitred":
            yield Caution(
                "A mitred ring does not move with the panel: no glue along the rebate. Hold the panel where it does "
                "not move, by a spot of glue at each end of its grain's centre line, or by buttons or slotted screws "
                "that let it move.", input="ring",
            )
        if self.has("rebate_width") and self.lap <= 0:
            yield Caution(
                "In the dry season the panel, slid to one side, comes out from under the lip on the other: the gap "
                "there is {}, the rebate {} wide. Make the rebate wider.",
                2 * self.gap_dry, self.rebate_width, input="rebate_width", source=SOURCE,
            )
        yield from worries_of_moisture(self.species, made=self.made, dry=self.dry, damp=self.damp)

    def _worries_of_guesses(self):
        """The damp gap against its own error budget: what is left over must be more than what may be out."""
        values = {name: getattr(self, name) if self.has(name) else None for name in self.model.inputs()}
        out = plain_budget(self.model, values, "gap_damp").root_sum_square
        if self.gap_damp < out * (1 - 1e-9):
            yield Caution(
                "The gap left in the damp season is {}, but it may be out by {} if moistures and sizes are each as far "
                "off as a careful person leaves them: the panel may press all the same. Give {} of clearance, or read "
                "the moisture more closely.",
                max(self.gap_damp, 0.0), out, self.clearance + (out - self.gap_damp) / (1 + self.growth_damp),
                input="clearance", source="the error budget of this page",
            )

    def on_card(self):
        """What the panel is cut to, what is measured beside it through the year, and how little would do."""
        return ("panel_diameter", "gap_as_made", "gap_dry", "gap_damp", "lap", "least_clearance")


def _gap(value, unit):
    """A gap in words; less than nothing is wood in wood."""
    size = write_value(abs(value), "length", unit, "0.01 mm", "0.001 in")
    return f"none: the panel is too large by {size}" if value < 0 else size


def _content(value):
    return measure.write(value, "percent", "percent", "0.1 %")
