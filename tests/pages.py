"""What stands on a bench's page, read without a browser, and what a person does there."""

import html
import re

import ipywidgets as widgets

from shoplib.bench.live import Live

NASTY = "<script>alert('1')</script> & <img src=x onerror=\"alert(2)\"> mm"


def said(widget):
    """The text of a piece of HTML, or of an HTML widget, as a person reads it."""
    text = widget if isinstance(widget, str) else widget.value
    return " ".join(html.unescape(re.sub("<[^>]*>", " ", text)).split())


def stands(bench, place):
    """What stands in a place of a bench's page."""
    return bench.live.shown[place]


def reads(bench, place):
    """The same as a person reads it."""
    return said(stands(bench, place))


def table(bench):
    """The bench's table of settings as a person reads it."""
    return " ".join(f"{item.words} {reads(bench, f'set.{item.name}')}" for item in bench.settings.items)


def verdicts(bench):
    """What the bench says beside its settings."""
    return " ".join(filter(None, (reads(bench, f"told.{item.name}") for item in bench.settings.items)))


def slide(bench, name, position):
    """Move a slider to a whole step."""
    bench.hear({f"slide.{name}": position})


def type_in(bench, name, text):
    """Type into the box of an input."""
    bench.hear({f"box.{name}": text})


def open_panes(bench, *names):
    """Press the buttons that open (or close) panes of explanation."""
    for name in names:
        bench.hear({"open": name})


def every(widget, kind=widgets.Widget):
    """A widget and all that stand in it, of one kind."""
    below = [each for child in getattr(widget, "children", ()) for each in every(child, kind)]
    return ([widget] if isinstance(widget, kind) else []) + below


def fields(live):
    """The places that are boxes and lists: their text is set as a value and never read as HTML."""
    return set(re.findall(r'data-ask="([^"]*)"', live.html))


def check_nothing_typed_runs(widget):
    """Hold that no HTML on the page has a tag that was typed by a person."""
    pieces = [each.value for each in every(widget, widgets.HTML)]
    for live in every(widget, Live):
        pieces += [text for place, text in live.shown.items() if isinstance(text, str) and place not in fields(live)]
    for piece in pieces:
        assert "<script" not in piece and "<img src=x" not in piece


def sliders(bench):
    """The controls that have a slider, with their names."""
    return {name: each for name, each in bench.controls.items() if hasattr(each, "ends")}
