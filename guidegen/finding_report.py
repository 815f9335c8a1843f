"""Findings as people and programs read them.

Takes in findings; gives out text with the faulty line and a caret, plain records for JSON, and one
line that counts them. Refuses to pass on characters that would move the cursor of a terminal.
"""

import re
import unicodedata
from collections.abc import Iterable
from typing import TypedDict

from guidegen.finding import Finding, Note
from guidegen.source import Span

# What remains of an 80 column terminal after the gutter of a file with up to 999 lines, and a line
# of the spec file as people type it fits in. Longer lines are cut on both sides of the caret.
MAX_WIDTH = 72

# A tab reaches to the next stop in editors; here it is four blanks wherever it stands, so that a
# line cut in its middle still has its caret in the right place.
_TAB = "    "
_CUT = "..."

# Joiners and variation selectors have no width of their own and shape what is seen.
_KEPT_JOINERS = "\u200c\u200d"
_ESCAPED_CATEGORIES = {"Cc", "Cf", "Cs", "Zl", "Zp"}
_NO_WIDTH_CATEGORIES = {"Mn", "Me"}

_BOLD, _RED, _YELLOW, _BLUE, _RESET = "\x1b[1m", "\x1b[1;31m", "\x1b[1;33m", "\x1b[34m", "\x1b[0m"


class PlaceRecord(TypedDict):
    """A place in a file, for JSON. Lines and columns count from 1; null if there is none."""

    path: str
    line: int | None
    column: int | None
    end_line: int | None
    end_column: int | None


class NoteRecord(PlaceRecord):
    """A note, for JSON."""

    text: str


class FindingRecord(PlaceRecord):
    """A finding, for JSON."""

    rule: str
    severity: str
    what: str
    why: str
    fix: str
    unit: str
    notes: list[NoteRecord]


def format_findings(findings: Iterable[Finding], *, color: bool = False) -> str:
    """Return *findings* as text for a terminal, in the order given, a blank line between them.

    Args:
        findings: What was found.
        color: Whether to mark severity, place and caret with ANSI colors.
    """
    paint = _Paint(is_on=color)
    return "\n\n".join("\n".join(_lines(finding, paint)) for finding in findings)


def findings_as_json(findings: Iterable[Finding]) -> list[FindingRecord]:
    """Return *findings* as records that JSON can hold, in the order given."""
    return [
        FindingRecord(
            rule=finding.rule.name,
            severity=finding.rule.severity.value,
            **_place_record(finding.span, finding.place),
            what=finding.what,
            why=finding.rule.why,
            fix=finding.fix,
            unit=finding.unit,
            notes=[NoteRecord(text=n.text, **_place_record(n.span, "")) for n in finding.notes],
        )
        for finding in findings
    ]


def summary_line(findings: Iterable[Finding]) -> str:
    """Return how many there are, such as ``3 errors, 1 warning in 2 files``."""
    found = list(findings)
    errors = sum(finding.is_error for finding in found)
    counts = [
        _counted(count, noun)
        for count, noun in ((errors, "error"), (len(found) - errors, "warning"))
        if count
    ]
    files = {path for finding in found if (path := _path(finding))}
    where = f" in {_counted(len(files), 'file')}" if files else ""
    return ", ".join(counts) + where if counts else "no findings"


class _Paint:
    """Puts ANSI colors around text, or leaves it as it is."""

    def __init__(self, *, is_on: bool) -> None:
        self._is_on = is_on

    def __call__(self, style: str, text: str) -> str:
        return f"{style}{text}{_RESET}" if self._is_on else text


def _lines(finding: Finding, paint: _Paint) -> list[str]:
    style = _RED if finding.is_error else _YELLOW
    where = finding.where or finding.unit
    severity = paint(style, f"{finding.rule.severity.value}[{finding.rule.name}]")
    place = f"{paint(_BOLD, _seen(where))}: " if where else ""
    spans = [finding.span, *(note.span for note in finding.notes)]
    gutter = max((len(str(span.line)) for span in spans if span), default=0)
    return [
        f"{place}{severity} {_seen(finding.what)}",
        *_excerpt(finding.span, gutter, paint, style),
        *(line for note in finding.notes for line in _note(note, gutter, paint)),
        f"  why: {_seen(finding.rule.why)}",
        f"  fix: {_seen(finding.fix)}",
    ]


