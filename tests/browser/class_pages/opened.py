"""A lesson opened from the contents of the class pages, and what a person does there, by mouse or finger."""

import base64
import json
import re
import time
from functools import cached_property

from browser.lab import AT_REST, BENCH, HOUSE, LISTEN, SETTLE, BenchOnPage

DEVICES = {
    "desk": {"viewport": {"width": 1440, "height": 900}},
    "tablet": {"viewport": {"width": 820, "height": 1180}, "has_touch": True, "is_mobile": True},
    "phone": {"viewport": {"width": 390, "height": 844}, "has_touch": True, "is_mobile": True},
}
READY = "Ready: all of it runs on this device."
# Kept from the first moment on: what the page says while Python starts, whether the still lesson can be read, and what
# moves in the second after it is ready.
STARTING = """(() => {
  if (window !== top || !location.pathname.startsWith('/lessons/')) return;
  const seen = window.seen = [], frame = () => new Promise(requestAnimationFrame);
  const look = () => {
    const status = document.getElementById('status'), far = document.getElementById('far');
    const still = document.getElementById('still');
    if (document.body?.dataset.ready) window.moved ??= moved();
    if (document.readyState === 'loading' || document.body.dataset.ready) return;
    const on = document.elementFromPoint(innerWidth / 2, innerHeight / 2);
    const now = {said: status.textContent, far: far.value, reads: Boolean(on && still.contains(on))};
    if (JSON.stringify(now) !== JSON.stringify(seen.at(-1))) seen.push(now);
  };
  const moved = async () => {
    for (let frames = 0; frames < 3; frames += 1) await frame();
    const inside = document.getElementById('lesson').contentDocument, tops = [];
    const parts = [...document.querySelectorAll('header, iframe'),
      ...inside.querySelectorAll('.jp-Cell, svg[aria-label], .jp-Cell img')];
    for (const end = performance.now() + 1000; performance.now() < end; await frame())
      tops.push(parts.map(each => each.getBoundingClientRect()).map(box => [box.top, box.height]));
    return parts.map((each, k) => [each.outerHTML.slice(0, 80), ...[0, 1].map(
      what => Math.max(...tops.map(all => all[k][what])) - Math.min(...tops.map(all => all[k][what])))])
      .filter(each => each[1] > 1 || each[2] > 1);
  };
  new MutationObserver(look).observe(document, {subtree: true, childList: true, attributes: true, characterData: true});
})()"""
# What lies over a control, at its ends and in its middle, as it stands in the middle of the page.
COVERED = """() => {
  const all = [...document.querySelectorAll('.jp-OutputArea-output :is(button, input, select)')];
  return all.filter(each => each.checkVisibility({visibilityProperty: true})).flatMap(each => {
    each.scrollIntoView({block: 'center', inline: 'nearest'});
    const {left, right, top, height} = each.getBoundingClientRect(), y = top + height / 2;
    const over = [left + 5, (left + right) / 2, right - 5].map(x => document.elementFromPoint(x, y))
      .filter(found => !each.contains(found));
    return over.map(found => `${found?.className || found?.tagName} over ${each.title || each.textContent}`);
  });
}"""
SHOWN = "all => Promise.all(all.map(each => each.decode().then(() => each.naturalWidth > 0, () => false)))"
ASK = """async code => {
  const asked = window.jupyterapp.shell.currentWidget.sessionContext.session.kernel
    .requestExecute({code, store_history: false});
  const said = [];
  asked.onIOPub = ({header, content}) => {
    if (header.msg_type === 'stream') said.push(content.text);
    if (header.msg_type === 'error') said.push(content.traceback.join('\\n'));
  };
  await asked.done;
  return said.join('');
}"""


