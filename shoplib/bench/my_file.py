"""The file of my stand, as the benches look at it; and the row of buttons by which its sizes are chosen.

A bench asks once for each thing that a person does whether there is a file (one `os.stat`); its reader is loaded when
somebody chooses it.
"""

import os
from pathlib import Path

from shoplib.bench import looks

PATH = Path("my_stand.toml")
LESSONS, MINE = "this lesson's", "my stand's"
ROW = "display:flex;flex-wrap:wrap;align-items:center;gap:6px;width:100%"
SHOWN, HIDDEN = "display:contents", "display:none"
_read = {}


def mark_of_file():
    """What changes whenever the file does; None where there is none."""
    try:
        found = os.stat(PATH)
    except OSError:
        return None
    return found.st_mtime_ns, found.st_size, found.st_ino


def read_known(mark):
    """The stand in the file, read once for all benches; raises what keeps it from being read."""
    from shoplib.paper.stand_file import read_stand

    key = (os.getcwd(), mark)
    if key not in _read:
        _read.clear()
        _read[key] = read_stand(PATH)
    return _read[key]


def row_html(keeps=True):
    """The buttons for the sizes, in a line of their own; hidden until there is a file."""
    choose = looks.options("sizes", [LESSONS, MINE], "Sizes: ")
    kept = [
        looks.button("keep", "planned", "Keep in my stand", "Put what you changed here into my_stand.toml; told first"),
        _hidden("mine.made", looks.button("keep", "made", "Keep as made", "How it really came out; told first")),
    ]
    inside = "".join([f"<span style='font-size:15px'>Sizes</span>{''.join(choose)}", *(kept if keeps else [])])
    return _hidden("mine.row", inside.replace("padding:4px 12px", "padding:4px 7px").replace("size:15px", "size:14px"))


def _hidden(name, inside):
    """A place that holds something already, hidden until it is shown."""
    return looks.place(name, "div", HIDDEN).replace("></div>", f">{inside}</div>", 1)
