"""Every lesson in a browser as wide as a desk's screen."""

from browser.lesson_tests import LessonTests


class TestDesktop(LessonTests):
    width, height = 1440, 900
