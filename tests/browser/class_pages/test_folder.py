"""The folder as it was built: all of Python for a browser is in it, of these very lessons, and it is small."""

import gzip
import json
from pathlib import Path

import pytest
from browser.lab import HOUSE

HIGHEST = 60e6  # bytes


@pytest.fixture(scope="module")
def python(site):
    return site / "jupyter" / "static" / "pyodide"


@pytest.fixture(scope="module")
def listed(python):
    """What the folder says of its packages."""
    return json.loads((python / "packages.json").read_text("utf-8"))


@pytest.fixture(scope="module")
def files(python):
    """The sizes of all files of all packages by their names, and how many bytes follow."""
    head, _, rest = gzip.decompress((python / "packages.bin").read_bytes()).partition(b"\n")
    sizes = dict(json.loads(head))
    assert len(rest) == sum(sizes.values())
    return sizes


def test_every_package_is_there_whole(listed, files):
    about = {name for name in files if name.endswith(".dist-info/METADATA")}
    for name, package in listed.items():
        where = f"{name.replace('-', '_')}-{package['version']}.dist-info/METADATA"
        assert where.lower() in {each.lower() for each in about}, f"{name} is missing in packages.bin"
        assert set(package["needs"]) <= set(listed), f"{name} needs what is not there"
    assert len(about) == len(listed) and {"shoplib", "pint", "sympy", "ipywidgets", "piplite"} <= set(listed)


def test_no_package_is_asked_for_elsewhere(python, site):
    lock = (python / "pyodide-lock.json").read_text("utf-8")
    assert json.loads(lock)["packages"] == {} and "://" not in lock
    settings = json.loads((site / "jupyter" / "jupyter-lite.json").read_text("utf-8"))["jupyter-config-data"]
    kernel = settings["litePluginSettings"]["@jupyterlite/pyodide-kernel-extension:kernel"]
    assert kernel["disablePyPIFallback"] is True


def test_its_shoplib_is_the_one_here(files):
    """Each module and table of it, so that what is compared is the same."""
    packed = {str(Path(name).with_suffix("")) for name in files if name.startswith("shoplib/")}
    here = {
        str(path.relative_to(HOUSE).with_suffix(""))
        for path in (HOUSE / "shoplib").rglob("*")
        if path.suffix in (".py", ".csv", ".js") and "build" not in path.relative_to(HOUSE).parts[1:2]
    }
    assert here <= packed, "build the pages anew"


def test_it_is_small(site):
    assert sum(path.stat().st_size for path in site.rglob("*") if path.is_file()) < HIGHEST
