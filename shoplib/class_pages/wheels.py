"""Wheels for Pyodide: fetched once, compiled by the very Python that runs them, and listed in a lock file."""

import email
import hashlib
import importlib.metadata
import json
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
CORE = ("pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm", "python_stdlib.zip", "package.json")


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
        self.imports = sorted({name.partition("/")[0].partition(".")[0] for name in files if _is_code(name)})
        wanted = map(Requirement, found.get_all("Requires-Dist") or ())
        self.wanted = [each for each in wanted if _holds(each.marker)]
        self.needs = {canonicalize_name(each.name) for each in self.wanted}
        if self.name == "shoplib":
            self.needs |= set(OURS)

    def entry(self, known):
        """Its entry in the lock file; `known` names all that the folder has."""
        return {
            "name": self.name, "version": self.version, "file_name": self.path.name, "install_dir": "site",
            "sha256": hashlib.sha256(self.path.read_bytes()).hexdigest(), "package_type": "package",
            "imports": self.imports, "depends": sorted(self.needs & known), "unvendored_tests": False,
        }  # fmt: skip


def _is_code(name):
    return name.endswith((".py", ".pyc")) and ".dist-info/" not in name and ".data/" not in name


def _holds(marker):
    return marker is None or marker.evaluate(WHERE)


def needed(wheels):
    """Those wheels that are reached from what a page loads first."""
    found, todo = {}, [*FIRST]
    while todo:
        name = todo.pop()
        if name in wheels and name not in found:
            found[name] = wheels[name]
            todo += wheels[name].needs
    return found


def compile_all(core, folder):
    """Let Pyodide itself compile the wheels; returns whether it could, for that needs node."""
    node = shutil.which("node")
    if node is None:
        return False
    command = [node, str(HERE / "precompile.mjs"), (core / "pyodide.mjs").as_uri(), str(core), str(folder)]
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL)
    return True


def lay(core, target, kernel):
    """Fill a folder with Pyodide's core and all wheels, and with the lock file that lists them; whether compiled."""
    target.mkdir(parents=True)
    for name in CORE:
        (target / name).write_bytes((core / name).read_bytes())
    with tempfile.TemporaryDirectory() as gathered:
        gather(Path(gathered), kernel)
        wheels = {wheel.name: wheel for wheel in map(Wheel, sorted(Path(gathered).glob("*.whl")))}
        for wheel in needed(wheels).values():
            (target / wheel.path.name).write_bytes(wheel.path.read_bytes())
    compiled = compile_all(core, target)
    lock = json.loads((core / "pyodide-lock.json").read_text("utf-8"))
    wheels = [Wheel(path) for path in sorted(target.glob("*.whl"))]
    known = {wheel.name for wheel in wheels}
    lock["packages"] = {wheel.name: wheel.entry(known) for wheel in wheels}
    (target / "pyodide-lock.json").write_text(json.dumps(lock), "utf-8")
    return compiled
