"""What the pages of a truck cost a cheap tablet, measured by Lighthouse.

Takes in a site; gives out a table of first paint, layout shift, time blocked and weight, with the
processor slowed four times: once with the network as it is (a saved truck), once on slow 4G.
Refuses to measure without packing: every host packs what it sends, and so does the server here.
"""

import argparse
import gzip
import io
import json
import os
import platform
import shutil
import subprocess
import tempfile
import threading
import time
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from email.message import Message
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any, BinaryIO

from guidegen.site.host_files import HEADERS

LIGHTHOUSE = "lighthouse@12.2.3"
SLOWDOWN = 4
PAGES = (
    *(
        "index.html",
        "T-17/index.html",
        "T-17/before-the-day.html",
        "T-17/when-something-is-wrong.html",
    ),
    *("T-17/warning-lamps.html", "T-17/lamp-finder.html", "T-17/round.html", "T-17/search.html"),
    *("T-17/data.html", "T-17/quiz.html", "T-17/differences.html", "T-17/from-E-02.html"),
)
_PACKED = (".html", ".css", ".js", ".json", ".svg", ".webmanifest")
_UNSLOWED_NETWORK = ("--throttling.requestLatencyMs=0", "--throttling.downloadThroughputKbps=0")
_CHROME = "--headless=new --no-sandbox --disable-gpu"


@dataclass(frozen=True, slots=True)
class Cost:
    """What one page cost."""

    page: str
    paint: float
    """First contentful paint in milliseconds, processor slowed, network as it is."""

    paint_slow: float
    """The same on simulated slow 4G."""

    shift: float
    """Cumulative layout shift."""

    blocked: float
    """Total blocking time in milliseconds."""

    page_bytes: int
    """Of the HTML as sent."""

    all_bytes: int
    """Of all that was sent at first load."""

    accessibility: float
    """Lighthouse's score, 0 to 1."""


class _PackingServer(SimpleHTTPRequestHandler):
    """Sends files packed and with the headers that hosts are told to send."""

    def log_message(self, format: str, *args: object) -> None:  # noqa: A002 -- the base's name
        """Keep the table clean."""

    def end_headers(self) -> None:
        for name, value in HEADERS.items():
            self.send_header(name, value)
        super().end_headers()

    def send_head(self) -> io.BytesIO | BinaryIO | None:
        path = Path(self.translate_path(self.path))
        path = path / "index.html" if path.is_dir() else path
        if path.suffix not in _PACKED or not path.is_file():
            return super().send_head()
        packed = gzip.compress(path.read_bytes(), mtime=0)
        self.send_response(200)
        self.send_header("Content-Type", self.guess_type(path))
        self.send_header("Content-Encoding", "gzip")
        self.send_header("Content-Length", str(len(packed)))
        self.end_headers()
        return io.BytesIO(packed)

    headers: Message


def main() -> None:
    """Measure each page and print the table; keep it if asked."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--site", type=Path, default=Path("site"))
    parser.add_argument("--keep", type=Path, help="write the table into this file, as Markdown")
    chosen = parser.parse_args()
    pages = [page for page in PAGES if (chosen.site / page).is_file()]
    if len(pages) < len(PAGES):
        print("not in the site:", ", ".join(sorted(set(PAGES) - set(pages))))
    with served(chosen.site) as address:
        costs = [cost_of(address, page) for page in pages]
    table = "\n".join(as_table(costs))
    print(table)
    if chosen.keep:
        chosen.keep.write_text(f"{heading()}\n\n{table}\n", encoding="utf-8", newline="\n")


@contextmanager
def served(site: Path) -> Iterator[str]:
    """Serve *site* on this machine; yield its address."""
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(_PackingServer, directory=str(site)))
    thread = threading.Thread(target=server.serve_forever)
    thread.start()
    try:
        yield f"http://127.0.0.1:{server.server_port}/"
    finally:
        server.shutdown()
        server.server_close()
        thread.join()


def cost_of(address: str, page: str) -> Cost:
    """Return what *page* costs, from two runs of Lighthouse."""
    near = report(f"{address}{page}", "--throttling-method=devtools", *_UNSLOWED_NETWORK)
    far = report(f"{address}{page}", "--throttling-method=simulate")
    sent = near["network-requests"]["details"]["items"]
    own = next(item for item in sent if item["url"] == f"{address}{page}")
    return Cost(
        page=page,
        paint=number(near, "first-contentful-paint"),
        paint_slow=number(far, "first-contentful-paint"),
        shift=number(near, "cumulative-layout-shift"),
        blocked=number(near, "total-blocking-time"),
        page_bytes=int(own["transferSize"]),
        all_bytes=int(number(near, "total-byte-weight")),
        accessibility=float(near["accessibility"]),
    )


def report(address: str, *options: str) -> Mapping[str, Any]:
    """Return Lighthouse's audits of the page at *address*."""
    npx = shutil.which("npx")
    if npx is None:
        raise SystemExit("Lighthouse needs Node.js: install it, with npx")
    with tempfile.TemporaryDirectory(prefix="guidegen-lighthouse-") as folder:
        out = Path(folder) / "report.json"
        command = [npx, "--yes", LIGHTHOUSE, address, "--quiet", "--output=json"]
        command += [f"--output-path={out}", f"--chrome-flags={_CHROME}"]
        command += [f"--throttling.cpuSlowdownMultiplier={SLOWDOWN}", *options]
        command += ["--only-categories=performance,accessibility"]
        browser = os.environ.get("GUIDEGEN_BROWSER") or shutil.which("chromium")
        subprocess.run(command, check=True, env={**os.environ, "CHROME_PATH": browser or ""})
        found = json.loads(out.read_text(encoding="utf-8"))
    score = found["categories"]["accessibility"]["score"]
    audits: dict[str, Any] = found["audits"]
    return {**audits, "accessibility": score}


def number(audits: Mapping[str, Any], name: str) -> float:
    """Return the figure of one audit."""
    return float(audits[name]["numericValue"])


def heading() -> str:
    """Return when and on what the table was made."""
    day = time.strftime("%Y-%m-%d", time.gmtime())
    machine = f"{os.cpu_count()} cores, {platform.system()} {platform.machine()}"
    return (
        "# What a page costs a cheap tablet\n\n"
        f"Measured {day} by `benchmarks/tablet_pages.py` ({LIGHTHOUSE}, processor slowed "
        f"{SLOWDOWN} times, {machine}).\n"
        "Bytes are as sent, packed with gzip."
    )


def as_table(costs: Sequence[Cost]) -> Iterator[str]:
    """Yield the lines of the table, as Markdown."""
    yield (
        "| page | first paint, ms | on slow 4G, ms | layout shift | blocked, ms "
        "| HTML, kB | all, kB | accessibility |"
    )
    yield "|---|--:|--:|--:|--:|--:|--:|--:|"
    for cost in costs:
        yield (
            f"| {cost.page} | {cost.paint:.0f} | {cost.paint_slow:.0f} | {cost.shift:.3f} "
            f"| {cost.blocked:.0f} | {cost.page_bytes / 1000:.1f} | {cost.all_bytes / 1000:.0f} "
            f"| {cost.accessibility * 100:.0f} |"
        )


if __name__ == "__main__":
    main()
