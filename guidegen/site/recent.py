"""What was made before, by what it was made from.

Takes in keys and what was made for them; gives out the same value for the same key again.
Refuses to grow without end: what has not been asked for in a long time is dropped.
"""

from collections.abc import Callable, Hashable
from typing import Generic, TypeVar

K = TypeVar("K", bound=Hashable)
V = TypeVar("V")


class Recent(Generic[K, V]):
    """The values of the keys that were asked for last.

    Keys are long, and a table that is kept in the order of use would reckon the hash of a key
    three times: here there are two tables, of which the older is dropped when the newer is full.
    """

    def __init__(self, most: int) -> None:
        """Keep at most *most* values."""
        self._half = max(1, most // 2)
        self._newer: dict[K, V] = {}
        self._older: dict[K, V] = {}

    def __len__(self) -> int:
        """Return how many values are kept."""
        return len(self._newer.keys() | self._older.keys())

    def find(self, key: K) -> V | None:
        """Return the value that is kept for *key*, if there is one."""
        found = self._newer.get(key)
        if found is None and self._older:
            found = self._older.get(key)
            if found is not None:
                self.keep(key, found)
        return found

    def keep(self, key: K, value: V) -> V:
        """Keep *value* for *key*, and return it."""
        if len(self._newer) >= self._half:
            self._older, self._newer = self._newer, {}
        self._newer[key] = value
        return value

    def made(self, key: K, make: Callable[[], V]) -> V:
        """Return the value for *key*, made only if none is kept."""
        found = self.find(key)
        return self.keep(key, make()) if found is None else found
