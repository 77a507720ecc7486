"""Every model of shoplib, sizes to try on it, and the check that one formula gives one number in all uses.

A new topic needs one line here: example sizes of its models in EXAMPLES.
"""

import importlib
import itertools
import math
import pkgutil
from functools import cache

import numpy
import pytest
import sympy
from hypothesis import assume
from hypothesis import strategies as st

import shoplib.maths
from shoplib import (
    CasterLeg,
    CentreFinder,
    ChordRise,
    CircleJig,
    Cope,
    CornerBlock,
    Cradle,
    DowelFit,
    DowelJoint,
    Finish,
    GrainArcs,
    HollowBlank,
    MitredBar,
    PanelScrew,
    PanelSeason,
    Patch,
    Rebate,
    Rolling,
    RoundCope,
    RoundStock,
    Squareness,
    Stand,
    StaveRing,
    StubBar,
    TwoFaces,
    WrapStrip,
    measure,
    seedling_stand,
)  # fmt: skip
from shoplib.model import Model, ShapeError
from shoplib.model.formula import formula, gravity, on_the_page, symbols

STAND_IN_INCHES = {
    "tray_diameter": "17 3/8 in", "rim_width": "3/4 in", "rim_height": "1 1/2 in", "panel_thickness": "1/2 in",
    "rebate_width": "3/8 in", "panel_clearance": "3/32 in", "ring_margin": "1/8 in", "leg_diameter": "1 3/8 in",
    "stand_height": "28 in", "leg_spacing": "14 1/8 in", "rail_thickness": "3/4 in", "rail_height": "2 in",
    "upper_rail_top": "26 in", "lower_rail_top": "8 1/2 in", "dowel_diameter": "5/16 in", "dowel_length": "1 1/2 in",
    "dowel_in_leg": "7/16 in", "dowel_edge": "1/2 in", "dowel_clearance": "1/16 in", "bar_diameter": "3/4 in",
    "bar_height": "22 1/2 in", "hand_room": "1 3/4 in", "bar_overhang": "1 1/4 in", "stub_diameter": "9/16 in",
    "stub_in_bar": "3/8 in", "stub_in_leg": "3/4 in", "stub_clearance": "1/32 in", "caster_height": "2 in",
    "caster_hole": "7/16 in", "caster_stem": "7/8 in", "caster_clearance": "1/16 in", "caster_trail": "3/4 in",
    "caster_weight": "0.4 lb", "counterbore_depth": "3/4 in", "screw_length": "1 5/8 in", "screw_shank": "0.164 in",
    "screw_root": "0.131 in", "screw_head": "0.322 in", "screw_hole": "15/64 in", "screw_from_fixed": "3 in",
    "washer_thickness": "1/32 in", "washer_diameter": "3/8 in", "lead_short": "1/16 in", "upper_load": "18 lb",
    "lower_load": "18 lb", "load_height": "3 in", "router_cutter": "1/2 in", "router_edges": "1 in",
    "router_reach": "1 3/4 in", "pass_depth": "1/4 in", "cut_through": "1/32 in", "jig_base": "3/8 in",
    "jig_hold": "1 in", "pivot_pin": "1/4 in", "rebate_cutter": "1 1/4 in", "template_thickness": "3/4 in",
    "bearing_hold": "3/4 in", "first_edges": "1 in", "second_edges": "1 in", "second_bearing": "1/4 in",
    "trim_overlap": "1/16 in", "trim_margin": "1/8 in", "trim_bite": "1/16 in", "patch_length": "2 1/4 in",
    "patch_depth": "1/8 in", "patch_cutter": "1/2 in", "patch_feet": "3/4 in", "patch_proud": "1/64 in",
    "saw_kerf": "1/8 in", "square_grip": "3 in", "rounding_bite": "1/4 in", "cradle_height": "2 1/2 in",
    "block_board": "1/2 in", "paper_thickness": "0.004 in",
}  # fmt: skip
SIDE_TABLE = {
    "trays": 1, "ring_route": "boards", "pull_bar": "mitred", "casters": 4, "tray_diameter": "500 mm",
    "rim_width": "25 mm", "leg_diameter": "40 mm", "leg_spacing": "420 mm", "stand_height": "520 mm",
    "upper_rail_top": "480 mm", "bar_height": "380 mm", "hand_room": "60 mm", "panel_timber": "Cherry, black",
    "timber": "Oak, white", "leg_roundover": "19 mm", "bar_roundover": "9 mm", "drum_diameter": "38 mm",
    "first_depth": "22 mm", "dowels": 1, "patch_edge": "outside", "patch_depth": "4 mm", "patch_length": "50 mm",
}  # fmt: skip

