"""What every model holds to: one formula with four uses, honest errors, nothing that changes.

All models of all topics are taken in turn (see models.py); small models made here show that checks can fail.
"""

import contextlib
import dataclasses
import html
import itertools
import math
import re
import warnings
from functools import cache
from xml.etree import ElementTree

import models
import pint
import published
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from models import EXAMPLES, MODELS

from shoplib import (
    CircleJig,
    Cope,
    HollowBlank,
    MeasureError,
    Rolling,
    RoundCope,
    ShapeError,
    StaveRing,
    StubBar,
    measure,
)
from shoplib.maths.functions import atan, choose, cos, least, sin, sqrt, tan
from shoplib.model import (
    REQUIRED,
    Caution,
    Input,
    Model,
    angle,
    answer,
    choice,
    count,
    flag,
    inch_twin,
    length,
    mass,
    model,
    result,
    write_finely,
)
from shoplib.model.budget import plain_budget
from shoplib.model.formula import brings_sizes, formula, gravity, on_the_page, symbols
from shoplib.model.inverse import plain_find
from shoplib.model.working import _is_sound

CLOSE = pytest.approx
EACH_MODEL = pytest.mark.parametrize("cls", MODELS, ids=lambda cls: cls.__name__)
ONE_OF_EACH = pytest.mark.parametrize(
    "example", [made[-1] for made in EXAMPLES.values()], ids=lambda example: type(example).__name__
)
EACH_EXAMPLE = pytest.mark.parametrize("example", list(itertools.chain(*EXAMPLES.values())), ids=repr)


def a_length(symbol, default="10 mm", low="1 mm", tolerance="0.1 mm"):
    return length(f"size {symbol}", symbol, low, "100 mm", "1 mm", tolerance, "A size.", default=default)


def small_model(body, kind="length"):
    """A model of two sizes and a lean, made for one test, with one result called found."""

    @model
    class Small(Model):
        a: Input = a_length("a")
        b: Input = a_length("b", default="20 mm")
        lean: Input = angle("lean", "t", "-40 deg", "40 deg", "1 deg", "0.5 deg", "A lean.", default="15 deg")
        found = result("size found", "x", kind=kind)(body)

    return Small


@pytest.mark.parametrize("cls", MODELS)
def test_every_model_has_examples(cls):
    assert EXAMPLES[cls]


@EACH_MODEL
def test_declarations_are_complete(cls):
    declared = cls.inputs() | cls.results()
    assert len({item.symbol for item in declared.values()}) == len(declared), "two share a symbol"
    assert len({item.words for item in declared.values()}) == len(declared), "two share their words"
    assert len(set(symbols(cls).values())) == len(declared)
    for item in cls.inputs().values():
        assert item.help.endswith(".")
    for item in cls.results().values():
        assert item.__doc__
        assert item.checks is None or item.checks in cls.inputs()


# One formula, one number ------------------------------------------------------------------------------------


@pytest.mark.parametrize(("example", "name"), models.examples(models.formulas))
def test_one_formula_gives_one_number(example, name):
    models.check_formula(example, name)


@pytest.mark.parametrize(("example", "name"), models.examples(models.plans))
def test_plans_run_on_quantities(example, name):
    models.check_plan(example, name)


@EACH_MODEL
@settings(deadline=None, max_examples=15)
@given(data=st.data())
def test_one_formula_gives_one_number_whatever_the_sizes(cls, data):
    example = models.made(cls, data.draw(models.sizes(cls)))
    assume(example)
    for name in models.formulas(cls):
        models.check_formula(example, name)
    for name in models.plans(cls):
        models.check_plan(example, name)


@pytest.mark.parametrize(
    ("body", "kind"),
    [
        (lambda self: (self.a + self.b * cos(self.lean)) / 2, "length"),
        (lambda self: sqrt(self.a**2 + self.b**2), "length"),
        (lambda self: self.a * self.b, "area"),
        (lambda self: self.a / self.b, "ratio"),
        (lambda self: choose(self.a > self.b, self.a, self.b), "length"),
        (lambda self: least(self.a, self.b) * sin(self.lean), "length"),
        (lambda self: 2 * abs(self.lean), "angle"),
    ],
)
def test_a_sound_body_is_passed(body, kind):
    models.check_formula(small_model(body, kind)(), "found")


@pytest.mark.parametrize(
    ("body", "kind"),
    [
        (lambda self: self.a + 3.0, "length"),  # 3 of what?
        (lambda self: self.a + self.lean, "length"),  # a length and an angle
        (lambda self: self.a * self.b, "length"),
        (lambda self: self.a, "area"),
        (lambda self: self.a / self.b, "length"),
        (lambda self: 12.0, "length"),
        (lambda self: self.a * self.lean / self.b, "length"),
        (lambda self: self.a * sin(self.b), "length"),  # the sine of a length
        (lambda self: choose(self.a > 5.0, self.a, self.b), "length"),
        (lambda self: self.a, "angle"),
        (lambda self: least(self.a, 20.0), "length"),
        (lambda self: self.a * (1 if type(self.a) is float else 25.4), "length"),  # a conversion forgotten
    ],
)
def test_a_slip_in_the_unit_is_caught(body, kind):
    with pytest.raises((AssertionError, pint.DimensionalityError, ValueError, TypeError)):
        models.check_formula(small_model(body, kind)(), "found")


def test_a_plan_with_a_slip_in_the_unit_is_caught():
    @model
    class Slipped(Model):
        a: Input = a_length("a")
        steps = result("steps", "s", kind="table", plan=True)(lambda self: (self.a, self.a**2))

    with pytest.raises(pint.DimensionalityError):
        models.check_plan(Slipped(), "steps")


# Whatever the sizes: a number, or a reason ------------------------------------------------------------------


def check_answers(example):
    """Every result is finite or has its reason; every sentence can be told in both units."""
    for name, item in type(example).results().items():
        for unit in ("mm", "in"):
            text, reason = answer(example.plain, name, unit)
            assert (text == "—") == bool(reason)
            assert "{" not in text + reason
        for number in models.flat(models.value(example.plain, name) or 0.0):
            assert isinstance(number, (int, float))
            assert math.isfinite(number)
            assert item.kind == "count" or isinstance(number, (int, float))
    for caution in example.cautions:
        check_told(caution, type(example))
    for unit in ("mm", "in"):
        assert len(example.summary(unit).splitlines()) == 1


def check_told(told, cls):
    """A sentence in mm has no inches in it and the other way round, and hangs on an input."""
    assert told.input in cls.inputs()
    assert str(told) == told.tell("mm")
    for unit, other in (("mm", "in"), ("in", "mm")):
        said = told.tell(unit)
        assert said.endswith(".")
        assert len(said.splitlines()) == 1
        assert not re.search(rf"[0-9] {other}\b|[{{}}]", said)


@EACH_MODEL
@settings(deadline=None, max_examples=100)
@given(data=st.data())
def test_any_sizes_give_finite_answers_or_a_reason(cls, data):
    given_sizes = data.draw(models.sizes(cls))
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        try:
            example = cls(**given_sizes)
        except ShapeError as error:
            check_told(error, cls)
        else:
            check_answers(example)


