"""Which claims the proof of one file has asked for.

Takes in mappings and sets of claims; gives out the same, which note every key that is asked for,
and what was asked as one value to compare with another edition's. Refuses to let a question pass
unnoted: what is iterated over counts as asked for whole.
"""

from collections.abc import Callable, Collection, Iterator, Mapping
from collections.abc import Set as AbstractSet
from itertools import repeat
from typing import Any, Generic, NamedTuple, TypeVar, overload

from guidegen.proof.model import ValueThere
from guidegen.units.model import Fact

K = TypeVar("K")
V = TypeVar("V")
D = TypeVar("D")

_NOTHING = object()
"""Stands for a key that is not there."""


class Watched(Mapping[K, V], Generic[K, V]):
    """A mapping that notes which of its keys were asked for."""

    __slots__ = ("asked", "is_asked_whole", "whole")

    def __init__(self, whole: Mapping[K, V]) -> None:
        self.whole = whole
        self.asked: set[K] = set()
        self.is_asked_whole = False

    def __getitem__(self, key: K) -> V:
        self.asked.add(key)
        return self.whole[key]

    def __contains__(self, key: object) -> bool:
        self.asked.add(key)  # type: ignore[arg-type]  # a key that cannot be there is one too
        return key in self.whole

    @overload
    def get(self, key: K, /) -> V | None: ...
    @overload
    def get(self, key: K, /, default: V | D) -> V | D: ...
    def get(self, key: K, /, default: D | None = None) -> V | D | None:
        """Return what stands under *key*, or *default*."""
        self.asked.add(key)
        return self.whole.get(key, default)

    def __iter__(self) -> Iterator[K]:
        self.is_asked_whole = True
        return iter(self.whole)

    def __len__(self) -> int:
        self.is_asked_whole = True
        return len(self.whole)


class WatchedFacts(Watched[str, Fact]):
    """The facts of a unit, which note also what was asked of each."""

    __slots__ = ("held", "sections")

    def __init__(self, whole: Mapping[str, Fact]) -> None:
        super().__init__(whole)
        self.sections: set[str] = set()
        """Facts of which nothing was needed but the section of the spec in which they belong."""

        self.held: list[ValueThere] = []
        """Texts that were held against facts, and nothing else, each in a mark of its own."""


def fact_for_value(facts: Mapping[str, Fact], value: ValueThere) -> Fact | None:
    """Return the fact of *value* for nothing but to hold its text, as it stands, against it."""
    if isinstance(facts, WatchedFacts):
        facts.held.append(value)
        return facts.whole.get(value.fact)
    return facts.get(value.fact)


def section_of(facts: Mapping[str, Fact], name: str) -> str:
    """Return the section of the spec in which the fact *name* belongs; empty if there is none."""
    if isinstance(facts, WatchedFacts):
        facts.sections.add(name)
    fact = (facts.whole if isinstance(facts, WatchedFacts) else facts).get(name)
    return fact.field.section if fact else ""


class WatchedSet(Collection[K], Generic[K]):
    """A set that notes which members were asked for."""

    __slots__ = ("asked", "is_asked_whole", "whole")

    def __init__(self, whole: Collection[K]) -> None:
        self.whole = whole
        self.asked: set[K] = set()
        self.is_asked_whole = False

    def __contains__(self, member: object) -> bool:
        self.asked.add(member)  # type: ignore[arg-type]  # likewise
        return member in self.whole

    def __iter__(self) -> Iterator[K]:
        self.is_asked_whole = True
        return iter(self.whole)

    def __len__(self) -> int:
        self.is_asked_whole = True
        return len(self.whole)


class Asked(NamedTuple):
    """What was asked of one mapping or set, and what it said."""

    keys: tuple[Any, ...]
    """None at all if it was asked for whole."""

    said: Any
    """Values in the order of the keys; all of it if it was asked for whole."""

    is_whole: bool


Alike = Callable[[Any, Any], bool]
"""Whether two values say the same."""


def what_was_asked(watched: Watched[Any, Any] | WatchedSet[Any]) -> Asked:
    """Return what *watched* was asked, with what it said."""
    whole = watched.whole
    if watched.is_asked_whole:
        return Asked((), whole, is_whole=True)
    keys = tuple(watched.asked)
    return Asked(keys, _said(whole, keys), is_whole=False)


def would_say_the_same(asked: Asked, other: Collection[Any], alike: Alike) -> bool:
    """Whether *other*, asked the same, would say the same.

    Args:
        asked: Of `what_was_asked`.
        other: The mapping or set of another edition.
        alike: Compares two values that are not equal.
    """
    if asked.is_whole:
        return _items(asked.said) == _items(other)
    said = _said(other, asked.keys)
    return bool(said == asked.said) or all(
        one is two or (one is not _NOTHING and two is not _NOTHING and alike(one, two))
        for one, two in zip(asked.said, said, strict=True)
    )


def _said(whole: Collection[Any], keys: tuple[Any, ...]) -> tuple[Any, ...]:
    if isinstance(whole, Mapping):
        return tuple(map(whole.get, keys, repeat(_NOTHING)))
    return tuple(map(whole.__contains__, keys))


def _items(whole: Collection[Any]) -> object:
    if isinstance(whole, Mapping):
        # In order: what is iterated over is compared in order, too.
        return list(whole.items())
    return whole if isinstance(whole, AbstractSet) else list(whole)