EXAMPLES = {
    CasterLeg: [
        CasterLeg("35 mm", "11 mm", "22 mm", "50 mm", "360 mm", "720 mm", centre_error="0.5 mm"),
        CasterLeg("1 3/8 in", "7/16 in", "7/8 in", "2 in", "14 in", "28 in", bottom_clearance="1/16 in"),
    ],
    Rolling: [
        Rolling("24 kg", "420 mm", "180 mm", "360 mm", "360 mm", "430 mm", trail="20 mm"),
        Rolling("53 lb", "16 1/2 in", "6 in", "14 in", "14 in", "17 in", trail="3/4 in", cg_aside="1 1/4 in"),
        Rolling("60 lb", "16 in", "6 in", "14 in", "14 in", "17 in", trail="3/4 in", casters=4, cg_aside="1 1/2 in"),
    ],
    CircleJig: [
        CircleJig("440 mm", "12 mm"),
        CircleJig("17 3/8 in", "1/2 in", ring_width="3/4 in", stock_thickness="3/4 in", pass_depth="1/4 in",
                  through="1/32 in", cutting_length="1 1/4 in", base_thickness="1/4 in", reach_below_base="1 3/4 in",
                  hold="1 in", pivot_pin="1/4 in"),
        CircleJig("440 mm", "12 mm", ring_width="20 mm", stock_thickness="18 mm", pass_depth="5 mm",
                  through="0.5 mm", cutting_length="16 mm", base_thickness="10 mm", reach_below_base="40 mm"),
    ],
    StaveRing: [
        StaveRing("440 mm", "400 mm", 12),
        StaveRing("440 mm", "400 mm", 12, margin="3 mm", kerf="2.2 mm", saw_error="0.1 deg"),
        StaveRing("12 in", "10 1/2 in", 7, margin="1/8 in", kerf="1/8 in", saw_error="-0.25 deg"),
        StaveRing("440 mm", "400 mm", 10, slope="35 deg", saw_error="0.05 deg"),
        StaveRing("440 mm", "400 mm", 8, slope="90 deg"),
    ],
    Cope: [
        Cope("35 mm", "20 mm", "360 mm"),
        Cope("1 1/2 in", "3/4 in", "14 1/8 in", offset="1/4 in", drum_diameter="1 5/8 in"),
        Cope("35 mm", "20 mm", "360 mm", offset="-4 mm", rake="5 deg", rail_height="50 mm", drum_diameter="32 mm"),
        Cope("60 mm", "12 mm", "500 mm", offset="12 mm", rake="-5 deg", rail_height="30 mm", drum_diameter="52 mm"),
    ],
    RoundCope: [
        RoundCope("35 mm", "19 mm"),
        RoundCope("1 1/2 in", "3/4 in", "50 deg", offset="-1/4 in"),
        RoundCope("35 mm", "19 mm", "60 deg", offset="3 mm"),
    ],
    Rebate: [
        Rebate("400 mm", "20 mm", "40 mm", "12 mm", "10 mm"),
        Rebate("400 mm", "20 mm", "40 mm", "12 mm", "10 mm", clearance="2.5 mm", proud="0.5 mm", pass_depth="4 mm",
               finish_pass="0.5 mm"),
        Rebate("15 3/4 in", "3/4 in", "1 1/2 in", "1/2 in", "3/8 in", clearance="1/16 in", proud="-1/32 in",
               pass_depth="1/8 in"),
        Rebate("400 mm", "30 mm", "40 mm", "12 mm", "20 mm", clearance="3 mm", cutter_diameter="8 mm"),
        Rebate("15 3/4 in", "3/4 in", "1 1/2 in", "1/2 in", "3/8 in", clearance="1/8 in", pass_depth="1/8 in",
               cutter_diameter="1 3/8 in", guide="bearing"),
    ],
    PanelSeason: [
        PanelSeason("420 mm", "1 mm", "Ash, white", "flat", "8 %", "6 %", "12 %", ring="mitred"),
        PanelSeason("16 1/2 in", "3/32 in", "Hickory, true", "quarter", "9 %", "5.5 %", "15 %", rebate_width="3/8 in"),
        PanelSeason("420 mm", "2.5 mm", "Cherry, black", "flat", "8 %", "6 %", "12 %", "mitred", "10 mm"),
    ],
    HollowBlank: [
        HollowBlank("440 mm", "400 mm", "60 mm", margin="3 mm"),
        HollowBlank("440 mm", "400 mm", "60 mm", margin="3 mm", seam_on_centre=False),
        HollowBlank("12 in", "9 in", "2 1/2 in", margin="1/8 in"),
        HollowBlank("100 mm", "40 mm", "250 mm", seam_on_centre=False),
    ],
    RoundStock: [
        RoundStock("19 mm", "400 mm"),
        RoundStock("3/4 in", "16 in", 2, roundover_radius="5/16 in", grip="3 in", kerf="1/8 in"),
        RoundStock("30 mm", "250 mm", roundover_radius="14.5 mm", pass_depth="4 mm"),
    ],
    DowelJoint: [
        DowelJoint("35 mm", "20 mm", "50 mm", "8 mm", "40 mm", "12 mm", "12 mm"),
        DowelJoint("35 mm", "20 mm", "50 mm", "6 mm", "40 mm", "25 mm", "15 mm", stagger="9 mm", drill_point="2 mm"),
        DowelJoint("50 mm", "24 mm", "40 mm", "8 mm", "50 mm", "20 mm", "20 mm", dowels=1, stagger="6 mm"),
        DowelJoint("1 3/8 in", "3/4 in", "2 in", "5/16 in", "1 1/2 in", "9/16 in", "5/8 in", stagger="1/4 in"),
    ],
    DowelFit: [
        DowelFit("8 mm"),
        DowelFit("3/8 in", "h11", "H13", "Maple, sugar", "12 %", "7 %"),
    ],
    CentreFinder: [
        CentreFinder("35 mm"),
        CentreFinder("440 mm", "0.5 mm", crossing_angle="40 deg", square_error="0.3 deg"),
        CentreFinder("1 3/8 in", "1/64 in", crossing_angle="135 deg", square_error="0 deg"),
    ],
    ChordRise: [
        ChordRise("300 mm", "40 mm"),
        ChordRise("16 in", "6 in"),
        ChordRise("100 mm", "70 mm"),
    ],
    WrapStrip: [
        WrapStrip("35 mm", "360 mm"),
        WrapStrip("35 mm", "360 mm", line_drift="0.5 mm", upper_rail="60 mm", lower_rail="500 mm",
                  rail_height="50 mm", dowel_edge="12 mm", dowel_spacing="26 mm"),
        WrapStrip("1 3/8 in", "14 in", "0.004 in", "1/32 in", "1/64 in", "2 3/8 in", "19 3/4 in", "2 in", "5/8 in",
                  "3/4 in", "1/4 in", "left"),
    ],
    CornerBlock: [
        CornerBlock("35 mm"),
        CornerBlock("35 mm", "32 mm", "15 mm"),
        CornerBlock("1 3/8 in", "1 1/2 in", "1/2 in"),
    ],
    Cradle: [
        Cradle("35 mm", block_height="60 mm"),
        Cradle("35 mm", "100 deg", "22 mm", "3.5 mm"),
        Cradle("1 3/8 in", "90 deg", "7/8 in", "9/64 in", "2 1/2 in"),
    ],
    PanelScrew: [
        PanelScrew("50 mm", "20 mm", "19 mm", "40 mm", "4 mm", "2.8 mm", "8 mm", "6 mm", "12 mm", "75 mm", "Ash, white",
                   "flat", "8 %", "6 %", "12 %", "1 mm", "10 mm"),
        PanelScrew("2 in", "3/4 in", "3/4 in", "1 5/8 in", "0.164 in", "0.131 in", "0.322 in", "15/64 in", "1/2 in",
                   "3 in", "Ash, white", "flat", "8 %", "6 %", "12 %", "1/32 in", "3/8 in", "1/16 in"),
        PanelScrew("60 mm", "30 mm", "0 mm", "70 mm", "5 mm", "3.5 mm", "10 mm", "7 mm", "18 mm", "0 mm",
                   "Beech, American", "quarter", "10 %", "7 %", "9 %"),
        PanelScrew("60 mm", "60 mm", "20 mm", "65 mm", "4 mm", "2.1 mm", "14 mm", "8 mm", "50 mm", "100 mm",
                   "Birch, yellow", "quarter", "10 %", "7 %", "13 %"),
    ],
    MitredBar: [
        MitredBar("19 mm", "360 mm", "52.5 mm"),
        MitredBar("19 mm", "360 mm", "52.5 mm", leg_end="2.8 mm", mitre_error="0.5 deg", roll="1 deg"),
        MitredBar("3/4 in", "14 in", "2 1/16 in", "120 deg", "3/8 in", "-1 deg", "2 deg"),
    ],
    StubBar: [
        StubBar("19 mm", "14 mm", "43 mm", "360 mm", "30 mm", "9 mm", "18 mm", "10 kg", leg_diameter="35 mm"),
        StubBar("25 mm", "12 mm", "36 mm", "500 mm", "40 mm", "12 mm", "20 mm", "18 kg", "Oak, white", "Pine, red",
                "1.5 mm", "2 mm"),
        StubBar("3/4 in", "9/16 in", "1 3/4 in", "14 in", "1 1/4 in", "3/8 in", "3/4 in", "22 lb", "Maple, sugar",
                "Ash, white", "1/32 in", "1/16 in", "1 3/8 in"),
    ],
    TwoFaces: [
        TwoFaces("40 mm", "18 mm", "18 mm", "25 mm", "25 mm", "7 mm"),
        TwoFaces("19 mm", "12 mm", "10 mm", "25 mm", "25 mm", "7 mm", margin="1.5 mm"),
        TwoFaces("1 1/2 in", "1/2 in", "1/2 in", "1 in", "1 in", "1/4 in", "7/8 in", overlap="1/16 in", margin="1/8 in",
                 bite="1/16 in"),
        TwoFaces("40 mm", "18 mm", "18 mm", "25 mm", "25 mm", "7 mm", "22 mm", bearing_over="0.2 mm"),
    ],
    GrainArcs: [
        GrainArcs("staves", 12, "inside", "400 mm"),
        GrainArcs("staves", 8, "outside", "17 3/8 in"),
        GrainArcs("boards", edge="inside"),
        GrainArcs(diameter="440 mm"),
    ],
    Patch: [
        Patch("400 mm", "20 mm", "inside", "60 mm", "3 mm", "12 mm", "20 mm"),
        Patch("440 mm", "20 mm", "outside", "50 mm", "4 mm", "12 mm", "20 mm"),
        Patch("15 3/4 in", "3/4 in", "inside", "2 1/4 in", "1/8 in", "1/2 in", "3/4 in", "1/64 in"),
    ],
    Squareness: [
        Squareness("360 mm", "360 mm", "510.5 mm", "507.7 mm"),
        Squareness("360 mm", "300 mm", "465 mm", "474 mm"),
        Squareness("14 1/8 in", "14 1/8 in", "20 in", "19 15/16 in"),
    ],
    Finish: [
        Finish("1.6 m2", "12 m2"),
        Finish("0.3 m2", "8 m2", 3, "15 %"),
        Finish("17 ft2", "130 ft2"),
    ],
    Stand: [
        seedling_stand(),
        seedling_stand(**STAND_IN_INCHES),
        seedling_stand(**SIDE_TABLE),
    ],
}  # fmt: skip


