"""A disk that stops or fails at the call that a test asks for."""

import errno
from pathlib import Path

from guidegen.build.spec_disk import Disk


class Killed(BaseException):
    """The process is gone: nothing after this runs, not even what clears up."""


class FaultyDisk(Disk):
    """Does the first calls, then is gone for good, or refuses one kind of call."""

    def __init__(self, calls: int, *, fault: int | None = None) -> None:
        """Fail at call number *calls*, counted from 0: with errno *fault*, or like a kill."""
        self.left = calls
        self.fault = fault
        self.done = 0

    def _count(self) -> None:
        self.done += 1
        if self.left > 0:
            self.left -= 1
            return
        if self.fault is None:
            raise Killed
        self.left = 10**9
        raise OSError(self.fault, errno.errorcode[self.fault])

    def make_folder(self, path: Path) -> None:
        self._count()
        super().make_folder(path)

    def write(self, path: Path, content: bytes) -> None:
        """Write in three calls, so that a stop can leave half a file."""
        self._count()
        path.write_bytes(b"")
        self._count()
        path.write_bytes(content[: len(content) // 2])
        self._count()
        path.write_bytes(content)

    def replace(self, source: Path, target: Path) -> None:
        self._count()
        super().replace(source, target)

    def delete(self, path: Path) -> None:
        self._count()
        super().delete(path)

    def delete_folder(self, path: Path) -> None:
        self._count()
        super().delete_folder(path)

    def settle(self, folder: Path) -> None:
        self._count()
        super().settle(folder)
