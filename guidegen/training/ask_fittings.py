"""Questions for what a truck has and has not.

Takes in a guide and those of its fleet; gives out drafts that ask which of some things the truck
has, and which it has not.
Refuses things that no truck of the fleet is without, and things of which nothing is on record.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Self

from guidegen.differences.rank import SECTION_STANDINGS
from guidegen.guide.model import Guide
from guidegen.training.draft import WEIGHTS, Asking, Draft, Write
from guidegen.training.fleet_values import FEWEST_WRONG, MOST_WRONG
from guidegen.training.lots import Lots
from guidegen.training.model import (
    DATA,
    Question,
    QuestionKind,
    Term,
    TermKind,
    Where,
    section_key,
)
from guidegen.units.model import Presence


@dataclass(frozen=True, slots=True)
class FittingsPart:
    """What some trucks of a fleet have, and what some have not: dotted names of sections."""

    given: frozenset[str]
    absent: frozenset[str]

    @classmethod
    def of(cls, guides: Iterable[Guide]) -> Self:
        """Return those of *guides*."""
        given: set[str] = set()
        absent: set[str] = set()
        for guide in guides:
            given |= set(_with(guide, Presence.GIVEN))
            absent |= set(_with(guide, Presence.NOT_FITTED))
        return cls(frozenset(given), frozenset(absent))


@dataclass(frozen=True, slots=True)
class FleetFittings:
    """What some trucks of a fleet have and others have not."""

    names: frozenset[str]
    """Dotted names of sections."""

    @classmethod
    def of_parts(cls, parts: Iterable[FittingsPart]) -> Self:
        """Return those of a fleet that was looked at in *parts*."""
        seen = tuple(parts)
        given = frozenset[str]().union(*(part.given for part in seen))
        return cls(given.intersection(frozenset[str]().union(*(part.absent for part in seen))))


def fitting_drafts(guide: Guide, fittings: FleetFittings) -> Iterator[Draft]:
    """Yield a draft for each thing of which the guide says that it is fitted or not."""
    has = [name for name in _with(guide, Presence.GIVEN) if name in fittings.names]
    lacks = [name for name in _absent(guide) if name in fittings.names]
    for kind, right, wrong in (
        (QuestionKind.FITTED, has, lacks),
        (QuestionKind.NOT_FITTED, lacks, has),
    ):
        for name in right:
            standing = SECTION_STANDINGS[name]
            asking = Asking(
                kind=kind,
                subject=name,
                about=(),
                where=Where(DATA, "", name),
                standing=standing,
                asks=frozenset({section_key(name), kind.value}),
            )
            write = _writer(asking, name, wrong)
            weight = WEIGHTS[standing.rank]
            yield Draft(kind=kind, subject=name, weight=weight, write=write)


def _with(guide: Guide, presence: Presence) -> Iterator[str]:
    return (name for name, state in guide.sections.items() if state.presence is presence)


def _absent(guide: Guide) -> Iterator[str]:
    """Yield what the guide lists as not fitted; of a thing that is not there, no part is listed."""
    absent = set(_with(guide, Presence.NOT_FITTED))
    return (name for name in guide.sections if name in absent and _holder(name) not in absent)


def _holder(name: str) -> str:
    return name.rpartition(".")[0]


def _writer(asking: Asking, right: str, choices: list[str]) -> Write:
    def write(lots: Lots) -> Question | None:
        drawn = lots.shuffled(choices, str, f"wrong answers of {asking.kind.value}.{right}")
        wrong = [name for name in drawn if not _are_related(name, right)][:MOST_WRONG]
        if len(wrong) < FEWEST_WRONG:
            return None
        return asking.answered(_term(right), tuple(map(_term, wrong)), lots)

    return write


def _are_related(one: str, other: str) -> bool:
    """Whether one thing is a part of the other, so that one answer would say both."""
    return one.startswith(f"{other}.") or other.startswith(f"{one}.")


def _term(name: str) -> Term:
    return Term(TermKind.SECTION, name)
