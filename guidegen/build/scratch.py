"""Folders for work in progress, in the system's folder for what is temporary.

Takes in nothing; gives out a folder that is gone when the work is done. What a run that was killed
has left goes when the next one asks for a folder. Refuses to remove a folder of a run that lives,
or of another user or machine: each run holds a lock on its own folder, which the system gives up
with the process, however that ends. Where no folder can be locked, as on Windows, nothing is
removed that another run has left.
"""

import os
import shutil
import socket
import sys
import tempfile
import weakref
from contextlib import suppress
from hashlib import sha256
from pathlib import Path
from tempfile import TemporaryDirectory

if sys.platform != "win32":
    import fcntl

_PLAIN = "guidegen-"
"""Of a folder that cannot be locked, and so is never removed by another run."""

_TRIES = 5
"""A folder that another run took for left, before it was locked, is made anew."""


def scratch_folder() -> "TemporaryDirectory[str]":
    """Return an empty folder, which goes when it is closed, and at the latest with this process."""
    if sys.platform != "win32":
        _sweep()
        for _ in range(_TRIES):
            folder = TemporaryDirectory(prefix=_prefix())
            handle = _locked(Path(folder.name))
            if handle is not None:
                weakref.finalize(folder, os.close, handle)
                return folder
            folder.cleanup()
    return TemporaryDirectory(prefix=_PLAIN)


def _prefix() -> str:
    # Of this machine: where several share the folder, its locks need not reach the others.
    host = sha256(socket.gethostname().encode()).hexdigest()
    return f"{_PLAIN}run-{host[:8]}-"


def _sweep() -> None:
    """Remove the folders of this user's runs that have ended without removing them."""
    prefix = _prefix()
    with suppress(OSError):
        for path in Path(tempfile.gettempdir()).iterdir():
            if path.name.startswith(prefix):
                handle = _locked(path)
                if handle is not None:
                    shutil.rmtree(path, ignore_errors=True)
                    os.close(handle)


def _locked(path: Path) -> int | None:
    """Return the open folder at *path*, locked; none if it is not ours, or a run holds it."""
    if sys.platform == "win32":
        return None
    try:
        handle = os.open(path, os.O_RDONLY | os.O_DIRECTORY | os.O_NOFOLLOW)
    except OSError:
        return None
    with suppress(OSError):
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        if os.fstat(handle).st_uid == os.getuid() and _is_still(handle, path):
            return handle
    os.close(handle)
    return None


def _is_still(handle: int, path: Path) -> bool:
    """Say whether *path* is the folder that is open, and was not removed before it was locked."""
    return os.path.samestat(os.fstat(handle), path.stat(follow_symlinks=False))
