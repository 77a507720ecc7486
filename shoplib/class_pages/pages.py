"""The pages around the lessons: the contents, and a page for each lesson that shows it at once and then runs it."""

import json
import re
import shutil
from html import escape
from pathlib import Path

HERE = Path(__file__).parent
PARTS = ("class.css", "inside.css", "lesson.js", "my_stand.js")
CARD = re.compile(
    r"\*\*\[[^\]]*\]\((?P<name>\w+)\.ipynb\)\*\*: (?P<line>[^|]*?)<br><img src=\"\.\./(?P<picture>images/\w+\.png)\" "
    r'alt="(?P<alt>[^"]*)"'
)
FIRST = "New here? How to use a page, and what the numbers mean"
SAFETY = "The machine's manual, the rules of your workshop and licensed or experienced people go before these pages."
WHOLE = "The notebook with its menus, to change and run its cells"
SOON = "A stand of your own: as soon as Python has started."
KEPT = (
    "The file my_stand.toml is kept in this browser, on this device only. Every lesson that is opened here has it: "
    "press “my stand's” on a bench. Whoever uses the device after you finds it too: download it to take it along, then "
    "let it be forgotten."
)
NONE = (
    "There is no stand of yours on this device yet. Begin with the sizes of the seedling stand and change them on the "
    "benches, or open a file of yours. It will be kept in this browser, on this device only."
)


class Lesson:
    """What the pages need of a notebook."""

    def __init__(self, path):
        self.path, self.name = path, path.stem
        self.cells = json.loads(path.read_text("utf-8"))["cells"]
        first = next(text(cell) for cell in self.cells if cell["cell_type"] == "markdown")
        self.title = re.search(r"^# (.+)$", first, re.MULTILINE)[1]
        code = "".join(text(cell) for cell in self.cells if cell["cell_type"] == "code")
        self.files = {}
        for name in re.findall(r'"([\w.]+)"', code):
            self.files |= files_of(path.parent / name)

    def heading(self):
        """Its title with its number: `00 Start here` for a lesson whose own title has none."""
        number, _, words = self.name.partition("_")
        return self.title if self.title.startswith(number) else f"{number} {words.replace('_', ' ').capitalize()}"


def files_of(path):
    """The files that a name in a lesson's code stands for, one or those of a folder: texts by name."""
    inside = sorted(path.glob("*.csv")) if path.is_dir() else [path] if path.suffix == ".toml" else []
    return {
        each.relative_to(path.parent).as_posix(): each.read_bytes().decode() for each in inside
        if each.name != "my_stand.toml" and each.is_file()
    }  # fmt: skip


def text(cell):
    return "".join(cell["source"])


def lessons(folder):
    """All lessons of a folder, in the order of the book."""
    return [Lesson(path) for path in sorted(Path(folder).glob("[0-9]*.ipynb"))]


def still(lesson):
    """The lesson as it can be read before anything has run: up to its first picture."""
    from nbconvert.filters import markdown2html

    found = []
    for cell in lesson.cells:
        if cell["cell_type"] == "markdown":
            found.append(f'<div class="text">{beside(markdown2html(text(cell)))}</div>')
            continue
        told = [output["data"] for output in cell["outputs"] if "text/html" in output.get("data", {})]
        shown = [asleep(without_files("".join(each["text/html"]))) for each in told]
        found += [f'<div class="output">{each}</div>' for each in shown]
        if any("<img" in each for each in shown):
            break
    return "\n".join(found)


def beside(html):
    """Links to other lessons lead to their pages, pictures to where they lie; nobody has to press Run."""
    html = re.sub(r"<p><em>Press(?:</em>)?\s+<strong>Run .*?</p>", "", html, flags=re.DOTALL)
    html = html.replace("choose <strong>Run ▸ Run All Cells</strong>", "wait until it is ready")
    html = re.sub(r'href="00_start_here\.ipynb#Contents"', 'href="../index.html"', html)
    html = re.sub(r'href="(\d\d_\w+)\.ipynb', r'href="\1.html', html)
    html = re.sub(r'href="(\w+\.toml)"', r'href="../jupyter/files/notebooks/\1"', html)
    return re.sub(r'src="(?:\.\./)?images/', 'src="../jupyter/files/images/', html)


