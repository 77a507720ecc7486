"""The class server hands out the built folder and nothing else, read-only, to whom it was told."""

import gzip
import http.client
import re
import socket
import threading

import pytest

from shoplib.class_pages.serve import KINDS, server

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
    return site


@pytest.fixture
def ask(site):
    """Ask the server something, the path as it is: (status, head, content)."""
    with server(site, port=0) as pages:
        threading.Thread(target=pages.serve_forever, daemon=True).start()

        def ask(path, method="GET", **head):
            line = http.client.HTTPConnection("127.0.0.1", pages.server_address[1], timeout=10)
            line.request(method, path, headers={name.replace("_", "-"): text for name, text in head.items()})
            answer = line.getresponse()
            content = answer.read()
            line.close()
            return answer.status, dict(answer.getheaders()), content

        yield ask
        pages.shutdown()


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
        "/etc/passwd", "/C:/secret.txt", "/index.html%00", "/lessons", "/lessons/", "/none.html", "/%ff",
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


def test_a_path_that_is_asked_for_does_not_come_back_as_markup(ask):
    assert not re.search(rb"<script>", ask("/%3Cscript%3Ealert(1)%3C/script%3E")[2])


def test_a_folder_without_class_pages_is_not_served(tmp_path):
    with pytest.raises(FileNotFoundError, match="no class pages"):
        server(tmp_path)
