"""The class server hands out the built folder and nothing else, read-only, to whom it was told."""

import gzip
import http.client
import inspect
import itertools
import os
import random
import re
import signal
import socket
import subprocess
import sys
import threading
import time
import tracemalloc
from types import SimpleNamespace

import psutil
import pytest
from pages import NASTY

from shoplib.class_pages import addresses, screen, serve
from shoplib.class_pages.__main__ import main
from shoplib.class_pages.addresses import own_addresses
from shoplib.class_pages.serve import KINDS, Handler, Server, server

WASM = b"\0asm" * 400


@pytest.fixture
def site(tmp_path):
    """A folder as it is built, something beside it, and links that lead out of it."""
    (tmp_path / "secret.txt").write_text("nobody's business")
    site = tmp_path / "site"
    (site / "lessons").mkdir(parents=True)
    (site / "index.html").write_text("<h1>Contents</h1>")
    (site / "lessons" / "01.html").write_text("<h1>Lesson</h1>")
    (site / "python.wasm").write_bytes(WASM)
    (site / ".hidden").write_text("hidden")
    (site / "out.txt").symlink_to(tmp_path / "secret.txt")
    (site / "up").symlink_to(tmp_path)
    (site / "circle.txt").symlink_to(site / "circle.txt")
    return site


@pytest.fixture
def pages(site):
    """The server of the folder, at work."""
    with server(site, port=0) as pages:
        threading.Thread(target=pages.serve_forever, args=(0.01,), daemon=True).start()
        yield pages
        pages.shutdown()


@pytest.fixture
def ask(pages):
    """Ask the server something, the path as it is: (status, head, content)."""

    def ask(path, method="GET", **head):
        line = http.client.HTTPConnection("127.0.0.1", pages.server_port, timeout=10)
        line.request(method, path, headers={name.replace("_", "-"): text for name, text in head.items()})
        answer = line.getresponse()
        content = answer.read()
        line.close()
        return answer.status, dict(answer.getheaders()), content

    return ask


def connected(pages, path=None):
    """A bare connection to the server with little room, on which a path was asked for or nothing yet."""
    line = socket.socket()
    line.setsockopt(socket.SOL_SOCKET, socket.SO_RCVBUF, 8192)
    line.settimeout(10)
    line.connect(pages.server_address)
    if path:
        line.sendall(f"GET {path} HTTP/1.1\r\nHost: x\r\nAccept-Encoding: gzip\r\n\r\n".encode())
    return line


def test_it_listens_on_this_computer_alone(site):
    with server(site, port=0) as pages:
        assert pages.server_address[0] == "127.0.0.1" and pages.address_family == socket.AF_INET


def test_pages_come_with_fixed_kinds(ask):
    for path, content in (("/", b"<h1>Contents</h1>"), ("/lessons/01.html?x=1#y", b"<h1>Lesson</h1>")):
        status, head, found = ask(path)
        assert (status, found, head["Content-Type"]) == (200, content, "text/html; charset=utf-8")
        assert head["X-Content-Type-Options"] == "nosniff" and "default-src 'self'" in head["Content-Security-Policy"]
    assert ask("/python.wasm")[1]["Content-Type"] == "application/wasm"
    assert KINDS[".mjs"] == KINDS[".js"] == "text/javascript; charset=utf-8"


@pytest.mark.parametrize(
    "path",
    [
        "/../secret.txt", "/lessons/../../secret.txt", "/%2e%2e/secret.txt", "/..%2fsecret.txt", "/%2e%2e%2fsecret.txt",
        "/..\\secret.txt", "/%5c..%5csecret.txt", "/out.txt", "/up/secret.txt", "/.hidden", "//etc/passwd",
        "/etc/passwd", "/C:/secret.txt", "/index.html%00", "/lessons", "/lessons/", "/none.html", "/%ff", "/circle.txt",
        "/" + "x" * 300, "/index.html/secret.txt", "http://127.0.0.1/../secret.txt",
    ],
)  # fmt: skip
def test_what_lies_outside_is_not_there(ask, path):
    status, _, content = ask(path)
    assert status == 404 and b"nobody" not in content and b"hidden" not in content and b"root:" not in content


