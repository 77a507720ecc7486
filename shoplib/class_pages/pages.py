"""The pages around the lessons: the contents, and a page for each lesson that shows it at once and then runs it."""

import json
import re
import shutil
from html import escape
from pathlib import Path

HERE = Path(__file__).parent
PARTS = ("class.css", "lesson.js")
NEEDS_MORE = "SawBench("  # a plan of sawing needs scipy
ONLY_THERE = (
    "The saw plan of this lesson needs more than a browser has: on this page you can read it; "
    "open it in JupyterLab to plan."
)


class Lesson:
    """What the pages need of a notebook."""

    def __init__(self, path):
        self.path, self.name = path, path.stem
        self.cells = json.loads(path.read_text("utf-8"))["cells"]
        first = next(text(cell) for cell in self.cells if cell["cell_type"] == "markdown")
        self.title = re.search(r"^# (.+)$", first, re.MULTILINE)[1]
        self.runs = NEEDS_MORE not in path.read_text("utf-8")
        read = set(re.findall(r"\w+\.toml", "".join(text(cell) for cell in self.cells if cell["cell_type"] == "code")))
        self.files = sorted(name for name in read if (path.parent / name).exists() and name != "my_stand.toml")


def text(cell):
    return "".join(cell["source"])


def lessons(folder):
    """All lessons of a folder, in the order of the book."""
    return [Lesson(path) for path in sorted(Path(folder).glob("[0-9]*.ipynb"))]


def still(lesson):
    """The lesson as it can be read before anything has run: up to its first picture, or whole where it cannot run."""
    from nbconvert.filters import markdown2html

    found = []
    for cell in lesson.cells:
        if cell["cell_type"] == "markdown":
            found.append(f'<div class="text">{beside(markdown2html(text(cell)))}</div>')
            continue
        told = [output["data"] for output in cell["outputs"] if "text/html" in output.get("data", {})]
        shown = [without_files("".join(each["text/html"])) for each in told]
        found += [f'<div class="output">{each}</div>' for each in shown]
        if lesson.runs and any("<img" in each for each in shown):
            break
    return "\n".join(found)


def beside(html):
    """Links to other lessons lead to their pages, pictures to where they lie; nobody has to press Run."""
    html = re.sub(r"<p><em>Press(?:</em>)?\s+<strong>Run .*?</p>", "", html, flags=re.DOTALL)
    html = re.sub(r'href="(\d\d_\w+)\.ipynb', r'href="\1.html', html)
    html = re.sub(r'href="(\w+\.toml)"', r'href="../jupyter/files/notebooks/\1"', html)
    return re.sub(r'src="(?:\.\./)?images/', 'src="../jupyter/files/images/', html)


def without_files(html):
    """What was saved when the notebook was stored is not in the folder: its name stays, its link goes."""
    return re.sub(r'<a (?:download )?href="(?!data:)[^"]*">(.*?)</a>', r"\1", html)


def page(title, body, up=""):
    return f"""<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>{escape(title)}</title>
<link rel="icon" href="data:,">
<link rel="stylesheet" href="{up}class.css">
</head>
<body>
{body}
</body>
</html>
"""


def lesson_page(lesson):
    notebook = f"../jupyter/notebooks/index.html?path=notebooks/{lesson.path.name}"
    links = f'<a href="../index.html">Contents</a> <a href="{notebook}">Open the notebook</a>'
    if not lesson.runs:
        bar = f'<header><nav>{links}</nav><p role="status">{ONLY_THERE}</p></header>'
        return page(lesson.title, f'{bar}<main id="still">{still(lesson)}</main>', "../")
    return page(lesson.title, f"""<header>
<nav>{links} <button id="code" aria-pressed="false" disabled>Show the code</button></nav>
<p role="status" id="status">The page is being loaded.</p>
<progress id="far" max="100" value="0" aria-label="How far the lesson is"></progress>
</header>
<main id="still">{still(lesson)}</main>
<iframe id="lesson" title="{escape(lesson.title)}" data-notebook="{notebook}"
data-files="{" ".join(lesson.files)}" hidden></iframe>
<script type="module" src="../lesson.js"></script>""", "../")  # fmt: skip


def contents(found):
    rows = "\n".join(
        f'<li><a href="lessons/{each.name}.html">{escape(each.title)}</a>'
        + ("" if each.runs else f"<br><small>{ONLY_THERE}</small>") + "</li>"
        for each in found
    )
    return page("Shop geometry", f"""<main>
<h1>Shop geometry for round furniture</h1>
<p>Choose a lesson. It runs by itself on this device: nothing that you type leaves it. The first one takes a
while, up to a minute on a tablet; meanwhile you can read.</p>
<ul class="lessons">
{rows}
</ul>
<p>The machine's manual, the rules of your workshop and licensed or experienced people go before these pages.</p>
</main>""")  # fmt: skip


def write(site, notebooks):
    """Write all pages into the folder of the site."""
    found = lessons(notebooks)
    (site / "lessons").mkdir(exist_ok=True)
    for lesson in found:
        (site / "lessons" / f"{lesson.name}.html").write_text(lesson_page(lesson), "utf-8")
    (site / "index.html").write_text(contents(found), "utf-8")
    for name in PARTS:
        shutil.copyfile(HERE / name, site / name)
    return found
