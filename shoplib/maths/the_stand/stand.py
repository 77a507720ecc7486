"""The whole stand as one model: every size of it once, and what follows from them."""

from dataclasses import KW_ONLY
from functools import cached_property

from shoplib.maths.casters import CasterLeg, Rolling
from shoplib.maths.circle_jigs import CircleJig
from shoplib.maths.coping import Cope
from shoplib.maths.dowels import DowelFit, DowelJoint, RoundStock
from shoplib.maths.functions import acos, atan, choose, cos, least, most, sin, sqrt
from shoplib.maths.marking_out import CornerBlock, Cradle, WrapStrip
from shoplib.maths.pull_bars import StubBar
from shoplib.maths.rebates import Rebate
from shoplib.maths.screws import PanelScrew
from shoplib.maths.stave_rings import HollowBlank, StaveRing
from shoplib.maths.the_stand import limits, weights
from shoplib.maths.the_stand.filling import built
from shoplib.maths.the_stand.operations import OPERATIONS
from shoplib.maths.the_stand.taken import taken
from shoplib.maths.trimming import GrainArcs, Patch, TwoFaces
from shoplib.maths.wood import timbers_with
from shoplib.model import REQUIRED, Input, Model, ShapeError, choice, count, known, length, mass, model, result

FRAME = tuple(each for each in timbers_with("strength") if each in timbers_with("specific_gravity"))


