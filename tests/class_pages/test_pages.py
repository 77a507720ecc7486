"""The pages around the lessons, made from the lessons as they are; and what is written into the lock file."""

import json
import re
from html import escape

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
    assert '<iframe id="lesson"' in text
    if lesson.name[:2] != "00":
        assert re.search(r'<img alt="[^"]{20,}" src="data:image/svg', text)
    assert "http://" not in re.sub(r"data:[^\"']*", "", text) and "import shoplib" not in text


def words(html):
    """What a reader sees of a page, without its pictures."""
    return re.sub(r"<[^>]*>", "", re.sub(r"<script.*?</script>|<style.*?</style>", "", html, flags=re.DOTALL))


@every_lesson
def test_no_formula_stands_there_as_its_source(lesson):
    """Before Python has started nothing sets formulas, so none may stand before the first picture."""
    shown = words(pages.still(lesson))
    assert len(shown) > 300 and "$" not in shown and "\\" not in shown


@every_lesson
def test_nothing_asks_to_run_a_notebook(lesson):
    shown = words(pages.still(lesson))
    assert "Run All Cells" not in shown and "run the notebook" not in shown


def test_the_contents_show_what_each_lesson_sets_up(site):
    """A line and a picture for each, taken from the first lesson's own list, and its title as the lesson has it."""
    html, told = (site / "index.html").read_text("utf-8"), pages.cards(LESSONS)
    assert list(told) == [lesson.name for lesson in LESSONS[1:]]
    for lesson in LESSONS:
        assert f"<b>{lesson.heading()}</b>" in html
    for each in told.values():
        assert (NOTEBOOKS.parent / each["picture"]).is_file() and len(each["alt"]) > 20
        assert f'src="jupyter/files/{each["picture"]}"' in html and escape(each["line"][1:]) in html
    assert [lesson.heading() for lesson in LESSONS[:2]] == ["00 Start here", "01 Circle jigs"]


def test_a_lesson_is_given_the_files_that_it_reads(site):
    found = {lesson.name: [*lesson.files] for lesson in LESSONS if lesson.files}
    handed_in = sorted(f"handed_in/{path.name}" for path in (NOTEBOOKS / "handed_in").glob("*.csv"))
    assert found == {"00_start_here": handed_in, "13_the_stand": ["stand.toml", "side_table.toml"]} and handed_in
    page = (site / "lessons" / "13_the_stand.html").read_text("utf-8")
    held = re.search(r'<script type="application/json" id="files">(.*?)</script>', page)[1]
    assert json.loads(held)["stand.toml"] == (NOTEBOOKS / "stand.toml").read_text("utf-8")
    assert "</script" not in pages.held({"a.toml": "</script><script>alert(1)</script>"})


def test_my_own_stand_is_in_no_page(tmp_path):
    for name in ("my_stand.toml", "other.toml"):
        (tmp_path / name).write_text("sizes")
    assert pages.files_of(tmp_path / "my_stand.toml") == {}
    assert pages.files_of(tmp_path / "other.toml") == {"other.toml": "sizes"}


@every_lesson
def test_the_bar_is_told_to_those_who_do_not_see_it(site, lesson):
    """Buttons have names and states, what changes is announced, and each part that a script asks for is there."""
    text = (site / "lessons" / f"{lesson.name}.html").read_text("utf-8")
    bar = text[text.index("<header>") : text.index("</header>")]
    buttons = re.findall(r"<button([^>]*)>([^<]+)</button>", bar)
    assert len(buttons) == 7 and all('type="button"' in how and name.strip() for how, name in buttons)
    assert {name for how, name in buttons if 'aria-pressed="false"' in how} == {"Code", "Notebook"}
    assert '<nav aria-label="This lesson">' in bar and '<p role="status" id="status">' in bar
    assert 'id="far" max="100" value="0" aria-label="How far the lesson is"' in bar and "<noscript>" in bar
    assert re.search(r'<iframe id="lesson" title="[^"]+"', text)
    script = (pages.HERE / "lesson.js").read_text("utf-8")
    listed = re.search(r"\[([^]]*)\]\.map\(byId\)", script)[1]
    asked = set(re.findall(r'byId\("(\w+)"\)', script)) | set(re.findall(r"\w+", listed))
    assert len(asked) > 12 and asked <= set(re.findall(r'\bid="(\w+)"', text))


def test_where_a_stand_is_kept_is_said_in_the_page(site):
    text = (site / "lessons" / "05_coping.html").read_text("utf-8")
    assert text.count("in this browser, on this device only") == 2 and "Forget it on this device" in text


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
