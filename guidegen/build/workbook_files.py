"""A fleet's spec files as a workbook, and a workbook as new spec files.

Takes in a project; gives out the bytes of its workbook, or the plan of an import. Refuses to plan
anything on files that have faults: they are mended first.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from guidegen.build.project import Project
from guidegen.build.read_specs import load_ground
from guidegen.finding import Findings, nearest
from guidegen.quantity.model import System
from guidegen.specs import rules as spec_rules
from guidegen.specs.model import Spec
from guidegen.units.resolve import FleetSpecs
from guidegen.workbook import rules
from guidegen.workbook.apply import cell_of, changed_file, new_file, read_back
from guidegen.workbook.changes import Comparison, exported_own
from guidegen.workbook.check_book import Book, open_book
from guidegen.workbook.draw import A4, LETTER, draw_workbook
from guidegen.workbook.model import Change, Kind, Record, RecordKey
from guidegen.workbook.read import read_grids
from guidegen.workbook.records import read_spec, record_of
from guidegen.workbook.touched import Entered, entered_in
from guidegen.workbook.yaml_edit import UneditableText

DEFAULT_NAME = "fleet.xlsx"
FOLDERS = {Kind.MODEL: "models", Kind.TRUCK: "units"}


@dataclass(frozen=True, slots=True)
class SpecFiles:
    """The unit and model files of a fleet, read."""

    ground: FleetSpecs
    """What else the fleet's specs state."""

    records: Mapping[RecordKey, Record]
    specs: Mapping[RecordKey, Spec]
    raws: Mapping[RecordKey, bytes]

    def resolved_from(self, specs: Mapping[RecordKey, Spec]) -> FleetSpecs:
        """Return all that the fleet's files state, with *specs* for its units and models."""
        units = {key: spec for (kind, key), spec in specs.items() if kind is Kind.TRUCK}
        models = {key: spec for (kind, key), spec in specs.items() if kind is Kind.MODEL}
        return replace(self.ground, units=units, models=models)


@dataclass(frozen=True, slots=True)
class NewFile:
    """One spec file as it is to be."""

    record: Record
    """As it is; of a new file, empty."""

    old: bytes | None
    new: bytes
    spec: Spec
    changes: tuple[Change, ...]


def read_files(project: Project, findings: Findings) -> SpecFiles | None:
    """Return the files of *project*, or nothing if any has faults."""
    own = Findings()
    ground = load_ground(project, own)
    records: dict[RecordKey, Record] = {}
    specs: dict[RecordKey, Spec] = {}
    raws: dict[RecordKey, bytes] = {}
    for kind, folder in FOLDERS.items():
        for path, raw in project.spec_files(folder):
            spec = read_spec(kind, path, raw, own)
            if spec is None:
                continue
            record = record_of(kind, spec, path, raw)
            if record.id in records:
                twice = spec_rules.UNIT_TWICE if kind is Kind.TRUCK else spec_rules.MODEL_TWICE
                what = f"`{record.key}` has two files"
                own.add(twice, spec.span, what=what, fix="delete one of the two")
            records[record.id], specs[record.id], raws[record.id] = record, spec, raw
    findings.extend(own)
    if ground is None or own.has_errors:
        return None
    return SpecFiles(ground, records, specs, raws)


def export_workbook(project: Project, findings: Findings) -> tuple[bytes, int] | None:
    """Return the workbook and how many trucks are in it, or nothing if files have faults."""
    files = read_files(project, findings)
    if files is None:
        return None
    fleet = files.ground.fleet
    paper = LETTER if fleet.first is System.US else A4
    records = list(files.records.values())
    raw = draw_workbook(records, fleet.yards, fleet.name, paper=paper)
    return raw, sum(record.kind is Kind.TRUCK for record in records)


def read_workbook(name: str, raw: bytes, findings: Findings) -> tuple[Book, Entered] | None:
    """Return the workbook and what was entered in it, or nothing if it is none of ours.

    Args:
        name: Of the file, for findings.
        raw: Its bytes.
        findings: Takes what is wrong.
    """
    grids = read_grids(name, raw, findings)
    book = open_book(name, grids, findings) if grids is not None else None
    return None if book is None else (book, entered_in(book, findings))


