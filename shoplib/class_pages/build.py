"""Builds the folder of class pages: the notebook's front end, Python with all wheels, and pages around them."""

import json
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

from shoplib.class_pages import interpreter, pages, wheels

PYODIDE = "pyodide@314.0.6"
KERNEL = "@jupyterlite/pyodide-kernel-extension"
LOOSE = ("fa-*.svg", "fa-*.eot", "fa-*.ttf")  # letters for browsers of long ago
DIAGRAMS = (b"mermaid", b"vega", b"cytoscape", b"org.eclipse.elk")  # no lesson writes a diagram as text
LARGE = 200_000  # bytes
NO_NEWS = {"@jupyterlab/apputils-extension:notification": {"fetchNews": "false", "checkForUpdates": False}}
OVERRIDES = NO_NEWS | {
    "@jupyterlab/notebook-extension:tracker": {"windowingMode": "none"},
    "@jupyterlab/docmanager-extension:plugin": {"autosave": False},  # so that a lesson opens as it was built
}
CONFIG = {"appName": "Shop geometry", "exposeAppInBrowser": True, "enableMemoryStorage": False}
KERNEL_CONFIG = {
    "disablePyPIFallback": True, "loadPyodideOptions": {"packages": list(wheels.FIRST)},
    "pyodideUrl": f"./static/pyodide/{interpreter.START}",
}  # fmt: skip


def build(site, lessons="notebooks", core=None, say=print):
    """Build the class pages of a folder of lessons into the folder `site`, which is made anew.

    `core` is a folder with Pyodide's core, its npm package unpacked; without one the npm client fetches it. Raises
    FileNotFoundError where there are no lessons, and FileExistsError where `site` holds something else.
    """
    site, lessons = Path(site).resolve(), Path(lessons).resolve()
    if not pages.lessons(lessons):
        raise FileNotFoundError(f"There are no lessons in {lessons}.")
    if site.exists() and not (site / "lessons").is_dir() and any(site.iterdir()):
        raise FileExistsError(f"{site} holds something else than class pages: choose another folder.")
    with tempfile.TemporaryDirectory() as work:
        work = Path(work)
        core = Path(core).resolve() if core else fetch_core(work)
        say("The wheels are fetched and compiled.")
        python = work / "lite" / "static" / "pyodide"
        compiled = interpreter.lay(core, python, extensions() / KERNEL / "static" / "pypi")
        if not compiled:
            say("There is no node here to compile with: the pages start more slowly.")
        say("The pages are put together.")
        lay_contents(lessons, work / "files")
        front_end(work, work / "site" / "jupyter")
        pages.write(work / "site", lessons)
        shutil.rmtree(site, ignore_errors=True)
        shutil.copytree(work / "site", site)
    size = sum(path.stat().st_size for path in site.rglob("*") if path.is_file())
    say(f"{site}: {size / 1e6:.0f} MB.")
    return site


def extensions():
    """Where the front end's extensions lie in this Python."""
    return Path(sys.prefix) / "share" / "jupyter" / "labextensions"


def fetch_core(work):
    """Pyodide's core from the npm package; raises FileNotFoundError where there is no npm client."""
    npm = shutil.which("npm")
    if npm is None:
        raise FileNotFoundError(f"There is no npm here to fetch {PYODIDE}: name a folder with --pyodide.")
    subprocess.run([npm, "pack", "--silent", PYODIDE], cwd=work, check=True, stdout=subprocess.DEVNULL)
    shutil.unpack_archive(next(work.glob("pyodide-*.tgz")), work / "npm", filter="data")
    return work / "npm" / "package"


def lay_contents(lessons, files):
    """What the notebooks need beside them: their stands' files and the pictures that they show."""
    (files / "notebooks").mkdir(parents=True)
    shown = ""
    for path in [*lessons.glob("[0-9]*.ipynb"), *lessons.glob("*.toml")]:
        if path.name != "my_stand.toml":
            shutil.copyfile(path, files / "notebooks" / path.name)
            shown += path.read_text("utf-8")
    (files / "images").mkdir()
    for picture in (lessons.parent / "images").glob("*.png"):
        if picture.name in shown:
            shutil.copyfile(picture, files / "images" / picture.name)


def front_end(work, target):
    """The notebook's front end for these files, with its settings, and without what no browser asks for."""
    (work / "lite" / "overrides.json").write_text(json.dumps(OVERRIDES), "utf-8")
    with (work / "log").open("w") as log:
        done = subprocess.run([
            sys.executable, "-m", "jupyterlite_core", "build", "--lite-dir", work / "lite", "--output-dir", target,
            "--contents", work / "files", "--apps", "notebooks", "--apps", "tree", "--no-unused-shared-packages",
            "--no-sourcemaps", "--force",
        ], cwd=work, stdout=log, stderr=log)  # fmt: skip
    if done.returncode:
        raise RuntimeError("The front end could not be built:\n" + (work / "log").read_text()[-2000:])
    where = target / "jupyter-lite.json"
    told = json.loads(where.read_text("utf-8"))
    config = told["jupyter-config-data"]
    config |= CONFIG
    config["litePluginSettings"][f"{KERNEL}:kernel"] |= KERNEL_CONFIG
    where.write_text(json.dumps(told), "utf-8")
    for path in loose(target / "build"):
        path.unlink()


def loose(parts):
    """Those of the front end's parts that these lessons never ask for."""
    for pattern in LOOSE:
        yield from parts.glob(pattern)
    for path in parts.glob("[0-9]*.js"):
        if path.stat().st_size > LARGE and any(word in path.read_bytes() for word in DIAGRAMS):
            yield path