@EACH_EXAMPLE
def test_each_input_at_either_end(example):
    cls = type(example)
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        check_answers(example)
        for name, item in cls.inputs().items():
            for end in item.options or (item.low, item.high):
                try:
                    check_answers(example.replace(**{name: models.typed(item, end)}))
                except ShapeError as error:
                    check_told(error, cls)


@EACH_EXAMPLE
def test_optional_inputs_may_be_left_out_one_by_one(example):
    for name, item in type(example).inputs().items():
        if item.optional:
            check_answers(example.replace(**{name: None}))


def test_sizes_are_given_in_mm_and_deg():
    ring = StaveRing("12 in", "10 in", 7, saw_error="0.002 rad")
    assert [str(each.units) for each in (ring.outside_diameter, ring.long_edge)] == ["millimeter"] * 2
    assert [str(each.units) for each in (ring.saw_error, ring.mitre_angle)] == ["degree"] * 2


@EACH_MODEL
def test_numbers_and_quantities_are_the_same_sizes(cls):
    for example in EXAMPLES[cls]:
        for name, item in cls.results().items():
            plain = models.value(example.plain, name)
            if plain is None:
                with pytest.raises(ShapeError):
                    getattr(example, name)
            else:
                public = models.flat(getattr(example, name))
                assert [models.in_base_unit(each, item.kind) for each in public] == CLOSE(models.flat(plain))


# The error budget -------------------------------------------------------------------------------------------


def effects(budget):
    return {share.input: share.effect for share in budget.shares}


@pytest.mark.parametrize(
    ("name", "by_hand"),
    [
        ("outer_pivot", {"diameter": 0.25, "cutter_diameter": 0.025}),  # half of 0.5 and half of 0.05
        ("outer_reach", {"diameter": 0.25}),
        ("inner_pivot", {"ring_width": 0.3, "diameter": 0.25, "cutter_diameter": 0.025}),
        ("inner_reach", {"ring_width": 0.3, "diameter": 0.25}),
        ("pivot_step", {"ring_width": 0.3, "cutter_diameter": 0.05}),
        ("depth", {"stock_thickness": 0.2, "through": 0.2}),
    ],
)
def test_budget_of_a_sum_by_hand(name, by_hand):
    jig = CircleJig("440 mm", "12 mm", ring_width="20 mm", stock_thickness="18 mm", through="0.5 mm")
    budget = jig.budget(name)
    found = {key: effect.m_as("mm") for key, effect in effects(budget).items()}
    assert found == CLOSE(by_hand)
    assert list(found) == list(by_hand)  # largest first
    assert budget.worst_case.m_as("mm") == CLOSE(sum(by_hand.values()))
    assert budget.root_sum_square.m_as("mm") == CLOSE(math.sqrt(sum(each**2 for each in by_hand.values())))
    assert not any(share.one_sided for share in budget.shares)


def stack(tolerances, signs, unit="mm"):
    """A model of sizes added and taken away, each with its tolerance."""
    names = [f"part_{number}" for number in range(len(tolerances))]
    sizes = {
        name: a_length(f"p_{name[5:]}", low="0 mm", tolerance=f"{tolerance} {unit}")
        for name, tolerance in zip(names, tolerances, strict=True)
    }

    def total(self):
        return sum(sign * getattr(self, name) for name, sign in zip(names, signs, strict=True))

    body = {"__annotations__": dict.fromkeys(names, Input), "gap": result("gap", "g")(total)} | sizes
    return model(type("Stack", (Model,), body))


def test_budget_of_ten_equal_parts():
    """Generic engineering text: ten parts, each out by 0.1."""
    worst, likely = map(float, published.row("uncertainty", id="UN3")["value"].split(";"))
    budget = stack([0.1] * 10, [1] * 10)().budget("gap")
    assert budget.worst_case.m_as("mm") == CLOSE(worst)
    assert budget.root_sum_square.m_as("mm") == CLOSE(likely, abs=5e-4)


def test_budget_of_a_gap_in_a_stack():
    """Engineering tutorial article: 40.00(0.10) - 25.00(0.05) - 2.00(0.03) - 10.00(0.05)."""
    nominal, worst, likely = (float(row["value"]) for row in published.rows("uncertainty", id="UN4"))
    gap = stack([0.10, 0.05, 0.03, 0.05], [1, -1, -1, -1])("40 mm", "25 mm", "2 mm", "10 mm")
    budget = gap.budget("gap")
    assert gap.gap.m_as("mm") == CLOSE(nominal)
    assert budget.worst_case.m_as("mm") == CLOSE(worst)
    assert budget.root_sum_square.m_as("mm") == CLOSE(likely, abs=5e-5)
    assert [share.input for share in budget.shares] == ["part_0", "part_1", "part_3", "part_2"]


def test_budget_of_a_gauge_block():
    """EA-4/02 M, example S4 (from memory, arithmetic verified), nanometres taken for micrometres here."""
    row = published.row("uncertainty", id="UN2")
    parts = [float(part) for part in row["quantity"].split("RSS of")[1].split(";")]
    budget = stack([part / 1000 for part in parts], [1] * len(parts))().budget("gap")
    assert budget.root_sum_square.m_as("mm") * 1000 == CLOSE(float(row["value"]), abs=0.05)


def worst_corner(example, name):
    """The largest change with every input out by its tolerance, up or down: all corners tried."""
    cls, at = type(example), example.values
    loose = {key: item.tolerance for key, item in cls.inputs().items() if item.tolerance and at[key]}
    nominal = getattr(example.plain, name)
    changes = []
    for signs in itertools.product((1, -1), repeat=len(loose)):
        moved = {key: at[key] + sign * loose[key] for key, sign in zip(loose, signs, strict=True)}
        changes.append(abs(getattr(cls.solved(at | moved), name) - nominal))
    return max(changes)


FAR_FROM_LIMITS = [
    *[(StaveRing("440 mm", "400 mm", 12, margin="3 mm", slope="35 deg", saw_error="0.3 deg"), name)
      for name in ("mitre_angle", "blade_tilt", "closing_angle")],
    *[(HollowBlank("440 mm", "400 mm", "60 mm", margin="3 mm"), name)
      for name in ("blank_outer", "blank_inner", "material_yield")],
    *[(CircleJig("440 mm", "12 mm", ring_width="20 mm"), name)
      for name in ("outer_pivot", "hole_pivot", "inner_reach", "pivot_step")],
]  # fmt: skip


@pytest.mark.parametrize(("example", "name"), FAR_FROM_LIMITS)
def test_worst_case_is_the_worst_corner(example, name):
    assert plain_budget(type(example), example.values, name).worst_case == CLOSE(
        worst_corner(example, name), rel=0.03
    )


@pytest.mark.parametrize(
    "body",
    [
        lambda self: self.a * self.b / (self.a + self.b),
        lambda self: sqrt(self.a * self.b) * cos(self.lean),
    ],
)
def test_worst_case_of_a_curved_formula_is_the_worst_corner(body):
    """To the second order: the products of two errors are not counted."""
    example = small_model(body)()
    worst = example.budget("found").worst_case.m_as("mm")
    assert worst == CLOSE(worst_corner(example, "found"), rel=0.02)


