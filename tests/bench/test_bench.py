"""The bench without a browser: sliders are moved by setting their value, pages read from their HTML."""

import ast
import base64
import importlib
import re
from pathlib import Path

import nbformat
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from models import EXAMPLES, sizes
from pages import (
    NASTY,
    check_nothing_typed_runs,
    open_panes,
    reads,
    slide,
    sliders,
    stands,
    table,
    type_in,
)  # fmt: skip

import shoplib
from shoplib import Bench, CircleJig, MeasureError, PanelScrew, ShapeError, StaveRing, StubBar, seedling_stand
from shoplib.model import answer

HOUSE = Path(__file__).resolve().parent.parent.parent
PUBLIC = {name: getattr(shoplib, name) for name in shoplib.__all__}
home = importlib.import_module("shoplib.bench.bench")
ALL_EXAMPLES = [model for made in EXAMPLES.values() for model in made]
JIG = CircleJig("440 mm", "12 mm", ring_width="20 mm", stock_thickness="18 mm", pass_depth="5 mm")
CANNOT = "This cannot be made."


@pytest.fixture
def bench():
    return Bench(JIG)


@pytest.fixture
def redraws(monkeypatch):
    """Counts how often any bench solves and draws."""
    seen, refresh = [], Bench.refresh
    monkeypatch.setattr(Bench, "refresh", lambda self: (seen.append(self), refresh(self)))
    return seen


def test_a_slider_moves_picture_settings_and_model(bench):
    slide(bench, "diameter", 300)
    assert "156.0 mm" in table(bench)
    assert "156.0 mm" in stands(bench, "picture")
    assert bench.model == JIG.replace(diameter="300 mm")


@pytest.mark.parametrize("model", ALL_EXAMPLES, ids=repr)
def test_a_bench_starts_from_its_model(model):
    assert Bench(model).model == model


def test_set_changes_several_inputs_and_redraws_once(bench, redraws):
    bench.set(diameter="300 mm", cutter_diameter="1/2 in", ring_width=None, pass_depth="6 mm")
    assert len(redraws) == 1
    assert bench.values["cutter_diameter"] == 12.7 and bench.values["ring_width"] is None
    assert stands(bench, "slide.diameter")["value"] == 300
    assert stands(bench, "box.pass_depth") == "6.0 mm"


def test_one_move_redraws_once(bench, redraws):
    slide(bench, "diameter", 300)
    type_in(bench, "diameter", "305.55 mm")
    bench.switch("in")
    assert len(redraws) == 3


def test_what_explains_redraws_nothing(bench, redraws):
    open_panes(bench, "working", "budget", "inverse")
    bench.hear({"measured.outer_pivot": "226 mm", "wanted": "226 mm", "chosen": "inner_pivot"})
    assert not redraws


@pytest.mark.parametrize("change", [
    {"diameter": "300"}, {"diameter": 300}, {"diameter": None}, {"nonsense": "3 mm"},
])  # fmt: skip
def test_set_refuses_what_is_no_measure_and_changes_nothing(bench, change):
    with pytest.raises(MeasureError):
        bench.set(cutter_diameter="8 mm", **change)
    assert bench.model == JIG


def test_set_takes_quantities(bench):
    bench.set(diameter=JIG.outer_pivot)
    assert bench.values["diameter"] == 226.0


def test_impossible_size_says_why_over_the_last_good_picture_and_recovers(bench):
    good = stands(bench, "picture")
    drawing = re.search("<svg.*</svg>", good)[0]
    bench.set(ring_width="300 mm")
    assert CANNOT in reads(bench, "picture") and "must stay under 220.0 mm" in reads(bench, "picture")
    assert drawing in stands(bench, "picture") and "opacity" in stands(bench, "picture")
    assert "role='alert'" in stands(bench, "picture")
    assert "—" in table(bench) and "226" not in table(bench)
    assert "cannot be made" in bench.line()
    with pytest.raises(ShapeError):
        bench.model  # noqa: B018
    bench.set(ring_width="20 mm")
    assert stands(bench, "picture") == good
    assert "226.0 mm" in table(bench)


def test_reason_is_told_in_the_unit_of_the_bench(bench):
    bench.set(ring_width="300 mm")
    assert "must stay under 220.0 mm" in reads(bench, "picture")
    bench.switch("in")
    assert "must stay under 8 21/32 in" in reads(bench, "picture")


@pytest.mark.parametrize("cls", EXAMPLES)
@settings(max_examples=15, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.data())
def test_any_sizes_give_a_picture_or_a_reason(cls, data):
    """Also in turn on one bench: whatever stood there before, what stands there now is of these sizes."""
    bench = Bench(EXAMPLES[cls][0])
    for given_sizes in data.draw(st.lists(sizes(cls), min_size=1, max_size=3)):
        bench.set(**given_sizes)
        try:
            model = bench.model
        except ShapeError as error:
            assert str(error) in reads(bench, "picture")
        else:
            assert CANNOT not in reads(bench, "picture")
            assert bench.line() == model.summary()


