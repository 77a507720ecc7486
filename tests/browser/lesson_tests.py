"""What a person does with every lesson in a browser: how it looks at both widths, how it answers at one of them."""

import base64
import itertools
import re
from urllib.parse import unquote

import pytest
from browser.lab import WIDTHS
from browser.probes import CONTRAST, IN_VIEW, MODELS, READ, SEEN, THEME, TOO_WIDE, WATCH, out_of_reach

from shoplib import length
from shoplib.practice import questions

WITHOUT_TEMPLATE = ("13_the_stand",)  # the whole of it is no piece to lay a sheet on: its operations have theirs
ALL_KEYS = ("ArrowRight", "ArrowLeft", "Home", "End")


class LessonTests:
    """All tests of one lesson, on a page that is loaded once.

    What is laid out is looked at in both widths; what is done is done in one, the lessons taking turns.
    """

    width = ""

    @pytest.fixture(autouse=True)
    def nothing_goes_wrong(self, lesson):
        """After each test: no traceback, no complaint of page or kernel, no request to another machine."""
        yield
        lesson.settle()
        assert lesson.troubles() == []

    @pytest.fixture
    def bench(self, lesson):
        bench = lesson.benches()[0]
        yield bench
        bench.back()

    def test_all_cells_run(self, lesson):
        for output in lesson.outputs():
            assert output["output_type"] != "error" and output.get("name") != "stderr", output
        benches = lesson.benches()
        assert benches
        for bench in benches:
            assert bench.root.locator("svg[aria-label]").get_attribute("aria-label")
            assert bench.root.get_by_role("slider").count() > 0
            assert bench.alerts() == []

    def test_no_id_is_used_twice(self, lesson):
        ids = lesson.page.evaluate("[...document.querySelectorAll('.jp-Notebook [id]')].map(each => each.id)")
        assert len(ids) == len(set(ids))

    def test_everything_has_a_name_and_room_for_a_finger(self, lesson):
        for width in WIDTHS:
            lesson.widen(width)
            assert out_of_reach(lesson.page) == [], width

    def test_sliders_are_named_and_say_their_size(self, lesson):
        for bench in lesson.benches():
            for control in bench.every_control():
                words = control.locator("input[type=text]").get_attribute("title").partition(". ")[0]
                handle = control.get_by_role("slider", name=words, exact=True)
                size = control.locator("input[type=text]").input_value() or "left out"
                assert handle.get_attribute("aria-valuetext") == size

    def test_the_dark_theme_shows_every_field(self, lesson):
        for theme in ("JupyterLab Dark", "JupyterLab Light"):
            lesson.page.evaluate(THEME, theme)
            lesson.page.wait_for_function(f"document.body.dataset.jpThemeName === '{theme}'")
            lesson.page.wait_for_function("!document.getElementById('jupyterlab-splash')")
            assert [each for each in lesson.page.evaluate(CONTRAST) if each[1] < 4.5] == []

    def test_nothing_is_cut_off(self, lesson):
        """In both units and widths, with all that opens open."""
        panes = ("Working", "Error budget", "The other way round")
        for bench in lesson.benches():
            bench.press(*panes)
        try:
            for unit in ("inches", "millimetres"):
                for bench in lesson.benches():
                    bench.press(unit)
                for width in WIDTHS:
                    lesson.widen(width)
                    assert lesson.page.evaluate(TOO_WIDE) == [], f"{width}, {unit}"
        finally:
            for bench in lesson.benches():
                bench.press(*panes, "millimetres")

    def test_picture_sliders_and_settings_are_in_view_together(self, lesson):
        """On a desk's screen, where there are no more than eleven inputs."""
        lesson.widen("desktop")
        for bench in lesson.benches():
            for _ in bench.groups():
                if bench.controls.count() <= 11:
                    assert bench.root.locator("svg[aria-label]").evaluate(IN_VIEW) == []

    def test_each_slider_follows_the_keyboard(self, lesson):
        for bench in lesson.benches():
            for number, control in enumerate(bench.every_control()):
                self._slide(bench, control, ("Home", "End", "ArrowLeft") if number else ALL_KEYS)

    def _slide(self, bench, control, keys):
        """Move a slider by keys, to both ends and between them; where a shape cannot be made it says why."""
        handle, box = control.get_by_role("slider"), control.locator("input[type=text]")
        handle.scroll_into_view_if_needed()
        handle.focus()
        handle.evaluate(WATCH)
        read = [control.evaluate(READ)]
        for key in keys:
            bench.page.keyboard.press(key)
            bench.lesson.settle()
            read.append(control.evaluate(READ))
        texts, shown = [each["text"] for each in read], [each["shown"] for each in read]
        for each in read:
            self._told_why(each)
        self._steady(bench.page.evaluate(SEEN))
        bench.start_again()
        steps = handle.evaluate("each => each.max - each.min")
        assert len(set(texts)) > min(steps, 2) and texts[-2] != texts[-1], f"the box does not follow: {texts}"
        assert len(set(shown)) > 1, f"nothing follows {box.get_attribute('title')}"

    def _told_why(self, read):
        """An alert is a sentence or two for a person, and the settings then stand empty."""
        for alert in read["alerts"]:
            assert re.match(r"✗ This cannot be made\. [A-Z].{20,300}\.", alert), alert
            assert "—" in read["result"]

    def _steady(self, seen):
        assert seen["frames"] > 5
        assert seen["least"] == seen["pictures"] > 0, "a picture vanished between two frames"
        for place in zip(*seen["tops"]):
            assert max(place) - min(place) <= 1, "the page jumped"

    def test_a_size_is_typed_in_inches(self, bench):
        box, before = bench.length_box(), bench.drawing()
        text = bench.type_inches()
        assert abs(length(box.input_value()) - length(text)) < length("0.006 mm")
        assert box.input_value().endswith(" mm")
        assert text != "17 3/8 in" or box.input_value() == "441.33 mm"
        assert bench.drawing() != before
        assert bench.alerts() == []

    def test_rubbish_is_answered_and_the_picture_stays(self, bench):
        before, box = bench.drawing(), bench.length_box()
        for text in ("about <b>so</b> much", "440", "1/0 in", "0 mm", "nan mm"):
            bench.type(box, text)
            (alert,) = bench.alerts()
            assert re.match(r"✗ .{20,300}\.$", alert, re.S), alert
            assert bench.drawing() == before
        bench.start_again()
        assert bench.alerts() == []

    def test_sizes_come_back_from_inches(self, bench):
        bench.type_inches()
        sizes = bench.sizes()
        bench.press("inches")
        assert not any(size.endswith(" mm") for size in bench.sizes())
        control = bench.length_control()
        handle, box = control.get_by_role("slider"), control.locator("input[type=text]")
        before, drawing = box.input_value(), bench.drawing()
        bench.press("millimetres")
        assert bench.sizes() == sizes
        bench.press("inches")
        assert (box.input_value(), bench.drawing()) == (before, drawing)
        handle.focus()
        bench.page.keyboard.press("ArrowRight")
        bench.lesson.settle()
        assert box.input_value() != before and box.input_value().endswith(" in")
        assert bench.drawing() != drawing

    def test_explanations_follow_the_sliders(self, bench):
        bench.press("Working", "Error budget", "The other way round")
        assert bench.root.locator("math, mjx-container").count() > 0
        assert "worst case" in bench.root.inner_text()
        budget = bench.root.locator("table:has(th:text('out by'))")
        working = bench.root.locator("[data-place=working]")
        before = working.inner_html()
        bench.type(bench.root.get_by_title("The result that you want"), "1 mm")
        assert "Type the result" not in bench.root.inner_text()
        for handle in bench.controls.get_by_role("slider").all():
            handle.press("ArrowRight")
            bench.lesson.settle()
            if working.inner_html() != before:
                break
        assert working.inner_html() != before
        assert budget.count() == 1
        bench.press("Working", "Error budget", "The other way round")
        assert working.inner_html() == "" and budget.count() == 0

    def test_what_was_found_is_used(self, bench):
        bench.press("The other way round")
        before = bench.sizes()
        result = bench.root.locator("[data-result]:has(b:text-matches('\\\\d (mm|deg)'))").first
        bench.root.get_by_title("The result to explain").select_option(
            value=result.get_attribute("data-result")
        )
        bench.lesson.settle()
        size, unit = re.match(r"([\d.]+) (\w+)", result.locator("b").inner_text()).groups()
        inputs = bench.root.get_by_title("The input to change")
        names = inputs.locator("option").evaluate_all("all => all.map(each => each.value)")
        for name, share in itertools.product(names, (0.9, 1.1)):
            inputs.select_option(value=name)
            bench.type(bench.root.get_by_title("The result that you want"), f"{share * float(size):.2f} {unit}")
            use = bench.root.get_by_role("button", name="Use this")
            if use.count():
                use.first.click()
                bench.lesson.settle()
                assert bench.sizes() != before and bench.alerts() == []
                assert result.locator("b").inner_text() != f"{size} {unit}", f"{result.inner_text()} has not moved"
                break
        else:
            pytest.fail(f"no input was found for {result.inner_text()}")
        bench.press("The other way round")

    def test_a_measurement_is_judged(self, bench):
        box = bench.root.locator("input[title^='What you measured']:enabled").first
        row = box.locator("xpath=ancestor::*[@data-result]")
        verdict = row.get_by_role("status")
        size, unit = re.search(r"([\d.]+) (mm|deg)", row.inner_text()).groups()
        double = f"{2 * float(size)} {unit}"
        for text, answer in ((f"{size} {unit}", "✓ right"), (double, "too large"), ("moo", "✗ 'moo'")):
            bench.type(box, text)
            assert answer in verdict.inner_text()
        bench.type(box, "")
        assert verdict.inner_text().strip() == ""

    @pytest.mark.parametrize(
        "button, start", [("Bench card A4", b"%PDF"), ("Template A4", b"%PDF"), ("Outline", b"  0\n")],
        ids=("card", "template", "DXF"),
    )
    def test_printouts_are_saved_and_offered(self, lesson, bench, button, start):
        folder = lesson.lab.folder / "printouts"
        for old in folder.glob("*"):
            old.unlink()
        if lesson.path.stem in WITHOUT_TEMPLATE and button != "Bench card A4":
            assert bench.root.get_by_role("button", name=button).count() == 0
            return
        bench.press(button)
        link = bench.root.locator("a[download]")
        head, _, data = link.get_attribute("href").partition(",")
        assert re.fullmatch(r"data:application/(pdf|dxf);base64", head)
        offered = base64.b64decode(unquote(data))
        assert offered.startswith(start)
        (saved,) = folder.glob("*")
        assert saved.name == link.get_attribute("download")
        assert saved.read_bytes() == offered
        bench.root.locator(f"a[href*='/files/notebooks/printouts/{saved.name}']").wait_for()  # opens beside the page

    @pytest.mark.parametrize("unit, words", [("mm", "millimetres"), ("in", "inches")])
    def test_practice_tells_the_slip(self, lesson, unit, words):
        topic = re.search(r'Practice\(\\"(\w+)\\"', lesson.path.read_text("utf-8"))[1]
        lesson.page.get_by_title(re.compile(f"^Sizes in {words}")).click()
        lesson.settle()
        for number, question in enumerate(questions(topic, 1, unit), 1):
            box = lesson.page.get_by_title(f"Answer to question {number}", exact=True)
            told = lesson.page.locator(".widget-hbox", has=box).get_by_role("status")
            answers = [(question.write(question.answer), "✓ Right"), ("moo", "✗ ")]
            for value, said in question.told_slips()[:1]:
                answers.append((question.write(value), f"✗ Not yet. {said}"))
            for text, answer in answers:
                box.fill(text)
                box.press("Enter")
                lesson.settle()
                assert told.inner_text().startswith(answer)

    def test_the_order_of_work_is_played_by_keys(self, lesson):
        """Each step on offer is tried with Enter: it is taken, or its trap is told and all stays as it is."""
        slots = lesson.page.locator("[data-press=pick]:visible")
        assert (slots.count() > 0) == (lesson.path.stem == "13_the_stand")
        told = lesson.page.locator(".jp-OutputArea-output", has=slots.first).locator("[data-place=said]")
        seen = set()
        for slot in slots.all():
            words = slot.text_content()
            slot.focus()
            lesson.page.keyboard.press("Enter")
            lesson.settle()
            said = told.text_content()
            right = said.startswith("✓ Right")
            assert right or re.match(r"✗ Too early\. .{20,}First: ", said), said
            assert (slot.text_content() != words) == right, "a step that is taken makes room for another"
            seen.add(right)
        assert not seen or True in seen, "one of those on offer can always come next"

    def test_a_bench_leaves_the_others_alone(self, lesson):
        benches = lesson.benches()
        for bench in benches:
            others = [each for each in benches if each is not bench]
            before = [each.shown() for each in others]
            bench.type_inches()
            assert [each.shown() for each in others] == before
            bench.back()

    def test_keys_alone_reach_everything(self, lesson, bench):
        bench.root.get_by_role("button", name="millimetres").focus()
        reached = set()
        for _ in range(60):
            lesson.page.keyboard.press("Tab")
            reached.add(lesson.page.evaluate(
                "(e => e.type === 'range' ? 'slider' : e.title || e.textContent)(document.activeElement)"
            ))
        assert {"slider", "The result to explain", "Open or close"} <= reached
        assert any(each.startswith("What you measured") for each in reached)
        assert all(box.get_attribute("title") in reached for box in bench.boxes())

    def test_a_cell_run_again_closes_its_former_bench(self, lesson):
        count = len(lesson.benches())
        models = len(lesson.page.evaluate(MODELS))
        lesson.page.evaluate("""async () => {
            const book = window.jupyterapp.shell.currentWidget.content;
            book.activeCellIndex = book.widgets.findIndex(each => each.node.querySelector('svg[aria-label]'));
            await window.jupyterapp.commands.execute('notebook:run-cell');
        }""")
        lesson.settle()
        assert len(lesson.benches()) == count
        assert abs(len(lesson.page.evaluate(MODELS)) - models) < 20, "the former bench is still alive"
        bench = lesson.benches()[0]
        before = bench.drawing()
        bench.type_inches()
        assert bench.drawing() != before
