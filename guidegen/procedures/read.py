"""Procedure files of the library.

Takes in the bytes of the files; gives out one template a file, by id.
Refuses a file with anything in it that a driver would miss, be misled by or not understand, and
reports all of it at once.
"""

from collections.abc import Iterable, Mapping, Sequence
from pathlib import PurePosixPath
from types import MappingProxyType

from guidegen.finding import Findings, Note
from guidegen.procedures import rules
from guidegen.procedures.catalog_words import shortened
from guidegen.procedures.model import ProcedureTemplate
from guidegen.procedures.placeholder import read_text
from guidegen.procedures.read_parts import (
    read_cautions,
    read_figure,
    read_outcomes,
    read_states,
    read_steps,
)
from guidegen.procedures.read_round import read_round
from guidegen.procedures.read_station import read_stations
from guidegen.procedures.read_when import read_when
from guidegen.procedures.scope import check_scopes
from guidegen.procedures.table_reader import TableReader, check_id, choose
from guidegen.procedures.words import CHAPTERS
from guidegen.yaml_nodes import Listing, Scalar, Table, read_yaml

PROCEDURE_PARTS = MappingProxyType(
    {
        "id": "id: air-build-up",
        "title": "title: Build up the air pressure",
        "chapter": "chapter: air-brakes",
        "state": "state: {parking_brake: set}",
        "station": "station: cab",
        "steps": "steps: [{id: start-engine, text: Start the engine.}]",
        "expect": "expect: [The lamp goes out.]",
        "if_not": "if_not: [Do not drive. Tell the shop.]",
        "references": "references: ['common practice, no source']",
    }
)
"""What every procedure states, with an example of each."""

OPTIONAL_PARTS = ("applies", "cautions", "figure", "round")

_LISTS = ("steps", "expect", "if_not", "references")


def read_procedure(path: str, raw: bytes, findings: Findings) -> ProcedureTemplate | None:
    """Return the procedure that one file holds.

    Args:
        path: For people: relative to the project, with forward slashes. Its last part without
            the ending is the id.
        raw: The file as it lies on the disk.
        findings: Takes all its faults.

    Returns:
        The procedure; nothing if there is an error. Warnings do not hold it back.
    """
    template, _ = _read(path, raw, findings)
    return template


KeptFiles = dict[tuple[str, bytes], tuple[ProcedureTemplate | None, Scalar | None, Findings]]
"""What was read of each file and found in it, by its path and bytes."""


def read_procedures(
    files: Iterable[tuple[str, bytes]], findings: Findings, kept: KeptFiles | None = None
) -> Mapping[str, ProcedureTemplate]:
    """Return the procedures of *files* by id, in the order of their paths.

    Args:
        files: Path and bytes of each, in any order.
        findings: Takes the faults of all files, and ids that two files share.
        kept: Files that were read before, whose templates are taken as they are; holds those of
            *files* alone afterwards.
    """
    library: dict[str, ProcedureTemplate] = {}
    first: dict[str, Scalar] = {}
    for template, own_id, faults in _read_or_kept(sorted(files), kept):
        findings.extend(faults)
        if own_id is None:
            continue
        if own_id.text in first:
            findings.add(
                rules.PROCEDURE_TWICE,
                own_id.span,
                what=f"two files hold the procedure `{own_id.text}`",
                fix="delete one of the files, or give it another id and name",
                notes=(Note("first in", first[own_id.text].span),),
            )
        elif template is not None:
            library[template.id] = template
        first.setdefault(own_id.text, own_id)
    return MappingProxyType(library)


def _read_or_kept(
    files: Sequence[tuple[str, bytes]], kept: KeptFiles | None
) -> Iterable[tuple[ProcedureTemplate | None, Scalar | None, Findings]]:
    read: KeptFiles = {}
    for file in files:
        known = None if kept is None else kept.get(file)
        if known is None:
            own = Findings()
            known = (*_read(*file, own), own)
        read[file] = known
    if kept is not None:
        kept.clear()
        kept.update(read)
    return read.values()


def _read(
    path: str, raw: bytes, findings: Findings
) -> tuple[ProcedureTemplate | None, Scalar | None]:
    faults = Findings()
    table = read_yaml(path, raw, faults)
    template, own_id = None, None
    if table is not None:
        template, own_id = read_table(table, PurePosixPath(path).stem, faults)
    findings.extend(faults)
    return None if faults.has_errors else template, own_id


def read_table(
    table: Table, stem: str, findings: Findings, also: Iterable[str] = ()
) -> tuple[ProcedureTemplate | None, Scalar | None]:
    """Return the procedure that *table* holds, and its id.

    Args:
        table: Of a whole file.
        stem: Name of the file without its ending.
        findings: Takes the faults.
        also: Further parts that the table may have and that are read elsewhere.
    """
    reader = TableReader(table, "the procedure", findings)
    reader.check_names(PROCEDURE_PARTS, (*OPTIONAL_PARTS, *also))
    own_id = _read_id(reader, stem)
    template = _read_template(reader, own_id.text if own_id else stem)
    if template is not None:
        check_scopes(template, findings)
    return template, own_id


def _read_template(reader: TableReader, procedure: str) -> ProcedureTemplate | None:
    title = reader.text("title")
    for name in _LISTS:
        _check_not_empty(reader, name)
    text = read_text(f"{procedure}.title", title, reader.findings) if title else None
    applies = read_when(reader, "applies")
    states = read_states(reader)
    chapter = choose(
        reader.text("chapter"), CHAPTERS, rules.UNKNOWN_CHAPTER, "chapter {}", reader.findings
    )
    stations, station = read_stations(reader)
    figure = read_figure(reader)
    cautions, steps = read_cautions(reader, procedure), read_steps(reader, procedure)
    expect, if_not = (read_outcomes(reader, procedure, name) for name in ("expect", "if_not"))
    in_round = read_round(reader, tuple(step.id for step in steps))
    references = tuple(" ".join(one.text.split()) for one in reader.texts("references"))
    own_id = reader.text("id")
    if not (own_id and text and chapter and station):
        return None
    return ProcedureTemplate(
        id=procedure,
        title=text,
        chapter=chapter,
        applies=applies,
        state=states,
        station=station,
        cautions=cautions,
        steps=steps,
        expect=expect,
        if_not=if_not,
        references=references,
        span=own_id.span,
        figure=figure,
        stations=stations,
        round=in_round,
    )


def _read_id(reader: TableReader, stem: str) -> Scalar | None:
    own_id = reader.text("id")
    if own_id is not None and check_id(own_id, reader.findings) and own_id.text != stem:
        reader.findings.add(
            rules.FILE_NAME_NOT_ID,
            own_id.span,
            what=f"the id is `{own_id.text}`, and the file is called `{shortened(stem)}`",
            fix=f"rename the file to `{own_id.text}.yml`, or write `id: {shortened(stem)}`",
        )
    return own_id


def _check_not_empty(reader: TableReader, name: str) -> None:
    node = reader.table.get(name)
    if isinstance(node, Listing) and not node.nodes:
        reader.add_missing(name, PROCEDURE_PARTS[name])
