"""Honest shop geometry for round furniture, and the benches that show it.

Everything public can be imported from here; each name is loaded when it is first asked for.
"""

from shoplib.names import handed_on

_HOMES = {
    "measure": ("MeasureError", "angle", "length", "mass", "nearest", "percent", "show", "temperature"),
    "model": ("Caution", "Facts", "ShapeError"),
    "maths.casters": ("CasterLeg", "Rolling"),
    "maths.circle_jigs": ("CircleJig",),
    "maths.stave_rings": ("HollowBlank", "StaveRing"),
    "maths.coping": ("Cope", "RoundCope"),
    "maths.rebates": ("PanelSeason", "Rebate"),
    "maths.movement": ("equilibrium", "moistures"),
    "maths.rims": ("chord", "circle_through", "fit_circle", "radius_from_chord"),
    "maths.finding_the_centre": ("CentreFinder", "ChordRise"),
    "maths.marking_out": ("CornerBlock", "Cradle", "WrapStrip"),
    "maths.screws": ("PanelScrew", "ring_seasons", "screw_sizes"),
    "maths.trimming": ("GrainArcs", "Patch", "TwoFaces"),
    "maths.pull_bars": ("MitredBar", "StubBar"),
    "maths.dowels": ("DowelFit", "DowelJoint", "RoundStock"),
    "maths.timber": (
        "Board", "Part", "read_boards", "read_parts", "saw_plan", "stand_rack", "write_boards", "write_parts",
    ),
    "maths.the_stand": ("Finish", "Squareness", "Stand", "seedling_stand", "stand_parts"),
    "practice.class_report": ("class_report",),
    "drawing": ("draw", "template"),
    "drawing.plots": ("plot_budget", "plot_class", "plot_year"),
    "drawing.svg": ("svg",),
    "paper.stand_file": ("read_stand", "write_stand"),
    "paper": ("save_card", "save_dxf", "save_saw_plan", "save_template"),
    "paper.handouts": ("save_handouts",),
    "paper.packet": ("save_packet",),
    "bench.progress": ("ProgressBar",),
    "bench": ("Bench", "OrderGame", "Practice", "RimBench", "SawBench", "StandBench", "side_by_side"),
}
_HOME_OF = {name: f"shoplib.{home}" for home, names in _HOMES.items() for name in names}
__all__, __getattr__, __dir__ = handed_on(__name__, _HOME_OF)
