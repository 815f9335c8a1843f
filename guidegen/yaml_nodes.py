"""YAML as office clerks type it, as exact text with places. The only door to PyYAML.

Takes in the bytes of one file; gives out its table, in which every value is the text that was
typed, with line and column: ``NO``, ``010``, ``12:30`` and ``3.70`` stay what they are.
Refuses whatever makes YAML mean something else than it shows: keys set twice, anchors, tags.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Protocol

import yaml

from guidegen.finding import Findings
from guidegen.source import SourceFile, Span
from guidegen.source_text import read_text, span_between, unseen_character
from guidegen.yaml_breaks import Break
from guidegen.yaml_faults import YamlFaults
from guidegen.yaml_lines import OTHER_BLANKS

# Specs and procedures as typed are 4 to 8 deep; each level costs the clerk two columns.
MAX_DEPTH = 40

# A megabyte of specs as typed holds some 50,000, keys and values counted.
MAX_NODES = 100_000

# libyaml reads six times faster. Wheels for the usual systems carry it; a source install may not.
_LOADER = yaml.CSafeLoader if yaml.__with_libyaml__ else yaml.SafeLoader

_NO_PLACE = "the parser gave an event without a place"
_BLOCK_STYLES = {"|", ">"}
_QUOTES = {"'", '"'}
_DIRECTIVE = re.compile(r"^%.*$", re.MULTILINE)
_LOOK_ALIKE = re.compile(rf"^[ \t]*[{OTHER_BLANKS}]+", re.MULTILINE)


@dataclass(frozen=True, slots=True)
class Scalar:
    """One text, as typed.

    A plain scalar with an empty text stands for a value that is missing or was refused; a
    finding already says so.
    """

    text: str
    span: Span
    """Quotes included; of a block of lines, from its ``|`` to the end of its last line."""

    is_plain: bool
    """Typed without quotes and not as a block of lines."""


@dataclass(frozen=True, slots=True)
class Listing:
    """A list, in brackets or with a dash on each line."""

    nodes: "tuple[Node, ...]"
    span: Span


@dataclass(frozen=True, slots=True)
class Table:
    """Values by name, in the order in which they were typed."""

    entries: "Mapping[str, tuple[Scalar, Node]]"
    """Key and value by the key's text."""

    span: Span

    def get(self, name: str) -> "Node | None":
        """Return the value of *name*, or nothing if the table has no such key."""
        entry = self.entries.get(name)
        return entry[1] if entry else None

    def key_span(self, name: str) -> Span:
        """Return where the key *name* stands.

        Raises:
            KeyError: The table has no such key.
        """
        return self.entries[name][0].span


Node = Scalar | Listing | Table


def read_yaml(path: str, raw: bytes, findings: Findings) -> Table | None:
    """Return the table that the file holds.

    All faults of a file that can be read to its end are found in one go, and its table is given
    out with them, so that its values can be looked at too. Any bytes may be passed in.

    Args:
        path: For people: relative to the project, with forward slashes.
        raw: The file as it lies on the disk.
        findings: Takes the faults.

    Returns:
        The table; nothing if the file holds none or cannot be read to its end.
    """
    file = read_text(path, raw, findings)
    if file is None:
        return None
    faults = YamlFaults(file)
    root = None if _has_misleading_lines(file, faults) else _TreeReader(file, faults).read()
    findings.extend(faults.found)
    return root


class _Mark(Protocol):
    """A place as both parsers of PyYAML give it: all counted from 0, in characters."""

    line: int
    column: int
    index: int


@dataclass(slots=True)
class _Open:
    """A table or list whose end is not read yet."""

    start: Span
    is_table: bool
    is_flow: bool
    """In braces or brackets."""

    is_key: bool
    """Stands where a key belongs; what is in it is dropped."""

    nodes: list[Node] = field(default_factory=list)
    entries: dict[str, tuple[Scalar, Node]] = field(default_factory=dict)
    key: Scalar | None = None
    """Of the value that comes next; none if that key was refused."""

    is_value_next: bool = False
    last: Node | None = None


