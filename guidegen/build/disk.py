"""The few things that publishing and releasing do to a disk.

Takes in paths and bytes; gives out changed files and folders, each by one call of the system.
Refuses to do two things in one act: what cuts a run short does so between two of these, or in the
midst of a write.
"""

import os
import sys
import time
from pathlib import Path

_PATIENCE = 20
"""Tries at a file that somebody on a Windows share has open at the moment."""

_PAUSE = 0.25
"""Seconds between them: a page is read in much less."""


class Disk:
    """The disk as it is; tests give one that fails."""

    def make_folder(self, path: Path) -> None:
        """Make a folder and those above it, if they are not there."""
        path.mkdir(parents=True, exist_ok=True)

    def write(self, path: Path, content: bytes) -> None:
        """Write a file; cut short, half of it stands there."""
        path.write_bytes(content)

    def settle(self, path: Path) -> None:
        """Return when the file or folder at *path* is on the disk and not only on its way."""
        if sys.platform == "win32" and path.is_dir():
            return
        flags = os.O_RDWR if sys.platform == "win32" else os.O_RDONLY
        handle = os.open(path, flags)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)

    def settle_all(self) -> None:
        """Return when all that was written is on the disk, where the system can say so."""
        if sys.platform != "win32":
            os.sync()

    def replace(self, source: Path, target: Path) -> None:
        """Put *source* in the place of *target*, in one move."""
        for _ in range(_PATIENCE - 1 if sys.platform == "win32" else 0):
            try:
                source.replace(target)
            except PermissionError:
                time.sleep(_PAUSE)
            else:
                return
        source.replace(target)

    def link(self, path: Path, to: str) -> None:
        """Make a symbolic link at *path* that leads *to* a folder."""
        path.symlink_to(to, target_is_directory=True)

    def remove(self, path: Path) -> None:
        """Remove a file or a link."""
        path.unlink()

    def remove_folder(self, path: Path) -> None:
        """Remove an empty folder."""
        path.rmdir()

    def put(self, path: Path, content: bytes) -> None:
        """Write *content* beside *path*, see it on the disk, and only then put it in place."""
        staged = staged_name(path)
        self.write(staged, content)
        self.settle(staged)
        self.replace(staged, path)
        self.settle(path.parent)


DISK = Disk()


def staged_name(path: Path) -> Path:
    """Return the path beside *path* at which its successor is written."""
    return path.with_name(f".{path.name}.new")
