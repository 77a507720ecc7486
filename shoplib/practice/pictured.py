"""The drawing of a topic that stands over its questions on paper: what it is made of, as each topic names it."""

import importlib
from typing import NamedTuple


class Pictured(NamedTuple):
    """What is drawn, a model or a saw plan, and how the titles of the views begin that are shown."""

    shown: object
    views: tuple = ()


def pictured(topic):
    """What a topic's drawing on paper is made of.

    >>> pictured("circle_jigs").views
    ('From above',)
    """
    return importlib.import_module(f"shoplib.practice.{topic}").pictured()
