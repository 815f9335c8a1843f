"""The record of revisions: one line of JSON a revision, each chained to the one before.

Takes in the bytes of the file; gives out its revisions, and new revisions as lines to append.
Refuses a file in which any byte is another than when it was written: each line ends with the
SHA-256 of itself and names that of the line before.
"""

import hashlib
import json
import re
from collections.abc import Iterable
from datetime import date
from typing import Any

from guidegen.finding import Findings
from guidegen.guide.fingerprint import LENGTH
from guidegen.revisions import rules
from guidegen.revisions.model import Record, Revision
from guidegen.source import SourceFile, Span

NOTHING_BEFORE = "0" * 64
"""What the first line names as the SHA-256 of the line before."""

_FIELDS = ("unit", "revision", "date", "by", "edition", "snapshot")
_OF_OUTPUTS = ("outputs", "program")
"""Not in the lines of a record that was begun before published files were listed."""

_LAST_FIELDS = ("changes", "before", "seal")
_FORMS = ((*_FIELDS, *_LAST_FIELDS), (*_FIELDS, *_OF_OUTPUTS, *_LAST_FIELDS))
_SEAL = re.compile(rb',"seal":"([0-9a-f]{64})"\}')
_SEAL_BYTES = len(b',"seal":""}') + 64
_HASH = re.compile(r"[0-9a-f]{64}")
_EDITION = re.compile(rf"[0-9a-f]{{{LENGTH}}}")


class _Broken(ValueError):
    """A line is not as it was written."""


def lines_of(revisions: Iterable[Revision], last_line: bytes) -> tuple[bytes, ...]:
    """Return *revisions* as lines that follow *last_line*, each with its line break.

    Args:
        revisions: In the order in which they are recorded.
        last_line: Of the record so far, with its line break; empty if there is none.
    """
    lines: list[bytes] = []
    before = last_line
    for revision in revisions:
        before = _line(revision, before)
        lines.append(before)
    return tuple(lines)


def read_record(path: str, raw: bytes, findings: Findings) -> Record | None:
    """Return the record in *raw*, or nothing and a finding at the first line that is damaged.

    Args:
        path: Of the file, as findings show it.
        raw: All of its bytes.
        findings: Takes the fault.
    """
    revisions: list[Revision] = []
    numbers: dict[str, int] = {}
    before = b""
    for number, line in enumerate(raw.splitlines(keepends=True) if raw else (), start=1):
        try:
            revision = _read_line(line, before)
            _check_order(revision, revisions[-1:], numbers)
        except _Broken as broken:
            _report(path, raw, number, str(broken), findings)
            return None
        revisions.append(revision)
        numbers[revision.unit] = revision.number
        before = line
    return Record(tuple(revisions), before)


def _line(revision: Revision, before: bytes) -> bytes:
    made = {"outputs": revision.outputs, "program": revision.program}
    content = {
        "unit": revision.unit,
        "revision": revision.number,
        "date": revision.date,
        "by": revision.by,
        "edition": revision.edition,
        "snapshot": revision.snapshot,
        **(made if revision.outputs else {}),
        "changes": list(revision.changes),
        "before": hashlib.sha256(before).hexdigest() if before else NOTHING_BEFORE,
    }
    text = json.dumps(content, ensure_ascii=False, separators=(",", ":")).encode()
    body = text[:-1]
    return body + b',"seal":"%s"}\n' % hashlib.sha256(body).hexdigest().encode()


def _read_line(line: bytes, before: bytes) -> Revision:
    if not line.endswith(b"}\n"):
        raise _Broken("does not end as it was written")
    sealed = line[:-1]
    seal = _SEAL.fullmatch(sealed[-_SEAL_BYTES:])
    if seal is None or hashlib.sha256(sealed[:-_SEAL_BYTES]).hexdigest().encode() != seal[1]:
        raise _Broken("is not as it was written: its seal does not fit")
    try:
        content = json.loads(line)
    except ValueError as error:
        raise _Broken("is no JSON") from error
    revision = _revision_from(content)
    if _line(revision, before) != line:
        raise _Broken("does not follow the line before it")
    return revision


def _revision_from(content: Any) -> Revision:  # noqa: ANN401 -- whatever JSON holds
    if not isinstance(content, dict) or tuple(content) not in _FORMS:
        raise _Broken(f"does not hold {', '.join(_FORMS[-1])}, in this order")
    words = all(isinstance(content[name], str) for name in content if name not in _OTHERS)
    changes, number = content["changes"], content["revision"]
    listed = isinstance(changes, list) and all(isinstance(each, str) for each in changes)
    if not words or not listed or not isinstance(number, int) or isinstance(number, bool):
        raise _Broken("holds a value of another kind than it must")
    hashes = [content["snapshot"], *([content["outputs"]] if "outputs" in content else [])]
    if not _EDITION.fullmatch(content["edition"]) or not all(map(_HASH.fullmatch, hashes)):
        raise _Broken("names no edition")
    if not _is_date(content["date"]):
        raise _Broken("names no date")
    return Revision(
        unit=content["unit"],
        number=number,
        date=content["date"],
        by=content["by"],
        edition=content["edition"],
        snapshot=content["snapshot"],
        changes=tuple(changes),
        outputs=content.get("outputs", ""),
        program=content.get("program", ""),
    )


_OTHERS = ("revision", "changes")
"""Fields that are no text."""


def _is_date(text: str) -> bool:
    try:
        return date.fromisoformat(text).isoformat() == text
    except ValueError:
        return False


def _check_order(revision: Revision, above: list[Revision], numbers: dict[str, int]) -> None:
    wanted = numbers.get(revision.unit, 0) + 1
    if revision.number != wanted:
        raise _Broken(f"is revision {revision.number} of {revision.unit} and not {wanted}")
    if above and revision.date < above[0].date:
        raise _Broken(f"is dated {revision.date}, before the line above it")


def _report(path: str, raw: bytes, number: int, what: str, findings: Findings) -> None:
    file = SourceFile(path, raw.decode("utf-8", "replace"))
    findings.add(
        rules.RECORD_DAMAGED,
        Span(file, number, 1, number, 2),
        what=f"line {number} {what}",
        fix=f"get the file back from git: `git restore {path}`",
    )