@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE", "PATCH", "OPTIONS", "MOVE", "TRACE"])
def test_nothing_can_be_written(ask, site, method):
    before = sorted(path.name for path in site.rglob("*"))
    assert ask("/index.html", method)[0] == 501
    assert (site / "index.html").read_text() == "<h1>Contents</h1>"
    assert sorted(path.name for path in site.rglob("*")) == before


def test_a_second_visit_is_told_that_nothing_has_changed(ask, site):
    _, head, _ = ask("/python.wasm")
    assert "no-cache" in head["Cache-Control"]
    status, again, content = ask("/python.wasm", If_None_Match=head["ETag"])
    assert (status, content) == (304, b"") and again["ETag"] == head["ETag"]
    (site / "python.wasm").write_bytes(WASM + b"!")
    assert ask("/python.wasm", If_None_Match=head["ETag"])[0] == 200


def test_texts_are_packed_for_those_who_unpack(ask):
    status, head, content = ask("/python.wasm", Accept_Encoding="gzip, br")
    assert status == 200 and head["Content-Encoding"] == "gzip" and len(content) < 100
    assert gzip.decompress(content) == WASM and ask("/python.wasm")[2] == WASM
    assert ask("/python.wasm", "HEAD")[2] == b""


def test_a_text_that_is_built_anew_is_packed_anew(ask, site, pages):
    old = ask("/index.html", Accept_Encoding="gzip")[2]
    (site / "index.html").write_text("<h1>New contents</h1>")
    new = ask("/index.html", Accept_Encoding="gzip")[2]
    assert (gzip.decompress(old), gzip.decompress(new)) == (b"<h1>Contents</h1>", b"<h1>New contents</h1>")
    assert len(os.listdir(pages.packed.folder.name)) == 1


def test_whoever_asks_for_a_part_gets_the_whole_and_a_head_has_no_content(ask):
    assert ask("/python.wasm", Range="bytes=0-3")[::2] == (200, WASM)
    status, head, content = ask("/python.wasm", "HEAD")
    assert (status, head["Content-Length"], content) == (200, str(len(WASM)), b"")
    assert ask("/none.html", "HEAD")[::2] == (404, b"")


# Many readers, slow ones, and those who leave ------------------------------------------------------------------


@pytest.fixture
def large(site):
    """A text that packs badly, and a wheel, of a megabyte each."""
    text = random.Random(9).randbytes(500_000).hex()
    for name in ("large.txt", "large.whl"):
        (site / name).write_text(text)
    return text.encode()


def test_twenty_readers_at_once_cost_no_memory_and_each_text_is_packed_once(ask, large, monkeypatch):
    """Less than two of the files together, where each answer held in memory would be twenty."""
    packed, pack = [], gzip.GzipFile
    monkeypatch.setattr(serve.gzip, "GzipFile", lambda *given: packed.append(given) or time.sleep(0.05) or pack(*given))
    tracemalloc.start()
    lengths = []

    def read(name):
        line = http.client.HTTPConnection("127.0.0.1", port, timeout=10)
        line.request("GET", name, headers={"Accept-Encoding": "gzip"})
        answer = line.getresponse()
        lengths.append(sum(len(piece) for piece in iter(lambda: answer.read(8192), b"")))
        line.close()

    port = ask.__closure__[0].cell_contents.server_port
    readers = [threading.Thread(target=read, args=(name,)) for name in ("/large.txt", "/large.whl") for _ in range(20)]
    for reader in readers:
        reader.start()
    for reader in readers:
        reader.join()
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert len(lengths) == 40 and lengths.count(len(large)) == 20 and len(packed) == 1
    assert peak < 2 * len(large)


def test_a_slow_reader_gets_all_of_it_however_long_it_takes(pages, large, monkeypatch):
    """Each piece has its own time, not the whole answer."""
    monkeypatch.setattr(Handler, "patience", 0.15)
    pages.socket.setsockopt(socket.SOL_SOCKET, socket.SO_SNDBUF, 16384)
    start, got = time.monotonic(), b""
    with connected(pages, "/large.whl") as line:
        while not got.endswith(large[-100:]):
            piece = line.recv(40_000)
            assert piece, f"cut off after {len(got)} of {len(large)} bytes"
            got += piece
            time.sleep(0.005)
    assert got.endswith(large) and time.monotonic() - start > 0.3


