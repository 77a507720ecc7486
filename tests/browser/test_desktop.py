"""Every lesson in a browser as wide as a desk's screen."""

from browser.lesson_tests import IN_VIEW, LessonTests


class TestDesktop(LessonTests):
    width, height = 1440, 900

    def test_picture_sliders_and_settings_are_in_view_together(self, lesson):
        """Where there are no more than eleven inputs."""
        for bench in lesson.benches():
            if bench.controls.count() > 11:
                continue
            assert bench.root.locator("svg[aria-label]").evaluate(IN_VIEW) == []