def _all_models():
    """Every Model that a module of shoplib.maths defines."""
    found = []
    for module in pkgutil.walk_packages(shoplib.maths.__path__, "shoplib.maths."):
        for item in vars(importlib.import_module(module.name)).values():
            if isinstance(item, type) and issubclass(item, Model) and item.__module__ == module.name:
                found.append(item)
    return found


MODELS = _all_models()


def formulas(cls):
    """The names of the results that are worked out by one formula."""
    return [name for name, item in cls.results().items() if not item.plan]


def plans(cls):
    """The names of the results that are worked out step by step."""
    return [name for name, item in cls.results().items() if item.plan]


def examples(names):
    """Each example with each name that `names` gives for its model, as test parameters."""
    return [
        pytest.param(example, name, id=f"{cls.__name__}-{number}-{name}")
        for cls, made in EXAMPLES.items() for number, example in enumerate(made) for name in names(cls)
    ]  # fmt: skip


# Sizes ------------------------------------------------------------------------------------------------------

_TYPED = {
    "length": ("mm", 1.0), "angle": ("deg", math.degrees(1)), "mass": ("kg", 1.0), "force": ("N", 1.0),
    "stress": ("MPa", 1.0), "percent": ("%", 100.0), "surface": ("m2", 1.0),
}  # fmt: skip