@pytest.fixture(scope="module", params=EXAMPLES)
def lasting(request):
    return Bench(EXAMPLES[request.param][0])


@settings(max_examples=20, deadline=None)
@given(st.data())
def test_switching_units_never_changes_a_size(lasting, data):
    lasting.set(**data.draw(sizes(lasting.cls)))
    before = dict(lasting.values)
    for unit in data.draw(st.lists(st.sampled_from(["mm", "in"]), max_size=4)):
        lasting.switch(unit)
        assert lasting.values == before


def test_units_change_all_that_is_shown(bench):
    bench.switch("in")
    shown = [reads(bench, "picture"), table(bench), reads(bench, "plan"), bench.line()]
    shown += [stands(bench, each.box) for each in sliders(bench).values()]
    assert not any(re.search(r"\d mm", text) for text in shown)
    assert all(" in" in text for text in shown[:4])


def test_an_untouched_bench_takes_sizes_that_suit_inches_and_gives_them_back(bench):
    bench.hear({"unit": "inches"})
    wanted = {"diameter": "17 3/8 in", "cutter_diameter": "1/2 in", "ring_width": "3/4 in", "pass_depth": "3/16 in"}
    assert {name: stands(bench, f"box.{name}") for name in wanted} == wanted
    bench.hear({"unit": "millimetres"})
    assert bench.model == JIG


def test_a_size_set_by_hand_stays_when_inches_are_chosen(bench):
    type_in(bench, "diameter", "441.5 mm")
    bench.hear({"unit": "inches"})
    assert bench.model == JIG.replace(diameter="441.5 mm")
    bench.hear({"back": ""})
    assert stands(bench, "box.diameter") == "17 3/8 in"


@pytest.mark.parametrize("model", ALL_EXAMPLES, ids=repr)
def test_every_example_can_start_in_inches(model):
    started = Bench(model)
    started.hear({"unit": "inches"})
    assert started.problem is None and started.model is not None


def test_a_size_whose_inch_twin_draws_a_caution_starts_finer():
    """Stubs of 14 mm hold where 1/2 in do not: 9/16 in, but the bar in plain eighths."""
    metric = StubBar("19 mm", "14 mm", "43 mm", "360 mm", "30 mm", "9 mm", "18 mm", "10 kg", leg_diameter="35 mm")
    started = Bench(metric)
    started.hear({"unit": "inches"})
    assert [stands(started, f"box.{name}") for name in ("stub_diameter", "bar_diameter")] == ["9/16 in", "3/4 in"]
    assert [each.input for each in started.model.cautions] == [each.input for each in metric.cautions]
    coarse = started.model.replace(stub_diameter="1/2 in")
    assert "stub_diameter" in [each.input for each in coarse.cautions]


def lesson_starts():
    """The models that the lessons' benches start from, in the order of the lessons, and the whole stand."""
    for path in sorted((HOUSE / "notebooks").glob("*.ipynb")):
        cells = [ast.parse(cell.source) for cell in nbformat.read(path, 4).cells if cell.cell_type == "code"]
        found = [node for cell in cells for node in ast.walk(cell)]
        named = {node.targets[0].id: node.value for node in found
                 if isinstance(node, ast.Assign) and isinstance(node.targets[0], ast.Name)}  # fmt: skip
        for node in found:
            if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "Bench":
                model = named.get(getattr(node.args[0], "id", ""), node.args[0])
                yield eval(compile(ast.Expression(model), path.name, "eval"), PUBLIC)
    yield seedling_stand()


@pytest.mark.parametrize("model", [*lesson_starts()], ids=lambda model: type(model).__name__)
def test_a_lesson_starts_in_inches_as_clean_as_in_millimetres(model):
    """No caution, and no result without a meaning, that the lesson's own sizes do not bring; round weights."""
    started = Bench(model)
    started.hear({"unit": "inches"})
    assert started.problem is None
    assert {each.input for each in started.model.cautions} <= {each.input for each in model.cautions}
    for name in started.cls.results():
        assert not answer(started.plain, name, "in")[1] or answer(model.plain, name)[1], name
    for name, item in started.cls.inputs().items():
        if item.kind in ("mass", "surface") and started.values[name]:
            steps = started.values[name] / item.plain_steps["in"]
            assert steps == pytest.approx(round(steps)), name


def test_there_are_starts_of_all_lessons():
    assert len(list(lesson_starts())) >= 24


def test_a_screw_of_the_table_starts_in_inches_as_one_of_the_table():
    """4 mm over the thread: a No. 7 is thinner, a No. 8 is not. A screw of one's own stays one's own."""
    (screw,) = [model for model in lesson_starts() if isinstance(model, PanelScrew)]
    for root, sold in (("2.8 mm", "No. 8"), ("2.9 mm", "as typed")):
        started = Bench(screw.replace(root_diameter=root))
        started.hear({"unit": "inches"})
        assert stands(started, "offer") == sold