@EACH_EXAMPLE
def test_budget_of_every_formula(example):
    for name in models.formulas(type(example)):
        if models.value(example.plain, name) is None:
            with pytest.raises(ShapeError):
                example.budget(name)
            continue
        budget = plain_budget(type(example), example.values, name)
        found = list(effects(budget).values())
        assert found == sorted(found, reverse=True)
        assert all(effect > 0 for effect in found)
        assert budget.worst_case == CLOSE(sum(found))
        assert budget.root_sum_square == CLOSE(math.sqrt(sum(effect**2 for effect in found)))
        assert type(budget.worst_case) is type(budget.root_sum_square) is float
        assert max(found, default=0) <= budget.root_sum_square * (1 + 1e-9) <= budget.worst_case * (1 + 2e-9)


@pytest.mark.parametrize("unit", ["mm", "in"])
@ONE_OF_EACH
def test_columns_of_a_budget_line_up(example, unit):
    """In every unit each column begins under its head, two blanks after the longest text before it."""
    for name in models.formulas(type(example)):
        if models.value(example.plain, name) is None:
            continue
        budget = example.budget(name, unit=unit)
        lines = repr(budget).splitlines()
        head, rows = budget.table.head, budget.table.rows
        assert len(lines) == 1 + len(rows) == 3 + len(budget.shares)
        starts = [0]
        for column in zip(head, *rows):
            starts.append(starts[-1] + 2 + max(map(len, column)))
        for line, texts in zip(lines, (head, *rows), strict=True):
            assert [line[start:end].strip() for start, end in zip(starts, starts[1:])] == list(texts)
        assert not re.search(rf"[0-9] {'mm' if unit == 'in' else 'in'}\b", repr(budget))
        assert budget._repr_html_().count("<tr>") == len(lines)


def test_budget_and_found_show_themselves():
    rail = Cope("35 mm", "20 mm", "360 mm")
    assert repr(rail.budget("between", unit="in")).splitlines() == [
        "measurement                    out by      between the legs, at the rail's top, moved by",
        "leg spacing                    ± 0.020 in  0.020 in                                       both ways",
        "leg diameter                   ± 0.012 in  0.012 in                                       both ways",
        "rake                           ± 0.20 deg  0.000 in                                       one side only",
        "all at once, each the bad way              0.032 in                                       worst case",
        "as independent errors add up               0.023 in                                       root-sum-square",
    ]
    assert repr(rail.find("drum_diameter", drum_gap="0.2 mm")) == "drum diameter  33.29 mm or 36.97 mm"
    asked = CircleJig("440 mm", "12.7 mm")
    assert repr(asked.find("diameter", outer_pivot="8 15/16 in")) == "outside diameter  17.375 in"
    assert repr(asked.find("diameter", outer_pivot="227.0125 mm")) == "outside diameter  441.33 mm"
    assert "mm" in repr(asked.find("diameter", unit="mm", outer_pivot="9 in"))
    assert "1.311 in or 1.455 in" in rail.find("drum_diameter", unit="in", drum_gap="0.2 mm")._repr_html_()
    assert "no value within its range" in repr(rail.find("drum_diameter", drum_gap="90 mm"))


class TestOneSided:
    def share(self, example, name, input):
        (share,) = [share for share in example.budget(name).shares if share.input == input]
        return share

    def test_at_the_low_end(self):
        """No margin can only become more: never less than nothing."""
        share = self.share(StaveRing("440 mm", "400 mm", 12), "long_edge", "margin")
        assert share.one_sided
        assert share.down is None
        assert share.effect == share.up

    def test_at_the_upper_limit(self):
        share = self.share(StaveRing("440 mm", "400 mm", 12, slope="90 deg"), "mitre_angle", "slope")
        assert share.one_sided
        assert share.up is None
        assert share.effect == abs(share.down)

    def test_at_a_kink(self):
        """A good saw can only be out one way or the other, and both open the joint."""
        share = self.share(StaveRing("440 mm", "400 mm", 12), "closing_angle", "saw_error")
        assert share.one_sided
        assert share.up.m_as("deg") == share.down.m_as("deg") == CLOSE(1.2)  # 24 mitres of 0.05 deg

    def test_beside_a_kink_the_larger_change_counts(self):
        ring = StaveRing("440 mm", "400 mm", 12, saw_error="0.02 deg")
        share = self.share(ring, "closing_angle", "saw_error")
        assert share.one_sided
        assert (share.up.m_as("deg"), share.down.m_as("deg")) == CLOSE((1.2, 0.24))
        assert share.effect == share.up

    def test_only_where_it_is(self):
        share = self.share(StaveRing("440 mm", "400 mm", 12, margin="3 mm"), "long_edge", "margin")
        assert not share.one_sided
        assert share.up.m_as("mm") == CLOSE(-share.down.m_as("mm"))

    def test_where_the_sizes_together_have_a_limit(self):
        """The hole a hair wider than the ring is not a ring."""
        share = self.share(StaveRing("440 mm", "439.8 mm", 12), "board_width", "inside_diameter")
        assert share.one_sided
        assert share.up is None


def test_budget_of_what_depends_on_nothing():
    budget = small_model(lambda self: self.a - self.a)().budget("found")
    assert budget.shares == ()
    assert (budget.worst_case.m_as("mm"), budget.root_sum_square.m_as("mm")) == (0, 0)


def test_counts_have_no_tolerance_and_left_out_inputs_no_share():
    assert "staves" not in effects(StaveRing("440 mm", "400 mm", 12).budget("mitre_angle"))
    assert "ring_width" not in effects(CircleJig("440 mm", "12 mm").budget("outer_pivot"))


@pytest.mark.parametrize("name", ["rows", "overlaps", "total_length", "row_count"])
@pytest.mark.parametrize(
    "ask",
    [
        lambda example, name: example.budget(name),
        lambda example, name: example.working(name),
        lambda example, name: example.find("margin", **{name: "3 mm"}),
    ],
)
def test_a_plan_has_no_one_formula(ask, name):
    with pytest.raises(ShapeError, match="step by step"):
        ask(HollowBlank("440 mm", "400 mm", "60 mm"), name)


# The other way round ----------------------------------------------------------------------------------------


def sloped_inputs(example):
    """The given inputs that can be looked for along a line."""
    return [
        item for name, item in type(example).inputs().items()
        if item.kind in ("length", "angle", "mass", "surface") and example.values[name] is not None
    ]  # fmt: skip