def typed(item, value):
    """A plain value of an input as a person would type it."""
    if item.kind not in _TYPED:
        return value
    unit, size = _TYPED[item.kind]
    return f"{value * size:.4f} {unit}"


def one_size(item, random):
    """One input over its whole declared range, its ends more often than chance would have it."""
    if item.kind == "flag":
        return random.random() < 0.5
    if item.kind == "choice":
        return random.choice(item.options)
    if item.kind == "count":
        return random.randint(item.low, item.high)
    if item.optional and random.random() < 0.3:
        return None
    return typed(item, random.choice((item.low, item.high, *3 * [random.uniform(item.low, item.high)])))


def sizes(cls):
    """What a person might give a model, as keyword arguments: it may or may not be possible to make.

    Half of the time all inputs are drawn, half of the time up to two inputs of an example are changed, for models
    whose sizes must suit one another. One seed is drawn, not each size: it is what makes thousands of them cheap.
    """
    return st.randoms(use_true_random=True).map(lambda random: some_sizes(cls, random))


def some_sizes(cls, random):
    inputs = cls.inputs()
    given, drawn = {}, list(inputs)
    if random.random() < 0.5:
        example = random.choice(EXAMPLES[cls]).values
        given = {name: None if size is None else typed(inputs[name], size) for name, size in example.items()}
        drawn = random.sample(drawn, random.randint(0, min(2, len(drawn))))
    return given | {name: one_size(inputs[name], random) for name in drawn}


