"""Work done by one process, by several, or by those of a cluster.

Takes in a function, what all its tasks share, and the tasks; gives out what came of each, in
order. Refuses to let one task take the others with it: one that ends its process is tried once
more, and then told as lost.
"""

import multiprocessing
import os
from collections import deque
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager
from dataclasses import dataclass, field
from itertools import chain, islice
from multiprocessing.process import BaseProcess
from pathlib import Path
from types import TracebackType
from typing import Any, Generic, Protocol, Self, TypeVar

from guidegen.build.scratch import scratch_folder
from guidegen.build.worker_process import (
    Sent,
    can_be_copied,
    copies,
    kept,
    new_interpreters,
    read_in,
    settle,
    work,
)
from guidegen.collector import look_seldom, paused

S = TypeVar("S")
T = TypeVar("T")
R = TypeVar("R")

_AHEAD = 2
"""Tasks for each process that wait while it works; more would only take memory."""

_MOST_TRIES = 2

_WORTH_IT = 6
"""Tasks from which other processes are started, where nobody says how many."""


@dataclass(frozen=True, slots=True)
class Lost:
    """What came of a task that ended its process each time, or broke."""

    why: str


@dataclass(frozen=True, slots=True)
class Done(Generic[T, R]):
    """One task, and what came of it."""

    task: T
    result: R | Lost


class Workers(Protocol):
    """Who does the work."""

    def run(
        self, function: Callable[[S, T], R], shared: S, tasks: Iterable[T]
    ) -> Iterator[Done[T, R]]:
        """Yield what *function* makes of *shared* and each of *tasks*, in their order.

        Args:
            function: A function of a module: workers find it by its name.
            shared: What all tasks need; sent to each worker once.
            tasks: Each is sent to one worker.
        """


@dataclass(frozen=True, slots=True)
class InLine:
    """Works in this process, one task after another."""

    def run(
        self, function: Callable[[S, T], R], shared: S, tasks: Iterable[T]
    ) -> Iterator[Done[T, R]]:
        """Yield what *function* makes of each of *tasks*; see `Workers`."""
        with paused():
            for task in tasks:
                yield Done(task, function(shared, task))
                look_seldom()