def test_those_who_fall_asleep_are_let_go_and_hold_up_nobody(site, large, monkeypatch):
    """No more threads than connections that are let in; the next one comes in when one of them is given up."""
    monkeypatch.setattr(Handler, "patience", 0.2)
    monkeypatch.setattr(Handler, "timeout", 0.2)
    before = threading.active_count()
    with Server(site.resolve(), "127.0.0.1", 0, most=4) as pages:
        pages.socket.setsockopt(socket.SOL_SOCKET, socket.SO_SNDBUF, 16384)
        threading.Thread(target=pages.serve_forever, args=(0.01,), daemon=True).start()
        asleep = [connected(pages, path) for path in ("/large.whl", None, "/large.whl", None, None, None)]
        time.sleep(0.1)
        assert threading.active_count() - before <= 5
        with connected(pages, "/index.html") as line:
            assert line.recv(12) == b"HTTP/1.1 200"
        for each in asleep:
            each.close()
        pages.shutdown()


def test_who_leaves_in_the_middle_is_no_error_but_a_fault_of_ours_is_told(pages, large, ask, capfd, monkeypatch):
    pages.socket.setsockopt(socket.SOL_SOCKET, socket.SO_SNDBUF, 16384)
    with connected(pages, "/large.whl") as line:
        assert line.recv(100)
    assert ask("/index.html")[0] == 200
    time.sleep(0.05)
    assert capfd.readouterr().err == ""
    monkeypatch.setattr(serve, "found", lambda *_: 1 / 0)
    with pytest.raises(http.client.HTTPException):
        ask("/index.html")
    time.sleep(0.05)
    assert "ZeroDivisionError" in capfd.readouterr().err


def test_a_path_that_is_asked_for_does_not_come_back_as_markup(ask):
    assert not re.search(rb"<script>", ask("/%3Cscript%3Ealert(1)%3C/script%3E")[2])


def test_a_folder_without_class_pages_is_not_served(tmp_path):
    with pytest.raises(FileNotFoundError, match="no class pages"):
        server(tmp_path)


# Where it listens -----------------------------------------------------------------------------------------------


def cards(monkeypatch, switched_off=(), **given):
    """Give this computer other network cards, and no way out of them."""
    kinds = {True: socket.AF_INET6, False: socket.AF_INET}
    found = {
        card: [SimpleNamespace(family=kinds[":" in each], address=each) for each in addresses.split()]
        for card, addresses in given.items()
    }
    found["eth9"] = [SimpleNamespace(family=-1, address="02:fc:00:00:00:01")]
    states = {card: SimpleNamespace(isup=card not in switched_off) for card in found}
    monkeypatch.setattr(psutil, "net_if_addrs", lambda: found)
    monkeypatch.setattr(psutil, "net_if_stats", lambda: states)
    monkeypatch.setattr(addresses, "_usual", lambda kind: None)


def test_it_is_found_at_the_address_that_tablets_can_reach(monkeypatch):
    """A hotspot has no way out; a card without a network gives itself an address; IPv6 where there is nothing else."""
    lo = "127.0.0.1 ::1"
    cards(monkeypatch, lo=lo, a="169.254.3.4 fe80::1%a", b="fd00::2 10.42.0.1", c="192.0.2.9", switched_off=["c"])
    assert own_addresses() == [("10.42.0.1", "b"), ("fd00::2", "b"), ("169.254.3.4", "a")]
    cards(monkeypatch, lo=lo, a="192.0.2.1", b="192.0.2.2")
    monkeypatch.setattr(addresses, "_usual", lambda kind: "192.0.2.2" if kind == socket.AF_INET else None)
    assert own_addresses() == [("192.0.2.2", "b"), ("192.0.2.1", "a")]
    cards(monkeypatch, lo=lo, a="fe80::1%a fd00::2")
    assert own_addresses() == [("fd00::2", "a")]
    cards(monkeypatch, lo=lo)
    with pytest.raises(OSError, match="in no network"):
        own_addresses()