@model
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

    _: KW_ONLY
    trays: Input = count(
        "trays", "n_t", 1, 2, help="Two, one above the other; or only the upper one.", default=2, group="Trays",
    )
    tray_diameter: Input = taken(CircleJig, "diameter", "tray diameter", "D", "Trays", help="Across the finished rim.")
    rim_width: Input = taken(
        CircleJig, "ring_width", "rim width", "w", "Trays",
        help="From the rim's inside to its outside.", default=REQUIRED,
    )
    rim_height: Input = taken(
        Rebate, "ring_height", "rim height", "h", "Trays", help="From the rim's underside to its top.",
    )
    panel_thickness: Input = taken(Rebate, "panel_thickness", "panel thickness", "t", "Trays")
    rebate_width: Input = taken(
        Rebate, "rebate_width", "rebate width", "b", "Trays", help="From the rim's inside to the rebate's wall.",
    )
    panel_clearance: Input = taken(Rebate, "clearance", "clearance of the panel", "c", "Trays", default=REQUIRED)
    panel_proud: Input = taken(Rebate, "proud", "panel proud of the rim", "p", "Trays")
    ring_route: Input = taken(
        GrainArcs, "construction", "rims made of", "route_of_rings", "Rings",
        help="Staves: mitred all round. Boards: grain one way, the middle left open.", default="staves",
    )
    ring_layers: Input = count(
        "layers of each rim", "n_l", 1, 4, help="Rings of staves or boards, glued one on another.", default=2,
        group="Rings",
    )
    staves: Input = taken(StaveRing, "staves", "staves of a rim", "n_s", "Rings", default=12)
    ring_board_width: Input = taken(
        HollowBlank, "board_width", "board width, rims of boards", "B", "Rings", default="60 mm",
    )
    seam_on_centre: Input = taken(
        HollowBlank, "seam_on_centre", "seam on the centre line, rims of boards", "seam", "Rings",
    )
    ring_margin: Input = taken(StaveRing, "margin", "margin of the blanks", "m", "Rings", default="3 mm")
    leg_diameter: Input = taken(
        DowelJoint, "leg_diameter", "leg diameter", "D_l", "Legs and rails", help="Across the four round legs.",
    )
    stand_height: Input = taken(
        CasterLeg, "leg_length", "height of the legs' tops", "H", "Legs and rails",
        help="Above the floor: the length of a leg without a caster.",
    )
    leg_spacing: Input = taken(
        Cope, "leg_spacing", "leg spacing", "S", "Legs and rails",
        help="Centre to centre, along each side of the square.",
    )
    rail_thickness: Input = taken(
        PanelScrew, "rail_thickness", "rail thickness", "t_r", "Legs and rails",
        help="Across the rail's top edge, planed.",
    )
    rail_height: Input = taken(
        PanelScrew, "rail_height", "rail height", "h_r", "Legs and rails",
        help="From edge to edge, seen from the side.",
    )
    upper_rail_top: Input = taken(
        WrapStrip, "upper_rail", "upper rails' top edge", "z_u", "Legs and rails",
        help="Above the floor: the upper tray, or the only one, lies there.", default=REQUIRED,
    )
    lower_rail_top: Input = taken(
        WrapStrip, "lower_rail", "lower rails' top edge", "z_l", "Legs and rails",
        help="Above the floor: the lower tray lies there. Of no matter for one tray.", default="220 mm",
    )
    dowels: Input = taken(DowelJoint, "dowels", "dowels in each rail end", "n_d", "Dowels")
    dowel_diameter: Input = taken(DowelJoint, "dowel_diameter", "dowel diameter", "d_d", "Dowels")
    dowel_length: Input = taken(DowelJoint, "dowel_length", "dowel length", "l_d", "Dowels")
    dowel_in_leg: Input = taken(DowelJoint, "leg_depth", "dowel hole in the leg", "a_l", "Dowels")
    dowel_edge: Input = taken(DowelJoint, "edge", "upper edge to first dowel", "e_d", "Dowels")
    stagger: Input = taken(DowelJoint, "stagger", "stagger of the dowels", "s_d", "Dowels")
    dowel_clearance: Input = taken(DowelJoint, "end_clearance", "clearance at the dowel's ends", "c_d", "Dowels")
    dowel_drill_point: Input = taken(DowelJoint, "drill_point", "point of the dowel drill", "q_d", "Dowels")
    dowel_grade: Input = taken(DowelFit, "dowel_grade", "dowels made to (h: never over)", "T_d", "Dowels")
    hole_grade: Input = taken(DowelFit, "hole_grade", "holes made to (H: never under)", "T_h", "Dowels")
    dowel_timber: Input = taken(DowelFit, "timber", "dowels' timber", "timber_of_dowels", "Dowels")
    pull_bar: Input = choice(
        "pull bar", "kind_of_bar", ("stubs", "mitred", "none"), default="stubs", group="Pull bar",
        help="On two stubs let into the legs; mitred to two arms; or none.",
    )
    bar_diameter: Input = taken(StubBar, "bar_diameter", "bar diameter", "D_b", "Pull bar", default="19 mm")
    bar_height: Input = taken(
        WrapStrip, "upper_rail", "height of the bar", "z_b", "Pull bar",
        help="Above the floor, to the bar's centre line.", default="570 mm",
    )
    hand_room: Input = taken(
        StubBar, "hand_room", "hand room", "r_h", "Pull bar", help="Clear between leg and bar.", default="43 mm",
    )
    bar_overhang: Input = taken(StubBar, "overhang", "overhang of the bar", "v", "Pull bar", default="30 mm")
    stub_diameter: Input = taken(StubBar, "stub_diameter", "stub diameter", "d_s", "Pull bar", default="14 mm")
    stub_in_bar: Input = taken(StubBar, "bar_depth", "stub hole in the bar", "a_b", "Pull bar", default="9 mm")
    stub_in_leg: Input = taken(StubBar, "leg_depth", "stub hole in the leg", "a_s", "Pull bar", default="18 mm")
    stub_clearance: Input = taken(StubBar, "end_clearance", "clearance at the stub's ends", "c_s", "Pull bar")
    stub_drill_point: Input = taken(StubBar, "drill_point", "point of the stub drill", "q_s", "Pull bar")
    casters: Input = taken(
        Rolling, "casters", "casters", "n_c", "Casters", help="Two at one end, the pull bar at the other; or four.",
    )
    caster_height: Input = taken(CasterLeg, "caster_height", "caster height", "h_c", "Casters")
    caster_hole: Input = taken(
        CasterLeg, "hole_diameter", "caster hole", "d_c", "Casters", help="Of the stem, or of its sleeve.",
    )
    caster_stem: Input = taken(CasterLeg, "stem_length", "caster stem", "l_c", "Casters")
    caster_clearance: Input = taken(
        CasterLeg, "bottom_clearance", "clearance beyond the caster's stem", "c_c", "Casters",
    )
    caster_trail: Input = taken(Rolling, "trail", "caster trail", "a_c", "Casters")
    caster_weight: Input = mass(
        "weight of a caster", "W_c", low="0 kg", high="2 kg", step="0.05 kg", inch_step="0.1 lb", tolerance="0.02 kg",
        help="On the kitchen scales, with its stem.", default="0.2 kg", group="Casters",
    )
    counterbore_depth: Input = taken(PanelScrew, "counterbore_depth", "counterbore depth", "a_o", "Screws")
    screw_length: Input = taken(PanelScrew, "screw_length", "screw length", "l_s", "Screws")
    screw_shank: Input = taken(PanelScrew, "shank_diameter", "screw shank", "d_sh", "Screws")
    screw_root: Input = taken(PanelScrew, "root_diameter", "screw root", "d_r", "Screws")
    screw_head: Input = taken(PanelScrew, "head_diameter", "screw head", "d_h", "Screws")
    screw_hole: Input = taken(PanelScrew, "hole_diameter", "hole for the sliding screw", "d_o", "Screws")
    screw_from_fixed: Input = taken(PanelScrew, "from_fixed", "sliding screw from the fast ones", "a_f", "Screws")
    washer_thickness: Input = taken(PanelScrew, "washer_thickness", "washer thickness", "t_w", "Screws")
    washer_diameter: Input = taken(PanelScrew, "washer_diameter", "washer diameter", "d_w", "Screws")
    lead_short: Input = taken(PanelScrew, "lead_short", "lead hole stops short", "q_l", "Screws")
    timber: Input = choice(
        "timber of rims, legs, rails and bar", "timber_of_stand", FRAME, help="As in the Wood Handbook's tables.",
        default="Ash, white", group="Timber",
    )
    panel_timber: Input = taken(
        PanelScrew, "species", "timber of the panels", "timber_of_panels", "Timber",
        help="As in the Wood Handbook's tables.",
    )
    panel_cut: Input = taken(PanelScrew, "cut", "cut of the panels' boards", "cut_of_panels", "Timber")
    moisture_made: Input = taken(
        PanelScrew, "made", "moisture as worked", "M_0", "Timber", help="Of the rested timber, by the meter.",
    )
    moisture_dry: Input = taken(PanelScrew, "dry", "moisture in the dry season", "M_1", "Timber")
    moisture_damp: Input = taken(PanelScrew, "damp", "moisture in the damp season", "M_2", "Timber")
    upper_load: Input = mass(
        "load on the upper tray", "W_u", low="0 kg", high="60 kg", step="0.5 kg", inch_step="1 lb", tolerance="1 kg",
        help="Pots with wet earth, say.", default="8 kg", group="Load",
    )
    lower_load: Input = mass(
        "load on the lower tray", "W_d", low="0 kg", high="60 kg", step="0.5 kg", inch_step="1 lb", tolerance="1 kg",
        help="Pots with wet earth, say. Of no matter for one tray.", default="8 kg", group="Load",
    )
    load_height: Input = length(
        "load's centre of gravity above the panel", "z_p", low="0 mm", high="400 mm", step="5 mm", inch_step="1/4 in",
        tolerance="20 mm", help="Half the height of what stands there, if it is alike all the way up.",
        default="80 mm", group="Load",
    )
    router_cutter: Input = taken(CircleJig, "cutter_diameter", "straight cutter", "d_k", "Router")
    router_edges: Input = taken(CircleJig, "cutting_length", "straight cutter's edges", "l_k", "Router")
    router_reach: Input = taken(
        CircleJig, "reach_below_base", "straight cutter's reach", "u_k", "Router",
        help="How far its tip stands out below the router's own base, plunged right down.",
    )
    pass_depth: Input = taken(CircleJig, "pass_depth", "deepest pass", "a_p", "Router", default="6 mm")
    finish_pass: Input = taken(Rebate, "finish_pass", "light last pass of the rebate", "a_q", "Router")
    cut_through: Input = taken(CircleJig, "through", "cut below the stock", "b_t", "Router", default="0.5 mm")
    jig_base: Input = taken(CircleJig, "base_thickness", "jig base thickness", "t_j", "Router")
    jig_hold: Input = taken(CircleJig, "hold", "hold round the groove", "c_h", "Router")
    pivot_pin: Input = taken(CircleJig, "pivot_pin", "pivot pin", "d_q", "Router")
    rebate_cutter: Input = taken(Rebate, "cutter_diameter", "rebate cutter", "d_b", "Router", default=REQUIRED)
    template_thickness: Input = taken(TwoFaces, "template_thickness", "template thickness", "t_t", "Router")
    bearing_hold: Input = taken(TwoFaces, "bearing_hold", "bearing down the template", "b_h", "Router")
    first_edges: Input = taken(TwoFaces, "first_cutting_length", "first trimming cutter's edges", "l_1", "Router")
    second_edges: Input = taken(TwoFaces, "second_cutting_length", "second trimming cutter's edges", "l_2", "Router")
    second_bearing: Input = taken(TwoFaces, "second_bearing", "second trimming cutter's bearing", "k_2", "Router")
    first_depth: Input = taken(TwoFaces, "first_depth", "depth of the first trimming cut", "a_1", "Router")
    trim_overlap: Input = taken(TwoFaces, "overlap", "overlap of the trimming cuts", "o", "Router")
    trim_margin: Input = taken(TwoFaces, "margin", "margin left by the saw", "m_s", "Router")
    trim_bite: Input = taken(TwoFaces, "bite", "bite of the trimming cutter", "e_b", "Router")
    patch_edge: Input = taken(Patch, "edge", "wall that is patched", "edge_of_patch", "Router", default="inside")
    patch_length: Input = taken(Patch, "length", "patch length", "l_p", "Router", default="60 mm")
    patch_depth: Input = taken(Patch, "depth", "patch depth", "t_p", "Router", default="3 mm")
    patch_cutter: Input = taken(Patch, "cutter_diameter", "patch cutter", "d_p", "Router", default="12 mm")
    patch_feet: Input = taken(
        Patch, "feet_height", "feet under the router for a patch", "f_p", "Router", default="20 mm",
    )
    patch_proud: Input = taken(Patch, "proud", "patch left proud", "p_p", "Router")
    saw_kerf: Input = taken(RoundStock, "kerf", "kerf", "k", "Saw, drill and marking")
    square_grip: Input = taken(RoundStock, "grip", "square grip", "g_r", "Saw, drill and marking")
    rounding_bite: Input = taken(
        RoundStock, "pass_depth", "deepest bite of a roundover cutter", "a_r", "Saw, drill and marking",
    )
    leg_roundover: Input = taken(
        RoundStock, "roundover_radius", "roundover radius for the legs", "r_l", "Saw, drill and marking",
    )
    bar_roundover: Input = taken(
        RoundStock, "roundover_radius", "roundover radius for the bar", "r_b", "Saw, drill and marking",
    )
    drum_diameter: Input = taken(Cope, "drum_diameter", "drum diameter", "d_u", "Saw, drill and marking")
    v_angle: Input = taken(Cradle, "v_angle", "angle of the cradle's V", "nu", "Saw, drill and marking")
    cradle_height: Input = taken(Cradle, "block_height", "cradle's block height", "h_b", "Saw, drill and marking")
    point_height: Input = taken(
        Cradle, "point_height", "point above the cradle's face", "p_h", "Saw, drill and marking",
    )
    block_board: Input = taken(CornerBlock, "board_thickness", "corner block's boards", "t_b", "Saw, drill and marking")
    paper_thickness: Input = taken(WrapStrip, "paper_thickness", "paper thickness", "t_a", "Saw, drill and marking")

    def check(self):
        limits.check(self)
        for operation in OPERATIONS.values():
            if operation.of(self):
                try:
                    operation.solved(self)
                except ShapeError as error:
                    raise limits.from_lesson(ShapeError, self, operation, error) from None

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
        """The same stand with some sizes changed, the others kept to the last digit."""
        for name in changes:
            known(name, self.inputs(), "input")
        given = {name: self.inputs()[name].read(value) for name, value in changes.items()}
        return built(type(self), self.values | given)

    def on_card(self):
        """Sizes over all, what has to be clear, and what it weighs."""
        bar = ("handle_reach",) if self.pull_bar != "none" else ()
        return (
            "overall_height", "overall_width", "overall_length", "rail_length", "tray_clear", "way_in_spare", *bar,
            "shortened_leg", "weight", "loaded_weight",
        )

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

    @result("lower tray goes in tilted by", "alpha_t", kind="angle", step="0.1 deg")
    def way_in_tilt(self):
        """The least tilt a at which the tray's height, T cos a + t sin a, passes between upper and lower rails.

        T across the tray, t the rim's height. Nothing where it passes level. Raises ShapeError where the gap is less
        than the rim is high.
        """
        gap = self.rail_gap
        if type(gap) is float and gap < self.rim_height:
            raise ShapeError(
                "The rails leave {} between them, less than the rim is high ({}): no tray goes in there.",
                gap, self.rim_height, input="lower_rail_top",
            )
        lean = atan(self.rim_height / self.tray_diameter) + acos(least(gap / self.tray_diagonal, 1))
        return choose(gap < self.tray_diameter, lean, 0 * lean)

    @result("spare beside the lower tray", "f_w")
    def way_in_spare(self):
        """What the tray at that tilt, T sin a + t cos a across, leaves between two legs; less than nothing: shut out.

        Raises ShapeError as the tilt does.
        """
        tilt = self.way_in_tilt
        return self.legs_clear - self.tray_diameter * sin(tilt) - self.rim_height * cos(tilt)

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
        """Level, between the bar and the edge of a tray, where the bar is at the height of its rim."""
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

    @result("centre of gravity, from the casters", "X_0", step="1 mm", plan=True)
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

    @result("loaded, centre of gravity from the casters", "X_1", step="1 mm", plan=True)
    def loaded_from_casters(self):
        """Level, from the line of the casters, with the load on each tray."""
        return weights.centre(self._loaded, "along")


WAYS = {"stubs": "let in on stubs", "mitred": "mitred to arms"}
