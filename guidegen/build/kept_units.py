"""What is remembered of the units of a fleet, in parts of a store.

Takes in units by number; gives out the same later, and writes only the parts in which a unit
changed: with one truck changed of ten thousand, all but one part stay as they are. Refuses
nothing: parts of different runs may lie side by side, since each unit is looked at by itself.
"""

import zlib
from collections.abc import Callable, Mapping, Sequence

from guidegen.build.store import Store
from guidegen.build.unit_made import UnitKept

UNITS_IN_PART = 512
"""About as many; an own choice. What one part takes to be written is not noticed."""

Part = Mapping[str, UnitKept]
"""Some of the units, by number; all of an edition, which share much."""

KeyOf = Callable[[int, int], str]
"""Returns the key of a part from its place and the count of parts."""


def parts_of(units: Mapping[str, UnitKept]) -> tuple[Part, ...]:
    """Return *units* in parts, those of an edition in one; at least one part."""
    count = max(1, -(-len(units) // UNITS_IN_PART))
    parts: list[dict[str, UnitKept]] = [{} for _ in range(count)]
    for number, kept in units.items():
        parts[zlib.crc32(kept.made.verdict.edition.encode()) % count][number] = kept
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


def _is_same(part: Part, other: Part) -> bool:
    """Whether both hold the very same values: to compare them would take as long as writing."""
    return part.keys() == other.keys() and all(other[number] is part[number] for number in part)