@EACH_MODEL
@settings(deadline=None, max_examples=25)
@given(data=st.data())
def test_what_was_put_in_is_found_again(cls, data):
    example = models.made(cls, data.draw(models.sizes(cls)))
    assume(example and sloped_inputs(example))
    item = data.draw(st.sampled_from(sloped_inputs(example)))
    result = cls.results()[data.draw(st.sampled_from(models.formulas(cls)))]
    target = models.value(example.plain, result.name)
    assume(target is not None)
    try:
        found = plain_find(cls, example.values, item, result, target)
    except ShapeError as error:
        assert "does not depend" in str(error)
        step = (item.high - item.low) / 400
        beside = [at(example, item, item.low + step * k, result.name) for k in range(401)]
        same = [other is None or other == CLOSE(target, rel=1e-8, abs=1e-8) for other in beside]
        assert sum(same) > 4 if "stretch" in str(error) else all(same)
        return
    assert found == sorted(found)
    for root in found:
        assert item.low <= root <= item.high
        assert at(example, item, root, result.name) == CLOSE(target, abs=1e-5)
    if not leans_on_a_plan(cls, result.name):
        # Where the curve is flat at the value (a turning point), the root is only as sharp as the result.
        assert min(abs(root - example.values[item.name]) for root in found) < 1e-3 * (item.high - item.low)


@cache
def leans_on_a_plan(cls, name):
    """Whether whole rows or passes are counted on the way to a result: it may jump between two samples."""
    known = symbols(cls)
    return not formula(cls, name).free_symbols.isdisjoint(known[plan] for plan in models.plans(cls))


def at(example, item, value, name):
    """A result with one input changed, or None where that has no meaning."""
    try:
        return getattr(type(example).solved(example.values | {item.name: value}), name)
    except ShapeError:
        return None


class TestFindByHand:
    def test_what_disc_a_hole_in_the_jig_cuts(self):
        (found,) = CircleJig("440 mm", "12 mm").find("diameter", outer_pivot="226.5 mm")
        assert found.m_as("mm") == CLOSE(441)

    def test_in_inches_and_degrees(self):
        (found,) = StaveRing("440 mm", "400 mm", 12).find("saw_error", closing_angle="0 deg")
        assert found.m_as("deg") == CLOSE(0, abs=1e-6)
        (width,) = CircleJig("17 in", "1/2 in", ring_width="1 in").find("ring_width", inner_pivot="7 1/2 in")
        assert width.m_as("in") == CLOSE(0.75)

    def test_both_signs_of_an_error(self):
        found = StaveRing("440 mm", "400 mm", 12).find("saw_error", closing_angle="6 deg")
        assert [error.m_as("deg") for error in found] == CLOSE([-0.25, 0.25])

    def test_an_input_that_was_left_out(self):
        (found,) = CircleJig("440 mm", "12 mm").find("ring_width", inner_pivot="194 mm")
        assert found.m_as("mm") == CLOSE(20)

    def test_counts_are_tried_one_by_one(self):
        ring = StaveRing("440 mm", "400 mm", 12)
        assert ring.find("staves", mitre_angle="22.5 deg") == (8,)
        assert ring.find("staves", mitre_angle="22.51 deg") == ()
        assert ring.find("staves", long_edge="117.9 mm") == (12,)

    def test_counts_that_cannot_be_told_apart_are_all_found(self):
        """Board widths are read to 0.1 mm: many staves make nearly the same one."""
        ring = StaveRing("440 mm", "400 mm", 36)
        widths = {n: ring.replace(staves=n).plain.board_width for n in range(3, 37)}
        alike = tuple(n for n, width in widths.items() if abs(width - widths[36]) <= 0.05)
        assert len(alike) > 1
        assert ring.find("staves", board_width=ring.board_width) == alike

    def test_a_ratio_is_a_plain_number(self):
        ring = StaveRing("440 mm", "400 mm", 12, kerf="2 mm")
        (found,) = ring.find("kerf", material_yield=ring.material_yield)
        assert found.m_as("mm") == CLOSE(2)

    def test_two_values(self):
        """(a - 30)^2 / b + 5 is 10 where a is 20 or 40."""
        example = small_model(lambda self: (self.a - 3 * self.b / 2) ** 2 / self.b + self.b / 4)()
        assert [root.m_as("mm") for root in example.find("a", found="10 mm")] == CLOSE([20, 40])

    @pytest.mark.parametrize("turning", [30, 31.7, 44.123])
    def test_a_touching_value(self, turning):
        """The curve only just reaches 5 mm, wherever its lowest point lies."""
        example = small_model(lambda self: (self.a - self.b * (turning / 20)) ** 2 / self.b + self.b / 4)()
        (root,) = example.find("a", found="5 mm")
        assert root.m_as("mm") == CLOSE(turning, abs=1e-3)
        assert example.find("a", found="4.99 mm") == ()

    def test_two_values_closer_than_the_samples(self):
        example = small_model(lambda self: (self.a - 3 * self.b / 2) ** 2 / self.b + self.b / 4)()
        assert [root.m_as("mm") for root in example.find("a", found="5.0005 mm")] == CLOSE([29.9, 30.1])

    def test_many_values(self):
        example = small_model(lambda self: self.b * sin(self.a / self.b * 8))()
        found = example.find("a", found="0 mm")
        assert [root.m_as("mm") for root in found] == CLOSE([20 * math.pi * k / 8 for k in range(1, 13)])

    def test_a_jump_is_not_a_root(self):
        example = small_model(lambda self: choose(self.a > 1.5 * self.b, self.b, 2 * self.b))()
        assert example.find("a", found="30 mm") == ()

    @pytest.mark.parametrize("outside", [439.8, 440, 441, 442.5, 445.7])
    def test_at_the_edge_of_what_can_be_made(self, outside):
        """The inside must stay smaller than the outside: just short of it there is still a value."""
        ring = StaveRing(f"{outside} mm", f"{outside - 0.01:.2f} mm", 12)
        (found,) = ring.find("inside_diameter", board_width=ring.board_width)
        assert found.m_as("mm") == CLOSE(outside - 0.01)

    def test_the_last_value_that_can_be_made_is_no_root_by_itself(self):
        """Only a flat ring has sizes: the one slope that can be tried gives another long edge."""
        assert StaveRing("440 mm", "400 mm", 12).find("slope", long_edge="50 mm") == ()

    def test_nothing_found(self):
        assert CircleJig("440 mm", "12 mm").find("diameter", outer_pivot="5000 mm") == ()
        assert StaveRing("440 mm", "400 mm", 12).find("kerf", strip_length="1 mm") == ()

    def test_does_not_depend(self):
        with pytest.raises(ShapeError, match="does not depend"):
            CircleJig("440 mm", "12 mm", ring_width="20 mm").find("diameter", pivot_step="32 mm")

    def test_a_stretch_of_values(self):
        """The rail's nearest wood lies on the middle for every offset up to half its thickness."""
        rail = Cope("60 mm", "20 mm", "360 mm")
        with pytest.raises(ShapeError, match="whole stretch"):
            rail.find("offset", near_edge="0 mm")
        assert [offset.m_as("mm") for offset in rail.find("offset", near_edge="1 mm")] == CLOSE([-11, 11])

    @pytest.mark.parametrize("width", [60, 75, 140])
    def test_a_result_that_jumps(self, width):
        blank = HollowBlank("440 mm", "400 mm", f"{width} mm", margin="3 mm")
        found = blank.find("board_width", material_yield=blank.material_yield)
        assert min(abs(root.m_as("mm") - width) for root in found) < 1e-6

    def test_another_value_of_what_does_not_depend(self):
        assert CircleJig("440 mm", "12 mm", ring_width="20 mm").find("diameter", pivot_step="33 mm") == ()

    def test_a_wish_without_unit(self):
        with pytest.raises(MeasureError, match="unit"):
            CircleJig("440 mm", "12 mm").find("diameter", outer_pivot=226)

    def test_a_choice_is_not_looked_for(self):
        with pytest.raises(ShapeError, match="choice"):
            HollowBlank("440 mm", "400 mm", "60 mm").find("seam_on_centre", material_yield=0.3)


