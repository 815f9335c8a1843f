"""What a command costs: seconds, seconds until all is on the disk, processor seconds, memory.

Takes in a command; gives out its cost and what it printed, children included.
Refuses a command that fails.
"""

import os
import platform
import subprocess
import threading
import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

_PAUSE = 0.2
"""Seconds between two looks at the memory; asking costs a millisecond or so for each 100 MB."""


@dataclass(frozen=True, slots=True)
class Cost:
    """What one run of a command cost."""

    seconds: float
    """Until the command ended."""

    disk_seconds: float
    """Until everything that it wrote was on the disk: the command, then ``sync``."""

    cpu_seconds: float
    """User and system time of the command and all its children."""

    peak_mb: float
    """Greatest memory of the command and its children together, in MB of 1,048,576 bytes; what
    processes share is counted once. Where there is no ``/proc``, that of the largest process."""


def measure(command: Sequence[str | Path], folder: Path) -> tuple[Cost, str]:
    """Run *command* in *folder*; return its cost and its standard output."""
    # What others wrote before must not be paid for here.
    _sync()
    start = time.perf_counter()
    with subprocess.Popen(
        [str(part) for part in command], cwd=folder, stdout=subprocess.PIPE, text=True
    ) as process:
        watch = _Watch(process.pid)
        watch.start()
        output = process.stdout.read() if process.stdout else ""
        _, status, usage = os.wait4(process.pid, 0)
        seconds = time.perf_counter() - start
        process.returncode = os.waitstatus_to_exitcode(status)
        watch.stop()
    if process.returncode:
        said = " ".join(str(part) for part in command)
        raise SystemExit(f"{said} ended with {process.returncode}\n{output}")
    _sync()
    disk_seconds = time.perf_counter() - start
    # Darwin counts bytes, Linux kilobytes.
    scale = 2**20 if platform.system() == "Darwin" else 2**10
    peak_mb = max(watch.peak / 2**20, usage.ru_maxrss / scale)
    return Cost(seconds, disk_seconds, usage.ru_utime + usage.ru_stime, peak_mb), output


def _sync() -> None:
    # A system without sync() has no wait4 either.
    os.sync()


class _Watch(threading.Thread):
    """Looks at the memory of a process and its children until it is stopped."""

    def __init__(self, pid: int) -> None:
        super().__init__(daemon=True)
        self.peak = 0
        """In bytes."""
        self._pid = pid
        self._stopped = threading.Event()

    def run(self) -> None:
        while not self._stopped.wait(_PAUSE):
            self.peak = max(self.peak, sum(_share(pid) for pid in _tree(self._pid)))

    def stop(self) -> None:
        self._stopped.set()
        self.join()


def _tree(pid: int) -> Iterator[int]:
    """Yield *pid* and every process below it. Source: proc(5), ``/proc/pid/task/tid/children``."""
    yield pid
    for task in Path("/proc", str(pid), "task").glob("*/children"):
        for child in _text(task).split():
            yield from _tree(int(child))


def _share(pid: int) -> int:
    """Return the bytes of *pid*, its part of what is shared. Source: proc(5), ``Pss``."""
    for line in _text(Path("/proc", str(pid), "smaps_rollup")).splitlines():
        if line.startswith("Pss:"):
            return int(line.split()[1]) * 1024
    return 0


def _text(path: Path) -> str:
    try:
        return path.read_text(encoding="ascii")
    except OSError:
        # The process has ended.
        return ""
