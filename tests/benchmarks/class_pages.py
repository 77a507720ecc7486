"""How soon a class page is alive, how quickly it follows a slider, and what twenty readers cost who serves them.

Run it with `python tests/benchmarks/class_pages.py [FOLDER]` when the class pages are built; it judges nothing.
Every figure stands beside JupyterLab's own on the same machine, taken in turns: look at the ratios.
"""

import statistics
import subprocess
import sys
import tempfile
import threading
import time
import urllib.request
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from pathlib import Path

from playwright.sync_api import sync_playwright
from slider import BENCH, Page

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))
from browser.lab import CHROMIUM, IDLE, Lab, chromium  # noqa: E402

from shoplib.class_pages.serve import server  # noqa: E402

HOST = "workshop.test"  # as a tablet finds the pages: no secure context, and so no service worker
RULES = f"--host-resolver-rules=MAP {HOST} 127.0.0.1, MAP * ~NOTFOUND, EXCLUDE 127.0.0.1"
LESSONS = "01_circle_jigs", "05_coping", "13_the_stand"
TURNS, MOVES, READERS = 3, 40, 20
ALIVE = """() => [...document.querySelectorAll('.jp-OutputArea-output')].some(each =>
  each.querySelector('[data-press=back]') && each.querySelector('input[type=range]')
  && each.querySelector('svg[aria-label]')?.getBoundingClientRect().width > 50)"""
RUN_ALL = "() => { window.jupyterapp.commands.execute('notebook:run-all-cells').then(() => { window.ended = true; }) }"
SERVE = """
import sys
from shoplib.class_pages.serve import server
pages = server(sys.argv[1], port=0)
print(pages.server_address[1], flush=True)
pages.serve_forever()
"""
# Milliseconds from a slider's move until its drawing has changed and the browser has painted it, one by one.
MOVE = """async moves => {
  const bench = [...document.querySelectorAll('.jp-OutputArea-output')].find(each =>
    each.querySelector('[data-press=back]') && each.querySelector('input[type=range]'));
  const wide = each => each.max - each.min > 50;  // the first that has room to move
  const slider = [...bench.querySelectorAll('input[type=range]')].find(wide), taken = [];
  const first = slider.valueAsNumber;
  for (let k = 0; k < moves; k += 1) {
    const drawn = new Promise(resolve => {
      const drawing = bench.querySelector('svg[aria-label]').parentNode;
      const watch = new MutationObserver(() => { watch.disconnect(); requestAnimationFrame(resolve); });
      watch.observe(drawing, {subtree: true, childList: true, attributes: true, characterData: true});
    });
    const start = performance.now();
    slider.value = first + (k % 2 ? 1 : -1) * (1 + k % 5);  // all near: not every size can be made
    slider.dispatchEvent(new Event('input', {bubbles: true}));
    await Promise.race([drawn, new Promise((_, fail) => setTimeout(() => fail(new Error('no answer')), 5000))]);
    taken.push(performance.now() - start);
  }
  return taken;
}"""


@contextmanager
def window(browser):
    """A window of a browser that has visited nothing."""
    context = browser.new_context(viewport={"width": 1440, "height": 900})
    try:
        yield context
    finally:
        context.close()


def in_lab(lab, context, name):
    """Open a lesson in JupyterLab and run it: seconds to the first live bench and to the end, and the page."""
    page, start = context.new_page(), time.monotonic()
    page.goto(f"{lab.url}/doc/tree/notebooks/{name}.ipynb?reset")
    page.wait_for_function(IDLE, timeout=60_000)
    page.evaluate(RUN_ALL)
    page.wait_for_function(ALIVE, timeout=60_000)
    alive = time.monotonic() - start
    page.wait_for_function("window.ended", timeout=60_000)
    return alive, time.monotonic() - start, page, page


def on_page(home, context, name):
    """Open a lesson's class page, which runs by itself: the same."""
    page, start = context.new_page(), time.monotonic()
    page.goto(f"{home}/lessons/{name}.html")
    frame = page.locator("#lesson").element_handle().content_frame()
    while not frame.url.startswith("http"):
        page.wait_for_timeout(20)
    frame.wait_for_function(ALIVE, timeout=120_000)
    alive = time.monotonic() - start
    page.wait_for_selector("body[data-ready]", timeout=120_000)
    return alive, time.monotonic() - start, page, frame


