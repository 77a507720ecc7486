"""Every third lesson, opened on a tablet."""

from browser.class_pages.finger_tests import FingerTests


class TestTablet(FingerTests):
    device = "tablet"
