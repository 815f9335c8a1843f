"""Work done by the processes of a cluster.

Takes in the address of a scheduler of dask.distributed; gives out workers that do as those of one
machine do. Refuses to share anything with them but what a task is given: what they need travels
with it, and what they make comes back, so that they may stand anywhere. Refuses workers that run
another program: what they made would not be what is made here.
"""

import pickle
import threading
import time
import warnings
from collections import deque
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import islice
from pathlib import Path
from typing import Any, TypeVar
from zlib import compress, decompress

from guidegen.build.engine_hash import program_hash, program_parts
from guidegen.build.workers import Done, Lost

S = TypeVar("S")
T = TypeVar("T")
R = TypeVar("R")

_AHEAD = 2
"""Tasks for each worker that wait while it works."""

WAIT = 30
"""Seconds for the scheduler to answer, for its first worker to come, and for one to come again
after the last has died; an own choice."""

_LOOK = 2
"""Seconds after which it is seen whether anybody still works."""

_MOST_TOLD = 3


class NoCluster(RuntimeError):
    """The cluster cannot be used; the message says why and what to do."""


class Unfit(RuntimeError):
    """A worker cannot do the work; the message goes on after its name."""


@dataclass(frozen=True, slots=True)
class Cluster:
    """The workers that a scheduler knows."""

    address: str
    """As ``tcp://10.0.0.5:8786``."""

    shared: Path | None = None
    """A folder that this machine and all workers see under the same path, if there is one."""

    wait: float = WAIT
    """Seconds that it may be without any worker."""

    def check(self) -> None:
        """See that there are workers, and that they run this program.

        Raises:
            NoCluster: If no scheduler answers, none of its workers does, or one is unfit.
        """
        with self._opened():
            pass

    def run(
        self, function: Callable[[S, T], R], shared: S, tasks: Iterable[T]
    ) -> Iterator[Done[T, R]]:
        """Yield what *function* makes of each of *tasks*; see `guidegen.build.workers.Workers`.

        A worker that dies is no loss: its tasks are given to another one.

        Raises:
            NoCluster: If no scheduler answers, none of its workers does, one is unfit, or all of
                them are gone.
        """
        waiting = iter(tasks)
        asked: deque[tuple[T, Any]] = deque()
        raw = compress(pickle.dumps((function, shared), pickle.HIGHEST_PROTOCOL), 1)
        sent = _Sent(program_hash(), raw)
        with self._opened() as client:
            # As a task of its own and not scattered: if each worker that holds it dies, it is
            # made again.
            kept = client.submit(_keep, sent, pure=False)
            while True:
                wanted = max(_threads(client), 1) * (_AHEAD + 1)
                for task in islice(waiting, max(0, wanted - len(asked))):
                    future = client.submit(_work, kept, task, pure=False, retries=1)
                    asked.append((task, future))
                if not asked:
                    return
                task, future = asked.popleft()
                yield Done(task, self._result_of(future, client))

    def _result_of(self, future: Any, client: Any) -> Any:  # noqa: ANN401 -- of the library, which has no types
        from distributed import KilledWorker  # noqa: PLC0415 -- an extra; loaded if it is needed

        try:
            return self._fetched(future, client)
        except KilledWorker as killed:
            return Lost(f"every worker that tried it ended before it was done ({killed})")
        except Unfit as unfit:
            raise NoCluster(f"a worker of `{self.address}` {unfit}") from unfit

    def _fetched(self, future: Any, client: Any) -> Any:  # noqa: ANN401 -- of the library, which has no types
        seen, patience = time.monotonic(), self.wait
        while True:
            try:
                if _is_done(future, client):
                    # It lies with a worker until it is fetched, and may be lost with it.
                    return future.result(timeout=patience)
            except TimeoutError:
                if future.status == "error":
                    raise
                # The way to a worker may be slow.
                patience *= 2
            if _threads(client):
                seen = time.monotonic()
            elif time.monotonic() - seen > self.wait:
                raise NoCluster(
                    f"all workers of `{self.address}` are gone: start new ones, and then guidegen "
                    "again"
                )

    @contextmanager
    def _opened(self) -> Iterator[Any]:
        """Give a client whose workers all run this program."""
        with _client(self.address, self.wait) as client, warnings.catch_warnings():
            from distributed import CancelledError  # noqa: PLC0415 -- an extra

            # What all tasks share is sent once, and is as large as it is.
            warnings.filterwarnings("ignore", message="Sending large graph")
            try:
                _check_programs(client)
                yield client
            except (OSError, CancelledError) as lost:
                if client.status == "running" and not isinstance(lost, CancelledError):
                    raise
                raise NoCluster(
                    f"the scheduler at `{self.address}` is gone ({lost}): start it again, and then "
                    "guidegen"
                ) from lost


