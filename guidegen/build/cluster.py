"""Work done by the processes of a cluster.

Takes in the address of a scheduler of dask.distributed; gives out workers that do as those of one
machine do. Refuses to share anything with them but what a task is given: what they need travels
with it, and what they make comes back, so that they may stand anywhere.
"""

from collections import deque
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from itertools import islice
from typing import Any, TypeVar

from guidegen.build.workers import Done, Lost

S = TypeVar("S")
T = TypeVar("T")
R = TypeVar("R")

_AHEAD = 2
"""Tasks for each worker that wait while it works."""

_WAIT = 30
"""Seconds for the scheduler to answer, and for its first worker to come."""


class NoCluster(RuntimeError):
    """The cluster cannot be used; the message says why and what to do."""


@dataclass(frozen=True, slots=True)
class Cluster:
    """The workers that a scheduler knows."""

    address: str
    """As ``tcp://10.0.0.5:8786``."""

    @property
    def count(self) -> int:
        """How many tasks are worked on at once."""
        with _client(self.address) as client:
            return _threads(client)

    def run(
        self, function: Callable[[S, T], R], shared: S, tasks: Iterable[T]
    ) -> Iterator[Done[T, R]]:
        """Yield what *function* makes of each of *tasks*; see `guidegen.build.workers.Workers`.

        A worker that dies is no loss: its tasks are given to another one.

        Raises:
            NoCluster: If no scheduler answers, or none of its workers does.
        """
        waiting = iter(tasks)
        asked: deque[tuple[T, Any]] = deque()
        with _client(self.address) as client:
            # As a task of its own and not scattered: if each worker that holds it dies, it is
            # made again.
            sent = client.submit(_keep, shared, pure=False)
            while True:
                wanted = max(_threads(client), 1) * (_AHEAD + 1)
                for task in islice(waiting, max(0, wanted - len(asked))):
                    future = client.submit(_work, function, sent, task, pure=False, retries=1)
                    asked.append((task, future))
                if not asked:
                    return
                task, future = asked.popleft()
                yield Done(task, _result_of(future))


def _result_of(future: Any) -> Any:  # noqa: ANN401 -- of the library, which has no types
    from distributed import KilledWorker  # noqa: PLC0415 -- an extra; loaded if it is asked for

    try:
        return future.result()
    except KilledWorker as killed:
        return Lost(f"every worker that tried it ended before it was done ({killed})")


def _client(address: str) -> Any:  # noqa: ANN401 -- of the library, which has no types
    try:
        from distributed import Client  # noqa: PLC0415 -- an extra; loaded if it is asked for
    except ModuleNotFoundError as missing:
        raise NoCluster(
            f"`{missing.name}` is not installed: `pip install guidegen[cluster]`"
        ) from missing
    try:
        client = Client(address, timeout=_WAIT, set_as_default=False)  # type: ignore[no-untyped-call]
        client.wait_for_workers(1, timeout=_WAIT)
    except (OSError, TimeoutError, ValueError) as silent:
        raise NoCluster(
            f"no scheduler with workers answers at `{address}` ({silent}): start one with "
            "`dask scheduler`, and workers with `dask worker ADDRESS --nthreads 1`"
        ) from silent
    return client


def _threads(client: Any) -> int:  # noqa: ANN401 -- of the library, which has no types
    return sum(client.nthreads().values())


def _keep(shared: S) -> S:
    return shared


def _work(function: Callable[[S, T], R], shared: S, task: T) -> R:
    return function(shared, task)
