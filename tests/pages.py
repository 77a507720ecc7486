"""What stands on a bench's page, read without a browser."""

import html
import re

import ipywidgets as widgets

NASTY = "<script>alert('1')</script> & <img src=x onerror=\"alert(2)\"> mm"


def said(widget):
    """The text of an HTML widget as a person reads it."""
    return " ".join(html.unescape(re.sub("<[^>]*>", " ", widget.value)).split())


def every(widget, kind=widgets.Widget):
    """A widget and all that stand in it, of one kind."""
    below = [each for child in getattr(widget, "children", ()) for each in every(child, kind)]
    return ([widget] if isinstance(widget, kind) else []) + below


def check_nothing_typed_runs(widget):
    """Hold that no HTML on the page has a tag that was typed by a person."""
    for each in every(widget, widgets.HTML):
        assert "<script" not in each.value and "<img src=x" not in each.value


def sliders(bench):
    """The controls that have a slider, with their names."""
    return {name: each for name, each in bench.controls.items() if hasattr(each, "slider")}
