"""Every lesson in a browser as wide as a tablet."""

from browser.lesson_tests import LessonTests


class TestTablet(LessonTests):
    width, height = 820, 1180
