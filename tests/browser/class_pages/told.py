"""What benches tell of sizes: run as it is both here and in a page's own Python, so that the two can be compared."""

import datetime
import hashlib
import importlib
import json
import tempfile
from pathlib import Path

PAPERS, DATE = {"mm": "A4", "in": "Letter"}, datetime.date(2026, 3, 2)


def told(module, name, unit, start, *others):
    """All that stands on the bench of a model for each of these sizes, every text under the name of its place.

    The bench starts with the sizes `start`, which are printed too; the others are set on it.
    """
    import shoplib
    from shoplib import ShapeError

    cls = getattr(importlib.import_module(module), name)
    bench = getattr(shoplib, "StandBench" if name == "Stand" else "Bench")(cls(**start), unit=unit)
    for pane in bench.explain.opened:
        bench.hear({"open": pane})
    found = [texts(bench, 0) | printed(bench.model, unit)]
    for number, sizes in enumerate(others, 1):
        try:
            bench.set(**sizes)
        except ShapeError as error:  # a size that no bench takes
            found.append({"refused": error.tell(unit)})
        else:
            found.append(texts(bench, number))
    return found


def texts(bench, number):
    """What stands in every place; which result is explained, and which input asked for, takes turns."""
    explain = bench.explain
    chosen, changed = (listed[number % len(listed)][1] for listed in (explain.options, explain.inputs))
    bench.hear({"chosen": chosen, "input": changed, "wanted": wanted(bench, chosen)})
    found = {place: text if isinstance(text, str) else json.dumps(text) for place, text in bench.live.shown.items()}
    found["picture"] = found["picture"].replace(bench.prefix, "bench")
    return found | numbers(bench) | {"line": bench.line()}


def wanted(bench, name):
    """A result as it is told, to be asked for; where these sizes have none, some other size."""
    from shoplib.model import answer

    text, why = answer(bench.plain, name, bench.unit)
    return "1 mm" if why else text


def numbers(bench):
    """Every result to ten digits, more than any text shows."""
    from shoplib.model import ShapeError

    found = {}
    for name in bench.cls.results():
        try:
            found[f"number of {name}"] = digits(getattr(bench.plain, name))
        except ShapeError as error:
            found[f"number of {name}"] = error.tell(bench.unit)
    return found


def digits(value):
    return (
        f"({', '.join(map(digits, value))})"
        if isinstance(value, tuple)
        else (format(value, ".10g") if isinstance(value, float) else str(value))
    )


def printed(model, unit):
    """The bytes of card and template, in short."""
    from shoplib import save_card, save_template
    from shoplib.drawing import has_template

    found = {}
    for save in (save_card, *[save_template] * has_template(type(model))):
        with tempfile.TemporaryDirectory() as folder:
            path = save(model, folder=folder, unit=unit, paper=PAPERS[unit], date=DATE)
            found[f"bytes of {save.__name__}"] = hashlib.sha256(Path(path).read_bytes()).hexdigest()
    return found
