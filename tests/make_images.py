"""Makes the pictures of README.md and the lessons anew: each topic's plate, and a lesson as a browser shows it.

    python tests/make_images.py
"""

import tempfile
from pathlib import Path

from browser.lab import CHROMIUM, HOUSE, Lab, LessonPage, chromium
from playwright.sync_api import sync_playwright

from shoplib import CasterLeg, CentreFinder, CircleJig, Cope, DowelJoint, Rebate, StaveRing, draw
from shoplib.paper.plot import save_png

IMAGES = Path(__file__).resolve().parent.parent / "images"
PLATES = {
    "circle_jigs": CircleJig(
        "440 mm", "12 mm", ring_width="20 mm", stock_thickness="18 mm", pass_depth="5 mm", through="1 mm",
        cutting_length="30 mm", base_thickness="6 mm",
    ),
    "stave_rings": StaveRing("440 mm", "400 mm", 12, margin="3 mm", kerf="3 mm", saw_error="0.1 deg"),
    "rebates": Rebate("400 mm", "20 mm", "40 mm", "12 mm", "10 mm", clearance="2.5 mm"),
    "dowels": DowelJoint("35 mm", "20 mm", "50 mm", "8 mm", "40 mm", leg_depth="12 mm", edge="12 mm"),
    "coping": Cope("35 mm", "20 mm", "360 mm", rail_height="50 mm", drum_diameter="38 mm"),
    "finding_the_centre": CentreFinder("35 mm", "0.3 mm"),
    "casters": CasterLeg("35 mm", "11 mm", "22 mm", "50 mm", "360 mm", "720 mm", centre_error="0.5 mm"),
}  # fmt: skip


def plates():
    """Each topic's plate, drawn by the same code as on the bench."""
    for topic, model in PLATES.items():
        save_png(draw(model), IMAGES / f"{topic}.png", width_px=1200)
        print(f"{topic}.png")


def lesson():
    """The first lesson, run, its bench in a browser window."""
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        lab = Lab(Path(folder))
        browser = playwright.chromium.launch(executable_path=chromium(), args=CHROMIUM)
        window = browser.new_page(viewport={"width": 1440, "height": 900})
        page = LessonPage(lab, window, HOUSE / "notebooks" / "01_circle_jigs.ipynb")
        page.benches()[0].root.evaluate("bench => bench.closest('.jp-Cell').scrollIntoView()")
        page.settle()
        window.screenshot(path=IMAGES / "lesson.png")
        browser.close()
        lab.stop()
        print("lesson.png")


if __name__ == "__main__":
    plates()
    lesson()
