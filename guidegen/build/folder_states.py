"""How all folders of a site were left, read by another process while this one has other work.

Takes in the folder of a site; gives out the state of each folder in it. Refuses to depend on the
other process: where it cannot be started, or ends early, states are read here when they are asked
for.
"""

import json
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from pathlib import Path

from guidegen.build import folder_state as reader
from guidegen.build.folder_state import folder_state


@dataclass(slots=True)
class FolderStates:
    """The states of the folders in one."""

    site: Path
    _process: "subprocess.Popen[bytes] | None" = field(default=None, repr=False)
    _read: dict[str, str] = field(default_factory=dict, repr=False)

    def of(self, name: str) -> str:
        """Return the state of the folder *name*, as of `folder_state`."""
        self._wait()
        known = self._read.get(name)
        return folder_state(self.site / name) if known is None else known

    def _wait(self) -> None:
        if self._process is None:
            return
        told, _ = self._process.communicate()
        if self._process.returncode == 0:
            with suppress(ValueError):
                self._read = json.loads(told)
        self._process = None


@contextmanager
def read_ahead(site: Path, *, is_worth_it: bool) -> Iterator[FolderStates]:
    """Have another process read the states of all folders in *site* while this one goes on.

    Args:
        site: A folder that nobody changes meanwhile.
        is_worth_it: Whether they will be asked for; if not, each is read when it is.
    """
    process = reading(site) if is_worth_it else None
    try:
        yield FolderStates(site, process)
    finally:
        if process is not None:
            process.kill()
            with process:
                pass  # its pipe is closed, and its end waited for


def reading(site: Path) -> "subprocess.Popen[bytes] | None":
    """Return a process that reads the states of all folders in *site*; none if none starts."""
    # What it runs needs nothing but Python, and so starts in an instant.
    command = [sys.executable, "-I", "-S", reader.__file__, str(site)]
    try:
        return subprocess.Popen(  # noqa: S603 -- this interpreter, and a file of guidegen
            command,
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            creationflags=getattr(subprocess, "CREATE_NO_WINDOW", 0),
        )
    except OSError:
        return None
