"""Every third lesson, opened at a desk."""

from browser.class_pages.lesson_tests import LessonTests


class TestDesk(LessonTests):
    device = "desk"
