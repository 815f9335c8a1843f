"""Small sites as a build leaves them, and what a reader finds where they were published."""

import json
import re
import shutil
from collections.abc import Mapping
from pathlib import Path

from failing_disk import HastyDisk

from guidegen.build.disk import Disk
from guidegen.build.manifest import MANIFEST, digest_of_file, files_in, list_of
from guidegen.build.publish import Moment, ProvedSite, Publishing, Switched, open_proved_site
from guidegen.build.targets import open_target
from guidegen.finding import Findings

HASTY = HastyDisk()
NOON = Moment("2026-11-30 12:00", "2026-11-30")


def built(folder: Path, word: str, *, proved: bool = True) -> Path:
    """Write a site of one truck every page of which says *word*."""
    shutil.rmtree(folder, ignore_errors=True)
    files = {
        "index.html": word,
        ".htaccess": "Header set X-Content-Type-Options nosniff",
        "assets/stylesheets/guidegen.css": f"/* {word} */",
        f"assets/of-{word}.svg": "<svg/>",
        "T-17/index.html": word * 50,
        "T-17/air-brakes.html": word * 90,
        "T-17/cards/lamps.pdf": f"%PDF {word}",
        "T-17/pack.json": json.dumps({"revision": word}),
        "office/proof.json": json.dumps(
            {"proved": proved, "units": [{"unit": "T-17", "edition": word}]}
        ),
    }
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    hashes = {name: digest_of_file(folder / name) for name in files_in(folder) if name != MANIFEST}
    (folder / MANIFEST).write_bytes(list_of(hashes))
    return folder


def opened(folder: Path) -> ProvedSite:
    findings = Findings()
    site = open_proved_site(folder, findings)
    assert site is not None, list(findings)
    return site


def publish(  # noqa: PLR0913 -- one parameter for each thing that a run depends on
    site: Path,
    target: Path,
    disk: Disk = HASTY,
    *,
    findings: Findings | None = None,
    keep: int = 3,
    pointer: bool = False,
    moment: Moment = NOON,
) -> Switched | None:
    place = open_target(target, disk, is_pointer=pointer)
    own = Findings() if findings is None else findings
    return Publishing(place, own, disk).publish(opened(site), moment, keep)


def roll_back(
    target: Path, disk: Disk = HASTY, findings: Findings | None = None
) -> Switched | None:
    own = Findings() if findings is None else findings
    return Publishing(open_target(target, disk), own, disk).roll_back(NOON.time)


def contents(folder: Path) -> Mapping[str, bytes]:
    """Return the bytes of every file, but of the list of them, by path."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file() and path.relative_to(folder).as_posix() != MANIFEST
    }


def as_read(target: Path, *, pointer: bool = False) -> Mapping[str, bytes]:
    """Return what a reader who opens *target* finds: through its start page if it has a pointer."""
    if not pointer:
        return contents(target.resolve(strict=True))
    page = (target / "index.html").read_text(encoding="utf-8")
    found = re.search(r'<a href="(versions/[^"]+)/index\.html">', page)
    assert found is not None
    return contents(target / found[1])


def versions_in(target: Path, *, pointer: bool = False) -> set[str]:
    """Return the names of all that stands among the versions."""
    place = open_target(target, is_pointer=pointer)
    return {path.name for path in place.versions.iterdir()}
