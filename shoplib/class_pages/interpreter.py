"""Python for a browser: Pyodide's core, all packages in one file, and its memory as it is right after the start."""

import gzip
import json
import shutil
import subprocess
import tempfile
import zipfile
from pathlib import Path

from shoplib.class_pages.wheels import HERE, Wheel, gather, needed

CORE = ("pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm", "package.json")
LIBRARY = "python_stdlib.zip"
START, PACKAGES, STARTED = "start.mjs", "packages.bin", "started.bin"
LEFT_OUT = (".dist-info/RECORD", "/")


def lay(core, target, kernel):
    """Fill a folder with all that a page needs to start Python; returns whether it is compiled.

    `core` holds Pyodide's npm package, `kernel` the wheels of the notebook's kernel. Raises RuntimeError where a wheel
    is missing.
    """
    target.mkdir(parents=True)
    for path in (*(core / name for name in CORE), HERE / START):
        shutil.copyfile(path, target / path.name)
    with tempfile.TemporaryDirectory() as work:
        wheels = chosen(Path(work), kernel)
        listed = {wheel.name: wheel.told() for wheel in wheels}
        alone = wheels[0].path.parent
        shutil.copyfile(core / LIBRARY, alone / LIBRARY)
        compiled = prepare(core, alone, target / STARTED)
        shutil.copyfile(alone / LIBRARY, target / LIBRARY)
        (target / PACKAGES).write_bytes(bundle(wheels))
    (target / "packages.json").write_text(json.dumps(listed, indent=1), "utf-8")
    lock = json.loads((core / "pyodide-lock.json").read_text("utf-8"))
    (target / "pyodide-lock.json").write_text(json.dumps(lock | {"packages": {}}), "utf-8")
    return compiled


def chosen(work, kernel):
    """The wheels that are needed, alone in a folder."""
    gathered, alone = work / "gathered", work / "alone"
    gathered.mkdir()
    alone.mkdir()
    gather(gathered, kernel)
    wheels = {wheel.name: wheel for wheel in map(Wheel, sorted(gathered.glob("*.whl")))}
    return [Wheel(shutil.copyfile(wheel.path, alone / wheel.path.name)) for wheel in needed(wheels).values()]


def prepare(core, folder, started):
    """Let Pyodide compile a folder of wheels and its library, and keep its memory; whether it could: it needs node."""
    node = shutil.which("node")
    if node is None:
        return False
    command = [node, HERE / "prepare.mjs", (core / "pyodide.mjs").as_uri(), core, folder, started]
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL)
    return True


def bundle(wheels):
    """All files of some wheels in one: a line of JSON with names and sizes, then the bytes; packed as gzip."""
    files = {}
    for wheel in wheels:
        with zipfile.ZipFile(wheel.path) as packed:
            files |= {name: packed.read(name) for name in packed.namelist() if not name.endswith(LEFT_OUT)}
    files = {name: content for name, content in files.items() if ".data/" not in name}
    head = json.dumps([[name, len(content)] for name, content in files.items()])
    return gzip.compress(head.encode() + b"\n" + b"".join(files.values()), 9, mtime=0)
