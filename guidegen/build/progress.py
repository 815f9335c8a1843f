"""How far long work has come, told to whoever shows it.

Takes in things to work through; gives out the same things, one by one.
Refuses to change what is done: without anyone to show it, nothing is shown.
"""

from collections.abc import Iterable, Iterator
from typing import Protocol, TypeVar

T = TypeVar("T")


class Progress(Protocol):
    """Shows how far the work through *things* has come."""

    def __call__(self, things: Iterable[T], total: int, doing: str) -> Iterator[T]:
        """Yield *things*, *total* of them; *doing* says in a word or two what is done."""


def unseen(things: Iterable[T], total: int, doing: str) -> Iterator[T]:  # noqa: ARG001 -- a Progress
    """Yield *things*, and show nothing."""
    yield from things
