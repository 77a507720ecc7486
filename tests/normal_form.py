"""Puts every notebook into normal form, or tells which are not in it.

Normal form: run from top to bottom in a fresh kernel, counts 1 to n, no error that is not shown on
purpose, real outputs, no widget state and no live view stored, one kind of metadata.

    python tests/normal_form.py             rewrite all notebooks
    python tests/normal_form.py --check     only tell
"""

import os
import sys
from pathlib import Path

import nbformat

NOTEBOOKS = Path(__file__).resolve().parent.parent / "notebooks"
LIVE = "application/vnd.jupyter.widget-view+json"
METADATA = {
    "kernelspec": {"display_name": "Python 3", "language": "python", "name": "python3"},
    "language_info": {"name": "python"},
}
CELL_METADATA = ("tags", "jupyter", "editable")


def lessons():
    """All notebooks, in the order of the book."""
    return sorted(NOTEBOOKS.glob("*.ipynb"))


def faults(path):
    """What keeps a notebook from normal form, as sentences."""
    notebook = nbformat.read(path, as_version=4)
    code = [cell for cell in notebook.cells if cell.cell_type == "code"]
    found = []
    if dict(notebook.metadata) != METADATA:
        found.append("has metadata of its own")
    if [cell.execution_count for cell in code] != list(range(1, len(code) + 1)):
        found.append("is not run from top to bottom")
    if any(LIVE in output.get("data", {}) for cell in code for output in cell.outputs):
        found.append("stores a live view")
    if any(_error_by_mistake(cell) for cell in code):
        found.append("stores an error")
    if path.read_text(encoding="utf-8") != written(notebook):
        found.append("is not written the one way")
    return found


def _error_by_mistake(cell):
    on_purpose = "raises-exception" in cell.metadata.get("tags", [])
    return not on_purpose and any(output.output_type == "error" for output in cell.outputs)


def normal(notebook):
    """Strip what a run leaves behind and is no promise."""
    notebook.metadata = nbformat.from_dict(METADATA)
    for number, cell in enumerate(notebook.cells):
        cell.id = f"cell-{number:02d}"
        kept = {key: cell.metadata[key] for key in CELL_METADATA if key in cell.metadata}
        cell.metadata = nbformat.from_dict(kept)
        for output in cell.get("outputs", []):
            output.get("data", {}).pop(LIVE, None)
            output.get("metadata", {}).pop(LIVE, None)
    return notebook


def written(notebook):
    """The text of a notebook in normal form."""
    return nbformat.writes(normal(notebook)) + "\n"


def run(path):
    """Run a notebook in a fresh kernel and write it in normal form."""
    from nbclient import NotebookClient

    os.environ["SHOPLIB_STRICT"] = "1"
    notebook = nbformat.read(path, as_version=4)
    client = NotebookClient(
        notebook, timeout=120, kernel_name="python3", store_widget_state=False,
        resources={"metadata": {"path": str(path.parent)}},
    )
    client.execute()
    aside = path.with_suffix(".new")
    aside.write_text(written(notebook), encoding="utf-8")
    aside.replace(path)


def main(arguments):
    if arguments == ["--check"]:
        wrong = {path.name: faults(path) for path in lessons()}
        for name, found in wrong.items():
            print(name, "; ".join(found) or "in normal form")
        return int(any(wrong.values()))
    for path in lessons():
        run(path)
        print(path.name, "written")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
