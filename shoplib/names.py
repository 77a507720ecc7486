"""Names that a package hands on from its files, each of them loaded when it is first asked for."""

import importlib
import sys


def handed_on(package, homes):
    """`__all__`, `__getattr__` and `__dir__` of a package that hands on names: {name: the module where it lives}.

    >>> names, ask, _ = handed_on("shoplib", {"sqrt": "math"})
    >>> names, ask("sqrt")(9.0)
    (['sqrt'], 3.0)
    >>> ask("root")
    Traceback (most recent call last):
    AttributeError: shoplib has no 'root'
    """

    def __getattr__(name):
        if name not in homes:
            raise AttributeError(f"{package} has no {name!r}")
        return getattr(importlib.import_module(homes[name]), name)

    def __dir__():
        return sorted({*vars(sys.modules[package]), *homes})

    return sorted(homes), __getattr__, __dir__
