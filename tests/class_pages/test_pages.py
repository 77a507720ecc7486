"""The pages around the lessons, made from the lessons as they are; and what is written into the lock file."""

import json
import re

import pytest

from shoplib.class_pages import pages
from shoplib.class_pages.__main__ import main
from shoplib.class_pages.build import build
from shoplib.class_pages.serve import PORT


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    site = tmp_path_factory.mktemp("site")
    pages.write(site, NOTEBOOKS)
    return site


NOTEBOOKS = pages.HERE.parent.parent / "notebooks"
LESSONS = pages.lessons(NOTEBOOKS)
every_lesson = pytest.mark.parametrize("lesson", LESSONS, ids=lambda lesson: lesson.name)


def test_contents_lead_to_every_lesson(site):
    linked = re.findall(r'href="(lessons/[^"]+)"', (site / "index.html").read_text("utf-8"))
    assert linked == [f"lessons/{path.stem}.html" for path in sorted(NOTEBOOKS.glob("[0-9]*.ipynb"))]
    assert all((site / each).is_file() for each in linked)


@every_lesson
def test_a_lesson_can_be_read_before_it_runs(site, lesson):
    text = (site / "lessons" / f"{lesson.name}.html").read_text("utf-8")
    assert lesson.title in text and 'role="status"' in text and "Press Run" not in re.sub("<[^>]*>", "", text)
    assert f"../jupyter/notebooks/index.html?path=notebooks/{lesson.name}.ipynb" in text
    assert ("<iframe" in text) == lesson.runs == (lesson.name[:2] != "12")
    if lesson.name[:2] != "00":
        assert re.search(r'<img alt="[^"]{20,}" src="data:image/svg', text)
    assert "http://" not in re.sub(r"data:[^\"']*", "", text) and "import shoplib" not in text


def test_a_lesson_is_given_the_files_that_it_reads():
    assert {lesson.name: lesson.files for lesson in LESSONS if lesson.files} == {
        "13_the_stand": ["side_table.toml", "stand.toml"]
    }


@every_lesson
def test_links_of_a_lesson_lead_to_pages(site, lesson):
    text = (site / "lessons" / f"{lesson.name}.html").read_text("utf-8")
    linked = [each for each in re.findall(r'href="([^"#]+)', text) if "jupyter/" not in each and "data:" not in each]
    assert [each for each in linked if not (site / "lessons" / each).exists()] == []


def test_what_a_notebook_is_called_is_text(tmp_path):
    nasty = "<script>alert(1)</script>"
    cells = [{"cell_type": "markdown", "source": [f"# {nasty}"]}]
    (tmp_path / "01_nasty.ipynb").write_text(json.dumps({"cells": cells}), "utf-8")
    (lesson,) = pages.lessons(tmp_path)
    assert nasty not in pages.contents([lesson])


def test_a_folder_that_holds_something_else_is_not_built_over(tmp_path):
    (tmp_path / "letters.txt").write_text("mine")
    with pytest.raises(FileExistsError, match="something else"):
        build(tmp_path, NOTEBOOKS)
    with pytest.raises(FileNotFoundError, match="no lessons"):
        build(tmp_path / "new", tmp_path)
    assert (tmp_path / "letters.txt").read_text() == "mine"


def test_the_commands_are_those_that_there_are(monkeypatch):
    """README.md's commands are read by the program itself, and a hub installs what README.md does."""
    asked = []
    monkeypatch.setattr("shoplib.class_pages.build.build", lambda *given: asked.append(given))
    monkeypatch.setattr("shoplib.class_pages.__main__.serve", lambda *given: asked.append(given))
    monkeypatch.setattr("shoplib.class_pages.__main__.own_addresses", lambda: [("192.0.2.7", "wlan0")])
    readme = (NOTEBOOKS.parent / "README.md").read_text("utf-8")
    for command in re.findall(r"python -m shoplib\.class_pages(.*)", readme):
        assert main(command.split()) == 0
    assert main(["serve"]) == 0
    site = "class_pages"
    assert asked == [(site, "notebooks", None), (site, "192.0.2.7", PORT, True), (site, "127.0.0.1", PORT, True)]
    wanted = (NOTEBOOKS.parent / ".binder" / "requirements.txt").read_text("utf-8").split()
    assert wanted == ["-r", "../requirements.txt"] and "requirements.txt" in readme
