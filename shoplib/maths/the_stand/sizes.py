"""Every size of the whole stand, once: those of the piece, and those of the tools that the lessons ask for."""

from dataclasses import KW_ONLY

from shoplib.maths.casters import CasterLeg, Rolling
from shoplib.maths.circle_jigs import CircleJig
from shoplib.maths.coping import Cope
from shoplib.maths.dowels import DowelFit, DowelJoint, RoundStock
from shoplib.maths.marking_out import CornerBlock, Cradle, WrapStrip
from shoplib.maths.pull_bars import StubBar
from shoplib.maths.rebates import Rebate
from shoplib.maths.screws import PanelScrew
from shoplib.maths.stave_rings import HollowBlank, StaveRing
from shoplib.maths.the_stand.finish import Finish
from shoplib.maths.the_stand.taken import taken
from shoplib.maths.trimming import GrainArcs, Patch, TwoFaces
from shoplib.maths.wood import timbers_with
from shoplib.model import REQUIRED, Input, choice, count, length, mass

FRAME = tuple(each for each in timbers_with("strength") if each in timbers_with("specific_gravity"))


def with_sizes(cls):
    """Give a class all the sizes, before it is made a model; they are named wherever they are given."""
    for name in Sizes.__annotations__:
        if name != "_":
            setattr(cls, name, vars(Sizes)[name])
    cls.__annotations__ = dict(Sizes.__annotations__)
    return cls


class Sizes:
    """The sizes in their groups."""

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
    finish_coverage: Input = taken(Finish, "coverage", "one litre of finish covers", "c_f", "Finish", default="12 m2")
    finish_coats: Input = taken(Finish, "coats", "coats of finish", "n_f", "Finish")
    finish_loss: Input = taken(Finish, "loss", "finish lost in rag and pot", "k_f", "Finish")
