"""The operations of the stand: one table that says how each lesson's model is filled from it.

No number of an operation stands anywhere else: what the lesson works out, the lesson's model works out here too.
"""

from shoplib.maths.casters import CasterLeg, Rolling
from shoplib.maths.circle_jigs import CircleJig
from shoplib.maths.coping import Cope, RoundCope
from shoplib.maths.dowels import DowelFit, DowelJoint, RoundStock
from shoplib.maths.finding_the_centre import CentreFinder
from shoplib.maths.marking_out import CornerBlock, Cradle, WrapStrip
from shoplib.maths.pull_bars import MitredBar, StubBar
from shoplib.maths.rebates import PanelSeason, Rebate
from shoplib.maths.screws import PanelScrew
from shoplib.maths.stave_rings import HollowBlank, StaveRing
from shoplib.maths.the_stand.filling import Operation, always, reckoned, size
from shoplib.maths.the_stand.finish import Finish
from shoplib.maths.the_stand.squareness import Squareness
from shoplib.maths.trimming import GrainArcs, Patch, TwoFaces

LEGS = 4


def has_staves(stand):
    return stand.ring_route == "staves"


def has_boards(stand):
    return stand.ring_route == "boards"


def has_stubs(stand):
    return stand.pull_bar == "stubs"


def has_mitres(stand):
    return stand.pull_bar == "mitred"


def has_bar(stand):
    return stand.pull_bar != "none"


def trays(stand):
    return stand.trays


def ring_layers(stand):
    return stand.trays * stand.ring_layers


def rails(stand):
    """Four under each tray."""
    return 4 * stand.trays


def _upper_rail(stand):
    """From the leg's top down to the rails that carry the upper tray, or the only one."""
    return stand.stand_height - stand.upper_rail_top


def _lower_rail(stand):
    return stand.stand_height - stand.lower_rail_top if stand.trays > 1 else None


def _edge_on_strip(stand):
    """A strip marks one dowel or two: with more of them it shows the rails alone."""
    return stand.dowel_edge if stand.dowels < 3 else None


def _spacing_on_strip(stand):
    return stand.dowel_spacing if stand.dowels == 2 else None


JIG = {
    "cutter_diameter": size("router_cutter"), "pass_depth": size("pass_depth"), "through": size("cut_through"),
    "cutting_length": size("router_edges"), "base_thickness": size("jig_base"),
    "reach_below_base": size("router_reach"), "hold": size("jig_hold"), "pivot_pin": size("pivot_pin"),
}  # fmt: skip
ROUNDING = {"grip": size("square_grip"), "kerf": size("saw_kerf"), "pass_depth": size("rounding_bite")}
RING = {"outside_diameter": size("tray_diameter"), "inside_diameter": reckoned("rim_inside")}
SEASONS = {
    "species": size("panel_timber"), "cut": size("panel_cut"), "made": size("moisture_made"),
    "dry": size("moisture_dry"), "damp": size("moisture_damp"),
}  # fmt: skip
STRIP = {
    "leg_diameter": size("leg_diameter"), "leg_spacing": size("leg_spacing"),
    "paper_thickness": size("paper_thickness"), "upper_rail": reckoned(_upper_rail),
    "lower_rail": reckoned(_lower_rail), "rail_height": size("rail_height"), "dowel_edge": reckoned(_edge_on_strip),
    "dowel_spacing": reckoned(_spacing_on_strip), "stagger": size("stagger"),
}  # fmt: skip
SLIPS_OF_A_STRIP = ("strip_error", "line_drift")