def test_the_address_that_leads_out_is_one_of_this_computers_own():
    found = {each.address for given in psutil.net_if_addrs().values() for each in given}
    assert {addresses._usual(kind) for kind in addresses.OUTSIDE} - {None} <= found


def test_it_listens_on_the_address_it_was_told_and_asks_nobody_for_a_name(site, monkeypatch):
    monkeypatch.setattr(socket, "getfqdn", lambda *_: pytest.fail("asks the network for a name"))
    for address, kind in (("127.0.0.1", socket.AF_INET), ("::1", socket.AF_INET6)):
        with server(site, address, 0) as pages:
            assert pages.address_family == kind and pages.server_address[0] == address
            assert os.path.isdir(pages.packed.folder.name)
        assert not os.path.exists(pages.packed.folder.name)


def told(capsys, *given):
    """The sentence with which the program ends."""
    assert main(["serve", *map(str, given)]) == 1
    said = capsys.readouterr()
    assert said.out == "" and "Traceback" not in said.err and said.err.count("\n") == 1
    return said.err


def test_what_cannot_be_served_is_told_in_a_sentence(site, pages, capsys, tmp_path, monkeypatch):
    port = pages.server_port
    assert told(capsys, site, "--port", port) == (
        f"Port {port} is taken, perhaps by class pages served already. Choose another: --port {port + 1}.\n"
    )
    assert told(capsys, site, "--address", "192.0.2.77") == "192.0.2.77 is not an address of this computer.\n"
    assert "no class pages" in told(capsys, tmp_path) and "no class pages" in told(capsys, tmp_path / "none")
    cards(monkeypatch, lo="127.0.0.1")
    assert "in no network" in told(capsys, site, "--network") and "in no network" in told(
        capsys, site, "--port", 0, "--address", "0.0.0.0"
    )
    monkeypatch.setattr(Server, "server_bind", lambda _: (_ for _ in ()).throw(PermissionError(13, "denied")))
    assert "Port 80 is not free for everybody here" in told(capsys, site, "--port", 80)
    for wrong in ("99999", "-1", "x", "²"):
        with pytest.raises(SystemExit):
            main(["serve", "--port", wrong])
        assert "a whole number up to 65535" in capsys.readouterr().err


# What is told ---------------------------------------------------------------------------------------------------

PICTURE = "<svg>QR</svg>"


class Segno:
    """Stands for the library that draws the QR picture, which only the class pages bring with them."""

    def __init__(self, where):
        self.where = where

    make = classmethod(lambda kind, where, micro: kind(where))

    def svg_inline(self, **_):
        return PICTURE

    def terminal(self, compact):
        print(f"QR picture of {self.where}")


@pytest.fixture
def told_by(site, monkeypatch, tmp_path, capsys):
    """What is printed when the pages are served at an address, until Ctrl+C; and the pages that were opened."""
    monkeypatch.setitem(sys.modules, "segno", Segno)
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(signal, "signal", lambda *_: None)
    shown = []
    monkeypatch.setattr(screen.webbrowser, "open", lambda url: shown.append(url) or True)
    made = tmp_path / "printouts"

    def stop(pages):
        pages.page = [path.read_text("utf-8") for path in made.glob("*.html")]
        shown.extend(pages.page)
        raise KeyboardInterrupt

    monkeypatch.setattr(Server, "serve_forever", stop)

    def told_by(*given):
        shown.clear()
        assert main(["serve", str(site), "--port", "0", *given]) == 0
        assert list(made.glob("*.html")) == []
        return capsys.readouterr().out, list(shown)

    return told_by


def test_alone_it_says_so_and_shows_nothing_on_the_screen(told_by):
    said, shown = told_by()
    assert "http://127.0.0.1:" in said and serve.ALONE in said and "QR" not in said and shown == []
    assert re.search(r"Ended at \d\d:\d\d\.\n$", said)


