"""The record of printings: one line of JSON for the cards of a truck, each chained to those before.

Takes in the bytes of the file; gives out its printings, and new printings as lines to append.
Refuses a file in which any byte is another than when it was written: each line ends with the
SHA-256 of itself and names those of all lines that no other had named. So two clerks' lines may
both stand after a merge of their branches, in either order, and the next line ties both.
"""

import hashlib
import json
import re
from collections.abc import Iterable, Mapping
from datetime import date
from typing import Any

from guidegen.finding import Findings
from guidegen.guide.fingerprint import LENGTH
from guidegen.printings import rules
from guidegen.printings.model import Act, PrintedCard, Printing, PrintRecord
from guidegen.source import SourceFile, Span

_TEXTS = ("act", "date", "unit", "yard", "revision", "edition", "deck", "by")
_FIELDS = (
    *("act", "date", "unit", "yard", "revision", "edition", "deck"),
    *("cards", "copies", "by", "before", "seal"),
)
_SEAL = re.compile(rb',"seal":"([0-9a-f]{64})"\}')
_SEAL_BYTES = len(b',"seal":""}') + 64
_HASH = re.compile(r"[0-9a-f]{64}")
_EDITION = re.compile(rf"[0-9a-f]{{{LENGTH}}}")
_MARKS = (b"<<<<<<<", b"=======", b">>>>>>>", b"|||||||")
"""What git writes between lines that it could not merge."""

_PARTS = 3
"""Of a card in a line: its id, size and hash."""


class _Broken(ValueError):
    """A line is not as it was written."""


def line_hash(line: bytes) -> str:
    """Return what other lines call *line*, which ends with its line break."""
    return hashlib.sha256(line).hexdigest()


def lines_of(printings: Iterable[Printing], tips: Iterable[str]) -> tuple[bytes, ...]:
    """Return *printings* as lines to append, each with its line break.

    Args:
        printings: In the order in which they are recorded.
        tips: Of the record so far.
    """
    lines: list[bytes] = []
    before = sorted(tips)
    for printing in printings:
        lines.append(_line(printing, before))
        before = [line_hash(lines[-1])]
    return tuple(lines)


def read_printings(path: str, raw: bytes, findings: Findings) -> PrintRecord | None:
    """Return the record in *raw*, or nothing and a finding at the first line that is damaged.

    A line that stands there twice, as a merge by hand can leave it, counts once.

    Args:
        path: Of the file, as findings show it.
        raw: All of its bytes.
        findings: Takes the fault.
    """
    known: dict[str, Printing] = {}
    named: set[str] = set()
    for number, line in enumerate(raw.splitlines(keepends=True), start=1):
        key = line_hash(line)
        if key in known:
            continue
        try:
            known[key], before = _read_line(line, known)
        except _Broken as broken:
            _report(path, raw, (number, line), str(broken), findings)
            return None
        named.update(before)
    return PrintRecord(tuple(known.values()), tuple(sorted(set(known) - named)))


def _line(printing: Printing, before: list[str]) -> bytes:
    content = {
        "act": printing.act.value,
        "date": printing.date,
        "unit": printing.unit,
        "yard": printing.yard,
        "revision": printing.revision,
        "edition": printing.edition,
        "deck": printing.deck,
        "cards": [[card.id, card.size, card.said] for card in printing.cards],
        "copies": printing.copies,
        "by": printing.by,
        "before": before,
    }
    body = json.dumps(content, ensure_ascii=False, separators=(",", ":")).encode()[:-1]
    return body + b',"seal":"%s"}\n' % hashlib.sha256(body).hexdigest().encode()


def _read_line(line: bytes, known: Mapping[str, Printing]) -> tuple[Printing, list[str]]:
    if line.startswith(_MARKS):
        raise _Broken("is left over from a merge")
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
    printing, before = _printing_from(content)
    if _line(printing, before) != line:
        raise _Broken("is not in the form in which it was written")
    if not set(before) <= set(known):
        raise _Broken("follows a line that is gone")
    if any(known[each].date > printing.date for each in before):
        raise _Broken(f"is dated {printing.date}, before a line that it follows")
    return printing, before


def _printing_from(content: Any) -> tuple[Printing, list[str]]:  # noqa: ANN401 -- whatever JSON holds
    if not isinstance(content, dict) or tuple(content) != _FIELDS:
        raise _Broken(f"does not hold {', '.join(_FIELDS)}, in this order")
    cards, copies, before = content["cards"], content["copies"], content["before"]
    is_kind = (
        all(isinstance(content[name], str) for name in _TEXTS)
        and isinstance(cards, list)
        and all(_is_texts(each) and len(each) == _PARTS for each in cards)
        and _is_texts(before)
        and isinstance(copies, int)
        and not isinstance(copies, bool)
    )
    if not is_kind:
        raise _Broken("holds a value of another kind than it must")
    if content["act"] not in {act.value for act in Act}:
        raise _Broken(f"names an act that there is not, {content['act']}")
    is_printed = content["act"] == Act.PRINTED.value
    hashes = [*before, *([content["deck"], *(card[2] for card in cards)] if is_printed else ())]
    is_named = all(map(_HASH.fullmatch, hashes))
    if not is_named or (is_printed and not _EDITION.fullmatch(content["edition"])):
        raise _Broken("names no cards")
    if not _is_date(content["date"]):
        raise _Broken("names no date")
    printing = Printing(
        act=Act(content["act"]),
        date=content["date"],
        unit=content["unit"],
        cards=tuple(PrintedCard(*card) for card in cards),
        yard=content["yard"],
        revision=content["revision"],
        edition=content["edition"],
        deck=content["deck"],
        copies=copies,
        by=content["by"],
    )
    return printing, before


def _is_texts(value: object) -> bool:
    return isinstance(value, list) and all(isinstance(each, str) for each in value)


def _is_date(text: str) -> bool:
    try:
        return date.fromisoformat(text).isoformat() == text
    except ValueError:
        return False


def _report(path: str, raw: bytes, place: tuple[int, bytes], what: str, findings: Findings) -> None:
    number, line = place
    fix = f"get the file back from git: `git restore {path}`"
    if line.startswith(_MARKS):
        fix = "keep the lines of both sides, and take out the lines with git's marks"
    file = SourceFile(path, raw.decode("utf-8", "replace"))
    span = Span(file, number, 1, number, 2)
    findings.add(rules.PRINTINGS_DAMAGED, span, what=f"line {number} {what}", fix=fix)
