"""The list of a pack, read back.

Takes in the bytes of a list, or the files that all packs share; gives out what they are, hashed
anew. Refuses a list with a member too many: a script that reads it could be told anything.
"""

import hashlib
import json
import re
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from typing import NamedTuple

from guidegen.proof.links import resolve_address

PACK_FILE = "pack.json"
WORKER_FILE = "sw.js"
ASSETS = "assets/"
_LOADS = re.compile(rb"""<(?:link|script|img|source|iframe)\b[^>]*?\b(?:href|src)="([^"]*)""")
_LOADED = (
    *(".css", ".js", ".mjs", ".svg", ".png", ".jpg", ".jpeg", ".webp", ".gif", ".ico"),
    *(".woff", ".woff2", ".ttf", ".otf"),
)
_MEMBERS = {"format": int, "unit": str, "revision": str, "id": str, "bytes": int, "files": list}
_FORMAT = 1


class PackedRead(NamedTuple):
    """One file as a list states it, or as it is."""

    path: str
    size: int
    sha256: str


class PackRead(NamedTuple):
    """A list, as it was read."""

    unit: str
    revision: str
    id: str
    size: int
    files: tuple[PackedRead, ...]

    @property
    def paths(self) -> frozenset[str]:
        """What it lists."""
        return frozenset(file.path for file in self.files)


def read_pack(raw: bytes) -> PackRead | None:
    """Return the list in *raw*; nothing if it is no list of the one known form."""
    try:
        read = json.loads(raw.decode("utf-8"))
    except ValueError:
        return None
    if not isinstance(read, dict) or set(read) != set(_MEMBERS) or read["format"] != _FORMAT:
        return None
    if any(type(read[name]) is not kind for name, kind in _MEMBERS.items()):
        return None
    if not all(_is_file(each) for each in read["files"]):
        return None
    files = tuple(PackedRead(each["path"], each["bytes"], each["sha256"]) for each in read["files"])
    return PackRead(read["unit"], read["revision"], read["id"], read["bytes"], files)


_OF_HOSTS = ("_headers", ".htaccess")
_YARD_PAGE = re.compile(r"(yard-|no-yard\.)[^/]*html")


def file_as_it_is(path: str, raw: bytes) -> PackedRead:
    """Return what a list must state of the file at *path* that holds *raw*."""
    return PackedRead(path, len(raw), hashlib.sha256(raw).hexdigest())


def id_of(files: Iterable[PackedRead]) -> str:
    """Return the id that a list of *files* must have: a hash over lines of hash and path."""
    lines = "".join(f"{file.sha256}  {file.path}\n" for file in files)
    return hashlib.sha256(lines.encode()).hexdigest()


def of_no_truck(paths: Iterable[str], numbers: Collection[str]) -> list[str]:
    """Return those of *paths* that stand in the folder of no unit, but for list and worker.

    These two cannot state their own hash. Files for hosts need not be given out, and without
    signal the finder's table stands for the pages of yards.
    """
    return sorted(
        path
        for path in paths
        if path.partition("/")[0] not in numbers
        and path not in (PACK_FILE, WORKER_FILE, *_OF_HOSTS)
        and not _YARD_PAGE.fullmatch(path)
    )


def read_shell(
    read: Callable[[str], bytes | None], paths: Iterable[str], numbers: Collection[str]
) -> Mapping[str, PackedRead]:
    """Return the files that pages of all trucks load, by path, each hashed once."""
    shared = [
        path
        for path in of_no_truck(paths, numbers)
        if path.startswith(ASSETS) or path.endswith(_LOADED)
    ]
    return {path: file_as_it_is(path, read(path) or b"") for path in shared}


def loaded_by(page: str, raw: bytes) -> Iterator[str]:
    """Yield the paths of what a browser asks for by itself when it opens *page*."""
    for address in dict.fromkeys(_LOADS.findall(raw)):
        yield resolve_address(page, address.decode("utf-8", "replace"))[0]


def _is_file(each: object) -> bool:
    return (
        isinstance(each, dict)
        and set(each) == {"path", "bytes", "sha256"}
        and type(each["bytes"]) is int
        and isinstance(each["path"], str)
        and isinstance(each["sha256"], str)
    )
