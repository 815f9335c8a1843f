"""One run of the command line in a copy of this process, to be waited for or killed.

This process has imported guidegen and has no thread but its own, so that a copy of it is whole.
"""

import os
import signal
import sys
from collections.abc import Sequence
from contextlib import redirect_stderr, redirect_stdout
from dataclasses import dataclass
from io import StringIO
from pathlib import Path
from typing import NoReturn

from read_before import Writer

from guidegen.cli import main


@dataclass
class ForkedRun:
    """A run that was begun."""

    pid: int
    told: int
    """The pipe that says when it begins to write."""

    said: Path
    """What it prints."""

    @classmethod
    def begin(cls, arguments: Sequence[str], writer: Writer, said: Path) -> "ForkedRun":
        """Run the command line with *arguments* in this folder."""
        reads, writes = os.pipe()
        pid = os.fork()
        if not pid:
            writer.told = writes
            _run(arguments, said)
        os.close(writes)
        return cls(pid, reads, said)

    def begins_to_write(self) -> bool:
        """Wait until it does; no if it comes to its end without."""
        return os.read(self.told, 1) != b""

    def kill(self) -> tuple[bool, bool]:
        """Kill it; say whether it was still running, and whether it has said that it writes."""
        os.kill(self.pid, signal.SIGKILL)
        status = os.waitpid(self.pid, 0)[1]
        is_writing = self.begins_to_write()
        os.close(self.told)
        if not os.WIFSIGNALED(status):
            self._check(status)
        return os.WIFSIGNALED(status), is_writing

    def end(self) -> None:
        """Wait for its end, which must be a good one."""
        self._check(os.waitpid(self.pid, 0)[1])
        os.close(self.told)

    def _check(self, status: int) -> None:
        code = os.waitstatus_to_exitcode(status)
        assert code == 0, f"it ended with {code}: {self.said.read_text(encoding='utf-8')}"


def run_here(*arguments: str) -> None:
    """Run the command line in this very process."""
    said = StringIO()
    with redirect_stdout(said), redirect_stderr(said):
        code = _code_of(arguments)
    assert code == 0, said.getvalue()


def _run(arguments: Sequence[str], said: Path) -> NoReturn:
    code = 70
    try:
        handle = os.open(said, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600)
        os.dup2(handle, 1)
        os.dup2(handle, 2)
        code = _code_of(arguments)
    finally:
        sys.stdout.flush()
        sys.stderr.flush()
        # What this process registered for its own end is none of the copy's.
        os._exit(code)


def _code_of(arguments: Sequence[str]) -> int:
    """Run the command line; return its exit code."""
    sys.argv = ["guidegen", *arguments]
    try:
        main()
    except SystemExit as ended:
        return ended.code if isinstance(ended.code, int) else 0