def made(cls, given):
    """The model of these sizes, or None where it cannot be made."""
    try:
        return cls(**given)
    except ShapeError:
        return None


def drawn(cls, given):
    """The stand-in for sizes that hypothesis drew; where they cannot be made it draws others."""
    found = made(cls, given)
    assume(found)
    return found.plain


def value(plain, name):
    """The plain value of a result, or None where it has no meaning for these sizes."""
    try:
        return getattr(plain, name)
    except ShapeError:
        return None


def flat(found):
    """All numbers in a plain value, however deep in a plan; names in it are passed over."""
    if isinstance(found, tuple):
        return [number for each in found for number in flat(each)]
    return [] if isinstance(found, str) else [found]


# One formula, four uses -------------------------------------------------------------------------------------

_UNITS = {
    "length": ("in", "cm", "mm", "m", "ft"), "angle": ("deg", "arcminute"), "mass": ("lb", "g"),
    "force": ("lbf", "N"), "stress": ("psi", "GPa"),
    "percent": ("percent",), "surface": ("cm**2", "ft**2"),
}  # fmt: skip
_BASES = {
    "length": "mm", "table": "mm", "area": "mm**2", "angle": "rad", "mass": "kg", "force": "N",
    "stress": "MPa", "surface": "m**2", "volume": "liter",
    "percent": "dimensionless", "ratio": "dimensionless", "count": "dimensionless",
}  # fmt: skip
_WITHOUT_DIMENSION = ("angle", "ratio", "count")