@dataclass(slots=True)
class Processes:
    """Works in several processes of this machine."""

    count: int
    _pool: ProcessPoolExecutor | None = field(default=None, repr=False)
    _others: frozenset[BaseProcess] = frozenset()
    """Processes of this one that are not of the pool."""

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self._close()

    def start(self, module: str) -> None:
        """Start all processes, and let them read in *module* while this one has other work.

        Where copies of this process can work, they are made when it knows what they are to do.
        """
        if can_be_copied():
            return
        pool = self._open(new_interpreters())
        for _ in range(self.count):
            pool.submit(read_in, module)

    def close(self) -> None:
        """End all processes that were started; what is asked for and not begun is dropped."""
        self._close()

    def run(
        self, function: Callable[[S, T], R], shared: S, tasks: Iterable[T]
    ) -> Iterator[Done[T, R]]:
        """Yield what *function* makes of each of *tasks*; see `Workers`."""
        with scratch_folder() as folder, kept(Sent(Path(folder, "shared"), shared)) as sent:
            yield from self._run(function, sent, tasks)

    def _run(
        self, function: Callable[[S, T], R], sent: "Sent[S]", tasks: Iterable[T]
    ) -> Iterator[Done[T, R]]:
        waiting = iter(tasks)
        asked: deque[tuple[T, Future[R]]] = deque()
        pool = self._opened(sent)
        try:
            while True:
                begun = list(islice(waiting, self.count * (_AHEAD + 1) - len(asked)))
                try:
                    while begun:
                        asked.append((begun[0], _asked(pool, sent, function, begun[0])))
                        del begun[0]
                    if not asked:
                        break
                    done = Done(asked[0][0], asked[0][1].result())
                except BrokenProcessPool:
                    # Any of those that were asked may have ended it: each is tried alone.
                    again = [*(each for each, _ in asked), *begun]
                    asked.clear()
                    self._end_all()
                    yield from self._one_by_one(function, sent, again)
                    self._close()
                    pool = self._opened(sent)
                    continue
                asked.popleft()
                yield done
            # All has come; the processes would take a second to take themselves apart.
            self._end_all()
        finally:
            self._close()

    def _one_by_one(
        self, function: Callable[[S, T], R], sent: "Sent[S]", tasks: Iterable[T]
    ) -> Iterator[Done[T, R]]:
        for task in tasks:
            for tried in range(1, _MOST_TRIES + 1):
                self._close()
                pool = self._opened(sent, count=1)
                try:
                    yield Done(task, _asked(pool, sent, function, task).result())
                    break
                except BrokenProcessPool:
                    self._end_all()
                    if tried == _MOST_TRIES:
                        yield Done(task, Lost("its process ended before it was done"))

    def _opened(self, sent: "Sent[Any]", count: int | None = None) -> ProcessPoolExecutor:
        """Return the pool that was started, or a new one whose processes can have what is sent."""
        if self._pool is None and can_be_copied():
            return self._open(copies(), count)
        # By a file: this process need not wait until each of the others has started to read.
        sent.write()
        return self._pool or self._open(new_interpreters(), count)

    def _open(
        self, context: multiprocessing.context.BaseContext, count: int | None = None
    ) -> ProcessPoolExecutor:
        self._others = frozenset(multiprocessing.active_children())
        self._pool = ProcessPoolExecutor(count or self.count, context, initializer=settle)
        return self._pool

    def _end_all(self) -> None:
        """End what is left of a pool: closing it waits for processes that wait for work."""
        for process in multiprocessing.active_children():
            if process not in self._others:
                process.kill()

    def _close(self) -> None:
        if self._pool is not None:
            self._pool.shutdown(cancel_futures=True)
            self._pool = None


@dataclass(slots=True)
class AsWorthIt:
    """Works in several processes where there is enough to do, else in this one.

    A new interpreter takes as long to start as the pages of a truck or two.
    """

    count: int
    _started: Processes | None = field(default=None, repr=False)

    def start(self, module: str) -> None:
        """Start processes as `Processes` does: there will be enough to do."""
        if self.count > 1:
            self._started = Processes(self.count)
            self._started.start(module)

    def close(self) -> None:
        """End what was started and not used."""
        started, self._started = self._started, None
        if started is not None:
            started.close()

    def run(
        self, function: Callable[[S, T], R], shared: S, tasks: Iterable[T]
    ) -> Iterator[Done[T, R]]:
        """Yield what *function* makes of each of *tasks*; see `Workers`."""
        started, self._started = self._started, None
        if started is not None:
            yield from started.run(function, shared, tasks)
            return
        ahead = list(islice(waiting := iter(tasks), _WORTH_IT))
        is_worth_it = len(ahead) == _WORTH_IT and self.count > 1
        workers = workers_of(self.count if is_worth_it else 1)
        yield from workers.run(function, shared, chain(ahead, waiting))


def workers_of(count: int) -> Workers:
    """Return who works when *count* processes are asked for."""
    return InLine() if count == 1 else Processes(count)


@contextmanager
def started(workers: Workers, module: str, *, is_worth_it: bool) -> Iterator[None]:
    """Start processes while this one prepares what they are to do; end what was not used.

    Args:
        workers: Of which some start processes.
        module: Where what they will be asked to do stands; they read it in.
        is_worth_it: Whether there will be enough to do.
    """
    if not isinstance(workers, Processes | AsWorthIt):
        yield
        return
    try:
        if is_worth_it:
            workers.start(module)
        yield
    finally:
        workers.close()


def usual_count() -> int:
    """Return how many processes this machine has cores for."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def _asked(
    pool: ProcessPoolExecutor, sent: Sent[S], function: Callable[[S, T], R], task: T
) -> Future[R]:
    return pool.submit(work, sent.path, function, task)
