"""Benches, rims and practice outlive whatever is done to the page that they stand on, in any order."""

import itertools

import nbformat
import pytest
from browser.lab import IDLE, LISTEN, RUN_ALL, SETTLE, WIDTHS

CELLS = (
    'from shoplib import Bench, CircleJig, Practice, RimBench, StaveRing\n'
    'bench = Bench(CircleJig("440 mm", "12 mm", ring_width="20 mm"))\nbench',
    'one, other = Bench(CircleJig("300 mm", "8 mm")), Bench(StaveRing("440 mm", "400 mm", 12))\n'
    'display(one, other)',
    'rim = RimBench([("0 mm", "0 mm"), ("40 mm", "0 mm"), ("0 mm", "30 mm"), ("40 mm", "30 mm")])\nrim',
    'Practice("circle_jigs")',
    'bench.walk()\nrim.walk()',
)  # fmt: skip
OTHER = 'StaveRing("440 mm", "400 mm", 10)'
CALM = 20_000
SAVE = "async () => { await window.jupyterapp.commands.execute('docmanager:save') }"
RESTART = """async () => {
  await window.jupyterapp.shell.currentWidget.sessionContext.session.kernel.restart();
}"""
RUN_CELL = """async number => {
  const book = window.jupyterapp.shell.currentWidget.content;
  book.activeCellIndex = number;
  await window.jupyterapp.commands.execute('notebook:run-cell');
}"""
WRITE_CELL = """([number, text]) => {
  window.jupyterapp.shell.currentWidget.content.model.cells.get(number).sharedModel.setSource(text);
}"""
DEAD = ("javascript error", "model not found", "Error displaying widget", "Traceback", "could not")


class Page:
    """One browser window on the page, and what a person does there."""

    def __init__(self, context, lab, name):
        self.page = context.new_page()
        self.widths = itertools.cycle(WIDTHS.values())
        self.page.set_viewport_size(next(self.widths))
        self.page.set_default_timeout(CALM)
        self.page.goto(f"{lab.url}/doc/tree/notebooks/{name}?reset")
        self._listen()

    def _listen(self):
        self.page.wait_for_function(IDLE, timeout=60_000)
        self.page.evaluate(LISTEN)

    def settle(self):
        self.page.evaluate(SETTLE)

    def run_all(self):
        self.page.evaluate(RUN_ALL)
        self.settle()

    def run_cell(self, number):
        self.page.evaluate(RUN_CELL, number)
        self.settle()

    def write_cell(self, number, text):
        self.page.evaluate(WRITE_CELL, [number, text])

    def reload(self):
        """Save, and load the page anew."""
        self.page.evaluate(SAVE)
        self.page.reload()
        self._listen()

    def restart(self):
        self.page.evaluate(RESTART)
        self._listen()

    def alive(self):
        """Hold that everything on the page follows the hand; each time in the other width."""
        self.page.bring_to_front()
        self.page.set_viewport_size(next(self.widths))
        outputs = self.page.locator(".jp-OutputArea-output")
        benches = outputs.filter(has=self.page.get_by_role("slider")).filter(has=self.page.locator("svg[aria-label]"))
        rims = outputs.filter(has=self.page.get_by_title("Point 1, across"))
        practice = outputs.filter(has=self.page.get_by_title("Answer to question 1"))
        for kind, number in ((benches, 3), (rims, 1), (practice, 1)):
            kind.nth(number - 1).wait_for()
            assert kind.count() == number
        for bench in benches.all():
            self._follows(bench, lambda bench=bench: self._slide(bench))
        self._follows(rims, lambda: self._type(rims.get_by_title("Point 1, across")))
        self._type(practice.get_by_title("Answer to question 1"))
        assert "✗" in practice.get_by_role("status").first.inner_text()
        shown = self.page.locator(".jp-Notebook").text_content()
        assert [text for text in DEAD if text in shown] == []
        assert self.page.evaluate("window.heard.errors.splice(0)") == []

    def sizes(self):
        """What stands in all boxes."""
        return self.page.locator(".jp-OutputArea-output input[type=text]").evaluate_all("all => all.map(e => e.value)")

    def drawn_below(self, number):
        """Hold that a cell comes to show a drawing."""
        self.page.locator(".jp-Cell").nth(number).locator("svg[aria-label]").wait_for()

    def _follows(self, root, act):
        before = root.locator("svg[aria-label]").inner_html()
        act()
        self.settle()
        assert root.locator("svg[aria-label]").inner_html() != before, "nothing follows the hand"

    def _slide(self, bench):
        handle = bench.get_by_role("slider").first
        handle.press("ArrowRight" if self.page.evaluate("window.turn = !window.turn") else "ArrowLeft")

    def _type(self, box):
        """Another size than stands there now."""
        box.fill("1 mm" if box.input_value() != "1 mm" else "2 mm")
        box.press("Enter")
        self.settle()