TABLE = (
    Operation(
        "template", "Cut the template, outside first", "01_circle_jigs", CircleJig, "template",
        JIG | {
            "diameter": size("tray_diameter"), "ring_width": size("rim_width"),
            "stock_thickness": size("template_thickness"),
        },
    ),
    Operation(
        "staves", "Saw the staves of the rims", "02_stave_rings", StaveRing, "ring of staves", count=ring_layers,
        when=has_staves, left=("slope", "saw_error"),
        fill=RING | {"staves": size("staves"), "margin": size("ring_margin"), "kerf": size("saw_kerf")},
    ),
    Operation(
        "boards", "Saw the boards of the rims", "02_stave_rings", HollowBlank, "hollow blank", count=ring_layers,
        when=has_boards,
        fill=RING | {
            "board_width": size("ring_board_width"), "margin": size("ring_margin"),
            "seam_on_centre": size("seam_on_centre"), "kerf": size("saw_kerf"),
        },
    ),
    Operation(
        "grain_outside", "Mark where the grain turns, outside", "11_trimming", GrainArcs, "tray rim", count=trays,
        fill={
            "construction": size("ring_route"), "staves": size("staves"), "edge": always("outside"),
            "diameter": size("tray_diameter"),
        },
    ),
    Operation(
        "grain_inside", "Mark where the grain turns, inside", "11_trimming", GrainArcs, "tray rim", count=trays,
        fill={
            "construction": size("ring_route"), "staves": size("staves"), "edge": always("inside"),
            "diameter": reckoned("rim_inside"),
        },
    ),
    Operation(
        "trim", "Trim the rims from two faces", "11_trimming", TwoFaces, "tray rim", count=trays,
        left=("bearing_over",),
        fill={
            "ring_height": size("rim_height"), "template_thickness": size("template_thickness"),
            "bearing_hold": size("bearing_hold"), "first_cutting_length": size("first_edges"),
            "second_cutting_length": size("second_edges"), "second_bearing": size("second_bearing"),
            "first_depth": size("first_depth"), "overlap": size("trim_overlap"), "margin": size("trim_margin"),
            "bite": size("trim_bite"),
        },
    ),
    Operation(
        "patch", "Let in a patch where a wall tore", "11_trimming", Patch, "patch",
        fill={
            "diameter": reckoned("patched_wall"), "ring_width": size("rim_width"), "edge": size("patch_edge"),
            "length": size("patch_length"), "depth": size("patch_depth"), "cutter_diameter": size("patch_cutter"),
            "feet_height": size("patch_feet"), "proud": size("patch_proud"),
        },
    ),
    Operation(
        "rebate", "Rebate the rims from below", "03_rebates", Rebate, "tray rim", count=trays,
        fill={
            "inside_diameter": reckoned("rim_inside"), "ring_width": size("rim_width"),
            "ring_height": size("rim_height"), "panel_thickness": size("panel_thickness"),
            "rebate_width": size("rebate_width"), "clearance": size("panel_clearance"), "proud": size("panel_proud"),
            "pass_depth": size("pass_depth"), "finish_pass": size("finish_pass"),
            "cutter_diameter": size("rebate_cutter"), "guide": always("bearing"),
            "panel_cutter": size("router_cutter"),
        },
        gives={"rebate_diameter": "rebate_diameter", "panel_diameter": "panel_diameter", "depth": "rebate_depth"},
    ),
    Operation(
        "panel", "Cut the panels to the measured rebates", "01_circle_jigs", CircleJig, "panel", count=trays,
        left=("ring_width",),
        fill=JIG | {"diameter": reckoned("panel_diameter"), "stock_thickness": size("panel_thickness")},
    ),
    Operation(
        "panel_season", "See the gap round the panels through the year", "03_rebates", PanelSeason, "panel",
        count=trays,
        fill=SEASONS | {
            "rebate_diameter": reckoned("rebate_diameter"), "clearance": size("panel_clearance"),
            "rebate_width": size("rebate_width"),
            "ring": reckoned(lambda stand: "mitred" if stand.ring_route == "staves" else "parallel"),
        },
    ),
    Operation(
        "leg_stock", "Round the legs", "04_dowels", RoundStock, "leg", count=LEGS, left=("count",),
        fill=ROUNDING | {
            "diameter": size("leg_diameter"), "length": size("stand_height"), "roundover_radius": size("leg_roundover"),
        },
    ),
    Operation(
        "strip_right", "Mark two legs, second rail to the right", "09_marking_out", WrapStrip, "leg", count=2,
        left=SLIPS_OF_A_STRIP, fill=STRIP | {"second_side": always("right")},
    ),
    Operation(
        "strip_left", "Mark two legs, second rail to the left", "09_marking_out", WrapStrip, "leg", count=2,
        left=SLIPS_OF_A_STRIP, fill=STRIP | {"second_side": always("left")},
    ),
    Operation(
        "cradle", "Saw the cradle for the legs", "09_marking_out", Cradle, "cradle", left=("v_depth",),
        fill={
            "leg_diameter": size("leg_diameter"), "v_angle": size("v_angle"), "point_height": size("point_height"),
            "block_height": size("cradle_height"),
        },
    ),
    Operation(
        "corner_block", "Make the corner block for the drill", "09_marking_out", CornerBlock, "corner block",
        left=("made_for",),
        fill={"leg_diameter": size("leg_diameter"), "board_thickness": size("block_board")},
    ),
    Operation(
        "dowels", "Drill legs and rails for the dowels", "04_dowels", DowelJoint, "rail end and leg",
        count=lambda stand: 2 * rails(stand),
        fill={
            "leg_diameter": size("leg_diameter"), "rail_thickness": size("rail_thickness"),
            "rail_height": size("rail_height"), "dowel_diameter": size("dowel_diameter"),
            "dowel_length": size("dowel_length"), "leg_depth": size("dowel_in_leg"), "edge": size("dowel_edge"),
            "dowels": size("dowels"), "stagger": size("stagger"), "end_clearance": size("dowel_clearance"),
            "drill_point": size("dowel_drill_point"),
        },
        gives={"spacing": "dowel_spacing", "rail_depth": "dowel_in_rail"},
    ),
    Operation(
        "dowel_fit", "Try the dowels in a test hole", "04_dowels", DowelFit, "dowel",
        count=lambda stand: 2 * rails(stand) * stand.dowels,
        fill={
            "diameter": size("dowel_diameter"), "dowel_grade": size("dowel_grade"), "hole_grade": size("hole_grade"),
            "timber": size("dowel_timber"), "made": size("moisture_made"), "now": size("moisture_damp"),
        },
    ),
    Operation(
        "stub_bar", "Drill legs and bar for the stubs", "10_pull_bars", StubBar, "pull bar", when=has_stubs,
        fill={
            "bar_diameter": size("bar_diameter"), "stub_diameter": size("stub_diameter"),
            "hand_room": size("hand_room"), "width": reckoned("bar_width"), "overhang": size("bar_overhang"),
            "bar_depth": size("stub_in_bar"), "leg_depth": size("stub_in_leg"), "load": reckoned("bar_load"),
            "bar_species": size("timber"), "stub_species": size("timber"), "end_clearance": size("stub_clearance"),
            "drill_point": size("stub_drill_point"), "leg_diameter": size("leg_diameter"),
        },
        gives={"stub_length": "stub_length", "bar_length": "bar_length"},
    ),
    Operation(
        "mitred_bar", "Mitre the pull bar to its arms", "10_pull_bars", MitredBar, "pull bar", when=has_mitres,
        left=("mitre_error", "roll", "corner"),
        fill={
            "bar_diameter": size("bar_diameter"), "width": reckoned("bar_width"), "reach": reckoned("bar_reach"),
            "leg_end": reckoned("arm_tips"),
        },
    ),
    Operation(
        "arm_cope", "Cope the arms to the legs", "05_coping", RoundCope, "arm of the bar", count=2, when=has_mitres,
        left=("angle", "offset"),
        fill={"leg_diameter": size("leg_diameter"), "rail_diameter": size("bar_diameter")},
        gives={"saddle_depth": "arm_tips"},
    ),
    Operation(
        "bar_stock", "Round the pull bar", "04_dowels", RoundStock, "pull bar", when=has_bar, left=("count",),
        fill=ROUNDING | {
            "diameter": size("bar_diameter"), "length": reckoned("bar_stock_length"),
            "roundover_radius": size("bar_roundover"),
        },
    ),
    Operation(
        "stub_stock", "Round the stubs", "04_dowels", RoundStock, "stub", count=2, when=has_stubs,
        left=("roundover_radius",),
        fill=ROUNDING | {
            "diameter": size("stub_diameter"), "length": reckoned("stub_length"), "count": always(2),
        },
    ),
    Operation(
        "caster_legs", "Shorten and bore the legs with casters", "07_casters", CasterLeg, "leg with a caster",
        count=lambda stand: stand.casters, left=("centre_error",),
        fill={
            "leg_diameter": size("leg_diameter"), "hole_diameter": size("caster_hole"),
            "stem_length": size("caster_stem"), "caster_height": size("caster_height"),
            "wheelbase": size("leg_spacing"), "leg_length": size("stand_height"),
            "bottom_clearance": size("caster_clearance"),
        },
        gives={"shortened_leg": "shortened_leg", "hole_depth": "caster_hole_depth"},
    ),
    Operation(
        "leg_centres", "Find the centres of the sawn ends", "06_finding_the_centre", CentreFinder, "leg with a caster",
        count=lambda stand: stand.casters, left=("marking_error", "crossing_angle", "square_error"),
        fill={"diameter": size("leg_diameter")},
    ),
    Operation(
        "rails", "Saw and cope the rails", "05_coping", Cope, "rail", count=rails, left=("offset", "rake"),
        fill={
            "leg_diameter": size("leg_diameter"), "rail_thickness": size("rail_thickness"),
            "leg_spacing": size("leg_spacing"), "rail_height": size("rail_height"),
            "drum_diameter": size("drum_diameter"),
        },
        gives={"rail_length": "rail_length", "between": "legs_clear"},
    ),
    Operation(
        "screws", "Drill and drive the sliding screws", "08_screws", PanelScrew, "rail across the panel's grain",
        count=lambda stand: 2 * stand.trays,
        fill=SEASONS | {
            "made": reckoned("moisture_screwed"),
            "rail_height": size("rail_height"), "rail_thickness": size("rail_thickness"),
            "counterbore_depth": size("counterbore_depth"), "screw_length": size("screw_length"),
            "shank_diameter": size("screw_shank"), "root_diameter": size("screw_root"),
            "head_diameter": size("screw_head"), "hole_diameter": size("screw_hole"),
            "panel_thickness": size("panel_thickness"), "from_fixed": size("screw_from_fixed"),
            "washer_thickness": size("washer_thickness"), "washer_diameter": size("washer_diameter"),
            "lead_short": size("lead_short"),
        },
    ),
    Operation(
        "squareness", "Make the diagonals equal", "13_the_stand", Squareness, "stand",
        fill={
            "length": size("leg_spacing"), "width": size("leg_spacing"), "diagonal_1": reckoned("first_diagonal"),
            "diagonal_2": reckoned("second_diagonal"),
        },
    ),
    Operation(
        "finish", "Measure out the finish", "13_the_stand", Finish, "stand",
        fill={
            "area": reckoned("finish_area"), "coverage": size("finish_coverage"), "coats": size("finish_coats"),
            "loss": size("finish_loss"),
        },
    ),
    Operation(
        "rolling", "Check how it tips and what the hand lifts", "07_casters", Rolling, "stand", left=("cg_aside",),
        fill={
            "weight": reckoned("loaded_weight"), "cg_height": reckoned("loaded_height"),
            "cg_from_casters": reckoned("loaded_from_casters"), "wheelbase": size("leg_spacing"),
            "track": size("leg_spacing"), "handle_reach": reckoned("handle_reach"), "trail": size("caster_trail"),
            "casters": size("casters"),
        },
    ),
)  # fmt: skip

OPERATIONS = {each.name: each for each in TABLE}
