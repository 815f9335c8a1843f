"""From a clerk's workbook to changed spec files, all or none.

Takes in a project and the bytes of a workbook; gives out the plan of the import, and writes it.
Refuses to write while anything is wrong: a cell, a file, or two values of a truck that cannot
both be true.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from guidegen.build.project import Project
from guidegen.build.spec_disk import Disk
from guidegen.build.spec_journal import (
    ChangedMeanwhile,
    NewBytes,
    Unfinished,
    report_unfinished,
    write_together,
)
from guidegen.build.workbook_files import NewFile, SpecFiles, new_files, read_files, read_workbook
from guidegen.finding import Finding, Findings, Note
from guidegen.plausibility.check import plausible_units
from guidegen.plausibility.rulebook import RULEBOOK
from guidegen.specs.model import Spec
from guidegen.units.resolve import resolve_units
from guidegen.workbook import rules
from guidegen.workbook.apply import cell_of
from guidegen.workbook.check_book import Book
from guidegen.workbook.model import SOURCE, Kind, Place, RecordKey, origin_of
from guidegen.workbook.tell import change_line, new_line
from guidegen.workbook.topics import SOURCES
from guidegen.workbook.touched import Entered


@dataclass(frozen=True, slots=True)
class ImportPlan:
    """What an import would do."""

    book: Book
    entered: Entered
    files: tuple[NewFile, ...]
    newer: tuple[str, ...]
    """Files that are not as they were when the workbook was exported."""

    @property
    def lines(self) -> tuple[str, ...]:
        """One line for each change, as the dry run shows it."""
        lines = []
        for file in self.files:
            if file.old is None:
                lines.append(new_line(file.record, self.entered.new[file.record.id]))
            lines += [change_line(change) for change in file.changes]
        return tuple(lines)

    def as_json(self) -> dict[str, Any]:
        """Return it as records that JSON can hold."""
        changes = [
            {
                "kind": change.kind.value,
                "of": change.key,
                "name": change.name,
                "before": change.before,
                "after": change.after,
                "place": change.place.within(self.book.file),
                "file": file.record.path,
            }
            for file in self.files
            for change in file.changes
        ]
        new = [
            {"kind": file.record.kind.value, "of": file.record.key, "file": file.record.path}
            for file in self.files
            if file.old is None
        ]
        return {"changes": changes, "new": new, "newer": list(self.newer)}


def plan_import(project: Project, name: str, raw: bytes, findings: Findings) -> ImportPlan | None:
    """Return what importing the workbook *raw* would change, or nothing if it cannot be read.

    Args:
        project: Whose specs are to change.
        name: Of the workbook's file, for findings.
        raw: Its bytes.
        findings: Takes what is wrong; with an error among them nothing may be written.
    """
    files = read_files(project, findings)
    read = read_workbook(name, raw, findings)
    if files is None or read is None:
        return None
    book, entered = read
    made = new_files(files, book, entered, findings)
    _warn_of_sources(book, made, findings)
    if not findings.has_errors:
        _check_trucks(book, files, made, findings)
    return ImportPlan(book, entered, made, tuple(sorted(_newer(book, files))))


def _newer(book: Book, files: SpecFiles) -> Iterator[str]:
    for exported in book.records:
        now = files.records.get(exported.id)
        if now is None or now.digest != exported.digest:
            yield exported.path


def write_import(
    project: Project, plan: ImportPlan, findings: Findings, disk: Disk | None = None
) -> bool:
    """Write all files of *plan*; say no, with a finding, if that was not to be."""
    files = [
        NewBytes(file.record.path.removeprefix("specs/"), file.old, file.new) for file in plan.files
    ]
    try:
        write_together(project.specs, files, disk or Disk())
    except ChangedMeanwhile as fault:
        findings.add(
            rules.CHANGED_MEANWHILE,
            None,
            what=f"`specs/{fault}` was saved while the workbook was looked through",
            fix="run the import again; it starts from the file as it is now",
            place=f"specs/{fault}",
        )
    except Unfinished as fault:
        report_unfinished(findings, str(fault))
    except OSError as fault:
        findings.add(
            rules.CANNOT_WRITE,
            None,
            what=f"nothing was changed, since the folder refuses: {fault.strerror or fault}",
            fix="make room on the disk, or have the folder `specs` opened for writing, and run the"
            " import again",
            place=project.shown(project.specs),
        )
    else:
        return True
    return False


def _warn_of_sources(book: Book, made: Iterable[NewFile], findings: Findings) -> None:
    for file in made:
        changed = {change.name for change in file.changes}
        for change in file.changes:
            source = file.record.sources.get(change.name)
            is_kept = origin_of(change.name, SOURCE) not in changed
            if source and is_kept and change.before is not None and change.after is not None:
                what = f"`{change.name}` changes, and its source stays `{source[:60]}`"
                fix = (
                    "look whether that says the new value, and correct source and day on the"
                    f" sheet {SOURCES}"
                )
                book.report(findings, rules.OLD_SOURCE_KEPT, change.place, what, fix)


def _check_trucks(
    book: Book, files: SpecFiles, made: tuple[NewFile, ...], findings: Findings
) -> None:
    """Report what the other readers find wrong with the trucks that change, and did not before."""
    after = {**files.specs, **{file.record.id: file.spec for file in made}}
    changed = {file.record.id for file in made}
    touched = {
        key
        for (kind, key), spec in after.items()
        if kind is Kind.TRUCK and ((kind, key) in changed or (Kind.MODEL, spec.model) in changed)
    }
    known = {_name(finding) for finding in _doubts(files, files.specs, touched)}
    for finding in _doubts(files, after, touched):
        if _name(finding) not in known:
            findings.extend([_at_cell(finding, book, made)])


def _name(finding: Finding) -> tuple[str, str]:
    return finding.rule.name, finding.what


def _doubts(files: SpecFiles, specs: Mapping[RecordKey, Spec], touched: set[str]) -> Findings:
    found = Findings()
    wanted = {id_: s for id_, s in specs.items() if id_[0] is Kind.MODEL or id_[1] in touched}
    resolved = resolve_units(files.resolved_from(wanted), found)
    plausible_units(resolved, files.ground.profile.stated, RULEBOOK, found)
    return found


def _at_cell(finding: Finding, book: Book, made: tuple[NewFile, ...]) -> Finding:
    place: Place | None = None
    for file in made:
        for span in (finding.span, *(note.span for note in finding.notes)):
            if place is None and span is not None and span.file.path == file.record.path:
                place = cell_of(span, file.new, file.changes)
    if place is None:
        place = next((file.changes[0].place for file in made if file.changes), None)
    if place is None:
        return finding
    notes = (*finding.notes, *([Note("it stands at", finding.span)] if finding.span else []))
    return replace(finding, span=None, place=place.within(book.file), notes=notes)
