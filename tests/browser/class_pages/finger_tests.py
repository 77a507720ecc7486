"""What only a finger does with a lesson: it draws the page up, from wherever it begins."""

from browser.class_pages.lesson_tests import LessonTests

FAR = 240  # px
SCROLLED = "document.querySelector('.jp-WindowedPanel-outer').scrollTop"


class FingerTests(LessonTests):
    """All tests of a lesson, by finger."""

    def test_a_finger_drawn_up_scrolls_the_page(self, opened):
        """From a text, from the drawing and across a slider, which stays as it was."""
        for place in ("[data-place=picture] svg", "[data-result]", "input[type=range]:visible"):
            for bench in opened.benches()[:1]:
                self._draws_up(opened, bench.root.locator(place).first, bench.sizes)
        self._draws_up(opened, opened.frame.locator(".jp-RenderedMarkdown p:visible").first, lambda: None)

    def _draws_up(self, opened, place, shown):
        place.evaluate("each => each.scrollIntoView({block: 'center'})")
        opened.at_rest()
        box, before, top = place.bounding_box(), shown(), opened.frame.evaluate(SCROLLED)
        seen = min(box["width"], opened.page.viewport_size["width"] - box["x"])  # it may reach over the edge
        x, y = box["x"] + 0.6 * seen, box["y"] + box["height"] / 2
        opened.draw((x, y), (x, y - FAR))
        opened.at_rest()
        opened.settle()
        assert opened.frame.evaluate(SCROLLED) > top + FAR / 2, f"the page stays under the finger: {place}"
        assert shown() == before, f"a finger that scrolls has moved something: {place}"

    def test_nothing_can_be_drawn_sideways(self, opened):
        """The page itself stays; what is wider than it scrolls in its own frame."""
        opened.draw((300, 400), (60, 400))
        opened.at_rest()
        for where in (opened.page, opened.frame):
            assert where.evaluate("[document.scrollingElement.scrollLeft, visualViewport.offsetLeft]") == [0, 0]
