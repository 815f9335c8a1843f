"""What a page of the demo weighs as it is sent, and that it asks for files of the site only."""

import gzip
import threading
from collections.abc import Iterator
from functools import cache, partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from bs4.filter import SoupStrainer
from playwright.sync_api import Browser
from served_site import LOOK
from wait_in_page import patient

MOST_OF_A_PAGE = 12_000
MOST_OF_A_SHEET = 20_000
"""Bytes. A sheet tells all that differs between two trucks, and stands on one page."""

MOST_ON_FIRST_LOAD = 120_000
"""Bytes of a page with all that it asks for."""

MOST_OF_A_PHOTO = 60_000
"""Bytes. A photo comes when a driver is near it."""

POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; font-src 'self'; "
    "connect-src 'self'; manifest-src 'self'; worker-src 'self'; base-uri 'none'; "
    "form-action 'none'; frame-ancestors 'none'"
)


ASKING = SoupStrainer(["script", "link", "img"])


@cache
def sent(path: Path) -> int:
    """Bytes of a file as a web server sends it: text and drawings compressed, fonts as they are."""
    raw = path.read_bytes()
    return len(raw) if path.suffix == ".woff2" else len(gzip.compress(raw, 9))


def asked(page: Path, site: Path) -> set[Path]:
    """All files that a page asks for while it is read in, and the fonts of the stylesheet.

    Photos come when a driver is near them.
    """
    soup = BeautifulSoup(page.read_text(encoding="utf-8"), "html.parser", parse_only=ASKING)
    tags = soup.select("script[src], link[href], img[src]:not([loading=lazy])")
    found = {page.parent / str(tag.get("src") or tag.get("href")) for tag in tags}
    return {path.resolve() for path in found} | set((site / "assets/fonts").glob("*.woff2"))


def test_no_page_is_heavier_than_a_weak_signal_carries(demo: Path) -> None:
    site = demo / "site"
    pages = [page for page in site.glob("*/*.html") if page.parent.name != "office"]
    assert len(pages) > 150
    for page in pages:
        most = MOST_OF_A_SHEET if page.name.startswith("from-") else MOST_OF_A_PAGE
        assert sent(page) <= most, page.relative_to(site)
        whole = sent(page) + sum(map(sent, asked(page, site)))
        assert whole <= MOST_ON_FIRST_LOAD, page.relative_to(site)


def test_no_photo_is_heavier_than_a_weak_signal_carries(demo: Path) -> None:
    photos = list((demo / "site").glob("*/photos/*.jpg"))
    assert photos
    assert max(photo.stat().st_size for photo in photos) <= MOST_OF_A_PHOTO


class _Strict(SimpleHTTPRequestHandler):
    def log_message(self, format: str, *args: object) -> None:  # noqa: A002 -- the base's name
        """Keep the test's output clean."""

    def end_headers(self) -> None:
        """Send every file as a careful host would."""
        self.send_header("Content-Security-Policy", POLICY)
        super().end_headers()


@pytest.fixture
def address(demo: Path) -> Iterator[str]:
    handler = partial(_Strict, directory=str(demo / "site"))
    server = ThreadingHTTPServer(("127.0.0.1", 0), handler)
    thread = threading.Thread(target=server.serve_forever, args=(LOOK,))
    thread.start()
    yield f"http://127.0.0.1:{server.server_port}/"
    server.shutdown()
    server.server_close()
    thread.join()


def test_the_demo_needs_no_exception_from_a_strict_content_policy(
    browser: Browser, demo: Path, address: str
) -> None:
    faults: list[str] = []
    page = patient(browser.new_page())
    page.on(
        "request",
        lambda request: None if request.url.startswith(address) else faults.append(request.url),
    )
    page.on("console", lambda message: faults.append(message.text))
    page.on("pageerror", lambda error: faults.append(str(error)))
    site = demo / "site"
    paths = [*(site / "T-17").glob("*.html"), *(site / "E-02").glob("*.html")]
    paths += [*site.glob("*.html"), *sorted((site / "office").glob("*.html"))]
    for path in paths:
        name = path.relative_to(site).as_posix()
        page.goto(f"{address}{name}", wait_until="load")
        assert faults == [], name
    page.close()
