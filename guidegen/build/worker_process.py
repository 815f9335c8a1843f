"""A process that works for another one.

Takes in what all tasks of a run share, and a task; gives out what came of it. Started as a copy of
the process that it works for, which has at once what that one has read, or as a new interpreter,
which reads it from a file. Refuses to outlive the process that started it.
"""

import gc
import importlib
import multiprocessing
import os
import pickle
import sys
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from multiprocessing import connection
from multiprocessing.context import BaseContext
from pathlib import Path
from typing import Any, Generic, TypeVar

from guidegen.collector import look_seldom

S = TypeVar("S")
T = TypeVar("T")
R = TypeVar("R")


@dataclass(frozen=True, slots=True)
class Sent(Generic[S]):
    """What all tasks of a run share."""

    path: Path
    """File for processes that are no copies of this one."""

    shared: S

    def write(self) -> None:
        """Write the file, if it is not there yet."""
        if not self.path.exists():
            self.path.write_bytes(pickle.dumps(self.shared, pickle.HIGHEST_PROTOCOL))


_shared: dict[Path, Any] = {}
"""What all tasks of a run share, by the file in which others find it: read from there, or kept for
the processes that are copies of this one."""


@contextmanager
def kept(sent: Sent[S]) -> Iterator[Sent[S]]:
    """Keep what is *sent* where copies of this process look for it."""
    _shared[sent.path] = sent.shared
    # Copies share what nobody goes through.
    gc.freeze()
    try:
        yield sent
    finally:
        gc.unfreeze()
        del _shared[sent.path]


def settle() -> None:
    """Look for nothing but work, and end with the process that started it.

    However that ended, killed or not: left alone, it would wait for work for ever.
    """
    gc.disable()  # see `look_seldom`
    parent = multiprocessing.parent_process()
    if parent is not None:
        threading.Thread(target=_watch, args=(parent.sentinel,), daemon=True).start()


def _watch(sentinel: int) -> None:
    connection.wait([sentinel])
    os._exit(1)


def read_in(module: str) -> None:
    """Read in *module*, so that the first task need not."""
    importlib.import_module(module)


def work(sent: Path, function: Callable[[Any, T], R], task: T) -> R:
    """Return what *function* makes of what is *sent* and of *task*."""
    if sent not in _shared:
        _shared.clear()
        _shared[sent] = pickle.loads(sent.read_bytes())  # noqa: S301 -- written by `run`
    try:
        return function(_shared[sent], task)
    finally:
        look_seldom()


def can_be_copied() -> bool:
    """Whether copies of this process can work: they have at once what it has read.

    A copy has the one thread that made it, and would wait for ever for what another of this
    process holds. Libraries start threads too, so that the system is asked, and not Python.
    Elsewhere than on Linux, systems' own libraries do not bear being copied.
    """
    return sys.platform == "linux" and len(os.listdir("/proc/self/task")) == 1  # noqa: PTH208 -- nothing but their number counts


def copies() -> BaseContext:
    """Return how copies of this process are started."""
    return multiprocessing.get_context("fork")


def new_interpreters() -> BaseContext:
    """Return how processes are started that have nothing of this one."""
    return multiprocessing.get_context("spawn")
