"""The demo fleet's site behind a web server of its own, for tests in a browser."""

import threading
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

LOOK = 0.02
"""Seconds between two looks whether a server is to end; half a second, unless it is told."""


class _Quiet(SimpleHTTPRequestHandler):
    def log_message(self, format: str, *args: object) -> None:  # noqa: A002 -- the base's name
        """Keep the test's output clean."""


@contextmanager
def served(site: Path) -> Iterator[str]:
    """Serve *site*; yield its address with a slash at the end."""
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(_Quiet, directory=str(site)))
    thread = threading.Thread(target=server.serve_forever, args=(LOOK,))
    thread.start()
    try:
        yield f"http://127.0.0.1:{server.server_port}/"
    finally:
        server.shutdown()
        server.server_close()
        thread.join()
