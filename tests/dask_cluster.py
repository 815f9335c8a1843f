"""A real scheduler with worker processes on this machine, for tests."""

import os
import re
import subprocess
import sys
import time
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path


@dataclass
class DaskCluster:
    """A scheduler and its workers, each a process of its own."""

    folder: Path
    address: str = ""
    scheduler: subprocess.Popen[bytes] | None = None
    workers: list[subprocess.Popen[bytes]] = field(default_factory=list)

    def start(self, workers: int) -> None:
        file = self.folder / "scheduler.json"
        self.scheduler = self._run(
            *("scheduler", "--scheduler-file", str(file), "--host", "127.0.0.1", "--port", "0"),
            "--no-dashboard",
        )
        _wait(file.is_file)
        found: list[str] = []

        def told() -> bool:
            found[:] = re.findall(r'"address":\s*"(tcp://[^"]+)"', file.read_text("utf-8"))
            return bool(found)

        _wait(told)
        self.address = found[0]
        for _ in range(workers):
            self.add_worker()

    def add_worker(self, environment: Mapping[str, str] | None = None) -> None:
        started = self._run(
            *("worker", self.address, "--nthreads", "1", "--no-nanny", "--no-dashboard"),
            *("--local-directory", str(self.folder)),
            environment=environment,
        )
        self.workers.append(started)

    def stop(self) -> None:
        for process in (*self.workers, self.scheduler):
            if process is not None:
                process.kill()
                process.wait()

    def _run(
        self, *arguments: str, environment: Mapping[str, str] | None = None
    ) -> subprocess.Popen[bytes]:
        with (self.folder / "log").open("ab") as log:
            return subprocess.Popen(
                [sys.executable, "-m", "dask", *arguments],
                cwd=self.folder,
                env={**os.environ, **(environment or {})},
                stdout=log,
                stderr=log,
            )


@contextmanager
def cluster_of(workers: int, folder: Path) -> Iterator[DaskCluster]:
    running = DaskCluster(folder)
    try:
        running.start(workers)
        yield running
    finally:
        running.stop()


def _wait(done: object) -> None:
    assert callable(done)
    end = time.monotonic() + 60
    while not done():
        assert time.monotonic() < end, "the cluster did not start"
        time.sleep(0.05)
