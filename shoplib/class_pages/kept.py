"""My stand's file where Python's own files end with the page: the page keeps its text, and lays it here again.

The page calls these and reads what they print: the text that is in the file afterwards, and a sentence for the reader.
"""

import json
import os
import sys
from pathlib import Path

from shoplib.bench.my_file import PATH

FOLDER = "/lesson"

def settle(texts, folder=FOLDER):
    """Work in a folder of this Python's own memory, with the files that the lesson reads, texts by name.

    Elsewhere it may lie in the browser's store, where a file that takes another's place arrives empty.
    """
    os.makedirs(folder, exist_ok=True)
    os.chdir(folder)
    for name, text in texts.items():
        Path(name).parent.mkdir(parents=True, exist_ok=True)
        Path(name).write_bytes(text.encode())
    tell()


def tell(said=""):
    """Print what is in the file, null where there is none."""
    print(json.dumps({"text": PATH.read_bytes().decode(errors="replace") if PATH.exists() else None, "said": said}))


def lay(text, said=""):
    """Put a text into the file, or take the file away, and let all benches look at it."""
    if text is None:
        PATH.unlink(missing_ok=True)
    else:
        PATH.write_bytes(text.encode())
    wake()
    tell(said)


def merge(base, theirs):
    """Keep what was changed here since `base` on top of `theirs`, which another page has kept meanwhile.

    Where that cannot be, the file is as the other page left it, and the sentence says what is lost here.
    """
    from shoplib.paper.stand_file import write_stand
    from shoplib.paper.stand_file.reading import read_text

    mine = PATH.read_bytes()
    PATH.write_bytes(theirs.encode())
    try:
        here, before = read_text(mine.decode(), PATH.name), read_text(base or theirs, PATH.name)
        said = repr(write_stand(here, PATH, since=before))
    except (ValueError, OSError) as error:
        said = f"Another page has kept {PATH} meanwhile, and what this page had kept does not go with it. {error}"
    wake()
    tell(said)


def check(text):
    """Tell why a text cannot be a stand's file; an empty sentence where it can."""
    from shoplib.paper.stand_file.reading import read_text

    try:
        read_text(text, PATH.name)
    except ValueError as error:
        return tell(str(error))
    return tell()


def wake():
    """Let every bench that stands on the page look at the file."""
    benches = sys.modules.get("shoplib.bench.standing")
    for each in list(benches.all_standing) if benches else ():
        if hasattr(each, "mine"):
            each.hear({"leave_it": ""})
