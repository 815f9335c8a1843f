"""What values need to travel between processes and into a store.

Takes in nothing; gives out nothing: it tells pickle how to take a frozen mapping apart, and values
of which a fleet has very many. Refuses nothing: whatever else our values are made of can be pickled
already.
"""

import copyreg
from dataclasses import fields
from operator import attrgetter
from types import MappingProxyType
from typing import Any, TypeVar

T = TypeVar("T")


def frozen(entries: dict[Any, Any]) -> MappingProxyType[Any, Any]:
    """Return *entries* as a mapping that nobody can change."""
    return MappingProxyType(entries)


def _parts_of(mapping: MappingProxyType[Any, Any]) -> tuple[object, ...]:
    return frozen, (dict(mapping),)


copyreg.pickle(MappingProxyType, _parts_of)  # type: ignore[arg-type]  # typed for other makers


def numerous(cls: type[T]) -> type[T]:
    """Have pickle make instances of the data class *cls* as anybody does, from all its fields.

    What data classes with slots do by themselves takes twice as long, which shows in a fleet that
    has a hundred thousand of them.

    Raises:
        TypeError: If *cls* has a field that cannot be given to it in the order of fields.
    """
    names = [each.name for each in fields(cls)]  # type: ignore[arg-type]  # decorated before
    if len(names) < 2 or not all(each.init and not each.kw_only for each in fields(cls)):  # type: ignore[arg-type]  # noqa: PLR2004 -- of one the getter gives no tuple
        raise TypeError(f"{cls.__name__} is not made from its fields in their order")
    values_of = attrgetter(*names)
    copyreg.pickle(cls, lambda value: (cls, values_of(value)))
    return cls
