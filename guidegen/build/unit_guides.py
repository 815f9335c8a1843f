"""The guides of all units, each made when it is asked for.

Takes in groups of units that state the same, with what came of each group; gives out units and
guides by number, and the editions with their units.
Refuses to keep what can be made: a unit costs its number and what tells it apart, and the rest is
its edition's.

Values and sections of a guide carry the place where they are stated. A guide that was made for a
unit from its edition has the identity's places in the unit's own file, and all others in the file
of the unit that the edition was loaded from. What shows places takes them from the unit itself:
`LazyUnits` reads its file again, and `own_place` leads from any place to the one that the unit's
own file or model states the same at.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from guidegen.build.edition_shelf import EditionShelf
from guidegen.build.load_group import FleetBase
from guidegen.finding import Findings
from guidegen.guide.model import Guide
from guidegen.round.model import Round
from guidegen.source import Span
from guidegen.specs.read_units import UnitRecord
from guidegen.units.identity import identity_of
from guidegen.units.model import Identity, Unit
from guidegen.units.resolve import resolve_unit


@dataclass(frozen=True, slots=True)
class EditionUnits:
    """One edition with all its units."""

    edition: str
    records: tuple[UnitRecord, ...]
    """Of all its units, in the order of guides."""

    shelf: EditionShelf = field(repr=False)

    @property
    def guide(self) -> Guide:
        """Guide of one of its units."""
        return self.shelf.guide(self.edition)

    @property
    def numbers(self) -> tuple[str, ...]:
        """Unit numbers."""
        return tuple(record.number for record in self.records)

    def identities(self) -> Iterator[Identity]:
        """Yield what tells each unit apart: `Guide.of_unit` makes its guide of it."""
        for record in self.records:
            yield identity_of(record.own(), self.shelf.base.specs.fleet)

    def guides(self) -> Iterator[Guide]:
        """Yield the guide of each unit."""
        for identity in self.identities():
            yield self.guide.of_unit(identity)


@dataclass(frozen=True, slots=True, eq=False)
class LazyGuides(Mapping[str, Guide]):
    """The guides by unit number, in the order of numbers, each made when it is asked for."""

    members: Mapping[str, tuple[str, UnitRecord]]
    """Of each unit its edition and its own record."""

    shelf: EditionShelf = field(repr=False)

    def __getitem__(self, number: str) -> Guide:
        edition, record = self.members[number]
        guide = self.shelf.guide(edition)
        if guide.number == number:
            return guide
        return guide.of_unit(identity_of(record.own(), self.shelf.base.specs.fleet))

    def __contains__(self, number: object) -> bool:
        return number in self.members

    def __iter__(self) -> Iterator[str]:
        return iter(self.members)

    def __len__(self) -> int:
        return len(self.members)

    def edition_of(self, number: str) -> str:
        """Return the fingerprint of the guide of the unit *number*, which is not made for it."""
        return self.members[number][0]

    def is_loaded(self, number: str) -> bool:
        """Whether the unit is one that its edition was loaded from, with its own places."""
        edition, _ = self.members[number]
        return self.shelf.firsts[edition].number == number

    def with_guides(self, guides: Mapping[str, Guide], rounds: Mapping[str, Round]) -> "LazyGuides":
        """Return other *guides* of some of these units, which this process alone can give out.

        Args:
            guides: By number.
            rounds: By edition.
        """
        shelf = EditionShelf(self.shelf.base)
        members: dict[str, tuple[str, UnitRecord]] = {}
        for number, guide in guides.items():
            _, record = self.members[number]
            members[number] = guide.edition, record
            if guide.edition not in shelf.firsts:
                shelf.put(guide, rounds.get(guide.edition), record)
        return LazyGuides(members, shelf)

    def editions(self) -> Mapping[str, EditionUnits]:
        """Return the editions by fingerprint, in the order of their first units."""
        found: dict[str, list[UnitRecord]] = {}
        for edition, record in self.members.values():
            found.setdefault(edition, []).append(record)
        return MappingProxyType(
            {
                edition: EditionUnits(edition, tuple(records), self.shelf)
                for edition, records in found.items()
            }
        )


@dataclass(frozen=True, slots=True, eq=False)
class LazyUnits(Mapping[str, Unit]):
    """The units by number, in the order of numbers, each read and resolved when it is asked for.

    Every place of a unit is in its own file, its model or the library.
    """

    records: Mapping[str, UnitRecord]
    known: Mapping[str, Unit]
    """Those that were resolved already."""

    base: FleetBase = field(repr=False)

    def __getitem__(self, number: str) -> Unit:
        known = self.known.get(number)
        if known is not None:
            return known
        unit = resolve_unit(self.records[number].spec(), self.base.specs, Findings())
        if unit is None:
            raise KeyError(number)
        return unit

    def none(self) -> "LazyUnits":
        """Return none of them, for those who are sent a fleet and do not need its units."""
        return LazyUnits({}, {}, self.base)

    def __contains__(self, number: object) -> bool:
        return number in self.records

    def __iter__(self) -> Iterator[str]:
        return iter(self.records)

    def __len__(self) -> int:
        return len(self.records)


def own_place(guide: Guide, unit: Callable[[], Unit], span: Span) -> Span:
    """Return the place at which a unit itself states what its *guide* has from *span*.

    Args:
        guide: Of the unit, as `LazyGuides` gives it out.
        unit: Gives out the unit with its own places; called only if *span* is one of a value or
            section of the guide.
        span: Any place; returned as it is if it is no such one.
    """
    facts = (name for name, fact in guide.facts.items() if fact.provenance.span == span)
    name = next(facts, None)
    if name is not None:
        return unit().facts[name].provenance.span
    section = next((name for name, e in guide.sections.items() if e.span == span), None)
    own = None if section is None else unit().sections[section].span
    return own or span