@pytest.fixture
def name(request, lab):
    """A notebook of its own, so that each test starts from nothing."""
    name = request.node.name + ".ipynb"
    book = nbformat.v4.new_notebook(
        cells=[nbformat.v4.new_code_cell(text) for text in CELLS],
        metadata={"kernelspec": {"name": "python3", "display_name": "Python 3", "language": "python"}},
    )
    nbformat.write(book, lab.folder / name)
    yield name
    lab.stop_kernels()


@pytest.fixture
def page(browser, lab, name):
    context = browser.new_context()
    page = Page(context, lab, name)
    page.run_all()
    yield page
    context.close()


def test_run_all_again_and_reload(page):
    page.alive()
    sizes = page.sizes()
    page.run_all()
    assert page.sizes() == sizes, "what the reader set stays"
    page.alive()
    page.reload()
    page.alive()
    page.run_all()
    page.alive()


def test_cells_again_each_by_itself_and_with_another_text(page):
    for number in range(len(CELLS) - 1):
        page.run_cell(number)
        page.run_cell(number)
    page.alive()
    page.reload()
    page.alive()
    page.write_cell(0, CELLS[0].replace('CircleJig("440 mm", "12 mm", ring_width="20 mm")', OTHER))
    page.write_cell(1, f"one = Bench({OTHER})\nother = Bench(CircleJig('210 mm', '6 mm'))\ndisplay(one, other)")
    page.run_cell(0)
    page.run_cell(1)
    page.alive()
    page.reload()
    page.alive()


def test_kernel_restart(page):
    page.restart()
    page.run_all()
    page.alive()
    page.restart()
    page.reload()
    page.run_all()
    page.alive()
    page.reload()
    page.alive()


def test_two_windows(page, lab, name):
    other = Page(page.page.context, lab, name)
    other.run_all()
    other.alive()
    page.settle()
    page.alive()
    page.run_all()
    page.alive()
    other.settle()
    other.alive()
    other.reload()
    page.run_cell(0)
    other.alive()
    page.alive()


@pytest.mark.parametrize("close", [
    "bench.widget.close()\nrim.widget.close()", "import ipywidgets\nipywidgets.Widget.close_all()",
], ids=("two", "everything"))  # fmt: skip
def test_closed_and_shown_again(page, close):
    page.write_cell(4, close)
    page.run_cell(4)
    for name in ("bench", "rim"):
        page.write_cell(4, name)
        page.run_cell(4)
        page.drawn_below(4)
    page.write_cell(4, "")
    page.run_all()
    page.alive()
    page.reload()
    page.alive()


def test_a_former_bench_is_shown_again(page):
    page.write_cell(0, CELLS[0].replace("bench = ", "former = globals().get('bench')\nbench = "))
    page.run_cell(0)
    page.write_cell(4, "former")
    page.run_cell(4)
    page.drawn_below(4)
    page.write_cell(4, "")
    page.run_cell(4)
    page.alive()
    page.reload()
    page.alive()
