"""Which files have been saved.

Takes in files and folders; gives out whether anything below them has changed since it was last
asked. Refuses to rely on messages of the file system: on network shares, where offices keep their
files, there are none.
"""

import os
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path

State = Mapping[str, tuple[int, int]]
"""Time of the last change in nanoseconds and size, by path."""


@dataclass(slots=True)
class Watch:
    """Files and folders that are looked at again and again."""

    paths: tuple[Path, ...]
    _seen: State = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Look for the first time."""
        self._seen = dict(_states(map(str, self.paths)))

    def has_changed(self) -> bool:
        """Whether anything was saved, added or deleted since the last call."""
        now = dict(_states(map(str, self.paths)))
        changed = now != self._seen
        self._seen = now
        return changed


def _states(paths: Iterable[str]) -> Iterator[tuple[str, tuple[int, int]]]:
    for path in paths:
        try:
            found = os.stat(path)  # noqa: PTH116 -- a path object takes three times as long
            if os.path.isdir(path):  # noqa: PTH112 -- ditto
                yield from _in_folder(path)
            else:
                yield path, (found.st_mtime_ns, found.st_size)
        except OSError:
            continue


def _in_folder(folder: str) -> Iterator[tuple[str, tuple[int, int]]]:
    folders: list[str] = []
    with os.scandir(folder) as entries:
        for entry in entries:
            if entry.name.startswith("."):
                continue  # editors keep files of their own beside the one that is edited
            if entry.is_dir():
                folders.append(entry.path)
                continue
            try:
                found = entry.stat()
            except OSError:
                continue  # it was there for a moment only
            yield entry.path, (found.st_mtime_ns, found.st_size)
    yield from _states(folders)
