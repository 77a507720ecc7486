"""A real JupyterLab on the loopback address, and lessons opened in it by a real browser."""

import json
import os
import re
import shutil
import socket
import subprocess
import sys
import time
import urllib.request
from pathlib import Path

from shoplib import length, show

HOUSE = Path(__file__).resolve().parents[2]
CHROMIUM = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--host-resolver-rules=MAP * ~NOTFOUND , EXCLUDE 127.0.0.1",
]
NO_NEWS = {"@jupyterlab/apputils-extension:notification": {"fetchNews": "false", "checkForUpdates": False}}
WIDTHS = {"desktop": {"width": 1440, "height": 900}, "tablet": {"width": 820, "height": 1180}}
ELSEWHERE = re.compile(r"^(https?|wss?)://(?!127\.0\.0\.1[:/])")


def lessons():
    """The lessons that have a bench, in the order of the book."""
    books = sorted((HOUSE / "notebooks").glob("[0-9]*.ipynb"))
    return [path for path in books if re.search(r"\b(Stand)?Bench\(", path.read_text("utf-8"))]


def chromium():
    """Where the browser is, or None."""
    return next(filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))), None)


class Lab:
    """JupyterLab on a copy of the lessons, with settings folders of its own."""

    def __init__(self, folder):
        self.folder = folder / "notebooks"
        leave = shutil.ignore_patterns("printouts", ".ipynb_checkpoints", "my_stand.toml")
        shutil.copytree(HOUSE / "notebooks", self.folder, ignore=leave)
        shutil.copytree(HOUSE / "images", folder / "images")
        settings = folder / "config" / "labconfig" / "default_setting_overrides.json"
        settings.parent.mkdir(parents=True)
        settings.write_text(json.dumps(NO_NEWS), encoding="utf-8")
        self.log = folder / "lab.log"
        while not self._starts(folder):
            continue

    def _starts(self, folder):
        """Start the server; False where another program took the free port in the meantime."""
        self.port = _free_port()
        self.url = f"http://127.0.0.1:{self.port}"
        own = {f"JUPYTER_{name.upper()}_DIR": str(folder / name) for name in ("config", "data", "runtime")}
        with self.log.open("w") as log:
            self.process = subprocess.Popen(
                self._command(),
                stdout=log,
                stderr=subprocess.STDOUT,
                stdin=subprocess.DEVNULL,
                env=os.environ | own | {"SHOPLIB_STRICT": "1", "IPYTHONDIR": str(folder / "ipython")},
            )
        return self._answers()

    def _command(self):
        return [
            sys.executable,
            "-m",
            "jupyterlab",
            "--no-browser",
            "--allow-root",
            "--ip=127.0.0.1",
            f"--port={self.port}",
            "--ServerApp.port_retries=0",
            "--IdentityProvider.token=",
            "--ServerApp.disable_check_xsrf=True",
            f"--ServerApp.root_dir={self.folder.parent}",
            "--LabApp.news_url=None",
            "--LabApp.expose_app_in_browser=True",
            "--LabApp.check_for_updates_class=jupyterlab.NeverCheckForUpdate",
        ]

    def _answers(self):
        for _ in range(300):
            try:
                self.ask("GET", "api")
                return True
            except OSError:
                time.sleep(0.1)
            if self.process.poll() is not None:
                break
        self.stop()
        told = self.log.read_text()
        if "is already in use" in told:
            return False
        raise RuntimeError("JupyterLab did not start:\n" + told)

    def ask(self, method, path):
        """One question to the server's own interface."""
        request = urllib.request.Request(f"{self.url}/{path}", method=method)
        with urllib.request.urlopen(request, timeout=10) as answer:
            return json.loads(answer.read() or "null")

    def stop_kernels(self):
        for kernel in self.ask("GET", "api/kernels"):
            self.ask("DELETE", f"api/kernels/{kernel['id']}")

    def stop(self):
        """End the server; it ends what kernels are left."""
        self.process.terminate()
        try:
            self.process.wait(15)
        except subprocess.TimeoutExpired:
            self.process.kill()