# The working ------------------------------------------------------------------------------------------------


def parsed(mathml):
    """The MathML as a tree: refused where a browser would stumble."""
    named = re.compile(r"&(?!lt;|gt;|amp;)\w+;")
    return ElementTree.fromstring(named.sub(lambda found: html.unescape(found[0]), mathml))


@pytest.mark.parametrize("unit", ["mm", "in"])
@pytest.mark.parametrize(("example", "name"), models.examples(models.formulas))
def test_working_holds_the_numbers_and_the_result(example, name, unit):
    cls = type(example)
    if models.value(example.plain, name) is None:
        with pytest.raises(ShapeError):
            example.working(name, unit)
        return
    working = example.working(name, unit)
    unit, told_in = "mm" if brings_sizes(cls, name) else unit, unit
    assert working.steps[-1].name == name
    assert len({step.name for step in working.steps}) == len(working.steps)
    for step in working.steps:
        assert step.words == cls.results()[step.name].words
        assert step.latex.replace("=", "&=", 1) in working.latex  # lines stand under one another
        assert step.mathml in working.html
        assert "[[" not in step.latex + step.mathml
        tree = parsed(step.mathml)
        assert tree.tag == "math"
        end, is_last = tree.findall(".//mtext")[-1].text, step is working.steps[-1]
        if unit != told_in and is_last:
            end, _, told = end.partition(", that is ")
            assert (told or end) == cls.results()[name].write(getattr(example.plain, name), told_in)
        check_end(end, example, step.name, unit, is_last)
        words = tree.findall(".//mtext")[-1].text.replace("%", r"\%")
        assert rf"\text{{{words}}}" in step.latex  # words, where ^\circ would not be read
        if r"\begin{cases}" not in step.latex:
            for number in numbers_put_in(example, step.name, unit, working.settled):
                assert in_latex(number) in step.latex
                assert number in [each.text for each in tree.iter("mn")]


def in_latex(text):
    return text.replace("°", r"^\circ").replace("%", r"\%")


def check_end(text, example, name, unit, is_last):
    """A step ends in the number that is put in below it; the last one as it is set, in inches both ways."""
    item, plain = type(example).results()[name], getattr(example.plain, name)
    if not is_last:
        units = {"length": unit, "mass": "lb" if unit == "in" else "kg", "force": "N", "stress": "MPa", "volume": "l"}
        assert text == f"{put_in(item, plain, unit)} {units.get(item.kind, '')}".strip()
    elif unit == "mm" or item.kind != "length" or "." in item.inch_step:
        assert text == item.write(plain, unit)
    else:
        inches, _, fraction = text.partition(" in, ")
        assert float(inches.removesuffix(" in")) == CLOSE(plain / 25.4, abs=5.1e-4)
        whole = item.write(plain, "in").removesuffix(" in")
        assert fraction.startswith(f"{whole} to the nearest ") or not fraction and inches == f"{whole} in"


def numbers_put_in(example, name, unit, settled):
    """The numbers that a learner should see: those of the inputs and results that the formula names."""
    cls = type(example)
    declared, named = cls.inputs() | cls.results(), formula(cls, name, False, settled).free_symbols
    for key, symbol in symbols(cls).items():
        if symbol in named and not (key in models.formulas(cls) and formula(cls, key, True, settled).is_number):
            text = put_in(declared[key], getattr(example.plain, key), unit)
            yield f"({text})" if text.startswith("-") else text


def put_in(item, plain, unit):
    """A number as it should stand in a formula."""
    if item.kind == "angle":
        return f"{math.degrees(plain) + 0.0:.4g}°"
    if item.kind == "percent":
        return f"{100 * plain:.4g}%"
    if not isinstance(plain, float):
        return str(plain)
    if item.kind == "length":
        text = f"{plain / 25.4:.4f}" if unit == "in" else f"{plain:.3f}"
        return str(float(text) + 0.0).removesuffix(".0")
    return f"{plain / (0.45359237 if item.kind == 'mass' and unit == 'in' else 1) + 0.0:.5g}"


def test_working_by_hand():
    working = CircleJig("440 mm", "12 mm").working("outer_pivot")
    assert working.latex == (
        r"\begin{aligned}p_{o} &= \frac{D}{2} + \frac{d}{2} = \frac{440}{2} + \frac{12}{2} = \text{226.0 mm}"
        r"\end{aligned}"
    )
    assert working.left_out == working.whole_html == ""


@pytest.mark.parametrize(
    ("sizes", "wanted"),
    [
        (("20.5 in", "0.368 in"), r"\frac{20.5}{2} + \frac{0.368}{2} = \text{10.434 in, 10 7/16 to the nearest 64th}"),
        (("20 in", "1/2 in"), r"\frac{20}{2} + \frac{0.5}{2} = \text{10.25 in, 10 1/4 to the nearest 64th}"),
        (("20 in", "2 in"), r"\frac{20}{2} + \frac{2}{2} = \text{11 in}"),
    ],
)
def test_working_in_inches_ends_in_the_decimal(sizes, wanted):
    (step,) = CircleJig(*sizes).working("outer_pivot", "in").steps
    assert step.latex.endswith(wanted)


def test_working_in_pounds():
    """60 lb with its centre of gravity 7 in from the casters, lifted at 17 in: 24.7 lb."""
    stand = Rolling("60 lb", "16 in", "7 in", "14 in", "14 in", "17 in")
    (step,) = stand.working("lift", "in").steps
    assert step.latex.endswith(r"\frac{60 \times 7}{17} = \text{24.7 lb}")
    assert stand.working("lift", "in").units == "lengths in inches, weights in lb"
    assert stand.working("lift").units == "lengths in mm, weights in kg"
    assert CircleJig("440 mm", "12 mm").working("outer_pivot").units == "lengths in mm"


def test_a_formula_with_gravity_is_worked_in_newtons_whatever_the_unit():
    """22 lb in the middle of 14 in of a 3/4 in bar: P L/4 over pi D^3/32 is 77 lbf in over 0.0414 in3, 1859 psi."""
    bar = StubBar("3/4 in", "9/16 in", "1 3/4 in", "14 in", "1 1/4 in", "3/8 in", "3/4 in", "22 lb")
    (step,) = bar.working("bar_stress", "in").steps
    assert step.latex.endswith(
        r"\frac{8 \times 355.6 \times 9.80665 \times 9.979}{\pi \times 19.05^{3}} = \text{12.8 MPa, that is 1860 psi}"
    )
    assert bar.working("bar_stress", "in").units == "lengths in mm, weights in kg, gravity g in N/kg"
    assert bar.working("stub_length", "in").units == "lengths in inches"
    (*_, last) = bar.working("bar_share", "in").steps
    assert last.latex.endswith(r"\text{12.44 \%}") and "psi" not in bar.working("bar_share", "in").latex


