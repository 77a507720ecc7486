"""README.md is true: its lessons command starts for everybody, and its table lists the lessons that there are."""

import os
import re
import struct
import subprocess
import sys
import time
import urllib.error
import urllib.request
from pathlib import Path
from types import SimpleNamespace

import pytest
from make_images import HIGH, WIDE

HOUSE = Path(__file__).resolve().parent.parent
README = (HOUSE / "README.md").read_text(encoding="utf-8")


def command(name):
    """The command that stands under a mark in README.md, its steps one by one."""
    text = re.search(rf"<!-- {name} -->\n```\n(.*?)\n```", README, re.DOTALL)[1]
    return [step.strip() for step in text.split("&&")]


@pytest.fixture
def server(tmp_path):
    """JupyterLab started as README.md says, with this Python; root may start it too, as in a bare container."""
    *before, start = command("lessons")
    assert before == ["python3 -m venv .venv", ".venv/bin/pip install -r requirements.txt"]
    program, app, *options = start.split()
    assert (program, app) == (".venv/bin/jupyter", "lab")
    own = {f"JUPYTER_{name}_DIR": str(tmp_path / name) for name in ("CONFIG", "DATA", "RUNTIME")}
    with (tmp_path / "log").open("w") as log:
        process = subprocess.Popen(
            [sys.executable, "-m", "jupyterlab", *options, "--no-browser"], cwd=HOUSE, env=os.environ | own,
            stdin=subprocess.DEVNULL, stdout=log, stderr=log,
        )  # fmt: skip
    yield SimpleNamespace(process=process, log=tmp_path / "log")
    process.terminate()
    process.wait(20)


def address_in(log, process):
    """Where the server says that it listens, once it does: (home, page, token)."""
    for _ in range(300):
        found = re.search(r"(http://(?:localhost|127\.0\.0\.1):\d+)(/\S*)\?token=(\w{20,})", log.read_text())
        if found and _status(found[1] + "/api") == 200:
            return found.groups()
        assert process.poll() is None, log.read_text()
        time.sleep(0.1)
    raise AssertionError(log.read_text())


def _status(url):
    """What the server answers: its status, or nothing as long as nobody listens."""
    try:
        with urllib.request.urlopen(url, timeout=10) as answer:
            return answer.status
    except urllib.error.HTTPError as refused:
        return refused.code
    except urllib.error.URLError:
        return None


def test_lessons_command_starts_and_stays_behind_its_token(server):
    home, page, token = address_in(server.log, server.process)
    assert page == "/lab/tree/notebooks/00_start_here.ipynb" and (HOUSE / page.removeprefix("/lab/tree/")).exists()
    assert _status(f"{home}/api/contents") == 403
    assert _status(f"{home}/api/contents/notebooks/00_start_here.ipynb?content=0&token={token}") == 200


def test_the_table_lists_the_lessons_that_there_are():
    lessons = README[README.index("## Lessons"):].split("\n## ")[0]
    listed = re.findall(r"\]\((notebooks/[^)]+\.ipynb)\)", lessons)
    assert listed == [f"notebooks/{path.name}" for path in sorted((HOUSE / "notebooks").glob("*.ipynb"))]
    start = (HOUSE / "notebooks" / "00_start_here.ipynb").read_text(encoding="utf-8")
    assert all(Path(each).name in start for each in listed[1:])


def test_links_lead_somewhere():
    targets = re.findall(r"\]\(([^)#:]+)[)#]", README) + re.findall(r'<img src="([^"]+)" alt="[^"]+"', README)
    assert README.count("<img") == README.count("<img src=") and len(targets) > 8
    assert [target for target in targets if not (HOUSE / target).exists()] == []


@pytest.mark.parametrize("place", ["README.md", "notebooks/00_start_here.ipynb"])
def test_pictures_of_the_contents_can_be_read(place):
    """Drawn for the contents, not shrunk from a bench's plate: their letters are 12 px high there."""
    text = (HOUSE / place).read_text(encoding="utf-8")
    shown = re.findall(r'images/(\w+\.png)\\?" alt=\\?"[^"]+" width=\\?"(\d+)', text)
    assert len(shown) == len(list((HOUSE / "notebooks").glob("*.ipynb"))) - 1
    for name, width in shown:
        size = struct.unpack(">II", (HOUSE / "images" / name).read_bytes()[16:24])  # a PNG's head: width, height
        assert size == (2 * WIDE, 2 * HIGH), f"{name}: run python tests/make_images.py"
        assert 17 * int(width) / WIDE > 12
