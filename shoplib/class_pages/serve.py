"""Serves a folder of class pages, read-only: nothing outside it, nothing but files, and no list of them."""

import contextlib
import errno
import gzip
import http.server
import os
import shutil
import signal
import socket
import socketserver
import sys
import tempfile
import threading
import time
from pathlib import Path
from urllib.parse import unquote, urlsplit

from shoplib.class_pages import screen
from shoplib.class_pages.addresses import alone, everywhere, home, own_addresses

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
MOST = 600  # connections at once, six for each of a hundred readers; whoever comes later waits
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
    except (OSError, RuntimeError):  # the latter for links that lead in a circle
        return None
    return path if path.is_file() and path.is_relative_to(folder) else None


class Packed:
    """Texts packed as gzip, which all browsers unpack: each once and on the disk, so that readers cost no memory."""

    def __init__(self):
        self.folder = tempfile.TemporaryDirectory(prefix="class_pages_", ignore_cleanup_errors=True)
        self.kept, self.one_at_a_time = {}, threading.Lock()

    def open(self, path, stamp):
        """The packed text, opened; `stamp` changes with the text."""
        if self.kept.get(path, ("",))[0] != stamp:
            with self.one_at_a_time:
                if self.kept.get(path, ("",))[0] != stamp:
                    self._pack(path, stamp)
        return self.kept[path][1].open("rb")

    def _pack(self, path, stamp):
        handle, name = tempfile.mkstemp(".gz", dir=self.folder.name)
        with path.open("rb") as text, open(handle, "wb") as file, gzip.GzipFile("", "wb", 6, file, 0) as packed:
            shutil.copyfileobj(text, packed)
        former = self.kept.get(path)
        self.kept[path] = stamp, Path(name)
        if former:
            with contextlib.suppress(OSError):  # Windows keeps what is being read
                former[1].unlink()


class Handler(http.server.BaseHTTPRequestHandler):
    """Answers GET and HEAD with files of the server's folder; all else is refused."""

    protocol_version, server_version, sys_version = "HTTP/1.1", "class-pages", ""
    timeout, patience = 15, 60  # seconds: for the next thing that is asked for, and for each piece of an answer

    def do_GET(self):
        self._answer(self._send)

    def do_HEAD(self):
        self._answer(lambda file, size: None)

    def _answer(self, send):
        path = found(self.server.folder, self.path)
        try:
            file = path and path.open("rb")
        except OSError:  # it may go while the pages are built anew
            file = None
        if file is None:
            self.send_error(404)
            return
        with file:
            status = os.fstat(file.fileno())
            stamp = f'"{status.st_mtime_ns:x}-{status.st_size:x}"'
            if self.headers.get("If-None-Match") == stamp:
                self._begin(304, stamp, {})
            elif path.suffix in PACKED and "gzip" in self.headers.get("Accept-Encoding", ""):
                with self.server.packed.open(path, stamp) as packed:
                    self._whole(packed, path, stamp, {"Content-Encoding": "gzip"}, send)
            else:
                self._whole(file, path, stamp, {}, send)

    def _whole(self, file, path, stamp, more, send):
        size = os.fstat(file.fileno()).st_size
        kind = KINDS.get(path.suffix, "application/octet-stream")
        head = {"Content-Type": kind, "Content-Length": str(size), "Vary": "Accept-Encoding"}
        self._begin(200, stamp, head | more)
        if size:
            send(file, size)

    def _send(self, file, size):
        """Send a file piece by piece, and wait for a slow reader as long as another piece goes through."""
        self.connection.settimeout(self.patience)
        self.connection.sendfile(file, count=size)
        self.connection.settimeout(self.timeout)

    def _begin(self, status, stamp, more):
        self.send_response(status)
        for name, value in (HEAD | {"ETag": stamp} | more).items():
            self.send_header(name, value)
        self.end_headers()

    def log_message(self, *_):
        """Who read what is nobody's business."""