# What a simple piece leaves out of its formula --------------------------------------------------------------


def settled_variants(example):
    """The example, and with each input in turn nothing, or a right angle."""
    yield example
    for name, item in type(example).inputs().items():
        for end in (0, math.pi / 2) if item.kind == "angle" else (0,) if item.kind in ("length", "percent") else ():
            with contextlib.suppress(ShapeError):
                yield example.replace(**{name: models.typed(item, end)})


@ONE_OF_EACH
def test_what_is_left_out_changes_no_number(example):
    """The shortened formula, put back together from all its steps, is the number still."""
    cls, settled_formulas = type(example), 0
    for one in settled_variants(example):
        for name in models.formulas(cls):
            number = models.value(one.plain, name)
            settled = one.working(name).settled if number is not None else ()
            if settled:
                settled_formulas += 1
                assert shortened(one, name) == CLOSE(number, rel=1e-9, abs=1e-9), (name, settled)
    assert settled_formulas or cls.__name__ in ("ChordRise", "CornerBlock", "GrainArcs", "Squareness")


def shortened(example, name):
    """A result from the formulas of its working alone, each step put into the next."""
    cls, working = type(example), example.working(name)
    known = symbols(cls)
    found = {known[key]: value for key, value in example.values.items() if isinstance(value, (int, float))}
    found |= {known[key]: models.value(example.plain, key) for key in models.plans(cls)}
    found = {symbol: value for symbol, value in found.items() if isinstance(value, (int, float))}
    found[gravity()] = 9.80665
    for key, _ in working.settled:
        found.pop(known[key])  # what is left out does not stand in any step
    for step in working.steps:
        found[known[step.name]] = float(on_the_page(cls, step.name, working.settled).evalf(25, subs=found))
    return found[known[name]]


def test_the_simplest_cope_shows_the_simplest_formula():
    """A triangle in whole numbers: 13 across half the leg, 5 across half the rail, 12 to the tips."""
    working = Cope("26 mm", "10 mm", "360 mm").working("depth")
    assert working.latex == (
        r"\begin{aligned}x_{0} &= \frac{D}{2} = \frac{26}{2} = \text{13 mm} \\ "
        r"y_{1} &= \frac{t}{2} = \frac{10}{2} = \text{5 mm} \\ "
        r"x_{1} &= \sqrt{\frac{D^{2}}{4} - y_{1}^{2}} = \sqrt{\frac{26^{2}}{4} - 5^{2}} = \text{12 mm} \\ "
        r"c &= x_{0} - x_{1} = 13 - 12 = \text{1.0 mm}\end{aligned}"
    )
    assert working.left_out == "Left out here, being nothing: offset, rake."
    assert working.left_out in working._repr_latex_() and working.left_out in working.html
    assert r"\rho" in working.whole.latex and working.whole.left_out == ""


def test_the_whole_formula_is_folded_below_and_no_slider_changes_it():
    first, second = (Cope(leg, "20 mm", "360 mm").working("depth") for leg in ("35 mm", "40 mm"))
    folded = ElementTree.fromstring(first.whole_html.replace("&InvisibleTimes;", "").replace("&ApplyFunction;", ""))
    assert folded.tag == "details" and folded[0].tag == "summary" and len(folded) == 1 + len(first.whole.steps)
    assert "ρ" in "".join(folded.itertext()) or "rho" in first.whole_html
    assert "<details" in first.html and first.whole_html == second.whole_html
    assert first.steps_html != second.steps_html


@pytest.mark.parametrize(
    ("example", "name", "told"),
    [
        (RoundCope("35 mm", "19 mm"), "root_reach", r"x_{0} = \frac{D}{2} = \frac{35}{2}"),
        (StaveRing("440 mm", "400 mm", 12), "mitre_angle", r"\mu = \frac{\pi}{n} = \frac{\pi}{12}"),
        (StaveRing("440 mm", "400 mm", 12, slope="90 deg"), "blade_tilt", r"\beta = \frac{\pi}{n} = \frac{\pi}{12}"),
        (Cope("35 mm", "20 mm", "360 mm", offset="3 mm"), "between", "b = S - D = 360 - 35"),
    ],
)
def test_right_angles_and_half_turns_are_left_out_too(example, name, told):
    assert told in example.working(name).steps[-1].latex


def test_a_long_sentence_under_a_formula_is_broken_so_that_a_tablet_shows_all_of_it():
    working = RoundCope("35 mm", "19 mm").working("saddle_depth")
    told = re.findall(r"\\text\{([^}]*)\}", working._repr_latex_())
    assert len(working.left_out) > 70 and " ".join(told).endswith(working.left_out) and max(map(len, told)) <= 60


def test_a_size_that_stands_first_in_its_row_keeps_its_line():
    table = StaveRing("440 mm", "400 mm", 12).vary("saw_error", "-0.3 deg", show=("closing_angle",))._repr_html_()
    assert 'white-space:nowrap">-0.30 deg</td>' in table
    assert "nowrap" not in CircleJig("440 mm", "12 mm").vary("hold", "30 mm", show=())._repr_html_().split("</tr>")[0]


def test_a_formula_of_which_nothing_is_left_is_shown_whole():
    working = StaveRing("440 mm", "400 mm", 12).working("closing_angle")
    assert not working.settled and r"\epsilon" in working.latex and working.left_out == ""


def test_what_cannot_be_divided_by_stays():
    """An angle of 0 under a fraction bar is not put in as nothing."""
    model = small_model(lambda self: self.a * sin(self.lean) / sin(self.lean))
    assert model(lean="15 deg").working("found").settled == ()
    divided = small_model(lambda self: self.a / (self.b + self.a * self.lean) + self.a / self.lean)
    assert not _is_sound(divided, "found", (("lean", 0),))


def test_a_tangent_is_turned_back_only_where_that_is_true():
    """atan(tan(pi/n)) is pi/n from three up: a single piece would make nothing of pi."""

    @model
    class Share(Model):
        lean: Input = angle("lean", "t", "0 deg", "40 deg", "1 deg", "0.5 deg", "A lean.", default="0 deg")
        few: Input = count("few", "m", 1, 9, "From one up.", default=4)
        many: Input = count("many", "n", 3, 9, "From three up.", default=4)
        found = result("found", "x", kind="angle")(lambda self: cos(self.lean) * atan(tan(self.pi / self.few)))
        other = result("other", "y", kind="angle")(lambda self: cos(self.lean) * atan(tan(self.pi / self.many)))

    assert "atan" in Share().working("found").latex
    assert Share().working("other").latex.startswith(r"\begin{aligned}y &= \frac{\pi}{n} =")


