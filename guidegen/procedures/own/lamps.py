"""The fleet's words for warning lamps, in the place of the library's.

Takes in the lamp file of the library and the fleet's files; gives out each lamp as a procedure of
the fleet, with what it has otherwise. Refuses whatever the library's lamps are refused for, a line
that stands nowhere, and a lamp that warns less without an answer. No line can be left out.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from pathlib import PurePosixPath
from types import MappingProxyType

from guidegen.finding import Finding, Findings, Note, nearest
from guidegen.procedures import rules as procedure_rules
from guidegen.procedures.catalog_words import listed, shortened
from guidegen.procedures.lamps import read_lamp
from guidegen.procedures.model import ProcedureTemplate
from guidegen.procedures.own import rules
from guidegen.procedures.own.cautions import check_given_up
from guidegen.procedures.own.compare_lamps import compare_lamps
from guidegen.procedures.own.digest import digest_of
from guidegen.procedures.own.model import OwnProcedure, Replacement
from guidegen.procedures.own.read_parts import PLACES, Replaces, read_replaces, read_statements
from guidegen.procedures.table_reader import TableReader
from guidegen.yaml_nodes import Listing, Node, Scalar, Table, read_yaml

LAMP_FILE_PARTS = MappingProxyType({"replaces": "replaces: {lamp: low_air, digest: …}"})
LAMP_WORDS = ("act", "meaning", "symbol")
"""What stands in the place of the library's if it is there."""

OPTIONAL_LAMP_FILE_PARTS = (*LAMP_WORDS, "do", "references", "rewords_caution")
LINE_PARTS = ("replaces", *PLACES)
"""Of which a line of ``do`` has one: the number of a line of the library."""

_LINE = "- {replaces: 2, text: …}"


@dataclass(frozen=True, slots=True)
class LampBook:
    """The lamps of the library."""

    table: Table
    """By id."""

    templates: Mapping[str, ProcedureTemplate]
    """Those that can be read, by id of the lamp."""

    findings: frozenset[Finding]
    """Told when the library was read."""


def lamp_book(path: str, raw: bytes) -> LampBook | None:
    """Return the lamps of the library's file; nothing if it cannot be read, which is told there."""
    findings = Findings()
    table = read_yaml(path, raw, findings)
    if table is None:
        return None
    found = {}
    for name, (key, node) in table.entries.items():
        if isinstance(node, Table):
            template = read_lamp(key, TableReader(node, f"lamp `{name}`", findings))
            if template is not None and template.lamp is not None:
                found[name] = template
    return LampBook(table, MappingProxyType(found), frozenset(findings))


def read_own_lamps(
    files: Iterable[tuple[str, bytes]], book: LampBook, findings: Findings
) -> tuple[OwnProcedure, ...]:
    """Return the lamps that the fleet has its own words for, in the order of their paths.

    Args:
        files: Path and bytes of each file of the fleet.
        book: The library's lamps.
        findings: Takes the faults.
    """
    found: dict[str, OwnProcedure] = {}
    for path, raw in sorted(files):
        own = Findings()
        table = read_yaml(path, raw, own)
        lamp = None
        if table is not None:
            lamp = _Reading(path, book, own).read(TableReader(table, "the lamp", own))
        findings.extend(own)
        if lamp is not None and {each.rule for each in own.errors} <= rules.GIVEN_UP:
            found[lamp.template.id] = lamp
    return tuple(found.values())


