"""How good a saw plan gets in its time: gap to the proven bound, against longest-first, memory, and a stop.

    python tests/benchmarks/timber.py           all
    python tests/benchmarks/timber.py quick     forty parts only

Two sets: parts as a stand has them (several alike of each kind) and parts by chance (mostly one or two of a kind);
boards by chance, two in five with a fault. Nothing here is asserted: on a loaded machine a plan gets less of a core
than its time, which is told beside it. The limits: 40 parts on 10 boards within 3 % of the bound in 5 s; 200 on 40
in 30 s, never worse than longest-first; under 500 MB.
"""

import random
import resource
import statistics
import sys
import time

from shoplib import Board, Part, saw_plan
from shoplib.maths.timber.longest_first import longest_first
from shoplib.maths.timber.plan import _problem
from shoplib.maths.timber.stock import rough

ASH = "Ash, white"
SEEDS = 4
SETS = {"alike": ((2, 4, 4, 8), 10, (30, 40, 50, 60, 80, 100)), "by chance": ((1, 1, 2, 2, 3, 4), 1, range(20, 120))}


def parts_of(kind, count, seed):
    """Parts of one set: how many are alike, in what steps their lengths go, and their widths."""
    chance, (alike, step, widths), parts, made = random.Random(seed), SETS[kind], [], 0
    while made < count:
        some = min(count - made, chance.choice(alike))
        length, width = chance.randrange(120, 800, step), chance.choice(widths)
        parts.append(Part(f"part {len(parts)}", some, f"{length} mm", f"{width} mm", "20 mm", ASH))
        made += some
    return parts


def rack(count, seed):
    """Boards 1.5 to 3 m long and 110 to 225 mm wide."""
    chance, boards = random.Random(seed + 100), []
    for number in range(count):
        length, start = chance.randrange(1500, 3100, 50), chance.randrange(200, 1200, 10)
        fault = [(f"{start} mm", f"{start + 50} mm")] if chance.random() < 0.4 else []
        boards.append(Board(f"board {number}", f"{length} mm", f"{chance.randrange(110, 230, 5)} mm", "27 mm",
                            faults=fault))  # fmt: skip
    return boards


def measured(kind, count, boards, seconds, seed):
    """One plan: its gap, time, time until 3 %, and what it costs against longest-first."""
    parts, stock, near = parts_of(kind, count, seed), rack(boards, seed), []
    begun, worked = time.monotonic(), time.process_time()

    def progress(_, gap):
        if gap is not None and gap <= 0.03 and not near:
            near.append(time.monotonic() - begun)

    plan = saw_plan(parts, stock, seconds=seconds, progress=progress)
    spent = time.monotonic() - begun, time.process_time() - worked
    first = longest_first(_problem([rough(part) for part in parts], stock, 3.0))
    against = plan.cost / first.cost if first.complete and not plan.missing else None
    return plan, len(parts), spent, near[0] if near else None, against


def show(kind, count, boards, seconds, seeds=SEEDS):
    gaps = []
    for seed in range(seeds):
        plan, kinds, spent, near, against = measured(kind, count, boards, seconds, seed)
        gap = "not all placed" if plan.gap is None else f"{100 * plan.gap:5.2f} %"
        gaps += [] if plan.gap is None else [plan.gap]
        print(
            f"{kind:9}  {count:4} parts, {kinds:3} kinds  {boards:3} boards  {spent[0]:5.1f} s, "
            f"{spent[1]:4.1f} s of a core  gap {gap:9}  "
            f"3 % after {'-' if near is None else f'{near:.1f} s':>6}  "
            f"longest first: {'-' if against is None else f'{100 * against:.0f} %':>5}"
        )
    if gaps:
        median, worst = 100 * statistics.median(gaps), 100 * max(gaps)
        print(f"{kind:9}  {count:4} parts: median gap {median:.2f} %, worst {worst:.2f} %")


def stopped():
    """How long after a stop the plan is there."""
    begun = time.monotonic()
    saw_plan(parts_of("by chance", 200, 1), rack(40, 1), seconds=30, stop=lambda: time.monotonic() > begun + 4)
    print(f"stopped after 4 s, the plan was there after {time.monotonic() - begun:.2f} s")


def main(arguments):
    for kind in SETS:
        show(kind, 40, 10, 5)
    if arguments != ["quick"]:
        stopped()
        for count in (20, 40, 80, 120, 200):
            for kind in SETS:
                show(kind, count, count // 5 + 2, 30, seeds=1)
    print(f"memory at its most {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024:.0f} MB")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
