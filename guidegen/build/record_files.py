"""The files that releases leave in a fleet's folder.

Takes in a project; gives out what was released, and writes what is to be.
Refuses half a release: an edition is kept before the record names it, and the record is replaced
as a whole. What a crash leaves between the two is a file that nothing names.
"""

import os
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from guidegen.build.project import Project
from guidegen.finding import Findings
from guidegen.guide.model import Guide
from guidegen.revisions import rules
from guidegen.revisions.model import FleetHistory, Record, Revision
from guidegen.revisions.plan import check_released, history_of
from guidegen.revisions.record import read_record
from guidegen.revisions.snapshot import Snapshot, read_snapshot

RECORD_FILE = "revisions.jsonl"
EDITIONS_FOLDER = "editions"

_ATTRIBUTES = b"# Every byte of these files is sealed: no line end may be changed.\n* -text\n"


class RecordChanged(RuntimeError):
    """The record is another than when the release was planned."""


@dataclass(frozen=True, slots=True)
class Editions:
    """The editions that a record names, read when they are asked for."""

    project: Project
    findings: Findings
    """Takes what is wrong with a file."""

    _read: dict[tuple[str, str], Snapshot | None] = field(default_factory=dict)

    def kept(self, revision: Revision) -> Snapshot | None:
        """Return the edition of *revision*, or nothing and a finding."""
        key = revision.edition, revision.snapshot
        if key not in self._read:
            self._read[key] = self._open(revision)
        return self._read[key]

    def _open(self, revision: Revision) -> Snapshot | None:
        path = edition_path(self.project, revision.edition)
        shown = self.project.shown(path)
        if not path.is_file():
            self.findings.add(
                rules.EDITION_DAMAGED,
                None,
                what=f"there is no `{shown}`, which revision {revision.number} of "
                f"{revision.unit} was released with",
                fix=f"get it back from git: `git restore {shown}`",
                place=shown,
            )
            return None
        expected = revision.edition, revision.snapshot
        return read_snapshot(shown, path.read_bytes(), expected, self.findings)


def record_path(project: Project) -> Path:
    """Return the path of the record of *project*, whether it is there or not."""
    return project.records / RECORD_FILE


def edition_path(project: Project, edition: str) -> Path:
    """Return the path of the file that keeps *edition*, whether it is there or not."""
    return project.records / EDITIONS_FOLDER / f"{edition}.json"


def record_bytes(project: Project) -> bytes:
    """Return the record as it stands; empty before the first release."""
    path = record_path(project)
    return path.read_bytes() if path.is_file() else b""


def open_record(project: Project, findings: Findings) -> Record | None:
    """Return the record of *project*, empty before the first release; nothing if it is damaged."""
    shown = project.shown(record_path(project))
    return read_record(shown, record_bytes(project), findings)


def read_history(
    project: Project, guides: Iterable[Guide], findings: Findings
) -> FleetHistory | None:
    """Return what was released of each truck; nothing if nothing was, or the record is damaged.

    Guides that are no revision are warned of.
    """
    record = open_record(project, findings)
    if record is None or not record.revisions:
        return None
    history = history_of(guides, record, Editions(project, findings).kept)
    check_released(history, project.shown(record_path(project)), findings)
    return history


def check_editions(project: Project, record: Record, findings: Findings) -> None:
    """Report every edition that *record* names and whose file is not as it was written."""
    editions = Editions(project, findings)
    for revision in record.revisions:
        editions.kept(revision)


def write_release(
    project: Project, before: bytes, editions: Mapping[str, bytes], lines: Iterable[bytes]
) -> None:
    """Keep *editions* and append *lines* to the record.

    Args:
        project: Whose record it is.
        before: The record as it was when the release was planned.
        editions: Files to keep, by fingerprint.
        lines: With their line breaks.

    Raises:
        RecordChanged: If another release came between.
    """
    folder = project.records / EDITIONS_FOLDER
    folder.mkdir(parents=True, exist_ok=True)
    attributes = project.records / ".gitattributes"
    if not attributes.exists():
        _write_durably(attributes, _ATTRIBUTES)
    for edition, raw in editions.items():
        _write_durably(edition_path(project, edition), raw)
    if record_bytes(project) != before:
        raise RecordChanged(record_path(project))
    _write_durably(record_path(project), before + b"".join(lines))


def _write_durably(path: Path, content: bytes) -> None:
    """Write *content* beside *path*, see it on the disk, and only then put it in place."""
    staged = path.with_name(f".{path.name}.new")
    with staged.open("wb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())
    os.replace(staged, path)  # noqa: PTH105 -- the call that is named in what it promises