def test_back_to_the_start(bench):
    bench.set(diameter="300 mm", ring_width=None)
    bench.hear({"back": ""})
    assert bench.model == JIG
    assert stands(bench, "slide.diameter")["value"] == 440
    assert stands(bench, "box.ring_width") == "20.0 mm"


def test_cautions_stand_with_their_source(bench):
    bench.set(pass_depth="15 mm", through="0.5 mm")
    (caution,) = bench.model.cautions
    assert f"{caution.tell()} ({caution.source})" in reads(bench, "cautions")
    bench.set(pass_depth="5 mm")
    assert "No cautions" in reads(bench, "cautions")


def test_nothing_typed_is_run(bench):
    open_panes(bench, "working", "budget", "inverse")
    for name in bench.live.shown:
        if name.startswith(("box.", "measured.", "wanted")):
            bench.hear({name: NASTY})
            assert stands(bench, name) == NASTY
    check_nothing_typed_runs(bench.widget)
    assert bench.model == JIG


def test_switching_units_while_nothing_can_be_made_turns_the_greyed_drawing_too(bench):
    bench.set(ring_width="300 mm")
    bench.switch("in")
    assert not re.search(r"\d mm", reads(bench, "picture")) and "8 57/64 in" in reads(bench, "picture")
    bench.switch("mm")
    assert "226.0 mm" in reads(bench, "picture") and " in " not in reads(bench, "picture").replace(" in the ", " ")


# Failures of the bench itself -------------------------------------------------------------------------------

@pytest.fixture
def broken(monkeypatch):
    def fail(*given):
        raise ZeroDivisionError("planted")

    monkeypatch.setattr(home, "draw", fail)


@pytest.mark.parametrize("act", [
    lambda bench: slide(bench, "diameter", 300),
    lambda bench: type_in(bench, "diameter", "300 mm"),
    lambda bench: bench.switch("in"),
], ids=["slider", "box", "units"])  # fmt: skip
@pytest.mark.parametrize("strict", [True, False])
def test_failing_callback_is_shown_and_under_test_raised(bench, broken, act, strict, monkeypatch):
    monkeypatch.setenv("SHOPLIB_STRICT", "1" if strict else "")
    if strict:
        with pytest.raises(ZeroDivisionError):
            act(bench)
    else:
        act(bench)
    assert "could not work this out" in reads(bench, "picture") and "<svg" in stands(bench, "picture")
    assert "Traceback" not in stands(bench, "picture")


def test_bench_works_again_after_a_failure(bench, monkeypatch):
    monkeypatch.setenv("SHOPLIB_STRICT", "")
    with monkeypatch.context() as patch:
        patch.setattr(home, "draw", lambda *given: 1 / 0)
        slide(bench, "diameter", 300)
    slide(bench, "diameter", 310)
    assert "could not" not in reads(bench, "picture") and "161.0 mm" in table(bench)


# In the notebook --------------------------------------------------------------------------------------------

def test_static_bundle_needs_no_kernel(bench):
    bundle = bench._repr_mimebundle_()
    line = bundle["text/plain"]
    assert "\n" not in line and "440" in line and "226.0 mm" in line
    image = re.search(r'<img alt="([^"]*)" src="data:image/svg\+xml;base64,([^"]*)"', bundle["text/html"])
    alt, coded = image.groups()
    assert "440" in alt and "226.0 mm" in alt
    assert base64.b64decode(coded).decode().startswith("<svg")
    assert "application/vnd.jupyter.widget-view+json" in bundle


@pytest.mark.parametrize("model", ALL_EXAMPLES, ids=repr)
def test_static_picture_and_line_are_the_same_every_time(model):
    one, other = (Bench(model)._repr_mimebundle_() for _ in range(2))
    assert one["text/html"] == other["text/html"] and one["text/plain"] == other["text/plain"]


def test_two_benches_on_a_page_share_no_ids():
    one, other = (set(re.findall(r'id="([^"]*)"', stands(Bench(JIG), "picture"))) for _ in range(2))
    assert one and not one & other


@pytest.mark.parametrize("model", [made[0] for made in EXAMPLES.values()], ids=repr)
def test_walk_prints_both_ends_of_every_slider_and_comes_back(model, capsys):
    bench = Bench(model)
    bench.walk()
    lines = capsys.readouterr().out.splitlines()
    assert len(lines) == 2 * len(sliders(bench))
    for first, each in zip(lines[::2], sliders(bench).values()):
        assert first.startswith(each.item.words)
    assert bench.model == model


def test_walk_ends_with_what_cannot_be_made(capsys):
    bench = Bench(StaveRing("440 mm", "400 mm", 12))
    bench.walk(inside_diameter="440 mm", margin="200 mm")
    *_, inside, margin = capsys.readouterr().out.splitlines()
    assert "cannot be made" in inside and inside.startswith("inside diameter 440 mm")
    assert "cannot be made" in margin and margin.startswith("margin 200")
    assert bench.problem is None
