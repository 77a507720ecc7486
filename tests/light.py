"""Does to every lesson what a person does to it, and writes down what came of it.

`python light.py FOLDER [LIBRARY ...]` is a program of its own, so that the libraries named after the folder can be kept
away from the start.
"""

import ast
import json
import os
import re
import sys
from pathlib import Path

NOTEBOOKS = Path(__file__).resolve().parent.parent / "notebooks"
LIBRARIES = ("numpy", "scipy", "matplotlib", "PIL", "ezdxf")


class Blocked:
    """Stands before all other finders and knows nothing of some libraries."""

    def __init__(self, libraries):
        self.libraries = libraries

    def find_spec(self, name, path=None, target=None):
        if name.partition(".")[0] in self.libraries:
            raise ModuleNotFoundError(f"No module named {name!r}", name=name)


def things(path):
    """All that the cells with a bench or questions make."""
    import shoplib

    names = {"display": lambda *_: None}
    for cell in json.loads(path.read_text("utf-8"))["cells"]:
        source = "".join(cell["source"])
        if cell["cell_type"] == "code" and re.search(r"= (\w*Bench|Practice|read_stand)\(", source):
            exec(source, names)
    kinds = (shoplib.Bench, shoplib.StandBench, shoplib.RimBench, shoplib.SawBench, shoplib.Practice)
    return {name: each for name, each in names.items() if isinstance(each, kinds)}


def said_by_cells(path):
    """What every cell of a lesson says, by its last line."""
    names, said = {"display": lambda *_: None}, {}
    for cell in json.loads(path.read_text("utf-8"))["cells"]:
        if cell["cell_type"] == "code":
            *before, last = ast.parse("".join(cell["source"])).body
            exec(compile(ast.Module(before, []), path.name, "exec"), names)
            value = eval(compile(ast.Expression(last.value), path.name, "eval"), names)
            said[ast.unparse(last)] = shown_as(value)
    return said


def shown_as(value):
    """A cell's last value as a page without pictures shows it."""
    return value._repr_mimebundle_()["text/plain"] if hasattr(value, "_repr_mimebundle_") else repr(value)


def used(thing):
    """What a bench, a rim or a practice shows after it was used."""
    import shoplib

    kinds = {shoplib.Practice: answered, shoplib.RimBench: fitted, shoplib.SawBench: written}
    return next((use for kind, use in kinds.items() if isinstance(thing, kind)), moved)(thing)


def moved(bench):
    """A slider moved, the panes opened, the other way round asked, inches chosen, then everything printed."""
    name, control = next((name, each) for name, each in bench.controls.items() if hasattr(each, "ends"))
    before = bench.line()
    bench.hear({f"slide.{name}": sum(control.ends("mm")) // 2})
    bench.hear({f"box.{name}": "rubbish"})
    panes = {}
    if bench.explain is not None:
        for pane in ("working", "budget", "inverse"):
            bench.hear({"open": pane})
        result = bench.explain.chosen
        wanted = bench.cls.results()[result]
        bench.hear({"wanted": wanted.write(getattr(bench.plain, result), "mm")})
        panes = {pane: bench.live.shown[pane] for pane in ("working", "budget", "inverse")}
    lines = [before, bench.line()]
    note = bench.live.shown[control.note]
    bench.hear({"unit": "inches"})
    drawing = bench.drawing.replace(bench.prefix, "bench")
    return {"lines": [*lines, bench.line()], "note": note, "panes": panes, "drawing": drawing, **printed(bench)}


def fitted(rim):
    rim.hear({"across.1": "444 mm"})
    return {"lines": [rim.line()], "drawing": rim.drawing, **printed(rim)}


def written(bench):
    """What the tables of parts and boards tell after a size was changed, one left without a unit, and in inches."""
    lines, sizes = [bench.line()], [str(bench.plan.sizes())]
    bench.hear({"part.1.length": "360 mm"})
    if not bench.plans():
        lines, sizes = [*lines, bench.line()], [*sizes, str(bench.plan.sizes())]
    bench.hear({"part.2.length": "72"})
    note = bench.live.shown["part.2.note"]
    bench.hear({"part.2.length": "720 mm", "unit": "inches"})
    told = bench.live.shown["told"]
    return {"lines": lines, "sizes": sizes, "note": note, "told": told, "html": bench.html(), **printed(bench)}


def printed(bench):
    """What each button beside the bench said, with the bytes of a file as they are read back."""
    found = {}
    for words, button in bench.printouts.buttons.items():
        button.click()
        said = re.sub(r"<[^>]*>", "", bench.printouts.link.value).strip()
        files = sorted(Path("printouts").glob("*")) if Path("printouts").exists() else []
        found[words] = [said, [len(path.read_bytes()) for path in files if path.suffix == ".pdf"]]
        for path in files:
            path.unlink()
    return {"printed": found}


def answered(practice):
    """What is told of right answers and of rubbish."""
    said = []
    for index, question in enumerate(practice.questions()):
        for text in (question.tell(question.answer).partition(" (")[0], "rubbish"):
            practice.boxes[index].value = text
            said.append(practice.told[index].value)
    return {"said": said}


def cannot(action):
    """The sentence in which something says that it cannot be done here."""
    from shoplib.model import MissingError

    try:
        action()
    except MissingError as missing:
        return str(missing)
    return ""


def elsewhere(folder):
    """What needs a heavy library: the sentence, or nothing where it was done."""
    import shoplib

    jig = shoplib.CircleJig("440 mm", "12.7 mm", ring_width="20 mm", stock_thickness="18 mm", pass_depth="5 mm")
    season = shoplib.PanelSeason("420 mm", "1 mm", "Ash, white", "flat", "8 %", "6 %", "12 %")
    part = shoplib.Part("rail", 4, "320 mm", "50 mm", "20 mm", "Ash, white")
    board = shoplib.Board("one", "1500 mm", "60 mm", "27 mm")
    packet = shoplib.save_packet(shoplib.seedling_stand(), folder=folder)
    return {
        "dxf": cannot(lambda: shoplib.save_dxf(jig, folder)),
        "plan": cannot(lambda: shoplib.saw_plan([part], [board]).boards),
        "saw": str(shoplib.saw_plan([part], [board]).verdict()),
        "wood": [str(shoplib.saw_plan([part], [board]).weight()), str(shoplib.saw_plan([part], [board]).sizes("in"))],
        "plot": shoplib.plot_year(season)._repr_html_(),
        "packet": packet._repr_html_(),
        "pages": packet.document.read_bytes()[:4].decode(),
    }


def main(folder, *libraries):
    if libraries:
        sys.meta_path.insert(0, Blocked(libraries))
    os.environ["SHOPLIB_STRICT"] = "1"
    os.chdir(folder)
    for path in NOTEBOOKS.glob("[!m]*.toml"):
        Path(path.name).write_bytes(path.read_bytes())
    found = {}
    for path in sorted(NOTEBOOKS.glob("[0-9]*.ipynb")):
        found[path.stem] = {name: used(thing) for name, thing in things(path).items()}
    loaded = [name for name in LIBRARIES if name in sys.modules]
    cells = said_by_cells(NOTEBOOKS / "12_timber.ipynb")
    told = {"lessons": found, "elsewhere": elsewhere(folder), "loaded": loaded, "timber": cells}
    Path("found.json").write_text(json.dumps(told))


if __name__ == "__main__":
    main(*sys.argv[1:])
