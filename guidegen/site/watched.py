"""Facts that tell who looked at them.

Takes in a table by the names of facts; gives out the same table, which writes down each name that
was looked up, found or not. Refuses to be gone through: what looks at all facts hangs on each.
"""

from collections.abc import Iterator, Mapping
from typing import Generic, Never, TypeVar

V = TypeVar("V")


class GoneThrough(TypeError):
    """A watched table was gone through, so that nobody knows what was taken from it."""


class Watched(Mapping[str, V], Generic[V]):
    """A table by the names of facts that is watched."""

    def __init__(self, table: Mapping[str, V]) -> None:
        """Watch *table*."""
        self._table = table
        self._seen: set[str] = set()

    @property
    def seen(self) -> tuple[str, ...]:
        """The names that were looked up, in alphabetical order."""
        return tuple(sorted(self._seen))

    def __getitem__(self, name: str) -> V:
        """Return what stands for *name*, and write down that it was asked for."""
        self._seen.add(name)
        return self._table[name]

    def __contains__(self, name: object) -> bool:
        """Say whether *name* is there, and write down that it was asked for."""
        if isinstance(name, str):
            self._seen.add(name)
        return name in self._table

    def __iter__(self) -> Iterator[str]:
        """Refuse."""
        return self._refuse()

    def __len__(self) -> int:
        """Refuse."""
        return self._refuse()

    def _refuse(self) -> Never:
        raise GoneThrough("look the names up one by one")
