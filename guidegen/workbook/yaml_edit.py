"""One value of a spec file changed where it stands, and nothing else.

Takes in the text of a file, a dotted name and what it is to be; gives out the text with that
value put, added in the catalog's order, or taken out. Refuses nothing it can find its way in;
what it makes is read back by whoever calls it.
"""

import itertools
from collections.abc import Sequence

from guidegen.finding import Findings
from guidegen.source import Span
from guidegen.specs.equipment import Equipment, inner_sections
from guidegen.specs.fields import NOT_FITTED
from guidegen.specs.section import Section
from guidegen.workbook.model import steps_of
from guidegen.workbook.yaml_text import in_yaml, list_in_yaml
from guidegen.yaml_nodes import Listing, Node, Scalar, Table, read_yaml

Value = str | tuple[str, ...]
"""Text, or the words of a list."""

_HEADS = ("unit", "model", "source", "recorded")
"""What stands above the sections."""

_STEP = 2
"""Blanks that a section's fields are indented by."""


class UneditableText(ValueError):
    """The text has no table in which the value could stand."""


def set_value(text: str, name: str, value: Value) -> str:
    """Return *text* with *value* for *name*; a section that is missing is added.

    Raises:
        UneditableText: If *text* is no table, or holds a value where a section belongs.
    """
    editor = Editor(text)
    *outer, last = name.split(".")
    holder: Table = editor.table
    shape: type[Section] = Equipment
    for depth, step in enumerate(outer):
        node = holder.get(step)
        rest = name.split(".")[depth + 1 :]
        if node is None:
            return editor.add(holder, key_order(shape), step, (rest, value))
        if isinstance(node, Scalar):
            return editor.open_section(holder, step, node, (rest, value))
        if not isinstance(node, Table):
            raise UneditableText(name)
        holder, shape = node, inner_sections(shape)[step]
    node = holder.get(last)
    if node is None:
        return editor.add(holder, key_order(shape), last, ([], value))
    return editor.replace(node, value, is_flow=editor.is_flow(holder), key=holder.key_span(last))


def set_not_fitted(text: str, section: str) -> str:
    """Return *text* in which *section* is not fitted; values that it held are gone.

    Raises:
        UneditableText: As for `set_value`.
    """
    editor = Editor(text)
    node = editor.find(section.split("."))
    if isinstance(node, Table):
        return editor.close_section(section, node)
    return set_value(text, section, NOT_FITTED)


def remove(text: str, name: str) -> str:
    """Return *text* without *name*, and without tables that would be left empty."""
    editor = Editor(text)
    steps = steps_of(name)
    if editor.find(steps) is None:
        return text
    while len(steps) > 1:
        holder = editor.find(steps[:-1])
        if not isinstance(holder, Table) or len(holder.entries) > 1:
            break
        steps.pop()
    holder = editor.find(steps[:-1])
    assert isinstance(holder, Table)  # noqa: S101 -- `find` came through it
    return editor.take_out(holder, steps[-1], is_section=len(steps) == 1)


def states_values(text: str, section: str) -> bool:
    """Return whether *text* holds values in *section*, and not just the words ``not fitted``."""
    return isinstance(Editor(text).find(section.split(".")), Table)


