"""The list of a site's files, each with the SHA-256 of its bytes.

Takes in the folder of a site that was just proved; gives out the list that is kept in it, and
later what is other than in the list. Refuses a list that does not read as it was written.

Its lines are those of `sha256sum` of the GNU coreutils, so that anyone can check a copy of a site
without guidegen: ``sha256sum --check office/files.sha256`` in its root.
"""

import hashlib
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path, PurePosixPath
from types import MappingProxyType

MANIFEST = "office/files.sha256"
PROOF = "office/proof.json"

_NO_HASHES: Mapping[str, str] = MappingProxyType({})
_LINE = re.compile(r"([0-9a-f]{64})  ([^\n\\\0]+)\n")


class NoManifest(ValueError):
    """The bytes are no list of files."""


@dataclass(frozen=True, slots=True)
class Manifest:
    """What a site is made of."""

    hashes: Mapping[str, str]
    """SHA-256 by path from the root; the list itself is not among them."""

    @property
    def raw(self) -> bytes:
        """The bytes of the list."""
        return list_of(self.hashes)

    @property
    def digest(self) -> str:
        """SHA-256 of the list: sites with the same one are equal to the byte."""
        return hashlib.sha256(self.raw).hexdigest()

    @property
    def units(self) -> tuple[str, ...]:
        """Numbers of the trucks that have a folder in the site."""
        paths = map(PurePosixPath, self.hashes)
        return tuple(p.parts[0] for p in paths if len(p.parts) == 2 and p.name == "pack.json")  # noqa: PLR2004 -- a folder and a file


def list_of(hashes: Mapping[str, str]) -> bytes:
    """Return *hashes* as lines in the order of their paths.

    Raises:
        NoManifest: If a path holds a character that the list cannot.
    """
    raw = "".join(f"{hashes[path]}  {path}\n" for path in sorted(hashes))
    if raw and "".join(match[0] for match in _LINE.finditer(raw)) != raw:
        raise NoManifest("a file's name holds a backslash or a line break")
    return raw.encode()


def read_list(raw: bytes) -> Mapping[str, str]:
    """Return SHA-256 by path from the bytes of a list.

    Raises:
        NoManifest: If any line is another than `list_of` writes, or a path leads out of the site.
    """
    try:
        text = raw.decode()
    except UnicodeDecodeError as error:
        raise NoManifest("the list is no text") from error
    hashes = {match[2]: match[1] for match in _LINE.finditer(text)}
    if not hashes or list_of(hashes) != raw or not all(map(_is_below, hashes)):
        raise NoManifest("the list does not read as it was written")
    return hashes


PackedLines = Mapping[str, bytes]
"""Lines of a list: of one file by its path, or of all files of a folder by its path and a slash."""


def lines_of(files: Mapping[str, bytes], known: Mapping[str, str] = _NO_HASHES) -> PackedLines:
    """Return the line of each of *files*, by path.

    Args:
        files: Their bytes by path.
        known: The hashes of those of them that were found to be theirs, by path.

    Raises:
        NoManifest: If a path holds a character that the list cannot.
    """
    return {
        path: list_of({path: known.get(path) or hashlib.sha256(raw).hexdigest()})
        for path, raw in files.items()
    }


def lines_below(site: Path, folder: str) -> PackedLines:
    """Return the line of each file below *folder* in *site*, but of the list itself."""
    paths = (f"{folder}/{name}" for name in files_in(site / folder))
    return lines_of({path: (site / path).read_bytes() for path in paths if path != MANIFEST})


def joined_lines(lines: PackedLines) -> bytes:
    """Return all *lines* as one list, in the order of their paths."""
    return b"".join(lines[path] for path in sorted(lines))


def open_manifest(site: Path) -> Manifest | None:
    """Return the list that *site* holds; nothing if it holds none that reads as written."""
    path = site / MANIFEST
    if not path.is_file():
        return None
    try:
        return Manifest(read_list(path.read_bytes()))
    except NoManifest:
        return None


def faults_in(site: Path, manifest: Manifest) -> Iterator[str]:
    """Yield what is other in *site* than in its list, a clause a file, in the order of paths."""
    found = {name for name in files_in(site) if name != MANIFEST}
    for name in sorted(found | set(manifest.hashes)):
        if name not in found:
            yield f"`{name}` is gone"
        elif name not in manifest.hashes:
            yield f"`{name}` came in"
        elif digest_of_file(site / name) != manifest.hashes[name]:
            yield f"`{name}` was changed"


def digest_of_file(path: Path) -> str:
    """Return the SHA-256 of the file at *path*, in hexadecimal."""
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def files_in(folder: Path) -> Iterator[str]:
    """Yield the path of each file below *folder*, from it."""
    for path in folder.rglob("*"):
        if path.is_file() or path.is_symlink():
            yield path.relative_to(folder).as_posix()


def _is_below(name: str) -> bool:
    path = PurePosixPath(name)
    return not path.is_absolute() and ".." not in path.parts and path.as_posix() == name
