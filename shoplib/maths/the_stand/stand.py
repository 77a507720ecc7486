"""The whole stand as one model: every size of it once, and what follows from them."""

from functools import cached_property

from shoplib.maths.functions import acos, atan, choose, cos, least, most, sin, sqrt
from shoplib.maths.the_stand import limits, weights
from shoplib.maths.the_stand.bound import bound_operations, changes, moved_by
from shoplib.maths.the_stand.filling import built
from shoplib.maths.the_stand.made import checked, measurable, read_measured
from shoplib.maths.the_stand.operations import OPERATIONS
from shoplib.maths.the_stand.order import order
from shoplib.maths.the_stand.sizes import with_sizes
from shoplib.model import Cautions, Model, ShapeError, known, model, result


@model
@with_sizes
class Stand(Model):
    """The whole stand: round trays on four round legs, rails between them, casters at one end, a pull bar at the other.

    Each size stands here once. What a lesson works out is worked out by that lesson's model, filled from these sizes.
    Heights are above the floor, the stand level on its casters. Distances along run from the line of the casters.

    >>> from shoplib.maths.the_stand import seedling_stand
    >>> seedling_stand().tell("rail_length", "tray_clear", "weight")
    rail, tip to tip        331.3 mm
    tray clear of the legs  17.1 mm
    weight, empty           7.2 kg
    """

    TABLE_HEAD = "It comes to"

    def check(self):
        limits.check(self)
        for operation in OPERATIONS.values():
            if operation.of(self):
                checked(self, operation, self)

    def worries(self):
        yield from limits.worries(self)
        said = set()  # two operations of one lesson may share a worry: it is told once
        for operation in OPERATIONS.values():
            if operation.of(self):
                for caution in operation.solved(self).worries():
                    own = (operation.lesson, caution.sentence, caution.lengths)
                    if own not in said:
                        said.add(own)
                        yield limits.caution_from_lesson(self, operation, caution)

    def replace(self, **changes):
        """The same stand with some sizes changed, the others and what was made kept to the last digit."""
        for name in changes:
            known(name, self.inputs(), "input")
        given = {name: self.inputs()[name].read(value) for name, value in changes.items()}
        return _stand(self.values | given, self.made)

    def of_plain(self, values):
        """The stand of other sizes in plain values (mm, rad, kg), with what was made of this one."""
        return _stand(dict(values), self.made)

    def on_card(self):
        """Sizes over all, what has to be clear, and what it weighs."""
        bar = ("handle_reach",) if self.pull_bar != "none" else ()
        return (
            "overall_height", "overall_width", "overall_length", "rail_length", "tray_clear", "way_in_spare", *bar,
            "shortened_leg", "weight", "loaded_weight",
        )

    # Operations and order

    def operations(self):
        """The operations in the order of work, each with its model, part and count."""
        return self.__dict__.setdefault("_operations", bound_operations(self))

    def operation(self, name):
        """One of them.

        >>> from shoplib.maths.the_stand import seedling_stand
        >>> seedling_stand().operation("rebate").model.depth
        <Quantity(12.0, 'millimeter')>
        """
        found = {each.name: each for each in self.operations()}
        known(name, found, "operation")
        return found[name]

    def order(self):
        """The steps of the work in an order that cannot trap."""
        return order(self.plain)

    def changes(self, other):
        """What another stand's operations come to that this one's do not."""
        return changes(self, other)

    def moved_by(self, name):
        """The names of the operations that hang on a size."""
        known(name, self.inputs(), "input")
        return moved_by(self, name)

    @property
    def rolling(self):
        """Lesson 07's model of this stand with its trays loaded."""
        return self.operation("rolling").model

    def parts(self):
        """The parts as they go to the saw, for lesson 12.

        >>> from shoplib.maths.the_stand import seedling_stand
        >>> seedling_stand().parts()[1]
        Part: 8 rail, 332.0 x 50.0 x 20.0 mm, Ash, white
        """
        from shoplib.maths.the_stand.parts import parts_of  # timber is a topic of its own: loaded when asked for

        return parts_of(self)

    @property
    def cautions(self):
        """What should worry you: of the whole, and of each operation with its lesson."""
        said, found = set(), list(limits.worries(self.plain_with(self.made)))
        for operation in self.operations():
            for caution, told in zip(operation.plain.worries(), operation.cautions):
                own = (operation.lesson, caution.sentence, caution.lengths)
                if own not in said:
                    said.add(own)
                    found.append(told)
        return Cautions(found)

    # As made

    @property
    def made(self):
        """What was really measured, by the names of sizes and results, in plain values (mm, rad, kg)."""
        return dict(self.__dict__.get("_made", {}))

    def as_made(self, **measured):
        """The same stand, some of its sizes as they were really measured.

        A name is that of a size, or of a result that some operation is filled from. What is done later than the step
        that makes it is worked out from the measured size. Raises ShapeError where that can no longer be made.

        >>> from shoplib.maths.the_stand import seedling_stand
        >>> thin = seedling_stand().as_made(panel_thickness="11.7 mm")
        >>> thin.operation("rebate").model.depth, thin.panel_thickness
        (<Quantity(11.7, 'millimeter')>, <Quantity(12.0, 'millimeter')>)
        """
        may_be = measurable(type(self))
        read = {}
        for name, value in measured.items():
            known(name, may_be, "size to measure")
            read[name] = read_measured(may_be[name], value)
        return _stand(self.values, self.made | read)

    def not_made(self, *names):
        """The same stand, these sizes nominal again."""
        for name in names:
            known(name, self.made, "measured size")
        return _stand(self.values, {name: value for name, value in self.made.items() if name not in names})

    def plain_with(self, measured):
        """The stand-in with some sizes as measured, the others nominal."""
        if not measured:
            return self.plain
        kept, key = self.__dict__.setdefault("_known", {}), frozenset(measured)
        if key not in kept:
            inputs = self.inputs()
            plain = self.Stand(self.values | {name: value for name, value in measured.items() if name in inputs})
            plain.__dict__.update((name, value) for name, value in measured.items() if name not in inputs)
            kept[key] = plain
        return kept[key]

    def __eq__(self, other):
        return type(self) is type(other) and (self.values, self.made) == (other.values, other.made)

    def __hash__(self):
        return hash((tuple(self.values.items()), frozenset(self.made.items())))

    def instance(self, name):
        """An operation's model on these very sizes, unchecked: floats, Quantities or symbols."""
        kept = self.__dict__.setdefault("_instances", {})
        if name not in kept:
            kept[name] = OPERATIONS[name].instance(self)
        return kept[name]

    @property
    def rail_tops(self):
        """The rails' top edges above the floor, from below: a tray lies on each."""
        return (self.lower_rail_top, self.upper_rail_top) if self.trays > 1 else (self.upper_rail_top,)

    # The trays

    @result("inside of the rims", "d_i")
    def rim_inside(self):
        """Across a rim's hole, above the rebate."""
        return self.tray_diameter - 2 * self.rim_width

    @result("rebate depth", "T_r")
    def rebate_depth(self):
        """Rim's underside to the rebate's floor: lesson 03's."""
        return 1 * self.instance("rebate").depth

    @result("rebate diameter", "D_r")
    def rebate_diameter(self):
        """Across the rebate, wall to wall: lesson 03's."""
        return 1 * self.instance("rebate").rebate_diameter

    @result("panel diameter", "D_p")
    def panel_diameter(self):
        """Across a panel's disc: lesson 03's, from the rebate's diameter, the measured one where it is known."""
        return 1 * self.instance("rebate").panel_diameter

    @result("patched wall, across", "D_e", plan=True, minor=True)
    def patched_wall(self):
        """Diameter of the wall that is patched, outside or inside."""
        return self.tray_diameter if self.patch_edge == "outside" else self.rim_inside

    @result("surface to finish", "A_f", kind="surface", step="0.05 m2", plan=True)
    def finish_area(self):
        """All faces that get finish, added up: panels, rims, legs, rails and bar, the ends left out."""
        return weights.surface(self) * self.square_metre / (1e6 * self.millimetre**2)

    # Sizes over all, and what has to be clear

    @result("height over all", "H_a")
    def overall_height(self):
        """Floor to the legs' tops, or to the upper rim's where that is higher."""
        return most(self.stand_height, self.upper_rail_top + self.panel_proud + self.rim_height)

    @result("width over all", "W_a")
    def overall_width(self):
        """Across the stand, square to the way it rolls: over the legs, or over the trays where they stand out."""
        return most(self.leg_spacing + self.leg_diameter, self.tray_diameter)

    @result("length over all", "L_a", plan=True)
    def overall_length(self):
        """From the casters' end, over legs or tray, to the bar's outer side; the wheels' trail is not counted."""
        half, middle = self.overall_width / 2, self.leg_spacing / 2
        if self.pull_bar == "none":
            return 2 * half
        return half + most(half, self.handle_reach - middle + self.bar_diameter / 2)

    @result("tray clear of the legs", "f_t")
    def tray_clear(self):
        """Between a tray's rim and the legs: half the diagonal of their square, less half a leg and half the tray."""
        return sqrt(2 * self.leg_spacing**2) / 2 - self.leg_diameter / 2 - self.tray_diameter / 2

    @result("rails, upper to lower", "f_r")
    def rail_gap(self):
        """Clear height between the upper rails' bottom edge and the lower rails' top edge.

        Raises ShapeError for one tray.
        """
        if type(self.trays) is int and self.trays < 2:
            raise ShapeError("One tray lies on the upper rails: there are no lower ones.", input="trays")
        return self.upper_rail_top - self.rail_height - self.lower_rail_top

    @result("between the legs", "f_l")
    def legs_clear(self):
        """Clear way between two neighbouring legs: lesson 05's."""
        return 1 * self.instance("rails").between

    @result("tray's corner line", "R_c", minor=True)
    def tray_diagonal(self):
        """Seen from the side, from one edge of a tray's underside to the opposite edge of its top."""
        return sqrt(self.tray_diameter**2 + self.rim_height**2)

    @result("diagonal of the legs", "X_l")
    def diagonal(self):
        """Leg centre to leg centre across the square: what both diagonals measure once it is true."""
        return 1 * self.instance("squareness").target

    @result("first diagonal, as it should be", "X_1", minor=True)
    def first_diagonal(self):
        """Front left to back right: measured on the dry stand."""
        return 1 * self.diagonal

    @result("second diagonal, as it should be", "X_2", minor=True)
    def second_diagonal(self):
        """Front right to back left: measured on the dry stand."""
        return 1 * self.diagonal

    @result("lower tray, on edge, leans by at least", "alpha_e", kind="angle", step="0.1 deg", minor=True)
    def least_lean(self):
        """The least lean from upright at which the tray's height, T cos a + t sin a, passes between the rails.

        T across the tray, t the rim's height. Nothing where it passes upright, on its edge.
        """
        gap = self.rail_gap
        lean = atan(self.rim_height / self.tray_diameter) + acos(least(gap / self.tray_diagonal, 1))
        return choose(gap < self.tray_diameter, lean, 0 * lean)

    @result("lower tray goes in leaning by", "alpha_t", kind="angle", step="0.1 deg")
    def way_in_tilt(self):
        """From upright, on its edge, the lean that leaves most room between the legs: the least one, or lying level.

        Raises ShapeError where the rails leave less than the rim is high.
        """
        gap = self.rail_gap
        if type(gap) is float and gap < self.rim_height:
            raise ShapeError(
                "The rails leave {} between them, less than the rim is high ({}): no tray goes in there.",
                gap, self.rim_height, input="lower_rail_top",
            )
        return choose(self._across(self.least_lean) <= self.tray_diameter, self.least_lean, self.pi / 2)

    def _across(self, lean):
        """Level width of a tray that leans so far from upright, along the way between the legs."""
        return self.tray_diameter * sin(lean) + self.rim_height * cos(lean)

    @result("spare beside the lower tray", "f_w")
    def way_in_spare(self):
        """What the tray at that lean, T sin a + t cos a across, leaves between two legs; less than nothing: shut out.

        Raises ShapeError as the lean does.
        """
        return self.legs_clear - self._across(self.way_in_tilt)

    # Legs, rails and joints

    @result("rail, tip to tip", "L_r")
    def rail_length(self):
        """Longest tip to longest tip: lesson 05's."""
        return 1 * self.instance("rails").rail_length

    @result("between the dowels", "m_d")
    def dowel_spacing(self):
        """Centre to centre of neighbouring dowels in one rail end: lesson 04's. Raises ShapeError for a single one."""
        return 1 * self.instance("dowels").spacing

    @result("dowel hole in the rail", "a_d")
    def dowel_in_rail(self):
        """From the bottom of the cope to the hole's flat bottom: lesson 04's."""
        return 1 * self.instance("dowels").rail_depth

    @result("leg with a caster", "H_c")
    def shortened_leg(self):
        """Length of a leg that carries a caster: lesson 07's."""
        return 1 * self.instance("caster_legs").shortened_leg

    @result("caster hole, deep", "T_c")
    def caster_hole_depth(self):
        """From the leg's cut end to the bottom of its hole: lesson 07's."""
        return 1 * self.instance("caster_legs").hole_depth

    @result("moisture when screwed", "M_3", kind="percent")
    def moisture_screwed(self):
        """The panels' moisture on the day of screwing: as worked, until the meter tells another."""
        return 1 * self.moisture_made

    # The pull bar

    @result("legs apart at the bar", "W_b")
    def bar_width(self):
        """Between the centre lines of the two legs that carry the bar: measured on the dry stand."""
        return 1 * self.leg_spacing

    @result("bar's centre line off the legs", "R_b")
    def bar_reach(self):
        """From the legs' surface to the bar's centre line: hand room and half the bar."""
        return self.hand_room + self.bar_diameter / 2

    @result("bar clear of the upper rim", "f_b")
    def bar_room(self):
        """Level, between the bar and the edge of a tray, where the bar is at the height of its rim.

        Raises ShapeError without a bar.
        """
        if self.pull_bar == "none":
            raise ShapeError("This stand has no bar.", input="pull_bar")
        return self.leg_spacing / 2 + self.leg_diameter / 2 + self.hand_room - self.tray_diameter / 2

    @result("arms' tips beyond the leg's surface", "k_a", minor=True)
    def arm_tips(self):
        """What a coped arm of the bar's thickness needs beyond the leg's surface: half a leg less the tips' reach."""
        half = self.leg_diameter / 2
        return half - sqrt(half**2 - (self.bar_diameter / 2) ** 2)

    @result("bar, end to end", "L_b", plan=True)
    def bar_length(self):
        """Of a bar on stubs: lesson 10's. Raises ShapeError for another bar."""
        self._needs("stubs")
        return 1 * self.instance("stub_bar").bar_length

    @result("stub, end to end", "L_s", plan=True)
    def stub_length(self):
        """Lesson 10's. Raises ShapeError for another bar."""
        self._needs("stubs")
        return 1 * self.instance("stub_bar").stub_length

    @result("round stock for the bar", "L_k", plan=True)
    def bar_stock_length(self):
        """The bar; a mitred one end to end with its two arms, a saw cut at each of the four sawn ends.

        Raises ShapeError without a bar.
        """
        if self.pull_bar == "stubs":
            return 1 * self.bar_length
        self._needs("mitred")
        bar = self.instance("mitred_bar")
        return bar.bar_long + 2 * bar.arm_long + 4 * self.saw_kerf

    def _needs(self, bar):
        if self.pull_bar != bar:
            raise ShapeError(f"This stand has no bar that is {WAYS[bar]}.", input="pull_bar")

    @result("casters to the hand", "R_h", plan=True)
    def handle_reach(self):
        """Level, from the line of the casters to the bar's centre line; without a bar to the far legs."""
        if self.pull_bar == "none":
            return 1 * self.leg_spacing
        return self.leg_spacing + self.leg_diameter / 2 + self.bar_reach

    @result("load on the bar", "P_b", kind="mass", plan=True)
    def bar_load(self):
        """What the hand lifts with the trays loaded: lesson 07's lift; on four casters half the weight, over a sill."""
        return 1 * self.instance("rolling").lift if self.casters == 2 else self.loaded_weight / 2

    # Weight

    @cached_property
    def _empty(self):
        return weights.loads(self)

    @cached_property
    def _loaded(self):
        return (*self._empty, *weights.on_the_trays(self))

    @result("weight, empty", "W_0", kind="mass", plan=True)
    def weight(self):
        """Of all parts and casters, from their volumes and densities, part by part.

        Density 1000 G (1 + M) kg for each cubic metre, G from the Wood Handbook's Table 5-3a. Glue, finish, screws and
        the clearances at the dowels' ends are left out.
        """
        return weights.total(self._empty)

    @result("centre of gravity, height", "Z_0", step="1 mm", plan=True)
    def cg_height(self):
        """Above the floor, nothing on the trays."""
        return weights.centre(self._empty, "height")

    @result("centre of gravity, from the casters", "Y_0", step="1 mm", plan=True)
    def cg_from_casters(self):
        """Level, from the line of the casters, nothing on the trays."""
        return weights.centre(self._empty, "along")

    @result("weight, loaded", "W_1", kind="mass", plan=True)
    def loaded_weight(self):
        """With the load on each tray."""
        return weights.total(self._loaded)

    @result("loaded, centre of gravity's height", "Z_1", step="1 mm", plan=True)
    def loaded_height(self):
        """Above the floor, with the load on each tray."""
        return weights.centre(self._loaded, "height")

    @result("loaded, centre of gravity from the casters", "Y_1", step="1 mm", plan=True)
    def loaded_from_casters(self):
        """Level, from the line of the casters, with the load on each tray."""
        return weights.centre(self._loaded, "along")


def _stand(values, made):
    """The stand of plain values and measured ones; raises ShapeError where one of its operations cannot be made."""
    found = built(Stand, values)
    if made:
        found.__dict__["_made"] = made
        limits.check(found.plain_with(made))
        for each in found.operations():
            checked(found.plain, each.operation, each.filled_from)
    return found


WAYS = {"stubs": "let in on stubs", "mitred": "mitred to arms"}