class Editor:
    """The text of one file with its table."""

    def __init__(self, text: str) -> None:
        table = read_yaml("", text.encode(), Findings())
        if table is None:
            raise UneditableText(text[:40])
        self.text = text
        self.table = table
        self._starts = [0, *itertools.accumulate(len(line) + 1 for line in text.split("\n"))]

    def find(self, steps: Sequence[str]) -> Node | None:
        """Return what *steps* lead to; the table itself if there are none."""
        node: Node | None = self.table
        for step in steps:
            node = node.get(step) if isinstance(node, Table) else None
        return node

    def is_flow(self, table: Table) -> bool:
        """Whether *table* stands in braces."""
        return self.text[self._at(table.span.line, table.span.column)] == "{"

    def add(
        self, holder: Table, order: Sequence[str], key: str, what: tuple[Sequence[str], Value]
    ) -> str:
        """Put a new entry into *holder*, after what comes before it in *order*."""
        before = [name for name in holder.entries if order.index(name) < order.index(key)]
        previous = max(before, key=lambda n: self._end(holder, n)) if before else None
        if self.is_flow(holder):
            return self._add_in_braces(holder, previous, key, what)
        column = next(iter(holder.entries.values()))[0].span.column
        lines = self._block(" " * (column - 1), key, what)
        if previous is not None:
            line = self._end(holder, previous)[0] + 1
            gap = [""] if holder is self.table and key not in _HEADS else []
            return self._insert_lines(line, [*gap, *lines])
        return self._insert_lines(self._above_first(holder), lines)

    def wrap(self, node: Scalar | Listing) -> str:
        """Put a bare value into a table in braces, in which more can stand beside it."""
        start, end = self._range(node.span)
        if isinstance(node, Scalar):
            style = self.text[start] if self.text[start] in "'\"" else ""
            inner = in_yaml(node.text, is_flow=True, style=style)
        elif self.text[start] == "[":
            inner = self.text[start:end]
        else:
            raise UneditableText(self.text[start:end][:40])
        return f"{self.text[:start]}{{value: {inner}}}{self.text[end:]}"

    def open_section(
        self, holder: Table, key: str, node: Scalar, what: tuple[Sequence[str], Value]
    ) -> str:
        """Put values in the place of the words ``not fitted``."""
        start, end = self._range(node.span)
        if self.is_flow(holder):
            return self.text[:start] + self._braces(what) + self.text[end:]
        key_span = holder.key_span(key)
        colon = self.text.index(":", self._range(key_span)[1]) + 1
        rest, value = what
        indent = " " * (key_span.column - 1 + _STEP)
        lines = self._block(indent, rest[0], (rest[1:], value))
        after = self._at(node.span.end_line + 1, 1)
        return "".join(
            (self.text[:colon], self.text[end:after], *(f"{x}\n" for x in lines), self.text[after:])
        )

    def close_section(self, section: str, node: Table) -> str:
        """Put the words ``not fitted`` in the place of values."""
        start, end = self._range(node.span)
        *outer, last = section.split(".")
        holder = self.find(outer)
        assert isinstance(holder, Table)  # noqa: S101 -- it holds the section
        if self.is_flow(node):
            return self.text[:start] + NOT_FITTED + self.text[end:]
        colon = self.text.index(":", self._range(holder.key_span(last))[1]) + 1
        first = self._at(node.span.line, 1)
        after = self._at(node.span.end_line + 1, 1)
        return f"{self.text[:colon]} {NOT_FITTED}{self.text[colon:first]}{self.text[after:]}"

    def replace(self, node: Node, value: Value, *, is_flow: bool, key: Span) -> str:
        """Put *value* in the place of a value, in its own style."""
        if isinstance(node, Table):
            inner = node.get("value")
            if inner is None:
                raise UneditableText(str(value))
            flow = self.is_flow(node)
            return self.replace(inner, value, is_flow=flow, key=node.key_span("value"))
        if isinstance(value, tuple):
            return self._replace_list(node, value, key)
        start, end = self._range(node.span)
        if isinstance(node, Listing) or self.text[start] in "|>":
            style = ""
        else:
            style = self.text[start] if self.text[start] in "'\"" else ""
        return self.text[:start] + in_yaml(value, is_flow=is_flow, style=style) + self.text[end:]

    def _replace_list(self, node: Scalar | Listing, words: tuple[str, ...], key: Span) -> str:
        start, end = self._range(node.span)
        if isinstance(node, Scalar) or self.text[start] == "[":
            return self.text[:start] + list_in_yaml(words) + self.text[end:]
        return self._replace_lines(node, words, key)

    def _replace_lines(self, node: Listing, words: tuple[str, ...], key: Span) -> str:
        """Keep the lines of words that stay, with their comments, and put the others around."""
        olds = {each.text: each.span for each in node.nodes if isinstance(each, Scalar)}
        kept = [word for word in words if word in olds]
        if kept != [word for word in olds if word in kept] or not kept:
            line = self.text[self._at(node.span.line, 1) :].split("\n", 1)[0]
            dash = line[: len(line) - len(line.lstrip())] or " " * (key.column - 1 + _STEP)
            lines = [f"{dash}- {word}" for word in words]
            return self._cut_lines(node.span.line, node.span.end_line, lines)
        out = []
        lines = self.text.split("\n")
        waiting = list(words)
        indent = lines[olds[kept[0]].line - 1].split("-", 1)[0]
        at = {span.line: word for word, span in olds.items()}
        for number in range(node.span.line, node.span.end_line + 1):
            word = at.get(number)
            if word is None:
                out.append(lines[number - 1])
            elif word in kept:
                while waiting[0] != word:
                    out.append(f"{indent}- {waiting.pop(0)}")
                out.append(lines[number - 1])
                waiting.pop(0)
        out += [f"{indent}- {word}" for word in waiting]
        return self._cut_lines(node.span.line, node.span.end_line, out)

    def take_out(self, holder: Table, key: str, *, is_section: bool) -> str:
        """Delete an entry that is not the only one of *holder*."""
        key_span, node = holder.entries[key][0].span, holder.entries[key][1]
        if not self.is_flow(holder):
            lines = self.text.split("\n")
            first, last = key_span.line, node.span.end_line
            is_gap = is_section and first > 1 and not lines[first - 2].strip()
            if is_gap and (last >= len(lines) or not lines[last].strip()):
                first -= 1
            return self._cut_lines(first, last, [])
        start, end = self._range(key_span)[0], self._range(node.span)[1]
        names = list(holder.entries)
        position = names.index(key)
        if position + 1 < len(names):
            end = self._range(holder.key_span(names[position + 1]))[0]
        elif position:
            start = self._range(holder.entries[names[position - 1]][1].span)[1]
        return self.text[:start] + self.text[end:]

    def _end(self, holder: Table, name: str) -> tuple[int, int]:
        span = holder.entries[name][1].span
        return span.end_line, span.end_column

    def _block(self, indent: str, key: str, what: tuple[Sequence[str], Value]) -> list[str]:
        rest, value = what
        if rest:
            inner = self._block(indent + " " * _STEP, rest[0], (rest[1:], value))
            return [f"{indent}{key}:", *inner]
        if isinstance(value, tuple):
            inner_indent = indent + " " * _STEP
            return [f"{indent}{key}:", *(f"{inner_indent}- {word}" for word in value)]
        return [f"{indent}{key}: {in_yaml(value, is_flow=False)}"]

    def _braces(self, what: tuple[Sequence[str], Value]) -> str:
        rest, value = what
        if rest:
            return f"{{{rest[0]}: {self._braces((rest[1:], value))}}}"
        return list_in_yaml(value) if isinstance(value, tuple) else in_yaml(value, is_flow=True)

    def _add_in_braces(
        self, holder: Table, previous: str | None, key: str, what: tuple[Sequence[str], Value]
    ) -> str:
        entry = f"{key}: {self._braces(what)}"
        if previous is not None:
            at = self._range(holder.entries[previous][1].span)[1]
            return f"{self.text[:at]}, {entry}{self.text[at:]}"
        at = self._range(next(iter(holder.entries.values()))[0].span)[0]
        return f"{self.text[:at]}{entry}, {self.text[at:]}"

    def _above_first(self, holder: Table) -> int:
        """Return the line of the first key of *holder*, above the comments that belong to it."""
        lines = self.text.split("\n")
        line = min(key.span.line for key, _ in holder.entries.values())
        while line > 1 and lines[line - 2].lstrip().startswith("#"):
            line -= 1
        return line

    def _insert_lines(self, line: int, new: list[str]) -> str:
        at = self._at(line, 1)
        return self.text[:at] + "".join(f"{each}\n" for each in new) + self.text[at:]

    def _cut_lines(self, first: int, last: int, new: list[str]) -> str:
        start, end = self._at(first, 1), self._at(last + 1, 1)
        return self.text[:start] + "".join(f"{each}\n" for each in new) + self.text[end:]

    def _at(self, line: int, column: int) -> int:
        return min(self._starts[line - 1] + column - 1, len(self.text))

    def _range(self, span: Span) -> tuple[int, int]:
        return self._at(span.line, span.column), self._at(span.end_line, span.end_column)


def key_order(shape: type[Section]) -> tuple[str, ...]:
    """Return the keys of a section as they stand in a file."""
    return (*_HEADS, *shape.model_fields)
