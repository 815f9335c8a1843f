"""From an old folder to a new one in one move.

Takes in a finished folder beside the one that readers see; gives out that one replaced.
Refuses to leave readers with half: where the system can swap two folders at once it does, and
elsewhere a move that was cut short is finished or undone by the next run.
"""

import ctypes
import ctypes.util
import os
import shutil
import sys
from pathlib import Path

_AT_FDCWD = -100
_RENAME_EXCHANGE = 2
_RENAME_SWAP = 2
"""Of macOS' renamex_np."""


def staging_folder(target: Path) -> Path:
    """Return the folder beside *target* in which its successor is made."""
    return target.with_name(f".{target.name}.building")


def old_folder(target: Path) -> Path:
    """Return the folder beside *target* in which its predecessor waits to be deleted."""
    return target.with_name(f".{target.name}.old")


def recover(target: Path) -> None:
    """Clear up after a run that was cut short: readers get the old folder back if it was moved."""
    old = old_folder(target)
    if old.exists() and not target.exists():
        old.rename(target)
    for leftover in (old, staging_folder(target)):
        if leftover.exists():
            shutil.rmtree(leftover)


def switch(staged: Path, target: Path) -> None:
    """Put *staged* in the place of *target*; what was there before is deleted.

    Raises:
        OSError: If the folders cannot be moved; *target* is then as it was.
    """
    if not target.exists():
        staged.rename(target)
        return
    if exchange(staged, target):
        shutil.rmtree(staged)
        return
    old = old_folder(target)
    target.rename(old)
    try:
        staged.rename(target)
    except OSError:
        old.rename(target)
        raise
    shutil.rmtree(old)


def exchange(first: Path, second: Path) -> bool:
    """Swap two folders in one system call; say no where the system or file system cannot.

    Either both have changed places or neither has.
    """
    name = ctypes.util.find_library("c")
    if sys.platform == "win32" or name is None:
        return False
    library = ctypes.CDLL(name, use_errno=True)
    one, two = os.fsencode(first), os.fsencode(second)
    if sys.platform == "darwin" and hasattr(library, "renamex_np"):
        return bool(library.renamex_np(one, two, _RENAME_SWAP) == 0)
    if hasattr(library, "renameat2"):
        code = library.renameat2(_AT_FDCWD, one, _AT_FDCWD, two, _RENAME_EXCHANGE)
        return bool(code == 0)
    return False