def _free_port():
    with socket.socket() as door:
        door.bind(("127.0.0.1", 0))
        return door.getsockname()[1]


# Kept in the page: messages under way to the kernel, and every error that the kernel tells.
LISTEN = """() => {
  const session = window.jupyterapp.shell.currentWidget.sessionContext.session;
  const heard = window.heard = {underWay: new Set(), errors: []};
  session.kernel.anyMessage.connect((_, {msg, direction}) => {
    const kind = msg.header.msg_type;
    if (direction === 'send') {
      if (['comm_msg', 'execute_request'].includes(kind)) heard.underWay.add(msg.header.msg_id);
    } else if (kind === 'error') heard.errors.push(`${msg.content.ename}: ${msg.content.evalue}`);
    else if (kind === 'status' && msg.content.execution_state === 'idle')
      heard.underWay.delete(msg.parent_header.msg_id);
  });
}"""
SETTLE = """async () => {
  const end = performance.now() + 20000;
  for (let calm = 0; calm < 2; calm = window.heard.underWay.size ? 0 : calm + 1) {
    await new Promise(requestAnimationFrame);
    if (performance.now() > end) throw new Error('the kernel does not come to rest');
  }
}"""
# Until nothing of the notebook has moved for six frames.
AT_REST = """async () => {
  const edges = () => [...document.querySelectorAll('.jp-WindowedPanel-outer, .jp-OutputArea-output, svg[aria-label]')]
    .map(each => each.getBoundingClientRect()).map(box => [box.left, box.right, box.top, box.bottom]).join();
  const end = performance.now() + 5000;
  for (let calm = 0, last = ''; calm < 6 && performance.now() < end;) {
    await new Promise(requestAnimationFrame);
    const now = edges();
    calm = now === last ? calm + 1 : 0;
    last = now;
  }
}"""
OPEN = "async path => { await window.jupyterapp.commands.execute('docmanager:open', {path}) }"
CLOSE = "() => window.jupyterapp.shell.currentWidget.dispose()"
RUN_ALL = """() => Promise.race([
  window.jupyterapp.commands.execute('notebook:run-all-cells'),
  new Promise((_, fail) => setTimeout(() => fail(new Error('the cells do not come to an end')), 60000)),
]).then(() => null)"""
OUTPUTS = """() => [...window.jupyterapp.shell.currentWidget.content.model.cells]
  .map(cell => cell.toJSON())
  .filter(cell => cell.cell_type === 'code' && !cell.metadata.tags?.includes('raises-exception'))
  .flatMap(cell => cell.outputs)"""
BENCH = ".jp-OutputArea-output:has([data-press=back]):has(input[type=range]):has(svg[aria-label])"
IDLE = "window.jupyterapp?.shell.currentWidget?.sessionContext?.session?.kernel?.status === 'idle'"


