"""How a folder was left.

Takes in a folder; gives out a hash of names, sizes and times of all files in it.
Refuses to read them: that a file was written to shows in its time. Imports nothing of guidegen:
run as a program, it tells the states of all folders in a folder, as JSON.
"""

import hashlib
import json
import os
import sys
from collections.abc import Iterator
from pathlib import Path


def folder_state(folder: Path) -> str:
    """Return what two states of a folder share if no file in it was changed, added or gone."""
    return hashlib.sha256("".join(sorted(_states(folder, ""))).encode()).hexdigest()


def _states(folder: Path | str, before: str) -> Iterator[str]:
    try:
        found = os.scandir(folder)
    except OSError:
        yield "gone"
        return
    with found:
        for entry in found:
            if entry.is_dir(follow_symlinks=False):
                yield from _states(entry.path, f"{before}{entry.name}/")
            else:
                state = entry.stat(follow_symlinks=False)
                yield f"{before}{entry.name}\0{state.st_size}\0{state.st_mtime_ns}\n"


def _all_states(site: str) -> dict[str, str]:
    with os.scandir(site) as found:
        folders = [each for each in found if each.is_dir(follow_symlinks=False)]
    return {each.name: folder_state(Path(each.path)) for each in folders}


if __name__ == "__main__":
    json.dump(_all_states(sys.argv[1]), sys.stdout)
