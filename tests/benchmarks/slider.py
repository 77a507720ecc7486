"""How long a slider move takes, from the message to the kernel until its last message back.

Run it with `python tests/benchmarks/slider.py`; it prints a table of times and ratios and judges nothing.
All figures of one run are taken on the same machine within a minute, so look at the ratios.
"""

import statistics
import subprocess
import sys
import time

from jupyter_client.manager import start_new_kernel

MOVES = 200
WAYS = (
    "a slider that does nothing", "the bench", "the bench, working and budget open",
    "interact and pyplot, the same drawing",
)  # fmt: skip
IMPORTS = ("import shoplib", "from shoplib import Bench, CircleJig", "import matplotlib.pyplot")

NOTHING = """
import ipywidgets
slider = ipywidgets.IntSlider(value=440, min=80, max=1500)
slider
"""

BENCH = """
from shoplib import Bench, CircleJig
bench = Bench(CircleJig("440 mm", "12 mm", ring_width="20 mm", stock_thickness="18 mm", pass_depth="5 mm",
                        through="0.5 mm", cutting_length="32 mm", base_thickness="10 mm"))
bench
"""

OPENED = """
bench.hear({"open": "working"})
bench.hear({"open": "budget"})
"""

# The same drawing as most notebooks make it: a new pyplot figure in a function under `interact`.
INTERACT = """
%matplotlib inline
import matplotlib.pyplot as plt
import numpy as np
from ipywidgets import IntSlider, interact
from shoplib import CircleJig, draw
from shoplib.drawing.layout import lay_out
from shoplib.drawing.sheet import Area, Arc, Circle, LAYERS, Line

HATCHES = {"grain": "--", "cross": "xx", "cutter": "//", "": None}

def show(diameter):
    jig = CircleJig(f"{diameter} mm", "12 mm", ring_width="20 mm", stock_thickness="18 mm", pass_depth="5 mm",
                    through="0.5 mm", cutting_length="32 mm", base_thickness="10 mm")
    plate = lay_out(draw(jig))
    fig, ax = plt.subplots(figsize=(9.6, 6.9))
    for shape in plate.shapes + plate.lines:
        pen = LAYERS[shape.layer]
        if isinstance(shape, Line) and shape.arrow:
            ax.annotate("", shape.end, shape.start, arrowprops=dict(arrowstyle="-|>", color=pen.colour))
        elif isinstance(shape, Line):
            ax.plot(*zip(shape.start, shape.end), color=pen.colour, linewidth=pen.width)
        elif isinstance(shape, Arc):
            (x, y), r, turn = shape.centre, shape.radius, np.linspace(shape.start, shape.end)
            ax.plot(x + r * np.cos(turn), y + r * np.sin(turn), color=pen.colour, linewidth=pen.width)
        else:
            for outline in shape.outlines if isinstance(shape, Area) else [shape]:
                style = dict(facecolor=pen.fill, edgecolor=pen.colour, hatch=HATCHES[pen.hatch])
                round_one = isinstance(outline, Circle)
                patch = plt.Circle(outline.centre, outline.radius) if round_one else plt.Polygon(outline)
                patch.set(**style)
                ax.add_patch(patch)
    for text in plate.texts:
        side = "center" if text.anchor == "middle" else "left"
        ax.text(text.x, text.y, text.text, ha=side, va="center", rotation=text.turn)
    ax.set(xlim=(0, plate.width), ylim=(plate.height, 0), aspect="equal")
    ax.axis("off")
    plt.show()

slider = IntSlider(value=440, min=80, max=1500)
interact(show, diameter=slider)
"""

TEMPLATE = """
import tempfile
from shoplib import save_template
save_template(bench.model, folder=tempfile.mkdtemp())
"""


