"""Serves a folder of class pages, read-only: nothing outside it, nothing but files, and no list of them."""

import gzip
import http.server
import socket
import time
from functools import lru_cache
from pathlib import Path
from urllib.parse import unquote, urlsplit

KINDS = {
    ".html": "text/html; charset=utf-8", ".css": "text/css; charset=utf-8",
    ".js": "text/javascript; charset=utf-8", ".mjs": "text/javascript; charset=utf-8",
    ".json": "application/json", ".ipynb": "application/json",
    ".wasm": "application/wasm", ".whl": "application/zip", ".zip": "application/zip", ".svg": "image/svg+xml",
    ".png": "image/png", ".ico": "image/x-icon", ".woff": "font/woff", ".woff2": "font/woff2", ".ttf": "font/ttf",
    ".txt": "text/plain; charset=utf-8", ".md": "text/plain; charset=utf-8", ".toml": "text/plain; charset=utf-8",
    ".csv": "text/csv; charset=utf-8", ".webmanifest": "application/manifest+json",
}  # fmt: skip
PACKED = (".html", ".js", ".mjs", ".css", ".json", ".ipynb", ".wasm", ".svg", ".txt", ".md")
HEAD = {
    "Cache-Control": "no-cache",  # the browser keeps its copy and asks only whether it is still the same
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Content-Security-Policy": "default-src 'self' 'unsafe-inline' 'unsafe-eval' data: blob:; frame-ancestors 'self'",
}
PORT = 8765
ALONE = "Only this computer can read them: add --network for the tablets in the workshop."
TOGETHER = "Everybody in this computer's network can read them, and nothing else."


def found(folder, address):
    """The file of a folder that an address asks for, or None.

    Whatever leads out of the folder, by dots, links or drives, or begins with a dot, is not there.
    """
    parts = unquote(urlsplit(address).path, errors="replace").split("/")
    if any(part.startswith(".") or "\\" in part or ":" in part or "\0" in part for part in parts):
        return None
    path = folder.joinpath(*filter(None, parts))
    try:
        path = (path / "index.html" if path.is_dir() else path).resolve(strict=True)
    except OSError:
        return None
    return path if path.is_file() and path.is_relative_to(folder) else None


@lru_cache(maxsize=400)
def packed(path, stamp):
    """A text packed as gzip, which all browsers unpack; `stamp` changes with the file."""
    return gzip.compress(path.read_bytes(), 6, mtime=0)


class Handler(http.server.BaseHTTPRequestHandler):
    """Answers GET and HEAD with files of `folder`; all else is refused."""

    protocol_version, server_version, sys_version = "HTTP/1.1", "class-pages", ""
    folder, timeout = None, 60

    def do_GET(self):
        self._answer(with_content=True)

    def do_HEAD(self):
        self._answer(with_content=False)

    def _answer(self, with_content):
        path = found(self.folder, self.path)
        if path is None:
            self.send_error(404)
            return
        status = path.stat()
        stamp = f'"{status.st_mtime_ns:x}-{status.st_size:x}"'
        if self.headers.get("If-None-Match") == stamp:
            self._begin(304, stamp, {})
            return
        pack = path.suffix in PACKED and "gzip" in self.headers.get("Accept-Encoding", "")
        content = packed(path, stamp) if pack else path.read_bytes()
        more = {"Content-Type": KINDS.get(path.suffix, "application/octet-stream"), "Content-Length": str(len(content))}
        self._begin(200, stamp, more | {"Vary": "Accept-Encoding"} | ({"Content-Encoding": "gzip"} if pack else {}))
        if with_content:
            self.wfile.write(content)

    def _begin(self, status, stamp, more):
        self.send_response(status)
        for name, value in (HEAD | {"ETag": stamp} | more).items():
            self.send_header(name, value)
        self.end_headers()

    def log_message(self, *_):
        """Who read what is nobody's business."""


class Server(http.server.ThreadingHTTPServer):
    daemon_threads, request_queue_size = True, 128

    def handle_error(self, request, client_address):
        """A reader who leaves in the middle of an answer is no error."""


def server(folder, address="127.0.0.1", port=PORT):
    """A server of a folder, ready to run. Raises FileNotFoundError where the folder holds no class pages."""
    folder = Path(folder).resolve()
    if not (folder / "lessons").is_dir():
        raise FileNotFoundError(f"There are no class pages in {folder}: build them first.")
    return Server((address, port), type("Handler", (Handler,), {"folder": folder}))


def own_address():
    """This computer's address in its network. Nothing is sent: a socket is only told where it would send."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as door:
        try:
            door.connect(("192.0.2.1", 9))  # an address kept for examples
        except OSError:
            return "127.0.0.1"
        return door.getsockname()[0]


def serve(folder, address="127.0.0.1", port=PORT):
    """Serve a folder until Ctrl+C; print where it is found, in letters and as a QR picture."""
    import segno

    with server(folder, address, port) as pages:
        where = f"http://{address}:{pages.server_address[1]}/"
        segno.make(where, micro=False).terminal(compact=True)
        print(f"The class pages are at {where}", flush=True)
        print(ALONE if address.startswith("127.") else TOGETHER, flush=True)
        print("Ctrl+C ends it.", flush=True)
        try:
            pages.serve_forever()
        except KeyboardInterrupt:
            print(f"Ended at {time.strftime('%H:%M')}.")
