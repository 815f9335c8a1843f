"""The quizzes of a fleet.

Takes in one guide of each edition and what the fleet knows; gives out the quiz of each edition,
written when it is asked for.
Refuses nothing: a guide that gives no question has a quiz without any.
"""

import enum
import hashlib
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, fields, is_dataclass, replace
from functools import lru_cache
from typing import Any, Self

from guidegen.guide.model import Guide
from guidegen.source import Span
from guidegen.training.fleet_values import FleetValues, ValuesByFact
from guidegen.training.model import Quiz
from guidegen.training.write_quiz import FleetKnowledge, write_quiz
from guidegen.units.model import Fact

_MOST_KEPT = 32
"""Quizzes at a time; units come by edition."""


@dataclass(slots=True, eq=False)
class _Watched(Mapping[str, Mapping[str, Fact]]):
    """Values of a fleet that notice which facts are asked for."""

    by_fact: ValuesByFact
    asked: set[str] = field(default_factory=set)

    def __getitem__(self, name: str) -> Mapping[str, Fact]:
        self.asked.add(name)
        return self.by_fact[name]

    def __iter__(self) -> Iterator[str]:
        self.asked.update(self.by_fact)
        return iter(self.by_fact)

    def __len__(self) -> int:
        return len(self.by_fact)


@dataclass(frozen=True, slots=True, eq=False)
class LazyQuizzes(Mapping[str, Quiz]):
    """The quizzes by edition, each written when it is asked for."""

    editions: frozenset[str]
    guide_of: Callable[[str], Guide] = field(repr=False)
    """Returns the guide of any unit of an edition."""

    knowledge: FleetKnowledge = field(repr=False)
    _kept: dict[str, Quiz] = field(default_factory=dict, repr=False)
    _asked: dict[str, frozenset[str]] = field(default_factory=dict, repr=False)
    _digests: dict[str, str] = field(default_factory=dict, repr=False)

    def asked_by(self, edition: str) -> frozenset[str]:
        """Return the facts whose values in other trucks the quiz of *edition* was drawn from."""
        if edition not in self._asked:
            self._kept.pop(edition, None)
            self[edition]
        return self._asked[edition]

    def digest_of(self, edition: str) -> str:
        """Return what two quizzes share if they ask and answer the same."""
        if edition not in self._digests:
            written = _written(self[edition]).encode()
            self._digests[edition] = hashlib.sha256(written).hexdigest()
        return self._digests[edition]

    def __getitem__(self, edition: str) -> Quiz:
        if edition not in self.editions:
            raise KeyError(edition)
        if edition not in self._kept:
            if len(self._kept) >= _MOST_KEPT:
                self._kept.clear()
            watched = _Watched(self.knowledge.values.by_fact)
            knowledge = replace(self.knowledge, values=FleetValues(watched))
            self._kept[edition] = write_quiz(self.guide_of(edition), knowledge)
            self._asked[edition] = frozenset(watched.asked)
        return self._kept[edition]

    def __contains__(self, edition: object) -> bool:
        return edition in self.editions

    def __iter__(self) -> Iterator[str]:
        return iter(sorted(self.editions))

    def __len__(self) -> int:
        return len(self.editions)

    def __reduce__(
        self,
    ) -> tuple[type[Self], tuple[frozenset[str], Callable[[str], Guide], FleetKnowledge]]:
        return type(self), (self.editions, self.guide_of, self.knowledge)


_PLAIN = frozenset({str, int, bool, type(None)})


@lru_cache
def _names_in(kind: type[Any]) -> tuple[str, ...]:
    return tuple(each.name for each in fields(kind))


def _written(value: object) -> str:
    """Return *value* as text that is the same in every process; places in files are left out."""
    if type(value) in _PLAIN:  # most of all that there is
        return repr(value)
    match value:
        case Span():
            written = ""
        case enum.Enum():
            written = value.name
        case frozenset():
            written = f"{{{','.join(sorted(map(_written, value)))}}}"
        case tuple():
            written = f"({','.join(map(_written, value))})"
        case _ if isinstance(value, Mapping):
            written = _written(tuple(value.items()))
        case _ if is_dataclass(value):
            kind: Any = type(value)
            own = (_written(getattr(value, name)) for name in _names_in(kind))
            written = f"{type(value).__name__}({','.join(own)})"
        case _:
            written = repr(value)
    return written
