"""What values need to travel between processes and into a store.

Takes in nothing; gives out nothing: it tells pickle how to take a frozen mapping apart.
Refuses nothing: whatever else our values are made of can be pickled already.
"""

import copyreg
from types import MappingProxyType
from typing import Any


def frozen(entries: dict[Any, Any]) -> MappingProxyType[Any, Any]:
    """Return *entries* as a mapping that nobody can change."""
    return MappingProxyType(entries)


def _parts_of(mapping: MappingProxyType[Any, Any]) -> tuple[object, ...]:
    return frozen, (dict(mapping),)


copyreg.pickle(MappingProxyType, _parts_of)  # type: ignore[arg-type]  # typed for other makers
