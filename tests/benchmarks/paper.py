"""How long paper takes: a template and a card in a fresh Python, then again, and the size of their files.

    python tests/benchmarks/paper.py

Process time, medians of nine. Nothing here is asserted. The aims: a first template with all that is loaded for it
about 0.2 s, a card well under that.
"""

import json
import statistics
import subprocess
import sys

ROUNDS = 9
CODE = """
import json, tempfile, time
from shoplib import {imports}
from shoplib.paper import save_card, save_template
model, found = {model}, []
with tempfile.TemporaryDirectory() as folder:
    for save in {saves}:
        begun = time.process_time()
        path = save(model, folder=folder)
        found.append((1000 * (time.process_time() - begun), path.stat().st_size / 1000))
print(json.dumps(found))
"""
MODELS = {
    "circle jig": ("CircleJig", "CircleJig('440 mm', '12 mm', ring_width='20 mm')"),
    "stave ring": ("StaveRing", "StaveRing('440 mm', '400 mm', 12, margin='3 mm')"),
    "hollow blank, four pages": ("HollowBlank", "HollowBlank('440 mm', '400 mm', '60 mm', margin='3 mm')"),
}


def measured(imports, model, saves):
    """Milliseconds and kilobytes of each save, in a Python of its own."""
    code = CODE.format(imports=imports, model=model, saves=saves)
    return json.loads(subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout)


def main():
    print(f"{'':30}{'first, ms':>12}{'again, ms':>12}{'kB':>8}")
    for name, model in MODELS.items():
        for what in ("save_template", "save_card"):
            rounds = [measured(*model, f"({what}, {what})") for _ in range(ROUNDS)]
            first, again = (statistics.median(each[k][0] for each in rounds) for k in (0, 1))
            print(f"{name + ', ' + what[5:]:36}{first:6.0f}{again:12.0f}{rounds[0][0][1]:8.0f}")


if __name__ == "__main__":
    main()
