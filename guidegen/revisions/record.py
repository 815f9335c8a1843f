"""The record of revisions: one line of JSON a revision, each chained to the one before.

Takes in the bytes of the file; gives out its revisions, and new revisions as lines to append.
Refuses a file in which any byte is another than when it was written: each line ends with the
SHA-256 of itself and names that of the line before.
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any

from guidegen import chained_lines
from guidegen.chained_lines import Broken, Chain
from guidegen.finding import Findings
from guidegen.guide.fingerprint import LENGTH
from guidegen.revisions import rules
from guidegen.revisions.model import Record, Revision

RELEASES = Chain(rules.RECORD_DAMAGED, rules.RELEASE_BEFORE_THE_LAST, "a release")

NOTHING_BEFORE = "0" * 64
"""What the first line names as the SHA-256 of the line before."""

_FIELDS = ("unit", "revision", "date", "by", "edition", "snapshot")
_OF_OUTPUTS = ("outputs", "program")
"""Not in the lines of a record that was begun before published files were listed."""

_LAST_FIELDS = ("changes", "before")
_FORMS = ((*_FIELDS, *_LAST_FIELDS), (*_FIELDS, *_OF_OUTPUTS, *_LAST_FIELDS))
_OTHERS = ("revision", "changes")
"""Fields that are no text."""

_EDITION = re.compile(rf"[0-9a-f]{{{LENGTH}}}")


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
    read = _Reading()
    if not RELEASES.reads(path, raw, read.add, findings):
        return None
    return Record(tuple(read.revisions), read.last_line)


@dataclass(slots=True)
class _Reading:
    """What the lines down to one have said."""

    revisions: list[Revision] = field(default_factory=list)
    last_line: bytes = b""
    numbers: dict[str, int] = field(default_factory=dict)
    """Of the last revision of each truck."""

    def add(self, line: bytes) -> None:
        """Take in the line after the last one."""
        revision = _revision_from(chained_lines.opened(line, *_FORMS))
        if _line(revision, self.last_line) != line:
            raise Broken("does not follow the line before it")
        wanted = self.numbers.get(revision.unit, 0) + 1
        if revision.number != wanted:
            raise Broken(f"is revision {revision.number} of {revision.unit} and not {wanted}")
        chained_lines.check_dates(revision.date, (each.date for each in self.revisions[-1:]))
        self.revisions.append(revision)
        self.last_line = line
        self.numbers[revision.unit] = revision.number


def _line(revision: Revision, before: bytes) -> bytes:
    made = {"outputs": revision.outputs, "program": revision.program}
    return chained_lines.sealed(
        {
            "unit": revision.unit,
            "revision": revision.number,
            "date": revision.date,
            "by": revision.by,
            "edition": revision.edition,
            "snapshot": revision.snapshot,
            **(made if revision.outputs else {}),
            "changes": list(revision.changes),
            "before": chained_lines.line_hash(before) if before else NOTHING_BEFORE,
        }
    )


def _revision_from(content: dict[str, Any]) -> Revision:
    texts = [value for name, value in content.items() if name not in _OTHERS]
    if (
        not chained_lines.is_texts(texts)
        or not chained_lines.is_texts(content["changes"])
        or not chained_lines.is_number(content["revision"])
    ):
        raise Broken("holds a value of another kind than it must")
    hashes = [content["snapshot"], *([content["outputs"]] if "outputs" in content else [])]
    if not _EDITION.fullmatch(content["edition"]) or not chained_lines.are_hashes(hashes):
        raise Broken("names no edition")
    return Revision(
        unit=content["unit"],
        number=content["revision"],
        date=content["date"],
        by=content["by"],
        edition=content["edition"],
        snapshot=content["snapshot"],
        changes=tuple(content["changes"]),
        outputs=content.get("outputs", ""),
        program=content.get("program", ""),
    )
