"""What a release leaves behind.

Takes in nothing; gives out revisions, drafts and the history of each truck as frozen values.
Refuses to know how any of it is worded, filed or printed.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from guidegen.guide.revision import REVISION_DIGITS


@dataclass(frozen=True, slots=True)
class Revision:
    """One issue of one truck's guide."""

    unit: str
    """Number of the truck."""

    number: int
    """From 1, for each truck by itself."""

    date: str
    """As ``2026-11-30``."""

    by: str
    """Who approved it."""

    edition: str
    """Fingerprint of the guide."""

    snapshot: str
    """SHA-256 of the file that keeps the edition, in hexadecimal."""

    changes: tuple[str, ...]
    """What changed since the revision before, in words, the gravest first; none in the first."""

    outputs: str = ""
    """SHA-256 of the list of the truck's published files and their hashes, in hexadecimal; empty in
    a record that kept none."""

    program: str = ""
    """Version and digest of guidegen with its templates, as it printed these files."""

    @property
    def digits(self) -> str:
        """What the code on a card says of it."""
        return self.edition[:REVISION_DIGITS]


@dataclass(frozen=True, slots=True)
class Draft:
    """A guide that differs from the last revision of its truck, or that has none."""

    edition: str
    changes: tuple[str, ...]
    """Since the last revision, in words, the gravest first; none without one."""

    @property
    def digits(self) -> str:
        """What the code on a card says of it."""
        return self.edition[:REVISION_DIGITS]


@dataclass(frozen=True, slots=True)
class UnitHistory:
    """All that was released of one truck's guide, and how the guide stands now."""

    revisions: tuple[Revision, ...] = ()
    """The first one first."""

    draft: Draft | None = None
    """The guide as it stands; none if it is that of the last revision."""

    @property
    def last(self) -> Revision | None:
        """The last revision, if there is one."""
        return self.revisions[-1] if self.revisions else None

    @property
    def issued(self) -> Revision | None:
        """The revision that the guide as it stands is of; none for a draft."""
        return self.last if self.draft is None else None


@dataclass(frozen=True, slots=True)
class FleetHistory:
    """The history of every truck that has a guide or ever had a revision."""

    units: Mapping[str, UnitHistory]
    """By number."""

    last_date: str
    """Of the newest revision of all, as ``2026-11-30``."""

    def of(self, unit: str) -> UnitHistory:
        """Return the history of the truck *unit*; an empty one if nothing was ever released."""
        return self.units.get(unit, UnitHistory())

    @property
    def drafts(self) -> tuple[str, ...]:
        """Numbers of the trucks whose guide is no revision."""
        return tuple(unit for unit, told in self.units.items() if told.draft is not None)


@dataclass(frozen=True, slots=True)
class Record:
    """All revisions of a fleet as they stand in its record."""

    revisions: tuple[Revision, ...] = ()
    """In the order of the file."""

    last_line: bytes = b""
    """With its line break; the next line names its SHA-256."""

    def of(self, unit: str) -> tuple[Revision, ...]:
        """Return the revisions of the truck *unit*, the first one first."""
        return tuple(each for each in self.revisions if each.unit == unit)

    def by_unit(self) -> Mapping[str, tuple[Revision, ...]]:
        """Return the revisions of each truck, in the order of their first ones."""
        units: dict[str, list[Revision]] = {}
        for each in self.revisions:
            units.setdefault(each.unit, []).append(each)
        return {unit: tuple(revisions) for unit, revisions in units.items()}

    @property
    def last_date(self) -> str:
        """Date of the last revision; empty if there is none."""
        return self.revisions[-1].date if self.revisions else ""