@dataclass(slots=True)
class _TreeReader:
    """Builds the tree from the parser's events. Its own stack: no input can fill Python's."""

    file: SourceFile
    faults: YamlFaults
    _open: list[_Open] = field(default_factory=list)
    _root: Node | None = None
    _count: int = 0
    _open_keys: int = 0
    _quoted: Span | None = None
    _is_stopped: bool = False

    def read(self) -> Table | None:
        """Read all events; return the table if they reach the end."""
        try:
            for event in _events(self.file.text):
                self._take(event)
                if self._is_stopped or self.faults.is_full:
                    return None
        except yaml.MarkedYAMLError as error:
            self.faults.break_off(self._break(error))
            return None
        return self._checked_root()

    def _take(self, event: yaml.Event) -> None:
        if isinstance(event, yaml.ScalarEvent):
            self._take_scalar(event)
        elif isinstance(event, yaml.CollectionStartEvent):
            self._take_start(event)
        elif isinstance(event, yaml.CollectionEndEvent):
            self._take_end(event)
        elif isinstance(event, yaml.AliasEvent):
            span = self._span(event.start_mark, event.end_mark)
            self.faults.alias(span, event.anchor or "")
            self._place(Scalar("", span, is_plain=True), is_refused=True)
        elif isinstance(event, yaml.DocumentStartEvent) and self._root is not None:
            self.faults.second_document(self._span(event.start_mark, event.end_mark))
            self._is_stopped = True

    def _take_scalar(self, event: yaml.ScalarEvent) -> None:
        has_properties = bool(event.anchor or event.tag)
        if has_properties:
            self.faults.properties(_index(event.start_mark))
        if event.style in _BLOCK_STYLES:
            span = self._span_of_block(event.start_mark, event.end_mark)
        else:
            span = self._span(event.start_mark, event.end_mark)
        if event.style in _QUOTES:
            self._quoted = span
            # Whoever types an escape in double quotes may ask for what no file may hold.
            unseen = unseen_character(event.value)
            if unseen:
                self.faults.unseen_character(span, unseen)
        self._place(Scalar(event.value, span, not event.style), is_refused=has_properties)

    def _take_start(self, event: yaml.CollectionStartEvent) -> None:
        if event.anchor or event.tag:
            self.faults.properties(_index(event.start_mark))
        start = self._span(event.start_mark, event.end_mark)
        if len(self._open) == MAX_DEPTH:
            self.faults.too_deep(start, MAX_DEPTH)
            self._is_stopped = True
            return
        parent = self._open[-1] if self._open else None
        is_key = bool(parent and parent.is_table and not parent.is_value_next)
        is_table = isinstance(event, yaml.MappingStartEvent)
        self._open_keys += is_key
        self._open.append(_Open(start, is_table, bool(event.flow_style), is_key))

    def _take_end(self, event: yaml.CollectionEndEvent) -> None:
        closed = self._open.pop()
        self._open_keys -= closed.is_key
        start = closed.start
        # The parser ends a block where the next line begins; people see it end with its value.
        last = closed.last.span if closed.last and not closed.is_flow else None
        end = last or self._span(event.start_mark, event.end_mark)
        span = Span(self.file, start.line, start.column, end.end_line, end.end_column)
        self._place(
            Table(closed.entries, span) if closed.is_table else Listing(tuple(closed.nodes), span)
        )

    def _place(self, node: Node, *, is_refused: bool = False) -> None:
        """Put *node* into the innermost open table or list, or at the root."""
        self._count += 1
        if self._count > MAX_NODES:
            self.faults.too_many(node.span, MAX_NODES)
            self._is_stopped = True
        if not self._open:
            self._root = node
            return
        parent = self._open[-1]
        parent.last = node
        is_reported = is_refused or self._open_keys > 0
        if not parent.is_table:
            self._place_in_list(parent, node, is_reported=is_reported)
        elif parent.is_value_next:
            self._place_value(parent, node, is_reported=is_reported)
        else:
            self._place_key(parent, node, is_reported=is_reported)

    def _place_in_list(self, listing: _Open, node: Node, *, is_reported: bool) -> None:
        listing.nodes.append(node)
        if _is_blank(node) and not is_reported:
            self.faults.missing_list_value(node.span, len(listing.nodes))

    def _place_key(self, table: _Open, key: Node, *, is_reported: bool) -> None:
        table.is_value_next = True
        table.key = key if isinstance(key, Scalar) and not _is_blank(key) else None
        if not table.key and not is_reported:
            self.faults.key_not_text(key.span)

    def _place_value(self, table: _Open, value: Node, *, is_reported: bool) -> None:
        table.is_value_next = False
        key = table.key
        if key is None:
            return
        first = table.entries.get(key.text)
        if first:
            self.faults.duplicate_key(key.text, key.span, first[0].span)
            return
        table.entries[key.text] = (key, value)
        if _is_blank(value) and not is_reported:
            self.faults.missing_value(key.text, key.span, is_in_braces=table.is_flow)

    def _checked_root(self) -> Table | None:
        root = self._root
        if isinstance(root, Table):
            return root
        if root is None or _is_blank(root):
            self.faults.empty_file()
        else:
            self.faults.not_a_table(root.span, is_text=isinstance(root, Scalar))
        return None

    def _break(self, error: yaml.MarkedYAMLError) -> Break:
        at, opening = error.problem_mark, error.context_mark
        line, column = (at.line + 1, at.column + 1) if at else (1, 1)
        return Break(
            self.file,
            error.problem or "",
            line,
            column,
            (opening.line + 1, opening.column + 1) if opening else None,
            self._quoted,
            next((frame.start for frame in reversed(self._open) if frame.is_flow), None),
        )

    def _span(self, start: _Mark | None, end: _Mark | None) -> Span:
        if start is None or end is None:
            raise ValueError(_NO_PLACE)
        return Span(self.file, start.line + 1, start.column + 1, end.line + 1, end.column + 1)

    def _span_of_block(self, start: _Mark | None, end: _Mark | None) -> Span:
        # The parser ends a block of lines where the next line begins, blank lines and all.
        span, text, after = self._span(start, end), self.file.text, _index(end)
        at = after
        while text[at - 1] in " \t\n":
            at -= 1
        line = span.end_line - text.count("\n", at, after)
        return Span(self.file, span.line, span.column, line, at - text.rfind("\n", 0, at))


