"""The configuration for nginx that the docs give, in a running nginx."""

import getpass
import http.client
import shutil
import socket
import ssl
import subprocess
import time
from collections.abc import Iterator
from dataclasses import dataclass
from email.message import Message
from pathlib import Path

import pytest

from guidegen.site.host_files import HEADERS

HOST = "guides.example.org"
_STARTS = 60
"""Seconds that a loaded machine may take to start a server."""


@dataclass(frozen=True)
class Server:
    secure: int
    """Port."""

    plain: int
    trusted: ssl.SSLContext

    def ask(self, path: str, *, packed: bool = False) -> tuple[int, Message, bytes]:
        """Return status, headers and body of the file at *path*."""
        link = http.client.HTTPSConnection("127.0.0.1", self.secure, context=self.trusted)
        link.request("GET", path, headers={"Accept-Encoding": "gzip"} if packed else {})
        answer = link.getresponse()
        body = answer.read()
        link.close()
        return answer.status, answer.headers, body


def free_port() -> int:
    with socket.socket() as bound:
        bound.bind(("127.0.0.1", 0))
        return int(bound.getsockname()[1])


def make_certificate(folder: Path) -> tuple[Path, Path]:
    certificate, key = folder / "host.pem", folder / "host.key"
    command = ["openssl", "req", "-x509", "-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:P-256"]
    command += ["-nodes", "-days", "2", "-subj", f"/CN={HOST}", "-addext"]
    command += ["subjectAltName=IP:127.0.0.1", "-keyout", str(key), "-out", str(certificate)]
    subprocess.run(command, check=True, capture_output=True)
    return certificate, key


@pytest.fixture(scope="module")
def server(
    demo: Path, project_root: Path, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Server]:
    """Start nginx as the docs say, but for the places of its files and its ports."""
    folder = tmp_path_factory.mktemp("nginx")
    docs = project_root / "docs" / "hosting"
    certificate, key = make_certificate(folder)
    secure, plain = free_port(), free_port()
    shutil.copy(docs / "headers.conf", folder)
    site = (docs / "nginx.conf").read_text(encoding="utf-8")
    for old, new in (
        ("listen 443 ssl", f"listen 127.0.0.1:{secure} ssl"),
        ("listen 80", f"listen 127.0.0.1:{plain}"),
        (f"/etc/ssl/certs/{HOST}.pem", str(certificate)),
        (f"/etc/ssl/private/{HOST}.key", str(key)),
        ("/srv/guides/site", str(demo / "site")),
        ("/etc/nginx/headers.conf", str(folder / "headers.conf")),
    ):
        assert old in site
        site = site.replace(old, new)
    (folder / "site.conf").write_text(site, encoding="utf-8")
    kept = "\n".join(
        f"{name}_temp_path {folder / name};"
        for name in ("client_body", "proxy", "fastcgi", "uwsgi", "scgi")
    )
    whole = folder / "nginx.conf"
    whole.write_text(
        f"daemon off; pid {folder / 'pid'}; error_log {folder / 'errors'};\n"
        f"user {_owner()};\nevents {{}}\nhttp {{ access_log off;\n{kept}\n"
        f"include {folder / 'site.conf'}; }}\n",
        encoding="utf-8",
    )
    nginx = shutil.which("nginx") or "/usr/sbin/nginx"
    command = [nginx, "-c", str(whole), "-e", str(folder / "errors")]
    tested = subprocess.run([*command, "-t"], capture_output=True, text=True, check=False)
    assert tested.returncode == 0, tested.stderr
    assert "warn" not in tested.stderr
    process = subprocess.Popen(command, stderr=subprocess.DEVNULL)
    try:
        _wait_for(secure)
        yield Server(secure, plain, ssl.create_default_context(cafile=certificate))
    finally:
        process.terminate()
        process.wait()


def _owner() -> str:
    """Return who runs the tests; workers of another name could not read the site."""
    return getpass.getuser()


def _wait_for(port: int) -> None:
    end = time.monotonic() + _STARTS
    while time.monotonic() < end:
        with socket.socket() as tried:
            if tried.connect_ex(("127.0.0.1", port)) == 0:
                return
        time.sleep(0.05)
    raise AssertionError("nginx did not start")


KINDS = (
    ("/", "text/html; charset=utf-8"),
    ("/T-17/index.html", "text/html; charset=utf-8"),
    ("/T-17/cards/start-up.pdf", "application/pdf"),
    ("/assets/images/favicon.svg", "image/svg+xml"),
    ("/assets/stylesheets/guidegen.css", "text/css; charset=utf-8"),
    ("/assets/javascripts/guidegen.js", "application/javascript; charset=utf-8"),
)


@pytest.mark.parametrize(("path", "kind"), KINDS)
def test_every_kind_of_file_comes_with_every_header(server: Server, path: str, kind: str) -> None:
    status, headers, body = server.ask(path)
    assert (status, headers["Content-Type"]) == (200, kind)
    assert body
    assert {name: headers[name] for name in HEADERS} == dict(HEADERS)


def test_what_is_not_there_comes_with_every_header_too(server: Server) -> None:
    status, headers, _ = server.ask("/T-99/index.html")
    assert status == 404
    assert {name: headers[name] for name in HEADERS} == dict(HEADERS)


def test_files_for_other_hosts_are_not_given_out(server: Server) -> None:
    assert server.ask("/.htaccess")[0] == 404
    assert server.ask("/_headers")[0] == 404


def test_pages_are_packed_and_can_be_asked_for_again(server: Server) -> None:
    _, headers, body = server.ask("/T-17/round.html", packed=True)
    assert headers["Content-Encoding"] == "gzip"
    assert headers["ETag"]
    assert len(body) < len(server.ask("/T-17/round.html")[2]) / 4


def test_whoever_comes_by_http_is_led_to_https(server: Server) -> None:
    link = http.client.HTTPConnection("127.0.0.1", server.plain)
    link.request("GET", "/T-17/?r=1a2b3c4d", headers={"Host": HOST})
    answer = link.getresponse()
    answer.read()
    link.close()
    assert answer.status == 301
    assert answer.headers["Location"] == f"https://{HOST}/T-17/?r=1a2b3c4d"