def test_a_slider_moves_only_numbers(monkeypatch):
    """Formulas are run on symbols once for each set of what is left out."""
    rail = Cope("35 mm", "20 mm", "360 mm", offset="1 mm")
    for sizes in ({}, {"offset": "0 mm"}):
        rail.replace(**sizes).working("depth")
    monkeypatch.setattr("shoplib.model.formula._run", None)
    assert "y_{0}" in rail.replace(offset="2 mm", leg_diameter="40 mm").working("depth").latex
    assert "y_{0}" not in rail.replace(offset="0 mm", leg_diameter="40 mm").working("depth", "in").latex


def test_steps_come_before_what_leans_on_them():
    working = CircleJig("440 mm", "12 mm", ring_width="20 mm").working("pivot_step")
    assert [step.name for step in working.steps][-1] == "pivot_step"
    assert {step.name for step in working.steps} == {"outer_pivot", "inner_pivot", "pivot_step"}
    steps = [step.name for step in StaveRing("440 mm", "400 mm", 12).working("material_yield").steps]
    assert steps.index("blank_outer") < steps.index("long_edge") < steps.index("strip_length")


def test_deep_formula_has_inputs_only():
    names = {str(symbol) for symbol in formula(StaveRing, "board_width").free_symbols}
    assert names == {"D", "d", "m", "n"}


def test_a_negative_number_is_put_in_brackets():
    ring = StaveRing("440 mm", "400 mm", 12, saw_error="-0.25 deg")
    assert r"(-0.25^\circ)" in ring.working("closing_angle").latex


def test_jupyter_shows_the_latex():
    working = CircleJig("440 mm", "12 mm").working("outer_pivot")
    assert working.latex in working._repr_latex_()
    assert working._repr_latex_().startswith("$")


# What models hold to ----------------------------------------------------------------------------------------


@ONE_OF_EACH
class TestFrozen:
    def test_nothing_can_be_set(self, example):
        for name in [*type(example).inputs(), *type(example).results(), "values", "more"]:
            with pytest.raises(dataclasses.FrozenInstanceError):
                setattr(example, name, "3 mm")

    def test_nothing_can_be_deleted(self, example):
        for name in type(example).inputs():
            with pytest.raises(dataclasses.FrozenInstanceError):
                delattr(example, name)

    def test_replace_makes_another(self, example):
        first = next(name for name, item in type(example).inputs().items() if item.kind in models._TYPED)
        before = getattr(example, first)
        larger = example.replace(**{first: before * 1.1})
        assert getattr(larger, first) == before * 1.1
        assert getattr(example, first) == before
        assert larger != example

    def test_replace_is_checked(self, example):
        first = next(item for item in type(example).inputs().values() if item.low is not None and item.low >= 0)
        with pytest.raises(ShapeError):
            example.replace(**{first.name: models.typed(first, -1)})

    def test_repr_names_the_sizes_given(self, example):
        for name, item in type(example).inputs().items():
            assert (f"{name}=" in repr(example)) == (example.values[name] is not None)
            if example.values[name] is not None:
                assert item.write(example.values[name]) in repr(example)


@EACH_MODEL
@settings(deadline=None, max_examples=20)
@given(data=st.data())
def test_equal_sizes_make_equal_models(cls, data):
    sizes = data.draw(models.sizes(cls))
    example = models.made(cls, sizes)
    assume(example)
    for same in (cls(**sizes), example.replace()):
        assert same == example
        assert hash(same) == hash(example)
    assert {example: "found"}[cls(**sizes)] == "found"


def test_equal_sizes_in_other_units_and_other_classes():
    whole = {"hold": "25.4 mm", "pivot_pin": "6.35 mm"}  # sizes left out are inch sizes beside inches
    assert CircleJig("17 3/8 in", "1/2 in") == CircleJig("441.325 mm", measure.length("12.7 mm"), **whole)
    assert CircleJig("440 mm", "12 mm") != CircleJig("440 mm", "12.1 mm")
    assert StaveRing("440 mm", "400 mm", 12) != "440 mm"


# Inputs that cannot be read ---------------------------------------------------------------------------------


@model
class Everything(Model):
    size: Input = a_length("a")
    spare: Input = a_length("b", default=None)
    run: Input = a_length("r", default="0 mm", low="0 mm")
    weight: Input = mass("weight", "W", "1 kg", "90 kg", "1 kg", "1 kg", "On the scales.", default="20 kg")
    pieces: Input = count("pieces", "n", 3, 12, "How many.", default=4)
    turned: Input = flag("turned over", "f", "Every second one.", False)
    ring: Input = choice("ring grain", "g", ("parallel", "mitred"), "As glued.", "parallel")
    total = result("total", "t")(lambda self: self.size * self.pieces)


@pytest.mark.parametrize("cls", EXAMPLES, ids=lambda cls: cls.__name__)
def test_a_refusal_names_its_size_before_the_sentence(cls):
    """No sentence has to agree with a name such as "between the dowels", "casters" or "mitres out by"."""
    sizes = EXAMPLES[cls][0]
    for item in cls.inputs().values():
        for wrong in (None, "-4 mm", "-4 kg", "-4 deg", "nonsense", "-4", 2.5):
            try:
                item.read(wrong)
            except ValueError as refused:
                assert str(refused).startswith(f"{item.words[0].upper()}{item.words[1:]}: "), str(refused)
                assert str(refused).endswith("."), str(refused)
    for name, item in cls.results().items():
        if not item.plan:
            continue
        for ask in (sizes.working, sizes.budget, lambda name: sizes.find(next(iter(cls.inputs())), **{name: "1 mm"})):
            with pytest.raises(ShapeError) as refused:
                ask(name)
            assert str(refused.value).startswith(f"{item.words[0].upper()}{item.words[1:]}: "), str(refused.value)


@pytest.mark.parametrize(
    ("given_input", "error", "said"),
    [
        ({"pieces": 2.0}, MeasureError, "Pieces.*whole number.*2.0"),
        ({"pieces": "2.5"}, MeasureError, "Pieces.*whole number.*2.5"),
        ({"pieces": "many"}, MeasureError, "Pieces.*many"),
        ({"pieces": True}, MeasureError, "Pieces.*True"),
        ({"pieces": None}, MeasureError, "Pieces: this is missing"),
        ({"pieces": "12 mm"}, MeasureError, "Pieces.*12 mm"),
        ({"pieces": "9" * 5000}, MeasureError, "Pieces.*whole number"),
        ({"pieces": "٤"}, MeasureError, "Pieces"),
        ({"pieces": 2}, ShapeError, "Pieces: it must be from 3 to 12, not 2"),
        ({"pieces": 13}, ShapeError, "Pieces: it must be from 3 to 12, not 13"),
        ({"pieces": -4}, ShapeError, "Pieces: it must be from 3 to 12, not -4"),
        ({"turned": 1}, MeasureError, "Turned over: say True or False, not '1'"),
        ({"turned": "yes"}, MeasureError, "Turned over.*yes"),
        ({"turned": None}, MeasureError, "Turned over: this is missing"),
        ({"ring": "round"}, MeasureError, "Ring grain: choose one of parallel, mitred, not 'round'"),
        ({"ring": 1}, MeasureError, "Ring grain.*1"),
        ({"size": None}, MeasureError, "Size a: this is missing"),
        ({"size": 12}, MeasureError, "12.*unit"),
        ({"size": "12"}, MeasureError, "12.*unit"),
        ({"size": "12 kg"}, MeasureError, "12 kg.*mass"),
        ({"size": "0 mm"}, ShapeError, r"Size a: it must be more than nothing, not 0\.0 mm\. Give a larger"),
        ({"size": "-3 mm"}, ShapeError, r"Size a: it must be more than nothing, not -3\.0 mm"),
        ({"spare": "0 mm"}, ShapeError, "Size b"),
        ({"run": "-1 mm"}, ShapeError, r"Size r: it must be nothing or more, not -1\.0 mm"),
        ({"weight": "0 kg"}, ShapeError, "Weight: it must be more than nothing, not 0 kg"),
        ({"weight": "5 mm"}, MeasureError, "5 mm"),
    ],
)
def test_what_cannot_be_read_names_the_input(given_input, error, said):
    with pytest.raises(error, match=said) as caught:
        Everything(**given_input)
    if error is ShapeError:
        assert {caught.value.input} == given_input.keys()


