"""A fleet as it was at one of its releases.

Takes in the fleet as it stands and its record; gives out the fleet with the guides of then, each
put together again from what was kept. Refuses to pass off a guide of today as one of then: a truck
whose guide cannot be put together keeps that of today only if another truck is asked for.
"""

import json
from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType

from guidegen.build.edition_shelf import LazyRounds
from guidegen.build.load import Loaded
from guidegen.build.project import Project
from guidegen.build.record_files import Editions, edition_path, picture_name
from guidegen.finding import Findings
from guidegen.guide.model import Guide
from guidegen.guide.show_photos import with_pictures
from guidegen.photos.model import Photo
from guidegen.revisions.model import FleetHistory, Record, Revision, UnitHistory
from guidegen.revisions.origins import restored
from guidegen.revisions.snapshot import digest_of
from guidegen.round.fleet_rounds import plan_rounds


@dataclass(frozen=True, slots=True)
class FleetThen:
    """What it takes to go back."""

    project: Project
    loaded: Loaded
    """The fleet as it stands."""

    record: Record

    def at(self, revision: Revision) -> Loaded | None:
        """Return the fleet as it was when *revision* was released; nothing if its truck cannot be.

        Trucks that came later are not in it; neither are those that are gone by now.
        """
        then = released_with(self.record, revision)
        guides: dict[str, Guide] = {}
        for number, guide in self.loaded.guides.items():
            if number not in then:
                continue
            found = self._guide(guide, then[number][-1])
            if found is None and number == revision.unit:
                return None
            guides[number] = found or guide
        if revision.unit not in guides:
            return None
        planned = plan_rounds(guides, self.loaded.library, Findings())
        history = {unit: UnitHistory(revisions) for unit, revisions in then.items()}
        kept = self.loaded.guides.with_guides(guides, planned.rounds)
        return replace(
            self.loaded,
            unit_numbers=tuple(guides),
            guides=kept,
            rounds=LazyRounds(frozenset(planned.rounds), kept.shelf),
            history=FleetHistory(MappingProxyType(history), revision.date),
        )

    def _guide(self, guide: Guide, revision: Revision) -> Guide | None:
        if guide.edition == revision.edition:
            return guide
        kept = Editions(self.project, Findings()).kept(revision)
        if kept is None:
            return None
        content = json.loads(edition_path(self.project, revision.edition).read_bytes())
        found = restored(kept.guide, content.get("origins", {}), guide)
        return None if found is None else with_pictures(found, self._picture)

    def _picture(self, photo: Photo) -> bytes | None:
        """Return the picture that was kept of *photo*; none if it is not as it was."""
        path = self.project.records / picture_name(photo)
        raw = path.read_bytes() if path.is_file() else b""
        return raw if digest_of(raw) == photo.sha256 else None


def released_with(record: Record, revision: Revision) -> Mapping[str, tuple[Revision, ...]]:
    """Return what was released of each truck when the release of *revision* was over."""
    place = record.revisions.index(revision)
    end = place + 1
    met = {revision.unit}
    # A release has one date, one approval and one program, and no truck twice.
    while end < len(record.revisions) and _is_with(record.revisions[end], revision, met):
        met.add(record.revisions[end].unit)
        end += 1
    return Record(record.revisions[:end]).by_unit()


def _is_with(other: Revision, revision: Revision, met: set[str]) -> bool:
    alike = (other.date, other.by, other.program) == (revision.date, revision.by, revision.program)
    return alike and other.unit not in met