@dataclass(frozen=True, slots=True)
class _Reading:
    """One file that is being read."""

    path: str
    book: LampBook
    findings: Findings

    def read(self, reader: TableReader) -> OwnProcedure | None:
        reader.check_names(LAMP_FILE_PARTS, OPTIONAL_LAMP_FILE_PARTS)
        replaces = read_replaces(reader, "lamp")
        original = self.original(replaces) if replaces else None
        if replaces is None or original is None:
            return None
        name = replaces.named.text
        node = self.book.table.entries[name][1]
        assert isinstance(node, Table)  # noqa: S101 -- it was read as one
        lines = _Lines(reader, node)
        table = lines.merged()
        told = Findings()
        template = read_lamp(replaces.named, TableReader(table, f"lamp `{name}`", told))
        # What the library's lamp alone is told of was told when the library was read.
        self.findings.extend(each for each in told if each not in self.book.findings)
        if template is None or not self.has_digest(replaces, original, node):
            return None
        if len(template.steps) != len(lines.places):
            return None  # one cannot be read, which is told
        cited = tuple(scalar.text for scalar in reader.texts("references"))
        template = replace(template, references=(*template.references, *cited))
        assert replaces.digest is not None  # noqa: S101 -- looked at one line above
        changes = compare_lamps(original, template, lines.places)
        replacement = Replacement(
            original=original,
            is_whole=False,
            stated_digest=replaces.digest,
            digest=digest_of(node),
            statements=read_statements(reader),
            changes=changes,
            span=replaces.span,
        )
        check_given_up(replacement, template, self.findings)
        return OwnProcedure(template, replacement)

    def original(self, replaces: Replaces) -> ProcedureTemplate | None:
        name, stem = replaces.named.text, PurePosixPath(self.path).stem
        if name not in self.book.table.entries:
            near = nearest(name, self.book.table.entries)
            self.findings.add(
                rules.REPLACES_NOTHING,
                replaces.named.span,
                what=f"the library has no lamp `{shortened(name)}`",
                fix=f"did you mean `{near}`?" if near else "name a lamp as spec files do",
            )
            return None
        if name != stem:
            self.findings.add(
                procedure_rules.FILE_NAME_NOT_ID,
                replaces.named.span,
                what=f"the file is called `{shortened(stem)}`, and the lamp `{name}`",
                fix=f"call the file `{name}.yml`",
            )
            return None
        return self.book.templates.get(name)

    def has_digest(self, replaces: Replaces, original: ProcedureTemplate, node: Table) -> bool:
        if replaces.digest is not None:
            return True
        self.findings.add(
            procedure_rules.PART_MISSING,
            replaces.span,
            what="`replaces` does not state the `digest` of what it replaces",
            fix=f"read the library's lamp, then add `digest: {digest_of(node)}`",
            notes=(Note("it stands at", original.span),),
        )
        return False


class _Lines:
    """The lines of ``do`` of the library with those of the fleet among them."""

    def __init__(self, reader: TableReader, original: Table) -> None:
        self._reader = reader
        self._original = original
        do = original.get("do")
        lines = do.nodes if isinstance(do, Listing) else ()
        self._lines: list[tuple[int, Node]] = list(enumerate(lines, start=1))
        self._numbers = [str(number) for number, _ in self._lines]

    @property
    def places(self) -> tuple[int, ...]:
        """For each line of the fleet's lamp the number of the library's; 0 if it is new."""
        return tuple(number for number, _ in self._lines)

    def merged(self) -> Table:
        """Return the table of the library's lamp with what the fleet has of its own."""
        replaced: set[str] = set()
        last_beside: dict[str, Node] = {}
        for inner in self._reader.tables("do", "line", _LINE):
            where = [name for name in LINE_PARTS if name in inner.table.entries]
            inner.check_names({"text": "text: Call the shop."}, LINE_PARTS)
            named = inner.text(where[0]) if len(where) == 1 else None
            text = inner.text("text")
            if named is None:
                what = f"{inner.owner} does not say where it stands, or says it twice"
                fix = "write one of `replaces: …`, `before: …` and `after: …` with a line's number"
                inner.findings.add(procedure_rules.PART_MISSING, inner.head, what=what, fix=fix)
            elif named.text not in self._numbers:
                what = f"`do` of the library has no line `{shortened(named.text)}`"
                fix = f"its lines, counted from the first: {listed(self._numbers)}"
                inner.findings.add(rules.REPLACES_NOTHING, named.span, what=what, fix=fix)
            elif where[0] == "replaces" and named.text in replaced:
                what = f"line `{named.text}` is replaced twice"
                fix = "keep one of the two, or let one stand `after` the line"
                inner.findings.add(rules.REPLACED_TWICE, named.span, what=what, fix=fix)
            elif text is not None:
                replaced |= {named.text} if where[0] == "replaces" else set()
                self._put(where[0], int(named.text), text, last_beside)
        entries = dict(self._original.entries)
        own = self._reader.table.entries
        entries.update({name: own[name] for name in LAMP_WORDS if name in own})
        key = entries["do"][0] if "do" in entries else self._original_key()
        nodes = tuple(node for _, node in self._lines)
        entries["do"] = (key, Listing(nodes, key.span))
        return Table(entries, self._reader.table.span)

    def _put(self, where: str, number: int, text: Node, last: dict[str, Node]) -> None:
        at = next(at for at, (known, _) in enumerate(self._lines) if known == number)
        if where == "replaces":
            self._lines[at] = (number, text)
        elif where == "before":
            self._lines.insert(at, (0, text))
        else:
            # Several after one line keep the order in which they were typed.
            beside = last.get(str(number))
            at = next((i for i, (_, node) in enumerate(self._lines) if node is beside), at)
            self._lines.insert(at + 1, (0, text))
            last[str(number)] = text

    def _original_key(self) -> Scalar:
        return next(iter(self._original.entries.values()))[0]
