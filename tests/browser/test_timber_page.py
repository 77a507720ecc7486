"""What a person does with the lesson on buying timber in a browser: tables, files, planning, stopping, printing."""

import base64
import re
from urllib.parse import unquote

import pytest
from browser.lab import HOUSE, WIDTHS, LessonPage
from browser.probes import CONTRAST, THEME, TOO_WIDE, out_of_reach

pytestmark = pytest.mark.xdist_group("12_timber")
HARD_PARTS = "part,count,length,width,thickness,timber\n" + "".join(
    f"p{n},3,{211 + 37 * n} mm,{31 + 7 * n} mm,20 mm,my own ash\n" for n in range(12)
)
HARD_BOARDS = "board,length,width,thickness\n" + "".join(
    f"b{n},{1500 + 130 * n} mm,{110 + 7 * n} mm,27 mm\n" for n in range(12)
)


@pytest.fixture(scope="module")
def lesson(lab, window):
    page = LessonPage(lab, window, HOUSE / "notebooks" / "12_timber.ipynb")
    yield page
    page.close()


@pytest.fixture(autouse=True)
def nothing_goes_wrong(lesson):
    yield
    lesson.settle()
    assert lesson.troubles() == []


class Timber:
    """The bench with its tables."""

    def __init__(self, lesson):
        self.lesson, self.page = lesson, lesson.page
        self.root = lesson.page.locator(".jp-OutputArea-output:has([data-press=plan])")

    def box(self, name):
        return self.root.get_by_title(name, exact=True)

    def write(self, name, text):
        self.box(name).fill(text)
        self.box(name).press("Enter")
        self.lesson.settle()

    def press(self, name):
        self.root.get_by_role("button", name=re.compile(f"^([●○] )?{name}$")).click()
        self.lesson.settle()

    def plan(self):
        """Press Plan and wait until it is made."""
        self.press("Plan")
        self.page.wait_for_function("!document.querySelector('[data-place=work] progress')")
        self.lesson.settle()

    def again(self):
        self.press("First tables again")
        self.page.wait_for_function("!document.querySelector('[data-place=work] progress')")
        self.lesson.settle()

    def choose(self, kind, name, text):
        """Choose a file for a table, as from the system's own window."""
        with self.page.expect_file_chooser() as chooser:
            self.root.get_by_title(f"Choose a CSV file: all {kind}s come from it").click()
        data = text if isinstance(text, bytes) else text.encode()
        chooser.value.set_files({"name": name, "mimeType": "text/csv", "buffer": data})
        self.page.wait_for_timeout(100)  # the page reads the file
        self.lesson.settle()

    def alerts(self):
        return self.root.locator("[role=alert]").all_text_contents()

    def told(self):
        return self.root.locator("[data-place=told]").text_content()


@pytest.fixture
def bench(lesson):
    lesson.widen("desktop")
    return Timber(lesson)


def test_all_cells_run_and_everything_has_a_name(lesson, bench):
    for output in lesson.outputs():
        assert output["output_type"] != "error" and output.get("name") != "stderr", output
    assert bench.root.count() == 1 and bench.alerts() == []
    for width in WIDTHS:
        lesson.widen(width)
        assert out_of_reach(lesson.page) == [], width


def test_nothing_is_cut_off_and_all_is_legible(lesson, bench):
    lists = "open => document.querySelectorAll('[data-place=told] details').forEach(each => each.open = open)"
    for theme in ("JupyterLab Dark", "JupyterLab Light"):
        lesson.page.evaluate(THEME, theme)
        lesson.page.wait_for_function(f"document.body.dataset.jpThemeName === '{theme}'")
        lesson.page.wait_for_function("!document.getElementById('jupyterlab-splash')")
        assert [each for each in lesson.page.evaluate(CONTRAST) if each[1] < 4.5] == []
    for unit in ("inches", "millimetres"):
        bench.press(unit)
        lesson.page.evaluate(lists, True)
        for width in WIDTHS:
            lesson.widen(width)
            assert lesson.page.evaluate(TOO_WIDE) == [], f"{width}, {unit}"


def test_a_part_is_edited_and_planned(bench):
    before = bench.told()
    bench.write("Part 2, count", "5")
    assert "Changed: press Plan." in bench.root.inner_text() and bench.told() == before
    bench.plan()
    assert bench.told() != before and "piece 32" in bench.told()
    bench.write("Part 2, length", "332")
    (alert,) = [each for each in bench.alerts() if each.startswith("✗ Part 2")]
    assert "length: " in alert and "unit" in alert
    bench.again()
    assert bench.alerts() == [] and bench.told() == before


def test_rows_come_and_go(bench):
    bench.root.get_by_title("One more row for a board").click()
    bench.lesson.settle()
    assert bench.box("Board 5, length").is_visible()
    bench.root.get_by_title("Take board 4 away", exact=True).click()
    bench.lesson.settle()
    assert bench.box("Board 4, board").input_value() == "" and not bench.box("Board 5, length").is_visible()
    bench.again()
    assert bench.box("Board 4, board").input_value() == "ash 27 spare"


@pytest.mark.parametrize(
    ("name", "text", "said"),
    [
        ("rack.csv", HARD_BOARDS.replace("1630 mm", "1630"), r"rack\.csv, row 3: length: .*unit"),
        ("rack.csv", HARD_BOARDS.replace("thickness", "depth"), r"rack\.csv, row 1: the column thickness is missing"),
        ("photo.csv", b"\x89PNG\xff\xfe\x00", r"photo\.csv cannot be read: it is not a text file"),
    ],
    ids=("no unit", "no column", "no text"),
)  # fmt: skip
def test_a_bad_file_says_which_row_and_cell(bench, name, text, said):
    bench.choose("board", name, text)
    (alert,) = bench.alerts()
    assert re.search(said, alert), alert
    assert bench.box("Board 1, board").input_value() == "ash 52"
    bench.again()


def test_files_are_chosen_and_a_plan_is_stopped(bench):
    bench.choose("part", "parts.csv", HARD_PARTS)
    bench.choose("board", "rack.csv", "\ufeff" + HARD_BOARDS)
    assert bench.alerts() == [] and bench.box("Board 12, length").input_value() == "2930 mm"
    bench.press("Plan")
    status = bench.root.locator("[data-place=work] [role=status]")
    status.filter(has_text=re.compile(r"Working, \d+ % of the time: at most [\d.]+ % dearer")).wait_for()
    bench.press("Stop")
    status.filter(has_text="Stopped: the best plan so far.").wait_for(timeout=5_000)
    assert "at most" in bench.told() and "no density of my own ash" in bench.told() and bench.alerts() == []
    bench.again()


@pytest.mark.parametrize(
    ("button", "kind", "start"),
    [("Saw plan A4", "application/pdf", b"%PDF"), ("Boards as a table (CSV)", "text/csv", b"board,length")],
)
def test_printouts_are_saved_and_offered(lesson, bench, button, kind, start):
    root = lesson.page.locator(f".jp-OutputArea-output:has(button:text-is('{button}'))").last
    root.get_by_role("button", name=button).click()
    lesson.settle()
    link = root.locator("a[download]")
    head, _, data = link.get_attribute("href").partition(",")
    assert head == f"data:{kind};base64"
    offered = base64.b64decode(unquote(data))
    saved = lesson.lab.folder / "printouts" / link.get_attribute("download")
    assert offered.startswith(start) and saved.read_bytes() == offered
