"""From guides that changed to new revisions.

Takes in a project, who approves and the date; gives out the revisions, and the publication that
must be proved before they are written. Refuses a truck whose guide has faults, a date before the
last release, and a record or edition that is not as it was written.
"""

from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from guidegen.build.cover import cover_fleet
from guidegen.build.disk import DISK, Disk
from guidegen.build.load import Loaded, load_fleet
from guidegen.build.outputs import outputs_of
from guidegen.build.program import program_of
from guidegen.build.progress import Progress, unseen
from guidegen.build.project import Project
from guidegen.build.publication import Publication, publication_of
from guidegen.build.record_files import (
    check_editions,
    edition_name,
    open_record,
    outputs_name,
    picture_name,
    record_bytes,
    record_path,
    write_release,
)
from guidegen.finding import FaultyInput, Findings
from guidegen.guide.show_photos import photos_in
from guidegen.revisions import rules
from guidegen.revisions.model import FleetHistory, Record, Revision
from guidegen.revisions.plan import history_of, revisions_of, with_revisions
from guidegen.revisions.record import RELEASES, lines_of
from guidegen.revisions.report import FIRST, revision_as_json
from guidegen.revisions.snapshot import digest_of, snapshot_bytes


@dataclass(frozen=True, slots=True)
class Approval:
    """Who releases, and when."""

    by: str
    date: str
    """As ``2026-11-30``."""


@dataclass(frozen=True, slots=True)
class Release:
    """What is to be released."""

    publication: Publication
    """The site as it is once the revisions are recorded; to be proved first."""

    issued: tuple[Revision, ...]
    before: bytes
    """The record as it was."""

    last_line: bytes
    """Of the record as it was."""

    kept: Mapping[str, bytes]
    """Files to keep, by path in the folder of the record."""

    def with_outputs(self, site: Path) -> "Release":
        """Return the release with the hashes of what is published of each truck.

        Args:
            site: As the publication has drawn it, and as it was proved.
        """
        program = program_of(self.publication.project)
        lists = {each: outputs_of(site, each.unit) for each in self.issued}
        issued = tuple(
            replace(each, outputs=digest_of(raw), program=program) for each, raw in lists.items()
        )
        listed = {outputs_name(each): raw for each, raw in lists.items()}
        return replace(self, issued=issued, kept={**self.kept, **listed})

    def write(self, disk: Disk = DISK) -> None:
        """Keep the editions and record the revisions.

        Raises:
            RecordChanged: If another release came between.
        """
        lines = lines_of(self.issued, self.last_line)
        write_release(self.publication.project, self.before, self.kept, lines, disk)

    def as_json(self) -> dict[str, Any]:
        """Return it as records that JSON can hold."""
        return {"revisions": [revision_as_json(each) for each in self.issued]}

    def as_text(self) -> str:
        """Return it for a terminal."""
        lines = []
        for each in self.issued:
            lines.append(f"{each.unit}: revision {each.number}, {each.date}")
            lines += [f"  {change}" for change in each.changes or (FIRST,)]
        return "\n".join(lines)


def plan_release(
    project: Project, approval: Approval, findings: Findings, progress: Progress = unseen
) -> Release | None:
    """Return what a release would issue, or nothing if faults hold back all of it.

    Args:
        project: Whose guides are released.
        approval: Who releases, and when.
        findings: Takes the faults; those of single trucks hold back these trucks only.
        progress: Shows how far the work has come.
    """
    own = Findings()
    loaded = load_fleet(project, own, progress)
    # That they are not released is about to change.
    findings.extend(each for each in own if each.rule is not rules.GUIDE_NOT_RELEASED)
    own = Findings()
    record = open_record(project, own) if loaded else None
    if loaded is None or record is None:
        return None
    check_editions(project, record, own)
    place = project.shown(record_path(project))
    RELEASES.check_date(approval.date, record.last_date, place, own)
    findings.extend(own)
    ready = _ready(project, loaded, findings)
    if own.has_errors or ready is None:
        return None
    return _planned(_Base(project, loaded, record), ready, approval, findings)


@dataclass(frozen=True, slots=True)
class _Base:
    """What a release is planned from."""

    project: Project
    loaded: Loaded
    record: Record

    @property
    def history(self) -> FleetHistory:
        """What was released so far; before the first release every guide is a draft."""
        if self.loaded.history is not None:
            return self.loaded.history
        return history_of(self.loaded.guides.values(), self.record, lambda _: None)


def _ready(project: Project, loaded: Loaded, findings: Findings) -> Collection[str] | None:
    """Return the numbers of the trucks whose guides have no fault; nothing if the list has one."""
    own = Findings()
    covered = cover_fleet(project, loaded, own)
    findings.extend(own)
    if covered is None and own.has_errors:
        return None
    gaps = {each.unit for each in covered.units if each.gaps} if covered else set[str]()
    for number in loaded.unit_numbers:
        if number not in loaded.guides or number in gaps:
            findings.add(
                rules.UNIT_NOT_RELEASED,
                None,
                what=f"`{number}` is held back and not released",
                fix="mend what `guidegen check` reports of it, and release again",
                unit=number,
                place=f"specs/units/{number}.yml",
            )
    return [number for number in loaded.guides if number not in gaps]


def _planned(
    base: _Base, ready: Collection[str], approval: Approval, findings: Findings
) -> Release | None:
    loaded, history = base.loaded, base.history
    named = {each.edition: each.snapshot for each in base.record.revisions}
    drafts = [number for number in ready if history.of(number).draft is not None]
    guides = {loaded.guides[number].edition: loaded.guides[number] for number in drafts}
    # An edition that is kept already stays as it is: guidegen may word a label otherwise now.
    editions = {e: snapshot_bytes(guide) for e, guide in guides.items() if e not in named}
    digests = {**named, **{edition: digest_of(raw) for edition, raw in editions.items()}}
    kept = {number: digests[loaded.guides[number].edition] for number in drafts}
    issued = revisions_of(history, kept, date=approval.date, by=approval.by)
    released = replace(loaded, history=with_revisions(history, issued))
    try:
        publication = publication_of(base.project, released, findings)
    except FaultyInput:
        return None
    kept_files = {edition_name(edition): raw for edition, raw in editions.items()}
    photos = (photo for edition in editions for photo in photos_in(guides[edition]))
    kept_files.update((picture_name(photo), photo.raw) for photo in photos)
    before = record_bytes(base.project)
    return Release(publication, issued, before, base.record.last_line, kept_files)
