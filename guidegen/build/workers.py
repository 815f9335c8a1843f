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
from dataclasses import dataclass, field
from itertools import chain, islice
from multiprocessing.process import BaseProcess
from types import TracebackType
from typing import Any, Generic, Protocol, Self, TypeVar

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
        for task in tasks:
            yield Done(task, function(shared, task))


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

    def run(
        self, function: Callable[[S, T], R], shared: S, tasks: Iterable[T]
    ) -> Iterator[Done[T, R]]:
        """Yield what *function* makes of each of *tasks*; see `Workers`."""
        waiting = iter(tasks)
        asked: deque[tuple[T, Future[R]]] = deque()
        pool = self._open(shared)
        try:
            while True:
                free = self.count * (_AHEAD + 1) - len(asked)
                for task in islice(waiting, free):
                    asked.append((task, pool.submit(_work, function, task)))
                if not asked:
                    return
                task, future = asked.popleft()
                try:
                    yield Done(task, future.result())
                except BrokenProcessPool:
                    # Any of those that were asked may have ended it: each is tried alone.
                    again = [task, *(each for each, _ in asked)]
                    asked.clear()
                    self._end_all()
                    yield from self._one_by_one(function, shared, again)
                    pool = self._open(shared)
        finally:
            self._close()

    def _one_by_one(
        self, function: Callable[[S, T], R], shared: S, tasks: Iterable[T]
    ) -> Iterator[Done[T, R]]:
        for task in tasks:
            for tried in range(1, _MOST_TRIES + 1):
                pool = self._open(shared, count=1)
                try:
                    yield Done(task, pool.submit(_work, function, task).result())
                    break
                except BrokenProcessPool:
                    self._end_all()
                    if tried == _MOST_TRIES:
                        yield Done(task, Lost("its process ended before it was done"))

    def _open(self, shared: Any, count: int | None = None) -> ProcessPoolExecutor:  # noqa: ANN401
        self._close()
        self._others = frozenset(multiprocessing.active_children())
        self._pool = ProcessPoolExecutor(
            count or self.count, _context(), initializer=_share, initargs=(shared,)
        )
        return self._pool

    def _end_all(self) -> None:
        """End what is left of a broken pool: closing it waits for processes that wait for work."""
        for process in multiprocessing.active_children():
            if process not in self._others:
                process.kill()

    def _close(self) -> None:
        if self._pool is not None:
            self._pool.shutdown(cancel_futures=True)
            self._pool = None


@dataclass(frozen=True, slots=True)
class AsWorthIt:
    """Works in several processes where there is enough to do, else in this one.

    A new interpreter takes as long to start as the pages of a truck or two.
    """

    count: int

    def run(
        self, function: Callable[[S, T], R], shared: S, tasks: Iterable[T]
    ) -> Iterator[Done[T, R]]:
        """Yield what *function* makes of each of *tasks*; see `Workers`."""
        ahead = list(islice(waiting := iter(tasks), _WORTH_IT))
        is_worth_it = len(ahead) == _WORTH_IT and self.count > 1
        workers = workers_of(self.count if is_worth_it else 1)
        yield from workers.run(function, shared, chain(ahead, waiting))


def workers_of(count: int) -> Workers:
    """Return who works when *count* processes are asked for."""
    return InLine() if count == 1 else Processes(count)


def usual_count() -> int:
    """Return how many processes this machine has cores for."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


_shared: Any = None
"""In a worker: what all tasks share."""


def _share(shared: Any) -> None:  # noqa: ANN401 -- whatever the tasks share
    global _shared  # noqa: PLW0603 -- a process of a pool has no other place for it
    _shared = shared


def _work(function: Callable[[Any, T], R], task: T) -> R:
    return function(_shared, task)


def _context() -> multiprocessing.context.BaseContext:
    # A new interpreter on every system: a copy of this one would hang on the threads that
    # libraries have started.
    return multiprocessing.get_context("spawn")
