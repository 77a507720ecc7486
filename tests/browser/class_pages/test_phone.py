"""Every third lesson, opened on a phone."""

from browser.class_pages.finger_tests import FingerTests


class TestPhone(FingerTests):
    device = "phone"
