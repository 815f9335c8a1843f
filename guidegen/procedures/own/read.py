"""The files of a fleet's own procedures.

Takes in the files of the fleet and those of the library; gives out the fleet's procedures, each
with what it replaces. Refuses whatever a procedure of the library is refused for, an id that the
library has unless it says so, and a replacement that gives up a caution without an answer.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import PurePosixPath

from guidegen.finding import Finding, Findings, Note, nearest
from guidegen.procedures import rules as procedure_rules
from guidegen.procedures.catalog_words import shortened
from guidegen.procedures.lamps import LAMP_ID
from guidegen.procedures.model import ProcedureTemplate
from guidegen.procedures.own import rules
from guidegen.procedures.own.cautions import check_given_up
from guidegen.procedures.own.compare import compare
from guidegen.procedures.own.digest import digest_of
from guidegen.procedures.own.merge import OPTIONAL_STEPS_FILE_PARTS, STEPS_FILE_PARTS, merged
from guidegen.procedures.own.model import OwnProcedure, Replacement
from guidegen.procedures.own.read_parts import (
    OWN_PARTS,
    Replaces,
    read_place,
    read_replaces,
    read_statements,
)
from guidegen.procedures.read import read_table
from guidegen.procedures.table_reader import TableReader
from guidegen.yaml_nodes import Scalar, Table, read_yaml

NamedFiles = Iterable[tuple[str, bytes]]
"""Path and bytes of each."""


@dataclass(frozen=True, slots=True)
class _Original:
    """A procedure of the library."""

    template: ProcedureTemplate
    table: Table
    findings: tuple[Finding, ...]
    """Told when the library was read."""


@dataclass(slots=True)
class Originals:
    """The library's files, each read when a fleet's file names it."""

    files: Mapping[str, tuple[str, bytes]]
    """By id."""

    def read(self, id_: str) -> _Original | None:
        """Return the procedure *id_*; nothing if there is none, or it has faults."""
        if id_ not in self.files:
            return None
        path, raw = self.files[id_]
        findings = Findings()
        table = read_yaml(path, raw, findings)
        template = read_table(table, id_, findings)[0] if table else None
        if table is None or template is None or findings.has_errors:
            return None
        return _Original(template, table, tuple(findings))


def originals_of(files: NamedFiles) -> Originals:
    """Return the library whose *files* these are."""
    return Originals({PurePosixPath(path).stem: (path, raw) for path, raw in files})


def read_own_procedures(
    procedures: NamedFiles, steps: NamedFiles, originals: Originals, findings: Findings
) -> tuple[OwnProcedure, ...]:
    """Return the fleet's own procedures that can be read, in the order of their paths.

    Args:
        procedures: Files of whole procedures.
        steps: Files of steps and cautions that stand in procedures of the library.
        originals: The library.
        findings: Takes the faults.
    """
    found: dict[str, OwnProcedure] = {}
    for is_whole, files in ((True, procedures), (False, steps)):
        for path, raw in sorted(files):
            own = Findings()
            procedure = _Reading(path, originals, own).read(raw, is_whole=is_whole)
            if procedure is not None:
                _check_once(procedure, found.get(procedure.template.id), own)
            findings.extend(own)
            if procedure is not None and {each.rule for each in own.errors} <= rules.GIVEN_UP:
                found[procedure.template.id] = procedure
    return tuple(found.values())


@dataclass(frozen=True, slots=True)
class _Reading:
    """One file that is being read."""

    path: str
    originals: Originals
    findings: Findings

    @property
    def stem(self) -> str:
        return PurePosixPath(self.path).stem

    def read(self, raw: bytes, *, is_whole: bool) -> OwnProcedure | None:
        table = read_yaml(self.path, raw, self.findings)
        if table is None:
            return None
        reader = TableReader(table, "the procedure", self.findings)
        return self.read_whole(reader) if is_whole else self.read_steps(reader)

    def read_whole(self, reader: TableReader) -> OwnProcedure | None:
        replaces = read_replaces(reader)
        template, own_id = read_table(reader.table, self.stem, self.findings, OWN_PARTS)
        if template is None or own_id is None:
            return None
        if replaces is None:
            return OwnProcedure(template, None, *read_place(reader))
        if replaces.named.text != own_id.text:
            self.report_other_id(replaces, own_id)
            return None
        original = self.original(replaces)
        if original is None:
            return None
        replacement = self.replacement(reader, replaces, (original, template), is_whole=True)
        return OwnProcedure(template, replacement, *read_place(reader))

    def read_steps(self, reader: TableReader) -> OwnProcedure | None:
        reader.check_names(STEPS_FILE_PARTS, OPTIONAL_STEPS_FILE_PARTS)
        replaces = read_replaces(reader)
        original = self.original(replaces) if replaces else None
        if replaces is None or original is None:
            return None
        table = merged(original.table, reader, replaces)
        own = Findings()
        template, _ = read_table(table, self.stem, own)
        # What the original alone is told of was told when the library was read.
        self.findings.extend(each for each in own if each not in original.findings)
        if template is None:
            return None
        replacement = self.replacement(reader, replaces, (original, template), is_whole=False)
        return OwnProcedure(template, replacement)

    def original(self, replaces: Replaces) -> _Original | None:
        id_ = replaces.named.text
        if id_ not in self.originals.files:
            near = nearest(id_, self.originals.files)
            self.findings.add(
                rules.REPLACES_NOTHING,
                replaces.named.span,
                what=f"the library has no procedure `{shortened(id_)}`",
                fix=_instead_of(id_, near),
            )
            return None
        return self.originals.read(id_)

    def replacement(
        self,
        reader: TableReader,
        replaces: Replaces,
        both: tuple[_Original, ProcedureTemplate],
        *,
        is_whole: bool,
    ) -> Replacement | None:
        original, template = both
        digest = digest_of(original.table)
        if replaces.digest is None:
            what = "`replaces` does not state the `digest` of what it replaces"
            fix = f"read the library's procedure, then add `digest: {digest}`"
            note = Note("it stands at", original.template.span)
            self.findings.add(
                procedure_rules.PART_MISSING, replaces.span, what=what, fix=fix, notes=(note,)
            )
            return None
        replacement = Replacement(
            original.template,
            is_whole,
            replaces.digest,
            digest,
            read_statements(reader),
            compare(original.template, template),
            replaces.span,
        )
        check_given_up(replacement, template, self.findings)
        return replacement

    def report_other_id(self, replaces: Replaces, own_id: Scalar) -> None:
        # Lists of the law, cards and the round find a procedure by its id.
        id_ = replaces.named.text
        self.findings.add(
            rules.REPLACES_NOTHING,
            own_id.span,
            what=f"the id is `{shortened(own_id.text)}`, and it replaces `{shortened(id_)}`",
            fix=f"write `id: {shortened(id_)}`, and call the file `{shortened(id_)}.yml`",
        )


def _instead_of(id_: str, near: str | None) -> str:
    if id_.startswith(LAMP_ID):
        lamp = id_.removeprefix(LAMP_ID).replace("-", "_")
        return f"write it in `specs/own/lamps`, as `replaces: {{lamp: {lamp}}}`"
    return f"did you mean `{near}`?" if near else "delete `replaces`: it is a new one"


def _check_once(procedure: OwnProcedure, first: OwnProcedure | None, findings: Findings) -> None:
    if first is None:
        return
    id_ = procedure.template.id
    own = procedure.replacement
    findings.add(
        rules.REPLACED_TWICE,
        own.span if own else procedure.template.span,
        what=f"two files of the fleet are about `{id_}`",
        fix="put the steps into the whole procedure, or delete one of the files",
        notes=(Note("the other stands at", first.template.span),),
    )