def with_units(cls, plain_values):
    """The same values as Quantities, each in another unit, so that no two slips can hide each other."""
    units = {kind: itertools.cycle(names) for kind, names in _UNITS.items()}
    return {
        name: measure.quantity(plain_values[name], _BASES[item.kind]).to(next(units[item.kind]))
        if item.kind in units and plain_values[name] is not None else plain_values[name]
        for name, item in cls.inputs().items()
    } | {
        "gravity": measure.quantity(cls.Stand.gravity, "N/kg"),
        "millimetre": measure.quantity(1, "mm"), "megapascal": measure.quantity(1, "MPa"),
        "kilogram": measure.quantity(1, "kg"), "litre": measure.quantity(1, "liter"),
        "square_metre": measure.quantity(1, "m**2"),
    }  # fmt: skip


def in_base_unit(found, kind):
    """A Quantity as a plain float, refused where it has not the declared dimension."""
    if hasattr(found, "m_as"):
        return found.m_as(_BASES[kind])
    assert kind in _WITHOUT_DIMENSION or isinstance(found, int), f"{found} has no unit: it should be {kind}"
    return found


@cache
def _symbolic(cls, name):
    """The formula in symbols as a function of all inputs and plans, reckoned to thirty digits."""
    known = symbols(cls)
    arguments = {key: known[key] for key in [*cls.inputs(), *plans(cls)]}
    return sympy.lambdify([list(arguments.values())], formula(cls, name), "mpmath"), list(arguments)


def from_symbols(model, name):
    """The result as the formula on the page gives it."""
    function, arguments = _symbolic(type(model), name)
    planned = {key: value(model.plain, key) for key in plans(type(model))}
    numbers = [(model.values | planned)[key] for key in arguments]
    return float(function([number if isinstance(number, (int, float)) else None for number in numbers]))


@cache
def _on_the_page(cls, name):
    """The formula as it stands on the page, other results in it as symbols, as a function of these and all inputs."""
    known = symbols(cls)
    leans_on = [key for key in known if key != name and cls.inputs().get(key, cls.results().get(key)).kind != "choice"]
    expression = on_the_page(cls, name, ()).subs(gravity(), cls.Stand.gravity)
    return sympy.lambdify([[known[key] for key in leans_on]], expression, "mpmath"), leans_on


def from_the_page(model, name):
    """The result as a reader reckons it from the step on the page and the numbers put in there."""
    function, leans_on = _on_the_page(type(model), name)
    numbers = [value(model.plain, key) for key in leans_on]
    return float(function([number if isinstance(number, (int, float)) else None for number in numbers]))


def from_quantities(model, name):
    """The result as Quantities give it."""
    cls = type(model)
    return in_base_unit(getattr(cls.Stand(with_units(cls, model.values)), name), cls.results()[name].kind)


def from_array(model, name):
    """The result as arrays give it: each element should be what a float gives."""
    cls = type(model)
    arrays = {
        key: numpy.array([given] * 3) if isinstance(given, float) else given
        for key, given in model.values.items()
    }  # fmt: skip
    stand = cls.Stand(arrays)
    for plan in plans(cls):  # plain Python: lends its number to the formulas that lean on it
        stand.__dict__[plan] = value(model.plain, plan)
    return getattr(stand, name)


def check_formula(model, name):
    """Hold that floats, arrays, Quantities and symbols give one number, of the declared dimension.

    A result without meaning for these sizes is passed over.
    """
    number = value(model.plain, name)
    if number is None:
        return
    is_length = type(model).results()[name].kind == "length"  # a root near nothing keeps half the digits: 1 nm
    close = pytest.approx(number, rel=1e-9, abs=1e-6 if is_length else 1e-9)
    assert from_quantities(model, name) == close, "on Quantities"
    assert from_symbols(model, name) == close, "in symbols"
    assert from_the_page(model, name) == close, "on the page, where another result put in may be negative"
    assert from_array(model, name) == close, "on arrays"


def check_plan(model, name):
    """Hold that a plan worked out on Quantities is the plan worked out on floats."""
    number = value(model.plain, name)
    if number is None:
        return
    cls = type(model)
    found = getattr(cls.Stand(with_units(cls, model.values)), name)
    kind = cls.results()[name].kind
    plain = [in_base_unit(each, kind) for each in flat(found)]
    assert plain == pytest.approx(flat(number), rel=1e-9, abs=1e-6)