def test_in_a_network_the_address_stands_on_the_screen(told_by, monkeypatch):
    monkeypatch.setenv("DISPLAY", ":9")
    cards(monkeypatch, lo="127.0.0.1", a="192.0.2.9", hotspot="10.42.0.1")
    said, (url, page) = told_by("--address", "0.0.0.0")
    where = re.search(r"are at (http://192\.0\.2\.9:\d+/)", said)[1]
    assert serve.TOGETHER in said and f"QR picture of {where}" in said and "open in the browser" in said
    assert f">{where}</p>" in page and PICTURE in page and all(f"<li>{each}</li>" in page for each in screen.TO_DO)
    assert url.startswith("file:///") and "src=" not in page and "href=" not in page
    assert len(told_by("--address", "0.0.0.0", "--no-browser")[1]) == 1  # made, not opened
    monkeypatch.delenv("DISPLAY")
    monkeypatch.delenv("WAYLAND_DISPLAY", raising=False)
    monkeypatch.setattr(sys, "platform", "linux")
    assert len(told_by("--address", "0.0.0.0")[1]) == 1


def test_where_there_are_more_networks_the_others_are_named(told_by, monkeypatch):
    cards(monkeypatch, lo="127.0.0.1", a="192.0.2.9 fd00::9", hotspot="10.42.0.1")
    monkeypatch.setattr(Server, "__init__", lambda self, folder, address, port, start=Server.__init__:
                        start(self, folder, "127.0.0.1", port))  # fmt: skip
    said, _ = told_by("--network", "--no-browser")
    assert "http://192.0.2.9:" in said
    assert "This computer is also in that of hotspot: --address 10.42.0.1\n" in said
    assert said.count("another network") == 1 and "fd00" not in said


def test_a_screen_that_cannot_be_made_holds_nothing_up(told_by, monkeypatch, tmp_path):
    cards(monkeypatch, lo="127.0.0.1", a="192.0.2.9")
    (tmp_path / "printouts").write_text("in the way")
    monkeypatch.setattr(Segno, "terminal", lambda *_, **__: "█".encode("ascii"))  # an old terminal
    said, shown = told_by("--address", "0.0.0.0")
    assert "Nothing can be written into the folder printouts" in said and "Ctrl+C ends it." in said and shown == []


def test_an_address_is_text_on_the_screen_and_fits_its_width(monkeypatch):
    monkeypatch.setitem(sys.modules, "segno", Segno)
    assert "<script" not in screen.page(NASTY) and "<img" not in screen.page(NASTY)
    for where in ("http://10.0.0.1:8765/", "http://[fd00:1234:5678:9abc:def0:1234:5678:9abc]:8765/"):
        size = float(re.search(r"font-size:([\d.]+)vw", screen.page(where))[1])
        assert 0.6021 * size * len(where) < 92.5 and size > 2.5  # DejaVu Sans Mono's advance


def test_served_for_real_it_is_read_at_its_address_alone_and_ends_in_order(site, tmp_path):
    """Another program of this computer reads it, at its address in the network, not at 127.0.0.1."""
    try:
        (address, _), *_ = own_addresses()
    except OSError:
        address = "127.0.0.2"  # a computer without a network
    with socket.socket() as door:
        door.bind(("127.0.0.1", 0))
        port = door.getsockname()[1]
    (tmp_path / "segno.py").write_text(f"PICTURE = {PICTURE!r}\n{inspect.getsource(Segno)}\nmake = Segno.make\n")
    process = subprocess.Popen(
        [sys.executable, "-m", "shoplib.class_pages", "serve", site, "--address", address, "--port", str(port)],
        cwd=tmp_path, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True,
        env={name: value for name, value in os.environ.items() if "DISPLAY" not in name} | {"TMPDIR": str(tmp_path)},
    )  # fmt: skip
    try:
        said = list(itertools.takewhile(lambda line: "Ctrl+C" not in line, process.stdout))
        line = http.client.HTTPConnection(address, port, timeout=10)
        line.request("GET", "/", headers={"Accept-Encoding": "gzip"})
        assert line.getresponse().status == 200
        with pytest.raises(OSError):
            socket.create_connection(("127.0.0.1", port), 1)
    finally:
        process.send_signal(signal.SIGINT)
        rest = process.communicate(timeout=20)[0]
    assert process.returncode == 0 and re.fullmatch(r"\n?Ended at \d\d:\d\d\.\n", rest), rest
    assert f"{addresses.home(address, port)}\n" in "".join(said)
    assert not list(tmp_path.glob("class_pages_*")) and not list(tmp_path.glob("printouts/*"))