def _note(note: Note, gutter: int, paint: _Paint) -> list[str]:
    place = f" {note.span.place}" if note.span else ""
    return [f"  note: {_seen(note.text + place)}", *_excerpt(note.span, gutter, paint, _BLUE)]


def _excerpt(span: Span | None, gutter: int, paint: _Paint, style: str) -> list[str]:
    """Return the line of *span* and a line of carets under it; nothing for an empty line."""
    line = span.file.line(span.line) if span else ""
    if span is None or not line.strip():
        return []
    end = span.end_column if span.end_line == span.line else len(line) + 1
    before, marked, after = (
        _seen(part)
        for part in (line[: span.column - 1], line[span.column - 1 : end - 1], line[end - 1 :])
    )
    before, marked, after = _cut(before, marked, after.rstrip())
    carets = "^" * max(1, _width(marked))
    number, blank = f"{span.line:>{gutter}} |", f"{'':>{gutter}} |"
    return [
        f"  {paint(_BLUE, number)} {before}{marked}{after}".rstrip(),
        f"  {paint(_BLUE, blank)} {' ' * _width(before)}{paint(style, carets)}",
    ]


def _cut(before: str, marked: str, after: str) -> tuple[str, str, str]:
    """Cut what is printed to MAX_WIDTH, keeping the beginning of *marked* in sight."""
    if _width(before + marked + after) <= MAX_WIDTH:
        return before, marked, after
    # The marked part first, then as much on both sides of it as there is room for.
    marked = _head(marked, MAX_WIDTH * 2 // 3)
    room = MAX_WIDTH - _width(marked)
    after_room = max(room - _width(before), room // 3)
    after = _head(after, after_room)
    return _tail(before, MAX_WIDTH - _width(marked) - _width(after)), marked, after


def _head(text: str, room: int) -> str:
    if _width(text) <= room:
        return text
    width, end = len(_CUT), 0
    while width + _width(text[end]) <= room:
        width += _width(text[end])
        end += 1
    return text[:end] + _CUT


def _tail(text: str, room: int) -> str:
    if _width(text) <= room:
        return text
    width, start = len(_CUT), len(text)
    while start and width + _width(text[start - 1]) <= room:
        start -= 1
        width += _width(text[start])
    return _CUT + text[start:]


def _seen(text: str) -> str:
    """Return *text* as it can be printed: tabs as blanks, other control characters escaped."""
    # Nearly all text is plain, and one look tells.
    return text if text.isascii() and text.isprintable() else "".join(map(_seen_character, text))


def _seen_character(character: str) -> str:
    if character == "\t":
        return _TAB
    if character in _KEPT_JOINERS or unicodedata.category(character) not in _ESCAPED_CATEGORIES:
        return character
    return character.encode("unicode_escape").decode("ascii")


def _width(text: str) -> int:
    """Return how many columns of a terminal *text* takes."""
    return len(text) if text.isascii() else sum(map(_character_width, text))


def _character_width(character: str) -> int:
    if character in _KEPT_JOINERS or unicodedata.category(character) in _NO_WIDTH_CATEGORIES:
        return 0
    return 2 if unicodedata.east_asian_width(character) in {"W", "F"} else 1


def _place_record(span: Span | None, place: str) -> PlaceRecord:
    if span is None:
        return PlaceRecord(path=place, line=None, column=None, end_line=None, end_column=None)
    return PlaceRecord(
        path=span.file.path,
        line=span.line,
        column=span.column,
        end_line=span.end_line,
        end_column=span.end_column,
    )


def _path(finding: Finding) -> str:
    """Return the file of *finding*: what follows a path in ``place`` is set off by , or :."""
    return finding.span.file.path if finding.span else re.split("[,:]", finding.place)[0].strip()


def _counted(count: int, noun: str) -> str:
    return f"{count:,} {noun}{'' if count == 1 else 's'}"
