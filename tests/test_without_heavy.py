"""Without numpy, scipy, matplotlib, pillow and ezdxf, as in a page that computes by itself, all says the same."""

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from light import LIBRARIES, NOTEBOOKS

HOUSE = NOTEBOOKS.parent
LIGHT = [path.stem for path in sorted(NOTEBOOKS.glob("[0-9]*.ipynb"))]
NO_PLAN = "A saw plan needs scipy, which is not here: make it in JupyterLab."
PLANS = ("Saw plan A4", "Saw plan Letter")
OF_A_PLAN = ("lines", "told", "html")  # what a bench says otherwise where it can plan


@pytest.fixture(scope="module")
def found(tmp_path_factory):
    """What came of all lessons: with the heavy libraries, and where they cannot be had."""
    folders = {"heavy": (), "light": LIBRARIES}
    programs = {}
    for name, libraries in folders.items():
        folder = tmp_path_factory.mktemp(name)
        command = [sys.executable, str(Path(__file__).with_name("light.py")), str(folder), *libraries]
        env = os.environ | {"PYTHONPATH": str(HOUSE)}
        programs[name] = folder, subprocess.Popen(command, env=env, stderr=subprocess.PIPE, text=True)
    for _, program in programs.values():
        _, complaints = program.communicate(timeout=300)
        assert program.returncode == 0, complaints
    return {name: json.loads((folder / "found.json").read_text("utf-8")) for name, (folder, _) in programs.items()}


def shown(thing):
    """What a page shows of a bench, a rim or a practice, but for the outline for CAD and a plan of sawing."""
    kept = {words: said for words, said in thing.get("printed", {}).items() if not words.endswith(("(DXF)", *PLANS))}
    if "sizes" in thing:
        thing = {name: each for name, each in thing.items() if name not in OF_A_PLAN} | {"sizes": thing["sizes"][0]}
    return thing | {"printed": kept}


@pytest.mark.parametrize("lesson", LIGHT)
def test_every_lesson_says_the_same(found, lesson):
    light, heavy = ({name: shown(each) for name, each in found[how]["lessons"][lesson].items()} for how in found)
    assert light == heavy
    assert not any("could not" in str(each) for each in light.values())


@pytest.mark.parametrize("lesson", [lesson for lesson in LIGHT if lesson[:2] not in ("00", "12")])
def test_every_lesson_was_used(found, lesson):
    things = found["light"]["lessons"][lesson]
    benches = [each for each in things.values() if "panes" in each]
    assert benches and any("said" in each for each in things.values())
    for each in benches:
        before, after, inches = each["lines"]
        assert before != after and " in" in inches and each["note"]
        assert all(map(words_in, each["panes"].values()))
        assert len(each["printed"]) >= 1 and "<svg" in each["drawing"]
    for each in things.values():
        for words, (said, sizes) in each.get("printed", {}).items():
            saved = said.startswith("✓ Saved as printouts/") and len(sizes) == 1
            assert saved or words.endswith("(DXF)") or said.startswith("✗ These sizes cannot be made"), said
        for right, wrong in zip(each.get("said", [])[::2], each.get("said", [])[1::2]):
            assert "✓" in right and "✗" in wrong


def test_all_of_buying_timber_is_there_but_the_plan(found):
    """Rough sizes, boards and wood follow what is written; where the plan would stand, one sentence."""
    light, heavy = (found[how]["lessons"]["12_timber"] for how in ("light", "heavy"))
    bench, told = light["bench"], words_in(light["bench"]["told"])
    assert set(bench["lines"]) == {f"SawBench: no plan. {NO_PLAN}"} and NO_PLAN not in str(heavy)
    assert [text.count("360 × 35 × 35 mm") for text in bench["sizes"]] == [0, 1]
    assert NO_PLAN in told and "rough" in told and " in" in told and "board feet on the rack" in told
    assert "which unit" in bench["note"] and "data-press=\"plan\"" not in bench["html"]
    saved = {words: said for words, (said, _) in bench["printed"].items()}
    assert {saved.pop(words) for words in PLANS} == {f"✗ Not saved: {NO_PLAN}"}
    assert len(saved) == 2 and all("✓ Saved" in said for said in saved.values())
    assert light["questions"] == heavy["questions"] and "data-press=\"plan\"" in heavy["bench"]["html"]


def test_every_cell_of_buying_timber_says_something(found):
    light, heavy = (found[how]["timber"] for how in ("light", "heavy"))
    same = {last for last in light if light[last] == heavy[last]}
    assert "bench.plan.sizes()" in same and "questions" in same
    assert {last for last in set(light) - same if NO_PLAN not in light[last]} == set()
    assert "weight of the parts at 14 %" in light["bench.plan.buy(moisture='14 %', unit='in')"]


def words_in(pane):
    return re.sub(r"<[^>]*>", "", pane).strip()


def test_what_cannot_be_there_says_so_in_a_sentence(found):
    said = found["light"]["elsewhere"]
    dxf = "An outline for CAD (DXF) needs ezdxf, which is not here: make it in JupyterLab."
    assert said["dxf"] == dxf and said["plan"] == said["saw"] == NO_PLAN
    assert said["wood"] == found["heavy"]["elsewhere"]["wood"]
    assert "plot is shown as its table" in said["plot"] and "<table" in said["plot"]
    assert f"✗ Not saved: {dxf}" in said["packet"] and said["pages"] == "%PDF"
    buttons = [
        said for things in found["light"]["lessons"].values() for each in things.values()
        for words, (said, _) in each.get("printed", {}).items()
        if words.endswith("(DXF)") and not said.startswith("✗ These sizes cannot be made")
    ]  # fmt: skip
    assert len(buttons) > 9 and set(buttons) == {f"✗ Not saved: {dxf}"}


def test_where_they_are_everything_is_done(found):
    said = found["heavy"]["elsewhere"]
    assert said["dxf"] == said["plan"] == "" and NO_PLAN not in said["saw"]
    assert "<img" in said["plot"] and "✗" not in said["packet"]


def test_the_heavy_libraries_were_kept_away(found):
    assert found["light"]["loaded"] == [] and set(found["heavy"]["loaded"]) >= {"numpy", "scipy", "ezdxf"}