class Page:
    """A kernel of its own, and the messages that a page would send it."""

    def __init__(self):
        self.manager, self.client = start_new_kernel(kernel_name="python3")

    def close(self):
        self.client.stop_channels()
        self.manager.shutdown_kernel(now=True)

    def run(self, code):
        """Run a cell; returns the milliseconds it takes, all its output sent."""
        start = time.perf_counter()
        self._until_idle(self.client.execute(code), failing=True)
        return 1000 * (time.perf_counter() - start)

    def ask(self, expression):
        """The value of an expression in the kernel."""
        sent = self.client.execute("", silent=True, user_expressions={"it": expression})
        self._until_idle(sent)
        while True:
            reply = self.client.get_shell_msg(timeout=30)
            if reply["parent_header"].get("msg_id") == sent:
                return eval(reply["content"]["user_expressions"]["it"]["data"]["text/plain"])

    def rss(self):
        """Memory of the kernel, in MB."""
        self.run("import gc; gc.collect()")
        return self.ask("int(open('/proc/self/statm').read().split()[1]) * 4096 / 1e6")

    def hold(self):
        """Take hold of the slider that the page's code has called `slider`, or of its bench."""
        self.on_bench = self.ask("'bench' in globals()")
        self.comm = self.ask("bench.live.model_id" if self.on_bench else "slider.model_id")

    def send(self, value):
        """What a page sends when its slider is moved."""
        if self.on_bench:
            data = {"method": "custom", "content": {"asked": {"slide.diameter": value}}}
        else:
            data = {"method": "update", "state": {"value": value}, "buffer_paths": []}
        message = self.client.session.msg("comm_msg", {"comm_id": self.comm, "data": data})
        self.client.shell_channel.send(message)
        return message["header"]["msg_id"]

    def move(self, value):
        """Move the slider; returns the milliseconds until the kernel's last message about it."""
        start = time.perf_counter()
        self._until_idle(self.send(value))
        return 1000 * (time.perf_counter() - start)

    def catch_up(self):
        """Twenty moves in one second, then the milliseconds until all are done."""
        for k in range(20):
            sent = self.send(300 + k)
            start = time.perf_counter()
            time.sleep(0.05)
        self._until_idle(sent)
        return max(0.0, 1000 * (time.perf_counter() - start) - 50)

    def _until_idle(self, sent, failing=False):
        while True:
            message = self.client.get_iopub_msg(timeout=60)
            if message["parent_header"].get("msg_id") != sent:
                continue
            if failing and message["msg_type"] == "error":
                raise RuntimeError("\n".join(message["content"]["traceback"]))
            if message["msg_type"] == "status" and message["content"]["execution_state"] == "idle":
                return


def import_time(statement):
    """Milliseconds of an import in a fresh Python, median of five."""
    code = f"import time; start = time.perf_counter(); {statement}; print(time.perf_counter() - start)"
    runs = [subprocess.run([sys.executable, "-c", code], capture_output=True, check=True) for _ in range(5)]
    return 1000 * statistics.median([float(run.stdout) for run in runs])


def moved_in_turn(pages, number):
    """Median milliseconds of a move on each page; in turns of ten, so that all meet one machine."""
    times = [[] for _ in pages]
    for start in range(0, number, 10):
        for page, taken in zip(pages, times):
            taken += [page.move(200 + 37 * k % 900) for k in range(start, start + 10)]
    return [statistics.median(taken) for taken in times]


def measure(nothing, bench, opened, interact):
    """All figures of four pages, each in its own kernel."""
    found = {"first bench shown": bench.run(BENCH)}
    opened.run(BENCH + "\n" + OPENED)
    nothing.run(NOTHING)
    interact.run(INTERACT)
    pages = nothing, bench, opened, interact
    for page in pages:
        page.hold()
    moved_in_turn(pages, 20)
    found["moves"] = moved_in_turn(pages, MOVES)
    found["catch-up"] = bench.catch_up()
    moved_in_turn([bench], 50)
    before = bench.rss()
    moved_in_turn([bench], MOVES)
    found["growth"] = bench.rss() - before
    found["first template written"] = bench.run(TEMPLATE)
    found["template written again"] = statistics.median([bench.run(TEMPLATE) for _ in range(5)])
    return found


def main():
    pages = [Page() for _ in range(4)]
    try:
        found = measure(*pages)
    finally:
        for page in pages:
            page.close()
    imports = {name: import_time(name) for name in IMPORTS}

    print(f"One slider move, message to the kernel until its last message back; medians of {MOVES}")
    print(f"{'':44}{'ms':>8}{'x nothing':>11}{'x quicker than interact':>25}")
    nothing, *_, interact = found["moves"]
    for words, ms in zip(WAYS, found["moves"]):
        print(f"{words:44}{ms:8.2f}{ms / nothing:11.2f}{interact / ms:25.1f}")
    print(f"{'caught up after twenty moves in a second':44}{found['catch-up']:8.1f}")
    print(f"{'memory grown over 200 moves, MB':44}{found['growth']:8.2f}")
    print()
    print(f"{'':44}{'ms':>8}{'x pyplot':>11}")
    for words, ms in imports.items():
        print(f"{words:44}{ms:8.1f}{ms / imports['import matplotlib.pyplot']:11.2f}")
    for words in ("first bench shown", "first template written", "template written again"):
        print(f"{words:44}{found[words]:8.1f}")


if __name__ == "__main__":
    main()