def _events(text: str) -> Iterator[yaml.Event]:
    loader = _LOADER(text)
    try:
        while True:
            event = loader.get_event()
            if event is None:
                return
            yield event
    except (ValueError, OverflowError) as error:
        # PyYAML's parser in Python hands "\\UFFFFFFFF" to chr() and lets its error through.
        problem = f"found unknown escape character: {error}"
        mark = loader.get_mark() if isinstance(loader, yaml.SafeLoader) else None
        raise yaml.MarkedYAMLError(problem=problem, problem_mark=mark) from error
    finally:
        loader.dispose()


def _index(mark: _Mark | None) -> int:
    """Return the offset of *mark* in the text, in characters."""
    if mark is None:
        raise ValueError(_NO_PLACE)
    return mark.index


def _is_blank(node: Node) -> bool:
    return isinstance(node, Scalar) and node.is_plain and not node.text


def _has_misleading_lines(file: SourceFile, faults: YamlFaults) -> bool:
    """Report lines that must not reach the parser; a directive can also hold it up for minutes."""
    directive = _DIRECTIVE.search(file.text)
    if directive:
        faults.directive(span_between(file, *directive.span()))
    blanks = list(_LOOK_ALIKE.finditer(file.text))
    if blanks:
        start, end = blanks[0].span()
        faults.look_alike_space(span_between(file, start, end), len(blanks) - 1)
    return bool(faults.found)
