"""The pack: what a tablet keeps of one truck, or of the fleet's own pages.

Takes in files by path; gives out their list with sizes and SHA-256 hashes, and an id that is
another as soon as one byte of one file is. Refuses a file of another truck.
"""

import hashlib
import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Self

PACK_FILE = "pack.json"
"""Name of the list, in the folder of its unit or in the root of the site."""

PACK_FORMAT = 1
"""Of the list; scripts refuse one that they do not know."""

CARDS_FOLDER = "cards"
"""Folder of a unit whose files are for the printer and not for the tablet."""

ASSETS = "assets/"
"""Where the theme's styles, scripts, fonts and icons stand, and their licenses."""

_LOADED = (
    *(".css", ".js", ".mjs", ".svg", ".png", ".jpg", ".jpeg", ".webp", ".gif", ".ico"),
    *(".woff", ".woff2", ".ttf", ".otf"),
)
"""Endings of what pages load from elsewhere than the theme: a fleet may add styles of its own."""


_json = json.JSONEncoder(ensure_ascii=False).encode


class ForeignFile(ValueError):
    """A pack was to hold a file that is neither its unit's nor of the shell."""


@dataclass(frozen=True, slots=True)
class PackedFile:
    """One file of a pack."""

    path: str
    """From the root of the site."""

    size: int
    """In bytes."""

    sha256: str

    @classmethod
    def of(cls, path: str, raw: bytes) -> Self:
        """Return the entry of the file at *path* that holds *raw*."""
        return cls(path, len(raw), hashlib.sha256(raw).hexdigest())


@dataclass(frozen=True)
class Pack:
    """What is kept together, and is replaced only as a whole."""

    unit: str
    """Number of the truck; empty for the fleet's own pages."""

    revision: str
    files: tuple[PackedFile, ...]
    """In the order of their paths."""

    @classmethod
    def of(cls, unit: str, revision: str, files: Iterable[PackedFile]) -> Self:
        """Return the pack of *files*.

        Args:
            unit: Number of the truck; empty for the fleet's own pages.
            revision: Of the truck's guide; if empty, the pack goes by the first digits of its id.
            files: What belongs together.

        Raises:
            ForeignFile: If one of them is neither the unit's own nor of the shell.
        """
        in_order = tuple(sorted(files, key=lambda file: file.path))
        for file in in_order:
            if unit and not (file.path.startswith(f"{unit}/") or is_shared(file.path)):
                raise ForeignFile(f"{file.path} is no file of {unit}")
        return cls(unit, revision, in_order)

    @cached_property
    def id(self) -> str:
        """SHA-256 over the list, each line as `sha256sum` of the GNU coreutils prints it."""
        lines = "".join(f"{file.sha256}  {file.path}\n" for file in self.files)
        return hashlib.sha256(lines.encode()).hexdigest()

    def as_json(self) -> bytes:
        """Return the list as JSON, for the scripts of the site."""
        # Put together by hand: the encoder takes ten times as long where it breaks lines.
        head = (
            f'"format": {PACK_FORMAT},\n"unit": {_json(self.unit)},\n'
            f'"revision": {_json(self.revision or self.id[:8])},\n"id": "{self.id}",\n'
            f'"bytes": {sum(file.size for file in self.files)}'
        )
        files = ",\n".join(
            f'{{\n"path": {_json(file.path)},\n"bytes": {file.size},\n"sha256": "{file.sha256}"\n}}'
            for file in self.files
        )
        listed = f"[\n{files}\n]" if files else "[]"
        return f'{{\n{head},\n"files": {listed}\n}}\n'.encode()


def unit_pack(
    number: str, revision: str, files: Mapping[str, bytes], shared: Iterable[PackedFile]
) -> bytes:
    """Return the list of what a tablet keeps of a truck, as JSON.

    Args:
        number: Of the truck.
        revision: Of its guide.
        files: All files of the truck's folder, by path from the root of the site; cards, and a
            list of before, are passed over.
        shared: What pages of all trucks may load, see `is_shared`.

    Raises:
        ForeignFile: If a file is not in the truck's folder.
    """
    cards, pack = f"{number}/{CARDS_FOLDER}/", f"{number}/{PACK_FILE}"
    own = (
        PackedFile.of(path, raw)
        for path, raw in files.items()
        if path != pack and not path.startswith(cards)
    )
    return Pack.of(number, revision, (*shared, *own)).as_json()


def packed_hashes(raw: bytes) -> Mapping[str, str]:
    """Return the SHA-256 of each file that the list *raw*, of `Pack.as_json`, states, by path."""
    return {file["path"]: file["sha256"] for file in json.loads(raw)["files"]}


def is_shared(path: str) -> bool:
    """Say whether pages of all trucks may load the file at *path*, which is of no truck."""
    return path.startswith(ASSETS) or path.endswith(_LOADED)
