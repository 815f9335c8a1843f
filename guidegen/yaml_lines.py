"""Lines of a YAML file as people type them.

Takes in a line that may be faulty; gives out its parts, and the same line as it should be typed.
Refuses to change a value: it only adds, moves and removes quotes, colons and blanks around it.
"""

import re
from dataclasses import dataclass

from guidegen.source import SourceFile, Span

# Blanks that are no spaces to YAML: they come with text copied from web pages and documents.
OTHER_BLANKS = "\u00a0\u1680\u2000-\u200a\u202f\u205f\u3000"

# With these at the beginning of a value YAML does something other than reading text.
SPECIAL_FIRST = "@`%*&!?>|,]}"

_ENTRY = re.compile(r"(?P<lead>\s*(?:- +)*)(?P<name>[^\s#'\"\[{-][^#]*?):\s+(?P<value>\S.*)")
_LIST_LINE = re.compile(r"(?P<lead>\s*(?:- +)+)(?P<value>\S.*)")
_JOINED = re.compile(rf"(?P<name>[^\s:]+):[{OTHER_BLANKS}]*(?P<value>[^\s:].*)")
_NEEDS_QUOTES = re.compile(rf"[\s{re.escape(SPECIAL_FIRST)}\"'\[{{#:-]|.*(?::\s|\s#|:$|\s$)|$")


@dataclass(frozen=True, slots=True)
class PlainWords:
    """A fault as it is told to people."""

    span: Span
    what: str
    fix: str


@dataclass(frozen=True, slots=True)
class TypedLine:
    """A line that has a value: ``name: value``, ``- value`` or ``- name: value``."""

    start: str
    """What stands before the value, without indentation: ``name:``."""

    value: str
    column: int
    """Where the value begins, from 1."""

    def with_value(self, value: str) -> str:
        """Return the line with *value* in place of its own, without indentation."""
        return f"{self.start} {value}"


def typed_line(line: str) -> TypedLine | None:
    """Return the parts of *line*, or nothing if it has no name and no dash, or no value."""
    found = _ENTRY.fullmatch(content(line)) or _LIST_LINE.fullmatch(content(line))
    if not found:
        return None
    start = found.group()[: found.start("value")].strip()
    return TypedLine(start, found["value"], found.start("value") + 1)


def content(line: str) -> str:
    """Return *line* without a comment at its end and without blanks there.

    >>> content("  gvwr: 54000 lb  # door plate")
    '  gvwr: 54000 lb'
    """
    return re.sub(r"(^|\s)#.*$", "", line).rstrip()


def column_of(line: str) -> int:
    """Return the column in which *line* begins, from 1."""
    return len(line) - len(line.lstrip(" ")) + 1


def rest_of_line(file: SourceFile, line: int, column: int) -> Span:
    """Return the span from *column* to the end of what stands on *line*."""
    return Span(file, line, column, line, max(len(content(file.line(line))) + 1, column))


def in_quotes(text: str) -> str:
    """Return *text* in quotes that YAML reads back as the same text.

    >>> print(in_quotes("see: plate"), in_quotes('6" jack'))
    "see: plate" '6" jack'
    """
    if '"' in text or "\\" in text:
        return "'" + text.replace("'", "''") + "'"
    return f'"{text}"'


def as_value(text: str) -> str:
    """Return *text* as a value on a line with a name, in quotes only if it needs them.

    >>> print(as_value("driver's seat"), as_value("see: plate"))
    driver's seat "see: plate"
    """
    return in_quotes(text) if _NEEDS_QUOTES.match(text) else text


def missing_colon(file: SourceFile, line: int) -> PlainWords | None:
    """Return words for a line that should read ``name: value`` and does not, if it is one."""
    text = content(file.line(line))
    typed = text.strip()
    if not typed or typed[0] in "\"'[{-" or re.search(r":[ \t]|:$", text):
        return None
    joined = _JOINED.fullmatch(typed)
    if joined and typed[joined.end("name") + 1] != joined["value"][0]:
        what = f"the blank after the colon in `{typed}` is no space, though it looks like one"
        fix = f"delete that blank and type a space: `{joined['name']}: {joined['value']}`"
    elif joined:
        what = f"`{typed}` has no space after the colon"
        fix = f"type a space after the colon: `{joined['name']}: {joined['value']}`"
    else:
        name, _, value = typed.partition(" ")
        what = f"`{typed}` has no colon between name and value"
        fix = f"type a colon and a space after the name, as in `{name}: {value or 'value'}`"
    return PlainWords(rest_of_line(file, line, 1 + len(text) - len(text.lstrip())), what, fix)
