"""What is remembered of a fleet, in parts of a store.

Takes in values by name; gives out the same later, and writes only the parts in which a value
changed: with one truck changed of ten thousand, all but one part stay as they are. Refuses
nothing: parts of different runs may lie side by side, since each value is looked at by itself.
"""

import zlib
from collections.abc import Callable, Mapping, Sequence
from typing import Any, TypeVar

from guidegen.build.store import Store

V = TypeVar("V")

MOST_IN_PART = 512
"""About as many; an own choice. What one part takes to be written is not noticed."""

Part = Mapping[str, Any]
"""Some of the values, by name."""

KeyOf = Callable[[int, int], str]
"""Returns the key of a part from its place and the count of parts."""


def parts_of(values: Mapping[str, V], together: Callable[[str, V], str]) -> tuple[Part, ...]:
    """Return *values* in parts; at least one part.

    Args:
        values: By name.
        together: Returns the same of name and value for those that share much, and so are to lie
            in one part.
    """
    count = max(1, -(-len(values) // MOST_IN_PART))
    parts: list[dict[str, V]] = [{} for _ in range(count)]
    for name, value in values.items():
        parts[zlib.crc32(together(name, value).encode()) % count][name] = value
    return tuple(parts)


def write_parts(store: Store, key_of: KeyOf, parts: Sequence[Part], known: Sequence[Part]) -> None:
    """Keep *parts*, but for those that lie in *store* already.

    Args:
        store: Takes them.
        key_of: Where.
        parts: As of `parts_of`.
        known: As they were read from the store or written to it last; none if never.
    """
    count = len(parts)
    for place, part in enumerate(parts):
        if len(known) != count or not _is_same(part, known[place]):
            store.put(key_of(place, count), dict(part))


def read_parts(store: Store, key_of: KeyOf, count: int) -> tuple[Part, ...]:
    """Return the *count* parts that lie in *store*; one that is damaged or gone is empty."""
    found = (store.get(key_of(place, count)) for place in range(count))
    return tuple(part if isinstance(part, dict) else {} for part in found)


def joined(parts: Sequence[Part]) -> dict[str, Any]:
    """Return all values of *parts*."""
    return {name: value for part in parts for name, value in part.items()}


def _is_same(part: Part, other: Part) -> bool:
    """Whether both hold the very same values: to compare them would take as long as writing."""
    return part.keys() == other.keys() and all(other[name] is part[name] for name in part)
