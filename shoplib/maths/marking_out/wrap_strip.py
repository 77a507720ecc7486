"""The paper strip wrapped round a leg: its girth, its quarters and heights, and where a slip of it sends a rail."""

from typing import NamedTuple

from shoplib import measure
from shoplib.maths.functions import tan
from shoplib.maths.marking_out import strip_limits
from shoplib.model import Input, Model, ShapeError, choice, length, model, public, result

LEG, STRIP, SLIPS, RAILS = "Leg", "Strip", "Slips", "Rails and dowels"
SIDES = ("right", "left")


class Height(NamedTuple):
    """What is marked, and how far below the leg's top it lies on either rail's line."""

    mark: str
    first_rail: object
    second_rail: object


@model
class WrapStrip(Model):
    """A strip of paper wrapped round a leg, cut where its ends just meet and folded into quarters.

    The first rail comes on one line of it, the second on the next, a quarter on. Where the rails lie is optional:
    with it the strip reaches from the leg's top to below the lower rail and carries the dowels' heights.

    >>> strip = WrapStrip("35 mm", "360 mm")
    >>> strip.girth.round(2), strip.quarter.round(2)
    (<Quantity(110.27, 'millimeter')>, <Quantity(27.57, 'millimeter')>)
    """

    leg_diameter: Input = length(
        "leg diameter", "D", low="15 mm", high="90 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.2 mm",
        help="Of the finished leg where the strip lies.", group=LEG,
    )
    leg_spacing: Input = length(
        "leg spacing", "a", low="100 mm", high="1500 mm", step="1 mm", inch_step="1/16 in", tolerance="1 mm",
        help="From this leg's centre to that of the leg at the rail's other end.", group=LEG,
    )
    paper_thickness: Input = length(
        "paper thickness", "t", low="0 mm", high="1 mm", step="0.01 mm", inch_step="0.001 in", tolerance="0.02 mm",
        help="Of the strip. Office paper is about 0.1 mm, or four thousandths of an inch.", default="0.1 mm",
        group=STRIP,
    )
    strip_error: Input = length(
        "second mark out by", "e", low="0 mm", high="5 mm", step="0.1 mm", inch_step="1/64 in", tolerance="0.1 mm",
        help="How far the second rail's mark stands from its place, a quarter from the first rail's, round the strip.",
        default="0.3 mm", group=SLIPS,
    )
    line_drift: Input = length(
        "line along the leg drifts", "s", low="0 mm", high="5 mm", step="0.1 mm", inch_step="1/64 in",
        tolerance="0.1 mm", help="How far the line from the upper to the lower rail wanders round the leg.",
        default="0 mm", group=SLIPS,
    )
    upper_rail: Input = length(
        "leg's top to upper rail", "y_u", low="0 mm", high="1200 mm", step="1 mm", inch_step="1/16 in",
        tolerance="0.5 mm", help="Down to the rail's upper edge. Left out: a short strip with quarters only.",
        default=None, group=RAILS,
    )
    lower_rail: Input = length(
        "leg's top to lower rail", "y_l", low="0 mm", high="1200 mm", step="1 mm", inch_step="1/16 in",
        tolerance="0.5 mm", help="Down to the rail's upper edge. Left out where there is one rail on each line.",
        default=None, group=RAILS,
    )
    rail_height: Input = length(
        "rail height", "h", low="20 mm", high="150 mm", step="1 mm", inch_step="1/16 in", tolerance="0.3 mm",
        help="From edge to edge. Needed with the rails.", default=None, group=RAILS,
    )
    dowel_edge: Input = length(
        "upper edge to first dowel", "f", low="4 mm", high="75 mm", step="0.5 mm", inch_step="1/32 in",
        tolerance="0.3 mm", help="From the rail's upper edge to the hole's centre. Left out: no dowels are marked.",
        default=None, group=RAILS,
    )
    dowel_spacing: Input = length(
        "between the dowels", "m", low="5 mm", high="120 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.3 mm",
        help="Centre to centre of the two holes in one rail end. Left out: one dowel.", default=None, group=RAILS,
    )
    stagger: Input = length(
        "stagger", "g_s", low="0 mm", high="40 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.3 mm",
        help="How much lower the second rail's holes sit than the first one's.", default="0 mm", group=RAILS,
    )
    second_side: Input = choice(
        "second rail, seen facing the first", "side_of_second", SIDES,
        help="Right of the first rail's line on two legs of a stand, left of it on the two between them.",
        default="right", group=RAILS,
    )

    def check(self):
        strip_limits.check(self)

    def worries(self):
        return strip_limits.worries(self)

    def on_card(self):
        """The strip, then what is marked from it; what a slip does stands in the cautions."""
        return ("girth", "quarter", *(("heights",) if self.has("upper_rail") else ()))

    @result("girth", "g", checks="leg_diameter", to_set=True)
    def girth(self):
        """Length of the strip, laid flat, whose ends just meet round the leg: along the middle of the paper.

        The bent paper keeps its length in the middle of its thickness: a circle of the leg's diameter and one paper.
        """
        return self.pi * (self.leg_diameter + self.paper_thickness)

    @result("quarter", "q", step="0.05 mm", checks="leg_diameter", to_set=True)
    def quarter(self):
        """From one quarter mark to the next along the strip."""
        return self.girth / 4

    @result("second mark's angle is out by", "alpha", kind="angle")
    def angle_error(self):
        """Angle at the leg's centre by which the second rail's mark stands off its place on the wrapped strip.

        >>> WrapStrip("35 mm", "360 mm").angle_error.round(2)
        <Quantity(0.98, 'degree')>
        """
        return self.strip_error / ((self.leg_diameter + self.paper_thickness) / 2)

    @result("rail misses the far leg's centre by", "m_1")
    def rail_miss(self):
        """How far beside the far leg's centre the second rail points, square to the line between the two centres.

        The first rail lies true: a round leg can be turned until one of its rails does.

        >>> WrapStrip("35 mm", "360 mm").rail_miss.round(1)
        <Quantity(6.2, 'millimeter')>
        """
        return self.leg_spacing * tan(self.angle_error)

    @result("lower rail turned against upper", "tau", kind="angle")
    def twist(self):
        """Angle, seen from above, between upper and lower rail in one leg when the line along it drifts."""
        return self.line_drift / (self.leg_diameter / 2)

    @result("lower rail misses by", "m_2")
    def lower_miss(self):
        """How far beside the far leg's centre the lower rail points while the upper one points right."""
        return self.leg_spacing * tan(self.twist)

    @result("heights, down from the leg's top", "y", kind="table", plan=True)
    def heights(self):
        """From the leg's top down to each rail's upper edge and to the dowels' centres, on both rails' lines.

        Raises ShapeError where the upper rail is left out.
        """
        rows = []
        for name, top in self._rails():
            rows.append(Height(f"{name} rail's upper edge", top, top))
            if self.has("dowel_edge"):
                for words, down in self._dowels():
                    rows.append(Height(f"{name} rail, {words}", top + down, top + down + self.stagger))
        return tuple(rows)

    def _rails(self):
        """The rails on one line of the leg: their names, and how far their upper edges lie below the leg's top."""
        lower = (("lower", self.lower_rail),) if self.has("lower_rail") else ()
        return (("upper", self.upper_rail), *lower)

    def _dowels(self):
        """The dowels of one rail end: what each is called, and how far it lies below the rail's upper edge."""
        if not self.has("dowel_spacing"):
            return (("dowel", self.dowel_edge),)
        return (("upper dowel", self.dowel_edge), ("lower dowel", self.dowel_edge + self.dowel_spacing))

    def leg_from_girth(self, measured):
        """The leg's diameter from a measured girth of this paper: measured/pi less one paper.

        Raises ShapeError where nothing is left for a leg.

        >>> WrapStrip("35 mm", "360 mm").leg_from_girth("110.3 mm").round(2)
        <Quantity(35.01, 'millimeter')>
        """
        size = measure.plain("length", measured)
        found = size / self.plain.pi - self.plain.paper_thickness
        if found <= 0:
            raise ShapeError("A girth of {} leaves no leg: measure the strip again.", size)
        return public(found, "length")
