"""The files that releases leave in a fleet's folder.

Takes in a project; gives out what was released, and writes what is to be.
Refuses half a release: what the record names is kept before it does, and the record is replaced as
a whole. What a crash leaves between the two is a file that nothing names.
"""

import hashlib
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

from guidegen.build.disk import DISK, Disk
from guidegen.build.lock import held
from guidegen.build.manifest import NoManifest, read_list
from guidegen.build.project import Project
from guidegen.finding import Findings
from guidegen.guide.model import Guide
from guidegen.photos.model import Photo
from guidegen.revisions import rules
from guidegen.revisions.head import check_head, head_of
from guidegen.revisions.model import FleetHistory, Record, Revision
from guidegen.revisions.plan import check_released, history_of
from guidegen.revisions.record import read_record
from guidegen.revisions.snapshot import Snapshot, read_snapshot

RECORD_FILE = "revisions.jsonl"
HEAD_FILE = "head"
EDITIONS_FOLDER = "editions"
OUTPUTS_FOLDER = "outputs"
PICTURES_FOLDER = "photos"
LOCK = "release.lock"

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


def edition_name(edition: str) -> str:
    """Return the path of the file that keeps *edition*, in the folder of the record."""
    return f"{EDITIONS_FOLDER}/{edition}.json"


def outputs_name(revision: Revision) -> str:
    """Return the path of the list of what was published of *revision*, in the same folder."""
    return f"{OUTPUTS_FOLDER}/{revision.unit}-{revision.number}.sha256"


def picture_name(photo: Photo) -> str:
    """Return the path of the file that keeps the picture of *photo*, in the same folder."""
    return f"{PICTURES_FOLDER}/{photo.sha256}.jpg"


def edition_path(project: Project, edition: str) -> Path:
    """Return the path of the file that keeps *edition*, whether it is there or not."""
    return project.records / edition_name(edition)


def record_bytes(project: Project) -> bytes:
    """Return the record as it stands; empty before the first release."""
    path = record_path(project)
    return path.read_bytes() if path.is_file() else b""


def open_record(project: Project, findings: Findings) -> Record | None:
    """Return the record of *project*, empty before the first release; nothing if it is damaged."""
    shown, raw = project.shown(record_path(project)), record_bytes(project)
    record = read_record(shown, raw, findings)
    if record is None:
        return None
    head = project.records / HEAD_FILE
    own = Findings()
    check_head(raw, head.read_bytes() if head.is_file() else None, shown, own)
    findings.extend(own)
    return None if own.has_errors else record


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


def read_outputs(
    project: Project, revision: Revision, findings: Findings
) -> Mapping[str, str] | None:
    """Return the SHA-256 of each file that was published of *revision*, by path in the site.

    Nothing and a finding if the list is damaged, and nothing if the record of that time kept none.
    """
    if not revision.outputs:
        return None
    path = project.records / outputs_name(revision)
    shown = project.shown(path)
    raw = path.read_bytes() if path.is_file() else b""
    try:
        if hashlib.sha256(raw).hexdigest() == revision.outputs:
            return read_list(raw)
        what = f"there is no `{shown}`" if not raw else f"`{shown}` is not as it was written"
    except NoManifest as fault:
        what = f"`{shown}`: {fault}"
    fix = f"get it back from git: `git restore {shown}`"
    findings.add(rules.OUTPUTS_DAMAGED, None, what=what, fix=fix, place=shown)
    return None


@contextmanager
def alone(project: Project, since: str, disk: Disk = DISK) -> Iterator[None]:
    """Keep other releases of *project* out meanwhile.

    Args:
        project: Whose record it is.
        since: The time of day, for whoever is kept waiting.
        disk: On which the folder of the record stands.

    Raises:
        Locked: If another release is under way.
    """
    disk.make_folder(project.records)
    try:
        with held(project.records / LOCK, since, disk):
            yield
    finally:
        if not any(project.records.iterdir()):
            disk.remove_folder(project.records)


def write_release(
    project: Project,
    before: bytes,
    kept: Mapping[str, bytes],
    lines: Iterable[bytes],
    disk: Disk = DISK,
) -> None:
    """Keep files and append *lines* to the record.

    Args:
        project: Whose record it is.
        before: The record as it was when the release was planned.
        kept: Files to keep, by path in the folder of the record.
        lines: With their line breaks.
        disk: On which the folder of the record stands.

    Raises:
        RecordChanged: If another release came between.
    """
    pictures = (PICTURES_FOLDER,) if any(map(_is_picture, kept)) else ()
    for folder in (EDITIONS_FOLDER, OUTPUTS_FOLDER, *pictures):
        disk.make_folder(project.records / folder)
    _clear(project.records, disk)
    attributes = project.records / ".gitattributes"
    if not attributes.exists():
        disk.put(attributes, _ATTRIBUTES)
    for name, raw in kept.items():
        disk.put(project.records / name, raw)
    if record_bytes(project) != before:
        raise RecordChanged(record_path(project))
    head, after = project.records / HEAD_FILE, before + b"".join(lines)
    if not before and not head.exists():
        # A first release that is cut short before it counts its lines has counted none.
        disk.put(head, head_of(before))
    disk.put(record_path(project), after)
    # Counted last: a record that is longer than it should be has lost nothing.
    disk.put(head, head_of(after))


def finish_release(project: Project, disk: Disk = DISK) -> None:
    """Count the lines of a release that was cut short before it did, and clear up after it.

    Args:
        project: Whose record it is; it was read, and nothing is wrong with it.
        disk: On which the folder of the record stands.
    """
    _clear(project.records, disk)
    raw, head = record_bytes(project), project.records / HEAD_FILE
    if raw and not (head.is_file() and head.read_bytes() == head_of(raw)):
        disk.put(head, head_of(raw))


def _is_picture(name: str) -> bool:
    return name.startswith(f"{PICTURES_FOLDER}/")


def _clear(records: Path, disk: Disk) -> None:
    """Remove what a release that was cut short has left half written."""
    for folder in ("", EDITIONS_FOLDER, OUTPUTS_FOLDER, PICTURES_FOLDER):
        for path in sorted((records / folder).glob(".*.new")):
            disk.remove(path)
