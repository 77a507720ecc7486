"""Makes the pictures of README.md and the lessons anew: each topic's plate, and a lesson as a browser shows it.

    python tests/make_images.py
"""

import tempfile
from pathlib import Path

import pypdfium2
from browser.lab import CHROMIUM, HOUSE, Lab, LessonPage, chromium
from playwright.sync_api import sync_playwright

from shoplib import (
    CasterLeg,
    CentreFinder,
    CircleJig,
    Cope,
    CornerBlock,
    DowelJoint,
    GrainArcs,
    MitredBar,
    PanelScrew,
    Rebate,
    StaveRing,
    draw,
    saw_plan,
    seedling_stand,
    stand_parts,
    stand_rack,
)
from shoplib.drawing.layout import lay_out
from shoplib.drawing.stave_rings.holding import draw_holding
from shoplib.drawing.timber import draw_boards
from shoplib.paper.document import Page, document
from shoplib.paper.part import Part

IMAGES = Path(__file__).resolve().parent.parent / "images"
WIDE, HIGH = 480.0, 360.0  # px of a plate in the contents, where it stands at three quarters of that
SCREW = PanelScrew(
    "50 mm", "20 mm", "19 mm", "40 mm", "4 mm", "2.8 mm", "8 mm", "6 mm", "12 mm", "75 mm", "Ash, white", "flat",
    washer_thickness="1 mm", washer_diameter="10 mm",
)  # fmt: skip
PLATES = {  # the topic's model, how its views begin, and whether its dimensions are small enough for the contents
    "circle_jigs": (CircleJig("440 mm", "12 mm", ring_width="20 mm"), ("From above",), False),
    "stave_rings": (StaveRing("440 mm", "400 mm", 12, margin="3 mm", kerf="3 mm"), ("The blank",), True),
    "rebates": (Rebate("400 mm", "20 mm", "40 mm", "12 mm", "10 mm", clearance="2.5 mm"), ("Section",), True),
    "dowels": (DowelJoint("35 mm", "20 mm", "50 mm", "8 mm", "40 mm", "12 mm", "12 mm"), ("From above",), False),
    "coping": (Cope("35 mm", "20 mm", "360 mm", rail_height="50 mm"), ("One corner",), True),
    "finding_the_centre": (CentreFinder("35 mm", "0.3 mm"), ("1 ", "2 ", "3 ", "4 "), True),
    "screws": (SCREW, ("Section",), False),
    "marking_out": (CornerBlock("35 mm"), ("Along the leg",), False),
    "pull_bars": (MitredBar("19 mm", "160 mm", "52.5 mm"), ("From above",), False),
    "trimming": (GrainArcs("staves", 12, "outside"), ("Show face up",), False),
    "the_stand": (seedling_stand(), ("From the front", "From the side", "From above"), False),
    "casters": (CasterLeg("35 mm", "11 mm", "22 mm", "50 mm", "360 mm", "720 mm"), ("From the side",), True),
}  # fmt: skip


def plates():
    """A view or two of each topic for the contents, drawn by the same code as on the bench."""
    for topic, (model, titles, dimensioned) in PLATES.items():
        sheet = draw(model)
        sheet.views = [view for title in titles for view in sheet.views if view.title.startswith(title)]
        for place, view in enumerate(sheet.views):
            view.cell = CELLS[len(sheet.views)][place]
            view.dimensions = view.dimensions if dimensioned else []
        save_png(sheet, IMAGES / f"{topic}.png", width_px=960, width=WIDE, height=HIGH)
        print(f"{topic}.png")


def save_png(sheet, path, width_px=1600, width=960.0, height=690.0):
    """Write a Sheet as a PNG picture, laid out as on the screen."""
    save_plate(lay_out(sheet, width, height), path, width_px)


def save_plate(plate, path, width_px=1600):
    """Write what is laid out already as a PNG picture, by way of the same pages as all paper."""
    page = Page(plate.width, plate.height)
    Part(plate, (0.0, 0.0, plate.width, plate.height), pen=1.0).draw(page)
    with pypdfium2.PdfDocument(document([page], plate.title)) as pdf:
        pdf[0].render(scale=width_px / pdf[0].get_width()).to_pil().save(path)


CELLS = {
    1: [(0, 0, 1, 1)],
    3: [(0, 0, 0.31, 1), (0.31, 0, 0.35, 1), (0.66, 0, 0.34, 1)],
    4: [(0, 0, 0.5, 0.5), (0.5, 0, 0.5, 0.5), (0, 0.5, 0.5, 0.5), (0.5, 0.5, 0.5, 0.5)],
}


def boards():
    """One of the stand's boards with its cuts, for the contents; the plate is as high as the others there."""
    plan = saw_plan(stand_parts(), stand_rack())
    plate = draw_boards(plan, boards={3}, width=WIDE)
    assert plate.height <= HIGH
    plate.height = HIGH
    save_plate(plate, IMAGES / "timber.png", width_px=960)
    print("timber.png")


def holding():
    """How a built ring is held for the router, for its lesson."""
    ring = StaveRing("440 mm", "400 mm", 12, margin="3 mm")
    save_png(draw_holding(ring.plain), IMAGES / "stave_rings_holding.png", width_px=1200)
    print("stave_rings_holding.png")


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
    boards()
    holding()
    lesson()
