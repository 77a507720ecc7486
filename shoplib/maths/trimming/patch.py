"""A let-in patch with a flat bottom across a curved wall, routed with the base on feet."""

from shoplib.maths.functions import sqrt
from shoplib.model import REQUIRED, Caution, Input, Model, ShapeError, choice, model, result
from shoplib.model import length as size

LEAST_WOOD = 5.0  # mm


@model
class Patch(Model):
    """A patch let into the inside or outside wall of a ring where the grain tore.

    >>> patch = Patch("400 mm", "20 mm", "inside", "60 mm", "3 mm", "12 mm", "20 mm")
    >>> patch.rise.round(2), patch.patch_thickness.round(2), patch.wood_left.round(2)
    (<Quantity(2.26, 'millimeter')>, <Quantity(5.76, 'millimeter')>, <Quantity(14.94, 'millimeter')>)
    """

    diameter: Input = size(
        "diameter of the wall", "D", low="60 mm", high="1500 mm", step="1 mm", inch_step="1/16 in", tolerance="0.5 mm",
        help="Of the edge that is patched: inside or outside diameter.", group="Ring",
    )
    ring_width: Input = size(
        "ring width", "w", low="8 mm", high="150 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.3 mm",
        help="From the ring's inside to its outside.", group="Ring",
    )
    edge: Input = choice(
        "edge", "edge_of_ring", ("inside", "outside"), default=REQUIRED, help="Which wall is patched.", group="Ring",
    )
    length: Input = size(
        "patch length", "l", low="10 mm", high="300 mm", step="1 mm", inch_step="1/16 in", tolerance="0.5 mm",
        help="Along the wall, straight from end to end.", group="Patch",
    )
    depth: Input = size(
        "depth", "t", low="0.5 mm", high="30 mm", step="0.5 mm", inch_step="1/64 in", tolerance="0.2 mm",
        help="In the middle of the patch, from the wall to the flat bottom.", group="Patch",
    )
    cutter_diameter: Input = size(
        "cutter diameter", "d", low="3 mm", high="30 mm", step="0.1 mm", inch_step="1/64 in", tolerance="0.1 mm",
        help="Of the straight cutter.", group="Router",
    )
    feet_height: Input = size(
        "feet height", "f", low="5 mm", high="80 mm", step="0.5 mm", inch_step="1/32 in", tolerance="0.3 mm",
        help="From the wall at the patch's middle to the surface that the router's base slides on.",
        group="Router",
    )
    proud: Input = size(
        "left proud", "p", low="0 mm", high="3 mm", step="0.1 mm", inch_step="1/64 in", tolerance="0.1 mm",
        help="To be trimmed flush after the glue has set.", default="0.5 mm", group="Patch",
    )

    def check(self):
        if self.edge == "outside" and self.ring_width >= self.diameter / 2:
            raise ShapeError(
                "A ring {} wide is a full disc: its outside is only {} across. Make it narrower.",
                self.ring_width, self.diameter, input="ring_width",
            )
        if self.length >= self.diameter:
            raise ShapeError(
                "A patch {} long does not lie in a wall {} across. Make it shorter.",
                self.length, self.diameter, input="length",
            )
        if self.edge == "outside" and self.end_depth <= 0:
            raise ShapeError(
                "On the outside the wall falls away by {} at the patch's ends: a depth of {} does not reach there. "
                "Go deeper than {}, or make the patch shorter.", self.rise, self.depth, self.rise, input="depth",
            )
        if self.edge == "inside" and self.feet_height <= self.rise:
            raise ShapeError(
                "The wall rises {} at the patch's ends: a base only {} off its middle runs into it. Take higher feet.",
                self.rise, self.feet_height, input="feet_height",
            )
        if self.wood_left <= 0:
            raise ShapeError(
                "The patch's bottom comes out of a ring {} wide. Go less deep, or make it shorter.",
                self.ring_width, input="depth",
            )
        if self.cutter_diameter > self.length:
            raise ShapeError(
                "A cutter of {} is larger than the patch is long ({}). Take a smaller one.",
                self.cutter_diameter, self.length, input="cutter_diameter",
            )

    def on_card(self):
        """In the order of work: how far to plunge, what that makes, the patch to fit, what is left."""
        return ("plunge", "end_depth", "patch_thickness", "corner_radius", "wood_left", "rise")

    @result("rise of the wall", "h", step="0.01 mm")
    def rise(self):
        """How far the wall bends away from a straight edge over half the patch: the sagitta."""
        radius = self.diameter / 2
        return radius - sqrt(radius**2 - (self.length / 2) ** 2)

    @result("which way the wall bends", "sigma", kind="count", plan=True, minor=True)
    def bend(self):
        """1 on an inside wall, which comes towards the router at the patch's ends; -1 on an outside one."""
        return 1 if self.edge == "inside" else -1

    @result("depth at the ends", "t_e", step="0.01 mm")
    def end_depth(self):
        """From the wall to the flat bottom at the patch's ends: deeper than in the middle on an inside wall."""
        return self.depth + self.bend * self.rise

    @result("deepest place of the pocket", "t_m", plan=True, minor=True)
    def deepest(self):
        """From the wall to the flat bottom where it is deepest: at the ends inside, in the middle outside."""
        return self.end_depth if self.edge == "inside" else self.depth

    @result("patch thickness", "T", to_set=True)
    def patch_thickness(self):
        """Of the patch before it is trimmed, flat bottom to flat top: it stands proud where the pocket is deepest."""
        return self.deepest + self.proud

    @result("wall to wall over the patch", "w_l", plan=True, minor=True)
    def back(self):
        """From the patched wall's middle, square to the bottom, to the other wall where it is nearest."""
        if self.edge == "outside":
            return self.ring_width
        return sqrt((self.diameter / 2 + self.ring_width) ** 2 - (self.length / 2) ** 2) - self.diameter / 2

    @result("wood left behind", "W")
    def wood_left(self):
        """Least wood between the patch's flat bottom and the ring's other wall."""
        return self.back - self.depth

    @result("plunge", "P", checks="depth", to_set=True)
    def plunge(self):
        """From the router base's underside down to the patch's bottom, in the middle."""
        return self.feet_height + self.depth

    @result("corner radius left", "c")
    def corner_radius(self):
        """What the cutter leaves in each corner, to be squared with a chisel."""
        return self.cutter_diameter / 2

    def worries(self):
        if self.wood_left < LEAST_WOOD:
            yield Caution(
                "Only {} of wood are left behind the patch: clamp softly, or go less deep.", self.wood_left,
                input="depth",
            )
        if self.proud == 0:
            yield Caution("A patch that is not left proud ends below the wall once it is trimmed.", input="proud")
