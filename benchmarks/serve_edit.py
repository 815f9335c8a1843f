"""How soon `guidegen serve` shows what was saved.

Takes in numbers of units and editions of the fleets to serve; gives out a table of seconds from
saving a file until the open page is new, and of the processor time that it took. Refuses to count
a page that still says what it said before.
"""

import argparse
import os
import platform
import shutil
import socket
import subprocess
import sys
import tempfile
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from statistics import median

from fleet_maker import make_fleet

ROOT = Path(__file__).resolve().parents[1]
REPORT = ROOT / "docs" / "benchmarks" / "serve.md"
PATIENCE = 1800
"""Seconds; a fleet of 10,000 is read for some of them before its first page."""
PROCEDURE, PAGE = "after-a-crash", "when-something-is-wrong.html"
"""One that all trucks have, and where it stands."""

COUNTS = ("first", "second", "third", "fourth", "fifth")
"""What tells an edit from the one before, in words: a text of a procedure may hold no digit."""

_TICKS = os.sysconf("SC_CLK_TCK") if hasattr(os, "sysconf") else 100


@dataclass(frozen=True, slots=True)
class Edit:
    """What is saved, and where it is seen."""

    name: str
    file: Path
    old: str
    new: str
    """With ``{}`` for the count of the edit."""

    page: str
    shown: str
    """Likewise."""


@dataclass(frozen=True, slots=True)
class Row:
    """What came of one kind of edit."""

    fleet: str
    edit: str
    first: float
    """Seconds until the first page."""

    seconds: list[float]
    cpu: list[float]
    """Of the server alone, in seconds; none where the system does not tell."""


@contextmanager
def serving(folder: Path) -> Iterator[tuple[subprocess.Popen[bytes], str]]:
    """Serve the project in *folder*; yield process and address."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        address = f"127.0.0.1:{probe.getsockname()[1]}"
    process = subprocess.Popen(
        [sys.executable, "-m", "guidegen", "serve", "--address", address],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    try:
        yield process, f"http://{address}"
    finally:
        process.terminate()
        process.wait(timeout=60)


def seconds_until(address: str, words: str) -> float:
    """Return the seconds until the page at *address* holds *words*."""
    began = time.monotonic()
    while time.monotonic() - began < PATIENCE:
        try:
            with urllib.request.urlopen(address, timeout=60) as answer:  # noqa: S310 -- own server
                if words in answer.read().decode().replace("\u00a0", " "):
                    return time.monotonic() - began
        except (urllib.error.URLError, TimeoutError, ConnectionError):
            pass
        time.sleep(0.02)
    raise TimeoutError(f"{address} never held {words!r}")


def cpu_of(process: subprocess.Popen[bytes]) -> float:
    """Return the seconds of processor time of *process* itself, where the system tells."""
    stat = Path(f"/proc/{process.pid}/stat")
    if not stat.is_file():
        return float("nan")
    fields = stat.read_text(encoding="ascii").rpartition(")")[2].split()
    return (int(fields[11]) + int(fields[12])) / _TICKS


def measure(fleet: str, folder: Path, edits: list[Edit]) -> Iterator[Row]:
    """Yield what came of each of *edits*, made some times in *folder*."""
    with serving(folder) as (process, address):
        first = seconds_until(f"{address}/{edits[0].page}", "</html>")
        print(f"{fleet}: first page after {first:.1f} s", flush=True)
        for edit in edits:
            text = edit.file.read_text(encoding="utf-8")
            if edit.old not in text:
                raise LookupError(f"{edit.file} does not hold {edit.old!r}")
            row = Row(fleet, edit.name, first, [], [])
            seconds_until(f"{address}/{edit.page}", "</html>")
            for digit, word in enumerate(COUNTS, start=1):
                count = digit if edit.name == "spec" else word
                before = cpu_of(process)
                new = text.replace(edit.old, edit.new.format(count), 1)
                edit.file.write_text(new, encoding="utf-8")
                shown = edit.shown.format(count)
                row.seconds.append(seconds_until(f"{address}/{edit.page}", shown))
                row.cpu.append(cpu_of(process) - before)
            yield row


def edits_of(folder: Path, unit: str) -> list[Edit]:
    """Return an edit of the spec of *unit* and one of a procedure that every truck has."""
    spec = folder / "specs" / "units" / f"{unit}.yml"
    procedure = folder / "site_templates" / "procedures" / f"{PROCEDURE}.yml"
    title = next(
        line for line in procedure.read_text(encoding="utf-8").splitlines() if "title:" in line
    )
    words = title.removeprefix("title: ")
    page = f"{unit}/{PAGE}"
    return [
        Edit("spec", spec, "read 2026-03-02", "read 2026-03-1{}", f"{unit}/data.html", "03-1{}"),
        Edit("procedure", procedure, title, f"{title}, {{}}", page, f"{words}, {{}}"),
    ]


def main() -> None:
    """Measure, and print a table."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--units", type=int, default=10_000, help="of the made fleet; 0 for none")
    parser.add_argument("--editions", type=int, default=600)
    asked = parser.parse_args()
    rows: list[Row] = []
    with tempfile.TemporaryDirectory(prefix="guidegen-bench-") as made:
        demo, fleet = Path(made) / "demo", Path(made) / "fleet"
        for name in ("specs", "site_templates"):
            shutil.copytree(ROOT / name, demo / name)
        shutil.copy(ROOT / "mkdocs.yml", demo)
        rows += measure("demo, 8 units", demo, edits_of(demo, "T-17"))
        if asked.units:
            make_fleet(fleet, units=asked.units, editions=asked.editions)
            shutil.copytree(ROOT / "site_templates", fleet / "site_templates")
            unit = min(path.stem for path in (fleet / "specs" / "units").iterdir())
            rows += measure(f"{asked.units:,} units", fleet, edits_of(fleet, unit))
    REPORT.write_text(report(rows), encoding="utf-8")
    print(REPORT.read_text(encoding="utf-8"))


def report(rows: list[Row]) -> str:
    """Return the table as Markdown."""
    machine = f"{os.cpu_count()} cores, {platform.system()} {platform.machine()}"
    lines = [
        "# How soon a saved file is seen",
        "",
        f"Measured {time.strftime('%Y-%m-%d')} by `benchmarks/serve_edit.py` ({machine}).",
        f"{len(COUNTS)} edits each, one after another.",
        "Seconds go from saving the file until `guidegen serve` gives out the page with it.",
        "The page is then drawn and proved; the first page waits until the whole fleet is read.",
        "Processor seconds are the server's own in that time.",
        "The run over the whole fleet begins afterwards, in a process of its own.",
        "",
        "| fleet | saved | seconds, median | most | processor seconds | first page |",
        "|---|---|--:|--:|--:|--:|",
    ]
    for row in rows:
        numbers = (median(row.seconds), max(row.seconds), median(row.cpu))
        shown = " | ".join(f"{number:.2f}" for number in numbers)
        lines.append(f"| {row.fleet} | {row.edit} | {shown} | {row.first:.0f} |")
    return "\n".join((*lines, ""))


if __name__ == "__main__":
    main()
