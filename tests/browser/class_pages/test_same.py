"""A page's own Python and this one say the same of sizes drawn for every model: texts, drawings, numbers and prints."""

import json
import os
import random
from pathlib import Path

import pytest
from browser.class_pages import told as here
from models import EXAMPLES, some_sizes

from shoplib import ShapeError, length, show
from shoplib.measure import MeasureError

HEAVY = "import sys; print(sorted({'numpy', 'scipy', 'matplotlib', 'PIL', 'ezdxf'} & set(sys.modules)))"
MADE = 3  # sizes that can be made, for each model and unit; one that cannot comes on top


def in_inches(size):
    """A length as a person types it in inches; anything else as it is."""
    is_length = isinstance(size, str) and size.endswith(" mm")
    return show(length(size), "in", "1/64 in") if is_length else size


def drawn(cls, unit, seed):
    """Sizes for a model: two that can be made, one that cannot where chance finds it, and one more that can."""
    chance, good, bad = random.Random(f"{seed} {cls.__name__} {unit}"), [], []
    while len(good) < MADE:
        sizes = some_sizes(cls, chance)
        if unit == "in":
            sizes = {name: in_inches(size) for name, size in sizes.items()}
        try:
            cls(**sizes)
        except (ShapeError, MeasureError):
            bad.append(sizes)
        else:
            good.append(sizes)
    return [*good[:2], *bad[:1], *good[2:]]


@pytest.fixture(scope="module")
def seed():
    """The same sizes on the test server every time, new ones elsewhere."""
    return 0 if os.environ.get("CI") else random.randrange(10**6)


class TestSame:
    device = "desk"
    some = ("01_circle_jigs",)

    def test_no_heavy_library_is_there(self, opened):
        assert opened.run(HEAVY).strip() == "[]"

    @pytest.mark.parametrize("unit", ["mm", "in"])
    @pytest.mark.parametrize("cls", EXAMPLES, ids=lambda cls: cls.__name__)
    def test_all_that_a_bench_tells(self, opened, cls, unit, seed):
        asked = [cls.__module__, cls.__name__, unit, *drawn(cls, unit, seed)]
        said = opened.run(f"{Path(here.__file__).read_text('utf-8')}\nprint(json.dumps(told(*{asked!r})))")
        assert said.startswith("[{"), f"the page's Python failed:\n{said}"
        for sizes, there, ours in zip(asked[3:], json.loads(said), here.told(*asked), strict=True):
            assert there.keys() == ours.keys(), f"{cls.__name__}, seed {seed}, {sizes}"
            for place, text in ours.items():
                assert there[place] == text, f"{cls.__name__}: {place!r} differs, seed {seed}, sizes {sizes}"
