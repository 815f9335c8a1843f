"""Trees that a run has measured and needs no more.

Takes in a tree; gives out its place, free for the next one. Refuses to delete it while others are
measured: ext4 passes over every inode that was freed in the last minutes, one by one, so that who
writes after a large tree was deleted pays for it (seen with perf, in the kernel's
`recently_deleted`; a build of 20,000 files took 6 seconds of system time more).
"""

import shutil
from itertools import count
from pathlib import Path

_LEAST_FREE = 30 * 2**30
"""Bytes of the disk that stay free; with fewer, all that was put away is deleted."""

_numbers = count(1)


def put_away(tree: Path) -> None:
    """Move *tree* aside; it is deleted with the folder that it stands in."""
    tree.rename(tree.with_name(f".away-{next(_numbers)}"))
    if shutil.disk_usage(tree.parent).free < _LEAST_FREE:
        for each in tree.parent.glob(".away-*"):
            shutil.rmtree(each)
