"""The other lessons, used on a tablet."""

from browser.lesson_tests import LessonTests


class TestTablet(LessonTests):
    width = "tablet"