class Server(http.server.ThreadingHTTPServer):
    """Hands out a folder, each connection in a thread of its own, a bounded number at once."""

    daemon_threads, request_queue_size = True, 128
    allow_reuse_address = os.name != "nt"  # there it would let two servers have the same port

    def __init__(self, folder, address, port, most=MOST):
        self.folder, self.free = folder, threading.Semaphore(most)
        self.address_family = socket.AF_INET6 if ":" in address else socket.AF_INET
        self.packed = Packed()
        super().__init__((address, port), Handler)

    def server_bind(self):
        """Without asking the network for this computer's name, as the library's own would."""
        socketserver.TCPServer.server_bind(self)
        self.server_name, self.server_port = self.server_address[:2]

    def process_request(self, request, client_address):
        self.free.acquire()
        super().process_request(request, client_address)

    def process_request_thread(self, request, client_address):
        try:
            super().process_request_thread(request, client_address)
        finally:
            self.free.release()

    def handle_error(self, request, client_address):
        """A reader who leaves in the middle of an answer, or falls asleep over it, is no error."""
        if not isinstance(sys.exc_info()[1], OSError):
            super().handle_error(request, client_address)

    def server_close(self):
        super().server_close()
        self.packed.folder.cleanup()


def server(folder, address="127.0.0.1", port=PORT):
    """A server of a folder, ready to run.

    Raises FileNotFoundError where the folder holds no class pages, and OSError, with what to do, where nobody can
    listen at that address and port.
    """
    folder = Path(folder).resolve()
    if not (folder / "lessons").is_dir():
        raise FileNotFoundError(f"There are no class pages in {folder}: build them first.")
    try:
        return Server(folder, address, port)
    except OSError as error:
        raise OSError(_reason(error, address, port)) from None


def _reason(error, address, port):
    """Why nobody can listen there."""
    if isinstance(error, socket.gaierror) or error.errno == errno.EADDRNOTAVAIL:
        return f"{address} is not an address of this computer."
    if error.errno == errno.EADDRINUSE:
        return f"Port {port} is taken, perhaps by class pages served already. Choose another: --port {port + 1}."
    if isinstance(error, PermissionError):
        return f"Port {port} is not free for everybody here. Choose another: --port {PORT}."
    return f"The pages cannot be served at {address}, port {port}: {error.strerror or error}."


def serve(folder, address="127.0.0.1", port=PORT, show=True):
    """Serve a folder until Ctrl+C; print where it is found.

    In a network also as a QR picture, and as a page for the teacher's screen, which is opened if `show`.
    """
    for name in ("SIGTERM", "SIGHUP"):  # a closed terminal ends it in order too
        if hasattr(signal, name):
            signal.signal(getattr(signal, name), signal.default_int_handler)
    with server(folder, address, port) as pages, contextlib.ExitStack() as kept:
        try:
            _tell(address, pages.server_port, show, kept)
            pages.serve_forever()
        except KeyboardInterrupt:
            print(f"Ended at {time.strftime('%H:%M')}.")


def _tell(address, port, show, kept):
    """Say where the pages are and who can read them."""
    if alone(address):
        told = [f"The class pages are at {home(address, port)}", ALONE]
    else:
        found = own_addresses()
        where = home(found[0][0] if everywhere(address) else address, port)
        screen.print_picture(where)
        told = [f"The class pages are at {where}", TOGETHER, _on_screen(where, port, show, kept)]
        mine = {card for other, card in found if other == address or everywhere(address)}
        told += [
            f"Are the tablets in another network? This computer is also in that of {card}: --address {other}"
            for other, card in found if card not in mine
        ]  # fmt: skip
    print("\n".join([*told, "Ctrl+C ends it."]), flush=True)


def _on_screen(where, port, show, kept):
    """Make the page for the teacher's screen, for as long as the pages are served; says where it is."""
    try:
        path = screen.save_page(where, port)
    except OSError as error:
        return str(error)
    kept.callback(path.unlink, missing_ok=True)
    shown = show and screen.opened(path)
    return f"For the projector: {path.resolve()}{', open in the browser' if shown else ''}"
