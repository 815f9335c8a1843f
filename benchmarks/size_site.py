"""How much room a fleet's site takes, for each unit and for all, and carried forward.

Takes in a built site; gives out bytes, files, inodes and archive sizes, as a table.
Refuses a site without a unit.
"""

import argparse
import time
import zipfile
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

PACK_FILE = "pack.json"
AHEAD = (1_000, 100_000, 1_000_000)


@dataclass(frozen=True, slots=True)
class Room:
    """What a set of files takes."""

    files: int
    folders: int
    size: int
    """Bytes of all files."""

    disk: int
    """Bytes that the file system gave them; whole blocks."""

    zipped: int
    """Bytes of one zip archive of them, deflated."""

    zip_seconds: float
    """Processor time to make it."""

    @property
    def inodes(self) -> int:
        """One for each file and folder."""
        return self.files + self.folders


def main() -> None:
    """Measure a site, and print what each unit takes, what all share, and larger fleets."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("site", type=Path, nargs="?", default=Path("site"))
    site = parser.parse_args().site
    units = sorted(path.parent for path in site.glob(f"*/{PACK_FILE}"))
    if not units:
        raise SystemExit(f"{site} holds no unit: build it first")
    own = room_of(units)
    shared = room_of(path for path in site.iterdir() if path not in units)
    print_table(len(units), own, shared)


def room_of(tops: Iterable[Path]) -> Room:
    """Return what the files and folders at and below *tops* take."""
    found = [path for top in tops for path in (top, *top.rglob("*"))]
    files = [path for path in found if path.is_file()]
    told = [path.stat() for path in files]
    zipped, seconds = _zip(files)
    return Room(
        len(files),
        len(found) - len(files),
        sum(each.st_size for each in told),
        # st_blocks counts 512 bytes, whatever the file system's block. Source: stat(2).
        sum(each.st_blocks for each in told) * 512,
        zipped,
        seconds,
    )


def _zip(files: Iterable[Path]) -> tuple[int, float]:
    with TemporaryDirectory() as name:
        archive = Path(name) / "all.zip"
        start = time.process_time()
        with zipfile.ZipFile(archive, "w", zipfile.ZIP_DEFLATED) as opened:
            for path in files:
                opened.write(path)
        return archive.stat().st_size, time.process_time() - start


def print_table(units: int, own: Room, shared: Room) -> None:
    """Print one column for a unit, one for what is shared, and one for each larger fleet."""
    rows = {
        "files": (own.files, shared.files, 1),
        "inodes": (own.inodes, shared.inodes, 1),
        "MB of files": (own.size, shared.size, 10**6),
        "MB on this disk": (own.disk, shared.disk, 10**6),
        "MB as zip archives": (own.zipped, shared.zipped, 10**6),
        "CPU seconds to zip": (own.zip_seconds, shared.zip_seconds, 1),
    }
    heads = [f"{count:,} units" for count in AHEAD]
    print(f"| {units} units measured | a unit | shared | {' | '.join(heads)} |")
    print(f"|---|{'--:|' * (2 + len(AHEAD))}")
    for name, (of_units, of_all, scale) in rows.items():
        one, fixed = of_units / units / scale, of_all / scale
        ahead = (f"{one * count + fixed:,.0f}" for count in AHEAD)
        print(f"| {name} | {one:,.2f} | {fixed:,.2f} | {' | '.join(ahead)} |")


if __name__ == "__main__":
    main()
