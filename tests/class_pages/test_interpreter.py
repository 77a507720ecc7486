"""What is laid beside the pages for Python: which wheels, all their files in one, and nothing that is missing."""

import gzip
import json
import re
import zipfile

import pytest

from shoplib.class_pages.build import loose
from shoplib.class_pages.interpreter import HERE, bundle
from shoplib.class_pages.wheels import FIRST, OURS, Wheel, needed


def wheel(folder, name, *wants):
    """A wheel of one module, with its wants."""
    path = folder / f"{name.replace('-', '_')}-1.0-py3-none-any.whl"
    wanted = "".join(f"Requires-Dist: {each}\n" for each in wants)
    about = f"Metadata-Version: 2.1\nName: {name}\nVersion: 1.0\n{wanted}"
    with zipfile.ZipFile(path, "w") as packed:
        packed.writestr(f"{name}/", b"")
        packed.writestr(f"{name}/__init__.pyc", f"code of {name}".encode())
        packed.writestr(f"{name}-1.0.data/data/share/icon.svg", b"<svg/>")
        packed.writestr(f"{name}-1.0.dist-info/METADATA", about)
        packed.writestr(f"{name}-1.0.dist-info/RECORD", b"all of it")
    return Wheel(path)


@pytest.fixture
def wheels(tmp_path):
    """What a page loads first, with the wants that Python in a browser has and has not."""
    wants = {
        "ipython": ("comm>=0.2", 'pexpect; sys_platform != "emscripten"', 'old; python_version < "3.12"', "decorator"),
    }
    names = {*FIRST, *OURS, "decorator", "pexpect", "old"}
    return {name: wheel(tmp_path, name, *wants.get(name, ())) for name in sorted(names)}


def test_those_wheels_are_taken_that_this_python_needs(wheels):
    assert set(needed(wheels)) == {*FIRST, *OURS, "decorator"}
    told = wheels["ipython"].told()
    assert told["needs"] == ["comm", "decorator"] and told["version"] == "1.0" and len(told["sha256"]) == 64
    assert told["wheel"] == "ipython-1.0-py3-none-any.whl"


@pytest.mark.parametrize("name", ["decorator", "pint", "micropip"])
def test_a_wheel_that_is_missing_is_named(wheels, name):
    del wheels[name]
    with pytest.raises(RuntimeError, match=f"wheel of {name} is missing"):
        needed(wheels)


def test_all_files_of_all_wheels_are_in_one(wheels):
    """Read back as start.mjs reads it, and nothing that only an installer wants."""
    head, _, rest = gzip.decompress(bundle(wheels.values())).partition(b"\n")
    found = {}
    for name, size in json.loads(head):
        found[name], rest = rest[:size], rest[size:]
    assert rest == b"" and found["comm/__init__.pyc"] == b"code of comm"
    assert {name.partition("/")[0] for name in found} == {*wheels, *(f"{name}-1.0.dist-info" for name in wheels)}
    assert not any(name.endswith(("/", "RECORD", ".svg")) for name in found)


def test_what_draws_diagrams_from_text_is_left_out(tmp_path):
    """Only large parts that may be asked for later, by what they say: never the core, never a small one."""
    diagram, plain = b"mermaid" * 40_000, b"lesson" * 40_000
    parts = {"12.ab.js": diagram, "13.ab.js": plain, "14.ab.js": b"mermaid", "core.ab.js": diagram, "fa-a.svg": b""}
    for name, content in parts.items():
        (tmp_path / name).write_bytes(content)
    assert sorted(path.name for path in loose(tmp_path)) == ["12.ab.js", "fa-a.svg"]


def test_the_files_have_the_same_names_on_both_sides():
    """What is written by Python is what JavaScript asks for."""
    from shoplib.class_pages import interpreter

    asked = re.findall(r'unpacked\("([\w.]+)"\)', (HERE / interpreter.START).read_text("utf-8"))
    assert sorted(asked) == sorted([interpreter.PACKAGES, interpreter.STARTED])
