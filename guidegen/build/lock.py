"""One run at a time, on one machine and across a share.

Takes in the path of a lock file; gives out the time in which no other run holds it.
Refuses to guess about another machine: a lock that was left there is named, with what to remove.
Where the system locks files, a lock whose run was killed on this machine is taken over.
"""

import json
import os
import socket
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import asdict, dataclass
from pathlib import Path

from guidegen.build.disk import DISK, Disk

if sys.platform != "win32":
    import fcntl

_TRIES = 5
"""A lock that is given up between two looks is tried for again."""


@dataclass(frozen=True, slots=True)
class Holder:
    """Who holds a lock."""

    host: str
    process: int
    since: str
    """As ``2026-11-30 07:15``, by the clock of that machine."""

    @classmethod
    def here(cls, since: str) -> "Holder":
        """Return this run as a holder."""
        return cls(socket.gethostname(), os.getpid(), since)

    def __str__(self) -> str:
        return f"process {self.process} on {self.host}, since {self.since}"


class Locked(RuntimeError):
    """Another run holds the lock, or was killed while it did."""

    def __init__(self, path: Path, holder: Holder | None) -> None:
        """Name the file, and who holds it if it says so."""
        self.path = path
        self.holder = holder
        super().__init__(f"{path}: {self.by}")

    @property
    def by(self) -> str:
        """Who holds it, in words."""
        return str(self.holder or "a run that left no name")

    @property
    def cure(self) -> str:
        """What to do about it."""
        return (
            "wait until it has ended; if there is no such process any more, delete "
            f"`{self.path.as_posix()}`"
        )


@contextmanager
def held(path: Path, since: str, disk: Disk = DISK) -> Iterator[None]:
    """Hold the lock at *path*.

    Args:
        path: Of the lock file, in a folder that is there.
        since: The time of day, for whoever is kept waiting.
        disk: On which the file is removed again.

    Raises:
        Locked: If another run holds it.
    """
    handle = _taken(path, Holder.here(since))
    try:
        yield
    finally:
        try:
            if sys.platform == "win32":
                os.close(handle)
            disk.remove(path)
        finally:
            if sys.platform != "win32":
                os.close(handle)


def _taken(path: Path, holder: Holder) -> int:
    """Return the open lock file, which says *holder*."""
    for _ in range(_TRIES):
        handle, is_ours = _opened(path)
        try:
            if _is_gained(handle, path, holder, is_ours=is_ours):
                raw = json.dumps(asdict(holder)).encode()
                os.truncate(handle, 0)
                os.lseek(handle, 0, os.SEEK_SET)
                os.write(handle, raw)
                return handle
        except BaseException:
            os.close(handle)
            raise
        os.close(handle)
    raise Locked(path, None)


def _opened(path: Path) -> tuple[int, bool]:
    """Return the open lock file, and whether it is there through us."""
    flags = os.O_RDWR | getattr(os, "O_BINARY", 0)
    try:
        return os.open(path, flags | os.O_CREAT | os.O_EXCL, 0o644), True
    except FileExistsError:
        return os.open(path, flags | os.O_CREAT, 0o644), False


def _is_gained(handle: int, path: Path, holder: Holder, *, is_ours: bool) -> bool:
    """Say whether the lock is ours now; no if it was given up meanwhile and is to be tried again.

    Raises:
        Locked: If another run holds it.
    """
    if sys.platform == "win32":
        if not is_ours:
            raise Locked(path, _holder_in(handle))
        return True
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError as busy:
        raise Locked(path, _holder_in(handle)) from busy
    except OSError as unable:
        # A share that locks no files: who makes the file first holds it.
        if not is_ours:
            raise Locked(path, _holder_in(handle)) from unable
        return True
    if not _is_still(handle, path):
        return False
    before = None if is_ours else _holder_in(handle)
    if before is not None and before.host != holder.host:
        # The other machine's own lock need not reach here.
        raise Locked(path, before)
    return True


def _is_still(handle: int, path: Path) -> bool:
    """Say whether *path* is the file that is open, and no other that came after it."""
    try:
        return os.path.samestat(os.fstat(handle), path.stat())
    except FileNotFoundError:
        return False


def _holder_in(handle: int) -> Holder | None:
    os.lseek(handle, 0, os.SEEK_SET)
    try:
        return Holder(**json.loads(os.read(handle, 4096)))
    except (ValueError, TypeError):
        return None