class Opened:
    """A lesson opened from the contents and run to its end; remembers whatever went wrong on the way."""

    def __init__(self, context, home, name):
        self.name, self.elsewhere, self.complaints = name, [], []
        self.page = context.new_page()
        self.page.set_default_timeout(20_000)
        self.page.on("request", lambda request: self._asked(request.url, home))
        self.page.on("websocket", lambda socket: self.elsewhere.append(socket.url))
        self.page.on("console", self._hear)
        self.page.on("pageerror", lambda error: self.complaints.append(f"{error}\n{error.stack}"))
        self.page.goto(f"{home}/")
        self.fingers = self.page.evaluate("navigator.maxTouchPoints > 0")
        self.visited = self.page.evaluate("localStorage.length > 0")
        start = time.monotonic()
        self.page.locator(f'a[href="lessons/{name}.html"]').click()
        self.page.wait_for_selector("#still")
        self.still = self.page.locator("#still").inner_text()
        self.pictures = self.page.locator("#still img[alt]").evaluate_all(SHOWN)
        self.page.wait_for_selector("body[data-ready]", timeout=120_000)
        self.seconds = time.monotonic() - start
        self.moved = self.page.evaluate("window.moved")
        self.frame = self.page.frame(url=re.compile("/jupyter/notebooks/"))
        self.devtools = context.new_cdp_session(self.page)
        self.frame.evaluate(LISTEN)

    def _asked(self, url, home):
        if not url.startswith((f"{home}/", f"blob:{home}/", "data:")):
            self.elsewhere.append(url)

    def _hear(self, said):
        """An error in the console; JupyterLab first looks for a notebook's pictures beside itself."""
        where = said.location.get("url", "")
        if said.type == "error" and "/jupyter/images/" not in where:
            self.complaints.append(f"{said.text} ({where})")

    def said(self):
        """What the page says of itself."""
        return self.page.locator("#status").inner_text()

    def settle(self):
        """Wait until Python has answered all and the page has painted it."""
        self.frame.evaluate(SETTLE)

    def at_rest(self):
        self.frame.evaluate(AT_REST)

    def run(self, code):
        """What a piece of Python writes that the page's own Python runs."""
        return self.frame.evaluate(ASK, code)

    @cached_property
    def text(self):
        """The notebook as it lies in its folder."""
        return (HOUSE / "notebooks" / f"{self.name}.ipynb").read_text("utf-8")

    def made(self, what):
        """How often the notebook's cells make something."""
        cells = [each for each in json.loads(self.text)["cells"] if each["cell_type"] == "code"]
        return sum(len(re.findall(what, "".join(each["source"]))) for each in cells)

    def troubles(self):
        """What must not have happened since the last call: a failure that is shown, or told by page or Python."""
        shown = self.frame.locator(".jp-Notebook").text_content()
        failures = ("Traceback", "could not work this out", "could not be judged")
        found = [text for text in failures if text in shown] + self.complaints
        self.complaints = []
        return found + self.frame.evaluate("window.heard.errors.splice(0)")

    def saved(self, button):
        """What a button offers, taken as the download that the page makes of it."""
        pressed = self.frame.locator("button", has_text=button).first
        self.press(pressed)
        link = pressed.locator("xpath=ancestor::*[contains(@class, 'widget-vbox')][1]").locator("a[download]")
        with self.page.expect_download() as download:
            (link.tap if self.fingers else link.click)()
        path = download.value.path()
        assert base64.b64decode(link.get_attribute("href").partition(",")[2]) == path.read_bytes()
        return path

    def others(self, title):
        """What is no bench of sliders and has a field of this title."""
        has = f".jp-OutputArea-output:has(svg[aria-label]):has([title='{title}'])"
        return [Bench(self, root) for root in self.frame.locator(has).all()]

    def benches(self):
        return [Bench(self, root) for root in self.frame.locator(BENCH).all()]

    def press(self, button):
        """A click, or a finger's tap."""
        (button.tap if self.fingers else button.click)()
        self.settle()

    def draw(self, start, *ways):
        """Draw the mouse or a finger over the page, through points in steps as a hand makes them."""
        points = [start]
        for x, y in ways:
            left, top = points[-1]
            points += [(left + (x - left) * k / 8, top + (y - top) * k / 8) for k in range(1, 9)]
        (self._by_finger if self.fingers else self._by_mouse)(points)

    def _by_mouse(self, points):
        self.page.mouse.move(*points[0])
        self.page.mouse.down()
        for point in points[1:]:
            self.page.mouse.move(*point)
        self.page.mouse.up()

    def _by_finger(self, points):
        for number, (x, y) in enumerate(points):
            kind = "touchMove" if number else "touchStart"
            self.devtools.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": [{"x": x, "y": y}]})
            self.page.wait_for_timeout(16)
        self.devtools.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})


class Bench(BenchOnPage):
    """A bench on a class page."""

    def press(self, *names):
        for name in names:
            self.lesson.press(self.root.get_by_role("button", name=name))

    def offers(self, listed):
        """The values that a list has."""
        return listed.locator("option").evaluate_all("all => all.map(each => each.value)")

    def told(self, name):
        """A result that is told and more than nothing: its name, number and unit; else None."""
        shown = self.root.locator(f"[data-result={name}] b")
        found = re.match(r"([\d.]*[1-9][\d.]*) ?(\S*)$", shown.inner_text()) if shown.count() else None
        return found and (name, *found.groups())

    def named(self):
        return self.root.locator("svg[aria-label]").get_attribute("aria-label")[:80]

    def slide(self, control, way=0.12):
        """Draw a slider's thumb a part of its way, away from the nearer end; whether the size in its box moved."""
        handle, box = control.get_by_role("slider"), control.locator("input[type=text]")
        before = box.input_value()
        handle.scroll_into_view_if_needed()
        self.lesson.at_rest()
        stands = handle.evaluate("each => (each.value - each.min) / (each.max - each.min || 1)")
        room = handle.bounding_box()
        left, wide, y = room["x"] + 8, room["width"] - 16, room["y"] + room["height"] / 2
        goal = stands + (way if stands < 0.5 else -way)
        self.lesson.draw((left + wide * stands, y), (left + wide * goal, y))
        self.lesson.settle()
        return box.input_value() != before