@dataclass(frozen=True, slots=True)
class _Sent:
    """What all tasks share, as it travels: read only by the program that wrote it."""

    program: str
    raw: bytes = field(repr=False)


_AT_WORK = threading.Lock()
"""One task at a time in a process: the libraries that read PDFs bear no more."""


def _keep(sent: _Sent) -> _Sent:
    return sent


def _work(sent: _Sent, task: Any) -> Any:  # noqa: ANN401 -- whatever the function takes and makes
    if sent.program != program_hash():
        raise Unfit("runs another guidegen, or other libraries: install the same everywhere")
    with _AT_WORK:
        function, shared = _read(sent.raw)
        return function(shared, task)


@lru_cache(maxsize=1)
def _read(raw: bytes) -> tuple[Callable[[Any, Any], Any], Any]:
    # From the client that this worker serves; the protocol of dask carries code itself.
    read: tuple[Callable[[Any, Any], Any], Any] = pickle.loads(decompress(raw))  # noqa: S301
    return read


def _client(address: str, wait: float) -> Any:  # noqa: ANN401 -- of the library, which has no types
    try:
        from distributed import Client  # noqa: PLC0415 -- an extra; loaded if it is asked for
    except ModuleNotFoundError as missing:
        raise NoCluster(
            f"`{missing.name}` is not installed: `pip install guidegen[cluster]`"
        ) from missing
    try:
        client = Client(address, timeout=wait, set_as_default=False)  # type: ignore[no-untyped-call]
    except (OSError, TimeoutError, ValueError) as silent:
        raise NoCluster(
            f"no scheduler answers at `{address}` ({silent}): start one with `dask scheduler`, and "
            "give the address that it tells"
        ) from silent
    try:
        client.wait_for_workers(1, timeout=wait)
    except (OSError, TimeoutError) as none:
        client.close()  # type: ignore[no-untyped-call]
        raise NoCluster(
            f"the scheduler at `{address}` has no workers: start some with "
            f"`dask worker {address} --nthreads 1`"
        ) from none
    return client


def _is_done(future: Any, client: Any) -> bool:  # noqa: ANN401 -- of the library, which has no types
    """Wait a little for *future*, and say whether it is done."""
    from distributed import wait  # noqa: PLC0415 -- an extra; loaded if it is needed

    try:
        with client.as_current():
            wait([future], timeout=_LOOK)  # type: ignore[no-untyped-call]
    except TimeoutError:
        return False
    return True


def _threads(client: Any) -> int:  # noqa: ANN401 -- of the library, which has no types
    return sum(client.nthreads().values())


def _check_programs(client: Any) -> None:  # noqa: ANN401 -- of the library, which has no types
    own = program_parts()
    pythons = client.get_versions()["workers"]
    here = own["Python"].split(maxsplit=1)[0]
    for worker, told in pythons.items():
        python = ".".join(str(told["host"]["python"]).split(".")[:3])
        # Looked at first: code of ours that asks for more could not even be read there.
        if python != here:
            raise _other_program(worker, [f"Python {python} instead of {here}"])
    for worker, told in client.run(_asker(), on_error="return").items():
        parts = told if isinstance(told, Mapping) else {}
        if parts != own:
            raise _other_program(worker, list(_differences(parts, own)))


def _differences(parts: Mapping[str, str], own: Mapping[str, str]) -> Iterator[str]:
    if not parts:
        yield "no guidegen that works for clusters"
        return
    for name in sorted({*parts, *own}):
        if parts.get(name) != own.get(name):
            yield f"{name} {parts.get(name, 'none')} instead of {own.get(name, 'none')}"


def _other_program(worker: str, differences: list[str]) -> NoCluster:
    told = "; ".join(differences[:_MOST_TOLD])
    more = f"; and {len(differences) - _MOST_TOLD} more" if len(differences) > _MOST_TOLD else ""
    return NoCluster(
        f"the worker `{worker}` runs another program: {told}{more}: install the same guidegen with "
        "the same libraries everywhere, best from one image or one lock file"
    )


def _asker() -> Callable[[], Mapping[str, str]]:
    # A function within a function is sent as code and not by name: a worker with another guidegen
    # may know no module of that name.
    def parts() -> Mapping[str, str]:
        from importlib import import_module  # noqa: PLC0415 -- it runs elsewhere

        try:
            found = import_module("guidegen.build.engine_hash").program_parts()
        except (ImportError, AttributeError):
            return {}
        return dict(found)

    return parts