def visits(browser, lab, home, name):
    """First and second visits by turns: {way: (alive, ended)} as medians, and a slider's move on both."""
    taken, moves = {}, {}
    for _ in range(TURNS):
        for way, opening, where in (("JupyterLab", in_lab, lab), ("class page", on_page, home)):
            with window(browser) as context:
                for visit in ("first visit", "second visit"):
                    alive, ended, page, frame = opening(where, context, name)
                    taken.setdefault((way, visit), []).append((alive, ended))
                    if visit == "second visit":
                        frame.evaluate(MOVE, 5)
                        moves.setdefault(way, []).extend(frame.evaluate(MOVE, MOVES))
                    page.close()
                    lab.stop_kernels()
    medians = {key: [statistics.median(each) for each in zip(*found)] for key, found in taken.items()}
    return medians, {way: statistics.median(found) for way, found in moves.items()}


def asked_for(browser, home):
    """All that a reader's browser asks for: the contents, then one lesson until it is ready."""
    with window(browser) as context:
        asked = []
        context.on("response", lambda answer: asked.append((answer.status, answer.url)))
        context.new_page().goto(f"{home}/")
        on_page(home, context, LESSONS[0])
    return [address.removeprefix(home) for status, address in asked if address.startswith(home) and status == 200]


def fetch(addresses):
    """What one reader's browser does, without the browser: bytes that came."""
    came = 0
    for address in addresses:
        asked = urllib.request.Request(address, headers={"Accept-Encoding": "gzip"})
        with urllib.request.urlopen(asked, timeout=60) as answer:
            came += len(answer.read())
    return came


def readers(folder, paths):
    """Twenty readers at once: seconds, seconds of processor, MB each, and MB of memory at the most."""
    command = [sys.executable, "-c", SERVE, str(folder)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as serving:
        try:
            home = f"http://127.0.0.1:{serving.stdout.readline().strip()}"
            start = time.monotonic()
            with ThreadPoolExecutor(READERS) as pool:
                came = list(pool.map(fetch, [[home + path for path in paths]] * READERS))
            taken = time.monotonic() - start
            about = Path(f"/proc/{serving.pid}")
            ticks = (about / "stat").read_text().rpartition(")")[2].split()[11:13]
            peak = next(line.split()[1] for line in (about / "status").read_text().splitlines() if "VmHWM" in line)
        finally:
            serving.terminate()
    return taken, sum(map(int, ticks)) / 100, came[0] / 1e6, int(peak) / 1024


def kernels():
    """MB of memory of as many kernels, each with one bench: what they have alone, shared pages counted once."""
    pages = []
    try:
        for _ in range(READERS):
            pages.append(Page())
            pages[-1].run(BENCH)
        pids = [page.ask("__import__('os').getpid()") for page in pages]
        told = [Path(f"/proc/{pid}/smaps_rollup").read_text() for pid in pids]
    finally:
        for page in pages:
            page.close()
    return sum(int(line.split()[1]) for each in told for line in each.splitlines() if line.startswith("Pss:")) / 1024


def table_of_visits(medians, moves):
    for visit, limit in (("first visit", 2), ("second visit", 1.5)):
        lab, page = medians["JupyterLab", visit], medians["class page", visit]
        for words, theirs, ours in zip(("bench alive", "all of it run"), lab, page):
            limited = f"   limit {limit}" if words == "bench alive" else ""
            print(f"  {visit + ', ' + words:34}{theirs:8.1f} s{ours:8.1f} s{ours / theirs:8.2f}{limited}")
    theirs, ours = moves["JupyterLab"], moves["class page"]
    print(f"  {'a slider moved, its drawing painted':34}{theirs:7.1f} ms{ours:7.1f} ms{ours / theirs:8.2f}   limit 1")


def main(folder):
    size = sum(path.stat().st_size for path in folder.rglob("*") if path.is_file())
    print(f"folder {size / 1e6:.1f} MB   limit 60")
    lab = Lab(Path(tempfile.mkdtemp()))
    try:
        with server(folder, port=0) as serving, sync_playwright() as playwright:
            threading.Thread(target=serving.serve_forever, daemon=True).start()
            home = f"http://{HOST}:{serving.server_address[1]}"
            browser = playwright.chromium.launch(executable_path=chromium(), args=[*CHROMIUM[:-1], RULES])
            for name in LESSONS:
                print(f"{name:36}{'JupyterLab':>10}{'page':>10}{'ratio':>8}")
                table_of_visits(*visits(browser, lab, home, name))
            paths = asked_for(browser, home)
            browser.close()
            serving.shutdown()
    finally:
        lab.stop()
    taken, processor, each, peak = readers(folder, paths)
    print(f"{READERS} readers at once, {each:.1f} MB each in {len(paths)} files: {taken:.1f} s   limit 30")
    print(f"  the server's processor {processor:.1f} s, memory {peak:.0f} MB   limit 200")
    print(f"  {READERS} kernels of JupyterLab, a bench in each: {kernels():.0f} MB")


if __name__ == "__main__":
    main(Path(sys.argv[1] if len(sys.argv) > 1 else "class_pages").resolve())
