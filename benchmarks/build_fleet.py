"""How fast a fleet's site is built and proved, beside plain MkDocs with Material in one run.

Takes in numbers of units and editions; gives out a table of pages a second, seconds and peak
memory. Refuses to compare figures of different runs.
"""

import argparse
import json
import os
import re
import shutil
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path

from fleet_maker import make_fleet

PLAIN_UNITS = 60
"""Plain MkDocs' cost grows with the square of the pages; more would only take longer."""

PLAIN_SETTINGS = """\
site_name: plain
theme: {name: material, font: false}
use_directory_urls: false
plugins: [search]
"""


@dataclass(frozen=True)
class Measured:
    """One run of one program."""

    name: str
    pages: int
    seconds: float
    peak_mb: float

    @property
    def rate(self) -> float:
        """Pages a second."""
        return self.pages / self.seconds


def main() -> None:
    """Measure, and print the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--units", type=int, default=1000)
    parser.add_argument("--editions", type=int, default=60)
    chosen = parser.parse_args()
    with tempfile.TemporaryDirectory(prefix="guidegen-bench-") as name:
        folder = Path(name)
        rows = measure(folder, chosen.units, chosen.editions)
    print_table(rows, chosen.units, chosen.editions)


def measure(folder: Path, units: int, editions: int) -> list[Measured]:
    """Run each program once, on the same pages."""
    fleet = make_fleet(folder / "fleet", units=units, editions=editions)
    built = run_guidegen(fleet)
    copied = run_copy(fleet / "site", folder / "copy")
    plain = run_plain(make_plain(fleet / "site", folder / "plain"))
    return [built, plain, copied]


def run_guidegen(fleet: Path) -> Measured:
    """Build and prove cold."""
    command = [sys.executable, "-m", "guidegen", "build", "--format", "json"]
    seconds, peak, output = timed(command, fleet)
    pages = int(json.loads(output)["pages"])
    return Measured("guidegen build, proof included, no cards", pages, seconds, peak)


def run_copy(site: Path, target: Path) -> Measured:
    """Copy the finished tree: what the file system itself takes."""
    start = time.perf_counter()
    shutil.copytree(site, target)
    seconds = time.perf_counter() - start
    return Measured("raw copy of the site", len(list(site.rglob("*.html"))), seconds, 0)


def make_plain(site: Path, folder: Path) -> Path:
    """Write the pages of the first units as Markdown for plain MkDocs."""
    for unit in sorted(path for path in site.iterdir() if path.name.startswith("X-"))[:PLAIN_UNITS]:
        for page in unit.glob("*.html"):
            target = folder / "docs" / unit.name / page.with_suffix(".md").name
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_text(as_markdown(page.read_text(encoding="utf-8")), encoding="utf-8")
    (folder / "docs" / "index.md").write_text("# Fleet\n", encoding="utf-8")
    (folder / "mkdocs.yml").write_text(PLAIN_SETTINGS, encoding="utf-8")
    return folder


def as_markdown(html: str) -> str:
    """Return the text of a page as headings and lists, about as long as the page's own text."""
    body = html[html.index("data-guide=") :]
    body = body[body.index(">") + 1 :]
    body = re.sub(r"<svg.*?</svg>", "", body, flags=re.DOTALL)
    body = re.sub(r"<h1[^>]*>", "\n\n# ", body)
    body = re.sub(r"<h2[^>]*>", "\n\n## ", body)
    body = re.sub(r"<(li|tr|dt)[^>]*>", "\n1. ", body)
    body = re.sub(r"<(p|div|section)[^>]*>", "\n\n", body)
    body = re.sub(r"<[^>]+>", " ", body)
    return "\n".join(" ".join(line.split()) for line in body.splitlines())


def run_plain(folder: Path) -> Measured:
    """Build the same pages with MkDocs and Material alone, without any proof."""
    command = [sys.executable, "-m", "mkdocs", "build", "--quiet"]
    seconds, peak, _ = timed(command, folder)
    pages = len(list((folder / "site").rglob("*.html")))
    return Measured(f"plain MkDocs with Material, {PLAIN_UNITS} units", pages, seconds, peak)


def timed(command: list[str], folder: Path) -> tuple[float, float, str]:
    """Return seconds, peak memory in MB and standard output of one command."""
    start = time.perf_counter()
    with subprocess.Popen(command, cwd=folder, stdout=subprocess.PIPE, text=True) as process:
        output = process.stdout.read() if process.stdout else ""
        _, status, usage = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
    seconds = time.perf_counter() - start
    if process.returncode:
        raise SystemExit(f"{' '.join(command)} ended with {process.returncode}\n{output}")
    return seconds, usage.ru_maxrss / 1024, output


def print_table(rows: list[Measured], units: int, editions: int) -> None:
    """Print one line a program, and the ratio that matters."""
    print(f"{units:,} units of {editions:,} editions, {os.cpu_count()} cores")
    print(f"{'':45} {'pages':>8} {'seconds':>8} {'pages/s':>9} {'peak MB':>8}")
    for row in rows:
        peak = f"{row.peak_mb:8.0f}" if row.peak_mb else " " * 8
        print(f"{row.name:45} {row.pages:8,} {row.seconds:8.2f} {row.rate:9,.0f} {peak}")
    built, plain, copied = rows
    print(f"guidegen over plain MkDocs: {built.rate / plain.rate:.1f} times the pages a second")
    print(f"guidegen over a raw copy: {built.seconds / copied.seconds:.1f} times the seconds")


if __name__ == "__main__":
    main()
