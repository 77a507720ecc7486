"""The page for the teacher's screen or projector: where the class pages are, in large letters and as a QR picture."""

import contextlib
import os
import sys
import webbrowser
from html import escape

from shoplib.paper.files import FOLDER, save_whole

TO_DO = (
    "Join the same Wi-Fi as this computer.",
    "Point the camera at the picture, or type the address with all its signs.",
)
STYLE = """
* { box-sizing: border-box; }
body { margin: 0; min-height: 100vh; padding: 3vmin 4vw; display: flex; flex-direction: column; gap: 2vmin;
  justify-content: space-evenly; font-family: "DejaVu Sans", Verdana, "Segoe UI", Arial, sans-serif;
  color: #000; background: #fff; }
h1 { margin: 0; font-size: 4.5vmin; font-weight: normal; }
p { margin: 0; font-family: "DejaVu Sans Mono", Consolas, Menlo, monospace; font-weight: bold; white-space: nowrap; }
div { display: flex; flex-wrap: wrap; align-items: center; gap: 3vmin 5vw; }
span { flex: none; }
svg { display: block; width: 56vmin; height: 56vmin; }
ol { flex: 1 1 40vmin; margin: 0; padding-left: 1.2em; font-size: 6vmin; line-height: 1.3; }
li + li { margin-top: 0.6em; }
"""


def page(where):
    """The page that shows an address. A letter of its type is 0.61 as wide as the type is high."""
    import segno

    picture = segno.make(where, micro=False).svg_inline(scale=1, border=2, omitsize=True)
    steps = "".join(f"<li>{escape(each)}</li>" for each in TO_DO)
    wide = min(9.0, 92 / (0.61 * len(where)))
    return f"""<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<title>Where the class pages are</title>
<style>{STYLE}</style>
</head>
<body>
<h1>Shop geometry for round furniture</h1>
<p style="font-size:{wide:.2f}vw">{escape(where)}</p>
<div><span role="img" aria-label="The address as a QR picture">{picture}</span><ol>{steps}</ol></div>
</body>
</html>
"""


def print_picture(where):
    """The QR picture in a terminal, where that has the letters for it."""
    import segno

    with contextlib.suppress(UnicodeEncodeError):
        segno.make(where, micro=False).terminal(compact=True)


def save_page(where, port):
    """Write the page into the folder of printouts; returns its path. Raises PrintoutError where it cannot be."""
    text = page(where)
    return save_whole(FOLDER / f"class_address_{port}.html", lambda path: path.write_text(text, "utf-8"))


def opened(path):
    """Open the page in this computer's browser; says whether there was one to open it in."""
    shown = sys.platform in ("win32", "darwin") or os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")
    return bool(shown) and webbrowser.open(path.resolve().as_uri())
