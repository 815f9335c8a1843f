"""A site on 127.0.0.1, which browsers take for a secure context, that can fail in many ways."""

import shutil
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from http.server import BaseHTTPRequestHandler, SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any

from served_site import LOOK


class PackServer:
    """Serves a folder that may be exchanged, on one port for its whole life."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.flipped: set[str] = set()
        """Paths of files of which one byte is sent otherwise than it is."""

        self.cut: set[str] = set()
        """Paths of files of which the second half never comes."""

        self.held: set[str] = set()
        """Paths of files that do not come before `release`."""

        self.asked: list[str] = []
        self._released = threading.Event()
        self._server: ThreadingHTTPServer | None = None
        self._thread: threading.Thread | None = None
        self._port = 0
        self.start()

    @property
    def address(self) -> str:
        return f"http://127.0.0.1:{self._port}/"

    def start(self) -> None:
        self._server = ThreadingHTTPServer(("127.0.0.1", self._port), self._handler())
        self._port = self._server.server_port
        self._thread = threading.Thread(
            target=self._server.serve_forever, args=(LOOK,), daemon=True
        )
        self._thread.start()

    def release(self) -> None:
        self._released.set()

    def exchange(self, folder: Path) -> None:
        """The office publishes another issue."""
        shutil.rmtree(self.folder)
        shutil.copytree(folder, self.folder)

    def stop(self) -> None:
        """No signal."""
        self.release()
        if self._server is not None and self._thread is not None:
            self._server.shutdown()
            self._server.server_close()
            self._thread.join()
            self._server = None

    def _handler(self) -> type[BaseHTTPRequestHandler]:
        outer = self

        class Handler(SimpleHTTPRequestHandler):
            def __init__(self, *args: Any, **options: Any) -> None:  # noqa: ANN401 -- the base's
                super().__init__(*args, directory=str(outer.folder), **options)

            def log_message(self, format: str, *args: object) -> None:  # noqa: A002 -- the base's name
                """Keep the test's output clean."""

            def do_GET(self) -> None:
                path = self.path.partition("?")[0].lstrip("/")
                outer.asked.append(path)
                if path in outer.held:
                    outer._released.wait(60)
                if path not in outer.flipped | outer.cut:
                    super().do_GET()
                    return
                raw = bytearray((outer.folder / path).read_bytes())
                if path in outer.flipped:
                    raw[len(raw) // 2] ^= 1
                self.send_response(200)
                self.send_header("Content-Type", self.guess_type(path))
                self.send_header("Content-Length", str(len(raw)))
                self.end_headers()
                self.wfile.write(raw[: len(raw) // 2] if path in outer.cut else raw)

        return Handler


@contextmanager
def serving(folder: Path, own: Path) -> Iterator[PackServer]:
    """Serve a copy of the site in *folder*, laid into *own*, so that it can be changed."""
    server = PackServer(Path(shutil.copytree(folder, own / "site")))
    try:
        yield server
    finally:
        server.stop()
