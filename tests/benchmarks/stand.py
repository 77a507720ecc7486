"""How long a move of the whole stand's slider takes, and its packet; and whether a lesson opens as quickly on my stand.

Run it with `python tests/benchmarks/stand.py`; it prints a table of times and ratios and judges nothing.
All figures of one run are taken on the same machine within a minute, so look at the ratios.
"""

import statistics
import tempfile
import time
from pathlib import Path

from slider import NOTHING, Page, moved_in_turn

from shoplib import Stand, save_card, save_dxf, save_packet, save_template, seedling_stand, write_stand
from shoplib.drawing import has_template
from shoplib.paper import packet

MOVES = 100
WAYS = (
    "a slider that does nothing", "the stand: leg diameter", "the stand: rail height", "the stand: finish lost",
)
STAND = """
from shoplib import StandBench, seedling_stand
bench = StandBench(seedling_stand())
bench
"""
SLIDERS = {"leg_diameter": (34, 37), "rail_height": (49, 55), "finish_loss": (0.05, 0.3)}  # all of it can be made
LESSON = """
from shoplib import Bench, Cope
bench = Bench(Cope("35 mm", "20 mm", "360 mm", rail_height="50 mm"))
bench
"""


class StandPage(Page):
    """A page whose slider is one of the stand's."""

    def hold_slider(self, name):
        self.hold()
        low, high = (round(end / Stand.inputs()[name].step_in("mm")) for end in SLIDERS[name])
        self.name, self.steps, self.turn = name, range(low, high + 1), 0

    def send(self, value):
        self.turn += 1
        asked = {f"slide.{self.name}": self.steps[7 * self.turn % len(self.steps)]}
        data = {"method": "custom", "content": {"asked": asked}}
        message = self.client.session.msg("comm_msg", {"comm_id": self.comm, "data": data})
        self.client.shell_channel.send(message)
        return message["header"]["msg_id"]


def moves():
    """Median milliseconds of a move that does nothing and of three of the stand's."""
    nothing, stands = Page(), [StandPage() for _ in SLIDERS]
    try:
        nothing.run(NOTHING)
        nothing.hold()
        for page, name in zip(stands, SLIDERS):
            page.run(STAND)
            page.hold_slider(name)
        moved_in_turn([nothing, *stands], 20)
        return moved_in_turn([nothing, *stands], MOVES)
    finally:
        for page in (nothing, *stands):
            page.close()


def timed(act, *given, **named):
    start = time.perf_counter()
    found = act(*given, **named)
    return time.perf_counter() - start, found


def one_by_one(stand, folder):
    """Every card, template and DXF of the stand's operations, saved one after the other."""
    for operation in stand.operations():
        save_card(operation.model, folder=folder)
        if has_template(operation.plain.model):
            save_template(operation.model, folder=folder)
            save_dxf(operation.model, folder=folder)


def _chapters(stand, operations, imprint):
    return [packet._chapter(stand, each, "mm", "A4", imprint) for each in operations]


def packets():
    """Seconds of a first packet, of one later, of its parts one by one; and for shares of it, seconds a page."""
    stand = seedling_stand()
    with tempfile.TemporaryDirectory() as folder:
        first, _ = timed(save_packet, stand, folder=folder)
        later = statistics.median(timed(save_packet, stand, folder=folder)[0] for _ in range(3))
        apart, _ = timed(one_by_one, stand, folder)
    imprint, shares = packet.imprint_of_stand(stand), []
    for share in (0.25, 0.5, 1.0):
        operations = stand.operations()[: round(share * len(stand.operations()))]
        taken, chapters = timed(_chapters, stand, operations, imprint)
        pages = sum(len(each.card) + len(each.template) for each in chapters)
        shares.append((pages, taken / pages))
    return first, later, apart, shares


def opened():
    """Milliseconds until a lesson's bench is shown on its own sizes, and with my stand beside it; in turns."""
    times = {False: [], True: []}
    for turn in range(6):
        with_stand = bool(turn % 2)
        with tempfile.TemporaryDirectory() as folder:
            if with_stand:
                write_stand(seedling_stand(), Path(folder) / "my_stand.toml")
            page = Page()
            try:
                page.run(f"import os; os.chdir({folder!r})")
                times[with_stand].append(page.run(LESSON))
            finally:
                page.close()
    return statistics.median(times[False]), statistics.median(times[True])


def main():
    found = moves()
    print(f"One slider move, message to the kernel until its last message back; medians of {MOVES}")
    print(f"{'':48}{'ms':>8}{'x nothing':>11}")
    for words, ms in zip(WAYS, found):
        print(f"{words:48}{ms:8.2f}{ms / found[0]:11.2f}")
    first, later, apart, shares = packets()
    print(f"\n{'packet on A4 with its DXF files, first of a session':56}{first:6.2f} s")
    print(f"{'packet again':56}{later:6.2f} s")
    print(f"{'its cards, templates and DXF files one by one':56}{apart:6.2f} s")
    for pages, each in shares:
        print(f"{f'cards and templates, {pages} pages':56}{1000 * each:6.1f} ms a page")
    own, stand = opened()
    print(f"\n{'lesson 05 opened on its own sizes':56}{own:6.0f} ms")
    print(f"{'lesson 05 opened with my stand beside it':56}{stand:6.0f} ms, {stand / own:.2f} times")


if __name__ == "__main__":
    main()
