"""The rebate: the step in a ring's underside that takes a panel, and how the cutter is set for it."""

from shoplib import measure
from shoplib.maths.circle_jigs import CircleJig
from shoplib.maths.passes import passes_with_finish
from shoplib.maths.rebates.cutter import refuse_bearing, rounds_inward, worries_of_the_cutter
from shoplib.maths.rebates.panel_season import PanelSeason, Season
from shoplib.model import (
    Caution,
    Facts,
    Input,
    Model,
    ShapeError,
    choice,
    length,
    length_in_full,
    model,
    public,
    result,
)

RING, PANEL, CUTTER = "The ring and its rebate", "The panel", "The cutter"


@model
class Rebate(Model):
    """A step cut into the inside of a ring's underside, in which a round panel lies.

    The cutter is swung about a pivot in the ring's centre, or rolls round the ring's inside on a bearing.

    >>> rebate = Rebate("400 mm", "20 mm", "40 mm", "12 mm", "10 mm", clearance="2.5 mm", cutter_diameter="12 mm")
    >>> rebate.rebate_diameter, rebate.panel_diameter, rebate.pivot
    (<Quantity(420.0, 'millimeter')>, <Quantity(415.0, 'millimeter')>, <Quantity(204.0, 'millimeter')>)
    """

    inside_diameter: Input = length(
        "inside diameter", "d", low="60 mm", high="1480 mm", step="1 mm", inch_step="1/16 in", tolerance="0.5 mm",
        help="Across the ring's hole, above the rebate.", group=RING,
    )
    ring_width: Input = length(
        "ring width", "w", low="6 mm", high="100 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.3 mm",
        help="From the ring's inside to its outside.", group=RING,
    )
    ring_height: Input = length(
        "ring height", "h", low="6 mm", high="120 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.2 mm",
        help="From the ring's underside to its top.", group=RING,
    )
    panel_thickness: Input = length(
        "panel thickness", "t", low="3 mm", high="40 mm", step="0.1 mm", inch_step="1/64 in", tolerance="0.1 mm",
        help="Measured on the panel, not read off the board's label.", group=PANEL,
    )
    rebate_width: Input = length(
        "rebate width", "b", low="2 mm", high="60 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.3 mm",
        help="From the ring's inside to the rebate's wall.", group=RING,
    )
    clearance: Input = length(
        "clearance", "c", low="0 mm", high="12 mm", step="0.1 mm", inch_step="1/64 in", tolerance="0.2 mm",
        help="Gap all round between panel and wall.", default="0 mm", group=PANEL,
    )
    proud: Input = length(
        "proud of the underside", "p", low="-10 mm", high="10 mm", step="0.1 mm", inch_step="1/64 in",
        tolerance="0.1 mm", default="0 mm", group=PANEL,
        help="How far the panel stands out below the ring; less than nothing: sunk in.",
    )
    pass_depth: Input = length(
        "deepest pass", "a", low="1 mm", high="20 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.2 mm",
        help="The most that you let the cutter take at once.", default=None, group=CUTTER,
    )
    finish_pass: Input = length(
        "light last pass", "f", low="0 mm", high="3 mm", step="0.1 mm", inch_step="1/64 in", tolerance="0.1 mm",
        help="Left for a clean floor; nothing: all passes equal.", default="0 mm", group=CUTTER,
    )
    cutter_diameter: Input = length(
        "cutter diameter", "d_c", low="3 mm", high="60 mm", step="0.1 mm", inch_step="1/64 in", tolerance="0.05 mm",
        help="Measured on a test groove, not read off the packet.", default=None, group=CUTTER,
    )
    guide: Input = choice(
        "cutter guided by", "guide_of_cutter", ("pivot", "bearing"), default="pivot", group=CUTTER,
        help="A pivot in the ring's centre, before the inside is cut; or a bearing on the ring's inside wall.",
    )

    panel_cutter: Input = length(
        "panel's cutter", "d_p", low="3 mm", high="25 mm", step="0.1 mm", inch_step="1/64 in", tolerance="0.05 mm",
        help="The cutter that saws the panel out, as a disc on the circle jig; measured on a test groove.",
        default=None, group=PANEL,
    )

    def check(self):
        if self.rebate_width >= self.ring_width:
            raise ShapeError(
                "A rebate {} wide leaves no wall on a ring {} wide: it must stay under {}. "
                "Make the rebate narrower or the ring wider.",
                self.rebate_width, self.ring_width, self.ring_width, input="rebate_width",
            )
        self._check_depth()
        if self.clearance >= self.rebate_width:
            raise ShapeError(
                "With a clearance of {} the panel falls through a rebate {} wide: it must stay under {}. "
                "Give less clearance or a wider rebate.",
                self.clearance, self.rebate_width, self.rebate_width, input="clearance",
            )
        self._check_passes()

    def _check_depth(self):
        if self.proud >= self.panel_thickness:
            raise ShapeError(
                "A panel {} thick cannot stand {} proud: no rebate is left. It must stay under {}.",
                self.panel_thickness, self.proud, self.panel_thickness, input="proud",
            )
        if self.depth >= self.ring_height:
            raise ShapeError(
                "A rebate {} deep leaves no lip on a ring {} high: it must stay under {}. "
                "Take a thinner panel or a higher ring.",
                self.depth, self.ring_height, self.ring_height, input="panel_thickness",
            )

    def _check_passes(self):
        if self.finish_pass >= self.depth:
            raise ShapeError(
                "A last pass of {} is no light one in a rebate {} deep: it must stay under {}. Make it lighter.",
                self.finish_pass, self.depth, self.depth, input="finish_pass",
            )
        if not self.has("pass_depth"):
            return
        if self.finish_pass > self.pass_depth:
            raise ShapeError(
                "The light last pass ({}) is deeper than the deepest pass ({}). Make it lighter.",
                self.finish_pass, self.pass_depth, input="finish_pass",
            )
        if self.depth > 200 * self.pass_depth:
            raise ShapeError(
                "Passes of {} are too light for a rebate {} deep: they must be more than {}. Take deeper passes.",
                self.pass_depth, self.depth, self.depth / 200, input="pass_depth",
            )

    @result("rebate depth", "T", checks="proud", to_set=True)
    def depth(self):
        """Ring's underside to the rebate's floor: the panel's thickness, less what is to stand proud.

        >>> Rebate("400 mm", "20 mm", "40 mm", "12 mm", "10 mm", proud="0.5 mm").depth
        <Quantity(11.5, 'millimeter')>
        """
        return self.panel_thickness - self.proud

    @result("wall left", "s", checks="rebate_width")
    def wall(self):
        """Rebate's wall to the ring's outside: the rim that is left beside the panel."""
        return self.ring_width - self.rebate_width

    @result("lip left", "l", checks="ring_height")
    def lip(self):
        """Rebate's floor to the ring's top: the height that is left above the panel."""
        return self.ring_height - self.depth

    @result("rebate diameter", "D_r", checks="rebate_width")
    def rebate_diameter(self):
        """Across the rebate, wall to wall: the ring's inside and one rebate width on each side of it."""
        return self.inside_diameter + 2 * self.rebate_width

    @result("rebate cut, pivot", "p_r", checks="rebate_width", to_set=True)
    def pivot(self):
        """Pivot's centre to cutter's centre for the rebate's wall: the cutter's far edge makes it, as in a hole.

        Raises ShapeError where a bearing guides the cutter, or where the rebate is no larger than the cutter.
        """
        self._unless("bearing", "A bearing guides this cutter: no pivot is set.")
        if type(self.cutter_diameter) is float and self.cutter_diameter >= self.rebate_diameter:
            raise ShapeError(
                "A rebate {} across cannot be swung with a cutter of {}: take a smaller cutter.",
                self.rebate_diameter, self.cutter_diameter, input="cutter_diameter",
            )
        return (self.rebate_diameter - self.cutter_diameter) / 2

    @result("rebate cut, reach", "r_r", checks="rebate_width", to_set=True)
    def reach(self):
        """Pivot's centre to the cutter's far edge, which makes the rebate's wall: check with a rule.

        Raises ShapeError where a bearing guides the cutter.
        """
        self._unless("bearing", "A bearing guides this cutter: there is no pivot to measure from.")
        return self.rebate_diameter / 2

    @result("pivot of each round, from the wall inward", "p_k", plan=True, to_set=True)
    def rounds(self):
        """Pivots of a cutter narrower than the rebate: at the wall, then inward in equal steps until all is clear.

        Each round overlaps the one before by a tenth of the cutter or more; the last one's near edge comes to the
        ring's inside. Raises ShapeError where one round clears the rebate, or a bearing guides the cutter.

        >>> narrow = Rebate("400 mm", "30 mm", "40 mm", "12 mm", "20 mm", cutter_diameter="8 mm")
        >>> [pivot.magnitude for pivot in narrow.rounds]
        [216.0, 210.0, 204.0]
        """
        return rounds_inward(self.pivot, self.rebate_width, self.cutter_diameter)

    @result("bearing diameter", "d_b", checks="rebate_width", to_set=True)
    def bearing(self):
        """Diameter of the bearing that runs on the ring's inside while the cutter cuts the rebate's width.

        The cutter stands out beyond the bearing by the rebate's width on each side. Raises ShapeError where a
        pivot guides the cutter, where no bearing is left, or where it does not go into the ring.
        """
        self._unless("pivot", "A pivot guides this cutter: it needs no bearing.")
        bearing = self.cutter_diameter - 2 * self.rebate_width
        if type(bearing) is float:
            refuse_bearing(self, bearing)
        return bearing

    def _unless(self, other, otherwise):
        """Refuse what belongs to one way of guiding the cutter where it is guided the other way."""
        if self.guide == other:
            raise ShapeError(otherwise, input="guide")

    @result("panel diameter", "D_p", checks="clearance", to_set=True)
    def panel_diameter(self):
        """Across the panel's disc: the rebate's diameter less the clearance on each side."""
        return self.rebate_diameter - 2 * self.clearance

    @result("panel cut, pivot", "p_p", checks="clearance", to_set=True)
    def panel_pivot(self):
        """Pivot's centre to cutter's centre for the panel, a disc: the cutter runs outside it, so half is added.

        Of the panel as it is planned; once the rebate is cut, take `as_measured`. Raises ShapeError without the
        panel's cutter.

        >>> Rebate("400 mm", "20 mm", "40 mm", "12 mm", "10 mm", clearance="2.5 mm", panel_cutter="12 mm").panel_pivot
        <Quantity(213.5, 'millimeter')>
        """
        return (self.panel_diameter + self.panel_cutter) / 2

    @result("passes, depth from the underside", "a_k", step="0.05 mm", plan=True, to_set=True)
    def passes(self):
        """Depths of the passes from the ring's underside: the fewest, the last a light one, the others equal."""
        return passes_with_finish(self.depth, self.pass_depth, self.finish_pass)

    def worries(self):
        if self.wall < self.ring_width / 3:
            yield Caution(
                "The wall left is {}, less than a third of the ring's width: it may break out under the cutter "
                "or when the panel swells. Make the rebate narrower.", self.wall, input="rebate_width",
            )
        if self.lip < self.panel_thickness / 2:
            yield Caution(
                "The lip left is {} high, less than half the panel's thickness: it carries all that lies on the "
                "tray when you lift it by the rim. Take a higher ring.", self.lip, input="ring_height",
            )
        if self.clearance == 0:
            yield Caution(
                "No clearance is left: a panel of solid wood has no room to swell. Work out its seasons first.",
                input="clearance",
            )
        if self.proud > 0:
            yield Caution(
                "Standing {} proud, the panel carries the tray. That is right on rails to which it is screwed; on a "
                "table top the tray rocks as soon as the panel cups: let it lie flush there.",
                self.proud, input="proud",
            )
        yield from worries_of_the_cutter(self)
        if 2 * self.clearance >= self.rebate_width:
            yield Caution(
                "Slid to one side, the panel leaves a gap of {} on the other and comes out from under a lip {} wide. "
                "Give less clearance or a wider rebate.",
                2 * self.clearance,
                self.rebate_width,
                input="clearance",
            )

    def on_card(self):
        """What is set first, then what the cut is measured by, then the panel."""
        return (
            self.guide, "reach", "rounds", "depth", "passes", "rebate_diameter", "wall", "lip", "panel_diameter",
            "panel_pivot",
        )

    def panel_from_measured(self, rebate_diameter):
        """The panel's diameter for a rebate as it was really cut: its measured diameter less the clearance twice.

        >>> Rebate("400 mm", "20 mm", "40 mm", "12 mm", "10 mm", clearance="2.5 mm").panel_from_measured("420.6 mm")
        <Quantity(415.6, 'millimeter')>
        """
        found = measure.plain("length", rebate_diameter)
        if found <= 2 * self.plain.clearance:
            raise ShapeError(
                "A rebate {} across leaves no panel with a clearance of {}: measure it again.",
                found, self.plain.clearance, input="clearance",
            )
        return public(found - 2 * self.plain.clearance, "length")

    def as_measured(self, rebate_diameter, cutter_diameter=None, unit="mm"):
        """The panel for a rebate as it was really cut, in words; with a cutter also the jig's pivot for that panel.

        >>> tray = Rebate("400 mm", "20 mm", "40 mm", "12 mm", "10 mm", clearance="2.5 mm")
        >>> tray.as_measured("420.6 mm", "12 mm")
        rebate diameter, as measured                       420.6 mm
        panel diameter for it                              415.6 mm
        pivot for that panel, its outside cut with 12.0 mm  213.8 mm
        """
        panel = self.panel_from_measured(rebate_diameter)
        sizes = [("rebate diameter, as measured", measure.plain("length", rebate_diameter))]
        sizes.append(("panel diameter for it", panel.m_as("mm")))
        if cutter_diameter is not None:
            jig = CircleJig(panel, cutter_diameter).plain
            cutter = length_in_full(jig.cutter_diameter, unit)
            sizes.append((f"pivot for that panel, its outside cut with {cutter}", jig.outer_pivot))
        return Facts((words, length_in_full(size, unit)) for words, size in sizes)

    def pivot_for(self, cutter_diameter):
        """The pivot for another cutter, whichever way this one is guided; see `pivot`.

        >>> Rebate("400 mm", "20 mm", "40 mm", "12 mm", "10 mm").pivot_for("12 mm")
        <Quantity(204.0, 'millimeter')>
        """
        return self.replace(cutter_diameter=cutter_diameter, guide="pivot").pivot

    def bearing_for(self, cutter_diameter):
        """The bearing for another cutter, whichever way this one is guided; see `bearing`.

        >>> Rebate("400 mm", "20 mm", "40 mm", "12 mm", "10 mm").bearing_for("32 mm")
        <Quantity(12.0, 'millimeter')>
        """
        return self.replace(cutter_diameter=cutter_diameter, guide="bearing").bearing

    def season(self, species, cut, made, dry, damp, ring="parallel"):
        """The gap all round as made, in the dry and in the damp season, with its cautions.

        `made`, `dry` and `damp` are moisture contents; see PanelSeason for `species`, `cut` and `ring`.

        >>> rebate = Rebate("400 mm", "20 mm", "40 mm", "12 mm", "10 mm", clearance="2.5 mm")
        >>> print(round(rebate.season("Ash, white", "flat", "8 %", "6 %", "12 %", ring="mitred").damp, 2))
        0.23 millimeter
        """
        panel = PanelSeason(
            self.rebate_diameter, self.clearance, species, cut, made, dry, damp, ring, self.rebate_width
        )
        return Season(panel.gap_as_made, panel.gap_dry, panel.gap_damp, panel.cautions)
