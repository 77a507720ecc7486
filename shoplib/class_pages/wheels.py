"""The wheels that a page needs: fetched once, and what they say of themselves."""

import email
import hashlib
import importlib.metadata
import shutil
import subprocess
import sys
import tempfile
import zipfile
from pathlib import Path

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

HERE = Path(__file__).parent
WANTED = ("comm", "fonttools", "ipython", "ipywidgets", "jedi", "micropip", "pint", "pydyf", "sympy", "tomlkit")
OURS = ("fonttools", "ipywidgets", "pint", "pydyf", "sympy", "tomlkit")  # what shoplib uses
FIRST = ("micropip", "piplite", "ipykernel", "comm", "pyodide-kernel", "jedi", "ipython", "ipywidgets", "shoplib")
WHERE = {
    "python_version": "3.14", "python_full_version": "3.14.0", "sys_platform": "emscripten", "os_name": "posix",
    "platform_system": "Emscripten", "platform_machine": "wasm32", "implementation_name": "cpython", "extra": "",
}  # fmt: skip


def gather(folder, kernel):
    """Put into a folder all wheels that a page needs: from the package index, the kernel's own, and shoplib's."""
    pip = [sys.executable, "-m", "pip", "--disable-pip-version-check", "--quiet"]
    anywhere = ["--only-binary=:all:", "--python-version=3.14", "--implementation=py", "--abi=none", "--platform=any"]
    known, asked = {wheel.name for wheel in map(Wheel, kernel.glob("*.whl"))}, {name: _as_here(name) for name in WANTED}
    while asked:
        subprocess.run([*pip, "download", "--no-deps", *anywhere, f"--dest={folder}", *asked.values()], check=True)
        known |= set(asked)
        found = [each for path in folder.glob("*.whl") for each in Wheel(path).wanted]
        named = {canonicalize_name(each.name): each.specifier for each in found}
        asked = {name: f"{name}{versions}" for name, versions in named.items() if name not in known}
    with tempfile.TemporaryDirectory() as copy:  # a build in its own folder would leave files there
        _copy(HERE.parent, Path(copy) / "shoplib")
        subprocess.run([*pip, "wheel", "--no-deps", f"--wheel-dir={folder}", f"{copy}/shoplib"], check=True)
    for wheel in kernel.glob("*.whl"):
        (folder / wheel.name).write_bytes(wheel.read_bytes())


def _as_here(name):
    """A requirement: the version that is installed here, where it is."""
    try:
        return f"{name}=={importlib.metadata.version(name)}"
    except importlib.metadata.PackageNotFoundError:
        return name


def _copy(source, target):
    shutil.copytree(source, target, ignore=shutil.ignore_patterns("__pycache__", "build", "*.egg-info", "printouts"))


class Wheel:
    """What a wheel's own metadata says of it."""

    def __init__(self, path):
        self.path = path
        with zipfile.ZipFile(path) as packed:
            files = packed.namelist()
            about = next(name for name in files if name.endswith(".dist-info/METADATA"))
            found = email.message_from_bytes(packed.read(about))
        self.name, self.version = canonicalize_name(found["Name"]), found["Version"]
        wanted = map(Requirement, found.get_all("Requires-Dist") or ())
        self.wanted = [each for each in wanted if _holds(each.marker)]
        self.needs = {canonicalize_name(each.name) for each in self.wanted}
        if self.name == "shoplib":
            self.needs |= set(OURS)

    def told(self):
        """What the list of packages says of it."""
        sha256 = hashlib.sha256(self.path.read_bytes()).hexdigest()
        return {"version": self.version, "wheel": self.path.name, "sha256": sha256, "needs": sorted(self.needs)}


def _holds(marker):
    return marker is None or marker.evaluate(WHERE)


def needed(wheels):
    """Those wheels that are reached from what a page loads first; RuntimeError names one that is missing."""
    found, todo = {}, [*FIRST]
    while todo:
        name = todo.pop()
        if name not in wheels:
            raise RuntimeError(f"The wheel of {name} is missing, which the pages need: fetch the wheels again.")
        if name not in found:
            found[name] = wheels[name]
            todo += wheels[name].needs
    return found