class LessonPage:
    """One lesson open in a window, run from top to bottom; remembers whatever went wrong on the way."""

    def __init__(self, lab, window, path, width="desktop"):
        self.lab, self.path, self.width = lab, path, width
        self.elsewhere, self.complaints = [], []
        self.page = window
        self.listeners = {"console": self._hear, "pageerror": self._complain, "websocket": self._dial}
        for event, listener in self.listeners.items():
            window.on(event, listener)
        window.route(ELSEWHERE, self._block)
        window.set_default_timeout(20_000)
        self.widen(width)
        if window.url.startswith(lab.url):
            window.evaluate(OPEN, f"notebooks/{path.name}")
        else:
            window.goto(f"{lab.url}/doc/tree/notebooks/{path.name}?reset")
        window.wait_for_function(IDLE, timeout=60_000)
        self.page.evaluate(LISTEN)
        self.page.evaluate(RUN_ALL)
        self.settle()

    def _block(self, route):
        self.elsewhere.append(route.request.url)
        route.abort()

    def _hear(self, message):
        if message.type == "error":
            self.complaints.append(message.text)

    def _complain(self, error):
        self.complaints.append(f"{error}\n{error.stack}")

    def _dial(self, socket):
        if ELSEWHERE.match(socket.url):
            self.elsewhere.append(socket.url)

    def settle(self):
        """Wait until the kernel has answered all and the page has painted it."""
        self.page.evaluate(SETTLE)

    def widen(self, width):
        """Make the window as wide as a desk's screen or a tablet, and wait until the page has laid itself out."""
        if self.page.viewport_size != WIDTHS[width]:
            self.page.set_viewport_size(WIDTHS[width])
            self.page.evaluate(AT_REST)

    def close(self):
        self.page.evaluate(CLOSE)
        for event, listener in self.listeners.items():
            self.page.remove_listener(event, listener)
        self.page.unroute(ELSEWHERE)
        self.lab.stop_kernels()

    def troubles(self):
        """Everything that must not have happened since the last call, as texts."""
        shown = self.page.locator(".jp-Notebook").text_content()
        failures = ("Traceback", "could not work this out", "could not be judged")
        found = [text for text in failures if text in shown]
        found += self.complaints + self.elsewhere + self.page.evaluate("window.heard.errors.splice(0)")
        self.complaints, self.elsewhere = [], []
        return found

    def outputs(self):
        """All outputs of the lesson, as nbformat keeps them, but for errors shown on purpose."""
        return self.page.evaluate(OUTPUTS)

    def benches(self):
        """All benches on the page."""
        return [BenchOnPage(self, root) for root in self.page.locator(BENCH).all()]


class BenchOnPage:
    """One bench: its controls, drawing and texts, and what a person does with them."""

    def __init__(self, lesson, root):
        self.lesson, self.page, self.root = lesson, lesson.page, root
        self.controls = root.locator("input[type=range]:visible").locator("xpath=../..")

    def groups(self):
        """Open the groups of inputs that fold, one after the other, and at last the first; where none folds, once."""
        groups = self.root.locator("[data-press=fold]").all()
        for group in groups:
            self._open(group)
            yield len(groups)
        if groups:
            self._open(groups[0])
        else:
            yield 1

    def every_control(self):
        """All controls that have a slider; where they stand in groups that fold, the first of each group."""
        for number in self.groups():
            yield from self.controls.all() if number == 1 else self.controls.all()[:1]

    def _open(self, group):
        group.evaluate("button => button.click()")
        self.lesson.settle()

    def press(self, *names):
        """Press buttons by the words on them."""
        for name in names:
            self.root.get_by_role("button", name=name).click()
            self.lesson.settle()

    def back(self):
        self.press("millimetres", "Back to the start")

    def start_again(self):
        """The sizes of the start, by the button, wherever on the page it is."""
        self.root.get_by_role("button", name="Back to the start").evaluate("button => button.click()")
        self.lesson.settle()

    def type(self, box, text):
        """Type into a box as a person does, and leave it with Enter."""
        box.fill(text)
        box.press("Enter")
        self.lesson.settle()

    def boxes(self):
        return self.controls.locator("input[type=text]").all()

    def sizes(self):
        """The texts in all boxes beside the sliders."""
        return [box.input_value() for box in self.boxes()]

    def length_control(self):
        """The first control of a length."""
        return next(
            each
            for each in self.controls.all()
            if each.locator("input[type=text]").input_value().endswith((" mm", " in"))
        )

    def length_box(self):
        """The first box that holds a length."""
        return self.length_control().locator("input[type=text]")

    def type_inches(self):
        """Type a size in inches into the first box for lengths: the tray's, or one near what stands there."""
        box = self.length_box()
        size = box.input_value()
        text = "17 3/8 in" if size == "440 mm" else show(length(size) + length("1/16 in"), "in", "1/16 in")
        self.type(box, text)
        return text

    def drawing(self):
        return self.root.locator("svg[aria-label]").evaluate("svg => svg.outerHTML")

    def shown(self):
        """Drawing and all texts: whatever follows a slider."""
        return self.drawing() + self.root.text_content()

    def alerts(self):
        return self.root.locator("[role=alert]").all_text_contents()
