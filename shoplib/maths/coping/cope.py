"""A rail of rectangular section between two round legs."""

from typing import NamedTuple

from shoplib import measure
from shoplib.maths.coping.cutting_list import CuttingList, cut_of
from shoplib.maths.coping.meeting import LEG, check_count, check_meets, worries_tip
from shoplib.maths.functions import cos, least, most, sqrt, tan
from shoplib.model import Caution, Input, Model, ShapeError, angle, length, model, public, result

SHOWS = 0.2  # mm: a gap wider than this is called out


class Ordinate(NamedTuple):
    """One point of the cope curve: across the rail and along it, both from the longest tip."""

    across: float
    depth: float


@model
class Cope(Model):
    """A rail of rectangular section between two round legs, hollowed at both ends.

    The legs stand `leg_spacing` apart, centre to centre, at the rail's top edge. `offset` is the rail's
    centre line from the legs' centre line, positive towards the neighbouring rail. With `rake` both legs
    lean in the rail's plane and in no other, positive where they spread downward: legs that lean both ways are
    outside this model. A drum that sands the hollow stands where the leg will stand.

    >>> rail = Cope("35 mm", "20 mm", "360 mm")
    >>> round(rail.depth, 2), round(rail.rail_length, 2)
    (<Quantity(3.14, 'millimeter')>, <Quantity(331.28, 'millimeter')>)
    """

    leg_diameter: Input = length(**LEG, group="Legs and rail")
    rail_thickness: Input = length(
        "rail thickness", "t", low="6 mm", high="80 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.2 mm",
        help="Across the rail's top edge, planed.", group="Legs and rail",
    )
    leg_spacing: Input = length(
        "leg spacing", "S", low="100 mm", high="1200 mm", step="1 mm", inch_step="1/16 in", tolerance="0.5 mm",
        help="Leg's centre to leg's centre, at the height of the rail's top edge.", group="Legs and rail",
    )
    offset: Input = length(
        "offset", "e", low="-30 mm", high="30 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.3 mm",
        help="Rail's centre line from the legs' centre line; positive towards the neighbouring rail.", default="0 mm",
        group="Set over, or leaning",
    )
    rake: Input = angle(
        "rake", "rho", low="-20 deg", high="20 deg", step="0.5 deg", tolerance="0.2 deg",
        help="How far each leg leans in the rail's plane, and in no other; positive where the legs spread downward.",
        default="0 deg", group="Set over, or leaning",
    )
    rail_height: Input = length(
        "rail height", "h", low="10 mm", high="200 mm", step="1 mm", inch_step="1/16 in", tolerance="0.3 mm",
        help="Rail's top edge to its bottom edge. Needed for the bottom edge of a rail between leaning legs.",
        default=None, group="Legs and rail",
    )
    drum_diameter: Input = length(
        "drum diameter", "d", low="20 mm", high="150 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.2 mm",
        help="Across the sanding drum with its sleeve. Leave out for a hollow of the leg's own size.",
        default=None, group="Sanding drum",
    )

    def check(self):
        if abs(self.rake) > self.pi / 4:
            raise ShapeError("The rake must stay within 45 deg either way. Make the legs more upright.", input="rake")
        check_meets(self, self.far_edge, "offset" if self.rail_thickness < self.leg_diameter else "rail_thickness")
        self._check_spacing()
        if self.has("drum_diameter") and self.drum_diameter <= 2 * self.far_edge:
            raise ShapeError(
                "A drum of {} misses the rail's edge, which stands {} off the legs' centre line: it must be more "
                "than {} "
                "across. Take a larger drum.",
                self.drum_diameter, self.far_edge, 2 * self.far_edge, input="drum_diameter",
            )

    def _check_spacing(self):
        """The legs must not meet, neither at the rail's top nor at its bottom."""
        narrowest, across = self.leg_spacing, self.leg_diameter / cos(self.rake)
        if self.has("rail_height"):
            narrowest = min(narrowest, narrowest + 2 * self.rail_height * tan(self.rake))
        if narrowest <= across:
            raise ShapeError(
                "The legs run into each other: centre to centre they stand {} apart, and must stand more than {} "
                "apart. "
                "Set them wider, or more upright.", narrowest, across, input="leg_spacing",
            )

    @result("rail's edge, far", "y_1", minor=True)
    def far_edge(self):
        """Legs' centre line to the rail's edge that lies further from it: there the longest tip is."""
        return abs(self.offset) + self.rail_thickness / 2

    @result("rail, nearest the middle", "y_0", minor=True)
    def near_edge(self):
        """Legs' centre line to the nearest wood of the rail: nothing where the rail lies across that line."""
        return most(0 * self.rail_thickness, abs(self.offset) - self.rail_thickness / 2)

    @result("leg's centre to the longest tip", "x_1", minor=True)
    def tip_reach(self):
        """Leg's centre to the longest tip, along the rail in a level section.

        A level cut through a leaning leg is an ellipse, stretched along the rail by the rake's cosine.
        """
        return sqrt((self.leg_diameter / 2) ** 2 - self.far_edge**2) / cos(self.rake)

    @result("leg's centre to the hollow", "x_0", minor=True)
    def hollow_reach(self):
        """Leg's centre to the deepest point of the hollow, along the rail in a level section."""
        return sqrt((self.leg_diameter / 2) ** 2 - self.near_edge**2) / cos(self.rake)

    @result("cope depth", "c", checks="leg_diameter")
    def depth(self):
        """Longest tip to the deepest point of the hollow, along the rail in a level section.

        The rise of a chord (Machinery's Handbook, 31st ed., p. 50) where the rail is not offset.

        >>> Cope("26 mm", "10 mm", "360 mm").depth  # 5, 12, 13
        <Quantity(1.0, 'millimeter')>
        """
        return self.hollow_reach - self.tip_reach

    @result("rail's top edge, tip to tip", "L", checks="leg_spacing", to_set=True)
    def rail_length(self):
        """Longest tip to longest tip, along the rail's top edge: the length to saw where the legs are upright.

        >>> Cope("26 mm", "10 mm", "360 mm").rail_length
        <Quantity(336.0, 'millimeter')>
        """
        return self.leg_spacing - 2 * self.tip_reach

    @result("rail's bottom edge, tip to tip", "L_b", checks="leg_spacing", to_set=True)
    def rail_length_bottom(self):
        """Longest tip to longest tip, along the rail's bottom edge. Raises ShapeError without a rail height.

        >>> round(Cope("35 mm", "20 mm", "360 mm", rake="5 deg", rail_height="50 mm").rail_length_bottom, 2)
        <Quantity(339.92, 'millimeter')>
        """
        return self.rail_length + 2 * self.rail_height * tan(self.rake)

    @result("rail's shorter side, tip to tip", "L_o", checks="leg_spacing")
    def rail_length_other(self):
        """Tip to tip on the rail's side nearer to the legs' centre line, along its top: shorter with an offset."""
        inner = abs(self.offset) - self.rail_thickness / 2
        return self.leg_spacing - 2 * sqrt((self.leg_diameter / 2) ** 2 - inner**2) / cos(self.rake)

    @result("between the legs, at the rail's top", "b", checks="leg_spacing")
    def between(self):
        """Clear way between the dry legs, level at the rail's top edge; on the rail it is hollow to hollow.

        Raises ShapeError where the rail lies wholly beside the legs' centre line: then no place on it shows this
        way, and the legs themselves are to be measured.

        >>> Cope("26 mm", "10 mm", "360 mm", offset="3 mm").between
        <Quantity(334.0, 'millimeter')>
        """
        if type(self.offset) is type(self.rail_thickness) is float and abs(self.offset) > self.rail_thickness / 2:
            raise ShapeError(
                "The rail lies wholly beside the legs' centre line, so its hollows are not what stands between the "
                "legs. Measure the legs themselves.", input="offset",
            )
        return self.leg_spacing - self.leg_diameter / cos(self.rake)

    @result("drum's cope depth", "c_d", minor=True)
    def drum_depth(self):
        """Longest tip to deepest point of the hollow that the drum makes, leaning as the leg leans."""
        radius = self.drum_diameter / 2
        return (sqrt(radius**2 - self.near_edge**2) - sqrt(radius**2 - self.far_edge**2)) / cos(self.rake)

    @result("gap from the drum", "g", step="0.01 mm", inch_step="0.001 in", checks="drum_diameter")
    def drum_gap(self):
        """Widest gap along the rail, when the drum made the hollow and the rail is pushed up until it touches.

        A larger drum makes a flatter hollow: it touches where the hollow is deepest and gapes at the longest tip. A
        smaller one touches at the longest tips and gapes inside. Either way the gap is the difference of the depths.

        >>> round(Cope("35 mm", "20 mm", "360 mm", drum_diameter="38 mm").drum_gap, 2)
        <Quantity(0.29, 'millimeter')>
        """
        return abs(self.drum_depth - self.depth)

    @result("facing tip, along less across", "u_1", minor=True)
    def facing_step(self):
        """Leg's centre to the tip on the neighbour's side, along the rail, less the same across it."""
        return self._step(self.offset + self.rail_thickness / 2)

    @result("averted tip, along less across", "u_2", minor=True)
    def averted_step(self):
        """Leg's centre to the tip on the side away from the neighbour, along the rail, less the same across it."""
        return self._step(self.offset - self.rail_thickness / 2)

    def _step(self, edge):
        if type(self.rake) is float and self.rake != 0:
            raise ShapeError("Neighbours' tips are compared on upright legs only: set the rake to 0.", input="rake")
        return sqrt((self.leg_diameter / 2) ** 2 - edge**2) - edge

    @result("between the tips of neighbours", "n", checks="rail_thickness")
    def neighbour_gap(self):
        """Least distance between the tips of two such level rails that meet one upright leg at a right angle.

        The facing tips are the nearest, save where both rails are set far out. Nothing where the rails run into each
        other. Raises ShapeError for leaning legs.

        >>> round(Cope("35 mm", "20 mm", "360 mm").neighbour_gap, 2)
        <Quantity(6.17, 'millimeter')>
        """
        return sqrt(2 * most(0 * self.leg_diameter, least(self.facing_step, self.averted_step)) ** 2)

    @result("cope curve from the longest tip", "curve", kind="table", plan=True)
    def ordinates(self):
        """Nine points of the cope curve: across the rail's thickness and along the rail, from the longest tip."""
        return cope_curve(self, 9)

    def worries(self):
        if self.rake != 0:
            yield Caution(
                "The legs lean in this rail's plane only. Legs that lean both ways need another cope, and so do the "
                "rails across to these: do not cut those by this page.", input="rake", source="geometry",
            )
        elif self.neighbour_gap == 0:
            yield Caution(
                "Two such rails at one height run into each other inside the corner: take thinner rails, set them "
                "further out on a thicker leg, or set them at different heights.", input="rail_thickness",
                source="geometry",
            )
        if self.has("drum_diameter") and self.drum_gap > SHOWS:
            where = "at the tips" if self.drum_diameter > self.leg_diameter else "in the hollow"
            item = self.model.results()["drum_gap"]
            yield Caution(
                f"This drum leaves a gap of {{}} {where}. Take a drum nearer to the leg's size, or trim by hand "
                "to a trace.",
                (self.drum_gap, item.step, item.inch_step), input="drum_diameter",
            )
        yield from worries_tip(self, self.far_edge, "rail_thickness")

    def on_card(self):
        """What to saw, longest edge first; what to hollow; what to check in the dry stand."""
        edges = ["rail_length"]
        if self.rake != 0 and self.has("rail_height"):
            edges = ["rail_length_bottom", "rail_length"] if self.rake > 0 else ["rail_length", "rail_length_bottom"]
        shorter = ["rail_length_other"] if self.offset else []
        drum = ["drum_gap"] if self.has("drum_diameter") else []
        apart = ["neighbour_gap"] if self.rake == 0 else []
        return (*edges, *shorter, "depth", *drum, "between", *apart, "ordinates")

    def profile(self, n=9):
        """Points of the cope curve from one side of the rail to the other, in a level section.

        Each is measured across the rail's thickness and along the rail, from the longest tip.

        >>> Cope("26 mm", "10 mm", "360 mm").profile(3)[1]
        Ordinate(across=<Quantity(5.0, 'millimeter')>, depth=<Quantity(1.0, 'millimeter')>)
        """
        check_count(n)
        return public(cope_curve(self.plain, n), "length")

    def cutting_list(self, *spacings, unit="mm"):
        """The rails of a four-legged stand: for a square one all four alike, or two each for two leg spacings.

        Lengths are tip to tip, without allowance: saw to the longest edge, then cope until the tips just stay. Between
        leaning legs it lists the two rails in whose plane the legs lean; the rails across to them meet the legs
        otherwise, and are not in it. Raises ShapeError for two spacings then, and without a rail height.

        >>> Cope("26 mm", "10 mm", "360 mm").cutting_list("360 mm", "480 mm")
        rails  saw to, tip to tip  between the legs
        2      336.0 mm            334.0 mm
        2      456.0 mm            454.0 mm
        """
        if len(spacings) not in (0, 2):
            raise ShapeError("Give two leg spacings for a stand that is longer than wide, or none for a square one.")
        wanted = [measure.plain("length", each) for each in spacings] or [self.plain.leg_spacing]
        if self.plain.rake == 0:
            pieces = [(4, wanted[0])] if len(set(wanted)) == 1 else [(2, each) for each in wanted]
        elif spacings:
            raise ShapeError(
                "The legs lean in one plane only: the rails across to it meet them otherwise and cannot be listed. Ask "
                "for the list without spacings.", input="rake",
            )
        else:
            pieces = [(2, wanted[0])]
        cuts = [cut_of(self.replace(leg_spacing=measure.quantity(each, "mm")), count) for count, each in pieces]
        return CuttingList(cuts, type(self), unit)


def cope_curve(cope, n):
    """Points of a cope curve from the longest tip across the rail, in plain sizes."""
    radius = cope.leg_diameter / 2
    points = []
    for k in range(n):
        across = cope.rail_thickness * (k / (n - 1))
        reach = sqrt(radius**2 - (cope.far_edge - across) ** 2) / cos(cope.rake)
        points.append(Ordinate(across, reach - cope.tip_reach))
    return tuple(points)
