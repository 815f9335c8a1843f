"""The server of pages that are being edited.

Takes in requests; gives out pages with their bar, and word of what has changed to the browsers
that have them open. Refuses to let a browser keep anything: a page from before an edit would be
taken for the one after it.
"""

import json
import mimetypes
import sys
from html import escape
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from threading import Condition
from typing import Any
from urllib.parse import parse_qs, unquote, urlsplit

from guidegen.serving.bar import OWN, STATE_PATH, Bar, digest_of, own_file, with_bar
from guidegen.serving.preview import Preview, Shown

_LONGEST_WAIT = 20
"""Seconds that a browser waits for news before it asks again."""

_HTML = "text/html; charset=utf-8"
_NO_PAGE = (
    '<!doctype html><html lang="en"><meta charset="utf-8"><title>{0}</title>'
    "<body><h1>{0}</h1><p>{1}</p></body></html>"
)


class Site:
    """What all requests share: the preview, and a count of what has changed."""

    def __init__(self, preview: Preview) -> None:
        """Begin with the first version."""
        self._preview = preview
        self.changed = Condition()
        """Held by whoever reads or changes the preview."""
        self.version = 0

    def tell(self) -> None:
        """Tell all browsers that something may be other than it was; hold `changed`."""
        self.version += 1
        self.changed.notify_all()

    def file(self, path: str) -> tuple[Shown | None, int]:
        """Return the file at *path*, once there is anything to show, with the version."""
        with self.changed:
            self.changed.wait_for(lambda: self._preview.is_ready, _LONGEST_WAIT)
            return self._preview.file(path), self.version

    def state(self, path: str, seen: int) -> tuple[Shown | None, int]:
        """Return the page at *path* as soon as the version is not the one *seen*."""
        with self.changed:
            self.changed.wait_for(lambda: self.version != seen, _LONGEST_WAIT)
            return self._preview.file(path), self.version


class SiteServer(ThreadingHTTPServer):
    """Serves one site."""

    daemon_threads = True

    def __init__(self, address: tuple[str, int], site: Site) -> None:
        """Listen at *address*."""
        self.site = site
        super().__init__(address, _Handler)

    def handle_error(self, request: Any, client_address: Any) -> None:  # noqa: ANN401 -- as it is called
        """Print what went wrong, but for browsers that left a page before it was sent."""
        if not isinstance(sys.exception(), ConnectionError):
            super().handle_error(request, client_address)


class _Handler(BaseHTTPRequestHandler):
    server: SiteServer
    protocol_version = "HTTP/1.1"

    def do_GET(self) -> None:
        """Answer with a file."""
        asked = urlsplit(self.path)
        path = unquote(asked.path).lstrip("/")
        if path == STATE_PATH:
            self._tell_state(parse_qs(asked.query))
            return
        own = own_file(path.removeprefix(f"{OWN}/")) if path.startswith(f"{OWN}/") else None
        if own is not None:
            self._send(HTTPStatus.OK, *own)
            return
        shown, version = self.server.site.file(path)
        if shown is None:
            self._send_words("Not here", "There is no such page in this preview.", version)
        elif not shown.raw:
            self._send_words("Held back", "This page cannot be shown yet.", version, shown.bar)
        else:
            kind = _kind_of(path)
            raw = with_bar(shown.raw, shown.bar, version) if kind == _HTML else shown.raw
            self._send(HTTPStatus.OK, kind, raw)

    def _tell_state(self, query: dict[str, list[str]]) -> None:
        path = query.get("path", [""])[0].lstrip("/")
        seen = query.get("seen", ["0"])[0]
        shown, version = self.server.site.state(unquote(path), int(seen) if seen.isdecimal() else 0)
        bar = shown.bar if shown else Bar()
        state = {
            "version": version,
            "page": digest_of(shown.raw) if shown else "",
            "kind": "held" if bar.found else "preview",
            "bar": bar.html,
        }
        self._send(HTTPStatus.OK, "application/json", json.dumps(state).encode())

    def _send_words(self, title: str, words: str, version: int, bar: Bar | None = None) -> None:
        page = _NO_PAGE.format(escape(title), escape(words)).encode()
        status = HTTPStatus.NOT_FOUND if bar is None else HTTPStatus.SERVICE_UNAVAILABLE
        if bar is not None:
            page = with_bar(page, bar, version)
        self._send(status, _HTML, page)

    def _send(self, status: HTTPStatus, kind: str, raw: bytes) -> None:
        self.send_response(status)
        self.send_header("Content-Type", kind)
        self.send_header("Content-Length", str(len(raw)))
        self.send_header("Cache-Control", "no-store")
        self.end_headers()
        self.wfile.write(raw)

    def log_message(self, format: str, *args: object) -> None:  # noqa: A002 -- ditto
        """Print nothing: the terminal is for findings."""


def _kind_of(path: str) -> str:
    if path == "" or path.endswith(("/", ".html")):
        return _HTML
    kind, _ = mimetypes.guess_type(path)
    return kind or "application/octet-stream"