def test_errors_are_value_errors_told_in_both_units():
    with pytest.raises(ValueError, match="25.4 mm") as caught:
        Everything(run="-1 in")
    assert "not -1 in" in caught.value.tell("in")


@pytest.mark.parametrize("pieces", [7, "7", " 7 "])
def test_counts_may_be_typed(pieces):
    assert Everything(pieces=pieces).pieces == 7


def test_missing_sizes_are_refused():
    with pytest.raises(TypeError, match="diameter"):
        CircleJig()


def test_inputs_as_they_were_given():
    example = Everything("1/2 in", turned=True)
    assert example.size.m_as("in") == CLOSE(0.5)
    assert example.spare is None
    assert (example.turned, example.ring, example.weight.m_as("kg")) == (True, "parallel", 20)
    assert "turned over yes" in example.summary()
    assert "size b" not in example.summary()


def test_steps_of_a_slider():
    diameter = CircleJig.inputs()["diameter"]
    assert (diameter.step_in("mm"), diameter.step_in("in")) == (1, 25.4 / 16)
    assert StaveRing.inputs()["staves"].step_in("mm") == 1
    assert StaveRing.inputs()["slope"].step_in("in") == CLOSE(math.radians(0.5))


def test_a_size_off_the_step_is_written_more_finely():
    diameter = CircleJig.inputs()["diameter"]
    assert (diameter.write(440.0), diameter.write(440.3)) == ("440 mm", "440.30 mm")
    assert (diameter.write(12.7, "in"), diameter.write(440.0, "in")) == ("1/2 in", "17.323 in")


def test_braces_that_a_person_typed_are_quoted_as_they_are():
    assert str(ShapeError("Not '{}'.")) == "Not '{}'."
    assert Caution("Not {} but {}.", 25.4, 50.8, input="a").tell("in") == "Not 1 in but 2 in."


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_sizes_of_one_input_tried_in_a_table(unit):
    """5, 12, 13 and 12, 5, 13: hollows 1 and 8 mm deep; what cannot be told gets a dash."""
    rail = Cope("26 mm", "10 mm", "360 mm")
    table = rail.vary("rail_thickness", "10 mm", "24 mm", show=("depth", "rail_length_bottom"), unit=unit)
    assert table.head == ("rail thickness", "cope depth", "rail's bottom edge, tip to tip")
    sizes = [["10.0 mm", "1.0 mm"], ["24.0 mm", "8.0 mm"]]
    if unit == "in":
        sizes = [["25/64 in (0.394)", "3/64 in (0.039)"], ["15/16 in (0.945)", "5/16 in (0.315)"]]
    assert [list(row) for row in table.rows] == [[*row, "—"] for row in sizes]
    with pytest.raises(MeasureError, match="no input"):
        rail.vary("depth", "10 mm", show=("depth",))
    with pytest.raises(ShapeError, match="misses the leg"):
        rail.vary("rail_thickness", "26 mm", show=("depth",))


def test_summary_by_hand():
    ring = StaveRing("440 mm", "400 mm", 12, slope="90 deg")
    assert ring.summary() == (
        "StaveRing: outside diameter 440 mm, inside diameter 400 mm, staves 12, margin 0.0 mm, kerf 0.0 mm, "
        "slope 90.0 deg, saw error 0.00 deg -> mitre angle 0.00 deg, blade tilt 15.00 deg, "
        "closing angle 0.00 deg"
    )


@EACH_MODEL
def test_defaults_left_out_are_sensible_inch_sizes_where_all_is_given_in_inches(cls):
    """And stay as they are declared where a millimetre is among the sizes, or where they are given as Quantities."""
    required = {name: item for name, item in cls.inputs().items() if item.default is REQUIRED}
    usual = {name: item.read(item.default) for name, item in cls.inputs().items() if item.default is not REQUIRED}
    usual = {name: size for name, size in usual.items() if cls.inputs()[name].kind == "length" and size}
    given = {name: EXAMPLES[cls][0].values[name] for name in required}
    for name, item in required.items():
        if item.kind == "length":
            given[name] = f"{round(given[name] / 25.4 * 64)}/64 in"
        elif item.kind not in ("count", "choice", "flag"):
            given[name] = measure.quantity(given[name], models._BASES[item.kind])
    if not usual or not any(item.kind == "length" for item in required.values()):
        return
    made = cls(**given)
    for name, size in usual.items():
        assert made.values[name] == CLOSE(inch_twin(size)), name
        parts = made.values[name] / 25.4 * 64
        assert parts == CLOSE(round(parts)) or size < 0.2, "a size on a rule in inches, or one too small for it"
    one = next(name for name, item in required.items() if item.kind == "length")
    metric = cls(**given | {one: f"{made.values[one]} mm"})
    assert {name: metric.values[name] for name in usual} == usual
    assert made.replace(**{one: made.values[one] * measure.length("1 mm")}) == made


@pytest.mark.parametrize(
    ("size", "unit", "told"),
    [
        (12, "percent", "12.00 %"), (3, "deg", "3.00 deg"), (3, "ft", "914.40 mm"), (3, "kg", "3.00 kg"),
        (3, "m**2", "3.000 m²"), (3, "liter", "3.000 l"),
    ],
)  # fmt: skip
def test_a_quantity_of_any_kind_is_written_finely(size, unit, told):
    assert write_finely(measure.quantity(size, unit)) == told


def test_an_inch_size_off_the_sliders_step_is_told_on_a_rule_where_it_lies_on_one():
    height = Rolling.inputs()["cg_from_casters"]
    assert height.write(7.125 * 25.4, "in") == "7 1/8 in" and height.write(180.0, "in") == "7.087 in"
    assert height.write(180.25, "mm") == "180.25 mm" and height.write(7.25 * 25.4, "in") == "7 1/4 in"
