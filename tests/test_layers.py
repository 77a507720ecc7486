"""The house keeps its floors: each uses only what lies below it, and nothing heavy loads too early."""

import ast
import graphlib
import importlib
import subprocess
import sys
from pathlib import Path

import pytest

import shoplib

ROOT = Path(shoplib.__file__).parent
FLOORS = ["names", "measure", "tables", "model", "maths", "practice", "drawing", "paper", "bench", "class_pages"]
HEAVY = ["pint", "sympy", "matplotlib", "ezdxf", "fontTools", "numpy", "scipy", "ipywidgets", "tomlkit"]
ONLY_ON = {"ipywidgets": "bench", "anywidget": "bench", "IPython": "bench"}
ONLY_ON |= {"matplotlib": "drawing", "segno": "class_pages", "psutil": "class_pages", "nbconvert": "class_pages"}
ONLY_ON |= {"ezdxf": "paper", "pydyf": "paper", "fontTools": "paper", "tomlkit": "paper"}
MODULES = sorted(path for path in ROOT.rglob("*.py") if "build" not in path.parts)


def dotted(path):
    """The name by which a file is imported."""
    parts = path.relative_to(ROOT.parent).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


def floor(name):
    """The floor of a dotted name in shoplib, None for shoplib itself."""
    parts = name.split(".")
    return parts[1] if len(parts) > 1 else None


def imported(source, name, package):
    """Every dotted name that a source imports, wherever it stands, named in full."""
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            inside = name.split(".") if package else name.split(".")[:-1]
            inside = inside[: len(inside) - node.level + 1] if node.level else []
            home = ".".join([*inside, node.module] if node.module else inside)
            yield from (in_full(home, alias.name) for alias in node.names)
        elif isinstance(node, ast.Constant) and str(node.value).startswith("shoplib."):
            yield node.value  # a module named as text, for importlib


def in_full(home, name):
    """Where a name imported from shoplib itself really lives."""
    if home != "shoplib":
        return f"{home}.{name}"
    return shoplib._HOME_OF.get(name, f"shoplib.{name}")


def strayed(source, name, package=False):
    """The imports of a source that reach a floor above its own."""
    allowed = FLOORS[: FLOORS.index(floor(name)) + 1]
    ours = [each for each in imported(source, name, package) if each.split(".")[0] == "shoplib"]
    return [each for each in ours if floor(each) not in allowed]


@pytest.mark.parametrize("path", [path for path in MODULES if path != ROOT / "__init__.py"], ids=dotted)
def test_floors_use_only_what_lies_below(path):
    assert floor(dotted(path)) in FLOORS, "a module that is on no floor"
    assert strayed(path.read_text(encoding="utf-8"), dotted(path), path.stem == "__init__") == []


@pytest.mark.parametrize(
    ("source", "name"),
    [
        ("from shoplib.maths import functions", "shoplib.model"),
        ("import shoplib.model", "shoplib.measure"),
        ("from shoplib import CircleJig", "shoplib.model.working"),
        ("from shoplib import paper", "shoplib.drawing.sheet"),
        ("from ..bench import looks", "shoplib.paper.card"),
        ("def late():\n    from shoplib.paper import card", "shoplib.maths.circle_jigs"),
        ("import_module('shoplib.bench.' + topic)", "shoplib.drawing.svg"),
    ],
)
def test_a_stray_import_is_seen(source, name):
    assert strayed(source, name)


@pytest.mark.parametrize(
    ("source", "name"),
    [
        ("from shoplib.maths import functions", "shoplib.maths.circle_jigs"),
        ("from shoplib.model.working import Working", "shoplib.model"),
        ("from shoplib import CircleJig, measure", "shoplib.bench.looks"),
        ("from . import sheet", "shoplib.drawing.svg"),
        ("import math, numpy", "shoplib.measure"),
    ],
)
def test_a_fair_import_is_let_pass(source, name):
    assert strayed(source, name) == []


def leans_on(path):
    """The files of shoplib that a file imports, wherever in it the import stands."""
    files = {dotted(each): each for each in MODULES}
    for name in imported(path.read_text(encoding="utf-8"), dotted(path), path.stem == "__init__"):
        while name and name not in files:
            name = name.rpartition(".")[0]
        if name and files[name] not in (path, ROOT / "__init__.py"):
            yield files[name]


def circle(graph):
    """One import circle as a list of files, or None where there is none."""
    try:
        graphlib.TopologicalSorter(graph).prepare()
    except graphlib.CycleError as error:
        return [dotted(path) for path in error.args[1]]
    return None


def test_no_files_import_each_other():
    assert circle({path: set(leans_on(path)) for path in MODULES}) is None


def test_a_circle_would_be_seen():
    one, other = MODULES[1:3]
    assert circle({one: {other}, other: {one}})


@pytest.mark.parametrize(("library", "home"), ONLY_ON.items())
def test_screen_and_paper_stay_on_their_floors(library, home):
    users = {
        floor(dotted(path)) for path in MODULES
        for name in imported(path.read_text(encoding="utf-8"), dotted(path), path.stem == "__init__")
        if name.split(".")[0] == library
    }  # fmt: skip
    assert users <= {home}


def test_no_module_hides_one_of_the_standard_library():
    assert not {path.stem for path in ROOT.iterdir()} & sys.stdlib_module_names


def loaded(code):
    """Which of the heavy libraries a fresh Python has loaded after this code."""
    code += f"\nimport sys; print(*[name for name in {HEAVY} if name in sys.modules])"
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=ROOT.parent
    )
    return done.stdout.split()


@pytest.mark.parametrize(
    "code",
    [
        "import shoplib",
        "import shoplib; dir(shoplib); shoplib.__all__",
        "from shoplib import CircleJig; CircleJig('440 mm', '12 mm').summary()",
        "from shoplib import PanelSeason, plot_year as plot; "
        "repr(plot(PanelSeason('420 mm', '1 mm', 'Ash, white', 'flat', '8 %', '6 %', '12 %')))",
        "from shoplib import HollowBlank; HollowBlank('440 mm', '400 mm', '60 mm').summary('in')",
    ],
)
def test_nothing_heavy_is_loaded_before_it_is_needed(code):
    assert loaded(code) == []


@pytest.mark.parametrize("package", ["shoplib", "shoplib.bench", "shoplib.paper"])
def test_a_package_hands_on_what_it_names_and_nothing_else(package):
    home = importlib.import_module(package)
    assert home.__all__ and set(home.__all__) <= set(dir(home))
    for name in home.__all__:
        assert getattr(home, name).__name__ == name
    with pytest.raises(AttributeError, match=f"{package} has no 'hovercraft'"):
        home.hovercraft  # noqa: B018


def test_a_heavy_library_would_be_seen():
    assert loaded("from shoplib import CircleJig; CircleJig('440 mm', '12 mm').outer_pivot")[0] == "pint"
