"""Every second lesson, used on a desk's screen."""

from browser.lesson_tests import LessonTests


class TestDesktop(LessonTests):
    width = "desktop"
