"""Disks that are cut off, full or read-only at a chosen moment, and one that waits for nothing."""

import errno
import os
from dataclasses import dataclass
from pathlib import Path

from guidegen.build.disk import Disk


class HastyDisk(Disk):
    """A disk that need not outlive a power failure."""

    def settle(self, path: Path) -> None:
        assert path.exists()

    def settle_all(self) -> None:
        """Do not wait for what other programs write."""


class Killed(BaseException):
    """The run was cut short; no handler of faults may catch it."""


@dataclass
class CutOffDisk(Disk):
    """A disk of a run that is killed at one moment: from then on nothing reaches it any more.

    Each act has a moment before it, and each write one in its midst, when half of it is written.
    """

    left: int
    """Moments until then."""

    met: int = 0

    def moment(self) -> None:
        self.met += 1
        self.left -= 1
        if self.left < 0:
            raise Killed

    def make_folder(self, path: Path) -> None:
        self.moment()
        super().make_folder(path)

    def write(self, path: Path, content: bytes) -> None:
        self.moment()
        super().write(path, content[: len(content) // 2])
        self.moment()
        super().write(path, content)

    def settle(self, path: Path) -> None:
        self.moment()
        assert path.exists()

    def settle_all(self) -> None:
        self.moment()

    def replace(self, source: Path, target: Path) -> None:
        self.moment()
        super().replace(source, target)

    def link(self, path: Path, to: str) -> None:
        self.moment()
        super().link(path, to)

    def remove(self, path: Path) -> None:
        self.moment()
        super().remove(path)

    def remove_folder(self, path: Path) -> None:
        self.moment()
        super().remove_folder(path)


@dataclass
class FullDisk(HastyDisk):
    """A disk that is full from one write on, of which it takes half."""

    left: int
    """Writes until then."""

    is_full: bool = False

    def write(self, path: Path, content: bytes) -> None:
        self.left -= 1
        if self.left < 0:
            self.is_full = True
            super().write(path, content[: len(content) // 2])
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC), str(path))
        super().write(path, content)


class ReadOnlyDisk(HastyDisk):
    """A disk on which nothing can be changed."""

    def make_folder(self, path: Path) -> None:
        if not path.is_dir():
            raise read_only(path)

    def write(self, path: Path, content: bytes) -> None:  # noqa: ARG002 -- of any content
        raise read_only(path)

    def link(self, path: Path, to: str) -> None:  # noqa: ARG002 -- to anywhere
        raise read_only(path)

    def remove(self, path: Path) -> None:
        raise read_only(path)


def read_only(path: Path) -> OSError:
    return OSError(errno.EROFS, os.strerror(errno.EROFS), str(path))
