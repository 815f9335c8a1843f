"""Records of sealed lines: JSON that ends with its own SHA-256 and names that of lines before.

Takes in what a line says, or the bytes of a record; gives out the line with its seal, or what its
lines say. Refuses a line in which any byte is another than when it was written, and a record at the
first such line. Which line may follow which is for each record to say.
"""

import hashlib
import json
import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from guidegen.finding import Findings, Rule
from guidegen.source import SourceFile, Span

_SEAL = re.compile(rb',"seal":"([0-9a-f]{64})"\}')
_SEAL_BYTES = len(b',"seal":""}') + 64
_HASH = re.compile(r"[0-9a-f]{64}")
_MERGE_MARKS = (b"<<<<<<<", b"=======", b">>>>>>>", b"|||||||")
"""What git writes between lines that it could not merge."""


class Broken(ValueError):
    """A line is not as it was written; the message goes on from its number."""


@dataclass(frozen=True, slots=True)
class Chain:
    """What is said of one kind of record."""

    damaged: Rule
    too_early: Rule
    what: str
    """What is recorded: ``a release``."""

    merge_fix: str = ""
    """What to do about lines that git could not merge; empty if the file must be as it was."""

    def reads(
        self, path: str, raw: bytes, read_line: Callable[[bytes], object], findings: Findings
    ) -> bool:
        """Read all lines of a record; no and a finding at the first line that is broken.

        Args:
            path: Of the file, as findings show it.
            raw: All of its bytes.
            read_line: Takes in one line with its line break; raises `Broken` if it may not stand
                there.
            findings: Takes the fault.
        """
        for number, line in enumerate(raw.splitlines(keepends=True), start=1):
            try:
                read_line(line)
            except Broken as broken:
                file = SourceFile(path, raw.decode("utf-8", "replace"))
                findings.add(
                    self.damaged,
                    Span(file, number, 1, number, 2),
                    what=f"line {number} {broken}",
                    fix=(self.merge_fix if line.startswith(_MERGE_MARKS) else "")
                    or f"get the file back from git: `git restore {path}`",
                )
                return False
        return True

    def check_date(self, day: str, last: str, place: str, findings: Findings) -> None:
        """Report what would be dated before the last line.

        Args:
            day: Of what is to be recorded, as ``2026-11-30``.
            last: The newest date of the record; empty if there is none.
            place: Path of the record.
            findings: Takes the fault.
        """
        if day < last:
            findings.add(
                self.too_early,
                None,
                what=f"{self.what} of `{day}` would come before the last one, of `{last}`",
                fix=f"set the clock right, or give a date from {last} on: `--date`",
                place=place,
            )


def line_hash(line: bytes) -> str:
    """Return what other lines call *line*, which ends with its line break."""
    return hashlib.sha256(line).hexdigest()


def sealed(content: Mapping[str, Any]) -> bytes:
    """Return the line that says *content*, with its seal and its line break."""
    body = json.dumps(content, ensure_ascii=False, separators=(",", ":")).encode()[:-1]
    return body + b',"seal":"%s"}\n' % hashlib.sha256(body).hexdigest().encode()


def opened(line: bytes, *forms: tuple[str, ...]) -> dict[str, Any]:
    """Return what *line* says.

    Args:
        line: With its line break.
        forms: Names of its fields in their order, without the seal; the last is the usual one.

    Raises:
        Broken: If it is not as it was sealed, or is of no such form.
    """
    if line.startswith(_MERGE_MARKS):
        raise Broken("is left over from a merge")
    if not line.endswith(b"}\n"):
        raise Broken("does not end as it was written")
    body, end = line[: -_SEAL_BYTES - 1], line[-_SEAL_BYTES - 1 : -1]
    seal = _SEAL.fullmatch(end)
    if seal is None or hashlib.sha256(body).hexdigest().encode() != seal[1]:
        raise Broken("is not as it was written: its seal does not fit")
    try:
        content = json.loads(body + b"}")
    except ValueError as error:
        raise Broken("is no JSON") from error
    if not isinstance(content, dict) or tuple(content) not in forms:
        raise Broken(f"does not hold {', '.join((*forms[-1], 'seal'))}, in this order")
    return content


def check_dates(day: str, followed: Iterable[str]) -> None:
    """See that *day* is a date, and none before those of the lines that are *followed*.

    Raises:
        Broken: If it is not.
    """
    if not _is_date(day):
        raise Broken("names no date")
    if any(each > day for each in followed):
        raise Broken(f"is dated {day}, before a line that it follows")


def is_texts(value: object) -> bool:
    """Say whether *value* is a list of texts."""
    return isinstance(value, list) and all(isinstance(each, str) for each in value)


def is_number(value: object) -> bool:
    """Say whether *value* is a whole number; JSON's true and false are none."""
    return isinstance(value, int) and not isinstance(value, bool)


def are_hashes(values: Iterable[str]) -> bool:
    """Say whether each of *values* is a SHA-256 in hexadecimal."""
    return all(map(_HASH.fullmatch, values))


def _is_date(text: str) -> bool:
    try:
        return date.fromisoformat(text).isoformat() == text
    except ValueError:
        return False
