"""Drawings: each topic's module draws its solved models onto Sheets."""

import importlib

from shoplib.model import ShapeError


def _topic(cls):
    """The drawing module with the same name as the topic of the model's maths: shoplib.maths.topic, or a file in it."""
    return importlib.import_module("shoplib.drawing." + cls.__module__.split(".")[2])


def draw(model, unit="mm"):
    """Draw a model (or its solved stand-in) for the screen or the card: returns a Sheet.

    >>> from shoplib import CircleJig
    >>> draw(CircleJig("440 mm", "12 mm", ring_width="20 mm")).title
    'Circle jig'
    """
    plain = getattr(model, "plain", model)
    return _topic(plain.model).DRAWINGS[plain.model.__name__](plain, unit)


def has_template(cls):
    """Whether models of this class have a full-size template.

    >>> from shoplib import CasterLeg, Rolling
    >>> has_template(CasterLeg), has_template(Rolling)
    (True, False)
    """
    return cls.__name__ in _topic(cls).TEMPLATES


def template(model, unit="mm"):
    """The full-size template of a model, as a Sheet of one view in true millimetres; ShapeError where there is none."""
    plain = getattr(model, "plain", model)
    if not has_template(plain.model):
        raise ShapeError("There is nothing of this to draw at full size. Print the bench card.")
    return _topic(plain.model).TEMPLATES[plain.model.__name__](plain, unit)
