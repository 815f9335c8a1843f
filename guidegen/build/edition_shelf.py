"""The guide and the round of each edition, kept or made again.

Takes in what was loaded of each edition, or the record of one of its units; gives out guide and
round by fingerprint. Refuses to grow with the fleet: only so many are kept, and another process is
given none of them, since to fit a guide anew costs less than to send it.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Self

from guidegen.build.load_group import FleetBase, load_group
from guidegen.guide.assemble import Assembly
from guidegen.guide.model import Guide
from guidegen.round.model import Round
from guidegen.specs.read_units import UnitRecord

MOST_KEPT = 1500
"""Editions; what they share is kept once, and one more takes about 60 kB."""


@dataclass(slots=True, eq=False)
class EditionShelf:
    """The editions of a fleet."""

    base: FleetBase = field(repr=False)
    firsts: dict[str, UnitRecord] = field(default_factory=dict)
    """Of each edition the record of a unit of which it can be made again."""

    kept: dict[str, tuple[Guide, Round | None]] = field(default_factory=dict, repr=False)
    _assembly: Assembly | None = field(default=None, repr=False)

    def put(self, guide: Guide, tour: Round | None, record: UnitRecord) -> None:
        """Keep an edition that was loaded; *record* is of the unit of *guide*."""
        self.firsts[guide.edition] = record
        self._keep(guide, tour)

    def guide(self, edition: str) -> Guide:
        """Return the guide of one unit of *edition*."""
        return self._edition(edition)[0]

    def tour(self, edition: str) -> Round | None:
        """Return the round of *edition*; none if no procedure has a place in one."""
        return self._edition(edition)[1]

    def _edition(self, edition: str) -> tuple[Guide, Round | None]:
        known = self.kept.get(edition)
        if known is not None:
            return known
        if self._assembly is None:
            self._assembly = Assembly(self.base.library)
        loaded = load_group(self.firsts[edition].spec(), self.base, self._assembly)
        if loaded.guide is None or loaded.planned is None or loaded.guide.edition != edition:
            raise LookupError(f"edition {edition} is not made of what it was made of before")
        self._keep(loaded.guide, loaded.planned.tour)
        return loaded.guide, loaded.planned.tour

    def _keep(self, guide: Guide, tour: Round | None) -> None:
        if len(self.kept) >= MOST_KEPT:
            self.kept.pop(next(iter(self.kept)))
        self.kept[guide.edition] = guide, tour

    def __reduce__(self) -> tuple[type[Self], tuple[FleetBase, dict[str, UnitRecord]]]:
        return type(self), (self.base, self.firsts)


@dataclass(frozen=True, slots=True, eq=False)
class LazyRounds(Mapping[str, Round]):
    """The inspection rounds by edition, each made when it is asked for."""

    editions: frozenset[str]
    """Those that have one."""

    shelf: EditionShelf = field(repr=False)

    def __getitem__(self, edition: str) -> Round:
        tour = self.shelf.tour(edition) if edition in self.editions else None
        if tour is None:
            raise KeyError(edition)
        return tour

    def __contains__(self, edition: object) -> bool:
        return edition in self.editions

    def __iter__(self) -> Iterator[str]:
        return iter(sorted(self.editions))

    def __len__(self) -> int:
        return len(self.editions)