def without_files(html):
    """What was saved when the notebook was stored is not in the folder: its name stays, its link goes."""
    return re.sub(r'<a (?:download )?href="(?!data:)[^"]*">(.*?)</a>', r"\1", html)


def asleep(html):
    """Nobody has to run a notebook here: the still drawing wakes by itself."""
    return re.sub(r"A still picture: run the notebook to (.*?)\.<", r"A still picture. Soon you can \1.<", html)


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


def held(files):
    """Texts by name, to stand in a page: nothing in them ends the place where they stand."""
    return json.dumps(files).replace("<", "\\u003c")


def lesson_page(lesson):
    notebook = f"../jupyter/notebooks/index.html?path=notebooks/{lesson.path.name}"
    return page(lesson.heading(), f"""<header>
<nav aria-label="This lesson">
<a href="../index.html">Contents</a>
<button type="button" id="code" aria-pressed="false" title="Show the code" disabled>Code</button>
<button type="button" id="notebook" aria-pressed="false" title="{WHOLE}" disabled>Notebook</button>
<details id="mine"><summary>My stand</summary><div>
<p id="about" role="status" data-none="{NONE}" data-kept="{KEPT}">{SOON}</p>
<button type="button" id="begin" disabled>Begin with the seedling stand</button>
<a class="button" id="taken" download="my_stand.toml" hidden>Download my stand</a>
<button type="button" id="open" disabled>Open a file …</button>
<input type="file" id="chosen" accept=".toml,text/plain" aria-label="A file my_stand.toml" hidden>
<button type="button" id="forget" hidden>Forget it on this device</button>
</div></details>
</nav>
<div id="telling">
<p role="status" id="status">The lesson is being loaded. You can read it meanwhile.</p>
<progress id="far" max="100" value="0" aria-label="How far the lesson is"></progress>
<span id="time" aria-hidden="true"></span>
<button type="button" id="again" hidden>Try again</button>
<button type="button" id="built" hidden>As it was built</button>
</div>
<noscript><p>This browser runs no scripts: allow them for this page. Until then it can only be read.</p></noscript>
</header>
<main id="still">{still(lesson)}</main>
<iframe id="lesson" title="{escape(lesson.heading())}" data-notebook="{notebook}"
hidden></iframe>
<script type="application/json" id="files">{held(lesson.files)}</script>
<script type="module" src="../lesson.js"></script>""", "../")  # fmt: skip


def cards(found):
    """What the first lesson's list says of each of the others: a line and a picture, by name."""
    return {each["name"]: each for lesson in found for cell in lesson.cells for each in CARD.finditer(text(cell))}


def card(lesson, told):
    title = f"<b>{escape(lesson.heading())}</b>"
    if not told:
        return f'<li class="first"><a href="lessons/{lesson.name}.html"><span>{title}{FIRST}.</span></a></li>'
    line = f"{told['line'][:1].upper()}{told['line'][1:]}"
    picture = f'<img src="jupyter/files/{told["picture"]}" alt="{told["alt"]}" loading="lazy">'
    return f'<li><a href="lessons/{lesson.name}.html">{picture}<span>{title}{escape(line)}.</span></a></li>'


def contents(found):
    told = cards(found)
    rows = "\n".join(card(each, told.get(each.name)) for each in found)
    return page("Shop geometry", f"""<main class="contents">
<h1>Shop geometry for round furniture</h1>
<p>Choose a lesson. It runs by itself on this device, and nothing that you type leaves it. Before the first one is
ready half a minute goes by, on a tablet perhaps a whole one; meanwhile you can read. After that it is quicker.</p>
<ul class="lessons">
{rows}
</ul>
<p class="quiet">{SAFETY}</p>
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