def new_files(
    files: SpecFiles, book: Book, entered: Entered, findings: Findings
) -> tuple[NewFile, ...]:
    """Return the spec files that change, in the order of trucks and models.

    Faults are reported at the cell; the files are then not to be written.
    """
    made = []
    exported = exported_own(book)
    order = sorted({*entered.touched, *entered.new}, key=lambda id_: (id_[0].value, id_[1]))
    for id_ in order:
        if id_[0] is Kind.TRUCK and id_ in entered.new:
            _check_model(files, book, entered, id_[1], findings)
        changes = _changes_of(id_, files, book, entered, exported, findings)
        if changes or (id_ in entered.new and id_ not in files.records):
            new = _new_file(id_, files, entered, changes, book, findings)
            if new is not None:
                made.append(new)
    return tuple(made)


def _check_model(
    files: SpecFiles, book: Book, entered: Entered, number: str, findings: Findings
) -> None:
    if number not in entered.models:
        return
    model, place = entered.models[number]
    known = [key for kind, key in (*files.records, *entered.new) if kind is Kind.MODEL]
    if model not in known:
        near = nearest(model, known)
        guess = f"did you mean `{near}`? " if near else ""
        what = f"`{number}` is of model `{model}`, and there is no such model"
        fix = f"{guess}Choose one of the list, or enter the model on the sheet Models"
        book.report(findings, spec_rules.UNKNOWN_MODEL, place, what, fix)
    there = files.records.get((Kind.TRUCK, number))
    if there is not None and there.model != model:
        what = f"`{number}` is on record since the export, as a truck of model `{there.model}`"
        fix = "find out which is true, and ask for a fresh workbook"
        book.report(findings, rules.CHANGED_ON_BOTH_SIDES, place, what, fix)


def _changes_of(  # noqa: PLR0913, PLR0917 -- the three sides of one comparison
    id_: RecordKey,
    files: SpecFiles,
    book: Book,
    entered: Entered,
    exported: Mapping[RecordKey, Mapping[str, str]],
    findings: Findings,
) -> tuple[Change, ...]:
    kind, key = id_
    now = files.records.get(id_)
    model_id = now.model if now else entered.models.get(key, ("", None))[0]
    comparison = Comparison(
        book,
        id_,
        now,
        files.records.get((Kind.MODEL, model_id)) if kind is Kind.TRUCK else None,
        exported.get(id_, {}),
        findings,
        tuple(
            record
            for record in files.records.values()
            if kind is Kind.MODEL and record.kind is Kind.TRUCK and record.model == key
        ),
        is_new=id_ in entered.new,
    )
    return comparison.compare(entered.touched.get(id_, []))


def _new_file(  # noqa: PLR0913, PLR0917 -- one file, and where its faults are told
    id_: RecordKey,
    files: SpecFiles,
    entered: Entered,
    changes: tuple[Change, ...],
    book: Book,
    findings: Findings,
) -> NewFile | None:
    kind, key = id_
    old = files.raws.get(id_)
    model = entered.models.get(key, ("", None))[0] if kind is Kind.TRUCK else key
    if old is None and not model:
        return None
    record = files.records.get(id_) or Record(
        kind, key, model, f"specs/{FOLDERS[kind]}/{key}.yml", "", {}
    )
    place = changes[0].place if changes else entered.new[id_]
    try:
        new = changed_file(new_file(id_, model) if old is None else old, changes)
    except UneditableText:
        _report_uneditable(book, record, changes, findings)
        return None
    own = Findings()
    spec, is_whole = read_back(record, new, changes, own)
    for finding in own:
        # Its place is a line of a file that is not there yet; the cell is what the clerk sees.
        at = cell_of(finding.span, new, changes) or place
        findings.extend([replace(finding, span=None, place=at.within(book.file))])
    if not is_whole:
        _report_uneditable(book, record, changes, findings)
    return NewFile(record, old, new, spec, changes) if spec is not None else None


def _report_uneditable(
    book: Book, record: Record, changes: tuple[Change, ...], findings: Findings
) -> None:
    what = f"`{record.path}` is written in a way that cannot be changed from a workbook"
    fix = "ask whoever keeps the specs to make this truck's changes in the file"
    book.report(findings, rules.NOT_EDITABLE, changes[0].place, what, fix)
