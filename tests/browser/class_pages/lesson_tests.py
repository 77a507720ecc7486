"""What a person does with a lesson on a class page, on each kind of device."""

import csv
import io
import itertools
import json
import re

import numpy
import pytest
from browser.class_pages.opened import COVERED, READY, Bench
from browser.lab import HOUSE
from paper.reading import page_size, pages, pixels, strokes

from shoplib.practice import questions

ALL_TEXTS = """() => [...window.jupyterapp.shell.currentWidget.content.model.cells].map(cell => cell.toJSON())
  .filter(cell => cell.cell_type === 'code')
  .map(cell => cell.outputs.map(each => [each.data?.['text/plain'] ?? each.text ?? ''].flat().join('')))"""
FETCHED = """() => [...performance.getEntriesByType('navigation'), ...performance.getEntriesByType('resource')]
  .map(each => each.transferSize).reduce((sum, each) => sum + each, 0)"""
BY_PYTHON = "import js; print(sum(each.transferSize for each in js.performance.getEntriesByType('resource')))"
DOTS = 600 / 25.4  # a mm
IN_STEPS = "Hollow blank"  # its one result jumps with the number of boards
ALIKE = "Grain round the ring"  # is drawn alike for all sizes


class LessonTests:
    """All tests of one lesson, on a page that is opened once; after each of them nothing has gone wrong."""

    device, some = "", ()

    @pytest.fixture(autouse=True)
    def nothing_goes_wrong(self, opened):
        yield
        opened.settle()
        assert opened.elsewhere == [], "the page asked somebody else"
        assert opened.troubles() == []

    def test_the_lesson_can_be_read_while_python_starts(self, opened):
        assert "Press Run" not in opened.still
        assert opened.name[:2] == "00" or "What you will be able to set up" in opened.still
        assert opened.pictures and all(opened.pictures), "a picture of the still lesson is not there"
        seen = opened.page.evaluate("window.seen")
        assert all(each["reads"] for each in seen), f"something stands before the still lesson: {seen}"

    def test_it_says_how_far_it_is(self, opened):
        seen = opened.page.evaluate("window.seen")
        said, far = [each["said"] for each in seen], [each["far"] for each in seen]
        assert len(set(said)) >= 3 and all(re.match(r"[A-Z].{10,}\.$", each) for each in said), said
        assert far == sorted(far) and len(set(far)) > 3 and far[0] < 10 and far[-1] > 90, far

    def test_it_is_ready_and_nothing_jumps(self, opened):
        assert opened.said() == READY
        assert opened.moved == [], "moved in the second after it was ready: (what, px, px in height)"
        assert opened.page.evaluate("window.isSecureContext") is False

    def test_a_second_visit_starts_from_the_cache(self, opened):
        """Bytes over the network, for page, notebook and Python: all at the first visit, next to nothing later."""
        fetched = sum(where.evaluate(FETCHED) for where in (opened.page, opened.frame)) + int(opened.run(BY_PYTHON))
        assert (fetched < 1e6) if opened.visited else (fetched > 20e6), f"{fetched} bytes"

    def test_nothing_is_wider_than_the_page(self, opened):
        for where in (opened.page, opened.frame):
            wide, room = where.evaluate("[document.documentElement.scrollWidth, window.innerWidth]")
            assert wide <= room <= opened.page.viewport_size["width"]

    def test_nothing_lies_over_what_is_used(self, opened):
        assert opened.frame.evaluate(COVERED) == []

    def test_its_pictures_are_there(self, opened):
        missing = opened.frame.evaluate(
            "[...document.images].filter(each => each.complete && !each.naturalWidth).map(each => each.src)"
        )
        assert missing == []

    def test_it_says_what_the_notebook_says(self, opened):
        """All texts of all cells as they are stored, but for what cannot be there, which says so in a sentence."""
        cells = json.loads((HOUSE / "notebooks" / f"{opened.name}.ipynb").read_text("utf-8"))["cells"]
        stored = [
            ["".join(each.get("data", {}).get("text/plain", each.get("text", ""))) for each in cell["outputs"]]
            for cell in cells if cell["cell_type"] == "code"
        ]  # fmt: skip
        said = opened.frame.evaluate(ALL_TEXTS)
        assert len(said) == len(stored)
        for ours, theirs in zip(said, stored):
            if not any(re.search(r" which is not here: make it in JupyterLab\.", text) for text in ours):
                assert ours == theirs

    def test_its_code_is_hidden_until_it_is_asked_for(self, opened):
        code, button = opened.frame.locator(".jp-CodeCell .jp-InputArea-editor"), opened.page.locator("#code")
        assert code.count() > 5 and not any(each.is_visible() for each in code.all())
        opened.press(button)
        assert code.first.is_visible()
        opened.press(button)
        assert not code.first.is_visible()

    def test_every_bench_follows_the_hand(self, opened):
        benches = opened.benches()
        assert len(benches) == opened.made(r"\b(?:Stand)?Bench\(")
        for bench in benches:
            start = bench.sizes(), bench.drawing()
            self._slides(bench)
            moved = bench.sizes(), bench.drawing()
            bench.press("inches", "millimetres")
            assert (bench.sizes(), bench.drawing()) == moved, "not the same again after inches"
            self._takes_inches(bench)
            bench.press("millimetres")
            assert not any(size.endswith(" in") for size in bench.sizes()) and bench.alerts() == []
            bench.press("Back to the start")
            assert (bench.sizes(), bench.drawing()) == start

    def _slides(self, bench):
        """The box follows every slider that is drawn; the drawing, or else a size told, follows one of them."""
        read = self._what_moves(bench)
        for control in bench.controls.all():
            before = read()
            moved = bench.slide(control)
            if moved and not bench.alerts() and read() != before:
                return
            bench.start_again()
        pytest.fail(f"no slider moves the drawing: {bench.named()}")

    def _what_moves(self, bench):
        return bench.root.text_content if bench.named().startswith(ALIKE) else bench.drawing

    def _takes_inches(self, bench):
        """In inches rubbish gets one sentence, and the drawing stays; a size gets none."""
        read = self._what_moves(bench)
        before = read()
        bench.press("inches")
        assert not any(size.endswith(" mm") for size in bench.sizes()) and read() != before
        box, drawing = bench.length_box(), bench.drawing()
        size = box.input_value()
        bench.type(box, "about <b>so</b> much")
        (alert,) = bench.alerts()
        assert re.match(r"✗ .{20,300}\.$", alert, re.S) and bench.drawing() == drawing
        bench.type(box, size)
        assert bench.alerts() == []

    def test_every_bench_explains_itself(self, opened):
        for bench in opened.benches():
            working, budget = (bench.root.locator(f"[data-place={name}]") for name in ("working", "budget"))
            bench.press("Working", "Error budget")
            assert working.locator("math").count() > 0 and "worst case" in budget.inner_text()
            bench.press("Working", "Error budget", "The other way round")
            assert working.inner_html() == budget.inner_html() == ""
            self._goes_the_other_way_round(bench)
            bench.press("Back to the start", "The other way round")

    def _goes_the_other_way_round(self, bench):
        """Some result, asked for a little different, is got by changing some input, and stands there then."""
        chosen, inputs = (bench.root.get_by_title(f"The {what}") for what in ("result to explain", "input to change"))
        told = list(filter(None, map(bench.told, bench.offers(chosen))))
        for (name, size, unit), changed, share in itertools.product(told, bench.offers(inputs), (0.95, 1.1)):
            chosen.select_option(value=name)
            inputs.select_option(value=changed)
            bench.type(bench.root.get_by_title("The result that you want"), f"{share * float(size):.3f} {unit or '%'}")
            use = bench.root.get_by_role("button", name="Use this")
            if use.count():
                bench.lesson.press(use.first)
                assert bench.alerts() == [] and bench.told(name) != (name, size, unit)
                return
            said = bench.root.locator("[data-place=inverse]").inner_text()
            assert re.match(r"No .+ within its range gives that\.$", said), said
        assert bench.named().startswith(IN_STEPS), f"no input was found for any result of {bench.named()}"

    def test_a_rim_that_was_measured_is_fitted(self, opened):
        """The bench of points has no sliders: a size that is typed moves its circle."""
        rims = opened.others("Point 1, across")
        assert len(rims) == opened.made(r"\bRimBench\(")
        for rim in rims:
            box, before = rim.root.get_by_title("Point 1, across"), rim.drawing()
            size = box.input_value()
            rim.type(box, "rubbish")
            assert len(rim.alerts()) == 2, "at its row, and over the drawing"
            rim.type(box, "444 mm")
            assert rim.alerts() == [] and rim.drawing() != before
            rim.press("inches", "millimetres", "First points again")
            assert (box.input_value(), rim.drawing()) == (size, before)

    def test_the_tables_of_timber_are_alive(self, opened):
        """Without a plan, which cannot be there: rough sizes follow what is written."""
        tables = opened.frame.locator(".jp-OutputArea-output:has([title='Part 1, length'])")
        assert tables.count() == opened.made(r"\bSawBench\(")
        for bench in (Bench(opened, root) for root in tables.all()):
            told, box = bench.root.locator("[data-place=told]"), bench.root.get_by_title("Part 1, length")
            start, size = told.inner_text(), box.input_value()
            assert "A saw plan needs scipy, which is not here: make it in JupyterLab." in start
            bench.type(box, "rubbish")
            assert len(bench.alerts()) == 2, "at its row, and over the tables"
            bench.type(box, "700 mm")
            assert bench.alerts() == [] and "700 × " in told.inner_text() != start
            bench.press("inches")
            assert " × 1 3/8 in" in told.inner_text()
            bench.press("millimetres", "First tables again")
            assert (box.input_value(), told.inner_text()) == (size, start)

    def test_the_order_of_work_is_played(self, opened):
        """Each step on offer, tried in turn, is right or told to be too early."""
        steps = opened.frame.locator("[data-press=pick]:visible")
        assert (steps.count() > 0) == (opened.made(r"\bOrderGame\(") > 0)
        for step in steps.all():
            opened.press(step)
            said = opened.frame.locator("[data-place=said]").text_content()
            assert re.match(r"✓ Right|✗ Too early\. .{20,}First: ", said), said

    def test_practice_judges_and_is_handed_in(self, opened):
        topic = re.search(r'Practice\(\\"(\w+)\\"', opened.text)
        if topic is None:
            assert opened.name[:2] == "00"
            return
        unit, words = ("mm", "millimetres") if int(opened.name[:2]) % 2 else ("in", "inches")
        opened.press(opened.frame.get_by_title(re.compile(f"^Sizes in {words}")))
        asked = questions(topic[1], 1, unit)
        for number, question in enumerate(asked, 1):
            slip = question.told_slips()[:1]
            self._answers(opened, number, "rubbish", "✗ ")
            for value, said in slip:
                self._answers(opened, number, question.write(value), f"✗ Not yet. {said}")
            self._answers(opened, number, question.write(question.answer), "✓ Right")
        rows = list(csv.reader(io.StringIO(opened.saved("Hand in").read_text("utf-8-sig"))))
        for question in asked:
            assert any(question.write(question.answer) in cell for row in rows for cell in row)

    def _answers(self, opened, number, text, said):
        box = opened.frame.get_by_title(f"Answer to question {number}", exact=True)
        box.fill(text)
        box.press("Enter")
        opened.settle()
        told = opened.frame.locator(".widget-hbox", has=box).get_by_role("status").inner_text()
        assert told.startswith(said), f"question {number}, answer {text!r}"

    def test_a_template_comes_as_a_download_at_true_size(self, opened):
        """The check ruler's marks, in the pixels of another program: the first and the last stand 100 mm apart."""
        if not opened.frame.locator("button", has_text="Template A4").count():
            assert opened.name[:2] in ("00", "12", "13"), "the lesson has no template"
            return
        path = opened.saved("Template A4")
        (page, *_) = pages(path)
        high = page_size(page)[1]
        assert sorted(page_size(page)) == pytest.approx([210, 297], abs=0.1)
        (base,) = [each for each in strokes(page) if abs(each.size[0] - 101.6) < 0.5 and each.size[1] < 0.1]
        row = pixels(path, dpi=600).mean(axis=2)[round((high - base.middle[1] - 1) * DOTS)]
        left, right = (round((base.middle[0] + out) * DOTS) for out in (-52, 52))
        dark = numpy.flatnonzero(row[left:right] < 0.5)
        marks = [each.mean() for each in numpy.split(dark, numpy.flatnonzero(numpy.diff(dark) > 1) + 1)]
        assert len(marks) == 11 and abs((marks[-1] - marks[0]) / DOTS - 100) < 0.1

    def test_a_page_left_and_picked_up_still_answers(self, opened):
        """A device puts away a page that nobody looks at, Python in it too."""
        if not opened.benches():
            return
        for state in ("frozen", "active"):
            opened.devtools.send("Page.setWebLifecycleState", {"state": state})
            opened.page.wait_for_timeout(300)
        bench = opened.benches()[0]
        self._slides(bench)
        bench.start_again()
